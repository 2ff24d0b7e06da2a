"""The whole plant: what a stored kilogram takes, what a day brings, what comes back of the electricity."""

from macros.calculations.constants import LOWER_HEATING_VALUE
from macros.calculations.contract import above, between, calculation

_POWER = between(0.0, 1e8)


@calculation(supply_power_w=_POWER, pump_power_w=_POWER, other_power_w=_POWER, mass_flow_kg_per_s=above(0.0, 100.0))
def energy_per_kg_made(
    supply_power_w: float, pump_power_w: float, other_power_w: float, mass_flow_kg_per_s: float
) -> float:
    """
    Electricity that the stack and what runs with it take for a kilogram of hydrogen.

    Parameters
    ----------
    supply_power_w : float
        Power drawn through the rectifier, 0 or more. [W]
    pump_power_w : float
        Power of the water pump, 0 or more. [W]
    other_power_w : float
        Mean power of whatever else runs with the stack (fans, controls), 0 or more. [W]
    mass_flow_kg_per_s : float
        Hydrogen made, net, above 0. [kg/s]

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
    Powers over mass flow [by-definition].
    """
    return (supply_power_w + pump_power_w + other_power_w) / mass_flow_kg_per_s


@calculation(running_j_per_kg=between(0.0, 1e10), yearly_j=between(0.0, 1e14), yearly_mass_kg=above(0.0, 1e7))
def energy_per_kg_kept(running_j_per_kg: float, yearly_j: float, yearly_mass_kg: float) -> float:
    """
    Electricity that a kilogram of hydrogen has taken by the time it is stored.

    Parameters
    ----------
    running_j_per_kg : float
        For making and boosting it, 0 or more. [J/kg]
    yearly_j : float
        What a year takes whatever is made: heating up, regenerating, 0 or more. [J]
    yearly_mass_kg : float
        Hydrogen made in that year, above 0. [kg]

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
    Sum, the yearly energies spread over the year's hydrogen [by-definition].
    """
    return running_j_per_kg + yearly_j / yearly_mass_kg


@calculation(efficiency=above(0.0, 0.83), stored_j_per_kg=above(0.0, 1e11))
def round_trip_efficiency(efficiency: float, stored_j_per_kg: float) -> float:
    """
    Electricity that comes back from a fuel cell over the electricity that was stored.

    Parameters
    ----------
    efficiency : float
        Of the fuel cell, by the lower heating value, above 0, at most 0.83. [-]
    stored_j_per_kg : float
        Electricity that a stored kilogram took, above 0. [J/kg]

    Returns
    -------
    float
        Efficiency. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Electricity made of a kilogram over electricity put into it [by-definition].
    """
    return efficiency * LOWER_HEATING_VALUE / stored_j_per_kg


@calculation(mass_flow_kg_per_s=between(0.0, 100.0), running_s=between(0.0, 3.2e7))
def mass_in_time(mass_flow_kg_per_s: float, running_s: float) -> float:
    """
    Hydrogen made in a time of running.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Hydrogen made, net, 0 or more. [kg/s]
    running_s : float
        Time of running, up to a year. [s]

    Returns
    -------
    float
        Mass. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass flow times time [mass-balance].
    """
    return mass_flow_kg_per_s * running_s
