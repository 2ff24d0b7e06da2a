"""
Small networks worked by hand: each answer stands beside the network, and can be told by looking at it.

The laws are common practice, no source: a non-return valve passes one way, a regulator lowers to its set pressure and
lock-up, a booster is an open pipe below its inlet, a relief caps what it is proven against.
"""

from __future__ import annotations

from math import inf

import pytest

from macros.network.paths import path_to
from tests.network.stands import at, gauge, piping, stand


def test_a_shut_valve_stops_a_bank_and_an_open_one_does_not() -> None:
    pipes = piping({"BK1": "bank", "V1": "hand_valve", "BV1": "buffer"}, "BK1 > V1 > BV1", stores={"BK1": 50.0})
    assert at(stand(pipes, V1="closed"), "BV1.in") == 0.0
    assert at(stand(pipes, V1="open"), "BV1.in") == 50.0


def test_a_non_return_valve_passes_forward_and_holds_back() -> None:
    pipes = piping({"BV1": "buffer", "NR1": "non_return_valve", "BK1": "bank"}, "BV1 > NR1 > BK1",
                   stores={"BV1": 25.0, "BK1": 50.0})  # fmt: skip
    reached = stand(pipes)
    assert at(reached, "BV1.out") == 25.0
    assert at(reached, "BK1.in") == 50.0
    assert at(stand(pipes, held={"BV1": 25.0}), "BK1.in") == 25.0


def test_a_leaking_non_return_valve_lets_the_bank_into_the_buffer() -> None:
    pipes = piping({"BV1": "buffer", "NR1": "non_return_valve", "BK1": "bank"}, "BV1 > NR1 > BK1",
                   stores={"BV1": 25.0, "BK1": 50.0})  # fmt: skip
    assert at(stand(pipes, failure="NR1:leaks_back"), "BV1.out") == 50.0


@pytest.mark.parametrize(
    ("proven", "answer"),
    [({"NR1:leaks_back": 33.0}, 33.0), ({"BK1": 33.0}, 33.0), ({"ST1": 33.0}, 50.0), ({}, 50.0)],
    ids=["sized for the leak", "sized for the bank", "sized for the stack only", "sized for nothing"],
)
def test_a_relief_caps_a_leak_only_if_it_is_sized_for_it(proven: dict[str, float], answer: float) -> None:
    pipes = piping(
        {"BV1": "buffer", "J1": "junction", "RV1": "relief_valve", "VT1": "vent", "NR1": "non_return_valve",
         "BK1": "bank"},
        "BV1 > J1 > NR1 > BK1", "J1.branch > RV1 > VT1", stores={"BK1": 50.0}, caps={"RV1": proven},
    )  # fmt: skip
    assert at(stand(pipes, failure="NR1:leaks_back"), "BV1.out") == answer


def test_a_stack_is_without_limit_and_a_proven_relief_caps_it() -> None:
    chains = ("ST1.h2 > J1 > V1 > BV1", "J1.branch > RV1 > VT1", "oxygen: ST1.o2 > VT2",
              "water: RE1.out > ST1.water_in")  # fmt: skip
    items = {"ST1": "stack", "J1": "junction", "V1": "hand_valve", "BV1": "buffer", "RV1": "relief_valve",
             "VT1": "vent", "VT2": "vent", "RE1": "reservoir"}  # fmt: skip
    capped = piping(items, *chains, caps={"RV1": 33.9})
    assert at(stand(capped, runs="current", V1="open"), "BV1.in") == 33.9
    bare = piping(items, *chains)
    assert at(stand(bare, runs="current", V1="open"), "BV1.in") == inf
    assert at(stand(bare, V1="open"), "BV1.in") == 0.0


def test_a_relief_too_small_for_its_source_caps_nothing() -> None:
    pipes = piping({"CP1": "compressor", "J1": "junction", "RV1": "relief_valve", "VT1": "vent", "FI1": "filter",
                    "VT2": "vent"}, "air: CP1 > J1 > FI1", "air: J1.branch > RV1 > VT1", "air: FI1 > VT2",
                   caps={"RV1": {}})  # fmt: skip
    assert at(stand(pipes), "FI1.in") == 8.0


def test_a_relief_behind_a_shut_valve_caps_nothing() -> None:
    pipes = piping(
        {"BK1": "bank", "V1": "hand_valve", "J1": "junction", "BV1": "buffer", "V2": "hand_valve",
         "RV1": "relief_valve", "VT1": "vent"},
        "BK1 > V1 > J1 > BV1", "J1.branch > V2 > RV1 > VT1", stores={"BK1": 50.0}, caps={"RV1": 30.0},
    )  # fmt: skip
    assert at(stand(pipes, V2="open"), "BV1.in") == 30.0
    assert at(stand(pipes, V2="closed"), "BV1.in") == 50.0


