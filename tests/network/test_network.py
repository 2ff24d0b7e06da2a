"""A network as plain data: what is joined to what, and what a reviewer must look at."""

from __future__ import annotations

import itertools

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.description.item_kinds import ITEM_KINDS
from macros.description.loading import load
from macros.network import How, Network
from tests.description.plants import ROOT, SHED
from tests.network.networks import network


@pytest.fixture(scope="module")
def shed() -> Network:
    return Network.of(load(SHED, ROOT))


def reached(plant: Network, start: str, **positions: str) -> set[str]:
    """Tags that stand at one pressure with a port."""
    tag, _, port = start.partition(".")
    return {each for each, _ in plant.joined((tag, port), plant.positions(positions))}


def test_a_shut_valve_parts_what_an_open_one_joins() -> None:
    plant = network({"BV1": "buffer", "V1": "hand_valve", "BK1": "bank"}, "BV1 > V1 > BK1")
    assert reached(plant, "BV1.out", V1="open") == {"BV1", "V1", "BK1"}
    assert reached(plant, "BV1.out", V1="closed") == {"BV1", "V1"}


def test_a_non_return_valve_joins_at_no_common_pressure() -> None:
    plant = network({"BV1": "buffer", "NR1": "non_return_valve", "BK1": "bank"}, "BV1 > NR1 > BK1")
    assert reached(plant, "BV1.out") == {"BV1", "NR1"}
    (way,) = [way for way in plant.ways() if way.through == "NR1"]
    assert (way.start, way.end, way.how, way.both_ways) == (("NR1", "in"), ("NR1", "out"), How.ONE_WAY, False)


def test_a_regulator_may_let_gas_back() -> None:
    """What flows backwards through a regulator nobody promises to stop; common practice, no source."""
    plant = network({"BV1": "buffer", "PR1": "pressure_regulator", "BU1": "burner"}, "BV1 > PR1 > BU1")
    (way,) = [way for way in plant.ways() if way.through == "PR1"]
    assert way.how is How.LOWERS
    assert way.both_ways


def test_a_three_way_valve_joins_by_its_position() -> None:
    plant = network(
        {"BK1": "bank", "BK2": "bank", "V1": "three_way_valve", "BV1": "buffer"}, "BK1 > V1 > BV1", "BK2 > V1.branch"
    )
    assert reached(plant, "BV1.in", V1="in_out") == {"BV1", "V1", "BK1"}
    assert reached(plant, "BV1.in", V1="branch_out") == {"BV1", "V1", "BK2"}
    assert reached(plant, "BV1.in", V1="closed") == {"BV1", "V1"}
    assert reached(plant, "BK1.out", V1="in_branch") == {"BK1", "V1", "BK2"}


def test_ratings_come_from_the_network_or_from_the_part_that_plant_yml_describes(shed: Network) -> None:
    described = load(SHED, ROOT)
    plant, items = described.plant, described.network.items
    assert plant.buffer is not None
    stack = next(item for item in shed.items.values() if item.kind.name == "stack")
    assert stack.ratings["h2"] == plant.stack.pressure_rating
    assert stack.ratings["o2"] == plant.stack.anode_rating
    assert "positive" not in stack.ratings
    assert shed.items[plant.buffer.tag].ratings["top"] == plant.buffer.allowable_pressure
    booster = plant.boosters[0]
    assert shed.items[booster.tag].ratings == {
        "in": booster.inlet_highest, "out": booster.discharge_rating, "drive_air": booster.drive_rating,
    }  # fmt: skip
    assert shed.items["PR1"].ratings == {"in": items["PR1"].rating, "out": items["PR1"].outlet_rating}


def test_every_port_of_the_shed_that_holds_a_fluid_bears_a_stated_pressure(shed: Network) -> None:
    """A proof needs a limit everywhere. Vents are open, and so is the exhaust of the booster that leads to one."""
    unrated = {
        f"{tag}.{port}"
        for (tag, port), media in shed.media.items()
        if "electric" not in media and port not in shed.items[tag].ratings and shed.items[tag].kind.name != "vent"
    }
    assert unrated == {"BO1.exhaust"}


