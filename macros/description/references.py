"""
References in texts: `{buffer.cut_out}` stands for an entry or figure, `{V3}` for an item.

They are inert: looked up by name on a floor above, never evaluated.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

__all__ = ["Reference", "malformed", "references", "referred"]

_BRACES = re.compile(r"\{([^{}]*)\}")
_STRAY = re.compile(r"[{}]")
_FIGURE = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z0-9][a-z0-9_]*)+")
_TAG = re.compile(r"[A-Z]{1,4}[0-9]{1,3}")


@dataclass(frozen=True)
class Reference:
    """A reference in a text: what it names, and where it begins and ends."""

    name: str
    start: int
    end: int

    @property
    def is_tag(self) -> bool:
        """Whether it names an item rather than an entry or figure."""
        return _TAG.fullmatch(self.name) is not None


def references(text: str) -> list[Reference]:
    """The well-formed references of a text, in their order."""
    return [
        Reference(found[1], found.start(), found.end())
        for found in _BRACES.finditer(text)
        if _FIGURE.fullmatch(found[1]) or _TAG.fullmatch(found[1])
    ]


def referred(text: str) -> str | None:
    """The entry or figure that a text names and says nothing else; none if it says anything else."""
    found = references(text)
    alone = len(found) == 1 and found[0].start == 0 and found[0].end == len(text)
    return found[0].name if alone and not found[0].is_tag else None


def malformed(text: str) -> str | None:
    """The first thing in braces that is no reference, or a brace that stands alone; none if all is well."""
    for found in _BRACES.finditer(text):
        if not (_FIGURE.fullmatch(found[1]) or _TAG.fullmatch(found[1])):
            return found[0]
    stray = _STRAY.search(_BRACES.sub("", text))
    return stray[0] if stray else None
