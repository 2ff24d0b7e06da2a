"""
A small judge of JSON Schemas, for the keywords that ours use, and the shape that draft 2020-12 gives each keyword.

After the core, applicator, validation and meta-data vocabularies of JSON Schema 2020-12 (json-schema.org), from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

TYPES = {"object": dict, "array": list, "string": str, "boolean": bool, "number": (int, float), "null": type(None)}
TEXTS = ("title", "description", "$schema", "$ref", "format")
WHOLE = ("minItems", "maxItems", "minLength", "maxLength")
SCHEMAS = ("items", "additionalProperties", "propertyNames", "if", "then")
LISTS = ("allOf", "anyOf", "prefixItems")
MAPPINGS = ("properties", "$defs")


def malformed(schema: Any, path: str = "#") -> Iterator[str]:
    """Whatever the draft does not allow in a schema."""
    if isinstance(schema, bool):
        return
    if not isinstance(schema, dict):
        yield f"{path} is no schema"
        return
    for key, value in schema.items():
        at = f"{path}/{key}"
        if key in TEXTS:
            if not isinstance(value, str):
                yield f"{at} is no text"
        elif key in WHOLE:
            if not isinstance(value, int) or isinstance(value, bool) or value < 0:
                yield f"{at} is no whole number"
        elif key in SCHEMAS:
            yield from malformed(value, at)
        elif key in LISTS:
            if not isinstance(value, list) or not value:
                yield f"{at} is no list"
            else:
                for number, each in enumerate(value):
                    yield from malformed(each, f"{at}/{number}")
        elif key in MAPPINGS:
            for name, each in value.items():
                yield from malformed(each, f"{at}/{name}")
        elif key == "type":
            names = value if isinstance(value, list) else [value]
            if not names or len(set(names)) < len(names) or not set(names) <= {*TYPES, "integer"}:
                yield f"{at} names no types"
        elif key == "required":
            if (
                not isinstance(value, list)
                or len(set(value)) < len(value)
                or not all(isinstance(n, str) for n in value)
            ):
                yield f"{at} is no list of names"
        elif key == "pattern":
            re.compile(value)
        elif key not in ("enum", "const", "default"):
            yield f"{at} is no keyword"


def wrong(value: Any, schema: Any, root: dict[str, Any], path: str = "") -> Iterator[str]:
    """Whatever a value breaks of a schema."""
    if isinstance(schema, bool):
        if not schema:
            yield f"{path}: not allowed"
        return
    if "$ref" in schema:
        name = schema["$ref"].removeprefix("#/$defs/")
        yield from wrong(value, root["$defs"][name], root, path)
    if "type" in schema:
        names = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
        fits = any(
            isinstance(value, TYPES[name]) and not (isinstance(value, bool) and name == "number") for name in names
        )
        if not fits:
            yield f"{path}: is no {names}"
            return
    if "enum" in schema and not any(value == each and type(value) is type(each) for each in schema["enum"]):
        yield f"{path}: {value!r} is no choice"
    if "const" in schema and value != schema["const"]:
        yield f"{path}: {value!r} is not {schema['const']!r}"
    for each in schema.get("allOf", ()):
        yield from wrong(value, each, root, path)
    if "anyOf" in schema and not any(not list(wrong(value, each, root, path)) for each in schema["anyOf"]):
        yield f"{path}: fits nothing"
    if "if" in schema and not list(wrong(value, schema["if"], root, path)):
        yield from wrong(value, schema.get("then", True), root, path)
    if isinstance(value, str):
        if "pattern" in schema and not re.search(schema["pattern"], value):
            yield f"{path}: {value!r} is not shaped right"
        if len(value) < schema.get("minLength", 0):
            yield f"{path}: too short"
    if isinstance(value, list):
        if not schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", len(value)):
            yield f"{path}: {len(value)} entries"
        first = schema.get("prefixItems", [])
        for number, each in enumerate(value):
            inner = first[number] if number < len(first) else schema.get("items", True)
            yield from wrong(each, inner, root, f"{path}.{number + 1}")
    if isinstance(value, dict):
        for name in schema.get("required", ()):
            if name not in value:
                yield f"{path}.{name}: missing"
        for name, each in value.items():
            yield from wrong(name, schema.get("propertyNames", True), root, f"{path}.{name}")
            known = schema.get("properties", {})
            inner = known[name] if name in known else schema.get("additionalProperties", True)
            yield from wrong(each, inner, root, f"{path}.{name}")
