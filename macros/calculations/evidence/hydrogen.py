"""
Evidence for the properties of hydrogen.

The equation of Lemmon, Huber and Leachman for the density is explicit in pressure and shares no code and no form with the
reference equation. Enthalpy and entropy along an isotherm follow from it by calculus; along an isobar they follow from the
heat capacity of the ideal gas that the library chemicals carries. The zeros of energy and entropy are conventions, so those
routes start from one state of a printed table.
"""

from macros.calculations.evidence import ByHand, OtherRoute, Printed
from macros.calculations.hydrogen import (
    compressibility,
    density,
    enthalpy,
    entropy,
    heat_capacity_pressure,
    heat_capacity_volume,
    internal_energy,
    isentropic_temperature,
    pressure,
    temperature_of_energy,
    viscosity,
)

MPA = 1e6
MOLAR_MASS = 2.01588e-3

_TERMS = (
    "zip((0.05888460, -0.06136111, -0.002650473, 0.002731125, 0.001802374, -0.001150707, 0.9588528e-4, -0.1109040e-6,"
    " 0.1264403e-9), (1.325, 1.87, 2.5, 2.8, 2.938, 3.14, 3.37, 3.75, 4.0), (1, 1, 2, 2, 2.42, 2.63, 3, 4, 5))"
)
"""The coefficients a, exponents b of 100 K / T and exponents c of the pressure in MPa, as printed."""

_HEAT = "4.7, 2311000.0, 1150.0, -10.157, 11.235, -1640000.0, 39.0, 41.0"
"""Coefficients of the heat capacity of the ideal gas, as the library chemicals carries them for hydrogen."""


def _sum_over_terms(weight: str, temperature_k: str, pressure_pa: str) -> str:
    return f"sum({weight} * (100 / {temperature_k})**b * ({pressure_pa} / 1e6)**c for a, b, c in {_TERMS})"


def _enthalpy_departure(temperature_k: str, pressure_pa: str) -> str:
    return (
        f"scipy.constants.R * {temperature_k} / 2.01588e-3 * {_sum_over_terms('a * b / c', temperature_k, pressure_pa)}"
    )


def _entropy_departure(temperature_k: str, pressure_pa: str) -> str:
    return f"scipy.constants.R / 2.01588e-3 * {_sum_over_terms('a * (b - 1) / c', temperature_k, pressure_pa)}"


def _ideal(function: str, temperature_k: str) -> str:
    return f"chemicals.heat_capacity.{function}({temperature_k}, {_HEAT}) / 2.01588e-3"


_FACTOR = f"(1 + {_sum_over_terms('a', '{temperature_k}', '{pressure_pa}')})"
_DENSITY = f"{{pressure_pa}} * 2.01588e-3 / (scipy.constants.R * {{temperature_k}} * {_FACTOR})"
_ENTHALPY = (
    f"3676.1e3 - {_enthalpy_departure('280.0', '1e6')} - {_ideal('TRCCp_integral', '280.0')}"
    f" + {_ideal('TRCCp_integral', '{temperature_k}')} + {_enthalpy_departure('{temperature_k}', '{pressure_pa}')}"
)
_ENTROPY = (
    f"43.025e3 - {_entropy_departure('280.0', '1e6')} - {_ideal('TRCCp_integral_over_T', '280.0')}"
    f" + {_ideal('TRCCp_integral_over_T', '{temperature_k}')} + {_entropy_departure('{temperature_k}', '{pressure_pa}')}"
    " - scipy.constants.R / 2.01588e-3 * numpy.log({pressure_pa} / 1e6)"
)

