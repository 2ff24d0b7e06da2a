"""
Relief valves: at which pressure they relieve, what area a source asks for, what an area passes.

The open equations of API 520, which ISO 4126 shares for gases: ideal gas with the compressibility factor at
the inlet, critical or not. For hydrogen they give less than the real gas, the safe side for a capacity.
Sizing is a first check; the certified figures are the maker's, and the choice belongs to licensed practice.
"""

from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.leak import ideal_mass_flux


@calculation(
    set_pressure_pa=between(1e3, 100e6), atmosphere_pa=between(50e3, 110e3),
    accumulation=between(0.0, 0.5), tolerance=between(0.0, 0.2),
)  # fmt: skip
def relieving_pressure(
    set_pressure_pa: float, atmosphere_pa: float, accumulation: float, tolerance: float = 0.0
) -> float:
    """
    Pressure under a relief valve that is passing its full flow.

    Parameters
    ----------
    set_pressure_pa : float
        Set pressure, absolute, 1 kPa to 100 MPa. [Pa]
    atmosphere_pa : float
        Pressure of the atmosphere, 50 to 110 kPa. [Pa]
    accumulation : float
        Rise to full lift as a share of the set pressure (gauge), 0 to 0.5; parts outside a pressure code get none. [-]
    tolerance : float
        How far above its set pressure (gauge) the valve may open, 0 to 0.2: with it for the highest credible pressure,
        without it for the capacity. [-]

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
    Set pressure and overpressure are gauge, so the atmosphere is added last [api-520, definition of P1].
    """
    return (set_pressure_pa - atmosphere_pa) * (1 + tolerance + accumulation) + atmosphere_pa


_PRESSURE, _TEMPERATURE = between(1e3, 100e6), between(200.0, 1000.0)
_BACK_PRESSURE, _COEFFICIENT, _RATIO = between(0.0, 100e6), above(0, 1.0), above(1.0, 5.0 / 3.0)
_MOLAR_MASS, _COMPRESSIBILITY = between(1e-3, 0.5), between(0.2, 3.0)


@calculation(
    mass_flow_kg_per_s=above(0, 100.0),
    relieving_pressure_pa=_PRESSURE,
    temperature_k=_TEMPERATURE,
    back_pressure_pa=_BACK_PRESSURE,
    discharge_coefficient=_COEFFICIENT,
    heat_capacity_ratio=_RATIO,
    molar_mass_kg_per_mol=_MOLAR_MASS,
    compressibility=_COMPRESSIBILITY,
)
def relief_area_required(
    mass_flow_kg_per_s: float,
    relieving_pressure_pa: float,
    temperature_k: float,
    back_pressure_pa: float,
    discharge_coefficient: float,
    heat_capacity_ratio: float,
    molar_mass_kg_per_mol: float,
    compressibility: float,
) -> float:
    """
    Smallest flow area of a relief valve that passes a flow of gas, critical or not.

    Parameters
    ----------
    mass_flow_kg_per_s : float
        Flow to be relieved, above 0, at most 100. [kg/s]
    relieving_pressure_pa : float
        Absolute pressure before the valve at full flow, 1 kPa to 100 MPa. [Pa]
    temperature_k : float
        Temperature before the valve, 200 to 1000; the higher, the larger the area. [K]
    back_pressure_pa : float
        Absolute pressure behind the valve, no more than that before it. [Pa]
    discharge_coefficient : float
        As certified, above 0, at most 1; ISO 4126 derates a measured one to nine tenths. [-]
    heat_capacity_ratio : float
        Ratio of heat capacities, above 1, at most 5/3. [-]
    molar_mass_kg_per_mol : float
        Molar mass, 1 to 500 g/mol. [kg/mol]
    compressibility : float
        Compressibility factor before the valve, 0.2 to 3. [-]

    Returns
    -------
    float
        Area. [m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressure behind is the higher one.

    Notes
    -----
    Flow over discharge coefficient times ideal flux; the equations of gas in critical and subcritical flow
    are one [api-520, sizing for gas or vapour, critical and subcritical flow].
    """
    flux = ideal_mass_flux(
        relieving_pressure_pa,
        temperature_k,
        back_pressure_pa,
        heat_capacity_ratio,
        molar_mass_kg_per_mol,
        compressibility,
    )
    if not flux > 0:
        raise OutOfRange(
            "relief_area_required", "back_pressure_pa", back_pressure_pa, range_said("less_than_relieving")
        )
    return mass_flow_kg_per_s / (discharge_coefficient * flux)


@calculation(
    flow_area_m2=above(0, 1.0),
    relieving_pressure_pa=_PRESSURE,
    temperature_k=_TEMPERATURE,
    back_pressure_pa=_BACK_PRESSURE,
    discharge_coefficient=_COEFFICIENT,
    heat_capacity_ratio=_RATIO,
    molar_mass_kg_per_mol=_MOLAR_MASS,
    compressibility=_COMPRESSIBILITY,
)
def relief_capacity(
    flow_area_m2: float,
    relieving_pressure_pa: float,
    temperature_k: float,
    back_pressure_pa: float,
    discharge_coefficient: float,
    heat_capacity_ratio: float,
    molar_mass_kg_per_mol: float,
    compressibility: float,
) -> float:
    """
    Flow that a relief valve passes at full lift, critical or not.

    Parameters
    ----------
    flow_area_m2 : float
        Flow area of the valve, above 0, at most 1. [m2]
    relieving_pressure_pa : float
        Absolute pressure before the valve at full flow, 1 kPa to 100 MPa. [Pa]
    temperature_k : float
        Temperature before the valve, 200 to 1000; the higher, the smaller the flow. [K]
    back_pressure_pa : float
        Absolute pressure behind the valve, no more than that before it. [Pa]
    discharge_coefficient : float
        As certified, above 0, at most 1; ISO 4126 derates a measured one to nine tenths. [-]
    heat_capacity_ratio : float
        Ratio of heat capacities, above 1, at most 5/3. [-]
    molar_mass_kg_per_mol : float
        Molar mass, 1 to 500 g/mol. [kg/mol]
    compressibility : float
        Compressibility factor before the valve, 0.2 to 3. [-]

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
    Discharge coefficient times area times ideal flux, which for hydrogen is below that of the real gas
    [api-520, sizing for gas or vapour, critical and subcritical flow], [iso-4126-1, discharge capacity].
    """
    return (
        discharge_coefficient * flow_area_m2
        * ideal_mass_flux(
            relieving_pressure_pa, temperature_k, back_pressure_pa, heat_capacity_ratio, molar_mass_kg_per_mol,
            compressibility,
        )
    )  # fmt: skip
