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

__all__ = ["trips_fragment"]


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
        fixed = [say(f"pages.trips.{key}") for key in ("cause", "sensor", "alarm", "trip")]
        heads = [escape(text) for text in (*fixed, *map(drive_of, self.drives))]
        heads += [self.text(f"{{{tag}}}") for tag in self.valves]
        heads += [escape(say(f"pages.trips.{key}")) for key in ("reset", "safe_state")]
        head = "".join(f'<th scope="col">{text}</th>' for text in heads)
        rows = "".join(f"<tr>{''.join(self.row(number, trip))}</tr>" for number, trip in enumerate(self.trips, 1))
        table = f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"
        return Fragment(label, scrolling(table, label, "gw-trips"), block=True, workings=self.workings)

    def limit(self, path: str) -> str:
        shown = figure_fragment(self.page, path)
        self.workings.update(shown.workings)
        return shown.rich

    def row(self, number: int, trip: Trip) -> Iterator[str]:
        yield f'<th scope="row">{escape(say(f"pages.cause.{trip.cause}"))}</th>'
        yield f"<td>{self.text(f'{{{trip.sensor}}}') if trip.sensor else ''}</td>"
        for name in ("alarm", "trip"):
            yield f"<td>{self.limit(f'trips.{number}.{name}') if getattr(trip, name) else ''}</td>"
        for drive in self.drives:
            yield f"<td>{escape(say('pages.trips.stops')) if drive in trip.stops else ''}</td>"
        for tag in self.valves:
            does = "shuts" if tag in trip.shuts else "opens" if tag in trip.opens else ""
            yield f"<td>{escape(say(f'pages.trips.{does}')) if does else ''}</td>"
        yield f"<td>{escape(say(f'pages.reset.{trip.reset}'))}</td><td>{self.text(trip.safe_state)}</td>"
