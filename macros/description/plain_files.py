"""Reading what strangers sent: plain files only, no more of each than is allowed, nothing that a link leads to."""

from __future__ import annotations

import stat
from pathlib import Path

__all__ = ["content_of"]


def content_of(path: Path, most: int) -> bytes:
    """
    What a file holds, at most one byte more than is allowed: whoever reads it then says that it is too large.

    Raises
    ------
    OSError
        If there is no file of its own: neither a link, which could lead out of the folder, nor a pipe, which never
        ends, is read.
    """
    if not stat.S_ISREG(path.lstat().st_mode):
        raise OSError(path)
    with path.open("rb") as file:
        return file.read(most + 1)
