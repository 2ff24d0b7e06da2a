"""
Checks that reach from one place of a description to another: tags, names, orders, states.

They look at what was read right and keep silent about what was not, so that one mistake is told once.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from macros.description.chains import Wiring, nearest
from macros.description.fields import TAG, Part, comparable, is_tag
from macros.description.item_kinds import COMMON, ITEM_KINDS
from macros.description.judging import nearest_word
from macros.description.references import references
from macros.description.shape import key_pattern, slot_at
from macros.description.strict_yaml import Document, Path, dotted
from macros.quantities import Fault, Quantity, QuantityError, read, say, show

__all__ = ["Sheet", "crossing_faults"]


@dataclass
class Sheet:
    """A file of a description while it is judged: what was read, and which of its paths are at fault."""

    name: str
    """As messages show it."""
    root: type[Part]
    document: Document
    at_fault: set[Path] = field(default_factory=set)

    def sound(self, path: Path) -> bool:
        """Whether nothing is wrong with a path or anything above it."""
        return not any(path[:length] in self.at_fault for length in range(len(path) + 1))

    def get(self, *path: str | int) -> Any:
        """The value at a path as typed; none where it is absent or at fault."""
        value: Any = self.document.data
        for step in path:
            if isinstance(value, dict) and isinstance(step, str) and step in value:
                value = value[step]
            elif isinstance(value, list) and isinstance(step, int) and 1 <= step <= len(value):
                value = value[step - 1]
            else:
                return None
        return value if self.sound(path) else None

    def text(self, *path: str | int) -> str | None:
        """The text at a path; none where there is none that was read right."""
        value = self.get(*path)
        return value if isinstance(value, str) else None

    def mapping(self, *path: str | int) -> dict[str, Any]:
        """The mapping at a path; empty where there is none that was read right."""
        value = self.get(*path)
        return value if isinstance(value, dict) else {}

    def numbers(self, *path: str | int) -> range:
        """The places of the list at a path, from 1."""
        value = self.get(*path)
        return range(1, len(value) + 1) if isinstance(value, list) else range(0)

    def quantity(self, *path: str | int) -> Quantity | None:
        """The quantity at a path; none where there is none that was read right."""
        slot, value = slot_at(self.root, path), self.get(*path)
        if value is None or slot is None or slot.measure is None:
            return None
        try:
            return read(str(value), slot.measure.asked)
        except QuantityError:
            return None

    def fault(self, path: Path, message: str) -> Fault:
        """A fault at a path of this file."""
        return Fault(self.name, self.document.line(path), dotted(path), message)


SILENT = frozenset(("*",))
"""Stands for names that are not known because what lists them is at fault: every name then passes."""

STAGE_KINDS = {
    "separator": "separator",
    "coalescer": "coalescer",
    "desiccant": "desiccant_column",
    "cold_coil": "cold_coil",
}
STAGE_NEEDS = {
    "desiccant": (
        "bed_mass", "transfer_zone", "regeneration_temperature", "regeneration_dew_point", "column_heat_capacity",
        "regeneration_efficiency",
    ),
    "cold_coil": ("coolant_temperature", "coil_coefficient"),
}  # fmt: skip
"""What a stage of a kind cannot do without: no figure may be missing for want of a size."""

USE_KINDS = {"burner": "burner", "fuel_cell": "fuel_cell", "vehicle": "vehicle_tank"}
RELIEFS = ("relief_valve", "burst_disc")
SENSORS = ("transmitter", "pressure_switch", "gas_detector", "pressure_gauge")


def crossing_faults(plant: Sheet, network: Sheet, procedures: Sheet, parts: Sheet) -> Iterator[Fault]:
    """Everything that does not fit together."""
    judge = _Judge(plant, network, procedures, parts)
    for sheet in (plant, network, procedures, parts):
        yield from _keys(sheet)
    yield from judge.settings()
    yield from judge.wiring()
    yield from judge.plant_tags()
    yield from judge.stages()
    yield from judge.described_items()
    yield from judge.names()
    yield from judge.orders()
    yield from judge.sections()
    yield from judge.train_volume()
    yield from judge.states_and_steps()
    yield from judge.parts_tags()


def _keys(sheet: Sheet) -> Iterator[Fault]:
    """Keys that are names or tags look like it."""

    def walk(value: Any, path: Path) -> Iterator[Fault]:
        slot = slot_at(sheet.root, path)
        if slot is None or not isinstance(value, dict):
            return
        pattern = key_pattern(slot)
        for key, below in value.items():
            if pattern is not None and re.fullmatch(pattern, key) is None:
                message = "description.pattern.tag" if pattern == TAG else "description.pattern.name"
                yield sheet.fault((*path, key), say(message, found=f'"{key}"'))
            yield from walk(below, (*path, key))

    yield from walk(sheet.document.data, ())


class _Judge:
    """Holds the files side by side and what they name."""

    def __init__(self, plant: Sheet, network: Sheet, procedures: Sheet, parts: Sheet) -> None:
        self.plant, self.network, self.procedures, self.parts = plant, network, procedures, parts
        items = network.mapping("items")
        self.kinds: dict[str, str | None] = {
            tag: kind if (kind := network.text("items", tag, "kind")) in ITEM_KINDS else None for tag in items
        }
        self.items_known = bool(items)
        self.rooms = self._names(plant, "rooms")
        self.banks = self._names(plant, "banks")
        self.states = self._names(procedures, "states")
        self.told: list[Fault] = []

    def _names(self, sheet: Sheet, key: str) -> frozenset[str]:
        if not sheet.sound((key,)) or not sheet.document.data:
            return SILENT
        return frozenset(sheet.mapping(key))

    # --- the items themselves ----------------------------------------------------------------

    def settings(self) -> Iterator[Fault]:
        """Each item has the settings that its kind needs, and no others."""
        for tag, item in self.network.mapping("items").items():
            kind_name = self.network.text("items", tag, "kind")
            if not isinstance(item, dict) or kind_name is None:
                continue
            path = ("items", tag)
            if kind_name not in ITEM_KINDS:
                near = nearest_word(kind_name, list(ITEM_KINDS))
                key = "description.unknown_kind_near" if near else "description.unknown_kind"
                named = {"nearest": near} if near else {}
                yield self.network.fault((*path, "kind"), say(key, found=kind_name, **named))
                continue
            kind = ITEM_KINDS[kind_name]
            known = list(kind.keys)
            # A key that no kind has was told already; here are those that another kind has.
            alien = [key for key in item if key not in known and self.network.sound((*path, key))]
            for key in alien:
                own = ", ".join(each for each in known if each not in COMMON)
                ours = {"known": own} if own else {}
                message = "description.key_of_another_kind" if own else "description.no_settings"
                yield self.network.fault((*path, key), say(message, key=key, kind=kind_name, **ours))
            meant = {nearest_word(key, known) for key in item if key not in known}
            for key in kind.needs:
                if key not in item and key not in meant and self.network.sound((*path, key)):
                    message = say("description.setting_missing", kind=kind_name, title=self._title(key))
                    yield self.network.fault((*path, key), message)
            yield from self._positions_of(tag, item)

    def _title(self, key: str) -> str:
        slot = slot_at(self.network.root, ("items", "X1", key))
        return slot.title if slot is not None else key

    def _positions_of(self, tag: str, item: dict[str, Any]) -> Iterator[Fault]:
        position = self.network.text("items", tag, "normal_position")
        if position is not None and "normal_position" in ITEM_KINDS[item["kind"]].keys:
            yield from self._position(self.network, ("items", tag, "normal_position"), tag, position)

    def _position(self, sheet: Sheet, path: Path, tag: str, position: Any) -> Iterator[Fault]:
        """An item can take the position that it is given."""
        kind_name = self.kinds.get(tag)
        if kind_name is None or not isinstance(position, str):
            return
        kind = ITEM_KINDS[kind_name]
        if not kind.positions:
            yield sheet.fault(path, say("description.no_positions", tag=tag, kind=kind_name))
        elif position not in kind.positions:
            known = ", ".join(kind.positions)
            yield sheet.fault(path, say("description.no_position", tag=tag, found=position, known=known))

    def wiring(self) -> Iterator[Fault]:
        """Each line joins items that exist, at ports that exist and are free."""
        if not self.items_known:
            return
        hanging = {
            tag for tag in self.kinds if self.network.text("items", tag, "measures") in ("cell_voltage", "fan_flow")
        }
        wiring = Wiring({tag: kind for tag, kind in self.kinds.items() if tag not in hanging})
        written = self.network.mapping("lines")
        for line in written:
            if line in self.kinds:
                yield self.network.fault(("lines", line), say("description.line_as_item", line=line))
        chains = {
            line: (chain, self.network.text("lines", line, "medium"))
            for line in written
            if (chain := self.network.text("lines", line, "chain")) is not None
        }
        if len(chains) < len(written) or not self.network.sound(("lines",)):
            wiring.complete = False
        for found in wiring.faults(chains):
            path: Path = ("lines", found.line, "chain") if found.line is not None else ("items", found.tag or "")
            yield self.network.fault(path, found.message)

    # --- what plant.yml says of items ----------------------------------------------------------

    def _tag(self, sheet: Sheet, path: Path, kinds: Iterable[str] = (), groups: Iterable[str] = ()) -> Iterator[Fault]:
        """A tag stands in the network and is of the right kind."""
        tag = sheet.text(*path)
        if tag is None or not is_tag(tag) or not self.items_known:
            return
        if tag not in self.kinds:
            yield sheet.fault(path, say("description.unknown_tag", tag=tag, nearest=nearest(tag, self.kinds)))
            return
        kind = self.kinds[tag]
        wanted = [*kinds, *(each.name for each in ITEM_KINDS.values() if each.group in tuple(groups))]
        if kind is not None and wanted and kind not in wanted:
            words = say("description.or").join(wanted)
            yield sheet.fault(path, say("description.wrong_kind_of_item", tag=tag, kind=kind, wanted=words))

    def plant_tags(self) -> Iterator[Fault]:
        """Each tag of plant.yml is an item of the right kind, and no two parts have the same."""
        plant = self.plant
        paths: list[tuple[Path, tuple[str, ...]]] = []
        for number in plant.numbers("drying"):
            kind = plant.text("drying", number, "kind")
            paths.append((("drying", number, "tag"), (STAGE_KINDS[kind],) if kind in STAGE_KINDS else ()))
        paths.append((("buffer", "tag"), ("buffer",)))
        paths.extend((("boosters", number, "tag"), ("booster",)) for number in plant.numbers("boosters"))
        paths.extend((("banks", bank, "tag"), ("bank",)) for bank in plant.mapping("banks"))
        for number in plant.numbers("uses"):
            kind = plant.text("uses", number, "kind")
            paths.append((("uses", number, "tag"), (USE_KINDS[kind],) if kind in USE_KINDS else ()))
        first: dict[str, Path] = {}
        for path, kinds in paths:
            yield from self._tag(plant, path, kinds)
            tag = plant.text(*path)
            if tag is not None and first.setdefault(tag, path) != path:
                yield plant.fault(path, say("description.tag_twice", tag=tag, first=dotted(first[tag])))
        yield from self._tag(plant, ("buffer", "relief"), RELIEFS)
        for number in plant.numbers("trips"):
            yield from self._tag(plant, ("trips", number, "sensor"), SENSORS)
            for key in ("shuts", "opens"):
                for place in plant.numbers("trips", number, key):
                    yield from self._tag(plant, ("trips", number, key, place), ("actuated_valve",))
            for key in ("alarm", "trip"):
                yield from self._limit(("trips", number, key))

    def stages(self) -> Iterator[Fault]:
        """Each stage of gas treatment has the sizes that its kind needs; no coil cools below its coolant."""
        plant = self.plant
        for number in plant.numbers("drying"):
            stage, kind = ("drying", number), plant.text("drying", number, "kind")
            written = plant.mapping(*stage)
            for key in STAGE_NEEDS.get(kind or "", ()):
                slot = slot_at(plant.root, (*stage, key))
                if written and key not in written and slot is not None:
                    message = say("description.setting_missing", title=slot.title, kind=kind)
                    yield plant.fault((*stage, key), message)
            if kind == "cold_coil":
                yield from self._rising((*stage, "coolant_temperature"), (*stage, "temperature"))

    def _limit(self, path: Path) -> Iterator[Fault]:
        """A limit of a trip is a quantity, or one reference to where it stands already."""
        text = self.plant.text(*path)
        if text is None:
            return
        found = references(text)
        if len(found) == 1 and found[0].start == 0 and found[0].end == len(text):
            return
        try:
            read(text)
        except QuantityError as error:
            yield self.plant.fault(path, str(error))

    def described_items(self) -> Iterator[Fault]:
        """What plant.yml must describe, because only there its ratings stand, is described there."""
        plant, document = self.plant, self.plant.document.data
        if not self.items_known or not document:
            return
        stacks = [tag for tag, kind in self.kinds.items() if kind == "stack"]
        if None not in self.kinds.values() and not stacks:
            yield self.network.fault(("items",), say("description.no_stack"))
        for tag in stacks[1:]:
            yield self.network.fault(("items", tag), say("description.second_stack", first=stacks[0]))
        named: set[Any] = set()
        for key in ("drying", "buffer", "boosters", "banks", "uses"):
            entries = document.get(key)
            if isinstance(entries, dict):
                entries = entries.values() if key == "banks" else [entries]
            elif not isinstance(entries, list):
                continue
            named.update(each.get("tag") for each in entries if isinstance(each, dict))
        if any(not isinstance(tag, str) or tag not in self.kinds for tag in named):
            # A tag that is misspelt there may well mean one of these.
            return
        for tag, kind in self.kinds.items():
            described = ITEM_KINDS[kind].described if kind is not None else ""
            if described in ("buffer", "boosters", "banks", "uses") and tag not in named and plant.sound((described,)):
                yield self.network.fault(("items", tag), say("description.not_described", kind=kind, part=described))

    # --- names and orders ------------------------------------------------------------------------

    def _name(self, sheet: Sheet, path: Path, known: frozenset[str], key: str) -> Iterator[Fault]:
        name = sheet.text(*path)
        if name is not None and known is not SILENT and name not in known:
            yield sheet.fault(path, say(key, name=name, nearest=nearest(name, known)))

    def names(self) -> Iterator[Fault]:
        """Rooms, banks and supplies exist."""
        plant = self.plant
        supplies = self.banks
        if supplies is not SILENT and (not plant.sound(("buffer",)) or plant.document.data.get("buffer") is not None):
            supplies = supplies | {"buffer"}
        for bank in plant.mapping("banks"):
            yield from self._name(plant, ("banks", bank, "room"), self.rooms, "description.unknown_room")
        for number in plant.numbers("boosters"):
            yield from self._name(plant, ("boosters", number, "supply"), supplies, "description.unknown_supply")
            yield from self._name(plant, ("boosters", number, "target"), self.banks, "description.unknown_bank")
        for number in plant.numbers("transfers"):
            yield from self._name(plant, ("transfers", number, "source"), self.banks, "description.unknown_bank")
            yield from self._name(plant, ("transfers", number, "target"), self.banks, "description.unknown_bank")
            booster = plant.quantity("transfers", number, "booster")
            boosters = len(plant.numbers("boosters"))
            if booster is not None and plant.sound(("boosters",)) and booster.si > boosters:
                message = say("description.no_such_booster", found=booster.text, count=boosters)
                yield plant.fault(("transfers", number, "booster"), message)
        for number in plant.numbers("uses"):
            for place in plant.numbers("uses", number, "supply"):
                yield from self._name(plant, ("uses", number, "supply", place), supplies, "description.unknown_supply")
        for tag in self.network.mapping("items"):
            yield from self._name(self.network, ("items", tag, "room"), self.rooms, "description.unknown_room")
        for section in self.network.mapping("sections"):
            yield from self._name(self.network, ("sections", section, "room"), self.rooms, "description.unknown_room")

    def _rising(self, *paths: Path, equal: bool = False) -> Iterator[Fault]:
        """Quantities stand in rising order; a fault at the later of two that do not."""
        for lower, upper in itertools.pairwise(paths):
            low, high = self.plant.quantity(*lower), self.plant.quantity(*upper)
            if low is None or high is None:
                continue
            if comparable(low) > comparable(high) or (not equal and comparable(low) == comparable(high)):
                key = "description.not_at_least" if equal else "description.not_above"
                yield self.plant.fault(upper, say(key, found=high.text, other=dotted(lower), value=low.text))

    def orders(self) -> Iterator[Fault]:
        """Limits stand in the order that makes sense of them."""
        plant = self.plant
        yield from self._rising(("site", "coldest"), ("site", "usual"), ("site", "hottest"), equal=True)
        yield from self._rising(("stack", "temperature"), ("stack", "temperature_trip"))
        yield from self._rising(("water", "usable"), ("water", "reservoir"), equal=True)
        yield from self._rising(("buffer", "cut_in"), ("buffer", "cut_out"), ("buffer", "high_trip"))
        for number in plant.numbers("boosters"):
            booster = ("boosters", number)
            yield from self._rising((*booster, "drive_pressure"), (*booster, "drive_pressure_highest"), equal=True)
        for bank in plant.mapping("banks"):
            yield from self._rising(
                ("banks", bank, "fill_pressure"), ("banks", bank, "working_pressure"), ("banks", bank, "test_pressure"),
                equal=True,
            )  # fmt: skip
        for number in plant.numbers("uses"):
            if plant.text("uses", number, "kind") == "vehicle":
                yield from self._cascade(number)
        months = plant.numbers("power", "surplus")
        if plant.get("power", "surplus") is not None and len(months) != 12:
            yield plant.fault(("power", "surplus"), say("description.not_twelve", found=len(months)))

    def _cascade(self, use: int) -> Iterator[Fault]:
        """A vehicle draws from the bank of the lowest pressure first: one that follows a higher gives nothing."""
        before: tuple[str, Quantity] | None = None
        for place in self.plant.numbers("uses", use, "supply"):
            name = self.plant.text("uses", use, "supply", place)
            fill = self.plant.quantity("banks", name, "fill_pressure") if name is not None else None
            if name is None or fill is None:
                continue
            if before is not None and comparable(fill) < comparable(before[1]):
                message = say(
                    "description.fill_order", name=name, value=fill.text, before=before[0], other=before[1].text
                )
                yield self.plant.fault(("uses", use, "supply", place), message)
            before = (name, fill)

    # --- sections, procedures, parts -------------------------------------------------------------

    def sections(self) -> Iterator[Fault]:
        """A section holds items that exist, each in one section only, and names its reliefs."""
        first: dict[str, str] = {}
        for section in self.network.mapping("sections"):
            for place in self.network.numbers("sections", section, "items"):
                path = ("sections", section, "items", place)
                yield from self._tag(self.network, path)
                tag = self.network.text(*path)
                if tag is not None and first.setdefault(tag, section) != section:
                    yield self.network.fault(path, say("description.in_two_sections", tag=tag, first=first[tag]))
            for key in ("relief", "capped_by"):
                for place in self.network.numbers("sections", section, key):
                    yield from self._tag(self.network, ("sections", section, key, place), RELIEFS)

    def train_volume(self) -> Iterator[Fault]:
        """The sections that ride with the buffer add up to the train volume that plant.yml says."""
        total = self.plant.quantity("buffer", "train_volume")
        riding = [
            section
            for section in self.network.mapping("sections")
            if self.network.get("sections", section, "rides_with_buffer") is True
        ]
        volumes = [self.network.quantity("sections", section, "free_volume") for section in riding]
        if total is None or not volumes or not self.network.sound(("sections",)):
            return
        known = [volume.si for volume in volumes if volume is not None]
        if len(known) == len(volumes) and not math.isclose(sum(known), total.si, rel_tol=1e-6):
            message = say("description.train_volume", found=total.text, sum=show(sum(known), total.unit, digits=4))
            yield self.plant.fault(("buffer", "train_volume"), message)

    def _sets(self, path: Path) -> Iterator[Fault]:
        """Positions are given to items that have them."""
        sheet = self.procedures
        for tag, position in sheet.mapping(*path).items():
            here = (*path, tag)
            if not is_tag(tag) or not sheet.sound(here) or not self.items_known:
                continue
            if tag not in self.kinds:
                yield sheet.fault(here, say("description.unknown_tag", tag=tag, nearest=nearest(tag, self.kinds)))
            else:
                yield from self._position(sheet, here, tag, position)

    def _place(self, path: Path, *, items: bool) -> Iterator[Fault]:
        """A section, or an item where items are allowed."""
        sheet, word = self.procedures, self.procedures.text(*path)
        if word is None:
            return
        sections = self._names(self.network, "sections")
        if items and is_tag(word):
            yield from self._tag(sheet, path)
        elif sections is not SILENT and word not in sections:
            known = [*sections, *(self.kinds if items else ())]
            yield sheet.fault(path, say("description.unknown_section", name=word, nearest=nearest(word, known)))

    def states_and_steps(self) -> Iterator[Fault]:
        """States and steps set items that can be set, and procedures lead from state to state."""
        sheet = self.procedures
        for state in sheet.mapping("states"):
            yield from self._sets(("states", state, "positions"))
            for key in ("inert", "air"):
                for place in sheet.numbers("states", state, key):
                    yield from self._place(("states", state, key, place), items=False)
        for name in sheet.mapping("procedures"):
            for key in ("start", "end"):
                yield from self._name(sheet, ("procedures", name, key), self.states, "description.unknown_state")
            told = len(self.told)
            for number in sheet.numbers("procedures", name, "steps"):
                for fault in self._step(("procedures", name, "steps", number)):
                    self.told.append(fault)
                    yield fault
            if len(self.told) == told:
                yield from self._ends(name)

    def _ends(self, name: str) -> Iterator[Fault]:
        """The steps of a procedure lead to the state in which it says it ends."""
        sheet = self.procedures
        path: Path = ("procedures", name)
        start, end = sheet.text(*path, "start"), sheet.text(*path, "end")
        below = any(each[: len(path)] == path or each[:1] == ("states",) for each in sheet.at_fault)
        if below or start not in self.states or end not in self.states or None in self.kinds.values():
            return
        positions, runs = self._state(start)
        for number in sheet.numbers(*path, "steps"):
            positions |= sheet.mapping(*path, "steps", number, "sets")
            step = sheet.mapping(*path, "steps", number)
            runs = (runs - set(step.get("stops", ()))) | set(step.get("starts", ()))
        wanted_positions, wanted_runs = self._state(end)
        wrong = [
            say("description.left_at", tag=tag, position=position, wanted=wanted_positions[tag])
            for tag, position in positions.items()
            if position != wanted_positions.get(tag, position)
        ]
        wrong += [say("description.left_running", drive=drive) for drive in sorted(runs - wanted_runs)]
        wrong += [say("description.left_still", drive=drive) for drive in sorted(wanted_runs - runs)]
        if wrong:
            yield sheet.fault((*path, "end"), say("description.ends_elsewhere", state=end, found=", ".join(wrong)))

    def _state(self, name: str) -> tuple[dict[str, str], set[str]]:
        """Positions of all items that have one, and what runs, in a state."""
        normal = {tag: self.network.text("items", tag, "normal_position") for tag in self.kinds}
        positions = {tag: position for tag, position in normal.items() if position is not None}
        state = self.procedures.mapping("states", name)
        return positions | state.get("positions", {}), set(state.get("runs", ()))

    def _step(self, step: Path) -> Iterator[Fault]:
        sheet = self.procedures
        yield from self._sets((*step, "sets"))
        for key in ("opens", "closes"):
            for place in sheet.numbers(*step, key):
                yield from self._tag(sheet, (*step, key, place))
        for place in sheet.numbers(*step, "admits"):
            yield from self._tag(sheet, (*step, "admits", place), ("purge_inlet",))
        for key in ("makes_inert", "makes_hydrogen"):
            for place in sheet.numbers(*step, key):
                yield from self._place((*step, key, place), items=True)
        for place in sheet.numbers(*step, "reads"):
            yield from self._tag(sheet, (*step, "reads", place, "at"))

    def parts_tags(self) -> Iterator[Fault]:
        """Parts are bought for items or lines that exist."""
        known = {*self.kinds, *self.network.mapping("lines")}
        for number in self.parts.numbers("parts"):
            for place in self.parts.numbers("parts", number, "tags"):
                path = ("parts", number, "tags", place)
                tag = self.parts.text(*path)
                if tag is not None and self.items_known and tag not in known:
                    yield self.parts.fault(path, say("description.unknown_tag", tag=tag, nearest=nearest(tag, known)))
