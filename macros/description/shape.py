"""The shape of a description: which part stands at a path, what each key holds, and every value of a file."""

from __future__ import annotations

import functools
import types
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from macros.description.fields import Measure, Part, measure_of
from macros.description.strict_yaml import Path

__all__ = ["Leaf", "Slot", "choices", "key_pattern", "leaves", "parts_in", "slot_at"]


@dataclass(frozen=True)
class Slot:
    """What a path leads to: the field that declares it, and the annotation of what stands there."""

    part: type[Part] | None
    """The part that has the field; none at the root of a file."""
    name: str
    """Name of the field, also for entries of its list or mapping."""
    annotation: Any

    @property
    def known(self) -> FieldInfo | None:
        """The field as declared."""
        return self.part.model_fields[self.name] if self.part is not None else None

    @property
    def title(self) -> str:
        """What it is, for readers."""
        return self.part.titled(self.name) if self.part is not None else ""

    @property
    def measure(self) -> Measure | None:
        """What it demands of a quantity."""
        return measure_of(self.part, self.name) if self.part is not None else None

    @property
    def holds(self) -> type[Part] | None:
        """The part that stands here, if one does."""
        return self.annotation if isinstance(self.annotation, type) and issubclass(self.annotation, Part) else None


def bare(annotation: Any) -> Any:
    """An annotation without its `None`."""
    if get_origin(annotation) in (Union, types.UnionType):
        rest = [each for each in get_args(annotation) if each is not type(None)]
        return rest[0] if len(rest) == 1 else annotation
    return annotation


def slot_at(root: type[Part], path: Path) -> Slot | None:
    """What a path of a file leads to; none where nothing is declared."""
    slot = Slot(None, "", root)
    for step in path:
        if slot.holds is not None:
            if step not in slot.holds.model_fields:
                return None
            name = str(step)
            slot = Slot(slot.holds, name, bare(slot.holds.model_fields[name].annotation))
        elif get_origin(slot.annotation) is list and isinstance(step, int):
            slot = Slot(slot.part, slot.name, bare(get_args(slot.annotation)[0]))
        elif get_origin(slot.annotation) is dict and isinstance(step, str):
            slot = Slot(slot.part, slot.name, bare(get_args(slot.annotation)[1]))
        else:
            return None
    return slot


def choices(annotation: Any) -> tuple[Any, ...]:
    """The words between which a field lets choose; none if it is open."""
    return get_args(annotation) if get_origin(annotation) is Literal else ()


def key_pattern(slot: Slot) -> str | None:
    """What the keys of a mapping must look like."""
    extra = slot.known.json_schema_extra if slot.known is not None else None
    found = extra.get("keys") if isinstance(extra, dict) and get_origin(slot.annotation) is dict else None
    return found if isinstance(found, str) else None


@dataclass(frozen=True)
class Leaf:
    """A single value of a part that was read."""

    path: Path
    value: Any
    slot: Slot


def leaves(part: Part, path: Path = ()) -> Iterator[Leaf]:
    """Every value of a part and the parts below it; what is absent without a default is left out."""
    for name, slot in _slots(type(part)):
        yield from _leaves(getattr(part, name), (*path, name), slot)


@functools.cache
def _slots(part: type[Part]) -> tuple[tuple[str, Slot], ...]:
    return tuple((name, Slot(part, name, bare(known.annotation))) for name, known in part.model_fields.items())


@functools.cache
def _inner(slot: Slot, place: int) -> Slot:
    """The slot of what a list or table holds."""
    return Slot(slot.part, slot.name, bare(get_args(slot.annotation)[place]))


def _leaves(value: Any, path: Path, slot: Slot) -> Iterator[Leaf]:
    if value is None:
        return
    if isinstance(value, Part):
        yield from leaves(value, path)
    elif isinstance(value, list):
        inner = _inner(slot, 0)
        for number, each in enumerate(value, 1):
            yield from _leaves(each, (*path, number), inner)
    elif isinstance(value, dict):
        inner = _inner(slot, 1)
        for key, each in value.items():
            yield from _leaves(each, (*path, key), inner)
    else:
        yield Leaf(path, value, slot)


def parts_in(root: type[Part]) -> Iterator[type[Part]]:
    """Every part that may stand in a file, the file itself first, each once."""
    seen: list[type[Part]] = []
    waiting: list[type[Part]] = [root]
    while waiting:
        part = waiting.pop(0)
        if part in seen:
            continue
        seen.append(part)
        yield part
        for known in part.model_fields.values():
            annotation = bare(known.annotation)
            while get_origin(annotation) in (list, dict):
                annotation = bare(get_args(annotation)[-1])
            if isinstance(annotation, type) and issubclass(annotation, Part):
                waiting.append(annotation)
