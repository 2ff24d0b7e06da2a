"""The line-ups of a plant as its pages need them: worked out once, whatever page asks."""

from __future__ import annotations

from weakref import WeakKeyDictionary

from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network.lineups import Lineups, Proved
from macros.network.told import SectionStand, sections_of

__all__ = ["lineups", "steps_of", "told_of"]

_TOLD: WeakKeyDictionary[Plant, dict[str, list[list[SectionStand]]]] = WeakKeyDictionary()
"""A plant does not change while it lives."""


def lineups(plant: Plant) -> Lineups:
    """The line-ups of a plant."""
    return lineups_of(plant)


def steps_of(plant: Plant, procedure: str) -> list[Proved]:
    """
    A procedure step by step, proved; first the state in which it begins.

    Raises
    ------
    KeyError
        If the plant has no procedure of the name.
    """
    return lineups(plant).procedure(procedure)


def told_of(plant: Plant, procedure: str) -> list[list[SectionStand]]:
    """How every section stands before the first step of a procedure and after each."""
    known = _TOLD.setdefault(plant, {})
    if procedure not in known:
        known[procedure] = [sections_of(proved.lineup) for proved in steps_of(plant, procedure)]
    return known[procedure]
