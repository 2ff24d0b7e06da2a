"""The way of the gas through a plant's main items, read off the network by hand."""

from types import SimpleNamespace

import pytest

from macros.network.gas_path import MAIN_KINDS, gas_path
from macros.network.lines import Run
from tests.review.looking import plant_named


@pytest.mark.parametrize(("plant", "columns"), [
    ("bench", ["ST1", "SE1", "DC1", "BV1", "BU1"]),
    ("shed", ["ST1", "SE1", "DC1", "BV1", "BO1", "BK1", "FC1 BU1"]),
    ("farm", ["ST1", "SE1", "DC1", "BV1", "BO1", "BK1", "BO2 BU1", "BK2", "VE1"]),
])  # fmt: skip
def test_gas_goes_from_the_stack_to_the_uses(plant, columns):
    """By hand, along the lines of `network.yml`; what branches off the pipe of a bank draws from the bank."""
    assert [" ".join(column) for column in gas_path(plant_named(plant).network).columns] == columns


def test_the_second_bank_and_the_first_both_fill_the_tractor():
    ways = gas_path(plant_named("farm").network).ways
    assert {("BK1", "VE1"), ("BK2", "VE1"), ("BK1", "BU1")} <= set(ways)
    assert ("BO1", "BO2") not in ways


def network(*ways, **kinds):
    items = {tag: SimpleNamespace(kind=SimpleNamespace(name=kind)) for tag, kind in kinds.items()}
    runs = tuple(Run("L1", (start, "out"), (end, "in")) for start, end in ways)
    return SimpleNamespace(items=items, lines={"L1": SimpleNamespace(medium="hydrogen", runs=runs)})


def test_a_ring_is_left_where_the_gas_has_been():
    ring = network(("S", "A"), ("A", "B"), ("B", "A"), ("B", "U"), S="stack", A="buffer", B="booster", U="burner")
    path = gas_path(ring)
    assert path.columns == (("S",), ("A",), ("B",), ("U",))
    assert path.ways == (("S", "A"), ("A", "B"), ("B", "U"))


def test_what_stands_between_is_passed_over_and_what_no_gas_reaches_is_left_out():
    path = gas_path(network(("S", "V"), ("V", "U"), S="stack", V="hand_valve", U="burner", X="buffer"))
    assert path.columns == (("S",), ("U",))
    assert path.ways == (("S", "U"),)
    assert "hand_valve" not in MAIN_KINDS


def test_a_plant_without_a_stack_has_no_way():
    assert gas_path(network(("A", "B"), A="buffer", B="burner")).ways == ()
