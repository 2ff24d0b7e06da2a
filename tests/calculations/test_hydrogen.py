"""Hydrogen's properties: pairs that must agree, monotony, limits, refusals, never NaN."""

import math
import subprocess
import sys

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations import hydrogen
from macros.calculations.constants import GAS_CONSTANT, MOLAR_MASS_HYDROGEN
from macros.calculations.contract import CALCULATIONS, OutOfRange
from macros.calculations.formula import Call, Symbol, Traced

PROPERTIES = (
    hydrogen.density,
    hydrogen.enthalpy,
    hydrogen.entropy,
    hydrogen.internal_energy,
    hydrogen.compressibility,
    hydrogen.viscosity,
    hydrogen.heat_capacity_pressure,
    hydrogen.heat_capacity_volume,
)

pressures = st.floats(10.0, 100e6) | st.sampled_from([10.0, 1e5, 26e5, 350e5, 100e6])
temperatures = st.floats(100.0, 1000.0) | st.sampled_from([100.0, 233.15, 288.15, 358.15, 1000.0])
many = settings(max_examples=300, deadline=None)


@pytest.mark.parametrize("of", PROPERTIES, ids=lambda of: of.__name__)
def test_every_state_in_range_has_a_finite_value(of):
    @many
    @given(pressures, temperatures)
    @example(10.0, 100.0)
    @example(10.0, 1000.0)
    @example(100e6, 100.0)
    @example(100e6, 1000.0)
    def check(pressure_pa, temperature_k):
        value = of(pressure_pa, temperature_k)
        assert type(value) is float
        assert math.isfinite(value)

    check()


@pytest.mark.parametrize("of", PROPERTIES, ids=lambda of: of.__name__)
@pytest.mark.parametrize(
    ("pressure_pa", "temperature_k", "argument"),
    [
        (9.0, 300.0, "pressure_pa"),
        (100.1e6, 300.0, "pressure_pa"),
        (math.nan, 300.0, "pressure_pa"),
        (math.inf, 300.0, "pressure_pa"),
        (1e5, 99.9, "temperature_k"),
        (1e5, 1000.1, "temperature_k"),
        (1e5, math.nan, "temperature_k"),
        (1e5, -1.0, "temperature_k"),
    ],
)
def test_outside_the_range_is_refused_by_name(of, pressure_pa, temperature_k, argument):
    with pytest.raises(OutOfRange) as refusal:
        of(pressure_pa, temperature_k)
    assert refusal.value.argument == argument


@many
@given(pressures, temperatures, st.floats(1.0001, 3.0))
def test_denser_under_more_pressure_thinner_when_hot(pressure_pa, temperature_k, more):
    density = hydrogen.density(pressure_pa, temperature_k)
    if pressure_pa * more <= 100e6:
        assert hydrogen.density(pressure_pa * more, temperature_k) > density
    if temperature_k * more <= 1000.0:
        assert hydrogen.density(pressure_pa, temperature_k * more) < density


@many
@given(pressures, temperatures, st.floats(1.0001, 3.0))
def test_energy_and_entropy_rise_with_temperature(pressure_pa, temperature_k, more):
    if temperature_k * more <= 1000.0:
        for of in (hydrogen.enthalpy, hydrogen.entropy, hydrogen.internal_energy):
            assert of(pressure_pa, temperature_k * more) > of(pressure_pa, temperature_k)


@many
@given(pressures, temperatures)
def test_pressure_and_density_are_inverse(pressure_pa, temperature_k):
    density = hydrogen.density(pressure_pa, temperature_k)
    assert hydrogen.pressure(density, temperature_k) == pytest.approx(pressure_pa, rel=1e-7)


@many
@given(pressures, temperatures)
def test_enthalpy_is_internal_energy_and_flow_work(pressure_pa, temperature_k):
    work = pressure_pa / hydrogen.density(pressure_pa, temperature_k)
    energy = hydrogen.internal_energy(pressure_pa, temperature_k)
    assert hydrogen.enthalpy(pressure_pa, temperature_k) == pytest.approx(energy + work, rel=1e-7)


