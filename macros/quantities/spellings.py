"""Which unit a text means: spellings, words, and the nearest known for a slip of the pen."""

import functools
from collections.abc import Mapping
from difflib import get_close_matches
from types import MappingProxyType
from typing import Final

from macros.quantities.errors import QuantityError
from macros.quantities.kinds import KINDS, kinds_named
from macros.quantities.languages import cached_as_spoken
from macros.quantities.messages import say
from macros.quantities.units import UNITS, Unit

# How people say and write units that the table types otherwise, in the singular. Not read; known, so that a message can
# say what to write and the check of free text finds them.
WORDS: Final = MappingProxyType(
    {
        "barg": "bar(g)", "bara": "bar(a)", "bars": "bar", "millibar": "mbar", "psig": "psi(g)", "psia": "psi(a)",
        "pascal": "Pa", "kilopascal": "kPa", "megapascal": "MPa",
        "celsius": "°C", "degree celsius": "°C", "fahrenheit": "°F", "degree fahrenheit": "°F", "kelvin": "K",
        "micron": "um", "micrometre": "um", "micrometer": "um", "millimetre": "mm", "millimeter": "mm",
        "centimetre": "cm", "centimeter": "cm", "metre": "m", "meter": "m", "kilometre": "km", "kilometer": "km",
        "inch": "in", "foot": "ft", "feet": "ft",
        "ml": "mL", "millilitre": "mL", "milliliter": "mL", "l": "L", "litre": "L", "liter": "L", "gallon": "gal",
        "milligram": "mg", "gram": "g", "gramme": "g", "kilogram": "kg", "kilo": "kg", "ounce": "oz", "pound": "lb",
        "millisecond": "ms", "second": "s", "sec": "s", "minute": "min", "hour": "h", "hr": "h", "day": "d",
        "year": "a",
        "millivolt": "mV", "volt": "V", "milliamp": "mA", "amp": "A", "ampere": "A", "amp-hour": "A h",
        "watt": "W", "kilowatt": "kW", "kilowatt-hour": "kWh", "kilowatt hour": "kWh",
        "joule": "J", "kilojoule": "kJ", "megajoule": "MJ", "mole": "mol", "percent": "%", "per cent": "%",
    }
)  # fmt: skip

NOUNS: Final = frozenset(
    (
        "Bar", "Millibar", "Grad Celsius", "Grad Fahrenheit", "Mikrometer", "Zentimeter", "Zoll", "Milliliter", "Liter",
        "Kubikmeter", "Quadratmeter", "Gramm", "Milligramm", "Kilogramm", "Tonne", "Tonnen", "Millisekunde",
        "Millisekunden", "Sekunde", "Sekunden", "Minute", "Minuten", "Stunde", "Stunden", "Tag", "Tage", "Tagen", "Jahr",
        "Jahre", "Jahren", "Milliampere", "Amperestunde", "Amperestunden", "Kilowattstunde", "Kilowattstunden",
        "Prozent", "Mol",
    )
)  # fmt: skip
"""Units in German words, which begin with a capital, for the check of free text; found, never read."""

_PLAIN: Final = str.maketrans(
    {"²": "2", "³": "3", "\u00b5": "u", "\u03bc": "u", "\u2126": "ohm", "\u03a9": "ohm", "·": " ", "⋅": " "}
)


def folded(text: str) -> str:
    """The text of a unit with superscripts, middle dots, either mu, either ohm sign and all spaces made plain."""
    return " ".join(text.translate(_PLAIN).split())


def _by_spelling() -> Mapping[str, tuple[Unit, ...]]:
    """The units that each spelling may mean: more than one only where kinds share it."""
    table: dict[str, tuple[Unit, ...]] = {}
    for each in UNITS:
        for spelling in (each.typed, *each.also):
            table[folded(spelling)] = (*table.get(folded(spelling), ()), each)
    return MappingProxyType(table)


_BY_SPELLING: Final = _by_spelling()


def units_spelled(text: str) -> tuple[Unit, ...]:
    """The units that a text may mean, or none; several where kinds share it (`K`)."""
    return _BY_SPELLING.get(folded(text), ())


@functools.lru_cache(maxsize=256)
def units_of(kind: str) -> tuple[Unit, ...]:
    """The units of a kind, or of each kind that a name such as `pressure` leaves open."""
    names = {each.name for each in kinds_named(kind)}
    return tuple(each for each in UNITS if each.kind in names)


@functools.lru_cache(maxsize=4096)
def unit(text: str, kind: str | None = None) -> Unit:
    """
    The unit that a text means.

    Parameters
    ----------
    text : str
        Any spelling of the table.
    kind : str, optional
        The kind, or a name such as `pressure`. Without it the first that has the text: `K` is then a difference,
        `mol/s` a flow of amount, an empty text a ratio.

    Raises
    ------
    QuantityError
        If the table has no such unit, or none of that kind.
    """
    found = units_spelled(text)
    if not found:
        raise QuantityError(
            say("quantities.unknown_unit", unit=text, wanted=_suggested(text, kind)), text, wanted(kind)
        )
    if kind is None:
        return found[0]
    names = {each.name for each in kinds_named(kind)}
    fitting = [each for each in found if each.kind in names]
    if fitting:
        return fitting[0]
    given = KINDS[found[0].kind].word
    message = say("quantities.unit_of_another_kind", unit=text, given=given, wanted=wanted(kind))
    raise QuantityError(message, text, wanted(kind))


def _suggested(text: str, kind: str | None) -> str:
    near = nearest(text, kind)
    return say("quantities.nearest", unit=near) if near else say("quantities.wanted", wanted=wanted(kind))


@cached_as_spoken(maxsize=256)
def wanted(kind: str | None) -> str:
    """What a kind is called, with the first of its units."""
    if kind is None:
        return say("quantities.any_quantity")
    words = say("quantities.or").join(each.word for each in kinds_named(kind))
    typed = [each.typed for each in units_of(kind) if each.typed]
    if not typed:
        return say("quantities.without_unit", kind=words)
    key = "quantities.with_units" if len(typed) <= _NAMED else "quantities.more_units"
    return say(key, kind=words, units=", ".join(typed[:_NAMED]))


_NAMED: Final = 6
_ALIKE: Final = 0.6


def nearest(text: str, kind: str | None = None) -> str:
    """The known unit most like a text or a word, of the kind wanted if there is one; empty if none is like it."""
    units = [each for each in (UNITS if kind is None else units_of(kind)) if each.typed]
    typed = {each.typed for each in units}
    known = {spelling.casefold(): each.typed for each in units for spelling in (each.typed, *each.also)}
    known |= {word: spelling for word, spelling in WORDS.items() if spelling in typed}
    said = folded(text).casefold()
    close = get_close_matches(said, known, n=1, cutoff=_ALIKE)
    return known[close[0]] if close else ""
