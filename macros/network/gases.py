"""The gases that a part may hold, and which of them a medium is."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Flag, auto

__all__ = ["Gas", "gas_of"]


class Gas(Flag):
    """What a part may hold, several at once. Every combination is one object, so that `is` tells whether two are the same."""

    NONE = 0
    HYDROGEN = auto()
    OXYGEN = auto()
    AIR = auto()
    NITROGEN = auto()


_OF_MEDIUM: Mapping[str, Gas] = {
    "hydrogen": Gas.HYDROGEN,
    "wet_hydrogen": Gas.HYDROGEN,
    "oxygen": Gas.OXYGEN,
    "air": Gas.AIR,
    "nitrogen": Gas.NITROGEN,
}


def gas_of(medium: str) -> Gas:
    """The gas of a medium; none for water and current."""
    return _OF_MEDIUM.get(medium, Gas.NONE)
