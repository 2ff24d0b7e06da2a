"""
Air-driven piston boosters: where they stall, what they move, what drive air they take.

One *stroke* here is one working cycle of the piston, forth and back; `faces` counts the gas faces that deliver
in it (1 single-acting, 2 double-acting). Pressures are absolute; the balance of the pistons is one of gauge
pressures, since the far sides of the pistons stand at the atmosphere.
"""

from collections.abc import Sequence

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange, above, between, calculation, points, range_said
from macros.calculations.formula import largest, smallest

_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_DRIVE = between(1e4, 2e6)
_ATMOSPHERE = between(3e4, 1.2e5)
_TEMPERATURE = between(200.0, 500.0)
_RATIO = above(0, 500.0)
_ASSIST = between(0, 10.0)
_CLEARANCE = between(0, 1.0)
_SWEPT = between(1e-9, 0.1)
_RATE = between(0, 50.0)
_FACES = between(1, 2)
_SHARE = between(0, 1)
_DENSEST = 85.0  # kg/m3, within the range of the equation of state at every temperature here


@calculation(
    area_ratio=_RATIO, drive_pressure_pa=_DRIVE, supply_pressure_pa=_PRESSURE, assisting_area_ratio=_ASSIST,
    atmosphere_pa=_ATMOSPHERE,
)  # fmt: skip
def stall_pressure(
    area_ratio: float,
    drive_pressure_pa: float,
    supply_pressure_pa: float,
    assisting_area_ratio: float,
    atmosphere_pa: float,
) -> float:
    """
    Discharge pressure at which the pistons stand still.

    Without friction, so for proof it is the highest pressure that drive and supply can bring; a real booster
    stops a little below it.

    Parameters
    ----------
    area_ratio : float
        Area of the air piston over that of the discharging gas piston, above 0. [-]
    drive_pressure_pa : float
        Absolute pressure of the drive air, at least that of the atmosphere. [Pa]
    supply_pressure_pa : float
        Absolute pressure of the gas at the inlet. [Pa]
    assisting_area_ratio : float
        Area on which the supply pushes along over that of the discharging gas piston; 0 where it does not. [-]
    atmosphere_pa : float
        Atmospheric pressure, behind the pistons. [Pa]

    Returns
    -------
    float
        Absolute pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the drive lies below the atmosphere.

    Notes
    -----
    Balance of forces [piston-balance].
    """
    if drive_pressure_pa < atmosphere_pa:
        raise OutOfRange(
            "stall_pressure", "drive_pressure_pa", drive_pressure_pa, range_said("least", limit=atmosphere_pa)
        )
    drive = area_ratio * (drive_pressure_pa - atmosphere_pa)
    supply = assisting_area_ratio * (supply_pressure_pa - atmosphere_pa)
    return atmosphere_pa + drive + supply


@calculation(discharge_pressure_pa=_PRESSURE, inlet_pressure_pa=_PRESSURE)
def pressure_ratio(discharge_pressure_pa: float, inlet_pressure_pa: float) -> float:
    """
    Ratio of the pressures after and before a booster.

    Parameters
    ----------
    discharge_pressure_pa : float
        Absolute pressure after it. [Pa]
    inlet_pressure_pa : float
        Absolute pressure before it. [Pa]

    Returns
    -------
    float
        Ratio of absolute pressures. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Absolute pressures, not gauge [by-definition].
    """
    return discharge_pressure_pa / inlet_pressure_pa


@calculation(discharge_pressure_pa=_PRESSURE, stall_pressure_pa=_PRESSURE, atmosphere_pa=_ATMOSPHERE)
def share_of_stall(discharge_pressure_pa: float, stall_pressure_pa: float, atmosphere_pa: float) -> float:
    """
    How near a booster works to its stall.

    Parameters
    ----------
    discharge_pressure_pa : float
        Absolute pressure after it. [Pa]
    stall_pressure_pa : float
        Absolute pressure at which it stalls, above that of the atmosphere. [Pa]
    atmosphere_pa : float
        Atmospheric pressure. [Pa]

    Returns
    -------
    float
        Ratio of gauge pressures; aim for no more than 0.7 to 0.8. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the stall does not lie above the atmosphere.

    Notes
    -----
    Gauge pressures, as they act on the pistons [piston-balance]; the aim is that of [common-practice].
    """
    if stall_pressure_pa <= atmosphere_pa:
        raise OutOfRange(
            "share_of_stall", "stall_pressure_pa", stall_pressure_pa, range_said("above", limit=atmosphere_pa)
        )
    return (discharge_pressure_pa - atmosphere_pa) / (stall_pressure_pa - atmosphere_pa)


