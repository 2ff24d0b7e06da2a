"""
A drawing that somebody made by hand: shapes and words, nothing that acts, asks for a file or shows another page.

A browser that opens a drawing by itself runs what is in it, under no policy of the page that shows it.
"""

from __future__ import annotations

import re
from typing import Final
from xml.parsers import expat

from macros.description.strict_yaml import bad_character
from macros.quantities import Fault, say

__all__ = ["LARGEST_DRAWING", "drawing_faults"]

LARGEST_DRAWING: Final = 512 * 1024
MOST_ELEMENTS: Final = 5000

_ELEMENTS: Final = frozenset(
    ("svg", "g", "defs", "title", "desc", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon",
     "text", "tspan", "marker", "linearGradient", "radialGradient", "stop", "clipPath"),
)  # fmt: skip
_ATTRIBUTES: Final = re.compile(
    "id|class|role|lang|xml:lang|xml:space|xmlns(?::xlink)?|version|viewBox|preserveAspectRatio|width|height|x|y|x1|y1|x2|y2|dx|dy|"
    "cx|cy|r|rx|ry|fx|fy|d|points|pathLength|transform|rotate|textLength|lengthAdjust|offset|aria-[a-z]+|"
    "marker[A-Za-z]+|orient|refX|refY|gradient[A-Za-z]+|spreadMethod|clipPathUnits|"
    "(?:fill|stroke|font|text|stop|marker|clip|color|dominant|alignment|letter|word|paint|vector|shape|baseline)(?:-[a-z]+)*|"
    "opacity|visibility|display"
)
_URL: Final = re.compile(r"url\s*\(\s*(?!#[A-Za-z])|@import|expression\s*\(|javascript", re.IGNORECASE)
_DECLARED: Final = re.compile(rb"<!(?!--)|<\?(?!xml[\s?])")


def drawing_faults(content: bytes, file: str) -> list[Fault]:
    """
    What may not stand in a drawing, each with its line.

    Parameters
    ----------
    content : bytes
        Of the file.
    file : str
        Its name in faults.
    """
    if (found := _DECLARED.search(content)) is not None:
        line = content.count(b"\n", 0, found.start()) + 1
        return [Fault(file, line, "", say("pages.files.drawing_declares"))]
    faults: list[Fault] = []
    parser = expat.ParserCreate("utf-8")
    count = 0

    def fault(message: str) -> None:
        faults.append(Fault(file, parser.CurrentLineNumber, "", message))

    def element(name: str, attributes: dict[str, str]) -> None:
        nonlocal count
        count += 1
        if count == MOST_ELEMENTS:
            fault(say("pages.files.drawing_too_much", most=MOST_ELEMENTS))
        if name not in _ELEMENTS:
            fault(say("pages.files.drawing_element", found=name[:40]))
        for key, value in attributes.items():
            if _ATTRIBUTES.fullmatch(key) is None or _URL.search(value):
                fault(say("pages.files.drawing_attribute", found=f'{key}="{value[:40]}"', element=name[:40]))
            words(value)

    def words(text: str) -> None:
        if (wrong := bad_character(text.replace("\n", " ").replace("\t", " "))) is not None:
            fault(wrong)

    parser.StartElementHandler = element
    parser.CharacterDataHandler = words
    try:
        parser.Parse(content, True)
    except (expat.ExpatError, UnicodeDecodeError):
        fault(say("pages.files.drawing_unreadable"))
    return sorted(set(faults))
