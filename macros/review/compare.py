"""What a change to a plant altered: inputs, figures with what moved them, rules that flipped, procedures, drawings."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from macros.review.sides import Side, Told

__all__ = ["Changed", "Comparison", "Flipped", "compare"]

NOISE = 1e-12
"""Relative difference below which two floats are one number: what is left of sums in another order."""

WORSE = {"passed": 0, "waived": 1, "open": 2, "warned": 3, "failed": 4}
"""How a rule may stand at a place, the better first; where it was not looked at it stands nowhere."""


@dataclass(frozen=True)
class Changed:
    """An input or figure that is not what it was; none where one side has not got it."""

    name: str
    title: str
    old: Told | None
    new: Told | None
    causes: tuple[str, ...] = ()
    """Of a figure: the changed inputs that it depends on."""

    @property
    def texts(self) -> tuple[str, str]:
        """Old and new as shown, with more digits where they would look alike."""
        old, new = (told.text if told else "" for told in (self.old, self.new))
        if old == new and self.old and self.new:
            return self.old.finer or old, self.new.finer or new
        return old, new

    @property
    def share(self) -> float | None:
        """The change over the old value, where that says something: not of what is shown from a zero of its own."""
        if self.old is None or self.new is None or self.old.kind in ("temperature", "pressure"):
            return None
        old, new = self.old.content, self.new.content
        if not isinstance(old, float) or not isinstance(new, float) or not old:
            return None
        return (new - old) / abs(old)


@dataclass(frozen=True)
class Flipped:
    """A rule that stands otherwise at a place than it did; none where it is not looked at."""

    rule: str
    where: str
    old: str | None
    new: str | None

    @property
    def is_worse(self) -> bool:
        return WORSE.get(self.new or "passed", 0) > WORSE.get(self.old or "passed", 0)


@dataclass(frozen=True)
class Comparison:
    """All that differs between two sides; `None` where one side does not tell."""

    old: Side
    new: Side
    inputs: tuple[Changed, ...]
    figures: tuple[Changed, ...]
    equal: tuple[str, ...]
    """Figures that depend on a changed input and are what they were."""
    flipped: tuple[Flipped, ...] | None
    procedures: Mapping[str, tuple[str, ...]] | None
    """What changed in each procedure: `added`, `removed`, or what differs, as `steps.3`."""
    drawing: tuple[str, ...] | None
    """Items and lines that were added, removed or changed."""

    @property
    def is_empty(self) -> bool:
        return not (self.inputs or self.figures or self.flipped or self.procedures or self.drawing)

    @property
    def worse(self) -> tuple[Flipped, ...]:
        """Rules that hold less than they did."""
        return tuple(each for each in self.flipped or () if each.is_worse)


def compare(old: Side, new: Side) -> Comparison:
    """What differs from an old side to a new one."""
    inputs = tuple(_changed(old.entries, new.entries))
    moved = {each.name for each in inputs}
    ways = {name: _ancestors(name, old, new) & moved for name in {*old.figures, *new.figures}}
    figures = tuple(
        Changed(each.name, each.title, each.old, each.new, tuple(sorted(ways[each.name])))
        for each in _changed(old.figures, new.figures)
    )
    differ = {each.name for each in figures}
    return Comparison(
        old,
        new,
        inputs,
        figures,
        tuple(
            name for name, told in new.figures.items() if ways[name] and name not in differ and told.content is not None
        ),
        tuple(_flipped(old.findings, new.findings)) if old.findings is not None and new.findings is not None else None,
        _procedures(old.procedures, new.procedures)
        if old.procedures is not None and new.procedures is not None
        else None,
        tuple(_differing(old.network, new.network)) if old.network is not None and new.network is not None else None,
    )


def _changed(old: Mapping[str, Told], new: Mapping[str, Told]) -> Iterator[Changed]:
    for name in dict.fromkeys((*old, *new)):
        before, after = old.get(name), new.get(name)
        if before is None or after is None or not _same(before, after):
            yield Changed(name, (after or before or Told("", None, "")).title, before, after)


def _same(old: Told, new: Told) -> bool:
    return old.kind == new.kind and old.assumed == new.assumed and _equal(old.content, new.content)


def _equal(old: Any, new: Any) -> bool:
    """Equal but for noise, through lists and tables; a run is told by the figures that read it."""
    if isinstance(old, float) and isinstance(new, float):
        return old == new or math.isclose(old, new, rel_tol=NOISE)
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        return old.keys() == new.keys() and all(_equal(old[key], new[key]) for key in old)
    if isinstance(old, list | tuple) and isinstance(new, list | tuple):
        return len(old) == len(new) and all(map(_equal, old, new))
    return bool(old == new)


def _ancestors(name: str, *sides: Side) -> set[str]:
    """Everything that a figure depends on, on either side."""
    found: set[str] = set()
    for side in sides:
        told = side.figures | side.entries  # type: ignore[operator]
        waiting = [name]
        seen: set[str] = set()
        while waiting:
            here = told.get(waiting.pop())
            for path in here.inputs if here else ():
                if path not in seen:
                    seen.add(path)
                    waiting.append(path)
        found |= seen
    return found


def _flipped(old: Mapping[tuple[str, str], str], new: Mapping[tuple[str, str], str]) -> Iterator[Flipped]:
    for rule, where in dict.fromkeys((*old, *new)):
        before, after = old.get((rule, where)), new.get((rule, where))
        if before != after:
            yield Flipped(rule, where, before, after)


def _procedures(old: Mapping[str, Any], new: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for name in _differing(old, new):
        if name not in new or name not in old:
            found[name] = ("removed",) if name not in new else ("added",)
        else:
            found[name] = tuple(_parts(old[name], new[name]))
    return found


def _parts(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[str]:
    """What differs in a procedure, its steps one by one as they are numbered now."""
    for key in new:
        if key == "steps":
            before, after = old[key], new[key]
            for number in range(max(len(before), len(after))):
                if number >= len(before) or number >= len(after) or before[number] != after[number]:
                    yield f"steps.{number + 1}"
        elif old[key] != new[key]:
            yield key


def _differing(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[str]:
    for name in dict.fromkeys((*old, *new)):
        if old.get(name) != new.get(name):
            yield name
