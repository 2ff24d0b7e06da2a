"""Facts: constants and limits that prose quotes, each with its source: the tables `*.toml` beside this module; their titles are messages."""

from __future__ import annotations

import functools
import tomllib
from dataclasses import dataclass
from importlib import resources

from macros.calculations.sources import sources
from macros.quantities import Quantity, read, say


@dataclass(frozen=True)
class Fact:
    """A quoted value: what it is, the quantity as the source gives it, where it stands there."""

    name: str
    quantity: Quantity
    source: str
    locator: str
    subject: str
    """The table that it stands in."""

    @property
    def title(self) -> str:
        """What it is called, in the language spoken."""
        return say(f"fact.{self.name}")


@functools.cache
def facts() -> dict[str, Fact]:
    """
    All facts by name.

    Raises
    ------
    ValueError
        If a name stands twice or a source is unknown.
    """
    found: dict[str, Fact] = {}
    for table in sorted(resources.files(__name__).iterdir(), key=lambda entry: entry.name):
        if not table.name.endswith(".toml"):
            continue
        subject = table.name.removesuffix(".toml")
        for name, entry in tomllib.loads(table.read_text(encoding="utf-8")).items():
            if name in found:
                raise ValueError(f"{table.name}: the fact {name!r} stands twice")
            if entry["source"] not in sources():
                raise ValueError(f"{table.name}: {name!r} cites the unknown source {entry['source']!r}")
            quantity = read(entry["value"], entry.get("kind"))
            found[name] = Fact(name, quantity, entry["source"], entry.get("locator", ""), subject)
    return found
