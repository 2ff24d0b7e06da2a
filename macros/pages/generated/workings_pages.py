"""The workings of a plant: one table in which any number is found, and a page for each part with its full workings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape

from macros.figures.graph import Graph, Value
from macros.figures.plant import Plant
from macros.pages.context import PageContext, anchor
from macros.pages.evidence import evidence_anchor, evidence_of
from macros.pages.numbers import Numbers
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import scrolling, systems, value_span, working_body
from macros.quantities import Shown, say

__all__ = ["groups_of", "links_to", "readers_in", "workings_index", "workings_of"]

FILTERED = "gw-numbers"
"""The id of the table that the box above it filters."""


def workings_index(_plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """Every figure and entry with its value, to be found by name or value; each leads to its full working."""
    graph, numbers = page.graph, page.numbers
    assert graph is not None and numbers is not None
    label = say("pages.workings_page.table")
    bodies = [_body(group, names, page, numbers) for group, names in groups_of(graph.figures)]
    bodies += [_body(group, names, page, numbers) for group, names in groups_of(graph.entries)]
    head = "".join(f'<th scope="col">{escape(say(f"pages.column.{one}"))}</th>' for one in ("what", "value", "path"))
    table = f'<table id="{FILTERED}"><thead><tr>{head}</tr></thead>{"".join(bodies)}</table>'
    html = f"{filter_box(FILTERED)}{scrolling(table, label)}"
    purpose = say("pages.workings_page.purpose", figures=len(graph.figures), entries=len(graph.entries))
    return "\n".join(
        [f"# {say('pages.workings_page.title')}", "", purpose, "", tokens.add(Fragment(label, html, block=True)), ""]
    )


def filter_box(table: str) -> str:
    """A box that hides the rows of a table in which what is typed does not stand; it shows where scripts run."""
    texts = {"filters": table, "shows": say("pages.filter.shows"), "none": say("pages.filter.none")}
    data = "".join(f' data-{name}="{escape(text)}"' for name, text in texts.items())
    return (
        f'<div class="gw-filter" role="search" hidden{data}>'
        f'<label for="{table}-filter">{escape(say("pages.filter.label"))}</label> '
        f'<input type="search" id="{table}-filter" autocomplete="off" spellcheck="false" aria-controls="{table}"> '
        f'<span class="gw-filter-count" role="status" aria-live="polite"></span></div>'
    )


def _body(group: str, names: Iterable[str], page: PageContext, numbers: Numbers) -> str:
    assert page.graph is not None
    rows = "".join(_row(page.graph[name], page, numbers) for name in names)
    return f'<tbody><tr class="gw-group"><th scope="rowgroup" colspan="3">{escape(group)}</th></tr>{rows}</tbody>'


def _row(value: Value, page: PageContext, numbers: Numbers) -> str:
    own = "" if value.given else f' id="{anchor("w", value.name)}"'
    words = f'<span data-figure="{escape(value.name)}">{escape(_other(value))}</span>'
    shown = value_span(numbers.shown(value.name), value.name) if value.is_number else words
    return (
        f'<tr{own}><th scope="row"><a href="{page.working_url(value.name)}">{escape(value.title or value.name)}</a></th>'
        f"<td>{shown}</td><td><code>{escape(value.name)}</code></td></tr>"
    )


def workings_of(plant: Plant, page: PageContext, tokens: Tokens, group: str) -> str:
    """Every figure of one part of a plant with its whole working."""
    graph, numbers = plant.graph, page.numbers
    assert numbers is not None
    back = say("pages.workings_page.back", link=page.source_url(f"{plant.name}/workings.md"))
    lines = [f"# {say('pages.workings_page.of', group=group)}", "", back, ""]
    readers = readers_in(graph)
    for name in dict(groups_of(graph.figures))[group]:
        lines += [
            f"## {graph[name].title} {{: #{anchor('w', name)} }}",
            "",
            tokens.add(_working(plant, page, numbers, name, readers.get(name, []))),
            "",
        ]
    return "\n".join(lines)


def _working(plant: Plant, page: PageContext, numbers: Numbers, name: str, readers: list[str]) -> Fragment:
    graph = plant.graph
    value = graph[name]
    texts = numbers.shown(name) if value.is_number else Shown(*[_other(value)] * 3)
    number = f'<span class="gw-value" data-figure="{escape(name)}"{systems(texts)}>{escape(texts.workshop)}</span>'
    used = ""
    if readers:
        links = links_to(graph, readers, page)
        used = f'<p class="gw-readers">{escape(say("pages.workings_page.read_by"))} {links}.</p>'
    body = working_body(graph, numbers, name, page)
    html = (
        f'<div class="gw-full-working" data-working="{escape(name)}"><p><code>{escape(name)}</code> = {number}</p>'
        f"{body}{used}{_evidence(value, page)}</div>"
    )
    return Fragment(texts.workshop, html, block=True)


def _evidence(value: Value, page: PageContext) -> str:
    """How we know that what was calculated is right: how many rows of which kind, with a link to them."""
    vouched = evidence_of(value)
    if not vouched:
        return ""
    items = []
    for (subject, name), pieces in vouched.items():
        kinds = ", ".join(dict.fromkeys(say(f"pages.evidence.{piece.kind.replace(' ', '_')}") for piece in pieces))
        text = say("pages.evidence_rows", count=sum(len(piece.rows) for piece in pieces), kinds=kinds)
        link = page.url("verification.md", evidence_anchor(subject, name))
        items.append(f'<li><a href="{link}">{escape(name.replace("_", " "))}</a>: {escape(text)}</li>')
    return f'<div class="gw-evidence"><p>{escape(say("pages.evidence_for"))}</p><ul>{"".join(items)}</ul></div>'


def _other(value: Value) -> str:
    if value.kind in ("table", "run", "curve"):
        return say(f"pages.kind.{value.kind}")
    return str(value.si)


def readers_in(graph: Graph) -> dict[str, list[str]]:
    """For each entry or figure, the figures that read it."""
    readers: dict[str, list[str]] = {}
    for name in graph.figures:
        for path in graph.inputs_of(name):
            readers.setdefault(path, []).append(name)
    return readers


def links_to(graph: Graph, names: Iterable[str], page: PageContext) -> str:
    """Links to the full workings of figures, by their titles."""
    return ", ".join(f'<a href="{page.working_url(name)}">{escape(graph[name].title or name)}</a>' for name in names)


def groups_of(names: Iterable[str]) -> Iterator[tuple[str, list[str]]]:
    """Dotted names by their first part, in the order in which the parts come."""
    groups: dict[str, list[str]] = {}
    for name in names:
        groups.setdefault(name.split(".")[0], []).append(name)
    yield from groups.items()
