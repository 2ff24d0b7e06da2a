"""
Silica gel: what it holds, what regeneration leaves in it, how dry it makes the gas and how long it lasts.

The isotherm is that of one gel, measured by Wang and LeVan at 25 °C; gels of other makes differ by 10 to 20 %. Below
12.87 % relative humidity it is the power law of Sakoda and Suzuki, which meets those points within 1 %; above, straight
lines between the points, flat beyond the last. At other temperatures:

- up to 25 °C the loading follows the relative humidity (measured points at 0 °C come out up to 13 % too high);
- above 25 °C it follows the vapour pressure, carried to 25 °C with the heat of adsorption (measured points at 50
  and 75 °C lie within 7 %). With the relative humidity alone the loading at 75 °C would come out a quarter too
  high, and what a hot regeneration leaves behind with it.
"""

from __future__ import annotations

import math
from itertools import pairwise

from macros.calculations.constants import GAS_CONSTANT, MOLAR_MASS_HYDROGEN, MOLAR_MASS_WATER, PI
from macros.calculations.contract import above, at_least, between, calculation
from macros.calculations.formula import Constant, largest, power, smallest
from macros.calculations.humidity import (
    relative_humidity,
    saturation_pressure,
    vapour_pressure,
    water_carried,
    water_fraction_of_load,
    water_fraction_saturated,
)
from macros.calculations.hydrogen import heat_capacity_pressure

ADSORPTION_TEMPERATURE = Constant(
    5835.03, "θ_a", "K", "heat of adsorption of water on silica gel over the gas constant", "chua-2004"
)
HEAT_OF_GEL = Constant(920.0, "c_g", "J/(kg K)", "specific heat of dry silica gel", "common-practice")
BULK_DENSITY = Constant(720.0, "ρ_g", "kg/m3", "bulk density of silica gel beads", "common-practice")

MEASURED_AT_K = 298.15
_POWER_LAW = (0.346, 1 / 1.6)
_JOIN = 0.1287
_MEASURED: tuple[tuple[float, float], ...] = (
    (_JOIN, _POWER_LAW[0] * _JOIN ** _POWER_LAW[1]),
    (0.2969, 0.18736),
    (0.5048, 0.27924),
    (0.7666, 0.34049),
)
"""Relative humidity and loading at 25 °C; the first point is where the power law ends."""

HIGHEST_LOADING = _MEASURED[-1][1]
_GEL_TEMPERATURE = between(243.15, 523.15)
_GAS_TEMPERATURE = between(243.15, 423.15)
_PRESSURE = between(1e3, 100e6)


def _carried_to_25_c(relative_humidity: float, temperature_k: float) -> float:
    """The relative humidity at 25 °C at which the gel holds as much."""
    if temperature_k <= MEASURED_AT_K:
        return relative_humidity
    rise = math.exp(float(ADSORPTION_TEMPERATURE) * (1 / MEASURED_AT_K - 1 / temperature_k))
    return relative_humidity * saturation_pressure(temperature_k) / saturation_pressure(MEASURED_AT_K) / rise


@calculation(opaque="loading of silica gel", relative_humidity=between(0, 1), temperature_k=_GEL_TEMPERATURE)
def loading(relative_humidity: float, temperature_k: float) -> float:
    """
    Water that silica gel holds in equilibrium.

    Parameters
    ----------
    relative_humidity : float
        Relative humidity of the gas at the temperature of the gel, 0 to 1. [-]
    temperature_k : float
        Temperature of the gel, 243.15 to 523.15 K; measured from 273 to 348 K. [K]

    Returns
    -------
    float
        Loading, water on dry gel. [kg/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Power law [sakoda-suzuki-1984, type A, as quoted with its constants], lines between measured points
    [wang-levan-2009, silica gel and water at 25 °C], carried to other temperatures with the heat of adsorption
    [chua-2004, type RD, temperature in the exponent].
    """
    humidity = _carried_to_25_c(relative_humidity, temperature_k)
    if humidity <= _JOIN:
        factor, exponent = _POWER_LAW
        return float(factor * humidity**exponent)
    for (x1, y1), (x2, y2) in pairwise(_MEASURED):
        if humidity <= x2:
            return y1 + (y2 - y1) * (humidity - x1) / (x2 - x1)
    return HIGHEST_LOADING


