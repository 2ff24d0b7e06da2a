"""The steps of real plants, drawn: measured in a browser in every system of units, and held to their line-ups."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import combinations
from pathlib import Path

import pytest

from diagrams.places import Box
from macros.figures.plant import Plant
from macros.network.joins import alone, way_between
from macros.network.live import live_nodes
from macros.pages.stands import lineups, steps_of
from macros.pages.step_drawing import concerned, step_svg

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
SAMPLE = ("first_start", "change_desiccant", "fill_vehicle", "normal_stop")
"""Procedures of the other plants of which one step each is looked at."""

LEADING = 2.6
"""A browser's box of a text is the whole height of its font; what is above capitals and below descenders is air."""

MEASURE = """
(system) => {
  const box = (element, frame) => {
    const r = element.getBoundingClientRect();
    return [r.left - frame.left, r.top - frame.top, r.right - frame.left, r.bottom - frame.top];
  };
  return [...document.querySelectorAll('svg')].map((svg) => {
    const frame = svg.getBoundingClientRect();
    const texts = [...svg.querySelectorAll('text')];
    for (const text of texts) {
      text.dataset.workshop ??= text.textContent;
      text.textContent = text.dataset[system] ?? text.dataset.workshop;
    }
    const loose = texts.filter((text) => !text.closest('.gw-symbol'));
    return {
      name: svg.querySelector('title').textContent,
      size: [0, 0, frame.width, frame.height],
      texts: loose.map((text) => [text.textContent, text.closest('.gw-flag')?.dataset.section ?? '', box(text, frame)]),
      flags: [...svg.querySelectorAll('.gw-flag rect')].map(
        (rect) => [rect.closest('.gw-flag').dataset.section, box(rect, frame)]),
      symbols: [...svg.querySelectorAll('.gw-symbol, .gw-ring')].map((group) => box(group, frame)),
    };
  });
}
"""


@pytest.fixture(scope="module")
def plants() -> dict[str, Plant]:
    return {name: Plant.load(ROOT / "docs/designs" / name, ROOT) for name in ("bench", "farm", "shed")}


@pytest.fixture(scope="module")
def drawings(plants: dict[str, Plant]) -> list[str]:
    """Every step of every procedure of the bench, and a sample of the others."""
    found = []
    for name, plant in plants.items():
        for procedure in lineups(plant).file.procedures:
            steps = len(steps_of(plant, procedure))
            wanted = range(steps) if name == "bench" else (steps - 2,) if procedure in SAMPLE else ()
            found += [step_svg(plant, procedure, step, f"{name}-{procedure}-{step}") for step in wanted]
    return found


def as_box(sides: list[float], trim: float = 0.0) -> Box:
    left, top, right, bottom = sides
    return Box(left, top + trim, right, bottom - trim)


@pytest.mark.browser
def test_no_text_of_any_step_lies_on_another_or_on_a_symbol(browser, drawings: list[str]) -> None:
    page = browser.new_page(viewport={"width": 1600, "height": 900})
    page.set_content(f"<!doctype html>{''.join(drawings)}")
    measured = {system: page.evaluate(MEASURE, system) for system in ("workshop", "si", "us")}
    page.close()
    assert len(measured["si"]) == len(drawings) > 80
    for system, found in measured.items():
        for drawing in found:
            _assert_clear(drawing, f"{drawing['name']} in {system}")


def _assert_clear(drawing: dict, place: str) -> None:
    texts = [(said, section, as_box(sides, LEADING)) for said, section, sides in drawing["texts"]]
    flags = {section: as_box(sides) for section, sides in drawing["flags"]}
    paper = as_box(drawing["size"])
    for (one, _, first), (other, _, second) in combinations(texts, 2):
        assert not first.meets(second), f"{place}: {one} lies on {other}"
    for said, section, box in texts:
        assert paper.joined(box) == paper, f"{place}: {said} leaves the drawing"
        for sides in drawing["symbols"]:
            assert not box.meets(as_box(sides)), f"{place}: {said} lies on a symbol at {sides}"
        for name, flag in flags.items():
            if name == section:
                assert flag.joined(box) == flag, f"{place}: {said} sticks out of the flag of {name}"
            else:
                assert not box.meets(flag), f"{place}: {said} lies on the flag of {name}"


def test_the_heavy_lines_are_those_that_the_line_up_calls_live(plants: dict[str, Plant]) -> None:
    """The drawing is read back: which lines are heavy, against the nodes of the line-up."""
    shed = plants["shed"]
    for step, proved in enumerate(steps_of(shed, "change_desiccant")):
        text = step_svg(shed, "change_desiccant", step, "x")
        heavy = {
            group.get("data-line") for group in ET.fromstring(text).iter(f"{SVG}g")
            if "gw-live" in (group.get("class") or "").split() and group.get("data-line")
        }  # fmt: skip
        live, piping = live_nodes(proved.lineup), proved.lineup.piping
        dead = {name for name, line in shed.network.lines.items() if line.medium != "electric"
                and not {piping.node[run.start] for run in line.runs} & live}  # fmt: skip
        assert not heavy & dead, f"step {step}"
    # With the plant stopped, nothing of the train is live; the buffer stands open to the booster.
    assert "L1" not in heavy and "L11" in {
        group.get("data-line") for group in ET.fromstring(step_svg(shed, "filling", 1, "x")).iter(f"{SVG}g")
        if "gw-live" in (group.get("class") or "").split()
    }  # fmt: skip