def test_a_relief_eases_what_leads_to_it_by_a_non_return_valve_and_its_cracking_pressure() -> None:
    """The stack side stands 50 mbar above the relief of the buffer."""
    pipes = piping(
        {"ST1": "stack", "NR1": "non_return_valve", "J1": "junction", "BV1": "buffer", "RV1": "relief_valve",
         "VT1": "vent", "VT2": "vent", "RE1": "reservoir"},
        "ST1.h2 > NR1 > J1 > BV1", "J1.branch > RV1 > VT1", "oxygen: ST1.o2 > VT2", "water: RE1.out > ST1.water_in",
        caps={"RV1": 33.9},
    )  # fmt: skip
    reached = stand(pipes, runs="current")
    assert at(reached, "BV1.in") == 33.9
    assert at(reached, "ST1.h2") == 33.95


def test_a_regulator_lowers_to_its_set_pressure_and_lock_up() -> None:
    pipes = piping({"BK1": "bank", "PR1": "pressure_regulator", "BU1": "burner"}, "BK1 > PR1 > BU1",
                   stores={"BK1": 50.0}, held_to={"PR1": 0.65})  # fmt: skip
    assert at(stand(pipes), "BU1.in") == 0.65
    assert at(stand(pipes, held={"BK1": 0.3}), "BU1.in") == 0.3


def test_a_regulator_that_creeps_adds_its_lock_up_and_one_failed_open_lowers_nothing() -> None:
    pipes = piping({"BK1": "bank", "PR1": "pressure_regulator", "PR2": "pressure_regulator", "BU1": "burner"},
                   "BK1 > PR1 > PR2 > BU1", stores={"BK1": 50.0},
                   held_to={"PR1": 4.0 + 0.4, "PR2": 0.5 + 0.1})  # fmt: skip
    reached = stand(pipes)
    assert (at(reached, "PR2.in"), at(reached, "BU1.in")) == (4.4, 0.6)
    assert at(stand(pipes, failure="PR1:fails_open"), "PR2.in") == 50.0
    assert at(stand(pipes, failure="PR1:fails_open"), "BU1.in") == 0.6
    assert at(stand(pipes, failure="PR2:fails_open"), "BU1.in") == 4.4


def test_a_regulator_passes_backwards() -> None:
    pipes = piping({"BU1": "burner", "PR1": "pressure_regulator", "J1": "junction", "BK1": "bank", "BV1": "buffer"},
                   "BV1 > PR1 > J1 > BU1", "BK1.in > J1.branch", stores={"BK1": 50.0},
                   held_to={"PR1": 1.0})  # fmt: skip
    assert at(stand(pipes), "BV1.out") == 50.0


BOOSTED = {"CP1": "compressor", "V1": "hand_valve", "BO1": "booster", "VT1": "vent", "BV1": "buffer", "BK1": "bank"}
BOOSTED_CHAINS = ("air: CP1 > V1 > BO1.drive_air", "air: BO1.exhaust > VT1", "BV1 > BO1 > BK1")


def test_a_driven_booster_brings_its_stall() -> None:
    pipes = piping(BOOSTED, *BOOSTED_CHAINS, stores={"BV1": 25.0}, raised={"BO1": 90.0})
    assert at(stand(pipes, V1="open"), "BK1.in") == 90.0


def test_a_booster_without_drive_air_is_an_open_pipe_forwards() -> None:
    """Its outlet below its inlet: the bank comes level with the buffer without a stroke, and never the other way."""
    pipes = piping(BOOSTED, *BOOSTED_CHAINS, stores={"BV1": 25.0}, raised={"BO1": 90.0})
    assert at(stand(pipes, V1="closed"), "BK1.in") == 25.0
    assert at(stand(pipes, V1="closed", held={"BK1": 54.0}), "BV1.out") == 0.0


def test_valves_of_a_booster_that_leak_back_let_the_bank_into_the_buffer() -> None:
    pipes = piping(BOOSTED, *BOOSTED_CHAINS, stores={"BK1": 54.0}, raised={"BO1": 90.0})
    assert at(stand(pipes, V1="closed", failure="BO1:checks_leak"), "BV1.out") == 54.0


def test_a_booster_whose_supply_assists_adds_it_to_its_stall() -> None:
    """72 bar(g) by the drive alone and 25 bar(g) of supply on the same area: 97 bar(g)."""
    pipes = piping(BOOSTED, *BOOSTED_CHAINS, stores={"BV1": 25.0}, raised={"BO1": (72.0, 1.0)})
    assert at(stand(pipes, V1="open"), "BK1.in") == 97.0


