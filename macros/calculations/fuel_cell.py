"""A fuel cell: what it makes of a kilogram, and what it draws for its power."""

from macros.calculations.constants import FARADAY, LOWER_HEATING_VALUE, MOLAR_MASS_HYDROGEN
from macros.calculations.contract import above, between, calculation

_EFFICIENCY = above(0.0, 0.83)


@calculation(cell_voltage_v=between(0.0, 1.25), fuel_use=between(0.0, 1.0))
def fuel_cell_efficiency(cell_voltage_v: float, fuel_use: float) -> float:
    """
    Efficiency of a fuel cell by the lower heating value, from its cell voltage.

    Parameters
    ----------
    cell_voltage_v : float
        Mean voltage of a cell, 0 to 1.25. [V]
    fuel_use : float
        Share of the hydrogen that reacts; the rest is purged, 0 to 1. [-]

    Returns
    -------
    float
        Electric energy over lower heating value. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Two electrons a molecule at the cell voltage, over the heating value [larminie-dicks, efficiency from voltage].
    """
    return fuel_use * 2 * FARADAY * cell_voltage_v / (MOLAR_MASS_HYDROGEN * LOWER_HEATING_VALUE)


@calculation(efficiency=_EFFICIENCY)
def electricity_per_kg(efficiency: float) -> float:
    """
    Electric energy that a fuel cell makes of a kilogram of hydrogen.

    Parameters
    ----------
    efficiency : float
        By the lower heating value, above 0, at most 0.83. [-]

    Returns
    -------
    float
        Specific energy. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Efficiency times lower heating value [by-definition].
    """
    return efficiency * LOWER_HEATING_VALUE


@calculation(electric_power_w=between(0.0, 1e8), efficiency=_EFFICIENCY)
def fuel_cell_flow(electric_power_w: float, efficiency: float) -> float:
    """
    Hydrogen that a fuel cell draws for its electric power.

    Parameters
    ----------
    electric_power_w : float
        Electric power, 0 or more. [W]
    efficiency : float
        By the lower heating value, above 0, at most 0.83. [-]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Power over efficiency and lower heating value [by-definition].
    """
    return electric_power_w / (efficiency * LOWER_HEATING_VALUE)


@calculation(mass_kg=between(0.0, 1e6), efficiency=_EFFICIENCY)
def electricity_of_store(mass_kg: float, efficiency: float) -> float:
    """
    Electric energy that a fuel cell makes of a store.

    Parameters
    ----------
    mass_kg : float
        Hydrogen that it can draw, 0 or more. [kg]
    efficiency : float
        By the lower heating value, above 0, at most 0.83. [-]

    Returns
    -------
    float
        Electric energy. [J]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass times efficiency times lower heating value [by-definition].
    """
    return mass_kg * efficiency * LOWER_HEATING_VALUE


@calculation(electric_power_w=between(0.0, 1e8), efficiency=_EFFICIENCY)
def fuel_cell_heat(electric_power_w: float, efficiency: float) -> float:
    """
    Heat that a fuel cell gives off beside its electric power, its water leaving as vapour.

    Parameters
    ----------
    electric_power_w : float
        Electric power, 0 or more. [W]
    efficiency : float
        By the lower heating value, above 0, at most 0.83. [-]

    Returns
    -------
    float
        Power. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    What the electricity leaves of the lower heating value [by-definition].
    """
    return electric_power_w * (1 / efficiency - 1)
