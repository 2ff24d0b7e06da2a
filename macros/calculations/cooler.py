"""The water cooler by effectiveness and transfer units, and how far the water warms over the stack."""

from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import Constant, exp, largest, power, smallest

CAPACITY_RATE = between(1e-3, 1e7)
TEMPERATURE = between(223.15, 423.15)

WATER_VOLUMETRIC_HEAT = Constant(
    4.11e6, "c_w", "J/(m3 K)", "heat capacity of a volume of water at 60 °C", "iapws-if97-heat"
)
AIR_HEAT_CAPACITY = Constant(1006.0, "c_a", "J/(kg K)", "heat capacity of dry air at room temperature", "coolprop-8")
AIR_GAS_CONSTANT = Constant(287.05, "R_a", "J/(kg K)", "gas constant of dry air", "icao-7488")


@calculation(water_flow_m3_per_s=above(0, 10))
def water_capacity_rate(water_flow_m3_per_s: float) -> float:
    """
    Heat that a flow of water takes up for each kelvin.

    Parameters
    ----------
    water_flow_m3_per_s : float
        Flow of water. [m3/s]

    Returns
    -------
    float
        Capacity rate. [W/K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Density times specific heat of water at 60 °C; from 20 to 80 °C it moves by 2 %
    [iapws-if97-heat, density and specific heat of liquid water].
    """
    return WATER_VOLUMETRIC_HEAT * water_flow_m3_per_s


@calculation(air_flow_m3_per_s=above(0, 100), pressure_pa=between(4e4, 1.2e5), temperature_k=between(223.15, 353.15))
def air_capacity_rate(air_flow_m3_per_s: float, pressure_pa: float, temperature_k: float) -> float:
    """
    Heat that a flow of air takes up for each kelvin.

    Parameters
    ----------
    air_flow_m3_per_s : float
        Flow of air at its own pressure and temperature. [m3/s]
    pressure_pa : float
        Absolute atmospheric pressure. [Pa]
    temperature_k : float
        Temperature of the air, -50 to 80 °C. [K]

    Returns
    -------
    float
        Capacity rate. [W/K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas times specific heat [coolprop-8, specific heat of air at 25 °C and 1 bar]; gas constant of dry air
    [icao-7488, constants of the standard atmosphere].
    """
    return AIR_HEAT_CAPACITY * air_flow_m3_per_s * pressure_pa / (AIR_GAS_CONSTANT * temperature_k)


@calculation(conductance_w_per_k=above(0, 1e7), first_rate_w_per_k=CAPACITY_RATE, second_rate_w_per_k=CAPACITY_RATE)
def transfer_units(conductance_w_per_k: float, first_rate_w_per_k: float, second_rate_w_per_k: float) -> float:
    """
    Number of transfer units of a heat exchanger.

    Parameters
    ----------
    conductance_w_per_k : float
        Heat conductance UA. [W/K]
    first_rate_w_per_k : float
        Capacity rate of one stream. [W/K]
    second_rate_w_per_k : float
        Capacity rate of the other. [W/K]

    Returns
    -------
    float
        Transfer units. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Definition [by-definition].
    """
    return conductance_w_per_k / smallest(first_rate_w_per_k, second_rate_w_per_k)


@calculation(transfer_units=between(0, 1e6), capacity_ratio=between(0, 1))
def effectiveness_counterflow(transfer_units: float, capacity_ratio: float) -> float:
    """
    Effectiveness of streams that run against each other.

    Parameters
    ----------
    transfer_units : float
        Number of transfer units, 0 to a million. [-]
    capacity_ratio : float
        Smaller capacity rate over the larger, 0 to 1. [-]

    Returns
    -------
    float
        Heat passed over the most that could pass. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Counterflow; its limit where both rates are alike [ntu-method, counterflow].
    """
    if 1 - capacity_ratio < 1e-9:
        return transfer_units / (1 + transfer_units)
    passed = exp(-transfer_units * (1 - capacity_ratio))
    return (1 - passed) / (1 - capacity_ratio * passed)


