"""Gas in a vessel: properties that any vessel has, and the figures that practice quotes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.storage import (
    DEVELOPED_TEMPERATURE,
    SETTLED_TEMPERATURE,
    amount_of_mass,
    energy_higher,
    energy_lower,
    mass_between,
    mass_stored,
    pressure_when,
    transportable_fill_limit,
)
from tests.calculations import other_hydrogen

ATMOSPHERE = 101325.0
volumes = st.floats(1e-4, 100.0)
pressures = st.floats(1e5, 8e7)
temperatures = st.floats(230.0, 360.0)


def gauge(bar):
    return bar * 1e5 + ATMOSPHERE


def test_the_shed_bank_holds_what_practice_says():
    """4 × 50 L to 50 bar(g) at 15 °C: 4.1636 kg/m³ × 0.2 m³ = 0.833 kg; × 119.96 MJ/kg / 3.6 = 27.7 kWh, about 28."""
    mass = mass_stored(0.2, gauge(50), 288.15)
    assert mass == pytest.approx(0.833, abs=5e-4)
    assert energy_lower(mass) / 3.6e6 == pytest.approx(27.75, abs=0.02)


def test_an_ideal_gas_would_claim_an_eighth_too_much_at_200_bar():
    """pV/(RT)·M = 200e5 × 0.05 / (8.314463 × 288.15) × 2.01588e-3 = 0.8414 kg against 0.7470 kg."""
    ideal = 200e5 * 0.05 / (8.314463 * 288.15) * 2.01588e-3
    assert ideal / mass_stored(0.05, 200e5, 288.15) == pytest.approx(1.1264, abs=3e-4)


@settings(max_examples=300, deadline=None)
@given(volumes, pressures, temperatures)
def test_mass_agrees_with_another_equation(volume, pressure, temperature):
    assert mass_stored(volume, pressure, temperature) == pytest.approx(
        volume * other_hydrogen.density(pressure, temperature), rel=1.5e-3
    )


@settings(max_examples=300, deadline=None)
@given(volumes, pressures, temperatures, st.floats(1.01, 3.0))
def test_more_volume_or_pressure_holds_more_and_warmth_holds_less(volume, pressure, temperature, more):
    mass = mass_stored(volume, pressure, temperature)
    assert mass_stored(volume * more, pressure, temperature) == pytest.approx(mass * more)
    assert mass_stored(volume, min(pressure * more, 1e8), temperature) > mass
    assert mass_stored(volume, pressure, min(temperature * more, 400.0)) < mass


@settings(max_examples=300, deadline=None)
@given(volumes, pressures, pressures, pressures, temperatures)
def test_what_lies_between_pressures_adds_up(volume, one, two, three, temperature):
    low, middle, high = sorted((one, two, three))
    whole = mass_between(volume, high, low, temperature)
    parts = mass_between(volume, high, middle, temperature) + mass_between(volume, middle, low, temperature)
    assert whole == pytest.approx(parts, rel=1e-9, abs=1e-12 * volume)
    assert whole == pytest.approx(
        mass_stored(volume, high, temperature) - mass_stored(volume, low, temperature), abs=1e-12 * volume
    )
    assert whole >= 0


def test_a_vessel_emptier_when_full_is_refused():
    with pytest.raises(OutOfRange) as refusal:
        mass_between(0.05, 1e6, 1e6 + 1, 288.15)
    assert refusal.value.argument == "empty_pressure_pa"
    assert "1e+06" in refusal.value.wanted
    assert mass_between(0.05, 1e6, 1e6, 288.15) == 0


@settings(max_examples=300, deadline=None)
@given(pressures, temperatures, temperatures)
def test_warming_and_cooling_back_changes_nothing(pressure, temperature, later):
    there = pressure_when(pressure, temperature, later)
    if there <= 1e8:
        assert pressure_when(there, later, temperature) == pytest.approx(pressure, rel=1e-7)
    assert (there > pressure) == (later > temperature) or later == temperature


@settings(max_examples=300, deadline=None)
@given(st.floats(1e5, 2e5), temperatures, temperatures)
def test_near_the_atmosphere_pressure_follows_absolute_temperature(pressure, temperature, later):
    assert pressure_when(pressure, temperature, later) == pytest.approx(pressure * later / temperature, rel=1e-3)


def test_the_gauge_reads_what_practice_prints():
    """A 140 bar(g) fill at 15 °C reads 127 at −10 °C and 153 at 40 °C."""
    assert (pressure_when(gauge(140), 288.15, 263.15) - ATMOSPHERE) / 1e5 == pytest.approx(127.4, abs=0.1)
    assert (pressure_when(gauge(140), 288.15, 313.15) - ATMOSPHERE) / 1e5 == pytest.approx(152.6, abs=0.1)


def test_the_temperatures_of_the_filling_rules():
    assert float(SETTLED_TEMPERATURE) == 288.15
    assert float(DEVELOPED_TEMPERATURE) == 338.15


@settings(max_examples=300, deadline=None)
@given(st.floats(1e6, 6e7), st.floats(1e6, 9e7))
def test_a_transportable_fill_passes_neither_stamp(working, test):
    fill = transportable_fill_limit(working, test)
    assert fill <= working
    assert pressure_when(fill, 288.15, 338.15) <= test * (1 + 1e-9)
    assert fill == working or pressure_when(fill, 288.15, 338.15) == pytest.approx(test, rel=1e-9)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-6, 1e4))
def test_energies_and_amount_grow_with_mass(mass):
    assert energy_lower(mass) == pytest.approx(119.96e6 * mass)
    assert energy_higher(mass) == pytest.approx(141.79e6 * mass)
    # 9 kg of water for each kg, its heat of evaporation about 2.44 MJ/kg at 25 °C.
    assert (energy_higher(mass) - energy_lower(mass)) / mass == pytest.approx(8.9367 * 2.442e6, rel=2e-3)
    assert amount_of_mass(mass) == pytest.approx(mass / 2.01588e-3)
