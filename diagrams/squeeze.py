"""
Drawing a plan closer together: empty strips between symbols and lines shrink, everything else keeps its shape.

Both directions shrink for themselves and never change an order, so what was joined stays joined and what crossed
still crosses at the same places.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

__all__ = ["Squeeze"]


@dataclass(frozen=True)
class Squeeze:
    """A map of one direction that keeps covered stretches as they are and shortens the empty ones between them."""

    starts: tuple[float, ...]
    """Where each stretch begins, covered and empty in turn."""
    moved: tuple[float, ...]
    """Where it begins afterwards."""
    slopes: tuple[float, ...]
    length: float
    """From the beginning of the first covered stretch to the end of the last, afterwards."""

    @classmethod
    def of(cls, covered: Iterable[tuple[float, float]], keep: float) -> Squeeze:
        """The map that leaves no empty stretch longer than `keep`."""
        merged: list[list[float]] = []
        for low, high in sorted(covered):
            if merged and low <= merged[-1][1]:
                merged[-1][1] = max(merged[-1][1], high)
            else:
                merged.append([low, high])
        starts, moved, slopes = [], [], []
        here = merged[0][0]
        for number, (low, high) in enumerate(merged):
            starts.append(low)
            moved.append(here)
            slopes.append(1.0)
            here += high - low
            if number + 1 < len(merged):
                empty = merged[number + 1][0] - high
                left = min(empty, keep)
                starts.append(high)
                moved.append(here)
                slopes.append(left / empty)
                here += left
        return cls(tuple(starts), tuple(moved), tuple(slopes), here - merged[0][0])

    def __call__(self, value: float) -> float:
        """Where a place comes to lie."""
        at = max(bisect_right(self.starts, value) - 1, 0)
        return self.moved[at] + (value - self.starts[at]) * self.slopes[at]
