"""
Voltage of a cell that splits liquid water: what thermodynamics asks for, what was measured, and what a published
model says where nothing was measured.

Pressures enter with their water vapour taken off. A higher pressure of hydrogen or oxygen raises the voltage.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from macros.calculations.constants import FARADAY, GAS_CONSTANT, STANDARD_ATMOSPHERE
from macros.calculations.contract import OutOfRange, above, between, calculation, points, range_said
from macros.calculations.faraday import CELLS, CURRENT
from macros.calculations.formula import Constant, exp, log, power, sqrt

TEMPERATURE = between(273.15, 373.15)
PRESSURE = between(1e3, 100e6)
CURRENT_DENSITY = above(0, 1e5)

REFERENCE_TEMPERATURE = Constant(298.15, "T_0", "K", "reference temperature of thermochemistry", "codata-key-values")
FORMATION_ENTHALPY_OF_WATER = Constant(
    285.83e3, "ΔH_0", "J/mol", "enthalpy of splitting liquid water at 25 °C", "codata-key-values"
)
HEAT_CAPACITY_OF_SPLITTING = Constant(
    28.83 + 29.38 / 2 - 75.33,
    "Δc_p",
    "J/(mol K)",
    "heat capacity of hydrogen and oxygen less that of water",
    "coolprop-8",
)
ANODE_ACTIVATION = Constant(90e3, "E_a", "J/mol", "activation energy of the oxygen electrode", "chung-2024")
CATHODE_ACTIVATION = Constant(30e3, "E_c", "J/mol", "activation energy of the hydrogen electrode", "chung-2024")
ANODE_EXCHANGE = Constant(
    1.0e-3, "j_a0", "A/m2", "exchange current density of the oxygen electrode at 45 °C", "chung-2024"
)
CATHODE_EXCHANGE = Constant(
    7.5, "j_c0", "A/m2", "exchange current density of the hydrogen electrode at 45 °C", "chung-2024"
)
EXCHANGE_TEMPERATURE = Constant(318.0, "T_j", "K", "temperature of the exchange current densities", "chung-2024")


@calculation(temperature_k=TEMPERATURE)
def thermoneutral_voltage(temperature_k: float) -> float:
    """
    Voltage at which a cell neither warms nor cools: liquid water in, dry gases out.

    Parameters
    ----------
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Voltage of one cell. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Enthalpy of splitting over 2F: formation enthalpy of liquid water [codata-key-values, table of enthalpies of
    formation], carried to temperature by heat capacities taken as constant [coolprop-8, molar heat capacities at
    25 °C and 1 bar].
    """
    return (FORMATION_ENTHALPY_OF_WATER + HEAT_CAPACITY_OF_SPLITTING * (temperature_k - REFERENCE_TEMPERATURE)) / (
        2 * FARADAY
    )


@calculation(temperature_k=TEMPERATURE)
def standard_reversible_voltage(temperature_k: float) -> float:
    """
    Least voltage that splits liquid water, both gases at one standard atmosphere.

    Parameters
    ----------
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Voltage of one cell. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Gibbs energy of splitting over 2F [leroy-1980, equation 58].
    """
    return (
        1.5184
        - 1.5421e-3 * temperature_k
        + 9.523e-5 * temperature_k * log(temperature_k)
        + 9.84e-8 * power(temperature_k, 2)
    )


@calculation(pressure_pa=PRESSURE, vapour_pressure_pa=between(0, 2e5))
def dry_pressure(pressure_pa: float, vapour_pressure_pa: float) -> float:
    """
    Partial pressure of a wet gas without its vapour.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure of gas and vapour together. [Pa]
    vapour_pressure_pa : float
        Partial pressure of water vapour, below the pressure. [Pa]

    Returns
    -------
    float
        Absolute partial pressure. [Pa]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the water boils.

    Notes
    -----
    Dalton's law [by-definition].
    """
    if not pressure_pa > vapour_pressure_pa:
        raise OutOfRange(
            "dry_pressure", "pressure_pa", pressure_pa, range_said("above_vapour", limit=vapour_pressure_pa)
        )
    return pressure_pa - vapour_pressure_pa


@calculation(temperature_k=TEMPERATURE, hydrogen_pressure_pa=PRESSURE, oxygen_pressure_pa=PRESSURE)
def reversible_voltage(temperature_k: float, hydrogen_pressure_pa: float, oxygen_pressure_pa: float) -> float:
    """
    Least voltage that splits liquid water at the pressures of the plant.

    Parameters
    ----------
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]
    hydrogen_pressure_pa : float
        Absolute partial pressure of hydrogen at the cathode, vapour taken off. [Pa]
    oxygen_pressure_pa : float
        Absolute partial pressure of oxygen at the anode, vapour taken off. [Pa]

    Returns
    -------
    float
        Voltage of one cell. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Nernst's equation for ideal gases over liquid water [nernst-1889, as given in texts of electrochemistry], from
    the voltage at one standard atmosphere [leroy-1980, equation 58].
    """
    return standard_reversible_voltage(temperature_k) + GAS_CONSTANT * temperature_k / (2 * FARADAY) * log(
        hydrogen_pressure_pa / STANDARD_ATMOSPHERE * sqrt(oxygen_pressure_pa / STANDARD_ATMOSPHERE)
    )


@calculation(opaque="interpolate", polarisation=points(), current_density_a_per_m2=CURRENT_DENSITY)
def measured_voltage(polarisation: Sequence[tuple[float, float]], current_density_a_per_m2: float) -> float:
    """
    Voltage of a cell between measured points.

    Parameters
    ----------
    polarisation : list of pairs
        Measured points, current density in A/m2 and voltage of one cell in V, both rising. [-]
    current_density_a_per_m2 : float
        Current density, no lower than the first point and no higher than the last. [A/m2]

    Returns
    -------
    float
        Voltage of one cell. [V]

    Raises
    ------
    OutOfRange
        If the current density lies outside the points, or the voltage falls from one point to the next.

    Notes
    -----
    Monotone cubic interpolation, slopes by the weighted harmonic mean [fritsch-butland-1984, slope at a point]. Outside
    the points nothing was measured, so nothing is said.
    """
    name = "measured_voltage"
    xs, ys = [float(x) for x, _ in polarisation], [float(y) for _, y in polarisation]
    for low, high in pairwise(ys):
        if high < low:
            raise OutOfRange(name, "polarisation", high, range_said("least_point_before", limit=low))
    if not xs[0] <= current_density_a_per_m2 <= xs[-1]:
        raise OutOfRange(
            name,
            "current_density_a_per_m2",
            float(current_density_a_per_m2),
            range_said("between_measured", low=xs[0], high=xs[-1]),
        )
    return _monotone(xs, ys, float(current_density_a_per_m2))


def _monotone(xs: list[float], ys: list[float], x: float) -> float:
    widths = [b - a for a, b in pairwise(xs)]
    rises = [(b - a) / width for a, b, width in zip(ys, ys[1:], widths, strict=False)]
    slopes = [
        _end_slope(widths, rises),
        *(_inner_slope(*four) for four in zip(widths, widths[1:], rises, rises[1:], strict=False)),
        _end_slope(widths[::-1], rises[::-1]),
    ]
    place = max(i for i in range(len(widths)) if x >= xs[i])
    width, s = widths[place], (x - xs[place]) / widths[place]
    return float(
        ys[place] * (1 + 2 * s) * (1 - s) ** 2
        + slopes[place] * width * s * (1 - s) ** 2
        + ys[place + 1] * s**2 * (3 - 2 * s)
        - slopes[place + 1] * width * s**2 * (1 - s)
    )


def _inner_slope(width: float, next_width: float, rise: float, next_rise: float) -> float:
    if rise * next_rise <= 0:
        return 0.0
    first, second = 2 * next_width + width, next_width + 2 * width
    return (first + second) / (first / rise + second / next_rise)


def _end_slope(widths: list[float], rises: list[float]) -> float:
    """Three-point slope at an end, held so that the curve stays monotone."""
    if len(widths) == 1:
        return rises[0]
    slope = ((2 * widths[0] + widths[1]) * rises[0] - widths[0] * rises[1]) / (widths[0] + widths[1])
    if slope * rises[0] <= 0:
        return 0.0
    if rises[0] * rises[1] <= 0 and abs(slope) > 3 * abs(rises[0]):
        return 3 * rises[0]
    return slope


@calculation(water_content=between(2, 30), temperature_k=TEMPERATURE)
def membrane_conductivity(water_content: float, temperature_k: float) -> float:
    """
    Conductivity of a wet sulphonated fluoropolymer membrane.

    Parameters
    ----------
    water_content : float
        Molecules of water for each acid group, 2 to 30; about 22 in liquid water. [-]
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Conductivity. [S/m]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Fit to measured conductivity, printed in S/cm [springer-1991, conductivity of the membrane].
    """
    return 100 * (0.005139 * water_content - 0.00326) * exp(1268 * (1 / 303 - 1 / temperature_k))


@calculation(
    current_density_a_per_m2=CURRENT_DENSITY,
    exchange_current_density_a_per_m2=between(1e-12, 1e5),
    temperature_k=TEMPERATURE,
)
def activation_voltage(
    current_density_a_per_m2: float, exchange_current_density_a_per_m2: float, temperature_k: float
) -> float:
    """
    Voltage that an electrode takes to make its reaction go.

    Parameters
    ----------
    current_density_a_per_m2 : float
        Current density, above 0. [A/m2]
    exchange_current_density_a_per_m2 : float
        Exchange current density of the electrode at the stack's temperature. [A/m2]
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Voltage. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Butler-Volmer equation with a symmetry factor of one half and two electrons, turned round:
    RT/F times the inverse hyperbolic sine of j/(2·j0) [harrison-2006, activation overpotential].
    """
    ratio = current_density_a_per_m2 / (2 * exchange_current_density_a_per_m2)
    return GAS_CONSTANT * temperature_k / FARADAY * log(ratio + sqrt(power(ratio, 2) + 1))


@calculation(
    exchange_current_density_a_per_m2=between(1e-12, 1e5),
    activation_energy_j_per_mol=between(0, 2e5),
    given_temperature_k=TEMPERATURE,
    temperature_k=TEMPERATURE,
)
def exchange_current_density(
    exchange_current_density_a_per_m2: float,
    activation_energy_j_per_mol: float,
    given_temperature_k: float,
    temperature_k: float,
) -> float:
    """
    Exchange current density of an electrode, carried to the stack's temperature.

    Parameters
    ----------
    exchange_current_density_a_per_m2 : float
        Exchange current density at the temperature for which it is given. [A/m2]
    activation_energy_j_per_mol : float
        Activation energy of the electrode's reaction. [J/mol]
    given_temperature_k : float
        Temperature for which it is given, 0 to 100 °C. [K]
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]

    Returns
    -------
    float
        Exchange current density. [A/m2]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Arrhenius' law [chung-2024, supplementary information, temperature dependence of the exchange current density].
    """
    return exchange_current_density_a_per_m2 * exp(
        activation_energy_j_per_mol / GAS_CONSTANT * (1 / given_temperature_k - 1 / temperature_k)
    )


@calculation(
    current_density_a_per_m2=CURRENT_DENSITY,
    temperature_k=TEMPERATURE,
    reversible_voltage_v=between(1, 2),
    membrane_thickness_m=between(5e-6, 1.15e-3),
    water_content=between(2, 30),
    contact_resistance_ohm_m2=between(0, 1e-3),
)
def modelled_voltage(
    current_density_a_per_m2: float,
    temperature_k: float,
    reversible_voltage_v: float,
    membrane_thickness_m: float,
    water_content: float = 22.0,
    contact_resistance_ohm_m2: float = 0.0,
) -> float:
    """
    Voltage of a cell of which nothing was measured, by a published semi-empirical model.

    Parameters
    ----------
    current_density_a_per_m2 : float
        Current density, above 0. [A/m2]
    temperature_k : float
        Temperature of the stack, 0 to 100 °C. [K]
    reversible_voltage_v : float
        Reversible voltage at the stack's temperature and pressures. [V]
    membrane_thickness_m : float
        Thickness of the membrane in water, 5 µm to 1.15 mm. [m]
    water_content : float
        Molecules of water for each acid group, 2 to 30; about 22 in liquid water. [-]
    contact_resistance_ohm_m2 : float
        Resistance of plates, porous layers and contacts, times area. [ohm m2]

    Returns
    -------
    float
        Voltage of one cell. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Reversible voltage, activation of both electrodes and resistance [harrison-2006, stack model]; exchange current
    densities fitted to a single cell with a membrane of 178 µm at 60 and 80 °C
    [chung-2024, supplementary information, tables S3 and S4]; its conductivity
    [springer-1991, conductivity of the membrane]. Another cell may stand 0.1 V away from it: measure.
    """
    anode = exchange_current_density(ANODE_EXCHANGE, ANODE_ACTIVATION, EXCHANGE_TEMPERATURE, temperature_k)
    cathode = exchange_current_density(CATHODE_EXCHANGE, CATHODE_ACTIVATION, EXCHANGE_TEMPERATURE, temperature_k)
    return (
        reversible_voltage_v
        + activation_voltage(current_density_a_per_m2, anode, temperature_k)
        + activation_voltage(current_density_a_per_m2, cathode, temperature_k)
        + current_density_a_per_m2
        * (membrane_thickness_m / membrane_conductivity(water_content, temperature_k) + contact_resistance_ohm_m2)
    )


@calculation(cell_voltage_v=above(0, 10), cold_rise_v=between(0, 2))
def cold_cell_voltage(cell_voltage_v: float, cold_rise_v: float) -> float:
    """
    Voltage of a cell before it has warmed.

    Parameters
    ----------
    cell_voltage_v : float
        Voltage of one cell at operating temperature. [V]
    cold_rise_v : float
        Rise of cell voltage from operating temperature to a cold start, same current. [V]

    Returns
    -------
    float
        Voltage of one cell, cold. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Definition of the rise [by-definition].
    """
    return cell_voltage_v + cold_rise_v


@calculation(cell_voltage_v=above(0, 10), cells=CELLS)
def stack_voltage(cell_voltage_v: float, cells: float) -> float:
    """
    Voltage of cells in series.

    Parameters
    ----------
    cell_voltage_v : float
        Voltage of one cell. [V]
    cells : float
        Cells in series, 1 to 1000. [-]

    Returns
    -------
    float
        Voltage of the stack. [V]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Cells in series [by-definition].
    """
    return cells * cell_voltage_v


@calculation(voltage_v=above(0, 1e4), current_a=CURRENT)
def direct_power(voltage_v: float, current_a: float) -> float:
    """
    Power of a direct current.

    Parameters
    ----------
    voltage_v : float
        Voltage. [V]
    current_a : float
        Current. [A]

    Returns
    -------
    float
        Power. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Voltage times current [by-definition].
    """
    return voltage_v * current_a


@calculation(power_w=above(0, 1e8), conversion_efficiency=between(0.01, 1))
def power_drawn(power_w: float, conversion_efficiency: float) -> float:
    """
    Power drawn by a converter that delivers a power.

    Parameters
    ----------
    power_w : float
        Power delivered. [W]
    conversion_efficiency : float
        Power delivered over power drawn, 1 to 100 %. [-]

    Returns
    -------
    float
        Power drawn. [W]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Definition of an efficiency [by-definition].
    """
    return power_w / conversion_efficiency
