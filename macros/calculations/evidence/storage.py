"""
Evidence for gas in a vessel.

The routes in text below rest on the equation of Lemmon, Huber and Leachman for the density of hydrogen, which shares
neither code nor form with the reference equation; other subjects take them from here.
"""

from macros.calculations.evidence import ByHand, CommonPractice, FromMemory, OtherRoute, Printed
from macros.calculations.storage import (
    amount_of_mass,
    energy_higher,
    energy_lower,
    mass_between,
    mass_stored,
    pressure_when,
    transportable_fill_limit,
)

BAR = 1e5
KWH = 3.6e6
ATMOSPHERE = 101325.0

_TERMS = (
    "zip((0.05888460, -0.06136111, -0.002650473, 0.002731125, 0.001802374, -0.001150707, 0.9588528e-4, -0.1109040e-6,"
    " 0.1264403e-9), (1.325, 1.87, 2.5, 2.8, 2.938, 3.14, 3.37, 3.75, 4.0), (1, 1, 2, 2, 2.42, 2.63, 3, 4, 5))"
)
"""The coefficients a, exponents b of 100 K / T and exponents c of the pressure in MPa, as printed."""


def other_terms() -> str:
    """The terms of the other equation, as an expression."""
    return _TERMS


def gauge(bar: float) -> float:
    """Absolute pressure of a gauge pressure in bar, at sea level."""
    return bar * BAR + ATMOSPHERE


def other_density(pressure: str, temperature: str) -> str:
    """Density by the other equation, as an expression."""
    factor = f"(1 + sum(a * (100 / {temperature})**b * ({pressure} / 1e6)**c for a, b, c in {_TERMS}))"
    return f"({pressure} * 2.01588e-3 / (scipy.constants.R * {temperature} * {factor}))"


def other_pressure(density: str, temperature: str) -> str:
    """Pressure by the other equation, as an expression: the root of its density."""
    return f"scipy.optimize.brentq(lambda P: {other_density('P', temperature)} - ({density}), 1e2, 3e8, xtol=1e-4)"


_SETTLED = other_pressure(other_density("{pressure_pa}", "{temperature_k}"), "{later_temperature_k}")
_BETWEEN = (
    "{volume_m3} * ("
    + other_density("{full_pressure_pa}", "{temperature_k}")
    + " - "
    + other_density("{empty_pressure_pa}", "{temperature_k}")
    + ")"
)

