"""A burner: the hydrogen it draws, the air it needs, the water it makes, how long a store lasts."""

from macros.calculations.constants import LOWER_HEATING_VALUE, MOLAR_MASS_HYDROGEN, MOLAR_MASS_WATER
from macros.calculations.contract import above, between, calculation
from macros.calculations.formula import Constant

OXYGEN_IN_AIR = Constant(0.20946, "x_O2", "1", "oxygen in dry air", "combustion-balance")

_MASS_FLOW = between(0.0, 100.0)


@calculation(heat_w=between(0.0, 1e8))
def burner_flow(heat_w: float) -> float:
    """
    Hydrogen that a burner draws.

    Parameters
    ----------
    heat_w : float
        Heat released by the flame, by the lower heating value, 0 or more. [W]

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
    Heat over lower heating value [by-definition].
    """
    return heat_w / LOWER_HEATING_VALUE


@calculation(mass_kg=between(0.0, 1e6), mass_flow_kg_per_s=above(0.0, 100.0))
def time_of_store(mass_kg: float, mass_flow_kg_per_s: float) -> float:
    """
    Time for which a store feeds a use.

    Parameters
    ----------
    mass_kg : float
        Hydrogen that the use can draw from the store, 0 or more. [kg]
    mass_flow_kg_per_s : float
        Hydrogen drawn, above 0. [kg/s]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass over mass flow [mass-balance].
    """
    return mass_kg / mass_flow_kg_per_s


@calculation(mass_flow_kg_per_s=_MASS_FLOW, excess_air=between(1.0, 10.0))
def combustion_air(mass_flow_kg_per_s: float, excess_air: float) -> float:
    """
    Air that a flame uses up.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Hydrogen burnt, 0 or more. [kg/s]
    excess_air : float
        Air supplied over air needed, 1 to 10. [-]

    Returns
    -------
    float
        Amount flow of dry air. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Half a mole of oxygen a mole of hydrogen [combustion-balance].
    """
    return excess_air * mass_flow_kg_per_s / MOLAR_MASS_HYDROGEN / 2 / OXYGEN_IN_AIR


@calculation(mass_flow_kg_per_s=_MASS_FLOW)
def combustion_water(mass_flow_kg_per_s: float) -> float:
    """
    Water that a flame or a fuel cell gives off.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Hydrogen used, 0 or more. [kg/s]

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
    A mole of water a mole of hydrogen [combustion-balance].
    """
    return mass_flow_kg_per_s * MOLAR_MASS_WATER / MOLAR_MASS_HYDROGEN
