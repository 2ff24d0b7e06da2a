"""
Purging: how often to swing the pressure, how much to sweep.

What the formulas leave behind is the mean of a well-mixed space. Dead legs are swept apart, a bed of
desiccant holds gas back, and a stack is never evacuated. Nitrogen suffocates: its vent leads outdoors.
"""

import math

from macros.calculations.constants import GAS_CONSTANT
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import log, power


@calculation(
    start_fraction=above(0.0, 1.0), end_fraction=above(0.0, 1.0), high_pressure_pa=between(1e3, 100e6),
    low_pressure_pa=between(10.0, 100e6), purge_gas_fraction=between(0.0, 0.2),
)  # fmt: skip
def pressure_swings_exact(
    start_fraction: float,
    end_fraction: float,
    high_pressure_pa: float,
    low_pressure_pa: float,
    purge_gas_fraction: float = 0.0,
) -> float:
    """
    Pressure swings that thin a gas out to a fraction, before rounding up to whole ones.

    Parameters
    ----------
    start_fraction : float
        Fraction at first, above 0, at most 1. [-]
    end_fraction : float
        Fraction wanted, above 0, no more than at first. [-]
    high_pressure_pa : float
        Absolute pressure to which the purge gas is let in, 1 kPa to 100 MPa. [Pa]
    low_pressure_pa : float
        Absolute pressure to which it is let out, less than that. [Pa]
    purge_gas_fraction : float
        What of the gas to be thinned out the purge gas itself carries, 0 to 0.2, less than wanted at last. [-]

    Returns
    -------
    float
        Number of swings. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or can never lead to the fraction wanted.

    Notes
    -----
    Each swing thins out by the ratio of the absolute pressures [purge-formula, pressure purging].
    """
    if not low_pressure_pa < high_pressure_pa:
        raise OutOfRange("pressure_swings_exact", "low_pressure_pa", low_pressure_pa, range_said("less_than_high"))
    if end_fraction > start_fraction:
        raise OutOfRange("pressure_swings_exact", "end_fraction", end_fraction, range_said("most_fraction_first"))
    if not purge_gas_fraction < end_fraction:
        raise OutOfRange(
            "pressure_swings_exact", "purge_gas_fraction", purge_gas_fraction, range_said("less_than_wanted")
        )
    return log((start_fraction - purge_gas_fraction) / (end_fraction - purge_gas_fraction)) / log(
        high_pressure_pa / low_pressure_pa
    )


@calculation(opaque="next whole number", exact=between(0.0, 1e6))
def whole_swings(exact: float) -> float:
    """
    Whole pressure swings that are at least as many as calculated.

    Parameters
    ----------
    exact : float
        Number calculated, 0 or more. [-]

    Returns
    -------
    float
        Whole number. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Rounded up, since the fraction wanted is a limit; a billionth above a whole number is that number [by-definition].
    """
    return float(math.ceil(exact - 1e-9 * max(1.0, exact)))


@calculation(
    start_fraction=between(0.0, 1.0), high_pressure_pa=between(1e3, 100e6), low_pressure_pa=between(10.0, 100e6),
    swings=between(0.0, 1e4), purge_gas_fraction=between(0.0, 0.2),
)  # fmt: skip
def fraction_left(
    start_fraction: float,
    high_pressure_pa: float,
    low_pressure_pa: float,
    swings: float,
    purge_gas_fraction: float = 0.0,
) -> float:
    """
    Fraction of a gas that is left after pressure swings.

    Parameters
    ----------
    start_fraction : float
        Fraction at first, 0 to 1. [-]
    high_pressure_pa : float
        Absolute pressure to which the purge gas is let in, 1 kPa to 100 MPa. [Pa]
    low_pressure_pa : float
        Absolute pressure to which it is let out, no more than that. [Pa]
    swings : float
        Number of swings, 0 or more. [-]
    purge_gas_fraction : float
        What of the gas to be thinned out the purge gas itself carries, 0 to 0.2. [-]

    Returns
    -------
    float
        Fraction. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the low pressure is the higher one.

    Notes
    -----
    Each swing thins out by the ratio of the absolute pressures [purge-formula, pressure purging].
    """
    if low_pressure_pa > high_pressure_pa:
        raise OutOfRange("fraction_left", "low_pressure_pa", low_pressure_pa, range_said("most_high"))
    return purge_gas_fraction + (start_fraction - purge_gas_fraction) * power(
        low_pressure_pa / high_pressure_pa, swings
    )


@calculation(start_fraction=above(0.0, 1.0), end_fraction=above(0.0, 1.0))
def sweep_volumes(start_fraction: float, end_fraction: float) -> float:
    """
    Purge gas that sweeps a well-mixed space to a fraction, counted in volumes of the space.

    Parameters
    ----------
    start_fraction : float
        Fraction at first, above 0, at most 1. [-]
    end_fraction : float
        Fraction wanted, above 0, no more than at first. [-]

    Returns
    -------
    float
        Volumes of the space, at its pressure. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the fraction wanted is the higher one.

    Notes
    -----
    Well-mixed space, as much leaving as comes in [purge-formula, sweep-through purging].
    """
    if end_fraction > start_fraction:
        raise OutOfRange("sweep_volumes", "end_fraction", end_fraction, range_said("most_fraction_first"))
    return log(start_fraction / end_fraction)


@calculation(
    space_m3=above(0.0, 1e4), high_pressure_pa=between(1e3, 100e6), low_pressure_pa=between(10.0, 100e6),
    temperature_k=between(200.0, 400.0), swings=between(0.0, 1e4),
)  # fmt: skip
def purge_gas_used(
    space_m3: float, high_pressure_pa: float, low_pressure_pa: float, temperature_k: float, swings: float
) -> float:
    """
    Purge gas that pressure swings use.

    Parameters
    ----------
    space_m3 : float
        Space that is purged, above 0. [m3]
    high_pressure_pa : float
        Absolute pressure to which the purge gas is let in, 1 kPa to 100 MPa. [Pa]
    low_pressure_pa : float
        Absolute pressure to which it is let out, no more than that. [Pa]
    temperature_k : float
        Temperature, 200 to 400. [K]
    swings : float
        Number of swings, 0 or more. [-]

    Returns
    -------
    float
        Amount of gas. [mol]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the low pressure is the higher one.

    Notes
    -----
    Ideal gas [purge-formula, pressure purging].
    """
    if low_pressure_pa > high_pressure_pa:
        raise OutOfRange("purge_gas_used", "low_pressure_pa", low_pressure_pa, range_said("most_high"))
    return swings * (high_pressure_pa - low_pressure_pa) * space_m3 / (GAS_CONSTANT * temperature_k)
