"""The rules of heat, water and frost: each at its limit, without its value, and in a plant that breaks it."""

import pytest

from macros.calculations.facts import facts
from tests.review.changed import network
from tests.review.looking import Limit, found, plant_named

FARM = plant_named("farm").graph
HOUR_S, DAY_S = 3600.0, 86400.0

# Water of grade 2 and 3 after ISO 3696; the other limits are entries of the farm or common practice, no source.
LIMITS = (
    Limit("cooling-holds-on-hottest-day", "farm", "water.cooling_capacity", "stack.heat",
          FARM["water.cooling_capacity"].si),
    Limit("cooling-has-margin", "farm", "water.cooling_margin", "water.cooling_margin", 0.1, "above"),
    Limit("temperature-trip-above-operating", "farm", "stack.temperature", "stack.temperature", 343.15),
    Limit("temperature-trip-below-membrane-limit", "farm", "stack.temperature_trip", "stack.temperature_trip", 353.15),
    Limit("deioniser-below-its-limit", "farm", "water.deioniser", "stack.temperature", 333.15),
    Limit("deioniser-limit-as-resin-bears", "farm", "water.deioniser", "water.deioniser.temperature_limit", 333.15),
    Limit("deioniser-lasts", "farm", "water.deioniser", "water.deioniser_life", 60 * DAY_S, "above"),
    Limit("water-rise-over-stack-small", "farm", "water.flow", "water.temperature_rise", 10.0),
    Limit("preheat-in-time", "farm", "stack.heater", "stack.preheat_time", 3 * HOUR_S),
    Limit("water-lasts-a-day", "farm", "water.usable", "water.top_up_interval", 12 * HOUR_S, "above"),
    Limit("reservoir-holds-usable-water", "farm", "water.reservoir", "water.usable", FARM["water.reservoir"].si),
    Limit("loop-water-pure", "farm", "water.loop_conductivity_alarm", "water.loop_conductivity_alarm",
          facts()["water_grade_2"].quantity.si),
    Limit("feed-water-pure", "farm", "water.feed_conductivity", "water.feed_conductivity",
          facts()["water_grade_3"].quantity.si),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


@pytest.mark.parametrize(
    ("coldest", "room", "verdict"),
    [
        (265.15, "barn_bay", "passed"),
        (265.15, "compound", "broken"),
        (265.15, None, "unknown"),
        (273.15, "compound", "passed"),
        (None, "compound", "unknown"),
    ],
)
def test_water_stands_indoors_where_it_freezes(coldest: float | None, room: str | None, verdict: str) -> None:
    moved = network("farm", items={"RE1": {"room": room}})
    looked = found("water-kept-from-frost", "farm", {"site.coldest": coldest}, network=moved)
    assert {each.where: each.verdict for each in looked}["RE1"] == verdict
