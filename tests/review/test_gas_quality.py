"""The rules of the gas and of the oxygen side: each at its limit, without its value, and in a plant that breaks it."""

import pytest

from macros.calculations.facts import facts
from tests.review.changed import described, network
from tests.review.looking import Limit, found, plant_named

FARM = plant_named("farm").graph
SHED = plant_named("shed").graph

HTO, LIMIT = "stack.hydrogen_in_oxygen", "stack.hydrogen_in_oxygen_alarm"

# Limits of the plant's own description, or of facts: 4 % in air [IEC 60079-20-1], 5 ppm of water [ISO 14687 grade D],
# the rest common practice.
LIMITS = (
    Limit("hydrogen-in-oxygen-below-alarm", "farm", HTO, HTO, 0.01),
    Limit("hydrogen-in-oxygen-below-alarm", "farm", f"{HTO}_relief", f"{HTO}_relief", 0.01),
    Limit("hydrogen-in-oxygen-limits-as-usual", "farm", LIMIT, LIMIT, 0.01),
    Limit("hydrogen-in-oxygen-limits-as-usual", "farm", f"{HTO}_trip", f"{HTO}_trip", 0.02),
    Limit("hydrogen-in-oxygen-alarm-below-trip", "farm", LIMIT, LIMIT, 0.75 * 0.02),
    Limit("catalyst-dead-below-lower-limit", "farm", f"{HTO}_catalyst_dead", f"{HTO}_catalyst_dead", 0.04),
    Limit("catalyst-dead-below-trip", "farm", f"{HTO}_catalyst_dead", f"{HTO}_catalyst_dead", 0.02),
    Limit("minimum-current-below-operating", "farm", "stack.minimum_current_alarm", "stack.minimum_current_alarm", 120),
    Limit("minimum-current-below-operating", "farm", "stack.minimum_current_trip", "stack.minimum_current_trip", 120),
    Limit("oxygen-space-safe-after-a-stop", "farm", "PI4", "items.pi4.supply_flow",
          FARM["stack.sweep_flow_minimum_relief"].si, "above"),
    Limit("oxygen-space-safe-after-a-stop", "bench", "ST1", "stack.hydrogen_after_let_down_relief", 0.02),
    Limit("degassing-vent-passes-blow-by", "farm", "VT5", "water.drain_blow_by_relief",
          FARM["safety.vent.vt5.capacity"].si),
    Limit("dew-point-below-coldest-day", "farm", "drying.dew_point", "drying.dew_point", 273.15 - 8),
    Limit("gas-dry-enough-for-fuel-cell", "shed", "FC1", "drying.water_fraction", facts()["purity_water"].quantity.si),
    Limit("cold-coil-does-not-freeze", "farm", "CC1", "drying.2.coolant_temperature", 273.15, "above"),
    Limit("desiccant-lasts-a-day", "farm", "DC1", "drying.desiccant_interval", 24 * 3600, "above"),
    Limit("desiccant-regenerated-hot-enough", "farm", "DC1", "drying.4.regeneration_temperature", 393.15, "above"),
    Limit("desiccant-not-burnt", "farm", "DC1", "drying.4.regeneration_temperature", 423.15),
    Limit("regenerated-bed-dry-enough-for-fuel-cell", "shed", "DC1", "drying.3.residual_loading", 0.012),
    Limit("oxygen-vent-as-wide-as-described", "farm", "VT3", "items.vt3.bore", 0.022, "above"),
    Limit("oxygen-vent-slow", "farm", "oxygen.vent_velocity", "oxygen.vent_velocity", 5.0),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


VALVE = {"kind": "hand_valve", "rating": "10 bar(g)", "normal_position": "open"}

BROKEN = (
    # the flush behind a valve that stays as it is, or behind none that moves by itself
    ("flush-opens-by-itself", "shed", "PI4", {"items": {"AV6": {"fail_position": "stays"}}}),
    ("flush-opens-by-itself", "shed", "PI4", {"chains": {"N4": "PI4 > V23 > NR6 > J18.branch"}}),
    # drains straight into the reservoir
    ("drains-return-through-degassing-pot", "shed", "DR1", {"chains": {"D6": "DR1 > RE1.return"}}),
    ("drains-return-through-degassing-pot", "bench", "DR2", {"chains": {"D2": "CO1.bottom > DR2 > RE1.return"}}),
    # a valve in the vent, a vent into the room, a vent for oxygen
    ("degassing-pot-open-to-its-vent", "shed", "DP1",
     {"items": {"V90": VALVE}, "chains": {"D4": "DP1.top > V90 > VT5"}}),
    ("degassing-pot-open-to-its-vent", "shed", "DP1", {"items": {"VT5": {"leads_to": "room"}}}),
    ("degassing-pot-open-to-its-vent", "shed", "DP1", {"items": {"VT5": {"medium": "oxygen"}}}),
    ("degassing-pot-level-guarded", "farm", "DP1", {"without": ("D5",)}),
    ("degassing-pot-level-guarded", "farm", "DP1", {"items": {"LT2": {"measures": "temperature"}}}),
    ("separators-have-a-drain", "shed", "SE1", {"without": ("D1",)}),
    # the dust filter left out
    ("dust-filter-after-desiccant", "shed", "DC1",
     {"chains": {"L2": "DC1 > V4 > J13 > V5 > CC1 > NR1 > J20 > BV1"}}),
    ("oxygen-side-open-to-its-vent", "farm", "ST1",
     {"items": {"V90": VALVE}, "chains": {"O3": "RE1.top > J3 > V90 > VT3"}}),
    ("oxygen-side-open-to-its-vent", "farm", "ST1", {"items": {"VT3": {"leads_to": "room"}}}),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "plant", "where", "changes"), BROKEN)
