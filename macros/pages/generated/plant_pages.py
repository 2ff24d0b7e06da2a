"""The pages of one plant that nobody writes: overview, inputs."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from html import escape

from macros.figures.costs import main_currency
from macros.figures.graph import Value
from macros.figures.plant import Plant
from macros.figures.what_if import Grid
from macros.pages.citations import citation
from macros.pages.context import PageContext, anchor
from macros.pages.fragments import quantity_fragment, resolve_references
from macros.pages.generated.workings_pages import groups_of, links_to, readers_in
from macros.pages.macros import cell_fragment, schematic
from macros.pages.plant_macros import plot
from macros.pages.tokens import Fragment, Tokens
from macros.pages.what_if_html import what_if
from macros.pages.working import scrolling, table_html
from macros.quantities import say
from macros.quantities.languages import between, with_mark

__all__ = ["MAIN_FIGURES", "inputs", "overview"]

MOST_READERS = 6
"""Figures named as readers of an entry; more are counted."""

YEAR = "season"
"""The plot that tells most of a plant as a whole."""

MAIN_FIGURES = (
    "stack.hydrogen_normal_flow", "stack.supply_power", "stack.specific_energy", "stack.hydrogen_in_oxygen",
    "stack.hydrogen_in_oxygen_catalyst_dead", "stack.minimum_current_trip", "stack.oxygen_space_time_to_trip",
    "drying.frost_point", "buffer.cut_out", "boosters.1.stall_pressure", "plant.stored_inventory", "plant.energy_per_kg_stored",
    "plant.round_trip_efficiency",
)  # fmt: skip
"""What an overview shows first, where the plant has it."""


def overview(
    plant: Plant,
    page: PageContext,
    tokens: Tokens,
    guides: Iterable[tuple[str, str, str, str]],
    grid: Grid | None = None,
) -> str:
    """
    The overview of a plant.

    Parameters
    ----------
    plant : Plant
    page : PageContext
    tokens : Tokens
    guides : iterable of tuple
        Group, address, title and purpose of each guide of the plant, in the order of groups.
    grid : Grid, optional
        Figures at other points than the plant's own, for readers to explore.
    """
    graph = plant.graph
    banks = [f"banks.{name}.mass" for name in plant.description.plant.banks]
    cost = ("cost.per_stored_kwh", f"cost.total.{main_currency(plant.description).lower()}")
    rows = [name for name in (*MAIN_FIGURES, *banks, *cost) if name in graph]
    summary = tokens.add(resolve_references(plant.description.plant.summary, page))
    lines = [
        f"# {tokens.words(plant.title)} {{: #overview }}",
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
        say(
            "pages.overview.beside",
            parts=page.source_url(f"{page.name}/parts.md"),
            plants=page.source_url("plants.md"),
            choices=page.source_url("choices.md"),
        ),
        "",
        say("pages.whole.link", link=page.source_url(f"{page.name}/whole.md")),
        "",
        *(_what_if(plant, page, tokens, grid) if grid is not None and grid.values else ()),
        *_year(page, tokens),
        f"## {say('pages.overview.drawing')}",
        "",
        tokens.add(schematic(page=page)),
        "",
        f"## {say('pages.overview.guides')}",
        "",
        *_guide_lists(guides, page, tokens),
        f"## {say('pages.overview.edition')}",
        "",
        f'{say("pages.overview.digest")} <span class="gw-digest">{plant.digest}</span>',
        "",
        f"[{say('pages.overview.data')}](figures.json)",
    ]
    return "\n".join(lines)


def _what_if(plant: Plant, page: PageContext, tokens: Tokens, grid: Grid) -> Iterator[str]:
    yield f"## {say('pages.what_if.title')} {{: #what-if }}"
    yield ""
    yield tokens.add(what_if(plant, page, grid))
    yield ""


def _year(page: PageContext, tokens: Tokens) -> Iterator[str]:
    """The plot of a usual year, where the plant says when its sun shines and what is wanted of it."""
    if page.has(f"plots.{YEAR}"):
        yield f"## {say('pages.overview.year')}"
        yield ""
        yield tokens.add(plot(YEAR, page=page))
        yield ""


def _guide_lists(guides: Iterable[tuple[str, str, str, str]], page: PageContext, tokens: Tokens) -> Iterator[str]:
    """The guides as Markdown, one list below the name of each group."""
    for group, members in itertools.groupby(guides, key=lambda guide: guide[0]):
        yield f"### {say(f'pages.group.{group}')}"
        yield ""
        for _, address, title, purpose in members:
            yield f"- [{tokens.words(title)}]({page.source_url(address)}): {tokens.words(purpose)}"
        yield ""


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


def inputs(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """Every entry of the description as typed, with its place; assumed ones marked."""
    lines = [f"# {say('pages.inputs.title')}", "", say("pages.inputs.purpose"), ""]
    readers = readers_in(plant.graph)
    for group, names in groups_of(plant.graph.entries):
        rows = [_entry_row(plant, page, name, readers.get(name, [])) for name in names]
        label = say("pages.inputs_of", group=group)
        table = scrolling(table_html(("path", "what", "value", "place", "read_by"), rows), label)
        lines += [f"## {escape(group)}", "", tokens.add(Fragment(label, table, block=True)), ""]
    return "\n".join(lines)


def _entry_row(plant: Plant, page: PageContext, name: str, readers: list[str]) -> str:
    value = plant.graph[name]
    if isinstance(value.si, str):
        told = quantity_fragment(value) or resolve_references(value.si, page)
        shown = f'<span data-figure="{escape(name)}">{told.marked or escape(value.si)}</span>'
    else:
        cell = cell_fragment(page, name) if value.kind != "curve" else Fragment(_points(value.si.points))
        shown = cell.marked or escape(cell.plain)
        if value.kind == "curve":
            shown = f'<span data-figure="{escape(name)}">{shown}</span>'
    return (
        f'<tr id="{anchor("i", name)}"><th scope="row"><code>{escape(name)}</code></th>'
        f"<td>{escape(value.title)}</td><td>{shown}</td><td>{_place(value, page)}</td>"
        f"<td>{links_to(plant.graph, readers[:MOST_READERS], page)}{_more(readers)}</td></tr>"
    )


def _place(value: Value, page: PageContext) -> str:
    """Where an entry was given; the source of a default; what of a word that the format itself supplies."""
    if value.name in value.assumed:
        return f"{escape(say('pages.default'))}: {citation(value.source, '', page)}"
    return escape(value.place or say("pages.by_itself"))


def _more(readers: list[str]) -> str:
    return escape(say("pages.and_more", count=len(readers) - MOST_READERS)) if len(readers) > MOST_READERS else ""


def _points(points: Iterable[tuple[float, float]]) -> str:
    held = ((with_mark(f"{x:.6g}"), with_mark(f"{y:.6g}")) for x, y in points)
    # Where a comma is the decimal mark, brackets hold a pair together and a semicolon parts it.
    return "; ".join(f"{x}, {y}" if between() == "," else f"({x}; {y})" for x, y in held)
