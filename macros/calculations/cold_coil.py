"""A cold coil: how much heat it takes from wet gas, how much area that asks for, and whether ice plugs it."""

from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.contract import OutOfRange, above, at_least, between, calculation, range_said
from macros.calculations.formula import Constant, largest, log, smallest
from macros.calculations.hydrogen import heat_capacity_pressure

HEAT_OF_CONDENSATION_0_C = Constant(
    2.5009e6, "L_0", "J/kg", "heat of vaporisation of water at 0 °C", "steam-table-temperature"
)
FALL_OF_HEAT = Constant(
    2372.5, "L_1", "J/(kg K)", "fall of the heat of vaporisation of water from 0 to 40 °C", "steam-table-temperature"
)
HEAT_OF_FREEZING = Constant(0.3334e6, "L_f", "J/kg", "heat of fusion of ice at 0 °C", "common-practice")
FREEZING_POINT = Constant(273.15, "T_f", "K", "freezing point of water at one atmosphere", "by-definition")

_TEMPERATURE = between(200.0, 423.15)


@calculation(
    dry_gas_mol_per_s=above(0),
    water_condensed_kg_per_s=at_least(0),
    pressure_pa=between(1e3, 100e6),
    temperature_in_k=_TEMPERATURE,
    temperature_out_k=_TEMPERATURE,
)
def coil_heat(
    dry_gas_mol_per_s: float,
    water_condensed_kg_per_s: float,
    pressure_pa: float,
    temperature_in_k: float,
    temperature_out_k: float,
) -> float:
    """
    Heat that a coil takes from hydrogen that cools and drops water; below 0 °C the water freezes.

    Parameters
    ----------
    dry_gas_mol_per_s : float
        Flow of hydrogen. [mol/s]
    water_condensed_kg_per_s : float
        Water that drops out, counted as vapour before. [kg/s]
    pressure_pa : float
        Absolute pressure. [Pa]
    temperature_in_k : float
        Temperature of the gas as it enters. [K]
    temperature_out_k : float
        Temperature of the gas as it leaves. [K]

    Returns
    -------
    float
        Heat flow; no less than that of condensing, where the gas is not cooled. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Balance of heat [by-definition]; heat of vaporisation by a line through 0 and 40 °C, within 0.3 % up to 90 °C
    [steam-table-temperature, column h_fg].
    """
    cooling = (
        dry_gas_mol_per_s
        * MOLAR_MASS_HYDROGEN
        * heat_capacity_pressure(pressure_pa, temperature_in_k)
        * largest(temperature_in_k - temperature_out_k, 0)
    )
    heat_of_condensation = HEAT_OF_CONDENSATION_0_C - FALL_OF_HEAT * (
        largest(temperature_out_k, FREEZING_POINT) - FREEZING_POINT
    )
    if temperature_out_k < FREEZING_POINT:
        return cooling + water_condensed_kg_per_s * (heat_of_condensation + HEAT_OF_FREEZING)
    return cooling + water_condensed_kg_per_s * heat_of_condensation


@calculation(temperature_in_k=_TEMPERATURE, temperature_out_k=_TEMPERATURE, coolant_temperature_k=_TEMPERATURE)
def log_mean_difference(temperature_in_k: float, temperature_out_k: float, coolant_temperature_k: float) -> float:
    """
    Mean difference between a gas that cools and a coolant that stays at one temperature.

    Parameters
    ----------
    temperature_in_k : float
        Temperature of the gas as it enters. [K]
    temperature_out_k : float
        Temperature of the gas as it leaves, above the coolant. [K]
    coolant_temperature_k : float
        Temperature of the coolant. [K]

    Returns
    -------
    float
        Logarithmic mean of the differences at inlet and outlet. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside its range, or the gas would leave no warmer than the coolant.

    Notes
    -----
    Logarithmic mean temperature difference [heat-exchanger-texts, as in the library ht].
    """
    if not temperature_out_k > coolant_temperature_k:
        wanted = range_said("above_coolant", limit=coolant_temperature_k)
        raise OutOfRange("log_mean_difference", "temperature_out_k", temperature_out_k, wanted)
    at_outlet = temperature_out_k - coolant_temperature_k
    at_inlet = largest(temperature_in_k, temperature_out_k) - coolant_temperature_k
    # Of nearly equal differences the logarithm has no digits left; the plain mean has the same value.
    if at_inlet - at_outlet <= 1e-6 * at_outlet:
        return (at_inlet + at_outlet) / 2
    return (at_inlet - at_outlet) / log(at_inlet / at_outlet)


@calculation(heat_w=at_least(0), coefficient_w_per_m2_k=above(0), mean_difference_k=above(0))
def coil_area(heat_w: float, coefficient_w_per_m2_k: float, mean_difference_k: float) -> float:
    """
    Area that a coil needs at least.

    Parameters
    ----------
    heat_w : float
        Heat flow. [W]
    coefficient_w_per_m2_k : float
        Heat transfer coefficient, gas to coolant. [W/(m2 K)]
    mean_difference_k : float
        Mean temperature difference. [K]

    Returns
    -------
    float
        Area. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Heat through a wall [heat-exchanger-texts, as in the library ht].
    """
    return heat_w / (coefficient_w_per_m2_k * mean_difference_k)


@calculation(coolant_temperature_k=_TEMPERATURE, dew_point_k=between(150.0, 473.15))
def ice_margin(coolant_temperature_k: float, dew_point_k: float) -> float:
    """
    How far a coil stays from icing: below 0 ice grows on it until it plugs.

    Ice needs a wall below 0 °C and gas whose dew point lies above the wall.

    Parameters
    ----------
    coolant_temperature_k : float
        Temperature of the coolant, as cold as the wall can get. [K]
    dew_point_k : float
        Dew point of the gas that enters, at line pressure. [K]

    Returns
    -------
    float
        Temperature by which the wall is warmer than the lower of 0 °C and the dew point. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Where ice forms [common-practice].
    """
    return coolant_temperature_k - smallest(dew_point_k, FREEZING_POINT)
