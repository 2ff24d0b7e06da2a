"""The signs of marks on items: a shape each, always beside its word."""

from __future__ import annotations

from diagrams.ink import attributes, number

SIGNS = ("isolated", "vented", "inert")


def sign_path(mark: str, x: float, y: float, size: float) -> str:
    """The sign of a mark, centred on a point: a barred circle, an arrow upward, a filled lozenge."""
    half = size / 2
    n = number
    if mark == "isolated":
        across = half * 0.68
        d = (
            f"M{n(x - half)} {n(y)}A{n(half)} {n(half)} 0 1 1 {n(x + half)} {n(y)}"
            f"A{n(half)} {n(half)} 0 1 1 {n(x - half)} {n(y)}M{n(x - across)} {n(y - across)}L{n(x + across)} {n(y + across)}"
        )
        fill = "none"
    elif mark == "vented":
        d = f"M{n(x)} {n(y + half)}V{n(y - half)}M{n(x - half * 0.75)} {n(y - half * 0.1)}L{n(x)} {n(y - half)}L{n(x + half * 0.75)} {n(y - half * 0.1)}"  # noqa: E501
        fill = "none"
    else:
        d = f"M{n(x)} {n(y - half)}L{n(x + half)} {n(y)}L{n(x)} {n(y + half)}L{n(x - half)} {n(y)}Z"
        fill = "currentColor"
    return f"<path{attributes(class_=f'gw-sign gw-sign-{mark}', d=d, fill=fill, stroke='currentColor', stroke_width=1.3)}/>"
