"""The JSON Schemas: well formed, and of one mind with the code that reads."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from macros.description.item_kinds import ITEM_KINDS
from macros.description.loading import FILES, load
from macros.description.schema import DIALECT, quantity_pattern, schema
from macros.description.strict_yaml import parse
from macros.quantities import KINDS, UNITS, QuantityError, read, show
from tests.description.evaluating import malformed, wrong
from tests.description.plants import ROOT, SHED, Copy
from tests.description.test_faults import ONE_FAULT


def data(folder: Path, name: str) -> dict[str, Any]:
    return parse((folder / name).read_bytes(), name).data


@pytest.mark.parametrize("name", FILES)
def test_each_schema_is_well_formed(name: str) -> None:
    made = schema(name)
    assert made["$schema"] == DIALECT
    assert list(malformed(made)) == []
    assert json.loads(json.dumps(made)) == made


@pytest.mark.parametrize("name", FILES)
def test_every_reference_of_a_schema_leads_somewhere(name: str) -> None:
    made = schema(name)

    def references(part: Any) -> Iterator[str]:
        if isinstance(part, dict):
            if "$ref" in part:
                yield part["$ref"]
            for each in part.values():
                yield from references(each)
        elif isinstance(part, list):
            for each in part:
                yield from references(each)

    assert {each.removeprefix("#/$defs/") for each in references(made)} == set(made["$defs"])


@pytest.mark.parametrize("name", FILES)
def test_what_loads_fits_its_schema(name: str) -> None:
    load(SHED, ROOT)
    made = schema(name)
    assert list(wrong(data(SHED, name), made, made)) == []


BY_ITSELF = (
    "is no number with its unit", "has no unit", "is not known here", "the key is missing", "is no choice here",
    "stands here; wanted", "no kind of item", "gauge or absolute", "is no month", "code; write", "is no tag",
    'has no "', "is a mass", "is no digest", "dotted name", "too short", "too few entries",
)  # fmt: skip
"""Mistakes that show in a file by itself: what a schema can tell."""
ALONE = [row for row in ONE_FAULT if any(said in row[4] for said in BY_ITSELF)]


@pytest.mark.parametrize(
    ("file", "old", "new", "key", "message"), ALONE, ids=[f"{row[3]}:{row[4][:20]}" for row in ALONE]
)
def test_what_is_refused_by_itself_breaks_the_schema(
    tmp_path: Path, file: str, old: str, new: str, key: str, message: str
) -> None:
    copy = Copy(tmp_path).change(file, old, new)
    made = schema(file)
    assert list(wrong(data(copy.folder, file), made, made)) != [], (key, message)


@pytest.mark.parametrize("unit", UNITS, ids=[f"{unit.kind}:{unit.typed}" for unit in UNITS])
def test_every_spelling_of_every_unit_fits_the_pattern_of_its_kind(unit: Any) -> None:
    pattern = re.compile(quantity_pattern(unit.kind))
    for spelling in (unit.typed, *unit.also, unit.symbol):
        assert pattern.search(f"12.5 {spelling}"), spelling


@given(st.sampled_from(UNITS), st.floats(1e-3, 1e6), st.integers(1, 8))
def test_what_is_shown_fits_the_pattern_when_it_is_typed_plain(unit: Any, value: float, digits: int) -> None:
    """Group marks and powers of ten are finer type, which nobody types; where there are none the pattern takes it."""
    shown = show(unit.to_si(value), unit, digits=digits)
    if KINDS[unit.kind].name != "count" and not re.search("[×\u202f−]", shown):
        assert re.search(quantity_pattern(unit.kind), shown), shown


@given(
    st.text(alphabet="0123456789.+-eE±() bargmµu²2/Nhk°C", max_size=14),
    st.sampled_from(["pressure", "length", "normal_flow", "temperature", "ratio"]),
)
def test_the_pattern_takes_whatever_reading_takes(text: str, kind: str) -> None:
    try:
        read(text, kind)
    except QuantityError:
        return
    assert re.search(quantity_pattern(kind), text), text


def test_each_kind_of_item_is_judged_by_its_own_settings() -> None:
    made = schema("network.yml")
    item = made["$defs"]["Item"]
    common = {"title": "x", "at": [1, 2]}
    for name, kind in ITEM_KINDS.items():
        bare = list(wrong({"kind": name, **common}, item, made))
        assert sorted(bare) == sorted(f".{need}: missing" for need in kind.needs), name
    assert ".positions" not in item["properties"]
    assert list(wrong({"kind": "stack", "rating": "1 bar(g)", **common}, item, made)) == [".rating: not allowed"]
