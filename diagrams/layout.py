"""
The plan of a drawing: where every symbol, line and text stands, before anything is drawn.

Nothing on a plan overlaps. Where a text or a line finds no room the grid grows there and the plan is made anew,
so the same items and lines always give the same plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from diagrams.errors import DrawingError
from diagrams.flags import Flag, Wanted, place_flags
from diagrams.items import Item, Line, Text
from diagrams.lettering import Block, NoRoomError, Room, first_wish, label_rows, mark_rows, place_blocks
from diagrams.pipes import (
    Arrow,
    Letters,
    LineLabel,
    Point,
    Run,
    bridge,
    dots_of,
    runs_of,
    set_arrow,
    set_label,
    set_letters,
)
from diagrams.places import Box, Grid, Placed, check
from diagrams.proportions import APART, DOT, HOP, LABEL, LIVE, MARGIN, MEDIUM, STRETCH
from diagrams.routes import Leg, NoWayError, legs_of, route
from diagrams.words import letters_of


@dataclass(frozen=True)
class Plan:
    """Where everything stands."""

    placed: dict[str, Placed]
    legs: list[Leg]
    runs: list[list[Run]]
    hops: list[Point]
    dots: list[tuple[Point, Leg]]
    arrows: list[Arrow]
    letters: list[Letters]
    line_labels: list[LineLabel]
    blocks: list[tuple[Placed, Block]]
    box: Box
    flags: tuple[Flag, ...] = ()

    def legs_at(self, tag: str) -> int:
        """How many legs end at an item."""
        return sum(tag in (leg.start.item.tag, leg.end.item.tag) for leg in self.legs)

    def text_boxes(self) -> list[Box]:
        """The boxes of all texts outside symbols."""
        return [
            *(block.box for _, block in self.blocks),
            *(letters.box for letters in self.letters),
            *(label.box for label in self.line_labels),
            *(flag.box for flag in self.flags),
        ]


Gaps = tuple[tuple[int, ...], tuple[int, ...]]


def plan(
    items: Sequence[Item], lines: Sequence[Line], signs: Mapping[str, Text], wanted: Sequence[Wanted] = ()
) -> Plan:
    """
    Make the plan; `signs` are the words of the marks that are shown, `wanted` the flags that must find room.

    The grid is first let grow for the bare plant, without states, marks and labels of lines, so that the drawings
    of all steps of a procedure stand still as long as their marks find room.
    """
    _check(items, lines)
    bare_items = tuple(replace(item, state=None, marks=frozenset(), href=None, title="") for item in items)
    bare_lines = tuple(replace(line, label=None, live=False) for line in lines)
    made, _ = _grown(items, lines, signs, _bare_gaps(bare_items, bare_lines), wanted)
    return made


@lru_cache(maxsize=64)
def _bare_gaps(items: tuple[Item, ...], lines: tuple[Line, ...]) -> Gaps:
    return _grown(items, lines, {}, None)[1]


def _grown(
    items: Sequence[Item],
    lines: Sequence[Line],
    signs: Mapping[str, Text],
    gaps: Gaps | None,
    wanted: Sequence[Wanted] = (),
) -> tuple[Plan, Gaps]:
    """The plan on a grid that grew until everything found room."""
    grid = Grid(items, gaps)
    tried: Counter[str] = Counter()
    while True:
        try:
            return _attempt(items, lines, signs, grid, wanted), grid.gaps
        except NoWayError as none:
            leg = none.leg
            name, what = leg.line.id, f"line {leg.line.id} from {leg.start.item.tag} to {leg.end.item.tag} finds"
            around = [(leg.start, leg.end)[tried[name] % 2].item]
            sideways = tried[name] % 4 < 2
        except NoRoomError as none:
            around = list(none.items)
            name, what = around[0].tag, f"{none.what} {' and '.join(item.tag for item in around)} find"
            sideways = tried[name] % 2 == 0
        tried[name] += 1
        by = STRETCH * (1 + tried[name] // 5)  # what still finds no room after some tries needs more of it
        if not any(grid.stretch_around(item, sideways=sideways, by=by) for item in around):
            raise DrawingError(f"{what} no room on the drawing; place the items further apart")


def _check(items: Sequence[Item], lines: Sequence[Line]) -> None:
    if not items:
        raise DrawingError("a drawing needs at least one item")
    tags, names = [item.tag for item in items], [line.id for line in lines]
    for kind, called in (("items are tagged", tags), ("lines are called", names)):
        for name, count in Counter(called).items():
            if count > 1:
                raise DrawingError(f"two {kind} {name}; each needs its own")
    stood: dict[tuple[float, float], str] = {}
    for item in items:
        check(item)
        place = (float(item.at[0]), float(item.at[1]))
        if place in stood:
            raise DrawingError(
                f"{stood[place]} and {item.tag} both stand at column {place[0]:g}, row {place[1]:g}; move one of them"
            )
        stood[place] = item.tag


def _attempt(
    items: Sequence[Item], lines: Sequence[Line], signs: Mapping[str, Text], grid: Grid, wanted: Sequence[Wanted]
) -> Plan:
    placed = {item.tag: grid.place(item) for item in items}
    everything = list(placed.values())
    _keep_apart(everything)
    labels = [
        (one, label_rows(one.item, with_tag=one.kind.tag_shown and not one.kind.tag_inside)) for one in everything
    ]
    labels = [(one, rows) for one, rows in labels if rows]
    legs = legs_of(lines, placed)
    route(legs, placed, [first_wish(one, rows) for one, rows in labels])
    runs = runs_of(legs)
    every_run = [run for leg_runs in runs for run in leg_runs]
    hops = bridge(every_run)
    dots = dots_of(legs)

    room = Room()
    for one in placed.values():
        room.take(one.box)
    for x, y in hops:
        room.take(Box(x - HOP, y - HOP - 1, x + HOP, y))
    for (x, y), _ in dots:
        room.take(Box(x - DOT, y - DOT, x + DOT, y + DOT))

    letters, unlettered = _letters_in_gaps(lines, every_run, room)
    arrows: list[Arrow] = []
    for leg_runs in runs:
        arrow = set_arrow(leg_runs, room)
        if arrow is not None:
            arrows.append(arrow)
    for run in every_run:
        room.take(run.box(LIVE))
    for arrow in arrows:
        room.take(arrow.box)
    for line in unlettered:
        beside = _beside(line, Text(letters_of(line.medium)), legs, every_run, room, MEDIUM)
        letters.append(Letters(line.id, beside.text.workshop, beside.box))

    # Marks come and go from step to step, so they are placed last, where the labels leave room.
    blocks = place_blocks(labels, room, everything)
    marks = [(one, rows) for one in everything if (rows := mark_rows(one.item, signs))]
    line_labels = [_beside(line, line.label, legs, every_run, room, LABEL) for line in lines if line.label is not None]

    blocks += place_blocks(marks, room, everything)
    flags = tuple(place_flags(wanted, placed, room))

    box = None
    boxes = [one.box for one in placed.values()] + [run.box(LIVE) for run in every_run]
    boxes += [block.box for _, block in blocks] + [text.box for text in line_labels] + [text.box for text in letters]
    boxes += [flag.box for flag in flags]
    for one_box in boxes:
        box = one_box if box is None else box.joined(one_box)
    assert box is not None
    return Plan(placed, legs, runs, hops, dots, arrows, letters, line_labels, blocks, box.grown(MARGIN), flags)


def _keep_apart(placed: Sequence[Placed]) -> None:
    for index, one in enumerate(placed):
        wide = one.box.grown(APART)
        for other in placed[index + 1 :]:
            if wide.meets(other.box):
                raise NoRoomError([one.item, other.item], "the symbols")


def _letters_in_gaps(lines: Sequence[Line], every_run: Sequence[Run], room: Room) -> tuple[list[Letters], list[Line]]:
    """The letters that stand in gaps of their lines, and the lines with no stretch long enough for that."""
    placed: list[Letters] = []
    missing: list[Line] = []
    pipes = Room()
    for run in every_run:
        pipes.take(run.box(LIVE))
    for line in lines:
        own = [run for run in every_run if run.leg.line.id == line.id and not run.leg.to_instrument]
        if not own:
            continue
        letters = set_letters(own, letters_of(line.medium), room, pipes)
        if letters is None:
            missing.append(line)
        else:
            room.take(letters.box)
            placed.append(letters)
    return placed, missing


def _beside(
    line: Line, text: Text, legs: Sequence[Leg], every_run: Sequence[Run], room: Room, size: float
) -> LineLabel:
    """A text beside a line: along what is drawn for it alone, or else along all of its way."""
    own = [run for run in every_run if run.leg.line.id == line.id]
    way = [Run(leg, one, two) for leg in legs if leg.line.id == line.id for one, two in pairwise(leg.points)]
    label = set_label(own, text, room, size) or set_label(way, text, room, size)
    if label is None:
        raise NoRoomError(_ends(line, legs), f"the texts of line {line.id} between")
    room.take(label.box)
    return replace(label, line=line.id)


def _ends(line: Line, legs: Sequence[Leg]) -> list[Item]:
    """The two items between which a line has its longest leg."""
    own = [leg for leg in legs if leg.line.id == line.id]
    longest = max(own, key=lambda leg: (not leg.to_instrument, leg.distance))
    return [longest.start.item, longest.end.item]
