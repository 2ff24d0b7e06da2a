"""The points of a plant that its pages explore: computed anew, kept, and how far what lies between is off."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from macros.figures.plant import Plant
from macros.figures.what_if import Grid, asked_of, bound_of, keep
from macros.quantities import say, show

__all__ = ["what_if_text"]


def what_if_text(plant: Plant) -> tuple[str, bool]:
    """What was computed, as text, and whether every figure that moves holds the bound."""
    grid = asked_of(plant)
    keep(plant, grid)
    return "\n".join(_lines(plant, grid)), grid.values.keys() == grid.missed.keys()


def _lines(plant: Plant, grid: Grid) -> Iterator[str]:
    for axis in grid.axes:
        first, last = (_said(plant, axis.path, axis.points[end]) for end in (0, -1))
        yield say("command.what_if_axis", name=axis.path, first=first, last=last, points=len(axis.points), steps=len(axis.steps))  # fmt: skip
    width = max((len(name) for name in grid.missed), default=0)
    for name, missed in grid.missed.items():
        value = plant.graph[name]
        unit = "K" if value.kind == "temperature" else "%"
        bound = show(bound_of(value), unit, 2)
        off = show(missed, unit, 2) if isfinite(missed) else say("command.what_if_no_answer")
        key = "command.what_if_off" if name in grid.values else "command.what_if_left_out"
        yield say(key, name=f"{name:<{width}}", off=off, bound=bound)


def _said(plant: Plant, path: str, si: float) -> str:
    return plant.graph.with_inputs({path: si})[path].show(digits=3)
