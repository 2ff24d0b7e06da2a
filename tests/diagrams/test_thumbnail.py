"""The small drawing of a plant: every item, every way, and no line through an item that it does not lead to."""

import itertools
import re
import xml.etree.ElementTree as ET

from diagrams.thumbnail import SHARE, _placed, _route, thumbnail

COLUMNS = [
    [("ST1", "stack")], [("BV1", "buffer")], [("BO1", "booster")], [("BK1", "bank"), ("BU1", "burner")],
    [("BO2", "booster"), ("FC1", "fuel_cell")], [("BK2", "bank")], [("VE1", "vehicle_tank")],
]  # fmt: skip
WAYS = [("ST1", "BV1"), ("BV1", "BO1"), ("BO1", "BK1"), ("BO1", "BU1"), ("BK1", "BO2"), ("BK1", "FC1"),
        ("BO2", "BK2"), ("BK2", "VE1"), ("BK1", "VE1"), ("BV1", "VE1")]  # fmt: skip


def drawn():
    return ET.fromstring(thumbnail(COLUMNS, WAYS, title="Gas", description="Its way", identity="gas"))


def test_every_item_and_every_way_is_drawn_once_and_said():
    svg = drawn()
    space = "{http://www.w3.org/2000/svg}"
    groups = svg.findall(f"{space}g")
    assert len([each for each in groups if each.get("class") == "gw-symbol"]) == sum(map(len, COLUMNS))
    assert len(groups[0].findall(f"{space}path")) == len(WAYS)
    assert svg.find(f"{space}title").text == "Gas"
    assert svg.find(f"{space}desc").text == "Its way"
    assert not list(svg.iter(f"{space}text"))


def test_no_line_runs_through_an_item_that_it_does_not_lead_to():
    placed = _placed(COLUMNS)
    for start, end in WAYS:
        corners = _route(placed[start], placed[end], placed)
        for (ax, ay), (bx, by) in itertools.pairwise(corners):
            assert ax == bx or ay == by, "lines run square"
            for tag, item in placed.items():
                if tag not in (start, end):
                    box = item.outline.box.moved(item.x, item.y)
                    across = min(max(ax, bx), box.right) - max(min(ax, bx), box.left)
                    upright = min(max(ay, by), box.bottom) - max(min(ay, by), box.top)
                    assert across < 0 or upright < 0, f"{start} to {end} runs through {tag}"


def test_everything_lies_within_the_frame_at_the_size_of_a_cell():
    svg = drawn()
    left, top, width, height = map(float, svg.get("viewBox").split())
    for item in _placed(COLUMNS).values():
        box = item.outline.box.moved(item.x, item.y)
        assert left <= box.left and top <= box.top
        assert box.right <= left + width and box.bottom <= top + height
    for path in svg.find("{http://www.w3.org/2000/svg}g"):
        for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d")):
            assert left <= float(x) <= left + width and top <= float(y) <= top + height
    assert abs(float(svg.get("width")) - width * SHARE) < 0.02
    assert float(svg.get("width")) < 320
