"""
Emptying a vessel through an opening: how long it takes, choked first and slower at the end.

At constant temperature, as where the wall keeps the gas warm. A vessel that is let out fast cools: its
pressure falls sooner, and rises again as the wall warms what is left, so the time here is the cautious one.
"""

import math

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange, above, between, calculation, range_said
from macros.calculations.leak import nozzle_mass_flux

# Nodes and weights of Gauss and Legendre, five points: exact for polynomials up to the ninth degree.
_NODES = (
    (0.0, 128.0 / 225.0),
    (math.sqrt(5.0 - 2.0 * math.sqrt(10.0 / 7.0)) / 3.0, (322.0 + 13.0 * math.sqrt(70.0)) / 900.0),
    (-math.sqrt(5.0 - 2.0 * math.sqrt(10.0 / 7.0)) / 3.0, (322.0 + 13.0 * math.sqrt(70.0)) / 900.0),
    (math.sqrt(5.0 + 2.0 * math.sqrt(10.0 / 7.0)) / 3.0, (322.0 - 13.0 * math.sqrt(70.0)) / 900.0),
    (-math.sqrt(5.0 + 2.0 * math.sqrt(10.0 / 7.0)) / 3.0, (322.0 - 13.0 * math.sqrt(70.0)) / 900.0),
)


@calculation(
    opaque="time to empty", space_m3=above(0.0, 1e3), first_pressure_pa=between(2e3, 100e6),
    last_pressure_pa=between(1e3, 100e6), temperature_k=between(230.0, 400.0), effective_area_m2=above(0.0, 1.0),
    back_pressure_pa=between(0.0, 100e6),
)  # fmt: skip
def blowdown_time(
    space_m3: float,
    first_pressure_pa: float,
    last_pressure_pa: float,
    temperature_k: float,
    effective_area_m2: float,
    back_pressure_pa: float,
) -> float:
    """
    Time in which a vessel of hydrogen empties through an opening from one pressure to another; real gas.

    Parameters
    ----------
    space_m3 : float
        Volume of the vessel, above 0. [m3]
    first_pressure_pa : float
        Absolute pressure at first, 2 kPa to 100 MPa. [Pa]
    last_pressure_pa : float
        Absolute pressure at last, no more than at first and no less than behind the opening. [Pa]
    temperature_k : float
        Temperature, kept by the wall, 230 to 400. [K]
    effective_area_m2 : float
        Area of the opening times its discharge coefficient, above 0. [m2]
    back_pressure_pa : float
        Absolute pressure behind the opening. [Pa]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If an argument lies outside the range given for it, or the pressures are not in order.

    Notes
    -----
    Integral of what the vessel holds over what the opening passes [blowdown-balance].
    """
    if not back_pressure_pa <= last_pressure_pa <= first_pressure_pa:
        raise OutOfRange("blowdown_time", "last_pressure_pa", last_pressure_pa, range_said("between_pressures"))

    def slowness(pressure_pa: float) -> float:
        """Seconds for each pascal that the pressure falls."""
        step = 1e-4 * pressure_pa
        held = hydrogen.state_density(pressure_pa + step, temperature_k)
        held -= hydrogen.state_density(pressure_pa - step, temperature_k)
        flux = nozzle_mass_flux(pressure_pa, temperature_k, back_pressure_pa)
        return space_m3 * held / (2.0 * step) / (effective_area_m2 * flux)

    total = 0.0
    # Below the pressure at which the opening ceases to be choked the flow dies away as the root of the difference, so
    # the integral goes by that root there and by the logarithm of the pressure above.
    knee = min(first_pressure_pa, max(last_pressure_pa, 2.0 * back_pressure_pa))
    for low, high in _pieces(math.sqrt(last_pressure_pa - back_pressure_pa), math.sqrt(knee - back_pressure_pa), 8):
        for node, weight in _NODES:
            root = (high + low) / 2.0 + (high - low) / 2.0 * node
            total += weight * (high - low) / 2.0 * 2.0 * root * slowness(back_pressure_pa + root**2)
    for low, high in _pieces(math.log(knee), math.log(first_pressure_pa), 4):
        for node, weight in _NODES:
            pressure_pa = math.exp((high + low) / 2.0 + (high - low) / 2.0 * node)
            total += weight * (high - low) / 2.0 * pressure_pa * slowness(pressure_pa)
    return total


def _pieces(start: float, end: float, count: int) -> list[tuple[float, float]]:
    if not end > start:
        return []
    width = (end - start) / count
    return [(start + width * number, start + width * (number + 1)) for number in range(count)]
