"""The switch of units: every number follows, before it is painted, on every page, and gauge or absolute is always said."""

from __future__ import annotations

import re

import pytest

from macros.figures.graph import PRESSURES

KEY = "gaswright.units"
SHOWN = """(system) => [...document.querySelectorAll('[data-si]')]
  .filter((one) => (one.dataset[system] ?? one.textContent) !== one.textContent)
  .map((one) => [one.outerHTML.slice(0, 200), one.textContent])"""
PAGES = ("bench/gas_treatment.html", "bench/drawing.html", "bench/procedure-first-start.html")


@pytest.fixture
def page(browser):
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    opened = context.new_page()
    opened.problems = []
    opened.on("pageerror", lambda error: opened.problems.append(str(error)))
    yield opened
    context.close()
    assert opened.problems == []


@pytest.mark.browser
def test_every_number_follows_and_stays_on_other_pages(site, page) -> None:
    page.goto((site / PAGES[0]).as_uri())
    before = page.locator('.gw-figure[data-figure="drying.dew_point"]').first.text_content()
    for system, mark in (("us", "°F"), ("si", "K"), ("workshop", "°C")):
        page.select_option("#gw-units", system)
        for address in PAGES:
            page.goto((site / address).as_uri())
            assert page.evaluate(SHOWN, system) == [], address
            assert page.locator("#gw-units").input_value() == system
        page.goto((site / PAGES[0]).as_uri())
        assert page.locator('.gw-figure[data-figure="drying.dew_point"]').first.text_content().endswith(mark)
    assert page.locator('.gw-figure[data-figure="drying.dew_point"]').first.text_content() == before


def test_every_pressure_says_from_where_it_is_counted_in_every_system(plants) -> None:
    for plant in plants.values():
        for path in plant.graph:
            if path in plant.graph.figures and plant.graph.figures[path].late:
                continue
            value = plant.graph[path]
            if value.is_number and value.kind in ("pressure", *PRESSURES):
                texts = value.shown()
                for text in (texts.workshop, texts.si, texts.us):
                    assert text.endswith(("(g)", "(a)")), f"{path}: {text}"


TOLD = re.compile(r'(?:data-workshop="([^"]*)" )?data-si="([^"]*)" data-us="([^"]*)">([^<]*)<')


def test_gauge_and_absolute_are_told_alike_in_every_system_on_every_page(site) -> None:
    """In numbers, sentences, ticks, labels, flags and what is said of drawings."""
    told = 0
    for path in sorted(site.glob("*/*.html")):
        for workshop, si, us, shown in TOLD.findall(path.read_text(encoding="utf-8")):
            counted = [tuple(text.count(mark) for mark in ("(g)", "(a)")) for text in (workshop or shown, si, us)]
            assert counted[0] == counted[1] == counted[2], (path.name, workshop or shown, si, us)
            told += counted[0] != (0, 0)
    assert told > 500


@pytest.mark.browser
def test_plots_and_drawings_follow_with_what_is_said_of_them(site, page) -> None:
    page.goto((site / "bench/gas_treatment.html").as_uri())
    plot = page.locator('[data-plot="train"]')
    axes = [text for text in plot.locator(".gw-axis").all_text_contents() if "," in text]
    told = plot.locator("desc").text_content()
    page.select_option("#gw-units", "us")
    assert any(text.endswith("°F") for text in plot.locator(".gw-axis").all_text_contents())
    assert axes != [text for text in plot.locator(".gw-axis").all_text_contents() if "," in text]
    assert "°F" in plot.locator("desc").text_content() != told
    page.goto((site / "bench/drawing.html").as_uri())
    assert "psi(g)" in " ".join(page.locator("svg.gw-schematic .gw-label").all_text_contents())


@pytest.mark.browser
def test_the_choice_is_a_labelled_control_for_the_keyboard(site, page) -> None:
    page.goto((site / PAGES[0]).as_uri())
    choice = page.get_by_label("Units")
    choice.focus()
    page.keyboard.press("ArrowDown")
    assert choice.input_value() == "si"
    assert page.evaluate("document.documentElement.dataset.units") == "si"
    assert page.evaluate(SHOWN, "si") == []


@pytest.mark.browser
def test_an_open_working_follows_and_print_keeps_the_choice(site, page) -> None:
    page.goto((site / PAGES[0]).as_uri())
    page.locator('.gw-figure[data-figure="drying.dew_point"]').first.click()
    page.evaluate("document.getElementById('gw-units').value = 'us'")
    page.evaluate("document.getElementById('gw-units').dispatchEvent(new Event('change'))")
    assert "°F" in page.locator(".gw-working:popover-open .gw-working-title").text_content()
    page.emulate_media(media="print")
    assert page.evaluate(SHOWN, "us") == []
    assert not page.locator("#gw-units").is_visible()


@pytest.mark.browser
def test_a_browser_that_keeps_nothing_still_switches(site, page) -> None:
    page.add_init_script(
        "Storage.prototype.getItem = Storage.prototype.setItem = () => { throw new DOMException('no', 'SecurityError'); }"
    )
    page.goto((site / PAGES[0]).as_uri())
    page.select_option("#gw-units", "us")
    assert page.evaluate(SHOWN, "us") == []


@pytest.mark.browser
def test_no_frame_is_painted_in_other_units(site, page) -> None:
    """What each frame would paint while a page of a thousand numbers is read; only the one being read may wait."""
    page.add_init_script(
        f"""localStorage.setItem({KEY!r}, 'us');
        window.seen = [];
        (function look() {{
          const all = [...document.querySelectorAll('[data-workshop]')];
          all.slice(0, -1).forEach((one) => {{
            if (one.dataset.us !== one.dataset.workshop && one.textContent === one.dataset.workshop) window.seen.push(one.textContent);
          }});
          if (document.readyState !== 'complete') requestAnimationFrame(look);
        }})();"""
    )
    page.goto((site / "bench/workings.html").as_uri())
    assert page.evaluate("window.seen") == []
    assert page.evaluate(SHOWN, "us") == []


@pytest.mark.browser
def test_without_scripts_there_are_workshop_units_and_no_choice(site, browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / PAGES[0]).as_uri())
    assert not page.locator("#gw-units").is_visible()
    shown = page.locator('.gw-figure[data-figure="drying.dew_point"]').first
    assert shown.text_content() == shown.get_attribute("data-workshop")
    context.close()
