"""The oxygen's vent: volume goes through, whatever the bore."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.oxygen_vent import vent_velocity


@settings(max_examples=300)
@given(st.floats(1e-6, 0.1), st.floats(0.0, 0.5), st.floats(275.0, 360.0), st.floats(6e4, 1.2e5), st.floats(2e-3, 0.2))
def test_speed_times_area_is_the_wet_volume_flow(oxygen, water, temperature, pressure, bore):
    flow = vent_velocity(oxygen, water, temperature, pressure, bore) * math.pi * bore**2 / 4
    dry = 8.31446261815324 * temperature / pressure * oxygen
    assert flow * (1 - water) == pytest.approx(dry, rel=1e-9)
    assert vent_velocity(oxygen, water, temperature, pressure, bore / 2) == pytest.approx(
        4 * vent_velocity(oxygen, water, temperature, pressure, bore), rel=1e-9
    )
