"""Heat of the stack: energy balances, and warming up takes what it stores and what it loses."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.stack_heat import evaporation_heat, latent_heat, preheat_energy, preheat_time, stack_heat


@settings(max_examples=300)
@given(st.floats(0.1, 2000.0), st.integers(1, 300), st.floats(1.3, 3.0), st.floats(0.0, 1e4))
def test_power_in_is_heat_and_the_enthalpy_of_the_gases(current, cells, voltage, catalyst):
    heat = stack_heat(current, float(cells), voltage, 1.4754, catalyst)
    enthalpy = cells * current * 1.4754
    assert heat + enthalpy == pytest.approx(cells * current * voltage + catalyst, rel=1e-9)


def test_at_the_thermoneutral_voltage_there_is_no_heat_and_below_it_the_stack_cools():
    assert stack_heat(60.0, 16.0, 1.4754, 1.4754) == 0.0
    assert stack_heat(60.0, 16.0, 1.40, 1.4754) < 0


@settings(max_examples=300)
@given(st.floats(1e3, 1e7), st.floats(0.0, 100.0), st.floats(10.0, 1e4), st.floats(253.0, 300.0), st.floats(0.1, 70.0))
def test_warming_takes_what_is_stored_and_more_by_what_is_lost(capacity, loss, power, start, rise):
    end = start + rise
    rise = end - start
    assume(loss * rise < 0.999 * power)
    time = preheat_time(capacity, loss, power, start, end)
    stored = capacity * rise
    assert preheat_energy(time, power) >= stored * (1 - 1e-6)
    assert preheat_energy(time, power) <= stored / (1 - loss * rise / power) * (1 + 1e-6)
    assert time >= preheat_time(capacity, 0.0, power, start, end) * (1 - 1e-6)


def test_a_heater_too_weak_for_the_loss_never_gets_there():
    with pytest.raises(OutOfRange, match="the loss at the end") as refusal:
        preheat_time(30e3, 10.0, 500.0, 283.15, 333.15)
    assert refusal.value.argument == "heater_power_w"
    assert preheat_time(30e3, 10.0, 501.0, 283.15, 333.15) > 0


def test_warming_to_a_lower_temperature_is_refused():
    assert preheat_time(30e3, 4.0, 500.0, 300.0, 300.0) == 0.0
    with pytest.raises(OutOfRange) as refusal:
        preheat_time(30e3, 4.0, 500.0, 300.0, 299.0)
    assert refusal.value.argument == "end_temperature_k"


@settings(max_examples=300)
@given(st.floats(1e-7, 1e-4))
def test_a_loss_that_vanishes_makes_no_jump(loss):
    """Just beside the switch from the logarithm to its limit the two agree."""
    assert preheat_time(30e3, loss, 500.0, 265.15, 333.15) == pytest.approx(4080.0, rel=1e-4)


@settings(max_examples=300)
@given(st.floats(273.15, 373.15), st.floats(0.0, 1e-2))
def test_hot_water_takes_less_to_evaporate(temperature, vapour):
    assert latent_heat(373.15) <= latent_heat(temperature) <= latent_heat(273.15)
    assert evaporation_heat(vapour, temperature) == pytest.approx(vapour * latent_heat(temperature), rel=1e-12)
