"""The drawings of a procedure's steps: line-ups handed to the drawing, one plan for all of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property
from weakref import WeakKeyDictionary

import diagrams
from diagrams.lettering import Row
from diagrams.steps import Flagged, Ground, Link, Sheet, Stand, common
from macros.description.procedures_file import Procedure, Step
from macros.figures.plant import Plant
from macros.network import Item, Network
from macros.network.current import energised
from macros.network.excerpt import excerpt
from macros.network.joins import alone, way_between
from macros.network.lineups import Proved
from macros.network.live import circulating, live_nodes
from macros.network.proofs import Lineup
from macros.pages.drawing import drawn_item, drawn_lines, fail_letters
from macros.pages.section_flags import flag_rows, marks_of
from macros.pages.stands import lineups, steps_of, told_of
from macros.quantities import say

__all__ = ["concerned", "explained", "ground_of", "step_drawing", "step_svg"]

PROMINENT = ("vessel", "use", "machine", "electric", "fitting", "protection", "instrument", "valve")
"""Groups of items, those first beside which the flag of a section is looked for."""

ALMOST_ALL = 0.75
"""A procedure that touches more of the plant's items than this is drawn on the whole plan."""

Part = tuple[frozenset[str], frozenset[str]]
"""Tags of items, and names of sections."""


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
    """The same on a page: `ground` says what all steps share, see `ground_of`; `links` where items lead, by tag."""
    drawn = _drawn(plant, procedure)
    key = "drawing.title_of_step" if step else "drawing.title_of_start"
    title = say(key, procedure=drawn.procedure.title, **({"step": step} if step else {}))
    return drawn.sheet.draw(
        drawn.stand(step, links or {}), title=title, description=drawn.in_words(step), identity=identity, ground=ground
    )


def ground_of(plant: Plant, procedure: str, identity: str, first: bool) -> Ground:
    """The ground that the drawings of all steps of a procedure share on a page, brought by the first of them."""
    return Ground("first" if first else "used", identity, _drawn(plant, procedure).still)


def concerned(plant: Plant, procedure: str) -> Part:
    """Tags of the items that a procedure is drawn with, and the names of the sections."""
    return _drawn(plant, procedure).part


def explained(plant: Plant, procedure: str) -> diagrams.Explained:
    """What the drawings of a procedure show, for their legend."""
    drawn = _drawn(plant, procedure)
    tags, sections = drawn.part
    media = dict.fromkeys(leg.line.medium for leg in drawn.sheet.plan.legs)
    marks = {
        mark: None for told in told_of(plant, procedure) for stand in told if stand.name in sections
        for mark in marks_of(stand)
    }  # fmt: skip
    letters = fail_letters(excerpt(plant.network, (), tags))
    cut = bool(drawn.sheet.cuts)
    return diagrams.Explained(tuple(media), live=True, marks=tuple(marks), moved=True, cut=cut, letters=letters)


class _Drawn:
    """A procedure, drawn step by step on a part of the plant's sheet."""

    def __init__(self, plant: Plant, sheets: _Sheets, name: str) -> None:
        self.network = plant.network
        self.sheets = sheets
        self.coupled = lineups(plant).always_coupled
        self.procedure: Procedure = lineups(plant).file.procedures[name]
        self.proved = steps_of(plant, name)
        self.told = told_of(plant, name)

    @cached_property
    def part(self) -> Part:
        network = self.network
        touched = set(_touched(self.procedure))
        sections = {name for name, one in network.sections.items() if name in touched or touched & set(one.items)}
        # A section between those, or behind them, is shown too if any step changes how it stands.
        sections |= {name for name, rows in self.flags[0].items() if any(flags[name] != rows for flags in self.flags)}
        held = {tag for name in sections for tag in network.sections[name].items}
        # What is in no section, the water loop or the current's way, is shown along its lines.
        loose = (touched & set(network.items)) - held
        ways = [{stop.tag for stop in line.stops} for line in network.lines.values()]
        along = {tag for way in ways if loose & way for tag in way}
        sections, tags = self._joined(sections, excerpt(network, sections, loose | along).items)
        if len(tags) > ALMOST_ALL * len(network.items):
            return frozenset(network.items), frozenset(network.sections)
        # A detector on the wall says nothing of the way of the gas; what a step sets or opens is shown wherever it is.
        tags -= alone(network, tags) - set(_handled(self.procedure))
        return tags, frozenset(sections)

    def _joined(self, sections: set[str], tags: Iterable[str]) -> tuple[set[str], frozenset[str]]:
        """Sections and tags, with all that joins what would stand apart on the drawing."""
        network, kept = self.network, frozenset(tags)
        while way := way_between(network, kept):
            sections = sections | {name for tag in way if tag not in kept and (name := network.section_of(tag))}
            more = frozenset(excerpt(network, sections, kept | set(way)).items)
            if more == kept:
                break
            kept = more
        return sections, kept

    @property
    def sheet(self) -> Sheet:
        return self.sheets.of(self.part)

    @cached_property
    def flags(self) -> list[dict[str, tuple[Row, ...]]]:
        """What the flag of every section says, before the first step and after each."""
        return [dict(self._flags(number)) for number in range(len(self.proved))]

    def _flags(self, number: int) -> Iterator[tuple[str, tuple[Row, ...]]]:
        lineup = self.proved[number].lineup
        for stand in self.told[number]:
            opened = [tag for tag in self.network.sections[stand.name].items if tag in lineup.reached.stand.opened]
            yield stand.name, tuple(flag_rows(stand, lineup.atmosphere_pa, opened))

    @cached_property
    def still(self) -> Stand:
        """What no step of the procedure changes."""
        return common(self._stands)

    def stand(self, number: int, links: Mapping[str, str]) -> Stand:
        stand = self._stands[number]
        return replace(
            stand, links={tag: Link(href, _link_says(self.network, tag, stand.states)) for tag, href in links.items()}
        )

    @cached_property
    def _stands(self) -> list[Stand]:
        return [self._stand(number) for number in range(len(self.proved))]

    def _stand(self, number: int) -> Stand:
        proved = self.proved[number]
        step = self.procedure.steps[number - 1] if number else Step(do="")
        positions = proved.lineup.reached.stand.positions
        states = {tag: positions[tag] for tag, item in self.network.items.items() if item.kind.positions}
        return Stand(
            states,
            frozenset(_live_legs(proved.lineup, frozenset(step.admits) | self.coupled)),
            frozenset((*proved.changed, *step.opens, *step.closes)),
            self.flags[number],
            {told.name: " ".join(f"gw-{mark}" for mark in marks_of(told)) for told in self.told[number]},
        )

    def in_words(self, number: int) -> diagrams.Text:
        """What the drawing shows, for those who hear it."""
        systems = ("workshop", "si", "us")
        return diagrams.Text(
            *(" ".join([*_moved(self.proved[number]), *self._sections(number, one)]) for one in systems)
        )

    def _sections(self, number: int, system: str) -> Iterator[str]:
        for name, (named, *rows) in self.flags[number].items():
            if name in self.part[1]:
                told = ", ".join(getattr(row.text, system) or row.text.workshop for row in rows)
                yield say("drawing.section_in_words", section=named.text.workshop, told=told)


