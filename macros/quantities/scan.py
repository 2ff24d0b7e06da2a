"""
Numbers with a unit in free text, for the check that none is typed by hand.

A number before a unit of the closed table counts, and before a unit in words ("5 minutes"). What English puts behind a
number for other reasons does not: "3 steps", "Figure 2 A", "16 in series", "in 2 a builder needs".
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from macros.quantities.spellings import NOUNS, WORDS
from macros.quantities.units import UNITS


@dataclass(frozen=True, slots=True)
class Match:
    """A number with its unit: where it begins and ends in the text, and itself."""

    start: int
    end: int
    text: str


def numbers_with_units(text: str) -> list[Match]:
    """Every number with a unit, in the order of the text."""
    return [
        Match(found.start(), found.end(), found[0])
        for found in _NUMBER_WITH_UNIT.finditer(text)
        if not _is_label(text, found) and not _is_english(text, found)
    ]


def _is_label(text: str, found: re.Match[str]) -> bool:
    """Whether the number belongs to a word before it, and the letter to what follows: "Figure 2 A"."""
    before = text[max(0, found.start() - _LONGEST_LABEL) : found.start()]
    return found["letter"] is not None and found["number"].isdecimal() and _LABEL.search(before) is not None


def _is_english(text: str, found: re.Match[str]) -> bool:
    """Whether the unit is the article "a" or the preposition "in": they are units where a phrase ends with them."""
    following = text[found.end() :].lstrip()
    if following[:1] in _ENDS:
        return False
    return found["letter"] == "a" or (found["symbol"] == "in" and not _MEASURED_IN_INCHES.match(following))


_ENDS: Final = frozenset({"", *".,;:()]!?|/×"})
_MEASURED_IN_INCHES: Final = re.compile(r"(?:tube|tubing|pipe|hose|fitting|bore|thread|wall|spanner|OD|by|x)\b")
_LABEL: Final = re.compile(
    r"\b(?:annex|appendix|category|chapter|class|clause|equation|eq\.|fig\.|figure|group|item|list|no\.|note|number"
    r"|option|page|part|plate|rule|section|step|table|type|zone"
    r"|abbildung|abb\.|abschnitt|anhang|bild|gruppe|kapitel|kategorie|klasse|nr\.|nummer|punkt|regel|schritt|seite"
    r"|stufe|tabelle|teil|typ)s?\s$",
    re.IGNORECASE,
)
_LONGEST_LABEL: Final = 16

_SPACE: Final = r"(?:[ \t\u00a0\u2009\u202f]|&nbsp;|&thinsp;|&#160;|&#8239;)"
_DECIMAL: Final = r"(?:[0-9]{1,3}(?:[ ,.'’\u202f][0-9]{3})+(?:[.,][0-9]+)?|[0-9]+(?:[.,][0-9]+)?)"
_POWER: Final = rf"(?:{_SPACE}?[×x]{_SPACE}?10(?:[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+|\^-?[0-9]+)|[eE][+-]?[0-9]+)"
_NUMBER: Final = rf"(?:[0-9]+/[0-9]+|[0-9]*[¼½¾]|{_DECIMAL}{_POWER}?)"
_EMPHASIS: Final = "[*_]{0,3}"
# A letter is a unit only right beside its number; a longer unit may stand on the next line.
_BESIDE: Final = rf"{_EMPHASIS}(?:{_SPACE}|-)?"
_BEHIND: Final = rf"{_EMPHASIS}(?:{_SPACE}*\n?{_SPACE}*|-)"


def _any_of(texts: Iterable[str]) -> str:
    """Any of several texts, the longest that fits; a space within may be any space."""
    longest_first = sorted(texts, key=lambda each: (-len(each), each))
    return "|".join(re.escape(each).replace(r"\ ", _SPACE) for each in longest_first)


_SYMBOLS: Final = {each for unit in UNITS for each in (unit.typed, unit.symbol, *unit.also) if each}
_LETTERS: Final = {each for each in _SYMBOLS if len(each) == 1 and each.isalpha()}
_NUMBER_WITH_UNIT: Final = re.compile(
    rf"(?<![^\W_])(?<!\.)(?<![0-9]:)[+\-−]?(?P<number>{_NUMBER})(?:{_SPACE}?(?:±|\+/-){_SPACE}?{_NUMBER})?"
    rf"(?:{_BEHIND}(?:(?P<symbol>{_any_of(_SYMBOLS - _LETTERS)})|(?i:{_any_of(WORDS)})(?:e?s)?|{_any_of(NOUNS)})"
    rf"|{_BESIDE}(?P<letter>{_any_of(_LETTERS)}))"
    # No letter, digit or degree sign may follow, unless the unit itself ends with a mark such as % or a bracket.
    r"(?:(?<!\w)|(?![^\W_]|°))"
)
