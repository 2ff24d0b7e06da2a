"""Where symbols stand: their outlines and ports, turned as the item asks, and the stretching grid."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import NamedTuple

from schemdraw import Drawing

from diagrams.errors import DrawingError
from diagrams.ink import Paper, attributes, number
from diagrams.items import Item
from diagrams.proportions import OUTLINE, PITCH, STEP, STRETCH, WIDEST_GAP
from diagrams.symbols import SIDES, Setting, Symbol, symbol_class

TURNS = {"right": 0, "up": 90, "left": 180, "down": 270}


TALLEST = 60.0
"""A symbol that reaches half a row up and down reaches no further than this."""
HAIR = 1e-6
"""Boxes that overlap by less than this only touch."""


class Box(NamedTuple):
    """An upright rectangle, y downward; a drawing makes and compares so many of them that it is a tuple."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Box:
        """The rectangle with an edge added all round."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def moved(self, x: float, y: float) -> Box:
        """The rectangle elsewhere."""
        return Box(self.left + x, self.top + y, self.right + x, self.bottom + y)

    def meets(self, other: Box) -> bool:
        """Whether two rectangles share more than an edge."""
        return (
            self.left + HAIR < other.right
            and other.left + HAIR < self.right
            and self.top + HAIR < other.bottom
            and other.top + HAIR < self.bottom
        )

    def joined(self, other: Box) -> Box:
        """The smallest rectangle round both."""
        return Box(
            min(self.left, other.left), min(self.top, other.top),
            max(self.right, other.right), max(self.bottom, other.bottom),
        )  # fmt: skip


@dataclass(frozen=True)
class Spot:
    """A point at which a line may meet a symbol, and the side to which the line leaves."""

    x: float
    y: float
    side: str


@dataclass(frozen=True)
class Outline:
    """A symbol's ink and ports, around the place of its item; y downward."""

    box: Box
    ports: dict[str, tuple[Spot, ...]]


def check(item: Item) -> None:
    """Refuse an item whose facing or state its symbol cannot show."""
    kind = symbol_class(item.symbol)
    if item.facing not in TURNS:
        raise DrawingError(f"{item.tag} faces {item.facing!r}; an item faces {', '.join(TURNS)}")
    if kind.turns == "aside" and item.facing in ("up", "down"):
        raise DrawingError(f"{item.tag} faces {item.facing!r}, but a {kind.says} stands upright: right or left")
    if item.state is not None and item.state not in kind.states:
        wanted = f"it shows {', '.join(kind.states)}" if kind.states else "it shows no states"
        raise DrawingError(f"{item.tag} is said to be {item.state!r}, which a {kind.says} cannot be: {wanted}")


def turned(name: str, facing: str, setting: Setting) -> Symbol:
    """A symbol, turned as its item faces and placed at (0, 0) of a drawing of its own."""
    kind = symbol_class(name)
    symbol = kind(setting)
    if facing == "left":
        symbol.reverse()
    elif kind.turns == "round":
        symbol.theta(TURNS[facing])
    elif facing == "down":
        symbol.flip()
    Drawing(show=False).add(symbol.at((0, 0)))
    return symbol


@lru_cache(maxsize=2048)
def strokes(name: str, facing: str, setting: Setting, weight: float) -> str:
    """The strokes of a symbol around (0, 0), as SVG."""
    symbol = turned(name, facing, setting)
    paper = Paper(weight)
    for segment in symbol.segments:
        segment.draw(paper, symbol.transform, lw=weight, ls="-")
    return paper.drawn()


def symbol_group(name: str, facing: str, setting: Setting, x: float, y: float, weight: float = OUTLINE) -> str:
    """A symbol at its place, as one group of a drawing."""
    about = attributes(
        class_="gw-symbol", transform=f"translate({number(x)} {number(y)})", fill="none", stroke="currentColor",
        stroke_width=weight, stroke_linecap="round", stroke_linejoin="round",
    )  # fmt: skip
    return f"<g{about}>{strokes(name, facing, setting, weight)}</g>"