def test_the_shed_leaves_a_reviewer_nothing_to_find(shed: Network) -> None:
    assert [str(finding) for finding in shed.findings()] == []


def test_the_column_of_the_shed_is_parted_by_two_shut_valves_and_an_open_bleed_on_either_side(shed: Network) -> None:
    shut = {
        "V1": "closed",
        "V2": "closed",
        "V4": "closed",
        "V5": "closed",
        "V3": "open",
        "V6": "open",
        "V7": "closed",
        "V8": "closed",
    }
    column = reached(shed, "DC1.in", **shut)
    assert {"SE1", "ST1", "BV1", "CC1"}.isdisjoint(column)
    for bleed, between in (("V3", "J11"), ("V6", "J13")):
        bled = reached(shed, f"{between}.in", **shut)
        assert {bleed, "VT2"} <= bled
        assert "DC1" not in bled


def test_without_current_the_stack_of_the_shed_opens_to_its_vent(shed: Network) -> None:
    """The normal positions are the fail positions: let down through AV1, whatever else is lost."""
    assert {"AV1", "NV1", "VT2"} <= reached(shed, "ST1.h2")
    for tag, item in shed.items.items():
        if item.kind.name == "actuated_valve":
            assert item.normal_position == item.settings["fail_position"], tag


def test_trips_of_the_shed_move_valves_only_to_where_they_fall_by_themselves(shed: Network) -> None:
    """A trip that needs power or air to hold would be lost with them."""
    for trip in load(SHED, ROOT).plant.trips:
        assert {shed.items[tag].settings["fail_position"] for tag in trip.shuts} <= {"closed"}, trip.cause
        assert {shed.items[tag].settings["fail_position"] for tag in trip.opens} <= {"open"}, trip.cause
        assert not {"fan", "detectors"} & set(trip.stops), trip.cause


def test_reliefs_of_the_shed_are_never_shut_off(shed: Network) -> None:
    shut = {tag: "closed" for tag, item in shed.items.items() if item.kind.positions}
    for section in shed.sections.values():
        for relief in section.relief:
            assert reached(shed, f"{relief}.in", **shut) & set(section.items) - {relief}, relief


HYDROGEN = {"title": "Some part", "medium": "hydrogen", "room": "yard"}


def findings(plant: Network) -> list[str]:
    return [str(finding) for finding in plant.findings()]


def test_a_section_of_gas_without_relief_or_reason_is_a_finding() -> None:
    items = {"BV1": "buffer", "PG1": "pressure_gauge"}
    bare = network(items, "BV1.top > PG1", sections={"part": {**HYDROGEN, "items": ["BV1", "PG1"]}})
    assert findings(bare) == [
        'network.yml: sections.part: the section "Some part" holds gas, has no relief, and does not say why it needs none.'
    ]
    reason = {**HYDROGEN, "items": ["BV1", "PG1"], "unprotected": "It is open to the air."}
    assert findings(network(items, "BV1.top > PG1", sections={"part": reason})) == []


def test_a_relief_behind_a_valve_is_a_finding() -> None:
    items = {"BV1": "buffer", "V1": "hand_valve", "RV1": "relief_valve", "VT1": "vent"}
    protected = {
        "part": {**HYDROGEN, "items": ["BV1"], "relief": ["RV1"]},
        "other": {**HYDROGEN, "items": ["V1", "RV1"], "relief": ["RV1"]},
    }
    assert findings(network(items, "BV1.top > V1 > RV1 > VT1", sections=protected)) == [
        'network.yml: sections.part: RV1 can be shut off from the section "Some part" that it protects: nothing that shuts may stand between.'
    ]


def test_an_item_of_gas_in_no_section_is_a_finding() -> None:
    plant = network(
        {"BV1": "buffer", "PG1": "pressure_gauge"},
        "BV1.top > PG1",
        sections={"part": {**HYDROGEN, "items": ["BV1"], "unprotected": "x"}},
    )
    assert findings(plant) == [
        "network.yml: items.PG1: PG1 holds gas and belongs to no section; its volume and its leak are counted nowhere."
    ]


