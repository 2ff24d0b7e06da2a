"""A part of a plan drawn closer together: less white, the same shapes in the same order, and each cut line named."""

from __future__ import annotations

import re
from itertools import combinations

import pytest

from diagrams import Text
from diagrams.closer import KEEP
from diagrams.layout import Plan
from diagrams.lettering import Row
from diagrams.places import Box
from diagrams.proportions import HOP, LABEL, LIVE
from diagrams.steps import Flagged, Sheet, Stand

from .networks import shed_items, shed_lines
from .test_layout import assert_crossings_bridged, boxes_of_runs

SAYS = (Row(Text("train"), LABEL, "gw-flag-name", bold=True), Row(Text("live"), LABEL, "gw-mark", sign="live"))
APART = ("RE1", "SE1", "CO1", "BU1", "PG1", "BA1")
"""Items from far ends of the plant, so that much stands empty between them."""


def says(tags: str, onward: bool) -> Text:
    return Text(f"to {tags}" if onward else f"from {tags}")


@pytest.fixture(scope="module")
def whole() -> Sheet:
    return Sheet.of(shed_items(), shed_lines(), [Flagged("train", ("SE1", "CO1"), (SAYS,))])


@pytest.fixture(scope="module")
def part(whole: Sheet) -> Sheet:
    return whole.part(APART, ["train"], says)


def texts(sheet: Sheet) -> list[Box]:
    return [*sheet.plan.text_boxes(), *(cut.box for cut in sheet.cuts if cut.box is not None)]


def inks(plan: Plan) -> list[Box]:
    return [*(placed.box for placed in plan.placed.values()), *(run.box(LIVE) for leg in plan.runs for run in leg)]


def test_it_takes_less_paper_and_leaves_no_wide_empty_strip(part: Sheet) -> None:
    close = part.closer()
    before, after = part.plan.box, close.plan.box
    assert after.right - after.left < before.right - before.left - KEEP
    assert after.bottom - after.top < before.bottom - before.top - KEEP
    boxes = [*inks(close.plan), *texts(close), *(cut.ink for cut in close.cuts)]
    standing = [run.box(LIVE) for leg in close.plan.runs for run in leg if not run.along]
    level = [run.box(LIVE) for leg in close.plan.runs for run in leg if run.along]
    fixed = [box for box in boxes if box not in standing and box not in level]
    for stretches in (
        sorted((box.left, box.right) for box in (*fixed, *standing)),
        sorted((box.top, box.bottom) for box in (*fixed, *level)),
    ):
        reached = stretches[0][1]
        for low, high in stretches:
            assert low - reached <= KEEP + 2 * (HOP + 1)  # the white that is kept round dots and frames
            reached = max(reached, high)


def test_nothing_lies_on_anything_and_no_order_changes(part: Sheet) -> None:
    close = part.closer()
    assert_crossings_bridged(close.plan)
    symbols = close.plan.placed
    for (one, first), (other, second) in combinations(symbols.items(), 2):
        assert not first.box.meets(second.box), f"{one} stands on {other}"
        was, now = part.plan.placed, symbols
        for axis in ("x", "y"):
            before = getattr(was[one], axis) - getattr(was[other], axis)
            after = getattr(now[one], axis) - getattr(now[other], axis)
            assert before * after >= 0 and abs(after) <= abs(before) + 0.01
    for box, other_box in combinations(texts(close), 2):
        assert not box.meets(other_box)
    for box in texts(close):
        assert not any(box.meets(placed.box) for placed in symbols.values())
        assert not any(box.meets(run) for _, run in boxes_of_runs(close.plan))


def test_symbols_texts_and_flags_keep_their_size_and_lines_their_ports(part: Sheet) -> None:
    close = part.closer()
    for one, other in zip([*inks(part.plan), *texts(part)], [*inks(close.plan), *texts(close)], strict=True):
        if one in texts(part) or one in [placed.box for placed in part.plan.placed.values()]:
            assert other.right - other.left == pytest.approx(one.right - one.left)
            assert other.bottom - other.top == pytest.approx(one.bottom - one.top)
    for leg, runs in zip(close.plan.legs, close.plan.runs, strict=True):
        placed = close.plan.placed[leg.start.item.tag]
        spots = {(round(spot.x, 2), round(spot.y, 2)) for spots in placed.ports.values() for spot in spots}
        was = part.plan.runs[part.plan.legs.index(leg)]
        if runs and was[0].start == (leg.first.x, leg.first.y):
            assert (round(runs[0].start[0], 2), round(runs[0].start[1], 2)) in spots
        assert [run.along for run in runs] == [run.along for run in was]


def test_each_cut_line_says_where_it_goes_on(whole: Sheet, part: Sheet) -> None:
    """Read off the lines themselves: the next tag beyond, and the way in which the chain is written."""
    assert part.cuts
    lines = {line.id: [tag for tag, _ in line.stops] for line in shed_lines()}
    for cut in part.cuts:
        chain, (start, end) = lines[cut.leg.line.id], (cut.leg.start.item.tag, cut.leg.end.item.tag)
        assert chain.index(start) < chain.index(end)
        assert cut.onward == (start in part.plan.placed)
        beyond = end if cut.onward else start
        if whole.plan.placed[beyond].kind.tag_shown:
            assert cut.tags[0] == beyond
        assert not set(cut.tags) & {tag for tag, one in whole.plan.placed.items() if not one.kind.tag_shown}
        assert cut.text == says(", ".join(cut.tags), cut.onward) and cut.box is not None
    stand = Stand({item.tag: item.state for item in shed_items() if item.state is not None}, flags={"train": SAYS})
    text = part.closer().draw(stand, title="A step", description="What it shows.", identity="step")
    said = re.findall(r'class="gw-label gw-beyond"[^>]*>([^<]+)<', text)
    assert sorted(said) == sorted(cut.text.workshop for cut in part.cuts if cut.text)
