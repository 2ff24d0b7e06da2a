"""A finding of the review as HTML: what was found, its margin as a bar and in words, what to change, who demands it."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from macros.calculations.facts import facts
from macros.pages.citations import citation
from macros.pages.context import PageContext, anchor
from macros.pages.working import systems, title_in
from macros.quantities import Shown, say
from macros.review import RULES, Finding
from macros.review.telling import ask, margin_told

__all__ = ["finding_block", "finding_row", "margin_bar", "sentence"]

WIDE, TALL, ZERO = 120.0, 12.0, 40.0
"""The bar of a margin: from half of the limit beyond it, at the left, to a whole limit below it."""


def sentence(texts: Shown) -> str:
    """A sentence in all three systems of units."""
    return f'<span class="gw-said"{systems(texts)}>{escape(texts.workshop)}</span>'


def margin_bar(finding: Finding) -> str:
    """
    A margin as a small drawing beside its words: hollow and to the right where something is left, filled and to the
    left where the limit is passed; the stroke is the limit. Empty where no number was compared.
    """
    words = margin_told(finding)
    if not words or finding.margin is None:
        return ""
    share = max(-ZERO / (WIDE - ZERO), min(1.0, finding.margin))
    length = max(1.0, abs(share) * (WIDE - ZERO))
    left = ZERO if share >= 0 else ZERO - length
    fill = "none" if share >= 0 else "currentColor"
    return (
        f'<svg class="gw-margin" viewBox="0 0 {WIDE:g} {TALL:g}" width="{WIDE:g}" height="{TALL:g}" aria-hidden="true" '
        f'focusable="false"><path d="M0 {TALL / 2:g}H{WIDE:g}" stroke="currentColor" stroke-width="0.5" opacity="0.5"/>'
        f'<rect x="{left:.1f}" y="2.5" width="{length:.1f}" height="{TALL - 5:g}" fill="{fill}" stroke="currentColor"/>'
        f'<path d="M{ZERO:g} 0V{TALL:g}" stroke="currentColor" stroke-width="2"/></svg> '
        f'<span class="gw-margin-words" data-typed="">{escape(words)}</span>'
    )


def finding_block(finding: Finding, page: PageContext) -> str:
    """A finding that somebody must act upon, all of it."""
    rule = RULES[finding.rule]
    parts = [
        f'<p class="gw-finding-head"><span class="gw-finding-where">{escape(finding.where)}</span> {escape(rule.says)}</p>',
        f'<p class="gw-found">{sentence(finding.message)} {margin_bar(finding)}</p>',
    ]
    if finding.hint.workshop:
        parts.append(
            f'<p class="gw-todo"><strong>{escape(say("pages.review.todo"))}</strong> {sentence(finding.hint)}</p>'
        )
    if question := ask(finding):
        parts.append(f'<p class="gw-ask">{escape(question)}</p>')
    if finding.waived:
        parts.append(f'<p class="gw-waived">{escape(say("pages.review.waived", reason=finding.waived))}</p>')
    demanded = f"{escape(say('pages.review.demanded'))} {citation(rule.source, rule.clause, page)}."
    if reads := ", ".join(_reads(finding, page)):
        demanded += f" {escape(say('pages.review.reads'))} {reads}."
    parts.append(f'<p class="gw-demand"><code>{escape(rule.id)}</code> {demanded}</p>')
    return (
        f'<div class="gw-finding gw-finding-{finding.severity}" data-rule="{escape(rule.id)}" '
        f'data-where="{escape(finding.where)}">{"".join(parts)}</div>'
    )


def _reads(finding: Finding, page: PageContext) -> Iterator[str]:
    """What decided the finding, each with a link to where it is told."""
    for path in finding.reads:
        name = path.removeprefix("fact:")
        if name != path and name in facts():
            yield f'<a href="{page.url("facts.md", anchor("f", name))}">{escape(facts()[name].title)}</a>'
        elif page.graph is not None and path in page.graph:
            yield f'<a href="{page.working_url(path)}">{escape(title_in(page.graph, path))}</a>'


def finding_row(finding: Finding) -> str:
    """A finding that holds, as a row: where, the rule, what was found, its margin."""
    rule = RULES[finding.rule]
    return (
        f'<tr data-rule="{escape(rule.id)}" data-where="{escape(finding.where)}"><th scope="row">{escape(finding.where)}</th>'
        f"<td>{escape(rule.says)}</td><td>{sentence(finding.message)}</td><td>{margin_bar(finding)}</td></tr>"
    )
