"""What each plant took for the same part: the lines of all parts lists, by what they are for."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from html import escape

from diagrams.symbols import symbol_class
from macros.description.parts_file import GROUPS
from macros.figures.parts_list import Line, basis_of, lines_of
from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import resolve_references
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import scrolling, value_span
from macros.quantities import say
from macros.quantities.languages import with_mark

__all__ = ["choices_page", "made_for"]

HEADS = ("plant", "part", "how_many", "price", "tags")
JOINT = "junction"
"""Tees are bought with the tube that they join."""
TWICE = re.compile(r' data-(?:figure|workshop)="[^"]*"')
"""What a number says of itself on pages that tell all of it; here its text and its other two units do."""
LINES, NOTHING = "lines", "nothing"
"""What a part is for that names lines of the network alone, or nothing of it."""


def choices_page(plants: Iterable[tuple[Plant, PageContext]], page: PageContext, tokens: Tokens) -> str:
    """The page: a part for a heading, and a row for each choice."""
    found: dict[str, dict[str, list[str]]] = {group: {} for group in GROUPS}
    for plant, own in plants:
        basis = basis_of(plant)
        for line in lines_of(plant):
            row = _row(plant, line, basis, own, page)
            found[line.group].setdefault(made_for(plant, line), []).append(row)
    lines = [f"# {say('pages.choices.title')} {{: #choices }}", "", say("pages.choices.purpose"), ""]
    for group, parts in found.items():
        if parts:
            lines += [f"## {say(f'pages.parts.group.{group}')} {{: #{group} }}", ""]
        for made, rows in parts.items():
            lines += [*_table(group, made, rows, tokens), ""]
    return "\n".join(lines)


def made_for(plant: Plant, line: Line) -> str:
    """What a part is for: the kind of most of its items, else `lines`, else `nothing`."""
    items = plant.network.items
    kinds = Counter(items[tag].kind.name for tag in line.tags if tag in items and items[tag].kind.name != JOINT)
    if kinds:
        return max(kinds, key=lambda kind: kinds[kind])
    return LINES if line.tags else NOTHING


def _table(group: str, made: str, rows: list[str], tokens: Tokens) -> Iterator[str]:
    title = say(f"pages.choices.{made}") if made in (LINES, NOTHING) else symbol_class(made).says
    title = title[:1].upper() + title[1:]
    head = "".join(f'<th scope="col">{escape(say(f"pages.choices.head.{one}"))}</th>' for one in HEADS)
    table = f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
    yield f"### {title} {{: #{group}-{made} }}"
    yield ""
    yield tokens.add(Fragment(title, scrolling(table, title, "gw-parts gw-choices"), block=True))


def _row(plant: Plant, line: Line, basis: str, own: PageContext, page: PageContext) -> str:
    part = plant.description.parts.parts[line.number - 1]
    said = resolve_references(part.specification, own, worked=False)
    told = TWICE.sub("", said.rich) or escape(said.plain)
    link = page.url(f"{plant.name}/parts.md", line.group)
    return (
        f'<tr data-plant="{escape(plant.name)}"><th scope="row"><a href="{link}">{escape(plant.title)}</a></th>'
        f'<td>{escape(line.item)}<br><span class="gw-remark">{told}</span></td>'
        f"<td>{_number(own, line.quantity_path) or line.quantity}</td>"
        f'<td data-typed="">{_price(own, line)}<br>'
        f'<span class="gw-remark">{escape(basis)}, {escape(line.region)}</span></td>'
        f"<td>{escape(', '.join(line.tags))}</td></tr>"
    )


def _price(own: PageContext, line: Line) -> str:
    return (
        _number(own, f"parts.{line.number}.unit_price") or f"{with_mark(str(line.unit_price))} {escape(line.currency)}"
    )


def _number(own: PageContext, path: str) -> str:
    """A number; a count or a sum of money, which no system of units changes, as its text alone."""
    if own.numbers is None or own.graph is None or path not in own.graph:
        return ""
    texts = own.numbers.shown(path)
    alike = texts.workshop == texts.si == texts.us and (texts.workshop.isdecimal() or texts.workshop[-3:].isupper())
    return escape(texts.workshop) if alike else TWICE.sub("", value_span(texts))
