"""
Fields of a description: how a key of a YAML file says what it holds.

A part of a plant is a class of fields; each field has a title for readers (in the tables of messages, under the name
of its part and its own), a kind of quantity, physical bounds (outside them is an error), a usual range (outside it is
a finding) and, where practice allows, a default object.
"""

from __future__ import annotations

import datetime
import functools
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator
from pydantic.fields import FieldInfo
from pydantic_core import PydanticCustomError

from macros.description.references import referred
from macros.quantities import Quantity, QuantityError, read, say
from macros.quantities.spellings import wanted

__all__ = [
    "DATE",
    "MONTH",
    "NAME",
    "TABLE",
    "TAG",
    "Default",
    "Measure",
    "Part",
    "Points",
    "curve",
    "field",
    "is_name",
    "is_tag",
    "measure",
    "measure_of",
    "measures",
    "refuse",
]

NAME = r"[a-z][a-z0-9_]{0,39}"
"""Short enough to be part of an address and of a file's name."""
TAG = r"[A-Z]{1,4}[0-9]{1,3}"
MONTH = r"^[0-9]{4}-(0[1-9]|1[0-2])$"
TABLE = r"^[a-z][a-z0-9_]*\.csv$"
DATE = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"


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
    spreads: tuple[float, ...] = ()
    """What stood behind `±` at the second value of each point, in SI units; 0 where nothing did."""


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
    many: bool = False
    """Whether the field holds a list of such quantities."""
    refers: bool = False
    """Whether a reference to an entry or figure may stand for it."""

    @property
    def asked(self) -> str | None:
        """The kind to read; none where any will do."""
        return None if self.kind == "any" else self.kind

    @property
    def wanted(self) -> str:
        """What to write, in words with the first units of the kind."""
        if self.kinds:
            return say("description.wanted_points", x=wanted(self.kinds[0]), y=wanted(self.kinds[1]))
        if self.refers:
            return say("description.wanted_or_reference", each=wanted(self.asked))
        return say("description.wanted_list", each=wanted(self.asked)) if self.many else wanted(self.asked)


def measure(
    kind: str,
    *,
    symbol: str = "",
    low: str | None = None,
    high: str | None = None,
    usual: tuple[str, str] | None = None,
    default: Default | None = None,
    optional: bool = False,
    refers: bool = False,
) -> Any:
    """
    A field that holds a quantity.

    Parameters
    ----------
    kind : str
        Kind of quantity; "pressure" takes gauge and absolute.
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
    refers : bool
        Whether `{path}` may stand for it, an entry or figure that says it; a floor above looks it up.
    """
    demand = Measure(
        kind,
        symbol,
        low=read(low, kind) if low else None,
        high=read(high, kind) if high else None,
        usual=(read(usual[0], kind), read(usual[1], kind)) if usual else None,
        default=default,
        refers=refers,
    )
    absent: Any = read(default.value, kind) if default else None if optional else ...
    return Field(absent, json_schema_extra={"measure": demand})  # type: ignore[dict-item]


def curve(x_kind: str, y_kind: str, *, symbol: str = "", optional: bool = False) -> Any:
    """A field that holds measured points, each a pair `[x, y]` of quantities, x rising."""
    demand = Measure("curve", symbol, kinds=(x_kind, y_kind))
    absent: Any = None if optional else ...
    return Field(absent, json_schema_extra={"measure": demand})  # type: ignore[dict-item]


def measures(
    kind: str, *, symbol: str = "", low: str | None = None, high: str | None = None, optional: bool = False
) -> Any:
    """A field that holds a list of quantities of one kind."""
    bounds = [read(each, kind) if each else None for each in (low, high)]
    demand = Measure(kind, symbol, low=bounds[0], high=bounds[1], many=True)
    absent: Any = None if optional else ...
    return Field(absent, json_schema_extra={"measure": demand})  # type: ignore[dict-item]


def field(default: Any = ..., **demands: Any) -> Any:
    """A field that holds no quantity: text, a choice, a tag, a list of parts."""
    return Field(default, **demands)


@functools.cache
def measure_of(part: type[BaseModel], name: str) -> Measure | None:
    """What the field of a part demands of its quantity; None if it holds none."""
    extra = part.model_fields[name].json_schema_extra
    found = extra.get("measure") if isinstance(extra, dict) else None
    return found if isinstance(found, Measure) else None


