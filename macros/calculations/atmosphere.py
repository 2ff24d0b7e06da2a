"""The atmosphere over a plant: its pressure from the altitude."""

from macros.calculations.constants import STANDARD_ATMOSPHERE, STANDARD_GRAVITY
from macros.calculations.contract import between, calculation
from macros.calculations.formula import Constant, power

SEA_LEVEL_TEMPERATURE = Constant(288.15, "T_0", "K", "temperature of the standard atmosphere at sea level", "icao-7488")
LAPSE_RATE = Constant(0.0065, "β", "K/m", "fall of temperature with height in the standard atmosphere", "icao-7488")
GAS_CONSTANT_AIR = Constant(287.05287, "R_air", "J/(kg K)", "specific gas constant of air", "icao-7488")
EARTH_RADIUS = Constant(6356766.0, "r", "m", "nominal radius of the earth in the standard atmosphere", "icao-7488")


@calculation(altitude_m=between(-1000, 11000))
def pressure_at_altitude(altitude_m: float) -> float:
    """
    Pressure of the standard atmosphere at an altitude.

    The weather swings it by up to 5 % either way; a measured value may stand in its place.

    Parameters
    ----------
    altitude_m : float
        Altitude above the sea, -1000 to 11 000 m. [m]

    Returns
    -------
    float
        Absolute pressure. [Pa]

    Raises
    ------
    OutOfRange
        If the argument lies outside its range.

    Notes
    -----
    Troposphere of the ICAO standard atmosphere, geopotential height from altitude
    [icao-7488, troposphere, as in the library fluids].
    """
    height_m = EARTH_RADIUS * altitude_m / (EARTH_RADIUS + altitude_m)
    return STANDARD_ATMOSPHERE * power(
        1 - LAPSE_RATE * height_m / SEA_LEVEL_TEMPERATURE, STANDARD_GRAVITY / (GAS_CONSTANT_AIR * LAPSE_RATE)
    )
