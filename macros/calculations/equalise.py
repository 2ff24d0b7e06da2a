"""
Two vessels joined: the pressure at which they meet, and what a booster between them moves after that.

All gas at one temperature: the flow of a transfer stops a little early while the source is cold and the target warm,
and settles to these pressures.
"""

from macros.calculations import hydrogen
from macros.calculations.contract import between, calculation
from macros.calculations.formula import largest, smallest

_VOLUME = between(1e-6, 1e3)
_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_TEMPERATURE = between(200.0, 400.0)
_MASS = between(0, 1e5)


@calculation(
    source_volume_m3=_VOLUME, source_pressure_pa=_PRESSURE, target_volume_m3=_VOLUME, target_pressure_pa=_PRESSURE,
    temperature_k=_TEMPERATURE,
)  # fmt: skip
def equalised_pressure(
    source_volume_m3: float,
    source_pressure_pa: float,
    target_volume_m3: float,
    target_pressure_pa: float,
    temperature_k: float,
) -> float:
    """
    Pressure of two vessels that have been joined.

    Parameters
    ----------
    source_volume_m3 : float
        Water volume of the one. [m3]
    source_pressure_pa : float
        Its absolute pressure before. [Pa]
    target_volume_m3 : float
        Water volume of the other. [m3]
    target_pressure_pa : float
        Its absolute pressure before. [Pa]
    temperature_k : float
        Temperature of the gas, before and after. [K]

    Returns
    -------
    float
        Absolute pressure of both. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass in all over volume in all is the density of both [mass-balance].
    """
    source = source_volume_m3 * hydrogen.density(source_pressure_pa, temperature_k)
    target = target_volume_m3 * hydrogen.density(target_pressure_pa, temperature_k)
    return hydrogen.pressure((source + target) / (source_volume_m3 + target_volume_m3), temperature_k)


@calculation(
    source_volume_m3=_VOLUME, source_pressure_pa=_PRESSURE, source_lowest_pa=_PRESSURE, target_volume_m3=_VOLUME,
    target_pressure_pa=_PRESSURE, target_full_pa=_PRESSURE, temperature_k=_TEMPERATURE,
)  # fmt: skip
def free_transfer_mass(
    source_volume_m3: float,
    source_pressure_pa: float,
    source_lowest_pa: float,
    target_volume_m3: float,
    target_pressure_pa: float,
    target_full_pa: float,
    temperature_k: float,
) -> float:
    """
    Hydrogen that flows from one vessel into another by itself.

    Parameters
    ----------
    source_volume_m3 : float
        Water volume of the vessel it leaves. [m3]
    source_pressure_pa : float
        Absolute pressure there before. [Pa]
    source_lowest_pa : float
        Absolute pressure below which the source is not drawn down. [Pa]
    target_volume_m3 : float
        Water volume of the vessel it enters. [m3]
    target_pressure_pa : float
        Absolute pressure there before. [Pa]
    target_full_pa : float
        Absolute pressure at which the target is full. [Pa]
    temperature_k : float
        Temperature of the gas, before and after. [K]

    Returns
    -------
    float
        Mass; 0 where the target lies above the source, is full, or the source is at its lowest. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    The least of: until both are equal, until the target is full, until the source is at its lowest [mass-balance].
    """
    source = hydrogen.density(source_pressure_pa, temperature_k)
    target = hydrogen.density(target_pressure_pa, temperature_k)
    lowest = hydrogen.density(source_lowest_pa, temperature_k)
    full = hydrogen.density(target_full_pa, temperature_k)
    equal = (source_volume_m3 * source + target_volume_m3 * target) / (source_volume_m3 + target_volume_m3)
    gives = source_volume_m3 * (source - largest(equal, lowest))
    takes = target_volume_m3 * (smallest(equal, full) - target)
    return largest(0, smallest(gives, takes))


@calculation(
    source_volume_m3=_VOLUME, source_pressure_pa=_PRESSURE, source_lowest_pa=_PRESSURE, target_volume_m3=_VOLUME,
    target_pressure_pa=_PRESSURE, target_full_pa=_PRESSURE, free_mass_kg=_MASS, temperature_k=_TEMPERATURE,
)  # fmt: skip
def boosted_transfer_mass(
    source_volume_m3: float,
    source_pressure_pa: float,
    source_lowest_pa: float,
    target_volume_m3: float,
    target_pressure_pa: float,
    target_full_pa: float,
    free_mass_kg: float,
    temperature_k: float,
) -> float:
    """
    Hydrogen that a booster moves from one vessel into another after what flowed by itself.

    Parameters
    ----------
    source_volume_m3 : float
        Water volume of the vessel it leaves. [m3]
    source_pressure_pa : float
        Absolute pressure there before anything flowed. [Pa]
    source_lowest_pa : float
        Absolute pressure below which the source is not drawn down. [Pa]
    target_volume_m3 : float
        Water volume of the vessel it enters. [m3]
    target_pressure_pa : float
        Absolute pressure there before anything flowed. [Pa]
    target_full_pa : float
        Absolute pressure at which the target is full. [Pa]
    free_mass_kg : float
        What flowed by itself. [kg]
    temperature_k : float
        Temperature of the gas, before and after. [K]

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
    The smaller of what the source may still give and what the target still takes [mass-balance].
    """
    source = hydrogen.density(source_pressure_pa, temperature_k)
    target = hydrogen.density(target_pressure_pa, temperature_k)
    lowest = hydrogen.density(source_lowest_pa, temperature_k)
    full = hydrogen.density(target_full_pa, temperature_k)
    gives = source_volume_m3 * (source - lowest)
    takes = target_volume_m3 * (full - target)
    return largest(0, smallest(gives, takes) - free_mass_kg)


@calculation(volume_m3=_VOLUME, pressure_pa=_PRESSURE, added_mass_kg=between(-1e5, 1e5), temperature_k=_TEMPERATURE)
def pressure_after(volume_m3: float, pressure_pa: float, added_mass_kg: float, temperature_k: float) -> float:
    """
    Pressure of a vessel after hydrogen has come in or gone out, settled at the same temperature.

    Parameters
    ----------
    volume_m3 : float
        Water volume. [m3]
    pressure_pa : float
        Absolute pressure before. [Pa]
    added_mass_kg : float
        Mass that came in; negative where it went out. [kg]
    temperature_k : float
        Temperature before and after. [K]

    Returns
    -------
    float
        Absolute pressure after. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or more goes out than there is.

    Notes
    -----
    Density before plus what came in over the volume [mass-balance].
    """
    return hydrogen.pressure(hydrogen.density(pressure_pa, temperature_k) + added_mass_kg / volume_m3, temperature_k)
