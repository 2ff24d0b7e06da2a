"""Drawings of steps: one plan for all stands, a live path that is heavy where it is told and nowhere else."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations

import pytest

from diagrams import DrawingError, Text
from diagrams.layout import plan
from diagrams.lettering import Row
from diagrams.proportions import LABEL, LINE, LIVE, OUTLINE, RING, TAP
from diagrams.steps import Flagged, Ground, Link, Sheet, Stand, common

from .networks import shed_items, shed_lines
from .test_layout import assert_clear, assert_crossings_bridged

SVG = "{http://www.w3.org/2000/svg}"
SHORT = (Row(Text("train"), LABEL, "gw-flag-name", bold=True), Row(Text("0 bar(g)"), LABEL, "gw-label"))
LONG = (
    *SHORT[:1],
    Row(Text("up to 26.5 bar(g)", "up to 2.65 MPa(g)", "up to 384 psi(g)"), LABEL, "gw-label"),
    Row(Text("live"), LABEL, "gw-mark", sign="live"),
    Row(Text("vented"), LABEL, "gw-mark", sign="vented"),
)
OTHER = (
    Row(Text("buffer"), LABEL, "gw-flag-name", bold=True),
    Row(Text("isolated"), LABEL, "gw-mark", sign="isolated"),
)
TRAIN = ("SE1", "CO1", "V1", "DC1", "V2", "DR1", "DR2")


@pytest.fixture(scope="module")
def sheet() -> Sheet:
    flagged = [Flagged("train", ("SE1", "CO1", "V1"), (SHORT, LONG)), Flagged("buffer", ("BU1",), (OTHER,))]
    return Sheet.of(shed_items(), shed_lines(), flagged)


def states() -> dict[str, str]:
    return {item.tag: item.state for item in shed_items() if item.state is not None}


def stand(**changes) -> Stand:
    return replace(Stand(states(), flags={"train": LONG, "buffer": OTHER}), **changes)


def drawn(sheet: Sheet, shown: Stand, ground: Ground | None = None, identity: str = "step") -> str:
    return sheet.draw(shown, title="A step", description="What it shows.", identity=identity, ground=ground)


def paths(text: str, weight: float) -> list[str]:
    """The lines drawn with a weight."""
    return [
        path.get("d", "")
        for group in ET.fromstring(text).iter(f"{SVG}g") if "gw-line" in (group.get("class") or "").split()
        for path in group.iter(f"{SVG}path") if path.get("stroke-width") == f"{weight:g}"
    ]  # fmt: skip


def test_flags_stems_and_all_else_keep_clear_of_one_another(sheet: Sheet) -> None:
    assert_clear(sheet.plan)
    assert_crossings_bridged(sheet.plan)
    assert [flag.name for flag in sheet.plan.flags] == ["train", "buffer"]
    for flag in sheet.plan.flags:
        for tag, placed in sheet.plan.placed.items():
            assert not placed.box.grown(RING).meets(flag.box), f"the flag of {flag.name} touches the frame of {tag}"
            # A stem ends on the ink of its own item, and goes through none.
            inside = placed.box.grown(-1.0)
            assert not flag.stem_box.meets(inside), f"the stem of {flag.name} runs through {tag}"


def test_a_part_stands_where_the_whole_has_it_and_shows_where_lines_go_on(sheet: Sheet) -> None:
    part = sheet.part(TRAIN, ["train"])
    assert set(part.plan.placed) == set(TRAIN)
    for tag, placed in part.plan.placed.items():
        assert (placed.x, placed.y) == (sheet.plan.placed[tag].x, sheet.plan.placed[tag].y)
    assert {block.box for _, block in part.plan.blocks} <= {block.box for _, block in sheet.plan.blocks}
    assert_clear(part.plan)
    # Every leg with one end in the part is cut, where it parts from what is drawn, once for each way out.
    cut = {(leg.line.id, leg.number) for leg in sheet.plan.legs
           if (leg.start.item.tag in TRAIN) != (leg.end.item.tag in TRAIN) and not leg.to_instrument}  # fmt: skip
    shown = {(one.leg.line.id, one.leg.number) for one in part.cuts}
    assert shown and shown <= cut
    text = drawn(part, stand())
    assert text.count('class="gw-cut"') == len(part.cuts)


def test_the_live_path_is_heavy_where_it_is_told_and_nowhere_else(sheet: Sheet) -> None:
    legs = sheet.plan.legs
    assert paths(drawn(sheet, stand()), LIVE) == []
    for leg, runs in zip(legs, sheet.plan.runs, strict=True):
        if leg.to_instrument or not any(run.length for run in runs):
            continue
        text = drawn(sheet, stand(live=frozenset({(leg.line.id, leg.number)})))
        heavy = paths(text, LIVE)
        assert len(heavy) == 1
        assert heavy[0] in paths(text, LINE), "the heavy stroke lies on the line of the ground"
    everything = frozenset((leg.line.id, leg.number) for leg in legs)
    text = drawn(sheet, stand(live=everything))
    assert sorted(paths(text, LIVE)) == sorted(paths(text, LINE))
    assert paths(text, TAP), "what only leads to an instrument stays thin"


def test_open_and_closed_differ_in_form(sheet: Sheet) -> None:
    def fills(state: str) -> int:
        text = drawn(sheet, stand(states={**states(), "V1": state}))
        group = re.search(r'data-tag="V1" data-state="[a-z]+">(.*?</g>)', text)
        assert group is not None
        return group[1].count('fill="currentColor"')

    assert fills("closed") == fills("open") + 2


def test_what_a_step_moves_stands_in_a_frame(sheet: Sheet) -> None:
    assert "gw-ring" not in drawn(sheet, stand())
    text = drawn(sheet, stand(picked=frozenset({"V1", "DC1"})))
    assert text.count("gw-ring") == 2


def test_the_ground_is_the_same_text_for_every_stand(sheet: Sheet) -> None:
    one, two = stand(), stand(states={**states(), "V1": "closed"}, flags={"train": SHORT, "buffer": OTHER})
    still = common([one, two])
    assert "V1" not in still.states and "V2" in still.states
    assert set(still.flags) == {"buffer"}
    first = drawn(sheet, one, Ground("first", "ground", still), "one")
    used = drawn(sheet, two, Ground("used", "ground", still), "two")
    assert first.count('id="ground"') == 1 and '<use href="#ground"/>' in used
    assert 'data-tag="V1"' in used and 'data-tag="V2"' not in used
    assert 'data-section="train"' in used and 'data-section="buffer"' not in used
    assert len(used) < len(first) / 3
    # Ground and rest together hold what a drawing that stands alone holds.
    alone = drawn(sheet, one)
    for tag in states():
        assert first.count(f'data-tag="{tag}" data-state') == alone.count(f'data-tag="{tag}" data-state') == 1


def test_each_tag_stands_once_and_the_same_bytes_come_twice(sheet: Sheet) -> None:
    text = drawn(sheet, stand())
    tags = [each.text for each in ET.fromstring(text).iter(f"{SVG}text") if each.get("class") == "gw-tag"]
    wanted = [item.tag for item in shed_items() if sheet.plan.placed[item.tag].kind.tag_shown]
    assert sorted(tags) == sorted(wanted)
    again = Sheet.of(
        shed_items(), shed_lines(),
        [Flagged("train", ("SE1", "CO1", "V1"), (SHORT, LONG)), Flagged("buffer", ("BU1",), (OTHER,))],
    )  # fmt: skip
    assert drawn(again, stand()) == text


def test_links_hold_symbol_and_tag(sheet: Sheet) -> None:
    text = drawn(sheet, stand(links={"V1": Link("drawing.html#item-v1", "V1, valve, open")}))
    link = next(ET.fromstring(text).iter(f"{SVG}a"))
    assert (link.get("href"), link.get("aria-label")) == ("drawing.html#item-v1", "V1, valve, open")
    assert len(list(link.iter(f"{SVG}rect"))) >= 2
    assert 'role="group"' in text


@pytest.mark.parametrize(
    ("wrong", "complaint"),
    [
        ({"states": {}}, "is said to be None"),
        ({"states": {**states(), "V1": "ajar"}}, "V1 is said to be 'ajar'"),
        ({"flags": {"train": LONG}}, "the flag of buffer says nothing"),
        ({"flags": {"train": (*LONG, *LONG), "buffer": OTHER}}, "more than there is room for"),
    ],
)
def test_what_cannot_be_shown_is_refused(sheet: Sheet, wrong: dict, complaint: str) -> None:
    with pytest.raises(DrawingError, match=complaint):
        drawn(sheet, stand(**wrong))


def test_room_for_flags_moves_no_symbol_that_had_room(sheet: Sheet) -> None:
    bare = plan([replace(item, state=None) for item in shed_items()], shed_lines(), {})
    apart = {
        tag
        for tag, one in bare.placed.items()
        if (one.x, one.y) != (sheet.plan.placed[tag].x, sheet.plan.placed[tag].y)
    }
    assert not apart
    for one, two in combinations(sheet.plan.flags, 2):
        assert not one.box.meets(two.box)
    assert OUTLINE < LIVE
