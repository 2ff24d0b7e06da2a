"""The axes of a plot: where their ticks stand and what is written at them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from diagrams.errors import DrawingError
from diagrams.items import Text

__all__ = ["Axis", "Ticks", "ticks_of"]

Ticks = list[tuple[float, Text]]

Says = Callable[[Sequence[float], int], Sequence[Text]]
"""What is written at ticks: from their places and the digits after the point that tell them apart."""


@dataclass(frozen=True)
class Axis:
    """
    What runs along one side: its name with the unit, where it begins and ends, and its ticks if not even ones.

    A logarithmic one has its ticks at powers of ten. Without `says` the places of the ticks are written as they are.
    """

    label: Text
    low: float | None = None
    high: float | None = None
    ticks: tuple[tuple[float, Text], ...] = ()
    logarithmic: bool = False
    says: Says | None = None


def ticks_of(axis: Axis, values: Sequence[float], about: int = 6) -> Ticks:
    """The ticks handed in, or even ones at 1, 2 or 5 times a power of ten that enclose all values."""
    low = min(values) if axis.low is None else axis.low
    high = max(values) if axis.high is None else axis.high
    if low > min(values) or high < max(values):
        raise DrawingError(f"axis {axis.label.workshop} ends at {low:g} and {high:g}, but its values go beyond")
    if axis.ticks:
        places = [place for place, _ in axis.ticks]
        if min(places) > low or max(places) < high or len(places) < 2:
            raise DrawingError(f"the ticks of axis {axis.label.workshop} must enclose {low:g} to {high:g}")
        return sorted(axis.ticks, key=lambda tick: tick[0])
    places, decimals = _decades(axis, low, high) if axis.logarithmic else _even(low, high, about)
    says = axis.says or _as_they_are
    return list(zip(places, says(places, decimals), strict=True))


def _even(low: float, high: float, about: int) -> tuple[list[float], int]:
    if high == low:
        low, high = low - max(abs(low), 1) / 2, high + max(abs(high), 1) / 2
    rough = (high - low) / about
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * factor for factor in (1, 2, 5, 10) if power * factor >= rough * 0.999)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    return [index * step for index in range(first, last + 1)], decimals


def _decades(axis: Axis, low: float, high: float) -> tuple[list[float], int]:
    if low <= 0:
        raise DrawingError(f"axis {axis.label.workshop} is logarithmic and has no place for {low:g}")
    first, last = math.floor(math.log10(low) + 1e-9), math.ceil(math.log10(high) - 1e-9)
    last = max(last, first + 1)
    return [10.0**power for power in range(first, last + 1)], max(0, -first)


def _as_they_are(places: Sequence[float], decimals: int) -> list[Text]:
    return [Text(f"{place:.{decimals}f}".replace("-", "−")) for place in places]
