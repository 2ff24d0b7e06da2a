"""
The lattice on which lines find their way: which nodes are barred by symbols, held by a net, or better left to a label.

A node is a number, so that the search, which asks for a million of them, counts instead of comparing pairs: a
step right or left is a column of nodes on or back, a step down or up is one. Round the lattice stands a rim that
nothing may enter.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from diagrams.places import Box, Placed, Spot
from diagrams.proportions import KEEP_OFF, STEP

Node = tuple[int, int]

Bearing = int
"""A node and the way by which it was reached: four times the number of the node, and the number of the way."""
Ends = dict[Bearing, tuple[list[Node], Spot]]
"""Where ways may begin or end: the nodes straight out of a port, and the spot of the port."""

WAYS: dict[str, Node] = {"right": (1, 0), "down": (0, 1), "left": (-1, 0), "up": (0, -1)}
NUMBERED = {way: number for number, way in enumerate(WAYS.values())}
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

ALONG, UPRIGHT, TURNS = 1, 2, 4
"""How a net passes a node that it holds: along, upright, with a bend, an end or a branch."""

BARRED, RIM = 1, 2
"""Nodes that a way may not enter: those of a symbol unless it ends there, those of the rim never."""

GOAL = 4
"""A node at which the way that is searched may end."""


@dataclass
class Way:
    """From the ink of one port to that of another: the nodes between, and the spots of the two ports."""

    nodes: list[Node]
    first: Spot
    last: Spot


class Lattice:
    """The lattice of one drawing."""

    def __init__(self, placed: Iterable[Placed], wishes: Iterable[Box]) -> None:
        items = list(placed)
        self.left = int(min(p.box.left for p in items) // STEP) - ROUND
        self.top = int(min(p.box.top for p in items) // STEP) - ROUND
        self.right = int(max(p.box.right for p in items) // STEP) + ROUND + 1
        self.bottom = int(max(p.box.bottom for p in items) // STEP) + ROUND + 1
        self.column = self.bottom - self.top + 3
        self.moves = (self.column, 1, -self.column, -1)
        self.ground = self._ground(items)
        self.held: dict[int, dict[int, int]] = {}
        self.reserved: dict[int, dict[int, int]] = {}
        self.nodes_of: dict[int, set[int]] = {}
        self.steps: dict[int, set[tuple[int, int]]] = {}
        self.wished: dict[int, float] = {}
        self.owner: dict[Node, str] = {}
        for one in items:
            for node in inside(one.box.grown(KEEP_OFF)):
                self.owner[node] = one.item.tag
        for one in items:
            for node in inside(one.box.grown(STEP + 2)):
                self.wished[self.number(node)] = NEAR_SYMBOL
        for box in wishes:
            for node in inside(box.grown(3)):
                if self.has(node):
                    self.wished[self.number(node)] = OVER_LABEL

    def _ground(self, items: Sequence[Placed]) -> bytearray:
        """Every node of the lattice: open, barred by a symbol, or of the rim."""
        ground = bytearray([RIM]) * ((self.right - self.left + 3) * self.column)
        for x in range(self.left, self.right + 1):
            first = self.number((x, self.top))
            ground[first : first + self.bottom - self.top + 1] = bytes(self.bottom - self.top + 1)
        for one in items:
            for node in inside(one.box.grown(KEEP_OFF)):
                ground[self.number(node)] = BARRED
        return ground

    def number(self, node: Node) -> int:
        """The number of a node."""
        return (node[0] - self.left + 1) * self.column + node[1] - self.top + 1

    def node(self, number: int) -> Node:
        """The node of a number."""
        x, y = divmod(number, self.column)
        return (x + self.left - 1, y + self.top - 1)

    def has(self, node: Node) -> bool:
        """Whether a node lies on the lattice."""
        return self.left <= node[0] <= self.right and self.top <= node[1] <= self.bottom

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
        while near or self.owner.get(nodes[-1]) == placed.item.tag:
            x, y = x + dx, y + dy
            nodes.append((x, y))
            near = False
        return nodes, (dx, dy)

    def hold(self, net: int, nodes: Sequence[Node]) -> None:
        """Mark the nodes of a way as held by its net."""
        numbers = [self.number(node) for node in nodes]
        last = len(nodes) - 1
        for index, number in enumerate(numbers):
            mask = 0
            for other in (index - 1, index + 1):
                if 0 <= other <= last:
                    mask |= UPRIGHT if abs(numbers[other] - number) == 1 else ALONG
            if mask == ALONG | UPRIGHT or index in (0, last):
                mask |= TURNS
            masks = self.held.setdefault(number, {})
            before = masks.get(net, 0)
            masks[net] = before | mask | (TURNS if before and before != mask else 0)
        self.nodes_of.setdefault(net, set()).update(numbers)
        steps = self.steps.setdefault(net, set())
        for one, two in pairwise(numbers):
            steps.add((one, two))
            steps.add((two, one))

    def reserve(self, net: int, nodes: Sequence[Node]) -> None:
        """Keep the way out of a port for its own net."""
        for node in nodes:
            of_net = self.reserved.setdefault(net, {})
            number = self.number(node)
            of_net[number] = of_net.get(number, 0) | TURNS
        self.forget(net)

    def forget(self, net: int) -> None:
        """Forget every way of a net but the ways out of its ports."""
        for number in self.nodes_of.pop(net, ()):
            del self.held[number][net]
        self.steps.pop(net, None)
        for number, mask in self.reserved.get(net, {}).items():
            self.held.setdefault(number, {})[net] = mask
            self.nodes_of.setdefault(net, set()).add(number)

    def price(self, net: int, number: int, way: int) -> float | None:
        """What it costs to enter a node along (way 1) or upright (way 2); None if that cannot be."""
        cost = 1.0
        held = self.held
        if masks := held.get(number):
            for other, mask in masks.items():
                if other == net:
                    continue
                if mask & (TURNS | way):
                    return None
                cost += CROSSING
        aside = 1 if way == ALONG else self.column
        for beside in (number - aside, number + aside):
            if masks := held.get(beside):
                for other, mask in masks.items():
                    if other != net and mask & way:
                        cost += BESIDE_LINE
        return cost + self.wished.get(number, 0.0)

    def passed_by_others(self, net: int, number: int) -> bool:
        """Whether another net passes here, so that this one may neither bend nor end."""
        masks = self.held.get(number, {})
        return len(masks) > 1 or (len(masks) == 1 and net not in masks)

    def search(self, net: int, start: tuple[Placed, str], end: tuple[Placed, str]) -> Way | None:
        """The cheapest way of a net from a port of one item to a port of another; None if there is none."""
        goals, begun = self._ends(net, *end, arriving=True), self._ends(net, *start, arriving=False)
        if not goals or not begun:
            return None
        moves, ground, held = self.moves, bytearray(self.ground), self.held
        steps = self.steps.get(net, set())
        drawn = {one for one, _ in steps}
        left_to_go = _Distance(self, [bearing >> 2 for bearing in goals])
        ends_at: dict[int, list[Bearing]] = {}
        for goal in goals:
            ends_at.setdefault(goal >> 2, []).append(goal)
            ground[goal >> 2] |= GOAL
        prices: tuple[dict[int, float | None], dict[int, float | None]] = ({}, {})

        # Ties are broken by the order in which ways were found, so that the same drawing always comes out.
        best: dict[Bearing, float] = dict.fromkeys(begun, 0.0)
        came: dict[Bearing, Bearing] = {}
        queue = [(left_to_go[bearing >> 2], count, 0.0, bearing) for count, bearing in enumerate(begun)]
        heapq.heapify(queue)
        count = len(queue)
        while queue:
            _, _, cost, bearing = heapq.heappop(queue)
            if cost > best[bearing] + 1e-9:
                continue
            if bearing in goals:
                return self._way(bearing, came, begun, goals)
            number, way = bearing >> 2, bearing & 3
            straight_only = number in held and self.passed_by_others(net, number)
            for turn in (way,) if straight_only else TURNS_FROM[way]:
                following = number + moves[turn]
                reached = following << 2 | turn
                ends = None
                if ground[following]:
                    ends = ends_at.get(following)
                    if ends is None or ground[following] & RIM:
                        continue
                elif cost + TOGETHER >= best.get(reached, math.inf) - 1e-9:
                    continue  # a step costs no less: somebody was here as cheaply
                if (number, following) in steps:
                    price = TOGETHER
                else:
                    known = prices[turn & 1]
                    if following in known:
                        step = known[following]
                    else:
                        step = known[following] = self.price(net, following, UPRIGHT if turn & 1 else ALONG)
                    if step is None:
                        continue
                    joints = (number in drawn) + (following in drawn)
                    price = step + joints * JOIN + (BEND if turn != way else 0.0)
                dearer = cost + price
                if dearer < best.get(reached, math.inf) - 1e-9:
                    best[reached] = dearer
                    came[reached] = bearing
                    heapq.heappush(queue, (dearer + left_to_go[following], count, dearer, reached))
                    count += 1
                if ends is None:
                    continue
                for goal in ends:  # the last bend may lie where the straight way into the port begins
                    if (goal ^ turn) & 1 and not self.passed_by_others(net, following):
                        dearer = cost + (price + BEND)
                        if dearer < best.get(goal, math.inf) - 1e-9:
                            best[goal] = dearer
                            came[goal] = bearing
                            heapq.heappush(queue, (dearer + left_to_go[following], count, dearer, goal))
                            count += 1
        return None

    def _ends(self, net: int, placed: Placed, port: str, *, arriving: bool) -> Ends:
        """The nodes straight out of a port, and its spot, by the bearing at which a way begins or ends."""
        ends: Ends = {}
        for spot in placed.ports[port]:
            nodes, (dx, dy) = self.way_out(placed, spot)
            if self._free_way(net, nodes, placed):
                way = NUMBERED[(-dx, -dy) if arriving else (dx, dy)]
                ends[self.number(nodes[-1]) << 2 | way] = (nodes, spot)
        return ends

    def _free_way(self, net: int, nodes: Sequence[Node], placed: Placed) -> bool:
        """Whether the way out of a port is barred by no other symbol and held by no other net."""
        return not any(
            self.owner.get(node, placed.item.tag) != placed.item.tag or self.passed_by_others(net, self.number(node))
            for node in nodes
        )

    def _way(
        self,
        bearing: Bearing,
        came: Mapping[Bearing, Bearing],
        begun: Ends,
        goals: Ends,
    ) -> Way:
        """The way that was found, put together from its end."""
        end_nodes, last = goals[bearing]
        nodes = [self.node(bearing >> 2)]
        while bearing in came:
            bearing = came[bearing]
            nodes.append(self.node(bearing >> 2))
        start_nodes, first = begun[bearing]
        nodes.extend(reversed(start_nodes[:-1]))
        nodes.reverse()
        nodes.extend(reversed(end_nodes[:-1]))
        return Way(nodes, first, last)


TURNS_FROM = tuple(tuple(turn for turn in range(4) if turn == way or (turn ^ way) & 1) for way in range(4))
"""The ways by which one may go on from each, in their order: never back."""


class _Distance(dict[int, float]):
    """The least that any way from a node to the nearest of some nodes can cost, worked out where it is asked for."""

    def __init__(self, lattice: Lattice, targets: Sequence[int]) -> None:
        super().__init__()
        self._column = lattice.column
        places = [divmod(target, self._column) for target in targets]
        self._left, self._right = min(x for x, _ in places), max(x for x, _ in places)
        self._top, self._bottom = min(y for _, y in places), max(y for _, y in places)

    def __missing__(self, number: int) -> float:
        x, y = divmod(number, self._column)
        across = max(self._left - x, x - self._right, 0)
        upright = max(self._top - y, y - self._bottom, 0)
        self[number] = least = TOGETHER * (across + upright) + (BEND if across and upright else 0.0)
        return least


def inside(box: Box) -> Iterator[Node]:
    """The nodes strictly inside a box."""
    for x in range(int(box.left // STEP), int(box.right // STEP) + 2):
        if box.left < x * STEP < box.right:
            for y in range(int(box.top // STEP), int(box.bottom // STEP) + 2):
                if box.top < y * STEP < box.bottom:
                    yield (x, y)
