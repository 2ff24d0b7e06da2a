"""
Strength tests: how high, with what medium, and what energy a gas would hold.

The usual factor belongs to a test with water. A test with gas has its own, lower factor, and stores thousands
of times the energy: it is for licensed hands. Neither goes through the stack.
"""

from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import largest, power
from macros.calculations.leak import RATIO_AIR

_PRESSURE, _ATMOSPHERE = between(1e3, 200e6), between(50e3, 110e3)


@calculation(
    allowable_pressure_pa=_PRESSURE, atmosphere_pa=_ATMOSPHERE, factor=between(1.0, 3.0), stress_ratio=between(1.0, 3.0)
)
def hydrostatic_test_pressure(
    allowable_pressure_pa: float, atmosphere_pa: float, factor: float = 1.43, stress_ratio: float = 1.0
) -> float:
    """
    Pressure of a strength test with water.

    Parameters
    ----------
    allowable_pressure_pa : float
        Highest allowable pressure, absolute, 1 kPa to 200 MPa. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa. [Pa]
    factor : float
        Times the allowable gauge pressure, 1 to 3; with water only. [-]
    stress_ratio : float
        Allowable stress cold over that at working temperature, 1 to 3. [-]

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
    The larger of 1.43 times the allowable pressure and 1.25 times the loading at the working temperature
    [ped-2014-68, Annex I 7.4].
    """
    return (allowable_pressure_pa - atmosphere_pa) * largest(factor, 1.25 * stress_ratio) + atmosphere_pa


@calculation(allowable_pressure_pa=_PRESSURE, atmosphere_pa=_ATMOSPHERE, factor=between(1.0, 1.5))
def pneumatic_test_pressure(allowable_pressure_pa: float, atmosphere_pa: float, factor: float = 1.1) -> float:
    """
    Pressure of a strength test with gas, which is for licensed hands.

    Parameters
    ----------
    allowable_pressure_pa : float
        Highest allowable pressure, absolute, 1 kPa to 200 MPa. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa. [Pa]
    factor : float
        Times the allowable gauge pressure, 1 to 1.5; the code that applies decides it. [-]

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
    A tenth above the design pressure for piping [asme-b31-3, paragraph 345.5.4, from memory].
    """
    return (allowable_pressure_pa - atmosphere_pa) * factor + atmosphere_pa


@calculation(
    space_m3=above(0.0, 1e4),
    test_pressure_pa=_PRESSURE,
    atmosphere_pa=_ATMOSPHERE,
    heat_capacity_ratio=above(1.0, 5.0 / 3.0),
)
def stored_energy(
    space_m3: float, test_pressure_pa: float, atmosphere_pa: float, heat_capacity_ratio: float = RATIO_AIR
) -> float:
    """
    Energy that compressed gas gives off if what holds it bursts.

    Parameters
    ----------
    space_m3 : float
        Space under pressure, above 0. [m3]
    test_pressure_pa : float
        Pressure in it, absolute, no less than the atmosphere. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa. [Pa]
    heat_capacity_ratio : float
        Of the gas, above 1, at most 5/3. [-]

    Returns
    -------
    float
        Energy. [J]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressure is below the atmosphere.

    Notes
    -----
    Work of an ideal gas that expands without heat [asme-pcc-2, stored energy of a pneumatic test].
    """
    if test_pressure_pa < atmosphere_pa:
        raise OutOfRange("stored_energy", "test_pressure_pa", test_pressure_pa, range_said("least_atmosphere"))
    left = power(atmosphere_pa / test_pressure_pa, (heat_capacity_ratio - 1) / heat_capacity_ratio)
    return test_pressure_pa * space_m3 / (heat_capacity_ratio - 1) * (1 - left)
