"""`parts.yml`: what to buy, what it costs, and what is known of the prices."""

from __future__ import annotations

import decimal
from typing import Any, Literal, get_args

from pydantic import field_validator

from macros.description.fields import DATE, TAG, Default, Part, field, in_words, measure, refuse
from macros.quantities import CURRENCIES, Quantity, say

DEAREST = decimal.Decimal("10000000")

CURRENCY = r"^[A-Z]{3}$"

Group = Literal["stack", "train", "boosting", "banks", "uses", "safety", "other"]
"""Where a part belongs: the lists that a guide may show by itself."""

GROUPS: tuple[Group, ...] = get_args(Group)


class Prices(Part):
    """Where the prices come from, and what a stored kilowatt-hour is reckoned with."""

    basis: Literal["invented", "quoted", "paid"] = field()
    date: str = field(pattern=DATE)
    note: str | None = field(None)
    currencies: list[str] = field(
        ["EUR", "GBP", "USD"], min_length=1, json_schema_extra={"entries": "[A-Z]{3}"},
    )  # fmt: skip
    interest: Quantity = measure(
        "fraction", symbol="i", low="0 %", high="50 %", usual=("0 %", "12 %"),
        default=Default("4 %", "usual-interest", "high"),
    )  # fmt: skip
    years: Quantity = measure(
        "time", symbol="t_p", low="1 a", high="50 a", usual=("5 a", "25 a"),
        default=Default("15 a", "usual-life", "low"),
    )  # fmt: skip
    electricity: Quantity = measure(
        "price_of_energy", symbol="p_el",
        default=Default("0.10 EUR/kWh", "made-up-price", "high"),
    )  # fmt: skip

    @field_validator("currencies")
    @classmethod
    def _known_once(cls, codes: list[str]) -> list[str]:
        for code in codes:
            _known(code)
        if len(set(codes)) < len(codes):
            raise refuse("currency_twice", say("description.currency_twice", found=", ".join(codes)))
        return codes


class BoughtPart(Part):
    """A line of the parts list."""

    item: str = field()
    specification: str = field()
    quantity: Quantity | str = measure("count", symbol="n", low="1", high="10000", refers=True)
    unit_price: decimal.Decimal = field()
    currency: str = field(pattern=CURRENCY)
    region: str = field(pattern=r"^([A-Z]{2}|world)$")
    lead_time: Quantity = measure("time", symbol="t_l", low="0 d", high="3 a")
    tags: list[str] = field([], json_schema_extra={"entries": TAG})
    group: Group = field("other")
    life: Quantity | None = measure("time", symbol="t_u", low="1 d", high="50 a", optional=True)

    @field_validator("currency")
    @classmethod
    def _known_currency(cls, code: str) -> str:
        return _known(code)

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


def _known(code: str) -> str:
    if code not in CURRENCIES:
        raise refuse("no_currency", say("description.no_currency", found=in_words(code), known=", ".join(CURRENCIES)))
    return code


class PartsFile(Part):
    """The parts list of a plant."""

    format: Literal[1] = field()
    prices: Prices | None = field(None)
    parts: list[BoughtPart] = field([])
