"""
The schematic of the wall guide: the plan of the handbook's drawing, drawn closer together, with tags that can be read.

Tags keep the size of type that the paper demands, however small the drawing becomes; it takes the least height at
which every tag finds room. Everything is plain black with presentation attributes, for a printer that knows no style.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from diagrams.ink import attributes, number
from diagrams.items import Text
from diagrams.layout import Plan
from diagrams.lettering import NoRoomError, Room, Row, place_blocks
from diagrams.pipes import Arrow, Run, arrow_path, dot_path, path_of
from diagrams.places import Box, Placed, symbol_group
from diagrams.proportions import DASHES, DOT, HOP
from diagrams.squeeze import Squeeze
from macros.sheets.wall.fonts import CAPITALS, tag_width

__all__ = ["Drawn", "draw"]

KEEPS = (6.0, 12.0, 18.0, 24.0, 32.0, 44.0, 60.0)
"""Empty strips are left this wide, tried one after another."""
PIPE, INSTRUMENT_LINE, OUTLINE = 1.9, 1.2, 1.9
"""Weights in units of the plan: heavier than on a screen, since the drawing is made small."""
MARGIN = 4.0
BESIDE = 0.16
"""White on either side of a tag, in font sizes, so that two tags never read as one."""
INK = "#000000"
LEAST_STROKE = 0.3
"""No stroke is thinner, however small the drawing. [pt]"""
CLEAR_DASHES = 0.32
"""Points for a unit at which dashes are still told apart; where a drawing is smaller, they are made longer."""
LETTERS = re.compile(r"<g[^>]*><text[^>]*>[^<]*</text></g>")
"""Letters inside symbols would be too small to read; the tag says it."""
WEIGHT = re.compile(r' stroke-width="([\d.]+)"')


@dataclass(frozen=True)
class Drawn:
    """A drawing for a sheet: its strokes as SVG, its size in points, and where its tags stand in it."""

    svg: str
    width: float
    height: float
    scale: float
    """Points for a unit of the plan."""
    tags: tuple[tuple[str, float, float], ...]
    """Each tag with its left edge and the top of its capitals, from the top left corner. [pt]"""


@dataclass(frozen=True)
class TagRow(Row):
    """A tag in the font of the sheet, as high as its capitals."""

    @property
    def width(self) -> float:
        em = self.size / CAPITALS
        return tag_width(self.text.workshop, em) + 2 * BESIDE * em


class _Close:
    """A plan drawn closer together."""

    def __init__(self, plan: Plan, across: Squeeze, upright: Squeeze) -> None:
        self.x, self.y = across, upright
        self.placed = {tag: self._placed(placed) for tag, placed in plan.placed.items()}
        self.runs = [[self._run(run) for run in leg] for leg in plan.runs]
        self.dots = [self._point(point) for point, _ in plan.dots]
        self.arrows = [self._arrow(arrow) for arrow in plan.arrows]
        self.tees = {tag for tag, placed in plan.placed.items() if not placed.kind.tag_shown and plan.legs_at(tag) > 1}
        every = [placed.box for placed in self.placed.values()] + [run.box(PIPE) for leg in self.runs for run in leg]
        self.box = functools.reduce(Box.joined, every)

    def _point(self, point: tuple[float, float]) -> tuple[float, float]:
        return self.x(point[0]), self.y(point[1])

    def _placed(self, placed: Placed) -> Placed:
        x, y = self._point((placed.x, placed.y))
        setting = replace(placed.setting, tag="")
        return replace(placed, x=x, y=y, setting=setting, box=placed.box.moved(x - placed.x, y - placed.y), ports={})

    def _run(self, run: Run) -> Run:
        hops = [abs(self.x(run.at(hop)[0]) - self.x(run.start[0])) for hop in run.hops]
        return Run(run.leg, self._point(run.start), self._point(run.end), hops)

    def _arrow(self, arrow: Arrow) -> Arrow:
        return replace(arrow, tip=self._point(arrow.tip))


def draw(plan: Plan, width: float, height: float, size: float) -> Drawn | None:
    """
    The drawing, as large as it can be in a space where every tag finds room.

    Parameters
    ----------
    plan : Plan
    width, height : float
        Of the paper that it may take. [pt]
    size : float
        Of the type of its tags. [pt]

    Returns
    -------
    Drawn or None
        None if the tags find no room at this size of type.
    """
    across, upright = _squeezes(plan)
    ways = [(min(width / _length(x), height / _length(y)), x, y) for x in across for y in upright]
    for scale, x, y in sorted(ways, key=lambda way: -way[0]):
        close = _Close(plan, x, y)
        tags = _tags(close, size / scale)
        if tags is not None:
            return _drawn(close, tags, width, height)
    return None


def _squeezes(plan: Plan) -> tuple[list[Squeeze], list[Squeeze]]:
    """Ways to draw the plan closer together, sideways and upright."""
    runs = [run for leg in plan.runs for run in leg]
    boxes = [placed.box.grown(2) for placed in plan.placed.values()]
    along = [run.box(2 * HOP) for run in runs if run.along]
    standing = [run.box(2 * HOP) for run in runs if not run.along]
    across = [(box.left, box.right) for box in (*boxes, *standing)]
    upright = [(box.top, box.bottom) for box in (*boxes, *along)]
    return [Squeeze.of(across, keep) for keep in KEEPS], [Squeeze.of(upright, keep) for keep in KEEPS]


def _length(squeeze: Squeeze) -> float:
    return squeeze.length + 2 * MARGIN


def _tags(close: _Close, size: float) -> list[tuple[str, Box]] | None:
    """Where the tags stand; none if one finds no room."""
    room = Room()
    for placed in close.placed.values():
        room.take(placed.box)
    for run in (run for leg in close.runs for run in leg):
        room.take(run.box(PIPE))
    for x, y in close.dots:
        room.take(Box(x - DOT, y - DOT, x + DOT, y + DOT))
    rows = [
        (placed, (TagRow(Text(tag), size * CAPITALS, "tag", bold=True),))
        for tag, placed in close.placed.items()
        if placed.kind.tag_shown
    ]
    try:
        blocks = place_blocks(rows, room, list(close.placed.values()))
    except NoRoomError:
        return None
    # A block is an em high, the letters stand on its baseline.
    return [(placed.item.tag, block.box) for placed, block in blocks]


def _drawn(close: _Close, tags: list[tuple[str, Box]], width: float, height: float) -> Drawn:
    box = functools.reduce(Box.joined, (box for _, box in tags), close.box).grown(MARGIN)
    wide, high = box.right - box.left, box.bottom - box.top
    # Tags at the edge may reach beyond the lines, and then make the drawing a little smaller.
    scale = min(width / wide, height / high)
    about = attributes(
        xmlns="http://www.w3.org/2000/svg", width=wide * scale, height=high * scale,
        viewBox=f"{number(box.left)} {number(box.top)} {number(wide)} {number(high)}", fill="none", stroke=INK,
    )  # fmt: skip
    content = "".join([*_pipes(close, max(1.0, CLEAR_DASHES / scale)), *_symbols(close)])
    heavy = WEIGHT.sub(lambda found: attributes(stroke_width=max(float(found[1]), LEAST_STROKE / scale)), content)
    svg = LETTERS.sub("", f"<svg{about}>{heavy}</svg>").replace("currentColor", INK)
    aside = BESIDE * (tags[0][1].bottom - tags[0][1].top) / CAPITALS if tags else 0.0
    placed = tuple((tag, (at.left + aside - box.left) * scale, (at.top - box.top) * scale) for tag, at in tags)
    return Drawn(svg, wide * scale, high * scale, scale, placed)


def _pipes(close: _Close, longer: float) -> Iterator[str]:
    for runs in close.runs:
        path = path_of(runs)
        if path:
            leg = runs[0].leg
            weight = INSTRUMENT_LINE if leg.to_instrument else PIPE
            dashes = DASHES.get(leg.line.medium, "").split()
            dash = " ".join(number(float(each) * longer) for each in dashes) or None
            yield f'<path d="{path}"{attributes(stroke_width=weight, stroke_dasharray=dash)}/>'
    for point in close.dots:
        yield dot_path(point)
    for arrow in close.arrows:
        yield arrow_path(arrow)


def _symbols(close: _Close) -> Iterator[str]:
    for tag, placed in close.placed.items():
        if tag not in close.tees:
            item = placed.item
            yield symbol_group(item.symbol, item.facing, placed.setting, placed.x, placed.y, OUTLINE)
