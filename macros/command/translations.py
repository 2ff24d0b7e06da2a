"""`gaswright translations`: which pages of a handbook are translated, and from which state of their source."""

from __future__ import annotations

from collections.abc import Sequence

from macros.pages.translations import STATES, Standing
from macros.quantities import say

__all__ = ["translations_text"]


def translations_text(found: Sequence[Standing], code: str) -> str:
    """A line for each page that is not current, with the digest to write, and how many there are of each state."""
    lines = [
        say(f"command.translation.{one.state}", file=one.file, source=one.source, digest=one.digest)
        for one in found
        if one.state != "current"
    ]
    counts = {state: sum(one.state == state for one in found) for state in STATES}
    return "\n".join([*lines, say("command.translation.counts", language=code, **counts)])
