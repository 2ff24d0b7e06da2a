"""What sizing found, for a terminal and as data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.figures.explain import explain
from macros.figures.graph import Value
from macros.figures.sizing import Move, Sizing
from macros.quantities import say

__all__ = ["sizing_data", "sizing_text"]


def sizing_text(sizing: Sizing) -> str:
    """Wishes, entries, what passes its rating, what cannot be evaluated any more, workings, and all that changes."""
    return "\n".join(_lines(sizing))


def _lines(sizing: Sizing) -> Iterator[str]:
    for wish in sizing.wishes:
        before, after = sizing.before[wish.figure], sizing.after[wish.figure]
        yield say("command.size_wish", name=wish.figure, before=before.show(), after=after.show(), wish=wish.text)
    for move in sizing.moves:
        yield _moved(move)
    if not sizing.moves:
        yield say("command.size_no_move")
        return
    if sizing.passed:
        yield ""
        yield say("command.size_passed")
    for one, already in sizing.passed:
        yield say(
            "command.size_passed_before" if already else "command.size_passed_now",
            name=one.value.name, value=one.value.show(), limit=one.allowed.show(), allowed=one.allowed.name,
        )  # fmt: skip
    if sizing.failed:
        yield ""
        yield say("command.size_failed")
        for reason in dict.fromkeys(sizing.failed.values()):
            names = ", ".join(name for name, why in sizing.failed.items() if why == reason)
            yield say("command.size_failed_figures", names=names, reason=reason)
    for wish in sizing.wishes:
        yield ""
        yield explain(sizing.after, wish.figure)
    yield ""
    yield say("command.size_changed")
    rows = [(name, sizing.before[name], sizing.after[name]) for name in sizing.changed]
    texts = [(name, _said(before), _said(after), after.title) for name, before, after in rows]
    widths = [max((len(row[column]) for row in texts), default=0) for column in range(3)]
    for name, old, new, title in texts:
        yield f"  {name:<{widths[0]}}  {old:>{widths[1]}}  {new:>{widths[2]}}  {title}"
    yield ""
    yield say("command.size_caution")


def _moved(move: Move) -> str:
    texts = {"name": move.path, "before": move.before.show(), "after": move.after.show()}
    if move.unusual is None:
        return say("command.size_move", **texts)
    return say("command.size_unusual", **texts, low=move.unusual[0], high=move.unusual[1])


def _said(value: Value) -> str:
    return value.show() if value.is_number or value.kind == "category" else f"({value.kind})"


def sizing_data(sizing: Sizing) -> dict[str, Any]:
    """The same as data, numbers in SI units (pressures absolute) beside the text as shown."""
    return {
        "wishes": [
            {"wish": wish.text, "figure": wish.figure, "relation": wish.relation} | _pair(sizing, wish.figure)
            for wish in sizing.wishes
        ],
        "entries": [
            {"entry": move.path, "found_si": move.found_si, "usual": list(move.unusual) if move.unusual else None}
            | _pair(sizing, move.path)
            for move in sizing.moves
        ],
        "passed": [
            {
                "name": one.value.name, "value": one.value.show(), "allowed": one.allowed.name,
                "limit": one.allowed.show(), "before": already,
            }
            for one, already in sizing.passed
        ],
        "failed": sizing.failed,
        "changed": [{"figure": name} | _pair(sizing, name) for name in sizing.changed],
    }  # fmt: skip


def _pair(sizing: Sizing, name: str) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in (("before", sizing.before[name]), ("after", sizing.after[name])):
        found[key] = {"si": value.si if value.is_number else None, "shown": _said(value)}
    return found
