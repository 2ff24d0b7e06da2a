"""What joins the pieces of a part of a plant: the way of the gas from one to another, as a drawing must show it whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from macros.network.kinds import How
from macros.network.lines import Port
from macros.network.network import Network
from macros.network.paths import search

__all__ = ["alone", "way_between"]


def way_between(network: Network, tags: Iterable[str]) -> tuple[str, ...]:
    """
    The shortest way of the gas from one piece of a part to another, tag by tag; empty where none leads there.

    Parameters
    ----------
    network : Network
    tags : iterable of str
        The items of the part; those with a line between them are one piece.

    Notes
    -----
    The way goes as the gas flows in service: a header into which two pieces are bled does not join them.
    """
    kept = set(tags)
    onward: dict[Port, list[Port]] = {}
    for way in network.ways():
        if way.how is not How.CONDUCTS:
            onward.setdefault(way.start, []).append(way.end)
    pieces = [piece for piece in _pieces(network, kept) if len(piece) > 1]
    for piece in pieces:
        others = set().union(*(other for other in pieces if other is not piece))
        found = _way(piece, others, onward)
        if found:
            return found
    return ()


def _way(piece: set[str], others: set[str], onward: Mapping[Port, list[Port]]) -> tuple[str, ...]:
    starts = [port for port in onward if port[0] in piece]
    return search(starts, lambda port: port[0] in others, lambda port: onward.get(port, ()))


def alone(network: Network, tags: Iterable[str]) -> frozenset[str]:
    """Those items of a part to which no line leads from another of them."""
    return frozenset(tag for piece in _pieces(network, set(tags)) if len(piece) == 1 for tag in piece)


def _pieces(network: Network, kept: set[str]) -> list[set[str]]:
    """Items with lines between them, piece by piece, in the order of the network."""
    beside: dict[str, set[str]] = {tag: set() for tag in network.items if tag in kept}
    for run in network.runs:
        one, two = run.start[0], run.end[0]
        if one in beside and two in beside:
            beside[one].add(two)
            beside[two].add(one)
    pieces: list[set[str]] = []
    left = dict.fromkeys(beside)
    while left:
        piece: set[str] = set()
        waiting = [next(iter(left))]
        while waiting:
            tag = waiting.pop()
            if tag not in piece:
                piece.add(tag)
                waiting += beside[tag] - piece
        pieces.append(piece)
        left = dict.fromkeys(tag for tag in left if tag not in piece)
    return pieces
