"""The rules of trips: each at its limit, without its value, and in a plant whose trips lack something."""

from typing import Any

import pytest

from macros.description.plant import PlantFile, Trip
from macros.review.reliefs import lifts_at
from macros.review.reviewed import Reviewed
from macros.review.trips import least_water
from tests.review.changed import described, network
from tests.review.looking import TODAY, Limit, found, plant_named

FARM = plant_named("farm").graph
REVIEWED = Reviewed(plant_named("farm"), TODAY)
TRIPS = plant_named("farm").description.plant.trips


def number_of(cause: str, sensor: str | None = None) -> int:
    return next(
        number for number, trip in enumerate(TRIPS, start=1)
        if trip.cause == cause and (sensor is None or trip.sensor == sensor)
    )  # fmt: skip


def at(cause: str, sensor: str, key: str) -> str:
    return f"trips.{number_of(cause, sensor)}.{key}"


# 4 % is the lower limit [IEC 60079-20-1]; a tenth and a quarter of it, 1 % and 2 % in the gases of the stack, and the
# share of the water are common practice, no source; the rest stands in the plant's own description.
LIMITS = (
    Limit("alarm-before-trip", "farm", "pressure_high PT2", at("pressure_high", "PT2", "alarm"),
          REVIEWED.reading(at("pressure_high", "PT2", "trip")).si),
    Limit("alarm-before-trip", "farm", "pressure_high PT1", "buffer.high_trip",
          REVIEWED.reading(at("pressure_high", "PT1", "alarm")).si, "above"),
    Limit("alarm-before-trip", "farm", "water_flow_low FT1", at("water_flow_low", "FT1", "alarm"),
          REVIEWED.reading(at("water_flow_low", "FT1", "trip")).si, "above"),
    Limit("hydrogen-in-oxygen-trips-early", "farm", "AT1 alarm", at("hydrogen_in_oxygen", "AT1", "alarm"), 0.01),
    Limit("hydrogen-in-oxygen-trips-early", "farm", "AT1 trip", at("hydrogen_in_oxygen", "AT1", "trip"), 0.02),
    Limit("oxygen-in-hydrogen-trips-early", "farm", "AT2 alarm", at("oxygen_in_hydrogen", "AT2", "alarm"), 0.01),
    Limit("oxygen-in-hydrogen-trips-early", "farm", "AT2 trip", at("oxygen_in_hydrogen", "AT2", "trip"), 0.02),
    Limit("gas-detector-trips-early", "farm", "GD1 alarm", at("gas_in_room", "GD1", "alarm"), 0.1 * 0.04),
    Limit("gas-detector-trips-early", "farm", "GD2 trip", at("gas_in_room", "GD2", "trip"), 0.25 * 0.04),
    Limit("pressure-trip-below-relief", "farm", "PT1 RV2", at("pressure_high", "PT1", "trip"),
          lifts_at(REVIEWED, "RV2").si),
    Limit("pressure-trip-below-relief", "farm", "PT2 RV4", at("pressure_high", "PT2", "trip"),
          lifts_at(REVIEWED, "RV4").si),
    Limit("pressure-trip-below-relief", "farm", "PT4 RV7", at("pressure_high", "PT4", "trip"),
          lifts_at(REVIEWED, "RV7").si),
    Limit("stack-pressure-trips-as-described", "farm", "PT1", at("pressure_high", "PT1", "trip"),
          FARM["buffer.high_trip"].si),
    Limit("temperature-trips-below-limit", "farm", "TT1", at("temperature_high", "TT1", "trip"), 273.15 + 70),
    Limit("temperature-trips-below-limit", "farm", "TT3", at("temperature_high", "TT3", "trip"), 273.15 + 150),
    Limit("water-flow-trips-early", "farm", "FT1", at("water_flow_low", "FT1", "trip"), least_water(REVIEWED).si,
          "above"),
    Limit("water-flow-alarms-below-flow", "farm", "FT1", at("water_flow_low", "FT1", "alarm"), FARM["water.flow"].si),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where} {limit.value}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def with_trips(plant: str, *trips: Trip) -> PlantFile:
    return described(plant, trips=list(trips))


def without(cause: str, sensor: str | None = None) -> PlantFile:
    return with_trips(
        "farm", *(trip for trip in TRIPS if trip.cause != cause or (sensor is not None and trip.sensor != sensor))
    )


