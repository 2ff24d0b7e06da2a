"""The schematic of a plant: its network handed to the drawing, labels made from its entries and figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape

import diagrams
from macros.figures.graph import Value
from macros.figures.plant import Plant
from macros.network import Item, Line, Network
from macros.network.excerpt import excerpt
from macros.pages.context import anchor
from macros.quantities import say
from macros.quantities.languages import cached_as_spoken

__all__ = ["drawing_rules", "drawn_item", "drawn_lines", "fail_letters", "framed", "legend_html", "schematic_svg"]

NAMED = ("vessel", "machine", "use")
"""Groups of items whose title stands beside the tag; for the rest the symbol says it."""

SAID_BY_ITSELF = ("set_pressure",)
"""Settings that are written at an item wherever it has them."""


def schematic_svg(plant: Plant, identity: str, sections: Iterable[str] = (), rows: str = "") -> str:
    """
    The schematic of a plant, or of some of its sections, as inline SVG.

    Parameters
    ----------
    plant : Plant
    identity : str
        Beginning of every id in the drawing, unique on the page.
    sections : iterable of str
        Names of the sections to draw; all of the plant without.
    rows : str
        Link to the page with a row for each item; each tag then leads to its row.

    Raises
    ------
    KeyError
        If the plant has no section of a name.
    diagrams.DrawingError
        If the network cannot be drawn: two items on one place, a symbol that is not known.
    """
    return _drawn(plant, identity, tuple(sections), rows)


@cached_as_spoken(maxsize=256)
def _drawn(plant: Plant, identity: str, names: tuple[str, ...], rows: str) -> str:
    """A drawing is the same on every page of a plant, and finding its lines takes a second."""
    network = excerpt(plant.network, names) if names else plant.network
    return diagrams.schematic(
        [drawn_item(plant, item, rows) for item in network.items.values()],
        drawn_lines(network),
        title=_title(plant, names),
        description=in_words(network),
        identity=identity,
    )


def drawing_rules() -> str:
    """The style rules that all drawings share; dark as the theme of the site marks it."""
    return diagrams.stylesheet('[data-md-color-scheme="slate"]')


def framed(svg: str, label: str, caption: str) -> str:
    """A drawing in a frame that scrolls by itself, by keyboard too; the caption is HTML."""
    said = escape(say("pages.scrolls", drawing=label))
    return (
        f'<figure class="gw-drawing"><div class="gw-drawing-frame" tabindex="0" role="region" aria-label="{said}">'
        f"{svg}</div>{f'<figcaption>{caption}</figcaption>' if caption else ''}</figure>"
    )


def legend_html(explained: diagrams.Explained) -> str:
    """What a drawing shows, each sample beside its meaning, as wide as the page."""
    entries = "".join(
        f"<li>{sample}<span>{escape(said)}</span></li>" for sample, said in diagrams.legend_entries(explained, _words())
    )
    title = escape(say("drawing.legend"))
    return f'<details class="gw-legend"><summary>{title}</summary><ul>{entries}</ul></details>'


def _words() -> dict[str, str]:
    """The words of a legend."""
    said = ("live", "isolated", "vented", "inert", "crossing", "joining", "cut", "open", "closed", "moved")
    media = ("hydrogen", "wet_hydrogen", "oxygen", "water", "air", "nitrogen", "electric")
    return {key: say(f"drawing.word.{key}") for key in said} | {
        f"medium.{medium}": say(f"drawing.medium.{medium}") for medium in media
    }


def fail_letters(network: Network) -> dict[str, str]:
    """The letters of fail positions that a network shows, and what they mean."""
    found = {item.settings.get("fail_position") for item in network.items.values()}
    return {
        say(f"drawing.fails.{position}"): say(f"drawing.fails_says.{position}")
        for position in ("open", "closed", "stays")
        if position in found
    }


def _title(plant: Plant, names: tuple[str, ...]) -> str:
    if not names:
        return say("drawing.title", plant=plant.title)
    held = ", ".join(plant.network.sections[name].title for name in names)
    return say("drawing.title_of_sections", plant=plant.title, sections=held)


def in_words(network: Network) -> str:
    """What the drawing shows, line by line, for those who hear it."""
    return " ".join(
        say("drawing.line_in_words", line=line.id, medium=say(f"drawing.medium.{line.medium}"), path=", ".join(_path(network, line)))
        for line in network.lines.values()
    )  # fmt: skip


def _path(network: Network, line: Line) -> Iterator[str]:
    for stop in line.stops:
        yield f"{network.items[stop.tag].title} {stop.tag}"


def drawn_lines(network: Network) -> list[diagrams.Line]:
    """The lines of a network as they are drawn."""
    return [
        diagrams.Line(line.id, line.medium, tuple((stop.tag, stop.port) for stop in line.stops))
        for line in network.lines.values()
    ]


def drawn_item(plant: Plant, item: Item, rows: str = "") -> diagrams.Item:
    """An item as it is drawn, with its labels, standing as in the stopped plant; `rows` as for `schematic_svg`."""
    state = item.normal_position if item.kind.positions else None
    return diagrams.Item(
        item.tag,
        item.kind.name,
        item.at,
        labels=tuple(_labels(plant, item)),
        title=item.title,
        facing=item.facing,
        state=state,
        href=f"{rows}#{anchor('item', item.tag.lower())}" if rows and item.kind.name != "junction" else None,
    )


def _labels(plant: Plant, item: Item) -> Iterator[diagrams.Text]:
    fails = item.settings.get("fail_position")
    if isinstance(fails, str):
        yield diagrams.Text(say(f"drawing.fails.{fails}"))
    if item.kind.group in NAMED:
        yield diagrams.Text(item.title)
    for path in _said_of(plant, item):
        if path in plant.graph:
            yield _text(plant.graph[path])


def _said_of(plant: Plant, item: Item) -> Iterator[str]:
    """Paths of the values that are written at an item."""
    for setting in SAID_BY_ITSELF:
        yield f"items.{item.tag.lower()}.{setting}"
    described = plant.description.plant
    if described.buffer is not None and item.tag == described.buffer.tag:
        yield "buffer.volume"
    for number, booster in enumerate(described.boosters, start=1):
        if item.tag == booster.tag:
            yield f"boosters.{number}.stall_pressure_highest"
    for name, bank in described.banks.items():
        if item.tag == bank.tag:
            yield f"banks.{name}.fill_pressure"


def _text(value: Value) -> diagrams.Text:
    shown = value.shown()
    return diagrams.Text(shown.workshop, shown.si, shown.us)
