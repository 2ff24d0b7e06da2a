"""Numbers typed by hand: found wherever somebody reads them, with their line; left alone where nobody does."""

import pytest

from macros.pages.typed_numbers import prose, typed_in_drawing, typed_numbers
from macros.quantities import numbers_with_units
from tests.pages.small_plant import graph

FOUND = {
    "prose": "Fill to 26 bar(g).",
    "a caption under a table": "| p | 26 bar(g) |\n|---|---|\n",
    "an alternative text": "![The gauge at 26 bar(g)](gauge.png)",
    "the title of a picture": '![Gauge](gauge.png "at 26 bar(g)")',
    "the title of a named target": '[gauge]: gauge.png "at 26 bar(g)"',
    "an alternative text among attributes": '![](gauge.png){: alt="at 26 bar(g)" }',
    "a title among attributes": "A word{: .note title='at 26 bar(g)' } here.",
    "an attribute of HTML that is read aloud": '<img src="gauge.png" alt="at 26 bar(g)">',
    "the text of HTML": "<figcaption>At 26 bar(g)</figcaption>",
    "over the end of a line": "Fill to 26\nbar(g).",
}
LEFT = {
    "an expression": "Fill to {{ plant.buffer.cut_out }}.",
    "the arguments of a macro": '{{ gas_yield(cells=20, current="40 A") }}',
    "a comment": "<!-- 26 bar(g) -->",
    "code": "Type `26 bar(g)`.",
    "a fence": "```\n26 bar(g)\n```\n",
    "the target of a link": "[x](pictures/26_bar.png)",
    "an address": "https://example.org/26 ",
    "classes and ids": 'A word{: #at-26-bar width="26 mm" } here.',
    "attributes of HTML that nobody reads": '<img src="26 m.png" width="26 mm" alt="A gauge">',
    "plain English": "Wait 3 times, in 2 steps, with 16 in series.",
}


@pytest.mark.parametrize("where", FOUND)
def test_a_typed_number_is_found_where_somebody_reads_it(where):
    faults = list(typed_numbers(FOUND[where], "x.md", 1, [graph()]))
    assert len(faults) == 1, where
    assert "26" in faults[0].message


@pytest.mark.parametrize("where", LEFT)
def test_what_nobody_reads_or_nobody_typed_is_left_alone(where):
    assert not list(typed_numbers(LEFT[where], "x.md", 1, [graph()]))


@pytest.mark.parametrize("text", [*FOUND.values(), *LEFT.values()])
def test_blanking_keeps_every_place(text):
    blanked = prose(text)
    assert len(blanked) == len(text)
    assert [place for place, each in enumerate(text) if each == "\n"] == [
        place for place, each in enumerate(blanked) if each == "\n"
    ]


DRAWING = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 26 26" width="26mm">
<style>text { font-size: 26px; margin: 5 m }</style>
<!-- drawn at 5 bar(g) -->
<title>A gauge</title>
<path d="M 5 m 10 26 h 3 s 4 5 V 6"/>
<text x="5" y="6">WORDS</text>
</svg>"""


def test_a_drawing_is_read_by_its_words_only():
    assert not list(typed_in_drawing(DRAWING.replace("WORDS", "full"), "x.svg", [graph()]))
    faults = list(typed_in_drawing(DRAWING.replace("WORDS", "full at 26 bar(g)"), "x.svg", [graph()]))
    assert [(fault.file, fault.line) for fault in faults] == [("x.svg", 6)]


def test_what_is_read_aloud_of_a_drawing_is_read_too():
    svg = '<svg aria-label="filled to 26 bar(g)"><title>Filled to 30 bar(g)</title></svg>'
    assert len(list(typed_in_drawing(svg, "x.svg", [graph()]))) == 2


def test_the_value_of_an_entry_is_told_with_what_to_write():
    fault = next(typed_numbers("Stop at 25 bar(g).", "x.md", 7, [graph()]))
    assert fault.line == 7
    assert "{{ plant.buffer.cut_out }}" in fault.message


def test_a_caption_of_two_numbers_is_two_faults():
    assert len(list(typed_numbers("From 15 bar(g) to 25 bar(g).", "x.md", 1, [graph()]))) == 2
    assert len(numbers_with_units("From 15 bar(g) to 25 bar(g).")) == 2
