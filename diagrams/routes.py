"""
The way of each line: square runs on the lattice, never through a symbol, crossing few others.

Each leg of a line (from one stop to the next) is searched on the lattice with costs for length, bends and
crossings. Legs that share a port are one pipe: they may run together and part at a dot. Other lines may only
cross each other, square and away from bends.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from diagrams.errors import DrawingError
from diagrams.items import Line
from diagrams.places import Box, Placed, Spot
from diagrams.proportions import KEEP_OFF, STEP

Node = tuple[int, int]

Bearing = tuple[Node, Node]
"""A node and the way by which it was reached."""
Ends = dict[Bearing, tuple[list[Node], Spot]]
"""Where ways may begin or end: the nodes straight out of a port, and the spot of the port."""

WAYS: dict[str, Node] = {"right": (1, 0), "down": (0, 1), "left": (-1, 0), "up": (0, -1)}
WAY_LIST: tuple[Node, ...] = tuple(WAYS.values())
ROUND = 5
"""Free lattice nodes kept round the drawing, so that a line can pass outside everything."""

BEND = 4.0
CROSSING = 9.0
BESIDE_LINE = 0.35
OVER_LABEL = 1.2
NEAR_SYMBOL = 0.5
TOGETHER = 0.9
JOIN = 3.0
"""What it costs to meet or leave a pipe of the same net away from a port: fewer joints read more easily."""


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


class Lattice:
    """Which nodes are barred by symbols, held by a net, or better left to a label."""

    def __init__(self, placed: Iterable[Placed], wishes: Iterable[Box]) -> None:
        items = list(placed)
        self.left = int(min(p.box.left for p in items) // STEP) - ROUND
        self.top = int(min(p.box.top for p in items) // STEP) - ROUND
        self.right = int(max(p.box.right for p in items) // STEP) + ROUND + 1
        self.bottom = int(max(p.box.bottom for p in items) // STEP) + ROUND + 1
        self.barred: dict[Node, str] = {}
        self.held: dict[Node, dict[int, int]] = {}
        self.steps: set[tuple[int, Node, Node]] = set()
        self.wished: dict[Node, float] = {}
        for one in items:
            for node in self.inside(one.box.grown(KEEP_OFF)):
                self.barred[node] = one.item.tag
        for one in items:
            for node in self.inside(one.box.grown(STEP + 2)):
                self.wished[node] = NEAR_SYMBOL
        for box in wishes:
            for node in self.inside(box.grown(3)):
                self.wished[node] = OVER_LABEL

    @staticmethod
    def inside(box: Box) -> Iterable[Node]:
        """The nodes strictly inside a box."""
        for x in range(int(box.left // STEP), int(box.right // STEP) + 2):
            if box.left < x * STEP < box.right:
                for y in range(int(box.top // STEP), int(box.bottom // STEP) + 2):
                    if box.top < y * STEP < box.bottom:
                        yield (x, y)

    def way_out(self, placed: Placed, spot: Spot) -> tuple[list[Node], Node]:
        """From a spot straight out to the first free node: the nodes passed, and the way they go."""
        dx, dy = WAYS[spot.side]
        if dx:
            x = int(spot.x // STEP) if dx < 0 else -int(-spot.x // STEP)
            y = round(spot.y / STEP)
        else:
            x = round(spot.x / STEP)
            y = int(spot.y // STEP) if dy < 0 else -int(-spot.y // STEP)
        nodes = [(x, y)]
        if not placed.kind.tag_shown:
            return nodes, (dx, dy)
        # A joint or a bend just before a symbol reads badly, so a line runs straight a little way first.
        near = abs(x * STEP - spot.x) + abs(y * STEP - spot.y) <= KEEP_OFF
        while near or self.barred.get(nodes[-1]) == placed.item.tag:
            x, y = x + dx, y + dy
            nodes.append((x, y))
            near = False
        return nodes, (dx, dy)

    # A node that a net passes is held with a mask: 1 along, 2 upright, 4 a bend, an end or a branch.

    def hold(self, net: int, nodes: Sequence[Node]) -> None:
        """Mark the nodes of a way as held by its net."""
        for index, node in enumerate(nodes):
            mask = 0
            for other in nodes[max(0, index - 1) : index + 2 : 2] if index > 0 else nodes[1:2]:
                mask |= 1 if other[1] == node[1] else 2
            if mask == 3 or index in (0, len(nodes) - 1):
                mask |= 4
            masks = self.held.setdefault(node, {})
            before = masks.get(net, 0)
            masks[net] = before | mask | (4 if before and before != mask else 0)
        for one, two in pairwise(nodes):
            self.steps.add((net, one, two))
            self.steps.add((net, two, one))

    def begin(self, reserved: dict[Node, dict[int, int]]) -> None:
        """Forget every way but the ways out of ports."""
        self.held = {node: dict(masks) for node, masks in reserved.items()}
        self.steps.clear()

    def reserve(self, net: int, nodes: Sequence[Node]) -> None:
        """Keep the way out of a port for its own net."""
        for node in nodes:
            masks = self.held.setdefault(node, {})
            masks[net] = masks.get(net, 0) | 4

    def price(self, net: int, node: Node, along: bool) -> float | None:
        """What it costs to enter a node along or upright; None if that cannot be."""
        cost = 1.0
        if node in self.held:
            for other, mask in self.held[node].items():
                if other == net:
                    continue
                if mask & 4 or mask & (1 if along else 2):
                    return None
                cost += CROSSING
        x, y = node
        for beside in ((x, y - 1), (x, y + 1)) if along else ((x - 1, y), (x + 1, y)):
            for other, mask in self.held.get(beside, {}).items():
                if other != net and mask & (1 if along else 2):
                    cost += BESIDE_LINE
        return cost + self.wished.get(node, 0.0)

    def straight_only(self, net: int, node: Node) -> bool:
        """Whether another net passes here, so that this one may neither bend nor end."""
        return any(other != net for other in self.held.get(node, ()))

    def search(self, leg: Leg) -> bool:
        """Find the cheapest way of a leg; False if there is none."""
        net = leg.net
        goals: Ends = {}
        for spot in leg.end.ports[leg.end_port]:
            nodes, (dx, dy) = self.way_out(leg.end, spot)
            if self._free_way(net, nodes, leg.end):
                goals[nodes[-1], (-dx, -dy)] = (nodes, spot)
        begun: Ends = {}
        for spot in leg.start.ports[leg.start_port]:
            nodes, way = self.way_out(leg.start, spot)
            if self._free_way(net, nodes, leg.start):
                begun[nodes[-1], way] = (nodes, spot)
        if not goals or not begun:
            return False
        left_to_go = _distance_to({node for node, _ in goals})
        drawn = {one for known, one, _ in self.steps if known == net}

        # Ties are broken by the order in which ways were found, so that the same drawing always comes out.
        best: dict[Bearing, float] = dict.fromkeys(begun, 0.0)
        came: dict[Bearing, Bearing | None] = dict.fromkeys(begun)
        queue = [(left_to_go(bearing[0]), count, 0.0, bearing) for count, bearing in enumerate(begun)]
        heapq.heapify(queue)
        count = len(queue)
        while queue:
            _, _, cost, bearing = heapq.heappop(queue)
            if cost > best[bearing] + 1e-9:
                continue
            if bearing in goals:
                self._keep(leg, bearing, came, begun, goals)
                return True
            for reached, price in self._onward(net, bearing, drawn, goals):
                dearer = cost + price
                if dearer < best.get(reached, math.inf) - 1e-9:
                    best[reached] = dearer
                    came[reached] = bearing
                    heapq.heappush(queue, (dearer + left_to_go(reached[0]), count, dearer, reached))
                    count += 1
        return False

    def _onward(self, net: int, bearing: Bearing, drawn: set[Node], goals: Ends) -> Iterator[tuple[Bearing, float]]:
        """Where a way can go on from here, and for what price."""
        node, way = bearing
        held_by_others = self.straight_only(net, node)
        for turn in WAY_LIST:
            bend = turn != way
            if bend and (held_by_others or (turn[0] == -way[0] and turn[1] == -way[1])):
                continue
            following = (node[0] + turn[0], node[1] + turn[1])
            if not (self.left <= following[0] <= self.right and self.top <= following[1] <= self.bottom):
                continue
            ends = [goal for goal in goals if goal[0] == following]
            if following in self.barred and not ends:
                continue
            if (net, node, following) in self.steps:
                price = TOGETHER
            else:
                step = self.price(net, following, along=turn[1] == 0)
                if step is None:
                    continue
                joints = (node in drawn) + (following in drawn)
                price = step + joints * JOIN + (BEND if bend else 0.0)
            yield (following, turn), price
            for goal in ends:  # the last bend may lie where the straight way into the port begins
                if turn[0] * goal[1][0] + turn[1] * goal[1][1] == 0 and not self.straight_only(net, following):
                    yield goal, price + BEND

    def _free_way(self, net: int, nodes: Sequence[Node], placed: Placed) -> bool:
        """Whether the way out of a port is barred by no other symbol and held by no other net."""
        return not any(
            self.barred.get(node, placed.item.tag) != placed.item.tag
            or any(other != net for other in self.held.get(node, ()))
            for node in nodes
        )

    def _keep(
        self,
        leg: Leg,
        bearing: Bearing,
        came: dict[Bearing, Bearing | None],
        begun: Ends,
        goals: Ends,
    ) -> None:
        nodes: list[Node] = []
        end_nodes, leg.last = goals[bearing]
        current: Bearing | None = bearing
        while current is not None:
            nodes.append(current[0])
            if came[current] is None:
                start_nodes, leg.first = begun[current]
                nodes.extend(reversed(start_nodes[:-1]))
            current = came[current]
        nodes.reverse()
        nodes.extend(reversed(end_nodes[:-1]))
        leg.nodes = nodes


def _distance_to(targets: set[Node]) -> Callable[[Node], float]:
    """The least that any way to these nodes can cost."""
    left, right = min(node[0] for node in targets), max(node[0] for node in targets)
    top, bottom = min(node[1] for node in targets), max(node[1] for node in targets)

    def distance(node: Node) -> float:
        across = max(left - node[0], node[0] - right, 0)
        upright = max(top - node[1], node[1] - bottom, 0)
        return TOGETHER * (across + upright) + (BEND if across and upright else 0.0)

    return distance


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
    reserved = {node: dict(masks) for node, masks in lattice.held.items()}

    order = sorted(range(len(legs)), key=lambda index: (legs[index].to_instrument, legs[index].distance, index))
    first: list[int] = []
    blocked = _search_in(order, legs, lattice)
    while blocked is not None:  # what another leg has walled in goes before it
        if blocked in first:
            raise NoWayError(legs[blocked])
        first.insert(0, blocked)
        order = first + [index for index in order if index not in first]
        lattice.begin(reserved)
        blocked = _search_in(order, legs, lattice)
    for index in reversed(order):
        lattice.begin(reserved)
        for leg in legs:
            if leg is not legs[index]:
                lattice.hold(leg.net, leg.nodes)
        if not lattice.search(legs[index]):
            raise NoWayError(legs[index])


def _search_in(order: Sequence[int], legs: Sequence[Leg], lattice: Lattice) -> int | None:
    """Find the way of each leg in this order; the first that finds none is returned."""
    for index in order:
        if not lattice.search(legs[index]):
            return index
        lattice.hold(legs[index].net, legs[index].nodes)
    return None
