"""
The parts list as files: a table of comma-separated values, a spreadsheet, and a saved table beside today's list.

The same plant gives the same bytes. No cell of either is a formula: a text that a spreadsheet would take for one gets
an apostrophe before it in the table, which reading takes off again.
"""

from __future__ import annotations

import csv
import datetime
import io
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import xlsxwriter

from macros.description.parts_file import GROUPS
from macros.figures.costs import main_currency, rates_of
from macros.figures.parts_list import Line, basis_of, lines_of
from macros.figures.plant import Plant
from macros.quantities import Fault, Faults, say

__all__ = ["COLUMNS", "Change", "changes", "parts_csv", "parts_xlsx", "read_saved", "rows_of", "totals_of"]

COLUMNS = (
    "group", "item", "specification", "quantity", "unit_price", "currency", "region", "lead_time", "life", "tags",
    "prices",
)  # fmt: skip
"""What stands in each line of the table, by the names that its first line gives."""

COMPARED = ("quantity", "unit_price", "currency", "region", "specification")
"""Columns whose change is told."""

STARTS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "'")

A4 = 9
"""As spreadsheets number paper."""

WIDTHS = (12, 34, 60, 9, 11, 9, 8, 10, 8, 24, 24)

Row = dict[str, str]


def rows_of(plant: Plant) -> list[Row]:
    """The lines of the list as texts, by column."""
    basis = basis_of(plant)
    return [_row(line, basis) for line in lines_of(plant)]


def _row(line: Line, basis: str) -> Row:
    texts = (
        line.group, line.item, line.specification, str(line.quantity), f"{line.unit_price:.2f}", line.currency,
        line.region, line.lead_time, line.life, " ".join(line.tags), basis,
    )  # fmt: skip
    return dict(zip(COLUMNS, texts, strict=True))


