"""Values as people read them: significant digits, limits rounded to the safe side, three systems of units."""

from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from math import floor, isfinite, log10
from typing import Final, Literal

from macros.quantities.errors import QuantityError
from macros.quantities.messages import say
from macros.quantities.units import Unit, unit

Rounding = Literal["nearest", "up", "down"]

NO_BREAK_SPACE: Final = "\u00a0"
GROUP_MARK: Final = "\u202f"
MINUS: Final = "−"

_MODES: Final = {"nearest": ROUND_HALF_EVEN, "up": ROUND_CEILING, "down": ROUND_FLOOR}

# A float carries sixteen digits and loses a few of them in conversions; what lies beyond these is not taken for
# part of the value, or 26 bar(g) rounded down would read 25.9.
_TRUE_DIGITS: Final = 12

# Beyond these powers of ten a plain number has more zeros than a reader counts.
_PLAIN_FROM: Final = -5
_PLAIN_TO: Final = 8


@dataclass(frozen=True, slots=True)
class Shown:
    """One value as readers of each system of units see it."""

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
    A value with its unit, ``6.63 NL/min``, a no-break space between.

    Parameters
    ----------
    si : float
        The value in the SI unit of the kind.
    unit_shown : str or Unit
        The unit to show it in.
    digits : int
        Significant digits, trailing zeros included.
    rounding : str
        ``up`` or ``down`` for a limit whose safe side lies there: what is shown is never on the other side.
    atmosphere_pa : float, optional
        With a unit of gauge pressure: the value is absolute, and this is the atmosphere to take off.
    decimals : int, optional
        Digits after the point, in place of significant digits; negative for tens and hundreds.
    uncertainty : float, optional
        In the SI unit; digits finer than its first one are left out.

    Raises
    ------
    QuantityError
        If the value is no finite number.
    """
    target = unit_shown if isinstance(unit_shown, Unit) else unit(unit_shown)
    return _text(_Value(si, target, atmosphere_pa), target, digits, rounding, decimals, uncertainty)


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
    A value in all three systems of units, each rounded from the exact value; arguments as of :func:`show`.

    Digits are those of ``unit_shown``; where scales begin at different points, or ``decimals`` are given, the other systems
    show the place that is worth as much.
    """
    own = unit_shown if isinstance(unit_shown, Unit) else unit(unit_shown)
    value = _Value(si, own, atmosphere_pa)

    def text(system: Literal["workshop", "si", "us"]) -> str:
        target = own.partner(system, value.si)
        places = decimals
        if target.offset != own.offset and places is None:
            places = -_place(value.in_unit(own), digits)
        if places is not None and target != own:
            places -= floor(log10(own.factor / target.factor) + 1e-9)
        return _text(value, target, digits, rounding, places, uncertainty)

    return Shown(text("workshop"), text("si"), text("us"))


class _Value:
    """A value freed of the noise that floats carry."""

    def __init__(self, si: float, target: Unit, atmosphere_pa: float | None) -> None:
        if not isfinite(si) or (atmosphere_pa is not None and not isfinite(atmosphere_pa)):
            raise QuantityError(say("quantities.not_shown", value=si, unit=target.symbol), str(si))
        taken_off = atmosphere_pa if atmosphere_pa is not None and target.kind == "gauge_pressure" else 0.0
        self.si = si - taken_off
        self._largest = max(abs(si), abs(taken_off))

    def in_unit(self, target: Unit) -> Decimal:
        """The value in a unit, to the last digit that is more than noise."""
        value = Decimal(target.from_si(self.si))
        scale = max(self._largest / target.factor, abs(target.offset))
        if not scale:
            return Decimal(0)
        return value.quantize(Decimal(1).scaleb(floor(log10(scale)) - _TRUE_DIGITS), ROUND_HALF_EVEN)


def _place(value: Decimal, digits: int) -> int:
    """The power of ten of the last of so many significant digits."""
    return value.adjusted() - digits + 1 if value else 0


def _text(
    value: _Value, target: Unit, digits: int, rounding: Rounding, decimals: int | None, uncertainty: float | None
) -> str:
    exact = value.in_unit(target)
    if decimals is None and target.kind == "count":
        decimals = 0
    place = _place(exact, digits) if decimals is None else -decimals
    if uncertainty:
        coarsest = max(exact.adjusted(), place) if exact else place
        place = max(place, min(floor(log10(uncertainty / target.factor)), coarsest))
    rounded = exact.quantize(Decimal(1).scaleb(place), _MODES[rounding])
    if decimals is None and not uncertainty and rounded and rounded.adjusted() > exact.adjusted():
        # 9.996 to three digits is 10.0, not 10.00.
        rounded = rounded.quantize(Decimal(1).scaleb(place + 1), _MODES[rounding])
    number = _number(rounded)
    return f"{number}{NO_BREAK_SPACE}{target.symbol}" if target.typed else number


def _number(value: Decimal) -> str:
    """A rounded number as text."""
    sign = MINUS if value < 0 else ""
    size = abs(value)
    if size and not _PLAIN_FROM <= size.adjusted() <= _PLAIN_TO:
        power = size.adjusted()
        exponent = str(power).translate(_RAISED)
        return f"{sign}{size.scaleb(-power):f}{NO_BREAK_SPACE}×{NO_BREAK_SPACE}10{exponent}"
    whole, point, rest = f"{size:f}".partition(".")
    if len(whole) > 4:
        whole = f"{int(whole):,}".replace(",", GROUP_MARK)
    return f"{sign}{whole}{point}{rest}"


_RAISED: Final = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
