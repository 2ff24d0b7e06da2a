"""
A vehicle tank: how full it is, and how much it still takes.

What flows from each bank in turn is the balance of two vessels joined, which `equalise` holds.
"""

from macros.calculations.contract import above, between, calculation
from macros.calculations.formula import Constant, largest
from macros.calculations.hydrogen import density

SETTLED_TEMPERATURE = Constant(
    288.15, "T_15", "K", "temperature at which a tank's nominal pressure counts", "sae-j2601-charge"
)

_PRESSURE, _TEMPERATURE = between(1e4, 100e6), between(200.0, 400.0)


@calculation(pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE, nominal_pressure_pa=_PRESSURE)
def state_of_charge(pressure_pa: float, temperature_k: float, nominal_pressure_pa: float) -> float:
    """
    How full a tank is: its density over that at nominal pressure and 15 °C.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure in the tank, 10 kPa to 100 MPa. [Pa]
    temperature_k : float
        Temperature of its gas, 200 to 400. [K]
    nominal_pressure_pa : float
        Nominal working pressure, absolute, 10 kPa to 100 MPa. [Pa]

    Returns
    -------
    float
        Share; above 1 the tank is overfull. [-]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it.

    Notes
    -----
    Ratio of densities [sae-j2601-charge, definition of state of charge].
    """
    return density(pressure_pa, temperature_k) / density(nominal_pressure_pa, SETTLED_TEMPERATURE)


@calculation(
    tank_volume_m3=above(0.0, 100.0), start_pressure_pa=_PRESSURE, temperature_k=_TEMPERATURE,
    nominal_pressure_pa=_PRESSURE,
)  # fmt: skip
def mass_to_fill(
    tank_volume_m3: float, start_pressure_pa: float, temperature_k: float, nominal_pressure_pa: float
) -> float:
    """
    Hydrogen that a tank still takes; nothing where it is full.

    Parameters
    ----------
    tank_volume_m3 : float
        Volume of the tank, above 0. [m3]
    start_pressure_pa : float
        Absolute pressure before filling, 10 kPa to 100 MPa. [Pa]
    temperature_k : float
        Temperature of its gas before filling, 200 to 400. [K]
    nominal_pressure_pa : float
        Nominal working pressure, absolute, 10 kPa to 100 MPa. [Pa]

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
    Volume times the density that is missing from a full tank [sae-j2601-charge, definition of state of charge].
    """
    return tank_volume_m3 * largest(
        0.0, density(nominal_pressure_pa, SETTLED_TEMPERATURE) - density(start_pressure_pa, temperature_k)
    )
