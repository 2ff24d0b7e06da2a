"""Leak tests: the temperature is taken out, the allowance is the leak again, and one direction is cautious."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.leak_test import (
    decay_allowed,
    decay_leak,
    hydrogen_leak_factor,
    passing_leak,
    pressure_at_reference,
    smallest_leak_seen,
)

spaces = st.floats(1e-4, 10.0)
pressures = st.floats(1.1e5, 20e6)
temperatures = st.floats(250.0, 330.0)
times = st.floats(60.0, 1e6)
leaks = st.floats(0.0, 1e-3)


@settings(max_examples=300)
@given(spaces, pressures, temperatures, temperatures, times)
@example(1e-4, 1.1e5, 250.0, 330.0, 60.0)
def test_a_swing_of_temperature_is_no_leak(space, pressure_pa, first_k, last_k, time_s):
    last_pa = pressure_at_reference(pressure_pa, first_k, last_k)
    scale = space * pressure_pa / (8.314 * first_k * time_s)
    assert abs(decay_leak(space, pressure_pa, first_k, last_pa, last_k, time_s)) < 1e-12 * scale


@settings(max_examples=300)
@given(spaces, temperatures, leaks, times)
def test_the_allowance_is_the_leak_again(space, temperature_k, leak, time_s):
    fall = decay_allowed(space, temperature_k, leak, time_s)
    first_pa = fall + 2e5
    if first_pa > 100e6:
        return
    again = decay_leak(space, first_pa, temperature_k, 2e5, temperature_k, time_s)
    assert again == pytest.approx(leak, rel=1e-6, abs=1e-9 * space * first_pa / time_s / temperature_k)


@settings(max_examples=300)
@given(spaces, pressures, temperatures, st.floats(0.0, 1e4), st.floats(0.0, 2.0), times, st.floats(1.1, 10.0))
def test_a_longer_test_sees_a_smaller_leak(space, pressure_pa, temperature_k, step_pa, step_k, time_s, more):
    seen = smallest_leak_seen(space, pressure_pa, temperature_k, step_pa, step_k, time_s)
    assert seen >= 0
    assert smallest_leak_seen(space, pressure_pa, temperature_k, step_pa, step_k, time_s * more) == pytest.approx(
        seen / more
    )
    assert smallest_leak_seen(space * more, pressure_pa, temperature_k, step_pa, step_k, time_s) == pytest.approx(
        seen * more
    )


@settings(max_examples=300)
@given(st.floats(1e-6, 1e-4), st.floats(1e-3, 0.5))
def test_the_factor_is_never_below_either_kind_of_leak(viscosity, molar_mass):
    factor = hydrogen_leak_factor(viscosity, 8.8e-6, molar_mass, 2.01588e-3)
    assert factor >= viscosity / 8.8e-6 and factor >= math.sqrt(molar_mass / 2.01588e-3)
    assert factor in (viscosity / 8.8e-6, math.sqrt(molar_mass / 2.01588e-3))


@settings(max_examples=300)
@given(spaces, st.floats(-1e5, 1e5), temperatures, times)
def test_only_a_rise_shows_a_passing_valve(space, rise_pa, temperature_k, time_s):
    leak = passing_leak(space, rise_pa, temperature_k, time_s)
    assert leak >= 0
    if rise_pa > 0:
        assert decay_allowed(space, temperature_k, leak, time_s) == pytest.approx(rise_pa)
    else:
        assert leak == 0


@pytest.mark.parametrize(
    "call",
    [
        lambda: pressure_at_reference(0.0, 300.0, 300.0),
        lambda: pressure_at_reference(2e5, 20.0, 300.0),  # degrees Celsius in place of kelvin
        lambda: decay_leak(0.0, 2e5, 300.0, 2e5, 300.0, 60.0),
        lambda: decay_leak(0.01, 2e5, 300.0, 2e5, 300.0, 0.0),
        lambda: decay_allowed(0.01, 300.0, -1e-6, 60.0),
        lambda: decay_allowed(0.01, math.nan, 1e-6, 60.0),
        lambda: smallest_leak_seen(0.01, 2e5, 300.0, -1.0, 0.1, 60.0),
        lambda: hydrogen_leak_factor(0.0, 8.8e-6, 28e-3, 2e-3),
        lambda: passing_leak(0.01, math.nan, 300.0, 60.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
