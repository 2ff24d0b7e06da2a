"""Heat of the stack: what it gives while running, and what it takes to warm up."""

from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.faraday import CELLS, CURRENT
from macros.calculations.formula import Constant, log

AMBIENT = between(223.15, 373.15)
LATENT_HEAT_AT_0_C = Constant(2500.9e3, "L_0", "J/kg", "heat of evaporation of water at 0 °C", "iapws-if97-heat")
LATENT_HEAT_SLOPE = Constant(
    -2.396e3, "L'", "J/(kg K)", "fall of the heat of evaporation with temperature", "iapws-if97-heat"
)
ICE_POINT = Constant(273.15, "T_ice", "K", "0 °C", "by-definition")


@calculation(
    current_a=CURRENT,
    cells=CELLS,
    cell_voltage_v=above(0, 10),
    thermoneutral_voltage_v=between(1, 2),
    catalyst_heat_w=between(0, 1e7),
)
def stack_heat(
    current_a: float, cells: float, cell_voltage_v: float, thermoneutral_voltage_v: float, catalyst_heat_w: float = 0.0
) -> float:
    """
    Heat that the stack gives to its water, evaporation not counted.

    Parameters
    ----------
    current_a : float
        Current through the stack. [A]
    cells : float
        Cells in series, 1 to 1000. [-]
    cell_voltage_v : float
        Voltage of one cell. [V]
    thermoneutral_voltage_v : float
        Thermoneutral voltage at the stack's temperature. [V]
    catalyst_heat_w : float
        Heat of a catalyst that burns crossing hydrogen. [W]

    Returns
    -------
    float
        Heat flow; below zero the stack takes heat. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Energy balance of a cell fed with liquid water [by-definition].
    """
    return cells * current_a * (cell_voltage_v - thermoneutral_voltage_v) + catalyst_heat_w


@calculation(temperature_k=between(273.15, 373.15))
def latent_heat(temperature_k: float) -> float:
    """
    Heat that evaporates a kilogram of water.

    Parameters
    ----------
    temperature_k : float
        Temperature, 0 to 100 °C. [K]

    Returns
    -------
    float
        Heat of evaporation, within 0.3 %. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Straight line through values of the industrial formulation [iapws-if97-heat, saturated water and steam].
    """
    return LATENT_HEAT_AT_0_C + LATENT_HEAT_SLOPE * (temperature_k - ICE_POINT)


@calculation(vapour_kg_per_s=between(0, 10), temperature_k=between(273.15, 373.15))
def evaporation_heat(vapour_kg_per_s: float, temperature_k: float) -> float:
    """
    Heat that leaves the stack with the vapour in its gases.

    Parameters
    ----------
    vapour_kg_per_s : float
        Water vapour that leaves with hydrogen and oxygen. [kg/s]
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Heat flow. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Heat of evaporation times vapour [by-definition].
    """
    return vapour_kg_per_s * latent_heat(temperature_k)


@calculation(
    heat_capacity_j_per_k=above(0, 1e9),
    loss_w_per_k=between(0, 1e4),
    heater_power_w=between(1e-3, 1e6),
    start_temperature_k=AMBIENT,
    end_temperature_k=AMBIENT,
)
def preheat_time(
    heat_capacity_j_per_k: float,
    loss_w_per_k: float,
    heater_power_w: float,
    start_temperature_k: float,
    end_temperature_k: float,
) -> float:
    """
    Time to warm a stack and its water from ambient, heat lost on the way.

    Parameters
    ----------
    heat_capacity_j_per_k : float
        Heat capacity of stack, water and metal. [J/K]
    loss_w_per_k : float
        Heat lost to ambient for each kelvin above it. [W/K]
    heater_power_w : float
        Power of the heater, at least a milliwatt. [W]
    start_temperature_k : float
        Ambient temperature, at which everything starts. [K]
    end_temperature_k : float
        Temperature wanted, no lower. [K]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the heater loses as much as it gives before the end.

    Notes
    -----
    First-order heat balance, solved exactly [by-definition].
    """
    rise = end_temperature_k - start_temperature_k
    if rise < 0:
        raise OutOfRange(
            "preheat_time", "end_temperature_k", end_temperature_k, range_said("least", limit=start_temperature_k)
        )
    if not heater_power_w > loss_w_per_k * rise:
        raise OutOfRange(
            "preheat_time", "heater_power_w", heater_power_w, range_said("above_loss", limit=loss_w_per_k * rise)
        )
    if loss_w_per_k < 1e-6:  # the logarithm would be one of a number that differs from 1 in its last digits only
        return heat_capacity_j_per_k * rise / heater_power_w
    return -heat_capacity_j_per_k / loss_w_per_k * log(1 - loss_w_per_k * rise / heater_power_w)


@calculation(preheat_time_s=between(0, 1e9), heater_power_w=above(0, 1e6))
def preheat_energy(preheat_time_s: float, heater_power_w: float) -> float:
    """
    Energy that warming up takes, losses included.

    Parameters
    ----------
    preheat_time_s : float
        Time of warming up. [s]
    heater_power_w : float
        Power of the heater. [W]

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
    Power times time [by-definition].
    """
    return heater_power_w * preheat_time_s
