"""A plant that loads: its entries, places, texts, and what is unusual about it."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from macros.description.fields import NAME, Points
from macros.description.loading import FILES, Description, Entry, load
from macros.description.references import malformed, references
from macros.description.strict_yaml import dotted
from macros.quantities import Quantity, read
from tests.description.plants import ROOT, SHED, Copy

PLANTS = sorted(path.parent for path in (ROOT / "docs" / "designs").glob("*/plant.yml"))


@pytest.fixture(scope="module")
def shed() -> Description:
    return load(SHED, ROOT)


@pytest.fixture(scope="module")
def entries(shed: Description) -> dict[str, Entry]:
    return {entry.path: entry for entry in shed.entries()}


@pytest.mark.parametrize("folder", PLANTS, ids=[folder.name for folder in PLANTS])
def test_every_plant_loads_clean(folder: Path) -> None:
    description = load(folder, ROOT)
    assert description.name == folder.name
    paths = [entry.path for entry in description.entries()]
    assert [path for path, count in Counter(paths).items() if count > 1] == []
    for path in paths:
        assert all(re.fullmatch(rf"{NAME}|[1-9][0-9]*", part) for part in path.split(".")), path


def test_a_value_comes_with_its_title_symbol_and_place(entries: dict[str, Entry], shed: Description) -> None:
    entry = entries["buffer.cut_out"]
    lines = (SHED / "plant.yml").read_text("utf-8").split("\n")
    line = next(number for number, text in enumerate(lines, 1) if text.startswith("  cut_out:"))
    assert entry.value == read(lines[line - 1].split(": ")[1], "pressure")
    assert entry.title == "Pressure at which the switch starts the booster"
    assert entry.symbol == "p_out"
    assert entry.default is None
    assert entry.place == f"docs/designs/shed/plant.yml:{line}" == shed.places["buffer.cut_out"]


def test_a_default_stands_in_with_its_source_and_without_a_place(entries: dict[str, Entry]) -> None:
    entry = entries["stack.drag"]
    assert entry.value == read("3", "ratio")
    assert entry.default is not None
    assert entry.default.source == "common-practice"
    assert entry.default.safe == "high"
    assert entry.place == ""


def test_a_value_that_the_author_gave_is_no_default(tmp_path: Path) -> None:
    copy = Copy(tmp_path).change("plant.yml", "  cells: 16\n", "  cells: 16\n  drag: 3\n")
    entry = next(entry for entry in load(copy.folder, copy.root).entries() if entry.path == "stack.drag")
    assert entry.default is None
    assert entry.place.startswith("shed/plant.yml:")


def test_lists_are_numbered_from_one_and_tags_stand_in_lower_case(entries: dict[str, Entry]) -> None:
    assert isinstance(entries["drying.3.bed_mass"].value, Quantity)
    assert entries["uses.1.supply.1"].value == "store"
    assert isinstance(entries["items.rv1.set_pressure"].value, Quantity)
    assert isinstance(entries["lines.l1.length"].value, Quantity)
    assert entries["rooms.yard.outdoors"].value is True
    assert entries["rooms.shed.outdoors"].value is False
    assert isinstance(entries["stack.polarisation"].value, Points)
    assert "drying.0.bed_mass" not in entries
    assert not any(path != path.lower() for path in entries)


def test_a_default_of_a_part_that_is_absent_does_not_exist(tmp_path: Path) -> None:
    copy = Copy(tmp_path)
    text = copy.text("plant.yml")
    start, end = text.index("compressor:\n"), text.index("\nbanks:")
    (copy.folder / "plant.yml").write_text(text[:start] + text[end + 1 :], "utf-8")
    paths = {entry.path for entry in load(copy.folder, copy.root).entries()}
    assert not any(path.startswith("compressor.") for path in paths)


def test_what_reaches_the_digest_is_all_five_files_as_they_are(shed: Description) -> None:
    assert list(shed.sources()) == [name.encode() + b"\0" + (SHED / name).read_bytes() for name in FILES]


def test_usual_ranges_give_findings_not_errors(tmp_path: Path) -> None:
    copy = Copy(tmp_path).change("plant.yml", "    clearance: 8 %\n", "    clearance: 20 %\n")
    (found,) = load(copy.folder, copy.root).unusual()
    assert str(found) == (
        f"shed/plant.yml:{copy.line('plant.yml', 'clearance:')}: boosters.1.clearance: "
        "20 % is above what is usual, 3 % to 15 %; check it, and say why if it is right."
    )


def test_the_ends_of_a_usual_range_are_usual(tmp_path: Path) -> None:
    copy = Copy(tmp_path).change("plant.yml", "    clearance: 8 %\n", "    clearance: 15 %\n")
    assert list(load(copy.folder, copy.root).unusual()) == []


def test_the_shed_is_as_practice_has_it(shed: Description) -> None:
    assert list(shed.unusual()) == []


def test_texts_are_those_that_people_read(shed: Description) -> None:
    texts = {(name, dotted(path)) for name, path, _ in shed.texts()}
    assert ("plant.yml", "summary") in texts
    assert ("procedures.yml", "procedures.filling.steps.1.do") in texts
    assert ("parts.yml", "parts.1.specification") in texts
    assert ("record.yml", "to_measure.1.how") in texts
    assert ("network.yml", "items.ST1.title") in texts
    assert ("plant.yml", "status") not in texts
    assert ("plant.yml", "trips.1.alarm") not in texts
    assert ("network.yml", "lines.L1.chain") not in texts


def test_every_entry_that_a_text_refers_to_exists(shed: Description, entries: dict[str, Entry]) -> None:
    """Figures are looked up where they are made; what begins with a part that holds entries alone is looked up here."""
    sections = ("items.", "lines.", "site.", "uses.1.heat", "rooms.")
    for name, path, text in shed.texts():
        for reference in references(text):
            if reference.name.startswith(sections):
                assert reference.name in entries, f"{name} {dotted(path)}: {reference.name}"


def test_every_item_and_line_of_the_shed_is_bought(shed: Description) -> None:
    bought = {tag for part in shed.parts.parts for tag in part.tags}
    assert [tag for tag in (*shed.network.items, *shed.network.lines) if tag not in bought] == []


def test_prices_are_exact(shed: Description) -> None:
    assert {str(part.unit_price) for part in shed.parts.parts if part.item == "Silica gel"} == {"18"}
    assert shed.parts.prices is not None
    assert shed.parts.prices.basis == "invented"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("up to {buffer.cut_out} and {V3}", ["buffer.cut_out", "V3"]),
        ("{boosters.1.stall_pressure}", ["boosters.1.stall_pressure"]),
        ("nothing", []),
        ("{Buffer.cut_out}", []),
        ("{buffer}", []),
        ("{{buffer.cut_out}}", ["buffer.cut_out"]),
    ],
)
def test_references_are_found(text: str, found: list[str]) -> None:
    assert [reference.name for reference in references(text)] == found


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("{buffer.cut_out} {V3}", None),
        ("{buffer.cut_out", "{"),
        ("a } b", "}"),
        ("{}", "{}"),
        ("{ buffer.cut_out }", "{ buffer.cut_out }"),
        ("{buffer.cut_out|safe}", "{buffer.cut_out|safe}"),
        ("{buffer.cut_out()}", "{buffer.cut_out()}"),
        ("{{buffer.cut_out}}", "{"),
        ("{__class__.x}", "{__class__.x}"),
        ("{% if x %}", "{% if x %}"),
    ],
)
def test_anything_else_in_braces_is_refused(text: str, found: str | None) -> None:
    assert malformed(text) == found
