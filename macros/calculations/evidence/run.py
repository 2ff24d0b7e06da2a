"""Evidence for the run that fills a bank."""

from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.evidence.storage import ATMOSPHERE, KWH, gauge, other_density
from macros.calculations.run import fill_run

_SHED = dict(
    buffer_volume_m3=0.010, train_volume_m3=0.0, bank_volume_m3=0.2, buffer_start_pa=gauge(15), bank_start_pa=ATMOSPHERE,
    bank_full_pa=gauge(50), cut_in_pa=gauge(15), cut_out_pa=gauge(25), trip_pa=gauge(27), cracking_difference_pa=0.0,
    temperature_k=288.15, stack_flow_kg_per_s=9.9e-6, stack_power_w=1900.0, swept_volume_m3=60e-6, faces=1.0,
    clearance=0.05, free_stroke_rate_per_s=20 / 60, area_ratio=12.0, assisting_area_ratio=0.0, drive_pressure_pa=gauge(6),
    atmosphere_pa=ATMOSPHERE, free_air_of_stroke_m3=9.967e-3, electricity_j_per_m3=0.11 * KWH, polytropic_index=1.2,
)  # fmt: skip
_STRONG = _SHED | dict(free_stroke_rate_per_s=50.0, clearance=0.0, area_ratio=100.0)

_AT = {
    name: other_density(f"{{{name}}}", "{temperature_k}")
    for name in ("buffer_start_pa", "bank_start_pa", "bank_full_pa", "cut_in_pa", "cut_out_pa")
}
_VOLUMES = "({buffer_volume_m3} + {train_volume_m3})"

EVIDENCE = [
    OtherRoute(
        fill_run,
        library="scipy",
        call=(
            f"(({_VOLUMES} + {{bank_volume_m3}}) * {_AT['bank_full_pa']} - {_VOLUMES} * {_AT['buffer_start_pa']}"
            f" - {{bank_volume_m3}} * {_AT['bank_start_pa']}) / {{stack_flow_kg_per_s}}"
        ),
        pick=lambda run: run.time_s,
        rel=3e-4,
        rows=[
            (_SHED | dict(bank_full_pa=gauge(20)), 33967.7141),
            (_SHED | dict(bank_full_pa=gauge(24), train_volume_m3=0.003, bank_start_pa=gauge(3)), 36052.656),
        ],
    ),
    OtherRoute(
        fill_run,
        library="scipy",
        call=f"{{bank_volume_m3}} * ({_AT['bank_full_pa']} - {_AT['bank_start_pa']})",
        pick=lambda run: run.bank_mass_gained_kg,
        rel=3e-4,
        rows=[(_SHED, 0.815680439)],
    ),
    OtherRoute(
        fill_run,
        library="scipy",
        call=f"{{bank_volume_m3}} * ({_AT['cut_out_pa']} - {_AT['bank_start_pa']})",
        pick=lambda run: run.free_mass_kg,
        rel=3e-4,
        rows=[(_SHED, 0.413970443)],
    ),
    OtherRoute(
        fill_run,
        library="scipy",
        call=(
            f"{{bank_volume_m3}} * ({_AT['bank_full_pa']} - {_AT['cut_out_pa']})"
            f" / ({_VOLUMES} * ({_AT['cut_out_pa']} - {_AT['cut_in_pa']}))"
        ),
        pick=lambda run: run.starts - 0.5,
        abs=0.5,
        rows=[(_STRONG, 48.9585409)],
    ),
    ByHand(
        fill_run,
        arithmetic=(
            "the bank takes 0.8327 − 0.0170 = 0.8157 kg; the buffer keeps at the end what it had, give or take one swing of"
            " 8.4 g: 0.8157 / 9.9e-6 = 82 400 s, 22.9 h, give or take 850 s"
        ),
        pick=lambda run: run.time_s,
        abs=850.0,
        rows=[(_SHED, 82400.0)],
    ),
    ByHand(
        fill_run,
        arithmetic="22.9 h at 1.9 kW: 43.5 kWh for the stack, give or take 0.45 kWh",
        pick=lambda run: run.stack_energy_j,
        abs=0.45 * KWH,
        rows=[(_SHED, 43.5 * KWH)],
    ),
]