def test_two_boosters_in_series_each_add_their_own() -> None:
    """72 + 1 × 25 = 97 after the first, 180 + 0.5 × 97 = 228.5 after the second; the order of writing is no matter."""
    chains = ("BV1 > BO1 > BK1 > BO2 > BK2", "air: BO1.exhaust > VT1", "air: BO2.exhaust > VT2",
              "air: CP1 > J1 > BO1.drive_air", "air: J1.branch > BO2.drive_air")  # fmt: skip
    for first, second in (("BO1", "BO2"), ("BO2", "BO1")):
        raised = {tag: {"BO1": (72.0, 1.0), "BO2": (180.0, 0.5)}[tag] for tag in (first, second)}
        pipes = piping({"CP1": "compressor", "J1": "junction", "BO1": "booster", "BO2": "booster", "VT1": "vent",
                        "VT2": "vent", "BV1": "buffer", "BK1": "bank", "BK2": "bank"}, *chains,
                       stores={"BV1": 25.0}, raised=raised)  # fmt: skip
        reached = stand(pipes)
        assert at(reached, "BK1.in") == 97.0
        assert at(reached, "BK2.in") == 228.5


def test_a_booster_does_not_help_itself_round_an_open_bypass() -> None:
    """Discharge led back to suction: 72 + 1 × 25 = 97 everywhere, and not 72 + 97 and so on without end."""
    pipes = piping(
        {"BV1": "buffer", "J1": "junction", "BO1": "booster", "J2": "junction", "V1": "hand_valve", "BK1": "bank",
         "VT1": "vent", "CP1": "compressor"},
        "BV1 > J1 > BO1 > J2 > BK1", "J2.branch > V1 > J1.branch", "air: BO1.exhaust > VT1",
        "air: CP1 > BO1.drive_air", stores={"BV1": 25.0}, raised={"BO1": (72.0, 1.0)},
    )  # fmt: skip
    reached = stand(pipes, V1="open")
    assert at(reached, "BK1.in") == 97.0
    assert at(reached, "BV1.out") == 97.0


@pytest.mark.parametrize(
    ("position", "first", "second", "buffer"),
    [
        ("in_out", 50.0, 140.0, 50.0), ("branch_out", 50.0, 140.0, 140.0), ("in_branch", 140.0, 140.0, 0.0),
        ("open", 140.0, 140.0, 140.0), ("closed", 50.0, 140.0, 0.0),
    ],
)  # fmt: skip
def test_a_three_way_valve_in_every_position(position: str, first: float, second: float, buffer: float) -> None:
    pipes = piping({"BK1": "bank", "BK2": "bank", "V1": "three_way_valve", "BV1": "buffer"},
                   "BK1 > V1 > BV1", "BK2 > V1.branch", stores={"BK1": 50.0, "BK2": 140.0})  # fmt: skip
    reached = stand(pipes, V1=position)
    assert (at(reached, "BK1.out"), at(reached, "BK2.out"), at(reached, "BV1.in")) == (first, second, buffer)


def test_a_vent_line_stands_at_the_air_and_hands_on_nothing() -> None:
    """Two bleeds into one vent: what comes by the first leaves by the vent and does not enter by the second."""
    pipes = piping({"BK1": "bank", "V1": "hand_valve", "J1": "junction", "VT1": "vent", "V2": "hand_valve",
                    "BV1": "buffer"}, "BK1 > V1 > J1 > VT1", "BV1 > V2 > J1.branch", stores={"BK1": 50.0})  # fmt: skip
    reached = stand(pipes, V1="open", V2="open")
    assert at(reached, "BV1.out") == 0.0
    assert reached.is_vented(pipes.node["BK1", "out"])


def test_what_is_shut_in_keeps_its_pressure_and_what_is_open_to_a_vent_loses_it() -> None:
    pipes = piping({"SE1": "separator", "V1": "hand_valve", "CO1": "coalescer", "V2": "hand_valve", "VT1": "vent"},
                   "SE1 > V1 > CO1 > V2 > VT1", stores={})  # fmt: skip
    reached = stand(pipes, held={"SE1": 20.0, "CO1": 20.0}, V1="closed", V2="open")
    kept = {tag for nodes in reached.held().values() for node in nodes for tag, _ in pipes.ports[node]}
    assert "SE1" in kept
    assert "CO1" not in kept


