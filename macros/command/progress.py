"""A quiet line on standard error while something takes long; none where nobody watches a terminal."""

from __future__ import annotations

import contextlib
import sys
import threading
import time
from collections.abc import Iterator
from typing import TextIO

from macros.quantities import say

__all__ = ["told"]

PATIENCE_S = 1.0
"""What takes no longer needs no word."""


@contextlib.contextmanager
def told(what: str, stream: TextIO | None = None, patience_s: float = PATIENCE_S) -> Iterator[None]:
    """
    Say what goes on for as long as it goes on; the line is gone before anything else is printed.

    Parameters
    ----------
    what : str
        What goes on, for readers.
    stream : TextIO, optional
        Where to say it; standard error if not given. Where that is no terminal nothing is said.
    patience_s : float
        Time to wait for the end before anything is said, and between two words. [s]
    """
    stream = sys.stderr if stream is None else stream
    if not stream.isatty():
        yield
        return
    ended = threading.Event()
    teller = threading.Thread(target=_tell, args=(what, stream, patience_s, ended), daemon=True)
    teller.start()
    try:
        yield
    finally:
        ended.set()
        teller.join()


def _tell(what: str, stream: TextIO, patience_s: float, ended: threading.Event) -> None:
    began, width = time.monotonic(), 0
    while not ended.wait(patience_s):
        line = say("command.working", what=what, seconds=int(time.monotonic() - began))
        stream.write("\r" + line.ljust(width))
        stream.flush()
        width = max(width, len(line))
    if width:
        stream.write("\r" + " " * width + "\r")
        stream.flush()
