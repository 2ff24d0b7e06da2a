"""Plots of the stack: the plant evaluated again at other currents."""

from __future__ import annotations

from collections.abc import Iterator
from weakref import WeakKeyDictionary

from macros.figures.graph import FigureError, Graph
from macros.figures.plant import Plant
from macros.pages.plot_picture import Field, Limit, Mark, Measure, Picture, curve, named, telling
from macros.quantities import Shown, say

__all__ = ["crossing", "polarisation"]

CURRENT = "stack.current"
BEYOND = 1.2
"""So far beyond the plant's own current, where the rectifier gives as much."""
LEAST = 0.05
STEPS = 18
ABOVE_TRIP = 1.5
"""Hydrogen in oxygen is followed up to this share of the trip; what lies above is far beyond any running."""
WORTH_SHOWING = 3.0
"""A cooler that takes more than so many times the heat is no limit that belongs into the plot."""


def polarisation(plant: Plant) -> Iterator[Picture]:
    """Cell voltage, yield and heat over the current."""
    graph = plant.graph
    voltage, heat = "stack.cell_voltage", "stack.heat"
    bounds = [_bound(graph, "thermoneutral", "stack.thermoneutral_voltage")]
    if "stack.cell_voltage_trip" in graph:
        bounds.append(_bound(graph, "trip", "stack.cell_voltage_trip"))
    cooler = "water.cooling_capacity"
    cooled = cooler in graph and graph[cooler].si < WORTH_SHOWING * graph[heat].si
    yields = {path: _over_current(plant, path) for path in ("stack.faraday_efficiency", "stack.efficiency_higher")}
    yield Picture(
        "polarisation",
        say("pages.plot.polarisation.title"),
        telling("polarisation.told", current=graph[CURRENT].shown(), voltage=graph[voltage].shown(),
            efficiency=graph["stack.faraday_efficiency"].shown(), heat=graph[heat].shown()),
        Measure.of(graph[CURRENT], say("pages.plot.current")),
        (
            Field(Measure.of(graph[voltage]), (curve(say("pages.plot.cell"), _over_current(plant, voltage)),),
                  tuple(bounds), (_own(graph, voltage),)),
            Field(
                Measure(say("pages.plot.yield"), "%", rounding="down"),
                tuple(curve(say(f"pages.plot.{path.partition('.')[2]}"), held) for path, held in yields.items()),
                marks=tuple(_own(graph, path) for path in yields),
            ),
            Field(Measure.of(graph[heat], say("pages.plot.heat_axis")), (curve(say("pages.plot.heat"), _over_current(plant, heat)),),
                  (_bound(graph, "cooler", cooler),) if cooled else (), (_own(graph, heat),), from_zero=True),
        ),
    )  # fmt: skip


def crossing(plant: Plant) -> Iterator[Picture]:
    """Hydrogen in the oxygen over the current, with alarm and trip and the currents at which they are met."""
    graph = plant.graph
    share = "stack.hydrogen_in_oxygen"
    curves = {"at_cut_out": share, "at_cut_in": f"{share}_cut_in"}
    if graph["stack.catalyst_efficiency"].si > 0:
        curves["catalyst_dead"] = f"{share}_catalyst_dead"
    most = ABOVE_TRIP * graph[f"{share}_trip"].si
    drawn = {name: [point for point in _over_current(plant, path) if point[1] <= most] for name, path in curves.items()}
    least = {limit: f"stack.minimum_current_{limit}" for limit in ("alarm", "trip")}
    yield Picture(
        "crossing",
        say("pages.plot.crossing.title"),
        telling("crossing.told", current=graph[CURRENT].shown(), share=graph[share].shown(),
            alarm=graph[least["alarm"]].shown(), trip=graph[least["trip"]].shown()),
        Measure.of(graph[CURRENT], say("pages.plot.current")),
        (
            Field(
                Measure.of(graph[share], say("pages.plot.share")),
                tuple(curve(say(f"pages.plot.{name}"), tuple(points)) for name, points in drawn.items() if len(points) > 1),
                (
                    *(_bound(graph, limit, f"{share}_{limit}") for limit in least),
                    *(Limit(graph[path].si, named(f"{limit}_at", graph[path].shown()), False) for limit, path in least.items()),
                ),
                (_own(graph, share),),
                from_zero=True,
            ),
        ),
    )  # fmt: skip


def _own(graph: Graph, path: str) -> Mark:
    """The plant's own point."""
    here, value = graph[CURRENT], graph[path]
    x, y = here.shown(), value.shown()
    joined = Shown(f"{x.workshop}: {y.workshop}", f"{x.si}: {y.si}", f"{x.us}: {y.us}")
    return Mark(here.si, value.si, named("here", joined))


def _bound(graph: Graph, key: str, path: str) -> Limit:
    return Limit(graph[path].si, named(key, graph[path].shown()))


def _over_current(plant: Plant, path: str) -> tuple[tuple[float, float], ...]:
    """A figure at every current at which it can be evaluated: measured points end, and below some current nothing leaves."""
    found = []
    for current, graph in _swept(plant).items():
        try:
            found.append((current, float(graph[path].si)))
        except FigureError:
            continue
    return tuple(found)


_SWEPT: WeakKeyDictionary[Plant, dict[float, Graph]] = WeakKeyDictionary()
"""The plant at other currents, for all plots of one plant."""


def _swept(plant: Plant) -> dict[float, Graph]:
    if plant not in _SWEPT:
        graph = plant.graph
        _SWEPT[plant] = {
            current: graph if current == graph[CURRENT].si else graph.with_inputs({CURRENT: current})
            for current in _currents(graph)
        }
    return _SWEPT[plant]


def _currents(graph: Graph) -> list[float]:
    """Even steps of the logarithm, since what crosses is spread over the current; the plant's own current among them."""
    own = float(graph[CURRENT].si)
    top = BEYOND * own
    if "power.rectifier_current" in graph:
        top = max(own, min(top, float(graph["power.rectifier_current"].si)))
    ratio = (top / (LEAST * own)) ** (1 / STEPS)
    even = [float(f"{LEAST * own * ratio**step:.2g}") for step in range(STEPS)]
    ends = [float(graph[path].si) for path in ("stack.minimum_current_trip", "stack.minimum_current_trip_catalyst_dead")
            if path in graph]  # fmt: skip
    return sorted({*(one for one in even if one < top), own, top, *(one for one in ends if LEAST * own < one < top)})
