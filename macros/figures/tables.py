"""A figure that is a table: columns with their units, rows of numbers in SI units."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from macros.quantities import Shown, say, shown

__all__ = ["Column", "Table"]


@dataclass(frozen=True)
class Column:
    """
    One column of a table.

    Attributes
    ----------
    key : str
        Key of its heading in the family `figure_column` of the message table.
    unit : str
        Unit of the workshop system in which it is shown.
    decimals : int
        Places after the point in that unit.
    """

    key: str
    unit: str
    decimals: int = 0

    @property
    def title(self) -> str:
        """Its heading."""
        return say(f"figure_column.{self.key}")


@dataclass(frozen=True)
class Table:
    """
    Rows of numbers.

    Attributes
    ----------
    columns : tuple of Column
    rows : tuple of tuple of float
        In SI units, pressures absolute.
    atmosphere_pa : float or None
        Atmospheric pressure, by which pressures above it are shown.
    """

    columns: tuple[Column, ...]
    rows: tuple[tuple[float, ...], ...]
    atmosphere_pa: float | None = None

    def shown(self) -> tuple[tuple[Shown, ...], ...]:
        """Every number in all three unit systems."""
        return tuple(
            tuple(
                shown(value, column.unit, decimals=column.decimals, atmosphere_pa=self.atmosphere_pa)
                for value, column in zip(row, self.columns, strict=True)
            )
            for row in self.rows
        )

    def data(self) -> dict[str, Any]:
        """Ready for JSON: the unit in which each column is shown, and the rows in SI units."""
        return {
            "columns": [{"name": column.key, "unit": column.unit} for column in self.columns],
            "rows": [list(row) for row in self.rows],
        }

    def __str__(self) -> str:
        """Its rows in one line, for a list of figures."""
        return "; ".join(": ".join(each.workshop for each in row) for row in self.shown())
