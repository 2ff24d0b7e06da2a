"""What joins the pieces of a part of a plant, on small networks read by hand."""

import pytest

from macros.network.joins import alone, way_between
from tests.network.networks import network

SMALL = network(
    {"BU1": "buffer", "V1": "hand_valve", "J1": "junction", "V2": "hand_valve", "BU2": "buffer", "V3": "hand_valve",
     "J2": "junction", "VT1": "vent", "GD1": "gas_detector"},
    "BU1 > V1 > J1 > V2 > BU2.in", "J1.branch > V3 > J2 > VT1", "BU2.out > J2.branch",
)  # fmt: skip
"""A buffer that feeds another through two valves, and a header into which both are bled."""


def test_the_way_of_the_gas_joins_two_pieces():
    assert way_between(SMALL, ["BU1", "V1", "V2", "BU2"]) == ("V1", "J1", "V2")


def test_a_header_into_which_both_lead_does_not_join_them():
    """By hand: without V2 the only way from one vessel to the other leads backwards from the header."""
    bled = network(
        {"BU1": "buffer", "V1": "hand_valve", "J1": "junction", "BU2": "buffer", "V2": "hand_valve", "VT1": "vent"},
        "BU1 > V1 > J1 > VT1", "BU2 > V2 > J1.branch",
    )  # fmt: skip
    assert way_between(bled, ["BU1", "V1", "BU2", "V2"]) == ()


def test_what_is_one_piece_already_needs_no_way():
    assert way_between(SMALL, ["BU1", "V1", "J1", "V2", "BU2"]) == ()
    assert way_between(SMALL, []) == ()


def test_an_item_without_a_line_is_alone_and_joined_to_nothing():
    assert alone(SMALL, ["BU1", "V1", "GD1", "VT1"]) == {"GD1", "VT1"}
    assert way_between(SMALL, ["BU1", "V1", "GD1"]) == ()


@pytest.mark.parametrize(("kind", "way"), [
    ("non_return_valve", ("V1", "X1", "V2")), ("booster", ("V1", "X1", "V2")), ("stack", ()),
])  # fmt: skip
def test_the_way_leads_through_what_passes_gas_and_no_membrane(kind, way):
    chain = "V1 > X1.o2" if kind == "stack" else "V1 > X1.in"
    items = {"BU1": "buffer", "V1": "hand_valve", "X1": kind, "V2": "hand_valve", "BU2": "buffer"}
    medium = "oxygen: " if kind == "stack" else ""
    found = network(items, f"{medium}BU1 > {chain}", f"X1.{'h2' if kind == 'stack' else 'out'} > V2 > BU2")
    assert way_between(found, ["BU1", "V1", "V2", "BU2"]) == way
