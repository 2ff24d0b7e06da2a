"""Forms to print and write on: tables with the plant's own limits beside empty fields."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape

from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import FragmentError, figure_fragment, resolve_references
from macros.pages.numbers import as_typed
from macros.pages.registry import macro
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling, value_span
from macros.quantities import say

__all__ = ["commissioning_form", "device_form", "form", "log_form", "section_form", "trip_form"]

MOST_LINES = 40
SHOWS = ("pressure_gauge", "transmitter", "gas_detector")
"""Kinds of items that somebody reads."""

WATCHED = {"conductivity": "water.loop_conductivity_alarm"}
"""Limits that no trip need know, by what a transmitter measures."""

Row = Sequence[str]


@macro
def form(heads: str, lines: int = 10, *, page: PageContext) -> Fragment:
    """An empty table to write on: `form("Date, What was done, By", lines=12)`."""
    del page
    titles = [head.strip() for head in heads.split(",") if head.strip()]
    if not titles or not 1 <= lines <= MOST_LINES:
        raise FragmentError(say("pages.form.empty", most=MOST_LINES))
    return _form(say("pages.form.label"), titles, [[""] * len(titles) for _ in range(lines)], {})


@macro
def log_form(columns: int = 7, *, page: PageContext) -> Fragment:
    """What the plant's gauges, transmitters and detectors show, with their limits and columns to fill in."""
    cells = _Cells(page)
    heads = [*_heads("instrument", "limit"), *[""] * columns]
    rows = [[*row, *[""] * columns] for row in _instruments(_plant(page), cells)]
    return _form(say("pages.form.log"), heads, rows, cells.workings)


@macro
def commissioning_form(*, page: PageContext) -> Fragment:
    """What the record says is to be measured: how, what is predicted, what is accepted, and a field for the value."""
    cells = _Cells(page)
    rows = [
        [
            escape(cells.title(one.figure)),
            cells.text(one.how),
            cells.value(one.figure),
            f"± {value_span(as_typed(one.tolerance))}",
            "",
            "",
        ]
        for one in _plant(page).description.record.to_measure
    ]
    if not rows:
        raise FragmentError(say("pages.form.nothing_to_measure", plant=page.name))
    return _form(
        say("pages.form.commissioning"),
        _heads("what", "how", "predicted", "accepted", "measured", "signed"),
        rows,
        cells.workings,
    )


@macro
def trip_form(*, page: PageContext) -> Fragment:
    """Every trip with its limits, and fields for where it was seen to alarm, to trip and to move its valves."""
    cells = _Cells(page)
    rows = []
    for number, trip in enumerate(_plant(page).description.plant.trips, 1):
        limits = [cells.value(f"trips.{number}.{name}") if getattr(trip, name) else "" for name in ("alarm", "trip")]
        sensor = cells.text(f"{{{trip.sensor}}}") if trip.sensor else ""
        moved = cells.text(", ".join(f"{{{tag}}}" for tag in (*trip.shuts, *trip.opens)))
        rows.append([escape(say(f"pages.cause.{trip.cause}")), sensor, *limits, "", "", moved, "", ""])
    heads = _heads("cause", "sensor", "alarm", "trip", "alarm_seen", "trip_seen", "moves", "moved", "signed")
    return _form(say("pages.form.trips"), heads, rows, cells.workings)


@macro
def device_form(kind: str, names: str, fields: str, *, page: PageContext) -> Fragment:
    """
    Every item of a kind with what the description says of it, and fields to write into.

    `device_form("relief_valve", "set_pressure, reseat, tested", "Opened at, Shut at, By and date")`.
    """
    plant, cells = _plant(page), _Cells(page)
    tags = [tag for tag, item in plant.network.items.items() if item.kind.name == kind]
    if not tags:
        raise FragmentError(say("pages.form.no_device", plant=page.name, kind=kind))
    asked, blank = _split(names), _split(fields)
    rows = [
        [f"{cells.text(f'{{{tag}}}')} {escape(plant.network.items[tag].title)}",
         *(cells.value(f"items.{tag.lower()}.{name}") for name in asked), *("" for _ in blank)]
        for tag in tags
    ]  # fmt: skip
    titles = [cells.first_title(f"items.{tag.lower()}.{name}" for tag in tags) for name in asked]
    return _form(say("pages.form.devices"), [*_heads("what"), *titles, *blank], rows, cells.workings)


