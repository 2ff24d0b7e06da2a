"""
Leak tests: what a falling gauge says once the temperature is taken out, and what it says of hydrogen.

A leak test is done with an inert gas and a soap film as well; a quiet gauge alone proves little in a large
space. The swing of temperature between two readings is the commonest false leak, and hides true ones.
"""

from macros.calculations.constants import GAS_CONSTANT
from macros.calculations.contract import above, any_number, between, calculation
from macros.calculations.formula import Constant, largest, sqrt

NITROGEN_VISCOSITY = Constant(17.6e-6, "μ_N2", "Pa s", "viscosity of nitrogen near ambient", "nitrogen-viscosity")

_PRESSURE, _TEMPERATURE = between(10.0, 100e6), between(200.0, 400.0)


@calculation(pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE, reference_k=_TEMPERATURE)
def pressure_at_reference(pressure_pa: float, temperature_k: float, reference_k: float) -> float:
    """
    Reading of a gauge carried to another temperature of the same gas in the same space.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure read, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature at the reading, 200 to 400. [K]
    reference_k : float
        Temperature to which it is carried, 200 to 400. [K]

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
    Ideal gas at constant volume [by-definition].
    """
    return pressure_pa * reference_k / temperature_k


@calculation(
    space_m3=above(0.0, 1e4), first_pressure_pa=_PRESSURE, first_temperature_k=_TEMPERATURE, last_pressure_pa=_PRESSURE,
    last_temperature_k=_TEMPERATURE, time_s=above(0.0, 1e8),
)  # fmt: skip
def decay_leak(
    space_m3: float,
    first_pressure_pa: float,
    first_temperature_k: float,
    last_pressure_pa: float,
    last_temperature_k: float,
    time_s: float,
) -> float:
    """
    Leak that a falling pressure shows, the temperature taken out; below 0 where the pressure has risen.

    Parameters
    ----------
    space_m3 : float
        Space under test, above 0. [m3]
    first_pressure_pa : float
        Absolute pressure at first, 10 Pa to 100 MPa. [Pa]
    first_temperature_k : float
        Temperature at first, 200 to 400. [K]
    last_pressure_pa : float
        Absolute pressure at last, 10 Pa to 100 MPa. [Pa]
    last_temperature_k : float
        Temperature at last, 200 to 400. [K]
    time_s : float
        Time between both readings, above 0. [s]

    Returns
    -------
    float
        Amount flow. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas at constant volume; what is missing has leaked [mass-balance].
    """
    lost = first_pressure_pa / first_temperature_k - last_pressure_pa / last_temperature_k
    return space_m3 / GAS_CONSTANT * lost / time_s


@calculation(
    space_m3=above(0.0, 1e4), temperature_k=_TEMPERATURE, leak_mol_per_s=between(0.0, 10.0), time_s=above(0.0, 1e8)
)
def decay_allowed(space_m3: float, temperature_k: float, leak_mol_per_s: float, time_s: float) -> float:
    """
    Fall of pressure that an allowed leak makes in the time of a test, at one temperature.

    Parameters
    ----------
    space_m3 : float
        Space under test, above 0. [m3]
    temperature_k : float
        Temperature, 200 to 400. [K]
    leak_mol_per_s : float
        Leak allowed of the test gas, 0 or more. [mol/s]
    time_s : float
        Time of the test, above 0. [s]

    Returns
    -------
    float
        Fall of pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ideal gas at constant volume [mass-balance].
    """
    return leak_mol_per_s * GAS_CONSTANT * temperature_k * time_s / space_m3


@calculation(
    space_m3=above(0.0, 1e4), pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE, gauge_step_pa=between(0.0, 1e7),
    thermometer_step_k=between(0.0, 20.0), time_s=above(0.0, 1e8),
)  # fmt: skip
def smallest_leak_seen(
    space_m3: float,
    pressure_pa: float,
    temperature_k: float,
    gauge_step_pa: float,
    thermometer_step_k: float,
    time_s: float,
) -> float:
    """
    Smallest leak that a decay test can tell from the steps of its gauge and its thermometer.

    Parameters
    ----------
    space_m3 : float
        Space under test, above 0. [m3]
    pressure_pa : float
        Absolute pressure of the test, 10 Pa to 100 MPa. [Pa]
    temperature_k : float
        Temperature, 200 to 400. [K]
    gauge_step_pa : float
        Smallest difference that the gauge shows, 0 or more. [Pa]
    thermometer_step_k : float
        Error of the difference of temperature, 0 to 20. [K]
    time_s : float
        Time of the test, above 0. [s]

    Returns
    -------
    float
        Amount flow. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Both errors added, the cautious side [mass-balance].
    """
    step = gauge_step_pa + pressure_pa * thermometer_step_k / temperature_k
    return space_m3 * step / (GAS_CONSTANT * temperature_k * time_s)


@calculation(
    test_viscosity_pa_s=between(1e-6, 1e-4), hydrogen_viscosity_pa_s=between(1e-6, 1e-4),
    test_molar_mass_kg_per_mol=between(1e-3, 0.5), hydrogen_molar_mass_kg_per_mol=between(1e-3, 0.5),
)  # fmt: skip
def hydrogen_leak_factor(
    test_viscosity_pa_s: float,
    hydrogen_viscosity_pa_s: float,
    test_molar_mass_kg_per_mol: float,
    hydrogen_molar_mass_kg_per_mol: float,
) -> float:
    """
    How much more hydrogen than test gas leaks through the same leak at the same pressures.

    Parameters
    ----------
    test_viscosity_pa_s : float
        Viscosity of the test gas, 1 to 100 µPa s. [Pa s]
    hydrogen_viscosity_pa_s : float
        Viscosity of hydrogen, 1 to 100 µPa s. [Pa s]
    test_molar_mass_kg_per_mol : float
        Molar mass of the test gas, 1 to 500 g/mol. [kg/mol]
    hydrogen_molar_mass_kg_per_mol : float
        Molar mass of hydrogen, 1 to 500 g/mol. [kg/mol]

    Returns
    -------
    float
        Ratio of amount flows. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    A narrow leak passes gas by its viscosity [poiseuille, laminar flow], a wider one (choked) or a very fine one
    (molecular) by its molar mass [kinetic-theory, effusion]. Which of them it is nobody knows before: the larger
    factor stands.
    """
    return largest(
        test_viscosity_pa_s / hydrogen_viscosity_pa_s,
        sqrt(test_molar_mass_kg_per_mol / hydrogen_molar_mass_kg_per_mol),
    )


@calculation(
    space_m3=above(0.0, 1e4), pressure_rise_pa=any_number(), temperature_k=_TEMPERATURE, time_s=above(0.0, 1e8)
)
def passing_leak(space_m3: float, pressure_rise_pa: float, temperature_k: float, time_s: float) -> float:
    """
    Leak through a shut valve or a non-return valve into a closed space that was vented before.

    Parameters
    ----------
    space_m3 : float
        Space in which the pressure rises, above 0. [m3]
    pressure_rise_pa : float
        Rise of pressure; a fall counts as none. [Pa]
    temperature_k : float
        Temperature, 200 to 400. [K]
    time_s : float
        Time of the test, above 0. [s]

    Returns
    -------
    float
        Amount flow. [mol/s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Q = V Δp/t at one temperature [mass-balance].
    """
    return space_m3 * largest(0.0, pressure_rise_pa) / (GAS_CONSTANT * temperature_k * time_s)
