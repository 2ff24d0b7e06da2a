"""Water vapour in gas: monotony, inverses, limits, refusals, never NaN."""

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from macros.calculations.constants import MOLAR_MASS_WATER
from macros.calculations.contract import OutOfRange
from macros.calculations.formula import Symbol, Traced, leaves
from macros.calculations.humidity import (
    TRIPLE_POINT_K,
    dew_point,
    frost_point,
    molar_volume_of_water,
    poynting_factor,
    relative_humidity,
    saturation_pressure,
    saturation_pressure_over_ice,
    vapour_pressure,
    water_carried,
    water_fraction_of_load,
    water_fraction_saturated,
)

many = settings(max_examples=300, deadline=None)
pressures = st.floats(50e3, 70e6) | st.sampled_from([101325.0, 5e5, 16e5, 26e5, 351e5])
temperatures = st.floats(200.0, 363.15) | st.sampled_from([233.15, 273.15, TRIPLE_POINT_K, 273.17, 333.15])


@many
@given(temperatures, st.floats(1e-6, 10.0))
def test_vapour_pressure_rises_with_temperature(temperature_k, more):
    assert vapour_pressure(temperature_k + more) > vapour_pressure(temperature_k)


def test_ice_and_water_meet_at_the_triple_point():
    assert saturation_pressure_over_ice(TRIPLE_POINT_K) == pytest.approx(saturation_pressure(TRIPLE_POINT_K), rel=1e-6)
    assert saturation_pressure_over_ice(TRIPLE_POINT_K) == pytest.approx(611.657, rel=1e-9)


def test_at_100_c_water_boils_at_one_atmosphere():
    """99.974 °C is where IAPWS puts the boiling point at 101 325 Pa."""
    assert saturation_pressure(373.124) == pytest.approx(101325.0, rel=2e-5)


@many
@given(pressures, temperatures, st.floats(1.001, 3.0))
def test_compressed_gas_holds_a_smaller_share(pressure_pa, temperature_k, more):
    assume(pressure_pa > 2 * vapour_pressure(temperature_k) and pressure_pa * more <= 100e6)
    assert water_fraction_saturated(pressure_pa * more, temperature_k) < water_fraction_saturated(
        pressure_pa, temperature_k
    )


@many
@given(pressures, temperatures, st.floats(0.001, 20.0))
def test_warm_gas_holds_more(pressure_pa, temperature_k, warmer):
    assume(pressure_pa > 2 * vapour_pressure(temperature_k + warmer))
    # Across the melting point the Poynting factor falls with the molar volume, by less than 0.01 % a bar.
    assume((temperature_k < TRIPLE_POINT_K) == (temperature_k + warmer < TRIPLE_POINT_K) or warmer > 1.0)
    assert water_fraction_saturated(pressure_pa, temperature_k + warmer) > water_fraction_saturated(
        pressure_pa, temperature_k
    )


@many
@given(pressures, temperatures)
def test_the_share_is_dalton_s_raised_by_poynting(pressure_pa, temperature_k):
    p_sat = vapour_pressure(temperature_k)
    assume(pressure_pa > p_sat)
    fraction = water_fraction_saturated(pressure_pa, temperature_k)
    assert 0 < fraction < 1
    assert fraction == pytest.approx(poynting_factor(pressure_pa, temperature_k) * p_sat / pressure_pa, rel=1e-12)
    assert fraction >= p_sat / pressure_pa


@many
@given(pressures, temperatures)
@example(26e5, 273.15)
@example(26e5, TRIPLE_POINT_K)
def test_dew_point_is_the_inverse_of_saturation(pressure_pa, temperature_k):
    assume(pressure_pa > 1.01 * vapour_pressure(temperature_k))
    fraction = water_fraction_saturated(pressure_pa, temperature_k)
    found = dew_point(pressure_pa, fraction)
    assert math.isfinite(found)
    # Where ice meets water the Poynting factor steps by up to a tenth of a kelvin at 700 bar.
    assert found == pytest.approx(temperature_k, abs=1e-6 if abs(temperature_k - TRIPLE_POINT_K) > 1.0 else 1.0)


