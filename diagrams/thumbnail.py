"""A small drawing of a plant: its main items in columns, joined in the order of the flow, for a cell of a table."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagrams.ink import attributes, number
from diagrams.places import Box, Outline, Spot, outline, symbol_group
from diagrams.schematic import frame
from diagrams.symbols import Setting

__all__ = ["thumbnail"]

COLUMN, ROW = 84.0, 78.0
"""Distance between two columns, and between two rows."""
HALF = 22.0
"""How far a symbol whose height can be chosen reaches up and down."""
CHANNEL = 46.0
"""How far below the last row a line runs that passes by items."""
EDGE = 5.0
WEIGHT = 2.6
"""Strokes are heavier than in a schematic, since the drawing is shown at less than its size."""
SHARE = 0.32
"""Natural size for a unit."""
LETTERS = re.compile(r"<g[^>]*><text[^>]*>[^<]*</text></g>")
"""Letters inside symbols would be too small to read."""
STARTS, ENDS = ("h2", "out"), ("in",)
"""Ports from which and to which lines are drawn."""


@dataclass(frozen=True)
class _Placed:
    symbol: str
    x: float
    y: float
    row: int
    column: int
    outline: Outline

    def spot(self, names: Sequence[str], side: str) -> tuple[float, float]:
        """Where a line meets the item: at a port on that side, or at the edge of its ink."""
        found = _spot(self.outline, names, side)
        if found is not None:
            return self.x + found.x, self.y + found.y
        return self.x + (self.outline.box.right if side == "right" else self.outline.box.left), self.y


def thumbnail(
    columns: Sequence[Sequence[tuple[str, str]]],
    ways: Sequence[tuple[str, str]],
    *,
    title: str,
    description: str,
    identity: str,
) -> str:
    """
    The drawing as inline SVG.

    Parameters
    ----------
    columns : sequence of sequence of tuple
        Tag and name of the symbol of each item, by column from the left.
    ways : sequence of tuple
        Pairs of tags; each leads to a column further right.
    title, description : str
        What it shows, for those who hear it.
    identity : str
        Beginning of its ids, unique on the page.
    """
    placed = _placed(columns)
    lines = [_route(placed[start], placed[end], placed) for start, end in ways]
    box = Box(0, 0, 0, 0)
    for item in placed.values():
        box = box.joined(item.outline.box.moved(item.x, item.y))
    for line in lines:
        for x, y in line:
            box = box.joined(Box(x, y, x, y))
    box = box.grown(EDGE)
    about = attributes(fill="none", stroke="currentColor", stroke_width=WEIGHT, stroke_linejoin="round")
    drawn = f"<g{about}>{''.join(map(_path, lines))}</g>" + "".join(
        LETTERS.sub("", symbol_group(item.symbol, "right", _setting(), item.x, item.y, WEIGHT))
        for item in placed.values()
    )
    svg = frame(drawn, box.left, box.top, box.right, box.bottom, title=title, description=description,
                identity=identity, class_="gw-thumbnail")  # fmt: skip
    width, height = box.right - box.left, box.bottom - box.top
    natural = attributes(width=width, height=height)
    return svg.replace(natural, attributes(width=width * SHARE, height=height * SHARE), 1)


def _setting() -> Setting:
    return Setting(above=HALF, below=HALF)


def _placed(columns: Sequence[Sequence[tuple[str, str]]]) -> dict[str, _Placed]:
    found = {}
    for column, held in enumerate(columns):
        for row, (tag, symbol) in enumerate(held):
            around = outline(symbol, "right", _setting())
            meets = _spot(around, ENDS, "left") or _spot(around, STARTS, "right")
            y = row * ROW - (meets.y if meets else 0.0)
            found[tag] = _Placed(symbol, column * COLUMN, y, row, column, around)
    return found


def _spot(around: Outline, names: Sequence[str], side: str) -> Spot | None:
    return next((spot for name in names for spot in around.ports.get(name, ()) if spot.side == side), None)


def _route(start: _Placed, end: _Placed, placed: Mapping[str, _Placed]) -> list[tuple[float, float]]:
    """The corners of a line: along the row of its end, else of its start, where no item stands in between."""
    (ax, ay), (bx, by) = start.spot(STARTS, "right"), end.spot(ENDS, "left")
    leaves, arrives = (start.column + 0.5) * COLUMN, (end.column - 0.5) * COLUMN
    between = {item.row for item in placed.values() if start.column < item.column < end.column}
    if end.row not in between:
        return [(ax, ay), (leaves, ay), (leaves, by), (bx, by)]
    if start.row not in between:
        return [(ax, ay), (arrives, ay), (arrives, by), (bx, by)]
    below = max(item.row for item in placed.values()) * ROW + CHANNEL
    return [(ax, ay), (leaves, ay), (leaves, below), (arrives, below), (arrives, by), (bx, by)]


def _path(corners: Sequence[tuple[float, float]]) -> str:
    return f'<path d="M{" L".join(_points(corners))}"/>'


def _points(corners: Sequence[tuple[float, float]]) -> Iterator[str]:
    last = None
    for x, y in corners:
        if (x, y) != last:
            yield f"{number(x)} {number(y)}"
        last = (x, y)
