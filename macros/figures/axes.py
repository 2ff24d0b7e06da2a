"""What a reader may move of a plant, how far, and at which points its figures are then asked for."""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from macros.figures.graph import FigureError, Graph
from macros.figures.plant import Plant
from macros.quantities import unit

__all__ = ["MOVED", "Axis", "axes_of", "closed_figures"]

MOVED = (
    "stack.hydrogen_normal_flow", "stack.supply_power", "stack.specific_energy", "stack.hydrogen_in_oxygen",
    "water.consumption", "drying.frost_point", "drying.desiccant_interval", "buffer.fill_time", "buffer.cycle_mass",
    "plant.daily_mass", "plant.energy_per_kg_running", "plant.stored_inventory", "plant.stored_energy",
)  # fmt: skip
"""What moves, where the plant has it and an axis moves it; beside it what each bank holds."""

MOST_AXES = 3
FEWEST = 3
STEPS = 40
"""Steps of an axis, about: a round one in the unit of the entry is near this share of it."""

ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True)
class Reach:
    """
    How far an entry is moved, as shares of its own value, and by how many points of the grid.

    `above` and `below` are the paths of what it must stay clear of: a switch that starts below where it stops, or above
    its own trip, is no plant to look at.
    """

    low: float
    high: float
    points: int
    above: str = ""
    below: str = ""

    def of(self, member: str) -> Reach:
        """The same for a member of a part: its name in place of the `*`."""
        return replace(self, above=self.above.replace("*", member), below=self.below.replace("*", member))


CHOICE = (
    ("stack.current", Reach(0.3, 1.2, 7)),
    ("stack.cells", Reach(0.5, 1.5, 4)),
    ("buffer.cut_out", Reach(0.7, 1.2, 4, above="buffer.cut_in", below="buffer.high_trip")),
    ("buffer.volume", Reach(0.5, 3.0, 6)),
    ("banks.*.fill_pressure", Reach(0.5, 1.2, 5, below="banks.*.working_pressure")),
)
"""What a reader may move: the first three that the plant has."""


@dataclass(frozen=True)
class Axis:
    """
    An entry that is moved.

    Attributes
    ----------
    path : str
    points : tuple of float
        Where the graph is asked, rising; in SI units, pressures absolute. The entry's own value is one of them.
    steps : tuple of float
        Where a reader may put it, from the first point to the last; whole numbers stay whole.
    own : int
        The step that is the entry's own value.
    """

    path: str
    points: tuple[float, ...]
    steps: tuple[float, ...]
    own: int

    def weights(self, at: float) -> dict[int, float]:
        """How much each of the nearest points counts at a place between the first and the last."""
        if not self.points[0] <= at <= self.points[-1]:
            return {}
        places = [math.log(point) for point in self.points]
        x, count = math.log(at), min(4, len(places))
        first = min(max(bisect.bisect_right(self.points, at) - 2, 0), len(places) - count)
        held = range(first, first + count)
        return {
            one: math.prod((x - places[other]) / (places[one] - places[other]) for other in held if other != one)
            for one in held
        }


def axes_of(plant: Plant) -> tuple[Axis, ...]:
    """What a reader may move of a plant."""
    return tuple(itertools.islice(_axes(plant), MOST_AXES))


def _axes(plant: Plant) -> Iterator[Axis]:
    for wanted, reach in CHOICE:
        for member in plant.description.plant.banks if "*" in wanted else ("",):
            path = wanted.replace("*", member)
            axis = _axis(plant.graph, path, reach.of(member)) if path in plant.graph else None
            if axis is not None:
                yield axis


def _axis(graph: Graph, path: str, reach: Reach) -> Axis | None:
    """The axis of an entry; none where there is no way to go."""
    value = graph[path]
    own = unit(value.unit, value.kind)
    base = (value.atmosphere_pa or 0.0) if own.kind == "gauge_pressure" else 0.0
    here = own.from_si(value.si - base)
    whole = value.kind == "count"
    if here <= 0.0:
        return None
    step = 1.0 if whole else _round_step(here / STEPS)
    # The entry's own value is a step, whatever it is, and the others lie round it.
    down, up = int(here * (1 - reach.low) / step), int(here * (reach.high - 1) / step)
    while whole and here - down * step < 1:
        down -= 1
    sides = [here + number * step for number in range(-down, up + 1)]
    steps = [base + own.to_si(one) for one in sides]
    steps[down] = value.si
    low, high = (graph[end].si if end in graph else None for end in (reach.above, reach.below))
    clear = [one for one in steps if one == value.si or ((low is None or one > low) and (high is None or one < high))]
    steps = _answered(graph, path, clear, clear.index(value.si))
    if len(steps) < FEWEST:
        return None
    return Axis(path, _points(steps, value.si, reach.points, whole), tuple(steps), steps.index(value.si))


def _answered(graph: Graph, path: str, steps: list[float], own: int) -> list[float]:
    """The steps round the own one up to the last, on either side, at which the graph has an answer for all that moves."""
    names = [name for name in closed_figures(graph) if path in graph.ancestors(name)]

    def fits(step: float) -> bool:
        try:
            moved = graph.with_inputs({path: step})
            return all(math.isfinite(moved[name].si) for name in names)
        except FigureError:
            return False

    high = own + bisect.bisect_left(steps[own + 1 :], True, key=lambda step: not fits(step))
    low = own - bisect.bisect_left(steps[:own][::-1], True, key=lambda step: not fits(step))
    return steps[low : high + 1]


def _round_step(about: float) -> float:
    power = 10.0 ** math.floor(math.log10(about))
    return min((one * power for one in ROUND), key=lambda one: abs(math.log(one / about)))


def _points(steps: Sequence[float], own: float, count: int, whole: bool) -> tuple[float, ...]:
    """Points from the first step to the last, evenly spread over the logarithm; the nearest is moved to the own value."""
    first, last = steps[0], steps[-1]
    if len(steps) <= count:
        return tuple(steps)
    spread = [first * (last / first) ** (number / (count - 1)) for number in range(count)]
    spread[0], spread[-1] = first, last
    if whole:
        spread = [float(round(one)) for one in spread]
    nearest = min(range(1, count - 1), key=lambda number: abs(math.log(spread[number] / own)))
    if own not in (first, last):
        spread[nearest] = own
    return tuple(sorted(set(spread)))


def closed_figures(graph: Graph) -> Iterator[str]:
    """Figures that may move and are closed formulas: nothing on their way runs step by step."""
    banks = [name for name in graph.figures if name.startswith("banks.") and name.endswith(".mass")]
    for name in (*MOVED, *banks):
        if (
            name in graph.figures
            and graph[name].is_number
            and not any(_runs(graph, one) for one in {name, *graph.ancestors(name)})
        ):
            yield name


def _runs(graph: Graph, path: str) -> bool:
    one = graph.figures.get(path)
    return one is not None and (one.late or one.kind in ("run", "table"))
