"""Where the labels of a plot stand, measured by the widths of letters, and which of them meet."""

from __future__ import annotations

from itertools import combinations
from xml.etree.ElementTree import Element

from diagrams.metrics import ASCENT, DESCENT, text_width
from diagrams.places import Box

SVG = "{http://www.w3.org/2000/svg}"


def boxes_of(svg: Element, system: str = "workshop") -> list[tuple[str, Box]]:
    """Each label in one system of units, with the room that it takes."""
    found = []
    for text in svg.iter(f"{SVG}text"):
        said = (text.text if system == "workshop" else text.get(system) or text.text) or ""
        size, x, y = (float(text.get(name)) for name in ("font-size", "x", "y"))
        wide = text_width(said, size)
        left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
        found.append((said, Box(left, y - size * ASCENT, left + wide, y + size * DESCENT)))
    return found


def meeting(boxes: list[tuple[str, Box]]) -> list[tuple[str, str]]:
    """The labels of which one lies on another."""
    return [(one, other) for (one, a), (other, b) in combinations(boxes, 2) if one and other and a.meets(b)]


def outside(svg: Element, boxes: list[tuple[str, Box]]) -> list[str]:
    """The labels that stick out of the picture."""
    left, top, width, height = map(float, svg.get("viewBox").split())
    paper = Box(left, top, left + width, top + height)
    return [
        said
        for said, box in boxes
        if box.left < paper.left or box.right > paper.right or box.top < paper.top or box.bottom > paper.bottom
    ]
