"""Gates: what of an item may be shut, passes one way only, or changes the pressure; and the ways through them."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass, field

from macros.network.kinds import How, Passage
from macros.network.pressures import Pressures

__all__ = ["Gate", "Way", "failed_ways", "sound_ways"]


@dataclass(frozen=True, eq=False)
class Gate:
    """A way through an item that may be shut, or that passes one way only, or changes the pressure."""

    tag: str
    passage: Passage
    start: int
    end: int
    gas_start: int
    gas_end: int
    how: How = field(init=False)
    is_set: bool = field(init=False)
    """Whether a hand or an actuator opens and shuts it."""

    def __post_init__(self) -> None:
        # Asked for a hundred times in every line-up.
        object.__setattr__(self, "how", self.passage.how)
        object.__setattr__(self, "is_set", self.passage.positions is not None)

    def stands_open(self, positions: Mapping[str, str]) -> bool:
        """Whether it is open with items in these positions; what cannot be shut always is."""
        return not self.is_set or self.passage.is_open(positions.get(self.tag))


@dataclass(frozen=True, eq=False)
class Way:
    """A way from node to node through a gate, and what it leaves of a pressure."""

    start: int
    end: int
    gate: Gate
    forward: bool = True
    most_pa: float | None = None
    """The most that passes."""
    above_pa: float | None = None
    """What a pressure must exceed to pass."""
    by_failure: bool = False
    """Whether only a failure opens it."""

    @property
    def gas_ends(self) -> tuple[int, int]:
        """The nodes of gas from which it leads and to which."""
        gate = self.gate
        return (gate.gas_start, gate.gas_end) if self.forward else (gate.gas_end, gate.gas_start)


def sound_ways(gate: Gate, pressures: Pressures, headers: Container[int]) -> Iterator[Way]:
    """Forward and backward ways through a gate in which nothing has failed; if it can be shut, while it is open."""
    forward, backward = Way(gate.start, gate.end, gate), Way(gate.end, gate.start, gate, forward=False)
    if gate.is_set:
        yield from (forward, backward)
        return
    match gate.how:
        case How.ONE_WAY | How.HOLDS_BACK | How.RAISES:
            yield forward
        case How.LOWERS:
            # A regulator that nobody has set a pressure for lowers nothing.
            yield Way(gate.start, gate.end, gate, most_pa=pressures.held_to.get(gate.tag))
            yield backward
        case How.RELIEVES if gate.end not in headers:
            yield Way(gate.start, gate.end, gate, above_pa=pressures.opens_at.get(gate.tag, 0.0))


FAILED: Mapping[str, tuple[How, tuple[bool, ...]]] = {
    "leaks_back": (How.ONE_WAY, (False,)),
    "fails_open": (How.LOWERS, (True,)),
    "checks_leak": (How.RAISES, (False,)),
    "ruptured": (How.CROSSES, (True, False)),
}
"""What a failure opens: through which gates of the item, forward or backward. A valve that passes opens all, both ways."""


def failed_ways(gate: Gate, failure: str, positions: Mapping[str, str]) -> Iterator[Way]:
    """The ways through a gate that a failure of its item opens, besides those that are open without it."""
    how, directions = FAILED.get(failure, (None, ()))
    if gate.is_set:
        directions = (True, False) if failure == "passes" and not gate.stands_open(positions) else ()
    elif gate.how is not how:
        directions = ()
    for forward in directions:
        start, end = (gate.start, gate.end) if forward else (gate.end, gate.start)
        yield Way(start, end, gate, forward, by_failure=True)
