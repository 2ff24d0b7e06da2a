"""
The hours of a year, as the author measured or reckoned them: a CSV file beside plant.yml that plant.yml names.

Lines that begin with `#` before the headings are for readers. Then one line of headings and one line for each hour of a
year of 365 days: its number from 1, the mean surplus power and the mean demand in it, by the lower heating value. Hour 1
begins at midnight of 1 January, by the time that the clock keeps in winter. Numbers are plain decimals: no sign, no
exponent, no blank, no quotes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from macros.quantities import Fault, Faults, say

__all__ = ["HEADINGS", "HOURS", "LARGEST_BYTES", "MOST_KW", "HourlyYear", "read_hours"]

HEADINGS: Final = ("hour", "surplus_kW", "demand_kW(lower)")
HOURS: Final = 8760
LARGEST_BYTES: Final = 1024 * 1024
MOST_KW: Final = 10000.0
MOST_FAULTS: Final = 5
"""Of a file; one mistake is often made in every line."""
LONGEST_SHOWN: Final = 40

_PLAIN: Final = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,9})?", re.ASCII)
_HOUR_S: Final = 3600.0


@dataclass(frozen=True)
class HourlyYear:
    """
    A year hour by hour, as figures read it.

    Attributes
    ----------
    name : str
        Name of the file.
    surplus_w, demand_w : tuple of (float, float)
        Beginning of each hour and the mean power in it; the demand by the lower heating value. [s, W]
    """

    name: str
    surplus_w: tuple[tuple[float, float], ...] = field(repr=False)
    demand_w: tuple[tuple[float, float], ...] = field(repr=False)

    def __str__(self) -> str:
        return self.name


def read_hours(content: bytes, name: str, shown: str) -> HourlyYear:
    """
    Read the hours of a year.

    Parameters
    ----------
    content : bytes
        Of the file, UTF-8.
    name : str
        Of the file.
    shown : str
        The file as messages show it.

    Raises
    ------
    Faults
        What is wrong, the first few lines of it, each with what was found and what is wanted.
    """
    if len(content) > LARGEST_BYTES:
        raise Faults([Fault(shown, 0, "", say("description.hourly.too_large", most=LARGEST_BYTES // 1024))])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise Faults([Fault(shown, line, "", say("description.yaml.not_utf8"))]) from None
    lines = text.replace("\r\n", "\n").removesuffix("\n").split("\n")
    before = next((place for place, line in enumerate(lines) if not line.startswith("#")), len(lines))
    headings = lines[before] if before < len(lines) else ""
    if tuple(headings.split(",")) != HEADINGS:
        message = say("description.hourly.headings", found=_found(headings), wanted=",".join(HEADINGS))
        raise Faults([Fault(shown, min(before + 1, len(lines)), "", message)])
    first, rows = before + 2, lines[before + 1 :]
    powers: list[tuple[float, float]] = []
    faults = _Few()
    for number, row in enumerate(rows[:HOURS], 1):
        powers.append(_powers(row, number, faults, shown, first + number - 1))
    if len(rows) != HOURS:
        line = first + min(len(rows), HOURS + 1) - 1
        faults.add(Fault(shown, line, "", say("description.hourly.hours", found=len(rows), wanted=HOURS)))
    if faults.count:
        raise Faults(faults.told(shown))
    begins = [number * _HOUR_S for number in range(HOURS)]
    surplus, demand = (tuple(zip(begins, column, strict=True)) for column in zip(*powers, strict=True))
    return HourlyYear(name, surplus, demand)


class _Few:
    """The first faults of many, how many there were, and where the rest begin."""

    def __init__(self) -> None:
        self.first: list[Fault] = []
        self.next_line = 0
        self.count = 0

    def add(self, fault: Fault) -> None:
        self.count += 1
        if self.count <= MOST_FAULTS:
            self.first.append(fault)
        self.next_line = self.next_line or (fault.line if self.count > MOST_FAULTS else 0)

    def told(self, shown: str) -> Iterator[Fault]:
        yield from self.first
        if self.count > MOST_FAULTS:
            message = say("description.hourly.more", count=self.count - MOST_FAULTS)
            yield Fault(shown, self.next_line, "", message)


def _powers(row: str, number: int, faults: _Few, shown: str, line: int) -> tuple[float, float]:
    """Surplus and demand of one hour in watts; nought where the line is at fault."""
    cells = row.split(",")
    if len(cells) != len(HEADINGS):
        message = say("description.hourly.cells", found=_found(row), count=len(cells), wanted=len(HEADINGS))
        faults.add(Fault(shown, line, "", message))
        return 0.0, 0.0
    if cells[0] != str(number):
        faults.add(
            Fault(shown, line, HEADINGS[0], say("description.hourly.hour", found=_found(cells[0]), wanted=number))
        )
    return _power(cells[1], HEADINGS[1], faults, shown, line), _power(cells[2], HEADINGS[2], faults, shown, line)


def _power(cell: str, heading: str, faults: _Few, shown: str, line: int) -> float:
    if not _PLAIN.fullmatch(cell):
        faults.add(Fault(shown, line, heading, say("description.hourly.number", found=_found(cell))))
        return 0.0
    power_kw = float(cell)
    if power_kw > MOST_KW:
        faults.add(Fault(shown, line, heading, say("description.hourly.above", found=cell, most=f"{MOST_KW:.0f}")))
        return 0.0
    return power_kw * 1000.0


def _found(text: str) -> str:
    """What stands in a file, cut where it is long, with nothing in it that a terminal would obey."""
    plain = "".join(each if each.isprintable() else "?" for each in text[:LONGEST_SHOWN])
    return plain + ("…" if len(text) > LONGEST_SHOWN else "")