def _side(kind: type[Symbol], facing: str, side: str) -> str:
    """The side of a port after the symbol was turned."""
    x, y = SIDES[side]
    if facing == "left":
        x = -x
    elif kind.turns == "round":
        for _ in range(TURNS[facing] // 90):
            x, y = -y, x
    elif facing == "down":
        y = -y
    return next(name for name, way in SIDES.items() if way == (x, y))


@lru_cache(maxsize=2048)
def outline(name: str, facing: str, setting: Setting) -> Outline:
    """Ink and ports of a symbol in any of its states, so that a drawing keeps still when a state changes."""
    kind = symbol_class(name)
    box: Box | None = None
    for state in kind.states or (None,):
        left, bottom, right, top = turned(name, facing, replace(setting, state=state)).ink()
        ink = Box(round(left, 6), round(-top, 6), round(right, 6), round(-bottom, 6))
        box = ink if box is None else box.joined(ink)
    assert box is not None
    symbol = turned(name, facing, replace(setting, state=None))
    at = symbol.absanchors
    ports = {
        port: tuple(
            Spot(round(at[anchor][0], 6), round(-at[anchor][1], 6), _side(kind, facing, side)) for anchor, side in spots
        )
        for port, spots in symbol.sides.items()
    }
    return Outline(box, ports)


@dataclass
class Axis:
    """One direction of the author's grid: whole numbers stand at places, the gaps between them may grow."""

    first: int
    gaps: list[int]

    @classmethod
    def over(cls, values: Iterable[float]) -> Axis:
        """The axis that holds all these values."""
        kept = list(values)
        first, last = math.floor(min(kept)), math.ceil(max(kept))
        return cls(first, [PITCH] * max(1, last - first))

    def at(self, value: float) -> float:
        """Where a value stands; between whole numbers the gap is shared out, on the lattice."""
        index = min(max(math.floor(value) - self.first, 0), len(self.gaps) - 1)
        share = value - (self.first + index)
        return sum(self.gaps[:index]) + round(share * self.gaps[index] / STEP) * STEP

    def stretch(self, low: float, high: float, by: int) -> bool:
        """Let the gaps that touch this stretch grow; False if they are all at their widest."""
        first = max(0, math.ceil(low - 1e-9) - 1 - self.first)
        last = min(len(self.gaps) - 1, math.floor(high + 1e-9) - self.first)
        grown = False
        for index in range(first, last + 1):
            if self.gaps[index] < WIDEST_GAP:
                self.gaps[index] = min(self.gaps[index] + by, WIDEST_GAP)
                grown = True
        return grown


@dataclass(frozen=True)
class Placed:
    """An item at its place: where it stands, its ink and its ports in the drawing."""

    item: Item
    kind: type[Symbol]
    setting: Setting
    x: float
    y: float
    box: Box
    ports: dict[str, tuple[Spot, ...]]


class Grid:
    """The author's grid, whose gaps grow where something finds no room."""

    def __init__(self, items: Sequence[Item], gaps: tuple[Sequence[int], Sequence[int]] | None = None) -> None:
        for item in items:
            if not all(math.isfinite(value) for value in item.at):
                raise DrawingError(f"{item.tag} stands at {item.at}, which is no place")
            if max(map(abs, item.at)) > 500:
                raise DrawingError(f"{item.tag} stands at {item.at}; a place lies within 500 columns and rows")
        self.columns = Axis.over(item.at[0] for item in items)
        self.rows = Axis.over(item.at[1] for item in items)
        if gaps is not None:
            self.columns.gaps, self.rows.gaps = list(gaps[0]), list(gaps[1])

    @property
    def gaps(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """How wide each gap is by now."""
        return tuple(self.columns.gaps), tuple(self.rows.gaps)

    def place(self, item: Item) -> Placed:
        """An item at its place."""
        kind = symbol_class(item.symbol)
        x, row = self.columns.at(item.at[0]), item.at[1]
        y = self.rows.at(row)
        setting = Setting(
            tag=item.tag if kind.tag_inside else "",
            state=item.state,
            above=min(y - self.rows.at(row - 0.5), TALLEST),
            below=min(self.rows.at(row + 0.5) - y, TALLEST),
        )
        around = outline(item.symbol, item.facing, replace(setting, state=None))
        ports = {
            name: tuple(Spot(spot.x + x, spot.y + y, spot.side) for spot in spots)
            for name, spots in around.ports.items()
        }
        return Placed(item, kind, setting, x, y, around.box.moved(x, y), ports)

    def stretch_around(self, *items: Item, sideways: bool, by: int = STRETCH) -> bool:
        """Let the grid grow round these items in one direction, or in the other if that is at its widest."""
        for axis, index in ((self.columns, 0), (self.rows, 1)) if sideways else ((self.rows, 1), (self.columns, 0)):
            values = [item.at[index] for item in items]
            if axis.stretch(min(values), max(values), by):
                return True
        return False
