"""`gaswright review`: whether a plant may be built, why, and what is still open."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from macros.command.lineup import failed_as_data
from macros.figures.plant import Plant
from macros.quantities import say
from macros.review import Finding, Review, as_data
from macros.review.refusal import Reason, failed_proofs, untold_proofs
from macros.review.telling import ask, margin_told, verdict_of

__all__ = ["refused_line", "review_data", "review_text"]


def review_data(plant: Plant, found: Review) -> dict[str, Any]:
    """A review with the failed proofs of the line-ups, ready for JSON."""
    proofs = failed_as_data(plant)
    return {**as_data(found), "refused": found.refused or bool(proofs), "failed_proofs": proofs}


def refused_line(name: str, status: str, reasons: Sequence[Reason]) -> str:
    """One line of a build: which plant is refused, its status, the first reason, and how many more there are."""
    first = reasons[0]
    why = say("command.refused_why", rule=first.name, where=first.where, message=first.message.workshop)
    more = say("command.refused_more", count=len(reasons) - 1) if len(reasons) > 1 else ""
    return say("command.refused", plant=name, status=status, why=f"{why}{more}")


def review_text(plant: Plant, found: Review, *, everything: bool = False) -> str:
    """A review as text, the verdict first; what passed only with `everything`."""
    proofs = failed_proofs(plant)
    lines = [
        say("command.review_title", title=plant.title, verdict=verdict_of(found, len(proofs))),
        say("command.review_of", day=found.today.isoformat(), digest=plant.design_digest),
    ]
    untold = [_proof(reason.where, reason.message.workshop) for reason in untold_proofs(plant, found.today)]
    lines += _group("failed", [*map(_told, found.failed), *untold])
    lines += _group("warned", map(_told, found.warned))
    lines += _group("open", map(_told, found.open))
    lines += _group("waived", map(_told, found.waived))
    if everything:
        lines += _group("passed", map(_told, found.passed))
        lines += _group("not_applicable", ([f"  {name}"] for name in found.not_applicable))
    counts = {name: len(getattr(found, name)) for name in ("passed", "waived", "not_applicable")}
    return "\n".join([*lines, "", say("command.review_counts", **counts), say("command.review_caution")])


def _group(name: str, told: Iterable[list[str]]) -> Iterator[str]:
    blocks = list(told)
    if blocks:
        yield ""
        yield say(f"command.review_group.{name}", count=len(blocks))
        for block in blocks:
            yield from block


def _told(finding: Finding) -> list[str]:
    margin = margin_told(finding)
    where = say("command.review_where", rule=finding.rule, where=finding.where)
    lines = [f"  {where}{f' ({margin})' if margin else ''}", f"    {finding.message.workshop}"]
    if finding.hint.workshop:
        lines.append(f"    {say('command.review_hint', hint=finding.hint.workshop)}")
    if finding.counts and (question := ask(finding)):
        lines.append(f"    {question}")
    if finding.waived:
        lines.append(f"    {say('command.review_waived', reason=finding.waived)}")
    return lines


def _proof(place: str, message: str) -> list[str]:
    return [f"  {place}", f"    {message}"]
