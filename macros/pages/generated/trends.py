"""Readings of one figure over time, plotted with what was predicted and what is accepted."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Sequence
from html import escape

from diagrams.items import Text
from diagrams.plots import Axis, Limit, Series, plot
from macros.figures.graph import Value
from macros.pages.context import PageContext
from macros.pages.drawing import framed
from macros.quantities import say
from macros.review.readings import Compared

__all__ = ["trend_figure", "trends_in"]

FEWEST = 2
TICKS = 4


def trends_in(readings: Iterable[Compared]) -> Iterator[list[Compared]]:
    """The readings of each figure that was measured on more than one day, in the order of days."""
    by_figure: dict[str, list[Compared]] = {}
    for one in readings:
        if one.predicted is not None and not one.reason:
            by_figure.setdefault(one.reading.figure, []).append(one)
    for found in by_figure.values():
        if len({one.reading.date for one in found}) >= FEWEST:
            yield found


def trend_figure(trend: Sequence[Compared], page: PageContext) -> str:
    """A trend as a figure with its caption."""
    predicted = trend[0].predicted
    assert predicted is not None
    days = [datetime.date.fromisoformat(one.reading.date) for one in trend]
    points = [(float((day - days[0]).days), _in_unit(one.si, predicted)) for day, one in zip(days, trend, strict=True)]
    allowed = trend[-1].allowed_si or 0.0
    limits = [Limit(_in_unit(float(predicted.si), predicted), Text(say("pages.trend.predicted")))]
    if allowed:
        limits += [
            Limit(_in_unit(float(predicted.si) + side * allowed, predicted), Text(say("pages.trend.accepted")))
            for side in (-1, 1)
        ]
    title = say("pages.trend.title", what=predicted.title)
    told = "; ".join(f"{one.reading.date}: {one.reading.value.text}" for one in trend)
    svg = plot(
        [Series(Text(say("pages.trend.measured")), tuple(points))],
        Axis(Text(say("pages.trend.day")), ticks=_ticks(days)),
        Axis(Text(f"{predicted.title} ({predicted.unit_for().symbol})" if predicted.unit else predicted.title)),
        title=title,
        description=say("pages.trend.description", what=predicted.title, predicted=predicted.show(), readings=told),
        identity=page.identity(f"trend-{predicted.name.replace('.', '-')}"),
        limits=limits,
    )
    return f'<div data-trend="{escape(predicted.name)}">{framed(svg, title, escape(title))}</div>'


def _in_unit(si: float, predicted: Value) -> float:
    """A value in the unit in which the figure is shown."""
    own = predicted.unit_for()
    base = predicted.atmosphere_pa or 0.0
    return own.from_si(si - (base if own.kind == "gauge_pressure" else 0.0))


def _ticks(days: Sequence[datetime.date]) -> tuple[tuple[float, Text], ...]:
    """Days along the level axis, from the first reading to the last."""
    span = (days[-1] - days[0]).days
    places = sorted({round(span * share / (TICKS - 1)) for share in range(TICKS)})
    return tuple((float(place), Text((days[0] + datetime.timedelta(days=place)).isoformat())) for place in places)
