"""How a plant stands, and what arrives in its parts: the data of reached pressures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from macros.network.gates import Gate

__all__ = ["MARGIN_PA", "Arrival", "Failure", "Held", "Key", "Stand"]

Held = Mapping[str, Mapping[int, float]]
"""Pressure that stands in nodes, by the source from which it came."""

MARGIN_PA = 100.0
"""Below this a difference of pressure is none: the last digits of a float, not a gas."""


@dataclass(frozen=True)
class Failure:
    """One thing that has failed: an item and how."""

    tag: str
    how: str
    """`leaks_back`, `fails_open`, `passes`, `ruptured`, `checks_leak` or `seal_leaks`."""

    @property
    def name(self) -> str:
        """By which a relief says that it is sized for it."""
        return f"{self.tag}:{self.how}"


@dataclass(frozen=True)
class Stand:
    """How a plant stands: positions, what runs, what is open to the air, what gas it still holds, what has failed."""

    positions: Mapping[str, str]
    runs: frozenset[str] = frozenset()
    opened: frozenset[str] = frozenset()
    held: Held = field(default_factory=dict)
    failure: Failure | None = None


Key = tuple[str, bool]
"""A source, and whether it runs or its gas is held."""


class Arrival(NamedTuple):
    """The highest pressure that one source brings to a part, and the gates that it came through."""

    pressure_pa: float
    source: str
    live: bool
    """Brought by what runs; otherwise by gas that is held."""
    gates: tuple[Gate, ...]
