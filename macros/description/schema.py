"""
JSON Schemas (draft 2020-12) of the files of a description, made from the same parts that read them.

An editor that knows them offers keys, marks what is wrong while it is typed, and shows titles, bounds and units. They
demand no more than reading does; what reaches from place to place only loading can judge.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any, get_args, get_origin

from pydantic import BaseModel
from pydantic_core import PydanticUndefined

from macros.description.fields import DATE, Measure, Part
from macros.description.item_kinds import ITEM_KINDS
from macros.description.loading import FILES
from macros.description.network_file import Item
from macros.description.shape import Slot, bare, choices, key_pattern, parts_in
from macros.quantities import UNITS, say, units_of

__all__ = ["DIALECT", "quantity_pattern", "schema"]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_NUMBER = r"[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?"
_SPACE = r"[ \u00a0\u202f]*"


def schema(name: str) -> dict[str, Any]:
    """
    The JSON Schema of one file of a plant.

    Parameters
    ----------
    name : str
        `plant.yml`, `network.yml`, `procedures.yml`, `parts.yml` or `record.yml`.

    Raises
    ------
    KeyError
        If a plant has no such file.
    """
    root = FILES[name]
    first, *others = parts_in(root)
    return {
        "$schema": DIALECT,
        "title": name,
        **_part(first),
        "$defs": {part.__name__: _part(part) for part in others},
    }


def quantity_pattern(kind: str | None) -> str:
    """The regular expression of a quantity of a kind, or of any kind."""
    units = UNITS if kind is None else units_of(kind)
    spelled = {spelling for each in units for spelling in (each.typed, *each.also)}
    named = sorted(spelled - {""}, key=lambda each: (-len(each), each))
    unit = "(" + "|".join(map(_spelled, named)) + ")" if named else ""
    if unit and "" in spelled:
        unit += "?"
    return rf"^{_SPACE}[+-]?{_NUMBER}({_SPACE}(±|\+/-){_SPACE}{_NUMBER})?{_SPACE}{unit}{_SPACE}$"


def _spelled(unit: str) -> str:
    """A unit as a regular expression that takes its finer spellings too: `cm2` and `cm²`, `uS/cm` and `µS/cm`."""
    text = re.escape(unit).replace(r"\ ", "[ ·⋅]").replace(r"\-", "-")
    for plain, finer in (("2", "[2²]"), ("3", "[3³]"), ("u", "[uµμ]"), ("ohm", "(ohm|\u2126|\u03a9)")):
        text = text.replace(plain, finer)
    return text


def _part(part: type[Part]) -> dict[str, Any]:
    """A part: its keys, all others refused."""
    made: dict[str, Any] = {
        "type": "object",
        "description": say(f"part.{part.__name__}"),
        "properties": {name: _field(part, name) for name in part.model_fields},
        "required": [name for name, known in part.model_fields.items() if known.is_required()],
        "additionalProperties": False,
    }
    if part is Item:
        made["properties"]["kind"]["enum"] = list(ITEM_KINDS)
        made["allOf"] = [_kind(name) for name in ITEM_KINDS]
    return made


def _kind(name: str) -> dict[str, Any]:
    """What an item of one kind needs, and what it may not have."""
    kind = ITEM_KINDS[name]
    foreign = [key for key in Item.model_fields if key not in kind.keys]
    then: dict[str, Any] = {"properties": dict.fromkeys(foreign, False)}
    if kind.positions:
        then["properties"]["normal_position"] = {"enum": list(kind.positions)}
    if kind.needs:
        then["required"] = list(kind.needs)
    return {"if": {"properties": {"kind": {"const": name}}, "required": ["kind"]}, "then": then}


def _field(part: type[Part], name: str) -> dict[str, Any]:
    known = part.model_fields[name]
    slot = Slot(part, name, bare(known.annotation))
    made: dict[str, Any] = {"title": slot.title}
    made.update(_measured(slot.measure) if slot.measure is not None else _plain(slot))
    for demand in known.metadata:
        made.update(_demand(demand))
    if not known.is_required() and known.default is None:
        return _or_null(made)
    if slot.measure is None and known.default is not PydanticUndefined and not isinstance(known.default, BaseModel):
        made["default"] = known.default
    return made


def _or_null(made: dict[str, Any]) -> dict[str, Any]:
    """A key that may be left out may hold `null` as well."""
    title = made.pop("title")
    return {"title": title, "anyOf": [made, {"type": "null"}]}


def _demand(demand: Any) -> dict[str, Any]:
    """A demand of the field itself: its pattern, its lengths."""
    found: dict[str, Any] = {}
    pattern = getattr(demand, "pattern", None)
    if isinstance(pattern, str):
        found["pattern"] = pattern
        if pattern == DATE:
            found["format"] = "date"
    for theirs, ours in (("min_length", ("minItems", "minLength")), ("max_length", ("maxItems", "maxLength"))):
        limit = getattr(demand, theirs, None)
        if isinstance(limit, int):
            # Ignored where the value is of the other type, so both may stand.
            found.update(dict.fromkeys(ours, limit))
    return found


def _plain(slot: Slot) -> dict[str, Any]:
    """Text, a choice, a list, a mapping, a part."""
    annotation = slot.annotation
    if slot.holds is not None:
        return {"$ref": f"#/$defs/{slot.holds.__name__}"}
    if known := choices(annotation):
        return {"enum": list(known)}
    if get_origin(annotation) is list:
        return {"type": "array", "items": _plain(Slot(slot.part, slot.name, bare(get_args(annotation)[0])))}
    if get_origin(annotation) is dict:
        made = {"type": "object", "additionalProperties": _plain(Slot(slot.part, slot.name, get_args(annotation)[1]))}
        pattern = key_pattern(slot)
        return made | ({"propertyNames": {"pattern": f"^{pattern}$"}} if pattern else {})
    return dict(_TYPES[annotation.__name__])


_TYPES: Mapping[str, dict[str, Any]] = {
    "str": {"type": "string"},
    "bool": {"type": "boolean"},
    "float": {"type": "number"},
    "Decimal": {"type": ["number", "string"], "pattern": r"^[0-9]+(\.[0-9]{1,2})?$"},
}


def _measured(demand: Measure) -> dict[str, Any]:
    """A quantity, a list of them, or a curve; bounds stand in words, since they hold across units."""
    if demand.kinds is not None:
        pair = {
            "type": "array", "minItems": 2, "maxItems": 2, "prefixItems": [_quantity(kind) for kind in demand.kinds],
        }  # fmt: skip
        return {"type": "array", "minItems": 2, "items": pair, "description": demand.wanted}
    made = _quantity(demand.asked)
    if demand.refers:
        made = {"anyOf": [made, {"type": "string", "pattern": r"^\{[a-z][a-z0-9_]*(\.[a-z0-9_]+)+\}$"}]}
    if demand.many:
        made = {"type": "array", "items": made}
    said = [demand.wanted]
    if demand.low is not None and demand.high is not None:
        said.append(say("description.schema.bounds", low=demand.low.text, high=demand.high.text))
    if demand.usual is not None:
        said.append(say("description.schema.usual", low=demand.usual[0].text, high=demand.usual[1].text))
    if demand.default is not None:
        made["default"] = demand.default.value
        said.append(say("description.schema.default", value=demand.default.value, source=demand.default.source))
    return made | {"description": "; ".join(said)}


def _quantity(kind: str | None) -> dict[str, Any]:
    """One quantity; a plain number will do where the kind has no unit."""
    bare_number = kind is not None and any(not each.typed for each in units_of(kind))
    types: list[str] | str = ["string", "number"] if bare_number else "string"
    return {"type": types, "pattern": quantity_pattern(kind)}
