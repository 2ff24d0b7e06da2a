"""The rules of the record: readings at their tolerance, what is owed, waivers and signatures that hold or have lapsed."""

from dataclasses import replace

import pytest

from macros.description.record_file import RecordFile
from macros.review import RULES
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of
from tests.review.changed import described
from tests.review.looking import TODAY, found, plant_named

FARM = plant_named("farm")
DIGEST = FARM.design_digest
OTHER = "0123456789ab"


def record(**parts: object) -> RecordFile:
    return RecordFile.model_validate({"format": 1, **parts})


def reading(figure: str, value: str, tolerance: str, date: str = "2026-11-20") -> dict[str, str]:
    return {"figure": figure, "value": value, "tolerance": tolerance, "date": date, "role": "operator"}


def verdicts(rule: str, parts: dict, **handed_in: object) -> dict[str, str]:
    return {each.where: each.verdict for each in found(rule, "farm", record=record(**parts), **handed_in)}


FLOW = "stack.hydrogen_normal_flow"
AT_REST = "stack.crossover_at_rest"


@pytest.mark.parametrize(
    ("value", "tolerance", "verdict"),
    [
        ("31.5 NL/min", "5 %", "passed"),
        ("31.4 NL/min", "5 %", "broken"),
        ("34.7 NL/min", "5 %", "passed"),
        ("34.8 NL/min", "5 %", "broken"),
        ("35 NL/min", "2 NL/min", "passed"),
        ("35.2 NL/min", "2 NL/min", "broken"),
    ],
)
def test_a_reading_within_its_tolerance_is_as_predicted(value: str, tolerance: str, verdict: str) -> None:
    """The farm's stack makes 33.1 NL/min: 5 % to either side reach from 31.45 to 34.76, 2 NL/min to 35.1."""
    predicted = FARM.graph[FLOW].si * 22.41396954e-3 * 1000 * 60
    assert predicted == pytest.approx(33.1, abs=0.05)
    assert verdicts("measured-as-predicted", {"readings": [reading(FLOW, value, tolerance)]}) == {FLOW: verdict}


@pytest.mark.parametrize(
    ("figure", "value", "tolerance", "verdict"),
    [
        (AT_REST, "450 NmL/min", "30 %", "passed"),
        (AT_REST, "480 NmL/min", "30 %", "broken"),
        (AT_REST, "200 NmL/min", "30 %", "broken"),
        ("safety.buffer.leak_test_allowance", "2 mbar", "0 %", "passed"),
        ("safety.buffer.leak_test_allowance", "5 mbar", "0 %", "broken"),
        (AT_REST, "3 bar(g)", "30 %", "unknown"),
        (AT_REST, "300 NmL/min", "5 K", "unknown"),
        ("stack.nothing", "1 V", "5 %", "unknown"),
    ],
)
def test_a_reading_of_a_safety_figure(figure: str, value: str, tolerance: str, verdict: str) -> None:
    """
    355 NmL/min cross at rest; a reading far below is as suspect as one above. The buffer may lose 3.4 mbar in its test,
    and less is well. What is of another kind, or of no figure, cannot be judged and fails.
    """
    parts = {"readings": [reading(figure, value, tolerance)]}
    assert verdicts("measured-safety-figures-hold", parts) == {figure: verdict}
    assert verdicts("measured-as-predicted", parts) == {}


def test_the_last_reading_of_a_figure_counts() -> None:
    before, after = reading(FLOW, "20 NL/min", "5 %", "2026-01-05"), reading(FLOW, "33 NL/min", "5 %", "2026-11-05")
    assert verdicts("measured-as-predicted", {"readings": [after, before]}) == {FLOW: "passed"}


def test_a_pressure_deviates_by_its_gauge_reading_and_a_temperature_by_kelvin() -> None:
    """Stall is figured at 69.6 bar(g), 10 % of it 6.96 bar; the dew point may lie 5 K off."""
    stall, dew = "boosters.1.stall_pressure", "drying.frost_point"
    frost = FARM.graph[dew].si - 273.15
    near = [reading(stall, "63 bar(g)", "10 %"), reading(dew, f"{frost + 4.9:.1f} °C", "5 K")]
    far = [reading(stall, "62 bar(g)", "10 %"), reading(dew, f"{frost + 5.2:.1f} °C", "5 K")]
    assert set(verdicts("measured-as-predicted", {"readings": near}).values()) == {"passed"}
    assert set(verdicts("measured-as-predicted", {"readings": far}).values()) == {"broken"}


