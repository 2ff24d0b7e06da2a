"""The fonts of the wall guide: files from packages, never from the system, and how wide their letters are."""

from __future__ import annotations

import functools
from importlib import resources
from pathlib import Path

from fontTools.ttLib import TTFont

__all__ = ["CAPITALS", "font_folders", "tag_width"]

PACKAGES = ("fontpkg_fira_sans", "fontpkg_fira_sans_condensed")
TAGS = "FiraSansCondensed-SemiBold.ttf"
"""The cut in which tags stand on the drawing."""

CAPITALS = 0.69
"""Height of capitals and figures, as a share of the font size."""


def font_folders() -> list[Path]:
    """The folders that hold the font files."""
    return [Path(str(resources.files(package))) / "files" for package in PACKAGES]


@functools.cache
def _advances() -> tuple[dict[int, str], dict[str, int], int]:
    with TTFont(font_folders()[1] / TAGS, lazy=True) as font:
        names = dict(font.getBestCmap())
        return names, {name: font["hmtx"][name][0] for name in names.values()}, font["head"].unitsPerEm


def tag_width(text: str, size: float) -> float:
    """Width of a tag at a font size, in the unit of the size."""
    names, advances, em = _advances()
    return sum(advances[names[ord(letter)]] for letter in text) * size / em
