"""What a rule finds at one place: whether it holds there, by what margin, and what to change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from macros.quantities import Shown, say
from macros.quantities.languages import SOURCE, speaking

__all__ = ["Finding", "Severity", "Verdict", "place_named"]

Severity = Literal["fail", "warn", "open"]
"""A broken rule fails the plant, warns its builder, or leaves a question open for somebody else to answer."""

Verdict = Literal["passed", "broken", "unknown"]
"""Unknown where the rule cannot be evaluated; it then counts as broken."""


def place_named(key: str, **values: str) -> str:
    """The name of a place that has no tag: the same whatever language is spoken, since waivers name places."""
    with speaking(SOURCE):
        return say(key, **values)


@dataclass(frozen=True)
class Finding:
    """
    One rule at one place.

    Attributes
    ----------
    rule : str
        Id of the rule.
    where : str
        Tag, section, procedure or path that it is about.
    severity : {"fail", "warn", "open"}
    verdict : {"passed", "broken", "unknown"}
    message : Shown
        What was found, in each system of units.
    hint : Shown
        What to change; empty where the rule passed.
    margin : float or None
        Share of the limit that is left; negative where it is exceeded, none where there is no number to compare.
    reads : tuple of str
        The figures and entries that decide it.
    waived : str
        Reason of the waiver that covers it; empty where none does.
    """

    rule: str
    where: str
    severity: Severity
    verdict: Verdict
    message: Shown
    hint: Shown
    margin: float | None = None
    reads: tuple[str, ...] = ()
    waived: str = ""

    @property
    def holds(self) -> bool:
        """Whether the rule was looked at and kept."""
        return self.verdict == "passed"

    @property
    def standing(self) -> str:
        """How the plant stands here: passed, waived, open, warned or failed."""
        if self.holds:
            return "passed"
        return "waived" if self.waived else {"fail": "failed", "warn": "warned", "open": "open"}[self.severity]

    @property
    def counts(self) -> bool:
        """Whether it weighs in the verdict: not kept, and not waived."""
        return not self.holds and not self.waived
