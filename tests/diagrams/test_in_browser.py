"""Measured in a real browser with its own fonts, in every unit system: no text lies on another or on a symbol."""

from __future__ import annotations

from itertools import combinations

import pytest

from diagrams import Explained, catalogue, legend, schematic, stylesheet, symbol_drawing
from diagrams.places import Box
from diagrams.symbols import symbols

from .networks import shed_items, shed_lines

MEASURE = """
(system) => {
  const texts = [...document.querySelectorAll('svg text')];
  for (const text of texts) {
    text.dataset.workshop ??= text.textContent;
    text.textContent = text.dataset[system] ?? text.dataset.workshop;
  }
  const box = (element) => { const r = element.getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom]; };
  return {
    texts: texts.filter((text) => !text.closest('.gw-symbol')).map((text) => [text.textContent, box(text)]),
    inside: texts.filter((text) => text.closest('.gw-symbol')).map(
      (text) => [text.textContent, box(text), box(text.closest('.gw-symbol'))]),
    symbols: [...document.querySelectorAll('.gw-symbol')].map((group) => box(group)),
    page: box(document.querySelector('svg')),
  };
}
"""
LEADING = 2.6
"""A browser's box of a text is the whole height of its font; what is above capitals and below descenders is air."""


def page_with(browser, content: str):
    page = browser.new_page(viewport={"width": 1600, "height": 900})
    page.set_content(f"<!doctype html><style>{stylesheet()}</style>{content}")
    return page


def as_box(sides: list[float], trim: float = 0.0) -> Box:
    left, top, right, bottom = sides
    return Box(left, top + trim, right, bottom - trim)


@pytest.mark.browser
@pytest.mark.parametrize("system", ["workshop", "si", "us"])
def test_texts_keep_clear_of_one_another_and_of_symbols(browser, system: str) -> None:
    text = schematic(shed_items(), shed_lines(), title="The shed plant", description="All of it.", identity="shed")
    page = page_with(browser, text)
    found = page.evaluate(MEASURE, system)
    page.close()
    assert len(found["texts"]) > 60
    texts = [(said, as_box(sides, LEADING)) for said, sides in found["texts"]]
    for (one, first), (other, second) in combinations(texts, 2):
        assert not first.meets(second), f"{one} lies on {other}"
    for said, box in texts:
        for sides in found["symbols"]:
            assert not box.meets(as_box(sides)), f"{said} lies on a symbol at {sides}"
        assert as_box(found["page"]).joined(box) == as_box(found["page"]), f"{said} leaves the drawing"
    for said, sides, own in found["inside"]:
        assert as_box(own).joined(as_box(sides, LEADING)) == as_box(own), f"{said} sticks out of its symbol"


INK = """
async () => {
  const shares = {};
  for (const svg of document.querySelectorAll('svg')) {
    const image = new Image();
    image.src = 'data:image/svg+xml;charset=utf-8,' + encodeURIComponent(new XMLSerializer().serializeToString(svg));
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = svg.width.baseVal.value; canvas.height = svg.height.baseVal.value;
    const ink = canvas.getContext('2d');
    ink.drawImage(image, 0, 0, canvas.width, canvas.height);
    const data = ink.getImageData(0, 0, canvas.width, canvas.height).data;
    let dark = 0;
    for (let at = 3; at < data.length; at += 4) dark += data[at] > 127;
    shares[svg.querySelector('title').id] = dark / (data.length / 4);
  }
  return shares;
}
"""


@pytest.mark.browser
def test_every_symbol_puts_ink_in_its_box(browser) -> None:
    """Each symbol alone, looked at as a picture: at least one in a hundred of its pixels is dark, not all are."""
    names = [kind.name for kind in symbols()]
    page = page_with(browser, "".join(symbol_drawing(name, identity=name) for name in names))
    shares = page.evaluate(INK)
    page.close()
    assert sorted(shares) == sorted(f"{name}-title" for name in names)
    for name, share in shares.items():
        assert 0.01 < share < 0.8, f"{name} covers {share:.1%} of its box"


@pytest.mark.browser
def test_legend_and_catalogue_texts_keep_clear(browser) -> None:
    media = ("hydrogen", "wet_hydrogen", "oxygen", "water", "air", "nitrogen", "electric")
    marks = ("isolated", "vented", "inert")
    shown = Explained(media, live=True, marks=marks, moved=True, cut=True, letters={"FO": "fails open"})
    for text in (
        catalogue(identity="all", title="Symbols"),
        legend(shown, identity="key", title="Legend"),
    ):
        page = page_with(browser, text)
        found = page.evaluate(MEASURE, "workshop")
        page.close()
        texts = [(said, as_box(sides, LEADING)) for said, sides in found["texts"]]
        for (one, first), (other, second) in combinations(texts, 2):
            assert not first.meets(second), f"{one} lies on {other}"
        for said, box in texts:
            for sides in found["symbols"]:
                assert not box.meets(as_box(sides)), f"{said} lies on a symbol at {sides}"
