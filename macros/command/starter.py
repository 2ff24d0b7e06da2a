"""A plant to begin with: the smallest one that computes, or a copy of another, to be edited into one's own."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

from macros.description.fields import is_name
from macros.description.loading import FILES
from macros.quantities import Fault, Faults, say

__all__ = ["create", "yours"]

TITLE = re.compile(r"^title:.*$", re.MULTILINE)
STATUS = re.compile(r"^status:.*$", re.MULTILINE)

OF_THE_OTHER = ("readings", "waivers", "sign_offs")
"""What a record says of the plant that was copied, and of no other."""
YOURS = "# Yours: "
"""Begins a line of the starter plant above what only its builder knows."""
TABLES = ".csv"
"""How files end that a description may name."""


def create(name: str, handbook: Path, like: Path | None = None) -> Path:
    """
    Write the files of a plant to begin with into a new folder of the handbook's designs.

    Parameters
    ----------
    name : str
        Name of the plant: small letters, digits and `_`.
    handbook : Path
        Folder that holds `docs/`.
    like : Path, optional
        Folder of the plant to copy; the starter plant without. The copy is a draft under a title of its own, and what
        was measured, waived and signed at the other stays there.

    Returns
    -------
    Path
        The new folder.

    Raises
    ------
    Faults
        If the name is none, the folder is there already, or there is no plant to copy; nothing is written then.
    """
    folder = handbook / "docs" / "designs" / name
    if not is_name(name):
        raise Faults([Fault(folder.as_posix(), 0, "", say("command.bad_name", found=name))])
    if folder.exists():
        raise Faults([Fault(folder.as_posix(), 0, "", say("command.exists", folder=folder.as_posix()))])
    if like is not None and not (like / "plant.yml").is_file():
        raise Faults([Fault(like.as_posix(), 0, "", say("command.no_plant_to_copy"))])
    aside = folder.with_name(f".{name}-aside")
    aside.mkdir(parents=True)
    try:
        for file, text in _starter() if like is None else _copied(like):
            own = _named(text, name) if file == "plant.yml" else text
            (aside / file).write_text(own, encoding="utf-8", newline="")
        aside.rename(folder)
    except BaseException:
        shutil.rmtree(aside, ignore_errors=True)
        raise
    return folder


def _starter() -> Iterator[tuple[str, str]]:
    for file in FILES:
        yield file, (resources.files(__package__) / "starter_plant" / file).read_text(encoding="utf-8")


def _copied(folder: Path) -> Iterator[tuple[str, str]]:
    """The files of a plant and the tables that they name, without what is true of that plant alone."""
    for path in sorted(folder.iterdir()):
        if path.is_file() and (path.name in FILES or path.suffix == TABLES):
            text = path.read_bytes().decode("utf-8")
            yield path.name, _without(text, OF_THE_OTHER) if path.name == "record.yml" else text


def _without(text: str, keys: tuple[str, ...]) -> str:
    """A record with nothing below some of its first keys."""
    for key in keys:
        # A key at the margin, what stands on its line, and every line below it that is indented, an entry or empty.
        text = re.sub(rf"^{key}:.*\n?(?:(?:[ \t\-#].*)?\n|[ \t\-].*\Z)*", f"{key}: []\n", text, flags=re.MULTILINE)
    return text


def _named(text: str, name: str) -> str:
    """A `plant.yml` under a title of its own, as a draft."""
    title = f"title: {name.replace('_', ' ').capitalize()}"
    return TITLE.sub(title, STATUS.sub("status: draft", text, count=1), count=1)


def yours(folder: Path) -> list[str]:
    """What only the builder of a plant knows and has not yet put in, each with file and line."""
    return [
        f"{(folder / file).as_posix()}:{number}: {line.removeprefix(YOURS)}"
        for file in FILES
        if (folder / file).is_file()
        for number, line in enumerate((folder / file).read_text("utf-8", errors="replace").splitlines(), 1)
        if line.startswith(YOURS)
    ]
