"""The pages of a plant's procedures and trips, which nobody writes."""

from __future__ import annotations

from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import resolve_references
from macros.pages.macros import lineup, trips
from macros.pages.tokens import Tokens
from macros.quantities import say

__all__ = ["procedure_address", "procedure_page", "procedures_page", "trips_page"]


def procedure_address(plant: str, name: str) -> str:
    """Where the page of a procedure stands."""
    return f"{plant}/procedure-{name.replace('_', '-')}.md"


def procedures_page(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """The procedures of a plant, each with when it is done, and from which state to which it leads."""
    file = plant.description.procedures
    lines = [f"# {say('pages.procedures.title')}", "", say("pages.procedures.purpose"), ""]
    for name, procedure in file.procedures.items():
        link = page.source_url(procedure_address(plant.name, name))
        start, end = file.states[procedure.start].title, file.states[procedure.end].title
        lines += [
            f"## [{tokens.words(procedure.title)}]({link}) {{: #{name} }}",
            "",
            tokens.add(resolve_references(procedure.when, page)),
            "",
            tokens.words(say("pages.procedures.leads", start=start, end=end, steps=len(procedure.steps))),
            "",
        ]
    return "\n".join(lines)


def procedure_page(plant: Plant, page: PageContext, tokens: Tokens, name: str) -> str:
    """One procedure, step by step."""
    title = plant.description.procedures.procedures[name].title
    return "\n".join(
        [
            f"# {tokens.words(title)} {{: #procedure }}",
            "",
            f'!!! danger "{say("pages.overview.caution_title")}"',
            "",
            f"    {say('pages.procedures.caution')}",
            "",
            tokens.add(lineup(name, page=page)),
        ]
    )


def trips_page(plant: Plant, page: PageContext, tokens: Tokens) -> str:
    """The trips of a plant as a matrix of causes and effects."""
    if not plant.description.plant.trips:
        return "\n".join([f"# {say('pages.trips.title')}", "", say("pages.trips.none")])
    return "\n".join(
        [
            f"# {say('pages.trips.title')} {{: #trips }}",
            "",
            say("pages.trips.purpose"),
            "",
            tokens.add(trips(page=page)),
        ]
    )