@calculation(
    clearance=_CLEARANCE, inlet_pressure_pa=_PRESSURE, discharge_pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE
)
def volumetric_efficiency(
    clearance: float, inlet_pressure_pa: float, discharge_pressure_pa: float, temperature_k: float
) -> float:
    """
    Share of the swept volume that draws fresh gas; the rest is gas of the clearance that expands back.

    Parameters
    ----------
    clearance : float
        Clearance volume over swept volume, 0 to 1. [-]
    inlet_pressure_pa : float
        Absolute pressure of the gas drawn. [Pa]
    discharge_pressure_pa : float
        Absolute pressure of the gas left in the clearance. [Pa]
    temperature_k : float
        Temperature of both, that of the inlet: the densest gas in the clearance, the cautious case. [K]

    Returns
    -------
    float
        Share, 0 where the clearance takes the whole stroke, 1 where the gas flows through by itself. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    1 − c(ρ₂/ρ₁ − 1), which for an ideal gas of one temperature is the textbook's expression with an index of 1
    [clearance-volume, volumetric efficiency].
    """
    inlet = hydrogen.density(inlet_pressure_pa, temperature_k)
    discharge = hydrogen.density(discharge_pressure_pa, temperature_k)
    return largest(0, 1 - clearance * largest(0, discharge / inlet - 1))


@calculation(clearance=between(0.001, 1.0), inlet_pressure_pa=between(1e3, 10e6), temperature_k=_TEMPERATURE)
def ratio_of_no_flow(clearance: float, inlet_pressure_pa: float, temperature_k: float) -> float:
    """
    Pressure ratio at which the clearance swallows the whole stroke and nothing flows.

    Parameters
    ----------
    clearance : float
        Clearance volume over swept volume, 0.001 to 1. [-]
    inlet_pressure_pa : float
        Absolute pressure of the gas drawn, 1 kPa to 10 MPa. [Pa]
    temperature_k : float
        Temperature of the gas drawn. [K]

    Returns
    -------
    float
        Ratio of absolute pressures; no more than that at which the gas would be as dense as 85 kg/m3, far beyond
        what any booster reaches. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Root of the volumetric efficiency [clearance-volume, volumetric efficiency].
    """
    inlet = hydrogen.density(inlet_pressure_pa, temperature_k)
    densest = smallest(inlet * (1 + 1 / clearance), _DENSEST)
    return hydrogen.pressure(densest, temperature_k) / inlet_pressure_pa


@calculation(
    free_stroke_rate_per_s=_RATE, discharge_pressure_pa=_PRESSURE, stall_pressure_pa=_PRESSURE,
    atmosphere_pa=_ATMOSPHERE,
)  # fmt: skip
def assumed_stroke_rate(
    free_stroke_rate_per_s: float, discharge_pressure_pa: float, stall_pressure_pa: float, atmosphere_pa: float
) -> float:
    """
    Strokes against a back pressure, where nobody has measured them: a straight line down to the stall.

    Parameters
    ----------
    free_stroke_rate_per_s : float
        Strokes against no back pressure. [1/s]
    discharge_pressure_pa : float
        Absolute back pressure. [Pa]
    stall_pressure_pa : float
        Absolute pressure at which it stalls, above that of the atmosphere. [Pa]
    atmosphere_pa : float
        Atmospheric pressure. [Pa]

    Returns
    -------
    float
        Strokes in a time, 0 at the stall and above. [1/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the stall does not lie above the atmosphere.

    Notes
    -----
    A law assumed, to be replaced by a measured table: the rate falls as the gauge pressure rises
    [common-practice].
    """
    share = share_of_stall(discharge_pressure_pa, stall_pressure_pa, atmosphere_pa)
    return free_stroke_rate_per_s * largest(0, 1 - share)