@many
@given(st.floats(1e-7, 0.05), st.floats(1.01, 100.0))
def test_the_dew_point_rises_with_pressure_and_with_water(fraction, more):
    at_line = dew_point(26e5, fraction)
    assert dew_point(26e5 * 1.5, fraction) > at_line
    if fraction * more < 0.3:
        assert dew_point(26e5, fraction * more) > at_line


@many
@given(st.floats(1e-7, 0.05))
def test_frost_point_is_the_dew_point_at_one_atmosphere(fraction):
    assert frost_point(fraction) == dew_point(101325.0, fraction)
    assert frost_point(fraction) < dew_point(26e5, fraction)


def test_five_degrees_at_30_bar_are_minus_32_at_one_atmosphere():
    fraction = water_fraction_saturated(30e5, 278.15)
    assert frost_point(fraction) - 273.15 == pytest.approx(-32.2, abs=0.1)


@many
@given(pressures, temperatures, st.floats(0.0, 2.0))
def test_relative_humidity_is_one_where_the_gas_is_saturated(pressure_pa, temperature_k, share):
    assume(pressure_pa > 3 * vapour_pressure(temperature_k))
    saturated = water_fraction_saturated(pressure_pa, temperature_k)
    assume(share * saturated <= 1)
    assert relative_humidity(pressure_pa, temperature_k, share * saturated) == pytest.approx(share, rel=1e-9, abs=1e-12)


@many
@given(st.floats(1e-6, 100.0), st.floats(0.0, 0.95))
def test_load_and_fraction_are_inverse(dry_gas, fraction):
    water = water_carried(dry_gas, fraction)
    assert water_fraction_of_load(water, dry_gas) == pytest.approx(fraction, rel=1e-9, abs=1e-15)
    # Amounts: of the wet gas the fraction is water.
    wet = dry_gas + water / float(MOLAR_MASS_WATER)
    assert fraction * wet == pytest.approx(water / float(MOLAR_MASS_WATER), rel=1e-9, abs=1e-15)


@many
@given(pressures, st.floats(150.0, 473.15))
def test_poynting_raises_and_ice_takes_more_room_than_water(pressure_pa, temperature_k):
    factor = poynting_factor(pressure_pa, temperature_k)
    assert math.isfinite(factor)
    assert (factor >= 1) == (pressure_pa >= vapour_pressure(temperature_k))
    assert molar_volume_of_water(TRIPLE_POINT_K - 0.01) > molar_volume_of_water(TRIPLE_POINT_K)


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: saturation_pressure(273.0), "temperature_k"),
        (lambda: saturation_pressure(math.nan), "temperature_k"),
        (lambda: saturation_pressure(647.2), "temperature_k"),
        (lambda: saturation_pressure_over_ice(273.2), "temperature_k"),
        (lambda: saturation_pressure_over_ice(149.0), "temperature_k"),
        (lambda: water_fraction_saturated(1e5, 373.0), "pressure_pa"),
        (lambda: water_fraction_saturated(1e5, 480.0), "temperature_k"),
        (lambda: dew_point(26e5, 0.0), "water_fraction"),
        (lambda: dew_point(26e5, 1e-15), "water_fraction"),
        (lambda: dew_point(26e5, 0.9), "water_fraction"),
        (lambda: dew_point(26e5, 1.1), "water_fraction"),
        (lambda: dew_point(26e5, math.nan), "water_fraction"),
        (lambda: frost_point(0.0), "water_fraction"),
        (lambda: relative_humidity(26e5, 300.0, -0.1), "water_fraction"),
        (lambda: water_carried(-1.0, 0.1), "dry_gas_mol_per_s"),
        (lambda: water_carried(1.0, 1.0), "water_fraction"),
        (lambda: water_fraction_of_load(1.0, 0.0), "dry_gas_mol_per_s"),
    ],
)
def test_what_makes_no_sense_is_refused_by_name(call, argument):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert refusal.value.argument == argument


def test_the_message_of_boiling_water_says_at_which_pressure():
    with pytest.raises(OutOfRange, match="above 198665"):
        water_fraction_saturated(1e5, 393.15)


def test_the_saturated_fraction_shows_its_formula():
    pressure = Traced(26e5, Symbol("p", "p"))
    temperature = Traced(313.15, Symbol("T", "T"))
    traced = water_fraction_saturated(pressure, temperature)
    assert {leaf.path for leaf in leaves(traced.node)} == {"p", "T", "constant:molar gas constant"}
