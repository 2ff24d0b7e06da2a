"""
The files of a handbook's documents: plain files of known kinds under safe names, each where its kind belongs.

Looked at before anything is read: a link could lead out of the folder, a pipe never ends, and a script, a style sheet or
a template of the theme would act in the name of the handbook.
"""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from macros.description.hourly import LARGEST_BYTES as LARGEST_HOURS
from macros.description.loading import FILES
from macros.description.plain_files import content_of
from macros.pages.hand_drawing import LARGEST_DRAWING, drawing_faults
from macros.quantities import Fault, say
from macros.quantities.languages import languages

__all__ = ["LARGEST_PICTURE", "MOST_FILES", "file_faults", "link_faults"]

MOST_FILES: Final = 5000
DEEPEST: Final = 6
LARGEST_PICTURE: Final = 2 * 1024 * 1024
WIDEST_PX: Final = 8000

_NAME: Final = re.compile(r"[a-z0-9][a-z0-9_-]{0,59}(?:\.[a-z0-9]{1,5})?")
_DEVICE: Final = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?")
"""Names that one system takes for devices, whatever stands behind the dot."""
_SIGNATURES: Final = {
    ".png": re.compile(rb"\x89PNG\r\n\x1a\n"),
    ".jpg": re.compile(rb"\xff\xd8\xff"),
    ".jpeg": re.compile(rb"\xff\xd8\xff"),
    ".webp": re.compile(rb"RIFF....WEBP", re.DOTALL),
}
_READ: Final = (".md", ".yml", ".csv", ".svg")
"""Endings of the files that are read as text, wherever they stand."""
_THEME: Final = ("assets/images/", "assets/javascripts/", "assets/stylesheets/", "search/", "overrides/", "404.md")
"""Addresses at which the theme and the site itself put files."""
_RESERVED: Final = frozenset(
    ("assets", "designs", "guides", "images", "javascripts", "overrides", "search", "stylesheets")
)
"""What no plant may be called, since its pages would stand among files of the site."""


def link_faults(docs: Path) -> list[Fault]:
    """Links, and what is neither file nor folder; with one of those nothing of the folder may be read."""
    found: list[Fault] = []
    if docs.is_symlink():
        return [Fault(docs.name, 0, "", say("pages.files.link"))]
    for place, entry in _entries(docs):
        if entry is None:
            found.append(Fault(place, 0, "", say("pages.files.too_many", most=MOST_FILES, deep=DEEPEST)))
        elif entry.is_symlink():
            found.append(Fault(place, 0, "", say("pages.files.link")))
        elif not _may_be_read(entry):
            found.append(Fault(place, 0, "", say("pages.files.no_plain_file")))
    return sorted(found)


def _may_be_read(entry: os.DirEntry[str]) -> bool:
    """Whether it is a plain file, or a folder that no reader takes for one by its name."""
    if entry.is_dir(follow_symlinks=False):
        return not entry.name.endswith(_READ)
    return stat.S_ISREG(entry.stat(follow_symlinks=False).st_mode)


def file_faults(docs: Path) -> list[Fault]:
    """Files and folders that a handbook does not know, or whose content is not what their name says."""
    found: list[Fault] = []
    for place, entry in _entries(docs):
        if entry is None or entry.is_symlink():
            continue
        inside = place.partition("/")[2]
        if entry.name.startswith("."):
            continue  # neither read nor published: what an editor or a desktop leaves behind
        messages = _of_name(entry.name, inside) or (
            _of_folder(inside) if entry.is_dir() else _of_file(Path(entry.path), inside)
        )
        found += [Fault(place, 0, "", message) for message in messages]
        if not entry.is_dir() and inside.endswith(".svg") and not messages:
            found += drawing_faults(content_of(Path(entry.path), LARGEST_DRAWING), place)
    return sorted(found)


def _entries(docs: Path) -> Iterator[tuple[str, os.DirEntry[str] | None]]:
    """Everything below a folder, folders before what they hold, links not followed; none where it is too much."""
    waiting: list[tuple[Path, str, int]] = [(docs, docs.name, 0)]
    count = 0
    while waiting and docs.is_dir():
        folder, shown, deep = waiting.pop()
        with os.scandir(folder) as entries:
            for entry in sorted(entries, key=lambda one: one.name):
                count += 1
                place = f"{shown}/{entry.name}"
                if count > MOST_FILES or deep >= DEEPEST:
                    yield place, None
                    return
                yield place, entry
                if entry.is_dir(follow_symlinks=False) and not entry.name.startswith("."):
                    waiting.append((Path(entry.path), place, deep + 1))


def _of_name(name: str, inside: str) -> list[str]:
    if not _NAME.fullmatch(name):
        return [say("pages.files.name", found=ascii(name)[1:-1])]
    if _DEVICE.fullmatch(name):
        return [say("pages.files.device", found=name)]
    if f"{inside}/".startswith(_THEME) or inside in _THEME:
        return [say("pages.files.theme")]
    return []


def _in_language(inside: str) -> list[str]:
    """The parts of an address; what stands in the folder of a language is held to the same as what it translates."""
    parts = inside.split("/")
    return parts[1:] if len(parts) > 1 and parts[0] in languages() else parts


def _of_folder(inside: str) -> list[str]:
    parts = _in_language(inside)
    if parts[0] == "guides" and len(parts) > 1:
        return [say("pages.files.folder_of_guides")]
    if parts[0] == "designs" and len(parts) == 2 and parts[1] in {*_RESERVED, *languages()}:
        return [say("pages.files.reserved_plant", found=parts[1])]
    if parts[0] == "designs" and len(parts) > 2:
        return [say("pages.files.folder_of_plant")]
    return []


def _of_file(path: Path, inside: str) -> list[str]:
    parts, suffix = _in_language(inside), path.suffix
    if len(parts) != inside.count("/") + 1 and suffix != ".md":
        return [say("pages.files.in_translation")]
    if parts[0] == "designs":
        known = len(parts) == 3 and (path.name in FILES or suffix == ".csv")
        if not known:
            return [say("pages.files.in_designs", known=", ".join(FILES))]
        return _too_large(path, LARGEST_HOURS) if suffix == ".csv" else []
    if parts[0] == "guides":
        return [] if suffix == ".md" else [say("pages.files.in_guides")]
    if suffix == ".md":
        return []
    if suffix == ".svg":
        return _too_large(path, LARGEST_DRAWING)
    if suffix not in _SIGNATURES:
        return [say("pages.files.kind", found=suffix or path.name, known=", ".join((".md", ".svg", *_SIGNATURES)))]
    return _too_large(path, LARGEST_PICTURE) or _of_picture(path, suffix)


def _too_large(path: Path, most: int) -> list[str]:
    return [say("pages.files.too_large", most=most // 1024)] if path.stat().st_size > most else []


def _of_picture(path: Path, suffix: str) -> list[str]:
    begins = content_of(path, 32)
    if not _SIGNATURES[suffix].match(begins):
        return [say("pages.files.another_kind", suffix=suffix)]
    if suffix == ".png":
        sides = int.from_bytes(begins[16:20], "big"), int.from_bytes(begins[20:24], "big")
        if max(sides) > WIDEST_PX:
            return [say("pages.files.too_wide", found=max(sides), most=WIDEST_PX)]
    return []
