"""The reference page of the format, as Markdown, made from the same parts that read a description."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args, get_origin

from macros.description.fields import Part
from macros.description.hourly import HEADINGS, HOURS, LARGEST_BYTES, MOST_KW
from macros.description.item_kinds import COMMON, ITEM_KINDS
from macros.description.judging import PATTERNS, wanted_of
from macros.description.loading import FILES
from macros.description.shape import Slot, bare, choices, parts_in
from macros.quantities import say

__all__ = ["reference_page"]

NOTHING = "–"


def reference_page() -> str:
    """
    The page: for each file its parts, for each part its keys.

    Returns
    -------
    str
        Markdown with tables and headings whose ids are the names of files and parts.
    """
    lines = [f"# {say('description.page.title')}", "", say("description.page.opening"), ""]
    for name, root in FILES.items():
        lines += [f"## {name} {{: #{name.removesuffix('.yml')} }}", ""]
        for part in parts_in(root):
            lines += _part(part, is_root=part is root)
    return "\n".join([*lines, *_hours(), *_kinds()]) + "\n"


def _part(part: type[Part], *, is_root: bool) -> Iterator[str]:
    if not is_root:
        yield f"### {_title(part)} {{: #{part.__name__.lower()} }}"
        yield ""
    yield say(f"part.{part.__name__}")
    yield ""
    yield _row(*(say(f"description.page.{head}") for head in ("key", "what", "takes", "bounds", "usual", "default")))
    yield _row(*["---"] * 6)
    for name, known in part.model_fields.items():
        yield _row(*_key(part, name, Slot(part, name, bare(known.annotation))))
    yield ""


def _key(part: type[Part], name: str, slot: Slot) -> Iterator[str]:
    known, demand = part.model_fields[name], slot.measure
    yield f"`{name}`"
    yield slot.title
    yield _takes(slot)
    bounds = (demand.low, demand.high) if demand is not None else (None, None)
    yield _range(*bounds)
    yield _range(*demand.usual) if demand is not None and demand.usual is not None else NOTHING
    if demand is not None and demand.default is not None:
        yield say("description.page.assumed", value=demand.default.value, source=demand.default.source)
    elif known.is_required():
        yield say("description.page.required")
    elif known.default in (None, [], {}):
        yield say("description.page.optional")
    else:
        yield f"`{str(known.default).lower() if isinstance(known.default, bool) else known.default}`"


def _range(low: Any, high: Any) -> str:
    if low is None and high is None:
        return NOTHING
    return say("description.schema.bounds", low=low.text if low else "…", high=high.text if high else "…")


def _takes(slot: Slot) -> str:
    annotation = slot.annotation
    if slot.measure is None:
        if slot.holds is not None:
            return f"[{_title(slot.holds)}](#{slot.holds.__name__.lower()})"
        if get_origin(annotation) in (list, dict):
            inner = _takes(Slot(slot.part, slot.name, bare(get_args(annotation)[-1])))
            key = "description.page.list" if get_origin(annotation) is list else "description.page.mapping"
            return say(key, each=inner)
        if known := choices(annotation):
            return ", ".join(f"`{each}`" for each in known)
        if annotation is str:
            return say(f"description.page.text.{_shape(slot)}")
    # Markdown would take braces at the end of a cell for attributes of the cell, and show nothing of them.
    return wanted_of(slot).replace("{", "\\{")


def _shape(slot: Slot) -> str:
    """What a text must look like, by the name of its message."""
    patterns = (getattr(each, "pattern", None) for each in slot.known.metadata) if slot.known is not None else ()
    return next((PATTERNS[each] for each in patterns if each in PATTERNS), "free")


def _hours() -> Iterator[str]:
    """The table of the hours of a year, column by column."""
    yield f"## {say('description.page.hours')} {{: #hours }}"
    yield ""
    yield say("description.page.hours_opening", hours=HOURS, most=f"{MOST_KW:.0f}", size=LARGEST_BYTES // 1024)
    yield ""
    for heading, column in zip(HEADINGS, ("hour", "surplus", "demand"), strict=True):
        yield f"- `{heading}`: {say(f'description.page.hours_{column}')}"
    yield ""


def _kinds() -> Iterator[str]:
    """The table of the kinds of item."""
    yield f"## {say('description.page.kinds')} {{: #kinds }}"
    yield ""
    yield say("description.page.kinds_opening")
    yield ""
    yield say("description.page.common", keys=_codes(each for each in COMMON))
    yield ""
    yield _row(*(say(f"description.page.{head}") for head in ("kind", "ports", "needs", "may", "positions")))
    yield _row(*["---"] * 5)
    for name, kind in ITEM_KINDS.items():
        yield _row(f"`{name}`", _codes(kind.ports), _codes(kind.needs), _codes(kind.may), _codes(kind.positions))
    yield ""


def _codes(words: Any) -> str:
    return ", ".join(f"`{word}`" for word in words) or NOTHING


def _title(part: type[Part]) -> str:
    """What a part is called."""
    return say(f"part_title.{part.__name__}")


def _row(*cells: str) -> str:
    """A row of a table; a bar in a cell would part it."""
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"
