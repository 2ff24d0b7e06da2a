"""The cold coil: heat balances, the mean difference lies between the ends, ice is seen."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.cold_coil import coil_area, coil_heat, ice_margin, log_mean_difference
from macros.calculations.contract import OutOfRange

many = settings(max_examples=300, deadline=None)
temperatures = st.floats(233.15, 363.15) | st.sampled_from([273.15, 283.15])


@many
@given(st.floats(1e-4, 1.0), st.floats(0.0, 1e-3), st.floats(1e5, 350e5), temperatures, temperatures)
def test_the_heat_is_finite_and_no_less_than_that_of_condensing(gas, condensed, pressure_pa, inlet_k, outlet_k):
    heat = coil_heat(gas, condensed, pressure_pa, inlet_k, outlet_k)
    assert math.isfinite(heat)
    assert heat >= condensed * 2.28e6
    assert heat >= coil_heat(gas, 0.0, pressure_pa, inlet_k, outlet_k) >= 0.0
    if inlet_k <= outlet_k:
        assert coil_heat(gas, 0.0, pressure_pa, inlet_k, outlet_k) == 0.0


@many
@given(st.floats(1e-4, 1.0), st.floats(1e-9, 1e-3), st.floats(283.15, 363.15), st.floats(1.0, 40.0))
def test_cooling_further_takes_more(gas, condensed, inlet_k, colder):
    heat = coil_heat(gas, condensed, 20e5, inlet_k, inlet_k - 1.0)
    assert coil_heat(gas, condensed, 20e5, inlet_k, inlet_k - 1.0 - colder) > heat


def test_freezing_takes_the_heat_of_fusion_too():
    just_above, just_below = (coil_heat(1.0, 1e-3, 1e6, 280.0, outlet) for outlet in (273.16, 273.14))
    assert just_below - just_above == pytest.approx(333.4, abs=1.0)


@many
@given(temperatures, st.floats(0.01, 60.0), st.floats(0.01, 60.0))
@example(283.15, 5.0, 1e-9)
@example(283.15, 5.0, 1e-5)
def test_the_mean_difference_lies_between_the_ends(coolant_k, at_outlet, fall):
    outlet_k = coolant_k + at_outlet
    mean = log_mean_difference(min(outlet_k + fall, 423.0), outlet_k, coolant_k)
    assert at_outlet * (1 - 1e-6) <= mean <= (at_outlet + fall) * (1 + 1e-6)
    assert mean <= (2 * at_outlet + fall) / 2 * (1 + 1e-6)


def test_gas_that_enters_colder_than_it_leaves_has_the_difference_at_the_outlet():
    assert log_mean_difference(280.0, 290.0, 277.0) == 13.0


@many
@given(st.floats(0.0, 1e4), st.floats(1.0, 5000.0), st.floats(0.1, 80.0))
def test_area_is_heat_over_coefficient_and_difference(heat, coefficient, difference):
    assert coil_area(heat, coefficient, difference) * coefficient * difference == pytest.approx(heat, rel=1e-12)


@many
@given(st.floats(213.15, 303.15), st.floats(160.0, 340.0))
def test_ice_asks_for_a_wall_below_freezing_and_wet_gas(coolant_k, dew_point_k):
    margin = ice_margin(coolant_k, dew_point_k)
    assert (margin < 0) == (coolant_k < 273.15 and dew_point_k > coolant_k)


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: log_mean_difference(300.0, 277.15, 277.15), "temperature_out_k"),
        (lambda: log_mean_difference(300.0, 270.0, 277.15), "temperature_out_k"),
        (lambda: log_mean_difference(math.nan, 290.0, 277.15), "temperature_in_k"),
        (lambda: coil_area(1.0, 0.0, 10.0), "coefficient_w_per_m2_k"),
        (lambda: coil_area(1.0, 10.0, 0.0), "mean_difference_k"),
        (lambda: coil_area(-1.0, 10.0, 1.0), "heat_w"),
        (lambda: coil_heat(0.0, 0.0, 1e6, 300.0, 280.0), "dry_gas_mol_per_s"),
        (lambda: coil_heat(1.0, -1e-9, 1e6, 300.0, 280.0), "water_condensed_kg_per_s"),
        (lambda: ice_margin(math.nan, 280.0), "coolant_temperature_k"),
    ],
)
def test_what_makes_no_sense_is_refused_by_name(call, argument):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert refusal.value.argument == argument
