"""Gas in a vessel: how much it holds, what that is worth, and what its gauge reads when it is warmer or colder."""

from macros.calculations import hydrogen
from macros.calculations.constants import HIGHER_HEATING_VALUE, LOWER_HEATING_VALUE, MOLAR_MASS_HYDROGEN
from macros.calculations.contract import OutOfRange, between, calculation, range_said
from macros.calculations.formula import Constant, smallest

SETTLED_TEMPERATURE = Constant(288.15, "T_15", "K", "temperature at which a fill counts as settled", "sae-j2600")
DEVELOPED_TEMPERATURE = Constant(
    338.15, "T_65", "K", "temperature of the developed pressure of a transportable cylinder", "transport-filling"
)

_VOLUME = between(1e-6, 1e3)
_PRESSURE = between(1e3, hydrogen.HIGHEST_PRESSURE_PA)
_TEMPERATURE = between(200.0, 400.0)
_MASS = between(0, 1e5)


@calculation(volume_m3=_VOLUME, pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def mass_stored(volume_m3: float, pressure_pa: float, temperature_k: float) -> float:
    """
    Hydrogen in a vessel, as a real gas.

    Parameters
    ----------
    volume_m3 : float
        Water volume of the vessel, 1 mL to 1000 m3. [m3]
    pressure_pa : float
        Absolute pressure, 1 kPa to 100 MPa. [Pa]
    temperature_k : float
        Temperature of the gas, 200 to 400. [K]

    Returns
    -------
    float
        Mass. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Volume times density of the reference equation [leachman-2009, equation 1].
    """
    return volume_m3 * hydrogen.density(pressure_pa, temperature_k)


@calculation(volume_m3=_VOLUME, full_pressure_pa=_PRESSURE, empty_pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE)
def mass_between(volume_m3: float, full_pressure_pa: float, empty_pressure_pa: float, temperature_k: float) -> float:
    """
    Hydrogen that a vessel gives between two pressures, or takes.

    Parameters
    ----------
    volume_m3 : float
        Water volume of the vessel, 1 mL to 1000 m3. [m3]
    full_pressure_pa : float
        Absolute pressure when full, 1 kPa to 100 MPa. [Pa]
    empty_pressure_pa : float
        Absolute pressure when empty, 1 kPa to that when full. [Pa]
    temperature_k : float
        Temperature of the gas, the same at both, 200 to 400. [K]

    Returns
    -------
    float
        Mass. [kg]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the vessel is emptier when full.

    Notes
    -----
    Volume times the difference of two densities of the reference equation [leachman-2009, equation 1].
    """
    if empty_pressure_pa > full_pressure_pa:
        raise OutOfRange(
            "mass_between", "empty_pressure_pa", empty_pressure_pa, range_said("most", limit=full_pressure_pa)
        )
    full = hydrogen.density(full_pressure_pa, temperature_k)
    empty = hydrogen.density(empty_pressure_pa, temperature_k)
    return volume_m3 * (full - empty)


@calculation(mass_kg=_MASS)
def energy_lower(mass_kg: float) -> float:
    """
    Heat of burning hydrogen whose water leaves as vapour.

    Parameters
    ----------
    mass_kg : float
        Mass of hydrogen, 0 to 100000. [kg]

    Returns
    -------
    float
        Energy by the lower heating value. [J]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass times lower heating value [doe-record-9013, table of properties of hydrogen].
    """
    return mass_kg * LOWER_HEATING_VALUE


@calculation(mass_kg=_MASS)
def energy_higher(mass_kg: float) -> float:
    """
    Heat of burning hydrogen whose water is condensed.

    Parameters
    ----------
    mass_kg : float
        Mass of hydrogen, 0 to 100000. [kg]

    Returns
    -------
    float
        Energy by the higher heating value. [J]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass times higher heating value [codata-key-values, enthalpy of formation of liquid water].
    """
    return mass_kg * HIGHER_HEATING_VALUE


@calculation(mass_kg=_MASS)
def amount_of_mass(mass_kg: float) -> float:
    """
    Amount of hydrogen in a mass; as an ideal gas at normal conditions it is the normal volume.

    Parameters
    ----------
    mass_kg : float
        Mass of hydrogen, 0 to 100000. [kg]

    Returns
    -------
    float
        Amount. [mol]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Mass over molar mass [by-definition].
    """
    return mass_kg / MOLAR_MASS_HYDROGEN


@calculation(pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE, later_temperature_k=_TEMPERATURE)
def pressure_when(pressure_pa: float, temperature_k: float, later_temperature_k: float) -> float:
    """
    Pressure of the same gas in the same vessel at another temperature.

    Serves the hottest and the coldest day, the pressure developed at 65 °C, the pressure to which a warm fill
    settles, and the reading to stop at on a day that is not 15 °C.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure at the first temperature, 1 kPa to 100 MPa. [Pa]
    temperature_k : float
        First temperature, 200 to 400. [K]
    later_temperature_k : float
        Other temperature, 200 to 400. [K]

    Returns
    -------
    float
        Absolute pressure at the other temperature. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Equal density in the reference equation; the vessel's own stretch is left out, so the pressure at the
    warmer temperature errs on the high side [leachman-2009, equation 1].
    """
    return hydrogen.pressure(hydrogen.density(pressure_pa, temperature_k), later_temperature_k)


@calculation(working_pressure_pa=_PRESSURE, test_pressure_pa=_PRESSURE)
def transportable_fill_limit(working_pressure_pa: float, test_pressure_pa: float) -> float:
    """
    Highest fill, settled at 15 °C, that a transportable cylinder may have.

    Parameters
    ----------
    working_pressure_pa : float
        Working pressure stamped on the cylinder, absolute, 1 kPa to 100 MPa. [Pa]
    test_pressure_pa : float
        Test pressure stamped on the cylinder, absolute, 1 kPa to 100 MPa. [Pa]

    Returns
    -------
    float
        Absolute pressure, settled at 15 °C. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    The smaller of the working pressure and of the fill that develops the test pressure at 65 °C
    [transport-filling, settled and developed pressure].
    """
    developed = pressure_when(test_pressure_pa, DEVELOPED_TEMPERATURE, SETTLED_TEMPERATURE)
    return smallest(working_pressure_pa, developed)
