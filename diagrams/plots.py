"""
Curves: a plain plot in the manner of the drawings.

Each series has its dash and its name at its end, so that neither colour nor a legend is needed. The words for those
who cannot see the plot are handed in as its description. What belongs to one level axis, in other units, stands in
panels one above the other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from diagrams.errors import DrawingError
from diagrams.ink import TEXT_GROUP, attributes, number, text_element
from diagrams.items import Text
from diagrams.metrics import ASCENT, DESCENT, widest
from diagrams.panels import Limit, Mark, Panel, Series
from diagrams.places import Box
from diagrams.proportions import DETAIL, LABEL, LEADING, MARGIN, PANEL_HEIGHT, PLOT, PLOT_CURVE, PLOT_DASHES, TICK
from diagrams.schematic import frame
from diagrams.ticks import Axis, Ticks, ticks_of

__all__ = ["Axis", "Limit", "Mark", "Panel", "Series", "plot", "plot_panels", "ticks_of"]


def plot(
    series: Sequence[Series],
    x_axis: Axis,
    y_axis: Axis,
    *,
    title: str,
    description: str | Text,
    identity: str,
    limits: Sequence[Limit] = (),
    marks: Sequence[Mark] = (),
) -> str:
    """A plot as one inline `<svg>`; what cannot be drawn raises a `DrawingError`."""
    panel = Panel(y_axis, tuple(series), tuple(limits), tuple(marks))
    return plot_panels([panel], x_axis, title=title, description=description, identity=identity)


def plot_panels(panels: Sequence[Panel], x_axis: Axis, *, title: str, description: str | Text, identity: str) -> str:
    """Panels over one level axis as one inline `<svg>`; what cannot be drawn raises a `DrawingError`."""
    for panel in panels:
        panel.check()
    if not panels:
        raise DrawingError(f"plot {identity} needs at least one panel")
    if not (description.workshop if isinstance(description, Text) else description).strip():
        raise DrawingError(f"plot {identity} needs a description for those who cannot see it")
    x_ticks = ticks_of(x_axis, [x for panel in panels for x in panel.xs])
    parts: list[str] = []
    top, left, right = 0.0, 0.0, 0.0
    for at, panel in enumerate(panels):
        about = 6 if panel.height > PANEL_HEIGHT else 4
        y_ticks = ticks_of(panel.y_axis, panel.ys, about)
        box = Box(0, top, PLOT[0], top + panel.height)
        field = Field(x_ticks, y_ticks, box, panel.y_axis.logarithmic)
        parts.append(_frame_and_ticks(field, x_axis if at == len(panels) - 1 else None, panel.y_axis))
        parts += [_curve(one, index, field) for index, one in enumerate(panel.series)]
        taken = _ink(panel.series, field)
        # The lines of all limits and the points of all marks keep their labels off before the first is written.
        taken += [box for limit in panel.limits for box in _limit_ink(limit, field)]
        taken += [_mark_ink(mark, field) for mark in panel.marks]
        parts += [_limit(limit, field, taken) for limit in panel.limits]
        parts += [_mark(mark, field, taken) for mark in panel.marks]
        names, edge = _end_names(panel.series, field)
        parts += names
        left = min(left, -TICK - 6 - max(widest(said.versions, LABEL) for _, said in y_ticks) - MARGIN)
        right = max(right, edge, widest(panel.y_axis.label.versions, LABEL) - TICK)
        top = box.bottom + LABEL * (2 * LEADING + 1)
    left = min(left, -widest(x_ticks[0][1].versions, LABEL) / 2 - MARGIN)
    right = max(right, PLOT[0] + widest(x_ticks[-1][1].versions, LABEL) / 2) + MARGIN
    bottom = box.bottom + TICK + LABEL * (2 * LEADING + 1) + MARGIN
    return frame("".join(parts), left, -LABEL * (LEADING + 1) - MARGIN, right, bottom, title=title,
                 description=description, identity=identity, class_="gw-drawing gw-plot")  # fmt: skip


@dataclass(frozen=True)
class Field:
    """The paper within the axes, and where values stand on it."""

    x_ticks: Ticks
    y_ticks: Ticks
    box: Box
    logarithmic: bool = False

    def x(self, value: float) -> float:
        """Where a value of the level axis stands."""
        low, high = self.x_ticks[0][0], self.x_ticks[-1][0]
        return self.box.left + (value - low) / (high - low) * (self.box.right - self.box.left)

    def y(self, value: float) -> float:
        """Where a value of the upright axis stands."""
        low, high = self.y_ticks[0][0], self.y_ticks[-1][0]
        if self.logarithmic:
            low, high, value = math.log(low), math.log(high), math.log(value)
        return self.box.bottom - (value - low) / (high - low) * (self.box.bottom - self.box.top)


def _written(x: float, y: float, text: Text, class_: str = "gw-label", anchor: str = "middle") -> str:
    said = text_element(x, y, text.workshop, LABEL, class_=class_, anchor=anchor, si=text.si, us=text.us)
    return f"<g{TEXT_GROUP}>{said}</g>"


def _frame_and_ticks(field: Field, x_axis: Axis | None, y_axis: Axis) -> str:
    """The axes of a field; without a level axis its ticks go unnamed, since they are named below another field."""
    box = field.box
    grid, ticks, texts = [], [], []
    for value, said in field.x_ticks:
        x = field.x(value)
        grid.append(f"M{number(x)} {number(box.top)}V{number(box.bottom)}")
        ticks.append(f"M{number(x)} {number(box.bottom)}v{number(TICK)}")
        if x_axis is not None:
            texts.append(_written(x, box.bottom + TICK + 2 + LABEL * ASCENT, said, "gw-tick"))
    for value, said in field.y_ticks:
        y = field.y(value)
        grid.append(f"M{number(box.left)} {number(y)}H{number(box.right)}")
        ticks.append(f"M{number(box.left)} {number(y)}h{number(-TICK)}")
        texts.append(_written(box.left - TICK - 3, y + LABEL * 0.36, said, "gw-tick", "end"))
    middle = (box.left + box.right) / 2
    if x_axis is not None:
        texts.append(_written(middle, box.bottom + TICK + LABEL * (LEADING + 1) + 4, x_axis.label, "gw-axis"))
    texts.append(_written(box.left - TICK, box.top - LABEL * 0.8, y_axis.label, "gw-axis", "start"))
    grid_about = attributes(class_="gw-grid", d="".join(grid), stroke_width=0.5, opacity=0.28)
    axes = f"M{number(box.left)} {number(box.top)}V{number(box.bottom)}H{number(box.right)}{''.join(ticks)}"
    axes_about = attributes(class_="gw-axes", d=axes, stroke_width=DETAIL)
    return f'<g fill="none" stroke="currentColor"><path{grid_about}/><path{axes_about}/></g>{"".join(texts)}'


def _curve(one: Series, index: int, field: Field) -> str:
    d = "".join(
        f"{'L' if at else 'M'}{number(field.x(x))} {number(field.y(y))}" for at, (x, y) in enumerate(one.points)
    )
    about = attributes(
        class_=f"gw-series gw-series-{index + 1}", d=d, fill="none", stroke="currentColor", stroke_width=PLOT_CURVE,
        stroke_dasharray=PLOT_DASHES[index] or None, stroke_linejoin="round",
    )  # fmt: skip
    if not one.dotted:
        return f"<path{about}/>"
    dots = "".join(
        f"<circle{attributes(class_='gw-dot', cx=field.x(x), cy=field.y(y), r=2.6, fill='currentColor')}/>"
        for x, y in one.points
    )
    return f"<path{about}/>{dots}"


def _ink(series: Sequence[Series], field: Field) -> list[Box]:
    """Small boxes along the curves, so that no label is put on one."""
    boxes = []
    for one in series:
        for (ax, ay), (bx, by) in pairwise(one.points):
            start, end = (field.x(ax), field.y(ay)), (field.x(bx), field.y(by))
            pieces = max(1, math.ceil(math.dist(start, end) / 4))
            for piece in range(pieces + 1):
                x = start[0] + (end[0] - start[0]) * piece / pieces
                y = start[1] + (end[1] - start[1]) * piece / pieces
                boxes.append(Box(x - 2, y - 2, x + 2, y + 2))
    return boxes


def _freest(choices: Sequence[Box], taken: list[Box], field: Field) -> Box:
    """The first of the places that meets least, within the axes."""

    def cost(box: Box) -> float:
        outside = max(0.0, field.box.left - box.left) + max(0.0, box.right - field.box.right)
        outside += max(0.0, field.box.top - box.top) + max(0.0, box.bottom - field.box.bottom)
        return sum(box.meets(other) for other in taken) + outside

    best = min(choices, key=cost)
    taken.append(best)
    return best


def _limit_ink(limit: Limit, field: Field) -> list[Box]:
    """Small boxes along the line of a limit."""
    box = field.box
    if limit.upright_axis:
        y = field.y(limit.value)
        return [Box(x, y - 1, x + 4, y + 1) for x in range(int(box.left), int(box.right), 4)]
    x = field.x(limit.value)
    return [Box(x - 1, y, x + 1, y + 4) for y in range(int(box.top), int(box.bottom), 4)]


def _limit(limit: Limit, field: Field, taken: list[Box]) -> str:
    wide, tall = widest(limit.label.versions, LABEL), LABEL * (ASCENT + DESCENT)
    box = field.box
    shares = (0, 1, 0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875)
    if limit.upright_axis:
        y = field.y(limit.value)
        d = f"M{number(box.left)} {number(y)}H{number(box.right)}"
        lefts = [box.left + 6 + share * (box.right - box.left - wide - 12) for share in shares]
        places = [Box(left, top, left + wide, top + tall) for top in (y - 3 - tall, y + 3) for left in lefts]
    else:
        x = field.x(limit.value)
        d = f"M{number(x)} {number(box.top)}V{number(box.bottom)}"
        tops = [box.top + 6 + share * (box.bottom - box.top - tall - 12) for share in shares]
        places = [Box(left, top, left + wide, top + tall) for left in (x + 4, x - 4 - wide) for top in tops]
    place = _freest(places, taken, field)
    line = attributes(class_="gw-limit", d=d, stroke="currentColor", stroke_width=1.2, stroke_dasharray="1.5 3")
    return f"<path{line}/>{_written(place.left, place.top + LABEL * ASCENT, limit.label, 'gw-label', 'start')}"


def _mark_ink(mark: Mark, field: Field) -> Box:
    x, y = field.x(mark.x), field.y(mark.y)
    return Box(x - 4, y - 4, x + 4, y + 4)


def _mark(mark: Mark, field: Field, taken: list[Box]) -> str:
    x, y = field.x(mark.x), field.y(mark.y)
    wide, tall = widest(mark.label.versions, LABEL), LABEL * (ASCENT + DESCENT)
    places = [
        Box(left, top, left + wide, top + tall)
        for away in (6, 14, 24, 36, 50)
        for left in (x + away, x - away - wide, x - wide / 2)
        for top in (y - away - tall, y + away, y - tall / 2)
        if not (left == x - wide / 2 and top == y - tall / 2)
    ]
    place = _freest(places, taken, field)
    dot = attributes(class_="gw-point", cx=x, cy=y, r=3.2, fill="none", stroke="currentColor", stroke_width=1.5)
    return f"<circle{dot}/>{_written(place.left, place.top + LABEL * ASCENT, mark.label, 'gw-label', 'start')}"


def _end_names(series: Sequence[Series], field: Field) -> tuple[list[str], float]:
    """The names of the series right of the axes, each level with the end of its curve as far as they leave room."""
    ends = [(field.x(one.points[-1][0]), field.y(one.points[-1][1])) for one in series]
    order = sorted(range(len(series)), key=lambda index: (ends[index][1], index))
    apart = LABEL * LEADING + 1
    heights = [ends[index][1] for index in order]
    for _ in range(200):
        moved = False
        for at in range(len(heights) - 1):
            short = apart - (heights[at + 1] - heights[at])
            if short > 0.01:
                heights[at] -= short / 2
                heights[at + 1] += short / 2
                moved = True
        if not moved:
            break
    # A name that sinks below the axes would meet what is written at the last tick.
    lowest = field.box.bottom - 2
    for at in reversed(range(len(heights))):
        heights[at] = min(heights[at], lowest)
        lowest = heights[at] - apart
    parts, edge, left = [], field.box.right, field.box.right + 16
    for height, index in zip(heights, order, strict=True):
        x, y = ends[index]
        if x < field.box.right - 0.5 or abs(height - y) > 0.5:
            lead = f"M{number(x + 2)} {number(y)}L{number(left - 4)} {number(height)}"
            parts.append(f"<path{attributes(class_='gw-lead', d=lead, stroke='currentColor', stroke_width=0.6)}/>")
        parts.append(_written(left, height + LABEL * 0.36, series[index].name, "gw-label gw-series-name", "start"))
        edge = max(edge, left + widest(series[index].name.versions, LABEL))
    return parts, edge
