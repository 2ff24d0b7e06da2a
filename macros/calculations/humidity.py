"""
Water vapour in gas: how much a gas holds at most, and where its dew point and frost point lie.

The vapour pressure over water and ice is that of pure water; the pressure of the gas on the liquid raises
it by the Poynting factor. Gas dissolved in the liquid and forces between vapour and gas are left out:
below 50 bar they change the fraction by a few thousandths.
"""

from __future__ import annotations

import math

from macros.calculations.constants import GAS_CONSTANT, MOLAR_MASS_WATER, STANDARD_ATMOSPHERE
from macros.calculations.contract import OutOfRange, above, at_least, between, calculation, range_said
from macros.calculations.formula import exp

TRIPLE_POINT_K = 273.16
TRIPLE_POINT_PA = 611.657
CRITICAL_POINT_K = 647.096
CRITICAL_DENSITY = 322.0
COLDEST_K, HOTTEST_K = 150.0, 473.15

_SATURATION = (
    0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
    0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
)  # fmt: skip
_SUBLIMATION = (
    (-0.212144006e2, 0.333333333e-2),
    (0.273203819e2, 0.120666667e1),
    (-0.610598130e1, 0.170333333e1),
)
_LIQUID_DENSITY = (
    (1.99274064, 1 / 3), (1.09965342, 2 / 3), (-0.510839303, 5 / 3),
    (-1.75493479, 16 / 3), (-45.5170352, 43 / 3), (-6.74694450e5, 110 / 3),
)  # fmt: skip
_ICE_DENSITY_0_C = 916.7

_GAS_PRESSURE = between(100.0, 100e6)
_GAS_TEMPERATURE = between(COLDEST_K, HOTTEST_K)


@calculation(opaque="saturation pressure", temperature_k=between(273.15, CRITICAL_POINT_K))
def saturation_pressure(temperature_k: float) -> float:
    """
    Pressure of water vapour over liquid water.

    Parameters
    ----------
    temperature_k : float
        Temperature, 273.15 to 647.096 K. [K]

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
    Saturation line, region 4 of the industrial formulation [iapws-if97, equation 30].
    """
    return _over_liquid(temperature_k)


def _over_liquid(temperature_k: float) -> float:
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _SATURATION
    theta = temperature_k + n9 / (temperature_k - n10)
    a = theta * theta + n1 * theta + n2
    b = n3 * theta * theta + n4 * theta + n5
    c = n6 * theta * theta + n7 * theta + n8
    return float(1e6 * (2 * c / (-b + math.sqrt(b * b - 4 * a * c))) ** 4)


@calculation(opaque="sublimation pressure", temperature_k=between(COLDEST_K, TRIPLE_POINT_K))
def saturation_pressure_over_ice(temperature_k: float) -> float:
    """
    Pressure of water vapour over ice.

    Parameters
    ----------
    temperature_k : float
        Temperature, 150 to 273.16 K. [K]

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
    Sublimation pressure of ice Ih [iapws-r14, sublimation pressure].
    """
    return _over_ice(temperature_k)


def _over_ice(temperature_k: float) -> float:
    theta = temperature_k / TRIPLE_POINT_K
    return float(TRIPLE_POINT_PA * math.exp(sum(a * theta**b for a, b in _SUBLIMATION) / theta))


@calculation(opaque="molar volume of water", temperature_k=_GAS_TEMPERATURE)
def molar_volume_of_water(temperature_k: float) -> float:
    """
    Molar volume of liquid water on its saturation line, of ice below 0.01 °C.

    Parameters
    ----------
    temperature_k : float
        Temperature, 150 to 473.15 K. [K]

    Returns
    -------
    float
        Molar volume. [m3/mol]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Density of the saturated liquid [iapws-sr1, density of the saturated liquid]; ice as at 0 °C, 916.7 kg/m3
    [iapws-r10, density at 273.15 K], 1.5 % less than at 150 K: of no weight in the few percent of the Poynting factor.
    """
    return float(_molar_volume(temperature_k))


def _molar_volume(temperature_k: float) -> float:
    if temperature_k < TRIPLE_POINT_K:
        return float(MOLAR_MASS_WATER) / _ICE_DENSITY_0_C
    tau = 1 - temperature_k / CRITICAL_POINT_K
    density: float = CRITICAL_DENSITY * (1 + sum(b * tau**n for b, n in _LIQUID_DENSITY))
    return float(MOLAR_MASS_WATER) / density


def vapour_pressure(temperature_k: float) -> float:
    """
    Pressure of water vapour over whichever is stable: ice below 0.01 °C, liquid water above.

    Not a calculation of its own: it calls the one that holds, which checks the range and shows itself.
    """
    if temperature_k < TRIPLE_POINT_K:
        return saturation_pressure_over_ice(temperature_k)
    return saturation_pressure(temperature_k)


@calculation(pressure_pa=_GAS_PRESSURE, temperature_k=_GAS_TEMPERATURE)
def poynting_factor(pressure_pa: float, temperature_k: float) -> float:
    """
    How much the pressure of a gas on water (or ice) raises the vapour pressure of the water.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure of the gas, 100 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 150 to 473.15 K. [K]

    Returns
    -------
    float
        Factor on the vapour pressure. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Poynting's relation with an incompressible liquid [poynting-1881, as given in texts of physical chemistry].
    """
    p_sat = vapour_pressure(temperature_k)
    v_water = molar_volume_of_water(temperature_k)
    return exp(v_water * (pressure_pa - p_sat) / (GAS_CONSTANT * temperature_k))


