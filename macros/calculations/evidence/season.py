"""Evidence for the year; the figures of its result are picked one by one."""

from typing import Any

from macros.calculations.evidence import ByHand
from macros.calculations.season import follow_year

DAY = 86400.0
# Four days: plenty of surplus, too little, plenty, none. 2 kW full load, 0.5 kW at least, 200 MJ/kg, 10 MJ for a start.
FOUR_DAYS = dict(
    surplus_w=((0.0, 3000.0), (DAY, 400.0), (2 * DAY, 1000.0), (3 * DAY, 0.0)),
    demand_w=((0.0, 0.0), (DAY, 300.0), (2 * DAY, 300.0), (3 * DAY, 1000.0)),
    step_s=DAY, full_power_w=2000.0, smallest_power_w=500.0, energy_j_per_kg=200e6, start_j=10e6, capacity_kg=0.7, restart_room_kg=0.0, first_kg=0.0,
    heating_value_j_per_kg=120e6,
)  # fmt: skip
ARITHMETIC = (
    "day 1: 172.8 MJ less 10 MJ start make 0.814 kg, but the store takes 0.7 kg: 10 + 140 = 150 MJ taken, 109.2 left over, run for 150/172.8 of the day;"
    " day 2: 400 W is too little, 25.92 MJ wanted = 0.216 kg drawn, 0.484 stored; day 3: 86.4 − 10 = 76.4 MJ make 0.382 kg, 0.216 drawn, 0.65 stored"
    " (the room is 0.7 − 0.484 + 0.216 = 0.432 kg); day 4: 0.72 kg wanted, 0.65 given, 0.07 missing"
)


def hand(pick, expected):
    return ByHand(
        follow_year, arithmetic=ARITHMETIC, abs=1e-9 * max(1.0, expected), pick=pick, rows=[(FOUR_DAYS, expected)]
    )


class Hours(tuple[Any, ...]):
    """A year of hours that prints short on the Verification page."""

    def __repr__(self):
        return "8760 hours"


# A year of sunny days alike, with a store that never fills nor empties: sums are enough.
LONG = dict(
    surplus_w=Hours((hour * 3600.0, 1500.0 if hour % 24 in range(9, 15) else 0.0) for hour in range(8760)),
    demand_w=Hours((hour * 3600.0, 200.0) for hour in range(8760)),
    step_s=3600.0, full_power_w=2000.0, smallest_power_w=500.0, energy_j_per_kg=200e6, start_j=1e6, capacity_kg=1e5, restart_room_kg=0.0, first_kg=1e3,
    heating_value_j_per_kg=120e6,
)  # fmt: skip

EVIDENCE = [
    ByHand(
        follow_year,
        arithmetic=ARITHMETIC
        + "; if the stack waits for 0.5 kg of room, it rests on day 3 as well: 0.7 kg made, 1 start",
        abs=1e-9,
        pick=lambda year: year.made_kg + year.starts,
        rows=[({**FOUR_DAYS, "restart_room_kg": 0.5}, 1.7)],
    ),
    hand(lambda year: year.made_kg, 0.7 + 0.382),
    hand(lambda year: year.drawn_kg, 0.216 + 0.216 + 0.65),
    hand(lambda year: year.missing_kg, 0.07),
    hand(lambda year: year.peak_kg, 0.7),
    hand(lambda year: year.last_kg, 0.0),
    hand(lambda year: float(year.starts), 2.0),
    hand(lambda year: year.running_s, DAY * (150 / 172.8 + 1)),
    hand(lambda year: year.full_s, DAY * 22.8 / 172.8),
    ByHand(
        follow_year,
        arithmetic=ARITHMETIC + "; if the stack waits for 0.5 kg of room, the whole of day 3 counts as full as well",
        abs=1e-6,
        pick=lambda year: year.full_s,
        rows=[({**FOUR_DAYS, "restart_room_kg": 0.5}, DAY * 22.8 / 172.8 + DAY)],
    ),
    ByHand(
        follow_year,
        arithmetic="1000 kg at first, 57.305 made, 52.56 drawn, 1004.745 at last: nothing is lost",
        abs=1e-9,
        pick=lambda year: year.residual,
        rows=[(LONG, 0.0)],
    ),
    hand(lambda year: year.used_j, 150e6 + 86.4e6),
    hand(lambda year: year.left_over_j, 109.2e6 + 400 * DAY),
    ByHand(
        follow_year,
        arithmetic="365 days, one start a day: 365 × (6 h × 1500 W × 3600 − 1 MJ)/200 MJ/kg = 365 × 31.4/200 = 57.305 kg",
        rel=1e-9,
        pick=lambda year: year.made_kg,
        rows=[(LONG, 57.305)],
    ),
    ByHand(
        follow_year,
        arithmetic="8760 h × 200 W × 3600/120 MJ/kg = 52.56 kg drawn; 1000 + 57.305 − 52.56 = 1004.745 kg at last",
        rel=1e-9,
        pick=lambda year: year.last_kg,
        rows=[(LONG, 1004.745)],
    ),
]
