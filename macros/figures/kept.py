"""
What takes long to compute, kept on disk between runs as JSON, outside every handbook.

A file is named after the digest of all that it was made from, so that nothing in it can be stale. A folder that cannot
be written only makes the next run slower.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.metadata
import json
import os
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

from macros.figures.plant import LIBRARIES, Plant

__all__ = ["folder", "keep", "kept", "key_of"]

FLOORS = ("quantities", "calculations", "description", "network", "figures")
"""The floors that decide a figure; a page that looks different decides none."""


def folder() -> Path:
    """Where things are kept: the user's own folder for what may be lost."""
    base = os.environ.get("XDG_CACHE_HOME") or (os.environ.get("LOCALAPPDATA") if os.name == "nt" else "")
    return (Path(base) if base else Path.home() / ".cache") / "gaswright"


def key_of(plant: Plant) -> str:
    """The digest over a plant's description, our code as far as it decides figures, and its libraries."""
    digest = hashlib.sha256(_code())
    for part in plant.description.sources():
        digest.update(len(part).to_bytes(8) + part)
    return digest.hexdigest()


@cache
def _code() -> bytes:
    digest = hashlib.sha256()
    here = Path(__file__).parent.parent
    for floor in FLOORS:
        for path in sorted((here / floor).rglob("*")):
            # Tables of numbers, not the messages: how a figure is called does not move it.
            if path.suffix in (".py", ".toml") and "messages" not in path.parts:
                digest.update(path.relative_to(here).as_posix().encode() + b"\0" + path.read_bytes())
    for library in LIBRARIES:
        digest.update(f"{library}=={importlib.metadata.version(library)}\n".encode())
    return digest.digest()


def kept(name: str, key: str) -> Any:
    """What was kept under a name and key; none if nothing was, or it cannot be read."""
    try:
        return json.loads((folder() / f"{name}-{key}.json").read_text("utf-8"))
    except (OSError, ValueError):
        return None


def keep(name: str, key: str, data: Any) -> None:
    """Keep data that JSON can say, whole or not at all."""
    with contextlib.suppress(OSError):
        folder().mkdir(parents=True, exist_ok=True)
        handle, aside = tempfile.mkstemp(prefix=f".{name}-", dir=folder())
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                json.dump(data, file, allow_nan=False)
            Path(aside).replace(folder() / f"{name}-{key}.json")
        except BaseException:
            Path(aside).unlink(missing_ok=True)
            raise