@many
@given(pressures, temperatures)
def test_compressibility_and_density_say_the_same(pressure_pa, temperature_k):
    specific = float(GAS_CONSTANT) / float(MOLAR_MASS_HYDROGEN)
    ideal = pressure_pa / (specific * temperature_k)
    factor = hydrogen.compressibility(pressure_pa, temperature_k)
    # The equation of state was fitted with the gas constant of its year, 1.1e-6 above today's.
    assert ideal / hydrogen.density(pressure_pa, temperature_k) == pytest.approx(factor, rel=2e-6)


@many
@given(temperatures)
def test_at_low_pressure_the_gas_is_ideal(temperature_k):
    assert hydrogen.compressibility(10.0, temperature_k) == pytest.approx(1.0, abs=1e-6)
    difference = hydrogen.heat_capacity_pressure(10.0, temperature_k) - hydrogen.heat_capacity_volume(
        10.0, temperature_k
    )
    assert difference == pytest.approx(float(GAS_CONSTANT) / float(MOLAR_MASS_HYDROGEN), rel=1e-4)


@many
@given(pressures, st.floats(101.0, 999.0))
def test_temperature_of_energy_goes_back(pressure_pa, temperature_k):
    density = hydrogen.density(pressure_pa, temperature_k)
    energy = hydrogen.internal_energy(pressure_pa, temperature_k)
    assert hydrogen.temperature_of_energy(density, energy) == pytest.approx(temperature_k, abs=1e-4)


@many
@given(pressures, st.floats(233.15, 358.15), st.floats(0.1, 10.0))
def test_isentropic_there_and_back(pressure_pa, temperature_k, ratio):
    other = min(max(pressure_pa * ratio, 10.0), 100e6)
    there = hydrogen.isentropic_temperature(pressure_pa, temperature_k, other)
    assert hydrogen.entropy(other, there) == pytest.approx(hydrogen.entropy(pressure_pa, temperature_k), rel=1e-8)
    assert hydrogen.isentropic_temperature(other, there, pressure_pa) == pytest.approx(temperature_k, abs=1e-5)
    assert (there >= temperature_k) == (other >= pressure_pa)


def test_a_step_beyond_the_equation_is_refused():
    """From 1 to 1000 bar in one step without cooling the gas would pass 1000 K."""
    with pytest.raises(OutOfRange, match="pressure_out_pa"):
        hydrogen.isentropic_temperature(1e5, 300.0, 100e6)
    with pytest.raises(OutOfRange, match="internal_energy_j_per_kg"):
        hydrogen.temperature_of_energy(1.0, -0.9e6)


def test_throttled_hydrogen_warms():
    """At constant enthalpy from 200 bar to 1 bar hydrogen at 25 °C gains some 7 K; air would cool."""
    before = hydrogen.enthalpy(200e5, 298.15)
    assert hydrogen.enthalpy(1e5, 298.15 + 6.0) < before < hydrogen.enthalpy(1e5, 298.15 + 9.0)


def test_the_fast_twins_are_the_public_ones():
    assert hydrogen.state_density(26e5, 300.0) == hydrogen.density(26e5, 300.0)
    assert hydrogen.state_pressure(2.0, 300.0) == hydrogen.pressure(2.0, 300.0)
    assert hydrogen.state_enthalpy(26e5, 300.0) == hydrogen.enthalpy(26e5, 300.0)
    assert hydrogen.state_entropy(26e5, 300.0) == hydrogen.entropy(26e5, 300.0)
    assert hydrogen.state_internal_energy(26e5, 300.0) == hydrogen.internal_energy(26e5, 300.0)
    density = hydrogen.density(26e5, 300.0)
    assert hydrogen.state_energy_of_density(density, 300.0) == pytest.approx(hydrogen.internal_energy(26e5, 300.0))


def test_formulas_show_the_state_by_name():
    pressure = Traced(26e5, Symbol("buffer.cut_out", "p"))
    traced = hydrogen.density(pressure, 300.0)
    assert isinstance(traced, Traced)
    assert isinstance(traced.node, Call)
    assert traced.node.name == "density"
    assert all(entry.opaque for key, entry in CALCULATIONS.items() if key.startswith("hydrogen."))


def test_the_library_is_loaded_only_when_asked():
    """It takes more than a second to import, and most pages need no property of hydrogen."""
    code = "import sys, macros.calculations.hydrogen, macros.calculations.humidity; print('CoolProp' in sys.modules)"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "False"
