"""Evidence for the atmosphere."""

from macros.calculations.atmosphere import pressure_at_altitude
from macros.calculations.evidence import ByHand, FromMemory, OtherRoute

EVIDENCE = [
    OtherRoute(
        pressure_at_altitude,
        library="fluids",
        call="fluids.ATMOSPHERE_1976({altitude_m}).P",
        rel=1e-6,
        rows=[
            (dict(altitude_m=-300.0), 104981.397),
            (dict(altitude_m=4.0), 101276.957),
            (dict(altitude_m=500.0), 95461.2895),
            (dict(altitude_m=1500.0), 84559.6767),
            (dict(altitude_m=5000.0), 54048.2861),
        ],
    ),
    ByHand(
        pressure_at_altitude,
        arithmetic=(
            "at the sea 101 325 Pa by definition; at 1000 m the geopotential height is 999.843 m, "
            "1 − 0.0065 × 999.843 / 288.15 = 0.977 4459, exponent 9.80665 / (287.05287 × 0.0065) = 5.255 88, "
            "0.977 4459^5.255 88 = 0.887 0099, × 101 325 Pa = 89 876 Pa"
        ),
        rel=1e-5,
        rows=[(dict(altitude_m=0.0), 101325.0), (dict(altitude_m=1000.0), 89876.3)],
    ),
    FromMemory(
        pressure_at_altitude,
        source="icao-7488",
        locator="table of the troposphere, 2000 m",
        rel=1e-4,
        rows=[(dict(altitude_m=2000.0), 79501.0)],
    ),
]
