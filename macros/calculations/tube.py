"""
Tubes: what pressure a tube of minimum wall may bear.

The wall that counts is the thinnest the tolerance allows, less what bending and wear take. A line is rated
by its weakest part: tube, fitting, valve, hose or gauge.
"""

from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import power, smallest

_DIAMETER, _WALL, _STRESS = above(0.0, 2.0), above(0.0, 0.5), above(0.0, 1e9)


@calculation(nominal_wall_m=_WALL, tolerance=between(0.0, 0.5), allowance_m=between(0.0, 0.1))
def minimum_wall(nominal_wall_m: float, tolerance: float, allowance_m: float = 0.0) -> float:
    """
    Thinnest wall that a tube may have.

    Parameters
    ----------
    nominal_wall_m : float
        Wall as ordered, above 0. [m]
    tolerance : float
        Share by which it may be thinner, 0 to 0.5. [-]
    allowance_m : float
        Taken off for bending and wear, 0 or more. [m]

    Returns
    -------
    float
        Wall. [m]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or no wall is left.

    Notes
    -----
    Minimum, not nominal [asme-b31-3, paragraph 304.1.1].
    """
    wall = nominal_wall_m * (1 - tolerance) - allowance_m
    if not wall > 0:
        raise OutOfRange("minimum_wall", "allowance_m", allowance_m, range_said("less_than_wall"))
    return wall


@calculation(
    outside_diameter_m=_DIAMETER, wall_m=_WALL, allowable_stress_pa=_STRESS, joint_factor=above(0.0, 1.0),
    wall_coefficient=between(0.0, 0.7),
)  # fmt: skip
def thin_wall_rating(
    outside_diameter_m: float,
    wall_m: float,
    allowable_stress_pa: float,
    joint_factor: float = 1.0,
    wall_coefficient: float = 0.4,
) -> float:
    """
    Pressure that a tube bears by the formula for thin walls.

    Parameters
    ----------
    outside_diameter_m : float
        Outside diameter, above 0. [m]
    wall_m : float
        Minimum wall, above 0, less than half the diameter. [m]
    allowable_stress_pa : float
        Allowable stress of the material at temperature, above 0. [Pa]
    joint_factor : float
        Quality of the seam, above 0; 1 for seamless tube. [-]
    wall_coefficient : float
        Coefficient of the wall, 0 to 0.7; 0.4 for steels at these temperatures. [-]

    Returns
    -------
    float
        Difference of pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the wall is half the diameter or more.

    Notes
    -----
    t = P D/(2 (S E + P Y)), solved for P [asme-b31-3, paragraph 304.1.2 equation 3a].
    """
    _hollow("thin_wall_rating", outside_diameter_m, wall_m)
    return (
        2 * allowable_stress_pa * joint_factor * wall_m
        / (outside_diameter_m - 2 * wall_coefficient * wall_m)
    )  # fmt: skip


@calculation(outside_diameter_m=_DIAMETER, wall_m=_WALL, allowable_stress_pa=_STRESS)
def thick_wall_rating(outside_diameter_m: float, wall_m: float, allowable_stress_pa: float) -> float:
    """
    Pressure at which the stress at the bore of a tube reaches the allowable one, for any wall.

    Parameters
    ----------
    outside_diameter_m : float
        Outside diameter, above 0. [m]
    wall_m : float
        Minimum wall, above 0, less than half the diameter. [m]
    allowable_stress_pa : float
        Allowable stress of the material at temperature, above 0. [Pa]

    Returns
    -------
    float
        Difference of pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the wall is half the diameter or more.

    Notes
    -----
    Hoop stress at the bore of a thick cylinder [lame-1852, hoop stress at the inner surface].
    """
    _hollow("thick_wall_rating", outside_diameter_m, wall_m)
    outside = power(outside_diameter_m, 2)
    bore = power(outside_diameter_m - 2 * wall_m, 2)
    return allowable_stress_pa * (outside - bore) / (outside + bore)


@calculation(
    outside_diameter_m=_DIAMETER, nominal_wall_m=_WALL, tolerance=between(0.0, 0.5), allowable_stress_pa=_STRESS,
    atmosphere_pa=between(50e3, 110e3),
)  # fmt: skip
def tube_rating(
    outside_diameter_m: float, nominal_wall_m: float, tolerance: float, allowable_stress_pa: float, atmosphere_pa: float
) -> float:
    """
    Pressure that a seamless tube may bear, by the lower of both formulas with its minimum wall.

    Parameters
    ----------
    outside_diameter_m : float
        Outside diameter, above 0. [m]
    nominal_wall_m : float
        Wall as ordered, above 0. [m]
    tolerance : float
        Share by which it may be thinner, 0 to 0.5. [-]
    allowable_stress_pa : float
        Allowable stress of the material at temperature, above 0. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa. [Pa]

    Returns
    -------
    float
        Absolute pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the wall is half the diameter or more.

    Notes
    -----
    The lower of thin wall [asme-b31-3, paragraph 304.1.2 equation 3a] and thick wall [lame-1852, hoop stress at the
    inner surface].
    """
    wall_m = minimum_wall(nominal_wall_m, tolerance)
    thin = thin_wall_rating(outside_diameter_m, wall_m, allowable_stress_pa)
    thick = thick_wall_rating(outside_diameter_m, wall_m, allowable_stress_pa)
    return atmosphere_pa + smallest(thin, thick)


def _hollow(calculation: str, outside_diameter_m: float, wall_m: float) -> None:
    if not 2 * wall_m < outside_diameter_m:
        raise OutOfRange(calculation, "wall_m", wall_m, range_said("less_than_half"))
