"""Arguments drawn from the bounds that a calculation declares, edges forced."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st

from macros.calculations.contract import CALCULATIONS, Bounds, Calculation, OutOfRange

FAR = 1e9
"""Stands for a bound that is open upwards."""


def entry_of(calculation: Callable[..., Any]) -> Calculation:
    """The registry's entry of a calculation."""
    return CALCULATIONS[f"{calculation.__module__.rsplit('.', 1)[-1]}.{calculation.__name__}"]


def edges_of(bounds: Bounds) -> list[float]:
    """The lowest and the highest value that a bound lets through."""
    low = max(bounds.low, -FAR)
    return [math.nextafter(low, math.inf) if bounds.open_low else low, min(bounds.high, FAR)]


def within(bounds: Bounds) -> st.SearchStrategy[Any]:
    """Values inside a bound, its edges among them; small ones as likely as large ones."""
    if bounds.curve:
        return curves()
    low, high = edges_of(bounds)
    if low >= 0 and high > 1e3 * max(low, 1e-12):
        # Drawn evenly, a range over many decades is nearly always at its top: a plant is not.
        start = math.log(max(low, high * 1e-12))
        span = math.log(high) - start
        return st.floats(0.0, 1.0).map(lambda share: _between(share, low, high, math.exp(start + share * span)))
    return st.floats(0.0, 1.0).map(lambda share: _between(share, low, high, low + share * (high - low)))


def _between(share: float, low: float, high: float, value: float) -> float:
    """The value drawn; its edges are met exactly, since a share of 0 or 1 is what hypothesis tries first."""
    return low if share == 0.0 else high if share == 1.0 else min(max(value, low), high)


@st.composite
def curves(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Measured points, both rising, as a polarisation curve has them."""
    steps = draw(st.lists(st.tuples(st.floats(1.0, 5e3), st.floats(0.0, 0.5)), min_size=2, max_size=8))
    x, y = draw(st.floats(1.0, 1e3)), draw(st.floats(1.2, 1.6))
    points = []
    for along, up in steps:
        points.append((x, y))
        x, y = x + along, y + up
    return tuple(points)


def arguments_of(calculation: Callable[..., Any]) -> st.SearchStrategy[dict[str, Any]]:
    """All arguments of a calculation, each inside its bounds."""
    return st.fixed_dictionaries({name: within(bound) for name, bound in entry_of(calculation).bounds.items()})


def outside(bounds: Bounds) -> list[float]:
    """Values that a bound must refuse: just outside its edges, no number, no end."""
    refused = [math.nan, math.inf, -math.inf]
    if bounds.low > -math.inf:
        refused.append(bounds.low if bounds.open_low else math.nextafter(bounds.low, -math.inf))
    if bounds.high < math.inf:
        refused.append(math.nextafter(bounds.high, math.inf))
    return refused


def is_finite_or_refused(calculation: Callable[..., Any], arguments: dict[str, Any]) -> bool:
    """Whether a calculation gives a finite number or says that it cannot."""
    try:
        return math.isfinite(calculation(**arguments))
    except OutOfRange:
        return True


def names_of(calculation: Callable[..., Any]) -> list[str]:
    """The arguments of a calculation in their order."""
    return list(inspect.signature(calculation).parameters)
