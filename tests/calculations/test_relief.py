"""Relief valves: the gauge is multiplied and not the atmosphere, area and capacity agree, the low side, refusals."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange
from macros.calculations.leak import leak_flow
from macros.calculations.relief import relief_area_required, relief_capacity, relieving_pressure

pressures = st.floats(1.2e5, 35e6)
temperatures = st.floats(253.15, 358.15)
coefficients = st.floats(0.1, 1.0)


def capacity(area_m2, pressure_pa, temperature_k=300.0, coefficient=0.7, back_pa=101325.0, compressibility=1.0):
    return relief_capacity(
        area_m2, pressure_pa, temperature_k, back_pa, coefficient, 1.405, 2.01588e-3, compressibility
    )


@settings(max_examples=300)
@given(st.floats(1e-7, 1e-3), pressures, temperatures, coefficients, st.floats(0.5, 2.0))
@example(1e-7, 1.2e5, 253.15, 0.1, 2.0)
@example(1e-3, 35e6, 358.15, 1.0, 0.5)
def test_the_area_for_a_capacity_is_the_area(area_m2, pressure_pa, temperature_k, coefficient, compressibility):
    flow = capacity(area_m2, pressure_pa, temperature_k, coefficient, 101325.0, compressibility)
    again = relief_area_required(
        flow, pressure_pa, temperature_k, 101325.0, coefficient, 1.405, 2.01588e-3, compressibility
    )
    assert again == pytest.approx(area_m2, rel=1e-12)


@settings(max_examples=300, deadline=None)
@given(st.floats(2e5, 35e6), temperatures, coefficients)
def test_the_capacity_for_hydrogen_is_on_the_low_side_of_the_real_gas(pressure_pa, temperature_k, coefficient):
    compressibility = hydrogen.compressibility(pressure_pa, temperature_k)
    low = capacity(1e-5, pressure_pa, temperature_k, coefficient, 101325.0, compressibility)
    assert 0.88 < low / leak_flow(1e-5, coefficient, pressure_pa, temperature_k, 101325.0) < 1.003


@settings(max_examples=300)
@given(st.floats(1.2e5, 35e6), st.floats(6e4, 1.1e5), st.floats(0.0, 0.5), st.floats(0.0, 0.2))
def test_accumulation_counts_on_the_gauge_pressure(set_pa, atmosphere_pa, accumulation, tolerance):
    relieving = relieving_pressure(set_pa, atmosphere_pa, accumulation, tolerance)
    assert relieving - atmosphere_pa == pytest.approx((set_pa - atmosphere_pa) * (1 + accumulation + tolerance))
    assert relieving >= set_pa - 1e-6


@settings(max_examples=300)
@given(pressures, temperatures, st.floats(1.001, 1.5))
def test_more_pressure_and_colder_gas_pass_more(pressure_pa, temperature_k, more):
    flow = capacity(1e-5, pressure_pa, temperature_k)
    assert capacity(1e-5, pressure_pa * more, temperature_k) > flow
    assert capacity(1e-5, pressure_pa, temperature_k / more) > flow if temperature_k / more > 200 else True


def test_a_valve_that_pushes_against_its_own_pressure_has_no_area():
    with pytest.raises(OutOfRange):
        relief_area_required(1e-3, 3e5, 300.0, 3e5, 0.7, 1.405, 2.01588e-3, 1.0)


@pytest.mark.parametrize(
    "call",
    [
        lambda: relieving_pressure(2e5, 101325.0, -0.1),
        lambda: relieving_pressure(math.nan, 101325.0, 0.1),
        lambda: relieving_pressure(2e5, 0.0, 0.1),
        lambda: capacity(0.0, 2e5),
        lambda: capacity(1e-5, 1e5),
        lambda: capacity(1e-5, 2e5, coefficient=1.2),
        lambda: relief_area_required(0.0, 3e5, 300.0, 1e5, 0.7, 1.405, 2.01588e-3, 1.0),
        lambda: relief_area_required(1e-3, 3e5, 300.0, 1e5, 0.7, 1.0, 2.01588e-3, 1.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


def test_a_relief_that_hardly_flows_still_has_an_area():
    """One pascal over the atmosphere: √(2 × 0.083 × 1) = 0.4 kg/(s m2)."""
    area = relief_area_required(1e-6, 101326.0, 300.0, 101325.0, 1.0, 1.405, 2.01588e-3, 1.0)
    assert area == pytest.approx(1e-6 / 0.405, rel=1e-2)
