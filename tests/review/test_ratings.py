"""The rules of ratings: each at its limit, without its value, and in a plant that breaks it."""

from typing import Any

import pytest

from macros.review.ratings import locked_up
from macros.review.reliefs import lifts_at
from macros.review.reviewed import Reviewed
from tests.review.changed import described, network
from tests.review.looking import TODAY, Limit, found, plant_named

FARM = plant_named("farm").graph
SHED = plant_named("shed").graph
REVIEWED = Reviewed(plant_named("farm"), TODAY)

# Limits of the plant's own description; the share of a scale is common practice, no source.
LIMITS = (
    Limit("section-within-ratings", "farm", "train", "safety.train.highest_pressure", FARM["stack.pressure_rating"].si),
    Limit("section-within-ratings", "farm", "train", "items.se1.rating",
          FARM["safety.train.highest_pressure"].si, "above"),
    Limit("line-within-ratings", "farm", "L9", "lines.l9.fitting_rating",
          FARM["safety.buffer.highest_pressure"].si, "above"),
    Limit("line-within-ratings", "farm", "L17", "safety.tube.l17.rating",
          FARM["safety.stage_2.highest_pressure"].si, "above"),
    Limit("line-within-ratings", "farm", "L11", "boosters.1.supply_proof", FARM["safety.tube.l11.rating"].si),
    Limit("stack-rated-above-relief", "shed", "stack", "stack.relief_pressure", SHED["stack.pressure_rating"].si),
    Limit("membrane-bears-difference", "shed", "stack", "stack.differential_highest",
          SHED["stack.differential_allowed"].si),
    Limit("oxygen-side-within-rating", "shed", "stack", "stack.anode_pressure", SHED["stack.anode_rating"].si),
    Limit("regulator-lock-up-within-outlet", "farm", "PR2", "items.pr2.outlet_rating",
          locked_up(REVIEWED, "PR2").si, "above"),
    Limit("gauge-scale-holds-highest-pressure", "farm", "PG3", "items.pg3.scale_end",
          FARM["safety.buffer.highest_pressure"].si, "above"),
    Limit("gauge-scale-holds-working-pressure", "farm", "PG3", "buffer.cut_out",
          REVIEWED.reading("items.pg3.scale_end", 0.75).si),
    Limit("fill-within-working-pressure", "farm", "low", "banks.low.fill_pressure",
          FARM["banks.low.working_pressure"].si),
    Limit("hot-cylinder-within-test-pressure", "farm", "high", "banks.high.developed_pressure",
          FARM["banks.high.test_pressure"].si),
    Limit("vehicle-rated-above-station", "farm", "VE1", "uses.1.nominal_pressure",
          FARM["safety.filling.highest_pressure"].si, "above"),
    Limit("purge-supply-within-ratings", "farm", "PI2 column", "items.pi2.supply_pressure", FARM["items.dc1.rating"].si),
    Limit("ruptured-membrane-within-oxygen-side", "farm", "oxygen", "items.re1.rating",
          REVIEWED.lineups.piping.pressures.caps["VT3"]["ST1:ruptured"], "above"),
    Limit("leak-test-within-ratings", "shed", "train", "safety.leak_test_pressure", SHED["stack.pressure_rating"].si),
    Limit("leak-test-below-relief", "farm", "buffer RV1", "safety.leak_test_pressure", lifts_at(REVIEWED, "RV1").si),
    Limit("pump-within-water-circuit", "farm", "P1", "items.p1.highest_pressure", FARM["stack.anode_rating"].si),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where} {limit.value}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


FIXED = described("farm", "banks.low", regime="fixed")


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
def test_a_fixed_bank_is_held_to_the_hottest_day(case: str) -> None:
    limit = Limit("", "farm", "low", "banks.low.hot_pressure", FARM["banks.low.working_pressure"].si)
    value, verdict = limit.cases[case]
    (look,) = found("hottest-day-within-allowable-pressure", "farm", {limit.value: value}, described=FIXED)
    assert look.verdict == verdict
    assert "low" not in [each.where for each in found("hot-cylinder-within-test-pressure", "farm", described=FIXED)]


UNDECIDED = described("farm", "banks.low", regime="undecided")


def test_a_bank_whose_regime_is_undecided_is_held_to_both() -> None:
    for rule in ("hottest-day-within-allowable-pressure", "hot-cylinder-within-test-pressure"):
        assert "low" in [each.where for each in found(rule, "farm", described=UNDECIDED)]


ANODE = {"stack.anode_pressure": FARM["buffer.cut_out"].si + 1e5}

BROKEN: tuple[tuple[str, str, str, dict[str, Any]], ...] = (
    # a membrane held up on one side only, and the pressure on the other
    ("membrane-bears-higher-side", "farm", "stack", {"described": described("farm", "stack", higher_side="anode")}),
    ("membrane-bears-higher-side", "farm", "stack", {"given": ANODE}),
    # a test that fell due last month
    ("hose-within-test-date", "farm", "HO3", {"network": network("farm", items={"HO3": {"tested": "2026-10"}})}),
    ("hose-within-test-date", "farm", "BW1", {"network": network("farm", items={"BW1": {"tested": "2025-12"}})}),
    # no arrestor at all, and one that is led round
    ("flame-arrestor-before-burner", "bench", "BU1", {"network": network(
        "bench", chains={"L12": "PR1 > J14 > J15 > V6 > BU1"}, without=("FA1",))}),
    ("flame-arrestor-before-burner", "bench", "BU1", {"network": network(
        "bench", chains={"L12": "PR1 > J14 > J15 > V6 > J90 > FA1 > J91 > BU1", "L8": "J90.branch > J91.branch"},
        items={tag: {"kind": "junction", "rating": "10 bar(g)"} for tag in ("J90", "J91")})}),
    # a gap through which a hydrogen flame passes
    ("flame-arrestor-stops-hydrogen", "shed", "FA1", {"network": network("shed", items={"FA1": {"gas_group": "iia"}})}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "plant", "where", "changed"), BROKEN)
def test_the_rule_fires(rule: str, plant: str, where: str, changed: dict[str, Any]) -> None:
    assert {each.where: each.verdict for each in found(rule, plant, **changed)}[where] == "broken"


@pytest.mark.parametrize(("rule", "tag", "key"), [
    ("hose-within-test-date", "HO1", "tested"),
    ("flame-arrestor-stops-hydrogen", "FA1", "gas_group"),
])  # fmt: skip
def test_what_is_not_said_is_unknown(rule: str, tag: str, key: str) -> None:
    changed = network("shed", items={tag: {key: None}})
    assert {each.where: each.verdict for each in found(rule, "shed", network=changed)}[tag] == "unknown"


def test_a_test_that_falls_due_this_month_is_not_behind() -> None:
    changed = network("shed", items={"HO1": {"tested": f"{TODAY:%Y-%m}"}})
    assert [each.verdict for each in found("hose-within-test-date", "shed", network=changed)] == ["passed"]


def test_a_side_whose_pressure_is_not_known_is_unknown() -> None:
    assert [each.verdict for each in found("membrane-bears-higher-side", "farm", {"buffer.cut_out": None})] == [
        "unknown"
    ]


def test_a_vent_that_passes_the_nitrogen_holds_the_oxygen_side() -> None:
    """The flush of the farm could bring three times what the reservoir bears; vent and relief let it off before."""
    supply, rating = FARM["items.pi4.supply_pressure"].si, FARM["items.re1.rating"].si
    assert supply > rating
    looks = {each.where: each.verdict for each in found("purge-supply-within-ratings", "farm")}
    assert looks["PI4 oxygen"] == "passed"
