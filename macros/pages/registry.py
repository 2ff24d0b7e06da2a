"""Where macros are registered: functions that a guide may call with constants, by name."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from macros.pages.context import PageContext
from macros.pages.tokens import Fragment

__all__ = ["MACROS", "NO_PAGE", "macro"]

MACROS: Final[dict[str, Callable[..., Fragment]]] = {}
"""Every macro by its name."""

NO_PAGE: Final = PageContext()


def macro(function: Callable[..., Fragment]) -> Callable[..., Fragment]:
    """Register a macro under the name of its function."""
    MACROS[function.__name__] = function
    return function
