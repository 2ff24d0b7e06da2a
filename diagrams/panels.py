"""What a plot is made from: curves, limits and marked points, in panels."""

from __future__ import annotations

import math
from dataclasses import dataclass

from diagrams.errors import DrawingError
from diagrams.items import Text
from diagrams.proportions import PLOT, PLOT_DASHES
from diagrams.ticks import Axis

__all__ = ["Limit", "Mark", "Panel", "Series"]


@dataclass(frozen=True)
class Series:
    """One curve: its name and its points, in the units of its axes; `dotted` where only the points mean something."""

    name: Text
    points: tuple[tuple[float, float], ...]
    dotted: bool = False


@dataclass(frozen=True)
class Limit:
    """A value not to be passed, drawn across the plot: of the upright axis, or of the level one."""

    value: float
    label: Text
    upright_axis: bool = True


@dataclass(frozen=True)
class Mark:
    """One point that is pointed out, with its label."""

    x: float
    y: float
    label: Text


@dataclass(frozen=True)
class Panel:
    """One field of a plot: its upright axis and what is drawn in it."""

    y_axis: Axis
    series: tuple[Series, ...]
    limits: tuple[Limit, ...] = ()
    marks: tuple[Mark, ...] = ()
    height: float = PLOT[1]

    @property
    def xs(self) -> list[float]:
        """All places on the level axis."""
        xs = [x for one in self.series for x, _ in one.points] + [mark.x for mark in self.marks]
        return xs + [limit.value for limit in self.limits if not limit.upright_axis]

    @property
    def ys(self) -> list[float]:
        """All places on the upright axis."""
        ys = [y for one in self.series for _, y in one.points] + [mark.y for mark in self.marks]
        return ys + [limit.value for limit in self.limits if limit.upright_axis]

    def check(self) -> None:
        """Raise a `DrawingError` if something in it has no place."""
        if not self.series:
            raise DrawingError("a plot needs at least one series")
        if len(self.series) > len(PLOT_DASHES):
            raise DrawingError(
                f"a plot shows at most {len(PLOT_DASHES)} series that can be told apart, not {len(self.series)}"
            )
        for one in self.series:
            if len(one.points) < 2:
                raise DrawingError(f"series {one.name.workshop} needs at least two points")
            for x, y in one.points:
                if not (math.isfinite(x) and math.isfinite(y)):
                    raise DrawingError(f"series {one.name.workshop} holds ({x}, {y}), which is no point")
        for value in [limit.value for limit in self.limits] + [
            number_ for mark in self.marks for number_ in (mark.x, mark.y)
        ]:
            if not math.isfinite(value):
                raise DrawingError(f"{value} is no place for a limit or a mark")
