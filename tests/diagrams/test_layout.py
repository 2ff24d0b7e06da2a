"""Nothing on a plan overlaps: symbols, lines, texts; checked on a whole plant and on random small networks."""

from __future__ import annotations

from itertools import combinations, pairwise

from hypothesis import HealthCheck, given, settings

from diagrams import Item, Line, Text, schematic
from diagrams.layout import Plan, plan
from diagrams.places import Box, Spot
from diagrams.proportions import HOP, LIVE

from .networks import line, networks, shed_items, shed_lines


def made(items: list[Item], lines: list[Line]) -> Plan:
    return plan(items, lines, {})


def boxes_of_runs(drawn: Plan) -> list[tuple[str, Box]]:
    """The ink of every stretch of line, without the gaps in which its letters stand."""
    found = []
    for runs in drawn.runs:
        for run in runs:
            here = 0.0
            for low, high in [*sorted(run.gaps), (run.length, run.length)]:
                (ax, ay), (bx, by) = run.at(here), run.at(low)
                across, upright = (0.0, LIVE / 2) if run.along else (LIVE / 2, 0.0)
                ink = Box(min(ax, bx) - across, min(ay, by) - upright, max(ax, bx) + across, max(ay, by) + upright)
                found.append((run.leg.line.id, ink))
                here = high
    return found


def assert_clear(drawn: Plan) -> None:
    """No symbol on a symbol, no text on anything, no line through a symbol, no two lines on one another."""
    symbols = {tag: placed.box for tag, placed in drawn.placed.items()}
    for (one, box), (other, second) in combinations(symbols.items(), 2):
        assert not box.meets(second), f"{one} stands on {other}"
    texts = drawn.text_boxes()
    for box, second in combinations(texts, 2):
        assert not box.meets(second), f"texts at {box} and {second} overlap"
    runs = boxes_of_runs(drawn)
    for box in texts:
        for tag, symbol in symbols.items():
            assert not box.meets(symbol), f"a text stands on {tag}: {box}"
        for name, run in runs:
            assert not box.meets(run), f"a text stands on line {name}: {box} on {run}"
    for leg in drawn.legs:
        ends = {leg.start.item.tag, leg.end.item.tag}
        for (ax, ay), (bx, by) in pairwise(leg.points):
            assert ax == bx or ay == by, f"line {leg.line.id} runs aslant"
            ink = Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)).grown(0.5)
            for tag, symbol in symbols.items():
                if tag not in ends:
                    assert not ink.meets(symbol), f"line {leg.line.id} runs through {tag}"


def assert_crossings_bridged(drawn: Plan) -> None:
    """Lines of different pipes meet only square to one another, and there the level one is bridged."""
    every = [run for runs in drawn.runs for run in runs if run.length]
    for one, two in combinations(every, 2):
        if one.leg.net == two.leg.net:
            continue
        first, second = one.box(0.1), two.box(0.1)
        if not first.meets(second):
            continue
        assert one.along != two.along, f"lines {one.leg.line.id} and {two.leg.line.id} run on one another"
        level, upright = (one, two) if one.along else (two, one)
        place = (upright.start[0], level.start[1])
        assert place in drawn.hops, f"lines {one.leg.line.id} and {two.leg.line.id} cross without a bridge at {place}"
        assert any(abs(level.at(hop)[0] - place[0]) < 0.01 for hop in level.hops)
        assert level.length >= 2 * HOP


def assert_ends_on_ports(drawn: Plan) -> None:
    """Every leg begins and ends on its port, and leaves it outward."""
    for leg in drawn.legs:
        for spot, offered in (
            (leg.first, leg.start.ports[leg.start_port]),
            (leg.last, leg.end.ports[leg.end_port]),
        ):
            assert isinstance(spot, Spot)
            assert spot in offered
        start, after = leg.points[:2]
        way = {"right": (1, 0), "left": (-1, 0), "up": (0, -1), "down": (0, 1)}[leg.first.side]
        assert (after[0] - start[0]) * way[0] >= 0
        assert (after[1] - start[1]) * way[1] >= 0


