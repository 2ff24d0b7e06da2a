"""`gaswright parts`: the parts list on a terminal, as files, and beside one that was saved."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from macros.figures.costs import rates_of
from macros.figures.parts_list import basis_of, lines_of
from macros.figures.plant import Plant
from macros.quantities import say
from macros.quantities.languages import with_mark
from macros.sheets.parts import changes, parts_csv, parts_xlsx, read_saved, rows_of, totals_of

__all__ = ["compared_text", "parts_text", "write_parts"]


def parts_text(plant: Plant) -> str:
    """The list as lines of text, then sums, the day of the rates, and how the prices are known."""
    return "\n".join(_lines(plant))


def _lines(plant: Plant) -> Iterator[str]:
    lines = list(lines_of(plant))
    width = max((len(line.item) for line in lines), default=0)
    group = ""
    for line in lines:
        if line.group != group:
            group = line.group
            yield f"{group}:"
        price = with_mark(f"{line.unit_price:.2f} {line.currency}")
        yield f"  {line.quantity:>4} × {line.item:<{width}}  {price:>14}  {line.specification}"
    for title, amount in totals_of(plant):
        yield f"{title}: {amount}"
    yield say("command.parts_known", basis=basis_of(plant))
    if (rates := rates_of(plant.description)) is not None:
        yield say("command.parts_rates", day=rates.day)


def write_parts(plant: Plant, csv: Path | None, xlsx: Path | None) -> Iterator[str]:
    """Write the files asked for; a line for each."""
    for file, made in ((csv, parts_csv), (xlsx, parts_xlsx)):
        if file is not None:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(made(plant))
            yield say("command.parts_written", file=file.as_posix())


def compared_text(plant: Plant, saved: Path) -> str:
    """What changed from a saved list to today's, a line for each change."""
    found = changes(read_saved(saved), rows_of(plant))
    return "\n".join(map(str, found)) if found else say("command.parts_same")
