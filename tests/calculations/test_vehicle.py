"""Vehicle tanks: a full tank is full, mass closes with state of charge and with banks in turn, refusals."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.equalise import free_transfer_mass, pressure_after
from macros.calculations.storage import mass_stored
from macros.calculations.vehicle import mass_to_fill, state_of_charge

pressures = st.floats(1.1e5, 70e6)
temperatures = st.floats(233.15, 358.15)


@settings(max_examples=300, deadline=None)
@given(pressures)
def test_a_settled_tank_at_nominal_pressure_is_full(nominal_pa):
    assert state_of_charge(nominal_pa, 288.15, nominal_pa) == pytest.approx(1.0)
    assert mass_to_fill(0.1, nominal_pa, 288.15, nominal_pa) == 0.0


@settings(max_examples=300, deadline=None)
@given(pressures, temperatures, st.floats(1e6, 70e6))
@example(1.1e5, 233.15, 70e6)
def test_what_is_missing_and_what_is_there_are_a_full_tank(start_pa, temperature_k, nominal_pa):
    missing, share = (
        mass_to_fill(0.12, start_pa, temperature_k, nominal_pa),
        state_of_charge(start_pa, temperature_k, nominal_pa),
    )
    full = mass_stored(0.12, nominal_pa, 288.15)
    assert missing == pytest.approx(max(0.0, full * (1 - share)), abs=1e-9 * full)


@settings(max_examples=300, deadline=None)
@given(pressures, temperatures, st.floats(1.0, 40.0))
def test_a_warmer_tank_of_the_same_pressure_is_less_full(pressure_pa, temperature_k, warmer):
    assert state_of_charge(pressure_pa, temperature_k + warmer, 35e6) < state_of_charge(
        pressure_pa, temperature_k, 35e6
    )


@settings(max_examples=100, deadline=None)
@given(st.floats(20e5, 60e5), st.floats(60e5, 200e5), st.floats(1.1e5, 15e5))
def test_banks_in_turn_keep_the_mass_and_end_no_higher_than_the_last(low_pa, high_pa, start_pa):
    """The low bank first, then the high one: what the tank gains the banks lose."""
    tank, low, high, temperature_k, lowest = 0.12, 0.6, 0.3, 288.15, 2e5
    first = free_transfer_mass(low, low_pa, lowest, tank, start_pa, 351e5, temperature_k)
    between_pa = pressure_after(tank, start_pa, first, temperature_k)
    second = free_transfer_mass(high, high_pa, lowest, tank, between_pa, 351e5, temperature_k)
    end_pa = pressure_after(tank, between_pa, second, temperature_k)
    gained = mass_stored(tank, end_pa, temperature_k) - mass_stored(tank, start_pa, temperature_k)
    assert gained == pytest.approx(first + second, rel=1e-9)
    assert start_pa <= between_pa * (1 + 1e-9) and between_pa <= end_pa * (1 + 1e-9) and end_pa <= high_pa * (1 + 1e-9)
    direct = free_transfer_mass(high, high_pa, lowest, tank, start_pa, 351e5, temperature_k)
    assert second <= direct * (1 + 1e-9)  # the cascade spares the high bank


@pytest.mark.parametrize(
    "call",
    [
        lambda: state_of_charge(0.0, 288.15, 35e6),
        lambda: state_of_charge(1e7, 15.0, 35e6),
        lambda: state_of_charge(math.nan, 288.15, 35e6),
        lambda: mass_to_fill(0.0, 1e6, 288.15, 35e6),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
