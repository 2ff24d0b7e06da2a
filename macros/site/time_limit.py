"""
How long Markdown may take for one page: a last bound behind those on what a page may hold.

Measured in processor time of this process, so that a busy machine refuses nothing. Systems without interval timers, and
threads other than the first, do without.
"""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable
from typing import Final, NoReturn

__all__ = ["MOST_SECONDS", "start", "stop"]

MOST_SECONDS: Final = 5.0


def start(error: Callable[[], BaseException], seconds: float = MOST_SECONDS) -> None:
    """Raise an error when so much time has been used and nobody called `stop`."""
    if not _can():
        return

    def too_long(*_: object) -> NoReturn:
        raise error()

    signal.signal(signal.SIGVTALRM, too_long)
    signal.setitimer(signal.ITIMER_VIRTUAL, seconds)


def stop() -> None:
    """What was begun is done."""
    if _can():
        signal.setitimer(signal.ITIMER_VIRTUAL, 0.0)


def _can() -> bool:
    return hasattr(signal, "setitimer") and threading.current_thread() is threading.main_thread()
