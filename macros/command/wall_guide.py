"""`gaswright wall-guide`: the sheet that hangs beside a plant, as a PDF."""

from __future__ import annotations

from pathlib import Path

from macros.figures.plant import Plant
from macros.quantities import Faults, System, say
from macros.review.refusal import refusal
from macros.sheets.wall import Paper, wall_guide
from macros.sheets.wall.names import wall_faults

__all__ = ["file_of", "reasons_against", "write_wall_guide"]


def reasons_against(plant: Plant, system: System) -> list[str]:
    """
    Why a plant gets no wall guide, line by line; empty where it gets one.

    Raises
    ------
    Faults
        If it does not say what goes on one.
    """
    if plant.description.wall is None:
        raise Faults(wall_faults(plant))
    if plant.status == "withdrawn":
        return [say("wall.withdrawn", plant=plant.name)]
    found = refusal(plant)
    if not found:
        return []
    lines = [
        say("wall.reason", name=each.name, where=each.where, message=getattr(each.message, system)) for each in found
    ]
    return [say("wall.refused", plant=plant.name), *lines]


def file_of(plant: Plant, paper: Paper, system: System) -> Path:
    """What the file of a sheet is called where nobody says."""
    return Path(f"{plant.name}-wall-guide-{paper}-{system}.pdf")


def write_wall_guide(plant: Plant, paper: Paper, system: System, address: str, file: Path) -> Path:
    """Set the sheet and write it; nothing is written where it cannot be set."""
    made = wall_guide(plant, paper, system, address)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(made)
    return file
