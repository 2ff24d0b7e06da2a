"""Evidence for transfers by strokes."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.evidence.storage import ATMOSPHERE, gauge, other_density, other_pressure
from macros.calculations.transfer import transfer_run

_FARM = dict(
    source_volume_m3=0.6, source_pressure_pa=gauge(33), target_volume_m3=0.3, target_pressure_pa=gauge(33), mass_kg=0.9,
    temperature_k=288.15, swept_volume_m3=60e-6, faces=1.0, clearance=0.0, free_stroke_rate_per_s=0.5, area_ratio=36.0,
    assisting_area_ratio=0.0, drive_pressure_pa=gauge(5.5), atmosphere_pa=ATMOSPHERE, free_air_of_stroke_m3=28e-3,
)  # fmt: skip

# Very large vessels hardly change while a little is moved: the flow stays what it is at the start.
_STEADY = _FARM | dict(source_volume_m3=900.0, target_volume_m3=900.0, target_pressure_pa=gauge(99), mass_kg=0.1)

_SOURCE = f"({other_density('{source_pressure_pa}', '{temperature_k}')} - m / {{source_volume_m3}})"
_TARGET = f"({other_density('{target_pressure_pa}', '{temperature_k}')} + m / {{target_volume_m3}})"
_STALL = "({area_ratio} * ({drive_pressure_pa} - {atmosphere_pa}))"
_RATE = f"({{free_stroke_rate_per_s}} * (1 - ({other_pressure(_TARGET, '{temperature_k}')} - {{atmosphere_pa}}) / {_STALL}))"
_DRAWN = f"({{swept_volume_m3}} * ({_SOURCE} - {{clearance}} * ({_TARGET} - {_SOURCE})))"

EVIDENCE = [
    OtherRoute(
        transfer_run,
        library="scipy",
        call=f"scipy.integrate.quad(lambda m: 1 / ({_DRAWN} * {_RATE}), 0, {{mass_kg}}, epsrel=1e-9)[0]",
        pick=lambda run: run.time_s,
        rel=1e-3,
        rows=[(_FARM, 21208.3368), (_FARM | dict(clearance=0.04, mass_kg=1.0), 27826.1907)],
    ),
    OtherRoute(
        transfer_run,
        library="scipy",
        call=f"scipy.integrate.quad(lambda m: 1 / {_DRAWN}, 0, {{mass_kg}}, epsrel=1e-9)[0]",
        pick=lambda run: run.strokes,
        rel=5e-4,
        rows=[(_FARM | dict(clearance=0.04), 8160.16851)],
    ),
    ByHand(
        transfer_run,
        arithmetic=(
            "from 33 to 99 bar(g), stall 36 × 5.5 = 198 bar(g), so half of 30 strokes a minute: 0.25 a second; 60 mL at"
            " 34.01 bar and 15 °C hold 60e-6 × 2.803 kg/m³ = 0.1682 g; 100 g are 594.6 strokes, 2378 s"
        ),
        pick=lambda run: run.time_s,
        rel=1.5e-3,
        rows=[(_STEADY, 2378.0)],
    ),
    ByHand(
        transfer_run,
        arithmetic="the 594.6 strokes of that transfer at 28 L of free air each: 16.65 m³",
        pick=lambda run: run.drive_air_m3,
        rel=1.5e-3,
        rows=[(_STEADY, 16.65)],
    ),
]
