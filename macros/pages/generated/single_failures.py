"""The single failures of a plant, one at a time: how high each brings what, what then holds it, and what is lost."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from math import isfinite

from macros.figures.graph import ATMOSPHERE
from macros.figures.plant import Plant
from macros.figures.single_failures import SingleFailure, single_failures
from macros.pages.context import PageContext
from macros.pages.finding_html import sentence
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import scrolling, table_html, value_span
from macros.quantities import Shown, say, shown

__all__ = ["single_failures_section"]


def single_failures_section(plant: Plant, page: PageContext, tokens: Tokens) -> Iterator[str]:
    """The section of the review, as lines of Markdown."""
    found = single_failures(plant)
    telling = [one for one in found if one.rises or one.failed or one.figure]
    quiet = [one for one in found if one not in telling]
    yield say("pages.failures.about", failures=len(found), failed=sum(bool(one.failed) for one in found))
    yield ""
    label = say("pages.review.title.failures")
    columns = ("fails", "how", "rises_to", "holds", "lost")
    table = scrolling(table_html(columns, [_row(plant, one, page) for one in telling]), label, "gw-failures")
    folded = ""
    if quiet:
        rows = table_html(("fails", "how", "lost"), [_quiet_row(plant, one) for one in quiet])
        name = escape(say("pages.failures.quiet", count=len(quiet)))
        folded = f'<details class="gw-folded"><summary>{name}</summary>{scrolling(rows, label)}</details>'
    yield tokens.add(Fragment(label, (table if telling else "") + folded, block=True))
    yield ""


def _row(plant: Plant, one: SingleFailure, page: PageContext) -> str:
    broken = "".join(
        f'<p class="gw-outside">{sentence(Shown(each.message, each.message, each.message))}</p>' for each in one.failed
    )
    holds = ", ".join(map(escape, one.holds)) or escape(say("pages.failures.own_strength"))
    return (
        f"{_begun(plant, one)}<td>{_raised(plant, one, page)}</td><td>{holds}{broken}</td>"
        f"<td>{escape(one.lost)}</td></tr>"
    )


def _quiet_row(plant: Plant, one: SingleFailure) -> str:
    return f"{_begun(plant, one)}<td>{escape(one.lost)}</td></tr>"


def _begun(plant: Plant, one: SingleFailure) -> str:
    """The row as far as both tables have it: what fails, and how."""
    item = plant.network.items.get(one.tag)
    what = f"{one.tag} {item.title}" if item is not None else say("pages.failures.whole_plant")
    return (
        f'<tr data-failure="{escape(one.tag)}-{escape(one.how)}"><th scope="row">{escape(what)}</th>'
        f"<td>{escape(one.told)}</td>"
    )


def _raised(plant: Plant, one: SingleFailure, page: PageContext) -> str:
    """The section that the failure raises highest and to what; else the figure that says what it does."""
    if not one.rises:
        numbers = page.numbers
        if one.figure is None or numbers is None:
            return ""
        title = escape(plant.graph[one.figure].title)
        link = f'<a href="{page.working_url(one.figure)}">{title}</a>'
        return f"{value_span(numbers.shown(one.figure), one.figure)} ({link})"
    name = max(one.rises, key=lambda each: one.highest[each])
    pressure_pa, section = one.highest[name], escape(plant.network.sections[name].title)
    if not isfinite(pressure_pa):
        return f"{escape(say('network.without_limit'))} ({section})"
    atmosphere_pa = float(plant.graph[ATMOSPHERE].si)
    return f"{value_span(shown(pressure_pa, 'bar(g)', 3, rounding='up', atmosphere_pa=atmosphere_pa))} ({section})"