def _moved(proved: Proved) -> Iterator[str]:
    for tag, positions in proved.changed.items():
        before, after = (say(f"pages.position.{position}") for position in positions)
        yield say("drawing.moved", tag=tag, before=before, after=after)


def _handled(procedure: Procedure) -> Iterator[str]:
    """Items that a procedure sets, opens, closes or lets gas in by."""
    for step in procedure.steps:
        yield from (*step.sets, *step.admits, *step.opens, *step.closes)


def _touched(procedure: Procedure) -> Iterator[str]:
    """Items and sections that a procedure handles or reads."""
    yield from _handled(procedure)
    for step in procedure.steps:
        yield from (*step.makes_inert, *step.makes_hydrogen)
        yield from (reading.at for reading in step.reads if reading.at)


def _live_legs(lineup: Lineup, coupled: frozenset[str]) -> Iterator[tuple[str, int]]:
    """The runs of lines on the live path, by line and number."""
    piping = lineup.piping
    nodes = live_nodes(lineup, coupled)
    ports = energised(piping.network, lineup.reached.stand.positions, lineup.runs)
    round_the_pump = circulating(lineup)
    for name, line in piping.network.lines.items():
        for number, run in enumerate(line.runs):
            carries = line.medium == "electric" and {run.start, run.end} <= ports
            node = piping.node[run.start]
            # Water that stands beside gas without pressure is no live path: it is where a pump moves it.
            held = (
                lineup.reached.is_fed(node) if line.medium == "water" else line.medium != "electric" and node in nodes
            )
            if carries or held or (name, number) in round_the_pump:
                yield name, number


def _link_says(network: Network, tag: str, states: Mapping[str, str]) -> str:
    state = say(f"pages.position.{states[tag]}") if tag in states else ""
    return ", ".join(part for part in (tag, network.items[tag].title, state) if part)


def _beyond(tags: str, onward: bool) -> diagrams.Text:
    """How the place is said at which a line goes on beyond the drawing."""
    return diagrams.Text(say("drawing.goes_to" if onward else "drawing.comes_from", tags=tags))


# --- the sheets of a plant


class _Sheets:
    """The whole sheet of a plant, and the part on which each procedure is drawn: one plan for all of them."""

    def __init__(self, plant: Plant) -> None:
        names = lineups(plant).file.procedures
        self.procedures = {name: _Drawn(plant, self, name) for name in names}
        self._items = [drawn_item(plant, item) for item in plant.network.items.values()]
        self._network = plant.network
        self._parts: dict[Part, Sheet] = {}

    def of(self, part: Part) -> Sheet:
        if part not in self._parts:
            whole = frozenset(self._network.items)
            self._parts[part] = self._whole.part(*part, _beyond) if part[0] != whole else self._whole
            self._parts[part] = self._parts[part].closer()
        return self._parts[part]

    @cached_property
    def _whole(self) -> Sheet:
        return Sheet.of(self._items, drawn_lines(self._network), list(self._flagged()))

    def _flagged(self) -> Iterator[Flagged]:
        """Every section with all that its flag comes to say in any step of any procedure."""
        contents: dict[str, dict[tuple[Row, ...], None]] = {}
        for drawn in self.procedures.values():
            for flags in drawn.flags:
                for name, rows in flags.items():
                    contents.setdefault(name, {})[rows] = None
        items = self._network.items
        for name, all_rows in contents.items():
            beside = sorted(self._network.sections[name].items, key=lambda tag: _prominence(items[tag]))
            yield Flagged(name, tuple(beside), tuple(all_rows))


def _prominence(item: Item) -> int:
    """How far back an item stands among those beside which the flag of its section may stand."""
    # Beside a drain a flag would seem to speak of what is drained.
    return len(PROMINENT) if item.kind.name == "drain" else PROMINENT.index(item.kind.group)


_SHEETS: WeakKeyDictionary[Plant, _Sheets] = WeakKeyDictionary()
"""Finding the lines of a plant takes a second, and a plant does not change while it lives."""


def _drawn(plant: Plant, procedure: str) -> _Drawn:
    if plant not in _SHEETS:
        _SHEETS[plant] = _Sheets(plant)
    return _SHEETS[plant].procedures[procedure]
