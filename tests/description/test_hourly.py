"""The table of the hours of a year: what is read, and what an author reads when something is wrong in it."""

# ruff: noqa: E501 - a message that is promised word for word stands on one line

from __future__ import annotations

from pathlib import Path

import pytest

from macros.description.hourly import HEADINGS, HOURS, LARGEST_BYTES, read_hours
from macros.description.loading import load
from macros.description.reference import reference_page
from macros.quantities import Faults
from tests.description.plants import ROOT, Copy

HEAD = ",".join(HEADINGS)


def table(**lines: str) -> bytes:
    """Hours of 1.5 kW and 0.25 kW, with some lines written otherwise: `h7="7,2,0"` is the hour 7."""
    rows = [lines.get(f"h{hour}", f"{hour},1.5,0.25") for hour in range(1, HOURS + 1)]
    return "\n".join([HEAD, *rows, ""]).encode()


def faults(content: bytes) -> list[str]:
    try:
        read_hours(content, "year.csv", "shed/year.csv")
    except Faults as error:
        return str(error).split("\n")
    return []


def test_every_hour_begins_an_hour_after_the_one_before_and_is_read_in_watts() -> None:
    year = read_hours(table(h2="2,0,12.75", h8760="8760,10000,0"), "year.csv", "")
    assert len(year.surplus_w) == len(year.demand_w) == 8760
    assert year.surplus_w[:3] == ((0.0, 1500.0), (3600.0, 0.0), (7200.0, 1500.0))
    assert year.demand_w[1] == (3600.0, 12750.0)
    assert year.surplus_w[-1] == (8759 * 3600.0, 1e7)
    assert str(year) == "year.csv"


@pytest.mark.parametrize(
    "written",
    [
        table().replace(b"\n", b"\r\n"),
        b"\xef\xbb\xbf" + table(),
        table().removesuffix(b"\n"),
        b"# Made up.\n# Twice.\n" + table(),
    ],
    ids=["line ends of another system", "mark of the encoding", "no last line end", "remarks"],
)
def test_what_says_the_same_is_read_the_same(written: bytes) -> None:
    assert read_hours(written, "year.csv", "") == read_hours(table(), "year.csv", "")


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", f'shed/year.csv:1: the headings are ""; wanted is the line {HEAD}.'),
        (b"# only remarks", f'shed/year.csv:1: the headings are ""; wanted is the line {HEAD}.'),
        (b"1,2,3\n", f'shed/year.csv:1: the headings are "1,2,3"; wanted is the line {HEAD}.'),
        (table().replace(b",", b";"), f'shed/year.csv:1: the headings are "hour;surplus_kW;demand_kW(lower)"; wanted is the line {HEAD}.'),
        (table(h2="2;1,5;0"), 'shed/year.csv:3: "2;1,5;0" has 2 values; wanted are 3 with commas between, a point before decimals.'),
        (table(h2="2,1.5"), 'shed/year.csv:3: "2,1.5" has 2 values; wanted are 3 with commas between, a point before decimals.'),
        (table(h2=""), 'shed/year.csv:3: "" has 1 values; wanted are 3 with commas between, a point before decimals.'),
        (table(h3="4,1,1"), 'shed/year.csv:4: hour: "4" stands where the hour 3 is wanted; every hour of the year has a line, in order, from 1.'),
        (table(h3="03,1,1"), 'shed/year.csv:4: hour: "03" stands where the hour 3 is wanted; every hour of the year has a line, in order, from 1.'),
        *(
            (table(h3=f"3,{word},1"), f'shed/year.csv:4: surplus_kW: "{word}" is no plain number; write digits and a point, such as 1.25, no less than nought and without a unit.')
            for word in ("-1", "+1", "1e3", "nan", "inf", "", " 1", "1 kW", ".5", "5.", "1.2.3", '"1"', "１", "1_0", "1234567")
        ),
        (table(h3="3,1,-0"), 'shed/year.csv:4: demand_kW(lower): "-0" is no plain number; write digits and a point, such as 1.25, no less than nought and without a unit.'),
        (table(h3="3,1,10000.1"), "shed/year.csv:4: demand_kW(lower): 10000.1 is impossible here: the highest allowed is 10000 (in kW)."),
        (table(h3="3,\x1b[2J,1"), 'shed/year.csv:4: surplus_kW: "?[2J" is no plain number; write digits and a point, such as 1.25, no less than nought and without a unit.'),
        (table(h3="3," + "9" * 50 + ",1"), f'shed/year.csv:4: surplus_kW: "{"9" * 40}…" is no plain number; write digits and a point, such as 1.25, no less than nought and without a unit.'),
        (table() + b"8761,0,0\n", "shed/year.csv:8762: 8761 hours stand here; wanted are 8760, a year of 365 days (leave out 29 February)."),
        (table(h8760="#").replace(b"\n#\n", b"\n"), "shed/year.csv:8760: 8759 hours stand here; wanted are 8760, a year of 365 days (leave out 29 February)."),
        (table(h5="5,\xe9,0").decode().encode("latin-1"), "shed/year.csv:6: this line is not UTF-8 text; save the file as UTF-8."),
        (b"#" * (LARGEST_BYTES + 1), "shed/year.csv: the file is larger than 1024 KiB; the hours of a year are not."),
    ],
    ids=str,
)  # fmt: skip
def test_a_slip_is_told(content: bytes, message: str) -> None:
    assert faults(content) == [message]