@calculation(opaque="interpolate", rate_curve=points(), share=between(0, 1e6))
def rate_share(rate_curve: Sequence[tuple[float, float]], share: float) -> float:
    """
    Strokes against a back pressure over those against none, from a measured table.

    Parameters
    ----------
    rate_curve : sequence of (float, float)
        Share of the stall, rising, and share of the free stroke rate measured there. [-]
    share : float
        How near the booster works to its stall, within the table. [-]

    Returns
    -------
    float
        Share of the free stroke rate. [-]

    Raises
    ------
    OutOfRange
        If the share lies outside the table: nobody knows what the booster does there.

    Notes
    -----
    Straight lines between the points measured [by-definition].
    """
    return between_points(rate_curve, share)


@calculation(
    free_stroke_rate_per_s=_RATE, rate_curve=points(), discharge_pressure_pa=_PRESSURE, stall_pressure_pa=_PRESSURE,
    atmosphere_pa=_ATMOSPHERE,
)  # fmt: skip
def measured_stroke_rate(
    free_stroke_rate_per_s: float,
    rate_curve: Sequence[tuple[float, float]],
    discharge_pressure_pa: float,
    stall_pressure_pa: float,
    atmosphere_pa: float,
) -> float:
    """
    Strokes against a back pressure, where they have been measured.

    Parameters
    ----------
    free_stroke_rate_per_s : float
        Strokes against no back pressure. [1/s]
    rate_curve : sequence of (float, float)
        Share of the stall, rising, and share of the free stroke rate measured there. [-]
    discharge_pressure_pa : float
        Absolute back pressure, at least that of the atmosphere. [Pa]
    stall_pressure_pa : float
        Absolute pressure at which it stalls, above that of the atmosphere. [Pa]
    atmosphere_pa : float
        Atmospheric pressure. [Pa]

    Returns
    -------
    float
        Strokes in a time. [1/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the back pressure outside the table.

    Notes
    -----
    Straight lines between the points measured [by-definition].
    """
    share = share_of_stall(discharge_pressure_pa, stall_pressure_pa, atmosphere_pa)
    return free_stroke_rate_per_s * rate_share(rate_curve, share)


def between_points(curve: Sequence[tuple[float, float]], x: float) -> float:
    """
    The value of a measured table at x, on straight lines between its points.

    Raises
    ------
    OutOfRange
        If x lies outside the table.
    """
    if not curve[0][0] <= x <= curve[-1][0]:
        raise OutOfRange("rate_share", "share", x, range_said("within_table", low=curve[0][0], high=curve[-1][0]))
    at = next(at for at in range(1, len(curve)) if x <= curve[at][0])
    (x_low, y_low), (x_high, y_high) = curve[at - 1], curve[at]
    return y_low + (y_high - y_low) * (x - x_low) / (x_high - x_low)


@calculation(
    swept_volume_m3=_SWEPT, faces=_FACES, stroke_rate_per_s=_RATE, volumetric_efficiency=_SHARE,
    inlet_pressure_pa=_PRESSURE, inlet_temperature_k=_TEMPERATURE,
)  # fmt: skip
def booster_flow(
    swept_volume_m3: float,
    faces: float,
    stroke_rate_per_s: float,
    volumetric_efficiency: float,
    inlet_pressure_pa: float,
    inlet_temperature_k: float,
) -> float:
    """
    Hydrogen that a booster moves.

    Parameters
    ----------
    swept_volume_m3 : float
        Volume that one gas face sweeps in a stroke. [m3]
    faces : float
        Gas faces that draw from the inlet in a stroke, 1 or 2. [-]
    stroke_rate_per_s : float
        Strokes, forth and back, in a time. [1/s]
    volumetric_efficiency : float
        Share of the swept volume that draws fresh gas, 0 to 1. [-]
    inlet_pressure_pa : float
        Absolute pressure at the inlet. [Pa]
    inlet_temperature_k : float
        Temperature at the inlet. [K]

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
    Volume drawn times density at the inlet [clearance-volume, mass drawn in a stroke].
    """
    inlet = hydrogen.density(inlet_pressure_pa, inlet_temperature_k)
    return faces * swept_volume_m3 * stroke_rate_per_s * volumetric_efficiency * inlet


