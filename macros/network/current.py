"""The current's way: what of it is under voltage, and how often it is broken between the mains and a stack."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping

from macros.network.kinds import PASSAGES, How
from macros.network.lines import Port
from macros.network.network import Network

__all__ = ["CURRENT", "breaks", "energised"]

CURRENT = frozenset(("current", "holding_current"))
"""What of a plant's drives is current through its stack."""

Positions = Mapping[str, str]


def energised(network: Network, positions: Positions, runs: Iterable[str]) -> frozenset[Port]:
    """The ports of the current's way that carry it: from the mains, and from a rectifier that gives current."""
    starts = _ports(network, "supply", "out")
    if CURRENT & set(runs):
        starts += _ports(network, "rectifier", "positive", "negative")
    # What a rectifier and a stack let through is told by whether current is given.
    return frozenset(
        port for port, broken in _far(network, positions, starts, ("fuse", "isolator")).items() if not broken
    )


def breaks(network: Network, positions: Positions, stack: str) -> int:
    """
    How many isolators at least stand open on the positive way from the mains to a stack; 0 where no such way is drawn.

    A rectifier to which no line of mains leads is taken to have current by itself.
    """
    fed = {run.end[0] for line in network.lines.values() for run in line.runs}
    starts = _ports(network, "supply", "out")
    starts += [port for port in _ports(network, "rectifier", "positive") if port[0] not in fed]
    return _far(network, positions, starts, ("fuse", "isolator", "rectifier")).get((stack, "positive"), 0)


def _ports(network: Network, kind: str, *ports: str) -> list[Port]:
    return [(tag, port) for tag, item in network.items.items() if item.kind.name == kind for port in ports]


def _far(network: Network, positions: Positions, starts: Iterable[Port], through: Iterable[str]) -> dict[Port, int]:
    """The ports to which a way of current leads, each with the fewest open isolators that stand on it."""
    beside: dict[Port, list[tuple[Port, int]]] = {}
    for start, end, broken in _steps(network, positions, frozenset(through)):
        beside.setdefault(start, []).append((end, broken))
        beside.setdefault(end, []).append((start, broken))
    found: dict[Port, int] = {}
    waiting = [(0, port) for port in starts]
    while waiting:
        broken, here = heapq.heappop(waiting)
        if here not in found:
            found[here] = broken
            for there, more in beside.get(here, ()):
                heapq.heappush(waiting, (broken + more, there))
    return found


def _steps(network: Network, positions: Positions, through: frozenset[str]) -> Iterator[tuple[Port, Port, int]]:
    """From port to port along leads and through items of some kinds; 1 where an item stands open between them."""
    for line in network.lines.values():
        if line.medium == "electric":
            yield from ((run.start, run.end, 0) for run in line.runs)
    for tag, item in network.items.items():
        for passage in PASSAGES[item.kind.name] if item.kind.name in through else ():
            if passage.how is How.CONDUCTS:
                yield (tag, passage.start), (tag, passage.end), int(not passage.is_open(positions.get(tag)))
