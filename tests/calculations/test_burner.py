"""Burners: atoms balance, power and time agree, refusals."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.burner import burner_flow, combustion_air, combustion_water, time_of_store
from macros.calculations.contract import OutOfRange
from macros.calculations.storage import energy_lower

powers = st.floats(1.0, 1e6)


@settings(max_examples=300)
@given(powers, st.floats(0.01, 100.0))
def test_the_store_lasts_as_long_as_its_energy(heat_w, mass_kg):
    assert time_of_store(mass_kg, burner_flow(heat_w)) == pytest.approx(energy_lower(mass_kg) / heat_w)


@settings(max_examples=300)
@given(powers)
def test_the_oxygen_and_hydrogen_that_go_in_come_out_as_water(heat_w):
    flow = burner_flow(heat_w)
    oxygen = combustion_air(flow, 1.0) * 0.20946 * 31.9988e-3
    assert combustion_water(flow) == pytest.approx(flow + oxygen, rel=2e-5)


@settings(max_examples=300)
@given(powers, st.floats(1.0, 10.0))
def test_excess_air_is_in_proportion(heat_w, excess):
    flow = burner_flow(heat_w)
    assert combustion_air(flow, excess) == pytest.approx(excess * combustion_air(flow, 1.0))


@pytest.mark.parametrize(
    "call",
    [
        lambda: burner_flow(-1.0),
        lambda: burner_flow(math.nan),
        lambda: time_of_store(1.0, 0.0),
        lambda: time_of_store(-1.0, 1e-5),
        lambda: combustion_air(1e-5, 0.9),
        lambda: combustion_water(-1e-5),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
