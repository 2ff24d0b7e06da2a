"""
The check for numbers typed by hand, measured on every guide of every plant as its reader sees it.

There the numbers that were computed stand marked in the text, so each alarm can be told: right where it falls on a
computed number with a unit (typed, it would have been one), false anywhere else.
"""

import re

import pytest

from macros.quantities import numbers_with_units

from .well_formed import page_read

COMPUTED = ("data-figure", "data-workshop", "data-typed", "data-fact", "data-si")
BLOCKS = {"p", "li", "td", "th", "dt", "dd", "h1", "h2", "h3", "h4", "figcaption", "summary", "text", "desc", "title"}
# A drawing is described in words made with it; nobody sees them, and nobody types them.
SILENT = {"script", "style", "code", "pre", "math", "template", "nav", "desc"}
NUMBER = re.compile(r"[0-9]+(?:[.,\u202f][0-9]+)*")


@pytest.fixture(scope="module")
def guides(site, sources, plants):
    names = sorted(path.stem for path in (sources / "docs/guides").glob("*.md"))
    pages = [site / plant / f"{name}.html" for plant in plants for name in names]
    return [page_read(page)[0] for page in pages if page.exists()]


def local(element):
    return element.tag.rpartition("}")[2] if isinstance(element.tag, str) else ""


def blocks(element, found, current=None):
    """Every block of text of a page as pieces, each with whether it was computed."""
    name = local(element)
    if name in SILENT or "gw-workings" in (element.get("class") or ""):
        return
    if name in BLOCKS or current is None:
        current = []
        found.append(current)
    if any(element.get(mark) is not None for mark in COMPUTED):
        current.append(("".join(element.itertext()), True))
    else:
        if element.text:
            current.append((element.text, False))
        for child in element:
            blocks(child, found, current)
            if child.tail:
                current.append((child.tail, False))


def alarms(pieces):
    """How many numbers a block holds, how many alarms are false, how many computed ones have a unit, and are missed."""
    text, computed = "", []
    for piece, is_computed in pieces:
        if is_computed and numbers_with_units(piece):
            computed.append((len(text), len(text) + len(piece)))
        text += piece
    hits = [(one.start, one.end) for one in numbers_with_units(text)]

    def meets(one, others):
        return any(one[0] < other[1] and other[0] < one[1] for other in others)

    false = [text[start:end] for start, end in hits if not meets((start, end), computed)]
    missed = [text[start:end] for start, end in computed if not meets((start, end), hits)]
    return len(NUMBER.findall(text)), false, len(computed), missed


def test_false_alarms_are_fewer_than_one_in_a_hundred_numbers(guides):
    numbers, false, computed, missed = 0, [], 0, []
    for page in guides:
        for article in page.iter("{http://www.w3.org/1999/xhtml}article"):
            found = []
            blocks(article, found)
            for pieces in found:
                count, wrong, known, lost = alarms(pieces)
                numbers, computed = numbers + count, computed + known
                false += wrong
                missed += lost
    assert numbers > 1000 and computed > 300
    assert len(false) < numbers / 100, false[:20]
    assert len(missed) < computed / 100, missed[:20]


def test_a_false_and_a_right_alarm_are_told_apart():
    """The measure itself: of two numbers with a unit one was computed; a third has no unit and raises nothing."""
    pieces = [("Fill to ", False), ("26 bar(g)", True), (" in 3 steps, for 5 minutes", False)]
    assert alarms(pieces) == (3, ["5 minutes"], 1, [])
