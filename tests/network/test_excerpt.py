"""An excerpt of a network holds what was asked for and what hangs on it, and joins nothing that was not joined."""

from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.network.excerpt import excerpt

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def network():
    return Plant.load(ROOT / "docs/designs/shed").network


def _runs(network):
    return {
        (before.tag, after.tag)
        for line in network.lines.values()
        for before, after in zip(line.stops, line.stops[1:], strict=False)
    }


@pytest.mark.parametrize(
    "names", [["train"], ["train", "column", "dry"], ["buffer"], ["high_side", "bank"], ["uses", "kitchen"]]
)
def test_all_items_of_the_sections_are_there_and_only_real_runs(network, names):
    part = excerpt(network, names)
    asked = {tag for name in names for tag in network.sections[name].items}
    assert asked <= set(part.items)
    assert _runs(part) <= _runs(network)
    strangers = {item.kind.name for tag, item in part.items.items() if tag not in asked}
    assert strangers <= {"junction", "vent", "purge_inlet"}


def test_no_tee_is_left_that_joins_nothing(network):
    part = excerpt(network, ["column"])
    ends = [stop.tag for line in part.lines.values() for stop in line.stops]
    assert all(ends.count(tag) >= 1 for tag, item in part.items.items() if item.kind.name == "junction")


def test_the_excerpt_of_all_sections_keeps_every_line_between_their_items(network):
    part = excerpt(network, network.sections)
    held = {tag for section in network.sections.values() for tag in section.items}
    assert {run for run in _runs(network) if set(run) <= held} <= _runs(part)


def test_an_unknown_section_is_an_error(network):
    with pytest.raises(KeyError):
        excerpt(network, ["nowhere"])
