"""
The way of each line: square runs on the lattice, never through a symbol, crossing few others.

Each leg of a line (from one stop to the next) is searched on the lattice with costs for length, bends and
crossings. Legs that share a port are one pipe: they may run together and part at a dot. Other lines may only
cross each other, square and away from bends.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from diagrams.errors import DrawingError
from diagrams.items import Line
from diagrams.lattice import Lattice, Node
from diagrams.places import Box, Placed, Spot
from diagrams.proportions import STEP


class NoWayError(Exception):
    """A leg found no way; the grid must grow between its two items."""

    def __init__(self, leg: Leg) -> None:
        super().__init__(leg.line.id)
        self.leg = leg


@dataclass
class Leg:
    """One part of a line, from one stop to the next."""

    line: Line
    number: int
    start: Placed
    start_port: str
    end: Placed
    end_port: str
    net: int = 0
    nodes: list[Node] = field(default_factory=list)
    first: Spot | None = None
    last: Spot | None = None

    @property
    def points(self) -> list[tuple[float, float]]:
        """The corners of the way, from ink to ink."""
        assert self.first is not None and self.last is not None
        raw = [(self.first.x, self.first.y), *((x * STEP, y * STEP) for x, y in self.nodes), (self.last.x, self.last.y)]
        corners: list[tuple[float, float]] = []
        for point in raw:
            if corners and point == corners[-1]:
                continue
            if len(corners) > 1:
                (ax, ay), (bx, by) = corners[-2], corners[-1]
                if (ax == bx == point[0]) or (ay == by == point[1]):
                    corners[-1] = point
                    continue
            corners.append(point)
        return corners

    @property
    def distance(self) -> float:
        """How far apart its two items stand."""
        return abs(self.start.x - self.end.x) + abs(self.start.y - self.end.y)

    @property
    def to_instrument(self) -> bool:
        """Whether the leg only lets an instrument feel the line."""
        return "tap" in (self.start_port, self.end_port)


def _port(line: Line, placed: Placed, named: str | None, *, leaving: bool, passing: bool) -> str:
    """The port by which a line leaves or reaches an item; in passing it goes from in to out."""
    offered = placed.ports
    offers = f"a {placed.kind.says} offers {', '.join(offered)}"
    if named is not None and named not in offered:
        raise DrawingError(f"line {line.id} names port {named!r} of {placed.item.tag}; {offers}")
    if len(offered) == 1:
        return next(iter(offered))
    wanted = "out" if leaving else "in"
    if passing and named is not None and named not in ("in", "out"):
        raise DrawingError(
            f"line {line.id} passes {placed.item.tag} and names its port {named!r}, which leaves open how it goes on; "
            f"end the line there and begin another"
        )
    if named is not None and not passing:
        return named
    if wanted in offered:
        return wanted
    raise DrawingError(f"line {line.id} does not say which port of {placed.item.tag} it means; {offers}")


def legs_of(lines: Sequence[Line], placed: dict[str, Placed]) -> list[Leg]:
    """Every leg of every line, with its ports settled and the legs that share a port known as one net."""
    legs = []
    for line in lines:
        if len(line.stops) < 2:
            raise DrawingError(f"line {line.id} needs at least two stops")
        for tag, _ in line.stops:
            if tag not in placed:
                raise DrawingError(f"line {line.id} stops at {tag}, but no item has that tag")
        for number, ((tag, port), (next_tag, next_port)) in enumerate(pairwise(line.stops)):
            start, end = placed[tag], placed[next_tag]
            leave = _port(line, start, port, leaving=True, passing=number > 0)
            arrive = _port(line, end, next_port, leaving=False, passing=number + 2 < len(line.stops))
            if tag == next_tag:
                raise DrawingError(f"line {line.id} goes from {tag} to itself")
            legs.append(Leg(line, number, start, leave, end, arrive))
    _name_nets(legs)
    return legs


def _name_nets(legs: Sequence[Leg]) -> None:
    """Give the legs that meet at a port the same net."""
    joined: dict[object, int] = {}

    def key(placed: Placed, port: str) -> object:
        return (placed.item.tag, "" if not placed.kind.tag_shown else port)

    for number, leg in enumerate(legs):
        leg.net = number
    for leg in legs:
        for end in (key(leg.start, leg.start_port), key(leg.end, leg.end_port)):
            if end in joined and joined[end] != leg.net:
                old, new = leg.net, joined[end]
                for other in legs:
                    if other.net == old:
                        other.net = new
                for known, net in joined.items():
                    if net == old:
                        joined[known] = new
            joined[end] = leg.net


def route(legs: Sequence[Leg], placed: dict[str, Placed], wishes: Sequence[Box]) -> None:
    """Find the way of every leg, the short ones first, then once more each with all others in view."""
    stand = tuple((tag, one.kind.name, one.item.facing, one.x, one.y, one.box) for tag, one in placed.items())
    ends = tuple((leg.start.item.tag, leg.start_port, leg.end.item.tag, leg.end_port) for leg in legs)
    key = (stand, ends, tuple(wishes))
    ways = _known.get(key)
    if ways is None:
        _search_all(legs, placed, wishes)
        if len(_known) > 64:
            _known.clear()
        _known[key] = [(leg.nodes, leg.first, leg.last) for leg in legs]
    else:
        for leg, (nodes, first, last) in zip(legs, ways, strict=True):
            leg.nodes, leg.first, leg.last = nodes, first, last


_known: dict[object, list[tuple[list[Node], Spot | None, Spot | None]]] = {}
"""Ways found before: the drawings of a procedure's steps have the same ones."""


def _search_all(legs: Sequence[Leg], placed: dict[str, Placed], wishes: Sequence[Box]) -> None:
    lattice = Lattice(placed.values(), wishes)
    for leg in legs:
        for one, port in ((leg.start, leg.start_port), (leg.end, leg.end_port)):
            spots = one.ports[port]
            if len(spots) == 1:
                nodes, _ = lattice.way_out(one, spots[0])
                lattice.reserve(leg.net, nodes)

    order = sorted(range(len(legs)), key=lambda index: (legs[index].to_instrument, legs[index].distance, index))
    first: list[int] = []
    blocked = _search_in(order, legs, lattice)
    while blocked is not None:  # what another leg has walled in goes before it
        if blocked in first:
            raise NoWayError(legs[blocked])
        first.insert(0, blocked)
        order = first + [index for index in order if index not in first]
        for net in {leg.net for leg in legs}:
            lattice.forget(net)
        blocked = _search_in(order, legs, lattice)
    for index in reversed(order):
        net = legs[index].net
        lattice.forget(net)
        for leg in legs:
            if leg.net == net and leg is not legs[index]:
                lattice.hold(net, leg.nodes)
        if not _found(legs[index], lattice):
            raise NoWayError(legs[index])
        lattice.hold(net, legs[index].nodes)


def _search_in(order: Sequence[int], legs: Sequence[Leg], lattice: Lattice) -> int | None:
    """Find the way of each leg in this order; the first that finds none is returned."""
    for index in order:
        if not _found(legs[index], lattice):
            return index
        lattice.hold(legs[index].net, legs[index].nodes)
    return None


def _found(leg: Leg, lattice: Lattice) -> bool:
    """Whether a leg finds a way, which it then takes."""
    way = lattice.search(leg.net, (leg.start, leg.start_port), (leg.end, leg.end_port))
    if way is None:
        return False
    leg.nodes, leg.first, leg.last = way.nodes, way.first, way.last
    return True
