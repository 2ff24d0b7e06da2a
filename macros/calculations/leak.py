"""
Leaks: what flows through a hole, choked or not.

Two ways, each for the side on which it errs. A leak of hydrogen is judged by the real gas: the isentropic
nozzle with the enthalpy of the reference equation. The ideal equation stands beside it for other gases and
for relief valves: with the compressibility factor under the root it gives less than the real gas (2 % less at
100 bar, 4 % at 200 bar), the safe side for the capacity of a relief and the wrong one for a leak.
"""

import math

from macros.calculations import hydrogen
from macros.calculations.constants import GAS_CONSTANT, PI
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import Constant, largest, number, power, sqrt

RATIO_HYDROGEN = Constant(1.405, "k_H2", "1", "ratio of heat capacities of hydrogen near ambient", "leachman-2009")
RATIO_AIR = Constant(1.400, "k_air", "1", "ratio of heat capacities of air and nitrogen near ambient", "nozzle-flow")
RATIO_OXYGEN = Constant(1.395, "k_O2", "1", "ratio of heat capacities of oxygen near ambient", "nozzle-flow")

CHOKED_AT, CHOKED_BELOW = 0.48, 0.56
"""
Hydrogen's critical ratio lies between 0.43 (1000 bar) and 0.53, by its reference equation: a throat is looked for from the
middle of that; above it all a nozzle is never choked.
"""


@calculation(diameter_m=above(0, 1.0))
def hole_area(diameter_m: float) -> float:
    """
    Area of a round hole.

    Parameters
    ----------
    diameter_m : float
        Diameter, above 0, at most 1. [m]

    Returns
    -------
    float
        Area. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Circle [by-definition].
    """
    return PI * power(diameter_m, 2) / 4


@calculation(flow_coefficient=above(0.0, 1e4))
def opening_of_valve(flow_coefficient: float) -> float:
    """
    Area of the opening without losses that passes as much as an open valve.

    Parameters
    ----------
    flow_coefficient : float
        Kv of the valve: water at one bar of difference, in m3/h, above 0. [m3/h]

    Returns
    -------
    float
        Area. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Kv is a flow of water of 1000 kg/m3 under 1 bar [by-definition]. For gas at a large difference it errs on the
    high side, since a valve chokes earlier than a nozzle.
    """
    return flow_coefficient / 3600 * sqrt(number(1000) / (2 * 1e5))


@calculation(heat_capacity_ratio=above(1.0, 5.0 / 3.0))
def critical_pressure_ratio(heat_capacity_ratio: float) -> float:
    """
    Pressure in the throat of a nozzle over the pressure before it, where the flow is choked; ideal gas.

    Parameters
    ----------
    heat_capacity_ratio : float
        Ratio of heat capacities, above 1, at most 5/3. [-]

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
    Isentropic flow of an ideal gas [nozzle-flow, critical pressure ratio].
    """
    return power(2 / (heat_capacity_ratio + 1), heat_capacity_ratio / (heat_capacity_ratio - 1))


@calculation(
    upstream_pressure_pa=between(1e3, 100e6), upstream_temperature_k=between(200.0, 1000.0),
    back_pressure_pa=between(0.0, 100e6), heat_capacity_ratio=above(1.0, 5.0 / 3.0),
    molar_mass_kg_per_mol=between(1e-3, 0.5), compressibility=between(0.2, 3.0),
)  # fmt: skip
def ideal_mass_flux(
    upstream_pressure_pa: float,
    upstream_temperature_k: float,
    back_pressure_pa: float,
    heat_capacity_ratio: float,
    molar_mass_kg_per_mol: float,
    compressibility: float = 1.0,
) -> float:
    """
    Mass flow through each square metre of a nozzle without losses; ideal gas.

    Parameters
    ----------
    upstream_pressure_pa : float
        Absolute pressure before the nozzle, at rest, 1 kPa to 100 MPa. [Pa]
    upstream_temperature_k : float
        Temperature before the nozzle, 200 to 1000. [K]
    back_pressure_pa : float
        Absolute pressure behind the nozzle, no more than that before it. [Pa]
    heat_capacity_ratio : float
        Ratio of heat capacities, above 1, at most 5/3. [-]
    molar_mass_kg_per_mol : float
        Molar mass, 1 to 500 g/mol. [kg/mol]
    compressibility : float
        Compressibility factor before the nozzle, 0.2 to 3; 1 errs on the high side for hydrogen. [-]

    Returns
    -------
    float
        Mass flux. [kg/(s m2)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressure behind is the higher one.

    Notes
    -----
    Isentropic flow of an ideal gas; where it is choked the throat stays at the critical ratio
    [nozzle-flow, mass flow through an isentropic nozzle].
    """
    _downhill("ideal_mass_flux", upstream_pressure_pa, back_pressure_pa)
    throat = largest(back_pressure_pa / upstream_pressure_pa, critical_pressure_ratio(heat_capacity_ratio))
    expansion = power(throat, 2 / heat_capacity_ratio) - power(throat, (heat_capacity_ratio + 1) / heat_capacity_ratio)
    return upstream_pressure_pa * sqrt(
        2 * heat_capacity_ratio / (heat_capacity_ratio - 1)
        * molar_mass_kg_per_mol / (compressibility * GAS_CONSTANT * upstream_temperature_k)
        * largest(0.0, expansion)
    )  # fmt: skip


