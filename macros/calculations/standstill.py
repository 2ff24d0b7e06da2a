"""
A stack that has stopped: hydrogen goes on crossing, no oxygen is made to thin it.

The oxygen side is taken as full of oxygen and well mixed when the current stops. Pockets fill sooner.
"""

from macros.calculations.cell_voltage import PRESSURE, TEMPERATURE
from macros.calculations.constants import GAS_CONSTANT
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import Constant, exp, log

LOWER_FLAMMABLE_LIMIT = Constant(0.04, "x_LFL", "", "lower flammable limit of hydrogen", "iec-60079-20-1")

LIMIT = between(1e-4, 0.99)
GAS = between(1e-6, 1e5)


@calculation(
    volume_m3=above(0, 100), pressure_pa=PRESSURE, vapour_pressure_pa=between(0, 2e5), temperature_k=TEMPERATURE
)
def dry_gas_held(volume_m3: float, pressure_pa: float, vapour_pressure_pa: float, temperature_k: float) -> float:
    """
    Gas in a space near atmospheric pressure, without its water vapour.

    Parameters
    ----------
    volume_m3 : float
        Gas space, free of water. [m3]
    pressure_pa : float
        Absolute pressure, above that of the vapour. [Pa]
    vapour_pressure_pa : float
        Partial pressure of water vapour. [Pa]
    temperature_k : float
        Temperature of the gas, 0 to 100 °C. [K]

    Returns
    -------
    float
        Amount of dry gas. [mol]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the water boils.

    Notes
    -----
    Ideal gas with Dalton's law [by-definition].
    """
    if not pressure_pa > vapour_pressure_pa:
        raise OutOfRange(
            "dry_gas_held", "pressure_pa", pressure_pa, range_said("above_vapour", limit=vapour_pressure_pa)
        )
    return (pressure_pa - vapour_pressure_pa) * volume_m3 / (GAS_CONSTANT * temperature_k)


@calculation(gas_mol=GAS, crossover_mol_per_s=between(1e-12, 100), hydrogen_limit=LIMIT)
def time_to_limit(gas_mol: float, crossover_mol_per_s: float, hydrogen_limit: float) -> float:
    """
    Time until hydrogen reaches a limit in an oxygen space whose vent is open.

    Parameters
    ----------
    gas_mol : float
        Dry gas in the space, all oxygen at first. [mol]
    crossover_mol_per_s : float
        Hydrogen that crosses, taken as steady; the highest errs on the safe side. [mol/s]
    hydrogen_limit : float
        Limit for hydrogen in the dry gas, 0.01 to 99 %. [-]

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
    Dilution of a well-mixed space at steady pressure, what comes in pushes as much out [by-definition].
    """
    return -gas_mol / crossover_mol_per_s * log(1 - hydrogen_limit)


@calculation(gas_mol=GAS, crossover_mol_per_s=between(1e-12, 100), hydrogen_limit=LIMIT)
def time_to_limit_shut(gas_mol: float, crossover_mol_per_s: float, hydrogen_limit: float) -> float:
    """
    Time until hydrogen reaches a limit in an oxygen space that is shut.

    Parameters
    ----------
    gas_mol : float
        Dry gas in the space, all oxygen at first. [mol]
    crossover_mol_per_s : float
        Hydrogen that crosses, taken as steady. [mol/s]
    hydrogen_limit : float
        Limit for hydrogen in the dry gas, 0.01 to 99 %. [-]

    Returns
    -------
    float
        Time; a little longer than with the vent open, since no oxygen leaves. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Nothing leaves, the pressure rises [by-definition].
    """
    return gas_mol / crossover_mol_per_s * hydrogen_limit / (1 - hydrogen_limit)


@calculation(pressure_pa=PRESSURE, end_pressure_pa=PRESSURE, rate_pa_per_s=between(1, 1e7))
def let_down_time(pressure_pa: float, end_pressure_pa: float, rate_pa_per_s: float) -> float:
    """
    Time to let the hydrogen side down at a steady rate.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure when the stack stops. [Pa]
    end_pressure_pa : float
        Absolute pressure that is safe to rest at, no higher. [Pa]
    rate_pa_per_s : float
        Fall of pressure in each second, 1 Pa to 100 bar. [Pa/s]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the end is the higher pressure.

    Notes
    -----
    Definition of a rate [by-definition].
    """
    if end_pressure_pa > pressure_pa:
        raise OutOfRange("let_down_time", "end_pressure_pa", end_pressure_pa, range_said("most", limit=pressure_pa))
    return (pressure_pa - end_pressure_pa) / rate_pa_per_s


@calculation(
    crossover_mol_per_s=between(0, 100),
    crossover_end_mol_per_s=between(0, 100),
    let_down_time_s=between(0, 1e7),
    gas_mol=GAS,
)
def hydrogen_after_let_down(
    crossover_mol_per_s: float, crossover_end_mol_per_s: float, let_down_time_s: float, gas_mol: float
) -> float:
    """
    Hydrogen in the oxygen space when the hydrogen side has been let down, vent open, no catalyst counted.

    Parameters
    ----------
    crossover_mol_per_s : float
        Hydrogen that crosses when the stack stops. [mol/s]
    crossover_end_mol_per_s : float
        Hydrogen that still crosses when it is let down. [mol/s]
    let_down_time_s : float
        Time of letting down, pressure falling steadily. [s]
    gas_mol : float
        Dry gas in the oxygen space, all oxygen at first. [mol]

    Returns
    -------
    float
        Share of hydrogen in the dry gas, by amount. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Dilution of a well-mixed space; crossing falls as pressure does, so its mean is that of both ends [by-definition].
    """
    crossed = (crossover_mol_per_s + crossover_end_mol_per_s) / 2 * let_down_time_s
    return 1 - exp(-crossed / gas_mol)


@calculation(crossover_mol_per_s=between(1e-12, 100), hydrogen_limit=LIMIT)
def sweep_flow(crossover_mol_per_s: float, hydrogen_limit: float) -> float:
    """
    Inert gas that keeps an oxygen space below a limit for as long as hydrogen crosses.

    Parameters
    ----------
    crossover_mol_per_s : float
        Hydrogen that crosses. [mol/s]
    hydrogen_limit : float
        Limit for hydrogen in the dry gas, 0.01 to 99 %. [-]

    Returns
    -------
    float
        Amount flow of the gas that sweeps. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Steady dilution: one part of hydrogen to (1 − x) / x of the gas that sweeps [by-definition].
    """
    return crossover_mol_per_s * (1 - hydrogen_limit) / hydrogen_limit
