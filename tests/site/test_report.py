"""Tell us: every page and every working offers a text that says exactly what was seen, and sends nothing."""

from __future__ import annotations

import importlib.metadata
import json
import re
from html import unescape

import pytest

KEPT = "window.copied = []; navigator.clipboard.writeText = async (text) => { window.copied.push(text); };"
REFUSED = """navigator.clipboard.writeText = async () => { throw new DOMException('no', 'NotAllowedError'); };
document.execCommand = () => false;"""
TEXT = re.compile(r'<textarea class="gw-copy-text"[^>]*>(.*?)</textarea>', re.DOTALL)


def digest_of(site, name: str) -> str:
    """The digest that was published with a plant's figures."""
    return json.loads((site / name / "figures.json").read_text(encoding="utf-8"))["digest"]


def test_every_page_says_which_page_and_which_edition_it_is(site, plants) -> None:
    digests = {name: digest_of(site, name) for name in plants}
    version = importlib.metadata.version("gaswright")
    for path in sorted(site.rglob("*.html")):
        address = path.relative_to(site).as_posix()
        if address == "404.html":
            continue
        (text,) = TEXT.findall(path.read_text(encoding="utf-8"))
        lines = unescape(text).splitlines()
        assert lines[0].endswith(f"({address})")
        plant = plants.get(address.partition("/")[0])
        assert (digests[plant.name] if plant else "digest") in lines[1]
        assert plant is None or f"({plant.name})" in lines[1]
        assert lines[2] == f"Gaswright {version}"


@pytest.fixture
def open_page(browser, site):
    contexts = []

    def open_(address, script):
        contexts.append(browser.new_context(viewport={"width": 1280, "height": 900}))
        page = contexts[-1].new_page()
        page.asked = []
        page.on("request", lambda one: page.asked.append(one.url))
        page.add_init_script(script)
        page.goto((site / address).as_uri())
        return page

    yield open_
    for context in contexts:
        context.close()


@pytest.mark.browser
def test_a_working_is_copied_with_its_figure_and_value_in_the_readers_units(open_page, site, plants) -> None:
    page = open_page("bench/stack.html", KEPT)
    page.select_option("#gw-units", "us")
    figure = page.locator('.gw-figure[data-figure="stack.hydrogen_normal_flow"]').first
    figure.focus()
    page.keyboard.press("Enter")
    asked = len(page.asked)
    working = page.locator(".gw-working:popover-open")
    working.get_by_role("button", name="Copy for a report").click()
    (text,) = page.evaluate("window.copied")
    value = plants["bench"].graph["stack.hydrogen_normal_flow"]
    assert text.splitlines()[0] == f"Figure: {value.title} (stack.hydrogen_normal_flow)"
    assert text.splitlines()[1].startswith(f"Value: {value.shown().us} = ")
    assert value.shown().workshop in text
    for part in ("bench/stack.html", digest_of(site, "bench"), f"Gaswright {importlib.metadata.version('gaswright')}"):
        assert part in text
    assert working.get_by_role("status").text_content() == "Copied."
    assert len(page.asked) == asked, "nothing is sent"


@pytest.mark.browser
def test_a_full_working_and_the_page_itself_can_be_copied(open_page, plants) -> None:
    page = open_page("bench/workings_stack.html", KEPT)
    full = page.locator('.gw-full-working[data-working="stack.current_density"]')
    full.get_by_role("button", name="Copy for a report").click()
    page.locator(".gw-report summary").click()
    page.locator(".gw-report").get_by_role("button").click()
    of_figure, of_page = page.evaluate("window.copied")
    value = plants["bench"].graph["stack.current_density"]
    assert of_figure.startswith(f"Figure: {value.title} (stack.current_density)\nValue: {value.shown().workshop}")
    assert of_figure.endswith(of_page)
    assert "bench/workings_stack.html" in of_page


@pytest.mark.browser
def test_where_nothing_may_be_copied_the_text_stands_there_marked(open_page) -> None:
    page = open_page("bench/stack.html", REFUSED)
    page.locator('.gw-figure[data-figure="stack.hydrogen_normal_flow"]').first.click()
    working = page.locator(".gw-working:popover-open")
    working.get_by_role("button", name="Copy for a report").click()
    assert "copy it by hand" in working.get_by_role("status").text_content()
    marked = page.evaluate(
        "(() => { const b = document.activeElement; return b.value.slice(b.selectionStart, b.selectionEnd); })()"
    )
    assert marked.startswith("Figure: ")
    assert marked.splitlines()[-1].startswith("Gaswright ")
