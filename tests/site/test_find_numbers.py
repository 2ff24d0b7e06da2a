"""Any number of a plant is found by its name or value, by keyboard, from a file; a printed review is whole."""

import re

import pytest

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def page(browser, site):
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto((site / "shed/workings.html").as_uri())
    yield page
    page.close()


def shown(page):
    return page.locator("#gw-numbers tbody tr:not(.gw-group)").evaluate_all(
        """rows => rows.filter((row) => row.checkVisibility()).map((row) => [row.textContent,
          ...[...row.querySelectorAll('[data-si]')].flatMap((one) => [one.dataset.workshop, one.dataset.si, one.dataset.us])]
          .join(' ').replace(/\\u00a0/g, ' ').replace(/\\u202f/g, ''))"""
    )


def type_in(page, text):
    page.locator("#gw-numbers-filter").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type(text)
    return shown(page)


def test_the_table_holds_every_figure_and_entry(page, plants):
    graph = plants["shed"].graph
    page.locator("#gw-numbers-filter").fill("")
    assert len(shown(page)) == len(graph.figures) + len(graph.entries)


def test_a_name_finds_its_rows_and_the_count_says_how_many(page):
    rows = type_in(page, "stack.crossover")
    assert rows and all("stack.crossover" in row for row in rows)
    count = page.locator(".gw-filter-count").inner_text()
    assert re.search(rf"\b{len(rows)} /", count)


def test_words_of_the_title_find_it_in_any_order_and_case(page):
    assert any("stack.hydrogen_in_oxygen" in row for row in type_in(page, "OXYGEN hydrogen cut-out"))


def test_a_value_finds_it_in_whatever_units_it_is_typed(page, plants):
    texts = plants["shed"].graph["buffer.cut_out"].shown()
    for text in (texts.workshop, texts.si, texts.us):
        rows = type_in(page, text.replace("\u00a0", " ").replace("\u202f", ""))
        assert any("buffer.cut_out" in row for row in rows), text


def test_a_number_is_found_from_its_first_digit_and_not_from_its_middle(page):
    rows = type_in(page, "25 bar(g)")
    assert any("25 bar(g)" in row for row in rows)
    assert [row for row in rows if not re.search(r"(?<![\w.])25", row)] == []


def test_what_stands_nowhere_says_so_and_escape_brings_all_back(page, plants):
    assert type_in(page, "unobtainium") == []
    assert "nothing" in page.locator(".gw-filter-count").inner_text()
    page.keyboard.press("Escape")
    assert len(shown(page)) == len(plants["shed"].graph.figures) + len(plants["shed"].graph.entries)


def test_a_row_leads_to_the_full_working(browser, site):
    page = browser.new_page()
    page.goto((site / "shed/workings.html").as_uri())
    page.locator("#w-stack-hydrogen_normal_flow a").click()
    page.wait_for_url("**/workings_stack.html#w-stack-hydrogen_normal_flow")
    working = page.locator('.gw-full-working[data-working="stack.hydrogen_normal_flow"]')
    assert working.locator("math").count() >= 1
    assert working.locator(".gw-readers a").count() >= 1
    page.close()


@pytest.mark.parametrize("size", [(360, 740), (1280, 900)], ids=["phone", "desktop"])
@pytest.mark.parametrize("address", ["shed/review.html", "shed/record.html", "shed/workings.html", "shed/workings_stack.html"])  # fmt: skip
def test_no_page_is_wider_than_its_screen(browser, site, address, size):
    page = browser.new_page(viewport={"width": size[0], "height": size[1]})
    page.goto((site / address).as_uri())
    assert page.evaluate("document.scrollingElement.scrollWidth") <= size[0]
    page.close()


def test_on_paper_the_review_shows_what_passed_too(browser, site):
    page = browser.new_page()
    page.goto((site / "shed/review.html").as_uri())
    folded = page.locator("details.gw-folded table").first
    assert not folded.evaluate("table => table.checkVisibility()")
    page.emulate_media(media="print")
    assert folded.evaluate("table => table.checkVisibility() && table.getBoundingClientRect().height > 0")
    page.close()
