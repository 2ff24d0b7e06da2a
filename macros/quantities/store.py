"""
What was worked out before, kept on disk.

An entry is a pure function of its key, and every key holds all that could change it: our code and tables, the version
of Python and of every library. So an entry may be lost, torn or written twice at any time; what cannot be read whole is
worked out anew. Entries are JSON and are only ever read as data.
"""

from __future__ import annotations

import contextlib
import functools
import hashlib
import importlib.metadata
import json
import os
import shutil
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, TypeVar

import platformdirs

from macros.quantities.languages import language

__all__ = ["clear", "environment", "kept", "key_of", "place", "prune", "read", "write"]

FOLDER = "GASWRIGHT_CACHE"
"""The variable that says where entries are kept; empty, none are."""

CODE = (".py", ".toml", ".typ")
DAY_S = 86_400.0
MOST_BYTES = 2_000_000_000
"""The room for all entries; those of three plants as they stand take a twentieth of it."""

Value = TypeVar("Value")


def place() -> Path | None:
    """The folder of the entries; none where nothing is to be kept."""
    said = os.environ.get(FOLDER)
    if said is None:
        return Path(platformdirs.user_cache_path("gaswright", appauthor=False))
    return Path(said) if said else None


@functools.cache
def environment() -> str:
    """Digest over all that works things out: our code and tables, Python, the version of every library."""
    digest = hashlib.sha256(sys.version.encode())
    root = Path(__file__).parents[2]
    for package in ("macros", "diagrams"):
        for path in sorted((root / package).rglob("*")):
            if path.suffix in CODE:
                digest.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes())
    libraries = {f"{one.metadata['Name']}=={one.version}" for one in importlib.metadata.distributions()}
    digest.update("\n".join(sorted(libraries)).encode())
    return digest.hexdigest()


def key_of(of: str, *parts: str | bytes) -> str:
    """The key of an entry: what it is of, the language spoken, and every part that it is worked out from."""
    digest = hashlib.sha256()
    for part in (environment(), language(), of, *parts):
        content = part if isinstance(part, bytes) else part.encode()
        digest.update(len(content).to_bytes(8, "big") + content)
    return digest.hexdigest()


def read(key: str) -> Any | None:
    """The value of an entry; None where there is none, or where it was damaged."""
    path = _path(key)
    if path is None:
        return None
    try:
        check, _, text = path.read_text(encoding="utf-8").partition("\n")
        if check != _check(key, text):
            return None
        if time.time() - path.stat().st_mtime > DAY_S:
            os.utime(path)  # still of use
        return json.loads(text)
    except (OSError, ValueError):
        return None


def write(key: str, value: Any) -> None:
    """Keep a value that JSON can say; where nothing can be written, nothing is kept."""
    path = _path(key)
    if path is None:
        return
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(dir=path.parent, prefix=".")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(f"{_check(key, text)}\n{text}")
            Path(aside).replace(path)
        except OSError:
            Path(aside).unlink(missing_ok=True)
            raise


def kept(key: str, work_out: Callable[[], Value]) -> Value:
    """The value of an entry, worked out and kept where it is not there. It must come back from JSON as it went."""
    known = read(key)
    if known is None:
        known = work_out()
        write(key, known)
    return known


def prune(older_than_days: float = 30.0, most_bytes: int = MOST_BYTES) -> None:
    """Drop what was of no use for long, and of the rest what was so longest, until there is room for the latest."""
    oldest = time.time() - older_than_days * DAY_S
    held: list[tuple[float, int, Path]] = []
    for path in _entries():
        with contextlib.suppress(OSError):
            told = path.stat()
            held.append((told.st_mtime, told.st_size, path))
    held.sort(reverse=True)
    room = most_bytes
    for used, size, path in held:
        room -= size
        if used < oldest or room < 0:
            with contextlib.suppress(OSError):
                path.unlink()


def clear() -> None:
    """Drop everything."""
    if (folder := place()) is not None:
        shutil.rmtree(folder, ignore_errors=True)


def _entries() -> Iterator[Path]:
    folder = place()
    if folder is not None and folder.is_dir():
        yield from folder.glob("??/*")


def _path(key: str) -> Path | None:
    folder = place()
    return None if folder is None else folder / key[:2] / f"{key[2:]}.json"


def _check(key: str, text: str) -> str:
    return hashlib.sha256(f"{key}\n{text}".encode()).hexdigest()
