"""Evidence for the balance of water."""

from macros.calculations.evidence import ByHand
from macros.calculations.water_balance import top_up_interval, water_consumption, water_drained

EVIDENCE = [
    ByHand(
        water_consumption,
        arithmetic="split 0.089 6 g/s, with the oxygen 0.003 5, with the hydrogen 0.000 1: 0.093 2 g/s = 0.335 52 kg/h; "
        "with 0.54 g/s drained to waste 0.633 2 g/s",
        rel=1e-9,
        rows=[
            (
                dict(split_kg_per_s=89.6e-6, with_oxygen_kg_per_s=3.5e-6, with_hydrogen_kg_per_s=0.1e-6),
                93.2e-6,
            ),
            (
                dict(
                    split_kg_per_s=89.6e-6,
                    with_oxygen_kg_per_s=3.5e-6,
                    with_hydrogen_kg_per_s=0.1e-6,
                    drained_kg_per_s=540e-6,
                ),
                633.2e-6,
            ),
        ],
    ),
    ByHand(
        top_up_interval,
        arithmetic="6 L, 5.989 2 kg, at 0.093 2 g/s last 64 262 s = 17.85 h; 1 L at 1 g/s lasts 998.2 s",
        rel=1e-4,
        rows=[
            (dict(usable_m3=6e-3, consumption_kg_per_s=93.2e-6), 64262.0),
            (dict(usable_m3=1e-3, consumption_kg_per_s=1e-3), 998.2),
        ],
    ),
    ByHand(
        water_drained,
        arithmetic="0.537 7 g/s dragged and 0.000 7 − 0.000 2 g/s condensed: 0.538 2 g/s; nothing condenses where nothing cools",
        rel=1e-9,
        rows=[
            (
                dict(vapour_at_stack_kg_per_s=0.7e-6, vapour_left_kg_per_s=0.2e-6, dragged_kg_per_s=537.7e-6),
                538.2e-6,
            ),
            (dict(vapour_at_stack_kg_per_s=0.7e-6, vapour_left_kg_per_s=0.7e-6, dragged_kg_per_s=0.0), 0.0),
        ],
    ),
]
