"""The current's way, worked by hand: what carries it, and how often it is broken before the stack."""

from __future__ import annotations

import pytest

from macros.network import Network
from macros.network.current import breaks, energised
from tests.network.stands import piping

ITEMS = {
    "SU1": "supply", "IS2": "isolator", "RC1": "rectifier", "FU1": "fuse", "IS1": "isolator", "ST1": "stack",
    "V1": "hand_valve",
}  # fmt: skip
GAS, MINUS = "hydrogen: ST1.h2 > V1", "electric: RC1.negative > ST1.negative"
MAINS, PLUS = "electric: SU1 > IS2 > RC1.in", "electric: RC1.positive > FU1 > IS1 > ST1.positive"


def network(*chains: str) -> Network:
    """The mains, a rectifier and a stack, with the leads that are handed in."""
    return piping(ITEMS, GAS, *chains).network


@pytest.fixture(scope="module")
def wired() -> Network:
    return network(MAINS, PLUS, MINUS)


def test_current_reaches_the_stack_through_closed_isolators_only(wired: Network) -> None:
    closed = {"IS1": "closed", "IS2": "closed"}
    still = energised(wired, closed, ())
    assert ("RC1", "in") in still and ("ST1", "positive") not in still
    running = energised(wired, closed, ["current"])
    assert {("ST1", "positive"), ("ST1", "negative"), ("IS1", "in")} <= running
    cut = energised(wired, {**closed, "IS1": "open"}, ["current"])
    assert ("IS1", "in") in cut and ("ST1", "positive") not in cut
    assert energised(wired, {"IS1": "open", "IS2": "open"}, ()) == {("SU1", "out"), ("IS2", "in")}


@pytest.mark.parametrize(
    ("lead", "mains", "count"),
    [("closed", "closed", 0), ("open", "closed", 1), ("closed", "open", 1), ("open", "open", 2)],
)
def test_open_isolators_are_counted_from_the_mains_to_the_stack(
    wired: Network, lead: str, mains: str, count: int
) -> None:
    assert breaks(wired, {"IS1": lead, "IS2": mains}, "ST1") == count


def test_a_lead_past_an_isolator_leaves_it_out() -> None:
    """Two ways in parallel are broken as often as the one that is broken less."""
    past = network("electric: SU1 > RC1.in", "electric: RC1.positive > IS2 > FU1", PLUS, MINUS)
    assert breaks(past, {"IS1": "open", "IS2": "open"}, "ST1") == 1


def test_without_mains_a_rectifier_has_current_and_without_leads_nothing_is_known_to_be_broken() -> None:
    assert breaks(network(PLUS), {"IS1": "open", "IS2": "open"}, "ST1") == 1
    assert breaks(network(), {"IS1": "open", "IS2": "open"}, "ST1") == 0
