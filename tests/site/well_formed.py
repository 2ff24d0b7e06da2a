"""A page read strictly by other parsers than ours: HTML by html5lib, each drawing and formula as XML."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

import html5lib

DRAWN = re.compile(r"<(svg|math)\b.*?</\1>", re.DOTALL)
NAMED = re.compile(r"&(?!amp;|lt;|gt;|quot;|apos;|#)\w+;")
ACCEPTED = frozenset()


def faults_of(text):
    """
    What is wrong with a page as HTML or with a drawing in it as XML; one line for each.

    html5lib reports every parse error of the HTML standard's tokeniser and tree construction.
    """
    parser = html5lib.HTMLParser(strict=False)
    parser.parse(text)
    found = [f"{line}: {code} {data}" for (line, _), code, data in parser.errors if code not in ACCEPTED]
    for drawn in DRAWN.finditer(text):
        try:
            ET.fromstring(NAMED.sub("", drawn[0]))
        except ET.ParseError as error:
            found.append(f"{text.count(chr(10), 0, drawn.start()) + 1}: {drawn[1]}: {error}")
    return found
