"""The record of a plant: what was measured beside what was predicted, what falls due, what was waived and signed."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from html import escape

from macros.calculations.facts import facts
from macros.description.record_file import Measured, SignOff, ToMeasure
from macros.figures.plant import Plant
from macros.pages.context import PageContext, anchor
from macros.pages.fragments import resolve_references
from macros.pages.generated.trends import trend_figure, trends_in
from macros.pages.macros import fact_texts
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import scrolling, table_html, value_span
from macros.quantities import say
from macros.review.inspections import counted, dated, usual
from macros.review.readings import Compared, as_typed, readings_of
from macros.review.refusal import day_of_review

__all__ = ["record_page"]


def record_page(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """The record of a plant as a page."""
    return "\n".join(_Record(plant, page, tokens, day_of_review()).lines())


class _Record:
    def __init__(self, plant: Plant, page: PageContext, tokens: Tokens, today: datetime.date) -> None:
        self.plant, self.page, self.tokens, self.today = plant, page, tokens, today
        self.record = plant.description.record
        self.readings = list(readings_of(plant))
        self.workings: dict[str, str] = {}

    def lines(self) -> Iterator[str]:
        yield f"# {say('pages.title.record')} {{: #record }}"
        yield ""
        digest = self.tokens.add(Fragment("", f'<span class="gw-digest">{self.plant.design_digest}</span>'))
        yield say("pages.record.purpose", digest=digest, day=self.today.isoformat())
        yield ""
        yield from self.section(
            "owed", ("what", "predicted", "tolerance", "measured", "how"), map(self.owed, self.record.to_measure)
        )
        columns = ("day", "what", "measured", "predicted", "apart", "tolerance", "verdict", "role")
        yield from self.section("readings", columns, map(self.reading, self.readings))
        yield from self.trends()
        yield from self.section("dated", ("tag", "what", "until", "stands"), self.dated())
        yield from self.section("counted", ("what", "every"), self.counted())
        yield from self.section("usual", ("what", "every", "tags"), self.usual())
        yield from self.section(
            "signed", ("day", "role", "statement", "digest", "stands"), map(self.signed, self.record.sign_offs)
        )
        link = self.page.source_url(f"{self.plant.name}/review.md")
        yield say("pages.record.waivers", link=f"{link}#waivers")

    def section(self, name: str, columns: Iterable[str], rows: Iterable[str]) -> Iterator[str]:
        title, held = say(f"pages.record.title.{name}"), list(rows)
        yield f"## {title} {{: #{name} }}"
        yield ""
        if held:
            table = scrolling(table_html(columns, held), title, f"gw-record-{name}")
            yield self.tokens.add(Fragment(title, table, block=True, workings=dict(self.workings)))
            self.workings.clear()
        else:
            yield say(f"pages.record.empty.{name}")
        yield ""

    # --- measured and predicted

    def named(self, path: str) -> str:
        """A figure or entry by its title, with a link to where it is told."""
        link = self.page.working_url(path)
        title = self.plant.graph[path].title if path in self.plant.graph else path
        return f'<a href="{link}">{escape(title)}</a>' if link else f"<code>{escape(path)}</code>"

    def value(self, path: str) -> str:
        numbers = self.page.numbers
        if numbers is None or path not in self.plant.graph or not self.plant.graph[path].is_number:
            return escape(say("pages.absent"))
        return value_span(numbers.shown(path), path)

    def text(self, text: str) -> str:
        told = resolve_references(text, self.page)
        self.workings.update(told.workings)
        return told.rich or escape(told.plain)

    def owed(self, owed: ToMeasure) -> str:
        last = next((one for one in reversed(self.readings) if one.reading.figure == owed.figure), None)
        if last is None:
            state, measured = "to_measure", f"<strong>{escape(say('pages.record.to_measure'))}</strong>"
        else:
            state = _state(last)
            measured = f"{self.measured(last.reading)} ({escape(last.reading.date)}): {_verdict(last)}"
        return (
            f'<tr class="gw-reading-{state}" data-owed="{escape(owed.figure)}"><th scope="row">{self.named(owed.figure)}</th>'
            f"<td>{self.value(owed.figure)}</td><td>{value_span(as_typed(owed.tolerance))}</td><td>{measured}</td>"
            f"<td>{self.text(owed.how)}</td></tr>"
        )

    def measured(self, reading: Measured) -> str:
        where = f" {self.text(f'{{{reading.at}}}')}" if reading.at else ""
        return f"{value_span(as_typed(reading.value))}{where}"

    def reading(self, one: Compared) -> str:
        reading = one.reading
        note = f'<br><span class="gw-remark">{self.text(reading.note)}</span>' if reading.note else ""
        apart = f'<span data-typed="">{escape(one.apart_told or say("pages.absent"))}</span>'
        return (
            f'<tr class="gw-reading-{_state(one)}" data-reading="{escape(reading.figure)}"><th scope="row">{escape(reading.date)}</th>'
            f"<td>{self.named(reading.figure)}</td><td>{self.measured(reading)}{note}</td><td>{self.value(reading.figure)}</td>"
            f"<td>{apart}</td><td>{value_span(as_typed(reading.tolerance))}</td><td>{_verdict(one)}</td>"
            f"<td>{escape(reading.role)}</td></tr>"
        )

    def trends(self) -> Iterator[str]:
        found = list(trends_in(self.readings))
        if not found:
            return
        yield f"## {say('pages.record.title.trends')} {{: #trends }}"
        yield ""
        for trend in found:
            yield self.tokens.add(Fragment(trend[0].reading.figure, trend_figure(trend, self.page), block=True))
            yield ""

    # --- what falls due

    def dated(self) -> Iterator[str]:
        for one in dated(self.plant, self.today):
            state = escape(say(f"pages.record.due.{one.state}"))
            mark = f'<strong class="gw-outside">{state}</strong>' if one.state == "overdue" else state
            yield (
                f'<tr data-due="{one.state}"><th scope="row">{self.text(f"{{{one.tag}}}")}</th>'
                f'<td><a href="{self.page.working_url(one.path)}">{escape(one.title)}</a></td>'
                f"<td>{one.day.isoformat()}</td><td>{mark}</td></tr>"
            )

    def counted(self) -> Iterator[str]:
        for one in counted(self.plant):
            yield f'<tr><th scope="row">{self.named(one.path)}</th><td>{self.value(one.path)}</td></tr>'

    def usual(self) -> Iterator[str]:
        for one in usual(self.plant):
            link = self.page.url("facts.md", anchor("f", one.fact))
            title = facts()[one.fact].title
            tags = ", ".join(self.text(f"{{{tag}}}") for tag in one.tags) or escape(say("pages.record.whole_plant"))
            yield (
                f'<tr><th scope="row"><a href="{link}">{escape(title[:1].upper() + title[1:])}</a></th>'
                f'<td data-fact="{escape(one.fact)}">{value_span(fact_texts(one.fact))}</td><td>{tags}</td></tr>'
            )

    def signed(self, sign_off: SignOff) -> str:
        stands = sign_off.digest.startswith(self.plant.design_digest)
        word = escape(say("pages.record.signature.holds" if stands else "pages.record.signature.void"))
        mark = word if stands else f'<strong class="gw-outside">{word}</strong>'
        return (
            f'<tr data-signature="{"holds" if stands else "void"}"><th scope="row">{escape(sign_off.date)}</th>'
            f"<td>{escape(sign_off.role)}</td><td>{self.text(sign_off.statement)}</td>"
            f'<td><span class="gw-digest">{escape(sign_off.digest[:12])}</span></td><td>{mark}</td></tr>'
        )


def _state(one: Compared) -> str:
    return {True: "within", False: "deviates", None: "unknown"}[one.holds]


def _verdict(one: Compared) -> str:
    """Whether a reading is as predicted, in words; a deviation stands out by weight."""
    state = _state(one)
    word = escape(one.reason if state == "unknown" else say(f"pages.record.verdict.{state}"))
    return word if state == "within" else f'<strong class="gw-outside">{word}</strong>'
