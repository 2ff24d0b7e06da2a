"""The rules of procedures: each in a plant whose procedures leave something out, and limits of purging."""

from collections.abc import Callable
from typing import Any

import pytest

from macros.description.procedures_file import Procedure, ProceduresFile, Step
from tests.review.changed import described, network
from tests.review.looking import Limit, found, plant_named

FARM = plant_named("farm").graph

# Common practice, no source: 1 % of either gas left by a purge, two valves and a bleed from 10 bar(g).
LIMITS = (
    Limit("purge-leaves-as-little-as-usual", "farm", "safety.oxygen_left", "safety.oxygen_left", 0.01),
    Limit("purge-leaves-as-little-as-usual", "farm", "safety.hydrogen_left", "safety.hydrogen_left", 0.01),
    Limit("purge-supply-reaches-swing", "farm", "PI1", "items.pi1.supply_pressure",
          FARM["safety.purge_pressure"].si, "above"),
    Limit("isolation-pressure-as-usual", "farm", "safety.isolation_pressure", "safety.isolation_pressure",
          FARM["site.atmosphere"].si + 1e6),
)  # fmt: skip


@pytest.mark.parametrize("case", ["inside", "on it", "outside", "no number", "not known"])
@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit.rule} {limit.where}")
def test_the_rule_turns_at_its_limit(limit: Limit, case: str) -> None:
    value, verdict = limit.cases[case]
    assert limit.verdict(value) == verdict


def file_of(plant: str) -> ProceduresFile:
    return plant_named(plant).description.procedures


def without(*names: str) -> ProceduresFile:
    """The farm with some procedures left out."""
    held = file_of("farm").procedures
    return file_of("farm").model_copy(
        update={"procedures": {key: each for key, each in held.items() if key not in names}}
    )


def opening(tag: str) -> list[str]:
    """The procedures of the farm that open an item."""
    held = file_of("farm").procedures
    return [name for name, each in held.items() if any(tag in step.opens for step in each.steps)]


def leaving(state: str) -> list[str]:
    """The procedures of the farm that start in a state."""
    return [name for name, each in file_of("farm").procedures.items() if each.start == state]


def with_steps(name: str, change: Callable[[Step], Step]) -> ProceduresFile:
    """The farm with every step of one procedure changed."""
    held = file_of("farm").procedures
    changed = held[name].model_copy(update={"steps": [change(step) for step in held[name].steps]})
    return file_of("farm").model_copy(update={"procedures": {**held, name: changed}})


def with_procedure(name: str, **changes: Any) -> ProceduresFile:
    held = file_of("farm").procedures
    return file_of("farm").model_copy(update={"procedures": {**held, name: held[name].model_copy(update=changes)}})


def replaced(old: str, new: str) -> Callable[[Step], Step]:
    """A step whose texts say something else."""

    def change(step: Step) -> Step:
        reads = [each.model_copy(update={"wanted": each.wanted.replace(old, new)}) for each in step.reads]
        return step.model_copy(update={"do": step.do.replace(old, new), "why": None, "reads": reads})

    return change


def no_zero(step: Step) -> Step:
    return step.model_copy(update={"reads": [each.model_copy(update={"let_down": False}) for each in step.reads]})


def no_reads(step: Step) -> Step:
    return step.model_copy(update={"reads": []})


def no_inert(name: str) -> Callable[[Step], Step]:
    return lambda step: step.model_copy(update={"makes_inert": [each for each in step.makes_inert if each != name]})


