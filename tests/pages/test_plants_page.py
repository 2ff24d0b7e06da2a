"""All plants side by side, and what each took for the same part."""

import datetime
import re
from dataclasses import replace
from importlib import resources
from pathlib import Path

import html5lib
import pytest

from macros.figures.parts_list import lines_of
from macros.pages.generated.choices_page import made_for
from macros.pages.generated.plants_page import COLUMNS, Told, main_figures, plants_page
from macros.pages.handbook import Handbook
from macros.pages.tokens import Tokens
from macros.review import Finding, Review
from macros.sheets.published import published
from tests.pages.small_plant import converted
from tests.pages.test_review_page import text_of
from tests.review.looking import plant_named

DOCS = Path(__file__).parents[2] / "docs"
SVG = "{http://www.w3.org/2000/svg}"
NAMES = ("bench", "farm", "shed")
DAY = datetime.date(2026, 11, 25)


@pytest.fixture(scope="module")
def handbook():
    made = Handbook.of(DOCS, [plant_named(name) for name in NAMES])
    made.reviewed = False
    return made


def tree_of(markdown, tokens):
    html = converted(markdown, tokens)
    assert not tokens.faults
    return html5lib.parseFragment(html, namespaceHTMLElements=False)


def page_of(handbook, kind):
    rendered = handbook.render(next(page for page in handbook.pages() if page.kind == kind))
    return tree_of(rendered.markdown, rendered.tokens)


@pytest.fixture(scope="module")
def tree(handbook):
    return page_of(handbook, "plants")


def rows(tree, plant=None):
    return [row for row in tree.iter("tr") if row.get("data-plant") and plant in (None, row.get("data-plant"))]


def test_each_plant_has_a_row_with_its_drawing_and_a_link_to_its_overview(tree):
    assert [row.get("data-plant") for row in rows(tree)] == list(NAMES)
    for row in rows(tree):
        head = row.find("th")
        assert head.find("a").get("href") == f"{row.get('data-plant')}/index.html"
        assert head.find(f"{SVG}svg").get("role") == "img"
        assert "Stack, Separator" in text_of(head.find(f"{SVG}svg/{SVG}desc"))


def test_every_number_is_the_published_one_and_leads_to_its_working(tree):
    for name in NAMES:
        figures = published(plant_named(name))["figures"]
        cells = list(rows(tree, name)[0])[2:]
        assert len(cells) == len(COLUMNS)
        for cell in cells:
            span = next(each for each in cell.iter("span") if each.get("data-figure"))
            path = span.get("data-figure")
            value = plant_named(name).graph[path]
            if path in figures:
                assert span.get("data-workshop") == figures[path]["shown"]
            else:
                assert value.given
            assert float(cell.get("data-sort")) == pytest.approx(float(value.si), rel=1e-8)
            assert cell.find("a").get("href").startswith((f"{name}/workings_", f"{name}/inputs.html#"))


def test_what_is_told_of_the_shed_is_what_its_description_says():
    """By hand: its bank at 50 bar(g) stands above its buffer at 25 bar(g); its prices are in euros."""
    told = main_figures(plant_named("shed"))
    assert told["pressure"] == "banks.store.fill_pressure"
    assert told["cost"] == "cost.total.eur"
    assert set(told) == set(COLUMNS)
    assert main_figures(plant_named("bench"))["pressure"] == "buffer.cut_out"
    assert main_figures(plant_named("farm"))["pressure"] == "banks.high.fill_pressure"


def test_a_preview_says_that_nobody_reviewed(tree):
    assert all("Not reviewed here." in text_of(row) for row in rows(tree))


def told_with(handbook, findings, proofs=0):
    shed = next(plant for plant in handbook.plants if plant.name == "shed")
    context = handbook.context(next(page for page in handbook.pages() if page.plant is shed))
    page = replace(context, address="plants.md")
    tokens = Tokens("plants.md")
    told = Told(shed, page, Review(shed, DAY, tuple(findings)), proofs)
    return tree_of(plants_page([told], replace(page, identities=[]), tokens), tokens)


def finding(severity):
    rule = "relief-is-in-date"
    from macros.quantities import Shown

    return Finding(rule, "RV1", severity, "broken", Shown("late", "late", "late"), Shown("", "", ""), None, ())


def test_the_verdict_is_that_of_the_review(handbook):
    passes = told_with(handbook, [finding("warn"), finding("warn"), finding("open")])
    assert "Nothing fails. Warnings: 2; open questions: 1." in text_of(rows(passes)[0])
    assert "Refused" not in text_of(passes)


@pytest.mark.parametrize(("findings", "proofs"), [([finding("fail")], 0), ([], 1)])
def test_a_refused_plant_says_so_in_its_row_and_above_its_summary(handbook, findings, proofs):
    tree = told_with(handbook, findings, proofs)
    row = rows(tree)[0]
    assert "Refused." in text_of(row.find("td/strong"))
    assert row.findall("td")[0].get("data-sort") == "0"
    assert "Refused. Published." in text_of(tree)


