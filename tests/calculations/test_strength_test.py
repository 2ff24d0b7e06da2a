"""Strength tests: the atmosphere is not multiplied, gas is tested lower than water, refusals."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.strength_test import hydrostatic_test_pressure, pneumatic_test_pressure, stored_energy

pressures = st.floats(1.2e5, 100e6)
atmospheres = st.floats(60e3, 110e3)


@settings(max_examples=300)
@given(pressures, atmospheres, st.floats(1.0, 3.0))
@example(1.2e5, 110e3, 1.0)
@example(100e6, 60e3, 3.0)
def test_the_gauge_pressure_is_multiplied(allowable_pa, atmosphere_pa, factor):
    test_pa = hydrostatic_test_pressure(allowable_pa, atmosphere_pa, factor)
    assert (test_pa - atmosphere_pa) / (allowable_pa - atmosphere_pa) == pytest.approx(max(1.25, factor))


@settings(max_examples=300)
@given(pressures, atmospheres)
def test_gas_is_tested_lower_than_water(allowable_pa, atmosphere_pa):
    with_gas = pneumatic_test_pressure(allowable_pa, atmosphere_pa)
    assert allowable_pa < with_gas < hydrostatic_test_pressure(allowable_pa, atmosphere_pa)


@settings(max_examples=300)
@given(st.floats(1e-4, 10.0), pressures, st.floats(1.05, 5 / 3), st.floats(1.001, 3.0))
def test_more_pressure_stores_more_but_less_than_isothermal(space, pressure_pa, ratio, more):
    energy = stored_energy(space, pressure_pa, 101325.0, ratio)
    assert 0 < energy < pressure_pa * space * math.log(pressure_pa / 101325.0) * (1 + 1e-9)
    assert stored_energy(space, min(pressure_pa * more, 200e6), 101325.0, ratio) > energy


def test_at_atmospheric_pressure_nothing_is_stored():
    assert stored_energy(1.0, 101325.0, 101325.0) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: hydrostatic_test_pressure(0.0, 101325.0),
        lambda: hydrostatic_test_pressure(2e5, 0.0),
        lambda: hydrostatic_test_pressure(2e5, 101325.0, 0.9),
        lambda: hydrostatic_test_pressure(math.nan, 101325.0),
        lambda: pneumatic_test_pressure(2e5, 101325.0, 1.6),
        lambda: stored_energy(1.0, 9e4, 101325.0),
        lambda: stored_energy(0.0, 9e5, 101325.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