def test_an_item_that_stands_elsewhere_than_its_section_is_a_finding() -> None:
    plant = network(
        {"BV1": "buffer", "PG1": "pressure_gauge"},
        "BV1.top > PG1",
        sections={"part": {**HYDROGEN, "room": "shed", "items": ["BV1", "PG1"], "unprotected": "x"}},
    )
    assert findings(plant)[0] == (
        "network.yml: sections.part: BV1 stands in yard, its section in shed; a leak of the section is then judged in the wrong place."
    )


@pytest.mark.parametrize(("medium", "meet"), [("oxygen", "hydrogen or oxygen"), ("air", "air or hydrogen")])
def test_media_that_must_never_meet_are_a_finding(medium: str, meet: str) -> None:
    items = {"BV1": "buffer", "J1": "junction", "V1": "hand_valve", "VT1": "vent", "VT2": "vent"}
    plant = network(items, "BV1 > J1 > VT1", f"{medium}: J1.branch > V1 > VT2")
    assert f"network.yml: items.J1: lines of {meet} meet in J1; they must never be joined." in findings(plant)


def test_nitrogen_may_meet_hydrogen() -> None:
    items = {"BV1": "buffer", "J1": "junction", "PI1": "purge_inlet", "VT1": "vent"}
    plant = network(items, "BV1 > J1 > VT1", "nitrogen: PI1 > J1.branch")
    assert not any("meet in" in finding for finding in findings(plant))


def test_the_two_gases_of_a_stack_do_not_meet_in_it() -> None:
    items = {"ST1": "stack", "VT1": "vent", "VT2": "vent"}
    plant = network(items, "ST1.h2 > VT1", "oxygen: ST1.o2 > VT2")
    assert not any("meet in" in finding for finding in findings(plant))


VALVES = ("hand_valve", "actuated_valve", "needle_valve")
INLINE = (*VALVES, "filter", "non_return_valve", "relief_valve", "pressure_regulator", "flame_arrestor")


@settings(max_examples=150)
@given(
    kinds=st.lists(st.sampled_from(INLINE), min_size=1, max_size=12),
    branches=st.lists(st.tuples(st.integers(0, 11), st.sampled_from(INLINE)), max_size=6),
    data=st.data(),
)
def test_what_stands_at_one_pressure_is_what_another_library_finds_connected(
    kinds: list[str], branches: list[tuple[int, str]], data: st.DataObject
) -> None:
    """networkx on a graph built here from nothing but the list of items: a chain of items with tees and branches."""
    items = {"BV1": "buffer"}
    chain = ["BV1"]
    graph = networkx.Graph()
    graph.add_node("BV1")
    free: dict[str, bool] = {}
    lines = []
    junctions = []
    for number, kind in enumerate(kinds, 1):
        tag, tee = f"X{number}", f"J{number}"
        items |= {tag: kind, tee: "junction"}
        chain += [tag, tee]
        junctions.append(tee)
    items["BK1"] = "bank"
    lines.append(" > ".join([*chain, "BK1"]))
    taken = set()
    for number, (where, kind) in enumerate(branches, 1):
        tee = junctions[where % len(junctions)]
        if tee in taken:
            continue
        taken.add(tee)
        items |= {f"Y{number}": kind, f"VT{number}": "vent"}
        lines.append(f"{tee}.branch > Y{number} > VT{number}")
    positions = {}
    for tag, kind in items.items():
        if ITEM_KINDS[kind].positions:
            positions[tag] = data.draw(st.sampled_from(ITEM_KINDS[kind].positions))
        free[tag] = (
            positions.get(tag) == "open"
            if kind in VALVES
            else kind in ("filter", "flame_arrestor", "junction", "buffer", "bank")
        )
    for line in lines:
        tags = [stop.partition(".")[0] for stop in line.split(" > ")]
        for one, other in itertools.pairwise(tags):
            ends = [tag if free[tag] else f"{tag}.{side}" for tag, side in ((one, "out"), (other, "in"))]
            graph.add_edge(*ends)
    plant = network(items, *lines)
    expected = {node.partition(".")[0] for node in networkx.node_connected_component(graph, "BV1")}
    assert {tag for tag, _ in plant.joined(("BV1", "out"), positions)} == expected
