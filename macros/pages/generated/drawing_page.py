"""The drawing of a plant on a page of its own, with its legend and a row for each item."""

from __future__ import annotations

from html import escape

import diagrams
from macros.figures.plant import Plant
from macros.network import Item
from macros.pages.context import PageContext, anchor
from macros.pages.drawing import fail_letters, legend_html
from macros.pages.fragments import figure_fragment
from macros.pages.macros import schematic
from macros.pages.tokens import Fragment, Tokens
from macros.pages.trips_html import BLANK
from macros.pages.working import scrolling, table_html
from macros.quantities import say

__all__ = ["drawing"]

COLUMNS = ("tag", "what", "room", "set", "rating", "normal", "without_drive")


def drawing(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """The schematic on a page of its own, with a row for each item."""
    rows, workings = _item_rows(plant, page)
    label = say("pages.drawing.items")
    table = scrolling(table_html(COLUMNS, rows), label, "gw-items-table")
    media = tuple(dict.fromkeys(line.medium for line in plant.network.lines.values()))
    legend = legend_html(diagrams.Explained(media, letters=fail_letters(plant.network)))
    return "\n".join(
        [
            f"# {say('pages.drawing.title')}",
            "",
            say("pages.drawing.how_to_read", symbols=page.source_url("symbols.md")),
            "",
            tokens.add(schematic(page=page)),
            "",
            tokens.add(Fragment(say("drawing.legend"), legend, block=True)),
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
            cells.append(cell.rich or escape(cell.plain))
        room = rooms[item.room].title if item.room in rooms else ""
        position = say(f"pages.position.{item.normal_position}") if item.normal_position else ""
        fails = item.settings.get("fail_position")
        falls = say(f"pages.falls.{fails}") if isinstance(fails, str) else ""
        told = (escape(item.title), escape(room), *cells, escape(position), escape(falls))
        rows.append(
            f'<tr id="{anchor("item", tag.lower())}" tabindex="-1"><th scope="row">{escape(tag)}</th>'
            f"{''.join(f'<td>{each}</td>' if each else BLANK for each in told)}</tr>"
        )
    return rows, workings


def _setting(page: PageContext, item: Item, key: str) -> Fragment:
    path = f"items.{item.tag.lower()}.{key}"
    return figure_fragment(page, path) if page.graph is not None and path in page.graph else Fragment("")
