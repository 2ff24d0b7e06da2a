"""The rules of the boosters: each at its limit, without the value that it needs, and in a plant that breaks it."""

from dataclasses import replace
from typing import Any

import pytest

from macros.review.boosting import drive_air_brought, dry_below
from macros.review.reviewed import Reviewed
from tests.review.changed import network
from tests.review.looking import TODAY, Limit, found, plant_named

FARM = plant_named("farm").graph
REVIEWED = Reviewed(plant_named("farm"), TODAY)

# Limits of the plant's own description; share of stall, suction and dew point are common practice, no source.
LIMITS = (
    Limit("stall-within-discharge-rating", "farm", "BO1", "boosters.1.stall_pressure_highest",
          FARM["boosters.1.discharge_rating"].si),
    Limit("stall-share", "farm", "BO2", "boosters.2.stall_share", 0.8),
    Limit("booster-inlet-within-limit", "farm", "BO1", "boosters.1.supply_proof", FARM["boosters.1.inlet_highest"].si),
    Limit("booster-drawn-above-atmosphere", "farm", "BO1", "boosters.1.supply_lowest",
          FARM["site.atmosphere"].si + 0.5e5, "above"),
    Limit("booster-ratio-within-maker-limit", "farm", "BO2", "boosters.2.pressure_ratio_hot", 6.0),
    Limit("booster-ratio-within-clearance-limit", "farm", "BO2", "boosters.2.pressure_ratio_hot",
          FARM["boosters.2.ratio_limit"].si),
    Limit("booster-discharge-within-seals", "farm", "BO1", "boosters.1.discharge_temperature", 273.15 + 120),
    Limit("booster-uncooled-within-seals", "farm", "BO2", "boosters.2.discharge_temperature_isentropic", 273.15 + 150),
    Limit("seals-last-a-year", "farm", "BO1", "boosters.1.strokes_per_year", 3e6),
    Limit("drive-side-bears-highest-air", "farm", "BO1", "boosters.1.drive_pressure_highest",
          FARM["boosters.1.drive_rating"].si),
    Limit("highest-drive-air-as-described", "farm", "BO2", "boosters.2.drive_pressure_highest",
          drive_air_brought(REVIEWED, "BO2").si, "above"),
    Limit("compressor-cuts-in-above-drive", "farm", "BO1", "boosters.1.drive_pressure", FARM["compressor.cut_in"].si),
    Limit("compressor-duty-within-limit", "farm", "compressor.duty_boosting", "compressor.duty_boosting", 0.75),
    Limit("compressor-duty-within-limit", "farm", "compressor.duty", "compressor.duty", 0.75),
    Limit("drive-air-dry-enough", "farm", "compressor", "compressor.dew_point", dry_below(REVIEWED).si),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def test_a_failed_regulator_lets_through_what_the_relief_does() -> None:
    """6.5 bar(g), 3 % tolerance and 4 % accumulation: 6.955 bar(g), less than the 8 bar(g) of the compressor."""
    assert drive_air_brought(REVIEWED, "BO1").si - FARM["site.atmosphere"].si == pytest.approx(6.955e5, rel=1e-9)


def test_without_a_relief_all_that_the_compressor_makes_comes() -> None:
    bare = Reviewed(plant_named("farm"), TODAY, network=network("farm", without=("A2", "RV3")))
    assert drive_air_brought(bare, "BO1").si - FARM["site.atmosphere"].si == pytest.approx(8e5, rel=1e-9)


def test_dry_air_has_its_dew_point_ten_kelvin_below_the_coldest_day() -> None:
    assert dry_below(REVIEWED).si == pytest.approx(273.15 - 8 - 10, rel=1e-12)


def unrelieved() -> Any:
    sections = plant_named("farm").network.sections
    bare = {name: replace(each, relief=()) if name == "stage_1" else each for name, each in sections.items()}
    return replace(plant_named("farm").network, sections=bare)


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
def test_without_a_relief_the_discharge_bears_the_stall(case: str) -> None:
    """The weakest part behind the first booster is the tube of the relief's line, 12 x 1 mm."""
    limit = Limit("", "farm", "BO1", "boosters.1.stall_pressure_highest", FARM["safety.tube.r4.rating"].si)
    value, verdict = limit.cases[case]
    looks = found("booster-discharge-relieved", "farm", {limit.value: value}, network=unrelieved())
    assert {each.where: each.verdict for each in looks} == {"BO1": verdict, "BO2": "passed"}


OPENED = {"AV2": {"fail_position": "stays"}}
BROKEN: tuple[tuple[str, str, dict[str, Any]], ...] = (
    # no non-return valve, no valve that fails shut, and two equal means
    ("bank-parted-by-two-means", "BO1", {"chains": {
        "L12": "BO1 > J26 > J27 > AV2 > J28 > J29 > J30 > HO1 > V15 > BK1"}, "without": ("NR2",)}),
    ("bank-parted-by-two-means", "BO1", {"items": OPENED}),
    ("bank-parted-by-two-means", "BO1", {"chains": {
        "L12": "BO1 > J26 > J27 > NR2 > NR90 > J28 > J29 > J30 > HO1 > V15 > BK1"}, "without": ("AV2",),
        "items": {"NR90": {"kind": "non_return_valve", "rating": "200 bar(g)", "cracking_pressure": "100 mbar"}}}),
    ("booster-exhaust-led-outdoors", "BO1", {"items": {"VT10": {"leads_to": "room"}}}),
    ("booster-exhaust-led-outdoors", "BO1", {"without": ("A4",)}),
    ("dust-filter-before-booster", "BO1", {"chains": {"L2": "DC1 > V4 > J13 > V5 > CC1 > NR1 > J20 > BV1"},
                                            "without": ("FI2",)}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "where", "changed"), BROKEN)
def test_the_rule_fires(rule: str, where: str, changed: dict[str, Any]) -> None:
    looks = {each.where: each.verdict for each in found(rule, "shed", network=network("shed", **changed))}
    assert looks[where] == "broken"


def test_a_low_side_that_bears_the_bank_needs_no_two_means() -> None:
    """The second booster of the farm draws from cylinders whose header bears 200 bar(g), more than the high bank has."""
    without = network("farm", items={"AV9": {"fail_position": "stays"}})
    looks = {each.where: each.verdict for each in found("bank-parted-by-two-means", "farm", network=without)}
    assert looks == {"BO1": "passed", "BO2": "passed"}
    hotter = {"banks.high.hot_pressure": FARM["safety.low.highest_pressure"].si + 1e8}
    looks = {each.where: each.verdict for each in found("bank-parted-by-two-means", "farm", hotter, network=without)}
    assert looks == {"BO1": "passed", "BO2": "broken"}


def test_what_is_broken_is_told_otherwise_than_what_holds() -> None:
    led_in = network("shed", items={"VT10": {"leads_to": "room"}})
    (good,), (bad,) = (found("booster-exhaust-led-outdoors", "shed", network=each) for each in (None, led_in))
    assert (good.message.workshop, bad.message.workshop) == (
        "The exhaust of BO1 ends outdoors.", "The exhaust of BO1 does not end in a vent outdoors.",
    )  # fmt: skip


def test_a_plant_without_boosters_is_not_looked_at() -> None:
    assert not found("stall-within-discharge-rating", "bench")
    assert not found("bank-parted-by-two-means", "bench")