def test_a_changed_network_breaks_the_rule(rule: str, plant: str, where: str, changes: dict) -> None:
    verdicts = {each.where: each.verdict for each in found(rule, plant, network=network(plant, **changes))}
    assert verdicts[where] == "broken"
    assert all(each.holds for each in found(rule, plant))


def test_without_a_flush_the_let_down_must_be_fast_enough() -> None:
    """The shed's takes minutes; its oxygen space would pass the trip long before."""
    (finding,) = found("oxygen-space-safe-after-a-stop", "shed", network=network("shed", without=("N4",)))
    assert (finding.where, finding.verdict) == ("ST1", "broken")
    assert "stack.hydrogen_after_let_down_relief" in finding.reads


def test_a_coil_below_freezing_is_right_behind_the_desiccant_and_wrong_before_it() -> None:
    """The shed's coil meets gas of -46 °C, the farm's gas saturated at 45 °C."""
    behind = {"drying.4.coolant_temperature": 258.15}
    before = {"drying.2.coolant_temperature": 258.15}
    assert [each.verdict for each in found("cold-coil-does-not-freeze", "shed", behind)] == ["passed"]
    assert [each.verdict for each in found("cold-coil-does-not-freeze", "farm", before)] == ["broken"]


def test_what_returns_undegassed_is_added_to_what_crosses() -> None:
    """1.2 % and 0.8 % are the 2 % at which it trips; a breath more is too much."""
    path = "water.hydrogen_returned_share_undegassed"
    for returned, verdict in ((0.008, "passed"), (0.0081, "broken"), (None, "unknown")):
        looked = found("undegassed-drains-below-trip", "farm", {HTO: 0.012, path: returned})
        assert {each.where: each.verdict for each in looked}[path] == verdict


def test_drains_to_waste_bring_nothing_back() -> None:
    away = described("farm", "water", drains_return="waste")
    assert found("undegassed-drains-below-trip", "farm", described=away) == []


def test_gas_for_no_fuel_cell_needs_no_fuel_cell_grade() -> None:
    assert found("gas-dry-enough-for-fuel-cell", "farm") == []
    assert found("regenerated-bed-dry-enough-for-fuel-cell", "farm") == []
