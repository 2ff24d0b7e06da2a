"""The kinds of item: complete, named as their symbols are, and of one mind with them about ports and positions."""

from __future__ import annotations

import pytest

from diagrams.symbols import symbol_class, symbol_ports
from macros.description.item_kinds import ITEM_KINDS
from macros.description.network_file import Item
from macros.network.kinds import PASSAGES, How, passages
from tests.network.networks import network

ALL = sorted(ITEM_KINDS)

# The items that a home-scale electrolytic plant is made of; common practice, no source.
EVERY_ITEM_OF_THE_TRADE = (
    "stack", "separator", "coalescer", "drain", "degassing_pot", "desiccant_column", "cold_coil", "reservoir",
    "deioniser", "pump", "cooler", "filter", "hand_valve", "needle_valve", "three_way_valve", "actuated_valve",
    "non_return_valve", "excess_flow_valve", "relief_valve", "burst_disc", "pressure_regulator",
    "back_pressure_regulator", "pressure_switch", "pressure_gauge", "transmitter", "gas_detector", "booster",
    "compressor", "air_regulator", "buffer", "bank", "quick_coupling", "breakaway", "hose", "vent",
    "flame_arrestor", "purge_inlet", "burner", "fuel_cell", "receptacle", "vehicle_tank", "rectifier", "supply",
    "fuse", "isolator", "junction",
)  # fmt: skip


def test_no_kind_is_missing() -> None:
    assert sorted(EVERY_ITEM_OF_THE_TRADE) == ALL


@pytest.mark.parametrize("name", ALL)
def test_a_kind_has_the_ports_of_its_symbol(name: str) -> None:
    assert set(ITEM_KINDS[name].ports) <= set(symbol_ports(name))


@pytest.mark.parametrize("name", ALL)
def test_a_symbol_can_show_every_position(name: str) -> None:
    positions = set(ITEM_KINDS[name].positions)
    assert not positions or positions == set(symbol_class(name).states)


@pytest.mark.parametrize("name", ALL)
def test_every_setting_is_a_key_of_the_description(name: str) -> None:
    kind = ITEM_KINDS[name]
    assert set(kind.keys) <= set(Item.model_fields)
    assert not set(kind.needs) & set(kind.may)


def test_every_key_of_the_description_is_a_setting_of_some_kind() -> None:
    used = {key for kind in ITEM_KINDS.values() for key in kind.keys}
    assert set(Item.model_fields) == used


@pytest.mark.parametrize("name", ALL)
def test_ways_lead_from_port_to_port_and_open_in_positions_that_exist(name: str) -> None:
    kind = ITEM_KINDS[name]
    for passage in PASSAGES[name]:
        assert passage.start in kind.ports
        assert passage.end in kind.ports
        assert passage.start != passage.end
        assert (passage.positions is not None) == bool(kind.positions)
        assert passage.positions is None or passage.positions <= set(kind.positions)


def test_every_kind_says_what_passes_it() -> None:
    assert set(PASSAGES) == set(ITEM_KINDS)


@pytest.mark.parametrize("name", [name for name in ALL if ITEM_KINDS[name].runs_through])
def test_what_a_line_runs_through_has_a_way_from_inlet_to_outlet(name: str) -> None:
    assert any({passage.start, passage.end} == {"in", "out"} for passage in PASSAGES[name])


@pytest.mark.parametrize("name", [name for name in ALL if ITEM_KINDS[name].group == "valve"])
def test_every_valve_bears_a_rating(name: str) -> None:
    assert "rating" in ITEM_KINDS[name].needs


@pytest.mark.parametrize(
    ("position", "joined"),
    [
        ("closed", []),
        ("in_out", [("in", "out")]),
        ("in_branch", [("in", "branch")]),
        ("branch_out", [("branch", "out")]),
        ("open", [("branch", "out"), ("in", "branch"), ("in", "out")]),
    ],
)
def test_a_three_way_valve_joins_the_legs_that_its_position_names(position: str, joined: list[tuple[str, str]]) -> None:
    assert sorted((way.start, way.end) for way in passages("three_way_valve", position)) == joined


def test_an_unknown_position_counts_as_open() -> None:
    """No proof may rest on a valve of which nobody says where it stands."""
    assert len(passages("hand_valve", None)) == 1
    assert passages("hand_valve", "closed") == ()
    assert len(passages("three_way_valve", None)) == 3


def test_a_closed_isolator_conducts() -> None:
    assert passages("isolator", "open") == ()
    assert passages("isolator", "closed")[0].how is How.CONDUCTS


def test_nothing_but_a_membrane_joins_the_two_sides_of_a_stack() -> None:
    sides = {(way.start, way.end): way.how for way in PASSAGES["stack"]}
    assert sides["h2", "o2"] is How.CROSSES
    assert not any({start, end} == {"h2", "water_in"} for start, end in sides)


def test_the_drive_air_of_a_booster_never_joins_its_gas() -> None:
    plant = network({"BO1": "booster"})
    assert plant.joined(("BO1", "drive_air"), {}) == {("BO1", "drive_air")}