def test_a_plant_that_lacks_a_figure_has_an_empty_place_that_is_not_sorted(handbook):
    shed = next(plant for plant in handbook.plants if plant.name == "shed")
    context = handbook.context(next(page for page in handbook.pages() if page.plant is shed))
    from macros.pages.generated.plants_page import _cell

    assert _cell(Told(shed, context, None), "") == "<td>–</td>"


# --- what others chose


@pytest.fixture(scope="module")
def choices(handbook):
    return page_of(handbook, "choices")


def test_every_part_of_every_plant_stands_there_once_with_its_price(choices):
    for name in NAMES:
        plant = plant_named(name)
        listed = [text_of(row).replace(" ", "") for row in rows(choices, name)]
        parts = list(lines_of(plant))
        assert len(listed) == len(parts)
        for line in parts:
            wanted = line.item.replace(" ", ""), f"{line.unit_price:.0f}{line.currency}"
            assert any(all(each in text for each in wanted) for text in listed), line.item


def test_parts_stand_together_by_what_they_are_for(choices):
    shed = plant_named("shed")
    by_item = {line.item: made_for(shed, line) for line in lines_of(shed)}
    assert by_item["Cylinder with valve"] in ("bank", "hand_valve")
    assert by_item["Piston booster driven by air"] == "booster"
    assert by_item["Tube and fittings of the low side"] == "lines"
    assert by_item["Relief valve of train and buffer"] == "relief_valve"
    stacks = [table for table in choices.iter("table") if "Electrolyser stack" in text_of(table)]
    assert [row.get("data-plant") for row in rows(stacks[0])] == list(NAMES)


def test_how_prices_are_known_stands_beside_each(choices):
    assert all("made up on 20" in text_of(row) for row in rows(choices))


def test_no_reference_is_left_as_typed_and_no_id_stands_twice(choices, tree):
    for page in (choices, tree):
        assert not re.search(r"\{[a-z]", text_of(page))
        ids = [each.get("id") for each in page.iter() if each.get("id")]
        assert len(ids) == len(set(ids))


# --- sorting, by pointer and by keyboard


@pytest.fixture
def sorted_page(browser, handbook):
    rendered = handbook.render(next(page for page in handbook.pages() if page.kind == "plants"))
    page = browser.new_page()
    page.set_content(f'<html lang="en"><body>{converted(rendered.markdown, rendered.tokens)}</body></html>')
    page.add_script_tag(content=(resources.files("macros.site") / "assets/sort.js").read_text("utf-8"))
    yield page
    page.close()


def order(page):
    return page.eval_on_selector_all("tr[data-plant]", "rows => rows.map(row => row.dataset.plant)")


@pytest.mark.browser
def test_a_heading_sorts_by_pointer_largest_first_and_again_the_other_way(sorted_page):
    """By hand: 5 cells of 25 cm² at 25 A, 16 of 50 cm² at 60 A and 40 of 100 cm² at 120 A make more in this order."""
    head = sorted_page.locator("th", has_text="Hydrogen made")
    head.locator("button").click()
    assert order(sorted_page) == ["farm", "shed", "bench"]
    assert head.get_attribute("aria-sort") == "descending"
    head.locator("button").click()
    assert order(sorted_page) == ["bench", "shed", "farm"]
    assert head.get_attribute("aria-sort") == "ascending"


@pytest.mark.browser
def test_headings_are_reached_and_pressed_by_keyboard(sorted_page):
    sorted_page.keyboard.press("Tab")
    while "gw-sort" not in (sorted_page.evaluate("document.activeElement.className") or ""):
        sorted_page.keyboard.press("Tab")
    sorted_page.keyboard.press("Tab")  # from the plant's name to its status
    sorted_page.keyboard.press("Tab")
    sorted_page.keyboard.press("Enter")
    assert order(sorted_page) == ["farm", "shed", "bench"]
    sorted_page.keyboard.press("Shift+Tab")
    sorted_page.keyboard.press("Shift+Tab")
    sorted_page.keyboard.press("Space")
    assert order(sorted_page) == ["farm", "shed", "bench"], "by name: farm, shed, teaching bench"
    assert sorted_page.locator("th[aria-sort]").count() == 1


@pytest.mark.browser
def test_what_has_no_number_stays_last_either_way(sorted_page):
    sorted_page.eval_on_selector('tr[data-plant="farm"] td:nth-child(3)', "cell => cell.removeAttribute('data-sort')")
    button = sorted_page.locator("th", has_text="Hydrogen made").locator("button")
    button.click()
    assert order(sorted_page) == ["shed", "bench", "farm"]
    button.click()
    assert order(sorted_page) == ["bench", "shed", "farm"]
