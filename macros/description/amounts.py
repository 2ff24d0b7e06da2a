"""
How much a plant may describe: several times the largest that anybody builds at home, and no more.

What is worked out for a plant, its line-ups, failures, figures and drawings, grows faster than its description; so a
description without end is refused before anything is worked out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from macros.description.sheet import Sheet
from macros.description.strict_yaml import Path
from macros.quantities import Fault, say

__all__ = ["FURTHEST", "LONGEST_TITLE", "LONGEST_WORDS", "MOST", "faults_of_amounts"]

LONGEST_TITLE: Final = 120
LONGEST_WORDS: Final = 1000
FURTHEST: Final = 200.0
"""Columns and rows of a drawing."""

MOST: Final[Mapping[str, Mapping[Path, int]]] = {
    "plant.yml": {
        ("rooms",): 20, ("rooms", "*", "openings"): 20, ("drying",): 20, ("boosters",): 6, ("banks",): 12, ("transfers",): 12,
        ("uses",): 8, ("trips",): 60, ("stack", "polarisation"): 100, ("demand", "surplus"): 24,
    },
    "network.yml": {("items",): 400, ("lines",): 200, ("sections",): 60},
    "procedures.yml": {("states",): 60, ("procedures",): 60, ("procedures", "*", "steps"): 60},
    "parts.yml": {("parts",): 400},
    "record.yml": {("to_measure",): 200, ("readings",): 2000, ("waivers",): 100, ("sign_offs",): 100},
    "wall.yml": {("procedures",): 20},
}  # fmt: skip
"""The most entries of a list or mapping, by file and key; `*` stands for a name or a place in a list."""

MOST_STEPS: Final = 500
"""Steps of all procedures."""


def faults_of_amounts(sheets: Mapping[str, Sheet]) -> Iterator[Fault]:
    """What is too much, or lies too far, in files as they were read."""
    for name, table in MOST.items():
        sheet = sheets[name]
        for keys, most in table.items():
            for path, value in _at(sheet.document.data, keys):
                if isinstance(value, (list, dict)) and len(value) > most:
                    yield sheet.fault(path, say("description.amounts.too_many", found=len(value), most=most))
    procedures = sheets["procedures.yml"]
    steps = sum(len(value) for _, value in _at(procedures.document.data, ("procedures", "*", "steps")))
    if steps > MOST_STEPS:
        yield procedures.fault(("procedures",), say("description.amounts.too_many_steps", found=steps, most=MOST_STEPS))
    network = sheets["network.yml"]
    for path, place in _at(network.document.data, ("items", "*", "at")):
        if isinstance(place, list) and any(
            isinstance(each, (int, float)) and not 0 <= each <= FURTHEST for each in place
        ):
            yield network.fault(path, say("description.amounts.too_far", most=int(FURTHEST)))


def _at(data: Any, keys: Path, above: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Everything at a path, with the path in full."""
    if not keys:
        yield above, data
        return
    key, rest = keys[0], keys[1:]
    if isinstance(data, dict):
        for name in data if key == "*" else [key] if key in data else []:
            yield from _at(data[name], rest, (*above, name))
    elif isinstance(data, list) and key == "*":
        for number, each in enumerate(data, 1):
            yield from _at(each, rest, (*above, number))
