"""
How the ways of lines are drawn: each stretch once, bridges where one passes over another, dots where pipes join,
gaps for the letters of the medium, arrows for the flow.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from diagrams.ink import attributes, number
from diagrams.items import Text
from diagrams.lettering import Room, letters_size
from diagrams.metrics import ASCENT, DESCENT, widest
from diagrams.places import Box
from diagrams.proportions import ARROW, DASHES, DOT, HOP, LABEL, LINE, LIVE, STEP, TAP
from diagrams.routes import Leg

Point = tuple[float, float]
Edge = tuple[Point, Point]

END = 5.0
"""A line stays unbroken at least this far from its corners, ports and bridges."""


@dataclass
class Run:
    """A straight stretch of a leg, with what interrupts it; positions count from its start."""

    leg: Leg
    start: Point
    end: Point
    hops: list[float] = field(default_factory=list)
    gaps: list[tuple[float, float]] = field(default_factory=list)

    @property
    def along(self) -> bool:
        """Whether the stretch lies level."""
        return self.start[1] == self.end[1]

    @property
    def length(self) -> float:
        """Its length."""
        return abs(self.end[0] - self.start[0]) + abs(self.end[1] - self.start[1])

    def at(self, position: float) -> Point:
        """A point of the stretch."""
        share = position / self.length
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )

    def free(self, position: float, half: float) -> bool:
        """Whether nothing interrupts the stretch round a position, ends included."""
        return (
            half + END <= position <= self.length - half - END
            and all(abs(position - hop) >= half + HOP + 2 for hop in self.hops)
            and all(position + half + END <= low or high <= position - half - END for low, high in self.gaps)
        )

    def box(self, weight: float) -> Box:
        """The paper that the stretch takes."""
        (ax, ay), (bx, by) = self.start, self.end
        return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)).grown(weight / 2)


@dataclass(frozen=True)
class Letters:
    """Letters that stand in a gap of a line."""

    line: str
    text: str
    box: Box


@dataclass(frozen=True)
class LineLabel:
    """A label beside a line."""

    line: str
    text: Text
    box: Box


@dataclass(frozen=True)
class Arrow:
    """A flow arrow: its tip and the way it points."""

    run: Run
    tip: Point
    way: tuple[int, int]

    @property
    def box(self) -> Box:
        """The paper that the arrow takes."""
        length, width = ARROW
        dx, dy = self.way
        tail = (self.tip[0] - dx * length, self.tip[1] - dy * length)
        half = width / 2
        return Box(
            min(tail[0], self.tip[0]) - abs(dy) * half, min(tail[1], self.tip[1]) - abs(dx) * half,
            max(tail[0], self.tip[0]) + abs(dy) * half, max(tail[1], self.tip[1]) + abs(dx) * half,
        )  # fmt: skip


def steps_of(leg: Leg) -> list[Point]:
    """Every node of the way of a leg, from ink to ink."""
    assert leg.first is not None and leg.last is not None
    raw = [(leg.first.x, leg.first.y), *((float(x * STEP), float(y * STEP)) for x, y in leg.nodes),
           (leg.last.x, leg.last.y)]  # fmt: skip
    return [point for index, point in enumerate(raw) if index == 0 or point != raw[index - 1]]


def runs_of(legs: Sequence[Leg]) -> list[list[Run]]:
    """The straight stretches of each leg; what a net has drawn already is not drawn again."""
    drawn: set[tuple[int, Edge]] = set()
    found: dict[int, list[Run]] = {}
    for index in sorted(range(len(legs)), key=lambda i: (not legs[i].line.live, legs[i].to_instrument, i)):
        leg = legs[index]
        runs: list[Run] = []
        unbroken = False
        steps = steps_of(leg)
        for one, two in pairwise(steps):
            edge = (leg.net, (min(one, two), max(one, two)))
            if edge in drawn:
                unbroken = False
                continue
            drawn.add(edge)
            level = one[1] == two[1]
            if unbroken and runs[-1].along == level:
                runs[-1].end = two
            else:
                runs.append(Run(leg, one, two))
            unbroken = True
        found[index] = runs
    return [found[index] for index in range(len(legs))]


def bridge(runs: Sequence[Run]) -> list[Point]:
    """Let level stretches pass over upright ones of other nets; the places are returned."""
    places = []
    for level in (run for run in runs if run.along):
        for upright in (run for run in runs if not run.along and run.leg.net != level.leg.net):
            x, y = upright.start[0], level.start[1]
            low, high = sorted((level.start[0], level.end[0]))
            top, bottom = sorted((upright.start[1], upright.end[1]))
            if low < x < high and top < y < bottom:
                level.hops.append(abs(x - level.start[0]))
                places.append((x, y))
        level.hops.sort()
    return sorted(places)


def dots_of(legs: Sequence[Leg]) -> list[tuple[Point, Leg]]:
    """Where the pipes of a net join: every point from which three ways or more lead."""
    ways: dict[tuple[int, Point], set[Point]] = {}
    owner: dict[tuple[int, Point], Leg] = {}
    ends: set[tuple[int, Point]] = set()
    for leg in legs:
        steps = steps_of(leg)
        for placed, point in ((leg.start, steps[0]), (leg.end, steps[-1])):
            if placed.kind.tag_shown:
                ends.add((leg.net, point))
        for one, two in pairwise(steps):
            for here, there in ((one, two), (two, one)):
                key = (leg.net, here)
                ways.setdefault(key, set()).add(there)
                owner.setdefault(key, leg)
    return [
        (point, owner[net, point])
        for (net, point), others in sorted(ways.items())
        if len(others) + ((net, point) in ends) >= 3
    ]


def set_letters(line_runs: Sequence[Run], text: str, room: Room, pipes: Room) -> Letters | None:
    """Put the letters of a medium into the best gap of a line; None if no stretch is long enough."""
    across, upright = letters_size(text)
    best: tuple[float, Run, float, Box] | None = None
    for run in line_runs:
        half = (across if run.along else upright) / 2
        for tenth in (5, 4, 6, 3, 7, 2, 8):
            position = round(run.length * tenth / 10, 1)
            if not run.free(position, half):
                continue
            x, y = run.at(position)
            box = Box(x - across / 2, y - upright / 2, x + across / 2, y + upright / 2)
            if not room.fits(box, 1.0) or pipes.meeting(box) > 1:  # the one that it meets is its own
                continue
            worth = min(run.length, 200) - abs(tenth - 5) * 3 - (0 if run.along else 30)
            if best is None or worth > best[0] + 1e-9:
                best = (worth, run, position, box)
    if best is None:
        return None
    _, run, position, box = best
    half = (across if run.along else upright) / 2
    run.gaps.append((position - half, position + half))
    return Letters(run.leg.line.id, text, box)


def set_arrow(leg_runs: Sequence[Run], room: Room) -> Arrow | None:
    """Put a flow arrow on a leg: at the middle of a long stretch, or where it reaches the next item."""
    if not leg_runs or leg_runs[0].leg.to_instrument or leg_runs[0].leg.line.medium == "electric":
        return None
    length, _ = ARROW
    found: list[tuple[float, Arrow]] = []
    for run in leg_runs:
        way = (int(run.end[0] > run.start[0]) - int(run.end[0] < run.start[0]),
               int(run.end[1] > run.start[1]) - int(run.end[1] < run.start[1]))  # fmt: skip
        for share in (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9):
            position = round(run.length * share, 1)
            if run.free(position, length / 2):
                arrow = Arrow(run, run.at(position + length / 2), way)
                if room.fits(arrow.box, 1.0):
                    found.append((min(run.length, 120) - abs(share - 0.5) * 20, arrow))
    if not found:
        return None
    return max(found, key=lambda pair: pair[0])[1]


def set_label(line_runs: Sequence[Run], text: Text, room: Room, size: float = LABEL) -> LineLabel | None:
    """Put a label beside a line, at the best place along it."""
    width, height = widest(text.versions, size), size * (ASCENT + DESCENT)
    best: tuple[float, Box] | None = None
    for run in line_runs:
        for tenth in range(1, 10):
            x, y = run.at(run.length * tenth / 10)
            for away in (4.0, 10.0, 16.0):
                if run.along:
                    boxes = [Box(x - width / 2, y - away - height, x + width / 2, y - away),
                             Box(x - width / 2, y + away, x + width / 2, y + away + height)]  # fmt: skip
                else:
                    boxes = [Box(x + away, y - height / 2, x + away + width, y + height / 2),
                             Box(x - away - width, y - height / 2, x - away, y + height / 2)]  # fmt: skip
                for second, box in enumerate(boxes):
                    if room.fits(box):
                        overhang = max(0.0, (width if run.along else height) - run.length)
                        cost = away / 3 + second + abs(tenth - 5) + overhang / 5 - min(run.length, 120) / 20
                        cost += 0 if run.along else 3
                        if best is None or cost < best[0] - 1e-9:
                            best = (cost, box)
    return LineLabel(line_runs[0].leg.line.id, text, best[1]) if best else None


def path_of(runs: Sequence[Run]) -> str:
    """The stretches of a leg as one path, with its bridges and gaps."""
    parts: list[str] = []
    here: Point | None = None
    for run in runs:
        if run.length == 0:
            continue
        if here != run.start:
            parts.append(f"M{number(run.start[0])} {number(run.start[1])}")
        ahead = run.end[0] > run.start[0]
        breaks = [(hop - HOP, hop + HOP, True) for hop in run.hops] + [(low, high, False) for low, high in run.gaps]
        for low, high, over in sorted(breaks):
            (ax, ay), (bx, by) = run.at(low), run.at(high)
            parts.append(f"L{number(ax)} {number(ay)}")
            if over:
                parts.append(f"A{number(HOP)} {number(HOP)} 0 0 {1 if ahead else 0} {number(bx)} {number(by)}")
            else:
                parts.append(f"M{number(bx)} {number(by)}")
        parts.append(f"L{number(run.end[0])} {number(run.end[1])}")
        here = run.end
    return "".join(parts)


def medium_class(medium: str) -> str:
    """The class by which a page may colour the lines of a medium."""
    return f"gw-medium-{re.sub(r'[^a-z0-9_-]', '-', medium.lower())}"


def stroke_of(medium: str, *, live: bool = False, tap: bool = False) -> str:
    """Weight and dash of a line; heavier where the path is live, lighter where it only leads to an instrument."""
    return attributes(stroke_width=LIVE if live else TAP if tap else LINE, stroke_dasharray=DASHES.get(medium) or None)


def arrow_path(arrow: Arrow) -> str:
    """A flow arrow as a filled path."""
    length, width = ARROW
    (x, y), (dx, dy) = arrow.tip, arrow.way
    back_x, back_y = x - dx * length, y - dy * length
    half = width / 2
    points = f"{number(x)},{number(y)} {number(back_x - dy * half)},{number(back_y + dx * half)} "
    points += f"{number(back_x + dy * half)},{number(back_y - dx * half)}"
    return f'<polygon class="gw-arrow" points="{points}" fill="currentColor" stroke="none"/>'


def dot_path(point: Point) -> str:
    """The dot where pipes join."""
    return f'<circle class="gw-dot"{attributes(cx=point[0], cy=point[1], r=DOT)} fill="currentColor" stroke="none"/>'
