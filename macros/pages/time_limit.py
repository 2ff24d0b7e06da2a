"""
How long Markdown may take for one page: a last bound behind those on what a page may hold.

Measured in processor time of this process, so that a busy machine refuses nothing. Systems without interval timers, and
threads other than the first, do without.
"""

from __future__ import annotations

import contextlib
import signal
import threading
from collections.abc import Iterator
from typing import Final, NoReturn

__all__ = ["MOST_SECONDS", "TooLongError", "limited"]

MOST_SECONDS: Final = 5.0


class TooLongError(Exception):
    """Something took longer than it may."""


@contextlib.contextmanager
def limited(seconds: float = MOST_SECONDS) -> Iterator[None]:
    """
    What stands inside may take so much time.

    Raises
    ------
    TooLongError
        If it takes longer.
    """
    if not _can():
        yield
        return
    former = signal.signal(signal.SIGVTALRM, _too_long)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)
        signal.signal(signal.SIGVTALRM, former)


def _too_long(*_: object) -> NoReturn:
    raise TooLongError


def _can() -> bool:
    return hasattr(signal, "setitimer") and threading.current_thread() is threading.main_thread()
