"""A page read strictly by other parsers than ours: HTML by html5lib, each drawing and formula as XML."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import html5lib

DRAWN = re.compile(r"<(svg|math)\b.*?</\1>", re.DOTALL)
NAMED = re.compile(r"&(?!amp;|lt;|gt;|quot;|apos;|#)\w+;")


def read_strictly(text):
    """A page as a tree, and each parse error of the HTML standard in it as a line."""
    parser = html5lib.HTMLParser(strict=False)
    return parser.parse(text), [f"{line}: {code} {data}" for (line, _), code, data in parser.errors]


def torn_drawings(text):
    """Drawings and formulas of a page that are no XML, each with its line."""
    for drawn in DRAWN.finditer(text):
        try:
            ET.fromstring(NAMED.sub("", drawn[0]))
        except ET.ParseError as error:
            yield f"{text.count(chr(10), 0, drawn.start()) + 1}: {drawn[1]}: {error}"


def faults_of(text):
    """What is wrong with a page as HTML, or with a drawing in it as XML; one line for each."""
    return [*read_strictly(text)[1], *torn_drawings(text)]
