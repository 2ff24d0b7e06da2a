"""The whole plant: energies add up, nothing returns more than was put in, refusals."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.constants import HIGHER_HEATING_VALUE
from macros.calculations.contract import OutOfRange
from macros.calculations.plant_energy import (
    energy_per_kg_kept,
    energy_per_kg_made,
    mass_in_time,
    round_trip_efficiency,
)

powers = st.floats(0.0, 1e5)
flows = st.floats(1e-7, 1e-2)


@settings(max_examples=300)
@given(powers, powers, powers, flows, st.floats(1.0, 1e7))
def test_the_energy_of_a_time_is_power_times_time(supply_w, pump_w, other_w, flow, time_s):
    made = mass_in_time(flow, time_s)
    assert energy_per_kg_made(supply_w, pump_w, other_w, flow) * made == pytest.approx(
        (supply_w + pump_w + other_w) * time_s
    )


@settings(max_examples=300)
@given(st.floats(0.0, 1e9), st.floats(0.0, 1e12), st.floats(0.1, 1e5))
def test_keeping_takes_no_less_than_running(running, yearly, mass):
    kept = energy_per_kg_kept(running, yearly, mass)
    assert kept >= running
    assert kept * mass == pytest.approx(running * mass + yearly)


@settings(max_examples=300)
@given(st.floats(0.1, 0.83), st.floats(float(HIGHER_HEATING_VALUE), 1e9))
def test_less_comes_back_than_was_put_in(efficiency, stored):
    assert 0 < round_trip_efficiency(efficiency, stored) < 0.83


@pytest.mark.parametrize(
    "call",
    [
        lambda: energy_per_kg_made(1e3, 0.0, 0.0, 0.0),
        lambda: energy_per_kg_made(math.nan, 0.0, 0.0, 1e-5),
        lambda: energy_per_kg_kept(1e8, 0.0, 0.0),
        lambda: round_trip_efficiency(0.9, 2e8),
        lambda: round_trip_efficiency(0.5, 0.0),
        lambda: mass_in_time(-1.0, 10.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
