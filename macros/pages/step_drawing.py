"""The drawings of a procedure's steps: line-ups handed to the drawing, one plan for all of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import isfinite
from weakref import WeakKeyDictionary

import diagrams
from diagrams.lettering import Row
from diagrams.proportions import LABEL
from diagrams.steps import Flagged, Ground, Link, Sheet, Stand
from macros.description.procedures_file import Procedure, Step
from macros.figures.plant import Plant
from macros.network import Network
from macros.network.excerpt import excerpt
from macros.network.lineups import Proved
from macros.network.live import circulating, energised, live_nodes
from macros.network.proofs import Lineup
from macros.network.told import SectionStand, sections_of
from macros.pages.drawing import drawn_item, drawn_lines
from macros.pages.stands import lineups, steps_of
from macros.quantities import say, shown

__all__ = ["concerned", "step_drawing", "step_svg"]

PROMINENT = ("vessel", "use", "machine", "electric", "fitting", "protection", "instrument", "valve")
"""Groups of items, those first beside which the flag of a section is looked for."""

ALMOST_ALL = 0.75
"""A procedure that touches more of the plant's items than this is drawn on the whole plan."""


SMALL_PA = 1e4
"""Below this a gauge pressure is told in the unit of low pressures."""


def step_svg(plant: Plant, procedure: str, step: int, identity: str) -> str:
    """
    How the plant stands after a step, as inline SVG that stands alone.

    Parameters
    ----------
    plant : Plant
    procedure : str
    step : int
        Counted from 1; 0 for the state in which the procedure begins.
    identity : str
        Beginning of every id in the drawing, unique on the page.

    Raises
    ------
    KeyError, IndexError
        If the plant has no such procedure, or it no such step.
    diagrams.DrawingError
        If the network cannot be drawn.
    """
    return step_drawing(plant, procedure, step, identity)


def step_drawing(
    plant: Plant,
    procedure: str,
    step: int,
    identity: str,
    ground: Ground | None = None,
    links: Mapping[str, str] | None = None,
) -> str:
    """The same on a page: `ground` says where the ground of all steps stands, `links` where items lead, by tag."""
    proved = steps_of(plant, procedure)[step]
    described = lineups(plant).file.procedures[procedure]
    done = described.steps[step - 1] if step else Step(do="")
    stand = _stand(plant, proved, done, links or {})
    key = "drawing.title_of_step" if step else "drawing.title_of_start"
    title = say(key, procedure=described.title, step=step) if step else say(key, procedure=described.title)
    return _sheet(plant, procedure).draw(
        stand, title=title, description=_in_words(plant, proved), identity=identity, ground=ground
    )


def concerned(plant: Plant, procedure: str) -> tuple[frozenset[str], frozenset[str]]:
    """Tags of the items that a procedure is drawn with, and the names of the sections."""
    network = plant.network
    touched = set(_touched(lineups(plant).file.procedures[procedure]))
    sections = {name for name, one in network.sections.items() if name in touched or touched & set(one.items)}
    held = {tag for name in sections for tag in network.sections[name].items}
    # What is in no section, the water loop or the current's way, is shown along its lines.
    loose = (touched & set(network.items)) - held
    along = {
        stop.tag for line in network.lines.values() for stop in line.stops if loose & {one.tag for one in line.stops}
    }
    tags = frozenset(excerpt(network, sections, loose | along).items)
    if len(tags) > ALMOST_ALL * len(network.items):
        return frozenset(network.items), frozenset(network.sections)
    return tags, frozenset(
        name for name in network.sections if tags & set(network.sections[name].items) and name in sections
    )


def _touched(procedure: Procedure) -> Iterator[str]:
    for step in procedure.steps:
        yield from (*step.sets, *step.admits, *step.opens, *step.closes, *step.makes_inert, *step.makes_hydrogen)
        yield from (reading.at for reading in step.reads if reading.at)


# --- the sheet


@dataclass
class _Sheets:
    """The sheets of a plant: the whole one, and the part that each procedure is drawn on."""

    whole: Sheet
    parts: dict[tuple[frozenset[str], frozenset[str]], Sheet]


_SHEETS: WeakKeyDictionary[Plant, _Sheets] = WeakKeyDictionary()
"""Finding the lines of a plant takes a second, and a plant does not change while it lives."""


def _sheet(plant: Plant, procedure: str) -> Sheet:
    if plant not in _SHEETS:
        network = plant.network
        items = [drawn_item(plant, item) for item in network.items.values()]
        _SHEETS[plant] = _Sheets(Sheet.of(items, drawn_lines(network), list(_flagged(plant))), {})
    sheets = _SHEETS[plant]
    part = concerned(plant, procedure)
    if part not in sheets.parts:
        sheets.parts[part] = sheets.whole.part(*part)
    return sheets.parts[part]


