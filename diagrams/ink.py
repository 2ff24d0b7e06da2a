"""
The paper that symbols are drawn on.

The drawing library brings two kinds of paper, both of which write hard black into style attributes. This one
takes the same strokes and writes them in `currentColor` with presentation attributes, so that a page may colour
them and a content policy finds nothing to drop. Distances arrive with y upward and leave with y downward.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from xml.sax.saxutils import escape, quoteattr

from diagrams.proportions import FONT

XY = Sequence[float]

DASHED = {"mesh": "3 2.4", "sense": "2.4 2"}
"""Dash patterns inside symbols, by what they stand for."""


def number(value: float) -> str:
    """A coordinate with at most two decimals, and never a negative nothing."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def attributes(**values: str | float | None) -> str:
    """Attributes in the order given; an underscore stands for a hyphen, a trailing one is dropped, None is left out."""
    parts = []
    for name, value in values.items():
        if value is not None:
            quoted = _quoted(value) if isinstance(value, str) else f'"{number(value)}"'
            parts.append(f" {_named(name)}={quoted}")
    return "".join(parts)


# A site holds a hundred thousand attributes: few names, and few values that are no numbers.
@lru_cache(maxsize=256)
def _named(name: str) -> str:
    return name.rstrip("_").replace("_", "-")


@lru_cache(maxsize=1024)
def _quoted(text: str) -> str:
    return quoteattr(text)


def text_element(x: float, y: float, text: str, size: float, *, class_: str, anchor: str = "middle",
                 weight: str | None = None, si: str = "", us: str = "") -> str:  # fmt: skip
    """A text with its baseline at y; texts of the other unit systems travel with it as data."""
    return (
        f"<text{attributes(class_=class_, x=x, y=y, text_anchor=anchor, font_size=size, font_weight=weight)}"
        f"{attributes(data_si=si or None, data_us=us or None)}>{escape(text)}</text>"
    )


TEXT_GROUP = attributes(fill="currentColor", stroke="none", font_family=FONT)
"""Attributes of a group that holds texts."""


class Paper:
    """Takes strokes from symbols and keeps them as SVG."""

    def __init__(self, weight: float) -> None:
        self.weight = weight
        self.marks: list[str] = []

    def _paint(self, lw: float, ls: str, fill: object) -> str:
        return attributes(
            stroke_width=None if lw == self.weight else lw,
            stroke_dasharray=DASHED.get(ls),
            fill="currentColor" if fill else None,
        )

    def plot(self, x: XY, y: XY, *, ls: str, lw: float, fill: object, **_: object) -> None:
        """An open stroke."""
        points = " ".join(
            f"{'M' if first else 'L'}{number(px)} {number(-py)}"
            for first, px, py in ((i == 0, x[i], y[i]) for i in range(len(x)))
        )
        self.marks.append(f'<path d="{points}"{self._paint(lw, ls, fill)}/>')

    def poly(self, verts: Sequence[XY], *, ls: str, lw: float, fill: object, **_: object) -> None:
        """A closed outline."""
        points = " ".join(f"{number(x)},{number(-y)}" for x, y in verts)
        self.marks.append(f'<polygon points="{points}"{self._paint(lw, ls, fill)}/>')

    def circle(self, center: XY, radius: float, *, ls: str, lw: float, fill: object, **_: object) -> None:
        """A circle."""
        place = attributes(cx=center[0], cy=-center[1], r=radius)
        self.marks.append(f"<circle{place}{self._paint(lw, ls, fill)}/>")

    def arc(self, center: XY, *, width: float, height: float, theta1: float, theta2: float, angle: float,
            ls: str, lw: float, fill: object, **_: object) -> None:  # fmt: skip
        """A part of an ellipse that lies square on the paper."""
        across, upright = width / 2, height / 2
        turned = math.radians(angle)

        def at(theta: float) -> tuple[float, float]:
            part = math.radians(theta)
            x, y = across * math.cos(part), upright * math.sin(part)
            return (
                center[0] + x * math.cos(turned) - y * math.sin(turned),
                center[1] + x * math.sin(turned) + y * math.cos(turned),
            )

        (x1, y1), (x2, y2) = at(theta1), at(theta2)
        long_way = int((theta2 - theta1) % 360 > 180)
        radii = f"{number(across)} {number(upright)} {number(-angle)} {long_way} 0"
        d = f"M{number(x1)} {number(-y1)} A{radii} {number(x2)} {number(-y2)}"
        self.marks.append(f'<path d="{d}"{self._paint(lw, ls, fill)}/>')

    def bezier(self, p: Sequence[XY], *, ls: str, lw: float, **_: object) -> None:
        """A curve with two handles."""
        start, *rest = (f"{number(x)} {number(-y)}" for x, y in p)
        self.marks.append(f'<path d="M{start} C{", ".join(rest)}"{self._paint(lw, ls, None)}/>')

    def text(self, s: str, x: float, y: float, *, fontsize: float, fontfamily: str, **_: object) -> None:
        """Letters of a symbol, centred on (x, y); what the library takes for a font is the class of the letters."""
        weight = "bold" if fontfamily == "gw-tag" else None
        written = text_element(x, -y + fontsize * 0.36, s, fontsize, class_=fontfamily, weight=weight)
        self.marks.append(f"<g{TEXT_GROUP}>{written}</g>")

    def drawn(self) -> str:
        """All strokes in the order in which they came."""
        return "".join(self.marks)
