"""A starter plant: the smallest plant that computes, to be edited into another."""

from __future__ import annotations

import shutil
from importlib import resources
from pathlib import Path

from macros.description.fields import is_name
from macros.description.loading import FILES
from macros.quantities import Fault, Faults, say

__all__ = ["create"]

TITLE = "title: Starter plant"


def create(name: str, handbook: Path) -> Path:
    """
    Write the files of a starter plant into a new folder of the handbook's designs.

    Parameters
    ----------
    name : str
        Name of the plant: small letters, digits and `_`.
    handbook : Path
        Folder that holds `docs/`.

    Returns
    -------
    Path
        The new folder.

    Raises
    ------
    Faults
        If the name is none, or the folder is there already; nothing is written then.
    """
    folder = handbook / "docs" / "designs" / name
    if not is_name(name):
        raise Faults([Fault(folder.as_posix(), 0, "", say("command.bad_name", found=name))])
    if folder.exists():
        raise Faults([Fault(folder.as_posix(), 0, "", say("command.exists", folder=folder.as_posix()))])
    aside = folder.with_name(f".{name}-aside")
    aside.mkdir(parents=True)
    try:
        for file in FILES:
            text = (resources.files(__package__) / "starter_plant" / file).read_text(encoding="utf-8")
            (aside / file).write_text(text.replace(TITLE, f"title: {_title(name)}"), encoding="utf-8")
        aside.rename(folder)
    except BaseException:
        shutil.rmtree(aside, ignore_errors=True)
        raise
    return folder


def _title(name: str) -> str:
    return name.replace("_", " ").capitalize()
