"""
Properties of hydrogen: normal hydrogen by its reference equation of state, CoolProp's `Hydrogen`.

The library extrapolates silently beyond the range of the equation, so the range is guarded here.
It takes more than a second to import, so that waits until the first property is asked for.

Every public calculation has a plain twin named `state_…`, without guard or trace, for inner loops that
have checked their own range.
"""

from __future__ import annotations

import threading
from typing import Any

from macros.calculations.contract import OutOfRange, between, calculation, range_said

LOWEST_TEMPERATURE_K, HIGHEST_TEMPERATURE_K = 100.0, 1000.0
LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA = 10.0, 100e6
LOWEST_DENSITY, HIGHEST_DENSITY = 1e-6, 90.0

_TEMPERATURE = between(LOWEST_TEMPERATURE_K, HIGHEST_TEMPERATURE_K)
_PRESSURE = between(LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA)
_DENSITY = between(LOWEST_DENSITY, HIGHEST_DENSITY)

# The reused state of the library must not be shared between threads: the preview serves in one and builds in another.
_local = threading.local()


def _at_pressure(pressure_pa: float, temperature_k: float) -> Any:
    try:
        state, inputs = _local.pressure_temperature
    except AttributeError:
        _import()
        state, inputs = _local.pressure_temperature
    state.update(inputs, pressure_pa, temperature_k)
    return state


def _at_density(density_kg_per_m3: float, temperature_k: float) -> Any:
    try:
        state, inputs = _local.density_temperature
    except AttributeError:
        _import()
        state, inputs = _local.density_temperature
    state.update(inputs, density_kg_per_m3, temperature_k)
    return state


def _import() -> None:
    from CoolProp import CoolProp

    by_pressure = CoolProp.AbstractState("HEOS", "Hydrogen")
    # Far above the critical temperature (33 K) there is one phase; saying so spares the library its search for it.
    by_pressure.specify_phase(CoolProp.iphase_supercritical_gas)
    by_density = CoolProp.AbstractState("HEOS", "Hydrogen")
    _local.pressure_temperature = by_pressure, CoolProp.PT_INPUTS
    _local.density_temperature = by_density, CoolProp.DmassT_INPUTS


def state_density(pressure_pa: float, temperature_k: float) -> float:
    """Density [kg/m3], range unchecked."""
    return float(_at_pressure(pressure_pa, temperature_k).rhomass())


def state_pressure(density_kg_per_m3: float, temperature_k: float) -> float:
    """Pressure [Pa], range unchecked."""
    return float(_at_density(density_kg_per_m3, temperature_k).p())


def state_enthalpy(pressure_pa: float, temperature_k: float) -> float:
    """Enthalpy [J/kg], range unchecked."""
    return float(_at_pressure(pressure_pa, temperature_k).hmass())


def state_entropy(pressure_pa: float, temperature_k: float) -> float:
    """Entropy [J/(kg K)], range unchecked."""
    return float(_at_pressure(pressure_pa, temperature_k).smass())


def state_internal_energy(pressure_pa: float, temperature_k: float) -> float:
    """Internal energy [J/kg], range unchecked."""
    return float(_at_pressure(pressure_pa, temperature_k).umass())


def state_energy_of_density(density_kg_per_m3: float, temperature_k: float) -> float:
    """Internal energy [J/kg] at a density, range unchecked."""
    return float(_at_density(density_kg_per_m3, temperature_k).umass())


def state_temperature_of_energy(
    density_kg_per_m3: float, internal_energy_j_per_kg: float, guess_k: float = 300.0
) -> float:
    """Temperature [K] at which gas of a density holds an energy, range unchecked. Newton: u rises with T."""
    temperature_k = guess_k
    for _ in range(50):
        state = _at_density(density_kg_per_m3, temperature_k)
        step = (internal_energy_j_per_kg - state.umass()) / state.cvmass()
        temperature_k = _kept_in_range(temperature_k + step)
        if abs(step) < 1e-9 * temperature_k:
            break
    return float(temperature_k)


def state_isentropic_temperature(pressure_in_pa: float, temperature_in_k: float, pressure_out_pa: float) -> float:
    """Temperature [K] after a change of pressure at constant entropy, range unchecked. Newton: s rises with T."""
    entropy_in = _at_pressure(pressure_in_pa, temperature_in_k).smass()
    # 0.29 is R/cp of the ideal gas near 300 K: a guess that the steps then correct.
    temperature_k = _kept_in_range(temperature_in_k * (pressure_out_pa / pressure_in_pa) ** 0.29)
    for _ in range(50):
        state = _at_pressure(pressure_out_pa, temperature_k)
        step = (entropy_in - state.smass()) * temperature_k / state.cpmass()
        temperature_k = _kept_in_range(temperature_k + step)
        if abs(step) < 1e-9 * temperature_k:
            break
    return float(temperature_k)


def _kept_in_range(temperature_k: float) -> float:
    """A step of a root kept where the equation of state is known to hold."""
    return min(max(temperature_k, LOWEST_TEMPERATURE_K), HIGHEST_TEMPERATURE_K)


