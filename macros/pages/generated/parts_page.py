"""The page of a plant's parts: what it costs, what a stored kilowatt-hour costs, and every list."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from macros.description.parts_file import GROUPS
from macros.figures.costs import rates_of
from macros.figures.parts_list import basis_of
from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import figure_fragment, resolve_references
from macros.pages.parts_html import parts_fragment
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import scrolling
from macros.quantities import say

__all__ = ["parts_page"]

RECKONED_WITH = (
    "cost.worn", "cost.yearly_worn", "cost.lasting", "cost.yearly_electricity", "cost.yearly_energy_stored",
    "prices.interest", "prices.years", "prices.electricity", "cost.per_stored_kwh",
)  # fmt: skip


def parts_page(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """The parts of a plant as a page."""
    return "\n".join(_lines(plant, page, tokens))


def _lines(plant: Plant, page: PageContext, tokens: Tokens) -> Iterator[str]:
    prices, rates = plant.description.parts.prices, rates_of(plant.description)
    yield f"# {say('pages.title.parts')} {{: #parts }}"
    yield ""
    yield say("pages.parts.purpose")
    yield ""
    yield f'!!! warning "{tokens.add(Fragment(basis_of(plant).capitalize()))}"'
    yield ""
    note = resolve_references(prices.note or "", page) if prices is not None else Fragment("")
    day = say("pages.parts.rates", day=rates.day) if rates is not None else ""
    yield f"    {tokens.add(note)} {tokens.add(Fragment(day))} {say('pages.parts.not_in_it')}"
    yield ""
    yield f"[{say('pages.parts.csv')}](parts.csv) · [{say('pages.parts.xlsx')}](parts.xlsx)"
    yield ""
    held = {part.group for part in plant.description.parts.parts}
    groups = [group for group in GROUPS if group in held]
    if prices is not None and groups:
        totals = [f"cost.total.{code.lower()}" for code in prices.currencies]
        yield from _table("totals", plant, page, tokens, [*(f"cost.group.{group}" for group in groups), *totals])
        yield from _table("per_kwh", plant, page, tokens, [name for name in RECKONED_WITH if name in plant.graph])
    for group in groups:
        yield f"## {say(f'pages.parts.group.{group}')} {{: #{group} }}"
        yield ""
        yield tokens.add(parts_fragment(plant, page, group))
        yield ""


def _table(name: str, plant: Plant, page: PageContext, tokens: Tokens, paths: list[str]) -> Iterator[str]:
    """A heading, a sentence, and figures with their workings."""
    title = say(f"pages.parts.{name}")
    yield f"## {title} {{: #{name} }}"
    yield ""
    yield say(f"pages.parts.{name}_purpose")
    yield ""
    rows: list[str] = []
    workings: dict[str, str] = {}
    for path in paths:
        cell = figure_fragment(page, path)
        workings.update(cell.workings)
        rows.append(
            f'<tr><th scope="row">{escape(plant.graph[path].title)}</th><td>{cell.rich or escape(cell.plain)}</td></tr>'
        )
    head = "".join(f'<th scope="col">{escape(say(f"pages.parts.head.{one}"))}</th>' for one in ("what", "amount"))
    table = f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
    yield tokens.add(Fragment(title, scrolling(table, title, "gw-sums"), block=True, workings=workings, printed=False))
    yield ""
