"""The line-ups of a plant, under the highest credible pressures of its figures."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from macros.figures.credible import Credible
from macros.network.lineups import Lineups
from macros.network.piping import Piping, absolute
from macros.network.pressures import Pressures, unlimited
from macros.network.proofs import Failed
from macros.quantities import Fault, say

if TYPE_CHECKING:
    from macros.figures.plant import Plant

__all__ = ["lineups_of", "pressures_of", "proofs_failed"]

_LINEUPS: WeakKeyDictionary[Plant, Lineups] = WeakKeyDictionary()
"""A plant stays the same for as long as it lives, and so do its line-ups."""


def lineups_of(plant: Plant) -> Lineups:
    """The line-ups of a plant, under the highest credible pressures of its figures."""
    if plant not in _LINEUPS:
        piping = Piping(plant.network, pressures_of(plant))
        _LINEUPS[plant] = Lineups(piping, plant.description.procedures, plant.description.plant.trips)
    return _LINEUPS[plant]


def proofs_failed(plant: Plant) -> tuple[tuple[Fault, Failed | None], ...]:
    """
    Everything that is wrong with the network, the line-ups and their single failures, each once, with file and line.

    What is wrong with the network itself, whatever stands open, is no failed proof of a line-up, and has none beside it.
    """
    found: dict[str, tuple[Fault, Failed | None]] = {}
    for fault in plant.network.findings():
        keys = tuple(fault.key.split("."))
        found[fault.message] = (_placed(plant, "network.yml", keys, fault.key, fault.message), None)
    for each in lineups_of(plant).audited:
        place, message = each.place, each.failed.message
        words = say("network.in_step", name=place.words, step=place.step) if place.step else place.words
        found.setdefault(message, (_placed(plant, place.file, place.keys, words, message), each.failed))
    return tuple(found.values())


def _placed(plant: Plant, file: str, keys: tuple[str | int, ...], words: str, message: str) -> Fault:
    described = plant.description
    return Fault(described.file(file), described.documents[file].line(keys), words, message)


def pressures_of(plant: Plant) -> Pressures:
    """The highest credible pressures of a plant, and what else its proofs ask for."""

    def read(path: str) -> float:
        return float(plant.graph[path].si)

    brought = Credible(plant.description, plant.network, frozenset(plant.graph)).pressures(read)
    return replace(
        brought, tubes=_tubes(plant, brought.atmosphere_pa), isolation_pa=read("safety.isolation_pressure"),
        swept=_must_be_swept(plant),
    )  # fmt: skip


def _tubes(plant: Plant, atmosphere_pa: float) -> dict[str, float]:
    """What the tube and the fittings of each line bear."""
    found = {}
    for name, line in plant.network.lines.items():
        borne = [unlimited]
        if (path := f"safety.tube.{name.lower()}.rating") in plant.graph:
            borne.append(float(plant.graph[path].si))
        if "fitting_rating" in line.sizes:
            fitting = line.sizes["fitting_rating"]
            borne.append(absolute(fitting.kind, fitting.si, atmosphere_pa))
        if math.isfinite(min(borne)):
            found[name] = min(borne)
    return found


def _must_be_swept(plant: Plant) -> bool:
    """Unless the stack is let down before its oxygen space is flammable; where that cannot be told, it must."""
    names = "stack.let_down_time_relief", "stack.oxygen_space_time_to_limit_relief"
    if not all(name in plant.graph for name in names):
        return True
    let_down_s, flammable_s = (float(plant.graph[name].si) for name in names)
    return not let_down_s < flammable_s
