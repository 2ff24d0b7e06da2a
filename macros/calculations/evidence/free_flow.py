"""Evidence for gas that flows through a standing booster."""

from macros.calculations.evidence import ByHand, CommonPractice, OtherRoute
from macros.calculations.evidence.storage import ATMOSPHERE, gauge, other_density
from macros.calculations.free_flow import free_flow_mass, free_flow_pressure

_FREE = (
    "{bank_volume_m3} * max(0, "
    + other_density("{free_pressure_pa}", "{temperature_k}")
    + " - "
    + other_density("{start_pressure_pa}", "{temperature_k}")
    + ")"
)

EVIDENCE = [
    ByHand(
        free_flow_pressure,
        arithmetic=(
            "cut-out at 25 bar(g), two check valves of 0.15 bar each: the bank follows up to 24.7 bar(g);"
            " a bank for 10 bar(g) is full before"
        ),
        rel=1e-9,
        rows=[
            (
                dict(supply_pressure_pa=gauge(25), cracking_difference_pa=0.3e5, full_pressure_pa=gauge(full)),
                gauge(reached),
            )
            for full, reached in ((50, 24.7), (10, 10))
        ],
    ),
    OtherRoute(
        free_flow_mass,
        library="scipy",
        call=_FREE,
        rel=3e-4,
        rows=[
            (
                dict(
                    bank_volume_m3=0.2, start_pressure_pa=ATMOSPHERE, free_pressure_pa=gauge(25), temperature_k=288.15
                ),
                0.413970443,
            ),
            (
                dict(bank_volume_m3=0.6, start_pressure_pa=gauge(10), free_pressure_pa=gauge(28), temperature_k=278.15),
                0.9186735,
            ),
            (
                dict(bank_volume_m3=0.2, start_pressure_pa=gauge(30), free_pressure_pa=gauge(25), temperature_k=288.15),
                0.0,
            ),
        ],
    ),
    CommonPractice(
        free_flow_mass,
        source="common-practice",
        rel=0.05,
        rows=[
            (
                dict(
                    bank_volume_m3=0.2, start_pressure_pa=ATMOSPHERE, free_pressure_pa=gauge(25), temperature_k=288.15
                ),
                0.833 / 2,
            ),
        ],
    ),
]
