"""Texts of a plant as a sheet prints them: tags, and numbers with the digits of the handbook in one unit system."""

from __future__ import annotations

from typing import Any

from macros.description.references import references
from macros.figures.graph import Value
from macros.figures.plant import Plant
from macros.figures.tables import Table
from macros.pages.numbers import Numbers
from macros.quantities import Shown, System, read, shown, unit
from macros.quantities.errors import QuantityError
from macros.quantities.languages import with_mark
from macros.quantities.showing import GROUP_MARK, NO_BREAK_SPACE

__all__ = ["Runs", "Wording"]

Runs = list[dict[str, Any]]
"""A text in runs, each with its kind: `text`, `tag` or `value`, and whether an assumed value reaches it."""

SIGNIFICANT = 3
"""Digits of a typed quantity in another unit than the author's, as for entries."""


class Wording:
    """
    Puts the texts of one plant into runs.

    Parameters
    ----------
    plant : Plant
    system : {"workshop", "si", "us"}
        The one unit system of the sheet.
    """

    def __init__(self, plant: Plant, system: System) -> None:
        self.plant = plant
        self.system = system
        self._numbers = Numbers(plant.graph)

    def of_system(self, texts: Shown) -> str:
        """The text of a number in the system of the sheet."""
        # The font has no narrow space; an ordinary one that does not break stands between thousands.
        return str(getattr(texts, self.system)).replace(GROUP_MARK, NO_BREAK_SPACE)

    def value(self, path: str) -> dict[str, Any]:
        """
        An entry or figure as a run.

        Raises
        ------
        UnknownPath
            If the plant has none of this name.
        """
        value: Value = self.plant.graph[path]
        if value.kind == "text" or not value.is_number:
            return {"kind": "text", "text": str(value.si), "assumed": bool(value.assumed)}
        return {"kind": "value", "text": self.of_system(self._numbers.shown(path)), "assumed": bool(value.assumed)}

    def runs(self, text: str) -> Runs:
        """A text of the description with its references put in; what they name was checked before."""
        made: Runs = []
        position = 0
        for one in references(text):
            if one.start > position:
                made.append(_plain(text[position : one.start]))
            made.append({"kind": "tag", "text": one.name} if one.is_tag else self.value(one.name))
            position = one.end
        if position < len(text):
            made.append(_plain(text[position:]))
        return made

    def limit(self, text: str | None) -> Runs:
        """The limit of a trip: a reference, or a quantity as typed."""
        if not text:
            return []
        if references(text):
            return self.runs(text)
        try:
            quantity = read(text)
        except QuantityError:
            return [_plain(text)]
        if self.system == "workshop":
            return [_number(with_mark(quantity.text).replace(" ", NO_BREAK_SPACE))]
        # As an entry: the digits of the author in his unit, at least three in another, degrees as fine as his.
        own = unit(quantity.unit, quantity.kind)
        digits = _digits(quantity.text)
        as_typed = self.of_system(shown(quantity.si, own, digits))
        if quantity.kind == "temperature" or as_typed.endswith(own.symbol):
            return [_number(as_typed)]
        return [_number(self.of_system(shown(quantity.si, own, max(SIGNIFICANT, digits))))]

    def table(self, path: str) -> list[list[str]]:
        """The rows of a figure that is a table."""
        table: Table = self.plant.graph[path].si
        return [[self.of_system(cell) for cell in row] for row in table.shown()]


def _plain(text: str) -> dict[str, Any]:
    return {"kind": "text", "text": text}


def _number(text: str) -> dict[str, Any]:
    return {"kind": "value", "text": text, "assumed": False}


def _digits(text: str) -> int:
    """Significant digits of a quantity as typed."""
    number = text.split("±")[0].split(" ")[0].lower().split("e")[0]
    return max(1, len(number.lstrip("+-").replace(".", "").lstrip("0")))
