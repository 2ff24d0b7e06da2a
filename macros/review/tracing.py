"""Where gas, water or current gets to from a port, followed through lines and items in the direction of flow."""

from __future__ import annotations

from collections.abc import Callable

from macros.network import Network
from macros.network.kinds import How, passages
from macros.network.lines import Port
from macros.network.network import Item

__all__ = ["is_kind", "is_not_kind", "ports_reached", "reached"]

BOTH_WAYS = (How.FREE, How.LIMITS)
NEVER = (How.CROSSES, How.DRIVES)

Through = Callable[[Item], bool]


def is_kind(*kinds: str) -> Through:
    """Whether an item is of one of some kinds."""
    return lambda item: item.kind.name in kinds


def is_not_kind(*kinds: str) -> Through:
    """Whether an item is of none of some kinds."""
    return lambda item: item.kind.name not in kinds


def reached(network: Network, tag: str, port: str | None = None, *, through: Through) -> frozenset[str]:
    """Tags that are reached from an item, those at which the way ends included; arguments as of `ports_reached`."""
    return frozenset(found for found, _ in ports_reached(network, tag, port, through=through))


def ports_reached(network: Network, tag: str, port: str | None = None, *, through: Through) -> frozenset[Port]:
    """
    Ports at which lines arrive that come from an item, those at which the way ends included.

    Lines are followed from their beginning to their end; items as if every valve were open.

    Parameters
    ----------
    tag, port : str
        Where it begins; at every port of the item where no port is named.
    through : callable
        Whether the way goes on through an item.
    """
    waiting: list[Port] = [(tag, each) for each in network.items[tag].kind.ports if port in (None, each)]
    left: set[Port] = set(waiting)
    found: set[Port] = set()
    while waiting:
        start = waiting.pop()
        for run in network.runs:
            if run.start != start:
                continue
            item = network.items[run.end[0]]
            found.add(run.end)
            if through(item):
                onward = _onward(item, run.end[1]) - left
                left |= onward
                waiting += onward
    return frozenset(found)


def _onward(item: Item, port: str) -> set[Port]:
    """The ports of an item that are reached from one of its ports, itself included: a line may go on from there."""
    ports, waiting = {port}, [port]
    while waiting:
        at = waiting.pop()
        for passage in passages(item.kind.name):
            if passage.how in NEVER:
                continue
            ends = {passage.end} if passage.start == at else set()
            if passage.how in BOTH_WAYS and passage.end == at:
                ends = {passage.start}
            waiting += ends - ports
            ports |= ends
    return {(item.tag, each) for each in ports}
