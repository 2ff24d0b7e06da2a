"""`gaswright wall-guide`: the sheet that hangs beside a plant, as a PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from macros.description import strict_yaml
from macros.description.plain_files import content_of
from macros.figures.plant import Plant
from macros.quantities import Faults, System, say
from macros.review.refusal import refusal
from macros.sheets.wall import Paper, wall_guide
from macros.sheets.wall.names import wall_faults

__all__ = ["addresses_near", "file_of", "reasons_against", "write_wall_guide"]

HANDBOOK: Final = "mkdocs.yml"
"""The file of a handbook that says where it stands, and where a newer one."""


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


def addresses_near(folder: Path) -> tuple[str, str]:
    """
    Where the page of a plant stands and where a newer sheet is looked for, as a build of its handbook would print them.

    Parameters
    ----------
    folder : Path
        That of the plant; the handbook is the nearest above it.

    Returns
    -------
    tuple of str
        Each empty where no handbook says it.

    Raises
    ------
    Faults
        If the handbook's settings cannot be read.
    """
    folder = folder.resolve()
    file = next((above / HANDBOOK for above in folder.parents if (above / HANDBOOK).is_file()), None)
    if file is None:
        return "", ""
    settings = strict_yaml.parse(content_of(file, strict_yaml.LARGEST_BYTES), file.as_posix())
    if settings.faults:
        raise Faults(settings.faults)
    site, extra = settings.data.get("site_url"), settings.data.get("extra")
    newer_at = extra.get("newer_at") if isinstance(extra, dict) else None
    address = f"{site.rstrip('/')}/{folder.name}/index.html" if isinstance(site, str) and site else ""
    return address, newer_at if isinstance(newer_at, str) else ""


def write_wall_guide(plant: Plant, paper: Paper, system: System, address: str, file: Path, newer_at: str = "") -> Path:
    """Set the sheet and write it; nothing is written where it cannot be set."""
    made = wall_guide(plant, paper, system, address, newer_at)
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(made)
    return file
