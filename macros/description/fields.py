"""
Fields of a description: how a key of a YAML file says what it holds.

A part of a plant is a class of fields; each field has a title for readers, a kind of quantity, physical bounds
(outside them is an error), a usual range (outside it is a finding) and, where practice allows, a default object.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator
from pydantic_core import PydanticCustomError

from macros.quantities import Quantity, QuantityError, read, say

__all__ = ["NAME", "TAG", "Default", "Measure", "Part", "Points", "curve", "field", "measure", "measure_of"]

NAME = r"[a-z][a-z0-9_]*"
TAG = r"[A-Z]{1,4}[0-9]{1,3}"

BARE = ("count", "ratio")
"""Kinds that carry no unit: a plain number of the YAML file will do."""


@dataclass(frozen=True)
class Default:
    """
    A usual value that stands in where the description says nothing.

    Attributes
    ----------
    value : str
        As an author would type it.
    source : str
        Key of the list of sources.
    safe : {"high", "low", "either"}
        The direction in which an error of this value is on the safe side.
    """

    value: str
    source: str
    safe: Literal["high", "low", "either"]


@dataclass(frozen=True)
class Points:
    """A measured curve: points in SI units, x rising, and how they were typed."""

    kinds: tuple[str, str]
    units: tuple[str, str]
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Measure:
    """What a field that holds a quantity or a curve demands."""

    kind: str
    symbol: str
    low: Quantity | None = None
    high: Quantity | None = None
    usual: tuple[Quantity, Quantity] | None = None
    default: Default | None = None
    kinds: tuple[str, str] | None = None


def measure(
    kind: str,
    title: str,
    *,
    symbol: str = "",
    low: str | None = None,
    high: str | None = None,
    usual: tuple[str, str] | None = None,
    default: Default | None = None,
    optional: bool = False,
) -> Any:
    """
    A field that holds a quantity.

    Parameters
    ----------
    kind : str
        Kind of quantity; "pressure" takes gauge and absolute.
    title : str
        What it is, for readers.
    symbol : str
        How formulas show it, `base_subscript`.
    low, high : str
        Physical bounds, both included; outside them the description is invalid.
    usual : tuple of str
        The range usual in practice; outside it is a finding.
    default : Default
        Stands in where the key is absent, and is shown as assumed everywhere it reaches.
    optional : bool
        Whether the key may be absent without a default: the figures that need it then do not exist.
    """
    demand = Measure(
        kind,
        symbol,
        low=read(low, kind) if low else None,
        high=read(high, kind) if high else None,
        usual=(read(usual[0], kind), read(usual[1], kind)) if usual else None,
        default=default,
    )
    absent: Any = read(default.value, kind) if default else None if optional else ...
    return Field(absent, title=title, json_schema_extra={"measure": demand})  # type: ignore[dict-item]


def curve(x_kind: str, y_kind: str, title: str, *, symbol: str = "", optional: bool = False) -> Any:
    """A field that holds measured points, each a pair `[x, y]` of quantities, x rising."""
    demand = Measure("curve", symbol, kinds=(x_kind, y_kind))
    return Field(None if optional else ..., title=title, json_schema_extra={"measure": demand})  # type: ignore[dict-item]


def field(title: str, default: Any = ..., **demands: Any) -> Any:
    """A field that holds no quantity: text, a choice, a tag, a list of parts."""
    return Field(default, title=title, **demands)


def measure_of(part: type[BaseModel], name: str) -> Measure | None:
    """What the field of a part demands of its quantity; None if it holds none."""
    extra = part.model_fields[name].json_schema_extra
    found = extra.get("measure") if isinstance(extra, dict) else None
    return found if isinstance(found, Measure) else None


class Part(BaseModel):
    """A part of a description. Unknown keys are refused, quantities are read by their own grammar."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, strict=True)

    @field_validator("*", mode="before")
    @classmethod
    def _read_quantities(cls, value: Any, info: ValidationInfo) -> Any:
        demand = measure_of(cls, info.field_name or "")
        if demand is None or value is None or isinstance(value, (Quantity, Points)):
            return value
        return _points(value, demand) if demand.kinds else _quantity(value, demand)


def _refuse(code: str, message: str, found: Any, wanted: str = "") -> PydanticCustomError:
    return PydanticCustomError(
        "quantity", "{message}", {"message": message, "code": code, "found": found, "wanted": wanted}
    )


def _quantity(value: Any, demand: Measure) -> Quantity:
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        raise _refuse("not_a_quantity", say("description.not_a_quantity", found=repr(value), kind=demand.kind), value)
    if not isinstance(value, str) and demand.kind not in BARE:
        raise _refuse("missing_unit", say("description.missing_unit", found=value, kind=demand.kind), value)
    try:
        quantity = read(str(value), demand.kind)
    except QuantityError as error:
        raise _refuse("unreadable", str(error), value, error.wanted) from None
    if demand.kind == "count" and quantity.si != int(quantity.si):
        raise _refuse("not_whole", say("description.not_whole", found=value), value)
    for bound, beyond in ((demand.low, -1), (demand.high, +1)):
        if bound is not None and (_comparable(quantity) - _comparable(bound)) * beyond > 0:
            key = "description.below_bound" if beyond < 0 else "description.above_bound"
            raise _refuse("out_of_bounds", say(key, found=quantity.text, bound=bound.text), value, bound.text)
    return quantity


def _comparable(quantity: Quantity) -> float:
    """Gauge and absolute on one scale, near enough for bounds: at one standard atmosphere."""
    return quantity.si + 101325.0 if quantity.kind == "gauge_pressure" else quantity.si


def _points(value: Any, demand: Measure) -> Points:
    assert demand.kinds is not None
    if not isinstance(value, Sequence) or isinstance(value, str) or len(value) < 2:
        raise _refuse("not_points", say("description.not_points", found=repr(value)), value)
    pairs = []
    for pair in value:
        if not isinstance(pair, Sequence) or isinstance(pair, str) or len(pair) != 2:
            raise _refuse("not_points", say("description.not_points", found=repr(pair)), pair)
        pairs.append(tuple(_quantity(side, Measure(kind, "")) for side, kind in zip(pair, demand.kinds, strict=True)))
    points = tuple((x.si, y.si) for x, y in pairs)
    if any(a[0] >= b[0] for a, b in zip(points, points[1:], strict=False)):
        raise _refuse("points_not_rising", say("description.points_not_rising", found=pairs[0][0].text), value)
    return Points(demand.kinds, (pairs[0][0].unit, pairs[0][1].unit), points)


def is_name(text: str) -> bool:
    """Whether a text may name a bank, room, section or figure."""
    return re.fullmatch(NAME, text) is not None


def is_tag(text: str) -> bool:
    """Whether a text may tag an item of the network."""
    return re.fullmatch(TAG, text) is not None
