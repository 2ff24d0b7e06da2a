"""
What gas, water and current may do in each kind of item: which ports are joined, which way, in which position.

How a kind is called, which ports and settings it has, stands with the description (`macros.description.item_kinds`),
since an author's mistakes are told there.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType
from typing import Final

from macros.description.item_kinds import ITEM_KINDS, ItemKind

__all__ = ["ITEM_KINDS", "PASSAGES", "How", "ItemKind", "Passage", "passages"]


class How(Enum):
    """In what manner two ports of an item are joined."""

    FREE = "free"
    """Both ways, at one pressure."""
    ONE_WAY = "one way"
    """From start to end; against it only by a fault."""
    LIMITS = "limits"
    """Both ways, until too strong a flow shuts it."""
    LOWERS = "lowers"
    """From start to end, at no more than the pressure set; backwards freely, which no proof may rely on to be shut."""
    HOLDS_BACK = "holds back"
    """From start to end, once the pressure at the start exceeds the pressure set."""
    RAISES = "raises"
    """From start to end, raising the pressure; an open path while the end is below the start."""
    RELIEVES = "relieves"
    """From start to end, once the pressure at the start exceeds the pressure set; shut in service."""
    DRIVES = "drives"
    """From start to end as it drives the other side; apart from it but for a seal."""
    CROSSES = "crosses"
    """Not at all, but for a membrane: what crosses it, and what follows when it is ruptured, is judged apart."""
    CONDUCTS = "conducts"
    """Electric current."""


@dataclass(frozen=True)
class Passage:
    """A way through an item."""

    start: str
    end: str
    how: How
    positions: frozenset[str] | None = None
    """The positions in which the way is open; none where the item has no positions."""

    def is_open(self, position: str | None) -> bool:
        """Whether the way is open in a position; an unknown position counts as open."""
        return self.positions is None or position is None or position in self.positions


def _all_joined(kind: str, how: How = How.FREE) -> tuple[Passage, ...]:
    return tuple(Passage(a, b, how) for a, b in itertools.combinations(ITEM_KINDS[kind].ports, 2))


_OPEN: Final = frozenset(("open",))
_VALVE: Final = (Passage("in", "out", How.FREE, _OPEN),)
_THROUGH: Final = (Passage("in", "out", How.FREE),)
_LOWERS: Final = (Passage("in", "out", How.LOWERS),)
_RELIEVES: Final = (Passage("in", "out", How.RELIEVES),)
_RAISES: Final = (Passage("in", "out", How.RAISES),)

PASSAGES: Final[Mapping[str, tuple[Passage, ...]]] = MappingProxyType(
    {
        "hand_valve": _VALVE,
        "needle_valve": _VALVE,
        "actuated_valve": _VALVE,
        "drain": _VALVE,
        "quick_coupling": _VALVE,
        "three_way_valve": (
            Passage("in", "out", How.FREE, frozenset(("in_out", "open"))),
            Passage("in", "branch", How.FREE, frozenset(("in_branch", "open"))),
            Passage("branch", "out", How.FREE, frozenset(("branch_out", "open"))),
        ),
        "non_return_valve": (Passage("in", "out", How.ONE_WAY),),
        "excess_flow_valve": (Passage("in", "out", How.LIMITS),),
        "pressure_regulator": _LOWERS,
        "air_regulator": _LOWERS,
        "back_pressure_regulator": (Passage("in", "out", How.HOLDS_BACK),),
        "relief_valve": _RELIEVES,
        "burst_disc": _RELIEVES,
        "flame_arrestor": _THROUGH,
        "breakaway": _THROUGH,
        "separator": _all_joined("separator"),
        "coalescer": _all_joined("coalescer"),
        "degassing_pot": _all_joined("degassing_pot"),
        "desiccant_column": _all_joined("desiccant_column"),
        "deioniser": _all_joined("deioniser"),
        "reservoir": _all_joined("reservoir"),
        "buffer": _all_joined("buffer"),
        "bank": _all_joined("bank"),
        "stack": (
            Passage("h2", "h2_water", How.FREE),
            Passage("water_in", "o2", How.FREE),
            Passage("h2", "o2", How.CROSSES),
            Passage("positive", "negative", How.CONDUCTS),
        ),
        "booster": (Passage("in", "out", How.RAISES), Passage("drive_air", "exhaust", How.DRIVES)),
        "compressor": _RAISES,
        "pump": _RAISES,
        "cooler": _THROUGH,
        "cold_coil": _THROUGH,
        "filter": _THROUGH,
        "pressure_gauge": (),
        "pressure_switch": (),
        "transmitter": (),
        "gas_detector": (),
        "hose": _THROUGH,
        "junction": _all_joined("junction"),
        "vent": (),
        "purge_inlet": (),
        "burner": (),
        "fuel_cell": (
            Passage("in", "out", How.FREE),
            Passage("air", "exhaust", How.FREE),
            Passage("in", "air", How.CROSSES),
            Passage("positive", "negative", How.CONDUCTS),
        ),
        "receptacle": _THROUGH,
        "vehicle_tank": _THROUGH,
        "supply": (Passage("in", "out", How.CONDUCTS),),
        "rectifier": (
            Passage("in", "out", How.CONDUCTS),
            Passage("in", "positive", How.CONDUCTS),
            Passage("in", "negative", How.CONDUCTS),
        ),
        "fuse": (Passage("in", "out", How.CONDUCTS),),
        "isolator": (Passage("in", "out", How.CONDUCTS, frozenset(("closed",))),),
    }
)
"""The ways through each kind of item."""


def passages(kind: str, position: str | None = None) -> tuple[Passage, ...]:
    """The ways through an item that are open in a position; all that may be, where the position is not known."""
    return tuple(each for each in PASSAGES[kind] if each.is_open(position))
