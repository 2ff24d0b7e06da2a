"""A plant as the rules see it: its figures, description, network and line-ups, and the three ways to look at them."""

from __future__ import annotations

import datetime
import functools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from macros.calculations.contract import OutOfRange
from macros.calculations.facts import facts
from macros.description.plant import PlantFile
from macros.description.record_file import RecordFile
from macros.figures.graph import ATMOSPHERE, FigureError, Graph, UnknownPath, Value
from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network import Network
from macros.network.lineups import Lineups
from macros.quantities import Quantity, Shown, say, shown
from macros.review.findings import Verdict

__all__ = ["CANNOT", "Look", "Reading", "Reviewed"]

CANNOT = (UnknownPath, FigureError, OutOfRange, ArithmeticError, LookupError, TypeError, ValueError)
"""What keeps a rule from being evaluated; each is a finding, never a crash and never silence."""

TEMPERATURE_SPAN_K = 20.0
"""A margin of temperature is told as a share of this, since no temperature is a share of another."""


@dataclass(frozen=True)
class Reading:
    """A number that a rule compares, with its texts and the paths that it came from."""

    si: float
    kind: str
    texts: Shown
    reads: tuple[str, ...] = ()


@dataclass(frozen=True)
class Look:
    """What one look at one place gave; the rule's own texts are put to it later."""

    where: str
    verdict: Verdict
    words: Mapping[str, str | Shown] = field(default_factory=dict)
    margin: float | None = None
    reads: tuple[str, ...] = ()
    reason: str = ""
    """Why it cannot be evaluated."""


Compared = str | Reading | Quantity
"""A path of the plant, the name of a fact as `fact:NAME`, a reading, or a quantity of the description."""


@dataclass(frozen=True, eq=False)
class Reviewed:
    """
    A plant under review.

    `given` stands in for single values, by path: a number in SI units, or none for what is not known. Tests look at a
    rule's limit with it. `described` and `record` stand in for the files where they are handed in.
    """

    plant: Plant
    today: datetime.date
    given: Mapping[str, float | None] = field(default_factory=dict)
    described: PlantFile = field(default=None)  # type: ignore[assignment]
    record: RecordFile = field(default=None)  # type: ignore[assignment]
    network: Network = field(default=None)  # type: ignore[assignment]

    def __post_init__(self) -> None:
        for name, held in (
            ("described", self.plant.description.plant),
            ("record", self.plant.description.record),
            ("network", self.plant.network),
        ):
            if getattr(self, name) is None:
                object.__setattr__(self, name, held)

    @property
    def graph(self) -> Graph:
        return self.plant.graph

    @functools.cached_property
    def lineups(self) -> Lineups:
        """The line-ups of the plant under the highest credible pressures."""
        return lineups_of(self.plant)

    def has(self, path: str) -> bool:
        """Whether the plant has a part, entry or figure of this name, or anything below it."""
        return path in self.given or self.graph.has(path)

    def reading(self, what: Compared, times: float = 1.0) -> Reading:
        """
        A number to compare, or a share of it.

        Raises
        ------
        UnknownPath, FigureError
            If the plant has not got it.
        LookupError
            If there is no such fact, or the description leaves the value open.
        """
        if isinstance(what, Reading):
            return what
        if isinstance(what, Quantity):
            return self._of(what.si, what, ())
        if what.startswith("fact:"):
            quantity = facts()[what.removeprefix("fact:")].quantity
            return self._of(quantity.si * times, quantity, (what,))
        value = self.graph[what]
        si = self.given.get(what, value.si)
        if not isinstance(si, int | float):
            raise LookupError(say("review.not_known", name=what))
        return Reading(times * si, value.kind, _texts(value, times * si), (what,))

    def _of(self, si: float, quantity: Quantity, reads: tuple[str, ...]) -> Reading:
        atmosphere_pa = float(self.graph[ATMOSPHERE].si)
        kind = "pressure" if quantity.kind in ("gauge_pressure", "absolute_pressure") else quantity.kind
        si += atmosphere_pa if quantity.kind == "gauge_pressure" else 0.0
        base = atmosphere_pa if kind == "pressure" else None
        return Reading(si, kind, shown(si, quantity.unit, 3, atmosphere_pa=base), reads)

    def at_most(
        self, where: str, value: Compared, limit: Compared, *, times: float = 1.0, **words: str | Shown
    ) -> Look:
        """Whether a value is at or below a limit, or below `times` of it."""
        return self._compared(where, value, limit, times, 1.0, words)

    def at_least(
        self, where: str, value: Compared, limit: Compared, *, times: float = 1.0, **words: str | Shown
    ) -> Look:
        """Whether a value is at or above a limit, or above `times` of it."""
        return self._compared(where, value, limit, times, -1.0, words)

    def must(
        self, where: str, holds: bool | None, *, reads: Iterable[str] = (), reason: str = "", **words: str | Shown
    ) -> Look:
        """Whether something is as it must be; none where the description does not say."""
        if holds is None:
            return Look(where, "unknown", words, reads=tuple(reads), reason=reason or say("review.not_said"))
        return Look(where, "passed" if holds else "broken", words, reads=tuple(reads))

    def _compared(
        self, where: str, value: Compared, limit: Compared, times: float, sign: float, words: Mapping[str, str | Shown]
    ) -> Look:
        named = tuple(each for each in (value, limit) if isinstance(each, str))
        try:
            found, bound = self.reading(value), self.reading(limit, times)
        except CANNOT as error:
            return Look(where, "unknown", words, reads=named, reason=str(error))
        reads = tuple(dict.fromkeys((*found.reads, *bound.reads)))
        left = sign * (bound.si - found.si)
        texts = {"value": found.texts, "limit": bound.texts, **words}
        # Written so that nothing but a number on the right side passes.
        verdict: Verdict = "passed" if left >= 0 else "broken"
        return Look(where, verdict, texts, left / self._span(bound), reads)

    def _span(self, bound: Reading) -> float:
        """What a margin is a share of: the limit above its own zero."""
        if bound.kind == "temperature":
            return TEMPERATURE_SPAN_K
        zero = float(self.graph[ATMOSPHERE].si) if bound.kind == "pressure" else 0.0
        return abs(bound.si - zero) or 1.0


def _texts(value: Value, si: float) -> Shown:
    """A value's texts, or those of a number that stands in for it."""
    return value.shown() if si == value.si else replace(value, si=si, given=False, digits=max(3, value.digits)).shown()
