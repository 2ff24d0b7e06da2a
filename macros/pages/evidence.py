"""The evidence for calculations as pages show it, each row evaluated once."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from typing import Any

from macros.calculations.contract import CALCULATIONS
from macros.calculations.evidence import Evidence, all_evidence
from macros.figures.graph import Value
from macros.pages.citations import calls_in

__all__ = ["Row", "evidence_anchor", "evidence_of", "evidence_rows"]

Name = tuple[str, str]
"""Subject and name of a calculation."""


@dataclass(frozen=True)
class Row:
    """One row of evidence beside what we calculate today."""

    subject: str
    evidence: Evidence
    arguments: dict[str, Any]
    expected: float
    ours: float

    @property
    def name(self) -> str:
        """The calculation that it vouches for."""
        return self.evidence.calculation.__name__

    @property
    def holds(self) -> bool:
        return self.evidence.holds(self.ours, self.expected)


@functools.cache
def evidence_rows() -> tuple[Row, ...]:
    """Every row; evaluated once, since nothing in it changes while a program runs."""
    return tuple(
        Row(subject, piece, arguments, expected, piece.ours(arguments))
        for subject, piece in all_evidence()
        for arguments, expected in piece.rows
    )


@functools.cache
def _by_calculation() -> dict[str, dict[Name, list[Evidence]]]:
    found: dict[str, dict[Name, list[Evidence]]] = {}
    for subject, piece in all_evidence():
        name = piece.calculation.__name__
        found.setdefault(name, {}).setdefault((subject, name), []).append(piece)
    return found


def evidence_of(value: Value) -> dict[Name, list[Evidence]]:
    """What vouches for the calculation of a figure, and for the functions that its formula shows by name only."""
    wanted = [getattr(value.compute, "__name__", "")]
    if value.node is not None:
        # Sorted, since calculations are known in the order in which something happened to import them.
        for called in calls_in(value.node):
            wanted += sorted(one.name for one in CALCULATIONS.values() if one.opaque == called)
    found: dict[Name, list[Evidence]] = {}
    for name in dict.fromkeys(wanted):
        found.update(_by_calculation().get(name, {}))
    return found


def evidence_anchor(subject: str, name: str) -> str:
    """The id of the first row that vouches for a calculation."""
    return f"v-{subject}-{name}"
