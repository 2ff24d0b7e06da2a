"""What is live, worked by hand on a small plant: each row says which ports stand under what feeds them."""

from __future__ import annotations

import pytest

from macros.network.live import circulating, live_nodes
from macros.network.piping import Piping
from macros.network.told import sections_of
from tests.network.stands import gauge, lineup, piping

SECTIONS = {
    "store": {"title": "Store", "items": ["BK1", "V1"], "medium": "hydrogen", "room": "yard", "unprotected": "made up"},
    "line": {"title": "Line", "items": ["NR1", "PG1"], "medium": "hydrogen", "room": "yard", "unprotected": "made up"},
    "use": {"title": "Use", "items": ["BU1"], "medium": "hydrogen", "room": "yard", "unprotected": "made up"},
}


@pytest.fixture(scope="module")
def pipes() -> Piping:
    """A bank behind a valve, a line with a non-return valve, a burner; a purge inlet before the line."""
    return piping(
        {
            "BK1": "bank", "V1": "hand_valve", "NR1": "non_return_valve", "J1": "junction", "PG1": "pressure_gauge",
            "V2": "hand_valve", "BU1": "burner", "PI1": "purge_inlet", "V3": "hand_valve", "J2": "junction",
        },
        "BK1 > V1 > J2 > NR1 > J1 > V2 > BU1",
        "J1.branch > PG1",
        "nitrogen: PI1 > V3 > J2.branch",
        sections=SECTIONS,
        stores={"BK1": 50.0},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("stood", "live"),
    [
        # Shut in, a bank is no part of a live path; the bottle of nitrogen stands up to its valve.
        ({"V1": "closed", "V2": "closed", "V3": "closed"}, {"PI1.out", "V3.in"}),
        # Open to the line, bank and line are live as far as the next shut valve.
        ({"V1": "open", "V2": "closed", "V3": "closed"},
         {"PI1.out", "V3.in", "BK1.out", "V1.in", "V1.out", "V3.out", "NR1.in", "NR1.out", "PG1.tap", "V2.in"}),
        # Nitrogen passes the non-return valve onward; the bank stays shut off.
        ({"V1": "closed", "V2": "open", "V3": "open"},
         {"PI1.out", "V3.in", "V3.out", "V1.out", "NR1.in", "NR1.out", "PG1.tap", "V2.in", "V2.out", "BU1.in"}),
    ],
)  # fmt: skip
def test_live_is_what_a_source_or_an_open_store_reaches(pipes: Piping, stood: dict[str, str], live: set[str]) -> None:
    nodes = live_nodes(lineup(pipes, **stood))
    named = {f"{tag}.{port}" for (tag, port), node in pipes.node.items() if node in nodes}
    asked = {
        "BK1.out",
        "V1.in",
        "V1.out",
        "V3.in",
        "V3.out",
        "PI1.out",
        "NR1.in",
        "NR1.out",
        "PG1.tap",
        "V2.in",
        "V2.out",
        "BU1.in",
    }
    assert named & asked == live


def test_an_inlet_without_a_bottle_is_dead_up_to_its_valve(pipes: Piping) -> None:
    shut = lineup(pipes, V1="closed", V2="closed", V3="closed")
    assert pipes.node["V3", "in"] in live_nodes(shut, frozenset(("PI1",)))
    assert pipes.node["V3", "in"] not in live_nodes(shut, frozenset())
    # Open, it is taken to be coupled: a section that a bottle could reach is never told as isolated.
    opened = lineup(pipes, V1="closed", V2="closed", V3="open")
    assert pipes.node["NR1", "out"] in live_nodes(opened, frozenset())


def test_a_section_open_to_a_store_is_not_told_as_isolated(pipes: Piping) -> None:
    told = {each.name: each.isolated for each in sections_of(lineup(pipes, V1="open", V2="closed", V3="closed"))}
    assert told == {"store": False, "line": False, "use": True}
    told = {each.name: each.isolated for each in sections_of(lineup(pipes, V1="closed", V2="closed", V3="closed"))}
    assert told == {"store": True, "line": True, "use": True}


def test_water_moves_round_the_pump_and_not_into_dead_ends() -> None:
    pipes = piping(
        {"RE1": "reservoir", "P1": "pump", "J1": "junction", "CT1": "transmitter", "V1": "hand_valve", "ST1": "stack"},
        "water: RE1.bottom > P1 > J1 > V1 > ST1.water_in",
        "water: J1.branch > CT1",
        "oxygen: ST1.o2 > RE1.in",
    )
    assert circulating(lineup(pipes, runs="pump", V1="open")) == {("L1", 0), ("L1", 1), ("L1", 2), ("L1", 3)}
    assert circulating(lineup(pipes, V1="open")) == frozenset()
    # Against a shut valve the pump moves nothing.
    assert circulating(lineup(pipes, runs="pump", V1="closed")) == frozenset()


def test_oxygen_that_leaves_by_an_open_vent_is_live_without_pressure() -> None:
    pipes = piping({"ST1": "stack", "VT1": "vent"}, "oxygen: ST1.o2 > VT1")
    assert pipes.node["ST1", "o2"] in live_nodes(lineup(pipes, runs="current"))
    assert pipes.node["ST1", "o2"] not in live_nodes(lineup(pipes))


def test_a_section_of_valves_alone_lies_where_they_meet() -> None:
    """Two banks lead through non-return valves to one line: what stands between the valves is the section."""
    section = {
        "title": "Cascade",
        "items": ["NR1", "NR2"],
        "medium": "hydrogen",
        "room": "yard",
        "unprotected": "made up",
    }
    pipes = piping(
        {"BK1": "bank", "V1": "hand_valve", "NR1": "non_return_valve", "BK2": "bank", "V2": "hand_valve",
         "NR2": "non_return_valve", "J1": "junction", "V3": "hand_valve"},
        "BK1 > V1 > NR1 > J1 > V3",
        "BK2 > V2 > NR2 > J1.branch",
        sections={"cascade": section},
        stores={"BK1": 50.0, "BK2": 140.0},
    )  # fmt: skip
    assert pipes.nodes_of_section("cascade") == {pipes.node["J1", "in"]}
    told = sections_of(lineup(pipes, V1="open", V2="closed", V3="closed"))[0]
    assert (told.isolated, gauge(told.pressure_pa)) == (False, 50.0)
