"""Voltage of a cell: thermodynamics holds together, measured points are kept, the model moves as cells do."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.cell_voltage import (
    activation_voltage,
    cold_cell_voltage,
    dry_pressure,
    exchange_current_density,
    measured_voltage,
    membrane_conductivity,
    modelled_voltage,
    power_drawn,
    reversible_voltage,
    standard_reversible_voltage,
    thermoneutral_voltage,
)
from macros.calculations.contract import OutOfRange
from macros.calculations.formula import Call, Curve, Symbol, Traced
from tests.calculations.drawn import curves

temperatures = st.floats(273.15, 373.15)
pressures = st.floats(2e4, 2e7)
densities = st.floats(10.0, 5e4)


@settings(max_examples=300)
@given(temperatures)
def test_enthalpy_follows_from_gibbs_energy(temperature):
    """Gibbs and Helmholtz: V_tn = E − T dE/dT. The two come from different sources."""
    step = 0.01
    low, high = max(273.15, temperature - step), min(373.15, temperature + step)
    slope = (standard_reversible_voltage(high) - standard_reversible_voltage(low)) / (high - low)
    assert standard_reversible_voltage(temperature) - temperature * slope == pytest.approx(
        thermoneutral_voltage(temperature), abs=1.5e-3
    )


@settings(max_examples=300)
@given(temperatures, temperatures)
def test_a_warmer_cell_needs_less(one, other):
    cool, warm = sorted((one, other))
    assert thermoneutral_voltage(cool) >= thermoneutral_voltage(warm) - 1e-12
    assert standard_reversible_voltage(cool) >= standard_reversible_voltage(warm) - 1e-12
    assert thermoneutral_voltage(warm) > standard_reversible_voltage(cool)


@settings(max_examples=300)
@given(temperatures, pressures, pressures, st.floats(1.0, 5.0))
def test_pressure_raises_the_voltage_that_electrolysis_needs(temperature, hydrogen, oxygen, times):
    before = reversible_voltage(temperature, hydrogen, oxygen)
    nernst = 8.31446261815324 * temperature / (2 * 96485.33212331) * math.log(times)
    assert reversible_voltage(temperature, times * hydrogen, oxygen) - before == pytest.approx(nernst, abs=1e-12)
    assert reversible_voltage(temperature, hydrogen, times * oxygen) - before == pytest.approx(nernst / 2, abs=1e-12)


def test_at_one_atmosphere_both_gases_add_nothing():
    assert reversible_voltage(333.15, 101325.0, 101325.0) == standard_reversible_voltage(333.15)


@settings(max_examples=300)
@given(curves(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_measured_points_are_kept_and_nothing_falls_between_them(points, one, other):
    for density, voltage in points:
        assert measured_voltage(points, density) == pytest.approx(voltage, rel=1e-12)
    first, last = points[0][0], points[-1][0]
    low, high = (min(first + share * (last - first), last) for share in sorted((one, other)))
    assert measured_voltage(points, low) <= measured_voltage(points, high) + 1e-9
    for (x_low, y_low), (x_high, y_high) in pairwise(points):
        if x_low <= low <= x_high:
            assert y_low - 1e-9 <= measured_voltage(points, low) <= y_high + 1e-9


def test_outside_the_measured_points_nothing_is_said():
    points = ((200.0, 1.46), (12000.0, 1.99))
    for density in (199.9, 12000.1):
        with pytest.raises(OutOfRange, match="between the measured 200 and 12000") as refusal:
            measured_voltage(points, density)
        assert refusal.value.argument == "current_density_a_per_m2"
    assert measured_voltage(points, 200.0) == 1.46
    assert measured_voltage(points, 12000.0) == 1.99


def test_a_curve_that_falls_is_refused():
    with pytest.raises(OutOfRange, match="the voltage of the point before") as refusal:
        measured_voltage(((200.0, 1.46), (1000.0, 1.45)), 500.0)
    assert (refusal.value.argument, refusal.value.found) == ("polarisation", 1.45)
    assert measured_voltage(((200.0, 1.46), (1000.0, 1.46)), 500.0) == 1.46


def test_the_formula_shows_that_points_were_measured():
    curve = Curve(((200.0, 1.46), (12000.0, 1.99)), Symbol("stack.polarisation", "U(j)"))
    voltage = measured_voltage(curve, Traced(6000.0, Symbol("stack.current_density", "j")))
    assert isinstance(voltage.node, Call)
    assert voltage.node.name == "interpolate"
    assert [argument.path for argument in voltage.node.arguments] == ["stack.polarisation", "stack.current_density"]


@settings(max_examples=300)
@given(densities, densities, temperatures, st.floats(20e-6, 300e-6))
def test_more_current_never_needs_less_voltage(one, other, temperature, thickness):
    low, high = sorted((one, other))
    before = modelled_voltage(low, temperature, 1.24, thickness)
    assert 1.24 < before <= modelled_voltage(high, temperature, 1.24, thickness)


@settings(max_examples=300)
@given(densities, temperatures, temperatures, st.floats(20e-6, 300e-6))
def test_a_cold_or_thick_cell_needs_more(density, one, other, thickness):
    cool, warm = sorted((one, other))
    assert modelled_voltage(density, cool, 1.24, thickness) >= modelled_voltage(density, warm, 1.24, thickness)
    assert modelled_voltage(density, warm, 1.24, 2 * thickness) > modelled_voltage(density, warm, 1.24, thickness)
    assert modelled_voltage(density, warm, 1.24, thickness, 10.0) > modelled_voltage(density, warm, 1.24, thickness)
    resistance = 5e-6
    assert modelled_voltage(density, warm, 1.24, thickness, 22.0, resistance) - modelled_voltage(
        density, warm, 1.24, thickness, 22.0
    ) == pytest.approx(density * resistance, rel=1e-6)


@settings(max_examples=300)
@given(densities, st.floats(1e-6, 1e3), temperatures)
def test_the_activation_voltage_gives_back_its_current(density, exchange, temperature):
    over = activation_voltage(density, exchange, temperature)
    back = 2 * exchange * math.sinh(over * 96485.33212331 / (8.31446261815324 * temperature))
    assert back == pytest.approx(density, rel=1e-6)


@settings(max_examples=300)
@given(st.floats(1e-6, 1.0), st.floats(0.0, 9e4), temperatures, temperatures)
def test_an_exchange_current_carried_there_and_back_is_itself(exchange, energy, one, other):
    there = exchange_current_density(exchange, energy, one, other)
    assert exchange_current_density(there, energy, other, one) == pytest.approx(exchange, rel=1e-9)
    assert (there >= exchange) == (other >= one) or energy < 1e-3 or abs(one - other) < 1e-3


@settings(max_examples=300)
@given(st.floats(2.0, 29.0), temperatures, temperatures)
def test_a_wetter_or_warmer_membrane_conducts_better(water, one, other):
    cool, warm = sorted((one, other))
    assert membrane_conductivity(water, cool) <= membrane_conductivity(water, warm)
    assert membrane_conductivity(water + 1, cool) > membrane_conductivity(water, cool) > 0


def test_boiling_water_leaves_no_dry_gas():
    assert dry_pressure(1.2e5, 1.1e5) == pytest.approx(1e4)
    with pytest.raises(OutOfRange, match="above the vapour's 101325") as refusal:
        dry_pressure(101325.0, 101325.0)
    assert refusal.value.argument == "pressure_pa"


@settings(max_examples=300)
@given(st.floats(1.0, 1e6), st.floats(0.3, 1.0))
def test_a_converter_draws_no_less_than_it_gives(power, efficiency):
    assert power_drawn(power, efficiency) * efficiency == pytest.approx(power, rel=1e-12)
    assert power_drawn(power, efficiency) >= power


def test_a_cold_cell_stands_above_a_warm_one():
    assert cold_cell_voltage(1.9, 0.25) == pytest.approx(2.15)