def test_a_reading_of_tomorrow_is_none() -> None:
    """It is 25 November 2026."""
    today, tomorrow = (
        reading(FLOW, "33 NL/min", "5 %", "2026-11-25"),
        reading(AT_REST, "300 NmL/min", "5 %", "2026-11-26"),
    )
    signed = {"date": "2027-01-01", "role": "owner", "statement": "built", "digest": OTHER}
    found_now = verdicts("readings-not-from-the-future", {"readings": [today, tomorrow], "sign_offs": [signed]})
    assert found_now == {FLOW: "passed", AT_REST: "broken", "owner": "broken"}


OWED = {"to_measure": [{"figure": FLOW, "how": "by a meter", "tolerance": "5 %"}]}


@pytest.mark.parametrize("measured", [False, True])
def test_what_commissioning_owes_is_open_until_built_and_a_fault_afterwards(measured: bool) -> None:
    parts = OWED | ({"readings": [reading(FLOW, "33 NL/min", "5 %")]} if measured else {})
    verdict = {FLOW: "passed" if measured else "broken"}
    built = described("farm", status="built")
    assert verdicts("measure-at-commissioning", parts) == verdict
    assert verdicts("built-plant-is-measured", parts) == {}
    assert verdicts("measure-at-commissioning", parts, described=built) == {}
    assert verdicts("built-plant-is-measured", parts, described=built) == verdict
    assert RULES["measure-at-commissioning"].asks


def test_figures_of_safety_are_on_the_list() -> None:
    assert set(verdicts("safety-figures-to-be-measured", OWED).values()) == {"broken"}
    assert all(each.holds for each in found("safety-figures-to-be-measured", "farm"))


def signature(digest: str) -> dict[str, str]:
    return {"date": "2026-11-01", "role": "owner", "statement": "looked at", "digest": digest}


@pytest.mark.parametrize(("digest", "verdict"), [(DIGEST, "passed"), (OTHER, "broken")])
def test_a_signature_holds_for_the_design_that_was_looked_at(digest: str, verdict: str) -> None:
    parts = {"sign_offs": [signature(digest)]}
    built = described("farm", status="built")
    assert verdicts("signatures-still-hold", parts) == {"owner": verdict}
    assert verdicts("built-plant-is-signed-for", parts, described=built) == {"farm": verdict}
    assert verdicts("built-plant-is-signed-for", {}, described=built) == {"farm": "broken"}
    assert verdicts("built-plant-is-signed-for", {}) == {}


def waiver(rule: str = "stall-share", expiry: str = "2027-06-30", digest: str = DIGEST) -> dict[str, str]:
    reason = "The booster was tried at this share and fills well."
    return {"rule": rule, "reason": reason, "role": "owner", "expiry": expiry, "digest": digest}


@pytest.mark.parametrize(
    ("rule", "given", "verdict"),
    [
        ("waivers-name-a-rule", waiver(), "passed"),
        ("waivers-name-a-rule", waiver("stall-is-fine"), "broken"),
        ("waivers-may-be-given", waiver(), "passed"),
        ("waivers-may-be-given", waiver("stall-within-discharge-rating"), "broken"),
        ("waivers-in-force", waiver(expiry="2026-11-25"), "passed"),
        ("waivers-in-force", waiver(expiry="2026-11-24"), "broken"),
        ("waivers-end-soon", waiver(expiry="2027-11-25"), "passed"),
        ("waivers-end-soon", waiver(expiry="2027-11-27"), "broken"),
        ("waivers-for-this-design", waiver(), "passed"),
        ("waivers-for-this-design", waiver(digest=OTHER), "broken"),
    ],
)
def test_waivers(rule: str, given: dict[str, str], verdict: str) -> None:
    """It is 25 November 2026."""
    assert verdicts(rule, {"waivers": [given]}) == {given["rule"]: verdict}


def test_an_unusual_input_is_told() -> None:
    """A bed is usually regenerated at 110 to 150 °C."""
    stage = FARM.description.plant.drying[3]
    hot = stage.regeneration_temperature.__class__("200 °C", 473.15, "°C", "temperature", 3)
    unusual = described("farm", "drying.4", regeneration_temperature=hot)
    assert {each.where: each.verdict for each in found("inputs-within-usual-practice", "farm", described=unusual)} == {
        "drying.4.regeneration_temperature": "broken"
    }
    assert [each.verdict for each in found("inputs-within-usual-practice", "farm")] == ["passed"]


def test_what_is_given_is_not_assumed() -> None:
    """A plant that gives the factor by which crossing gas exceeds diffusion is not told that it is assumed."""
    rule, path = "safety-stands-on-given-inputs", "stack.excess_factor"
    assert {each.where: each.verdict for each in found(rule, "farm")}[path] == "broken"
    given = replace(FARM, graph=FARM.graph.with_inputs({path: "1.3"}))
    assert path not in {each.where for each in findings_of(RULES[rule], Reviewed(given, TODAY))}
