"""The design review of a plant: the verdict first, then whatever somebody must act upon, then all that was looked at."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from html import escape

from macros.calculations.sources import sources
from macros.figures.plant import Plant
from macros.pages.citations import citation
from macros.pages.context import PageContext
from macros.pages.finding_html import finding_block, finding_row, sentence
from macros.pages.generated.single_failures import single_failures_section
from macros.pages.tokens import Fragment, Tokens
from macros.pages.trips_html import trips_fragment
from macros.pages.working import scrolling, table_html, value_span
from macros.quantities import say
from macros.quantities.languages import with_mark
from macros.review import RULES, Finding, Review
from macros.review.refusal import Reason, failed_proofs, untold_proofs
from macros.review.reviewing import holds
from macros.review.telling import verdict_of

__all__ = ["review_page"]

UNSEEN = ("fitted", "leaks", "settings", "condition", "site", "people", "law")
"""What no desk review can see, by the key of its words."""

MOST_FIGURES = 8
"""Safety figures named beside an assumed value; more are counted."""


def review_page(plant: Plant, page: PageContext, tokens: Tokens, found: Review | None) -> str:
    """
    The review of a plant as a page.

    Parameters
    ----------
    plant : Plant
    page : PageContext
    tokens : Tokens
    found : Review or None
        None in a preview, which does not wait for a review; the page then says how to come by one.
    """
    title = f"# {say('pages.title.review')} {{: #review }}"
    if found is None:
        return f"{title}\n\n{say('pages.review.not_in_preview')}\n\n`gaswright review {plant.name}`\n"
    writer = _Review(plant, page, tokens, found)
    return "\n".join([title, "", *writer.lines()])


class _Review:
    def __init__(self, plant: Plant, page: PageContext, tokens: Tokens, found: Review) -> None:
        self.plant, self.page, self.tokens, self.found = plant, page, tokens, found
        self.proofs = failed_proofs(plant)

    def lines(self) -> Iterator[str]:
        yield from self.block(self.verdict())
        yield say("pages.review.caution")
        yield ""
        untold = untold_proofs(self.plant, self.found.today)
        yield from self.findings("failed", [*map(self.told, self.found.failed), *map(self.proof, untold)])
        yield from self.findings("warned", map(self.told, self.found.warned))
        yield from self.findings("open", map(self.told, self.found.open))
        yield from self.findings("waived", map(self.told, self.found.waived))
        yield from self.section("passed", self.passed())
        yield from self.section("assumed", self.assumed())
        yield from self.heading("failures")
        yield from single_failures_section(self.plant, self.page, self.tokens)
        yield from self.heading("trips")
        if self.plant.description.plant.trips:
            yield self.tokens.add(trips_fragment(self.plant, self.page))
        else:
            yield say("pages.review.no_trips")
        yield ""
        yield from self.section("unseen", self.unseen())
        yield from self.section("waivers", self.waivers())
        yield from self.section("sources", self.sources())

    # --- how a part stands on the page

    def heading(self, name: str, count: int | None = None) -> Iterator[str]:
        number = "" if count is None else f" ({count})"
        yield f"## {say(f'pages.review.title.{name}')}{number} {{: #{name} }}"
        yield ""

    def block(self, html: str) -> Iterator[str]:
        yield self.tokens.add(Fragment("", html, block=True))
        yield ""

    def section(self, name: str, html: str) -> Iterator[str]:
        yield from self.heading(name)
        yield say(f"pages.review.about.{name}")
        yield ""
        yield from self.block(html)

    def findings(self, name: str, told: Iterable[str]) -> Iterator[str]:
        blocks = list(told)
        if blocks:
            yield from self.heading(name, len(blocks))
            yield from self.block("\n".join(blocks))

    # --- the parts

    def verdict(self) -> str:
        refused = bool(self.found.failed or self.proofs)
        verdict = escape(verdict_of(self.found, len(self.proofs)))
        verdict = verdict[:1].upper() + verdict[1:]
        day = escape(say("pages.review.day", day=self.found.today.isoformat(), rules=len(RULES)))
        digest = f'<span class="gw-digest">{self.plant.design_digest}</span>'
        return (
            f'<div class="gw-verdict gw-verdict-{"refused" if refused else "passes"}" data-refused="{str(refused).lower()}">'
            f'<p class="gw-verdict-words"><strong>{verdict}</strong></p>'
            f"<p>{day} {escape(say('pages.review.digest'))} {digest}</p></div>"
        )

    def told(self, finding: Finding) -> str:
        return finding_block(finding, self.page)

    def proof(self, reason: Reason) -> str:
        return (
            f'<div class="gw-finding gw-finding-fail" data-proof="{escape(reason.name)}">'
            f'<p class="gw-finding-head"><span class="gw-finding-where">{escape(reason.where)}</span></p>'
            f'<p class="gw-found">{sentence(reason.message)}</p></div>'
        )

    def passed(self) -> str:
        families = itertools.groupby(self.found.passed, key=lambda each: RULES[each.rule].family)
        folded = []
        for family, members in families:
            rows = [finding_row(each) for each in members]
            name = say(f"review.family.{family}")
            table = scrolling(table_html(("where_found", "rule", "found", "margin"), rows), name, "gw-passed")
            folded.append(
                f'<details class="gw-folded" data-family="{escape(family)}"><summary>{escape(name)} ({len(rows)})</summary>{table}</details>'
            )
        return "\n".join(folded) or f"<p>{escape(say('pages.review.none'))}</p>"

    def assumed(self) -> str:
        graph, numbers = self.page.graph, self.page.numbers
        assert graph is not None and numbers is not None
        reached: dict[str, list[str]] = {}
        for name in graph.figures:
            value = graph[name]
            for path in value.assumed if value.safety else ():
                reached.setdefault(path, []).append(name)
        rows = []
        for path in (path for path, entry in graph.entries.items() if entry.assumed):
            value = graph[path]
            shown = value_span(numbers.shown(path), path) if value.is_number else escape(with_mark(value.typed))
            side = graph.entries[path].safe
            links = [
                f'<a href="{self.page.working_url(name)}">{escape(graph[name].title)}</a>'
                for name in reached.get(path, [])
            ]
            more = escape(say("pages.and_more", count=len(links) - MOST_FIGURES)) if len(links) > MOST_FIGURES else ""
            rows.append(
                f'<tr><th scope="row"><a href="{self.page.working_url(path)}">{escape(value.title)}</a></th><td>{shown}</td>'
                f"<td>{citation(value.source, '', self.page)}</td><td>{escape(say(f'pages.safe.{side}')) if side else ''}</td>"
                f"<td>{', '.join(links[:MOST_FIGURES])}{more}</td></tr>"
            )
        if not rows:
            return f"<p>{escape(say('pages.review.none'))}</p>"
        label = say("pages.review.title.assumed")
        return scrolling(table_html(("what", "value", "source", "safe_side", "reaches"), rows), label, "gw-defaults")

    def unseen(self) -> str:
        seen_by_none = "".join(f"<li>{escape(say(f'pages.review.unseen.{name}'))}</li>" for name in UNSEEN)
        absent = "".join(
            f"<li>{escape(RULES[name].says)} <code>{escape(name)}</code></li>" for name in self.found.not_applicable
        )
        folded = (
            f'<details class="gw-folded"><summary>{escape(say("pages.review.not_applicable"))} '
            f"({len(self.found.not_applicable)})</summary><ul>{absent}</ul></details>"
            if absent
            else ""
        )
        return f'<ul class="gw-unseen">{seen_by_none}</ul>{folded}'

    def waivers(self) -> str:
        rows = []
        for waiver in self.plant.description.record.waivers:
            stands = holds(waiver, self.found.today, self.plant.design_digest)
            known = waiver.rule in RULES and RULES[waiver.rule].waivable
            word = say("pages.review.waiver.holds" if stands and known else "pages.review.waiver.void")
            rows.append(
                f'<tr><th scope="row"><code>{escape(waiver.rule)}</code></th><td>{escape(waiver.where or "")}</td>'
                f"<td>{escape(waiver.reason)}</td><td>{escape(waiver.role)}</td><td>{escape(waiver.expiry)}</td>"
                f"<td>{escape(word)}</td></tr>"
            )
        if not rows:
            return f"<p>{escape(say('pages.review.none'))}</p>"
        label = say("pages.review.title.waivers")
        return scrolling(table_html(("rule", "where_found", "reason", "role", "until", "stands"), rows), label)

    def sources(self) -> str:
        cited: dict[str, list[str]] = {}
        for finding in self.found.findings:
            rule = RULES[finding.rule]
            places = cited.setdefault(rule.source, [])
            if rule.clause and rule.clause not in places:
                places.append(rule.clause)
        items = "".join(
            f"<li>{citation(key, '; '.join(places), self.page)}</li>"
            for key, places in sorted(cited.items(), key=lambda one: sources()[one[0]].title.lower())
        )
        return f"<ul>{items}</ul>" if items else f"<p>{escape(say('pages.review.none'))}</p>"
