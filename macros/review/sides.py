"""One side of a comparison: a plant of today, one of an earlier revision, or figures that were published."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from macros.figures.graph import Value
from macros.figures.plant import Plant
from macros.quantities import Fault, Faults, say
from macros.quantities.languages import with_mark
from macros.review.reviewing import Review

__all__ = ["Side", "Told", "side_of_plant", "side_of_published"]

WORDS = ("text", "category")
"""Kinds that are told as they are written. A run is told by the figures that read it, a curve and a table by their rows."""


@dataclass(frozen=True)
class Told:
    """A value as one side tells it."""

    text: str
    content: Any
    """What is compared: a float in SI units, rows of a table, a text."""
    kind: str
    title: str = ""
    assumed: str = ""
    inputs: tuple[str, ...] = ()
    finer: str = ""
    """The text with more digits, for two values that look alike."""


@dataclass(frozen=True)
class Side:
    """
    What is known of a plant on one side.

    `findings`, `procedures` and `network` are none where the side does not hold them; a comparison then says so, and
    does not take it for "no change".
    """

    name: str
    plant: str
    digest: str
    entries: Mapping[str, Told]
    figures: Mapping[str, Told]
    findings: Mapping[tuple[str, str], str] | None = None
    procedures: Mapping[str, Any] | None = None
    network: Mapping[str, Any] | None = None


def side_of_plant(name: str, plant: Plant, review: Review) -> Side:
    """A plant that is described, whole."""
    graph, description = plant.graph, plant.description
    return Side(
        name,
        plant.name,
        plant.digest,
        {path: _told(graph[path]) for path in graph.entries},
        {path: _told(graph[path]) for path in graph.figures},
        {(finding.rule, finding.where): finding.standing for finding in review.findings},
        {key: each.model_dump(mode="json") for key, each in description.procedures.procedures.items()},
        {
            **{tag: each.model_dump(mode="json") for tag, each in description.network.items.items()},
            **{line: each.model_dump(mode="json") for line, each in description.network.lines.items()},
        },
    )


def _told(value: Value) -> Told:
    content, finer = value.si, ""
    if value.is_number:
        finer = value.show(digits=max(9, value.digits))
    elif value.kind == "curve":
        content = [list(point) for point in value.si.points]
    elif value.kind == "table":
        content = value.si.data()
    elif value.kind == "run":
        content = None
    elif not value.is_number:
        content = str(value.si)
    text = value.show() if value.is_number else value.typed or str(value.si) if value.kind in WORDS else ""
    return Told(text, content, value.kind, value.title, value.source if value.given else "", value.inputs, finer)


def side_of_published(path: Path) -> Side:
    """
    Figures that a build has published.

    Raises
    ------
    Faults
        If the file is not what a build writes.
    """
    try:
        data = json.loads(path.read_text("utf-8"))
        if data["format"] != 1:
            raise ValueError(say("review.published_format", found=data["format"]))
        entries = {name: _published(entry) for name, entry in data["entries"].items()}
        figures = {name: _published(entry) for name, entry in data["figures"].items()}
        return Side(path.as_posix(), data["plant"], data["digest"], entries, figures)
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        reason = say("review.published_invalid", reason=f"{type(error).__name__}: {error}")
        raise Faults([Fault(path.as_posix(), 0, "", reason)]) from error


def _published(entry: Mapping[str, Any]) -> Told:
    kind = str(entry["kind"])
    content = entry.get("si", entry.get("points", entry.get("category", entry.get("typed"))))
    if kind == "table":
        content = {key: held for key, held in entry.items() if key not in ("title", "kind", "inputs", "assumed")}
    text = str(entry.get("shown", entry.get("category", entry.get("typed", ""))))
    text = with_mark(text) if "shown" in entry else text  # the file keeps the point
    assumed = entry["assumed"] if isinstance(entry.get("assumed"), str) else ""
    return Told(text, content, kind, str(entry.get("title", "")), assumed, tuple(entry.get("inputs", ())))
