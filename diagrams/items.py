"""What a drawing is made from: texts, items with a place, and the lines that join them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Text:
    """One label in three unit systems; plain words have only the first."""

    workshop: str
    si: str = ""
    us: str = ""

    @property
    def versions(self) -> tuple[str, ...]:
        """Every text that may stand in the label's place."""
        return tuple(text for text in (self.workshop, self.si, self.us) if text)


@dataclass(frozen=True)
class Item:
    """One thing on the drawing: its tag, its symbol and its place on the grid (column, row downward)."""

    tag: str
    symbol: str
    at: tuple[float, float]
    labels: tuple[Text, ...] = ()
    title: str = ""
    facing: str = "right"
    state: str | None = None
    marks: frozenset[str] = frozenset()
    href: str | None = None


@dataclass(frozen=True)
class Line:
    """A pipe or cable through its stops, each a tag and, where the symbol has several, a port."""

    id: str
    medium: str
    stops: tuple[tuple[str, str | None], ...]
    label: Text | None = None
    live: bool = False
