"""Values as people read them: significant digits, limits rounded to the safe side, three systems of units."""

from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal
from functools import cache
from math import floor, isfinite, log10
from typing import Final, Literal

from macros.quantities.errors import QuantityError
from macros.quantities.languages import decimal_mark
from macros.quantities.messages import say
from macros.quantities.spellings import unit
from macros.quantities.units import Unit

Rounding = Literal["nearest", "up", "down"]
System = Literal["workshop", "si", "us"]

NO_BREAK_SPACE: Final = "\u00a0"
GROUP_MARK: Final = "\u202f"
# The true minus: screen readers speak it, while many pass over a hyphen.
MINUS: Final = "\u2212"
RAISED: Final = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")

# A float carries sixteen digits and loses some in conversions. What lies beyond these is noise and no part of the
# value, or 26 bar(g) rounded down would read 25.9.
TRUE_DIGITS: Final = 12

# From here to there a number stands without a power of ten.
_PLAIN: Final = range(-5, 9)

_MODES: Final = {"nearest": ROUND_HALF_EVEN, "up": ROUND_CEILING, "down": ROUND_FLOOR}

# Enough for the longest float written out.
_EXACT: Final = Context(prec=700)


@dataclass(frozen=True, slots=True)
class Shown:
    """One value as the readers of each system of units see it."""

    workshop: str
    si: str
    us: str


def show(
    si: float,
    unit_shown: str | Unit,
    digits: int = 3,
    *,
    rounding: Rounding = "nearest",
    atmosphere_pa: float | None = None,
    decimals: int | None = None,
    uncertainty: float | None = None,
) -> str:
    """
    A value with its unit, `6.63 NL/min`, a no-break space between.

    Parameters
    ----------
    si : float
        The value in the SI unit of the kind.
    unit_shown : str or Unit
        The unit to show it in. Where kinds share a text (`K`, none at all), `unit(text, kind)` says which is meant.
    digits : int
        Significant digits, trailing zeros included.
    rounding : str
        `up` or `down` for a limit whose safe side lies there: what is shown never lies on the other.
    atmosphere_pa : float, optional
        With a unit of gauge pressure: the value is absolute, and this is taken off.
    decimals : int, optional
        Digits after the point in place of significant digits; negative for tens and hundreds.
    uncertainty : float, optional
        In the SI unit. Digits finer than its first one are left out.

    Raises
    ------
    QuantityError
        If the unit is unknown, the value no finite number, or the digits more than a float holds.
    """
    target = _as_unit(unit_shown)
    value = _value(si, target, atmosphere_pa)
    if not 1 <= digits <= TRUE_DIGITS:
        raise QuantityError(say("quantities.digits", digits=digits, most=TRUE_DIGITS), str(digits))
    if decimals is None and target.kind == "count":
        decimals = 0
    place = -decimals if decimals is not None else _place(value, digits)
    if uncertainty:
        place = max(place, min(_place_of_first(_finite(uncertainty, target) / target.factor), _place(value, 1)))
    rounded = _rounded(value, place, rounding)
    if decimals is None and place == _place(value, digits) and rounded.adjusted() > value.adjusted():
        # 9.996 to three digits is 10.0, not 10.00.
        rounded = _rounded(rounded, place + 1, rounding)
    return f"{_number(rounded)}{NO_BREAK_SPACE}{target.symbol}" if target.symbol else _number(rounded)


def shown(
    si: float,
    unit_shown: str | Unit,
    digits: int = 3,
    *,
    rounding: Rounding = "nearest",
    atmosphere_pa: float | None = None,
    decimals: int | None = None,
    uncertainty: float | None = None,
) -> Shown:
    """
    A value in all three systems of units, each rounded from the exact value; arguments as of `show`.

    Each system shows as many significant digits. Where `decimals` are given, or the zeros of two scales differ, it
    shows those down to the place that is worth most nearly as much: 60 °C is 333 K and 140 °F.
    """
    own = _as_unit(unit_shown)
    value = _value(si, own, atmosphere_pa)

    def text(system: System) -> str:
        target = _partner(own, system, own.to_si(float(value)))
        places = decimals
        if places is None and target.offset != own.offset:
            places = -_place(value, digits)
        if places is not None:
            places -= round(log10(own.factor / target.factor))
        return show(
            si,
            target,
            digits,
            rounding=rounding,
            atmosphere_pa=atmosphere_pa,
            decimals=places,
            uncertainty=uncertainty,
        )

    return Shown(text("workshop"), text("si"), text("us"))


def _as_unit(either: str | Unit) -> Unit:
    return either if isinstance(either, Unit) else unit(either)


def _partner(own: Unit, system: System, si: float) -> Unit:
    """As which unit the readers of a system see a value: the largest of those listed that leaves at least 1."""
    units = [unit(typed, own.kind) for typed in getattr(own, system)] or [own]
    return next((each for each in reversed(units) if abs(each.from_si(si)) >= 1), units[0])


def _value(si: float, target: Unit, atmosphere_pa: float | None) -> Decimal:
    """The value in a unit, down to the last digit that is more than noise."""
    taken_off = atmosphere_pa if atmosphere_pa is not None and target.kind == "gauge_pressure" else 0.0
    si = float(si)
    value = _finite(target.from_si(si - taken_off), target)
    # A difference of two large numbers is as noisy as they are.
    largest = max(abs(value), abs(si) / target.factor, abs(taken_off) / target.factor, abs(target.offset))
    if not largest:
        return Decimal(0)
    return _rounded(Decimal(value), _place_of_first(largest) - TRUE_DIGITS, "nearest")


def _finite(value: float, target: Unit) -> float:
    if not isfinite(value):
        raise QuantityError(say("quantities.not_shown", value=value, unit=target.symbol), str(value))
    return value


def _place(value: Decimal, digits: int) -> int:
    """The power of ten at which so many significant digits end; a zero has none but itself."""
    return value.adjusted() - digits + 1 if value else 0


def _place_of_first(value: float) -> int:
    """The power of ten of the first digit."""
    return floor(log10(value) + 1e-9)


def _rounded(value: Decimal, place: int, rounding: Rounding) -> Decimal:
    return value.quantize(_one_at(place), _MODES[rounding], _EXACT)


@cache
def _one_at(place: int) -> Decimal:
    return Decimal(1).scaleb(place)


def _number(value: Decimal) -> str:
    """A rounded number as text, without the sign of a zero."""
    sign = MINUS if value < 0 else ""
    size = abs(value)
    power = size.adjusted()
    if size and power not in _PLAIN:
        mantissa = f"{size.scaleb(-power):f}".replace(".", decimal_mark())
        return f"{sign}{mantissa}{NO_BREAK_SPACE}×{NO_BREAK_SPACE}10{str(power).translate(RAISED)}"
    whole, point, rest = f"{size:f}".partition(".")
    if len(whole) > 4:
        whole = f"{int(whole):,}".replace(",", GROUP_MARK)
    return f"{sign}{whole}{point and decimal_mark()}{rest}"