class Part(BaseModel):
    """A part of a description. Unknown keys are refused, quantities are read by their own grammar."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True, strict=True)

    @classmethod
    def titled(cls, name: str) -> str:
        """What a field is called, in the language spoken."""
        return say(f"entry.{cls.__name__}.{name}")

    @field_validator("*", mode="before")
    @classmethod
    def _read_quantities(cls, value: Any, info: ValidationInfo) -> Any:
        demand = measure_of(cls, info.field_name or "")
        if demand is None:
            return _calendar_day(value, cls.model_fields[info.field_name or ""])
        if value is None or isinstance(value, (Quantity, Points)):
            return value
        if demand.kinds:
            return _points(value, demand)
        if demand.many:
            return value if not isinstance(value, list) else [_quantity(each, demand) for each in value]
        if demand.refers and isinstance(value, str) and referred(value):
            return value
        return _quantity(value, demand)


def _calendar_day(value: Any, known: FieldInfo) -> Any:
    """A day that the calendar has; what is no day at all is left to the pattern."""
    is_day = any(getattr(each, "pattern", None) == DATE for each in known.metadata)
    if is_day and isinstance(value, str) and re.fullmatch(DATE, value):
        try:
            datetime.date.fromisoformat(value)
        except ValueError:
            raise refuse("no_day", say("description.no_day", found=value)) from None
    return value


def refuse(code: str, message: str) -> PydanticCustomError:
    """The error by which a field refuses a value; its message is a whole sentence for the author."""
    return PydanticCustomError("quantity", "{message}", {"message": message, "code": code})


def _quantity(value: Any, demand: Measure) -> Quantity:
    if isinstance(value, (bool, list, dict)) or value is None:
        raise refuse("not_a_quantity", say("description.not_a_quantity", found=in_words(value), wanted=demand.wanted))
    try:
        quantity = read(str(value), demand.asked)
    except QuantityError as error:
        raise refuse("unreadable", str(error)) from None
    for bound, beyond in ((demand.low, -1), (demand.high, +1)):
        if bound is not None and (comparable(quantity) - comparable(bound)) * beyond > 0:
            key = "description.below_bound" if beyond < 0 else "description.above_bound"
            raise refuse("out_of_bounds", say(key, found=quantity.text, bound=bound.text))
    return quantity


def in_words(value: Any) -> str:
    """What stands in a file, as a message shows it."""
    if isinstance(value, (list, dict)):
        return say("description.a_list") if isinstance(value, list) else say("description.a_part")
    if isinstance(value, str):
        return f'"{value}"'
    return "null" if value is None else str(value).lower()


def comparable(quantity: Quantity) -> float:
    """Gauge and absolute on one scale, near enough for bounds: at one standard atmosphere."""
    return quantity.si + 101325.0 if quantity.kind == "gauge_pressure" else quantity.si


def _points(value: Any, demand: Measure) -> Points:
    assert demand.kinds is not None
    if not isinstance(value, Sequence) or isinstance(value, str) or len(value) < 2:
        raise refuse("not_points", say("description.not_points", found=in_words(value)))
    pairs = []
    for pair in value:
        if not isinstance(pair, Sequence) or isinstance(pair, str) or len(pair) != 2:
            raise refuse("not_points", say("description.not_points", found=in_words(pair)))
        pairs.append(tuple(_quantity(side, Measure(kind, "")) for side, kind in zip(pair, demand.kinds, strict=True)))
    points = tuple((x.si, y.si) for x, y in pairs)
    for (before, _), (x, y), after in zip(points, pairs[1:], points[1:], strict=False):
        if before >= after[0]:
            raise refuse("points_not_rising", say("description.points_not_rising", found=f"{x.text}, {y.text}"))
    for x, _ in pairs:
        if x.uncertainty:
            raise refuse("points_uncertain", say("description.points_uncertain", found=x.text))
    spreads = tuple(y.uncertainty or 0.0 for _, y in pairs)
    return Points(demand.kinds, (pairs[0][0].unit, pairs[0][1].unit), points, spreads)


def is_name(text: str) -> bool:
    """Whether a text may name a bank, room, section or figure."""
    return re.fullmatch(NAME, text) is not None


def is_tag(text: str) -> bool:
    """Whether a text may tag an item of the network."""
    return re.fullmatch(TAG, text) is not None
