"""
The rules of a design review: each a small generator that looks at one matter, place by place.

A rule yields what `plant.at_most`, `plant.at_least` or `plant.must` gives for every place that it looks at, passed ones
too, so that a reviewer sees what was looked at and with what margin. A rule that yields nothing does not apply.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from macros.calculations.sources import sources
from macros.quantities import say
from macros.review.findings import Severity
from macros.review.reviewed import Look, Reviewed

__all__ = ["RULES", "Rule", "rule"]

Looks = Callable[[Reviewed], Iterator[Look]]


@dataclass(frozen=True)
class Rule:
    """
    A rule of the review.

    Attributes
    ----------
    id : str
        Its name in reports, waivers and tests.
    family : str
        The module that holds it.
    severity : {"fail", "warn", "open"}
    source, clause : str
        Key of the source that demands it, and where in it.
    waivable : bool
        Whether somebody may answer for breaking it; not where it kills.
    body : str
        For a question that only others may decide: the kind of body to ask, by its key in `review.body`.
    """

    id: str
    family: str
    severity: Severity
    source: str
    clause: str
    waivable: bool
    body: str
    looks: Looks

    @property
    def says(self) -> str:
        """The rule as a person would say it."""
        return say(f"review.rule.{self.id}.says")

    @property
    def asks(self) -> str:
        """The kind of body to ask; empty where the rule is no question for others."""
        return say(f"review.body.{self.body}") if self.body else ""


RULES: Final[dict[str, Rule]] = {}
"""Every rule by its id."""


def rule(
    name: str, source: str, clause: str = "", *, severity: Severity = "fail", waivable: bool = True, body: str = ""
) -> Callable[[Looks], Looks]:
    """
    Register a rule.

    Its texts stand in the message table: `review.rule.<name>.says` (the rule), `.found` (what was found, with the words
    that the look gives), `.broken` (the same where it is broken, if one text does not do for both), `.hint` (what to
    change).

    Raises
    ------
    ValueError
        If two rules bear one name, the source is not on the list, or an open question names nobody to ask.
    """

    def register(looks: Looks) -> Looks:
        if name in RULES:
            raise ValueError(f"two rules are called {name}")
        if source not in sources():
            raise ValueError(f"the rule {name} cites the unknown source {source!r}")
        if (severity == "open") != bool(body):
            raise ValueError(f"the rule {name}: an open question, and no other rule, names whom to ask")
        family = looks.__module__.rsplit(".", 1)[-1]
        RULES[name] = Rule(name, family, severity, source, clause, waivable, body, looks)
        return looks

    return register
