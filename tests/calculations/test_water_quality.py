"""Feed water and resin: more ions never last longer, pure water carries none."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.water_quality import deioniser_life, exhaustion_time, ionic_load

YEAR_S = 8760 * 3600.0


@settings(max_examples=300)
@given(st.floats(0.0, 1e-2), st.floats(0.0, 1e-2))
def test_more_conductivity_is_more_ions(one, other):
    low, high = sorted((one, other))
    assert 0 <= ionic_load(low) <= ionic_load(high)


@settings(max_examples=300)
@given(
    st.floats(50.0, 2000.0), st.floats(1e-5, 0.2), st.floats(1e-6, 10.0), st.floats(0.0, 5.0), st.floats(1e-7, 1e-2),
    st.floats(3600.0, YEAR_S),
)  # fmt: skip
def test_the_resin_takes_up_exactly_its_capacity(capacity, resin, ions, dioxide, feed, running):
    time = exhaustion_time(capacity, resin, ions, dioxide, feed, running)
    water_m3 = feed / 998.2 * time * running / YEAR_S
    assert water_m3 * (ions + dioxide) == pytest.approx(capacity * resin, rel=1e-9)
    assert exhaustion_time(capacity, resin, 2 * ions + dioxide, dioxide, feed, running) < time


@settings(max_examples=300)
@given(st.floats(1.0, 1e12), st.floats(1.0, 1e10))
def test_age_caps_the_life(ions, age):
    assert deioniser_life(ions, age) == min(ions, age)


def test_water_without_any_load_leaves_a_time_and_not_an_error():
    assert exhaustion_time(410.0, 1e-3, 0.0, 0.0, 1e-4, YEAR_S) > 1e12