@calculation(transfer_units=between(0, 1e6), capacity_ratio=between(0, 1))
def effectiveness_crossflow(transfer_units: float, capacity_ratio: float) -> float:
    """
    Effectiveness of a finned cooler with air blown across, neither stream mixed.

    Parameters
    ----------
    transfer_units : float
        Number of transfer units, 0 to a million. [-]
    capacity_ratio : float
        Smaller capacity rate over the larger, 0 to 1. [-]

    Returns
    -------
    float
        Heat passed over the most that could pass. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Usual approximation for cross-flow with both streams unmixed, and its limit where one rate is far the larger
    [ntu-method, crossflow, approximate].
    """
    if transfer_units <= 0:
        return 0.0 * transfer_units
    if capacity_ratio < 1e-6:
        return 1 - exp(-transfer_units)
    slowed = power(transfer_units, 0.22) / capacity_ratio
    return 1 - exp(slowed * (exp(-capacity_ratio * power(transfer_units, 0.78)) - 1))


@calculation(first_rate_w_per_k=CAPACITY_RATE, second_rate_w_per_k=CAPACITY_RATE)
def capacity_ratio(first_rate_w_per_k: float, second_rate_w_per_k: float) -> float:
    """
    Smaller capacity rate over the larger.

    Parameters
    ----------
    first_rate_w_per_k : float
        Capacity rate of one stream. [W/K]
    second_rate_w_per_k : float
        Capacity rate of the other. [W/K]

    Returns
    -------
    float
        Ratio, at most 1. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Definition [by-definition].
    """
    return smallest(first_rate_w_per_k, second_rate_w_per_k) / largest(first_rate_w_per_k, second_rate_w_per_k)


@calculation(
    effectiveness=between(0, 1),
    first_rate_w_per_k=CAPACITY_RATE,
    second_rate_w_per_k=CAPACITY_RATE,
    hot_temperature_k=TEMPERATURE,
    cold_temperature_k=TEMPERATURE,
)
def cooling_capacity(
    effectiveness: float,
    first_rate_w_per_k: float,
    second_rate_w_per_k: float,
    hot_temperature_k: float,
    cold_temperature_k: float,
) -> float:
    """
    Heat that a cooler takes away.

    Parameters
    ----------
    effectiveness : float
        Heat passed over the most that could pass, 0 to 1. [-]
    first_rate_w_per_k : float
        Capacity rate of the water. [W/K]
    second_rate_w_per_k : float
        Capacity rate of the air. [W/K]
    hot_temperature_k : float
        Temperature at which the water enters. [K]
    cold_temperature_k : float
        Temperature at which the air enters, no higher. [K]

    Returns
    -------
    float
        Heat flow. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the air is warmer than the water.

    Notes
    -----
    Definition of effectiveness [ntu-method, definition].
    """
    if cold_temperature_k > hot_temperature_k:
        raise OutOfRange(
            "cooling_capacity",
            "cold_temperature_k",
            cold_temperature_k,
            range_said("most_of_water", limit=hot_temperature_k),
        )
    return effectiveness * smallest(first_rate_w_per_k, second_rate_w_per_k) * (hot_temperature_k - cold_temperature_k)


@calculation(heat_w=between(-1e7, 1e7), rate_w_per_k=CAPACITY_RATE)
def temperature_rise(heat_w: float, rate_w_per_k: float) -> float:
    """
    How far a flow of water warms by a heat.

    Parameters
    ----------
    heat_w : float
        Heat taken up. [W]
    rate_w_per_k : float
        Capacity rate of the water. [W/K]

    Returns
    -------
    float
        Rise of temperature; below zero where heat is given up. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Heat balance [by-definition].
    """
    return heat_w / rate_w_per_k


@calculation(capacity_w=between(1e-3, 1e8), heat_w=between(-1e8, 1e8))
def cooling_margin(capacity_w: float, heat_w: float) -> float:
    """
    Share of a cooler's capacity that is left over.

    Parameters
    ----------
    capacity_w : float
        Heat that it takes away at most, above 0. [W]
    heat_w : float
        Heat that must be taken away. [W]

    Returns
    -------
    float
        Share; below 0 the stack warms until it trips. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ratio [by-definition].
    """
    return (capacity_w - heat_w) / capacity_w
