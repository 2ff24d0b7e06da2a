"""Evidence for vehicle tanks."""

from macros.calculations.evidence import FromMemory, OtherRoute
from macros.calculations.vehicle import mass_to_fill, state_of_charge

# The density by the short equation of Lemmon, Huber and Leachman (2008), an equation of its own: Z = 1 + Σ a (100/T)^b p^c, p in MPa.
LEMMON = (
    "(lambda T, p: p * 2.01588e-3 / (8.314472 * T) / (1 + sum(a * (100 / T) ** b * (p / 1e6) ** c for a, b, c in zip("
    "(0.05888460, -0.06136111, -0.002650473, 0.002731125, 0.001802374, -0.001150707, 0.9588528e-4, -0.1109040e-6, 0.1264403e-9),"
    " (1.325, 1.87, 2.5, 2.8, 2.938, 3.14, 3.37, 3.75, 4.0), (1, 1, 2, 2, 2.42, 2.63, 3, 4, 5)))))"
)

EVIDENCE = [
    FromMemory(
        state_of_charge,
        source="sae-j2601-charge",
        locator="a 35 MPa tank is full at 24.0 g/L, a 70 MPa tank at 40.2 g/L: 43.8 and 87.5 MPa at 85 °C are full",
        rel=5e-3,
        rows=[
            (dict(pressure_pa=43.8e6, temperature_k=358.15, nominal_pressure_pa=35e6), 1.0),
            (dict(pressure_pa=87.5e6, temperature_k=358.15, nominal_pressure_pa=70e6), 1.0),
        ],
    ),
    OtherRoute(
        state_of_charge,
        library="scipy",
        source="lemmon-2008",
        locator="equation 3",
        call="(lambda f: f({temperature_k}, {pressure_pa}) / f(288.15, {nominal_pressure_pa}))(" + LEMMON + ")",
        rel=1e-3,
        rows=[
            (dict(pressure_pa=10e6, temperature_k=300.0, nominal_pressure_pa=20.1e6), 0.5081737072),
            (dict(pressure_pa=14.1e6, temperature_k=330.0, nominal_pressure_pa=20.1e6), 0.6396498008),
        ],
    ),
    OtherRoute(
        mass_to_fill,
        library="scipy",
        source="lemmon-2008",
        locator="equation 3",
        call="{tank_volume_m3} * (lambda f: f(288.15, {nominal_pressure_pa}) - f({temperature_k}, {start_pressure_pa}))(" + LEMMON + ")",
        rel=1e-3,
        rows=[
            (dict(tank_volume_m3=0.12, start_pressure_pa=2e6, temperature_k=288.15, nominal_pressure_pa=20.1e6), 1.601121125),
            (dict(tank_volume_m3=0.12, start_pressure_pa=5e6, temperature_k=300.0, nominal_pressure_pa=35.1e6), 2.415033746),
        ],
    ),
]  # fmt: skip