EVIDENCE = [
    ByHand(
        mass_stored,
        source="lemmon-2008",
        arithmetic=(
            "50 L at 10 MPa and 300 K; table 2 prints 3.782 670 48 mol/L there:"
            " 50 × 3.782 670 48 × 2.015 88 g = 381.27 g"
        ),
        rel=1e-4,
        rows=[(dict(volume_m3=0.05, pressure_pa=10e6, temperature_k=300.0), 0.381271)],
    ),
    Printed(
        mass_stored,
        source="h2tools-properties",
        locator="density at 20 °C and 1 atm",
        rel=5e-4,
        rows=[(dict(volume_m3=1.0, pressure_pa=ATMOSPHERE, temperature_k=293.15), 0.08375)],
    ),
    OtherRoute(
        mass_stored,
        library="scipy",
        call="{volume_m3} * " + other_density("{pressure_pa}", "{temperature_k}"),
        rel=2e-4,
        rows=[
            (dict(volume_m3=0.2, pressure_pa=gauge(50), temperature_k=288.15), 0.832721408),
            (dict(volume_m3=0.05, pressure_pa=200 * BAR, temperature_k=288.15), 0.746982433),
            (dict(volume_m3=0.3, pressure_pa=gauge(140), temperature_k=288.15), 3.27219726),
            (dict(volume_m3=0.12, pressure_pa=350 * BAR, temperature_k=288.15), 2.8794067),
        ],
    ),
    OtherRoute(
        mass_between,
        library="scipy",
        call=_BETWEEN,
        rel=3e-4,
        rows=[
            (
                dict(volume_m3=0.2, full_pressure_pa=gauge(50), empty_pressure_pa=gauge(2), temperature_k=278.15),
                0.809670525,
            ),
            (
                dict(volume_m3=0.3, full_pressure_pa=gauge(140), empty_pressure_pa=gauge(50), temperature_k=288.15),
                2.02311515,
            ),
        ],
    ),
    ByHand(
        mass_between,
        source="lemmon-2008",
        arithmetic=(
            "50 L at 300 K from 10 MPa (table 2: 3.782 670 48 mol/L) down to 1 bar, as good as an ideal gas"
            " (1e5 / (8.314 463 × 300) = 40.09 mol/m³): 50 × (3.782 670 − 0.040 09) × 2.015 88 g = 377.23 g"
        ),
        rel=1e-4,
        rows=[(dict(volume_m3=0.05, full_pressure_pa=10e6, empty_pressure_pa=1e5, temperature_k=300.0), 0.37723)],
    ),
    Printed(
        energy_lower,
        source="doe-record-9013",
        locator="quoted there as 33.3 kWh/kg",
        rel=1e-3,
        rows=[(dict(mass_kg=1.0), 33.3 * KWH)],
    ),
    OtherRoute(
        energy_lower,
        library="chemicals",
        call="{mass_kg} * -chemicals.Hfg('7732-18-5') / (chemicals.MW('1333-74-0') / 1000)",
        rel=2e-4,
        rows=[(dict(mass_kg=0.83271), 99890666.9), (dict(mass_kg=3.0), 359875588)],
    ),
    ByHand(
        energy_higher,
        source="codata-key-values",
        arithmetic="water, liquid, at 25 °C: 285.830 kJ/mol; 285.830 / 2.015 88 = 141.789 MJ for a kilogram",
        rel=1e-4,
        rows=[(dict(mass_kg=1.0), 141.789e6)],
    ),
    OtherRoute(
        energy_higher,
        library="chemicals",
        call="{mass_kg} * -chemicals.Hfl('7732-18-5') / (chemicals.MW('1333-74-0') / 1000)",
        rel=2e-4,
        rows=[(dict(mass_kg=0.83271), 118067214)],
    ),
    OtherRoute(
        amount_of_mass,
        library="chemicals",
        call="{mass_kg} / (chemicals.MW('1333-74-0') / 1000)",
        rel=1e-5,
        rows=[(dict(mass_kg=0.83271), 413.075183)],
    ),
    ByHand(
        amount_of_mass,
        arithmetic="1 kg of hydrogen, 2 × 1.008 g/mol from the periodic table: 1000 / 2.016 = 496.0 mol, 11.12 Nm³",
        rel=2e-4,
        rows=[(dict(mass_kg=1.0), 496.0)],
    ),
    CommonPractice(
        pressure_when,
        source="common-practice",
        abs=0.6 * BAR,
        rows=[
            (dict(pressure_pa=gauge(140), temperature_k=288.15, later_temperature_k=263.15), gauge(127)),
            (dict(pressure_pa=gauge(140), temperature_k=288.15, later_temperature_k=313.15), gauge(153)),
        ],
    ),
    FromMemory(
        pressure_when,
        source="gtr-13",
        locator="1.25 times 35 and 70 MPa, near what the nominal fill reaches at 85 °C",
        rel=3e-3,
        rows=[
            (dict(pressure_pa=35e6, temperature_k=288.15, later_temperature_k=358.15), 43.8e6),
            (dict(pressure_pa=70e6, temperature_k=288.15, later_temperature_k=358.15), 87.5e6),
        ],
    ),
    OtherRoute(
        pressure_when,
        library="scipy",
        call=_SETTLED,
        rel=3e-4,
        rows=[
            (dict(pressure_pa=gauge(50), temperature_k=288.15, later_temperature_k=338.15), 5996690.13),
            (dict(pressure_pa=gauge(50), temperature_k=288.15, later_temperature_k=258.15), 4563326.8),
            (dict(pressure_pa=200 * BAR, temperature_k=338.15, later_temperature_k=288.15), 16969639.9),
        ],
    ),
    OtherRoute(
        transportable_fill_limit,
        library="scipy",
        call="min({working_pressure_pa}, "
        + other_pressure(other_density("{test_pressure_pa}", "338.15"), "288.15")
        + ")",
        rel=3e-4,
        rows=[
            (dict(working_pressure_pa=gauge(200), test_pressure_pa=gauge(300)), gauge(200)),
            (dict(working_pressure_pa=gauge(200), test_pressure_pa=gauge(225)), 19170971.5),
        ],
    ),
]