def _flagged(plant: Plant) -> Iterator[Flagged]:
    """Every section with all that its flag comes to say in any step of any procedure."""
    contents: dict[str, dict[tuple[Row, ...], None]] = {}
    for name in lineups(plant).file.procedures:
        for proved in steps_of(plant, name):
            for held, rows in _flags(plant, proved.lineup).items():
                contents.setdefault(held, {})[rows] = None
    for name, section in plant.network.sections.items():
        items = sorted(section.items, key=lambda tag: PROMINENT.index(plant.network.items[tag].kind.group))
        if name in contents:
            yield Flagged(name, tuple(items), tuple(contents[name]))


# --- a stand


def _stand(plant: Plant, proved: Proved, step: Step, links: Mapping[str, str]) -> Stand:
    lineup = proved.lineup
    positions = lineup.reached.stand.positions
    states = {tag: positions[tag] for tag, item in plant.network.items.items() if item.kind.positions}
    return Stand(
        states,
        frozenset(_live_legs(lineup, step, lineups(plant).always_coupled)),
        frozenset((*proved.changed, *step.opens, *step.closes)),
        _flags(plant, lineup),
        {stand.name: " ".join(f"gw-{mark}" for mark in _marks(stand)) for stand in sections_of(lineup)},
        {tag: Link(href, _link_says(plant.network, tag, states)) for tag, href in links.items()},
    )


def _live_legs(lineup: Lineup, step: Step, coupled: frozenset[str]) -> Iterator[tuple[str, int]]:
    """The runs of lines on the live path, by line and number."""
    piping = lineup.piping
    nodes = live_nodes(lineup, frozenset(step.admits) | coupled)
    ports, round_the_pump = energised(lineup), circulating(lineup)
    for name, line in piping.network.lines.items():
        for number, run in enumerate(line.runs):
            carries = line.medium == "electric" and {run.start, run.end} <= ports
            held = line.medium != "electric" and piping.node[run.start] in nodes
            if carries or held or (name, number) in round_the_pump:
                yield name, number


def _flags(plant: Plant, lineup: Lineup) -> dict[str, tuple[Row, ...]]:
    opened = lineup.reached.stand.opened
    return {
        stand.name: tuple(_rows(stand, lineup.atmosphere_pa, opened & set(plant.network.sections[stand.name].items)))
        for stand in sections_of(lineup)
    }


def _rows(stand: SectionStand, atmosphere_pa: float, opened: Iterable[str]) -> Iterator[Row]:
    """What a flag says, row by row."""
    yield Row(diagrams.Text(stand.name.replace("_", " ")), LABEL, "gw-flag-name", bold=True)
    yield Row(_pressure("drawing.up_to", stand.pressure_pa, atmosphere_pa), LABEL, "gw-label gw-reached")
    if stand.rests_pa < stand.pressure_pa:
        yield Row(_pressure("drawing.falls_to", stand.rests_pa, atmosphere_pa), LABEL, "gw-label gw-reached")
    for mark in _marks(stand):
        yield Row(diagrams.Text(say(f"drawing.mark.{mark}")), LABEL, f"gw-mark gw-mark-{mark}", sign=mark)
    if not stand.inert and stand.holds:
        gases = say("drawing.and").join(say(f"drawing.gas.{gas}") for gas in stand.holds)
        yield Row(diagrams.Text(say("drawing.holds", gases=gases)), LABEL, "gw-label gw-holds")
    for tag in opened:
        yield Row(diagrams.Text(say("drawing.opened", tag=tag)), LABEL, "gw-label gw-opened", bold=True)


def _marks(stand: SectionStand) -> Iterator[str]:
    yield "isolated" if stand.isolated else "live"
    if stand.vented:
        yield "vented"
    if stand.inert:
        yield "inert"


def _pressure(key: str, pressure_pa: float, atmosphere_pa: float) -> diagrams.Text:
    """A pressure in a sentence, in every system of units, rounded up: it is the most that is reached."""
    if not isfinite(pressure_pa):
        return diagrams.Text(say("drawing.without_limit"))
    if pressure_pa <= atmosphere_pa and key == "drawing.up_to":
        key = "drawing.stands_at"
    small = 0 < pressure_pa - atmosphere_pa < SMALL_PA
    texts = shown(
        pressure_pa, "mbar(g)" if small else "bar(g)", 2 if small else 3, rounding="up", atmosphere_pa=atmosphere_pa
    )
    return diagrams.Text(
        *(say(key, pressure=text.replace("\u202f", "")) for text in (texts.workshop, texts.si, texts.us))
    )


def _link_says(network: Network, tag: str, states: Mapping[str, str]) -> str:
    state = say(f"pages.position.{states[tag]}") if tag in states else ""
    return ", ".join(part for part in (tag, network.items[tag].title, state) if part)


def _in_words(plant: Plant, proved: Proved) -> str:
    """What the drawing shows, for those who hear it."""
    moved = [
        say("drawing.moved", tag=tag, before=say(f"pages.position.{before}"), after=say(f"pages.position.{after}"))
        for tag, (before, after) in proved.changed.items()
    ]
    sections = [
        say(
            "drawing.section_in_words",
            section=rows[0].text.workshop,
            told=", ".join(row.text.workshop for row in rows[1:]),
        )
        for rows in _flags(plant, proved.lineup).values()
    ]
    return " ".join([*moved, *sections])