def test_a_store_is_empty_only_once_a_gauge_says_so() -> None:
    pipes = piping({"BK1": "bank", "V1": "hand_valve", "VT1": "vent"}, "BK1 > V1 > VT1", stores={"BK1": 50.0})
    reached = stand(pipes, V1="open")
    assert reached.held()["BK1"]
    assert not reached.held(frozenset((reached.part[pipes.node["BK1", "out"]],)))


def test_a_ruptured_membrane_brings_the_train_to_the_oxygen_side() -> None:
    items = {"ST1": "stack", "V1": "hand_valve", "BV1": "buffer", "J1": "junction", "RV1": "relief_valve",
             "VT1": "vent", "RE1": "reservoir", "FI1": "filter"}  # fmt: skip
    chains = ("ST1.h2 > V1 > BV1", "oxygen: ST1.o2 > J1 > FI1 > RE1.in", "oxygen: J1.branch > RV1 > VT1",
              "water: RE1.out > ST1.water_in")  # fmt: skip
    bare = piping(items, *chains, stores={"BV1": 25.0})
    assert at(stand(bare, V1="open"), "RE1.in") == 0.0
    assert at(stand(bare, V1="open", failure="ST1:ruptured"), "RE1.in") == 25.0
    sized = piping(items, *chains, stores={"BV1": 25.0}, caps={"RV1": {"ST1:ruptured": 0.42}})
    assert at(stand(sized, V1="open", failure="ST1:ruptured"), "RE1.in") == 0.42


def test_a_leaking_seal_leaves_by_the_exhaust_and_lets_drive_air_into_the_gas() -> None:
    pipes = piping(BOOSTED, *BOOSTED_CHAINS, stores={"BK1": 54.0}, raised={"BO1": 90.0})
    reached = stand(pipes, V1="closed", failure="BO1:seal_leaks")
    assert at(reached, "BO1.drive_air") == 0.0
    assert at(stand(pipes, V1="open", failure="BO1:seal_leaks", held={}), "BV1.out") == 8.0
    shut = piping({**BOOSTED, "FI1": "filter", "BV2": "buffer"}, BOOSTED_CHAINS[0],
                  "air: BO1.exhaust > FI1", BOOSTED_CHAINS[2], stores={"BK1": 54.0}, raised={"BO1": 90.0})  # fmt: skip
    assert at(stand(shut, V1="closed", failure="BO1:seal_leaks"), "BO1.drive_air") == 54.0


def test_a_back_pressure_regulator_passes_forward_only() -> None:
    pipes = piping({"BV1": "buffer", "BP1": "back_pressure_regulator", "BK1": "bank"}, "BV1 > BP1 > BK1",
                   stores={"BV1": 25.0, "BK1": 50.0})  # fmt: skip
    assert at(stand(pipes), "BV1.out") == 25.0
    assert at(stand(pipes, held={"BV1": 25.0}), "BK1.in") == 25.0


def test_a_relief_into_another_part_passes_what_is_above_its_set_pressure() -> None:
    pipes = piping({"BK1": "bank", "RV1": "relief_valve", "BV1": "buffer"}, "BK1 > RV1 > BV1", stores={"BK1": 50.0},
                   opens_at={"RV1": 3.1e6})  # fmt: skip
    assert at(stand(pipes), "BV1.in") == 50.0
    assert at(stand(pipes, held={"BK1": 29.0}), "BV1.in") == 0.0


def test_an_excess_flow_valve_keeps_no_pressure_back() -> None:
    pipes = piping({"BK1": "bank", "XF1": "excess_flow_valve", "BV1": "buffer"}, "BK1 > XF1 > BV1",
                   stores={"BK1": 50.0})  # fmt: skip
    assert at(stand(pipes), "BV1.in") == 50.0


def test_the_path_names_every_tag_from_the_source_to_the_part_that_is_reached() -> None:
    pipes = piping(
        {"BK1": "bank", "V1": "hand_valve", "J1": "junction", "PR1": "pressure_regulator", "NR1": "non_return_valve",
         "FI1": "filter", "BU1": "burner", "PG1": "pressure_gauge"},
        "BK1 > V1 > J1 > PR1 > NR1 > FI1 > BU1", "J1.branch > PG1", stores={"BK1": 50.0}, held_to={"PR1": 2.0},
    )  # fmt: skip
    reached = stand(pipes, V1="open")
    arrival = reached.highest(("BU1", "in"))
    assert arrival is not None
    assert gauge(arrival.pressure_pa) == 2.0
    assert path_to(reached, arrival, ("BU1", "in")) == ("BK1", "V1", "J1", "PR1", "NR1", "FI1", "BU1")
