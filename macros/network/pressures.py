"""Pressures that are handed in: what each source brings at most, and what reliefs, vents and regulators leave of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import inf

from macros.network.lines import Port

__all__ = ["ANY", "Pressures", "Raise", "Source", "unlimited"]

ANY = "*"
"""Stands for every source in the caps of a relief."""

unlimited = inf
"""The pressure of a stack with current: an electrochemical compressor has no useful stall."""


@dataclass(frozen=True)
class Source:
    """What brings gas or water as long as it runs."""

    name: str
    """Its tag, with the port where one item brings two gases."""
    port: Port
    pressure_pa: float
    medium: str
    runs: frozenset[str] = frozenset()
    """What must run, one of these at least; empty where it is always there."""

    def is_live(self, runs: frozenset[str]) -> bool:
        """Whether it may bring pressure while these run."""
        return not self.runs or bool(self.runs & runs)


@dataclass(frozen=True)
class Raise:
    """A booster: the pressure at which it stalls, and how far its supply assists."""

    pressure_pa: float
    """Stall at the highest drive air, its supply at the atmosphere."""
    assist: float = 0.0
    """Area on which the supply assists over the discharge area."""


@dataclass(frozen=True)
class Pressures:
    """
    Highest credible pressures, absolute, by tag.

    Attributes
    ----------
    atmosphere_pa : float
    sources : tuple of Source
        Stack, compressor, pumps, inlets: what brings pressure while it runs.
    stores : mapping
        Pressure of the vessels that hold gas: buffer, banks on the hottest day.
    caps : mapping
        By tag of a relief, disc or open vent: the pressure that it leaves of a source, for each source against which
        its capacity is proven; `ANY` for all. What is not named is not capped. A source that passes a fault is named
        by the fault, `NR1:leaks_back`.
    held_to : mapping
        Pressure behind a regulator that works: set pressure and lock-up.
    raised : mapping
        Boosters.
    opens_at : mapping
        Pressure at which a relief opens, for one that opens into another part of the plant.
    cracks_at : mapping
        Difference at which a non-return valve opens.
    tubes : mapping
        By tag of a line: what its tube and fittings bear.
    isolation_pa : float
        Pressure above which an item is opened only behind two shut valves with an open bleed between them.
    swept : bool
        Whether the oxygen side of a stack under pressure must be swept when its current stops: it must unless the
        stack is let down before the oxygen space is flammable.
    """

    atmosphere_pa: float
    sources: tuple[Source, ...] = ()
    stores: Mapping[str, float] = field(default_factory=dict)
    caps: Mapping[str, Mapping[str, float]] = field(default_factory=dict)
    held_to: Mapping[str, float] = field(default_factory=dict)
    raised: Mapping[str, Raise] = field(default_factory=dict)
    opens_at: Mapping[str, float] = field(default_factory=dict)
    cracks_at: Mapping[str, float] = field(default_factory=dict)
    tubes: Mapping[str, float] = field(default_factory=dict)
    isolation_pa: float = 1.1e6
    swept: bool = True