@calculation(
    opaque="nozzle flow of hydrogen", upstream_pressure_pa=between(1e3, 100e6),
    upstream_temperature_k=between(200.0, 500.0), back_pressure_pa=between(0.0, 100e6),
)  # fmt: skip
def nozzle_mass_flux(upstream_pressure_pa: float, upstream_temperature_k: float, back_pressure_pa: float) -> float:
    """
    Mass flow of hydrogen through each square metre of a nozzle without losses; real gas, choked or not.

    Parameters
    ----------
    upstream_pressure_pa : float
        Absolute pressure before the nozzle, at rest, 1 kPa to 100 MPa. [Pa]
    upstream_temperature_k : float
        Temperature before the nozzle, 200 to 500. [K]
    back_pressure_pa : float
        Absolute pressure behind the nozzle, no more than that before it. [Pa]

    Returns
    -------
    float
        Mass flux. [kg/(s m2)]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressure behind is the higher one.

    Notes
    -----
    Isentropic expansion from rest, the enthalpy lost turned into speed; the throat takes the pressure at which
    the flux is largest [nozzle-flow, energy balance of an isentropic nozzle]. Properties by the reference
    equation of normal hydrogen [leachman-2009, equation 1].
    """
    _downhill("nozzle_mass_flux", upstream_pressure_pa, back_pressure_pa)
    enthalpy = hydrogen.state_enthalpy(upstream_pressure_pa, upstream_temperature_k)

    def flux(throat_pa: float) -> float:
        temperature_k = hydrogen.state_isentropic_temperature(upstream_pressure_pa, upstream_temperature_k, throat_pa)
        drop = enthalpy - hydrogen.state_enthalpy(throat_pa, temperature_k)
        return hydrogen.state_density(throat_pa, temperature_k) * math.sqrt(max(0.0, 2.0 * drop))

    if back_pressure_pa < CHOKED_BELOW * upstream_pressure_pa:
        throat_pa = CHOKED_AT * upstream_pressure_pa
        # The top of a parabola, then of a narrower one; the flux is flat there: 1e-10 off at most over the whole range.
        for width in (0.06, 0.005):
            step = width * upstream_pressure_pa
            below, at, above_it = flux(throat_pa - step), flux(throat_pa), flux(throat_pa + step)
            throat_pa += step / 2 * (below - above_it) / (below - 2 * at + above_it)
        if throat_pa > back_pressure_pa:
            return flux(throat_pa)
    return flux(back_pressure_pa)


@calculation(
    hole_area_m2=above(0, 1.0), discharge_coefficient=above(0, 1.0), upstream_pressure_pa=between(1e3, 100e6),
    upstream_temperature_k=between(200.0, 500.0), back_pressure_pa=between(0.0, 100e6),
)  # fmt: skip
def leak_flow(
    hole_area_m2: float,
    discharge_coefficient: float,
    upstream_pressure_pa: float,
    upstream_temperature_k: float,
    back_pressure_pa: float,
) -> float:
    """
    Hydrogen through a hole, choked or not; real gas.

    Parameters
    ----------
    hole_area_m2 : float
        Area of the hole, above 0, at most 1. [m2]
    discharge_coefficient : float
        Flow over that of a nozzle without losses, above 0, at most 1. [-]
    upstream_pressure_pa : float
        Absolute pressure before the hole, 1 kPa to 100 MPa. [Pa]
    upstream_temperature_k : float
        Temperature before the hole, 200 to 500; the lower, the larger the leak. [K]
    back_pressure_pa : float
        Absolute pressure behind the hole, no more than that before it. [Pa]

    Returns
    -------
    float
        Mass flow. [kg/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressure behind is the higher one.

    Notes
    -----
    Discharge coefficient times area times the flux of a nozzle without losses [nozzle-flow, discharge coefficient].
    """
    return (
        discharge_coefficient * hole_area_m2
        * nozzle_mass_flux(upstream_pressure_pa, upstream_temperature_k, back_pressure_pa)
    )  # fmt: skip


def _downhill(calculation: str, upstream_pressure_pa: float, back_pressure_pa: float) -> None:
    if back_pressure_pa > upstream_pressure_pa:
        raise OutOfRange(
            calculation,
            "back_pressure_pa",
            float(back_pressure_pa),
            range_said("most_pressure_before_of", limit=float(upstream_pressure_pa)),
        )
