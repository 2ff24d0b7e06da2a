"""
What a page may add to the drawings: colour that supports dash and letters, and how links answer.

The drawings are right without it. On a light page the colours stand out from white by at least 4.5 to 1, on a dark
one from black likewise; where a page knows its own colour schemes it hands in the selector of the dark one.
"""

from __future__ import annotations

LIGHT = {
    "hydrogen": "#9a1750",
    "wet_hydrogen": "#9a1750",
    "oxygen": "#1558a6",
    "water": "#00695f",
    "air": "#5b5b5b",
    "nitrogen": "#4d6b12",
    "electric": "#8a4b00",
}
DARK = {
    "hydrogen": "#ff8fb8",
    "wet_hydrogen": "#ff8fb8",
    "oxygen": "#86b8ff",
    "water": "#5fd3c4",
    "air": "#bdbdbd",
    "nitrogen": "#b4d36a",
    "electric": "#ffb35c",
}


def stylesheet(dark: str = "") -> str:
    """The rules for all drawings; `dark` selects a page in its dark scheme, empty: as the reader's system says."""

    def colours(table: dict[str, str], selector: str) -> str:
        chosen = " ".join(f"--gw-medium-{medium}: {colour};" for medium, colour in table.items())
        return f"{selector} {{ {chosen} }}"

    # What a drawing uses of another one is out of reach of a selector that begins outside it; what it inherits is not.
    darker = colours(DARK, dark) if dark else f"@media (prefers-color-scheme: dark) {{\n{colours(DARK, ':root')}\n}}"
    media = "\n".join(f".gw-medium-{medium} {{ color: var(--gw-medium-{medium}); }}" for medium in LIGHT)
    return f"""\
.gw-schematic, .gw-drawing {{ max-width: none; height: auto; }}
.gw-drawing-frame {{ overflow-x: auto; }}
{colours(LIGHT, ":root")}
{darker}
{media}
.gw-letters, .gw-label, .gw-tag {{ font-variant-numeric: tabular-nums; }}
.gw-link:hover .gw-tag, .gw-link:focus .gw-tag {{ text-decoration: underline; }}
.gw-link:focus-visible {{ outline: 2px solid currentColor; outline-offset: 3px; }}
@media print {{
.gw-line {{ color: inherit; }}
.gw-schematic, .gw-drawing {{ max-width: 100%; }}
}}
"""
