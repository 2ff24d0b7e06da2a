"""The rules of what trips do: each in a plant whose trips leave something out, and valves at their limit."""

from typing import Any

import pytest

from tests.review.changed import described, network
from tests.review.looking import Limit, found, plant_named
from tests.review.test_trips import TRIPS, changed_trip, number_of

# Common practice, no source.
LIMITS = (Limit("trip-shuts-quickly", "farm", "AV2", "items.av2.closing_time", 5.0),)


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def less(cause: str, key: str, *words: str, sensor: str | None = None) -> dict[str, Any]:
    """The farm with something left out of what a trip stops, shuts or opens."""
    trip = TRIPS[number_of(cause, sensor) - 1]
    return changed_trip(cause, sensor, **{key: [each for each in getattr(trip, key) if each not in words]})


BROKEN: tuple[tuple[str, str, dict[str, Any]], ...] = (
    ("trip-reset-by-hand", "gas_in_room GD1", changed_trip("gas_in_room", "GD1", reset="by_itself")),
    ("trip-stops-current", "hydrogen_in_oxygen AT1", less("hydrogen_in_oxygen", "stops", "current")),
    ("trip-stops-current", "pressure_high PT1", less("pressure_high", "stops", "current", sensor="PT1")),
    ("trip-stops-current", "fan_lost FS1", less("fan_lost", "stops", "current")),
    ("trip-stops-boosters", "pressure_high PT2", less("pressure_high", "stops", "booster_air", sensor="PT2")),
    ("trip-stops-boosters", "temperature_high TT3", less("temperature_high", "stops", "booster_air", sensor="TT3")),
    ("trip-stops-boosters", "gas_in_room GD2", less("gas_in_room", "stops", "booster_air", sensor="GD2")),
    ("trip-keeps-fan-and-detectors", "emergency_stop", changed_trip("emergency_stop", stops=["current", "fan"])),
    ("trip-keeps-fan-and-detectors", "power_lost", changed_trip("power_lost", stops=["current", "detectors"])),
    ("emergency-stop-stops-drives", "emergency_stop", less("emergency_stop", "stops", "current")),
    ("emergency-stop-stops-drives", "emergency_stop", less("emergency_stop", "stops", "heater")),
    ("emergency-stop-stops-drives", "emergency_stop", less("emergency_stop", "stops", "booster_air")),
    ("emergency-stop-shuts-banks", "emergency_stop low", less("emergency_stop", "shuts", "AV12")),
    ("emergency-stop-shuts-banks", "emergency_stop high", less("emergency_stop", "shuts", "AV9")),
    ("gas-trip-shuts-banks", "gas_in_room GD3 high", less("gas_in_room", "shuts", "AV11", sensor="GD3")),
    ("lost-power-shuts-banks", "power_lost low", less("power_lost", "shuts", "AV2")),
    ("emergency-stop-vents-drive-air", "BO1", less("emergency_stop", "opens", "AV4")),
    ("emergency-stop-vents-drive-air", "BO2", less("emergency_stop", "shuts", "AV7")),
    ("fail-position-fits-trip", "AV2", {"network": network("farm", items={"AV2": {"fail_position": "open"}})}),
    ("fail-position-fits-trip", "AV1", {"network": network("farm", items={"AV1": {"fail_position": "stays"}})}),
    # one trip wants it shut, all others open
    ("fail-position-fits-trip", "AV1", changed_trip("level_low", "LT1", shuts=["AV1"], opens=[])),
    ("actuated-valve-fails-to-a-position", "AV5",
     {"network": network("farm", items={"AV5": {"fail_position": "stays"}})}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "where", "changed"), BROKEN)
def test_the_rule_fires_at_its_place_only(rule: str, where: str, changed: dict[str, Any]) -> None:
    looks = {each.where: each.verdict for each in found(rule, "farm", **changed)}
    assert [place for place, verdict in looks.items() if verdict != "passed"] == [where]


def test_a_hand_valve_that_stands_open_shuts_no_bank_off() -> None:
    """With the shut-off valve of the uses turned into a hand valve, the emergency stop leaves the bank open to them."""
    by_hand = network("shed", items={"AV5": {"kind": "hand_valve", "normal_position": "open", "fail_position": None}})
    trips = plant_named("shed").description.plant.trips
    stop = next(number for number, trip in enumerate(trips, start=1) if trip.cause == "emergency_stop")
    shuts = [tag for tag in trips[stop - 1].shuts if tag != "AV5"]
    lacking = described("shed", f"trips.{stop}", shuts=shuts)
    (look,) = found("emergency-stop-shuts-banks", "shed", network=by_hand, described=lacking)
    assert look.verdict == "broken" and "BU1" in look.message.workshop


def test_a_trip_of_the_bank_alone_may_leave_the_stack_running() -> None:
    assert "pressure_high PT2" not in [each.where for each in found("trip-stops-current", "farm")]


@pytest.mark.parametrize("rule", ["fail-position-fits-trip", "actuated-valve-fails-to-a-position"])
def test_a_fail_position_that_is_not_said_is_unknown(rule: str) -> None:
    silent = network("farm", items={"AV2": {"fail_position": None}})
    assert {each.where: each.verdict for each in found(rule, "farm", network=silent)}["AV2"] == "unknown"
