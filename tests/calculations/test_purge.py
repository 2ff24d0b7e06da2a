"""Purging: the swings asked for lead to the fraction wanted, one less does not, gauge readings are refused."""

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.purge import fraction_left, pressure_swings_exact, purge_gas_used, sweep_volumes, whole_swings

fractions = st.floats(1e-6, 1.0)
highs = st.floats(1.5e5, 20e5)


@settings(max_examples=300)
@given(fractions, fractions, highs)
@example(0.209, 0.01, 501325.0)
@example(1.0, 0.01, 501325.0)
@example(1.0, 1.0, 1.5e5)
@example(1.0, 1e-6, 1.5e5)
def test_the_whole_swings_are_enough_and_one_less_is_not(start, end, high_pa):
    assume(end <= start)
    exact = pressure_swings_exact(start, end, high_pa, 101325.0)
    whole = whole_swings(exact)
    assert whole >= exact - 1e-6 and whole == int(whole)
    assert fraction_left(start, high_pa, 101325.0, whole) <= end * (1 + 1e-6)
    if whole >= 1:
        assert fraction_left(start, high_pa, 101325.0, whole - 1) > end * (1 - 1e-6)


@settings(max_examples=300)
@given(st.floats(1e-3, 1.0), st.floats(0.0, 5e-4), highs, st.floats(1.0, 20.0))
def test_swings_never_get_below_the_purge_gas(start, impurity, high_pa, swings):
    left = fraction_left(start, high_pa, 101325.0, swings, impurity)
    assert impurity <= left <= start
    assume(left - impurity > 1e-9)
    assert pressure_swings_exact(start, left, high_pa, 101325.0, impurity) == pytest.approx(swings, rel=1e-6)


@settings(max_examples=300)
@given(fractions, fractions)
def test_sweeping_in_two_steps_takes_as_much(start, end):
    assume(end <= start)
    middle = math.sqrt(start * end)
    assert sweep_volumes(start, middle) + sweep_volumes(middle, end) == pytest.approx(
        sweep_volumes(start, end), abs=1e-12
    )
    assert start * math.exp(-sweep_volumes(start, end)) == pytest.approx(end)


@settings(max_examples=300)
@given(st.floats(0.0, 1000.0))
@example(2.0000000001)
@example(3.0)
def test_a_number_is_rounded_up(exact):
    assert exact - 1e-6 <= whole_swings(exact) < exact + 1


@settings(max_examples=300)
@given(st.floats(1e-3, 10.0), highs, st.floats(1.0, 20.0))
def test_the_gas_used_goes_with_space_and_swings(space, high_pa, swings):
    used = purge_gas_used(space, high_pa, 101325.0, 288.15, swings)
    assert used > 0
    assert purge_gas_used(2 * space, high_pa, 101325.0, 288.15, swings) == pytest.approx(2 * used)
    assert purge_gas_used(space, high_pa, 101325.0, 288.15, 2 * swings) == pytest.approx(2 * used)


@pytest.mark.parametrize(
    "call",
    [
        lambda: pressure_swings_exact(0.209, 0.01, 4e5, 0.0),  # a gauge reading: let out to "0 bar"
        lambda: pressure_swings_exact(0.209, 0.01, 1e5, 1e5),
        lambda: pressure_swings_exact(0.01, 0.209, 5e5, 1e5),
        lambda: pressure_swings_exact(0.209, 0.01, 5e5, 1e5, 0.01),
        lambda: pressure_swings_exact(0.209, 0.0, 5e5, 1e5),
        lambda: pressure_swings_exact(math.nan, 0.01, 5e5, 1e5),
        lambda: whole_swings(-1.0),
        lambda: whole_swings(math.inf),
        lambda: fraction_left(0.209, 1e5, 2e5, 1.0),
        lambda: sweep_volumes(0.01, 0.02),
        lambda: purge_gas_used(0.0, 5e5, 1e5, 288.15, 2.0),
        lambda: purge_gas_used(1.0, 1e5, 5e5, 288.15, 2.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


@pytest.mark.parametrize(
    ("exact", "whole"), [(1 + 0.8e-9, 1.0), (1 + 1.2e-9, 2.0), (2 + 1.5e-9, 2.0), (2 + 2.5e-9, 3.0), (0.1, 1.0)]
)
def test_a_billionth_above_a_whole_number_is_that_number(exact, whole):
    assert whole_swings(exact) == whole


def test_a_swing_without_a_difference_changes_and_uses_nothing():
    assert fraction_left(0.209, 2e5, 2e5, 5.0) == 0.209
    assert purge_gas_used(1.0, 2e5, 2e5, 288.15, 5.0) == 0.0
