"""Gas that passes a standing booster."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.free_flow import free_flow_mass, free_flow_pressure
from macros.calculations.storage import mass_stored

ATMOSPHERE = 101325.0


def test_half_of_the_shed_bank_needs_no_stroke():
    """26.01 of 51.01 bar: the bank at cut-out holds about half of 0.833 kg; 0.414 kg of that flowed through."""
    free = free_flow_mass(0.2, ATMOSPHERE, 25e5 + ATMOSPHERE, 288.15)
    assert free == pytest.approx(0.414, abs=5e-4)
    assert free / 0.833 == pytest.approx(0.497, abs=2e-3)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-3, 10.0), st.floats(1e5, 3e7), st.floats(1e5, 3e7), st.floats(250.0, 340.0))
def test_a_bank_above_the_supply_takes_nothing_by_itself(volume, start, free, temperature):
    mass = free_flow_mass(volume, start, free, temperature)
    if start >= free:
        assert mass == 0
    else:
        gained = mass_stored(volume, free, temperature) - mass_stored(volume, start, temperature)
        assert mass == pytest.approx(gained, rel=1e-9, abs=1e-12)


@settings(max_examples=300, deadline=None)
@given(st.floats(2e5, 1e7), st.floats(0.0, 9e4), st.floats(1e5, 1e7))
def test_free_flow_ends_at_the_supply_less_the_valves_or_when_full(supply, cracking, full):
    reached = free_flow_pressure(supply, cracking, full)
    assert reached == min(supply - cracking, full)
