"""The sources that calculations, constants, facts and rules cite, each with how it was obtained."""

from __future__ import annotations

import functools
import tomllib
from dataclasses import dataclass
from importlib import resources
from typing import Literal

How = Literal["read", "library", "memory", "practice"]


@dataclass(frozen=True)
class Source:
    """
    One entry of the list of sources.

    `how` says honestly how we know: `read` (the text was read), `library` (read through a
    library that implements it), `memory` (printed somewhere, not read again), `practice`
    (common practice, no source).
    """

    key: str
    title: str
    how: How
    note: str = ""


@functools.cache
def sources() -> dict[str, Source]:
    """
    All sources by key, from the tables `*.toml` beside this module.

    Raises
    ------
    ValueError
        If two tables use the same key.
    """
    found: dict[str, Source] = {}
    folder = resources.files(__name__)
    for table in sorted(folder.iterdir(), key=lambda entry: entry.name):
        if not table.name.endswith(".toml"):
            continue
        for key, entry in tomllib.loads(table.read_text(encoding="utf-8")).items():
            if key in found:
                raise ValueError(f"{table.name}: the source {key!r} stands in two tables")
            found[key] = Source(key, entry["title"], entry["how"], entry.get("note", ""))
    return found