def test_each_step_shows_each_valve_in_its_state_and_frames_what_it_moves(plants: dict[str, Plant]) -> None:
    bench = plants["bench"]
    for procedure in lineups(bench).file.procedures:
        tags, _ = concerned(bench, procedure)
        for step, proved in enumerate(steps_of(bench, procedure)):
            text = step_svg(bench, procedure, step, "x")
            shown = dict(re.findall(r'data-tag="([A-Z]+\d+)" data-state="(\w+)"', text))
            positions = proved.lineup.reached.stand.positions
            assert shown == {tag: positions[tag] for tag in tags if bench.network.items[tag].kind.positions}
            framed = set(re.findall(r'gw-picked" data-tag="([A-Z]+\d+)"', text))
            assert (
                set(proved.changed)
                <= framed
                <= set(proved.changed)
                | proved.lineup.reached.stand.opened
                | set(bench.description.procedures.procedures[procedure].steps[step - 1].closes if step else ())
            )


def test_the_way_of_the_gas_is_whole_and_nothing_stands_alone(plants: dict[str, Plant]) -> None:
    for name, plant in plants.items():
        for procedure, described in lineups(plant).file.procedures.items():
            tags, _ = concerned(plant, procedure)
            assert way_between(plant.network, tags) == (), f"{name}: {procedure}"
            if tags != set(plant.network.items):
                handled = {tag for step in described.steps for tag in (*step.sets, *step.opens, *step.admits)}
                assert alone(plant.network, tags) <= handled, f"{name}: {procedure}"
    # Read by hand off the farm's lines: what stands between the valve under test and the buffer.
    tags, sections = concerned(plants["farm"], "test_non_return")
    assert {"NR1", "V1", "V2", "DC1", "V4", "V5", "FI2", "BV1"} <= tags
    assert {"train", "column", "dry", "buffer"} == sections


def test_each_line_that_goes_on_beyond_a_drawing_says_where(plants: dict[str, Plant]) -> None:
    for plant in plants.values():
        for procedure in lineups(plant).file.procedures:
            text = step_svg(plant, procedure, 0, "x")
            assert text.count('class="gw-cut"') == text.count("gw-beyond"), procedure
    # By hand: the farm's buffer feeds its first booster, and the drains lead to the degassing pot.
    text = step_svg(plants["farm"], "test_non_return", 0, "x")
    said = re.findall(r'gw-beyond"[^>]*>([^<]+)<', text)
    assert {"to BO1", "to DP1", "from NR3", "to RV6, RE1"} <= set(said)


def test_a_flag_says_what_the_line_up_reached(plants: dict[str, Plant]) -> None:
    """Read by hand off `gaswright lineup shed change_desiccant`: the column once it is open, the bank all along."""
    steps = steps_of(plants["shed"], "change_desiccant")
    opened = next(step for step, proved in enumerate(steps) if proved.lineup.reached.stand.opened)
    text = step_svg(plants["shed"], "change_desiccant", opened, "x")
    flags = {
        group.get("data-section"): group for group in ET.fromstring(text).iter(f"{SVG}g") if group.get("data-section")
    }
    said = [text.text or "" for text in flags["column"].iter(f"{SVG}text")]
    assert [each.replace("\u00a0", " ") for each in said] == [
        "column", "0 bar(g)", "isolated", "vented", "holds air", "DC1 open to the air",
    ]  # fmt: skip


def test_a_hose_is_told_by_itself_once_its_nozzle_is_shut(plants: dict[str, Plant]) -> None:
    """By hand: let down through V31 with the valve of QC1 shut, the hose is empty while the tank stands full."""

    def said(step: int, section: str) -> list[str]:
        text = step_svg(plants["farm"], "fill_vehicle", step, "x")
        flags = {one.get("data-section"): one for one in ET.fromstring(text).iter(f"{SVG}g") if one.get("data-section")}
        return [(row.text or "").replace("\u00a0", " ") for row in flags[section].iter(f"{SVG}text")]

    # Before it is coupled nothing proves the hose empty, and nothing feeds it.
    assert said(0, "filling") == ["filling", "may hold 200 bar(g)", "isolated", "holds H₂"]
    assert said(8, "filling")[1:3] == ["up to 200 bar(g)", "falls to 0 bar(g)"]
    assert said(9, "filling")[1:4] == ["0 bar(g)", "isolated", "vented"]
    assert said(9, "vehicle")[1:3] == ["may hold 200 bar(g)", "isolated"]
