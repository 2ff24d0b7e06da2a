"""The atmosphere over a plant."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.atmosphere import pressure_at_altitude
from macros.calculations.contract import OutOfRange


def test_at_the_sea_it_is_one_atmosphere():
    assert pressure_at_altitude(0.0) == 101325.0


@settings(max_examples=300, deadline=None)
@given(st.floats(-1000.0, 10900.0), st.floats(0.001, 100.0))
def test_it_falls_with_altitude(altitude_m, higher):
    assert 22e3 < pressure_at_altitude(altitude_m + higher) < pressure_at_altitude(altitude_m) < 115e3


@pytest.mark.parametrize("altitude_m", [-1001.0, 11001.0, math.nan, math.inf])
def test_outside_the_troposphere_it_is_refused(altitude_m):
    with pytest.raises(OutOfRange, match="altitude_m"):
        pressure_at_altitude(altitude_m)
