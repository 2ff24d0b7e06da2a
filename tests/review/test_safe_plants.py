"""Plants made safer or moved within what is usual raise no failure: three hundred of them, drawn from written ranges."""

import random
from dataclasses import replace

import pytest

from macros.figures.plant import Plant
from macros.review import RULES
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of
from tests.review.looking import TODAY, plant_named

# Each range ends at the plant's own value or goes beyond it only to the side that practice calls safe: thicker cables and
# membranes, wider rooms, more air, more cooling, lower pressures of filling and switching, milder days.
RANGES = {
    "bench": {
        "stack.membrane_thickness": (178, 220, "µm"), "site.coldest": (5, 12, "°C"),
        "site.hottest": (25, 32, "°C"), "rooms.classroom.fan_flow": (300, 500, "m3/h"),
        "rooms.classroom.floor_area": (40, 60, "m2"), "water.cooler.conductance": (8, 12, "W/K"),
        "drying.3.bed_mass": (0.3, 0.5, "kg"), "demand.running_hours": (60, 120, "h"),
        "power.isolator": (40, 63, "A"),
    },
    "shed": {
        "stack.membrane_thickness": (178, 220, "µm"), "site.coldest": (-8, 0, "°C"),
        "site.hottest": (28, 38, "°C"), "rooms.shed.fan_flow": (350, 600, "m3/h"),
        "rooms.shed.floor_area": (9, 14, "m2"), "water.cooler.conductance": (45, 70, "W/K"),
        "drying.3.bed_mass": (2, 3, "kg"), "demand.running_hours": (800, 1250, "h"),
        "buffer.cut_out": (23, 25, "bar(g)"), "banks.store.fill_pressure": (40, 50, "bar(g)"),
        "banks.store.cylinders": (4, 6, ""), "power.isolator": (125, 160, "A"), "compressor.free_air": (220, 300, "NL/min"),
        "stack.catalyst_efficiency": (70, 90, "%"),
    },
    "farm": {
        "stack.membrane_thickness": (178, 220, "µm"), "site.coldest": (-8, 0, "°C"),
        "site.hottest": (28, 38, "°C"), "rooms.barn_bay.fan_flow": (900, 1400, "m3/h"),
        "rooms.barn_bay.floor_area": (48, 70, "m2"), "water.cooler.conductance": (220, 320, "W/K"),
        "drying.4.bed_mass": (4, 6, "kg"), "demand.running_hours": (700, 950, "h"),
        "buffer.cut_out": (26, 28, "bar(g)"), "banks.high.fill_pressure": (125, 140, "bar(g)"),
        "banks.low.cylinders": (12, 16, ""), "power.isolator": (200, 250, "A"), "compressor.free_air": (820, 1000, "NL/min"),
        "stack.catalyst_efficiency": (80, 92, "%"),
    },
}  # fmt: skip

DRAWN = {"bench": 200, "shed": 70, "farm": 30}
"""Three hundred; most of the small plant, which is reviewed in a third of a second."""

MOVED = 5
PROVED_TOO = 1
"""Of the drawn plants, so many are proved as well, since their line-ups take seconds."""


UNMOVED = ("procedures", "permission", "record", "asking")
"""Families that look at words, dates and steps, which moving an input leaves as they are."""

FAILING = [name for name, rule in RULES.items() if rule.severity == "fail" and rule.family not in UNMOVED]
PROVED = [name for name in FAILING if RULES[name].family == "line_ups"]
"""What proves line-ups takes seconds a plant."""


def drawn(plant: str, number: int) -> Plant:
    """The plant of a number: a few inputs moved within their ranges, ends included now and then."""
    chance = random.Random(f"{plant} {number}")
    changes = {}
    for path in chance.sample(sorted(RANGES[plant]), MOVED):
        low, high, unit = RANGES[plant][path]
        value = chance.choice([low, high, chance.uniform(low, high), chance.uniform(low, high)])
        changes[path] = f"{round(value, 3):g} {unit}".strip() if unit else str(round(value))
    named = plant_named(plant)
    return replace(named, graph=named.graph.with_inputs(changes))


def failed(plant: Plant, rules: list[str]) -> list[str]:
    reviewed = Reviewed(plant, TODAY)
    return [
        f"{name} {each.where}: {each.message.workshop}"
        for name in rules
        for each in findings_of(RULES[name], reviewed)
        if each.standing == "failed"
    ]


@pytest.mark.parametrize("plant", RANGES)
def test_safer_plants_raise_no_failure(plant: str) -> None:
    found = {
        number: failed(drawn(plant, number), [name for name in FAILING if name not in PROVED])
        for number in range(DRAWN[plant])
    }
    assert not {number: each for number, each in found.items() if each}


@pytest.mark.parametrize("plant", RANGES)
def test_nor_do_their_line_ups(plant: str) -> None:
    assert not {number: each for number in range(PROVED_TOO) if (each := failed(drawn(plant, number), PROVED))}
