"""A year: mass and energy are kept, the stack is never run below its least, more store misses less, and it is quick."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.season import constant_demand, day_of_sun, follow_year, year_of_days

powers = st.floats(0.0, 5000.0)
days = st.lists(st.tuples(powers, st.floats(0.0, 2000.0)), min_size=2, max_size=40)


def follow(
    steps, capacity=1.0, first=0.0, restart=0.0, start=5e6, smallest=500.0, full=2000.0, energy=200e6, step_s=3600.0
):
    surplus = tuple((number * step_s, power) for number, (power, _) in enumerate(steps))
    demand = tuple((number * step_s, power) for number, (_, power) in enumerate(steps))
    return follow_year(surplus, demand, step_s, full, smallest, energy, start, capacity, restart, first, 119.96e6)


@settings(max_examples=300)
@given(days, st.floats(0.01, 5.0), st.floats(0.0, 1.0), st.floats(0.0, 2e7))
@example([(0.0, 0.0), (0.0, 0.0)], 0.01, 0.0, 0.0)
@example([(5000.0, 0.0)] * 40, 0.01, 1.0, 0.0)
@example([(500.0, 2000.0)] * 40, 5.0, 0.0, 2e7)
def test_mass_and_energy_are_kept(steps, capacity, share, start):
    year = follow(steps, capacity, share * capacity, start=start)
    assert year.residual <= 1e-9
    assert year.used_j + year.left_over_j == pytest.approx(sum(power for power, _ in steps) * 3600.0, abs=1e-3)
    wanted = sum(power for _, power in steps) * 3600.0 / 119.96e6
    assert year.drawn_kg + year.missing_kg == pytest.approx(wanted, abs=1e-9)
    assert all(-1e-12 <= stored <= capacity * (1 + 1e-12) for stored in year.stored)
    assert -1 <= year.used_j - year.made_kg * 200e6 <= year.starts * start + 1
    assert year.running_s <= 3600.0 * len(steps) * (1 + 1e-12)


@settings(max_examples=300)
@given(days)
def test_below_its_least_power_the_stack_rests(steps):
    dim = [(min(power, 499.0), wanted) for power, wanted in steps]
    year = follow(dim)
    assert year.made_kg == 0.0 and year.starts == 0 and year.running_s == 0.0


@settings(max_examples=300)
@given(days, st.floats(0.01, 2.0), st.floats(1.1, 10.0))
def test_a_larger_store_never_misses_more(steps, capacity, more):
    assert follow(steps, capacity * more, start=0.0).missing_kg <= follow(steps, capacity, start=0.0).missing_kg + 1e-9


@settings(max_examples=300)
@given(days)
def test_starts_are_counted_from_rest(steps):
    """With room for all, a start is each step of enough surplus after one without."""
    year = follow(steps, capacity=1e4, start=0.0)
    enough = [False] + [power >= 500.0 for power, _ in steps]
    assert year.starts == sum(b and not a for a, b in itertools.pairwise(enough))


def test_a_full_store_stops_the_stack_and_says_for_how_long():
    """2 kW for 10 h at 200 MJ/kg would make 0.36 kg; the store takes 0.09: 2.5 h of running, 7.5 h full."""
    year = follow([(2000.0, 0.0)] * 10, capacity=0.09, start=0.0)
    assert year.made_kg == pytest.approx(0.09)
    assert year.running_s == pytest.approx(2.5 * 3600)
    assert year.full_s == pytest.approx(7.5 * 3600)
    assert year.peak_kg == pytest.approx(0.09)


def test_a_full_store_waits_for_room_before_the_stack_starts_again():
    """0.01 kg drawn each hour, 0.05 kg of room asked for: one start in five hours, not one an hour."""
    steps = [(2000.0, 0.01 * 119.96e6 / 3600.0)] * 21
    assert follow(steps, capacity=0.1, first=0.1, restart=0.0, start=0.0).starts > 15
    assert follow(steps, capacity=0.1, first=0.1, restart=0.05, start=0.0).starts <= 5


@settings(max_examples=300)
@given(days, st.floats(0.01, 2.0), st.floats(0.0, 1.0))
def test_waiting_for_room_never_starts_more_often(steps, capacity, share):
    waiting = follow(steps, capacity, restart=share * capacity, start=0.0)
    assert waiting.starts <= follow(steps, capacity, start=0.0).starts
    assert waiting.residual <= 1e-9


def test_a_start_that_takes_the_whole_step_makes_nothing():
    year = follow([(1000.0, 0.0)] * 2, start=4e6)
    assert year.starts == 1
    assert year.made_kg == pytest.approx(3.6e6 / 200e6)


@settings(max_examples=100)
@given(st.floats(0.0, 1e9), st.floats(4.0, 16.0))
def test_a_day_of_sun_has_its_energy_and_is_dark_at_midnight(daily_j, daylight_h):
    hours = day_of_sun(daily_j, daylight_h)
    assert len(hours) == 24 and hours[0] == 0.0 == hours[23]
    assert sum(hours) * 3600.0 == pytest.approx(daily_j)
    assert max(hours) == pytest.approx(hours[11]) or max(hours) == pytest.approx(hours[12])


def test_a_year_of_days_has_8760_hours_and_the_energy_of_its_months():
    """January of 1 MJ a day and eleven dark months: 31 MJ."""
    year = year_of_days([1e6] + [0.0] * 11)
    assert len(year) == 8760
    assert sum(power for _, power in year) * 3600.0 == pytest.approx(31e6)
    with pytest.raises(ValueError, match="11 months, wanted 12"):
        year_of_days([1e6] * 11)


@pytest.mark.parametrize(
    "change",
    [
        {"smallest": 3000.0},
        {"first": 2.0},
        {"restart": 2.0},
        {"energy": 0.0},
        {"capacity": 0.0},
        {"step_s": 1.0},
        {"start": math.nan},
    ],
)
def test_what_is_refused(change):
    with pytest.raises(OutOfRange):
        follow([(1000.0, 0.0), (1000.0, 0.0)], **change)


def test_series_that_do_not_agree_are_refused():
    good, short = constant_demand(4, 100.0), constant_demand(3, 100.0)
    gap = ((0.0, 100.0), (3600.0, 100.0), (10800.0, 100.0), (14400.0, 100.0))
    below = ((0.0, 100.0), (3600.0, -1.0), (7200.0, 100.0), (10800.0, 100.0))
    rest = (3600.0, 2000.0, 500.0, 2e8, 0.0, 1.0, 0.0, 0.0, 119.96e6)
    for surplus, demand in ((good, short), (gap, good), (good, gap), (below, good), (good, below)):
        with pytest.raises(OutOfRange):
            follow_year(surplus, demand, *rest)


def test_limits_that_are_just_met_are_met():
    """The least power is enough, it may be the full power, and a store may wait until it is empty."""
    year = follow([(500.0, 0.0)] * 2, start=0.0, full=500.0, capacity=0.5, first=0.5, restart=0.5)
    assert year.made_kg == 0.0 and year.full_s == 7200.0
    year = follow([(500.0, 0.0)] * 2, start=0.0, full=500.0)
    assert year.made_kg == pytest.approx(3.6e6 / 200e6) and year.starts == 1 and year.full_s == 0.0


def test_warming_up_counts_as_running_and_not_as_full():
    """1 kWh a step, 1.8 MJ to warm up, 1.8 MJ left for 0.009 kg; room for 0.0045: a quarter of the hour is full."""
    year = follow([(1000.0, 0.0)] * 2, capacity=0.0045, start=1.8e6, restart=0.0045)
    assert year.made_kg == pytest.approx(0.0045) and year.used_j == pytest.approx(2.7e6)
    assert year.running_s == pytest.approx(2700.0)
    assert year.full_s == pytest.approx(900.0 + 3600.0)


def test_each_step_ends_a_step_after_it_began():
    year = follow([(0.0, 0.0)] * 3)
    assert year.times == (3600.0, 7200.0, 10800.0) and len(year.stored) == 3
    assert str(year) == "3 steps, 0 starts"


def test_mass_that_is_lost_shows():
    """1 kg at first, 2 made, 1 drawn, 1 at last: 1 is lost, of 5 moved."""
    year = replace(follow([(0.0, 0.0)] * 2), first_kg=1.0, made_kg=2.0, drawn_kg=1.0, last_kg=1.0)
    assert year.residual == pytest.approx(0.2)
    assert follow([(0.0, 0.0)] * 2).residual == 0.0


def test_the_hours_of_a_day_of_sun():
    """
    Ten hours about noon: (cos 90° − cos 108°)/2 = 15.45 % from 12 to 13, (1 − cos 18°)/2 = 2.45 % from 7 to 8,
    none before.
    """
    hours = day_of_sun(3.6e6)
    assert hours[12] == pytest.approx(154.5, rel=1e-3) and hours[11] == pytest.approx(154.5, rel=1e-3)
    assert hours[7] == pytest.approx(24.47, rel=1e-3) and hours[16] == pytest.approx(24.47, rel=1e-3)
    assert hours[6] == 0.0 and hours[17] == pytest.approx(0.0, abs=1e-9)


def test_steps_off_by_more_than_a_millionth_are_refused():
    rest = (3600.0, 2000.0, 500.0, 2e8, 0.0, 1.0, 0.0, 0.0, 119.96e6)
    good = constant_demand(2, 0.0)
    assert follow_year(((0.0, 0.0), (3600.003, 0.0)), good, *rest).made_kg == 0.0
    with pytest.raises(OutOfRange):
        follow_year(((0.0, 0.0), (3600.005, 0.0)), good, *rest)
