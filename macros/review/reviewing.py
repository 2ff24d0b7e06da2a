"""A design review: every rule over a plant, its waivers, and what follows."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from macros.description.record_file import Waiver
from macros.figures.plant import Plant
from macros.quantities import Shown, say
from macros.quantities.languages import cached_as_spoken
from macros.quantities.messages import messages, placeholders
from macros.review.findings import Finding
from macros.review.reviewed import CANNOT, Look, Reviewed
from macros.review.rules import RULES, Rule

__all__ = ["Review", "findings_of", "holds", "review"]

NOTHING = Shown("", "", "")


@dataclass(frozen=True, eq=False)
class Review:
    """What a review found, rule by rule."""

    plant: Plant
    today: datetime.date
    findings: tuple[Finding, ...]

    @property
    def refused(self) -> bool:
        """Whether the plant must not be built as it is described."""
        return bool(self.failed)

    @property
    def failed(self) -> list[Finding]:
        return self._of("fail")

    @property
    def warned(self) -> list[Finding]:
        return self._of("warn")

    @property
    def open(self) -> list[Finding]:
        """What somebody else must decide or measure."""
        return self._of("open")

    @property
    def waived(self) -> list[Finding]:
        return [finding for finding in self.findings if finding.waived]

    @property
    def passed(self) -> list[Finding]:
        return [finding for finding in self.findings if finding.holds]

    @property
    def not_applicable(self) -> list[str]:
        """Rules that found no place to look at: the plant lacks the part."""
        seen = {finding.rule for finding in self.findings}
        return [name for name in RULES if name not in seen]

    def _of(self, severity: str) -> list[Finding]:
        return [finding for finding in self.findings if finding.counts and finding.severity == severity]


def review(plant: Plant, today: datetime.date | None = None) -> Review:
    """
    Review a plant as it stands on a day.

    Parameters
    ----------
    plant : Plant
    today : date, optional
        The day that dates of inspection and waivers are held against; today if not given.
    """
    return _reviewed(plant, today or datetime.datetime.now(datetime.UTC).date())


@cached_as_spoken(maxsize=64)
def _reviewed(plant: Plant, today: datetime.date) -> Review:
    reviewed = Reviewed(plant, today)
    found = [finding for rule in RULES.values() for finding in findings_of(rule, reviewed)]
    return Review(plant, today, tuple(waived(found, reviewed.record.waivers, today, plant.design_digest)))


def findings_of(rule: Rule, plant: Reviewed) -> Iterator[Finding]:
    """What one rule finds; where it breaks off, that is a finding too."""
    try:
        for look in rule.looks(plant):
            yield _finding(rule, look)
    except CANNOT as error:
        yield _finding(rule, Look(plant.plant.name, "unknown", reason=str(error)))


def _finding(rule: Rule, look: Look) -> Finding:
    message = hint = NOTHING
    if look.verdict == "unknown":
        message = _same(say("review.cannot", reason=look.reason))
        hint = _same(say("review.cannot_hint"))
    else:
        broken = f"review.rule.{rule.id}.broken"
        told = look.verdict == "broken" and broken in messages()
        message = _written(broken if told else f"review.rule.{rule.id}.found", look.words)
        if look.verdict == "broken":
            hint = _written(f"review.rule.{rule.id}.hint", look.words)
    return Finding(rule.id, look.where, rule.severity, look.verdict, message, hint, look.margin, look.reads)


def _written(key: str, words: Mapping[str, str | Shown]) -> Shown:
    """A message in each system of units, with those of the words that it names."""
    named = placeholders(key, messages()[key])

    def in_units(system: str) -> str:
        return say(key, **{
            name: getattr(word, system) if isinstance(word, Shown) else word
            for name, word in words.items() if name in named
        })  # fmt: skip

    return Shown(in_units("workshop"), in_units("si"), in_units("us"))


def _same(text: str) -> Shown:
    return Shown(text, text, text)


def waived(found: Iterable[Finding], waivers: Iterable[Waiver], today: datetime.date, digest: str) -> Iterator[Finding]:
    """Findings with the waivers that cover them on a day, for a design; what must not be waived stays as it is."""
    held = [waiver for waiver in waivers if holds(waiver, today, digest)]
    for finding in found:
        covering = next((waiver for waiver in held if _covers(waiver, finding)), None)
        yield replace(finding, waived=covering.reason) if covering else finding


def holds(waiver: Waiver, today: datetime.date, digest: str) -> bool:
    """Whether a waiver still stands: its term has not run out, and the design is the one that it was given for."""
    return datetime.date.fromisoformat(waiver.expiry) >= today and waiver.digest.startswith(digest)


def _covers(waiver: Waiver, finding: Finding) -> bool:
    return (
        not finding.holds
        and waiver.rule == finding.rule
        and waiver.where in (None, finding.where)
        and RULES[finding.rule].waivable
    )


def as_data(found: Review) -> dict[str, Any]:
    """A review as lists and dictionaries, ready for JSON."""
    return {
        "plant": found.plant.name,
        "digest": found.plant.digest,
        "day": found.today.isoformat(),
        "refused": found.refused,
        "counts": {name: len(getattr(found, name)) for name in ("failed", "warned", "open", "waived", "passed")},
        "findings": [finding_as_data(finding) for finding in found.findings],
        "not_applicable": found.not_applicable,
    }


def finding_as_data(finding: Finding) -> dict[str, Any]:
    """A finding, ready for JSON."""
    rule = RULES[finding.rule]
    return {
        "rule": finding.rule, "family": rule.family, "says": rule.says, "where": finding.where,
        "severity": finding.severity, "verdict": finding.verdict, "message": finding.message.workshop,
        "hint": finding.hint.workshop, "margin": finding.margin, "reads": list(finding.reads),
        "source": rule.source, "clause": rule.clause, "waived": finding.waived,
    }  # fmt: skip
