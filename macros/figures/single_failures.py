"""
Figures of single failures: the highest pressure that the failure of each item brings, over the states of the plant.

All are read from one run through every failure of every state, under the highest credible pressures; that run is a
figure by itself, worked out when something asks for it.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from macros.calculations.formula import Call, Symbol, Traced
from macros.description.loading import Description
from macros.figures.credible import Credible
from macros.figures.graph import Figure, figure
from macros.figures.lineups import lineups_of
from macros.network.current import CURRENT
from macros.network.failures import Outcome, may_fail, outcomes
from macros.network.lineups import Lineups
from macros.network.network import Network
from macros.network.piping import Piping
from macros.network.pressures import Pressures
from macros.network.proofs import Failed, Lineup
from macros.quantities import say

if TYPE_CHECKING:
    from macros.figures.plant import Plant

__all__ = ["SingleFailure", "figures", "highest_brought", "single_failures"]

RUN = "safety.single_failures"
LOSSES = ("power_lost", "drive_air_lost", "water_lost", "ventilation_lost")
DEAD_CATALYST = "stack.hydrogen_in_oxygen_catalyst_dead"


@dataclass(frozen=True)
class Brought:
    """What single failures bring."""

    highest: tuple[tuple[str, float], ...]
    """By tag: the highest absolute pressure of any section that the failure of the item raises, or at the item."""


def figures(description: Description, known: Collection[str]) -> Iterator[Figure]:
    """
    The run through every failure of every state, and the highest pressure for each item that may fail.

    Parameters
    ----------
    description : Description
    known : collection of str
        Every entry and every other figure of the plant.
    """
    network = Network.of(description)
    tags = _tags(description, network)
    if not tags:
        return
    credible = Credible(description, network, known)
    inputs: dict[str, Any] = {f"input_{number}": path for number, path in enumerate(credible.paths, start=1)}

    def go_through(**values: Any) -> Brought:
        numbers = {inputs[name]: float(value) for name, value in values.items()}
        piping = Piping(network, credible.pressures(numbers.__getitem__))
        return Brought(tuple(highest_brought(Lineups(piping, description.procedures), tags).items()))

    yield figure(RUN, go_through, kind="run", source="by-definition", late=True, **inputs)
    for tag in tags:
        yield figure(
            f"safety.single_failure.{tag.lower()}.highest_pressure", _of(tag), unit="bar(g)", rounding="up",
            symbol="p_fail", source="by-definition", safety=True, late=True, run=RUN,
        )  # fmt: skip


def _tags(description: Description, network: Network) -> tuple[str, ...]:
    """Every item that may fail in some state."""
    piping = Piping(network, Pressures(0.0))
    found = dict.fromkeys(
        tag for state in description.procedures.states.values()
        for tag, _ in may_fail(piping, network.positions(state.positions))
    )  # fmt: skip
    return tuple(tag for tag in network.items if tag in found)


def highest_brought(lineups: Lineups, tags: Collection[str]) -> dict[str, float]:
    """By item: the highest pressure that its failure brings in any state."""
    found = dict.fromkeys(tags, lineups.piping.pressures.atmosphere_pa)
    for name in lineups.file.states:
        lineup = lineups.state(name)
        for outcome in outcomes(lineup):
            found[outcome.tag] = max(found[outcome.tag], _brought_pa(lineup, outcome))
    return found


def _brought_pa(lineup: Lineup, outcome: Outcome) -> float:
    """Highest pressure of the sections that a failure raises; where it raises none, that at the item itself."""
    if outcome.rises:
        return max(outcome.highest[name] for name in outcome.rises)
    ports = [port for port in lineup.piping.node if port[0] == outcome.tag]
    return max(lineup.reached.pressure_pa(port) for port in ports)


def _of(tag: str) -> Callable[[Brought], float | str]:
    def read(run: Brought) -> float | str:
        pressure_pa = dict(run.highest)[tag]
        if not math.isfinite(pressure_pa):
            return say("network.without_limit")
        return Traced(pressure_pa, Call("single failures", (Symbol(RUN, "run"),)))

    return read


# --- what a page of single failures and a review tell


@dataclass(frozen=True)
class SingleFailure:
    """One thing that fails, gone through in every state of the plant."""

    tag: str
    """Empty for a loss of the whole plant: power, drive air, water, ventilation."""
    how: str
    told: str
    """How it fails, in words."""
    highest: Mapping[str, float]
    """Highest absolute pressure of every section, over the states."""
    rises: tuple[str, ...]
    """Sections in which some state has less without the failure."""
    holds: tuple[str, ...]
    """Reliefs, open vents and sensors of trips that hold it; empty where the strength of the parts does."""
    lost: str
    """What is lost, in words."""
    failed: tuple[Failed, ...]
    states: tuple[str, ...] = ()
    """States in which it may fail like this."""
    figure: str | None = None
    """A figure that says more of it."""


_ROWS: WeakKeyDictionary[Plant, tuple[SingleFailure, ...]] = WeakKeyDictionary()


def single_failures(plant: Plant) -> tuple[SingleFailure, ...]:
    """Every single failure of a plant, once each, over its states; worked out once for a plant."""
    if plant not in _ROWS:
        _ROWS[plant] = tuple(_rows(plant))
    return _ROWS[plant]


def _rows(plant: Plant) -> Iterator[SingleFailure]:
    lineups = lineups_of(plant)
    found: dict[tuple[str, str], SingleFailure] = {}
    for name in lineups.file.states:
        for outcome in outcomes(lineups.state(name)):
            row = SingleFailure(
                outcome.tag, outcome.how, outcome.told, outcome.highest, outcome.rises, outcome.holds, outcome.lost,
                outcome.failed, (name,),
            )  # fmt: skip
            key = outcome.tag, outcome.how
            found[key] = _both(found[key], row) if key in found else row
    order = {tag: number for number, tag in enumerate(plant.network.items)}
    for row in sorted(found.values(), key=lambda row: order[row.tag]):
        yield _with_trips(plant, row) if row.how == "stuck" else row
    yield from _dead_catalyst(plant, lineups)
    yield from _losses(lineups)


def _both(one: SingleFailure, other: SingleFailure) -> SingleFailure:
    """The same failure in two states."""
    known = {found.message for found in one.failed}
    return replace(
        one,
        highest={name: max(pressure_pa, other.highest[name]) for name, pressure_pa in one.highest.items()},
        rises=tuple(dict.fromkeys((*one.rises, *other.rises))),
        holds=tuple(dict.fromkeys((*one.holds, *other.holds))),
        failed=(*one.failed, *(found for found in other.failed if found.message not in known)),
        states=tuple(dict.fromkeys((*one.states, *other.states))),
    )


def _with_trips(plant: Plant, row: SingleFailure) -> SingleFailure:
    """A switch that sticks is held by the trips of high pressure first, then by the reliefs."""
    return replace(row, holds=(*_sensors(plant, "pressure_high"), *row.holds))


def _sensors(plant: Plant, cause: str) -> tuple[str, ...]:
    trips = plant.description.plant.trips
    return tuple(trip.sensor for trip in trips if trip.cause == cause and trip.sensor is not None)


def _dead_catalyst(plant: Plant, lineups: Lineups) -> Iterator[SingleFailure]:
    """A dead catalyst raises no pressure but the share of hydrogen in the oxygen, which the analyser must stop."""
    if plant.description.plant.stack.catalyst_efficiency.si == 0 or DEAD_CATALYST not in plant.graph:
        return
    tag = next(tag for tag, item in plant.network.items.items() if item.kind.name == "stack")
    states = tuple(name for name, state in lineups.file.states.items() if frozenset(state.runs) & CURRENT)
    stands = [lineups.state(name).section_pressures for name in states]
    highest = functools.reduce(_higher, stands) if stands else {}
    yield SingleFailure(
        tag, "catalyst_dead", say("network.fails.catalyst_dead"), highest, (), _sensors(plant, "hydrogen_in_oxygen"),
        say("network.lost.catalyst_dead", tag=tag), (), states, DEAD_CATALYST,
    )  # fmt: skip


def _higher(one: Mapping[str, float], other: Mapping[str, float]) -> dict[str, float]:
    return {name: max(pressure_pa, other[name]) for name, pressure_pa in one.items()}


def _losses(lineups: Lineups) -> Iterator[SingleFailure]:
    """Power, drive air, water and ventilation, each lost in every state in which something runs."""
    found: dict[str, SingleFailure] = {}
    for tripped in lineups.trips_proved():
        if tripped.cause not in LOSSES or tripped.sensor is not None:
            continue
        before, after = lineups.state(tripped.state).section_pressures, tripped.lineup.section_pressures
        rises = tuple(name for name in after if after[name] > before[name])
        row = SingleFailure(
            "", tripped.cause, say(f"network.fails.{tripped.cause}"), after, rises, (),
            say(f"network.lost.{tripped.cause}"), tripped.failed, (tripped.state,),
        )  # fmt: skip
        found[tripped.cause] = _both(found[tripped.cause], row) if tripped.cause in found else row
    yield from found.values()
