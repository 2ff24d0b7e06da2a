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
from macros.pages.numbers import as_typed
from macros.pages.plot_picture import Measure
from macros.quantities import Shown, System, say
from macros.review.readings import Compared

__all__ = ["trend_figure", "trends_in"]

SYSTEMS: tuple[System, ...] = ("workshop", "si", "us")
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
    measure = Measure.of(predicted)
    points = [(float((day - days[0]).days), measure.place(one.si)) for day, one in zip(days, trend, strict=True)]
    allowed = trend[-1].allowed_si or 0.0
    limits = [Limit(measure.place(float(predicted.si)), Text(say("pages.trend.predicted")))]
    if allowed:
        limits += [
            Limit(measure.place(float(predicted.si) + side * allowed), Text(say("pages.trend.accepted")))
            for side in (-1, 1)
        ]
    title = say("pages.trend.title", what=predicted.title)
    readings = [(one.reading.date, as_typed(one.reading.value)) for one in trend]
    svg = plot(
        [Series(Text(say("pages.trend.measured")), tuple(points))],
        Axis(Text(say("pages.trend.day")), ticks=_ticks(days)),
        measure.axis([*(y for _, y in points), *(limit.value for limit in limits)]),
        title=title,
        description=Text(*(_described(predicted, readings, system) for system in SYSTEMS)),
        identity=page.identity(f"trend-{predicted.name.replace('.', '-')}"),
        limits=limits,
    )
    return f'<div data-trend="{escape(predicted.name)}">{framed(svg, title, escape(title))}</div>'


def _described(predicted: Value, readings: Iterable[tuple[str, Shown]], system: System) -> str:
    """What the trend shows, for those who hear it."""
    told = "; ".join(f"{date}: {getattr(value, system)}" for date, value in readings)
    return say("pages.trend.description", what=predicted.title, predicted=predicted.show(system=system), readings=told)


def _ticks(days: Sequence[datetime.date]) -> tuple[tuple[float, Text], ...]:
    """Days along the level axis, from the first reading to the last."""
    span = (days[-1] - days[0]).days
    places = sorted({round(span * share / (TICKS - 1)) for share in range(TICKS)})
    return tuple((float(place), Text((days[0] + datetime.timedelta(days=place)).isoformat())) for place in places)
