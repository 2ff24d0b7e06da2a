"""
`wall.yml`: what goes on the sheet that hangs beside the plant, and how much of it each paper carries.

A plant may lack the file; it then has no sheet. Every block has a priority: 1 hangs on every paper, 3 only where there
is room for everything. A paper carries all blocks down to the priority that it names. What then does not fit is an
error, never smaller type.
"""

from __future__ import annotations

from typing import Any, Literal

from macros.description.fields import NAME, TAG, Part, field, measure
from macros.description.record_file import FIGURE
from macros.quantities import Quantity

__all__ = ["WallFile"]


Priority = Literal[1, 2, 3]


def _priority(default: Priority = 1) -> Any:
    return field(default)


class Papers(Part):
    """The lowest priority that each paper carries."""

    a3: Priority = field(3)
    a4: Priority = field(2)


class DrawingBlock(Part):
    """The schematic."""

    priority: Priority = _priority()
    height: Quantity = measure("length", symbol="h", low="60 mm", high="250 mm")


class EmergencyBlock(Part):
    """What to do in an emergency, the largest type of the sheet."""

    priority: Priority = _priority()
    procedure: str = field(pattern=f"^{NAME}$")


class Limit(Part):
    """A setting or limit, and what to do beyond it."""

    figure: str = field(pattern=FIGURE)
    what: str | None = field(None)
    at: str | None = field(None, pattern=f"^{TAG}$")
    beyond: str = field()


class LimitsBlock(Part):
    """Settings and limits."""

    priority: Priority = _priority()
    rows: list[Limit] = field(min_length=1)


class TripsBlock(Part):
    """What trips, where, and what it moves."""

    priority: Priority = _priority()


class ProcedureBlock(Part):
    """A procedure as a table of valves."""

    name: str = field(pattern=f"^{NAME}$")
    priority: Priority = _priority()


class GaugesBlock(Part):
    """For each bank the reading to stop at, by temperature of the day."""

    priority: Priority = _priority()


class ServiceRow(Part):
    """A job that comes round again."""

    what: str = field()
    every: str = field()


class ServiceBlock(Part):
    """Service intervals."""

    priority: Priority = _priority(2)
    rows: list[ServiceRow] = field(min_length=1)


class LinesBlock(Part):
    """Lines left to write on; they take what room is left."""

    priority: Priority = _priority(3)
    least: Quantity = measure("count", symbol="n", low="1", high="40")
    columns: list[str] = field(min_length=1, max_length=6)


class WallFile(Part):
    """The wall guide of a plant. A block that is left out does not hang on the wall."""

    format: Literal[1] = field()
    papers: Papers = field(Papers())
    drawing: DrawingBlock = field()
    emergency: EmergencyBlock = field()
    limits: LimitsBlock = field()
    trips: TripsBlock | None = field(None)
    procedures: list[ProcedureBlock] = field([])
    gauges: GaugesBlock | None = field(None)
    service: ServiceBlock | None = field(None)
    lines: LinesBlock | None = field(None)
