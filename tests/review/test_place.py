"""The rules of the place: each at its limit, without its value, and in a plant that breaks it."""

import pytest

from tests.review.changed import described, network
from tests.review.looking import Limit, found, plant_named

FARM = plant_named("farm").graph
BAY, ROOM = "rooms.barn_bay", "safety.rooms.barn_bay"
ATMOSPHERE = FARM["site.atmosphere"].si

# 4 % and a quarter of it after IEC 60079-20-1 and HSE RR993; 30 s after ISO 26142, from memory; lengths and 50 bar(g) are
# common practice, no source. The ceiling of the bay lies at 3.2 m.
LIMITS = (
    Limit("air-dilutes-leak", "farm", BAY, "rooms.barn_bay.fan_flow", FARM[f"{ROOM}.ventilation_needed"].si, "above"),
    Limit("openings-dilute-leak-without-fan", "farm", BAY, f"{ROOM}.natural_flow",
          FARM[f"{ROOM}.ventilation_needed"].si, "above"),
    Limit("layer-under-ceiling-below-quarter", "farm", BAY, f"{ROOM}.ceiling_layer_fraction", 0.01),
    Limit("layer-without-fan-below-limit", "farm", BAY, f"{ROOM}.ceiling_layer_fraction_fan_lost", 0.04),
    Limit("detector-answers-before-quarter", "farm", BAY, f"{ROOM}.time_to_quarter_limit", 30.0, "above"),
    Limit("inventory-below-half-limit", "farm", BAY, f"{ROOM}.release_fraction", 0.02),
    Limit("room-opens-low", "farm", BAY, f"{BAY}.openings.1.height", 0.5),
    Limit("room-opens-high", "farm", BAY, f"{BAY}.height", 3.0 + 0.3),
    Limit("high-pressure-outdoors", "farm", "sections.train", "safety.train.highest_pressure", 50e5 + ATMOSPHERE),
    Limit("vents-high-enough", "farm", "VT3", "items.vt3.height", 3.0, "above"),
    Limit("detector-in-highest-pocket", "farm", "GD1", f"{BAY}.height", 3.15 + 0.3),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def verdicts(rule: str, plant: str, **handed_in: object) -> dict[str, str]:
    return {each.where: each.verdict for each in found(rule, plant, **handed_in)}


def test_a_room_without_a_fan_is_aired_by_its_openings() -> None:
    """Farm and shed pass by their openings alone, with little draught they do not; a lost fan is then no question."""
    for plant, room in (("farm", "barn_bay"), ("shed", "shed")):
        still = described(plant, f"rooms.{room}", fan_flow=None)
        draught = {f"safety.rooms.{room}.natural_flow": 1e-6}
        assert verdicts("air-dilutes-leak", plant, described=still) == {f"rooms.{room}": "passed"}
        assert verdicts("air-dilutes-leak", plant, given=draught, described=still) == {f"rooms.{room}": "broken"}
        assert verdicts("openings-dilute-leak-without-fan", plant, described=still) == {}
        assert verdicts("layer-without-fan-below-limit", plant, described=still) == {}


@pytest.mark.parametrize("rule", ["room-opens-low", "room-opens-high"])
def test_a_room_without_openings_is_told(rule: str) -> None:
    """One opening at half height is neither low nor high."""
    opening = plant_named("bench").description.plant.rooms["classroom"].openings[0]
    middle = opening.model_copy(update={"height": opening.height.__class__("1.5 m", 1.5, "m", "length", 2)})
    one = described("bench", "rooms.classroom", openings=[middle])
    path = "rooms.classroom.openings.1.height"
    assert [each.verdict for each in found(rule, "bench", {path: 1.5}, described=one)] == ["broken"]


@pytest.mark.parametrize(("room", "verdict"), [("compound", "passed"), ("barn_bay", "broken"), ("nowhere", "unknown")])
def test_banks_and_boosters_stand_outdoors(room: str, verdict: str) -> None:
    assert verdicts("banks-outdoors", "farm", described=described("farm", "banks.low", room=room))["BK1"] == verdict
    moved = network("farm", items={"BO1": {"room": room}, "BK2": {"room": room}})
    assert verdicts("banks-outdoors", "farm", network=moved)["BK2"] == verdict
    assert verdicts("boosters-outdoors", "farm", network=moved)["BO1"] == verdict


def test_an_item_without_a_place_is_named() -> None:
    lost = network("farm", items={"FI4": {"room": None}})
    assert verdicts("items-say-their-place", "farm", network=lost) == {"FI4": "broken"}
    assert verdicts("network-leaves-nothing-open", "farm", network=lost)["items.FI4"] == "broken"


@pytest.mark.parametrize("tag", ["VT1", "VT3"])
def test_a_vent_into_the_room_is_refused(tag: str) -> None:
    inside = network("farm", items={tag: {"leads_to": "room"}})
    assert verdicts("vents-lead-outdoors", "farm", network=inside)[tag] == "broken"
    assert "VT8" not in verdicts("vents-lead-outdoors", "farm")


@pytest.mark.parametrize(
    ("changes", "where", "verdict"),
    [
        ({"items": {"VT3": {"medium": "hydrogen"}}}, "VT3", "broken"),
        ({"media": {"R2": "oxygen"}}, "VT1", "broken"),
        ({"without": ("R2",)}, "VT1", "unknown"),
        ({"chains": {"O2": "J1.branch > RV6 > VT2"}}, "VT2", "broken"),
    ],
)
def test_no_vent_takes_both_gases(changes: dict, where: str, verdict: str) -> None:
    assert verdicts("oxygen-and-hydrogen-vents-apart", "farm", network=network("farm", **changes))[where] == verdict


def test_detectors_hang_where_gas_may_be() -> None:
    moved = network("farm", items={"GD1": {"room": "lean_to"}, "GD2": {"room": "filling_place"}})
    assert verdicts("closed-room-has-detector", "farm", network=moved) == {BAY: "broken"}
    assert verdicts("booster-has-detector", "farm", network=moved) == {"BO1": "broken", "BO2": "broken"}
    nowhere = network("farm", items={"BO1": {"room": None}})
    assert verdicts("booster-has-detector", "farm", network=nowhere)["BO1"] == "unknown"
