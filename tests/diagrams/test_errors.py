"""What cannot be drawn is refused in a sentence that names the item or line and says what would be right."""

from __future__ import annotations

import math

import pytest

from diagrams import DrawingError, Item, Line, schematic, symbol_ports

from .networks import line

V1, V2 = Item("V1", "hand_valve", (0, 0)), Item("V2", "hand_valve", (2, 0))


def refused(items: list[Item], lines: list[Line], identity: str = "plant", title: str = "A plant") -> str:
    with pytest.raises(DrawingError) as caught:
        schematic(items, lines, title=title, description="", identity=identity)
    return str(caught.value)


def test_an_unknown_symbol() -> None:
    assert "there is no symbol 'valve'" in refused([Item("V1", "valve", (0, 0))], [])
    with pytest.raises(DrawingError, match="there is no symbol 'valve'"):
        symbol_ports("valve")


def test_an_unknown_port() -> None:
    said = refused([V1, V2], [line("L1", "hydrogen", "V1.side", "V2")])
    assert said == "line L1 names port 'side' of V1; a hand valve offers in, out"


def test_a_port_that_must_be_named() -> None:
    said = refused(
        [Item("ST1", "stack", (0, 0)), Item("V1", "hand_valve", (2, 0))], [line("L1", "hydrogen", "ST1", "V1")]
    )
    assert said.startswith("line L1 does not say which port of ST1 it means")
    assert "h2" in said


def test_a_port_named_in_passing() -> None:
    items = [V1, Item("T1", "buffer", (1, 0)), V2]
    said = refused(items, [line("L1", "hydrogen", "V1", "T1.top", "V2")])
    assert "passes T1 and names its port 'top'" in said


def test_two_items_on_one_place() -> None:
    said = refused([V1, Item("V3", "needle_valve", (0, 0))], [])
    assert said == "V1 and V3 both stand at column 0, row 0; move one of them"


def test_two_items_with_one_tag() -> None:
    assert "two items are tagged V1" in refused([V1, Item("V1", "hand_valve", (1, 0))], [])


def test_two_lines_with_one_name() -> None:
    one = line("L1", "hydrogen", "V1", "V2")
    assert "two lines are called L1" in refused([V1, V2], [one, one])


def test_an_unknown_tag() -> None:
    assert refused([V1], [line("L1", "hydrogen", "V1", "V9")]) == "line L1 stops at V9, but no item has that tag"


def test_a_line_that_goes_nowhere() -> None:
    assert "needs at least two stops" in refused([V1], [line("L1", "hydrogen", "V1")])
    assert "from V1 to itself" in refused([V1], [line("L1", "hydrogen", "V1.out", "V1.in")])


def test_a_state_that_the_symbol_cannot_show() -> None:
    said = refused([Item("V1", "hand_valve", (0, 0), state="ajar")], [])
    assert said == "V1 is said to be 'ajar', which a hand valve cannot be: it shows open, closed"
    assert "it shows no states" in refused([Item("T1", "buffer", (0, 0), state="open")], [])


def test_a_facing_that_does_not_exist_or_suit() -> None:
    assert "V1 faces 'north'" in refused([Item("V1", "hand_valve", (0, 0), facing="north")], [])
    assert "stands upright" in refused([Item("T1", "buffer", (0, 0), facing="down")], [])


def test_an_unknown_mark() -> None:
    assert "V1 is marked hot" in refused([Item("V1", "hand_valve", (0, 0), marks=frozenset({"hot"}))], [])


def test_a_place_that_is_none() -> None:
    assert "which is no place" in refused([Item("V1", "hand_valve", (math.nan, 0))], [])
    assert "within 500" in refused([Item("V1", "hand_valve", (1e9, 0))], [])


def test_an_identity_that_is_no_name() -> None:
    assert "must begin with a letter" in refused([V1], [], identity="1 plant")


def test_an_empty_drawing_and_one_without_a_title() -> None:
    assert "at least one item" in refused([], [])
    assert "needs a title" in refused([V1], [], title=" ")
