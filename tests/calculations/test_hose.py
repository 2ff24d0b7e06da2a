"""A torn hose: without friction it is a nozzle, friction only lowers the flow, refusals."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.hose import rupture_flow, torn_line_flux
from macros.calculations.leak import ideal_mass_flux

pressures = st.floats(1.05e5, 35e6)
temperatures = st.floats(233.15, 358.15)


def flux(pressure_pa, temperature_k=288.15, resistance=0.0, back_pa=101325.0):
    return torn_line_flux(pressure_pa, temperature_k, back_pa, resistance, 1.405, 2.01588e-3)


@settings(max_examples=300, deadline=None)
@given(pressures, temperatures)
@example(1.05e5, 233.15)
@example(35e6, 358.15)
def test_without_friction_it_is_a_nozzle(pressure_pa, temperature_k):
    nozzle = ideal_mass_flux(pressure_pa, temperature_k, 101325.0, 1.405, 2.01588e-3)
    assert flux(pressure_pa, temperature_k) == pytest.approx(nozzle, rel=1e-6)


@settings(max_examples=300, deadline=None)
@given(pressures, st.floats(0.0, 1000.0), st.floats(0.01, 100.0))
def test_friction_lowers_the_flow(pressure_pa, resistance, more):
    assert 0 < flux(pressure_pa, resistance=resistance + more) < flux(pressure_pa, resistance=resistance)


@settings(max_examples=300, deadline=None)
@given(pressures, st.floats(0.0, 200.0), st.floats(1.001, 2.0))
def test_more_pressure_lets_more_out(pressure_pa, resistance, more):
    assert flux(pressure_pa * more, resistance=resistance) > flux(pressure_pa, resistance=resistance)


@settings(max_examples=100, deadline=None)
@given(st.floats(1.02e5, 1.04e5), st.floats(1.0, 50.0))
def test_at_small_differences_it_is_a_liquid(pressure_pa, resistance):
    density = pressure_pa * 2.01588e-3 / (8.314462618 * 288.15)
    liquid = math.sqrt(2 * density * (pressure_pa - 101325.0) / (1 + resistance))
    assert flux(pressure_pa, resistance=resistance) == pytest.approx(liquid, rel=0.03)


def test_a_rupture_goes_with_its_bore():
    arguments = (51e5, 288.15, 101325.0, 10.0, 1.405, 2.01588e-3)
    assert rupture_flow(2e-5, *arguments) == pytest.approx(2 * rupture_flow(1e-5, *arguments))


@pytest.mark.parametrize(
    "call",
    [
        lambda: flux(1e5),
        lambda: flux(2e5, resistance=-1.0),
        lambda: flux(math.nan),
        lambda: flux(2e5, back_pa=0.0),
        lambda: rupture_flow(0.0, 2e5, 288.15, 1e5, 0.0, 1.405, 2.01588e-3),
        lambda: torn_line_flux(2e5, 288.15, 1e5, 0.0, 1.0, 2.01588e-3),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
