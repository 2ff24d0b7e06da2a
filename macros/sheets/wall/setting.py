"""
Setting the wall guide: data and drawing handed to the typesetter, a PDF handed back.

The same plant, paper, units, day and addresses give the same bytes. Fonts come from packages; none of the system's, and
none that the typesetter brings, is looked at.
"""

from __future__ import annotations

import datetime
import functools
import json
from importlib import resources
from typing import Any, Literal

import segno
import typst

from diagrams.schematic import plan_of
from macros.figures.plant import Plant
from macros.pages.drawing import drawn_item, drawn_lines, in_words
from macros.quantities import Fault, Faults, System, say
from macros.quantities.languages import cached_as_spoken, language
from macros.review.refusal import day_of_review, refused
from macros.sheets.wall.content import content_of
from macros.sheets.wall.drawing import Drawn, draw
from macros.sheets.wall.fonts import font_folders
from macros.sheets.wall.names import fault_at, wall_faults

__all__ = ["PAPERS", "SYSTEMS", "Paper", "gets_wall_guide", "wall_guide"]

Paper = Literal["a3", "a4"]
PAPERS: tuple[Paper, ...] = ("a3", "a4")
SYSTEMS: tuple[System, ...] = ("workshop", "si", "us")

POINT_M = 0.0254 / 72
LEAF_MM = 190.0
"""Width of a side of A4 within its margins; half of A3 is a little wider, and takes the same drawing."""
PICTURE_SHARE = 0.565
"""Share of a leaf's width that the schematic takes; settings and limits stand beside it."""
TAG_SIZE = 7.2
"""Type of the tags on the schematic. [pt]"""

OVERFLOW = "OVERFLOW "
"""With this the template begins its list of blocks that found no room."""


def gets_wall_guide(plant: Plant, *, as_read: bool = False) -> bool:
    """
    Whether a plant gets a wall guide: it says what goes on it, and is neither withdrawn nor refused.

    `as_read` says whether it stands as it was read from its folder; see `refusal`.
    """
    return plant.description.wall is not None and plant.status != "withdrawn" and not refused(plant, as_read=as_read)


def wall_guide(plant: Plant, paper: Paper, system: System = "workshop", address: str = "", newer_at: str = "") -> bytes:
    """
    The wall guide of a plant as a tagged PDF.

    Parameters
    ----------
    plant : Plant
        Whether it may have one is asked by `gets_wall_guide`.
    paper : {"a3", "a4"}
        A3 on one side; A4 on both sides of one sheet.
    system : {"workshop", "si", "us"}
        The unit system of the sheet.
    address : str
        Where the plant's page stands, for the code to scan; name and digest without.
    newer_at : str
        Where a newer sheet is looked for; the address of the plant's page without, and where that is not known either
        the sheet says to ask where it came from.

    Raises
    ------
    Faults
        Names that lead nowhere, or blocks that find no room: type is never made smaller.
    """
    return _set(plant, paper, system, address, newer_at or address, day_of_review())


@cached_as_spoken(maxsize=64)
def _set(plant: Plant, paper: Paper, system: System, address: str, newer_at: str, day: datetime.date) -> bytes:
    if faults := list(wall_faults(plant)):
        raise Faults(faults)
    data = content_of(plant, paper, system, day, newer_at)
    data["language"] = language()
    data["day"] = {"year": day.year, "month": day.month, "day": day.day}
    data["drawing"] = _drawing(plant, paper)
    data["code"] = _code(address or say("wall.identity", plant=plant.name, digest=plant.digest))
    noon = datetime.datetime.combine(day, datetime.time(12), datetime.UTC)
    try:
        made = _compiler().compile(
            sys_inputs={"data": json.dumps(data)}, format="pdf", pdf_standards="ua-1", timestamp=int(noon.timestamp())
        )
    except typst.TypstError as error:
        raise Faults(_faults_of(plant, paper, str(error.message))) from error
    assert isinstance(made, bytes)
    return made


@functools.cache
def _compiler() -> Any:
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder) for folder in font_folders()]
    )
    template = resources.files("macros.sheets.wall") / "wall_guide.typ"
    return typst.Compiler(str(template), font_paths=fonts, ignore_system_fonts=True)


def _drawing(plant: Plant, paper: Paper) -> dict[str, Any] | None:
    wall = plant.description.wall
    assert wall is not None
    if wall.drawing.priority > getattr(wall.papers, paper):
        return None
    height_m = float(wall.drawing.height.si)
    drawn = _drawn(plant, LEAF_MM * PICTURE_SHARE * 1e-3 / POINT_M, height_m / POINT_M)
    if drawn is None:
        message = say("wall.tags_too_close", size=f"{TAG_SIZE:g}", height=wall.drawing.height.text)
        raise Faults([fault_at(plant, ("drawing", "height"), message)])
    return {
        "svg": drawn.svg,
        "width": drawn.width,
        "height": drawn.height,
        "share": PICTURE_SHARE,
        "size": TAG_SIZE,
        "tags": [{"text": tag, "x": x, "y": y} for tag, x, y in drawn.tags],
        "title": say("wall.drawing.title"),
        "alt": in_words(plant.network),
    }


@functools.lru_cache(maxsize=64)
def _drawn(plant: Plant, width: float, height: float) -> Drawn | None:
    items = [drawn_item(plant, item) for item in plant.network.items.values()]
    return draw(plan_of(items, drawn_lines(plant.network)), width, height, TAG_SIZE)


def _code(text: str) -> dict[str, str]:
    code = segno.make(text, error="m", micro=False)
    return {"svg": code.svg_inline(scale=4, border=2), "alt": say("wall.code", text=text)}


def _faults_of(plant: Plant, paper: Paper, message: str) -> list[Fault]:
    """What the typesetter says, as faults of `wall.yml`."""
    _, begins, rest = message.partition(OVERFLOW)
    if not begins:
        return [fault_at(plant, (), say("wall.typesetter", message=message))]
    found, _ = json.JSONDecoder().raw_decode(rest)
    return [_overflow(plant, paper, each) for each in found]


def _overflow(plant: Plant, paper: Paper, block: dict[str, Any]) -> Fault:
    wall = plant.description.wall
    assert wall is not None
    path = tuple(int(part) if part.isdigit() else part for part in block["key"].split("."))
    carried = _carried(plant, getattr(wall.papers, paper))
    lowest = max(priority for _, priority in carried)
    words = {"paper": paper.upper(), "title": block["title"], "missing": f"{block['lacks']:.0f}"}
    if lowest == 1:
        return fault_at(plant, path, say("wall.overflow_all_first", **words))
    names = ", ".join(key for key, priority in carried if priority == lowest)
    lower = say("wall.overflow", lowest=names, priority=lowest, key=f"papers.{paper}", instead=lowest - 1, **words)
    return fault_at(plant, path, lower)


def _carried(plant: Plant, least: int) -> list[tuple[str, int]]:
    """The keys of the blocks that a paper carries, with their priorities."""
    wall = plant.description.wall
    assert wall is not None
    single = [
        (name, getattr(wall, name))
        for name in ("drawing", "emergency", "limits", "trips", "gauges", "service", "lines")
    ]
    every = [(name, block.priority) for name, block in single if block is not None]
    every += [(f"procedures.{number} ({each.name})", each.priority) for number, each in enumerate(wall.procedures, 1)]
    return [(key, priority) for key, priority in every if priority <= least]