@calculation(opaque="density", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def density(pressure_pa: float, temperature_k: float) -> float:
    """
    Density of hydrogen.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Density. [kg/m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return state_density(pressure_pa, temperature_k)


@calculation(opaque="pressure of hydrogen", density_kg_per_m3=_DENSITY, temperature_k=_TEMPERATURE)
def pressure(density_kg_per_m3: float, temperature_k: float) -> float:
    """
    Pressure of hydrogen of a density.

    Parameters
    ----------
    density_kg_per_m3 : float
        Density, up to 90 kg/m3. [kg/m3]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Absolute pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return state_pressure(density_kg_per_m3, temperature_k)


@calculation(opaque="enthalpy", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def enthalpy(pressure_pa: float, temperature_k: float) -> float:
    """
    Enthalpy of hydrogen; its zero is arbitrary, use differences.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Specific enthalpy. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return state_enthalpy(pressure_pa, temperature_k)


@calculation(opaque="entropy", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def entropy(pressure_pa: float, temperature_k: float) -> float:
    """
    Entropy of hydrogen; its zero is arbitrary, use differences.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Specific entropy. [J/(kg K)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return state_entropy(pressure_pa, temperature_k)


@calculation(opaque="internal energy", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def internal_energy(pressure_pa: float, temperature_k: float) -> float:
    """
    Internal energy of hydrogen; its zero is arbitrary, use differences.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Specific internal energy. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return state_internal_energy(pressure_pa, temperature_k)


@calculation(opaque="compressibility factor", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def compressibility(pressure_pa: float, temperature_k: float) -> float:
    """
    Compressibility factor of hydrogen: how much more room a mole takes than in an ideal gas.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Compressibility factor. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return float(_at_pressure(pressure_pa, temperature_k).compressibility_factor())


@calculation(opaque="viscosity", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def viscosity(pressure_pa: float, temperature_k: float) -> float:
    """
    Dynamic viscosity of hydrogen.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Dynamic viscosity. [Pa s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Correlation of the viscosity of normal hydrogen [muzny-2013, as implemented by CoolProp].
    """
    return float(_at_pressure(pressure_pa, temperature_k).viscosity())


@calculation(opaque="heat capacity at constant pressure", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def heat_capacity_pressure(pressure_pa: float, temperature_k: float) -> float:
    """
    Heat capacity of hydrogen at constant pressure.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Specific heat capacity. [J/(kg K)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return float(_at_pressure(pressure_pa, temperature_k).cpmass())


@calculation(opaque="heat capacity at constant volume", pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def heat_capacity_volume(pressure_pa: float, temperature_k: float) -> float:
    """
    Heat capacity of hydrogen at constant volume.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 100 to 1000 K. [K]

    Returns
    -------
    float
        Specific heat capacity. [J/(kg K)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    return float(_at_pressure(pressure_pa, temperature_k).cvmass())


@calculation(
    opaque="temperature from energy", density_kg_per_m3=_DENSITY, internal_energy_j_per_kg=between(-1e6, 1.5e7)
)
def temperature_of_energy(density_kg_per_m3: float, internal_energy_j_per_kg: float) -> float:
    """
    Temperature of hydrogen that holds an internal energy at a density.

    Parameters
    ----------
    density_kg_per_m3 : float
        Density, up to 90 kg/m3. [kg/m3]
    internal_energy_j_per_kg : float
        Specific internal energy, counted as `internal_energy` counts it. [J/kg]

    Returns
    -------
    float
        Temperature, 100 to 1000 K. [K]

    Raises
    ------
    OutOfRange
        If an argument or the temperature lies outside its range.

    Notes
    -----
    Root of the reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    lowest = state_energy_of_density(density_kg_per_m3, LOWEST_TEMPERATURE_K)
    highest = state_energy_of_density(density_kg_per_m3, HIGHEST_TEMPERATURE_K)
    if not lowest <= internal_energy_j_per_kg <= highest:
        raise OutOfRange(
            "temperature_of_energy", "internal_energy_j_per_kg", internal_energy_j_per_kg,
            range_said("from_to_kelvin", low=lowest, high=highest),
        )  # fmt: skip
    return state_temperature_of_energy(density_kg_per_m3, internal_energy_j_per_kg)


@calculation(
    opaque="temperature at constant entropy",
    pressure_in_pa=_PRESSURE,
    temperature_in_k=_TEMPERATURE,
    pressure_out_pa=_PRESSURE,
)
def isentropic_temperature(pressure_in_pa: float, temperature_in_k: float, pressure_out_pa: float) -> float:
    """
    Temperature of hydrogen after compression or expansion at constant entropy.

    Parameters
    ----------
    pressure_in_pa : float
        Absolute pressure before, 10 Pa to 100 MPa. [Pa]
    temperature_in_k : float
        Temperature before, 100 to 1000 K. [K]
    pressure_out_pa : float
        Absolute pressure after, 10 Pa to 100 MPa. [Pa]

    Returns
    -------
    float
        Temperature after, 100 to 1000 K. [K]

    Raises
    ------
    OutOfRange
        If an argument or the temperature after lies outside its range.

    Notes
    -----
    Root of the reference equation of normal hydrogen [leachman-2009, as implemented by CoolProp].
    """
    entropy_in = state_entropy(pressure_in_pa, temperature_in_k)
    if not (
        state_entropy(pressure_out_pa, LOWEST_TEMPERATURE_K)
        <= entropy_in
        <= state_entropy(pressure_out_pa, HIGHEST_TEMPERATURE_K)
    ):
        raise OutOfRange(
            "isentropic_temperature", "pressure_out_pa", pressure_out_pa,
            range_said("gas_between", low=LOWEST_TEMPERATURE_K, high=HIGHEST_TEMPERATURE_K),
        )  # fmt: skip
    return state_isentropic_temperature(pressure_in_pa, temperature_in_k, pressure_out_pa)