@calculation(
    opaque="humidity over silica gel", loading=between(0, HIGHEST_LOADING), temperature_k=between(243.15, 423.15)
)
def humidity_over_gel(loading: float, temperature_k: float) -> float:
    """
    Relative humidity that silica gel of a loading leaves in the gas.

    Parameters
    ----------
    loading : float
        Loading, water on dry gel. [kg/kg]
    temperature_k : float
        Temperature of the gel, 243.15 to 423.15 K. [K]

    Returns
    -------
    float
        Relative humidity at that temperature, at most 1. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Inverse of the isotherm [by-definition].
    """
    if loading <= _MEASURED[0][1]:
        factor, exponent = _POWER_LAW
        humidity = float((loading / factor) ** (1 / exponent))
    else:
        humidity = _MEASURED[-1][0]
        for (x1, y1), (x2, y2) in pairwise(_MEASURED):
            if loading <= y2:
                humidity = x1 + (x2 - x1) * (loading - y1) / (y2 - y1)
                break
    return min(1.0, humidity / _carried_to_25_c(1.0, temperature_k))


@calculation(regeneration_temperature_k=between(313.15, 523.15), purge_dew_point_k=between(193.15, 313.15))
def residual_loading(regeneration_temperature_k: float, purge_dew_point_k: float) -> float:
    """
    Water that a thorough regeneration leaves in silica gel: equilibrium with the hot purge gas.

    Parameters
    ----------
    regeneration_temperature_k : float
        Temperature that the whole bed reaches, 313 to 523 K. [K]
    purge_dew_point_k : float
        Dew point of the purge gas at atmospheric pressure. [K]

    Returns
    -------
    float
        Loading, water on dry gel. [kg/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    The isotherm at the humidity of the purge gas [wang-levan-2009, silica gel and water].
    """
    return loading(
        smallest(vapour_pressure(purge_dew_point_k) / saturation_pressure(regeneration_temperature_k), 1),
        regeneration_temperature_k,
    )


@calculation(bed_mass_kg=above(0), bed_diameter_m=above(0))
def bed_length(bed_mass_kg: float, bed_diameter_m: float) -> float:
    """
    Length of a bed of silica gel beads in a round column.

    Parameters
    ----------
    bed_mass_kg : float
        Mass of dry gel. [kg]
    bed_diameter_m : float
        Inner diameter of the column. [m]

    Returns
    -------
    float
        Length. [m]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Volume over section [by-definition], bulk density of beads [common-practice].
    """
    return bed_mass_kg / BULK_DENSITY / (PI * power(bed_diameter_m, 2) / 4)


@calculation(
    temperature_k=_GAS_TEMPERATURE,
    vapour_kg_per_s=at_least(0),
    dry_gas_mol_per_s=above(0),
    pressure_pa=_PRESSURE,
)
def bed_temperature(
    temperature_k: float, vapour_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float
) -> float:
    """
    Temperature of a bed that takes up all vapour, its heat carried off by the gas alone.

    Parameters
    ----------
    temperature_k : float
        Temperature of the gas as it enters, 243.15 to 423.15 K. [K]
    vapour_kg_per_s : float
        Vapour that the gas brings. [kg/s]
    dry_gas_mol_per_s : float
        Flow of hydrogen. [mol/s]
    pressure_pa : float
        Absolute pressure. [Pa]

    Returns
    -------
    float
        Temperature behind the front. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of heat, losses to the room left out [by-definition], heat of adsorption
    [chua-2004, type RD, temperature in the exponent].
    """
    heat_of_adsorption = ADSORPTION_TEMPERATURE * GAS_CONSTANT / MOLAR_MASS_WATER
    heat_capacity = MOLAR_MASS_HYDROGEN * heat_capacity_pressure(pressure_pa, temperature_k)
    return temperature_k + vapour_kg_per_s * heat_of_adsorption / (dry_gas_mol_per_s * heat_capacity)


@calculation(
    water_kg_per_s=at_least(0),
    dry_gas_mol_per_s=above(0),
    pressure_pa=_PRESSURE,
    temperature_k=_GAS_TEMPERATURE,
)
def inlet_humidity(water_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float, temperature_k: float) -> float:
    """
    Relative humidity of the gas that enters a bed; above 1 liquid water reaches the gel and breaks it.

    Parameters
    ----------
    water_kg_per_s : float
        Water that enters, vapour and droplets. [kg/s]
    dry_gas_mol_per_s : float
        Flow of the gas without its water. [mol/s]
    pressure_pa : float
        Absolute pressure. [Pa]
    temperature_k : float
        Temperature of the gas as it enters. [K]

    Returns
    -------
    float
        Relative humidity, droplets counted as if they were vapour. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or water boils there.

    Notes
    -----
    Ratio of fractions at one pressure and temperature [by-definition].
    """
    return relative_humidity(pressure_pa, temperature_k, water_fraction_of_load(water_kg_per_s, dry_gas_mol_per_s))


