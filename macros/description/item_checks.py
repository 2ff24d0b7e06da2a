"""Checks of items, lines and sections against their kinds, each other, and plant.yml."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from macros.description.chains import Wiring
from macros.description.item_kinds import COMMON, ITEM_KINDS
from macros.description.judging import nearest_word
from macros.description.naming import RELIEFS, Naming, keys_sound
from macros.description.shape import slot_at
from macros.description.sheet import Sheet
from macros.description.strict_yaml import Path
from macros.quantities import Fault, say, show

__all__ = ["item_faults"]

HANGING = ("cell_voltage", "fan_flow")
"""What a transmitter measures without a line to it."""


def item_faults(naming: Naming) -> Iterator[Fault]:
    """Everything wrong with items, lines and sections."""
    yield from settings(naming)
    yield from wiring(naming)
    yield from described_items(naming)
    yield from sections(naming)
    yield from train_volume(naming)


def settings(naming: Naming) -> Iterator[Fault]:
    """Each item has the settings that its kind needs, and no others."""
    for tag, item in naming.network.mapping("items").items():
        kind_name = naming.network.text("items", tag, "kind")
        if not isinstance(item, dict) or kind_name is None:
            continue
        path = ("items", tag)
        if kind_name not in ITEM_KINDS:
            near = nearest_word(kind_name, list(ITEM_KINDS))
            key = "description.unknown_kind_near" if near else "description.unknown_kind"
            named = {"nearest": near} if near else {}
            yield naming.network.fault((*path, "kind"), say(key, found=kind_name, **named))
            continue
        kind = ITEM_KINDS[kind_name]
        known = list(kind.keys)
        # A key that no kind has was told already; here are those that another kind has.
        alien = [key for key in item if key not in known and naming.network.sound((*path, key))]
        for key in alien:
            own = ", ".join(each for each in known if each not in COMMON)
            ours = {"known": own} if own else {}
            message = "description.key_of_another_kind" if own else "description.no_settings"
            yield naming.network.fault((*path, key), say(message, key=key, kind=kind_name, **ours))
        meant = {nearest_word(key, known) for key in item if key not in known}
        for key in kind.needs:
            if key not in item and key not in meant and naming.network.sound((*path, key)):
                message = say("description.setting_missing", kind=kind_name, title=_title(naming, key))
                yield naming.network.fault((*path, key), message)
        yield from _positions_of(naming, tag, item)


def lines_sound(network: Sheet) -> bool:
    """Whether every line was read, so that an item on none of them is on none at all."""
    return keys_sound(network, "lines") and not any(
        each[:1] == ("lines",) and len(each) == 2 for each in network.at_fault
    )


def _title(naming: Naming, key: str) -> str:
    slot = slot_at(naming.network.root, ("items", "X1", key))
    return slot.title if slot is not None else key


def _positions_of(naming: Naming, tag: str, item: dict[str, Any]) -> Iterator[Fault]:
    position = naming.network.text("items", tag, "normal_position")
    if position is not None and "normal_position" in ITEM_KINDS[item["kind"]].keys:
        yield from naming.position(naming.network, ("items", tag, "normal_position"), tag, position)


def wiring(naming: Naming) -> Iterator[Fault]:
    """Each line joins items that exist, at ports that exist and are free."""
    if not naming.items_known:
        return
    hanging = {tag for tag in naming.kinds if naming.network.text("items", tag, "measures") in HANGING}
    wires = Wiring(naming.kinds, hanging)
    written = naming.network.mapping("lines")
    for line in written:
        if line in naming.kinds:
            yield naming.network.fault(("lines", line), say("description.line_as_item", line=line))
    chains = {
        line: (chain, naming.network.text("lines", line, "medium"))
        for line in written
        if (chain := naming.network.text("lines", line, "chain")) is not None
    }
    if len(chains) < len(written) or not naming.network.sound(("lines",)) or not lines_sound(naming.network):
        wires.complete = False
    for found in wires.faults(chains):
        if found.unknown is not None:
            naming.tag_stands(naming.network, ("lines", found.line or "", "chain"), found.unknown)
            continue
        path: Path = ("lines", found.line, "chain") if found.line is not None else ("items", found.tag or "")
        yield naming.network.fault(path, found.message)


def described_items(naming: Naming) -> Iterator[Fault]:
    """What plant.yml must describe, because only there its ratings stand, is described there."""
    plant, document = naming.plant, naming.plant.document.data
    if not naming.items_known or not document:
        return
    stacks = [tag for tag, kind in naming.kinds.items() if kind == "stack"]
    if None not in naming.kinds.values() and not stacks:
        yield naming.network.fault(("items",), say("description.no_stack"))
    for tag in stacks[1:]:
        yield naming.network.fault(("items", tag), say("description.second_stack", first=stacks[0]))
    named: set[Any] = set()
    for key in ("drying", "buffer", "boosters", "banks", "uses"):
        entries = document.get(key)
        if isinstance(entries, dict):
            entries = entries.values() if key == "banks" else [entries]
        elif not isinstance(entries, list):
            continue
        named.update(each.get("tag") for each in entries if isinstance(each, dict))
    if any(not isinstance(tag, str) or tag not in naming.kinds for tag in named):
        # A tag that is misspelt there may well mean one of these.
        return
    for tag, kind in naming.kinds.items():
        described = ITEM_KINDS[kind].described if kind is not None else ""
        if described in ("buffer", "boosters", "banks", "uses") and tag not in named and plant.sound((described,)):
            yield naming.network.fault(("items", tag), say("description.not_described", kind=kind, part=described))


def sections(naming: Naming) -> Iterator[Fault]:
    """A section holds items that exist, each in one section only, and names its reliefs."""
    first: dict[str, str] = {}
    for section in naming.network.mapping("sections"):
        for place in naming.network.numbers("sections", section, "items"):
            path = ("sections", section, "items", place)
            yield from naming.tag(naming.network, path)
            tag = naming.network.text(*path)
            if tag is not None and first.setdefault(tag, section) != section:
                yield naming.network.fault(path, say("description.in_two_sections", tag=tag, first=first[tag]))
        for key in ("relief", "capped_by"):
            for place in naming.network.numbers("sections", section, key):
                yield from naming.tag(naming.network, ("sections", section, key, place), RELIEFS)


def train_volume(naming: Naming) -> Iterator[Fault]:
    """The sections that ride with the buffer add up to the train volume that plant.yml says."""
    total = naming.plant.quantity("buffer", "train_volume")
    riding = [
        section
        for section in naming.network.mapping("sections")
        if naming.network.get("sections", section, "rides_with_buffer") is True
    ]
    volumes = [naming.network.quantity("sections", section, "free_volume") for section in riding]
    if total is None or not volumes or not naming.network.sound(("sections",)):
        return
    known = [volume.si for volume in volumes if volume is not None]
    if len(known) == len(volumes) and not math.isclose(sum(known), total.si, rel_tol=1e-6):
        message = say("description.train_volume", found=total.text, sum=show(sum(known), total.unit, digits=4))
        yield naming.plant.fault(("buffer", "train_volume"), message)
