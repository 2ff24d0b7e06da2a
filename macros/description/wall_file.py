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
    return field("Priority: 1 on every paper, 3 only where there is room for everything", default)


class Papers(Part):
    """The lowest priority that each paper carries."""

    a3: Priority = field("On A3, one side", 3)
    a4: Priority = field("On A4, one sheet front and back", 2)


class DrawingBlock(Part):
    """The schematic."""

    priority: Priority = _priority()
    height: Quantity = measure("length", "Height that it may take", symbol="h", low="60 mm", high="250 mm")


class EmergencyBlock(Part):
    """What to do in an emergency, the largest type of the sheet."""

    priority: Priority = _priority()
    procedure: str = field("Procedure of the emergency stop", pattern=f"^{NAME}$")


class Limit(Part):
    """A setting or limit, and what to do beyond it."""

    figure: str = field("Entry or figure that holds the value", pattern=FIGURE)
    what: str | None = field("What it is, where its title is too long for a wall", None)
    at: str | None = field("Tag of the item that shows it", None, pattern=f"^{TAG}$")
    beyond: str = field("What to do beyond it")


class LimitsBlock(Part):
    """Settings and limits."""

    priority: Priority = _priority()
    rows: list[Limit] = field("In the order in which they are wanted", min_length=1)


class TripsBlock(Part):
    """What trips, where, and what it moves."""

    priority: Priority = _priority()


class ProcedureBlock(Part):
    """A procedure as a table of valves."""

    name: str = field("Name of the procedure", pattern=f"^{NAME}$")
    priority: Priority = _priority()


class GaugesBlock(Part):
    """For each bank the reading to stop at, by temperature of the day."""

    priority: Priority = _priority()


class ServiceRow(Part):
    """A job that comes round again."""

    what: str = field("What is done")
    every: str = field("How often, by reference to a figure where it is computed")


class ServiceBlock(Part):
    """Service intervals."""

    priority: Priority = _priority(2)
    rows: list[ServiceRow] = field("In the order in which they come round", min_length=1)


class LinesBlock(Part):
    """Lines left to write on; they take what room is left."""

    priority: Priority = _priority(3)
    least: Quantity = measure("count", "Lines that there must be room for", symbol="n", low="1", high="40")
    columns: list[str] = field("Headings of their columns", min_length=1, max_length=6)


class WallFile(Part):
    """The wall guide of a plant. A block that is left out does not hang on the wall."""

    format: Literal[1] = field("Version of this format")
    papers: Papers = field("The lowest priority that each paper carries", Papers())
    drawing: DrawingBlock = field("The schematic")
    emergency: EmergencyBlock = field("What to do in an emergency")
    limits: LimitsBlock = field("Settings and limits")
    trips: TripsBlock | None = field("Trips", None)
    procedures: list[ProcedureBlock] = field("Procedures, in the order of the sheet", [])
    gauges: GaugesBlock | None = field("Gauge readings by temperature of the day", None)
    service: ServiceBlock | None = field("Service intervals", None)
    lines: LinesBlock | None = field("Lines left to write on", None)
