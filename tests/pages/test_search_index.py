"""The search index: places with titles, words with places, and the words of no use left out."""

from __future__ import annotations

import itertools
import json

import pytest

from macros.pages.search_index import SearchIndex

GUIDE = """<h1 id="x">Faults</h1><p>Look first.</p>
<h2 id="stack">Stack<a class="headerlink" href="#stack">¶</a></h2><p>Pinholes &amp; seals near V3.</p>
<div><table><tr id="stack-row-1"><td>All cells high</td><td>Warm up</td></tr></table></div>
<svg><text>unread</text></svg>
<section class="gw-workings"><h2 id="w">Workings</h2><p>unheard</p></section>"""
ITEMS = '<h2 id="items">Items</h2><table><tr id="item-v3" tabindex="-1"><th scope="row">V3</th><td>Drain valve</td></tr></table>'
WORKINGS = '<h2 id="w-stack-cells">Cells in series</h2><p>unheard too</p>'


@pytest.fixture(scope="module")
def index():
    made = SearchIndex({"w-stack-cells": ("Cells in series", "stack.cells N")})
    made.add("shed/faults.html", "guide", "Faults and remedies", "From what you see.", GUIDE)
    made.add("shed/drawing.html", "drawing", "Drawing", "", ITEMS)
    made.add("shed/workings_stack.html", "working", "Workings: stack", "", WORKINGS)
    text = made.script()
    return json.loads(text[text.index("push(") + 5 : text.rindex(");")])


def places(index, word):
    held = itertools.accumulate(int(step, 36) for step in index["words"].get(word, "").split())
    return {(index["pages"][index["places"][at][0]][0], index["places"][at][1]) for at in held}


def test_every_page_heading_row_and_figure_is_a_place(index) -> None:
    found = [(index["pages"][page][0], anchor, title) for page, anchor, title, _ in index["places"]]
    assert found == [
        ("shed/faults.html", "", "Faults and remedies"),
        ("shed/faults.html", "stack", "Stack"),
        ("shed/faults.html", "stack-row-1", "All cells high"),
        ("shed/drawing.html", "", "Drawing"),
        ("shed/drawing.html", "items", "Items"),
        ("shed/drawing.html", "item-v3", "V3 Drain valve"),
        ("shed/workings_stack.html", "", "Workings: stack"),
        ("shed/workings_stack.html", "w-stack-cells", "Cells in series"),
    ]


def test_a_figure_is_found_by_its_name_and_symbol_too(index) -> None:
    assert [names for *_, names in index["places"] if names] == ["stack.cells N"]


def test_words_lead_to_the_heading_under_which_they_stand(index) -> None:
    assert places(index, "pinholes") == {("shed/faults.html", "stack")}
    assert places(index, "v3") == {("shed/faults.html", "stack"), ("shed/drawing.html", "item-v3")}
    assert places(index, "warm") == {("shed/faults.html", "stack-row-1")}
    assert places(index, "see") == {("shed/faults.html", "")}


def test_drawings_and_workings_are_not_read_word_by_word(index) -> None:
    assert not {"unread", "unheard", "workings", "amp"} & set(index["words"])


def test_a_word_that_stands_everywhere_is_left_out() -> None:
    made = SearchIndex()
    body = "".join(f'<h2 id="h{number}">Heading</h2><p>hydrogen rare{"ly" * (number == 7)}</p>' for number in range(60))
    made.add("x.html", "guide", "X", "", body)
    text = made.script()
    assert '"rarely":' in text
    assert '"hydrogen":' not in text