EVIDENCE = [
    Printed(
        density,
        source="lemmon-2008",
        locator="table 2, molar density times 2.01588 g/mol",
        rel=5e-5,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=200.0), 0.59732645e3 * MOLAR_MASS),
            (dict(pressure_pa=10 * MPA, temperature_k=300.0), 3.78267048e3 * MOLAR_MASS),
            (dict(pressure_pa=50 * MPA, temperature_k=400.0), 12.09449023e3 * MOLAR_MASS),
        ],
    ),
    Printed(
        density,
        source="h2tools-properties",
        locator="density at 20 °C and 1 atm",
        rel=2e-4,
        rows=[(dict(pressure_pa=101325.0, temperature_k=293.15), 0.08375)],
    ),
    Printed(
        density,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=5e-5,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=280.0), 0.86069),
            (dict(pressure_pa=1 * MPA, temperature_k=500.0), 0.48302),
            (dict(pressure_pa=10 * MPA, temperature_k=500.0), 4.6658),
        ],
    ),
    OtherRoute(
        density,
        library="scipy, with the equation of Lemmon, Huber, Leachman (J. Res. NIST 113, equation 3)",
        call=_DENSITY,
        rel=1e-4,
        rows=[
            (dict(pressure_pa=0.1 * MPA, temperature_k=288.15), 0.0840913151),
            (dict(pressure_pa=2.6 * MPA, temperature_k=288.15), 2.15397639),
            (dict(pressure_pa=20 * MPA, temperature_k=288.15), 14.9396487),
            (dict(pressure_pa=35 * MPA, temperature_k=358.15), 19.9490919),
            (dict(pressure_pa=70 * MPA, temperature_k=288.15), 40.1723065),
        ],
    ),
    Printed(
        compressibility,
        source="lemmon-2008",
        locator="table 2",
        rel=5e-5,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=200.0), 1.00675450),
            (dict(pressure_pa=10 * MPA, temperature_k=300.0), 1.05985282),
            (dict(pressure_pa=50 * MPA, temperature_k=400.0), 1.24304763),
        ],
    ),
    OtherRoute(
        compressibility,
        library="the equation of Lemmon, Huber, Leachman (J. Res. NIST 113, equation 3), evaluated with math",
        call=_FACTOR,
        rel=1e-4,
        rows=[
            (dict(pressure_pa=5 * MPA, temperature_k=288.15), 1.030297),
            (dict(pressure_pa=20 * MPA, temperature_k=288.15), 1.12642292),
        ],
    ),
    Printed(
        pressure,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=5e-5,
        rows=[
            (dict(density_kg_per_m3=0.86069, temperature_k=280.0), 1 * MPA),
            (dict(density_kg_per_m3=4.6658, temperature_k=500.0), 10 * MPA),
        ],
    ),
    Printed(
        pressure,
        source="lemmon-2008",
        locator="table 2, molar density times 2.01588 g/mol",
        rel=1e-4,
        rows=[
            (dict(density_kg_per_m3=0.59732645e3 * MOLAR_MASS, temperature_k=200.0), 1 * MPA),
            (dict(density_kg_per_m3=3.78267048e3 * MOLAR_MASS, temperature_k=300.0), 10 * MPA),
            (dict(density_kg_per_m3=12.09449023e3 * MOLAR_MASS, temperature_k=400.0), 50 * MPA),
        ],
    ),
    Printed(
        enthalpy,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=5e-5,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=280.0), 3676.1e3),
            (dict(pressure_pa=1 * MPA, temperature_k=500.0), 6856.5e3),
            (dict(pressure_pa=10 * MPA, temperature_k=500.0), 6923.4e3),
        ],
    ),
    Printed(
        enthalpy,
        source="h2tools-properties",
        locator="enthalpy at 20 °C and 1 atm (the zero of an earlier equation of state)",
        rel=1e-3,
        rows=[(dict(pressure_pa=101325.0, temperature_k=293.15), 3858.1e3)],
    ),
    OtherRoute(
        enthalpy,
        library="chemicals, scipy: heat of the ideal gas from 280 K, departure by the equation of Lemmon, Huber, Leachman",
        call=_ENTHALPY,
        rel=1e-3,
        rows=[
            (dict(pressure_pa=0.1 * MPA, temperature_k=288.15), 3788872.74),
            (dict(pressure_pa=2.6 * MPA, temperature_k=333.15), 4447322.11),
            (dict(pressure_pa=20 * MPA, temperature_k=300.0), 4060823.26),
            (dict(pressure_pa=35 * MPA, temperature_k=358.15), 5020946.16),
        ],
    ),
    Printed(
        internal_energy,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=5e-5,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=280.0), 2514.2e3),
            (dict(pressure_pa=1 * MPA, temperature_k=500.0), 4786.2e3),
            (dict(pressure_pa=10 * MPA, temperature_k=500.0), 4780.1e3),
        ],
    ),
    Printed(
        internal_energy,
        source="h2tools-properties",
        locator="internal energy at 20 °C and 1 atm (the zero of an earlier equation of state)",
        rel=1e-3,
        rows=[(dict(pressure_pa=101325.0, temperature_k=293.15), 2648.3e3)],
    ),
    Printed(
        entropy,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=5e-5,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=280.0), 43.025e3),
            (dict(pressure_pa=1 * MPA, temperature_k=500.0), 51.401e3),
            (dict(pressure_pa=10 * MPA, temperature_k=500.0), 41.892e3),
        ],
    ),
    OtherRoute(
        entropy,
        library="chemicals, scipy, numpy: heat of the ideal gas from 280 K, departure by the equation of Lemmon, Huber, Leachman",
        call=_ENTROPY,
        rel=1e-3,
        rows=[
            (dict(pressure_pa=0.1 * MPA, temperature_k=288.15), 52941.44),
            (dict(pressure_pa=2.6 * MPA, temperature_k=333.15), 41567.1201),
            (dict(pressure_pa=20 * MPA, temperature_k=300.0), 31515.2548),
            (dict(pressure_pa=35 * MPA, temperature_k=358.15), 31775.9067),
        ],
    ),
    Printed(
        heat_capacity_pressure,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=1e-4,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=280.0), 14.26e3),
            (dict(pressure_pa=1 * MPA, temperature_k=500.0), 14.52e3),
            (dict(pressure_pa=10 * MPA, temperature_k=500.0), 14.584e3),
        ],
    ),
    Printed(
        heat_capacity_pressure,
        source="hydrogen-table-fluid-mechanics",
        locator="table A-1, hydrogen at 25 °C",
        rel=1e-3,
        rows=[(dict(pressure_pa=1e5, temperature_k=298.15), 14.30e3)],
    ),
    OtherRoute(
        heat_capacity_pressure,
        library="chemicals",
        call=_ideal("TRCCp", "{temperature_k}"),
        rel=3e-3,
        rows=[
            (dict(pressure_pa=1000.0, temperature_k=300.0), 14309.1371),
            (dict(pressure_pa=1000.0, temperature_k=400.0), 14495.5607),
        ],
    ),
    Printed(
        heat_capacity_volume,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        rel=1e-4,
        rows=[
            (dict(pressure_pa=1 * MPA, temperature_k=280.0), 10.112e3),
            (dict(pressure_pa=1 * MPA, temperature_k=500.0), 10.392e3),
            (dict(pressure_pa=10 * MPA, temperature_k=500.0), 10.436e3),
        ],
    ),
    Printed(
        heat_capacity_volume,
        source="hydrogen-table-fluid-mechanics",
        locator="table A-1, hydrogen at 25 °C",
        rel=1e-3,
        rows=[(dict(pressure_pa=1e5, temperature_k=298.15), 10.18e3)],
    ),
    Printed(
        viscosity,
        source="muzny-2013",
        locator="values for checking, read as copied into the test suite of an open physics framework",
        rel=2e-3,
        rows=[
            (dict(pressure_pa=10.0, temperature_k=298.15), 8.8997e-6),
            (dict(pressure_pa=1 * MPA, temperature_k=350.0), 9.9645e-6),
        ],
    ),
    Printed(
        viscosity,
        source="muzny-2013",
        locator="the same at 10 MPa, where the library's terms in density differ; the correlation claims 4 %",
        rel=2e-2,
        rows=[(dict(pressure_pa=10 * MPA, temperature_k=350.0), 1.0147e-5)],
    ),
    Printed(
        viscosity,
        source="crc-gas-viscosity",
        locator="normal hydrogen, limit of low pressure",
        rel=6e-3,
        rows=[
            (dict(pressure_pa=1000.0, temperature_k=300.0), 8.9e-6),
            (dict(pressure_pa=1000.0, temperature_k=400.0), 10.9e-6),
            (dict(pressure_pa=1000.0, temperature_k=500.0), 12.8e-6),
        ],
    ),
    Printed(
        temperature_of_energy,
        source="nist-webbook-hydrogen",
        locator="280 K and 500 K, 1 and 10 MPa",
        abs=0.03,
        rows=[
            (dict(density_kg_per_m3=0.86069, internal_energy_j_per_kg=2514.2e3), 280.0),
            (dict(density_kg_per_m3=0.48302, internal_energy_j_per_kg=4786.2e3), 500.0),
            (dict(density_kg_per_m3=4.6658, internal_energy_j_per_kg=4780.1e3), 500.0),
        ],
    ),
    ByHand(
        isentropic_temperature,
        arithmetic=(
            "nearly ideal gas: T2 = T1 (p2/p1)^(R/cp) with the mean molar heat capacity of the interval. From 100 kPa and 300 K to 200 kPa: "
            "cp about 28.97 J/(mol K) between 300 and 366 K, R/cp = 0.2870, 2^0.2870 = 1.2201, 366.0 K. "
            "From 300 kPa and 300 K down to 200 kPa: cp about 28.75, R/cp = 0.2892, (2/3)^0.2892 = 0.8893, 266.8 K"
        ),
        rel=2e-3,
        rows=[
            (dict(pressure_in_pa=1e5, temperature_in_k=300.0, pressure_out_pa=2e5), 366.0),
            (dict(pressure_in_pa=3e5, temperature_in_k=300.0, pressure_out_pa=2e5), 266.8),
        ],
    ),
    Printed(
        isentropic_temperature,
        source="nist-webbook-hydrogen",
        locator="entropy 41.892 kJ/(kg K) at 10 MPa and 500 K, 43.025 at 1 MPa and 280 K; with cp 14.26 the same entropy lies at 280 K × exp(−1.133/14.26) = 258.6 K",
        abs=0.3,
        rows=[(dict(pressure_in_pa=10 * MPA, temperature_in_k=500.0, pressure_out_pa=1 * MPA), 258.6)],
    ),
]