def test_the_shed_plant_is_clear() -> None:
    drawn = made(shed_items(), shed_lines())
    assert_clear(drawn)
    assert_crossings_bridged(drawn)
    assert_ends_on_ports(drawn)
    assert len(drawn.blocks) + sum(placed.kind.tag_inside or not placed.kind.tag_shown for placed in
                                   drawn.placed.values()) >= len(shed_items())  # fmt: skip


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(networks())
def test_small_networks_are_clear(network: tuple[list[Item], list[Line]]) -> None:
    drawn = made(*network)
    assert_clear(drawn)
    assert_crossings_bridged(drawn)
    assert_ends_on_ports(drawn)


def test_crossing_lines_are_bridged() -> None:
    items = [
        Item("A1", "hand_valve", (0, 1)), Item("A2", "hand_valve", (2, 1)),
        Item("B1", "hand_valve", (1, 0), facing="down"), Item("B2", "hand_valve", (1, 2), facing="down"),
    ]  # fmt: skip
    drawn = made(items, [line("L1", "hydrogen", "A1", "A2"), line("L2", "oxygen", "B1", "B2")])
    assert len(drawn.hops) == 1
    assert not drawn.dots


def test_lines_that_share_a_port_join_in_a_dot() -> None:
    items = [Item("T1", "buffer", (0, 1)), Item("V1", "hand_valve", (2, 0)), Item("V2", "hand_valve", (2, 2))]
    drawn = made(items, [line("L1", "hydrogen", "T1", "V1"), line("L2", "hydrogen", "T1", "V2")])
    assert len(drawn.dots) == 1
    assert not drawn.hops


def test_a_straight_run_is_drawn_straight() -> None:
    items = [Item(f"V{n}", "hand_valve", (n, 0)) for n in range(1, 5)]
    drawn = made(items, [line("L1", "hydrogen", "V1", "V2", "V3", "V4")])
    assert all(len(leg.points) == 2 for leg in drawn.legs)


def test_the_grid_grows_only_where_a_label_needs_room() -> None:
    items = [Item(f"V{n}", "hand_valve", (n, 0)) for n in range(1, 6)]
    narrow = made(items, [line("L1", "hydrogen", *(item.tag for item in items))])
    assert [placed.x for placed in narrow.placed.values()] == [0, 80, 160, 240, 320]


def test_a_change_of_state_moves_nothing() -> None:
    """The drawings of a procedure's steps lie still, one upon the other."""
    before = made(shed_items(), shed_lines())
    changed = [Item(**{**vars(item), "state": "closed"}) if item.state == "open" else item for item in shed_items()]
    changed = [Item(**{**vars(item), "marks": frozenset({"isolated", "vented", "inert"})}) if item.tag in ("V1", "DC1")
               else item for item in changed]  # fmt: skip
    live = [Line(**{**vars(one), "live": True}) if one.id == "L7" else one for one in shed_lines()]
    after = plan(changed, live, {mark: Text(mark) for mark in ("isolated", "vented", "inert")})
    assert_clear(after)
    assert {tag: (placed.x, placed.y) for tag, placed in before.placed.items()} == {
        tag: (placed.x, placed.y) for tag, placed in after.placed.items()
    }
    assert [leg.points for leg in before.legs] == [leg.points for leg in after.legs]
    assert [block.box for _, block in before.blocks] == [block.box for _, block in after.blocks[: len(before.blocks)]]
    assert len(after.blocks) == len(before.blocks) + 2


def test_a_tee_whose_branch_leaves_elsewhere_has_one_dot() -> None:
    """Every dot on the drawing joins three ways or more; a tee with nothing but its run through it shows none."""
    items = [Item("V1", "hand_valve", (0, 0)), Item("J1", "junction", (1, 0)), Item("V2", "hand_valve", (2, 0))]
    lines = [line("L1", "hydrogen", "V1", "J1", "V2")]
    text = schematic(items, lines, title="A tee", description="", identity="tee")
    assert "<circle" not in text
    branched = [*lines, line("L2", "hydrogen", "J1.branch", "V3")]
    text = schematic([*items, Item("V3", "hand_valve", (1, 1), facing="down")], branched, title="A tee", description="",
                     identity="tee")  # fmt: skip
    assert text.count('class="gw-dot"') == 1
