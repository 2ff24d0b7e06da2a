"""What if: the script between grid and table says what Python says, in every system of units, by keyboard, offline."""

from __future__ import annotations

import gzip
import random
import re
from dataclasses import replace
from html import unescape

import pytest

from macros.figures.what_if import Grid, grid_of
from macros.pages.numbers import Numbers

SYSTEMS = ("workshop", "si", "us")
LARGEST = 60_000
"""Bytes that exploring may add to a plant, as they are sent."""


@pytest.fixture
def page(browser, site):
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    opened = context.new_page()
    opened.problems = []
    opened.on("pageerror", lambda error: opened.problems.append(str(error)))
    opened.on("request", lambda one: None if one.url.startswith("file:") else opened.problems.append(one.url))
    opened.goto((site / "bench/index.html").as_uri())
    yield opened
    context.close()
    assert opened.problems == []


@pytest.fixture(scope="session")
def bench(plants):
    return plants["bench"]


@pytest.fixture(scope="session")
def grid(bench) -> Grid:
    return grid_of(bench)


def moved_to(page, steps) -> list[dict[str, str]]:
    """What the table says with each input at a step."""
    page.evaluate(
        """(steps) => steps.forEach((step, number) => {
          const input = document.getElementById(`gw-what-if-${number + 1}`);
          input.value = step;
          input.dispatchEvent(new Event('input'));
        })""",
        list(steps),
    )
    return page.locator(".gw-what-if-here").evaluate_all("cells => cells.map((cell) => ({...cell.dataset}))")


@pytest.mark.browser
def test_the_script_says_what_python_says(page, bench, grid) -> None:
    drawn = random.Random(7)
    numbers = Numbers(bench.graph)
    for _ in range(25):
        steps = [drawn.randrange(len(axis.steps)) for axis in grid.axes]
        at = [axis.steps[step] for axis, step in zip(grid.axes, steps, strict=True)]
        for name, told in zip(grid.values, moved_to(page, steps), strict=True):
            value = replace(bench.graph[name], si=grid.at(name, at))
            texts = value.shown(uncertainty=numbers.uncertainty(name)[0] or None)
            assert [told[system] for system in SYSTEMS] == [getattr(texts, system) for system in SYSTEMS], name


@pytest.mark.browser
def test_it_begins_at_the_plant_as_described_and_comes_back(page, grid) -> None:
    here, described = page.locator(".gw-what-if-here"), page.locator(".gw-what-if td .gw-value")
    assert here.all_text_contents() == described.all_text_contents() != []
    before = here.all_text_contents()
    moved_to(page, [0] * len(grid.axes))
    after = here.all_text_contents()
    assert all(
        one != other for one, other, name in zip(before, after, grid.values, strict=True) if grid.missed[name] > 1e-4
    )
    page.get_by_role("button", name="Back to the plant").click()
    assert here.all_text_contents() == before


@pytest.mark.browser
def test_the_keyboard_moves_whole_cells_and_says_them(page, grid) -> None:
    cells = page.locator(".gw-what-if").get_by_label("Cells in series")
    cells.focus()
    page.keyboard.press("ArrowRight")
    assert cells.get_attribute("aria-valuetext") == "6"
    page.keyboard.press("End")
    assert page.locator("output").nth(1).text_content() == "7"
    assert page.locator(".gw-what-if-moved").count() == sum(1 in held for held in grid.moved_by.values())


@pytest.mark.browser
def test_inputs_and_figures_follow_the_choice_of_units(page) -> None:
    moved_to(page, [3, 0, 3])
    page.select_option("#gw-units", "us")
    assert page.locator("output").nth(2).text_content().endswith("psi(g)")
    assert (
        page.locator(".gw-what-if")
        .get_by_label("Pressure at which the switch")
        .get_attribute("aria-valuetext")
        .endswith("psi(g)")
    )
    assert page.locator(".gw-what-if-here").first.text_content().endswith("scf/h")


@pytest.mark.browser
def test_it_says_that_it_does_not_design_and_is_never_printed(page) -> None:
    caution = page.locator(".gw-what-if-caution")
    assert caution.is_visible()
    assert "does not design" in caution.text_content()
    assert "Limits, proofs and the review are not judged" in caution.text_content()
    page.emulate_media(media="print")
    assert not page.locator(".gw-what-if").is_visible()


@pytest.mark.browser
def test_on_a_phone_it_is_no_wider_than_the_screen(site, browser) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto((site / "bench/index.html").as_uri())
    assert page.evaluate("document.scrollingElement.scrollWidth") <= 360
    inputs = page.locator(".gw-what-if input")
    assert all(
        height >= 24 for height in inputs.evaluate_all("all => all.map((one) => one.getBoundingClientRect().height)")
    )
    context.close()


@pytest.mark.browser
def test_without_scripts_nothing_can_be_moved(site, browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "bench/index.html").as_uri())
    assert page.locator(".gw-what-if-off").is_visible()
    assert not page.locator(".gw-what-if-inputs").is_visible()
    context.close()


def test_every_plant_can_be_explored_for_few_bytes(site, plants) -> None:
    for name, plant in plants.items():
        text = (site / name / "index.html").read_text(encoding="utf-8")
        section = re.search(r'<section class="gw-what-if".*?</section>', text, re.DOTALL)[0]
        script = (site / "assets/what_if.js").read_bytes()
        assert len(gzip.compress(section.encode())) + len(gzip.compress(script)) < LARGEST
        assert "style=" not in section
        assert "<script" not in section
        assert 2 <= len(re.findall(r'<input type="range"', section)) <= 3
        grid = grid_of(plant)
        assert unescape(section).count('"by":') == len(grid.values) >= 10
