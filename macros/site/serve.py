"""The preview: the generator's own server in a process of its own, started anew when Python changes."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterable
from pathlib import Path

from macros.quantities import Faults, say
from macros.quantities.languages import VARIABLE, language
from macros.site.configuration import configuration_faults

__all__ = ["serve"]

PACKAGES = ("macros", "diagrams")

QUIET = {"NO_MKDOCS_2_WARNING": "1"}
"""The theme's advertisement of its successor says nothing to an author."""


def serve(handbook: Path, address: str = "127.0.0.1:8000", *, every_s: float = 0.5) -> int:
    """
    Serve a handbook until interrupted; pages and descriptions are watched by the server, code by us.

    An edited Python package would stay in the server's memory and put a stale number on the screen, so the server
    starts anew on any change of code.

    Returns
    -------
    int
        Exit status: that of the server if it ended by itself, 0 when interrupted.
    """
    if faults := configuration_faults(handbook):
        raise Faults(faults)
    code = Path(__file__).parents[2]
    print(say("site.serving", address=address))  # noqa: T201 (the command line's own output)
    server = _start(handbook, address)
    seen = _stamps(code)
    try:
        while True:
            time.sleep(every_s)
            if (status := server.poll()) is not None:
                return status
            if (now := _stamps(code)) != seen:
                seen = now
                print(say("site.restarting"))  # noqa: T201
                _stop(server)
                server = _start(handbook, address)
    except KeyboardInterrupt:
        return 0
    finally:
        _stop(server)


def _start(handbook: Path, address: str) -> subprocess.Popen[bytes]:
    command = [sys.executable, "-m", "mkdocs", "serve", "--quiet", "--dev-addr", address]
    return subprocess.Popen(command, cwd=handbook, env={**os.environ, **QUIET, VARIABLE: language()})


def _stop(server: subprocess.Popen[bytes]) -> None:
    if server.poll() is None:
        server.terminate()
        try:
            server.wait(timeout=5)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


def _stamps(code: Path) -> dict[Path, int]:
    return {path: path.stat().st_mtime_ns for path in _watched(code)}


def _watched(code: Path) -> Iterable[Path]:
    for package in PACKAGES:
        for pattern in ("*.py", "*.toml", "*.css", "*.js", "*.html"):
            yield from (code / package).rglob(pattern)
