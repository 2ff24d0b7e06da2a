"""
A network: items, the lines that join them, sections; plain data on which line-ups are proved and schematics drawn.

Pressures are handed in: a network knows what each port bears, not what reaches it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from macros.description.chains import Stop
from macros.description.item_kinds import GASES, HYDROGEN, ITEM_KINDS, ItemKind
from macros.description.loading import Description
from macros.description.network_file import Item as DescribedItem
from macros.description.network_file import NetworkFile
from macros.description.network_file import Section as DescribedSection
from macros.network.kinds import How, Passage, passages
from macros.network.lines import Port, Run, parse_chain
from macros.quantities import Fault, Quantity, say

__all__ = ["Item", "Line", "Network", "Section", "Way"]

NEVER_TOGETHER = ((frozenset(HYDROGEN), frozenset(("oxygen", "air"))),)
"""Media that must not be joined freely; what a procedure may bring together is proved step by step."""


@dataclass(frozen=True)
class Item:
    """An item as the network has it."""

    tag: str
    kind: ItemKind
    title: str
    room: str | None
    at: tuple[float, float]
    facing: str
    settings: Mapping[str, Any]
    """What the description says of it: quantities, words, choices, by key."""
    ratings: Mapping[str, Quantity]
    """What each port bears, from the network or from the part of plant.yml that describes the item."""

    @property
    def normal_position(self) -> str | None:
        """Where it stands unless a state or step says otherwise; none where nothing can be set."""
        found = self.settings.get("normal_position")
        return found if isinstance(found, str) else None


@dataclass(frozen=True)
class Line:
    """A line with its runs from port to port."""

    id: str
    medium: str
    stops: tuple[Stop, ...]
    runs: tuple[Run, ...]
    title: str | None = None
    sizes: Mapping[str, Quantity] = field(default_factory=dict)


@dataclass(frozen=True)
class Section:
    """A part of the plant that figures and tests speak of as one."""

    name: str
    title: str
    items: tuple[str, ...]
    medium: str
    room: str
    free_volume: Quantity | None
    relief: tuple[str, ...]
    capped_by: tuple[str, ...]
    """Relief valves of other sections that cap it."""
    unprotected: str | None


@dataclass(frozen=True)
class Way:
    """A way from one port to another: a run of a line, or a passage through an item."""

    start: Port
    end: Port
    how: How
    through: str
    """Tag of the line or item."""

    @property
    def both_ways(self) -> bool:
        """Whether gas may go back as well in service."""
        return self.how in (How.FREE, How.LIMITS, How.LOWERS)


@dataclass(frozen=True)
class Network:
    """Items, lines and sections of a plant. Build with `Network.of`."""

    items: Mapping[str, Item]
    lines: Mapping[str, Line]
    sections: Mapping[str, Section]

    @classmethod
    def of(cls, description: Description) -> Network:
        """The network of a plant that was loaded."""
        return cls.build(description.network, ratings_in(description))

    @classmethod
    def build(cls, file: NetworkFile, ratings: Mapping[str, Mapping[str, Quantity]] | None = None) -> Network:
        """
        A network from its file.

        Parameters
        ----------
        file : NetworkFile
        ratings : mapping, optional
            By tag and port, for items whose ratings stand elsewhere; port `*` for all ports.

        Raises
        ------
        ChainError
            If a line joins what cannot be joined; a plant that was loaded has none of these.
        """
        kinds = {tag: item.kind for tag, item in file.items.items()}
        items = {tag: _item(tag, item, (ratings or {}).get(tag, {})) for tag, item in file.items.items()}
        lines = {}
        for name, line in file.lines.items():
            found, runs = parse_chain(name, line.chain, kinds)
            keys = ("outer_diameter", "wall", "wall_tolerance", "bore", "length", "fitting_rating")
            sizes = {key: value for key in keys if (value := getattr(line, key)) is not None}
            lines[name] = Line(name, line.medium, found, runs, line.title, sizes)
        return cls(items, lines, {name: _section(name, section) for name, section in file.sections.items()})

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        """Every run of every line."""
        return tuple(run for line in self.lines.values() for run in line.runs)

    @cached_property
    def media(self) -> Mapping[Port, frozenset[str]]:
        """What the lines at each port hold in service."""
        found: dict[Port, set[str]] = {}
        for line in self.lines.values():
            for run in line.runs:
                for port in (run.start, run.end):
                    found.setdefault(port, set()).add(line.medium)
        return {port: frozenset(media) for port, media in found.items()}

    def section_of(self, tag: str) -> str | None:
        """Name of the section that holds an item; none if none does."""
        return next((name for name, section in self.sections.items() if tag in section.items), None)

    def positions(self, changes: Mapping[str, str] | None = None) -> dict[str, str]:
        """The position of every item that has one: the normal one, unless changed."""
        normal = {tag: item.normal_position for tag, item in self.items.items()}
        return {tag: position for tag, position in normal.items() if position is not None} | dict(changes or {})

    def ways(self, positions: Mapping[str, str] | None = None) -> Iterator[Way]:
        """
        Every way that is open, run by run and passage by passage.

        Parameters
        ----------
        positions : mapping, optional
            Position by tag. Items that are left out stand as if every way through them were open.
        """
        for run in self.runs:
            yield Way(run.start, run.end, How.FREE, run.line)
        for tag, item in self.items.items():
            for passage in passages(item.kind.name, (positions or {}).get(tag)):
                yield Way((tag, passage.start), (tag, passage.end), passage.how, tag)

    def joined(self, port: Port, positions: Mapping[str, str]) -> frozenset[Port]:
        """Every port that stands at one pressure with a port: joined by lines and ways that gas may go back."""
        neighbours: dict[Port, set[Port]] = {}
        for way in self.ways(positions):
            if way.how in (How.FREE, How.LIMITS):
                neighbours.setdefault(way.start, set()).add(way.end)
                neighbours.setdefault(way.end, set()).add(way.start)
        found, waiting = {port}, [port]
        while waiting:
            for near in neighbours.get(waiting.pop(), set()) - found:
                found.add(near)
                waiting.append(near)
        return frozenset(found)

    def findings(self, file: str = "network.yml") -> Iterator[Fault]:
        """What a reviewer must look at, though the description can be read: no errors of writing."""
        yield from self._unprotected(file)
        yield from self._in_no_section(file)
        yield from self._elsewhere(file)
        yield from self._meeting(file)

    def _unprotected(self, file: str) -> Iterator[Fault]:
        for name, section in self.sections.items():
            key = f"sections.{name}"
            if section.medium in GASES and not (section.relief or section.capped_by or section.unprotected):
                yield Fault(file, 0, key, say("network.no_relief", section=section.title))
            for tag in section.relief:
                if not self._protects(tag, section):
                    yield Fault(file, 0, key, say("network.relief_apart", tag=tag, section=section.title))

    def _protects(self, tag: str, section: Section) -> bool:
        """Whether a relief valve stands at one pressure with some item of a section, whatever else is shut."""
        shut = {each: "closed" for each, item in self.items.items() if item.kind.positions}
        reached = {each for each, _ in self.joined((tag, "in"), self.positions() | shut)}
        return bool(reached & set(section.items) - {tag}) or tag in section.items

    def _in_no_section(self, file: str) -> Iterator[Fault]:
        held = {tag for section in self.sections.values() for tag in section.items}
        for tag, item in self.items.items():
            media = {medium for port, found in self.media.items() if port[0] == tag for medium in found}
            if tag not in held and media & {*HYDROGEN, "oxygen"} and item.kind.name not in ("vent", "junction"):
                yield Fault(file, 0, f"items.{tag}", say("network.in_no_section", tag=tag))

    def _elsewhere(self, file: str) -> Iterator[Fault]:
        for name, section in self.sections.items():
            for tag in section.items:
                room = self.items[tag].room
                if room is None:
                    yield Fault(file, 0, f"items.{tag}", say("network.no_room", tag=tag))
                elif room != section.room:
                    yield Fault(
                        file, 0, f"sections.{name}", say("network.elsewhere", tag=tag, room=room, other=section.room)
                    )

    def _meeting(self, file: str) -> Iterator[Fault]:
        """Lines of media that must never meet, at ports of one item that are joined freely."""
        for tag, item in self.items.items():
            groups: list[set[str]] = [{port} for port in item.kind.ports]
            for passage in passages(item.kind.name):
                if passage.how not in (How.CROSSES, How.DRIVES, How.CONDUCTS):
                    groups = _merged(groups, passage)
            for group in groups:
                media = {medium for port in group for medium in self.media.get((tag, port), ())}
                for some, others in NEVER_TOGETHER:
                    if media & some and media & others:
                        found = say("description.or").join(sorted(media & (some | others)))
                        yield Fault(file, 0, f"items.{tag}", say("network.media_meet", tag=tag, media=found))


def _merged(groups: list[set[str]], passage: Passage) -> list[set[str]]:
    touched = [group for group in groups if passage.start in group or passage.end in group]
    return [group for group in groups if group not in touched] + [set().union(*touched)]


def _item(tag: str, item: DescribedItem, ratings: Mapping[str, Quantity]) -> Item:
    kind = ITEM_KINDS[item.kind]
    keys = (*kind.needs, *kind.may, "ignition_class", "leak_class", "seal_leak_area", "note")
    settings = {key: value for key in keys if (value := getattr(item, key)) is not None}
    borne: dict[str, Quantity] = {}
    for port in kind.ports:
        own = item.outlet_rating if port == "out" and item.outlet_rating is not None else item.rating
        found = ratings.get(port) or ratings.get("*") or own
        if found is not None:
            borne[port] = found
    column, row = item.at
    return Item(tag, kind, item.title, item.room, (column, row), item.facing, settings, borne)


def _section(name: str, section: DescribedSection) -> Section:
    return Section(
        name, section.title, tuple(section.items), section.medium, section.room, section.free_volume,
        tuple(section.relief), tuple(section.capped_by), section.unprotected,
    )  # fmt: skip


def ratings_in(description: Description) -> dict[str, dict[str, Quantity]]:
    """What the parts of plant.yml bear, by tag and port."""
    plant = description.plant
    found: dict[str, dict[str, Quantity]] = {}
    for tag, item in description.network.items.items():
        if item.kind == "stack":
            hydrogen_side, oxygen_side = plant.stack.pressure_rating, plant.stack.anode_rating
            found[tag] = {
                "h2": hydrogen_side, "h2_water": hydrogen_side, "o2": oxygen_side, "water_in": oxygen_side,
            }  # fmt: skip
    if plant.buffer is not None:
        found[plant.buffer.tag] = {"*": plant.buffer.allowable_pressure}
    for booster in plant.boosters:
        found[booster.tag] = {
            "in": booster.inlet_highest, "out": booster.discharge_rating, "drive_air": booster.drive_rating,
        }  # fmt: skip
    for bank in plant.banks.values():
        found[bank.tag] = {"*": bank.working_pressure}
    for use in plant.uses:
        if use.nominal_pressure is not None:
            found[use.tag] = {"*": use.nominal_pressure}
    return found
