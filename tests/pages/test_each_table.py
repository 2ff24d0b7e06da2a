"""The table that shows the same figures of each bank, booster or use of a plant."""

import html5lib
import pytest

from macros.figures.graph import Entry, Graph
from macros.pages.context import PageContext
from macros.pages.fragments import FragmentError
from macros.pages.macros import call
from macros.quantities import read

HEATS = ["2 kW", "3 kW", "1 kW", "4 kW", "5 kW"]


def page(uses: int) -> PageContext:
    entries = []
    for number, heat in enumerate(HEATS[:uses], start=1):
        entries.append(Entry(f"uses.{number}.kind", "burner" if number % 2 else "fuel_cell", "Kind", place="p.yml:1"))
        entries.append(Entry(f"uses.{number}.heat", read(heat), "Heat of the burner", "P", place="p.yml:1"))
        if number < 3:
            entries.append(Entry(f"uses.{number}.title", f"The use <{number}>", "Title", place="p.yml:1"))
        entries.append(Entry(f"uses.{number}.tag", f"BU{number}", "Tag", place="p.yml:1"))
    return PageContext("small/uses.md", "small", Graph(entries, []))


def cells(uses: int, kind: str = "") -> list[list[str]]:
    fragment = call("each_table", ("uses", "heat"), {"kind": kind}, page(uses))
    tree = html5lib.parse(fragment.rich or "", namespaceHTMLElements=False)
    return [["".join(cell.itertext()).strip() for cell in row] for row in tree.iter("tr")]


def test_a_few_members_stand_side_by_side():
    head, row = cells(2)
    assert head[1:] == ["The use <1> (BU1)", "The use <2> (BU2)"]
    assert (row[0], len(row)) == ("Heat of the burner", 3)
    assert row[1].startswith("2")


def test_many_members_stand_one_below_the_other():
    head, *rows = cells(5)
    assert head[1:] == ["Heat of the burner"]
    assert [row[0] for row in rows][2:] == [f"{number} (BU{number})" for number in range(3, 6)]
    assert [row[1][0] for row in rows] == [heat[0] for heat in HEATS]


def test_only_members_of_a_kind_are_shown():
    head, _ = cells(4, "burner")
    assert head[1:] == ["The use <1> (BU1)", "3 (BU3)"]
    with pytest.raises(FragmentError, match="heat"):
        cells(1, "vehicle")
