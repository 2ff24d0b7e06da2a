"""
The grammar of a quantity: `26 bar(g)`, `1.95 ± 0.03 V`, `-8 °C`, `1.5e-14 mol/(m s Pa)`.

    quantity = [sign] number [("±" | "+/-") number] [unit]
    number   = digits ["." digits] [("e" | "E") [sign] digits]

The unit is one of the closed table. Only a ratio and a count have none.
"""

import re
from dataclasses import dataclass
from math import isfinite
from typing import Final

from macros.quantities.errors import QuantityError
from macros.quantities.kinds import KINDS, kinds_named
from macros.quantities.languages import without_mark
from macros.quantities.messages import say
from macros.quantities.showing import GROUP_MARK, MINUS, RAISED
from macros.quantities.spellings import nearest, units_of, units_spelled, wanted
from macros.quantities.units import Unit


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its kind, as an author wrote it and as it is kept."""

    kind: str
    si: float
    """In the SI unit of the kind; a gauge pressure stays one."""
    unit: str
    """As the table types it, whatever the spelling read."""
    text: str
    """As the author wrote it."""
    uncertainty: float | None = None
    """What stood behind `±`, in the SI unit."""


def read(text: str, kind: str | None = None) -> Quantity:
    """
    The quantity that a text says.

    Parameters
    ----------
    text : str
        What an author typed, or what `show` wrote.
    kind : str, optional
        The kind wanted, or a name such as `pressure` that leaves several open. Without it any kind that has units.

    Raises
    ------
    QuantityError
        If the text is no quantity of that kind; the message says what to write.
    """
    return _Reading(text, kind).quantity()


def parse_shown(text: str, kind: str | None = None) -> Quantity:
    """
    The quantity that `show` wrote in the language spoken, even if what carried it made all spaces alike; a plain number is a ratio.

    Raises
    ------
    QuantityError
        If the text is no quantity of that kind.
    """
    text = without_mark(text)
    grouped = re.sub(r"(?<![0-9.])[0-9]{1,3}(?: [0-9]{3})+(?![0-9])", lambda number: number[0].replace(" ", ""), text)
    if kind is None and re.fullmatch(rf"[+-]?{_NUMBER}", _typed(grouped)):
        kind = "ratio"
    return read(grouped, kind)


_NUMBER: Final = r"[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?"
_QUANTITY: Final = re.compile(
    rf"(?P<number>[+-]?{_NUMBER})(?:\s*(?:±|\+/-)\s*(?P<spread>{_NUMBER}))?\s*(?P<unit>[^0-9.,'’_\s±].*|1/.*)?",
    re.DOTALL,
)
_NOT_FINITE: Final = re.compile(r"[+-]?(?:nan|inf|infinity)\b", re.IGNORECASE)
_GROUPED: Final = re.compile(rf"(?<![0-9.{GROUP_MARK}])[0-9]{{1,3}}(?:{GROUP_MARK}[0-9]{{3}})+(?![0-9{GROUP_MARK}])")
_POWER: Final = re.compile(r"\s×\s10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)")
_LOWERED: Final = {raised: plain for plain, raised in RAISED.items()}

# Marks that people put between thousands, each group after the first of three digits.
_THOUSANDS: Final = re.compile(
    r"(?<![0-9.,])[0-9]{1,3}(?:(?P<mark>[,'’_ \u202f])[0-9]{3})(?:(?P=mark)[0-9]{3})*(?![0-9,])"
)
_DECIMAL_COMMA: Final = re.compile(
    r"(?<![0-9,])(?P<whole>[0-9]+|[0-9]{1,3}(?:\.[0-9]{3})+),(?P<rest>[0-9]+)(?![0-9.,])"
)

_LONGEST_ECHO: Final = 60


def _typed(text: str) -> str:
    """What showing set in finer type, as it would be typed."""
    text = _GROUPED.sub(lambda number: number[0].replace(GROUP_MARK, ""), text.replace(MINUS, "-").strip())
    return _POWER.sub(lambda power: f"e{power[1].translate(_LOWERED)}", text)


class _Reading:
    """One text being read, kept for the messages."""

    def __init__(self, text: str, kind: str | None) -> None:
        self.text = text.strip()
        self.kind = kind
        self.wanted = wanted(kind)

    def quantity(self) -> Quantity:
        typed = _typed(self.text)
        parts = _QUANTITY.fullmatch(typed)
        if parts is None:
            raise self.bad_number(typed)
        number, spread = float(parts["number"]), float(parts["spread"] or 0)
        unit = self.unit(parts["number"], parts["unit"] or "")
        si = unit.to_si(number) + 0.0  # + 0.0 makes of -0.0 a zero
        if not isfinite(si) or not isfinite(spread):
            raise self.error("quantities.not_finite", wanted=self.wanted)
        self.check_possible(si, unit)
        return Quantity(unit.kind, si, unit.typed, self.text, spread * unit.factor if parts["spread"] else None)

    def unit(self, number: str, text: str) -> Unit:
        """The unit meant, of the kind wanted."""
        fitting = [each for each in units_spelled(text) if each.kind in self.kinds()]
        if fitting:
            return fitting[0]
        possible = units_of(self.kind) if self.kind else ()
        if not text:
            if self.kind == "fraction":
                share = f"{float(number) * 100:.{_SHARE_DIGITS}g} %"
                raise self.error("quantities.share_without_unit", instead=self.either(share, f"{number} %"))
            raise self.error("quantities.missing_unit", wanted=self.wanted)
        if possible and not any(each.typed for each in possible):
            raise self.error("quantities.no_unit_wanted", wanted=self.wanted)
        found = units_spelled(text)
        if not found:
            raise self.unknown_unit(text)
        raise self.bad_kind(text, found[0], {each.typed for each in possible})

    def kinds(self) -> frozenset[str]:
        """The kinds that will do; without a wish all that have units."""
        if self.kind is None:
            return frozenset(KINDS) - {"ratio", "count"}
        return frozenset(each.name for each in kinds_named(self.kind))

    def either(self, *texts: str) -> str:
        return say("quantities.or").join(dict.fromkeys(texts))

    def error(self, key: str, **values: object) -> QuantityError:
        return QuantityError(say(key, found=_short(self.text), **values), self.text, self.wanted)

    def bad_number(self, typed: str) -> QuantityError:
        """What is wrong with the number, and how it would be written where that is plain."""
        if any(each.isdecimal() and not each.isascii() for each in typed):
            return self.error("quantities.digits_not_ascii")
        if _NOT_FINITE.match(typed):
            return self.error("quantities.not_finite", wanted=self.wanted)
        if not re.match(r"[+-]?\s*[.,]?[0-9]", typed):
            return self.error("quantities.no_number", wanted=self.wanted)
        decimal = _DECIMAL_COMMA.sub(lambda number: f"{number['whole'].replace('.', '')}.{number['rest']}", typed)
        joined = _THOUSANDS.sub(lambda number: number[0].replace(number["mark"], ""), typed)
        readable = [text for text in (decimal, joined) if text != typed and _QUANTITY.fullmatch(text)]
        if readable:
            return self.error(
                "quantities.comma" if "," in typed else "quantities.separator", instead=self.either(*readable)
            )
        return self.error("quantities.number_malformed", wanted=self.wanted)

    def unknown_unit(self, text: str) -> QuantityError:
        """The nearest known unit, or all that are wanted."""
        near = nearest(text, self.kind)
        if not near:
            return self.error("quantities.strange_unit", unit=_short(text), wanted=self.wanted)
        instead = f"{self.text.removesuffix(text).strip()} {near}"
        return self.error("quantities.misspelt_unit", unit=_short(text), instead=instead)

    def bad_kind(self, text: str, found: Unit, possible: set[str]) -> QuantityError:
        """Of which kind it is instead, and what the author most likely left out."""
        number = self.text.removesuffix(text)
        for key, candidates in (
            ("quantities.gauge_or_absolute", (f"{found.typed}(g)", f"{found.typed}(a)")),
            ("quantities.lower_or_higher", (f"{found.typed}(lower)", f"{found.typed}(higher)")),
            ("quantities.actual_or_normal", (f"N{found.typed}", f"{found.typed}(free)")),
        ):
            marked = [f"{number}{each}" for each in candidates if each in possible]
            if marked:
                return self.error(key, instead=self.either(*marked))
        if self.kind == "temperature_difference" and found.kind == "temperature":
            return self.error("quantities.difference", instead=f"{number}{'Δ°F' if found.typed == '°F' else 'K'}")
        return self.error("quantities.wrong_kind", given=KINDS[found.kind].word, wanted=self.wanted)

    def check_possible(self, si: float, unit: Unit) -> None:
        """Refuse what no state of matter has."""
        kind = KINDS[unit.kind]
        if kind.lowest is not None and si < kind.lowest:
            lowest = f"{unit.from_si(kind.lowest):.6g} {unit.typed}".rstrip()
            raise self.error("quantities.below_lowest", word=kind.word, lowest=lowest)
        if unit.kind == "count" and not si.is_integer():
            raise self.error("quantities.not_whole", wanted=self.wanted)


# As many as a share typed in full has, and no noise of its conversion.
_SHARE_DIGITS: Final = 12


def _short(text: str) -> str:
    """A text as a message repeats it."""
    return text if len(text) <= _LONGEST_ECHO else f"{text[: _LONGEST_ECHO - 1]}…"