@calculation(
    swept_volume_m3=_SWEPT, faces=_FACES, volumetric_efficiency=between(1e-6, 1), inlet_pressure_pa=_PRESSURE,
    inlet_temperature_k=_TEMPERATURE,
)  # fmt: skip
def strokes_per_mass(
    swept_volume_m3: float,
    faces: float,
    volumetric_efficiency: float,
    inlet_pressure_pa: float,
    inlet_temperature_k: float,
) -> float:
    """
    Strokes that move a kilogram of hydrogen.

    Parameters
    ----------
    swept_volume_m3 : float
        Volume that one gas face sweeps in a stroke. [m3]
    faces : float
        Gas faces that draw from the inlet in a stroke, 1 or 2. [-]
    volumetric_efficiency : float
        Share of the swept volume that draws fresh gas, 1e-6 to 1. [-]
    inlet_pressure_pa : float
        Absolute pressure at the inlet. [Pa]
    inlet_temperature_k : float
        Temperature at the inlet. [K]

    Returns
    -------
    float
        Strokes for each kilogram. [1/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    The inverse of the mass drawn in a stroke [clearance-volume, mass drawn in a stroke].
    """
    inlet = hydrogen.density(inlet_pressure_pa, inlet_temperature_k)
    return 1 / (faces * swept_volume_m3 * volumetric_efficiency * inlet)


@calculation(
    area_ratio=_RATIO, swept_volume_m3=_SWEPT, return_share=_SHARE, drive_pressure_pa=_DRIVE,
    atmosphere_pa=_ATMOSPHERE,
)  # fmt: skip
def free_air_of_stroke(
    area_ratio: float, swept_volume_m3: float, return_share: float, drive_pressure_pa: float, atmosphere_pa: float
) -> float:
    """
    Drive air of one stroke, forth and back, as the free air that the compressor draws in.

    Parameters
    ----------
    area_ratio : float
        Area of the air piston over that of the gas piston. [-]
    swept_volume_m3 : float
        Volume that one gas face sweeps in a stroke. [m3]
    return_share : float
        Drive air of the way back over that of the way forth: 1 where air or a second gas face is
        driven, 0 where a spring does it. [-]
    drive_pressure_pa : float
        Absolute pressure of the drive air, at least that of the atmosphere. [Pa]
    atmosphere_pa : float
        Atmospheric pressure. [Pa]

    Returns
    -------
    float
        Volume at atmospheric pressure and the temperature of the drive air. [m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the drive lies below the atmosphere.

    Notes
    -----
    The air piston sweeps ratio times the volume of the gas piston; air as an ideal gas, its own clearance left out
    [fluid-power-examples, example 13-12].
    """
    if drive_pressure_pa < atmosphere_pa:
        raise OutOfRange(
            "free_air_of_stroke", "drive_pressure_pa", drive_pressure_pa, range_said("least", limit=atmosphere_pa)
        )
    swept_by_air = area_ratio * swept_volume_m3 * (1 + return_share)
    return swept_by_air * drive_pressure_pa / atmosphere_pa


@calculation(strokes_per_kg=between(0, 1e9), free_air_m3=between(0, 10.0))
def drive_air_per_mass(strokes_per_kg: float, free_air_m3: float) -> float:
    """
    Free air that a booster takes for a kilogram of hydrogen.

    Parameters
    ----------
    strokes_per_kg : float
        Strokes for each kilogram. [1/kg]
    free_air_m3 : float
        Free air of a stroke. [m3]

    Returns
    -------
    float
        Volume of free air for each kilogram. [m3/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Strokes times the air of each [by-definition].
    """
    return strokes_per_kg * free_air_m3


@calculation(strokes_per_kg=between(0, 1e9), mass_kg=between(0, 1e6))
def strokes_for_mass(strokes_per_kg: float, mass_kg: float) -> float:
    """
    Strokes that a booster makes for a mass; the life of its seals is counted in them.

    Parameters
    ----------
    strokes_per_kg : float
        Strokes for each kilogram. [1/kg]
    mass_kg : float
        Mass moved by strokes, 0 to 1000000. [kg]

    Returns
    -------
    float
        Number of strokes. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Strokes for a kilogram times kilograms [by-definition].
    """
    return strokes_per_kg * mass_kg
