"""Drawings on built pages: tags that lead to rows by keyboard, pages that stay small, every procedure and trip there."""

from __future__ import annotations

import gzip
import io
import re

import pytest
from pypdf import PdfReader

LARGEST = 250_000
"""Bytes of a page as it is sent, compressed: what a phone in a yard can be asked to load."""


def test_every_procedure_has_a_page_that_stays_small(site, plants) -> None:
    for name, plant in plants.items():
        index = (site / name / "procedures.html").read_text(encoding="utf-8")
        for procedure, described in plant.description.procedures.procedures.items():
            address = f"procedure-{procedure.replace('_', '-')}.html"
            assert f'href="{address}"' in index
            page = (site / name / address).read_bytes()
            assert page.count(b'class="gw-step"') == len(described.steps)
            assert len(gzip.compress(page)) < LARGEST, address
        trips = (site / name / "trip-matrix.html").read_text(encoding="utf-8")
        body = trips[trips.index("<tbody>") : trips.index("</tbody>")]
        assert body.count("<tr>") == len(plant.description.plant.trips)


def test_every_tag_of_a_drawing_leads_to_a_row(site, plants) -> None:
    for name, plant in plants.items():
        page = (site / name / "drawing.html").read_text(encoding="utf-8")
        drawn = page[page.index('<svg class="gw-schematic') :]
        drawn = drawn[: drawn.index("</svg>")]
        linked = re.findall(r'<a class="gw-link" href="drawing.html#(item-[a-z]+\d+)"', drawn)
        wanted = [tag for tag, item in plant.network.items.items() if item.kind.name != "junction"]
        assert sorted(linked) == sorted(f"item-{tag.lower()}" for tag in wanted)
        for anchor in linked:
            assert f'<tr id="{anchor}"' in page


@pytest.mark.browser
def test_a_tag_leads_to_its_row_by_keyboard(site, browser) -> None:
    page = browser.new_page(viewport={"width": 1280, "height": 800})
    for address in ("shed/drawing.html", "shed/procedure-change-desiccant.html"):
        page.goto((site / address).as_uri())
        link = page.locator('svg a.gw-link[href$="#item-v7"]').first
        link.focus()
        assert page.evaluate("document.activeElement.getAttribute('aria-label')").startswith("V7")
        page.keyboard.press("Enter")
        page.wait_for_url("**/drawing.html#item-v7")
        row = page.evaluate(
            "(() => { const r = document.querySelector('tr:target').getBoundingClientRect(); return [r.top, r.bottom]; })()"
        )
        assert 0 <= row[0] < row[1] <= 800
    page.close()


@pytest.mark.browser
@pytest.mark.parametrize("landscape", [True, False])
def test_a_drawing_is_never_cut_by_the_edge_of_the_paper(site, browser, plants, landscape) -> None:
    """Printed on A3 either way, one page bears every tag; tables of items are too long to do so."""
    page = browser.new_page()
    page.goto((site / "farm/drawing.html").as_uri())
    printed = PdfReader(io.BytesIO(page.pdf(format="A3", landscape=landscape)))
    page.close()
    tags = {tag for tag, item in plants["farm"].network.items.items() if item.kind.name != "junction"}
    assert any(tags <= set(re.findall(r"[A-Z]+\d+", each.extract_text())) for each in printed.pages)


@pytest.mark.browser
def test_on_a_phone_a_drawing_begins_where_something_moves(site, browser) -> None:
    page = browser.new_page(viewport={"width": 360, "height": 740})
    page.goto((site / "shed/procedure-change-desiccant.html").as_uri())
    seen = page.evaluate(
        """[...document.querySelectorAll('.gw-drawing-frame')].filter((frame) => frame.querySelector('.gw-ring')).map(
             (frame) => {
               const frameBox = frame.getBoundingClientRect();
               return [...frame.querySelectorAll('.gw-ring')].some((ring) => {
                 const box = ring.getBoundingClientRect();
                 return box.left >= frameBox.left && box.right <= frameBox.right;
               });
             })"""
    )
    wide = page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
    page.close()
    assert seen and all(seen)
    assert wide, "the page itself does not scroll sideways"
