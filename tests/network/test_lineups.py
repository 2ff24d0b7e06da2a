"""The plants of the handbook pass their proofs, and each planted fault is caught with the right message."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
import yaml

from macros.description.loading import load
from macros.description.network_file import NetworkFile
from macros.description.procedures_file import Procedure, Step
from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network import Network
from macros.network.audit import audit
from macros.network.failures import outcomes
from macros.network.lineups import Lineups
from macros.network.network import ratings_in
from macros.network.piping import Piping
from macros.network.proofs import Failed, within_ratings
from macros.network.told import data_of, outcome_data, sections_of
from tests.description.plants import ROOT, SHED
from tests.network.networks import item
from tests.network.stands import gauge, lineup, piping

PLANTS = ("bench", "farm", "shed")


@pytest.fixture(scope="module")
def plants() -> dict[str, Plant]:
    return {name: Plant.load(ROOT / "docs/designs" / name, ROOT) for name in PLANTS}


@pytest.fixture(scope="module")
def shed(plants: dict[str, Plant]) -> Lineups:
    return lineups_of(plants["shed"])


@pytest.fixture(scope="module")
def network_file() -> dict[str, Any]:
    """What `network.yml` of the shed says, as data to plant a fault in."""
    return dict(yaml.safe_load((SHED / "network.yml").read_text("utf-8")))


def told(failed: Failed) -> str:
    return failed.message.replace("\u00a0", " ")


@pytest.mark.parametrize("name", PLANTS)
def test_every_state_step_trip_loss_and_single_failure_passes(plants: dict[str, Plant], name: str) -> None:
    found = [f"{place} {step}: {told(failed)}" for place, step, failed in lineups_of(plants[name]).all_failed()]
    assert found == []


@pytest.mark.parametrize("name", PLANTS)
def test_nothing_is_proved_of_nothing(plants: dict[str, Plant], name: str) -> None:
    """Every state, procedure and trip is there to be proved, and each line-up reaches something."""
    lineups = lineups_of(plants[name])
    assert len(list(lineups.states())) == len(lineups.file.states) >= 5
    assert sum(len(lineups.procedure(each)) - 1 for each in lineups.file.procedures) >= 40
    running = [state for state in lineups.file.states.values() if "current" in state.runs]
    assert len(list(lineups.trips_proved())) >= len(running) * len(lineups.trips)
    assert lineups.state("running").reached.arrivals


def changed(lineups: Lineups, name: str, number: int, **changes: Any) -> list[Failed]:
    """A procedure proved with one step changed; `sets` with none as a position takes that action away."""
    procedure = lineups.file.procedures[name]
    step = procedure.steps[number - 1]
    if "sets" in changes:
        sets = {**step.sets, **changes["sets"]}
        changes["sets"] = {tag: position for tag, position in sets.items() if position is not None}
    steps = [*procedure.steps]
    steps[number - 1] = step.model_copy(update=changes)
    walked = lineups.walk(name, procedure.model_copy(update={"steps": steps}))
    return [found for proved in walked for found in proved.failed]


def step_of(procedure: Procedure, **sets: str) -> int:
    """The step that gives these positions, counted from 1."""
    return next(number for number, step in enumerate(procedure.steps, 1) if sets.items() <= step.sets.items())


def test_an_isolating_valve_forgotten_is_caught(shed: Lineups) -> None:
    """The outer valves are shut at first, the inner ones again once the bleeds are swept."""
    number = step_of(shed.file.procedures["change_desiccant"], V1="closed", V2="closed")
    swept = step_of(shed.file.procedures["change_desiccant"], V2="closed", V8="closed")
    for tag, at in (("V1", number), ("V5", number), ("V2", swept), ("V4", swept)):
        found = changed(shed, "change_desiccant", at, sets={tag: None})
        assert any("DC1 is opened" in told(failed) for failed in found), tag
    found = changed(shed, "change_desiccant", number, sets={"V5": None})
    assert any("behind one shut valve while 33.9 bar(g) stands before it" in told(failed) for failed in found)
    assert any(failed.path[0] == "BV1" and failed.path[-1] == "DC1" for failed in found if failed.path)


def test_a_bleed_never_opened_is_caught(shed: Lineups) -> None:
    number = step_of(shed.file.procedures["change_desiccant"], V3="open", V6="open")
    for tag in ("V3", "V6"):
        found = changed(shed, "change_desiccant", number, sets={tag: None})
        assert any("without an open bleed between them" in told(failed) for failed in found), tag


def test_a_vent_never_opened_is_caught(shed: Lineups) -> None:
    number = step_of(shed.file.procedures["purge_in"], V13="closed", V16="open")
    found = changed(shed, "purge_in", number, sets={"V16": None})
    assert any("PG4 is to be read as let down" in told(failed) for failed in found)


def test_air_let_in_before_the_column_is_inert_is_caught(shed: Lineups) -> None:
    procedure = shed.file.procedures["change_desiccant"]
    number = next(n for n, step in enumerate(procedure.steps, 1) if step.makes_inert)
    found = changed(shed, "change_desiccant", number, makes_inert=[])
    assert any("DC1 is opened while it holds hydrogen" in told(failed) for failed in found)


def test_gas_let_back_before_the_air_is_purged_is_caught(shed: Lineups) -> None:
    procedure = shed.file.procedures["change_desiccant"]
    number = [n for n, step in enumerate(procedure.steps, 1) if step.makes_inert == ["column"]][1]
    found = changed(shed, "change_desiccant", number, makes_inert=[])
    assert any("hydrogen meets air" in told(failed) for failed in found)


def test_a_part_called_inert_that_was_never_swept_is_caught(shed: Lineups) -> None:
    step = Step(do="Say so.", makes_inert=["bank"])
    procedure = shed.file.procedures["lay_up"]
    start = procedure.model_copy(update={"start": "cold", "steps": [step]})
    found = [failed for proved in shed.walk("lay_up", start) for failed in proved.failed]
    assert any("bank is said to be inert, and nitrogen has not come to" in told(failed) for failed in found)


def planted(shed: Lineups, network_file: dict[str, Any], change: Any) -> Lineups:
    """The shed with a fault in its network, under the same pressures."""
    data = {**network_file, "items": {**network_file["items"]}, "lines": {**network_file["lines"]}}
    change(data)
    ratings = ratings_in(load(SHED, ROOT))
    network = Network.build(NetworkFile.model_validate(data), ratings)
    return Lineups(Piping(network, shed.piping.pressures), shed.file, shed.trips)


def caught(lineups: Lineups, message: str) -> bool:
    """Whether a failed proof says so; the search ends with the first that does."""
    return any(message in f"{failed.proof} {told(failed)}" for failed in (found.failed for found in audit(lineups)))


def test_a_non_return_valve_missing_between_buffer_and_stack_is_caught(
    shed: Lineups, network_file: dict[str, Any]
) -> None:
    def change(data: dict[str, Any]) -> None:
        data["items"]["NR1"] = item("filter", room="shed")

    assert caught(planted(shed, network_file, change), "ST1 stands at 33.9 bar(g) without current")


def test_a_bottle_rated_below_the_highest_stall_is_caught(shed: Lineups) -> None:
    weak = replace(shed.piping.network.items["BK1"])
    sixty = shed.piping.network.items["RV4"].settings["set_pressure"]
    weak = replace(weak, ratings=dict.fromkeys(weak.ratings, sixty))
    network = replace(shed.piping.network, items={**shed.piping.network.items, "BK1": weak})
    assert caught(
        Lineups(Piping(network, shed.piping.pressures), shed.file, shed.trips),
        "HO1 > V15 > BK1: 73.4 bar(g) reaches BK1, which bears 65.0 bar(g)",
    )


def test_a_relief_behind_a_valve_that_is_shut_is_caught(shed: Lineups, network_file: dict[str, Any]) -> None:
    def change(data: dict[str, Any]) -> None:
        data["items"]["V99"] = item("hand_valve", room="shed", normal_position="closed")
        data["lines"]["L4"] = {"chain": "SE1.top > J8 > V99 > RV2", "medium": "wet_hydrogen"}

    assert caught(planted(shed, network_file, change), "is fed and shut off from its relief RV2")


def test_drive_air_able_to_meet_gas_is_caught_though_the_valve_between_is_shut(
    shed: Lineups, network_file: dict[str, Any]
) -> None:
    def change(data: dict[str, Any]) -> None:
        data["items"]["J98"] = item("junction")
        data["items"]["V98"] = item("hand_valve", normal_position="closed")
        data["lines"]["A1"] = {
            "chain": "CP1 > FI3 > V14 > AR1 > J24 > AV3 > J25 > J98 > BO1.drive_air",
            "medium": "air",
        }
        data["lines"]["A9"] = {"chain": "J98.branch > V98", "medium": "air"}
        data["items"]["J97"] = item("junction")
        data["lines"]["L11"] = {"chain": "BV1 > V9 > J23 > J97 > BO1", "medium": "hydrogen"}
        data["lines"]["L99"] = {"chain": "V98 > J97.branch", "medium": "hydrogen"}

    assert caught(planted(shed, network_file, change), "media_stay_apart hydrogen meets air")


def without_pot(data: dict[str, Any]) -> None:
    """The drains led straight into the reservoir."""
    data["lines"]["D6"] = {"chain": "DR1 > J9 > RE1.return", "medium": "water"}
    del data["lines"]["D3"]


def test_a_drain_returned_past_the_pot_is_caught(shed: Lineups, network_file: dict[str, Any]) -> None:
    assert caught(
        planted(shed, network_file, without_pot),
        "DR1 > J9 > RE1: if DR1 stays open, gas follows the water and hydrogen meets oxygen at RE1",
    )


def test_a_drain_returned_to_a_closed_reservoir_is_caught() -> None:
    """What stands at 25 bar(g) comes by a drain that stays open; only a vent of proven capacity keeps it off."""
    items = {"SE1": "separator", "DR1": {"kind": "drain", "normal_position": "closed"}, "V1": "hand_valve",
             "RE1": {"kind": "reservoir", "rating": "0.5 bar(g)"}, "VT1": "vent"}  # fmt: skip
    closed = piping(items, "water: SE1.bottom > DR1 > RE1.return", "air: RE1.top > V1 > VT1")
    given: dict[str, Any] = {"held": {"SE1": 25.0}, "DR1": "closed", "V1": "closed"}
    found = {each.how: each for each in outcomes(lineup(closed, **given)) if each.tag == "DR1"}
    (failed,) = found["stuck_open"].failed
    assert "SE1 > DR1 > RE1: 25.0 bar(g) reaches RE1, which bears 0.500 bar(g)" in told(failed)
    del items["V1"], given["V1"]
    vented = piping(items, "water: SE1.bottom > DR1 > RE1.return", "air: RE1.top > VT1",
                    caps={"VT1": {"DR1:passes": 0.02}})  # fmt: skip
    found = {each.how: each for each in outcomes(lineup(vented, **given)) if each.tag == "DR1"}
    assert found["stuck_open"].failed == ()
    assert found["stuck_open"].lost == "gas leaves by DR1 until it is shut off before it."


def test_a_trip_that_leaves_the_stack_under_pressure_is_caught(shed: Lineups) -> None:
    trips = [
        trip.model_copy(update={"opens": [tag for tag in trip.opens if tag not in ("AV1", "AV6")]})
        for trip in shed.trips
    ]
    found = [
        told(failed) for tripped in Lineups(shed.piping, shed.file, trips).trips_proved() for failed in tripped.failed
    ]
    assert any("without current; hydrogen crosses" in message for message in found)


def test_a_trip_whose_flush_is_shut_off_is_caught(shed: Lineups) -> None:
    """The let-down takes minutes, the oxygen space is flammable within half of one: nitrogen must sweep it."""
    trips = [trip.model_copy(update={"opens": [tag for tag in trip.opens if tag != "AV6"]}) for trip in shed.trips]
    found = [
        told(failed) for tripped in Lineups(shed.piping, shed.file, trips).trips_proved() for failed in tripped.failed
    ]
    assert any("no nitrogen sweeps its oxygen side" in message for message in found)


def test_a_stop_that_forgets_the_let_down_is_caught(shed: Lineups) -> None:
    procedure = shed.file.procedures["normal_stop"]
    number = step_of(procedure, AV1="open")
    found = changed(shed, "normal_stop", number, sets={"AV1": None})
    assert any("ST1" in told(failed) and "without current" in told(failed) for failed in found)


def test_a_valve_with_the_wrong_fail_position_is_caught_when_the_power_is_lost(
    shed: Lineups, network_file: dict[str, Any]
) -> None:
    def change(data: dict[str, Any]) -> None:
        for tag in ("AV1", "AV6"):
            data["items"][tag] = {**data["items"][tag], "fail_position": "closed"}

    assert caught(planted(shed, network_file, change), "stack_let_down")


# --- what a line-up tells


def test_the_sections_say_what_is_isolated_vented_and_inert(shed: Lineups) -> None:
    steps = shed.procedure("change_desiccant")
    opened = next(proved for proved in steps if proved.lineup.reached.stand.opened)
    before = steps[opened.step - 1]
    column = {stand.name: stand for stand in sections_of(before.lineup)}["column"]
    assert (column.isolated, column.inert, column.holds) == (True, True, ("nitrogen",))
    assert column.pressure_pa == shed.piping.pressures.atmosphere_pa
    buffer = {stand.name: stand for stand in sections_of(before.lineup)}["buffer"]
    assert round(gauge(buffer.pressure_pa), 1) == 33.9
    assert buffer.holds == ("hydrogen",)
    data = data_of(opened)
    assert data["opened"] == ["DC1"]
    assert data["sections"]["column"]["holds"] == ["air"]


def test_a_ruptured_membrane_is_held_by_the_relief_or_the_vent_of_the_oxygen_side(shed: Lineups) -> None:
    found = {(each.tag, each.how): each for each in outcomes(shed.state("running"))}
    membrane = found["ST1", "ruptured"]
    assert "oxygen" in membrane.rises
    assert set(membrane.holds) <= {"RV6", "VT3"}
    assert membrane.holds
    assert 0.0 < gauge(membrane.highest["oxygen"]) <= 0.5
    assert outcome_data(membrane)["lost"].startswith("the membrane of ST1")


def test_each_thing_that_practice_lists_is_gone_through(shed: Lineups) -> None:
    """The list of single failures: common practice, no source."""
    found = {(each.tag, each.how) for each in outcomes(shed.state("filling"))}
    assert {("ST1", "ruptured"), ("NR1", "leaks_back"), ("NR2", "leaks_back"), ("DR1", "stuck_open"),
            ("PR1", "fails_open"), ("AR1", "fails_open"), ("AV5", "passes"), ("V10", "opened_wrongly"),
            ("V1", "shut_wrongly"), ("BO1", "checks_leak"), ("BO1", "seal_leaks")} <= found  # fmt: skip
    losses = {tripped.cause for tripped in shed.trips_proved()}
    assert {"power_lost", "drive_air_lost", "water_lost", "ventilation_lost"} <= losses


def test_a_regulator_failed_open_is_held_by_the_relief_of_the_uses(shed: Lineups) -> None:
    sweeping = shed.procedure("first_start")[11].lineup
    assert sweeping.reached.stand.positions["AV5"] == "open"
    found = {(each.tag, each.how): each for each in outcomes(sweeping)}
    failed_open = found["PR1", "fails_open"]
    assert failed_open.holds == ("RV5",)
    assert round(gauge(failed_open.highest["uses"]), 2) == 1.15


def test_a_failed_proof_is_never_hidden_by_the_state_before(shed: Lineups) -> None:
    """What was wrong in one step and stays wrong is told again in the next, so that no step looks fine after it."""
    procedure = shed.file.procedures["normal_stop"]
    number = step_of(procedure, AV1="open")
    steps = [*procedure.steps]
    sets = {tag: position for tag, position in steps[number - 1].sets.items() if tag != "AV1"}
    steps[number - 1] = steps[number - 1].model_copy(update={"sets": sets})
    walked = shed.walk("normal_stop", procedure.model_copy(update={"steps": steps}))
    bad = [proved.step for proved in walked if any(each.proof == "stack_let_down" for each in proved.failed)]
    assert bad == list(range(bad[0], len(procedure.steps) + 1))


def test_the_only_non_return_valve_leaking_with_no_relief_for_it_is_caught() -> None:
    """A train that bears 16 bar(g) before a buffer at 25: one valve keeps them apart, and only a sized relief helps."""
    items = {"SE1": {"kind": "separator", "rating": "16 bar(g)"}, "J1": "junction", "RV1": "relief_valve",
             "VT1": "vent", "NR1": "non_return_valve", "BV1": "buffer"}  # fmt: skip
    chains = ("SE1 > J1 > NR1 > BV1", "J1.branch > RV1 > VT1")
    bare = lineup(piping(items, *chains, stores={"BV1": 25.0}))
    assert list(within_ratings(bare)) == []
    (leaking,) = [each for each in outcomes(bare) if (each.tag, each.how) == ("NR1", "leaks_back")]
    (failed,) = leaking.failed
    assert "BV1 > NR1 > J1 > SE1: 25.0 bar(g) reaches SE1, which bears 16.0 bar(g)" in told(failed)
    assert leaking.lost == "NR1 no longer keeps gas from coming back."
    other = lineup(piping(items, *chains, stores={"BV1": 25.0}, caps={"RV1": {"ST1": 12.0}}))
    assert any(each.failed for each in outcomes(other) if each.tag == "NR1")
    sized = lineup(piping(items, *chains, stores={"BV1": 25.0}, caps={"RV1": {"NR1:leaks_back": 12.0}}))
    assert not any(each.failed for each in outcomes(sized) if each.tag == "NR1")
