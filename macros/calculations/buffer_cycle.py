"""The buffer between stack and booster: what a swing of its switch holds, how long it lasts, how often it comes."""

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said

_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_TEMPERATURE = between(200.0, 400.0)
_FLOW = between(1e-12, 10.0)


@calculation(
    buffer_volume_m3=above(0, 100.0), train_volume_m3=between(0, 100.0), cut_in_pa=_PRESSURE, cut_out_pa=_PRESSURE,
    temperature_k=_TEMPERATURE,
)  # fmt: skip
def cycle_mass(
    buffer_volume_m3: float, train_volume_m3: float, cut_in_pa: float, cut_out_pa: float, temperature_k: float
) -> float:
    """
    Hydrogen that the buffer takes between cut-in and cut-out of its pressure switch.

    Parameters
    ----------
    buffer_volume_m3 : float
        Water volume of the buffer, above 0, at most 100. [m3]
    train_volume_m3 : float
        Volume of the gas train that rides on the buffer; 0 where a non-return valve parts them. [m3]
    cut_in_pa : float
        Absolute pressure at which the booster stops, 1 kPa to cut-out. [Pa]
    cut_out_pa : float
        Absolute pressure at which the booster starts, up to 100 MPa. [Pa]
    temperature_k : float
        Temperature of the gas, 200 to 400. [K]

    Returns
    -------
    float
        Mass. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or cut-in lies above cut-out.

    Notes
    -----
    Volumes times the difference of densities [leachman-2009, equation 1].
    """
    if cut_in_pa > cut_out_pa:
        raise OutOfRange("cycle_mass", "cut_in_pa", cut_in_pa, range_said("most_cut_out", limit=cut_out_pa))
    full = hydrogen.density(cut_out_pa, temperature_k)
    empty = hydrogen.density(cut_in_pa, temperature_k)
    return (buffer_volume_m3 + train_volume_m3) * (full - empty)


@calculation(mass_kg=between(0, 1e5), mass_flow_kg_per_s=_FLOW)
def time_to_make(mass_kg: float, mass_flow_kg_per_s: float) -> float:
    """
    Time that a steady flow takes to bring a mass.

    Parameters
    ----------
    mass_kg : float
        Mass, 0 to 100000. [kg]
    mass_flow_kg_per_s : float
        Mass flow, 1e-12 to 10. [kg/s]

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


@calculation(running_time_s=between(0, 366 * 86400.0), period_s=between(1e-3, 366 * 86400.0))
def cycles_in_time(running_time_s: float, period_s: float) -> float:
    """
    Pressure cycles that a vessel sees in a time.

    Parameters
    ----------
    running_time_s : float
        Time in which it is cycled, at most a year. [s]
    period_s : float
        Time of one cycle, 1 ms to a year. [s]

    Returns
    -------
    float
        Number of cycles. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Time over period [by-definition].
    """
    return running_time_s / period_s


@calculation(cycle_life=above(0, 1e12), cycles=between(1e-6, 1e9), in_time_s=above(0, 366 * 86400.0))
def time_of_cycle_life(cycle_life: float, cycles: float, in_time_s: float) -> float:
    """
    Time until a vessel has used up the pressure cycles it is made for.

    Parameters
    ----------
    cycle_life : float
        Cycles that the maker allows, above 0. [-]
    cycles : float
        Cycles that it sees in a time, 1e-6 to 1e9. [-]
    in_time_s : float
        That time, above 0, at most a year. [s]

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
    Cycles allowed over cycles used; a swing smaller than the one rated counts in full, the cautious way
    [by-definition].
    """
    return cycle_life / cycles * in_time_s
