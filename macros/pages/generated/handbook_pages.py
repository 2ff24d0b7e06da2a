"""The pages of a handbook as a whole: its plants, how its calculations are known to be right, facts, sources, symbols."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from typing import Any

import diagrams
from macros.calculations.evidence import ByHand, Evidence, OtherRoute, all_evidence
from macros.calculations.facts import facts
from macros.calculations.sources import sources
from macros.description.item_kinds import ITEM_KINDS
from macros.description.reference import reference_page
from macros.figures.plant import Plant
from macros.pages.citations import citation
from macros.pages.context import PageContext, anchor
from macros.pages.fragments import resolve_references
from macros.pages.macros import fact_texts
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import constants, scrolling, symbol_html, table_html, value_span
from macros.quantities import say

__all__ = ["description_format", "facts_page", "plants_page", "sources_page", "symbols_page", "verification"]


def plants_page(plants: Iterable[tuple[Plant, PageContext]], page: PageContext, tokens: Tokens) -> str:
    """All plants with status and summary."""
    lines = [f"# {say('pages.plants.title')}", "", say("pages.plants.purpose"), ""]
    for plant, own in plants:
        summary = tokens.add(resolve_references(plant.description.plant.summary, own))
        link = page.source_url(f"{plant.name}/index.md")
        lines += [
            f"## [{tokens.words(plant.title)}]({link}) {{: #{plant.name} }}",
            "",
            f"**{say(f'pages.status.{plant.status}')}** {summary}",
            "",
        ]
    return "\n".join(lines)


def verification(page: PageContext, tokens: Tokens) -> str:
    """Every row of evidence: what was expected, what we compute, how far apart, and where it was read."""
    groups: dict[str, list[str]] = {}
    for subject, piece in all_evidence():
        groups.setdefault(subject, []).extend(_evidence_rows(piece, page))
    count = sum(map(len, groups.values()))
    lines = [
        f"# {say('pages.verification.title')}",
        "",
        say("pages.verification.purpose", rows=count, subjects=len(groups)),
        "",
    ]
    for subject, rows in groups.items():
        label = f"{subject} ({len(rows)})"
        table = table_html(("calculation", "arguments", "expected", "ours", "difference", "allowed", "known_by"), rows)
        lines += [
            f"## {escape(label)}",
            "",
            tokens.add(Fragment(label, scrolling(table, label, "gw-evidence"), block=True)),
            "",
        ]
    return "\n".join(lines)


def _evidence_rows(piece: Evidence, page: PageContext) -> Iterator[str]:
    known = say(f"pages.evidence.{piece.kind.replace(' ', '_')}")
    if isinstance(piece, ByHand):
        known = f"{escape(known)}: {escape(piece.arithmetic)}"
    elif isinstance(piece, OtherRoute):
        known = f"{escape(known)}, {escape(piece.library)}: <code>{escape(piece.call)}</code>"
    else:
        known = escape(known)
    if piece.source:
        known += f": {citation(piece.source, piece.locator, page)}"
    allowed = f"{piece.rel:.0e}" if piece.rel is not None else f"± {piece.abs:.3g}"
    for arguments, expected in piece.rows:
        ours = piece.ours(arguments)
        apart = abs(ours - expected) / abs(expected) if expected else abs(ours - expected)
        listed = ", ".join(f"{escape(name)} = {_argument(value)}" for name, value in arguments.items())
        yield (
            f'<tr data-typed=""><th scope="row"><code>{escape(piece.calculation.__name__)}</code></th><td>{listed}</td>'
            f"<td>{expected:.6g}</td><td>{ours:.6g}</td><td>{apart:.1e}</td><td>{allowed}</td><td>{known}</td></tr>"
        )


def _argument(value: Any) -> str:
    return f"{value:.6g}" if isinstance(value, (int, float)) else escape(str(value)[:60])


def facts_page(page: PageContext, tokens: Tokens) -> str:
    """Facts that prose quotes, and the constants that calculations use, each with its source."""
    rows = [
        f'<tr id="{anchor("f", name)}"><th scope="row">{escape(fact.title)}</th>'
        f'<td data-fact="{escape(name)}">{value_span(fact_texts(name))}</td>'
        f"<td>{citation(fact.source, fact.locator, page)}</td></tr>"
        for name, fact in facts().items()
    ]
    own = [
        f'<tr id="{anchor("c", one.title)}" data-typed=""><th scope="row">{escape(one.title)}</th><td>{symbol_html(one.symbol)}</td>'
        f"<td>{float(one):.12g} {escape(one.unit)}</td><td>{citation(one.source, '', page)}</td></tr>"
        for one in {constant.title: constant for constant in constants().values()}.values()
    ]
    of_facts, of_constants = say("pages.facts.title"), say("pages.facts.constants")
    return "\n".join(
        [
            f"# {of_facts}",
            "",
            say("pages.facts.purpose"),
            "",
            tokens.add(
                Fragment(of_facts, scrolling(table_html(("what", "value", "source"), rows), of_facts), block=True)
            ),
            "",
            f"## {of_constants}",
            "",
            tokens.add(
                Fragment(
                    of_constants,
                    scrolling(table_html(("what", "symbol", "value", "source"), own), of_constants),
                    block=True,
                )
            ),
        ]
    )


def sources_page(page: PageContext, tokens: Tokens) -> str:
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
    svg = diagrams.catalogue(
        identity=page.identity("catalogue"), title=title, description=", ".join(ITEM_KINDS).replace("_", " ")
    )
    figure = f'<figure class="gw-drawing"><div class="gw-drawing-frame" tabindex="0" role="region" aria-label="{escape(title)}">{svg}</div></figure>'
    return "\n".join(
        [f"# {title}", "", say("pages.symbols.purpose"), "", tokens.add(Fragment(title, figure, block=True))]
    )


def description_format(page: PageContext, tokens: Tokens) -> str:
    """The reference of the description's format, generated from the models that read it."""
    return reference_page()
