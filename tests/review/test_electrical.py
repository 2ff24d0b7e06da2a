"""The rules of the direct current and of ignition: each at its limit, without its value, and in a plant that breaks it."""

import pytest

from tests.review.changed import network
from tests.review.looking import Limit, found, plant_named

FARM = plant_named("farm").graph

# The limits are entries and figures of the farm, but for 2.4 V a cell: common practice, no source.
LIMITS = (
    Limit("fuse-above-operating-current", "farm", "power.fuse", "power.fuse", FARM["power.fuse_minimum"].si, "above"),
    Limit("fuse-protects-cable", "farm", "power.fuse", "power.fuse", FARM["power.fuse_maximum"].si),
    Limit("fuse-rated-for-direct-voltage", "farm", "power.fuse", "power.fuse_direct_current_voltage", 100, "above"),
    Limit("isolator-rated-for-direct-voltage", "farm", "power.isolator", "power.isolator_voltage", 100, "above"),
    Limit("isolator-carries-what-fuse-lets-through", "farm", "power.isolator", "power.isolator", 160, "above"),
    Limit("cable-carries-rectifier-current", "farm", "power.cable", "power.cable.ampacity", 140, "above"),
    Limit("cable-thick-enough", "farm", "power.cable", "power.cable.area", FARM["power.cable_area_minimum"].si, "above"),
    Limit("rectifier-makes-operating-current", "farm", "power.rectifier_current", "power.rectifier_current", 120, "above"),
    Limit("rectifier-starts-cold-stack", "farm", "power.rectifier_voltage", "power.rectifier_voltage",
          FARM["power.cold_voltage"].si + FARM["power.cable_drop"].si, "above"),
    Limit("cell-voltage-trip-above-cold-start", "farm", "stack.cell_voltage_trip", "stack.cold_cell_voltage", 2.3),
    Limit("cell-voltage-trip-below-damage", "farm", "stack.cell_voltage_trip", "stack.cell_voltage_trip", 2.4),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def verdicts(rule: str, plant: str, **changes: object) -> dict[str, str]:
    return {each.where: each.verdict for each in found(rule, plant, network=network(plant, **changes))}


@pytest.mark.parametrize(
    ("rule", "chain", "verdict"),
    [
        ("stack-circuit-through-fuse", "RC1.positive > FU1 > IS1 > ST1.positive", "passed"),
        ("stack-circuit-through-fuse", "RC1.positive > IS1 > ST1.positive", "broken"),
        ("stack-circuit-through-isolator", "RC1.positive > IS1 > FU1 > ST1.positive", "passed"),
        ("stack-circuit-through-isolator", "RC1.positive > FU1 > ST1.positive", "broken"),
        ("stack-circuit-through-isolator", "RC1.positive > FU1 > IS1", "unknown"),
    ],
)
def test_fuse_and_isolator_stand_in_the_positive_lead(rule: str, chain: str, verdict: str) -> None:
    """A lead that comes to no stack is not described to its end."""
    assert verdicts(rule, "farm", chains={"E2": chain}) == {"RC1": verdict}


@pytest.mark.parametrize(("said", "verdict"), [("ordinary", "broken"), ("iic_t1", "passed"), (None, "unknown")])
def test_equipment_beside_hydrogen_is_made_for_it(said: str | None, verdict: str) -> None:
    rule = "no-ordinary-equipment-beside-hydrogen"
    assert verdicts(rule, "farm", items={"AV6": {"ignition_class": said}})["AV6"] == verdict
    assert "RC1" not in verdicts(rule, "farm")


@pytest.mark.parametrize(("room", "verdict"), [("lean_to", "passed"), ("barn_bay", "broken"), (None, "unknown")])
def test_rectifier_and_compressor_stand_apart(room: str | None, verdict: str) -> None:
    found_now = verdicts("rectifier-and-compressor-apart-from-hydrogen", "farm", items={"RC1": {"room": room}})
    assert found_now == {"RC1": verdict, "CP1": "passed"}
