"""
The grammar of a quantity: `26 bar(g)`, `1.95 ± 0.03 V`, `-8 °C`, `1.5e-14 mol/(m s Pa)`.

.. code-block:: text

    quantity = number [ ("±" | "+/-") number ] unit
    number   = [sign] digits ["." digits] [("e" | "E") [sign] digits]
"""

import re
from dataclasses import dataclass
from math import isfinite
from typing import Final, NoReturn

from macros.quantities.errors import QuantityError
from macros.quantities.kinds import KINDS, kinds_named
from macros.quantities.messages import say
from macros.quantities.showing import GROUP_MARK, MINUS, NO_BREAK_SPACE, show
from macros.quantities.units import Unit, nearest, unit, units_of, units_spelled, wanted


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its kind, as an author wrote it and as we keep it."""

    kind: str
    si: float
    """In the SI unit of the kind; a gauge pressure stays one."""
    unit: str
    """As typed in the table, whatever the spelling read."""
    text: str
    uncertainty: float | None = None
    """Half the width of `±`, in the SI unit."""


_DIGITS: Final = r"[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?"
_QUANTITY: Final = re.compile(
    rf"(?P<number>[+-]?{_DIGITS})(?:\s*(?:±|\+/-)\s*(?P<uncertainty>{_DIGITS}))?\s*(?P<unit>.*)"
)
_NOT_FINITE: Final = re.compile(r"[+-]?\s*(nan|inf|infinity)\b", re.IGNORECASE)
_GROUPED: Final = re.compile(rf"(?<![0-9{GROUP_MARK}.])[0-9]{{1,3}}(?:{GROUP_MARK}[0-9]{{3}})+(?![0-9{GROUP_MARK}])")
_POWER: Final = re.compile(r" × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)")
_LOWERED: Final = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
_NUMBER_LIKE: Final = re.compile(r"[0-9.,'’ \u202f_]*[0-9]")


def read(text: str, kind: str | None = None) -> Quantity:
    """
    The quantity that a text says.

    Parameters
    ----------
    text : str
        What an author typed, or what :func:`show` wrote.
    kind : str, optional
        The kind wanted, or a name such as `pressure` that leaves several open. Without it any kind is taken.

    Raises
    ------
    QuantityError
        If the text is no quantity of that kind; its message says what to write.
    """
    return _Reader(text, kind).quantity()


def parse_shown(text: str, kind: str | None = None) -> Quantity:
    """The quantity that :func:`show` wrote; a plain number is a ratio unless a kind is named."""
    plain = kind is None and re.fullmatch(rf"[+-]?{_DIGITS}", _plain(text))
    return read(text, "ratio" if plain else kind)


def _plain(text: str) -> str:
    """The text as it would be typed: what showing set in finer type is made plain."""
    text = _GROUPED.sub(lambda number: number[0].replace(GROUP_MARK, ""), text)
    text = text.replace(NO_BREAK_SPACE, " ").replace(MINUS, "-").strip()
    return _POWER.sub(lambda power: f"e{power[1].translate(_LOWERED)}", text)


class _Reader:
    """Reads one text; keeps it for the messages."""

    def __init__(self, text: str, kind: str | None) -> None:
        self.text = text.strip()
        self.kind = kind
        self.wanted = wanted(kind)

    def refuse(self, key: str, **values: object) -> NoReturn:
        raise QuantityError(say(key, found=self.text, **values), self.text, self.wanted)

    def quantity(self) -> Quantity:
        plain = _plain(self.text)
        if any(each.isdecimal() and not each.isascii() for each in plain):
            self.refuse("quantities.digits_not_ascii")
        if _NOT_FINITE.match(plain):
            self.refuse("quantities.not_finite", wanted=self.wanted)
        parts = _QUANTITY.fullmatch(plain)
        if parts is None or parts["unit"][:1] in {*"0123456789.,'’_", GROUP_MARK} - {""}:
            self.refuse_number(plain)
        if "±" in parts["unit"] or "+/-" in parts["unit"]:
            self.refuse("quantities.number_malformed", wanted=self.wanted)
        number = float(parts["number"])
        spread = None if parts["uncertainty"] is None else float(parts["uncertainty"])
        if not isfinite(number) or (spread is not None and not isfinite(spread)):
            self.refuse("quantities.not_finite", wanted=self.wanted)
        found = self.unit(parts["unit"])
        quantity = Quantity(
            found.kind,
            found.to_si(number),
            found.typed,
            self.text,
            None if spread is None else spread * found.factor,
        )
        self.check(quantity, found)
        return quantity

    def refuse_number(self, plain: str) -> NoReturn:
        like = _NUMBER_LIKE.match(plain.lstrip("+-"))
        if like is None:
            self.refuse("quantities.no_number", wanted=self.wanted)
        digits = like[0]
        if "," in digits:
            whole, _, rest = digits.rpartition(",")
            decimal = f"{re.sub('[^0-9]', '', whole)}.{rest}"
            self.refuse("quantities.comma", instead=say("quantities.or").join((decimal, re.sub("[^0-9.]", "", digits))))
        joined = re.sub("[^0-9.]", "", digits)
        if joined != digits and re.fullmatch(_DIGITS, joined):
            self.refuse("quantities.separator", instead=joined)
        self.refuse("quantities.number_malformed", wanted=self.wanted)

    def unit(self, text: str) -> Unit:
        candidates = units_spelled(text)
        if self.kind is None:
            if not text:
                self.refuse("quantities.missing_unit", wanted=self.wanted)
        else:
            names = {each.name for each in kinds_named(self.kind)}
            fitting = [each for each in candidates if each.kind in names]
            if fitting:
                return fitting[0]
            if not text:
                self.refuse("quantities.missing_unit", wanted=self.wanted)
            if unit_less := not any(each.typed for each in units_of(self.kind)):
                self.refuse("quantities.no_unit_wanted", wanted=self.wanted)
            del unit_less
        if not candidates:
            self.refuse("quantities.unknown_unit_found", unit=text, nearest=nearest(text, self.kind))
        if self.kind is not None:
            self.refuse_kind(candidates[0], text)
        return candidates[0]

    def refuse_kind(self, found: Unit, typed: str) -> NoReturn:
        """Say of which kind it is, and what the author most likely left out."""
        number = self.text.removesuffix(typed).strip()
        possible = {each.typed for each in units_of(self.kind or "")}

        def instead(*units: str) -> str:
            return say("quantities.or").join(f"{number} {each}" for each in units if each in possible)

        for key, marked in (
            ("quantities.gauge_or_absolute", instead(f"{found.typed}(g)", f"{found.typed}(a)")),
            ("quantities.lower_or_higher", instead(f"{found.typed}(lower)", f"{found.typed}(higher)")),
            ("quantities.actual_or_normal", instead(f"N{found.typed}", f"{found.typed}(free)")),
        ):
            if marked:
                self.refuse(key, instead=marked)
        if self.kind == "temperature_difference" and found.kind == "temperature":
            self.refuse("quantities.difference", instead=f"{number} {'Δ°F' if found.typed == '°F' else 'K'}")
        self.refuse("quantities.wrong_kind", is_=KINDS[found.kind].word, wanted=self.wanted)

    def check(self, quantity: Quantity, found: Unit) -> None:
        """Refuse what no state of matter has."""
        kind = KINDS[quantity.kind]
        if not isfinite(quantity.si):
            self.refuse("quantities.not_finite", wanted=self.wanted)
        if kind.lowest is not None and quantity.si < kind.lowest:
            self.refuse("quantities.below_lowest", word=kind.word, lowest=show(kind.lowest, found, digits=5))
        if quantity.kind == "count" and not quantity.si.is_integer():
            self.refuse("quantities.not_whole", wanted=self.wanted)


__all__ = ["Quantity", "parse_shown", "read", "unit"]
