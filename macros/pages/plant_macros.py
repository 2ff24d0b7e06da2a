"""The macros that show a part of the plant itself: its schematic, its items, its procedures and trips."""

from __future__ import annotations

import difflib
from html import escape

from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.drawing import framed
from macros.pages.fragments import FragmentError
from macros.pages.plots import plot_fragment
from macros.pages.procedure_html import procedure_fragment, valves_fragment
from macros.pages.registry import macro
from macros.pages.tokens import Fragment
from macros.pages.trips_html import trips_fragment
from macros.quantities import say

__all__ = ["item", "lineup", "plot", "schematic", "trips", "valve_table"]


@macro
def schematic(sections: str = "", *, page: PageContext) -> Fragment:
    """The schematic of the plant, or of those named sections that it has: `schematic("train, column")`."""
    if page.drawing is None:
        raise FragmentError(say("pages.no_drawing") if page.name else say("pages.no_plant"))
    asked = [name.strip() for name in sections.split(",") if name.strip()]
    held = [name for name in asked if name in page.sections]
    if asked and not held:
        raise FragmentError(say("pages.no_section", found=sections, known=", ".join(page.sections)))
    link = page.url(f"{page.name}/drawing.md")
    svg = page.drawing(page.identity("schematic"), held, link)
    here = page.address == f"{page.name}/drawing.md"
    caption = "" if here else f'<a href="{link}">{escape(say("pages.drawing_caption"))}</a>'
    return Fragment(say("pages.drawing_caption"), framed(svg, say("drawing.whole"), caption), block=True)


@macro
def lineup(procedure: str, *, page: PageContext) -> Fragment:
    """A procedure, its steps drawn and its valves in a table: `lineup("change_desiccant")`."""
    plant = _with_procedure(procedure, page)
    return procedure_fragment(plant, procedure, page)


@macro
def valve_table(procedure: str, *, page: PageContext) -> Fragment:
    """Where the valves stand at the start of a procedure and after each step: `valve_table("normal_stop")`."""
    plant = _with_procedure(procedure, page)
    return valves_fragment(plant, procedure, page)


@macro
def item(tag: str, *, page: PageContext) -> Fragment:
    """An item of the plant, as a link to its row among all items: `item("V3")`."""
    plant = _plant(page)
    if tag not in plant.network.items:
        near = difflib.get_close_matches(tag, plant.network.items, 1, 0.0)
        raise FragmentError(say("pages.no_item", plant=plant.name, found=tag, nearest=near[0]))
    found = plant.network.items[tag]
    rooms = plant.description.plant.rooms
    rating = f"items.{tag.lower()}.rating"
    rated = plant.graph[rating].show() if rating in plant.graph else ""
    told = [found.title, say(f"item_kind.{found.kind.name}")]
    told += [say("pages.item_rating", rating=rated)] if rated else []
    told += [rooms[found.room].title] if found.room in rooms else []
    about = f'class="gw-tag" data-rated="{escape(rated)}" title="{escape(", ".join(told))}"'
    link = f'<a {about} href="{page.item_url(tag)}">{escape(tag)}</a>' if page.item_url(tag) else ""
    span = f"<span {about}>{escape(tag)}</span>"
    return Fragment(tag, link or span, span)


@macro
def plot(name: str, *, page: PageContext) -> Fragment:
    """A plot of the plant, with its numbers in a folded table: `plot("polarisation")`."""
    return plot_fragment(_plant(page), name, page)


@macro
def trips(*, page: PageContext) -> Fragment:
    """The trips of the plant as a matrix of causes and effects: `trips()`."""
    plant = _plant(page)
    if not plant.description.plant.trips:
        raise FragmentError(say("pages.no_trips", plant=plant.name))
    return trips_fragment(plant, page)


def _plant(page: PageContext) -> Plant:
    if page.plant is None:
        raise FragmentError(say("pages.no_plant"))
    return page.plant


def _with_procedure(procedure: str, page: PageContext) -> Plant:
    plant = _plant(page)
    held = plant.description.procedures.procedures
    if procedure not in held:
        raise FragmentError(say("pages.no_procedure", plant=plant.name, found=procedure, known=", ".join(held)))
    return plant
