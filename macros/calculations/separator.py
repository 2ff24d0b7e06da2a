"""
Separators, coalescers, drains: what a stage at one temperature leaves in the gas.

Water is counted as a flow that the gas carries, vapour and droplets together, so that nothing is lost between
stages and any order of stages adds up. A stage holds back what exceeds saturation, but for a carried share;
it never adds water.
"""

from macros.calculations.contract import above, at_least, between, calculation
from macros.calculations.formula import largest, log, smallest
from macros.calculations.humidity import water_carried, water_fraction_saturated

_PRESSURE = between(100.0, 100e6)
_TEMPERATURE = between(200.0, 423.15)


@calculation(
    water_kg_per_s=at_least(0),
    dry_gas_mol_per_s=above(0),
    pressure_pa=_PRESSURE,
    temperature_k=_TEMPERATURE,
    carry_over=between(0, 1),
)
def water_after_separating(
    water_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float, temperature_k: float, carry_over: float
) -> float:
    """
    Water that leaves a separator, coalescer or coil with the gas: saturated vapour and the liquid carried over.

    Parameters
    ----------
    water_kg_per_s : float
        Water that enters, vapour and liquid. [kg/s]
    dry_gas_mol_per_s : float
        Flow of the gas without its water. [mol/s]
    pressure_pa : float
        Absolute pressure. [Pa]
    temperature_k : float
        Temperature of the gas as it leaves, 200 to 423.15 K. [K]
    carry_over : float
        Share of the liquid that leaves with the gas, 0 to 1. [-]

    Returns
    -------
    float
        Water that leaves, vapour and liquid; never more than enters. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or water boils there.

    Notes
    -----
    Balance of water over the stage [by-definition].
    """
    saturated = water_carried(dry_gas_mol_per_s, water_fraction_saturated(pressure_pa, temperature_k))
    return smallest(water_kg_per_s, saturated + carry_over * largest(water_kg_per_s - saturated, 0))


@calculation(water_kg_per_s=at_least(0), dry_gas_mol_per_s=above(0), pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def vapour_carried(water_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float, temperature_k: float) -> float:
    """
    The part of the water in a stream that is vapour; the rest is droplets.

    Parameters
    ----------
    water_kg_per_s : float
        Water in the stream, vapour and liquid. [kg/s]
    dry_gas_mol_per_s : float
        Flow of the gas without its water. [mol/s]
    pressure_pa : float
        Absolute pressure. [Pa]
    temperature_k : float
        Temperature of the gas, 200 to 423.15 K. [K]

    Returns
    -------
    float
        Mass flow of vapour. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or water boils there.

    Notes
    -----
    Saturation at one pressure and temperature [by-definition].
    """
    return smallest(
        water_kg_per_s, water_carried(dry_gas_mol_per_s, water_fraction_saturated(pressure_pa, temperature_k))
    )


@calculation(
    water_dragged_kg_per_s=at_least(0),
    dry_gas_mol_per_s=above(0),
    pressure_pa=_PRESSURE,
    temperature_k=_TEMPERATURE,
)
def water_leaving_stack(
    water_dragged_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float, temperature_k: float
) -> float:
    """
    Water that leaves the hydrogen side of a stack: what the protons drag, but at least what saturates the gas.

    Parameters
    ----------
    water_dragged_kg_per_s : float
        Water dragged through the membranes; part of it leaves as vapour. [kg/s]
    dry_gas_mol_per_s : float
        Flow of hydrogen. [mol/s]
    pressure_pa : float
        Absolute pressure of the hydrogen side. [Pa]
    temperature_k : float
        Stack temperature. [K]

    Returns
    -------
    float
        Mass flow of water, vapour and liquid. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or water boils there.

    Notes
    -----
    A wet membrane saturates the gas [common-practice].
    """
    return largest(
        water_dragged_kg_per_s, water_carried(dry_gas_mol_per_s, water_fraction_saturated(pressure_pa, temperature_k))
    )


@calculation(lower_pressure_pa=above(0), higher_pressure_pa=above(0))
def pressure_of_mean_load(lower_pressure_pa: float, higher_pressure_pa: float) -> float:
    """
    The steady pressure at which gas would carry as much vapour as over a fill from one pressure to another.

    Saturated gas carries vapour as 1/p. While a vessel fills at a steady flow its pressure climbs evenly, so the mean
    load is that at (p2 − p1) / ln(p2 / p1): nearer the lower pressure than their mean.

    Parameters
    ----------
    lower_pressure_pa : float
        Absolute pressure at the start of the fill. [Pa]
    higher_pressure_pa : float
        Absolute pressure at its end. [Pa]

    Returns
    -------
    float
        Absolute pressure, between the two. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mean of 1/p over an even climb [by-definition].
    """
    # Of nearly equal pressures the difference of the logarithms has no digits left; their mean has the same value.
    if abs(higher_pressure_pa - lower_pressure_pa) <= 1e-6 * lower_pressure_pa:
        return (lower_pressure_pa + higher_pressure_pa) / 2
    return (higher_pressure_pa - lower_pressure_pa) / log(higher_pressure_pa / lower_pressure_pa)
