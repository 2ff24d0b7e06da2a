"""The drawing as a page receives it: valid, titled, without styles, the same bytes twice, each tag once."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from diagrams import Explained, Item, Text, legend, schematic
from diagrams.proportions import DASHES, LINE, LIVE

from .networks import line, shed_items, shed_lines

SVG = "{http://www.w3.org/2000/svg}"
ROOT = Path(__file__).parents[2]


def draw(items: list[Item], lines: list, **said: str) -> str:
    about = {"title": "A plant", "description": "What it shows.", "identity": "plant"} | said
    return schematic(items, lines, **about)


def tree(text: str) -> ElementTree.Element:
    return ElementTree.fromstring(text)


@pytest.fixture(scope="module")
def shed() -> str:
    return draw(shed_items(), shed_lines(), title="The shed plant", identity="shed")


def test_it_is_valid_and_titled(shed: str) -> None:
    svg = tree(shed)
    assert svg.tag == f"{SVG}svg"
    assert svg.get("role") == "img"
    named = svg.get("aria-labelledby").split()
    ids = {element.get("id"): element for element in svg.iter() if element.get("id")}
    assert [ids[name].tag for name in named] == [f"{SVG}title", f"{SVG}desc"]
    assert ids[named[0]].text == "The shed plant"
    assert set(ids) == set(named)
    assert all(name.startswith("shed-") for name in ids)


def test_it_scales(shed: str) -> None:
    svg = tree(shed)
    _, _, width, height = map(float, svg.get("viewBox").split())
    assert (width, height) == (float(svg.get("width")), float(svg.get("height")))
    assert width > 0
    assert height > 0


def test_it_brings_no_colour_and_no_style(shed: str) -> None:
    for element in tree(shed).iter():
        assert element.get("style") is None
        for name in ("fill", "stroke"):
            assert element.get(name) in (None, "none", "currentColor")
    assert "var(" not in shed
    assert "<style" not in shed


def test_each_tag_stands_once(shed: str) -> None:
    tags = [element.text for element in tree(shed).iter(f"{SVG}text") if "gw-tag" in element.get("class")]
    assert sorted(tags) == sorted(item.tag for item in shed_items() if item.symbol != "junction")
    groups = [element.get("data-tag") for element in tree(shed).iter() if element.get("data-tag")]
    assert sorted(groups) == sorted(item.tag for item in shed_items())


def test_each_line_stands_once_with_the_letters_of_its_medium(shed: str) -> None:
    groups = {element.get("data-line"): element for element in tree(shed).iter() if element.get("data-line")}
    assert list(groups) == [one.id for one in shed_lines()]
    letters = {name: [text.text for text in group.iter(f"{SVG}text") if text.get("class") == "gw-letters"]
               for name, group in groups.items()}  # fmt: skip
    assert letters["L4"] == ["O₂"]
    assert letters["L6"] == ["H₂ wet"]
    assert letters["L9"] == [], "a line to an instrument needs no letters"
    assert "gw-medium-oxygen" in groups["L4"].get("class")


def test_the_same_plant_gives_the_same_bytes_in_another_process(shed: str) -> None:
    code = (
        "import sys; from diagrams import schematic; from tests.diagrams.networks import shed_items, shed_lines;"
        "sys.stdout.buffer.write(schematic(shed_items(), shed_lines(), title='The shed plant',"
        "description='What it shows.', identity='shed').encode())"
    )
    for seed in ("1", "2"):
        done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True,
                              env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)})  # fmt: skip
        assert done.stdout.decode() == shed


def test_texts_are_escaped() -> None:
    text = draw([Item("V1", "hand_valve", (0, 0), (Text("<b> & co", 'a "si"', "<us>"),))], [], title="R & D <1>")
    said = [element for element in tree(text).iter(f"{SVG}text") if element.get("class") == "gw-label"]
    assert said[0].text == "<b> & co"
    assert said[0].get("data-si") == 'a "si"'
    assert said[0].get("data-us") == "<us>"
    assert tree(text).find(f"{SVG}title").text == "R & D <1>"


def test_texts_of_other_unit_systems_travel_along(shed: str) -> None:
    said = {element.text: element for element in tree(shed).iter(f"{SVG}text")}
    assert said["30 bar(g)"].get("data-si") == "3.0 MPa(g)"
    assert said["30 bar(g)"].get("data-us") == "435 psi(g)"
    assert said["oxygen vent"].get("data-si") is None


def test_room_is_kept_for_the_widest_unit_system() -> None:
    narrow = draw([Item("V1", "hand_valve", (0, 0), (Text("1 L"),))], [])
    wide = draw([Item("V1", "hand_valve", (0, 0), (Text("1 L", "", "a much longer text of the others"),))], [])
    assert float(tree(wide).get("width")) > float(tree(narrow).get("width")) + 100


def test_only_items_with_an_address_can_be_reached_by_keyboard() -> None:
    items = [Item("V1", "hand_valve", (0, 0), title="inlet valve", href="#v1", state="closed"),
             Item("V2", "hand_valve", (2, 0))]  # fmt: skip
    svg = tree(draw(items, [line("L1", "hydrogen", "V1", "V2")]))
    links = list(svg.iter(f"{SVG}a"))
    assert [(link.get("href"), link.get("aria-label")) for link in links] == [("#v1", "V1, inlet valve, closed")]
    assert svg.get("role") == "group", "an image would hide its links from a screen reader"
    assert not any(element.get("tabindex") for element in svg.iter())


def test_a_live_path_is_heavier_and_an_open_valve_unlike_a_closed_one() -> None:
    items = [Item("V1", "hand_valve", (0, 0), state="open"), Item("V2", "hand_valve", (2, 0), state="closed")]
    calm = draw(items, [line("L1", "hydrogen", "V1", "V2")])
    live = draw(items, [line("L1", "hydrogen", "V1", "V2", live=True)])
    assert f'stroke-width="{LINE:g}"' in calm
    assert f'stroke-width="{LIVE:g}"' in live
    assert "gw-live" in live
    one, two = (element for element in tree(calm).iter() if element.get("data-tag"))
    assert (one.get("data-state"), two.get("data-state")) == ("open", "closed")
    shapes = [[polygon.get("fill") for polygon in group.iter(f"{SVG}polygon")] for group in (one, two)]
    assert shapes == [[None, None], ["currentColor", "currentColor"]]


def test_a_mark_is_a_shape_and_a_word() -> None:
    marks = frozenset({"isolated", "vented", "inert"})
    text = draw([Item("DC1", "desiccant_column", (0, 0), marks=marks)], [])
    for mark in marks:
        assert f"gw-sign-{mark}" in text
        assert f">{mark}</text>" in text


def test_words_of_another_language_can_be_handed_in() -> None:
    item = Item("V1", "hand_valve", (0, 0), marks=frozenset({"vented"}))
    text = schematic([item], [], title="t", description="d", identity="x", words={"vented": "entlüftet"})
    assert ">entlüftet</text>" in text


def test_each_medium_has_its_own_dash() -> None:
    assert len(set(DASHES.values())) == len(DASHES)


def test_flow_arrows_point_down_the_line() -> None:
    items = [Item("V1", "hand_valve", (0, 0)), Item("V2", "hand_valve", (3, 0))]
    for stops, ahead in ((("V1.out", "V2.in"), 1), (("V2.in", "V1.out"), -1)):
        arrow = next(tree(draw(items, [line("L1", "hydrogen", *stops)])).iter(f"{SVG}polygon"))
        assert arrow.get("class") == "gw-arrow"
        (tip, _), (back, _), _ = (map(float, point.split(",")) for point in arrow.get("points").split())
        assert (tip - back) * ahead > 0


def test_a_crossing_is_drawn_as_a_bridge() -> None:
    level = [Item("A1", "hand_valve", (0, 1)), Item("A2", "hand_valve", (2, 1))]
    upright = [Item("B1", "hand_valve", (1, 0), facing="down"), Item("B2", "hand_valve", (1, 2), facing="down")]
    lines = [line("L1", "hydrogen", "A1", "A2"), line("L2", "oxygen", "B1", "B2")]
    groups = [element for element in tree(draw(level + upright, lines)).iter() if element.get("data-line")]
    paths = {group.get("data-line"): group.find(f"{SVG}path").get("d") for group in groups}
    assert paths["L1"].count("A") == 1
    assert "A" not in paths["L2"]


def test_the_legend_shows_the_media_that_are_used() -> None:
    text = legend(
        Explained(("hydrogen", "oxygen", "hydrogen"), live=True, marks=("vented",)), identity="key", title="Legend"
    )
    said = [element.text for element in tree(text).iter(f"{SVG}text")]
    assert said.count("hydrogen") == 1
    assert {"oxygen", "open", "closed", "vented", "live path", "lines cross", "lines join"} <= set(said)
    assert "water" not in said
    assert not re.search(r"style=|<style", text)