def parts_csv(plant: Plant) -> bytes:
    """The list as comma-separated values after RFC 4180, in UTF-8 with its mark, so that spreadsheets read it right."""
    held = io.StringIO(newline="")
    writer = csv.writer(held, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows([_inert(row[column]) for column in COLUMNS] for row in rows_of(plant))
    return held.getvalue().encode("utf-8-sig")


def _inert(text: str) -> str:
    return f"'{text}" if text.startswith(STARTS_FORMULA) else text


def totals_of(plant: Plant) -> list[tuple[str, str]]:
    """Title and amount of what each group, all parts and a stored kilowatt-hour cost."""
    graph, prices = plant.graph, plant.description.parts.prices
    codes = [code.lower() for code in prices.currencies] if prices is not None else []
    wanted = [*(f"cost.group.{group}" for group in GROUPS), *(f"cost.total.{code}" for code in codes)]
    return [(graph[name].title, graph[name].show()) for name in (*wanted, "cost.per_stored_kwh") if name in graph]


def parts_xlsx(plant: Plant) -> bytes:
    """The list as a spreadsheet: the parts on one sheet; sums, rates and how prices are known on another."""
    held = io.BytesIO()
    with xlsxwriter.Workbook(held, {"in_memory": True}) as book:
        # The day of the prices, not of the writing: the same plant gives the same bytes.
        book.set_properties({"title": plant.title, "created": _day_of(plant)})
        bold = book.add_format({"bold": True, "text_wrap": True, "valign": "bottom"})
        wrapped = book.add_format({"text_wrap": True, "valign": "top"})
        money = book.add_format({"num_format": "#,##0.00", "valign": "top"})
        sheet = book.add_worksheet(say("sheets.parts.parts"))
        for column, (name, width) in enumerate(zip(COLUMNS, WIDTHS, strict=True)):
            sheet.set_column(column, column, width)
            sheet.write_string(0, column, say(f"sheets.parts.column.{name}"), bold)
        rows = rows_of(plant)
        for number, row in enumerate(rows, 1):
            for column, name in enumerate(COLUMNS):
                if name in ("quantity", "unit_price"):
                    sheet.write_number(number, column, float(row[name]), money if name == "unit_price" else wrapped)
                else:
                    sheet.write_string(number, column, row[name], wrapped)
        sheet.freeze_panes(1, 2)
        _for_paper(sheet)
        sheet.autofilter(0, 0, len(rows), len(COLUMNS) - 1)
        about = book.add_worksheet(say("sheets.parts.about"))
        about.set_column(0, 0, 64)
        about.set_column(1, 1, 40)
        for number, (what, value) in enumerate(_about(plant)):
            about.write_string(number, 0, what, wrapped)
            about.write_string(number, 1, value, wrapped)
        _for_paper(about, repeated=False)
    return held.getvalue()


def _for_paper(sheet: Any, *, repeated: bool = True) -> None:
    """A4 on its side, as wide as the sheet, its headings, where it has any, on each; ruled as on the screen."""
    sheet.set_paper(A4)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    if repeated:
        sheet.repeat_rows(0)
    sheet.hide_gridlines(0)


def _about(plant: Plant) -> Iterator[tuple[str, str]]:
    prices, rates = plant.description.parts.prices, rates_of(plant.description)
    yield say("sheets.parts.plant"), plant.title
    yield say("sheets.parts.status"), plant.status
    yield say("sheets.parts.digest"), plant.digest
    yield say("sheets.parts.column.prices"), basis_of(plant)
    if prices is not None and prices.note:
        yield say("sheets.parts.note"), prices.note
    if rates is not None:
        yield say("sheets.parts.rates_of"), rates.day.isoformat()
    yield say("sheets.parts.sums_in"), main_currency(plant.description)
    yield from totals_of(plant)


def _day_of(plant: Plant) -> datetime.datetime:
    prices = plant.description.parts.prices
    return datetime.datetime.fromisoformat(prices.date if prices is not None else "2000-01-01")


# --- a saved list beside today's


@dataclass(frozen=True)
class Change:
    """A line that came, went or changed: its item and, where it changed, column, before and after."""

    kind: str
    item: str
    column: str = ""
    old: str = ""
    new: str = ""

    def __str__(self) -> str:
        if self.kind != "changed":
            return say(f"sheets.parts.{self.kind}", item=self.item)
        name = say(f"sheets.parts.column.{self.column}")
        return say("sheets.parts.changed", item=self.item, column=name, old=self.old, new=self.new)


def read_saved(path: Path) -> list[Row]:
    """
    A list that `parts_csv` wrote earlier.

    Raises
    ------
    Faults
        Everything in it that is no such list, with the line.
    """
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise Faults([Fault(path.as_posix(), 0, "", say("sheets.parts.unreadable"))]) from error
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    rows: list[Row] = []
    faults: list[Fault] = []
    try:
        heading = next(reader, [])
        if tuple(heading) != COLUMNS:
            message = say("sheets.parts.heading", found=", ".join(heading), wanted=", ".join(COLUMNS))
            raise Faults([Fault(path.as_posix(), 1, "", message)])
        for cells in reader:
            if len(cells) != len(COLUMNS):
                message = say("sheets.parts.cells", found=len(cells), wanted=len(COLUMNS))
                faults.append(Fault(path.as_posix(), reader.line_num, "", message))
                continue
            rows.append(dict(zip(COLUMNS, (cell.removeprefix("'") for cell in cells), strict=True)))
    except csv.Error as error:
        raise Faults([*faults, Fault(path.as_posix(), reader.line_num, "", say("sheets.parts.unreadable"))]) from error
    if faults:
        raise Faults(faults)
    return rows


def changes(old: Iterable[Row], new: Iterable[Row]) -> list[Change]:
    """
    What changed from one list to another: lines that went, lines that came, then what changed in those that stayed.

    Lines are the same where their item is called the same; of several with one name the first goes with the first.
    """
    before, after = _by_item(old), _by_item(new)
    found = [Change("gone", key[0]) for key in before if key not in after]
    found += [Change("added", key[0]) for key in after if key not in before]
    for key, row in after.items():
        if key in before:
            found += [
                Change("changed", key[0], column, before[key][column], row[column])
                for column in COMPARED
                if before[key][column] != row[column]
            ]
    return found


def _by_item(rows: Iterable[Row]) -> dict[tuple[str, int], Row]:
    seen: Counter[str] = Counter()
    found = {}
    for row in rows:
        seen[row["item"]] += 1
        found[row["item"], seen[row["item"]]] = row
    return found
