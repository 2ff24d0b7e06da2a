"""The pages of a handbook as a whole: how calculations are known to be right, facts, sources, symbols."""

from __future__ import annotations

from html import escape
from typing import Any

import diagrams
from macros.calculations.evidence import ByHand, Evidence, OtherRoute
from macros.calculations.facts import facts
from macros.calculations.sources import sources
from macros.description.item_kinds import ITEM_KINDS
from macros.description.reference import reference_page
from macros.pages.citations import citation
from macros.pages.context import PageContext, anchor
from macros.pages.evidence import Row, evidence_anchor, evidence_rows
from macros.pages.macros import fact_texts
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import constants, scrolling, symbol_html, table_html, value_span
from macros.quantities import say
from macros.quantities.languages import between, with_mark

__all__ = ["description_format", "facts_page", "sources_page", "symbols_page", "verification"]


def verification(page: PageContext, tokens: Tokens) -> str:
    """Every row of evidence: what was expected, what we compute, how far apart, and where it was read."""
    groups: dict[str, list[Row]] = {}
    for row in evidence_rows():
        groups.setdefault(row.subject, []).append(row)
    count = len(evidence_rows())
    outside = sum(not row.holds for row in evidence_rows())
    lines = [
        f"# {say('pages.verification.title')}",
        "",
        say("pages.verification.purpose", rows=count, subjects=len(groups)),
        "",
        say("pages.verification.outside", outside=outside),
        "",
    ]
    columns = ("calculation", "arguments", "expected", "ours", "difference", "allowed", "known_by")
    seen: set[str] = set()
    for subject, rows in groups.items():
        label = f"{subject.replace('_', ' ')} ({len(rows)})"
        shown = []
        for row in rows:
            identity = evidence_anchor(subject, row.name)
            shown.append(_evidence_row(row, page, "" if identity in seen else identity))
            seen.add(identity)
        table = scrolling(table_html(columns, shown), label, "gw-evidence")
        lines += [f"## {escape(label)}", "", tokens.add(Fragment(label, table, block=True)), ""]
    return "\n".join(lines)


def _evidence_row(row: Row, page: PageContext, identity: str) -> str:
    piece = row.evidence
    named = f' id="{identity}"' if identity else ""
    apart = abs(row.ours - row.expected)
    if piece.rel is None:
        allowed = with_mark(f"± {piece.abs:.3g}")
    else:
        apart, allowed = apart / abs(row.expected) if row.expected else apart, f"{piece.rel:.0e}"
    mark = "" if row.holds else f' <strong class="gw-outside">{escape(say("pages.outside"))}</strong>'
    listed = f"{between()} ".join(f"{escape(name)} = {_argument(value)}" for name, value in row.arguments.items())
    return (
        f'<tr data-typed=""{named}><th scope="row"><code>{escape(row.name)}</code></th><td>{listed}</td>'
        f"<td>{with_mark(f'{row.expected:.9g}')}</td><td>{with_mark(f'{row.ours:.9g}')}</td>"
        f"<td>{with_mark(f'{apart:.1e}')}{mark}</td><td>{allowed}</td>"
        f"<td>{_known_by(piece, page)}</td></tr>"
    )


def _known_by(piece: Evidence, page: PageContext) -> str:
    known = escape(say(f"pages.evidence.{piece.kind.replace(' ', '_')}"))
    if isinstance(piece, ByHand):
        known += f": {escape(piece.arithmetic)}"
    elif isinstance(piece, OtherRoute):
        known += f", {escape(piece.library)}: <code>{escape(piece.call)}</code>"
    if piece.source:
        known += f": {citation(piece.source, piece.locator, page)}"
    return known


def _argument(value: Any) -> str:
    return with_mark(f"{value:.9g}") if isinstance(value, (int, float)) else escape(str(value)[:60])


def facts_page(page: PageContext, tokens: Tokens) -> str:
    """Facts that prose quotes and rules compare with, by subject, and the constants, each with its source."""
    lines = [f"# {say('pages.facts.title')}", "", say("pages.facts.purpose"), ""]
    by_subject: dict[str, list[str]] = {}
    for name, fact in facts().items():
        by_subject.setdefault(fact.subject, []).append(
            f'<tr id="{anchor("f", name)}" data-fact="{escape(name)}"><th scope="row">{escape(fact.title)}</th>'
            f"<td>{value_span(fact_texts(name))}</td><td>{citation(fact.source, fact.locator, page)}</td></tr>"
        )
    for subject, rows in by_subject.items():
        label = say(f"pages.facts.of.{subject}")
        table = scrolling(table_html(("what", "value", "source"), rows), label, "gw-facts")
        lines += [f"## {label} {{: #{subject} }}", "", tokens.add(Fragment(label, table, block=True)), ""]
    own = [
        f'<tr id="{anchor("c", one.title)}" data-typed=""><th scope="row">{escape(say(f"constant.{one.title}"))}</th>'
        f"<td>{symbol_html(one.symbol)}</td><td>{with_mark(f'{float(one):.12g}')} {escape(one.unit)}</td><td>{citation(one.source, '', page)}</td></tr>"
        for one in {constant.title: constant for constant in constants().values()}.values()
    ]
    label = say("pages.facts.constants")
    table = scrolling(table_html(("what", "symbol", "value", "source"), own), label)
    return "\n".join([*lines, f"## {label}", "", tokens.add(Fragment(label, table, block=True))])


def sources_page(_page: PageContext, tokens: Tokens) -> str:
    """Every source, and honestly how we know it."""
    title = say("pages.sources.title")
    rows = [
        f'<tr id="{anchor("s", key)}" data-typed=""><th scope="row">{escape(source.title)}</th>'
        f"<td>{escape(say(f'pages.how.{source.how}'))}</td><td>{escape(source.note)}</td></tr>"
        for key, source in sorted(sources().items(), key=lambda item: item[1].title.lower())
    ]
    table = scrolling(table_html(("source", "known_by", "note"), rows), title)
    return "\n".join(
        [f"# {title}", "", say("pages.sources.purpose"), "", tokens.add(Fragment(title, table, block=True))]
    )


def symbols_page(page: PageContext, tokens: Tokens) -> str:
    """The symbols of the drawings, drawn from the classes that draw them."""
    title = say("pages.symbols.title")
    names = {kind: say(f"item_kind.{kind}") for kind in ITEM_KINDS}
    svg = diagrams.catalogue(
        identity=page.identity("catalogue"), title=title, description=", ".join(names.values()), names=names
    )
    frame = f'<div class="gw-drawing-frame" tabindex="0" role="region" aria-label="{escape(title)}">{svg}</div>'
    figure = f'<figure class="gw-drawing">{frame}</figure>'
    return "\n".join(
        [f"# {title}", "", say("pages.symbols.purpose"), "", tokens.add(Fragment(title, figure, block=True))]
    )


def description_format(_page: PageContext, _tokens: Tokens) -> str:
    """The reference of the description's format, generated from the models that read it."""
    return reference_page()
