"""`record.yml`: what is to be measured, what was measured, what was waived, and who signed for which plant."""

from __future__ import annotations

from typing import Literal

from macros.description.fields import DATE, TAG, Part, field, measure
from macros.quantities import Quantity

FIGURE = r"^[a-z0-9_]+(\.[a-z0-9_]+)+$"
DIGEST = r"^[0-9a-f]{12,64}$"
RULE = r"^[a-z][a-z0-9]*([-_][a-z0-9]+)*$"


class ToMeasure(Part):
    """A measurement that commissioning owes."""

    figure: str = field(pattern=FIGURE)
    how: str = field()
    tolerance: Quantity = measure("any", symbol="t")


class Measured(Part):
    """A value that was measured."""

    date: str = field(pattern=DATE)
    figure: str = field(pattern=FIGURE)
    value: Quantity = measure("any", symbol="x")
    at: str | None = field(None, pattern=f"^{TAG}$")
    tolerance: Quantity = measure("any", symbol="t")
    role: str = field()
    note: str | None = field(None)


class Waiver(Part):
    """A rule that somebody lets the plant break, with reason and term."""

    rule: str = field(pattern=RULE)
    where: str | None = field(None)
    reason: str = field(min_length=20)
    role: str = field()
    expiry: str = field(pattern=DATE)
    digest: str = field(pattern=DIGEST)


class SignOff(Part):
    """A signature, bound to one state of the design by its digest."""

    date: str = field(pattern=DATE)
    role: str = field()
    statement: str = field()
    digest: str = field(pattern=DIGEST)


class RecordFile(Part):
    """The record of a plant."""

    format: Literal[1] = field()
    to_measure: list[ToMeasure] = field([])
    readings: list[Measured] = field([])
    waivers: list[Waiver] = field([])
    sign_offs: list[SignOff] = field([])
