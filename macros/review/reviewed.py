"""A plant as the rules see it: its figures, description, network and line-ups, and the three ways to look at them."""

from __future__ import annotations

import datetime
import functools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from macros.calculations.contract import OutOfRange
from macros.calculations.facts import facts
from macros.description.item_kinds import HYDROGEN
from macros.description.plant import PlantFile
from macros.description.procedures_file import ProceduresFile
from macros.description.record_file import RecordFile
from macros.description.references import references
from macros.figures.graph import ATMOSPHERE, FigureError, Graph, UnknownPath, Value
from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network import Network
from macros.network.lineups import Lineups
from macros.network.network import Item
from macros.network.piping import Piping
from macros.network.pressures import Pressures
from macros.network.proofs import Failed
from macros.quantities import Quantity, Shown, read, say, shown
from macros.quantities.languages import cached_as_spoken
from macros.review.findings import Verdict

__all__ = ["CANNOT", "FailedAt", "Look", "Reading", "Reviewed", "failed_at"]

CANNOT = (UnknownPath, FigureError, OutOfRange, ArithmeticError, LookupError, TypeError, ValueError)
"""What keeps a rule from being evaluated; each is a finding, never a crash and never silence."""

TEMPERATURE_SPAN_K = 20.0
"""A margin of temperature is told as a share of this, since no temperature is a share of another."""


@dataclass(frozen=True)
class Reading:
    """A number that a rule compares, how its texts are written, and the paths that it came from."""

    si: float
    kind: str
    write: Callable[[], Shown]
    reads: tuple[str, ...] = ()

    @functools.cached_property
    def texts(self) -> Shown:
        """Its texts; most numbers are only compared, and never written."""
        return self.write()


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


FailedAt = tuple[str, int, Failed]
"""A failed proof: its place in words, the step or 0, and what was found."""

Compared = str | tuple[str, ...] | Reading | Quantity | Callable[[], Reading]
"""
A path of the plant, paths to add up, the name of a fact as `fact:NAME`, a reading, a quantity of the description, or
what makes a reading of several: it is asked for when it is compared, so that what it lacks is unknown at its place only.
"""


