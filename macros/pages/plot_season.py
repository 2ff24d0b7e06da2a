"""The plot of a year: what is stored, and the surplus and the demand that fill and empty it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate

from macros.calculations.season import Season
from macros.description.hourly import HourlyYear
from macros.figures.graph import Graph
from macros.figures.plant import Plant
from macros.pages.plot_picture import Field, Limit, Measure, Picture, curve, named, telling
from macros.quantities import say

__all__ = ["season"]

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
BEGINS = (0, *accumulate(DAYS))
MIDDLES = tuple(float(begin + days // 2) for begin, days in zip(BEGINS, DAYS, strict=False))
"""A day in the middle of each month, at which its mean stands."""
DAY_S, HOUR_S = 86400.0, 3600.0


def season(plant: Plant) -> Iterator[Picture]:
    """The stored mass at the end of each day, and the energy of a mean day of each month."""
    graph = plant.graph
    year: Season = graph["season.run"].si
    stored = [(0.0, year.first_kg)]
    stored += [
        (time / DAY_S, kg) for time, kg in zip(year.times, year.stored, strict=True) if round(time) % int(DAY_S) == 0
    ]
    surplus, wanted = _months(graph)
    months = say("pages.plot.months").split()
    names = {float(day): months[month % 12] for month, day in enumerate(BEGINS)}
    middles = {middle: say("pages.plot.middle", month=months[month]) for month, middle in enumerate(MIDDLES)}
    told = middles | {0.0: say("pages.plot.year_begin"), float(BEGINS[-1]): say("pages.plot.year_end")}
    whence = "by_hour" if "demand.hourly" in graph else "by_month"
    yield Picture(
        "season",
        say("pages.plot.season.title"),
        telling("season.told", capacity=graph["season.capacity"].shown(), made=graph["season.made"].shown(),
            peak=graph["season.stored_peak"].shown(), missing=graph["season.missing"].shown(),
            left=graph["season.left_over"].shown(), whence=say(f"pages.plot.season.{whence}")),
        Measure(say("pages.plot.begins"), named=names, told=told),
        (
            Field(Measure(say("pages.plot.stored"), "kg"), (curve(say("pages.plot.in_store"), tuple(stored)),),
                  (Limit(graph["season.capacity"].si, named("store_full", graph["season.capacity"].shown())),), from_zero=True),
            Field(Measure(say("pages.plot.daily"), "kWh"),
                  (curve(say("pages.plot.surplus"), _mid_month(surplus), True), curve(say("pages.plot.demand"), _mid_month(wanted), True)),
                  from_zero=True),
        ),
        MIDDLES,
    )  # fmt: skip


def _months(graph: Graph) -> tuple[list[float], list[float]]:
    """Surplus and demand of a mean day of each month. [J]"""
    if "demand.hourly" in graph:
        hours: HourlyYear = graph["demand.hourly"].si
        return _means(hours.surplus_w), _means(hours.demand_w)
    surplus = [float(graph[f"power.surplus.{month}"].si) for month in range(1, 13)]
    return surplus, [float(graph["demand.daily_energy"].si)] * 12


def _means(hours: Sequence[tuple[float, float]]) -> list[float]:
    return [
        sum(watts for _, watts in hours[24 * BEGINS[month] : 24 * BEGINS[month + 1]]) * HOUR_S / DAYS[month]
        for month in range(12)
    ]


def _mid_month(values: Sequence[float]) -> tuple[tuple[float, float], ...]:
    return tuple(zip(MIDDLES, values, strict=True))
