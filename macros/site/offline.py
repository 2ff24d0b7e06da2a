"""The handbook as one file for a stick: unpacked anywhere, it opens from there with search and workings, and asks nobody."""

from __future__ import annotations

import shutil
import tempfile
import zipfile
from collections.abc import Iterator
from pathlib import Path

from macros.quantities import Fault, Faults, say
from macros.site.build import Built, build

__all__ = ["offline", "pack"]

ONLINE_ONLY = ("sitemap.xml", "sitemap.xml.gz", "404.html")
"""Files that only a server or a search machine asks for."""

NO_TIME = (1980, 1, 1, 0, 0, 0)
"""The date of every file: the same site gives the same bytes."""


def offline(handbook: Path, target: Path, plant: str = "", *, only: str = "") -> Built:
    """
    Build a handbook, or the part of it that one plant needs, and pack it.

    Parameters
    ----------
    handbook : Path
        The folder that holds `mkdocs.yml` and `docs/`.
    target : Path
        The file to write.
    plant : str
        Name of a plant; all without.
    only : str
        The one language of it; all that the handbook names without.

    Raises
    ------
    Faults
        If there is no such plant, or as for `build`; nothing is written then.
    """
    with tempfile.TemporaryDirectory(prefix="gaswright-offline-") as scratch:
        source = _of_one(handbook, Path(scratch) / handbook.resolve().name, plant) if plant else handbook
        site = Path(scratch) / "site"
        built = build(source, site, only=only)
        pack(site, target)
    return built


def pack(site: Path, target: Path) -> None:
    """
    A built site as a zip, in one folder named after the file.

    Parameters
    ----------
    site : Path
    target : Path
        The file to write; it is replaced only when the new one is whole.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    aside = target.with_name(f".{target.name}-aside")
    try:
        with zipfile.ZipFile(aside, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as packed:
            for path in _files(site):
                entry = zipfile.ZipInfo(f"{target.stem}/{path.relative_to(site).as_posix()}", NO_TIME)
                entry.create_system, entry.external_attr = 3, 0o644 << 16
                entry.compress_type = zipfile.ZIP_DEFLATED
                packed.writestr(entry, path.read_bytes(), compresslevel=9)
        aside.replace(target)
    finally:
        aside.unlink(missing_ok=True)


def _files(site: Path) -> Iterator[Path]:
    for path in sorted(site.rglob("*"), key=lambda one: one.relative_to(site).as_posix()):
        if path.is_file() and path.name not in ONLINE_ONLY and path.suffix != ".map":
            yield path


def _of_one(handbook: Path, copy: Path, plant: str) -> Path:
    """A copy of the handbook's sources without the other plants; pages that list plants list this one."""
    designs = handbook / "docs/designs"
    if not (designs / plant).is_dir():
        known = ", ".join(sorted(path.name for path in designs.iterdir() if path.is_dir())) if designs.is_dir() else ""
        raise Faults([Fault(str(designs), 0, "", say("site.no_such_plant", plant=plant, known=known))])
    copy.mkdir()
    shutil.copy(handbook / "mkdocs.yml", copy)
    shutil.copytree(handbook / "docs", copy / "docs", ignore=lambda folder, names: _others(folder, names, plant))
    return copy


def _others(folder: str, names: list[str], plant: str) -> list[str]:
    return [name for name in names if Path(folder).name == "designs" and name != plant and "." not in name]
