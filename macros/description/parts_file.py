"""`parts.yml`: what to buy, what it costs, and what is known of the prices."""

from __future__ import annotations

import decimal
from typing import Any, Literal

from pydantic import field_validator

from macros.description.fields import DATE, TAG, Part, field, measure, refuse
from macros.quantities import Quantity, say

DEAREST = decimal.Decimal("10000000")


class Prices(Part):
    """Where the prices come from."""

    basis: Literal["invented", "quoted", "paid"] = field("How the prices are known")
    date: str = field("Day on which they held", pattern=DATE)
    note: str | None = field("What else must be known of them", None)


class BoughtPart(Part):
    """A line of the parts list."""

    item: str = field("What it is")
    specification: str = field("What to ask for")
    quantity: Quantity = measure("count", "How many", symbol="n", low="1", high="10000")
    unit_price: decimal.Decimal = field("Price of one")
    currency: str = field("Currency, three letters of ISO 4217", pattern=r"^[A-Z]{3}$")
    region: str = field(
        "Where it can be had for that: a country, two letters of ISO 3166-1, or `world`", pattern=r"^([A-Z]{2}|world)$"
    )
    lead_time: Quantity = measure("time", "Time from order to delivery", symbol="t_l", low="0 d", high="3 a")
    tags: list[str] = field("Tags of the items or lines that it is for", [], json_schema_extra={"entries": TAG})
    life: Quantity | None = measure(
        "time", "Time after which it is bought again", symbol="t_u", low="1 d", high="50 a", optional=True
    )

    @field_validator("unit_price", mode="before")
    @classmethod
    def _read_money(cls, value: Any) -> Any:
        if isinstance(value, decimal.Decimal):
            return value
        try:
            price = decimal.Decimal(str(value)) if not isinstance(value, (bool, list, dict)) else None
        except decimal.InvalidOperation:
            price = None
        if price is None or not price.is_finite() or not 0 <= price <= DEAREST or price.as_tuple().exponent < -2:  # type: ignore[operator]
            raise refuse("no_price", say("description.no_price", found=value))
        return price


class PartsFile(Part):
    """The parts list of a plant."""

    format: Literal[1] = field("Version of this format")
    prices: Prices | None = field("Where the prices come from", None)
    parts: list[BoughtPart] = field("Parts", [])