MISSING = (
    ("trip-for-hydrogen-in-oxygen", "ST1", "hydrogen_in_oxygen", None),
    ("trip-for-oxygen-in-hydrogen", "ST1", "oxygen_in_hydrogen", None),
    ("trip-for-cell-voltage", "ST1", "cell_voltage_spread", None),
    ("trip-for-high-pressure", "ST1", "pressure_high", "PT1"),
    ("trip-for-high-pressure", "BK1", "pressure_high", "PT2"),
    ("trip-for-high-pressure", "BK2", "pressure_high", "PT3"),
    ("trip-for-high-temperature", "ST1", "temperature_high", "TT1"),
    ("trip-for-high-temperature", "BO2", "temperature_high", "TT3"),
    ("trip-for-low-level", "RE1", "level_low", "LT1"),
    ("trip-for-low-level", "DP1", "level_low", "LT2"),
    ("trip-for-high-level", "RE1", "level_high", "LT1"),
    ("trip-for-high-level", "DP1", "level_high", "LT2"),
    ("trip-for-low-water-flow", "P1", "water_flow_low", None),
    ("trip-for-gas-in-room", "barn_bay", "gas_in_room", "GD1"),
    ("trip-for-gas-in-room", "compound", "gas_in_room", "GD2"),
    ("trip-for-lost-fan", "barn_bay", "fan_lost", None),
    ("trip-for-emergency-stop", "farm", "emergency_stop", None),
    ("trip-for-lost-power", "farm", "power_lost", None),
    ("trip-for-lost-drive-air", "farm", "drive_air_lost", None),
)


@pytest.mark.parametrize(("rule", "where", "cause", "sensor"), MISSING)
def test_a_cause_that_nothing_answers_is_found_at_its_place_only(
    rule: str, where: str, cause: str, sensor: str | None
) -> None:
    looks = {each.where: each.verdict for each in found(rule, "farm", described=without(cause, sensor))}
    assert [place for place, verdict in looks.items() if verdict == "broken"] == [where]


def changed_trip(cause: str, of: str | None = None, /, **changes: Any) -> dict[str, Any]:
    """The farm with one trip changed."""
    return {"described": described("farm", f"trips.{number_of(cause, of)}", **changes)}


BROKEN: tuple[tuple[str, str, str, dict[str, Any]], ...] = (
    # analysers on the wrong side, a pressure behind a valve, a temperature elsewhere
    ("trip-for-hydrogen-in-oxygen", "farm", "ST1", changed_trip("hydrogen_in_oxygen", sensor="AT2")),
    ("trip-for-oxygen-in-hydrogen", "farm", "ST1", changed_trip("oxygen_in_hydrogen", sensor="AT1")),
    ("trip-for-high-pressure", "farm", "ST1", changed_trip("pressure_high", "PT1", sensor="PT2")),
    ("trip-for-high-temperature", "farm", "BO1", changed_trip("temperature_high", "TT2", sensor="TT3")),
    ("trip-for-high-pressure", "farm", "ST1", {"network": network(
        "farm", chains={"L3": "J90.branch > PT1", "L10": "J22.branch > J90 > PG3"},
        items={"J90": {"kind": "junction", "rating": "200 bar(g)"}})}),
    ("trip-has-alarm-and-limit", "farm", "pressure_high PT2", changed_trip("pressure_high", "PT2", trip=None)),
    ("trip-has-alarm-and-limit", "farm", "gas_in_room GD1", changed_trip("gas_in_room", "GD1", alarm=None)),
    ("trip-sensor-measures-cause", "farm", "hydrogen_in_oxygen PT1", changed_trip("hydrogen_in_oxygen", sensor="PT1")),
    ("trip-sensor-measures-cause", "farm", "gas_in_room AT1", changed_trip("gas_in_room", "GD1", sensor="AT1")),
    ("trip-sensor-measures-cause", "farm", "fan_lost", changed_trip("fan_lost", sensor=None)),
    # the switch of the buffer as protection
    ("high-pressure-trip-apart-from-switch", "farm", "ST1", changed_trip("pressure_high", "PT1", sensor="PS1")),
    ("high-pressure-trip-apart-from-switch", "bench", "ST1", {
        "described": described("bench", "trips.4", sensor="PS1"),
        "network": network("bench", chains={"L3": "J5.branch > PS1"}, without=tuple(
            line for line, each in plant_named("bench").network.lines.items()
            if each.stops[-1].tag == "PS1"))}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "plant", "where", "changed"), BROKEN)
def test_the_rule_fires(rule: str, plant: str, where: str, changed: dict[str, Any]) -> None:
    assert {each.where: each.verdict for each in found(rule, plant, **changed)}[where] == "broken"


def test_a_plant_without_boosters_or_fan_is_not_asked_for_their_trips() -> None:
    assert not found("trip-for-lost-drive-air", "bench")
    still = described("bench", "rooms.classroom", fan_flow=None)
    assert not found("trip-for-lost-fan", "bench", described=still)


def test_a_limit_that_the_plant_does_not_write_is_unknown() -> None:
    """The trip of the emergency stop has no number, so its path does not exist."""
    bare = with_trips("farm", *(trip for trip in TRIPS if trip.cause == "emergency_stop"), TRIPS[0])
    looks = found("hydrogen-in-oxygen-trips-early", "farm", described=bare)
    assert {each.verdict for each in looks} <= {"unknown", "passed"}
