"""The line-ups of a plant as its pages need them: worked out once, whatever page asks."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network.lineups import Lineups, Proved, Tripped
from macros.network.told import SectionStand, sections_of

__all__ = ["lineups", "steps_of", "told_of", "tripped"]


def lineups(plant: Plant) -> Lineups:
    """The line-ups of a plant."""
    return _kept(plant).lineups


def steps_of(plant: Plant, procedure: str) -> list[Proved]:
    """
    A procedure step by step, proved; first the state in which it begins.

    Raises
    ------
    KeyError
        If the plant has no procedure of the name.
    """
    kept = _kept(plant)
    if procedure not in kept.steps:
        kept.steps[procedure] = kept.lineups.procedure(procedure)
    return kept.steps[procedure]


def told_of(plant: Plant, procedure: str) -> list[list[SectionStand]]:
    """How every section stands before the first step of a procedure and after each."""
    kept = _kept(plant)
    if procedure not in kept.told:
        kept.told[procedure] = [sections_of(proved.lineup) for proved in steps_of(plant, procedure)]
    return kept.told[procedure]


def tripped(plant: Plant) -> list[Tripped]:
    """What every trip and loss leaves of every state in which something runs, proved."""
    kept = _kept(plant)
    if kept.tripped is None:
        kept.tripped = list(kept.lineups.trips_proved())
    return kept.tripped


class _Kept:
    def __init__(self, plant: Plant) -> None:
        self.lineups = lineups_of(plant)
        self.steps: dict[str, list[Proved]] = {}
        self.told: dict[str, list[list[SectionStand]]] = {}
        self.tripped: list[Tripped] | None = None


_KEPT: WeakKeyDictionary[Plant, _Kept] = WeakKeyDictionary()
"""A plant does not change while it lives."""


def _kept(plant: Plant) -> _Kept:
    if plant not in _KEPT:
        _KEPT[plant] = _Kept(plant)
    return _KEPT[plant]