@macro
def section_form(names: str, fields: str, *, page: PageContext) -> Fragment:
    """Every section of the network that has some of the figures, and fields: `section_form("leak_test_allowance", "Fall")`."""
    plant, cells = _plant(page), _Cells(page)
    asked, blank = _split(names), _split(fields)
    held = [name for name in plant.network.sections if any(f"safety.{name}.{one}" in plant.graph for one in asked)]
    if not held:
        raise FragmentError(say("pages.none_has", part="safety", found=names))
    rows = [
        [escape(plant.network.sections[name].title), *(cells.value(f"safety.{name}.{one}") for one in asked), *("" for _ in blank)]
        for name in held
    ]  # fmt: skip
    titles = [cells.first_title(f"safety.{name}.{one}" for name in held) for one in asked]
    return _form(say("pages.form.sections"), [*_heads("section"), *titles, *blank], rows, cells.workings)


class _Cells:
    """Cells of a form as HTML, and the workings that they need on the page."""

    def __init__(self, page: PageContext) -> None:
        self.page = page
        self.graph = _plant(page).graph
        self.workings: dict[str, str] = {}

    def text(self, text: str) -> str:
        """A text of the description."""
        return self._told(resolve_references(text, self.page))

    def value(self, path: str) -> str:
        """An entry or figure; nothing where the plant has none."""
        return self._told(figure_fragment(self.page, path)) if path in self.graph else ""

    def title(self, path: str) -> str:
        """What an entry or figure is called."""
        return self.graph[path].title if path in self.graph else path

    def first_title(self, paths: Iterable[str]) -> str:
        """What the first of some entries or figures that the plant has is called."""
        return next((self.graph[path].title for path in paths if path in self.graph), "")

    def _told(self, shown: Fragment) -> str:
        self.workings.update(shown.workings)
        return shown.rich or escape(shown.plain)


def _instruments(plant: Plant, cells: _Cells) -> Iterator[Row]:
    """Each instrument, and the limits that go with it: of its trips, else of its section or of the bank in it."""
    section_of = {tag: name for name, section in plant.network.sections.items() for tag in section.items}
    for tag, item in plant.network.items.items():
        if item.kind.name not in SHOWS:
            continue
        limits = []
        for number, trip in enumerate(plant.description.plant.trips, 1):
            if trip.sensor == tag:
                said = [cells.value(f"trips.{number}.{name}") for name in ("alarm", "trip") if getattr(trip, name)]
                limits.append(" / ".join(said) or escape(say(f"pages.cause.{trip.cause}").lower()))
        if not limits:
            limits = [cells.value(path) for path in _limits_of(plant, tag, section_of.get(tag, ""))][:1]
        yield f"{cells.text(f'{{{tag}}}')} {escape(item.title)}", ", ".join(filter(None, limits))


def _limits_of(plant: Plant, tag: str, section: str) -> Iterator[str]:
    """Paths of the limits of an instrument that no trip watches, those first that bind first."""
    measured = f"items.{tag.lower()}.measures"
    if measured in plant.graph:
        yield from (path for kind, path in WATCHED.items() if plant.graph[measured].si == kind)
    elif section:
        held = plant.network.sections[section].items
        for name, bank in plant.description.plant.banks.items():
            if bank.tag in held:
                yield f"banks.{name}.fill_pressure"
        path = f"safety.{section}.allowable_pressure"
        yield from (path,) if path in plant.graph else ()


def _heads(*names: str) -> list[str]:
    return [say(f"pages.form_head.{name}") for name in names]


def _split(names: str) -> list[str]:
    return [name.strip() for name in names.split(",") if name.strip()]


def _form(label: str, heads: Sequence[str], rows: Sequence[Row], workings: dict[str, str]) -> Fragment:
    """A table whose first column tells the row, if any cell of it says something."""
    told = any(row[0] for row in rows)
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    body = "".join(f"<tr>{''.join(_cells_of(row, told))}</tr>" for row in rows)
    table = f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"
    framed = scrolling(table, label, "gw-form" if told else "gw-form gw-blank")
    return Fragment(label, framed, block=True, workings=workings, printed=False)


def _cells_of(row: Row, told: bool) -> Iterator[str]:
    for number, cell in enumerate(row):
        yield f'<th scope="row">{cell}</th>' if told and number == 0 else f"<td>{cell}</td>"


def _plant(page: PageContext) -> Plant:
    if page.plant is None:
        raise FragmentError(say("pages.no_plant"))
    return page.plant