def test_both_values_of_a_line_may_be_at_fault() -> None:
    assert len(faults(table(h3="4,x,y"))) == 3


def test_a_slip_in_every_line_is_told_a_few_times() -> None:
    found = faults(table(**{f"h{hour}": f"{hour},1.5 kW,0" for hour in range(1, 101)}))
    assert len(found) == 6
    assert found[4].startswith("shed/year.csv:6: ")
    assert found[5] == "shed/year.csv:7: 95 more faults stand from here on."


# In a plant.


def supplied(tmp_path: Path, content: bytes | None = None) -> Copy:
    """The shed with a table of hours in the place of its months."""
    copy = Copy(tmp_path)
    text = copy.text("plant.yml")
    surplus = next(line for line in text.split("\n") if line.startswith("  surplus: ["))
    copy.change("plant.yml", surplus + "\n", "")
    copy.change("plant.yml", "  daily_energy: 6 kWh(lower)\n", "  hourly: year.csv\n")
    if content is not None:
        (copy.folder / "year.csv").write_bytes(content)
    return copy


def test_the_table_stands_with_the_description_and_enters_what_the_digest_is_made_of(tmp_path: Path) -> None:
    copy = supplied(tmp_path, table())
    description = load(copy.folder, copy.root)
    assert description.hours == read_hours(table(), "year.csv", "")
    assert b"year.csv\0" + table() in set(description.sources())
    assert next(each.value for each in description.entries() if each.path == "demand.hourly") is description.hours


def test_a_plant_without_a_table_has_no_hours(tmp_path: Path) -> None:
    assert load(Copy(tmp_path).folder).hours is None


def test_a_table_that_is_missing_is_told_where_it_is_named(tmp_path: Path) -> None:
    copy = supplied(tmp_path)
    line = copy.line("plant.yml", "hourly:")
    message = "there is no file year.csv in the plant's folder; put it there, no link and no folder."
    assert copy.faults() == [f"shed/plant.yml:{line}: demand.hourly: {message}"]


def test_no_link_is_followed(tmp_path: Path) -> None:
    """It could lead to a file of the machine that reads a stranger's plant."""
    copy = supplied(tmp_path)
    (tmp_path / "elsewhere.csv").write_bytes(table())
    (copy.folder / "year.csv").symlink_to(tmp_path / "elsewhere.csv")
    (found,) = copy.faults()
    assert "no link and no folder" in found


def test_a_folder_is_no_table(tmp_path: Path) -> None:
    copy = supplied(tmp_path)
    (copy.folder / "year.csv").mkdir()
    (found,) = copy.faults()
    assert "no link and no folder" in found


@pytest.mark.parametrize(
    "name", ["../year.csv", "/etc/year.csv", "sub/year.csv", "year.txt", "Year.csv", ".csv", "a..csv"]
)
def test_a_name_that_leads_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    (found,) = supplied(tmp_path).change("plant.yml", "hourly: year.csv", f"hourly: {name}").faults()
    assert found.endswith(
        f'demand.hourly: "{name}" is no name of a table; write small letters, digits and underscores, then .csv: a file in the plant\'s own folder, such as year.csv.'
    )


def test_what_is_wrong_in_the_table_is_told_with_its_line(tmp_path: Path) -> None:
    (found,) = supplied(tmp_path, table(h4380="4380,1,none")).faults()
    assert found.startswith('shed/year.csv:4381: demand_kW(lower): "none" is no plain number')


def test_months_beside_hours_are_refused_since_one_of_them_would_be_ignored(tmp_path: Path) -> None:
    copy = Copy(tmp_path).change("plant.yml", "  daily_energy: 6", "  hourly: year.csv\n  daily_energy: 6")
    (copy.folder / "year.csv").write_bytes(table())
    assert [each.split(": ", 1)[1] for each in copy.faults()] == [
        "power.surplus: year.csv says it hour by hour; remove this, or do not name the file.",
        "demand.daily_energy: year.csv says it hour by hour; remove this, or do not name the file.",
    ]


def test_the_example_of_the_farm_says_what_its_columns_are() -> None:
    content = (ROOT / "docs" / "designs" / "farm" / "year.csv").read_bytes()
    year = read_hours(content, "year.csv", "")
    remarks = [line for line in content.decode().split("\n") if line.startswith("#")]
    assert len(remarks) >= 3 and "made-up" in remarks[0]
    assert max(power for _, power in year.surplus_w) > 0 and max(power for _, power in year.demand_w) > 0


def test_the_reference_page_tells_of_every_column() -> None:
    page = reference_page()
    for heading in HEADINGS:
        assert f"- `{heading}`: " in page
    assert "8760" in page and "1024 KiB" in page