BROKEN: tuple[tuple[str, str, ProceduresFile], ...] = (
    ("purged-before-hydrogen", "buffer", with_steps("purge_in", no_inert("buffer"))),
    ("purged-before-hydrogen", "train", without(*leaving("erected"))),
    ("purged-before-opening", "stage_2", with_steps("purge_out", no_inert("stage_2"))),
    ("purge-counts-its-swings", "purge_in", with_steps("purge_in", replaced("{safety.purge_swings_in}", "three"))),
    ("purge-counts-its-swings", "purge_out", with_steps("purge_out", replaced("{safety.purge_swings_", "{other."))),
    ("purge-proved-by-analysis", "purge_in", with_steps("purge_in", replaced("{safety.oxygen_left}", "little"))),
    ("leak-test-written", "farm", without("leak_test")),
    ("leak-test-written", "farm", with_steps("leak_test", replaced("leak_test_allowance", "highest_pressure"))),
    ("running-state-can-be-stopped", "running", without(*leaving("running"), *leaving("filling_low"))),
    ("running-state-can-be-stopped", "transferring", without("bank_to_bank")),
    ("way-on-after-emergency-stop", "filling_low", without(*leaving("tripped"))),
    ("every-state-has-a-way-on", "heating", without(*leaving("heating"))),
    ("desiccant-change-written", "DC1", without(*opening("DC1"))),
    ("desiccant-change-written", "DI1", without(*opening("DI1"))),
    ("vehicle-filling-written", "VE1", without("fill_vehicle")),
    ("vehicle-filling-written", "VE1", with_steps(
        "fill_vehicle", lambda step: step.model_copy(update={"sets": {
            tag: position for tag, position in step.sets.items() if (tag, position) != ("QC1", "closed")}}))),
    ("opening-says-what-is-needed", "change_desiccant", with_procedure("change_desiccant", needs=[])),
)  # fmt: skip


@pytest.mark.parametrize(("rule", "where", "changed"), BROKEN)
def test_the_rule_fires(rule: str, where: str, changed: ProceduresFile) -> None:
    looks = {each.where: each.verdict for each in found(rule, "farm", procedures=changed)}
    assert looks[where] == "broken"


@pytest.mark.parametrize(("name", "change"), [("change_desiccant", no_zero), ("change_deioniser", no_reads)])
def test_a_step_that_opens_unread_is_found(name: str, change: Callable[[Step], Step]) -> None:
    looks = found("opening-reads-first", "farm", procedures=with_steps(name, change))
    assert {each.where.split(",")[0] for each in looks if not each.holds} == {name}


def test_water_is_opened_without_a_gauge_at_zero() -> None:
    looks = found("opening-reads-first", "farm", procedures=with_steps("change_deioniser", no_zero))
    assert all(each.holds for each in looks)


def test_a_state_that_a_procedure_passes_through_is_left_by_it() -> None:
    """Gas is passed from bank to bank within one procedure that begins and ends with the plant at rest."""
    procedure: Procedure = file_of("farm").procedures["bank_to_bank"]
    assert (procedure.start, procedure.end) == ("cold", "cold")
    looks = {each.where: each.verdict for each in found("running-state-can-be-stopped", "farm")}
    assert looks["transferring"] == "passed"


def test_an_emergency_stop_that_leaves_an_undescribed_state_is_found() -> None:
    trips = plant_named("farm").description.plant.trips
    stop = next(number for number, trip in enumerate(trips, start=1) if trip.cause == "emergency_stop")
    pumping = described("farm", f"trips.{stop}", stops=["current", "booster_air"])
    assert {each.verdict for each in found("way-on-after-emergency-stop", "farm", described=pumping)} == {"broken"}


def test_a_state_that_nobody_described_is_unknown() -> None:
    """A procedure that starts nowhere cannot be followed."""
    lost = with_procedure("normal_stop", start="nowhere")
    assert "unknown" in {each.verdict for each in found("running-state-can-be-stopped", "farm", procedures=lost)}


def test_a_coupling_that_leads_to_no_vehicle_does_not_count() -> None:
    apart = network("farm", without=("QC1",), chains={
        "L21": "J30.branch > J46 > AV10 > NR9 > J42 > XF1 > NV2 > V30 > J43 > J44 > J45 > BW1 > HO3 > RP1 > VE1"})  # fmt: skip
    assert [each.verdict for each in found("vehicle-filling-written", "farm", network=apart)] == ["broken"]
