"""
The parts list as files, read again by other libraries: openpyxl opens the spreadsheet, the standard library the table.

RFC 4180 (read): lines end in CR LF, a cell with a comma or a quotation mark stands in quotation marks, which are doubled.
That a cell which begins with = + - @ is taken for a formula by spreadsheets is common practice, no source.
"""

import csv
import io
import re
import shutil
import zipfile
from pathlib import Path

import openpyxl
import pytest

from macros.command import main
from macros.description.loading import load
from macros.figures.plant import Plant
from macros.quantities import Faults
from macros.sheets.parts import COLUMNS, changes, parts_csv, parts_xlsx, read_saved, rows_of

SHED = Path(__file__).parents[2] / "docs" / "designs" / "shed"

LIST = """\
format: 1
prices: {basis: invented, date: 2024-03-30}
parts:
  - {group: stack, item: "=1+2", specification: "-3, \\"cleaned\\", {banks.store.cylinders}", quantity: 1, unit_price: 1000, currency: EUR, region: NL, lead_time: 7 d, life: 5 a}
  - {group: banks, item: "@sum", specification: +plus, quantity: "{banks.store.cylinders}", unit_price: 250.50, currency: GBP, region: GB, lead_time: 7 d, tags: [BK1, V15]}
  - {group: other, item: "'quoted", specification: plain, quantity: 2, unit_price: 0, currency: EUR, region: world, lead_time: 7 d}
"""  # noqa: E501


def plant_with(folder, text):
    copy = folder / "shed"
    shutil.copytree(SHED, copy, dirs_exist_ok=True)
    (copy / "parts.yml").write_text(text, "utf-8")
    return Plant.of(load(copy))


@pytest.fixture(scope="module")
def plant(tmp_path_factory):
    return plant_with(tmp_path_factory.mktemp("parts"), LIST)


def cells_of(plant):
    return list(csv.reader(io.StringIO(parts_csv(plant).decode("utf-8-sig"), newline=""), strict=True))


def test_the_table_begins_with_its_mark_and_ends_lines_as_the_standard_says(plant):
    made = parts_csv(plant)
    assert made.startswith(b"\xef\xbb\xbfgroup,item,")
    assert made.count(b"\r\n") == made.count(b"\n") == 4
    assert b'"\'-3, ""cleaned"", 4"' in made


def test_no_cell_of_the_table_is_taken_for_a_formula(plant):
    cells = [cell for row in cells_of(plant)[1:] for cell in row]
    assert {"'=1+2", "'@sum", "'+plus", "''quoted"} <= set(cells)
    assert not [cell for cell in cells if re.match(r"[=+\-@\t\r]", cell)]


def test_a_saved_list_reads_back_as_it_was(plant, tmp_path):
    saved = tmp_path / "saved.csv"
    saved.write_bytes(parts_csv(plant))
    assert read_saved(saved) == rows_of(plant)
    assert [row["item"] for row in read_saved(saved)] == ["=1+2", "@sum", "'quoted"]


def test_each_line_says_how_many_at_what_price_and_how_that_is_known(plant):
    heading, _, second, _ = cells_of(plant)
    row = dict(zip(heading, second, strict=True))
    assert (row["quantity"], row["unit_price"], row["currency"], row["region"]) == ("4", "250.50", "GBP", "GB")
    assert (row["tags"], row["prices"]) == ("BK1 V15", "made up on 2024-03-30")


def test_the_spreadsheet_holds_the_same_and_no_formula(plant):
    book = openpyxl.load_workbook(io.BytesIO(parts_xlsx(plant)))
    sheet, about = book.worksheets
    assert {cell.data_type for each in book.worksheets for row in each.iter_rows() for cell in row} == {"s", "n"}
    rows = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2)]
    for row, ours in zip(rows, rows_of(plant), strict=True):
        said = dict(zip(COLUMNS, row, strict=True))
        assert (said["item"], said["specification"]) == (ours["item"], ours["specification"])
        assert (said["quantity"], said["unit_price"]) == (int(ours["quantity"]), float(ours["unit_price"]))
    told = {row[0].value: row[1].value for row in about.iter_rows()}
    # 1000 + 4 × 250.50/0.85510 = 2171.79 EUR, rounded up; rates of the last day before Easter.
    assert told["Cost of all parts, in EUR"] == "2172\u00a0EUR"
    values = [row[1].value for row in about.iter_rows()]
    assert {"2172\u00a0EUR", "1858\u00a0GBP", "2348\u00a0USD", "2024-03-28", "made up on 2024-03-30"} <= set(values)


