"""The files that stand beside the pages of each plant: its figures as data, its parts list, its wall guides."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable
from functools import partial

from macros.figures.plant import Plant
from macros.quantities import Fault, Faults, store
from macros.review.refusal import day_of_review
from macros.sheets.parts import parts_csv, parts_xlsx
from macros.sheets.published import published
from macros.site.wall_guides import wall_guides

__all__ = ["files_beside"]


def files_beside(plants: Iterable[Plant], site_url: str, newer_at: str = "") -> dict[str, bytes]:
    """
    The files beside the pages of plants that were read from disk, by address; those of a plant as it was are kept.

    Raises
    ------
    Faults
        Whatever keeps a wall guide of any of them from being set.
    """
    files: dict[str, bytes] = {}
    faults: list[Fault] = []
    for plant in plants:
        key = store.key_of("beside", *plant.identity, day_of_review().isoformat(), site_url, newer_at)
        try:
            held = store.kept(key, partial(_made, plant, site_url, newer_at))
        except Faults as error:
            faults.extend(error)
        else:
            files |= {name: base64.b64decode(content) for name, content in held.items()}
    if faults:
        raise Faults(dict.fromkeys(faults))
    return files


def _made(plant: Plant, site_url: str, newer_at: str) -> dict[str, str]:
    data = json.dumps(published(plant), indent=1, ensure_ascii=False, sort_keys=True)
    files = {
        f"{plant.name}/figures.json": f"{data}\n".encode(),
        f"{plant.name}/parts.csv": parts_csv(plant),
        f"{plant.name}/parts.xlsx": parts_xlsx(plant),
        **wall_guides([plant], site_url, newer_at),
    }
    return {name: base64.b64encode(content).decode("ascii") for name, content in files.items()}
