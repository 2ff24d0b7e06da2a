"""Work and warmth of compression: the least work, how hot the gas comes out, what the drive-air compressor spends."""

from macros.calculations import hydrogen
from macros.calculations.constants import GAS_CONSTANT
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.formula import Constant, log, power

GAS_CONSTANT_AIR = Constant(287.0, "R_air", "J/(kg K)", "gas constant of air", "cengel-boles")

_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_TEMPERATURE = between(200.0, 500.0)
_INDEX = between(1.0, 1.67)
_ATMOSPHERE = between(3e4, 1.2e5)


@calculation(inlet_pressure_pa=_PRESSURE, discharge_pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def isothermal_work(inlet_pressure_pa: float, discharge_pressure_pa: float, temperature_k: float) -> float:
    """
    Least work that compresses a kilogram of hydrogen, heat given off without end at one temperature.

    Parameters
    ----------
    inlet_pressure_pa : float
        Absolute pressure before. [Pa]
    discharge_pressure_pa : float
        Absolute pressure after, at least that before. [Pa]
    temperature_k : float
        Temperature before, between and after. [K]

    Returns
    -------
    float
        Work for each kilogram. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressure falls.

    Notes
    -----
    Δh − TΔs of the real gas [flow-work, steady flow at constant temperature].
    """
    if discharge_pressure_pa < inlet_pressure_pa:
        raise OutOfRange(
            "isothermal_work",
            "discharge_pressure_pa",
            discharge_pressure_pa,
            range_said("least", limit=inlet_pressure_pa),
        )
    enthalpy = hydrogen.enthalpy(discharge_pressure_pa, temperature_k)
    enthalpy = enthalpy - hydrogen.enthalpy(inlet_pressure_pa, temperature_k)
    entropy = hydrogen.entropy(discharge_pressure_pa, temperature_k)
    entropy = entropy - hydrogen.entropy(inlet_pressure_pa, temperature_k)
    return enthalpy - temperature_k * entropy


@calculation(
    inlet_pressure_pa=_PRESSURE, discharge_pressure_pa=_PRESSURE, inlet_temperature_k=_TEMPERATURE, index=_INDEX
)
def polytropic_temperature(
    inlet_pressure_pa: float, discharge_pressure_pa: float, inlet_temperature_k: float, index: float
) -> float:
    """
    Temperature of gas that leaves a cooled compression.

    Parameters
    ----------
    inlet_pressure_pa : float
        Absolute pressure before. [Pa]
    discharge_pressure_pa : float
        Absolute pressure after. [Pa]
    inlet_temperature_k : float
        Temperature before. [K]
    index : float
        Polytropic index, 1 (perfectly cooled) to 1.67; slow, cooled boosters run at 1.15 to 1.25. [-]

    Returns
    -------
    float
        Temperature after. [K]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas, p·vⁿ constant [polytropic, temperature against pressure].
    """
    return inlet_temperature_k * power(discharge_pressure_pa / inlet_pressure_pa, (index - 1) / index)


@calculation(
    inlet_pressure_pa=between(1e3, 5e6), discharge_pressure_pa=between(1e3, 5e6),
    inlet_temperature_k=between(200.0, 400.0), index=above(1.0, 1.67), stages=between(1, 5),
)  # fmt: skip
def air_compression_work(
    inlet_pressure_pa: float,
    discharge_pressure_pa: float,
    inlet_temperature_k: float,
    index: float,
    stages: float = 1.0,
) -> float:
    """
    Work that compresses a kilogram of air, in equal stages with the air cooled back between them.

    Parameters
    ----------
    inlet_pressure_pa : float
        Absolute pressure before, up to 5 MPa. [Pa]
    discharge_pressure_pa : float
        Absolute pressure after, up to 5 MPa. [Pa]
    inlet_temperature_k : float
        Temperature before each stage, 200 to 400. [K]
    index : float
        Polytropic index of each stage, above 1; 1.4 is isentropic. [-]
    stages : float
        Number of stages, 1 to 5. [-]

    Returns
    -------
    float
        Work for each kilogram of air. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Steady flow of an ideal gas, equal pressure ratios [cengel-boles, example 7-13].
    """
    exponent = (index - 1) / index
    ratio = power(discharge_pressure_pa / inlet_pressure_pa, exponent / stages)
    return stages * GAS_CONSTANT_AIR * inlet_temperature_k / exponent * (ratio - 1)


@calculation(atmosphere_pa=_ATMOSPHERE, line_pressure_pa=between(3e4, 5e6))
def free_air_isothermal_work(atmosphere_pa: float, line_pressure_pa: float) -> float:
    """
    Least work that compresses a cubic metre of free air.

    Parameters
    ----------
    atmosphere_pa : float
        Atmospheric pressure. [Pa]
    line_pressure_pa : float
        Absolute pressure of the compressed air, up to 5 MPa. [Pa]

    Returns
    -------
    float
        Work for each cubic metre of free air. [J/m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the line lies below the atmosphere.

    Notes
    -----
    Ideal gas at one temperature: p·ln of the ratio for each volume drawn [flow-work, ideal gas].
    """
    if line_pressure_pa < atmosphere_pa:
        raise OutOfRange(
            "free_air_isothermal_work", "line_pressure_pa", line_pressure_pa, range_said("least", limit=atmosphere_pa)
        )
    return atmosphere_pa * log(line_pressure_pa / atmosphere_pa)


@calculation(power_w=above(0, 1e6), free_air_m3_per_s=between(1e-9, 10.0))
def electricity_of_free_air(power_w: float, free_air_m3_per_s: float) -> float:
    """
    Electricity that a compressor takes for a cubic metre of free air.

    Parameters
    ----------
    power_w : float
        Electric power while it delivers, above 0. [W]
    free_air_m3_per_s : float
        Free-air delivery at the pressure of the line, 1e-9 to 10. [m3/s]

    Returns
    -------
    float
        Energy for each cubic metre of free air. [J/m3]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Power over delivery [by-definition].
    """
    return power_w / free_air_m3_per_s


@calculation(normal_flow_mol_per_s=between(0, 1e4), atmosphere_pa=_ATMOSPHERE, temperature_k=between(200.0, 400.0))
def free_air_of_normal_flow(normal_flow_mol_per_s: float, atmosphere_pa: float, temperature_k: float) -> float:
    """
    Free air that a compressor delivers, at the state in which it draws it in.

    Parameters
    ----------
    normal_flow_mol_per_s : float
        Delivery as amount of dry air, 0 to 10000. [mol/s]
    atmosphere_pa : float
        Atmospheric pressure at the intake. [Pa]
    temperature_k : float
        Temperature at the intake, 200 to 400. [K]

    Returns
    -------
    float
        Volume flow at the state of the intake. [m3/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas [by-definition].
    """
    return normal_flow_mol_per_s * GAS_CONSTANT * temperature_k / atmosphere_pa


@calculation(free_air_m3_per_kg=between(0, 1e6), electricity_j_per_m3=between(0, 1e8))
def boosting_energy(free_air_m3_per_kg: float, electricity_j_per_m3: float) -> float:
    """
    Electricity of the drive-air compressor for a kilogram of hydrogen boosted.

    Parameters
    ----------
    free_air_m3_per_kg : float
        Free air that the booster takes for a kilogram. [m3/kg]
    electricity_j_per_m3 : float
        Electricity for a cubic metre of free air. [J/m3]

    Returns
    -------
    float
        Energy for each kilogram. [J/kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Air for a kilogram times electricity for the air; expect 10 to 16 kWh for a kilogram [common-practice].
    """
    return free_air_m3_per_kg * electricity_j_per_m3


@calculation(ideal_j_per_kg=between(0, 1e9), spent_j_per_kg=between(1e-3, 1e9))
def boosting_efficiency(ideal_j_per_kg: float, spent_j_per_kg: float) -> float:
    """
    Least work of the compression over the electricity spent on it.

    Parameters
    ----------
    ideal_j_per_kg : float
        Least work for a kilogram. [J/kg]
    spent_j_per_kg : float
        Electricity for a kilogram, at least 1e-3. [J/kg]

    Returns
    -------
    float
        Share. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ratio of energies [by-definition].
    """
    return ideal_j_per_kg / spent_j_per_kg


@calculation(air_taken_m3_per_s=between(0, 100.0), free_air_m3_per_s=between(1e-9, 100.0))
def compressor_duty(air_taken_m3_per_s: float, free_air_m3_per_s: float) -> float:
    """
    Share of the time that a compressor has to run.

    Parameters
    ----------
    air_taken_m3_per_s : float
        Free air that is taken, on average. [m3/s]
    free_air_m3_per_s : float
        Free-air delivery, 1e-9 to 100. [m3/s]

    Returns
    -------
    float
        Share of time; above 1 the compressor is too small and the boosters starve. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Air taken over air delivered [by-definition].
    """
    return air_taken_m3_per_s / free_air_m3_per_s
