"""Each proof with a network that breaks it and no other, and the same network mended; common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from macros.network.proofs import Failed, prove
from tests.network.stands import lineup, piping


def told(failed: Failed) -> str:
    """A message with plain spaces."""
    return failed.message.replace("\u00a0", " ")


def proofs(found: list[Failed]) -> set[str]:
    return {each.proof for each in found}


TRAIN = {
    "ST1": "stack", "J1": "junction", "RV1": "relief_valve", "VT1": "vent", "AV1": "hand_valve", "VT2": "vent",
    "J2": "junction", "NR1": "non_return_valve", "V1": "hand_valve", "BV1": "buffer", "J3": "junction",
    "RV2": "relief_valve", "VT3": "vent", "RE1": {"kind": "reservoir", "rating": "0.5 bar(g)"}, "VT4": "vent",
    "P1": {"kind": "pump", "highest_pressure": "0.3 bar(g)"}, "IS1": {"kind": "isolator", "normal_position": "closed"},
    "RC1": "rectifier",
}  # fmt: skip
CHAINS = (
    "wet_hydrogen: ST1.h2 > J1 > J2 > NR1 > V1 > J3 > BV1", "wet_hydrogen: J1.branch > RV1 > VT1",
    "wet_hydrogen: J2.branch > AV1 > VT2", "hydrogen: J3.branch > RV2 > VT3", "oxygen: ST1.o2 > RE1.in",
    "oxygen: RE1.top > VT4", "water: RE1.bottom > P1 > ST1.water_in", "electric: RC1.positive > IS1 > ST1.positive",
)  # fmt: skip
SECTIONS: dict[str, Any] = {
    "train": {"title": "Train", "items": ["ST1", "RV1", "AV1"], "medium": "wet_hydrogen", "room": "yard",
              "relief": ["RV1"]},
    "buffer": {"title": "Buffer", "items": ["BV1", "RV2", "V1"], "medium": "hydrogen", "room": "yard",
               "relief": ["RV2"]},
}  # fmt: skip
CAPS = {"RV1": {"ST1": 33.0}, "RV2": {"ST1": 33.0}, "VT4": {"ST1.o2": 0.1, "P1": 0.0}}


def plant(**changes: Any) -> Any:
    """A stack, its train, a buffer behind a non-return valve: nothing is wrong with it."""
    given: dict[str, Any] = {"sections": SECTIONS, "caps": CAPS, "stores": {"BV1": 33.0}, **changes}
    return piping(TRAIN, *CHAINS, **given)


def test_the_sound_plant_passes_every_proof_running_and_stopped() -> None:
    assert prove(lineup(plant(), runs="current pump", AV1="closed", V1="open", IS1="closed")) == []
    assert prove(lineup(plant(), AV1="open", V1="open", IS1="open", at_rest=True)) == []


def test_a_part_reached_by_more_than_it_bears_is_named_with_path_pressure_and_rating() -> None:
    weak = {**TRAIN, "V1": {"kind": "hand_valve", "rating": "16 bar(g)"}}
    pipes = piping(weak, *CHAINS, sections=SECTIONS, caps=CAPS, stores={})
    found = prove(lineup(pipes, runs="current pump", AV1="closed", V1="open", IS1="closed"))
    assert proofs(found) == {"within_ratings"}
    (failed,) = found
    assert failed.where == "V1"
    assert failed.path == ("ST1", "J1", "J2", "NR1", "V1")
    assert "ST1 > J1 > J2 > NR1 > V1: 33.0 bar(g) reaches V1, which bears 16.0 bar(g)" in told(failed)


def test_without_a_proven_relief_the_stack_is_without_limit() -> None:
    pipes = plant(caps={**CAPS, "RV1": {}, "RV2": {}})
    found = prove(lineup(pipes, runs="current pump", AV1="closed", V1="open", IS1="closed"))
    assert proofs(found) == {"within_ratings"}
    assert "a pressure without limit" in told(found[0])


def test_gas_that_gets_round_a_non_return_valve_is_found() -> None:
    items = {"BV1": "buffer", "J1": "junction", "NR1": "non_return_valve", "J2": "junction", "BK1": "bank",
             "V1": "hand_valve"}  # fmt: skip
    pipes = piping(items, "BV1 > J1 > NR1 > J2 > BK1", "J2.branch > V1 > J1.branch", stores={"BK1": 50.0})
    assert prove(lineup(pipes, V1="closed")) == []
    (failed,) = prove(lineup(pipes, V1="open"))
    assert (failed.proof, failed.where) == ("non_return_valves_hold", "NR1")
    assert failed.path == ("BK1", "J2", "NR1", "J2", "V1", "J1", "NR1")


def test_nitrogen_may_stand_on_both_sides_of_a_non_return_valve() -> None:
    items = {"PI1": "purge_inlet", "J1": "junction", "NR1": "non_return_valve", "J2": "junction", "BK1": "bank",
             "V1": "hand_valve"}  # fmt: skip
    pipes = piping(items, "nitrogen: PI1 > J1", "J1 > NR1 > J2 > BK1", "J2.branch > V1 > J1.branch")
    assert prove(lineup(pipes, V1="open")) == []


def test_a_bank_must_not_fill_a_lower_one_through_a_three_way_valve() -> None:
    """Both bear it; the lower is filled beyond its fill pressure all the same."""
    items = {"BK1": "bank", "BK2": "bank", "V1": {"kind": "three_way_valve", "rating": "200 bar(g)"}, "BU1": "burner",
             "PR1": {"kind": "pressure_regulator", "rating": "200 bar(g)"}}  # fmt: skip
    pipes = piping(items, "BK1 > V1 > PR1 > BU1", "BK2 > V1.branch", stores={"BK1": 50.0, "BK2": 140.0},
                   held_to={"PR1": 0.5})  # fmt: skip
    assert prove(lineup(pipes, V1="in_out")) == []
    assert prove(lineup(pipes, V1="branch_out")) == []
    for joining in ("in_branch", "open"):
        (failed,) = prove(lineup(pipes, V1=joining))
        assert (failed.proof, failed.where) == ("stores_stand_apart", "BK1")
        assert failed.path == ("BK2", "V1", "BK1")


def test_drive_air_that_can_meet_gas_is_found() -> None:
    items = {"CP1": "compressor", "J1": "junction", "V1": "hand_valve", "BV1": "buffer", "FI1": "filter", "VT1": "vent"}
    pipes = piping(items, "air: CP1 > J1 > FI1 > VT1", "BV1 > V1", "air: V1 > J1.branch")
    assert prove(lineup(pipes, V1="closed")) == []
    found = prove(lineup(pipes, V1="open"))
    assert proofs(found) == {"media_stay_apart"}
    assert "hydrogen meets air" in told(found[0])


def test_oxygen_that_can_meet_hydrogen_is_found_past_no_water_line_but_past_an_open_valve() -> None:
    items = {"ST1": "stack", "BV1": "buffer", "V1": "hand_valve", "J1": "junction", "RE1": "reservoir", "VT1": "vent",
             "J2": "junction"}  # fmt: skip
    chains = ["ST1.h2 > J2 > BV1", "J2.branch > V1", "oxygen: V1 > J1.branch", "oxygen: ST1.o2 > J1 > RE1.in",
              "oxygen: RE1.top > VT1", "water: RE1.out > ST1.water_in"]  # fmt: skip
    pipes = piping(items, *chains, caps={"VT1": {"ST1.o2": 0.1}})
    assert prove(lineup(pipes, V1="closed")) == []
    found = prove(lineup(pipes, V1="open"))
    assert proofs(found) == {"media_stay_apart"}
    chains[1:3] = ["water: J2.branch > V1 > J1.branch"]
    assert prove(lineup(piping(items, *chains, caps={"VT1": {"ST1.o2": 0.1}}), V1="open")) == []


def test_a_relief_shut_off_from_what_it_protects_is_found() -> None:
    items = {**TRAIN, "V9": "hand_valve"}
    chains = list(CHAINS)
    chains[1] = "wet_hydrogen: J1.branch > V9 > RV1 > VT1"
    pipes = piping(items, *chains, sections=SECTIONS, caps=CAPS, stores={"BV1": 33.0})
    given: dict[str, Any] = {"runs": "current pump", "AV1": "closed", "V1": "open", "IS1": "closed"}
    assert prove(lineup(pipes, V9="open", **given)) == []
    # The relief of the buffer still caps the train through the non-return valve, and yet its own is shut off.
    (failed,) = prove(lineup(pipes, V9="closed", **given))
    assert failed.proof == "reliefs_serve"
    assert "ST1 is fed and shut off from its relief RV1" in told(failed)


def test_a_relief_whose_outlet_is_shut_is_found() -> None:
    items = {**TRAIN, "V9": "hand_valve"}
    chains = list(CHAINS)
    chains[1] = "wet_hydrogen: J1.branch > RV1 > V9 > VT1"
    pipes = piping(items, *chains, sections=SECTIONS, caps=CAPS, stores={"BV1": 33.0})
    given: dict[str, Any] = {"runs": "current pump", "AV1": "closed", "V1": "open", "IS1": "closed"}
    assert prove(lineup(pipes, V9="open", **given)) == []
    found = prove(lineup(pipes, V9="closed", **given))
    assert {each.where for each in found if each.proof == "reliefs_serve"} == {"RV1"}


def test_a_stack_against_a_shut_outlet_is_found() -> None:
    found = prove(lineup(plant(), runs="current pump", AV1="closed", V1="closed", IS1="closed"))
    assert proofs(found) == {"outlets_open"}
    assert found[0].where == "ST1"


def test_a_positive_displacement_pump_against_a_shut_outlet_is_found_and_a_centrifugal_one_bears_it() -> None:
    def circuit(displaces: bool) -> Any:
        items = {"RE1": {"kind": "reservoir", "rating": "6 bar(g)"}, "VT1": "vent", "V1": "hand_valve",
                 "P1": {"kind": "pump", "highest_pressure": "3 bar(g)", "positive_displacement": displaces},
                 "RV1": "relief_valve", "J1": "junction", "VT2": "vent"}  # fmt: skip
        return piping(items, "water: RE1.bottom > P1 > J1 > V1 > RE1.return", "oxygen: RE1.top > VT1",
                      "water: J1.branch > RV1", "air: RV1 > VT2", caps={"VT1": {"P1": 0.0}})  # fmt: skip

    assert prove(lineup(circuit(True), runs="pump", V1="open")) == []
    assert proofs(prove(lineup(circuit(True), runs="pump", V1="closed"))) == {"outlets_open"}
    assert prove(lineup(circuit(False), runs="pump", V1="closed")) == []


def test_a_stop_that_leaves_the_stack_under_pressure_is_found() -> None:
    """The train stands shut in at 20 bar(g) without current."""
    found = prove(lineup(plant(), held={"J1": 20.0}, AV1="closed", V1="closed", IS1="open"))
    assert proofs(found) == {"stack_let_down"}
    assert "ST1 stands at 20.0 bar(g) without current" in told(found[0])
    assert prove(lineup(plant(), held={"J1": 20.0}, AV1="open", V1="closed", IS1="open")) == []


def test_without_its_non_return_valve_a_buffer_keeps_the_stack_under_pressure_though_a_vent_stands_open() -> None:
    items = {**TRAIN, "NR1": "filter"}
    pipes = piping(items, *CHAINS, sections=SECTIONS, caps=CAPS, stores={"BV1": 33.0})
    found = prove(lineup(pipes, AV1="open", V1="open", IS1="open"))
    assert proofs(found) == {"stack_let_down"}
    assert prove(lineup(pipes, AV1="open", V1="closed", IS1="open")) == []


def test_current_with_an_open_isolator_is_found() -> None:
    found = prove(lineup(plant(), runs="current pump", AV1="closed", V1="open", IS1="open"))
    assert proofs(found) == {"drives_agree"}


def test_a_booster_driven_though_it_should_stand_still_and_one_without_air_are_found() -> None:
    items = {"CP1": "compressor", "V1": "hand_valve", "J1": "junction", "V2": "hand_valve", "VT2": "vent",
             "BO1": "booster", "VT1": "vent", "BV1": "buffer", "BK1": "bank"}  # fmt: skip
    pipes = piping(items, "air: CP1 > V1 > J1 > BO1.drive_air", "air: J1.branch > V2 > VT2", "air: BO1.exhaust > VT1",
                   "BV1 > BO1 > BK1", raised={"BO1": 90.0})  # fmt: skip
    assert prove(lineup(pipes, runs="booster_air", V1="open", V2="closed")) == []
    assert prove(lineup(pipes, V1="closed", V2="open")) == []
    for given in ({"V1": "open", "V2": "closed"}, {"runs": "booster_air", "V1": "closed", "V2": "closed"},
                  {"runs": "booster_air", "V1": "open", "V2": "open"}):  # fmt: skip
        assert proofs(prove(lineup(pipes, **given))) == {"drives_agree"}


def test_water_shut_in_is_found_where_it_may_grow_warm() -> None:
    items = {"RE1": {"kind": "reservoir", "rating": "6 bar(g)"}, "VT1": "vent", "V1": "hand_valve", "DI1": "deioniser",
             "V2": "hand_valve", "P1": {"kind": "pump", "highest_pressure": "0.3 bar(g)"}}  # fmt: skip
    pipes = piping(items, "water: RE1.bottom > P1 > V1 > DI1.in", "water: DI1.out > V2 > RE1.return",
                   "oxygen: RE1.top > VT1", caps={"VT1": {"P1": 0.0}})  # fmt: skip
    assert prove(lineup(pipes, V1="closed", V2="open", at_rest=True)) == []
    found = prove(lineup(pipes, V1="closed", V2="closed", at_rest=True))
    assert proofs(found) == {"no_water_shut_in"}
    assert proofs(prove(lineup(pipes, runs="heater", V1="closed", V2="closed"))) == {"no_water_shut_in"}
    assert prove(lineup(pipes, V1="closed", V2="closed")) == []


COLUMN = {"BV1": "buffer", "NR1": "non_return_valve", "V1": "hand_valve", "J1": "junction", "V3": "hand_valve",
          "VT1": "vent", "V2": "hand_valve", "DC1": "desiccant_column", "V4": "hand_valve", "VT2": "vent"}  # fmt: skip
ROUND_COLUMN = ("BV1 > V1 > J1 > V2 > DC1", "J1.branch > V3 > VT1", "DC1.top > V4 > VT2")


def opened(**positions: str) -> list[Failed]:
    """The column opened beside a buffer at 25 bar(g), 10 bar(g) being what asks for two valves and a bleed."""
    pipes = piping(COLUMN, *ROUND_COLUMN, stores={"BV1": 25.0})
    found = prove(lineup(pipes, opened="DC1", **positions))
    return [each for each in found if len(each.path) > 1]


def test_two_shut_valves_with_an_open_bleed_between_isolate() -> None:
    assert opened(V1="closed", V3="open", V2="closed", V4="open") == []


def test_one_shut_valve_does_not_isolate_above_the_stated_pressure() -> None:
    for positions in ({"V1": "closed", "V2": "open"}, {"V1": "open", "V2": "closed"}):
        (failed,) = opened(V3="closed", V4="open", **positions)
        assert "behind one shut valve while 25.0 bar(g) stands before it" in told(failed)
        shut = "V1" if positions["V1"] == "closed" else "V2"
        assert failed.path == ("BV1", shut, "DC1")


def test_two_shut_valves_without_a_bleed_do_not_isolate() -> None:
    (failed,) = opened(V1="closed", V3="closed", V2="closed", V4="open")
    assert "without an open bleed between them" in told(failed)


def test_open_valves_do_not_isolate_at_all() -> None:
    (failed,) = opened(V1="open", V3="closed", V2="open", V4="open")
    assert "is opened while 25.0 bar(g) reaches it" in told(failed)


def test_one_shut_valve_isolates_below_the_stated_pressure() -> None:
    pipes = piping(COLUMN, *ROUND_COLUMN, stores={"BV1": 5.0})
    found = prove(lineup(pipes, opened="DC1", V1="closed", V2="open", V3="closed", V4="open"))
    assert not [each for each in found if len(each.path) > 1]


def test_a_non_return_valve_isolates_nothing() -> None:
    """In place of the second valve, and pointing either way, it counts as open."""
    items = {**COLUMN, "V2": "non_return_valve"}
    pipes = piping(items, "BV1 > V1 > J1", "DC1.in > V2 > J1.out", *ROUND_COLUMN[1:], stores={"BV1": 25.0})
    found = prove(lineup(pipes, opened="DC1", V1="closed", V3="open", V4="open"))
    assert any("behind one shut valve" in told(each) for each in found)


def test_what_is_opened_must_be_inert_and_read_at_zero() -> None:
    pipes = piping(COLUMN, *ROUND_COLUMN, stores={"BV1": 25.0})
    shut = {"V1": "closed", "V3": "open", "V2": "closed", "V4": "open"}
    found = prove(replace(lineup(pipes, opened="DC1", **shut), before=lineup(pipes, **shut)))
    messages = " ".join(told(each) for each in found)
    assert proofs(found) == {"opened_safely"}
    assert "purge it with nitrogen first" in messages
    assert "no gauge joined to it was read at zero" in messages


@pytest.mark.parametrize(
    ("chains", "isolators", "missed"),
    [
        ("electric: SU1 > IS2 > RC1.in", {"IS1": "open", "IS2": "open"}, False),
        ("electric: SU1 > IS2 > RC1.in", {"IS1": "closed", "IS2": "open"}, True),
        ("electric: SU1 > IS2 > RC1.in", {"IS1": "open", "IS2": "closed"}, True),
        ("electric: SU1 > RC1.in", {"IS1": "open"}, True),
    ],
)
def test_beside_a_stack_nothing_is_opened_but_with_its_current_broken_twice(
    chains: str, isolators: dict[str, str], missed: bool
) -> None:
    """Two shut off means, one of which may be shut by mistake; common practice, no source."""
    items = {**TRAIN, "SU1": "supply", "IS2": {"kind": "isolator", "normal_position": "closed"}}
    used = items if "IS2" in chains else {tag: kind for tag, kind in items.items() if tag != "IS2"}
    pipes = piping(used, *CHAINS, chains, sections=SECTIONS, caps=CAPS, stores={"BV1": 9.0})
    shut = {"V1": "closed", "AV1": "open", **isolators}
    found = prove(lineup(pipes, opened="RV1", **shut))
    told_of = [told(each) for each in found if "beside a stack" in each.message]
    assert bool(told_of) is missed
    if missed:
        assert told_of[0].startswith("ST1 > RV1: RV1 is opened beside a stack")
        assert "33.0 bar(g)" in told_of[0]


def test_a_vessel_of_water_is_not_opened_while_it_stands_open_to_another() -> None:
    items = {"RE1": {"kind": "reservoir", "rating": "6 bar(g)"}, "VT1": "vent", "V1": "hand_valve", "DI1": "deioniser",
             "V2": "hand_valve", "P1": {"kind": "pump", "highest_pressure": "0.3 bar(g)"}}  # fmt: skip
    pipes = piping(items, "water: RE1.bottom > P1 > V1 > DI1.in", "water: DI1.out > V2 > RE1.return",
                   "oxygen: RE1.top > VT1", caps={"VT1": {"P1": 0.0}})  # fmt: skip
    assert prove(lineup(pipes, opened="DI1", V1="closed", V2="closed")) == []
    for given in ({"V1": "open", "V2": "closed"}, {"V1": "closed", "V2": "open"}):
        (failed,) = prove(lineup(pipes, opened="DI1", **given))
        assert failed.proof == "opened_safely"
