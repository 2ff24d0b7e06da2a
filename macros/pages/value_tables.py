"""Figures that are tables themselves, shown as such: readings to stop at by temperature of the day."""

from __future__ import annotations

from html import escape

from macros.figures.graph import Graph
from macros.figures.tables import Table
from macros.pages.context import PageContext
from macros.pages.fragments import FragmentError
from macros.pages.registry import macro
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling, systems
from macros.quantities import Shown, say

__all__ = ["tables_of"]


@macro
def tables_of(part: str, name: str, *, page: PageContext) -> Fragment:
    """
    The tables that are a figure of each bank, booster or use, side by side where they begin alike.

    `tables_of("banks", "gauge_table")` shows the reading to stop at of every bank by temperature of the day.
    """
    if page.graph is None:
        raise FragmentError(say("pages.no_plant"))
    held = _held(page.graph, part, name)
    if not held:
        raise FragmentError(say("pages.none_has", part=part, found=name))
    first = next(iter(held.values()))
    heads = [escape(first.columns[0].title)]
    for member, table in held.items():
        if [row[0] for row in table.rows] != [row[0] for row in first.rows]:
            raise FragmentError(say("pages.tables_apart", part=part, found=name))
        heads += [
            f"{escape(_called(page.graph, part, member))}: {escape(column.title)}" for column in table.columns[1:]
        ]
    rows = []
    for number, row in enumerate(first.shown()):
        cells = [cell for table in held.values() for cell in table.shown()[number][1:]]
        rows.append(
            f'<tr><th scope="row">{_number(row[0])}</th>{"".join(f"<td>{_number(each)}</td>" for each in cells)}</tr>'
        )
    title = page.graph[f"{part}.{next(iter(held))}.{name}"].title
    head = "".join(f'<th scope="col">{text}</th>' for text in heads)
    table_html = f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
    return Fragment(title, scrolling(table_html, title), block=True)


def _held(graph: Graph, part: str, name: str) -> dict[str, Table]:
    """The tables of this name, by the member of the part that has them."""
    found: dict[str, Table] = {}
    for path in graph.figures:
        begin, _, rest = path.partition(".")
        member, _, last = rest.partition(".")
        if begin == part and last == name and isinstance(graph[path].si, Table):
            found[member] = graph[path].si
    return found


def _called(graph: Graph, part: str, member: str) -> str:
    tag = f"{part}.{member}.tag"
    named = member.replace("_", " ")
    return f"{named} ({graph[tag].si})" if tag in graph else named


def _number(shown: Shown) -> str:
    """A number in all three systems of units."""
    return f"<span{systems(shown)}>{escape(shown.workshop)}</span>"
