"""
A hose or line torn off: what its whole bore lets out.

The ideal gas without the compressibility factor errs on the high side for hydrogen, as a rupture should.
"""

import math

from macros.calculations.constants import GAS_CONSTANT
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said


@calculation(
    opaque="flow from a torn line", upstream_pressure_pa=between(1e3, 100e6),
    upstream_temperature_k=between(200.0, 500.0), back_pressure_pa=between(1e3, 110e3), resistance=between(0.0, 1e5),
    heat_capacity_ratio=above(1.0, 5.0 / 3.0), molar_mass_kg_per_mol=between(1e-3, 0.5),
)  # fmt: skip
def torn_line_flux(
    upstream_pressure_pa: float,
    upstream_temperature_k: float,
    back_pressure_pa: float,
    resistance: float,
    heat_capacity_ratio: float,
    molar_mass_kg_per_mol: float,
) -> float:
    """
    Mass flow through each square metre of the bore of a line that is torn off at its end, choked or not.

    Parameters
    ----------
    upstream_pressure_pa : float
        Absolute pressure at rest before the line, 1 kPa to 100 MPa. [Pa]
    upstream_temperature_k : float
        Temperature there, 200 to 500. [K]
    back_pressure_pa : float
        Absolute pressure behind the tear, the atmosphere. [Pa]
    resistance : float
        Darcy friction factor times length over bore, with the loss coefficients of all that the gas passes. [-]
    heat_capacity_ratio : float
        Ratio of heat capacities, above 1, at most 5/3. [-]
    molar_mass_kg_per_mol : float
        Molar mass, 1 to 500 g/mol. [kg/mol]

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
    Inlet without loss, then friction without heat, as far as the speed of sound at the tear
    [fanno-flow, friction length and pressure ratio by Mach number].
    """
    if back_pressure_pa > upstream_pressure_pa:
        raise OutOfRange("torn_line_flux", "back_pressure_pa", back_pressure_pa, range_said("most_pressure_before"))
    k = heat_capacity_ratio

    def friction_length(mach: float) -> float:
        """Resistance from here to where the gas would reach the speed of sound."""
        grown = 1.0 + (k - 1.0) / 2.0 * mach**2
        return (1.0 - mach**2) / (k * mach**2) + (k + 1.0) / (2.0 * k) * math.log((k + 1.0) / 2.0 * mach**2 / grown)

    def pressure_there(mach: float) -> float:
        """Pressure at a Mach number over that at the speed of sound, along the line."""
        return math.sqrt((k + 1.0) / 2.0 / (1.0 + (k - 1.0) / 2.0 * mach**2)) / mach

    def inlet_pressure(mach: float) -> float:
        return float(upstream_pressure_pa * (1.0 + (k - 1.0) / 2.0 * mach**2) ** (-k / (k - 1.0)))

    def mach_at(length: float) -> float:
        """The Mach number from which this resistance leads to the speed of sound."""
        low, high = 1e-9, 1.0
        for _ in range(100):
            middle = (low + high) / 2.0
            low, high = (middle, high) if friction_length(middle) > length else (low, middle)
        return (low + high) / 2.0

    def tear_pressure(mach: float) -> float:
        """Pressure at the tear where the gas enters at this Mach number."""
        at_tear = mach_at(max(0.0, friction_length(mach) - resistance))
        return inlet_pressure(mach) * pressure_there(at_tear) / pressure_there(mach)

    fastest = mach_at(resistance)
    inlet = fastest
    if inlet_pressure(fastest) / pressure_there(fastest) < back_pressure_pa:
        low, high = 0.0, fastest
        for _ in range(100):
            middle = (low + high) / 2.0
            tear_pa = tear_pressure(max(middle, 1e-9))
            low, high = (middle, high) if tear_pa > back_pressure_pa else (low, middle)
        inlet = (low + high) / 2.0
    grown = 1.0 + (k - 1.0) / 2.0 * inlet**2
    temperature_k = upstream_temperature_k / grown
    return float(
        inlet_pressure(inlet) * inlet * math.sqrt(k * molar_mass_kg_per_mol / (float(GAS_CONSTANT) * temperature_k))
    )


@calculation(
    bore_area_m2=above(0.0, 1.0), upstream_pressure_pa=between(1e3, 100e6),
    upstream_temperature_k=between(200.0, 500.0),
    back_pressure_pa=between(1e3, 110e3), resistance=between(0.0, 1e5),
    heat_capacity_ratio=above(1.0, 5.0 / 3.0), molar_mass_kg_per_mol=between(1e-3, 0.5),
)  # fmt: skip
def rupture_flow(
    bore_area_m2: float,
    upstream_pressure_pa: float,
    upstream_temperature_k: float,
    back_pressure_pa: float,
    resistance: float,
    heat_capacity_ratio: float,
    molar_mass_kg_per_mol: float,
) -> float:
    """
    Flow from a hose or line that is torn off.

    Parameters
    ----------
    bore_area_m2 : float
        Area of the bore, or of an orifice before the hose where that is smaller, above 0. [m2]
    upstream_pressure_pa : float
        Absolute pressure at rest before the line, 1 kPa to 100 MPa. [Pa]
    upstream_temperature_k : float
        Temperature there, 200 to 500. [K]
    back_pressure_pa : float
        Absolute pressure behind the tear, the atmosphere. [Pa]
    resistance : float
        Darcy friction factor times length over bore, with the loss coefficients of all that the gas passes. [-]
    heat_capacity_ratio : float
        Ratio of heat capacities, above 1, at most 5/3. [-]
    molar_mass_kg_per_mol : float
        Molar mass, 1 to 500 g/mol. [kg/mol]

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
    Area times the flux at its bore [fanno-flow, friction length and pressure ratio by Mach number].
    """
    return bore_area_m2 * torn_line_flux(
        upstream_pressure_pa,
        upstream_temperature_k,
        back_pressure_pa,
        resistance,
        heat_capacity_ratio,
        molar_mass_kg_per_mol,
    )
