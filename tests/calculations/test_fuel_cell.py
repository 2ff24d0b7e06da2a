"""Fuel cells: energy in is energy out, efficiency goes with voltage, refusals."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.constants import LOWER_HEATING_VALUE
from macros.calculations.contract import OutOfRange
from macros.calculations.fuel_cell import (
    electricity_of_store,
    electricity_per_kg,
    fuel_cell_efficiency,
    fuel_cell_flow,
    fuel_cell_heat,
)

powers = st.floats(1.0, 1e6)
efficiencies = st.floats(0.1, 0.8)


@settings(max_examples=300)
@given(powers, efficiencies)
def test_electricity_and_heat_are_the_heating_value(power_w, efficiency):
    burnt_w = fuel_cell_flow(power_w, efficiency) * LOWER_HEATING_VALUE
    assert power_w + fuel_cell_heat(power_w, efficiency) == pytest.approx(burnt_w)


@settings(max_examples=300)
@given(st.floats(0.0, 100.0), efficiencies)
def test_a_store_makes_what_its_kilograms_make(mass_kg, efficiency):
    assert electricity_of_store(mass_kg, efficiency) == pytest.approx(mass_kg * electricity_per_kg(efficiency))


@settings(max_examples=300)
@given(st.floats(0.3, 1.2), st.floats(0.5, 1.0))
def test_efficiency_goes_with_voltage_and_use(voltage_v, use):
    assert fuel_cell_efficiency(voltage_v, use) == pytest.approx(voltage_v / 1.2532 * use, rel=2e-4)


@pytest.mark.parametrize(
    "call",
    [
        lambda: fuel_cell_efficiency(1.3, 1.0),
        lambda: fuel_cell_efficiency(0.7, 1.1),
        lambda: electricity_per_kg(0.84),
        lambda: electricity_per_kg(0.0),
        lambda: fuel_cell_flow(math.nan, 0.5),
        lambda: electricity_of_store(-1.0, 0.5),
        lambda: fuel_cell_heat(1e3, 0.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
