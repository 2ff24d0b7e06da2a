"""The jobs that a plant asks for are written, for each plant that has the parts; the list is common practice."""

from __future__ import annotations

import functools

import pytest

from macros.description.loading import Description, load
from tests.description.plants import ROOT

EVERYWHERE = (
    "purge_in", "leak_test", "first_start", "normal_start", "normal_stop", "emergency_stop", "restart_after_trip",
    "draining", "change_desiccant", "change_deioniser", "test_non_return", "exchange_reliefs", "exchange_stack_reliefs",
    "purge_out", "lay_up", "take_apart",
)  # fmt: skip

WHERE_IT_HAS_THE_PARTS = {
    "bench": {"stop_when_full": "filling the buffer", "light_burner": "using gas"},
    "shed": {
        "filling": "filling the bank", "standby": "poor sun", "draw_gas": "using gas", "stop_drawing": "using gas",
    },
    "farm": {
        "fill_low": "filling a bank", "bank_to_bank": "bank to bank", "fill_vehicle": "a vehicle", "standby": "poor sun",
        "light_boiler": "using gas", "stop_boiler": "using gas",
    },
}  # fmt: skip
"""By plant: procedures that only its own parts ask for, and what for."""


@functools.cache
def described(name: str) -> Description:
    return load(ROOT / "docs/designs" / name, ROOT)


@pytest.mark.parametrize("name", sorted(WHERE_IT_HAS_THE_PARTS))
def test_every_job_has_its_procedure(name: str) -> None:
    found = described(name).procedures.procedures
    assert set(found) == {*EVERYWHERE, *WHERE_IT_HAS_THE_PARTS[name]}


@pytest.mark.parametrize("name", sorted(WHERE_IT_HAS_THE_PARTS))
def test_what_a_plant_has_is_used_by_some_procedure(name: str) -> None:
    """A plant with a bank fills it, one with two passes gas on, one with a vehicle fills it, every use is served."""
    described_as, found = described(name).plant, described(name).procedures.procedures
    ends = {procedure.end for procedure in found.values()} | {procedure.start for procedure in found.values()}
    runs = {drive for procedure in found.values() for step in procedure.steps for drive in step.starts}
    assert ("booster_air" in runs) == bool(described_as.boosters)
    assert ("bank_to_bank" in found) == (len(described_as.banks) > 1)
    assert ("fill_vehicle" in found) == any(use.kind == "vehicle" for use in described_as.uses)
    assert ends <= set(described(name).procedures.states)


@pytest.mark.parametrize("name", sorted(WHERE_IT_HAS_THE_PARTS))
def test_every_state_is_reached_and_left_by_some_procedure(name: str) -> None:
    """But for those in which building begins, a trip ends, or a state that only shows how a plant runs meanwhile."""
    file = described(name).procedures
    met = {each for procedure in file.procedures.values() for each in (procedure.start, procedure.end)}
    assert set(file.states) - met <= {"filling", "transferring"}


@pytest.mark.parametrize("name", sorted(WHERE_IT_HAS_THE_PARTS))
def test_every_relief_is_exchanged_by_some_procedure_before_its_test_date_is_past(name: str) -> None:
    """What bears a test date is taken out for its test: each by a procedure whose every step is proved."""
    items = described(name).network.items
    steps = [step for procedure in described(name).procedures.procedures.values() for step in procedure.steps]
    exchanged = {tag for step in steps for tag in step.opens} & {tag for step in steps for tag in step.closes}
    reliefs = {tag for tag, item in items.items() if item.kind == "relief_valve"}
    assert reliefs and reliefs <= exchanged


@pytest.mark.parametrize("name", sorted(WHERE_IT_HAS_THE_PARTS))
def test_every_procedure_says_what_can_hurt_and_reads_something(name: str) -> None:
    for procedure in described(name).procedures.procedures.values():
        assert procedure.hazards
        assert sum(len(step.reads) for step in procedure.steps) >= 2
