"""
The other way round: what an entry must be for a figure to reach a wish.

Solved with the plant's own graph through `with_inputs`, so what is found is shown with the same workings. Entries are
moved in the order in which they are named, each as far as the wish asks: first within what is usual in practice, then
within what the description allows at all. A whole number is the one that just reaches the wish.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import exp, log
from typing import Literal, NamedTuple

from macros.calculations.roots import root_between
from macros.description.fields import Measure
from macros.description.loading import Description, lowered
from macros.description.shape import leaves
from macros.figures.graph import ATMOSPHERE, FigureError, Graph, UnknownPath, Value
from macros.figures.plant import Plant
from macros.figures.ratings import Passed, passed
from macros.quantities import Quantity, QuantityError, read, say, show

__all__ = ["Move", "Sizing", "SizingError", "Wish", "read_wish", "size"]

Relation = Literal["=", ">=", "<="]

ROUNDS = 8
"""How often wishes that share entries are gone through before they are said to pull against each other."""

STEPS = 24
"""Steps on either side in which a crossing is looked for."""

DIGITS = 4
"""Significant digits of the entry found: what an author would type."""


class SizingError(ValueError):
    """A wish that cannot be read or not be reached; the message says why and what was the best."""


@dataclass(frozen=True)
class Wish:
    """
    What a figure shall be.

    `=` is met exactly where an entry can take any value. Where only whole numbers will do it means at least, or at most
    for a figure that is published rounded up, since of such a figure less is better: a time to fill, an energy a
    kilogram.
    """

    figure: str
    relation: Relation
    quantity: Quantity
    text: str

    def target(self, graph: Graph) -> float:
        """The value wished for, in SI units; a pressure absolute."""
        gauge = self.quantity.kind == "gauge_pressure"
        return self.quantity.si + (float(graph[ATMOSPHERE].si) if gauge else 0.0)

    def at_most(self, graph: Graph) -> bool:
        """Whether less than wished for is on the right side."""
        if self.relation == "=":
            return graph.figures[self.figure].rounding == "up"
        return self.relation == "<="

    def gap(self, graph: Graph) -> float:
        """How far the figure lies beyond the wish; negative where it falls short."""
        difference = float(graph[self.figure].si) - self.target(graph)
        return -difference if self.at_most(graph) else difference

    def is_met(self, graph: Graph) -> bool:
        """Whether the figure has reached what is wished for, but for rounding."""
        return self.gap(graph) >= -1e-9 * abs(self.target(graph))


@dataclass(frozen=True)
class Move:
    """One entry that was moved: before, after, and the unrounded value that the search found."""

    before: Value
    after: Value
    found_si: float
    unusual: tuple[str, str] | None
    """The usual range as the format types it, where the value now lies outside it."""

    @property
    def path(self) -> str:
        return self.after.name


@dataclass(frozen=True)
class Sizing:
    """What reaches the wishes: the graph as it was, the graph as it would be."""

    before: Graph
    after: Graph
    wishes: tuple[Wish, ...]
    moves: tuple[Move, ...]

    @property
    def failed(self) -> dict[str, str]:
        """Figures that can no longer be evaluated, each with the reason."""
        found = {}
        for name in self.after.figures:
            try:
                self.after[name]
            except FigureError as error:
                found[error.name] = error.reason
        return found

    @property
    def is_fine(self) -> bool:
        """Whether the plant can still be evaluated whole and nothing passes what is allowed it that did not before."""
        return not self.failed and all(already for _, already in self.passed)

    @property
    def changed(self) -> tuple[str, ...]:
        """Every figure that reads otherwise than before, those that fail left out."""
        return tuple(self._changed())

    def _changed(self) -> Iterator[str]:
        below = self.after.descendants(move.path for move in self.moves)
        for name in self.after.figures:
            if name in below:
                try:
                    old, new = self.before[name], self.after[name]
                except FigureError:
                    continue
                if new.kind != "run" and old.show() != new.show():
                    yield name

    @property
    def passed(self) -> tuple[tuple[Passed, bool], ...]:
        """Every value above what is allowed it, and whether it was so before."""
        before = {(one.value.name, one.allowed.name) for one in passed(self.before)}
        return tuple((one, (one.value.name, one.allowed.name) in before) for one in passed(self.after))


def read_wish(graph: Graph, text: str) -> Wish:
    """
    A wish as typed: `plant.daily_mass=0.5 kg`, `banks.store.fill_time <= 12 h`.

    Raises
    ------
    SizingError
        If it is no wish, or what it names is no figure that is a number.
    UnknownPath
        If the plant has nothing of the name.
    QuantityError
        If the value is none of the figure's kind.
    """
    found = re.fullmatch(r"\s*([A-Za-z0-9_.]+)\s*(>=|<=|=)\s*(.+?)\s*", text)
    if found is None:
        raise SizingError(say("figures.sizing.no_wish", found=text))
    name, relation, value = found.groups()
    if name in graph.entries:
        raise SizingError(say("figures.sizing.wish_is_entry", name=name))
    if name not in graph.figures:
        raise _unknown(name, graph.figures)
    figure = graph[name]
    if not figure.is_number:
        raise SizingError(say("figures.sizing.no_number", name=name))
    quantity = read(value, figure.kind)
    return Wish(name, "=" if relation == "=" else ">=" if relation == ">=" else "<=", quantity, text.strip())


def size(plant: Plant, wishes: Sequence[Wish], vary: Sequence[str]) -> Sizing:
    """
    Move entries until the wishes are reached.

    Parameters
    ----------
    plant : Plant
    wishes : sequence of Wish
        Solved one after the other, and again while one undoes another.
    vary : sequence of str
        Paths of the entries that may move, those to be moved first in front.

    Returns
    -------
    Sizing

    Raises
    ------
    SizingError
        If a wish cannot be reached with these entries, or an entry cannot be moved or moves nothing.
    UnknownPath
        If an entry does not exist.
    """
    fields = _fields(plant.description)
    for path in vary:
        _check_entry(plant.graph, path, wishes)
    graph = plant.graph
    found: dict[str, float] = {}
    for turn in range(ROUNDS):
        for wish in wishes:
            if wish.is_met(graph) and (turn or wish.relation != "="):
                continue
            graph = _reach(graph, wish, [path for path in vary if path in graph.ancestors(wish.figure)], fields, found)
        if all(wish.is_met(graph) for wish in wishes):
            return Sizing(plant.graph, graph, tuple(wishes), tuple(_moves(plant.graph, graph, vary, fields, found)))
    pulling = [wish.text for wish in wishes if not wish.is_met(graph)]
    raise SizingError(say("figures.sizing.pulling", wishes=", ".join(pulling)))


def _moves(
    before: Graph, after: Graph, vary: Sequence[str], fields: Mapping[str, Measure], found: Mapping[str, float]
) -> Iterator[Move]:
    for path in dict.fromkeys(vary):
        old, new = before[path], after[path]
        if old.si != new.si:
            usual = fields[path].usual
            unusual = None
            if usual is not None:
                low, high = (_absolute(end, after) for end in usual)
                unusual = None if low <= new.si <= high else (usual[0].text, usual[1].text)
            yield Move(old, new, found[path], unusual)


def _fields(description: Description) -> dict[str, Measure]:
    """What the format demands of each entry that is a quantity, by its path."""
    return {
        lowered(leaf.path): leaf.slot.measure
        for part in (description.plant, description.network)
        for leaf in leaves(part)
        if leaf.slot.measure is not None and isinstance(leaf.value, Quantity)
    }


def _check_entry(graph: Graph, path: str, wishes: Sequence[Wish]) -> None:
    if path in graph.figures:
        given = sorted(name for name in graph.ancestors(path) if name in graph.entries)
        raise SizingError(say("figures.sizing.vary_is_figure", name=path, entries=", ".join(given)))
    if path not in graph.entries:
        raise _unknown(path, graph.entries)
    if not graph[path].is_number:
        raise SizingError(say("figures.sizing.vary_no_quantity", name=path))
    if not any(path in graph.ancestors(wish.figure) for wish in wishes):
        raise SizingError(
            say("figures.sizing.moves_nothing", name=path, figures=", ".join(wish.figure for wish in wishes))
        )


def _unknown(name: str, known: Mapping[str, object]) -> UnknownPath | SizingError:
    near = difflib.get_close_matches(name, list(known), n=3)
    return SizingError(say("figures.sizing.unknown", name=name, near=", ".join(near))) if near else UnknownPath(name)


def _absolute(end: Quantity, graph: Graph) -> float:
    return end.si + (float(graph[ATMOSPHERE].si) if end.kind == "gauge_pressure" else 0.0)


def _reach(
    graph: Graph, wish: Wish, vary: Sequence[str], fields: Mapping[str, Measure], found: dict[str, float]
) -> Graph:
    """The graph in which a wish is reached; entries go to the best place of their range until one does it."""
    if not vary:
        raise SizingError(say("figures.sizing.nothing_to_move", wish=wish.text))
    best, beyond = graph, ""
    for usual in (True, False):
        for path in vary:
            field = fields[path]
            ends = field.usual if usual and field.usual is not None else (field.low, field.high)
            if ends[0] is None or ends[1] is None:
                raise SizingError(say("figures.sizing.no_bounds", name=path))
            search = _Search(best, wish, path, _absolute(ends[0], best), _absolute(ends[1], best), field)
            place = search.solve()
            if place is None:
                continue
            if place.reached:
                found[path] = place.si
                return search.typed(place.si)
            beyond = search.refused
            if search.gap(place.si) > wish.gap(best) and not wish.is_met(best):
                found[path], best = place.si, search.typed(place.si)
    reached = ", ".join(f"{path} = {best[path].show()}" for path in vary)
    key = "figures.sizing.not_reached_refused" if beyond else "figures.sizing.not_reached"
    said = {"refused": beyond} if beyond else {}
    raise SizingError(say(key, wish=wish.text, best=best[wish.figure].show(), entries=reached, **said))


class _Place(NamedTuple):
    si: float
    reached: bool


class _Search:
    """One entry moved between two ends until one wish is met."""

    def __init__(self, graph: Graph, wish: Wish, path: str, low: float, high: float, field: Measure) -> None:
        self.graph, self.wish, self.path = graph, wish, path
        self.low, self.high, self.whole = low, high, field.kind == "count"
        self.field = field
        self.refused = ""
        self._gaps: dict[float, float | None] = {}

    def moved(self, si: float | str) -> Graph:
        return self.graph.with_inputs({self.path: si})

    def gap(self, si: float) -> float:
        """How far beyond the wish; a place that cannot be evaluated must have been left out before."""
        value = self._try(si)
        assert value is not None
        return value

    def _try(self, si: float) -> float | None:
        if si not in self._gaps:
            try:
                self._gaps[si] = self.wish.gap(self.moved(si))
            except FigureError as error:
                self.refused = say("figures.sizing.refused", name=error.name, reason=error.reason)
                self._gaps[si] = None
        return self._gaps[si]

    def solve(self) -> _Place | None:
        """Where the wish is just met, nearest to where the entry stands; else the best place; none if nothing holds."""
        start = min(max(float(self.graph[self.path].si), self.low), self.high)
        if self._try(start) is None:
            return None
        if self.gap(start) == 0:
            return _Place(start, True)
        crossings = []
        seen = [start]
        for end in (self.low, self.high):
            last = start
            for point in self._points(start, end):
                refused = self._try(point) is None
                place = self._last_good(last, point) if refused else point
                seen.append(place)
                crossed = (self.gap(place) >= 0) != (self.gap(start) >= 0)
                if crossed:
                    crossings.append(self._crossing(last, place))
                if crossed or refused:
                    break
                last = place
        if crossings:
            return _Place(min(crossings, key=lambda si: abs(si - start)), True)
        if self.gap(start) > 0:
            # More than wished for, and no way down to it: exactly so much there is not, but whole numbers reach it.
            return _Place(min(seen, key=self.gap), self.whole)
        return _Place(max(seen, key=self.gap), False)

    def _points(self, start: float, end: float) -> list[float]:
        """Places from a start to an end, in equal shares where the range is wide."""
        if end == start:
            return []
        if start > 0 and end > 0 and not 0.1 < end / start < 10:
            points = [exp(log(start) + (log(end) - log(start)) * step / STEPS) for step in range(1, STEPS)]
        else:
            points = [start + (end - start) * step / STEPS for step in range(1, STEPS)]
        if self.whole:
            points = [float(round(point)) for point in points]
        return [point for point in dict.fromkeys([*points, end]) if point != start]

    def _last_good(self, good: float, bad: float) -> float:
        """The last place at which the figure can be evaluated."""
        for _ in range(50):
            middle = self._middle(good, bad)
            if middle in (good, bad):
                break
            if self._try(middle) is None:
                bad = middle
            else:
                good = middle
        return good

    def _middle(self, one: float, other: float) -> float:
        middle = (one + other) / 2
        return float(int(middle)) if self.whole else middle

    def _crossing(self, one: float, other: float) -> float:
        """Where the wish is met between a place on either side of it; of whole numbers the first that meets it."""
        if not self.whole:
            return root_between(self.gap, one, other)
        while abs(one - other) > 1:
            middle = self._middle(one, other)
            if (self.gap(middle) >= 0) == (self.gap(one) >= 0):
                one = middle
            else:
                other = middle
        return one if self.gap(one) >= 0 else other

    def typed(self, si: float) -> Graph:
        """The graph with the entry as an author would type it, on the side that meets the wish where it can be."""
        value = self.moved(si)[self.path]
        if self.whole:
            return self.moved(f"{round(si)}")
        graphs: list[tuple[float, Graph]] = []
        slack = 1e-9 * max(abs(self.low), abs(self.high))
        roundings: tuple[Literal["nearest", "up", "down"], ...] = ("nearest", "up", "down")
        for rounding in roundings:
            text = show(value.si, value.unit_for(), DIGITS, rounding=rounding, atmosphere_pa=value.atmosphere_pa)
            try:
                graph = self.moved(text.replace("\u00a0", " "))
                if self.low - slack <= float(graph[self.path].si) <= self.high + slack:
                    graphs.append((self.wish.gap(graph), graph))
            except (FigureError, QuantityError):
                continue
        meeting = [pair for pair in graphs if pair[0] >= 0]
        if meeting:
            return min(meeting, key=lambda pair: pair[0])[1]
        return max(graphs, key=lambda pair: pair[0])[1] if graphs else self.moved(si)
