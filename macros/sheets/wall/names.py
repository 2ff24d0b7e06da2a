"""What is wrong with the names in `wall.yml`: figures, procedures, items and references that the plant has not."""

from __future__ import annotations

from collections.abc import Iterator

from macros.description.chains import nearest
from macros.description.references import references
from macros.description.strict_yaml import Path, dotted
from macros.description.wall_file import WallFile
from macros.figures.plant import Plant
from macros.quantities import Fault, say

__all__ = ["FILE", "fault_at", "wall_faults"]

FILE = "wall.yml"


def fault_at(plant: Plant, path: Path, message: str) -> Fault:
    """A fault at a key of the file."""
    described = plant.description
    return Fault(described.file(FILE), described.documents[FILE].line(path), dotted(path), message)


def wall_faults(plant: Plant) -> Iterator[Fault]:
    """One fault for each name in the plant's `wall.yml` that leads nowhere."""
    wall = plant.description.wall
    if wall is None:
        yield Fault(plant.description.file(FILE), 0, "", say("wall.no_file"))
        return
    yield from _procedures(plant, wall)
    for number, row in enumerate(wall.limits.rows, 1):
        at: Path = ("limits", "rows", number)
        yield from _figure(plant, (*at, "figure"), row.figure, must_be_number=True)
        if row.at is not None and row.at not in plant.network.items:
            near = nearest(row.at, plant.network.items)
            yield fault_at(plant, (*at, "at"), say("wall.unknown_tag", found=row.at, nearest=near))
    for name, path, text in plant.description.texts():
        if name == FILE:
            for one in references(text):
                if not one.is_tag:  # tags were looked up when the file was read
                    yield from _figure(plant, path, one.name)


def _procedures(plant: Plant, wall: WallFile) -> Iterator[Fault]:
    known = plant.description.procedures.procedures
    named: list[tuple[Path, str]] = [(("emergency", "procedure"), wall.emergency.procedure)]
    named += [(("procedures", number, "name"), each.name) for number, each in enumerate(wall.procedures, 1)]
    for path, name in named:
        if name not in known:
            yield fault_at(plant, path, say("wall.unknown_procedure", found=name, known=", ".join(known)))


def _figure(plant: Plant, path: Path, name: str, *, must_be_number: bool = False) -> Iterator[Fault]:
    if name not in plant.graph:
        yield fault_at(plant, path, say("wall.unknown_figure", found=name, nearest=nearest(name, plant.graph)))
    elif must_be_number and not plant.graph[name].is_number:
        yield fault_at(plant, path, say("wall.no_number", found=name))
