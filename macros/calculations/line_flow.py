"""Flow along a line: speed, friction, and the pressure that a gas loses on its way."""

import math

from macros.calculations.constants import GAS_CONSTANT, PI
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import Constant, power

DRAWN_TUBE = Constant(1.5e-6, "ε_t", "m", "roughness of drawn tube and smooth hose", "drawn-tube")


@calculation(mass_flow_kg_per_s=between(0.0, 100.0), bore_m=above(0.0, 2.0), viscosity_pa_s=between(1e-6, 1.0))
def reynolds_number(mass_flow_kg_per_s: float, bore_m: float, viscosity_pa_s: float) -> float:
    """
    Reynolds number of flow along a round line.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Mass flow, 0 to 100. [kg/s]
    bore_m : float
        Bore, above 0. [m]
    viscosity_pa_s : float
        Dynamic viscosity, 1 µPa s to 1 Pa s. [Pa s]

    Returns
    -------
    float
        Reynolds number. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Speed times bore over kinematic viscosity, with the mass flow put in [by-definition].
    """
    return 4 * mass_flow_kg_per_s / (PI * bore_m * viscosity_pa_s)


@calculation(mass_flow_kg_per_s=between(0.0, 100.0), bore_m=above(0.0, 2.0), density_kg_per_m3=above(0.0, 2000.0))
def line_velocity(mass_flow_kg_per_s: float, bore_m: float, density_kg_per_m3: float) -> float:
    """
    Mean speed along a round line.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Mass flow, 0 to 100. [kg/s]
    bore_m : float
        Bore, above 0. [m]
    density_kg_per_m3 : float
        Density, above 0; of a gas at the lowest pressure. [kg/m3]

    Returns
    -------
    float
        Speed. [m/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass flow over density and section [mass-balance].
    """
    return mass_flow_kg_per_s / (density_kg_per_m3 * (PI * power(bore_m, 2) / 4))


@calculation(opaque="friction factor", reynolds=above(0.0, 1e8), relative_roughness=between(0.0, 0.05))
def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """
    Darcy friction factor, laminar or turbulent.

    Parameters
    ----------
    reynolds : float
        Reynolds number, above 0, at most 1e8. [-]
    relative_roughness : float
        Roughness of the wall over the bore, 0 to 0.05. [-]

    Returns
    -------
    float
        Friction factor. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    One equation for all flow, within 2 % of Colebrook's [churchill-1977, equation for all regimes].
    """
    turbulent = (2.457 * math.log(1.0 / ((7.0 / reynolds) ** 0.9 + 0.27 * relative_roughness))) ** 16
    between_both = (37530.0 / reynolds) ** 16
    return float(8.0 * ((8.0 / reynolds) ** 12 + (turbulent + between_both) ** -1.5) ** (1.0 / 12.0))


@calculation(
    opaque="pressure lost along a line", mass_flow_kg_per_s=between(0.0, 100.0), inlet_pressure_pa=between(1e3, 100e6),
    temperature_k=between(200.0, 500.0), bore_m=above(0.0, 2.0), length_m=between(0.0, 1e6), friction=between(0.0, 1e4),
    fittings=between(0.0, 1e4), molar_mass_kg_per_mol=between(1e-3, 0.5), compressibility=between(0.2, 3.0),
)  # fmt: skip
def line_pressure_drop(
    mass_flow_kg_per_s: float,
    inlet_pressure_pa: float,
    temperature_k: float,
    bore_m: float,
    length_m: float,
    friction: float,
    fittings: float,
    molar_mass_kg_per_mol: float,
    compressibility: float,
) -> float:
    """
    Pressure that a gas loses along a line, its expansion and its growing speed counted.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Mass flow, 0 to 100. [kg/s]
    inlet_pressure_pa : float
        Absolute pressure at the inlet, 1 kPa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 200 to 500. [K]
    bore_m : float
        Bore, above 0. [m]
    length_m : float
        Length, 0 or more. [m]
    friction : float
        Darcy friction factor, 0 or more. [-]
    fittings : float
        Sum of the loss coefficients of bends, valves and fittings, 0 or more. [-]
    molar_mass_kg_per_mol : float
        Molar mass, 1 to 500 g/mol. [kg/mol]
    compressibility : float
        Compressibility factor, 0.2 to 3. [-]

    Returns
    -------
    float
        Difference of pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the line cannot pass the flow.

    Notes
    -----
    Root of the momentum balance at one temperature [isothermal-pipe, flow equation].
    """
    flux = mass_flow_kg_per_s / (math.pi * bore_m**2 / 4.0)
    if flux == 0.0:
        return 0.0
    resistance = friction * length_m / bore_m + fittings
    # p²/specific is ρp; the flow is choked where the pressure has come down to `slowest`.
    specific = compressibility * float(GAS_CONSTANT) * temperature_k / molar_mass_kg_per_mol
    slowest = flux * math.sqrt(specific)

    def excess(outlet_pa: float) -> float:
        driving = (inlet_pressure_pa**2 - outlet_pa**2) / specific
        return driving - flux**2 * (2.0 * math.log(inlet_pressure_pa / outlet_pa) + resistance)

    if slowest >= inlet_pressure_pa or excess(slowest) < 0.0:
        raise OutOfRange("line_pressure_drop", "mass_flow_kg_per_s", mass_flow_kg_per_s, range_said("flow_of_line"))
    low, high = slowest, inlet_pressure_pa
    for _ in range(200):
        middle = (low + high) / 2.0
        if excess(middle) > 0.0:
            low = middle
        else:
            high = middle
    return inlet_pressure_pa - (low + high) / 2.0
