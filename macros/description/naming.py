"""What the files of a description know of each other: tags and names, who bears them, and who is named in vain."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from macros.description.chains import nearest
from macros.description.fields import is_tag
from macros.description.item_kinds import ITEM_KINDS
from macros.description.shape import key_pattern, slot_at
from macros.description.sheet import Sheet
from macros.description.strict_yaml import Path
from macros.quantities import Fault, say

__all__ = ["RELIEFS", "SILENT", "UNKNOWN_TAG", "Naming", "keys_sound"]

UNKNOWN_TAG = "description.unknown_tag"
MOST_PLACES = 3
"""More places of one unknown name than these are counted, not listed."""

RELIEFS = ("relief_valve", "burst_disc")

SILENT = frozenset(("*",))
"""Stands for names that are not known because what lists them is at fault: every name then passes."""


@dataclass
class _Unknown:
    """A name that nothing bears, and where it stands."""

    sheet: Sheet
    path: Path
    nearest: str
    also: list[str] = field(default_factory=list)


class Naming:
    """
    Holds the files side by side, and what they name.

    Names that nothing bears are gathered and told once each, with the places where they stand: a tag that is misspelt
    where the item is described would otherwise be told wherever it is spelt right.
    """

    def __init__(self, plant: Sheet, network: Sheet, procedures: Sheet, parts: Sheet) -> None:
        self.plant, self.network, self.procedures, self.parts = plant, network, procedures, parts
        items = network.mapping("items")
        self.kinds: dict[str, str | None] = {
            tag: kind if (kind := network.text("items", tag, "kind")) in ITEM_KINDS else None for tag in items
        }
        self.kinds |= dict.fromkeys(_at_fault(network, "items"))
        self.items_known = bool(items)
        self.rooms = self.names(plant, "rooms")
        self.banks = self.names(plant, "banks")
        self.states = self.names(procedures, "states")
        self.unknown: dict[tuple[str, str], _Unknown] = {}

    def faults_of_names(self) -> Iterator[Fault]:
        """One fault for each name that nothing bears, at the first place where it stands."""
        for (key, name), found in self.unknown.items():
            also = ""
            if found.also:
                shown = ", ".join(found.also[:MOST_PLACES])
                more = len(found.also) - MOST_PLACES
                also = (
                    say("description.also_more", places=shown, count=more)
                    if more > 0
                    else say("description.also", places=shown)
                )
            message = say(key, name=name, nearest=found.nearest, also=also)
            yield found.sheet.fault(found.path, message)

    def missing(self, key: str, sheet: Sheet, path: Path, name: str, known: Iterable[str]) -> None:
        """Note that a name stands at a place and nothing bears it."""
        first = self.unknown.get((key, name))
        if first is None:
            self.unknown[key, name] = _Unknown(sheet, path, nearest(name, known))
            return
        place = f"{sheet.name}:{sheet.document.line(path)}"
        if place not in first.also and place != f"{first.sheet.name}:{first.sheet.document.line(first.path)}":
            first.also.append(place)

    @cached_property
    def tags_sound(self) -> bool:
        """Whether every tag of the network was read as it was meant."""
        return keys_sound(self.network, "items")

    def tag_stands(self, sheet: Sheet, path: Path, tag: str) -> bool:
        """Whether the network has an item of a tag; if not, that is noted."""
        if not self.items_known or tag in self.kinds or not self.tags_sound:
            return True
        self.missing(UNKNOWN_TAG, sheet, path, tag, self.kinds)
        return False

    def names(self, sheet: Sheet, key: str) -> frozenset[str]:
        """The names that a file lists under a key."""
        if not sheet.sound((key,)) or not sheet.document.data or not keys_sound(sheet, key):
            return SILENT
        return frozenset((*sheet.mapping(key), *_at_fault(sheet, key)))

    @property
    def has_unknown_tags(self) -> bool:
        """Whether some tag is borne by no item, so that little can be said of what items do together."""
        return any(key == UNKNOWN_TAG for key, _ in self.unknown)

    def position(self, sheet: Sheet, path: Path, tag: str, position: Any) -> Iterator[Fault]:
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

    def tag(self, sheet: Sheet, path: Path, kinds: Sequence[str] = ()) -> Iterator[Fault]:
        """A tag stands in the network and is of the right kind."""
        tag = sheet.text(*path)
        if tag is None or not is_tag(tag) or not self.items_known:
            return
        if not self.tag_stands(sheet, path, tag):
            return
        kind = self.kinds.get(tag)
        if kind is not None and kinds and kind not in kinds:
            words = say("description.or").join(kinds)
            yield sheet.fault(path, say("description.wrong_kind_of_item", tag=tag, kind=kind, wanted=words))

    def name(self, sheet: Sheet, path: Path, known: frozenset[str], key: str) -> None:
        """A name stands in a list of names; if not, that is noted."""
        name = sheet.text(*path)
        if name is not None and known is not SILENT and name not in known:
            self.missing(key, sheet, path, name, known)


def _at_fault(sheet: Sheet, key: str) -> list[str]:
    """Names under a key whose whole part is at fault: they exist, though nothing can be said of them."""
    return [str(path[1]) for path in sheet.at_fault if len(path) == 2 and path[0] == key]


def keys_sound(sheet: Sheet, key: str) -> bool:
    """Whether every name under a key was read as it was meant; if not, a name that seems unknown may be one of them."""
    slot = slot_at(sheet.root, (key,))
    pattern = key_pattern(slot) if slot is not None else None
    names = sheet.document.data.get(key)
    shaped = not isinstance(names, dict) or pattern is None or all(re.fullmatch(pattern, name) for name in names)
    return shaped and (key,) not in sheet.document.bad_keys
