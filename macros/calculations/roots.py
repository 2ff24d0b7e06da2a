"""Where a continuous function passes through zero; plain floats, no trace."""

from collections.abc import Callable

__all__ = ["root_between"]


def root_between(function: Callable[[float], float], low: float, high: float, tolerance: float = 1e-12) -> float:
    """
    Root of a function whose values at both ends differ in sign.

    False position with the Illinois rule, and halving wherever that stops gaining, so that it always ends.

    Parameters
    ----------
    function : callable
    low, high : float
        Ends of the bracket.
    tolerance : float
        Width of the last bracket over the larger end.

    Raises
    ------
    ValueError
        If both ends have the same sign, or one of them is NaN.
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0:
        return low
    if at_high == 0:
        return high
    if not (at_low < 0 < at_high or at_high < 0 < at_low):
        raise ValueError(f"no change of sign between {low!r} ({at_low!r}) and {high!r} ({at_high!r})")
    weight_low = weight_high = 1.0
    for turn in range(200):
        width = high - low
        if abs(width) <= tolerance * max(abs(low), abs(high)):
            break
        if turn % 3 == 2:
            middle = low + width / 2
        else:
            low_part, high_part = at_low * weight_low, at_high * weight_high
            middle = low + width * low_part / (low_part - high_part)
        value = function(middle)
        if value == 0:
            return middle
        if (value > 0) == (at_low > 0):
            low, at_low, weight_low, weight_high = middle, value, 1.0, weight_high / 2
        else:
            high, at_high, weight_high, weight_low = middle, value, 1.0, weight_low / 2
    return low if abs(at_low) < abs(at_high) else high
