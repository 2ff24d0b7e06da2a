"""The cable: what it loses is what it heats, and the size chosen is the smallest that will do."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.conductor import (
    FLEXIBLE_COPPER,
    conductor_resistance,
    current_drawn,
    hot_resistance,
    share_of_voltage,
    smallest_conductor,
    voltage_drop,
    voltage_headroom,
)
from macros.calculations.contract import OutOfRange

SIZES = sorted(FLEXIBLE_COPPER)
lengths = st.floats(0.1, 50.0)
currents = st.floats(1.0, 400.0)
drops = st.floats(0.05, 5.0)
temperatures = st.floats(253.15, 393.15)


@settings(max_examples=300)
@given(lengths, currents, drops, temperatures)
def test_the_smallest_size_keeps_the_drop_and_the_next_smaller_does_not(length, current, drop, temperature):
    try:
        area = smallest_conductor(length, current, drop, temperature)
    except OutOfRange as refusal:
        assert refusal.argument == "drop_allowed_v"
        largest = hot_resistance(conductor_resistance(300e-6), temperature)
        assert voltage_drop(largest, length, current) > drop
        return
    assert voltage_drop(hot_resistance(conductor_resistance(area), temperature), length, current) <= drop
    place = SIZES.index(round(area * 1e6, 6))
    if place:
        smaller = hot_resistance(conductor_resistance(SIZES[place - 1] * 1e-6), temperature)
        assert voltage_drop(smaller, length, current) > drop


@settings(max_examples=300)
@given(st.integers(5, 3000))
def test_between_two_sizes_the_smaller_one_counts(tenths):
    area_mm2 = tenths / 10
    below = max(size for size in SIZES if size <= area_mm2)
    assert conductor_resistance(area_mm2 * 1e-6) == FLEXIBLE_COPPER[below] * 1e-3


def test_each_size_of_the_table_is_its_own_and_thicker_copper_resists_less():
    for size, next_size in pairwise(SIZES):
        assert conductor_resistance(size * 1e-6) == FLEXIBLE_COPPER[size] * 1e-3
        assert conductor_resistance(next_size * 1e-6) < conductor_resistance(size * 1e-6)


@settings(max_examples=300)
@given(st.sampled_from(SIZES))
def test_no_size_conducts_better_than_pure_copper_or_worse_than_a_quarter_more(size):
    """The standard's highest resistance against the resistivity of annealed copper, 1.7241e-8 ohm m (IEC 60028)."""
    pure = 1.7241e-8 / (size * 1e-6)
    assert pure < conductor_resistance(size * 1e-6) < 1.25 * pure


@settings(max_examples=300)
@given(lengths, currents, temperatures, temperatures)
def test_drop_counts_both_ways_and_grows_with_heat(length, current, one, other):
    cool, warm = sorted((one, other))
    drop = voltage_drop(hot_resistance(1e-3, cool), length, current)
    assert drop <= voltage_drop(hot_resistance(1e-3, warm), length, current)
    assert drop == pytest.approx(2 * voltage_drop(hot_resistance(1e-3, cool), length / 2, current), rel=1e-12)
    heat_of_both_conductors = 2 * length * hot_resistance(1e-3, cool) * current**2
    assert drop * current == pytest.approx(heat_of_both_conductors, rel=1e-12)


@settings(max_examples=300)
@given(st.floats(10.0, 100.0), st.floats(0.0, 5.0), st.floats(1.0, 120.0))
def test_voltages_add_up(rectifier, drop, stack):
    assert voltage_headroom(rectifier, drop, stack) + drop + stack == pytest.approx(rectifier, rel=1e-9)


@settings(max_examples=300)
@given(st.floats(1.0, 1e5), st.floats(12.0, 690.0), st.floats(0.3, 1.0))
def test_a_poor_power_factor_draws_more(power, voltage, factor):
    assert current_drawn(power, voltage, factor) >= current_drawn(power, voltage, 1.0)
    assert current_drawn(power, voltage, factor) * voltage * factor == pytest.approx(power, rel=1e-12)


def test_a_share_of_a_voltage():
    assert share_of_voltage(31.84, 1.0) == 31.84
