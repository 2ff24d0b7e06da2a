"""The pages of one plant that nobody writes: overview, drawing, inputs, workings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape

from macros.figures.plant import Plant
from macros.network import Item
from macros.pages.context import PageContext, anchor
from macros.pages.fragments import figure_fragment, resolve_references
from macros.pages.macros import cell_fragment, schematic
from macros.pages.numbers import Numbers
from macros.pages.tokens import Fragment, Tokens
from macros.pages.working import scrolling, systems, table_html, working_body
from macros.quantities import Shown, say

__all__ = ["MAIN_FIGURES", "drawing", "inputs", "overview", "workings"]

MAIN_FIGURES = (
    "stack.hydrogen_normal_flow", "stack.supply_power", "stack.specific_energy", "stack.hydrogen_in_oxygen",
    "stack.hydrogen_in_oxygen_catalyst_dead", "stack.minimum_current_trip", "stack.oxygen_space_time_to_trip",
    "drying.frost_point", "buffer.cut_out", "boosters.1.stall_pressure", "plant.stored_inventory", "plant.energy_per_kg_stored",
    "plant.round_trip_efficiency",
)  # fmt: skip
"""What an overview shows first, where the plant has it."""


def overview(plant: Plant, page: PageContext, tokens: Tokens, guides: Iterable[tuple[str, str, str]]) -> str:
    """
    The overview of a plant.

    Parameters
    ----------
    plant : Plant
    page : PageContext
    tokens : Tokens
    guides : iterable of tuple
        Address, title and purpose of each guide of the plant.
    """
    graph = plant.graph
    banks = [f"banks.{name}.mass" for name in plant.description.plant.banks]
    rows = [name for name in (*MAIN_FIGURES, *banks) if name in graph]
    summary = tokens.add(resolve_references(plant.description.plant.summary, page))
    lines = [
        f"# {plant.title}",
        "",
        summary,
        "",
        f'!!! danger "{say("pages.overview.caution_title")}"',
        "",
        f"    {say('pages.overview.caution')}",
        "",
        f"## {say('pages.overview.figures')}",
        "",
        tokens.add(_table(page, rows)),
        "",
        say(
            "pages.overview.more",
            workings=page.source_url(f"{page.name}/workings.md"),
            inputs=page.source_url(f"{page.name}/inputs.md"),
        ),
        "",
        f"## {say('pages.overview.drawing')}",
        "",
        tokens.add(schematic(page=page)),
        "",
        f"## {say('pages.overview.guides')}",
        "",
        *(f"- [{title}]({page.source_url(address)}): {purpose}" for address, title, purpose in guides),
        "",
        f"## {say('pages.overview.edition')}",
        "",
        f'{say("pages.overview.digest")} <span class="gw-digest">{plant.digest}</span>',
        "",
        f"[{say('pages.overview.data')}](figures.json)",
    ]
    return "\n".join(lines)


def _table(page: PageContext, names: Iterable[str]) -> Fragment:
    rows: list[str] = []
    workings: dict[str, str] = {}
    assert page.graph is not None
    for name in names:
        cell = cell_fragment(page, name)
        workings.update(cell.workings)
        rows.append(
            f'<tr><th scope="row">{escape(page.graph[name].title)}</th><td>{cell.rich or escape(cell.plain)}</td></tr>'
        )
    label = say("pages.overview.figures")
    return Fragment(label, scrolling(table_html(("what", "value"), rows), label), block=True, workings=workings)


def drawing(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """The schematic on a page of its own, with a row for each item."""
    rows, workings = _item_rows(plant, page)
    label = say("pages.drawing.items")
    table = scrolling(table_html(("tag", "what", "room", "set", "rating", "normal"), rows), label)
    return "\n".join(
        [
            f"# {say('pages.drawing.title')}",
            "",
            say("pages.drawing.how_to_read", symbols=page.source_url("symbols.md")),
            "",
            tokens.add(schematic(page=page)),
            "",
            f"## {label}",
            "",
            tokens.add(Fragment(label, table, block=True, workings=workings)),
        ]
    )


def _item_rows(plant: Plant, page: PageContext) -> tuple[list[str], dict[str, str]]:
    rows: list[str] = []
    workings: dict[str, str] = {}
    rooms = plant.description.plant.rooms
    for tag, item in plant.network.items.items():
        if item.kind.name == "junction":
            continue
        cells = []
        for key in ("set_pressure", "rating"):
            cell = _setting(page, item, key)
            workings.update(cell.workings)
            cells.append(f"<td>{cell.rich or escape(cell.plain)}</td>")
        room = rooms[item.room].title if item.room in rooms else ""
        position = say(f"pages.position.{item.normal_position}") if item.normal_position else ""
        rows.append(
            f'<tr id="{anchor("item", tag.lower())}"><th scope="row">{escape(tag)}</th><td>{escape(item.title)}</td>'
            f"<td>{escape(room)}</td>{''.join(cells)}<td>{escape(position)}</td></tr>"
        )
    return rows, workings


def _setting(page: PageContext, item: Item, key: str) -> Fragment:
    path = f"items.{item.tag.lower()}.{key}"
    return figure_fragment(page, path) if page.graph is not None and path in page.graph else Fragment("")


def inputs(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """Every entry of the description as typed, with its place; assumed ones marked."""
    lines = [f"# {say('pages.inputs.title')}", "", say("pages.inputs.purpose"), ""]
    for group, names in _groups(plant.graph.entries):
        rows = [_entry_row(plant, page, tokens, name) for name in names]
        label = say("pages.inputs_of", group=group)
        table = scrolling(table_html(("path", "what", "value", "place"), rows), label)
        lines += [f"## {escape(group)}", "", tokens.add(Fragment(label, table, block=True)), ""]
    return "\n".join(lines)


def _entry_row(plant: Plant, page: PageContext, tokens: Tokens, name: str) -> str:
    value = plant.graph[name]
    if isinstance(value.si, str):
        shown = resolve_references(value.si, page).marked or escape(value.si)
        shown = f'<span data-figure="{escape(name)}">{shown}</span>'
    else:
        cell = cell_fragment(page, name) if value.kind != "curve" else Fragment(_points(value.si.points))
        shown = cell.marked or escape(cell.plain)
        if value.kind == "curve":
            shown = f'<span data-figure="{escape(name)}">{shown}</span>'
    place = escape(value.place) if value.place else f"{escape(say('pages.default'))}: {escape(value.source)}"
    return (
        f'<tr id="{anchor("i", name)}"><th scope="row"><code>{escape(name)}</code></th>'
        f"<td>{escape(value.title)}</td><td>{shown}</td><td>{place}</td></tr>"
    )


def _points(points: Iterable[tuple[float, float]]) -> str:
    return "; ".join(f"{x:.6g}, {y:.6g}" for x, y in points)


def workings(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """Every figure with its whole working, grouped by part of the plant."""
    graph = plant.graph
    numbers = page.numbers
    assert numbers is not None
    lines = [f"# {say('pages.workings_page.title')}", "", say("pages.workings_page.purpose"), ""]
    for group, names in _groups(graph.figures):
        lines += [f"## {escape(group)}", ""]
        for name in names:
            lines += [
                f"### {graph[name].title} {{: #{anchor('w', name)} }}",
                "",
                tokens.add(_working(plant, page, numbers, name)),
                "",
            ]
    return "\n".join(lines)


def _working(plant: Plant, page: PageContext, numbers: Numbers, name: str) -> Fragment:
    graph = plant.graph
    value = graph[name]
    texts = numbers.shown(name) if value.is_number else Shown(*[_other(value.si, value.kind)] * 3)
    number = f'<span class="gw-value" data-figure="{escape(name)}"{systems(texts)}>{escape(texts.workshop)}</span>'
    readers = sorted(one for one in graph.figures if name in graph.inputs_of(one))
    used = ""
    if readers:
        links = ", ".join(f'<a href="#{anchor("w", one)}">{escape(graph[one].title)}</a>' for one in readers)
        used = f'<p class="gw-readers">{escape(say("pages.workings_page.read_by"))} {links}.</p>'
    body = working_body(graph, numbers, name, page)
    html = f'<div class="gw-full-working" data-working="{escape(name)}"><p><code>{escape(name)}</code> = {number}</p>{body}{used}</div>'
    return Fragment(texts.workshop, html, block=True)


def _other(value: object, kind: str) -> str:
    if kind == "category":
        return str(value)
    return say(f"pages.kind.{kind}") if kind in ("table", "run", "curve") else str(value)


def _groups(names: Iterable[str]) -> Iterator[tuple[str, list[str]]]:
    groups: dict[str, list[str]] = {}
    for name in names:
        groups.setdefault(name.split(".")[0], []).append(name)
    yield from groups.items()
