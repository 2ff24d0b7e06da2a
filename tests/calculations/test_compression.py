"""Work and warmth of compression."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from macros.calculations.compression import (
    air_compression_work,
    boosting_efficiency,
    boosting_energy,
    compressor_duty,
    electricity_of_free_air,
    free_air_isothermal_work,
    isothermal_work,
    polytropic_temperature,
)
from macros.calculations.contract import OutOfRange
from macros.calculations.hydrogen import isentropic_temperature
from tests.calculations import other_hydrogen

inlets = st.floats(1e5, 1e7)
times = st.floats(1.001, 10.0)
temperatures = st.floats(250.0, 400.0)


@settings(max_examples=300, deadline=None)
@given(inlets, times, temperatures)
def test_isothermal_work_is_the_area_under_the_other_equation(inlet, ratio, temperature):
    area = quad(lambda p: 1 / other_hydrogen.density(p, temperature), inlet, inlet * ratio, epsrel=1e-10)[0]
    assert isothermal_work(inlet, inlet * ratio, temperature) == pytest.approx(area, rel=1e-3)


@settings(max_examples=300, deadline=None)
@given(inlets, times, times, temperatures)
def test_isothermal_work_adds_up_over_steps(inlet, first, second, temperature):
    last = min(inlet * first * second, 1e8)
    middle = min(inlet * first, last)
    steps = isothermal_work(inlet, middle, temperature) + isothermal_work(middle, last, temperature)
    assert isothermal_work(inlet, last, temperature) == pytest.approx(steps, rel=1e-9, abs=1e-3)


def test_work_that_would_be_won_is_refused():
    with pytest.raises(OutOfRange) as refusal:
        isothermal_work(2e6, 1.999e6, 300.0)
    assert refusal.value.argument == "discharge_pressure_pa"
    assert refusal.value.wanted == "at least 2e+06"
    assert isothermal_work(2e6, 2e6, 300.0) == 0
    with pytest.raises(OutOfRange) as refusal:
        free_air_isothermal_work(1e5, 0.9e5)
    assert refusal.value.argument == "line_pressure_pa"
    assert refusal.value.wanted == "at least 100000"
    assert free_air_isothermal_work(1e5, 1e5) == 0


@settings(max_examples=300, deadline=None)
@given(inlets, times, temperatures, st.floats(1.05, 1.35))
def test_cooling_keeps_the_discharge_between_inlet_and_isentropic(inlet, ratio, temperature, index):
    warm = polytropic_temperature(inlet, inlet * ratio, temperature, index)
    assert temperature <= warm
    if ratio < 4:
        assert warm < isentropic_temperature(inlet, temperature, inlet * ratio)
    # p v^n and p v / T of an ideal gas: T2/T1 = ratio · v2/v1 with v2/v1 = ratio^(−1/n).
    assert warm / temperature == pytest.approx(ratio * ratio ** (-1 / index))


def test_perfect_cooling_warms_nothing():
    assert polytropic_temperature(1e6, 5e6, 288.15, 1.0) == 288.15


@settings(max_examples=300, deadline=None)
@given(st.floats(9e4, 1.1e5), st.floats(2.0, 20.0), st.floats(260.0, 320.0), st.floats(1.05, 1.4))
def test_air_work_is_the_area_of_its_polytrope(inlet, ratio, temperature, index):
    volume = 287.0 * temperature / inlet
    area = quad(lambda p: volume * (inlet / p) ** (1 / index), inlet, inlet * ratio, epsrel=1e-11)[0]
    assert air_compression_work(inlet, inlet * ratio, temperature, index) == pytest.approx(area)
    stages = [air_compression_work(inlet, inlet * ratio, temperature, index, stages) for stages in (1.0, 2.0, 3.0)]
    isothermal = 287.0 * temperature * math.log(ratio)
    assert stages[0] > stages[1] > stages[2] > isothermal
    assert stages[1] == pytest.approx(2 * air_compression_work(inlet, inlet * math.sqrt(ratio), temperature, index))


@settings(max_examples=300, deadline=None)
@given(st.floats(8e4, 1.05e5), st.floats(1.0, 20.0))
def test_least_work_on_free_air_is_p_dv(atmosphere, ratio):
    area = quad(lambda p: atmosphere / p, atmosphere, atmosphere * ratio)[0]
    assert free_air_isothermal_work(atmosphere, atmosphere * ratio) == pytest.approx(area, abs=1e-6)


@settings(max_examples=300, deadline=None)
@given(st.floats(10.0, 1e5), st.floats(1e-5, 1.0), st.floats(0.1, 500.0), st.floats(1e4, 1e7))
def test_electricity_follows_the_air(power, delivery, air, ideal):
    electricity = electricity_of_free_air(power, delivery)
    if electricity > 2e6:
        return
    spent = boosting_energy(air, electricity)
    assert spent == pytest.approx(air / delivery * power)
    assert boosting_efficiency(ideal, spent) * spent == pytest.approx(ideal)
    assert compressor_duty(delivery / 2, delivery) == pytest.approx(0.5)
    assert compressor_duty(2 * delivery, delivery) == pytest.approx(2.0)
