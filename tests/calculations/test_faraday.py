"""Faraday's law: nothing is lost between water and gases, and energy is what voltage says."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.faraday import (
    current_density,
    efficiency_higher,
    efficiency_lower,
    hydrogen_mass_flow,
    hydrogen_produced,
    oxygen_produced,
    specific_energy,
    water_consumed,
    water_dragged,
)

MOLAR_MASS_OXYGEN = 31.9988e-3

currents = st.floats(0.1, 2000.0)
stacks = st.integers(1, 300).map(float)
shares = st.floats(0.0, 1.0)
voltages = st.floats(1.3, 3.0)


@settings(max_examples=300)
@given(currents, stacks, shares)
def test_water_split_is_hydrogen_and_oxygen_by_mass(current, cells, burnt):
    made = hydrogen_produced(current, cells)
    gases = hydrogen_mass_flow(made * (1 - burnt)) + MOLAR_MASS_OXYGEN * oxygen_produced(made, made * burnt)
    # 18.015 28 against 2.015 88 + 31.9988 / 2: the tables of atomic weights agree to a few millionths.
    assert gases == pytest.approx(water_consumed(made, made * burnt), rel=1e-5, abs=1e-15)


@settings(max_examples=300)
@given(currents, stacks, voltages, st.floats(0.01, 1.0))
def test_energy_a_kilogram_times_kilograms_is_the_power_of_the_stack(current, cells, voltage, efficiency):
    flow = hydrogen_mass_flow(hydrogen_produced(current, cells, efficiency))
    assert specific_energy(voltage, efficiency) * flow == pytest.approx(cells * voltage * current, rel=1e-12)


@settings(max_examples=300)
@given(currents, stacks, st.floats(0.0, 10.0))
def test_two_waters_are_dragged_for_each_hydrogen_and_drag(current, cells, drag):
    dragged_for_each = water_dragged(current, cells, drag) / water_consumed(hydrogen_produced(current, cells))
    assert dragged_for_each == pytest.approx(2 * drag, rel=1e-12)


@settings(max_examples=300)
@given(currents, st.floats(1e-4, 0.2), st.integers(2, 300))
def test_cells_in_series_multiply_the_gas_and_not_the_current_density(current, area, cells):
    assert hydrogen_produced(current, float(cells)) == pytest.approx(cells * hydrogen_produced(current, 1.0), rel=1e-12)
    assert current_density(current, area) * area == pytest.approx(current, rel=1e-12)


@settings(max_examples=300)
@given(voltages, st.floats(0.01, 1.0))
def test_both_heating_values_stand_in_their_fixed_ratio(voltage, efficiency):
    energy = specific_energy(voltage, efficiency)
    assert efficiency_higher(energy) / efficiency_lower(energy) == pytest.approx(141.79 / 119.96, rel=1e-12)
    assert efficiency_lower(energy) < efficiency_higher(energy) < 1.15


def test_no_more_recombines_than_is_made():
    assert oxygen_produced(1e-3, 1e-3) == 0.0
    assert water_consumed(1e-3, 1e-3) == 0.0
    for calculation in (oxygen_produced, water_consumed):
        with pytest.raises(OutOfRange, match="the hydrogen made") as refusal:
            calculation(1e-3, 1.001e-3)
        assert (refusal.value.calculation, refusal.value.argument, refusal.value.found) == (
            calculation.__name__,
            "recombined_mol_per_s",
            1.001e-3,
        )
