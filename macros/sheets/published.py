"""Published figures as data: what `figures.json` holds, and the rows of a table."""

from __future__ import annotations

import importlib.metadata
from typing import Any

from macros.figures.graph import Value
from macros.figures.plant import LIBRARIES, Plant
from macros.quantities import say
from macros.quantities.languages import SOURCE, speaking

__all__ = ["figure_rows", "published"]


def published(plant: Plant) -> dict[str, Any]:
    """
    Every entry and figure of a plant, with the digest that it stands under.

    Returns
    -------
    dict
        Ready for JSON: `format`, `plant`, `title`, `status`, `digest`, `libraries`, `entries` and `figures`; numbers in
        SI units (pressures absolute) beside the text as shown, with a decimal point whatever language is spoken.
    """
    with speaking(SOURCE):
        return _published(plant)


def _published(plant: Plant) -> dict[str, Any]:
    graph = plant.graph
    return {
        "format": 1,
        "plant": plant.name,
        "title": plant.title,
        "status": plant.status,
        "digest": plant.digest,
        "libraries": {library: importlib.metadata.version(library) for library in LIBRARIES},
        "entries": {name: _entry(graph[name]) for name in graph.entries},
        "figures": {name: _figure(graph[name]) for name in graph.figures},
    }


def _entry(value: Value) -> dict[str, Any]:
    data: dict[str, Any] = {"kind": value.kind, "typed": value.typed}
    if value.is_number:
        data |= {"si": value.si, "shown": value.show()}
    if value.kind == "curve":
        data["points"] = [list(point) for point in value.si.points]
    if value.source:
        data["assumed"] = value.source
    return data


def _figure(value: Value) -> dict[str, Any]:
    data: dict[str, Any] = {"title": value.title, "kind": value.kind}
    if value.is_number:
        data |= {"si": value.si, "shown": value.show(), "rounding": value.rounding}
    elif value.kind == "table":
        data |= value.si.data()
    elif value.kind == "category":
        data["category"] = value.si
    return data | {"inputs": list(value.inputs), "assumed": sorted(value.assumed)}


def figure_rows(plant: Plant) -> list[tuple[str, str, str, str]]:
    """Name, value as shown, title, and a mark where assumed values reach it."""
    rows = []
    for name in plant.graph.figures:
        value = plant.graph[name]
        shown = value.show() if value.is_number or value.kind == "category" else f"({value.kind})"
        rows.append((name, shown, value.title, say("sheets.assumed_mark") if value.assumed else ""))
    return rows
