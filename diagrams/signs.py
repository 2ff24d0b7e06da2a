"""The signs of marks on items: a shape each, always beside its word."""

from __future__ import annotations

from diagrams.ink import attributes, number
from diagrams.proportions import LIVE

SIGNS = ("isolated", "vented", "inert")


def sign_path(mark: str, x: float, y: float, size: float) -> str:
    """The sign of a mark, centred on a point: a barred circle, an arrow upward, a filled lozenge; of live, a bar."""
    half = size / 2
    n = number
    if mark == "live":
        bar = attributes(class_="gw-sign gw-sign-live", d=f"M{n(x - half)} {n(y)}H{n(x + half)}", fill="none")
        return f"<path{bar}{attributes(stroke='currentColor', stroke_width=LIVE)}/>"
    if mark == "isolated":
        across = half * 0.68
        round_ = f"A{n(half)} {n(half)} 0 1 1"
        d = f"M{n(x - half)} {n(y)}{round_} {n(x + half)} {n(y)}{round_} {n(x - half)} {n(y)}"
        d += f"M{n(x - across)} {n(y - across)}L{n(x + across)} {n(y + across)}"
    elif mark == "vented":
        wing, low = half * 0.75, y - half * 0.1
        d = f"M{n(x)} {n(y + half)}V{n(y - half)}M{n(x - wing)} {n(low)}L{n(x)} {n(y - half)}L{n(x + wing)} {n(low)}"
    else:
        d = f"M{n(x)} {n(y - half)}L{n(x + half)} {n(y)}L{n(x)} {n(y + half)}L{n(x - half)} {n(y)}Z"
    fill = "currentColor" if mark == "inert" else "none"
    about = attributes(class_=f"gw-sign gw-sign-{mark}", d=d, fill=fill, stroke="currentColor", stroke_width=1.3)
    return f"<path{about}/>"
