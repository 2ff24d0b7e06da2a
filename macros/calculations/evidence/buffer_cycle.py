"""Evidence for the buffer's cycle."""

from macros.calculations.buffer_cycle import cycle_mass, cycles_in_time, time_of_cycle_life, time_to_make
from macros.calculations.evidence import ByHand, OtherRoute
from macros.calculations.evidence.storage import gauge, other_density

_SWING = (
    "({buffer_volume_m3} + {train_volume_m3}) * ("
    + other_density("{cut_out_pa}", "{temperature_k}")
    + " - "
    + other_density("{cut_in_pa}", "{temperature_k}")
    + ")"
)

EVIDENCE = [
    OtherRoute(
        cycle_mass,
        library="scipy",
        call=_SWING,
        rel=3e-4,
        rows=[
            (
                dict(
                    buffer_volume_m3=0.010,
                    train_volume_m3=0.0,
                    cut_in_pa=gauge(15),
                    cut_out_pa=gauge(25),
                    temperature_k=288.15,
                ),
                0.00820510555,
            ),
            (
                dict(
                    buffer_volume_m3=0.050,
                    train_volume_m3=0.006,
                    cut_in_pa=gauge(15),
                    cut_out_pa=gauge(28),
                    temperature_k=303.15,
                ),
                0.0567222105,
            ),
        ],
    ),
    ByHand(
        cycle_mass,
        arithmetic=(
            "10 L from 8 to 10 bar(g) at 20 °C as an ideal gas: 10 × 2 / 1.01325 × 273.15 / 293.15 = 18.39 NL"
            " = 18.39 / 22.414 × 2.015 88 g = 1.654 g; the real gas takes about 1 % less: 1.637 g"
        ),
        rel=2e-3,
        rows=[
            (
                dict(
                    buffer_volume_m3=0.010,
                    train_volume_m3=0.0,
                    cut_in_pa=gauge(8),
                    cut_out_pa=gauge(10),
                    temperature_k=293.15,
                ),
                1.637e-3,
            ),
        ],
    ),
    ByHand(
        time_to_make,
        arithmetic=(
            "8.34 g are 8.34 / 2.015 88 = 4.137 mol or 92.7 NL; a stack of 6.6 NL/min takes 14.05 min = 843 s;"
            " 6.6 NL/min are 6.6 / 22.414 × 2.015 88 / 60 = 9.893 mg/s"
        ),
        rel=1e-3,
        rows=[(dict(mass_kg=8.34e-3, mass_flow_kg_per_s=9.893e-6), 843.0)],
    ),
    ByHand(
        time_to_make,
        arithmetic="0.84 kg at 35 g/h is just one day: 840 / 35 = 24 h",
        rel=1e-4,
        rows=[(dict(mass_kg=0.84, mass_flow_kg_per_s=35e-3 / 3600), 86400.0)],
    ),
    ByHand(
        cycles_in_time,
        arithmetic="2920 h of sun in a year, a cycle of 14 min: 2920 × 60 / 14 = 12 514 cycles",
        rel=1e-4,
        rows=[(dict(running_time_s=2920 * 3600.0, period_s=840.0), 12514.3)],
    ),
    ByHand(
        cycles_in_time,
        arithmetic="one cycle every three hours for ten days: 80",
        rel=1e-9,
        rows=[(dict(running_time_s=864000.0, period_s=10800.0), 80.0)],
    ),
    ByHand(
        time_of_cycle_life,
        arithmetic="a vessel for 100 000 cycles that sees 12 500 in a year of 365.25 days lasts 8 years = 2.524 61e8 s",
        rel=1e-5,
        rows=[(dict(cycle_life=1e5, cycles=12500.0, in_time_s=31557600.0), 252460800.0)],
    ),
    ByHand(
        time_of_cycle_life,
        arithmetic="5 000 cycles at 4 an hour: 1250 h = 4.5e6 s",
        rel=1e-9,
        rows=[(dict(cycle_life=5000.0, cycles=4.0, in_time_s=3600.0), 4.5e6)],
    ),
]
