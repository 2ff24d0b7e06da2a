"""The guides as plain text with the numbers of one plant, for telling what a change to it alters in them."""

from __future__ import annotations

from pathlib import Path

from macros.figures.plant import Plant
from macros.pages.handbook import Handbook

__all__ = ["guide_texts"]


def guide_texts(docs: Path, plant: Plant) -> dict[str, list[str]]:
    """
    Every guide that fits a plant, by address, as lines of plain text.

    Parameters
    ----------
    docs : Path
        Holds `guides/*.md`; the plant itself may come from anywhere.
    plant : Plant
    """
    handbook = Handbook.of(docs, [plant])
    found: dict[str, list[str]] = {}
    for page in handbook.pages():
        if page.kind == "guide":
            written = handbook.render(page)
            found[page.address] = written.tokens.plain(written.markdown).splitlines()
    return found
