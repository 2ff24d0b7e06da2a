"""The rules of reliefs and settings: each at its limit, without its value, and in a plant that breaks it."""

from typing import Any

import pytest

from macros.review.reliefs import fully_open, lifts_at, reseated, untired
from macros.review.reviewed import Reviewed
from macros.review.ways import bore_of
from tests.review.changed import described, network
from tests.review.looking import TODAY, Limit, found, plant_named

FARM = plant_named("farm").graph
SHED = plant_named("shed").graph
BENCH = plant_named("bench").graph
REVIEWED = Reviewed(plant_named("farm"), TODAY)

# Limits of the plant's own description; the gap of settings is common practice, no source.
LIMITS = (
    Limit("relief-set-below-weakest-part", "shed", "RV1", "items.rv1.set_pressure", SHED["buffer.allowable_pressure"].si),
    Limit("relief-set-below-weakest-part", "shed", "RV2", "stack.pressure_rating", SHED["items.rv2.set_pressure"].si, "above"),
    Limit("relief-open-within-weakest-part", "farm", "RV2", "stack.pressure_rating", fully_open(REVIEWED, "RV2").si, "above"),
    Limit("relief-open-within-weakest-part", "farm", "RV6", "items.re1.rating", fully_open(REVIEWED, "RV6").si, "above"),
    Limit("relief-passes-largest-source", "farm", "RV4", "safety.relief.rv4.largest_source",
          FARM["safety.relief.rv4.capacity"].si),
    Limit("relief-reseats-above-working-pressure", "farm", "RV1", "buffer.cut_out", reseated(REVIEWED, "RV1").si),
    Limit("relief-reseats-above-working-pressure", "farm", "RV5", "items.pr1.set_pressure", reseated(REVIEWED, "RV5").si),
    Limit("cut-in-below-cut-out", "farm", "BV1", "buffer.cut_in", REVIEWED.reading("buffer.cut_out", 0.95).si),
    Limit("cut-out-below-high-trip", "farm", "BV1", "buffer.cut_out", REVIEWED.reading("buffer.high_trip", 0.95).si),
    Limit("high-trip-below-relief", "farm", "RV1", "buffer.high_trip", lifts_at(REVIEWED, "RV1").si),
    Limit("high-trip-below-relief", "farm", "RV2", "buffer.high_trip", lifts_at(REVIEWED, "RV2").si),
    Limit("relief-lines-wide-enough", "farm", "RV6 O2", "lines.o2.bore", FARM["items.rv6.orifice_bore"].si, "above"),
    Limit("relief-lines-wide-enough", "farm", "RV1 R1", "items.rv1.orifice_bore", bore_of(REVIEWED, "R1").si),
    Limit("excess-flow-valve-shuts-on-torn-hose", "farm", "XF1 HO3", "items.xf1.closing_flow",
          FARM["safety.hose.ho3.rupture_flow"].si),
    Limit("excess-flow-valve-passes-use", "farm", "XF2 BU1", "items.xf2.closing_flow",
          FARM["uses.2.hydrogen_flow"].si, "above"),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where} {limit.value}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def test_a_relief_is_fully_open_at_set_pressure_and_both_shares() -> None:
    """33 bar(g), 3 % tolerance, 10 % accumulation: 33 · 1.13 = 37.29 bar(g); it may lift from 33 · 0.97 = 32.01."""
    atmosphere_pa = FARM["site.atmosphere"].si
    assert fully_open(REVIEWED, "RV1").si - atmosphere_pa == pytest.approx(37.29e5, rel=1e-9)
    assert lifts_at(REVIEWED, "RV1").si - atmosphere_pa == pytest.approx(32.01e5, rel=1e-9)
    assert bore_of(REVIEWED, "R1").si == pytest.approx(18e-3 - 2 * 1.5e-3, rel=1e-12)
    assert reseated(REVIEWED, "RV1").si - atmosphere_pa == pytest.approx(29.7e5, rel=1e-9)


DISC = network("bench", items={"RV1": {"kind": "burst_disc", "reseat": None, "accumulation": None}})


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
def test_a_burst_disc_works_below_what_tires_it(case: str) -> None:
    """Common practice, no source: 70 % of the lowest burst pressure; 6 bar(g) less 3 % gives 4.07 bar(g)."""
    limit = untired(Reviewed(plant_named("bench"), TODAY), "RV1").si
    assert limit - BENCH["site.atmosphere"].si == pytest.approx(0.7 * 0.97 * 6e5, rel=1e-9)
    value, verdict = Limit("", "bench", "RV1", "buffer.cut_out", limit).cases[case]
    (look,) = found("burst-disc-above-working-pressure", "bench", {"buffer.cut_out": value}, network=DISC)
    assert (look.where, look.verdict) == ("RV1", verdict)


ARRESTOR = {"kind": "flame_arrestor", "rating": "40 bar(g)", "gas_group": "iic"}

BROKEN: tuple[tuple[str, str, str, dict[str, Any]], ...] = (
    ("no-flame-arrestor-on-relief-line", "bench", "RV1", {"network": network(
        "bench", items={"FA9": ARRESTOR}, chains={"R1": "BV1.top > RV1 > FA9 > VT7"})}),
    ("no-flame-arrestor-on-relief-line", "bench", "RV1", {"network": network(
        "bench", items={"FA9": ARRESTOR}, chains={"R1": "BV1.top > FA9 > RV1 > VT7"})}),
    ("relief-led-outdoors", "bench", "RV1", {"network": network("bench", items={"VT7": {"leads_to": "room"}})}),
    # a valve between the relief and its vent
    ("relief-led-outdoors", "bench", "RV1", {"network": network(
        "bench", chains={"R1": "BV1.top > RV1 > V90 > VT7"},
        items={"V90": {"kind": "hand_valve", "rating": "40 bar(g)", "normal_position": "open"}})}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "plant", "where", "changed"), BROKEN)
def test_the_rule_fires(rule: str, plant: str, where: str, changed: dict[str, Any]) -> None:
    assert {each.where: each.verdict for each in found(rule, plant, **changed)}[where] == "broken"


def test_a_relief_that_no_section_names_is_unknown() -> None:
    lost = network("bench", items={"RV9": {
        "kind": "relief_valve", "rating": "40 bar(g)", "set_pressure": "6 bar(g)", "tolerance": "3 %",
        "accumulation": "10 %", "discharge_coefficient": 0.6, "orifice_bore": "3 mm"}})  # fmt: skip
    looks = {each.where: each.verdict for each in found("relief-set-below-weakest-part", "bench", network=lost)}
    assert looks["RV9"] == "unknown"


def test_the_relief_of_drive_air_may_blow_into_its_room() -> None:
    assert "RV3" not in [each.where for each in found("relief-led-outdoors", "farm")]


def test_without_a_buffer_its_settings_are_not_looked_at() -> None:
    bare = described("bench", buffer=None)
    for rule in ("cut-in-below-cut-out", "cut-out-below-high-trip", "high-trip-below-relief"):
        assert not found(rule, "bench", described=bare)
