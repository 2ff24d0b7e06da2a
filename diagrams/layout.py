"""
The plan of a drawing: where every symbol, line and text stands, before anything is drawn.

Nothing on a plan overlaps. Where a text or a line finds no room the grid grows there and the plan is made anew,
so the same items and lines always give the same plan.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from diagrams.errors import DrawingError
from diagrams.items import Item, Line, Text
from diagrams.lettering import Block, NoRoom, Room, Row, first_wish, place_blocks, rows_of
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
from diagrams.places import Box, Grid, Placed
from diagrams.proportions import APART, DOT, HOP, LIVE, MARGIN
from diagrams.routes import Leg, NoWay, legs_of, route
from diagrams.symbols import symbol_class
from diagrams.words import letters_of

TRIES = 400


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

    def text_boxes(self) -> list[Box]:
        """The boxes of all texts outside symbols."""
        return [
            *(block.box for _, block in self.blocks),
            *(letters.box for letters in self.letters),
            *(label.box for label in self.line_labels),
        ]


def plan(items: Sequence[Item], lines: Sequence[Line], signs: dict[str, Text]) -> Plan:
    """Make the plan; `signs` are the words of the marks that are shown."""
    _check(items, lines)
    grid = Grid(items)
    tried: Counter[str] = Counter()
    for _ in range(TRIES):
        try:
            return _attempt(items, lines, signs, grid)
        except NoWay as none:
            leg = none.leg
            tried[leg.line.id] += 1
            turn = tried[leg.line.id]
            around, what = [(leg.start, leg.end)[turn % 2].item], f"line {leg.line.id}"
            sideways = turn % 4 < 2
            where = f"from {leg.start.item.tag} to {leg.end.item.tag}"
        except NoRoom as none:
            around = list(none.items)
            what, where = "the labels", f"of {', '.join(item.tag for item in around)}"
            tried[around[0].tag] += 1
            sideways = tried[around[0].tag] % 2 == 1
        grown = [grid.stretch_around(item, sideways=sideways) for item in around]
        if not any(grown):
            break
    raise DrawingError(f"{what} {where} find no room; place the items further apart")


def _check(items: Sequence[Item], lines: Sequence[Line]) -> None:
    if not items:
        raise DrawingError("a drawing needs at least one item")
    for kind, names in (("items are tagged", [item.tag for item in items]), ("lines are called", [line.id for line in lines])):  # fmt: skip
        for name, count in Counter(names).items():
            if count > 1:
                raise DrawingError(f"two {kind} {name}; each needs its own")
    stood: dict[tuple[float, float], str] = {}
    for item in items:
        symbol_class(item.symbol)
        place = (float(item.at[0]), float(item.at[1]))
        if place in stood:
            raise DrawingError(
                f"{stood[place]} and {item.tag} both stand at column {place[0]:g}, row {place[1]:g}; move one of them"
            )
        stood[place] = item.tag


def _attempt(items: Sequence[Item], lines: Sequence[Line], signs: dict[str, Text], grid: Grid) -> Plan:
    placed = {item.tag: grid.place(item) for item in items}
    _keep_apart(list(placed.values()))
    rows = {one.item.tag: _rows(one, signs) for one in placed.values()}
    legs = legs_of(lines, placed)
    route(legs, placed, [first_wish(one, rows[tag]) for tag, one in placed.items() if rows[tag]])
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

    letters = _letters(lines, legs, runs, room)
    arrows: list[Arrow] = []
    for leg_runs in runs:
        arrow = set_arrow(leg_runs, room)
        if arrow is not None:
            arrows.append(arrow)
    for run in every_run:
        room.take(run.box(LIVE))
    for arrow in arrows:
        room.take(arrow.box)

    wanted = [(one, rows[tag]) for tag, one in placed.items() if rows[tag]]
    blocks = place_blocks(wanted, room, list(placed.values()))
    line_labels = []
    for line in lines:
        if line.label is not None:
            own = [run for leg, leg_runs in zip(legs, runs, strict=True) if leg.line.id == line.id for run in leg_runs]
            label = set_label(own, line.label, room) if own else None
            if label is None:
                raise NoRoom(_ends(line, legs))
            room.take(label.box)
            line_labels.append(label)

    box = None
    boxes = [one.box for one in placed.values()] + [run.box(LIVE) for run in every_run]
    boxes += [block.box for _, block in blocks] + [label.box for label in line_labels]
    for one_box in boxes:
        box = one_box if box is None else box.joined(one_box)
    assert box is not None
    return Plan(placed, legs, runs, hops, dots, arrows, letters, line_labels, blocks, box.grown(MARGIN))


def _rows(one: Placed, signs: dict[str, Text]) -> tuple[Row, ...]:
    shown = [(mark, signs[mark]) for mark in sorted(one.item.marks) if mark in signs]
    with_tag = one.kind.tag_shown and not one.kind.tag_inside
    return rows_of(one.item, with_tag=with_tag, signs=shown)


def _keep_apart(placed: Sequence[Placed]) -> None:
    for index, one in enumerate(placed):
        wide = one.box.grown(APART)
        for other in placed[index + 1 :]:
            if wide.meets(other.box):
                raise NoRoom([one.item, other.item])


def _letters(lines: Sequence[Line], legs: Sequence[Leg], runs: Sequence[Sequence[Run]], room: Room) -> list[Letters]:
    placed = []
    every_run = [run for leg_runs in runs for run in leg_runs]
    for line in lines:
        own = [run for run in every_run if run.leg.line.id == line.id and not run.leg.to_instrument]
        if not own:
            continue
        letters = set_letters(own, letters_of(line.medium), room, every_run)
        if letters is None:
            raise NoRoom(_ends(line, legs))
        room.take(letters.box)
        placed.append(letters)
    return placed


def _ends(line: Line, legs: Sequence[Leg]) -> list[Item]:
    """The two items between which a line has its longest leg."""
    own = [leg for leg in legs if leg.line.id == line.id and not leg.to_instrument]
    longest = max(own, key=lambda leg: abs(leg.start.x - leg.end.x) + abs(leg.start.y - leg.end.y))
    return [longest.start.item, longest.end.item]