@calculation(pressure_pa=_GAS_PRESSURE, temperature_k=_GAS_TEMPERATURE)
def water_fraction_saturated(pressure_pa: float, temperature_k: float) -> float:
    """
    Share of water vapour, by amount, in gas that is saturated over water (over ice below 0.01 °C).

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure of gas and vapour together, above the vapour pressure of water. [Pa]
    temperature_k : float
        Temperature, 150 to 473.15 K. [K]

    Returns
    -------
    float
        Share of water in the wet gas, by amount. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range, or water boils at this temperature and pressure.

    Notes
    -----
    Dalton's law with the Poynting factor [by-definition].
    """
    p_sat = vapour_pressure(temperature_k)
    if not pressure_pa > p_sat:
        wanted = range_said("above_boiling", limit=p_sat, temperature=temperature_k)
        raise OutOfRange("water_fraction_saturated", "pressure_pa", pressure_pa, wanted)
    return poynting_factor(pressure_pa, temperature_k) * p_sat / pressure_pa


def _saturated(pressure_pa: float, temperature_k: float) -> float:
    """`water_fraction_saturated` without checks, for the root; above 1 where water boils."""
    p_sat = _over_ice(temperature_k) if temperature_k < TRIPLE_POINT_K else _over_liquid(temperature_k)
    exponent = _molar_volume(temperature_k) * (pressure_pa - p_sat) / (float(GAS_CONSTANT) * temperature_k)
    return math.exp(exponent) * p_sat / pressure_pa


@calculation(opaque="dew point", pressure_pa=_GAS_PRESSURE, water_fraction=between(0.0, 1.0))
def dew_point(pressure_pa: float, water_fraction: float) -> float:
    """
    Temperature at which gas of a water content is saturated at a pressure; over ice below 0.01 °C.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure at which the gas is cooled. [Pa]
    water_fraction : float
        Share of water in the wet gas, by amount. [-]

    Returns
    -------
    float
        Dew point, 150 to 473.15 K; below 273.16 K ice forms there. [K]

    Raises
    ------
    OutOfRange
        If an argument or the dew point lies outside its range.

    Notes
    -----
    Root of the saturated fraction [by-definition].
    """
    return _dew_point("dew_point", pressure_pa, water_fraction)


@calculation(opaque="dew point", water_fraction=between(0.0, 1.0))
def frost_point(water_fraction: float) -> float:
    """
    Temperature at which gas let down to one standard atmosphere is saturated; over ice below 0.01 °C.

    Parameters
    ----------
    water_fraction : float
        Share of water in the wet gas, by amount. [-]

    Returns
    -------
    float
        Frost point (dew point above 273.16 K) at 101 325 Pa. [K]

    Raises
    ------
    OutOfRange
        If the argument or the frost point lies outside its range.

    Notes
    -----
    Root of the saturated fraction at one standard atmosphere [by-definition].
    """
    return _dew_point("frost_point", float(STANDARD_ATMOSPHERE), water_fraction)


def _dew_point(calculation_name: str, pressure_pa: float, water_fraction: float) -> float:
    # Where water would boil below the hottest temperature, the fraction already passes 1: the root stays below.
    low, high = COLDEST_K, HOTTEST_K
    driest, wettest = _saturated(pressure_pa, low), _saturated(pressure_pa, high)
    if not driest <= water_fraction <= min(wettest, 1.0):
        raise OutOfRange(
            calculation_name, "water_fraction", water_fraction,
            range_said("from_dew_point", low=float(f"{driest:.3g}"), dew_point=low, high=float(f"{min(wettest, 1.0):.3g}"), pressure=pressure_pa),
        )  # fmt: skip
    while high - low > 1e-10 * high:
        middle = (low + high) / 2
        if _saturated(pressure_pa, middle) < water_fraction:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@calculation(pressure_pa=_GAS_PRESSURE, temperature_k=_GAS_TEMPERATURE, water_fraction=between(0.0, 1.0))
def relative_humidity(pressure_pa: float, temperature_k: float, water_fraction: float) -> float:
    """
    Water in gas as a share of what the gas would hold saturated; above 1 the rest is liquid or ice.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure of gas and vapour together. [Pa]
    temperature_k : float
        Temperature, 150 to 473.15 K. [K]
    water_fraction : float
        Share of water in the wet gas, by amount. [-]

    Returns
    -------
    float
        Relative humidity. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or water boils there.

    Notes
    -----
    Ratio of fractions at one pressure and temperature [by-definition].
    """
    return water_fraction / water_fraction_saturated(pressure_pa, temperature_k)


@calculation(dry_gas_mol_per_s=at_least(0), water_fraction=between(0.0, 0.999))
def water_carried(dry_gas_mol_per_s: float, water_fraction: float) -> float:
    """
    Water vapour that a flow of gas carries.

    Parameters
    ----------
    dry_gas_mol_per_s : float
        Flow of the gas without its water. [mol/s]
    water_fraction : float
        Share of water in the wet gas, by amount, below 1. [-]

    Returns
    -------
    float
        Mass flow of water. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Amounts in a mixture [by-definition].
    """
    return MOLAR_MASS_WATER * dry_gas_mol_per_s * water_fraction / (1 - water_fraction)


@calculation(water_kg_per_s=at_least(0), dry_gas_mol_per_s=above(0))
def water_fraction_of_load(water_kg_per_s: float, dry_gas_mol_per_s: float) -> float:
    """
    Share of water, by amount, in gas that carries a flow of water vapour.

    Parameters
    ----------
    water_kg_per_s : float
        Mass flow of water vapour. [kg/s]
    dry_gas_mol_per_s : float
        Flow of the gas without its water. [mol/s]

    Returns
    -------
    float
        Share of water in the wet gas, by amount. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Amounts in a mixture [by-definition].
    """
    water_mol_per_s = water_kg_per_s / MOLAR_MASS_WATER
    return water_mol_per_s / (water_mol_per_s + dry_gas_mol_per_s)
