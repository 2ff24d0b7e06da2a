"""Chains of items become runs from port to port, or say why they cannot."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from macros.description.chains import Wiring, nearest, stops
from macros.network.lines import ChainError, parse_chain

KINDS = {
    "ST1": "stack", "SE1": "separator", "V1": "hand_valve", "BV1": "buffer", "BO1": "booster", "PG1": "pressure_gauge",
    "J1": "junction", "RV1": "relief_valve", "VT1": "vent", "PI1": "purge_inlet", "NR1": "non_return_valve",
    "RE1": "reservoir", "GD1": "gas_detector", "CP1": "compressor",
}  # fmt: skip


def runs(chain: str) -> list[tuple[str, str]]:
    return [(".".join(run.start), ".".join(run.end)) for run in parse_chain("L1", chain, KINDS)[1]]


@pytest.mark.parametrize(
    ("chain", "found"),
    [
        ("ST1.h2 > SE1 > V1 > BV1", [("ST1.h2", "SE1.in"), ("SE1.out", "V1.in"), ("V1.out", "BV1.in")]),
        ("ST1.h2>SE1", [("ST1.h2", "SE1.in")]),
        ("BV1 > BO1", [("BV1.out", "BO1.in")]),
        ("SE1.top > PG1", [("SE1.top", "PG1.tap")]),
        ("J1.branch > RV1 > VT1", [("J1.branch", "RV1.in"), ("RV1.out", "VT1.in")]),
        ("PI1 > NR1 > J1.branch", [("PI1.out", "NR1.in"), ("NR1.out", "J1.branch")]),
        ("CP1 > BO1.drive_air", [("CP1.out", "BO1.drive_air")]),
        ("RE1.bottom > ST1.water_in", [("RE1.bottom", "ST1.water_in")]),
    ],
)
def test_a_chain_becomes_runs_from_port_to_port(chain: str, found: list[tuple[str, str]]) -> None:
    assert runs(chain) == found


@pytest.mark.parametrize(
    ("chain", "message"),
    [
        ("", '"nothing" stands where a tag belongs; write tags with " > " between them, such as ST1.h2 > SE1 > V1.'),
        ("V1 >", '"nothing" stands where a tag belongs; write tags with " > " between them, such as ST1.h2 > SE1 > V1.'),
        ("v1 > SE1", '"v1" stands where a tag belongs; write tags with " > " between them, such as ST1.h2 > SE1 > V1.'),
        ("V1", '"V1" joins nothing; a line has at least two items.'),
        ("V1 > V9", "no item of network.yml is tagged V9. The nearest known is V1."),
        ("V1.side > SE1", 'V1 has no port "side"; it has V1.in or V1.out.'),
        ("ST1 > SE1", "ST1 has several ports; say which: ST1.water_in or ST1.o2 or ST1.h2 or ST1.h2_water or ST1.positive or ST1.negative."),
        ("SE1 > ST1", "ST1 has several ports; say which: ST1.water_in or ST1.o2 or ST1.h2 or ST1.h2_water or ST1.positive or ST1.negative."),
        ("V1 > SE1.bottom > BV1", "SE1.bottom stands in the middle, where a line passes from inlet to outlet; end this line there and begin a branch."),
        ("V1 > PG1 > BV1", "PG1 is a pressure_gauge, which no line passes through; end this line there."),
        ("V1 > ST1 > BV1", "ST1 is a stack, which no line passes through; end this line there."),
    ],
)  # fmt: skip
def test_a_chain_that_joins_nothing_says_why(chain: str, message: str) -> None:
    with pytest.raises(ChainError) as error:
        parse_chain("L1", chain, KINDS)
    assert str(error.value) == message


def found(kinds: dict[str, str | None], **chains: str) -> list[str]:
    """What the chains of a network break together."""
    wiring = Wiring(kinds)
    return [
        f"{fault.line or fault.tag}: {fault.message}"
        for fault in wiring.faults({line: (chain, None) for line, chain in chains.items()})
    ]


def test_a_port_is_used_once() -> None:
    kinds = {"BV1": "buffer", "PG1": "pressure_gauge", "PG2": "pressure_gauge"}
    assert found(kinds, L1="BV1.top > PG1", L2="BV1.top > PG2") == [
        "L2: BV1.top is taken by the line L1; use BV1.in or BV1.out or BV1.bottom, or put a junction before it."
    ]


def test_the_lid_of_a_reservoir_takes_several_hoses() -> None:
    kinds = {"RE1": "reservoir", "V1": "hand_valve", "V2": "hand_valve", "P1": "pump"}
    chains = {"L1": "RE1.bottom > P1 > V1 > RE1.return", "L2": "RE1.out > V2 > RE1.return"}
    assert found(dict(kinds), **chains) == []


def test_every_item_is_on_a_line() -> None:
    assert found({"BV1": "buffer", "PG1": "pressure_gauge", "V1": "hand_valve", "VT1": "vent"}, L1="BV1.top > PG1") == [
        "V1: no line meets this item; name it in the chain of a line.",
        "VT1: no line meets this item; name it in the chain of a line.",
    ]


def test_a_detector_hangs_in_the_air() -> None:
    assert found({"BV1": "buffer", "PG1": "pressure_gauge", "GD1": "gas_detector"}, L1="BV1.top > PG1") == []


@pytest.mark.parametrize(
    ("chain", "port"),
    [("V1 > BV1", "V1.in"), ("BV1 > V1", "V1.out"), ("BV1.top > RV1", "RV1.out"), ("BO1 > BV1", "BO1.in")],
)
def test_a_branch_that_begins_or_ends_in_nothing_is_told(chain: str, port: str) -> None:
    """A tube that ends in the air would leak: whoever wrote it forgot where it goes."""
    kinds: dict[str, str | None] = {
        tag: KINDS[tag] for tag in (each.tag for each in stops(chain) if not isinstance(each, str))
    }
    messages = found(kinds, L1=chain)
    assert (
        f"L1: {port} is joined to nothing; join it, end it at a vent, or begin the line at an item named before."
        in [f"L1: {message.partition(': ')[2]}" for message in messages]
    )


@pytest.mark.parametrize(
    ("word", "close"),
    [("BV2", "BV1"), ("V99", "V9"), ("V222", "V22"), ("AT9", "AT2"), ("BV", "BV1"), ("XX1", ""), ("RV10", "RV1")],
)
def test_the_nearest_tag_is_one_of_the_same_letters(word: str, close: str) -> None:
    known = ["V1", "V9", "V22", "BV1", "AT1", "AT2", "RV1", "VT9"]
    said = nearest(word, known)
    assert said == (f" The nearest known is {close}." if close else said)
    assert (close == "") or close in said


@given(st.text(max_size=60))
def test_any_text_is_a_chain_or_is_refused(text: str) -> None:
    try:
        parsed, made = parse_chain("L1", text, KINDS)
    except ChainError as error:
        assert str(error)
        return
    assert len(made) == len(parsed) - 1 >= 1


TAGS = st.sampled_from(sorted(KINDS))
PORTS = st.sampled_from(["", ".in", ".out", ".top", ".branch", ".h2", ".tap", ".nowhere"])
STOPS = st.tuples(TAGS, PORTS).map("".join)


@given(st.lists(STOPS, min_size=1, max_size=6).map(" > ".join))
def test_a_chain_of_known_items_meets_ports_that_exist(chain: str) -> None:
    try:
        _, made = parse_chain("L1", chain, KINDS)
    except ChainError:
        return
    for one, other in itertools.pairwise(made):
        assert one.end == (one.end[0], "in")
        assert other.start == (one.end[0], "out")