@calculation(
    bed_mass_kg=above(0),
    inlet_humidity=at_least(0),
    temperature_k=_GAS_TEMPERATURE,
    residual_loading=between(0, HIGHEST_LOADING),
    transfer_zone=between(0, 0.95),
)
def working_capacity(
    bed_mass_kg: float, inlet_humidity: float, temperature_k: float, residual_loading: float, transfer_zone: float
) -> float:
    """
    Water that a bed takes up before it has to be regenerated.

    The transfer zone counts as empty: what it holds when the gas first turns wet is the margin.

    Parameters
    ----------
    bed_mass_kg : float
        Mass of dry gel. [kg]
    inlet_humidity : float
        Relative humidity of the gas at the temperature of the bed; above 1 counts as 1. [-]
    temperature_k : float
        Temperature of the bed. [K]
    residual_loading : float
        Loading that regeneration left. [kg/kg]
    transfer_zone : float
        Share of the bed that the transfer zone takes. [-]

    Returns
    -------
    float
        Mass of water; 0 where the bed is as wet as the gas. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of water over the bed, the isotherm at the inlet [wang-levan-2009, silica gel and water].
    """
    loaded = loading(smallest(inlet_humidity, 1), temperature_k)
    return bed_mass_kg * (1 - transfer_zone) * largest(loaded - residual_loading, 0)


@calculation(
    water_kg_per_s=at_least(0),
    dry_gas_mol_per_s=above(0),
    pressure_pa=_PRESSURE,
    temperature_k=_GAS_TEMPERATURE,
    residual_loading=between(0, HIGHEST_LOADING),
)
def water_after_bed(
    water_kg_per_s: float,
    dry_gas_mol_per_s: float,
    pressure_pa: float,
    temperature_k: float,
    residual_loading: float,
) -> float:
    """
    Water that leaves a bed in which the front has not broken through: in balance with what regeneration left.

    A bound: a short bed, a channel or gel not heated through leaves more.

    Parameters
    ----------
    water_kg_per_s : float
        Water that enters, vapour and droplets. [kg/s]
    dry_gas_mol_per_s : float
        Flow of the gas without its water. [mol/s]
    pressure_pa : float
        Absolute pressure. [Pa]
    temperature_k : float
        Temperature of the bed at its outlet. [K]
    residual_loading : float
        Loading that regeneration left. [kg/kg]

    Returns
    -------
    float
        Water that leaves; never more than enters. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or water boils there.

    Notes
    -----
    The isotherm at the outlet [wang-levan-2009, silica gel and water].
    """
    saturated = water_fraction_saturated(pressure_pa, temperature_k)
    left = humidity_over_gel(residual_loading, temperature_k) * saturated
    return smallest(water_kg_per_s, water_carried(dry_gas_mol_per_s, left))


@calculation(working_capacity_kg=at_least(0), water_removed_kg_per_s=above(0))
def regeneration_interval(working_capacity_kg: float, water_removed_kg_per_s: float) -> float:
    """
    Running time between two regenerations.

    Parameters
    ----------
    working_capacity_kg : float
        Water that the bed takes up. [kg]
    water_removed_kg_per_s : float
        Water that it takes from the gas, the mean over a fill. [kg/s]

    Returns
    -------
    float
        Running time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Capacity over load [by-definition].
    """
    return working_capacity_kg / water_removed_kg_per_s


@calculation(
    bed_mass_kg=above(0),
    water_kg=at_least(0),
    temperature_k=_GAS_TEMPERATURE,
    regeneration_temperature_k=between(313.15, 523.15),
    column_heat_capacity_j_per_k=at_least(0),
    efficiency=between(0.01, 1),
)
def regeneration_energy(
    bed_mass_kg: float,
    water_kg: float,
    temperature_k: float,
    regeneration_temperature_k: float,
    column_heat_capacity_j_per_k: float,
    efficiency: float,
) -> float:
    """
    Heat that one regeneration takes: warming gel and column, driving out the water, losses.

    Parameters
    ----------
    bed_mass_kg : float
        Mass of dry gel. [kg]
    water_kg : float
        Water driven out. [kg]
    temperature_k : float
        Temperature from which it starts. [K]
    regeneration_temperature_k : float
        Temperature that the bed reaches. [K]
    column_heat_capacity_j_per_k : float
        Heat capacity of the empty column. [J/K]
    efficiency : float
        Share of the heat that reaches gel, water and column. [-]

    Returns
    -------
    float
        Energy. [J]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of heat [by-definition], heat of adsorption [chua-2004, type RD, temperature in the exponent].
    """
    heat_of_adsorption = ADSORPTION_TEMPERATURE * GAS_CONSTANT / MOLAR_MASS_WATER
    warming = (bed_mass_kg * HEAT_OF_GEL + column_heat_capacity_j_per_k) * largest(
        regeneration_temperature_k - temperature_k, 0
    )
    return (warming + water_kg * heat_of_adsorption) / efficiency