@dataclass(frozen=True, eq=False)
class Reviewed:
    """
    A plant under review.

    `given` stands in for single values, by path: a number in SI units, or none for what is not known. Tests look at a
    rule's limit with it. The files, and what the proofs of line-ups find wrong, stand in where they are handed in.
    """

    plant: Plant
    today: datetime.date
    given: Mapping[str, float | None] = field(default_factory=dict)
    described: PlantFile = field(default=None)  # type: ignore[assignment]
    record: RecordFile = field(default=None)  # type: ignore[assignment]
    network: Network = field(default=None)  # type: ignore[assignment]
    procedures: ProceduresFile = field(default=None)  # type: ignore[assignment]
    failed: tuple[FailedAt, ...] | None = None

    def __post_init__(self) -> None:
        for name, held in (
            ("described", self.plant.description.plant),
            ("record", self.plant.description.record),
            ("network", self.plant.network),
            ("procedures", self.plant.description.procedures),
        ):
            if getattr(self, name) is None:
                object.__setattr__(self, name, held)

    @property
    def graph(self) -> Graph:
        return self.plant.graph

    @functools.cached_property
    def lineups(self) -> Lineups:
        """The line-ups of the plant under the highest credible pressures."""
        return _lineups(self.plant)

    @property
    def failed_proofs(self) -> tuple[FailedAt, ...]:
        """Everything that the proofs of line-ups find wrong."""
        return failed_at(self.plant) if self.failed is None else self.failed

    def has(self, path: str) -> bool:
        """Whether the plant has a part, entry or figure of this name, or anything below it."""
        return path in self.given or self.graph.has(path)

    def items(self, *kinds: str) -> Iterator[tuple[str, Item]]:
        """The items of some kinds with their tags, in the order of the description."""
        return ((tag, item) for tag, item in self.network.items.items() if item.kind.name in kinds)

    @functools.cached_property
    def hydrogen_sections(self) -> Mapping[str, str]:
        """The sections that hold hydrogen, each with the place where it would leak."""
        return {name: section.room for name, section in self.network.sections.items() if section.medium in HYDROGEN}

    def holds_hydrogen(self, tag: str) -> bool:
        """Whether an item belongs to a section that holds hydrogen."""
        return self.network.section_of(tag) in self.hydrogen_sections

    @functools.cached_property
    def piping(self) -> Piping:
        """The network drawn together, for what is joined to what; no pressures are handed to it."""
        return Piping(self.network, Pressures(float(self.graph[ATMOSPHERE].si)))

    def reading(self, what: Compared, times: float = 1.0) -> Reading:
        """
        A number to compare, or a share of it; of a pressure the share of what a gauge shows.

        A text of the description is read as the quantity that stands in it, or followed where it refers to another.

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
            return self._of(what, (), times)
        if isinstance(what, tuple):
            return self._sum(what, times)
        if not isinstance(what, str):
            return what()
        if what.startswith("fact:"):
            return self._of(facts()[what.removeprefix("fact:")].quantity, (what,), times)
        value = self.graph[what]
        text = value.si if isinstance(value.si, str) else ""
        if text and not references(text):
            return self._of(read(text), (what,), times, self._si(what, self._absolute(read(text))))
        if text:
            value = self.graph[references(text)[0].name]
        si = self._share(value.kind, self._si(what, self._si(value.name, value.si)), times)
        return Reading(si, value.kind, lambda: _texts(value, si), (what,))

    def _sum(self, paths: tuple[str, ...], times: float) -> Reading:
        """Several values of one kind added up, shown as the first of them."""
        si = times * sum(self.reading(path).si for path in paths)
        value = self.graph[paths[0]]
        return Reading(si, value.kind, lambda: _texts(value, si), paths)

    def made(self, like: Reading, si: float, *of: Reading) -> Reading:
        """A number made of others, shown as one of them that the plant has by a path."""
        value = self.graph[like.reads[0]]
        return Reading(si, like.kind, lambda: _texts(value, si), tuple(path for each in of for path in each.reads))

    def _si(self, path: str, held: object) -> float:
        """The number of a path, unless another stands in for it."""
        si = self.given.get(path, held)
        if not isinstance(si, int | float) or math.isnan(si):
            raise LookupError(say("review.not_known", name=path))
        return si

    def _absolute(self, quantity: Quantity) -> float:
        return quantity.si + (float(self.graph[ATMOSPHERE].si) if quantity.kind == "gauge_pressure" else 0.0)

    def _share(self, kind: str, si: float, times: float) -> float:
        zero = float(self.graph[ATMOSPHERE].si) if kind == "pressure" and times != 1.0 else 0.0
        return zero + times * (si - zero)

    def _of(self, quantity: Quantity, reads: tuple[str, ...], times: float, si: float | None = None) -> Reading:
        kind = "pressure" if quantity.kind in ("gauge_pressure", "absolute_pressure") else quantity.kind
        asked = self._share(kind, self._absolute(quantity) if si is None else si, times)
        base = float(self.graph[ATMOSPHERE].si) if kind == "pressure" else None
        return Reading(asked, kind, lambda: shown(asked, quantity.unit, 3, atmosphere_pa=base), reads)

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
        named = tuple(path for each in (value, limit) for path in _paths(each))
        try:
            found, bound = self.reading(value), self.reading(limit, times)
            texts = {"value": found.texts, "limit": bound.texts, **words}
        except CANNOT as error:
            return Look(where, "unknown", words, reads=named, reason=str(error))
        reads = tuple(dict.fromkeys((*found.reads, *bound.reads)))
        left = sign * (bound.si - found.si)
        # Written so that nothing but a number on the right side passes.
        verdict: Verdict = "passed" if left >= 0 else "broken"
        return Look(where, verdict, texts, left / self._span(bound), reads)

    def _span(self, bound: Reading) -> float:
        """What a margin is a share of: the limit above its own zero."""
        if bound.kind == "temperature":
            return TEMPERATURE_SPAN_K
        zero = float(self.graph[ATMOSPHERE].si) if bound.kind == "pressure" else 0.0
        return abs(bound.si - zero) or 1.0


@cached_as_spoken(maxsize=64)
def failed_at(plant: Plant) -> tuple[FailedAt, ...]:
    """Every failed proof of a plant; kept, since it takes long."""
    return tuple(_lineups(plant).all_failed())


@cached_as_spoken(maxsize=64)
def _lineups(plant: Plant) -> Lineups:
    """Kept, since many rules ask for them and they take long."""
    return lineups_of(plant)


def _paths(what: Compared) -> tuple[str, ...]:
    if isinstance(what, tuple):
        return what
    return (what,) if isinstance(what, str) else ()


def _texts(value: Value, si: float) -> Shown:
    """A value's texts, or those of a number that stands in for it."""
    return value.shown() if si == value.si else replace(value, si=si, given=False, digits=max(3, value.digits)).shown()
