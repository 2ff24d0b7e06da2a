"""The macros of a page, registered with the macro plugin under their names; our own rendering calls them."""

from typing import Any

from macros.pages.macros import MACROS


def define_env(env: Any) -> None:
    """Called by the macro plugin once for each build."""
    for name, function in MACROS.items():
        env.macro(function, name)
