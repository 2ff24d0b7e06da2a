"""A file of a description while it is judged: what was read, and what of it is at fault."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from macros.description.fields import Part
from macros.description.shape import slot_at
from macros.description.strict_yaml import Document, Path, dotted
from macros.quantities import Fault, Quantity, QuantityError, read

__all__ = ["Sheet"]


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
