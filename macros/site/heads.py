"""The letters of headings and labels: one cut of a pinned font, with only what headings are written in."""

from __future__ import annotations

import base64
import functools
import io

from fontTools import subset

from macros.quantities import store
from macros.sheets.wall.fonts import font_folders

__all__ = ["heads_font", "heads_style"]

CUT = "FiraSansCondensed-SemiBold.ttf"
LETTERS = (
    *range(0x20, 0x7F),
    *range(0xA0, 0x100),
    0x2009,
    0x2013,
    0x2014,
    0x2019,
    0x201C,
    0x201D,
    0x202F,
    0x2082,
    0x2212,
)
"""Western letters and what quantities need; others come from the system's own fonts."""


@functools.cache
def heads_font() -> bytes:
    """The font file in the web's open format, compressed, the same bytes every time."""
    options = subset.Options(flavor="woff", layout_features=["kern"], hinting=False, recalc_timestamp=False)
    file = io.BytesIO()
    with subset.load_font(str(font_folders()[1] / CUT), options) as font:
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=LETTERS)
        cutter.subset(font)
        subset.save_font(font, file, options)
    return file.getvalue()


def heads_style() -> str:
    """
    The style sheet that brings the letters along.

    A font in a file of its own comes after the first heading was drawn, and a browser may refuse it to a page that was
    opened from a file.
    """
    key = store.key_of("letters of headings", CUT, str(LETTERS))
    data = store.kept(key, lambda: base64.b64encode(heads_font()).decode())
    return (
        '@font-face { font-family: "Gaswright Heads"; font-weight: 600; font-display: block; '
        f'src: url("data:font/woff;base64,{data}") format("woff"); }}\n'
    )
