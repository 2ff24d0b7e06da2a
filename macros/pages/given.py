"""
Values that an author gives on the page itself, and what is calculated from them.

Each call of a macro makes a small graph of its own, so its working is that of any figure.
"""

from __future__ import annotations

from collections.abc import Callable
from html import escape
from typing import Any

from macros.calculations.contract import OutOfRange
from macros.figures.graph import ATMOSPHERE, Entry, Figure, FigureError, Graph, figure
from macros.pages.context import PageContext
from macros.pages.expressions import MOST_DIGITS
from macros.pages.fragments import FragmentError, call_key, evaluated_fragment
from macros.pages.numbers import Numbers
from macros.pages.tokens import Fragment
from macros.quantities import KINDS, read, say

__all__ = ["ABOVE", "Given"]

ABOVE = "macro."
"""What the names of values of a page begin with; titles of results stand in the family `figure` under it."""


class Given:
    """
    The values given in one call of a macro.

    Parameters
    ----------
    macro : str
        Its name.
    page : PageContext
        The page that calls it.
    """

    def __init__(self, macro: str, page: PageContext) -> None:
        self.macro, self.page = macro, page
        self.entries: list[Entry] = []
        self.figures: list[Figure] = []

    def entry(self, argument: str, text: Any, kind: str, title: str, symbol: str) -> str:
        """
        Read an argument; its path is returned, to be read by a figure.

        Raises
        ------
        QuantityError
            If it is no quantity of its kind.
        """
        quantity = read(str(text), kind)
        path = f"{ABOVE}{self.macro}.{argument}"
        self.entries.append(Entry(path, quantity, title, symbol))
        return path

    def atmosphere(self, text: str | None) -> str:
        """The atmosphere against which gauge pressures count: as given, else the standard one, assumed."""
        quantity = read(text or "1013.25 mbar(a)", "absolute_pressure")
        self.entries.append(
            Entry(ATMOSPHERE, quantity, say("pages.atmosphere"), "p_atm", assumed="" if text else "cgpm-1954")
        )
        return ATMOSPHERE

    def figure(self, name: str, compute: Callable[..., Any], **settings: Any) -> str:
        """Bind a calculation, as `macros.figures.graph.figure` does; its path is returned."""
        one = figure(f"{ABOVE}{name}", compute, **settings)
        self.figures.append(one)
        return one.name

    def fragment(self, path: str, unit: str | None, digits: int | None) -> Fragment:
        """
        The number of a figure with its working.

        Raises
        ------
        FragmentError
            If it cannot be calculated from the values given.
        QuantityError
            If the unit is none of its kind.
        """
        if digits is not None and not 1 <= digits <= MOST_DIGITS:
            raise FragmentError(say("pages.digits", found=digits, most=MOST_DIGITS))
        graph = Graph(self.entries, self.figures)
        numbers = Numbers(graph)
        try:
            texts = numbers.shown(path, digits, unit)
        except FigureError as error:
            raise FragmentError(self._reason(error)) from error
        typed = [(one.path, one.value.text) for one in self.entries]
        key = call_key(self.macro, typed, unit, digits)
        data = f'data-macro="{escape(self.macro)}"'
        return evaluated_fragment(graph, numbers, path, self.page, texts, key=key, data=data)

    def _reason(self, error: FigureError) -> str:
        """Why a figure cannot be calculated, in terms of what was typed."""
        cause = error.__cause__
        figures = {one.name: one for one in self.figures}
        entries = {one.path: one for one in self.entries}
        if isinstance(cause, OutOfRange) and error.name in figures:
            entry = entries.get(figures[error.name].inputs.get(cause.argument, ""))
            if entry is not None:
                si = KINDS[entry.value.kind].si
                wanted = cause.wanted if si == "1" else f"{cause.wanted} {si}"
                return say("pages.out_of_range", title=entry.title, typed=entry.value.text, wanted=wanted)
        return error.reason
