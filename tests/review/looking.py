"""Looking at one rule of the review: a plant of the handbook, single values handed in."""

from __future__ import annotations

import datetime
import functools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from macros.figures.plant import Plant
from macros.review import RULES, Finding
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of

__all__ = ["TODAY", "Limit", "found", "plant_named"]

DESIGNS = Path(__file__).parents[2] / "docs" / "designs"
TODAY = datetime.date(2026, 11, 25)


@functools.cache
def plant_named(name: str) -> Plant:
    """A plant of the handbook, loaded once for all tests."""
    return Plant.load(DESIGNS / name)


def found(rule: str, plant: str, given: Mapping[str, float | None] | None = None, **handed_in: Any) -> list[Finding]:
    """What a rule finds in a plant with other values, or with other files handed in."""
    return list(findings_of(RULES[rule], Reviewed(plant_named(plant), TODAY, given or {}, **handed_in)))


@dataclass(frozen=True)
class Limit:
    """A rule that holds one value against a limit, to be looked at below, on and above it, and without the value."""

    rule: str
    plant: str
    where: str
    value: str
    """Path of the value that is moved."""
    limit: float
    """In SI units, pressures absolute: the last value that is still allowed."""
    allowed: str = "below"
    """Side of the limit that is allowed, "below" or "above"."""

    def verdict(self, value: float | None) -> str:
        """The verdict at the place with a value."""
        findings = [each for each in found(self.rule, self.plant, {self.value: value}) if each.where == self.where]
        assert len(findings) == 1, f"{self.rule} looks at {self.where} {len(findings)} times"
        return findings[0].verdict

    @property
    def cases(self) -> dict[str, tuple[float | None, str]]:
        """A value and the verdict that it must get, by name."""
        inside, outside = (-math.inf, math.inf) if self.allowed == "below" else (math.inf, -math.inf)
        return {
            "inside": (math.nextafter(self.limit, inside), "passed"),
            "on it": (self.limit, "passed"),
            "outside": (math.nextafter(self.limit, outside), "broken"),
            "no number": (math.nan, "unknown"),
            "not known": (None, "unknown"),
        }
