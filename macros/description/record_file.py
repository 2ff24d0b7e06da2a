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

    figure: str = field("Figure that it checks", pattern=FIGURE)
    how: str = field("How it is measured")
    tolerance: Quantity = measure("any", "Difference from the predicted value that is accepted", symbol="t")


class Measured(Part):
    """A value that was measured."""

    date: str = field("Day of the measurement", pattern=DATE)
    figure: str = field("Figure that it is compared with", pattern=FIGURE)
    value: Quantity = measure("any", "What was measured", symbol="x")
    at: str | None = field("Tag of the item that showed it", None, pattern=f"^{TAG}$")
    tolerance: Quantity = measure("any", "Difference from the predicted value that is accepted", symbol="t")
    role: str = field("Who measured, by role")
    note: str | None = field("What else must be known of it", None)


class Waiver(Part):
    """A rule that somebody lets the plant break, with reason and term."""

    rule: str = field("Rule that is waived", pattern=RULE)
    where: str | None = field("Tag or name that it is waived for; everywhere if absent", None)
    reason: str = field("Why", min_length=20)
    role: str = field("Who answers for it, by role")
    expiry: str = field("Day on which it ends", pattern=DATE)
    digest: str = field("Digest of the design that it was given for", pattern=DIGEST)


class SignOff(Part):
    """A signature, bound to one state of the design by its digest."""

    date: str = field("Day of the signature", pattern=DATE)
    role: str = field("Who signs, by role")
    statement: str = field("What is signed for")
    digest: str = field("Digest of the design that was looked at", pattern=DIGEST)


class RecordFile(Part):
    """The record of a plant."""

    format: Literal[1] = field("Version of this format")
    to_measure: list[ToMeasure] = field("What commissioning is to measure", [])
    readings: list[Measured] = field("What was measured", [])
    waivers: list[Waiver] = field("Waivers", [])
    sign_offs: list[SignOff] = field("Signatures", [])
