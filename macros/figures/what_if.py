"""
A plant at other points than its own: figures on a grid over up to three entries, and how they lie between its points.

The grid comes from the graph itself, by `with_inputs`. Between its points a figure follows a cubic through the four
nearest on each axis; a page does the same by a small script. What misses the graph by more than `BOUND` at points off
the grid is left out, and where the graph has no answer there is none.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from macros.figures.axes import Axis, axes_of, closed_figures
from macros.figures.graph import PRESSURES, FigureError, Graph, Value
from macros.figures.plant import Plant
from macros.quantities import store, unit

__all__ = ["BOUND", "BOUND_K", "Grid", "asked_of", "bound_of", "grid_of", "keep", "missed_by"]

BOUND = 0.005
"""How far a figure between points may be off, as a share of it."""

BOUND_K = 0.2
"""The same for a temperature, in kelvin: a share of it would mean nothing."""

CHECKS = 12


@dataclass(frozen=True)
class Grid:
    """
    Figures over axes.

    Attributes
    ----------
    axes : tuple of Axis
    moved_by : mapping
        For each figure the numbers of the axes that move it.
    values : mapping
        For each figure its values in SI units at all points of these axes, the last axis fastest; none where the
        graph has no answer.
    missed : mapping
        How far each was off at the points looked at, those too that are left out for it: a share, of a temperature
        kelvin.
    """

    axes: tuple[Axis, ...]
    moved_by: Mapping[str, tuple[int, ...]]
    values: Mapping[str, tuple[float | None, ...]]
    missed: Mapping[str, float]

    def at(self, name: str, places: Sequence[float]) -> float | None:
        """A figure in SI units at a place on every axis; none outside the grid and beside a point without answer."""
        axes = [self.axes[number] for number in self.moved_by[name]]
        weights = [axis.weights(places[number]) for axis, number in zip(axes, self.moved_by[name], strict=True)]
        total = 0.0
        for chosen in itertools.product(*(held.items() for held in weights)):
            place = 0
            for axis, (number, _) in zip(axes, chosen, strict=True):
                place = place * len(axis.points) + number
            value = self.values[name][place]
            if value is None:
                return None
            total += value * math.prod(weight for _, weight in chosen)
        return total if all(weights) else None

    def data(self) -> dict[str, Any]:
        """As lists and dictionaries, ready for JSON."""
        return asdict(self)

    @classmethod
    def read(cls, data: Mapping[str, Any]) -> Grid:
        """The grid of `data`."""
        axes = tuple(
            Axis(str(one["path"]), _floats(one["points"]), _floats(one["steps"]), int(one["own"]))
            for one in data["axes"]
        )
        moved_by = {str(name): tuple(int(one) for one in held) for name, held in data["moved_by"].items()}
        values = {
            str(name): tuple(None if one is None else float(one) for one in held)
            for name, held in data["values"].items()
        }
        return cls(axes, moved_by, values, {str(name): float(one) for name, one in data["missed"].items()})


def _floats(given: Sequence[Any]) -> tuple[float, ...]:
    return tuple(float(one) for one in given)


def grid_of(plant: Plant, *, only_kept: bool = False) -> Grid | None:
    """
    The grid of a plant, from the disk where it is kept, else asked of its graph and kept.

    Parameters
    ----------
    plant : Plant
    only_kept : bool
        Whether nothing is computed, which takes some seconds; the answer is none where nothing is kept.
    """
    known = store.read(_key(plant))
    if known is not None:
        return Grid.read(known)
    if only_kept:
        return None
    grid = asked_of(plant)
    keep(plant, grid)
    return grid


def keep(plant: Plant, grid: Grid) -> None:
    """Keep a grid of a plant on the disk."""
    store.write(_key(plant), grid.data())


def _key(plant: Plant) -> str:
    return store.key_of("what-if", *plant.description.sources())


def asked_of(plant: Plant) -> Grid:
    """The grid of a plant, asked of its graph; figures that are off by more than the bound are left out."""
    graph, axes = plant.graph, axes_of(plant)
    moved_by = {
        name: tuple(number for number, axis in enumerate(axes) if axis.path in graph.ancestors(name))
        for name in closed_figures(graph)
    }
    moved_by = {name: held for name, held in moved_by.items() if held}
    values: dict[str, list[float | None]] = {name: [] for name in moved_by}
    for corner, moved in _over(graph, axes):
        for name, held in moved_by.items():
            if all(number in held or not corner[number] for number in range(len(axes))):
                values[name].append(_answer(moved, name))
    grid = Grid(axes, moved_by, {name: tuple(held) for name, held in values.items()}, {})
    missed = {name: max(missed_by(grid, graph, name, places) for places in _off(axes)) for name in moved_by}
    held_to = [name for name, off in missed.items() if off < bound_of(graph[name])]
    return Grid(
        axes, {name: moved_by[name] for name in held_to}, {name: grid.values[name] for name in held_to}, missed
    )  # fmt: skip


def bound_of(value: Value) -> float:
    """How far a figure may be off, as `missed_by` tells it."""
    return BOUND_K if value.kind == "temperature" else BOUND


def _over(graph: Graph, axes: Sequence[Axis], corner: tuple[int, ...] = ()) -> Iterator[tuple[tuple[int, ...], Graph]]:
    """The graph at every point of all axes, the last fastest; what an axis leaves alone is computed once."""
    if not axes:
        yield corner, graph
        return
    for number, point in enumerate(axes[0].points):
        yield from _over(graph.with_inputs({axes[0].path: point}), axes[1:], (*corner, number))


def _answer(graph: Graph, name: str) -> float | None:
    try:
        return float(f"{graph[name].si:.9g}")
    except FigureError:
        return None


def _off(axes: Sequence[Axis]) -> Iterator[tuple[float, ...]]:
    """Places off the grid, spread over the steps of all axes alike in every build."""
    for number in range(CHECKS):
        places = []
        for each, axis in enumerate(axes):
            share = (0.5 + (number + 1) * (0.7548776662466927, 0.5698402909980532, 0.3247179572447461)[each]) % 1.0
            places.append(axis.steps[round(share * (len(axis.steps) - 1))])
        yield tuple(places)


def missed_by(grid: Grid, graph: Graph, name: str, places: Sequence[float]) -> float:
    """
    How far a figure of the grid is off at a place.

    Returns
    -------
    float
        As a share of what the graph says, a pressure over what it is counted from; of a temperature the kelvin between
        them. Zero where the grid says nothing, endless where it speaks though the graph does not.
    """
    between = grid.at(name, places)
    if between is None:
        return 0.0
    try:
        value = graph.with_inputs({axis.path: at for axis, at in zip(grid.axes, places, strict=True)})[name]
    except FigureError:
        return math.inf
    if value.kind == "temperature":
        return abs(between - float(value.si))
    whole = abs(value.si - _zero(value))
    return abs(between - value.si) / whole if whole else (math.inf if between != value.si else 0.0)


def _zero(value: Value) -> float:
    return (value.atmosphere_pa or 0.0) if unit(value.unit, value.kind).kind in PRESSURES[:1] else 0.0
