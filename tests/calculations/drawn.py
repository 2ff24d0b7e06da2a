"""Arguments drawn from the bounds that a calculation declares, edges forced."""

from __future__ import annotations

import inspect
import math
import random
from collections.abc import Callable, Iterator
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
    return st.floats(0.0, 1.0).map(lambda share: _at(bounds, share))


def _at(bounds: Bounds, share: float) -> float:
    """The value at a share of the way through a bound; its edges are met exactly."""
    low, high = edges_of(bounds)
    if share in (0.0, 1.0):
        return high if share else low
    if low >= 0 and high > 1e3 * max(low, 1e-12):
        # Drawn evenly, a range over many decades is nearly always at its top: a plant is not.
        start = math.log(max(low, high * 1e-12))
        return min(max(math.exp(start + share * (math.log(high) - start)), low), high)
    return min(max(low + share * (high - low), low), high)


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


def drawn_for(calculation: Callable[..., Any], number: int) -> Iterator[dict[str, Any]]:
    """
    So many times all arguments of a calculation, each inside its bounds; the same every time.

    For what is asked of every calculation: plain chance does it at a tenth of the cost of a search. The edges come first,
    all low, all high, then each alone, and a tenth of all values drawn are edges.
    """
    chance = random.Random(calculation.__name__)
    bounds = entry_of(calculation).bounds
    shares = [dict.fromkeys(bounds, 0.0), dict.fromkeys(bounds, 1.0)]
    shares += [dict.fromkeys(bounds, 0.5) | {name: edge} for name in bounds for edge in (0.0, 1.0)]
    for count in range(number):
        at = shares[count] if count < len(shares) else {name: _share(chance) for name in bounds}
        yield {name: _curve(chance) if bound.curve else _at(bound, at[name]) for name, bound in bounds.items()}


def _share(chance: random.Random) -> float:
    return chance.choice((0.0, 1.0)) if chance.random() < 0.1 else chance.random()


def _curve(chance: random.Random) -> tuple[tuple[float, float], ...]:
    """As `curves`; a step up may be none."""
    x, y = chance.uniform(1.0, 1e3), chance.uniform(1.2, 1.6)
    points = []
    for _ in range(chance.randint(2, 8)):
        points.append((x, y))
        x, y = x + math.exp(chance.uniform(0.0, math.log(5e3))), y + chance.choice((0.0, chance.uniform(0.0, 0.5)))
    return tuple(points)


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
