"""The questions for others: each asked where the plant has the part, not asked where it has not, and put to somebody."""

import pytest

from macros.review import RULES
from tests.review.changed import described, network
from tests.review.looking import found

ASKED = [name for name, rule in RULES.items() if rule.family == "asking"]

PLACES = {
    "ask-pressure-equipment": {"bench": ["BV1"], "farm": ["BV1"]},
    "ask-cylinder-inspection": {"bench": [], "farm": ["BK1", "BK2"]},
    "ask-cylinder-transport": {"bench": [], "farm": ["BK1", "BK2"]},
    "ask-zone-plan": {
        "bench": ["rooms.classroom"],
        "farm": ["rooms.barn_bay", "rooms.compound", "rooms.filling_place", "rooms.dairy"],
    },
    "ask-vents-and-neighbours": {"bench": ["bench"], "farm": ["farm"]},
    "ask-fire-service": {"bench": ["bench"], "farm": ["farm"]},
    "ask-stored-inventory": {"bench": [], "farm": ["farm"]},
    "ask-insurer": {"bench": ["bench"], "farm": ["farm"]},
    "ask-building-authority": {"bench": ["bench"], "farm": ["farm"]},
    "ask-electrical-installation": {"bench": ["RC1"], "farm": ["RC1"]},
    "ask-vehicle-approval": {"bench": [], "farm": ["VE1"]},
    "ask-gas-appliance": {"bench": ["BU1"], "farm": ["BU1"]},
    "ask-strength-test": {"bench": ["bench"], "farm": ["farm"]},
    "ask-waste-water-and-resin": {"bench": ["DI1", "DC1"], "farm": ["DI1", "DC1"]},
}


def test_every_question_is_looked_at_here() -> None:
    assert set(PLACES) == set(ASKED)


@pytest.mark.parametrize("rule", PLACES)
def test_a_question_is_asked_where_the_plant_has_the_part(rule: str) -> None:
    for plant, places in PLACES[rule].items():
        assert [each.where for each in found(rule, plant)] == places
        assert all(each.severity == "open" and each.counts for each in found(rule, plant))


@pytest.mark.parametrize("rule", ASKED)
def test_a_question_says_what_kind_of_body_to_ask_and_may_be_answered(rule: str) -> None:
    assert RULES[rule].asks
    assert RULES[rule].waivable


def test_the_regime_decides_what_is_asked_of_cylinders() -> None:
    fixed = described("farm", "banks.low", regime="fixed")
    assert [each.where for each in found("ask-pressure-equipment", "farm", described=fixed)] == ["BV1", "BK1"]
    assert [each.where for each in found("ask-cylinder-inspection", "farm", described=fixed)] == ["BK2"]


def test_the_category_is_told_with_the_question() -> None:
    """28 bar(g) allowable 50 bar(g), 50 L: 2500 bar L is category IV [PED 2014/68/EU, Annex II table 1]."""
    (finding,) = found("ask-pressure-equipment", "farm")
    assert "IV" in finding.message.workshop


def test_a_plant_without_its_vents_asks_nothing_of_vents() -> None:
    vents = [tag for tag, item in network("bench").items.items() if item.kind.name == "vent"]
    lines = ["O3", "B1", "B2", "B3", "R1", "R2", "R3", "D4"]
    without = network("bench", without=(*vents, *lines))
    assert found("ask-vents-and-neighbours", "bench", network=without) == []
