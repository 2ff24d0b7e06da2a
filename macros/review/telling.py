"""A review in words: its verdict, its margins, whom to ask."""

from __future__ import annotations

from math import isfinite

from macros.quantities import say, show
from macros.review.findings import Finding
from macros.review.reviewing import Review
from macros.review.rules import RULES

__all__ = ["ask", "margin_told", "verdict_of"]

MARGIN_DIGITS = 2


def verdict_of(found: Review, failed_proofs: int) -> str:
    """The verdict in one sentence, with the counts that decide it."""
    counts = {"warned": len(found.warned), "open": len(found.open)}
    if found.failed or failed_proofs:
        return say("review.refused", failed=len(found.failed), proofs=failed_proofs, **counts)
    return say("review.passes", **counts)


def margin_told(finding: Finding) -> str:
    """How much of a limit is left, or by how much it is passed; empty where no number was compared."""
    margin = finding.margin
    if margin is None or not isfinite(margin):
        return ""
    key = "review.exceeded" if margin < 0 else "review.margin"
    return say(key, share=show(abs(margin), "%", MARGIN_DIGITS))


def ask(finding: Finding) -> str:
    """Whom to ask where the rule is a question for others; empty for any other rule."""
    body = RULES[finding.rule].asks
    return say("review.ask", body=body) if body else ""
