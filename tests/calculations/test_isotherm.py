"""The cheap isotherm of the runs follows the reference equation, and its inverse loses nothing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.hydrogen import pressure
from macros.calculations.isotherm import Isotherm, isotherm
from tests.calculations import other_hydrogen


@settings(max_examples=300, deadline=None)
@given(st.floats(220.0, 400.0), st.floats(1.0, 45.0), st.floats(1e-3, 1.0))
def test_it_follows_the_reference_equation(temperature, highest, share):
    gas = Isotherm(temperature, highest)
    density = share * highest
    assert gas.pressure(density) == pytest.approx(pressure(density, temperature), rel=2e-9)
    assert gas.pressure(density) == pytest.approx(other_hydrogen.pressure(density, temperature), rel=2e-3)
    assert gas.density(gas.pressure(density)) == pytest.approx(density, rel=1e-13)
    assert gas.pressure(density * 1.01) > gas.pressure(density)


def test_nothing_holds_nothing():
    gas = isotherm(288.15, 5.0)
    assert gas.pressure(0.0) == 0
    assert gas.density(0.0) == 0
    assert gas.density(-1.0) == 0
    assert (gas.temperature_k, gas.highest_density) == (288.15, 5.0)


def test_an_isotherm_is_made_once():
    assert isotherm(288.15, 5.0) is isotherm(288.15, 5.0)
