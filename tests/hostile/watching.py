"""What a hostile input must not bring about, watched while it is read: the interpreter tells of every file, process and address."""

from __future__ import annotations

import importlib
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]
MOST_SECONDS, MOST_BYTES = 5.0, 1 << 30

ACTS = (
    "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.fork", "os.forkpty", "subprocess.Popen", "pty.spawn", "socket.connect",
    "socket.getaddrinfo", "socket.bind", "urllib.Request", "webbrowser.open", "ftplib.connect", "smtplib.connect", "shutil.",
    "os.remove", "os.rename", "os.rmdir", "os.mkdir", "os.link", "os.symlink", "os.chmod", "os.chown", "os.truncate", "ctypes.dlopen",
    "os.putenv", "os.unsetenv",
)  # fmt: skip
"""Beginnings of the names of audit events (PEP 578; the table of them in the reference of the standard library)."""

OURS = tuple(
    str(path) for path in (ROOT / "macros", ROOT / "diagrams", ROOT / "tests", Path(sys.prefix), Path(sys.base_prefix), Path(os.__file__).parent)
)  # fmt: skip

_seen: list[str] | None = None
_allowed: tuple[str, ...] = ()


def _hook(event: str, arguments: tuple[object, ...]) -> None:
    if _seen is None:
        return
    if event.startswith(ACTS):
        _seen.append(f"{event} {arguments!r}"[:200])
    elif event == "open":
        path, mode = arguments[0], str(arguments[1] or "")
        if not isinstance(path, (str, bytes)):
            return
        place = str(Path(os.fsdecode(path)).absolute())
        writes = any(letter in mode for letter in "wax+") and not place.endswith((".pyc", "lock"))
        if writes or not place.startswith((*_allowed, *OURS)):
            _seen.append(f"open {place} {mode}")


sys.addaudithook(_hook)


@contextmanager
def watched(*allowed: Path) -> Iterator[None]:
    """
    What happens within reads no file but those below the folders that are allowed and our own, writes none, runs nothing,
    asks no other host, and stays within the limits.
    """
    global _seen, _allowed
    _seen, _allowed = [], tuple(str(path.absolute()) for path in allowed)
    began, held = time.process_time(), _peak_bytes()
    try:
        yield
    finally:
        seen, _seen = _seen, None
    assert not seen, seen
    assert time.process_time() - began < MOST_SECONDS
    assert _peak_bytes() - held < MOST_BYTES


def _peak_bytes() -> int:
    if sys.platform == "win32":
        return 0  # this system does not tell
    resource = importlib.import_module("resource")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak if sys.platform == "darwin" else peak * 1024