def test_the_same_plant_gives_the_same_bytes(plant):
    made = parts_xlsx(plant)
    assert made == parts_xlsx(plant)
    with zipfile.ZipFile(io.BytesIO(made)) as held:
        assert {each.date_time[0] for each in held.infolist()} == {1980}  # no day of writing
        assert b"2024-03-30" in held.read("docProps/core.xml")


def row(item, quantity="1", price="10.00", currency="EUR"):
    return dict.fromkeys(COLUMNS, "") | {
        "item": item, "quantity": quantity, "unit_price": price, "currency": currency,
    }  # fmt: skip


def test_what_came_what_went_and_what_changed():
    old = [row("tube"), row("valve", "2"), row("gauge"), row("gauge", "3")]
    new = [row("tube", price="12.00"), row("gauge"), row("gauge", "4"), row("hose")]
    assert [(each.kind, each.item, each.column, each.old, each.new) for each in changes(old, new)] == [
        ("gone", "valve", "", "", ""),
        ("added", "hose", "", "", ""),
        ("changed", "tube", "unit_price", "10.00", "12.00"),
        ("changed", "gauge", "quantity", "3", "4"),
    ]
    assert changes(old, old) == []


@pytest.mark.parametrize(
    ("content", "line", "message"),
    [
        (b"item,price\r\n", 1, "the first line names the columns item, price"),
        (",".join(COLUMNS).encode() + b"\r\na,b\r\n", 2, "2 cells where 11 are wanted"),
        (b"\xff\xfe\x00", 0, "this is no table of comma-separated values in UTF-8"),
        (b"", 1, "the first line names the columns"),
    ],
)
def test_what_is_no_saved_list_is_told_with_its_line(tmp_path, content, line, message):
    file = tmp_path / "old.csv"
    file.write_bytes(content)
    with pytest.raises(Faults) as error:
        read_saved(file)
    (fault,) = error.value
    assert fault.line == line
    assert message in fault.message


def test_the_command_tells_what_changed_since_a_saved_list(plant, tmp_path, capsys):
    """From four cylinders to six; a plant that nobody reviewed yet is no reason not to compare."""
    saved = tmp_path / "saved.csv"
    saved.write_bytes(parts_csv(plant))
    fewer = tmp_path / "fewer"
    shutil.copytree(SHED, fewer)
    (fewer / "parts.yml").write_text(LIST.replace('"{banks.store.cylinders}"', "6"), "utf-8")
    assert main(["parts", str(fewer), "--compare", str(saved), "--xlsx", str(tmp_path / "new.xlsx")]) == 0
    said = capsys.readouterr().out
    assert "changed: @sum, Quantity: 4 before, 6 now" in said
    assert openpyxl.load_workbook(tmp_path / "new.xlsx").worksheets[0].cell(3, 4).value == 6


def test_a_saved_list_that_cannot_be_read_costs_nothing_but_a_message(tmp_path, capsys):
    """What is wrong with it is told before any file is written."""
    saved = tmp_path / "saved.csv"
    saved.write_text("nothing of the kind\n", encoding="utf-8")
    wanted = tmp_path / "new.csv"
    assert main(["parts", "docs/designs/bench", "--compare", str(saved), "--csv", str(wanted)]) == 2
    assert "nothing was written" in capsys.readouterr().err
    assert not wanted.exists()


def test_the_spreadsheet_prints_on_a4_as_wide_as_the_sheet_with_its_headings_on_each(plant):
    """Read by another library; 9 is A4 in ECMA-376, part 1, 18.3.1.63, from memory."""
    sheet = openpyxl.load_workbook(io.BytesIO(parts_xlsx(plant))).worksheets[0]
    assert (int(sheet.page_setup.paperSize), sheet.page_setup.orientation) == (9, "landscape")
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
    assert sheet.print_title_rows == "$1:$1"


def test_nothing_in_the_spreadsheet_is_cut_by_its_column(plant):
    """Each text fits its column or wraps in it; both sheets are as wide as the paper."""
    for sheet in openpyxl.load_workbook(io.BytesIO(parts_xlsx(plant))):
        assert sheet.sheet_properties.pageSetUpPr.fitToPage
        widths = {}
        for one in sheet.column_dimensions.values():  # equal neighbours stand as one
            widths |= dict.fromkeys(range(one.min, one.max + 1), one.width)
        cut = [cell.coordinate for row in sheet.iter_rows() for cell in row
               if len(str(cell.value or "")) > widths[cell.column] and not cell.alignment.wrap_text]  # fmt: skip
        assert cut == []
