"""The fonts of the wall guide: files from packages, never from the system, and how wide their letters are."""

from __future__ import annotations

import functools
from importlib import resources
from pathlib import Path

from fontTools.ttLib import TTFont

__all__ = ["CAPITALS", "font_folders", "tag_width", "text_width"]

PACKAGES = ("fontpkg_fira_sans", "fontpkg_fira_sans_condensed")
TAGS, TEXT = "FiraSansCondensed-SemiBold.ttf", "FiraSansCondensed-Regular.ttf"
"""The cuts in which tags stand on the drawing, and in which text is set."""

CAPITALS = 0.69
"""Height of capitals and figures, as a share of the font size."""


def font_folders() -> list[Path]:
    """The folders that hold the font files."""
    return [Path(str(resources.files(package))) / "files" for package in PACKAGES]


@functools.cache
def _advances(cut: str) -> tuple[dict[int, str], dict[str, int], int]:
    with TTFont(font_folders()[1] / cut, lazy=True) as font:
        names = dict(font.getBestCmap())
        return names, {name: font["hmtx"][name][0] for name in names.values()}, font["head"].unitsPerEm


def tag_width(text: str, size: float) -> float:
    """Width of a tag at a font size, in the unit of the size."""
    return _width(text, TAGS) * size


def text_width(text: str) -> float:
    """Width of a text in the regular cut, in font sizes; a letter that the font lacks counts as one font size."""
    return _width(text, TEXT)


def _width(text: str, cut: str) -> float:
    names, advances, em = _advances(cut)
    return sum(advances[names[ord(each)]] if ord(each) in names else em for each in text) / em
