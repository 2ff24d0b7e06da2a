"""The wall guides of a handbook: made on every build, put beside the overview of their plant."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from macros.figures.plant import Plant
from macros.quantities import Fault, Faults, say
from macros.sheets.wall import PAPERS, Paper, gets_wall_guide, wall_guide

__all__ = ["links_to_wall_guides", "wall_guides"]


def wall_guides(plants: Iterable[Plant], site_url: str, newer_at: str = "") -> dict[str, bytes]:
    """
    The wall guides of all plants that get one, by address.

    Parameters
    ----------
    plants : iterable of Plant
        As they were read from their folders.
    site_url : str
        Where the site will stand; empty if it is not known.
    newer_at : str
        Where a newer edition is looked for, as the pages say it; where the site will stand without.

    Raises
    ------
    Faults
        Everything that finds no room, and every name that leads nowhere, in any of them.
    """
    made: dict[str, bytes] = {}
    faults: list[Fault] = []
    for plant in (one for one in plants if gets_wall_guide(one, as_read=True)):
        address = f"{site_url.rstrip('/')}/{plant.name}/index.html" if site_url else ""
        for paper in PAPERS:
            try:
                made[_address(plant.name, paper)] = wall_guide(plant, paper, address=address, newer_at=newer_at)
            except Faults as error:
                faults.extend(error)
    if faults:
        raise Faults(dict.fromkeys(faults))
    return made


def links_to_wall_guides(plant: Plant, made: Iterable[str]) -> str:
    """The section of an overview that leads to the plant's wall guides; empty where it has none."""
    known = set(made)
    links = "".join(
        f'<li><a href="{_file(paper)}">{escape(say(f"site.wall_guide.{paper}"))}</a></li>'
        for paper in PAPERS
        if _address(plant.name, paper) in known
    )
    if not links:
        return ""
    heading, what = escape(say("site.wall_guide.title")), escape(say("site.wall_guide.what"))
    return f'<h2 id="wall-guide">{heading}</h2>\n<p>{what}</p>\n<ul>{links}</ul>\n'


def _file(paper: Paper) -> str:
    return f"wall-guide-{paper}.pdf"


def _address(plant: str, paper: Paper) -> str:
    return f"{plant}/{_file(paper)}"
