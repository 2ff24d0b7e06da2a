"""Gas that flows through a standing booster as through an open pipe, while the bank lies below the supply."""

from macros.calculations import hydrogen
from macros.calculations.contract import above, between, calculation
from macros.calculations.formula import largest, smallest

_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_TEMPERATURE = between(200.0, 400.0)


@calculation(
    supply_pressure_pa=between(1e5, hydrogen.HIGHEST_PRESSURE_PA), cracking_difference_pa=between(0, 9e4),
    full_pressure_pa=_PRESSURE,
)  # fmt: skip
def free_flow_pressure(supply_pressure_pa: float, cracking_difference_pa: float, full_pressure_pa: float) -> float:
    """
    Pressure up to which a bank fills without a stroke.

    Parameters
    ----------
    supply_pressure_pa : float
        Highest absolute pressure of the supply, that at which the switch starts the booster. [Pa]
    cracking_difference_pa : float
        Differences at which the check valves on the way open, added up, at most 90 kPa. [Pa]
    full_pressure_pa : float
        Absolute pressure of the full bank. [Pa]

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
    The booster's check valves open forward; the bank follows the supply [piston-balance].
    """
    return smallest(supply_pressure_pa - cracking_difference_pa, full_pressure_pa)


@calculation(
    bank_volume_m3=above(0, 1e3), start_pressure_pa=_PRESSURE, free_pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE
)
def free_flow_mass(
    bank_volume_m3: float, start_pressure_pa: float, free_pressure_pa: float, temperature_k: float
) -> float:
    """
    Hydrogen that a bank takes without a stroke.

    Parameters
    ----------
    bank_volume_m3 : float
        Water volume of the bank, above 0. [m3]
    start_pressure_pa : float
        Absolute pressure of the bank at the start. [Pa]
    free_pressure_pa : float
        Absolute pressure up to which it fills without a stroke. [Pa]
    temperature_k : float
        Temperature of the gas. [K]

    Returns
    -------
    float
        Mass, 0 where the bank starts above. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Volume times the difference of densities [leachman-2009, equation 1].
    """
    free = hydrogen.density(free_pressure_pa, temperature_k)
    start = hydrogen.density(start_pressure_pa, temperature_k)
    return bank_volume_m3 * largest(0, free - start)
