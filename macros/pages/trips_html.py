"""The trips of a plant as a matrix of causes and effects."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from macros.description.plant import Trip
from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import figure_fragment, resolve_references
from macros.pages.procedure_html import drive_of
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling
from macros.quantities import say

__all__ = ["BLANK", "trips_fragment"]

FIXED = ("number", "cause", "sensor", "alarm", "trip")
"""Columns before the effects."""

BLANK = "<td>&#160;</td>"
"""A cell in which there is nothing to say; one without anything at all is a place for somebody to write into."""


def trips_fragment(plant: Plant, page: PageContext) -> Fragment:
    """Every cause with its limits and what it brings about."""
    return _Matrix(plant, page).fragment()


class _Matrix:
    def __init__(self, plant: Plant, page: PageContext) -> None:
        self.plant = plant
        self.page = page
        self.trips = plant.description.plant.trips
        self.workings: dict[str, str] = {}
        self.drives = tuple(dict.fromkeys(drive for trip in self.trips for drive in trip.stops))
        moved = {tag for trip in self.trips for tag in (*trip.shuts, *trip.opens)}
        self.valves = tuple(tag for tag in plant.network.items if tag in moved)

    def text(self, text: str) -> str:
        resolved = resolve_references(text, self.page)
        self.workings.update(resolved.workings)
        return resolved.rich

    def fragment(self) -> Fragment:
        label = say("pages.trips.label")
        table = scrolling(f"<table>{self.head()}{self.body()}{self.foot()}</table>", label, "gw-trips")
        states = "".join(
            f"<li><strong>{escape(_cause(trip))}{self.at(trip)}</strong>: {self.text(trip.safe_state)}</li>"
            for trip in self.trips
        )
        then = (
            f'<p class="gw-trips-title">{escape(say("pages.trips.then"))}</p><ol class="gw-safe-states">{states}</ol>'
        )
        return Fragment(label, table + then, block=True, workings=self.workings)

    def head(self) -> str:
        fixed = [say(f"pages.trips.{key}") for key in FIXED]
        heads = [f'<th scope="col">{escape(text)}</th>' for text in (*fixed, *map(drive_of, self.drives))]
        heads += [f'<th scope="col">{self.text(f"{{{tag}}}")}</th>' for tag in self.valves]
        return f'<thead><tr>{"".join(heads)}<th scope="col">{escape(say("pages.trips.reset"))}</th></tr></thead>'

    def body(self) -> str:
        rows = (f"<tr>{''.join(self.row(number, trip))}</tr>" for number, trip in enumerate(self.trips, 1))
        return f"<tbody>{''.join(rows)}</tbody>"

    def row(self, number: int, trip: Trip) -> Iterator[str]:
        yield f'<td>{number}</td><th scope="row">{escape(_cause(trip))}</th>'
        yield f"<td>{self.text(f'{{{trip.sensor}}}')}</td>" if trip.sensor else BLANK
        for name in ("alarm", "trip"):
            yield f"<td>{self.limit(f'trips.{number}.{name}')}</td>" if getattr(trip, name) else BLANK
        for drive in self.drives:
            yield _effect("stops" if drive in trip.stops else "")
        for tag in self.valves:
            yield _effect("shuts" if tag in trip.shuts else "opens" if tag in trip.opens else "")
        yield f"<td>{escape(say(f'pages.reset.{trip.reset}'))}</td>"

    def foot(self) -> str:
        """Where each valve goes by itself once its drive is lost."""
        cells = []
        for tag in self.valves:
            fails = self.plant.network.items[tag].settings.get("fail_position")
            cells.append(f"<td>{escape(say(f'pages.falls.{fails}'))}</td>" if isinstance(fails, str) else BLANK)
        before = f'<th scope="row" colspan="{len(FIXED) + len(self.drives)}">{escape(say("pages.trips.falls"))}</th>'
        return f"<tfoot><tr>{before}{''.join(cells)}{BLANK}</tr></tfoot>"

    def at(self, trip: Trip) -> str:
        return f" ({self.text(f'{{{trip.sensor}}}')})" if trip.sensor else ""

    def limit(self, path: str) -> str:
        shown = figure_fragment(self.page, path)
        self.workings.update(shown.workings)
        return shown.rich


def _cause(trip: Trip) -> str:
    return say(f"pages.cause.{trip.cause}")


def _effect(key: str) -> str:
    return f'<td class="gw-effect gw-{key}">{escape(say(f"pages.trips.{key}"))}</td>' if key else BLANK
