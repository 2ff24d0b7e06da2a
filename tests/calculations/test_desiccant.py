"""Silica gel: the isotherm rises, its inverse agrees, regeneration and drying obey the balance of water."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.desiccant import (
    HIGHEST_LOADING,
    bed_temperature,
    humidity_over_gel,
    inlet_humidity,
    loading,
    regeneration_energy,
    regeneration_interval,
    residual_loading,
    water_after_bed,
    working_capacity,
)
from macros.calculations.humidity import frost_point, saturation_pressure, water_fraction_of_load
from macros.calculations.separator import water_after_separating

many = settings(max_examples=300, deadline=None)
humidities = st.floats(0.0, 1.0) | st.sampled_from([0.0, 0.1287, 0.2969, 0.7666, 1.0])
gel_temperatures = st.floats(243.15, 523.15) | st.sampled_from([298.15, 298.16, 413.15])
bed_temperatures = st.floats(243.15, 423.15) | st.sampled_from([273.15, 298.15])
loadings = st.floats(0.0, HIGHEST_LOADING) | st.sampled_from([0.0, 0.0961, 0.2, HIGHEST_LOADING])
AT_25_C = 298.15


@many
@given(humidities, gel_temperatures)
@example(1.0, 243.15)
@example(1.0, 523.15)
@example(0.0, 523.15)
def test_the_loading_lies_between_nothing_and_the_highest(humidity, temperature_k):
    assert 0.0 <= loading(humidity, temperature_k) <= HIGHEST_LOADING


@many
@given(humidities, humidities, gel_temperatures)
def test_wetter_gas_loads_more(one, other, temperature_k):
    drier, wetter = sorted((one, other))
    assert loading(drier, temperature_k) <= loading(wetter, temperature_k)


@many
@given(st.floats(1.0, 600.0), st.floats(274.0, 500.0), st.floats(0.1, 20.0))
def test_at_one_vapour_pressure_a_hotter_gel_holds_less(vapour_pa, temperature_k, hotter):
    cold = loading(min(1.0, vapour_pa / saturation_pressure(temperature_k)), temperature_k)
    hot = loading(min(1.0, vapour_pa / saturation_pressure(temperature_k + hotter)), temperature_k + hotter)
    assert hot <= cold


@pytest.mark.parametrize(
    ("vapour_pa", "measured"), [(408.0, 0.095661), (941.0, 0.187359), (1600.0, 0.279237), (2430.0, 0.340489)]
)
def test_the_isotherm_passes_through_the_points_it_was_drawn_from(vapour_pa, measured):
    """Wang and LeVan, silica gel and water at 298.15 K, over 3169.7 Pa; the first lies where the power law ends."""
    assert loading(vapour_pa / 3169.75, AT_25_C) == pytest.approx(measured, rel=5e-3 if measured < 0.1 else 2e-4)


def test_the_isotherm_has_no_step():
    for humidity in (0.1287, 0.2969, 0.5048, 0.7666):
        assert loading(humidity * (1 + 1e-9), AT_25_C) == pytest.approx(
            loading(humidity * (1 - 1e-9), AT_25_C), rel=1e-7
        )
    assert loading(0.3, 298.15 + 1e-6) == pytest.approx(loading(0.3, 298.15), rel=1e-6)


@many
@given(st.floats(0.0, 0.7666), bed_temperatures)
def test_the_humidity_over_the_gel_is_the_inverse(humidity, temperature_k):
    held = loading(humidity, temperature_k)
    if held < HIGHEST_LOADING:
        assert humidity_over_gel(held, temperature_k) == pytest.approx(humidity, rel=1e-9, abs=1e-12)


@many
@given(loadings, bed_temperatures)
def test_the_humidity_over_the_gel_is_a_share(held, temperature_k):
    assert 0.0 <= humidity_over_gel(held, temperature_k) <= 1.0


@many
@given(st.floats(333.15, 513.15), st.floats(213.15, 312.15), st.floats(0.5, 10.0))
def test_hotter_and_drier_regeneration_leaves_less(temperature_k, dew_point_k, more):
    left = residual_loading(temperature_k, dew_point_k)
    assert residual_loading(temperature_k + more, dew_point_k) < left
    if dew_point_k + more <= 313.15:
        assert residual_loading(temperature_k, dew_point_k + more) > left


def test_regenerating_in_damp_air_misses_fuel_cell_purity():
    """
    Gel regenerated at 120 °C in air of dew point 20 °C (2339 Pa), 25 °C, 16 bar(a).

    By hand: 2339 × exp[−5835.03 × (1/298.15 − 1/393.15)] = 2339 × exp(−4.7291) = 20.66 Pa; over 16 bar 12.9 ppm,
    above 5 ppm. In air of dew point −40 °C (12.84 Pa) 0.1134 Pa, 0.07 ppm.
    """
    wet, dry = residual_loading(393.15, 293.15), residual_loading(393.15, 233.15)
    gas = {"water_kg_per_s": 1e-4, "dry_gas_mol_per_s": 5e-3, "pressure_pa": 16e5, "temperature_k": AT_25_C}
    after_wet = water_fraction_of_load(water_after_bed(**gas, residual_loading=wet), 5e-3)
    after_dry = water_fraction_of_load(water_after_bed(**gas, residual_loading=dry), 5e-3)
    assert after_wet == pytest.approx(12.9e-6, rel=0.02)
    assert after_dry == pytest.approx(0.0718e-6, rel=0.02)
    assert frost_point(after_wet) > frost_point(5e-6) > frost_point(after_dry)


def test_what_the_indicator_cannot_show():
    """At 25 °C the orange indicator turns near 0.15 kg/kg; 5 ppm at 30 bar ask for no more than 0.012 kg/kg."""
    gas = {"water_kg_per_s": 1e-4, "dry_gas_mol_per_s": 5e-3, "pressure_pa": 30e5, "temperature_k": AT_25_C}
    at_change = water_fraction_of_load(water_after_bed(**gas, residual_loading=0.15), 5e-3)
    at_limit = water_fraction_of_load(water_after_bed(**gas, residual_loading=0.012), 5e-3)
    assert at_limit == pytest.approx(5e-6, rel=0.1)
    assert at_change > 40 * at_limit


@many
@given(st.floats(0.0, 0.01), st.floats(1e-4, 1.0), st.floats(1.1e5, 350e5), st.floats(243.15, 353.15), loadings)
def test_a_bed_never_adds_water(water_kg_per_s, dry_gas, pressure_pa, temperature_k, residual):
    left = water_after_bed(water_kg_per_s, dry_gas, pressure_pa, temperature_k, residual)
    assert 0.0 <= left <= water_kg_per_s
    assert left <= water_after_bed(water_kg_per_s, dry_gas, pressure_pa, temperature_k, HIGHEST_LOADING)


@many
@given(st.floats(0.01, 200.0), st.floats(0.0, 5.0), bed_temperatures, loadings, st.floats(0.0, 0.89))
def test_capacity_grows_with_the_bed_and_shrinks_with_what_is_left(mass, humidity, temperature_k, residual, zone):
    capacity = working_capacity(mass, humidity, temperature_k, residual, zone)
    assert 0.0 <= capacity <= mass * HIGHEST_LOADING
    assert working_capacity(2 * mass, humidity, temperature_k, residual, zone) == pytest.approx(2 * capacity, rel=1e-12)
    assert working_capacity(mass, humidity, temperature_k, residual / 2, zone) >= capacity
    assert working_capacity(mass, humidity, temperature_k, residual, zone + 0.05) <= capacity


@many
@given(st.floats(243.15, 353.15), st.floats(0.0, 1e-5), st.floats(1e-3, 1.0), st.floats(1e5, 350e5))
def test_taking_up_water_warms_the_bed(temperature_k, vapour, dry_gas, pressure_pa):
    warm = bed_temperature(temperature_k, vapour, dry_gas, pressure_pa)
    assert warm >= temperature_k
    assert bed_temperature(temperature_k, 2 * vapour, dry_gas, pressure_pa) - temperature_k == pytest.approx(
        2 * (warm - temperature_k), rel=1e-6, abs=1e-9
    )


def test_gas_saturated_colder_than_the_bed_is_dry_enough_for_the_gel():
    """A coalescer at 20 °C before a bed at 25 °C: 2339 / 3169 = 74 %. Behind one at 35 °C water would condense."""
    gas = {"dry_gas_mol_per_s": 5e-3, "pressure_pa": 20e5}
    cold = water_after_separating(1e-3, **gas, temperature_k=293.15, carry_over=0.0)
    warm = water_after_separating(1e-3, **gas, temperature_k=308.15, carry_over=0.0)
    assert inlet_humidity(cold, **gas, temperature_k=298.15) == pytest.approx(0.738, abs=0.002)
    assert inlet_humidity(warm, **gas, temperature_k=298.15) > 1.7


@many
@given(
    st.floats(0.01, 100.0), st.floats(0.0, 30.0), st.floats(363.15, 513.15), st.floats(0.0, 1e5), st.floats(0.1, 1.0)
)
def test_regeneration_energy_is_a_sum(mass, water, temperature_k, column, efficiency):
    def energy(mass, water, column, efficiency=1.0):
        return regeneration_energy(mass, water, 298.15, temperature_k, column, efficiency)

    whole = energy(mass, water, column)
    rest = energy(mass, 0.0, column)
    assert whole == pytest.approx(rest + water * 2.693e6, rel=1e-4)
    assert rest == pytest.approx((mass * 920.0 + column) * (temperature_k - 298.15), rel=1e-9)
    assert energy(mass, water, column, efficiency) == pytest.approx(whole / efficiency, rel=1e-12)


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: loading(-0.01, 298.15), "relative_humidity"),
        (lambda: loading(1.01, 298.15), "relative_humidity"),
        (lambda: loading(math.nan, 298.15), "relative_humidity"),
        (lambda: loading(0.5, 240.0), "temperature_k"),
        (lambda: loading(0.5, 524.0), "temperature_k"),
        (lambda: humidity_over_gel(0.35, 298.15), "loading"),
        (lambda: residual_loading(300.0, 283.15), "regeneration_temperature_k"),
        (lambda: residual_loading(413.15, 320.0), "purge_dew_point_k"),
        (lambda: working_capacity(0.0, 0.5, 298.15, 0.01, 0.2), "bed_mass_kg"),
        (lambda: working_capacity(1.0, 0.5, 298.15, 0.01, 1.0), "transfer_zone"),
        (lambda: regeneration_interval(1.0, 0.0), "water_removed_kg_per_s"),
        (lambda: regeneration_energy(1.0, 0.1, 298.15, 413.15, 100.0, 0.0), "efficiency"),
        (lambda: bed_temperature(298.15, 1e-6, 0.0, 1e6), "dry_gas_mol_per_s"),
    ],
)
def test_what_makes_no_sense_is_refused_by_name(call, argument):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert refusal.value.argument == argument
