"""The cable between rectifier and stack: both conductors count, and they are hot."""

from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.faraday import CURRENT
from macros.calculations.formula import Constant

CONDUCTOR_TEMPERATURE = between(233.15, 473.15)
LENGTH = between(0, 1000)

COPPER_COEFFICIENT = Constant(
    3.93e-3, "α_Cu", "1/K", "temperature coefficient of copper's resistance at 20 °C", "iec-60028"
)
COPPER_REFERENCE = Constant(293.15, "T_20", "K", "20 °C, at which conductors are rated", "iec-60228")

FLEXIBLE_COPPER = {
    0.5: 39.0,
    0.75: 26.0,
    1.0: 19.5,
    1.5: 13.3,
    2.5: 7.98,
    4.0: 4.95,
    6.0: 3.30,
    10.0: 1.91,
    16.0: 1.21,
    25.0: 0.780,
    35.0: 0.554,
    50.0: 0.386,
    70.0: 0.272,
    95.0: 0.206,
    120.0: 0.161,
    150.0: 0.129,
    185.0: 0.106,
    240.0: 0.0801,
    300.0: 0.0641,
}
"""Highest resistance of plain flexible copper conductors (class 5) at 20 °C, ohm/km, by nominal area in mm2."""


@calculation(opaque="conductor table", area_m2=between(0.5e-6, 300e-6))
def conductor_resistance(area_m2: float) -> float:
    """
    Resistance of a metre of flexible copper conductor at 20 °C, the highest that the standard allows.

    Parameters
    ----------
    area_m2 : float
        Nominal area, 0.5 to 300 mm²; between two sizes the smaller one counts. [m2]

    Returns
    -------
    float
        Resistance of one conductor for each metre. [ohm/m]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Plain annealed copper, class 5 [iec-60228, table of class 5 conductors].
    """
    area_mm2 = area_m2 * 1e6 * (1 + 1e-9)
    size = max(one for one in FLEXIBLE_COPPER if one <= area_mm2)
    return FLEXIBLE_COPPER[size] * 1e-3


@calculation(resistance_ohm_per_m=above(0, 1), temperature_k=CONDUCTOR_TEMPERATURE)
def hot_resistance(resistance_ohm_per_m: float, temperature_k: float) -> float:
    """
    Resistance of a metre of copper conductor at its temperature in service.

    Parameters
    ----------
    resistance_ohm_per_m : float
        Resistance for each metre at 20 °C. [ohm/m]
    temperature_k : float
        Temperature of the conductor, -40 to 200 °C. [K]

    Returns
    -------
    float
        Resistance for each metre. [ohm/m]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Straight line with the coefficient of annealed copper [iec-60028, temperature coefficient at 20 °C].
    """
    return resistance_ohm_per_m * (1 + COPPER_COEFFICIENT * (temperature_k - COPPER_REFERENCE))


@calculation(resistance_ohm_per_m=above(0, 1), length_m=LENGTH, current_a=CURRENT)
def voltage_drop(resistance_ohm_per_m: float, length_m: float, current_a: float) -> float:
    """
    Voltage lost in a cable, there and back.

    Parameters
    ----------
    resistance_ohm_per_m : float
        Resistance of one conductor for each metre, hot. [ohm/m]
    length_m : float
        Length one way. [m]
    current_a : float
        Current. [A]

    Returns
    -------
    float
        Voltage. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ohm's law over both conductors [by-definition].
    """
    return 2 * length_m * resistance_ohm_per_m * current_a


@calculation(voltage_v=above(0, 1e4), fraction=between(0, 1))
def share_of_voltage(voltage_v: float, fraction: float) -> float:
    """
    A share of a voltage, such as the drop allowed.

    Parameters
    ----------
    voltage_v : float
        Voltage of the stack. [V]
    fraction : float
        Share, 0 to 1. [-]

    Returns
    -------
    float
        Voltage. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Share [by-definition].
    """
    return fraction * voltage_v


@calculation(
    opaque="conductor table",
    length_m=LENGTH,
    current_a=CURRENT,
    drop_allowed_v=above(0, 1e3),
    temperature_k=CONDUCTOR_TEMPERATURE,
)
def smallest_conductor(length_m: float, current_a: float, drop_allowed_v: float, temperature_k: float) -> float:
    """
    Smallest flexible copper conductor whose drop stays within what is allowed; the current it bears is another matter.

    Parameters
    ----------
    length_m : float
        Length one way. [m]
    current_a : float
        Current. [A]
    drop_allowed_v : float
        Voltage that may be lost over both conductors. [V]
    temperature_k : float
        Temperature of the conductor in service, -40 to 200 °C. [K]

    Returns
    -------
    float
        Nominal area, 0.5 to 300 mm². [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or no size of the table is large enough.

    Notes
    -----
    Plain annealed copper, class 5 [iec-60228, table of class 5 conductors], hot [iec-60028, temperature
    coefficient at 20 °C]. What current a conductor bears as laid is for the local code.
    """
    for size in sorted(FLEXIBLE_COPPER):
        if (
            voltage_drop(hot_resistance(FLEXIBLE_COPPER[size] * 1e-3, temperature_k), length_m, current_a)
            <= drop_allowed_v
        ):
            return size * 1e-6
    raise OutOfRange("smallest_conductor", "drop_allowed_v", drop_allowed_v, range_said("drop_of_largest"))


@calculation(rectifier_voltage_v=above(0, 1e4), cable_drop_v=between(0, 1e3), cold_voltage_v=above(0, 1e4))
def voltage_headroom(rectifier_voltage_v: float, cable_drop_v: float, cold_voltage_v: float) -> float:
    """
    Voltage that the rectifier has left when a cold stack takes full current.

    Parameters
    ----------
    rectifier_voltage_v : float
        Highest voltage of the rectifier. [V]
    cable_drop_v : float
        Voltage lost in the cable. [V]
    cold_voltage_v : float
        Voltage of the cold stack. [V]

    Returns
    -------
    float
        Voltage left; below zero the stack does not reach its current until it has warmed. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Voltages in series [by-definition].
    """
    return rectifier_voltage_v - cable_drop_v - cold_voltage_v


@calculation(power_w=above(0, 1e8), voltage_v=between(1, 1e5), power_factor=between(0.01, 1))
def current_drawn(power_w: float, voltage_v: float, power_factor: float) -> float:
    """
    Alternating current that a power draws from a single-phase supply.

    Parameters
    ----------
    power_w : float
        Power drawn. [W]
    voltage_v : float
        Voltage of the supply, root mean square. [V]
    power_factor : float
        Power over the product of voltage and current, 1 to 100 %. [-]

    Returns
    -------
    float
        Current, root mean square. [A]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Definition of the power factor [by-definition].
    """
    return power_w / (voltage_v * power_factor)
