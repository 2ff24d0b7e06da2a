"""
Checks that reach from one place of a description to another.

They look at what was read right and keep silent about what was not, so that one mistake is told once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from macros.description.fields import TAG
from macros.description.item_checks import item_faults
from macros.description.naming import Naming
from macros.description.plant_checks import plant_faults
from macros.description.procedure_checks import note_parts, procedure_faults
from macros.description.shape import key_pattern, slot_at
from macros.description.sheet import Sheet
from macros.description.strict_yaml import Path
from macros.quantities import Fault, say

__all__ = ["crossing_faults"]


def crossing_faults(naming: Naming) -> Iterator[Fault]:
    """Everything that does not fit together, but for the names that nothing bears: those the naming tells at last."""
    for sheet in (naming.plant, naming.network, naming.procedures, naming.parts):
        yield from _keys(sheet)
    yield from item_faults(naming)
    yield from plant_faults(naming)
    yield from procedure_faults(naming)
    note_parts(naming)


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
