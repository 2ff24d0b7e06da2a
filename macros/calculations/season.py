"""
A year: surplus power comes and goes, the stack runs or rests, the store fills and empties.

Step by step, each step with one power throughout. The stack runs only while the surplus covers its smallest
power, and never below it; it starts cold each time it has rested, and pays for that. What the store cannot take is
left over, what it cannot give is missing. A kilogram takes the same energy at part load as at full load: at part
load the cells need less and crossover takes a larger share, and both are small beside the weather.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from macros.calculations.contract import OutOfRange, above, between, calculation, points, range_said

__all__ = ["Season", "Steps", "constant_demand", "day_of_sun", "follow_year", "year_of_days"]

Steps = Sequence[tuple[float, float]]
"""Beginning of each step and what holds in it."""

_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_HOUR = 3600.0


@dataclass(frozen=True)
class Season:
    """
    A year as followed.

    Attributes
    ----------
    made_kg, drawn_kg, missing_kg : float
        Hydrogen made, drawn by the use, and wanted but not there.
    peak_kg, lowest_kg, first_kg, last_kg : float
        Most and least that was stored, and what was stored at the beginning and at the end.
    running_s : float
        Time the stack ran.
    starts : int
        Times it started.
    used_j, left_over_j : float
        Surplus energy taken, and not taken.
    full_s : float
        Time the stack rested although there was surplus, because the store was full.
    stored : tuple of float
        What was stored at the end of each step. [kg]
    """

    made_kg: float
    drawn_kg: float
    missing_kg: float
    peak_kg: float
    lowest_kg: float
    first_kg: float
    last_kg: float
    running_s: float
    starts: int
    used_j: float
    left_over_j: float
    full_s: float
    times: tuple[float, ...] = field(repr=False)
    stored: tuple[float, ...] = field(repr=False)

    @property
    def residual(self) -> float:
        """Mass that the year lost or invented, over the mass that it moved."""
        moved = self.made_kg + self.drawn_kg + self.first_kg + self.last_kg
        return abs(self.first_kg + self.made_kg - self.drawn_kg - self.last_kg) / moved if moved else 0.0

    def __str__(self) -> str:
        return f"{len(self.stored)} steps, {self.starts} starts"


@calculation(
    opaque="a year step by step", surplus_w=points(), demand_w=points(), step_s=between(60.0, 40.0 * 86400.0),
    full_power_w=above(0.0, 1e8), smallest_power_w=between(0.0, 1e8), energy_j_per_kg=above(1e6, 1e10),
    start_j=between(0.0, 1e10), capacity_kg=above(0.0, 1e6), restart_room_kg=between(0.0, 1e6),
    first_kg=between(0.0, 1e6),
    heating_value_j_per_kg=above(1e6, 1e9),
)  # fmt: skip
def follow_year(
    surplus_w: Steps,
    demand_w: Steps,
    step_s: float,
    full_power_w: float,
    smallest_power_w: float,
    energy_j_per_kg: float,
    start_j: float,
    capacity_kg: float,
    restart_room_kg: float,
    first_kg: float,
    heating_value_j_per_kg: float,
) -> Season:
    """
    Follow a year of surplus and demand.

    Parameters
    ----------
    surplus_w : sequence of points
        Beginning of each step and the mean surplus power in it. [W]
    demand_w : sequence of points
        Beginning of each step and the mean demand in it, by the heating value given. [W]
    step_s : float
        Length of a step, a minute to 40 days. [s]
    full_power_w : float
        Power that the running plant draws at full load, above 0. [W]
    smallest_power_w : float
        Power below which the stack must not run, at most the full power. [W]
    energy_j_per_kg : float
        Electricity that a stored kilogram takes, starts left out. [J/kg]
    start_j : float
        Electricity that a cold start takes before gas comes, 0 or more. [J]
    capacity_kg : float
        Hydrogen that the store takes, above 0. [kg]
    restart_room_kg : float
        Room that a store which was full must have before the stack starts again, at most its capacity. [kg]
    first_kg : float
        Hydrogen in the store at the beginning, at most its capacity. [kg]
    heating_value_j_per_kg : float
        Heating value by which the demand is counted. [J/kg]

    Returns
    -------
    Season
        What happened, and what was stored at the end of each step. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, a power is negative, or the steps do not agree.

    Notes
    -----
    Balances of energy and mass, step by step [mass-balance].
    """
    if smallest_power_w > full_power_w:
        raise OutOfRange("follow_year", "smallest_power_w", smallest_power_w, range_said("most_full_power"))
    if first_kg > capacity_kg:
        raise OutOfRange("follow_year", "first_kg", first_kg, range_said("most_capacity"))
    if restart_room_kg > capacity_kg:
        raise OutOfRange("follow_year", "restart_room_kg", restart_room_kg, range_said("most_capacity"))
    if len(surplus_w) != len(demand_w):
        raise OutOfRange(
            "follow_year", "demand_w", float(len(demand_w)), range_said("steps_of_surplus", count=len(surplus_w))
        )
    for name, steps in (("surplus_w", surplus_w), ("demand_w", demand_w)):
        lowest = min(power_w for _, power_w in steps)
        if lowest < 0.0:
            raise OutOfRange("follow_year", name, lowest, range_said("no_power_below"))
        for (begin_s, _), (next_s, _) in itertools.pairwise(steps):
            if abs(next_s - begin_s - step_s) > 1e-6 * step_s:
                raise OutOfRange("follow_year", name, next_s, range_said("steps_without_gap", step=step_s))
    stored = peak = lowest = first_kg
    made = drawn = missing = running = used = left_over = full = 0.0
    starts, was_running, was_full = 0, False, False
    series: list[float] = []
    for (_, power_w), (_, wanted_w) in zip(surplus_w, demand_w, strict=True):
        wanted_kg = wanted_w * step_s / heating_value_j_per_kg
        offered_j = power_w * step_s
        taken_j = made_kg = 0.0
        # Room counts what the use draws in the same step, as the gas passes through the store.
        room_kg = capacity_kg - stored + min(wanted_kg, stored)
        was_full = was_full and room_kg < restart_room_kg
        if power_w >= smallest_power_w and power_w > 0.0 and room_kg > 0.0 and not was_full:
            usable_j = min(power_w, full_power_w) * step_s
            warming_j = 0.0 if was_running else min(start_j, usable_j)
            starts += not was_running
            possible_kg = (usable_j - warming_j) / energy_j_per_kg
            made_kg = min(possible_kg, room_kg)
            # A store that fills up within the step stops the stack there.
            share = made_kg / possible_kg if possible_kg > 0.0 else 1.0
            taken_j = warming_j + (usable_j - warming_j) * share
            running += step_s * (warming_j + (usable_j - warming_j) * share) / usable_j
            was_running, was_full = share == 1.0, share < 1.0
            full += step_s * (1.0 - share) * (usable_j - warming_j) / usable_j
        else:
            was_running = False
            full += step_s if power_w >= smallest_power_w and power_w > 0.0 else 0.0
        given_kg = min(wanted_kg, stored + made_kg)
        stored = min(capacity_kg, max(0.0, stored + made_kg - given_kg))
        made, drawn, missing = made + made_kg, drawn + given_kg, missing + wanted_kg - given_kg
        used, left_over = used + taken_j, left_over + offered_j - taken_j
        peak, lowest = max(peak, stored), min(lowest, stored)
        series.append(stored)
    times = tuple(begin_s + step_s for begin_s, _ in surplus_w)
    return Season(
        made,
        drawn,
        missing,
        peak,
        lowest,
        first_kg,
        stored,
        running,
        starts,
        used,
        left_over,
        full,
        times,
        tuple(series),
    )


def day_of_sun(daily_j: float, daylight_h: float = 10.0) -> list[float]:
    """
    Mean power in each hour of a day of sun: half a sine about noon, made up so that the day's energy is right. [W]

    Parameters
    ----------
    daily_j : float
        Energy of the day. [J]
    daylight_h : float
        Hours from the first to the last surplus. [h]
    """
    dawn, dusk = 12.0 - daylight_h / 2.0, 12.0 + daylight_h / 2.0

    def before(hour: float) -> float:
        """Share of the day's energy that has come by an hour."""
        inside = min(max(hour, dawn), dusk)
        return (1.0 - math.cos(math.pi * (inside - dawn) / daylight_h)) / 2.0

    return [daily_j * (before(hour + 1.0) - before(float(hour))) / _HOUR for hour in range(24)]


def year_of_days(monthly_j: Sequence[float], daylight_h: float = 10.0) -> tuple[tuple[float, float], ...]:
    """
    A year of hours from the energy of an average day of each month, all days of a month alike. [s, W]

    Raises
    ------
    ValueError
        If there are not twelve months.
    """
    if len(monthly_j) != len(_DAYS):
        raise ValueError(f"{len(monthly_j)} months, wanted {len(_DAYS)}")
    powers: list[float] = []
    for daily_j, days in zip(monthly_j, _DAYS, strict=True):
        powers += day_of_sun(daily_j, daylight_h) * days
    return tuple((hour * _HOUR, power_w) for hour, power_w in enumerate(powers))


def constant_demand(steps: int, power_w: float, step_s: float = _HOUR) -> tuple[tuple[float, float], ...]:
    """A demand that is always the same. [s, W]"""
    return tuple((number * step_s, power_w) for number in range(steps))
