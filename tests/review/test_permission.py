"""The rules of permission: each with what it refuses, what it lets pass, and what it is not told."""

import datetime
from dataclasses import replace

import pytest

from macros.review import RULES
from macros.review.permission import OTHER_GASES, last_day
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of
from tests.review.changed import described, network
from tests.review.looking import TODAY, Limit, found, plant_named

FARM = plant_named("farm").graph

# 5 t after Directive 2012/18/EU, from memory; 60 bar(g) is common practice, no source.
LIMITS = (
    Limit(
        "no-light-gauge-bottles", "farm", "BK1", "banks.low.test_pressure", 60e5 + FARM["site.atmosphere"].si, "above"
    ),
    Limit("inventory-below-major-hazard", "farm", "plant.stored_inventory", "plant.stored_inventory", 5000),
)


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def verdicts(rule: str, plant: str, **handed_in: object) -> dict[str, str]:
    return {each.where: each.verdict for each in found(rule, plant, **handed_in)}


REFUSED = sorted({*(gas for gases in OTHER_GASES.values() for gas in gases), "acetylene"})


@pytest.mark.parametrize("gas", REFUSED)
def test_a_cylinder_for_another_gas_is_refused_with_the_reason(gas: str) -> None:
    other = described("farm", "banks.low", approved_gas=gas)
    finding = next(each for each in found("cylinders-approved-for-hydrogen", "farm", described=other) if not each.holds)
    assert (finding.where, finding.verdict) == ("BK1", "broken")
    assert gas in finding.message.workshop
    assert finding.hint.workshop.endswith(". Take cylinders that are approved and stamped for hydrogen.")


def test_no_waiver_covers_a_cylinder_for_another_gas() -> None:
    never = ("cylinders-approved-for-hydrogen", "no-light-gauge-bottles", "vehicle-tank-approved-for-hydrogen")
    assert not any(RULES[name].waivable for name in never)


def test_a_bottle_for_liquefied_gas_is_light_whatever_its_stamp_says() -> None:
    gas_bottle = described("farm", "banks.high", approved_gas="Propane")
    assert verdicts("no-light-gauge-bottles", "farm", described=gas_bottle) == {"BK1": "passed", "BK2": "broken"}


@pytest.mark.parametrize(("gas", "verdict"), [("hydrogen", "passed"), ("natural gas", "broken"), (None, "unknown")])
def test_tank_burner_protection_and_parts(gas: str | None, verdict: str) -> None:
    tank = described("farm", "uses.1", approved_gas=gas)
    assert verdicts("vehicle-tank-approved-for-hydrogen", "farm", described=tank) == {"VE1": verdict}
    burner = network("farm", items={"BU1": {"approved_gas": gas}})
    assert verdicts("burner-made-for-hydrogen", "farm", network=burner) == {"BU1": verdict}
    relief = network("farm", items={"RV1": {"approved_gas": gas}})
    assert verdicts("protection-approved-for-hydrogen", "farm", network=relief)["RV1"] == verdict
    receptacle = network("farm", items={"RP1": {"approved_gas": gas}})
    assert verdicts("parts-approved-for-hydrogen", "farm", network=receptacle).get("RP1", "unknown") == verdict


def test_the_relief_of_drive_air_needs_no_approval_for_hydrogen() -> None:
    assert "RV3" not in verdicts("protection-approved-for-hydrogen", "farm")


@pytest.mark.parametrize("regime", ["fixed", "transportable", "undecided"])
def test_an_undecided_regime_is_found(regime: str) -> None:
    verdict = "broken" if regime == "undecided" else "passed"
    assert (
        verdicts("regime-decided", "farm", described=described("farm", "banks.high", regime=regime))["BK2"] == verdict
    )
    assert verdicts("regime-decided", "bench", described=described("bench", "buffer", regime=regime)) == {
        "BV1": verdict
    }


@pytest.mark.parametrize(("month", "day"), [("2026-11", 30), ("2028-02", 29), ("2026-12", 31), ("2027-02", 28)])
def test_what_falls_due_in_a_month_may_be_done_on_its_last_day(month: str, day: int) -> None:
    assert last_day(month) == datetime.date.fromisoformat(f"{month}-{day}")


@pytest.mark.parametrize(("due", "verdict"), [("2026-12", "passed"), ("2026-11", "passed"), ("2026-10", "broken")])
def test_a_cylinder_is_not_filled_after_its_inspection_fell_due(due: str, verdict: str) -> None:
    """It is 25 November 2026."""
    bank = described("farm", "banks.low", inspection_due=due)
    assert verdicts("cylinder-inspection-in-date", "farm", described=bank)["BK1"] == verdict


@pytest.mark.parametrize(("due", "verdict"), [("2026-11", "passed"), ("2026-10", "broken"), (None, "unknown")])
def test_a_relief_valve_has_a_certificate_in_date(due: str | None, verdict: str) -> None:
    valve = network("farm", items={"RV1": {"tested": due}})
    assert verdicts("protection-test-in-date", "farm", network=valve)["RV1"] == verdict


@pytest.mark.parametrize(("due", "verdict"), [("2027-02", "passed"), ("2027-01", "broken"), ("2026-10", "broken")])
def test_what_falls_due_within_ninety_days_is_booked(due: str, verdict: str) -> None:
    """From 25 November 2026 it is 67 days to the end of January and 95 to that of February."""
    valve = network("farm", items={"RV1": {"tested": due}})
    assert verdicts("inspections-booked-in-time", "farm", network=valve)["RV1"] == verdict


@pytest.mark.parametrize(
    ("of", "verdict"), [("stainless steel", "passed"), ("Grey cast iron", "broken"), (None, "unknown")]
)
def test_a_vessel_says_a_fit_material(of: str | None, verdict: str) -> None:
    vessel = network("farm", items={"SE1": {"material": of}})
    assert verdicts("vessels-of-fit-material", "farm", network=vessel)["SE1"] == verdict


@pytest.mark.parametrize(("of", "verdict"), [("stainless steel 316", "passed"), ("galvanised steel", "broken")])
def test_a_line_is_of_fit_material(of: str, verdict: str) -> None:
    """A branch of which nothing is said is of its line's material."""
    plant = plant_named("farm")
    file = plant.description.network
    lines = {**file.lines, "L1": file.lines["L1"].model_copy(update={"material": of})}
    description = replace(plant.description, network=file.model_copy(update={"lines": lines}))
    looked = findings_of(RULES["lines-of-fit-material"], Reviewed(replace(plant, description=description), TODAY))
    by_line = {each.where: each.verdict for each in looked}
    assert by_line["lines.L1"] == verdict
    assert "lines.L3" not in by_line
