"""Evidence for vessels that are joined."""

from macros.calculations.equalise import boosted_transfer_mass, equalised_pressure, free_transfer_mass, pressure_after
from macros.calculations.evidence import OtherRoute
from macros.calculations.evidence.storage import ATMOSPHERE, gauge, other_density, other_pressure

_SOURCE = other_density("{source_pressure_pa}", "{temperature_k}")
_TARGET = other_density("{target_pressure_pa}", "{temperature_k}")
_LOWEST = other_density("{source_lowest_pa}", "{temperature_k}")
_FULL = other_density("{target_full_pa}", "{temperature_k}")
_EQUAL = f"({{source_volume_m3}} * {_SOURCE} + {{target_volume_m3}} * {_TARGET}) / ({{source_volume_m3}} + {{target_volume_m3}})"
_GIVES = f"{{source_volume_m3}} * ({_SOURCE} - {_LOWEST})"
_TAKES = f"{{target_volume_m3}} * ({_FULL} - {_TARGET})"
_FREE = f"max(0, min({{target_volume_m3}} * ({_EQUAL} - {_TARGET}), {_GIVES}, {_TAKES}))"

_FARM = dict(
    source_volume_m3=0.6, source_pressure_pa=gauge(50), source_lowest_pa=gauge(10), target_volume_m3=0.3,
    target_pressure_pa=ATMOSPHERE, target_full_pa=gauge(140), temperature_k=288.15,
)  # fmt: skip

EVIDENCE = [
    OtherRoute(
        equalised_pressure,
        library="scipy",
        call=other_pressure(_EQUAL, "{temperature_k}"),
        rel=3e-4,
        rows=[
            (
                dict(
                    source_volume_m3=0.6,
                    source_pressure_pa=gauge(50),
                    target_volume_m3=0.3,
                    target_pressure_pa=ATMOSPHERE,
                    temperature_k=288.15,
                ),
                3400999.95,
            ),
            (
                dict(
                    source_volume_m3=0.3,
                    source_pressure_pa=gauge(140),
                    target_volume_m3=0.12,
                    target_pressure_pa=gauge(20),
                    temperature_k=278.15,
                ),
                10483584.3,
            ),
        ],
    ),
    OtherRoute(
        free_transfer_mass,
        library="scipy",
        call=_FREE,
        rel=3e-4,
        rows=[
            (_FARM, 0.815680439),
            (_FARM | dict(source_lowest_pa=gauge(40)), 0.477686401),
            (_FARM | dict(target_full_pa=gauge(20)), 0.498248266),
            (_FARM | dict(target_pressure_pa=gauge(60)), 0.0),
        ],
    ),
    OtherRoute(
        boosted_transfer_mass,
        library="scipy",
        call=f"max(0, min({_GIVES}, {_TAKES}) - {{free_mass_kg}})",
        rel=3e-4,
        rows=[
            (_FARM | dict(free_mass_kg=0.8), 1.14581108),
            (_FARM | dict(free_mass_kg=0.0, target_pressure_pa=gauge(100)), 0.871625276),
            (_FARM | dict(free_mass_kg=0.4, target_full_pa=gauge(15)), 0.0),
        ],
    ),
    OtherRoute(
        pressure_after,
        library="scipy",
        call=other_pressure(
            f"{other_density('{pressure_pa}', '{temperature_k}')} + {{added_mass_kg}} / {{volume_m3}}",
            "{temperature_k}",
        ),
        rel=3e-4,
        rows=[
            (dict(volume_m3=0.3, pressure_pa=gauge(32), added_mass_kg=1.2, temperature_k=288.15), 8401870.57),
            (dict(volume_m3=0.6, pressure_pa=gauge(50), added_mass_kg=-1.5, temperature_k=288.15), 2000928.88),
        ],
    ),
]
