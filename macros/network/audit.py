"""
Everything that is proved of a plant, place by place: its states, every step, every trip and loss, and in each of them
every single failure.

A place says where in the plant's files the line-up comes from, so that a finding can be told with file and line.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from macros.network.current import CURRENT
from macros.network.failures import Outcome, outcomes
from macros.network.proofs import Failed, Lineup, prove
from macros.quantities import say

if TYPE_CHECKING:
    from macros.network.lineups import Lineups

__all__ = ["Found", "Place", "audit", "places", "single_failures"]

Keys = tuple[str | int, ...]


@dataclass(frozen=True)
class Place:
    """Where a line-up comes from."""

    words: str
    """As messages say it; the name of the procedure for a step."""
    step: int
    """Counted from 1; 0 where it is no step."""
    file: str
    """`procedures.yml`, `plant.yml` or `network.yml`."""
    keys: Keys
    """Where in that file it is described; lists are counted from 1."""


@dataclass(frozen=True)
class Found:
    """A failed proof and where it was found."""

    place: Place
    failed: Failed


def places(lineups: Lineups) -> Iterator[tuple[Place, Lineup, tuple[Failed, ...]]]:
    """Every line-up of a plant with what its proofs find wrong: states, steps, losses of power in a step, trips."""
    for proved in lineups.states():
        at = Place(say("network.in_state", state=proved.name), 0, "procedures.yml", ("states", proved.name))
        yield at, proved.lineup, proved.failed
    for name in lineups.file.procedures:
        for proved in lineups.procedure(name)[1:]:
            keys = ("procedures", name, "steps", proved.step)
            yield Place(name, proved.step, "procedures.yml", keys), proved.lineup, proved.failed
            if proved.lineup.runs & CURRENT:
                lost = lineups.power_lost(proved.lineup)
                already = {each.message for each in proved.failed}
                at = Place(say("network.power_lost_in", name=name), proved.step, "procedures.yml", keys)
                yield at, lost, tuple(found for found in prove(lost) if found.message not in already)
    for tripped in lineups.trips_proved():
        words = say("network.tripped_in", cause=tripped.cause, state=tripped.state)
        yield (
            Place(words, 0, "plant.yml", _trip(lineups, tripped.cause, tripped.sensor)),
            tripped.lineup,
            tripped.failed,
        )


def _trip(lineups: Lineups, cause: str, sensor: str | None) -> Keys:
    """Where a trip is described; what no trip answers is told of the list as a whole."""
    for number, trip in enumerate(lineups.trips, start=1):
        if (trip.cause, trip.sensor) == (cause, sensor):
            return ("trips", number)
    return ("trips",)


def single_failures(stood: Iterable[tuple[Place, Lineup]]) -> Iterator[tuple[Place, Outcome]]:
    """Every single failure of line-ups; those that are alike are gone through once, at the first place."""
    seen: set[Hashable] = set()
    for place, lineup in stood:
        if (stand := _alike(lineup)) not in seen:
            seen.add(stand)
            yield from ((place, outcome) for outcome in outcomes(lineup))


def _alike(lineup: Lineup) -> Hashable:
    """What two line-ups share of which every failure brings about the same."""
    stand = lineup.reached.stand
    held = frozenset((source, frozenset(nodes.items())) for source, nodes in stand.held.items())
    return frozenset(stand.positions.items()), stand.runs, stand.opened, held, lineup.contents


def audit(lineups: Lineups) -> Iterator[Found]:
    """Everything that any proof finds wrong with a plant, first the line-ups themselves, then their single failures."""
    stood = []
    for place, lineup, failed in places(lineups):
        stood.append((place, lineup))
        yield from (Found(place, found) for found in failed)
    for place, outcome in single_failures(stood):
        for found in outcome.failed:
            yield Found(_failing(place, outcome), found)


def _failing(place: Place, outcome: Outcome) -> Place:
    """A failure in a state is told of the item, in a step or trip of that."""
    in_state = place.keys[0] == "states"
    where = place.words if not place.step else say("network.in_step", name=place.words, step=place.step)
    words = say("network.failing_in", tag=outcome.tag, how=outcome.told, where=where)
    file, keys = ("network.yml", ("items", outcome.tag)) if in_state else (place.file, place.keys)
    return Place(words, 0, file, keys)
