"""
The figure graph: published numbers as a pure function of the entries of a description.

An *entry* is a value that the description gives (or a default that stands in for it); a *figure* binds a
calculation to the paths it reads. A graph evaluates each figure once, traces how it came about, and can be evaluated
again with other inputs: uncertainty, comparison and what-if all use that one door.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from fnmatch import fnmatchcase
from typing import Any, Literal

from macros.calculations.contract import OutOfRange
from macros.calculations.formula import Curve, Node, Symbol, Traced, leaves, node_of
from macros.quantities import Quantity, Shown, System, Unit, read, say, show, shown, unit
from macros.quantities.languages import cached_as_spoken
from macros.quantities.messages import titles

__all__ = ["ATMOSPHERE", "Entry", "Figure", "FigureError", "Graph", "UnknownPath", "Value", "figure"]

ATMOSPHERE = "site.atmosphere"
"""The path that every gauge pressure reads."""

PRESSURES = ("gauge_pressure", "absolute_pressure")

Rounding = Literal["nearest", "up", "down"]


class FigureError(ValueError):
    """A figure that cannot be evaluated: which, and why."""

    def __init__(self, name: str, reason: str) -> None:
        super().__init__(say("figures.not_evaluated", name=name, reason=reason))
        self.name, self.reason = name, reason


class UnknownPath(KeyError):
    """A path that this plant has neither as entry nor as figure."""

    def __init__(self, path: str) -> None:
        super().__init__(path)
        self.path = path

    def __str__(self) -> str:
        return say("figures.unknown", name=self.path)


@dataclass(frozen=True)
class Entry:
    """
    A value that the description gives, or a default that stands in.

    Attributes
    ----------
    path : str
        Dotted, lists numbered from 1: `drying.3.bed_mass`.
    value : Quantity, Points or other
        As read. Text and choices stand for themselves.
    title, symbol : str
        For readers and for formulas.
    assumed : str
        Source of the default that stands in; empty where the author gave the value.
    place : str
        `file:line`, empty for a default.
    reads : tuple of str
        Entries that say how far this one is to be trusted: what is assumed of them is assumed of it.
    """

    path: str
    value: Any
    title: str = ""
    symbol: str = ""
    assumed: str = ""
    safe: str = ""
    place: str = ""
    reads: tuple[str, ...] = ()


@dataclass(frozen=True)
class Figure:
    """A published number: the calculation, what it reads, how it is shown. Build with `figure`."""

    name: str
    compute: Callable[..., Any]
    unit: str
    kind: str
    digits: int
    symbol: str
    rounding: Rounding
    source: str
    safety: bool
    inputs: Mapping[str, str]
    decimals: int | None = None
    late: bool = False


def figure(
    name: str,
    compute: Callable[..., Any],
    *,
    unit: str = "",
    kind: str = "",
    digits: int = 3,
    decimals: int | None = None,
    symbol: str = "",
    rounding: Rounding = "nearest",
    source: str = "",
    safety: bool = False,
    late: bool = False,
    **inputs: str,
) -> Figure:
    """
    Bind a calculation to the paths that it reads.

    Parameters
    ----------
    name : str
        Dotted name of the figure.
    compute : callable
        A calculation, or a small function of the figures module that calls calculations. Arguments arrive in SI units,
        pressures absolute, as traced floats; curves as `Curve`; text as it is.
    unit : str
        Unit of the workshop system in which it is shown; it decides the kind. Empty for a category, a table or a run.
    kind : str
        Only where there is no unit: "count", "ratio", "category", "table", "curve", "run".
    digits : int
        Significant digits shown.
    rounding : {"nearest", "up", "down"}
        The safe side of a limit.
    source : str
        Key of the source where the calculation's own docstring does not name it.
    safety : bool
        Whether somebody may set a safety device by it: it then names the defaults it stands on.
    late : bool
        Whether it is evaluated only when something asks for it: it takes long, and fails by nothing but its inputs.
    **inputs : str
        For each argument of `compute`, the path of an entry or figure.
    """
    kind = kind or _kind_of(unit)
    decimals = 0 if kind == "count" else decimals
    return Figure(name, compute, unit, kind, digits, symbol, rounding, source, safety, dict(inputs), decimals, late)


def _kind_of(symbol: str) -> str:
    kind = unit(symbol).kind
    return "pressure" if kind in PRESSURES else kind


@dataclass(frozen=True)
class Value:
    """
    An entry or figure as evaluated: what a page shows and a working explains.

    Attributes
    ----------
    si : float or other
        In SI units; pressures absolute. Text, tables and runs stand for themselves.
    node : Node or None
        The formula it came from; a symbol of its own where it is an entry.
    inputs : tuple of str
        The paths it reads.
    assumed : frozenset of str
        The paths of all defaults that reach it.
    """

    name: str
    title: str
    symbol: str
    si: Any
    unit: str
    kind: str
    digits: int
    rounding: Rounding
    node: Node | None
    inputs: tuple[str, ...]
    assumed: frozenset[str]
    given: bool
    source: str = ""
    safety: bool = False
    place: str = ""
    typed: str = ""
    decimals: int | None = None
    atmosphere_pa: float | None = None
    compute: Callable[..., Any] | None = field(default=None, compare=False, repr=False)

    @property
    def is_number(self) -> bool:
        return isinstance(self.si, float)

    def unit_for(self, asked: str | None = None) -> Unit:
        """
        The unit in which to show it.

        Raises
        ------
        QuantityError
            If the unit asked for is none of its kind.
        """
        return unit(self.unit if asked is None else asked, self.kind)

    def show(self, unit: str | None = None, digits: int | None = None, *, system: System = "workshop") -> str:
        """The number with its unit: in the unit asked for, or in its own as readers of a unit system see it."""
        if not self.is_number:
            return str(self.si)
        if unit is None:
            return str(getattr(self.shown(digits), system))
        return show(
            self.si,
            self.unit_for(unit),
            digits or self.digits,
            rounding=self.rounding,
            atmosphere_pa=self.atmosphere_pa,
        )

    def shown(self, digits: int | None = None, unit: str | None = None, *, uncertainty: float | None = None) -> Shown:
        """
        The number in all three unit systems, with no more digits than an uncertainty allows.

        An entry keeps the digits that its author typed in the unit that he typed; elsewhere at least three, since a
        set point of 30 bar(g) is not one of 440 psi(g).
        """
        if not self.is_number:
            return Shown(str(self.si), str(self.si), str(self.si))
        own = self.unit_for(unit)
        decimals = self.decimals if digits is None and unit is None else None
        texts = self._texts(own, digits or self.digits, decimals, uncertainty)
        if not self.given or digits is not None or self.kind == "temperature":
            return texts
        finer = self._texts(own, max(3, self.digits), decimals, uncertainty)
        return Shown(*(
            coarse if own.typed == self.unit and coarse.endswith(own.symbol) else fine
            for coarse, fine in zip(_systems(texts), _systems(finer), strict=True)
        ))  # fmt: skip

    def _texts(self, own: Unit, digits: int, decimals: int | None, uncertainty: float | None) -> Shown:
        return shown(
            self.si, own, digits, rounding=self.rounding, atmosphere_pa=self.atmosphere_pa, decimals=decimals,
            uncertainty=uncertainty,
        )  # fmt: skip


def _systems(texts: Shown) -> tuple[str, str, str]:
    return texts.workshop, texts.si, texts.us


@cached_as_spoken()
def _title_patterns() -> dict[tuple[str, ...], str]:
    return {tuple(key.split(".")): text for key, text in titles("figure").items()}


@cached_as_spoken()
def title_of(name: str) -> str:
    """
    The title of a figure from the message table, where `*` stands for a name, tag or number, or for the end of a word.

    A `*` in the title is what the one at the end of the pattern stands for: `from_*` = "Hydrogen from the bank *".

    Raises
    ------
    KeyError
        If no title is written for it.
    """
    parts = tuple(name.split("."))
    for pattern, text in _title_patterns().items():
        if len(pattern) == len(parts) and all(fnmatchcase(q, p) for p, q in zip(pattern, parts, strict=True)):
            return text.replace("*", parts[-1].removeprefix(pattern[-1].rstrip("*")))
    raise KeyError(f"no title for the figure {name!r} in the message table")


class Graph:
    """
    Entries and figures of one plant, evaluated when asked, each once.

    Parameters
    ----------
    entries : iterable of Entry
    figures : iterable of Figure

    Raises
    ------
    ValueError
        If a name stands twice, or a figure reads a path that does not exist.
    """

    def __init__(self, entries: Iterable[Entry], figures: Iterable[Figure]) -> None:
        self.entries: dict[str, Entry] = {entry.path: entry for entry in entries}
        self.figures: dict[str, Figure] = {}
        for one in figures:
            if one.name in self.figures or one.name in self.entries:
                raise ValueError(f"{one.name} is defined twice")
            self.figures[one.name] = one
        for one in self.figures.values():
            for path in one.inputs.values():
                if path not in self:
                    raise ValueError(f"the figure {one.name} reads {path}, which this plant has not")
        self._values: dict[str, Value] = {}
        self._pending: list[str] = []
        self._moved: dict[tuple[str, Any], Graph] = {}

    def __contains__(self, path: str) -> bool:
        return path in self.entries or path in self.figures

    def __iter__(self) -> Iterator[str]:
        yield from self.entries
        yield from self.figures

    def has(self, part: str) -> bool:
        """Whether the plant has a part, entry or figure of this name, or anything below it."""
        return part in self or part in self._parts

    @functools.cached_property
    def _parts(self) -> frozenset[str]:
        """Everything that stands before a dot of some name."""
        return frozenset(part for path in self for part in itertools.accumulate(path.split(".")[:-1], "{}.{}".format))

    def __getitem__(self, path: str) -> Value:
        """
        The value of an entry or figure.

        Raises
        ------
        UnknownPath
            If the plant has none of this name.
        FigureError
            If it cannot be evaluated.
        """
        if path not in self._values:
            if path in self._pending:
                raise FigureError(path, say("figures.circle", names=" > ".join([*self._pending, path])))
            self._pending.append(path)
            try:
                self._values[path] = self._evaluate(path)
            finally:
                self._pending.pop()
        return self._values[path]

    def inputs_of(self, path: str) -> tuple[str, ...]:
        """The paths that an entry or figure reads; a gauge pressure reads the atmosphere."""
        if path in self.figures:
            return tuple(dict.fromkeys(self.figures[path].inputs.values()))
        entry = self.entries[path]
        return entry.reads + ((ATMOSPHERE,) if getattr(entry.value, "kind", "") == "gauge_pressure" else ())

    def ancestors(self, path: str) -> set[str]:
        """Everything that a value depends on, itself left out."""
        found: set[str] = set()
        waiting = list(self.inputs_of(path))
        while waiting:
            one = waiting.pop()
            if one not in found:
                found.add(one)
                waiting.extend(self.inputs_of(one))
        return found

    def descendants(self, paths: Iterable[str]) -> set[str]:
        """All figures that depend on any of the paths, directly or through others."""
        wanted = set(paths)
        return {name for name in self.figures if self.ancestors(name) & wanted}

    def with_inputs(self, changes: Mapping[str, Any]) -> Graph:
        """
        The same figures over other inputs.

        Parameters
        ----------
        changes : mapping
            For the path of an entry: text as an author would type it, or a float in SI units (a pressure absolute).

        Raises
        ------
        UnknownPath
            If a path is not an entry of this plant.
        QuantityError
            If a text cannot be read.
        """
        entries = dict(self.entries)
        for path, change in changes.items():
            if path not in entries:
                raise UnknownPath(path)
            entries[path] = _changed(entries[path], change)
        other = Graph((), ())  # no name and nothing read is another: that was looked at when this graph was made
        other.entries, other.figures, other._values = entries, self.figures, self._untouched_by(changes)
        if all(other.inputs_of(path) == self.inputs_of(path) for path in changes):
            other._readers = self._readers  # an absolute pressure in place of a gauge one would read no atmosphere
        return other

    def computed(self, path: str, **replaced: float) -> float:
        """
        A figure computed once more with some of its arguments replaced; nothing else moves with them.

        Parameters
        ----------
        path : str
            Of a figure that is a number.
        **replaced : float
            By the name of the argument, in SI units, pressures absolute.

        Raises
        ------
        FigureError
            If it cannot be evaluated with them.
        """
        one = self.figures[path]
        arguments = {name: replaced.get(name, _argument(self[read])) for name, read in one.inputs.items()}
        try:
            return float(one.compute(**arguments))
        except (OutOfRange, ArithmeticError) as error:
            raise FigureError(path, str(error)) from error

    def take(self, former: Graph, paths: Iterable[str]) -> None:
        """Take values as a former graph evaluated them, for paths that are known to be the same in both."""
        self._values |= {path: former._values[path] for path in paths if path in former._values}

    def _untouched_by(self, changes: Iterable[str]) -> dict[str, Value]:
        """The values that a change leaves as they are, so that nobody computes them again."""
        touched: set[str] = set()
        waiting = list(changes)
        while waiting:
            path = waiting.pop()
            if path not in touched:
                touched.add(path)
                waiting.extend(self._readers.get(path, ()))
        if ATMOSPHERE in touched:
            # Every pressure is shown against it.
            return {}
        values = dict(self._values)
        for path in touched:
            values.pop(path, None)
        return values

    @functools.cached_property
    def _readers(self) -> dict[str, list[str]]:
        """For each path, what reads it."""
        found: dict[str, list[str]] = {}
        for path in self:
            for read_one in self.inputs_of(path):
                found.setdefault(read_one, []).append(path)
        return found

    def uncertainty(self, path: str) -> tuple[float, str]:
        """
        Standard uncertainty of a figure from those of the entries, and the entry that contributes most.

        Central finite differences, one uncertain entry at a time (of measured points one after the other), contributions
        added in squares. Where only one side of an entry can be evaluated, the difference to that side.

        Returns
        -------
        tuple of float and str
            Uncertainty in SI units (0 where no entry states one) and the path of the largest contributor.

        Raises
        ------
        FigureError
            If the figure can be evaluated on neither side of an entry.
        """
        contributions: dict[str, float] = {}
        for name in sorted(self._uncertain and self.ancestors(path) & self._uncertain):
            shares = [self._share(path, name, *sides) for sides in self._sides(name)]
            if shares:
                contributions[name] = math.hypot(*shares)
        if not contributions:
            return 0.0, ""
        return math.hypot(*contributions.values()), max(contributions, key=lambda name: contributions[name])

    @functools.cached_property
    def _uncertain(self) -> set[str]:
        return {entry.path for entry in self.entries.values() if _is_uncertain(entry.value)}

    def _sides(self, name: str) -> Iterator[tuple[Any, Any]]:
        """An uncertain entry moved up and down by what it states; measured points one at a time."""
        value = self.entries[name].value
        if getattr(value, "uncertainty", None):
            middle = float(self[name].si)
            yield middle + value.uncertainty, middle - value.uncertainty
        for place, spread in enumerate(getattr(value, "spreads", ())):
            if spread:
                x, y = value.points[place]
                before, after = value.points[:place], value.points[place + 1 :]
                up, down = (replace(value, points=(*before, (x, y + by), *after)) for by in (spread, -spread))
                yield up, down

    def _share(self, path: str, name: str, *sides: Any) -> float:
        """What one entry adds to the uncertainty of a figure: half the difference of both sides, or that to one."""
        found: list[float] = []
        refused = None
        for side in sides:
            try:
                found.append(self._shifted(name, side)[path].si)
            except FigureError as error:
                refused = error
        if refused is None:
            return abs(found[0] - found[1]) / 2
        if not found:
            raise refused
        return abs(found[0] - float(self[path].si))

    def _shifted(self, name: str, change: Any) -> Graph:
        """The graph with one entry moved; kept, since every figure below the entry is asked of it in turn."""
        if (name, change) not in self._moved:
            self._moved[name, change] = self.with_inputs({name: change})
        return self._moved[name, change]

    def _evaluate(self, path: str) -> Value:
        if path in self.entries:
            return self._entry(self.entries[path])
        if path in self.figures:
            return self._figure(self.figures[path])
        raise UnknownPath(path)

    def _atmosphere(self, path: str, kind: str) -> float | None:
        """What a pressure is shown against; the atmosphere itself is shown against nothing."""
        return float(self[ATMOSPHERE].si) if kind == "pressure" and path != ATMOSPHERE else None

    def _entry(self, entry: Entry) -> Value:
        value = entry.value
        kind, unit_, si, typed = "text", "", value, str(value)
        if isinstance(value, Quantity):
            kind, unit_, si, typed = value.kind, value.unit, float(value.si), value.text
            if kind == "gauge_pressure":
                si += float(self[ATMOSPHERE].si)
            if kind in PRESSURES:
                kind = "pressure"
        elif hasattr(value, "points"):
            kind, si, typed = "curve", value, ""
        assumed = frozenset({entry.path}) if entry.assumed else frozenset()
        reads = self.inputs_of(entry.path)
        for one in reads:
            assumed |= self[one].assumed
        return Value(
            entry.path, entry.title, entry.symbol or entry.path.rsplit(".", 1)[-1], si, unit_, kind,
            _typed_digits(typed), "nearest", Symbol(entry.path, entry.symbol), reads, assumed, True,
            source=entry.assumed, place=entry.place, typed=typed, decimals=0 if kind == "count" else None,
            atmosphere_pa=self._atmosphere(entry.path, kind),
        )  # fmt: skip

    def _figure(self, one: Figure) -> Value:
        arguments: dict[str, Any] = {}
        assumed: frozenset[str] = frozenset()
        for argument, path in one.inputs.items():
            value = self[path]
            assumed |= value.assumed
            arguments[argument] = _argument(value)
        try:
            result = one.compute(**arguments)
        except (OutOfRange, ArithmeticError) as error:
            raise FigureError(one.name, str(error)) from error
        node = None
        if isinstance(result, (int, float)) and not isinstance(result, bool):
            node = node_of(result)
            result = float(result)
            if not math.isfinite(result):
                raise FigureError(one.name, say("figures.not_finite", found=result))
        return Value(
            one.name, title_of(one.name), one.symbol or one.name, result, one.unit, one.kind, one.digits, one.rounding,
            node, tuple(dict.fromkeys(one.inputs.values())), assumed, False, source=one.source, safety=one.safety,
            decimals=one.decimals, atmosphere_pa=self._atmosphere(one.name, one.kind), compute=one.compute,
        )  # fmt: skip


def _is_uncertain(value: Any) -> bool:
    """Whether an entry states an uncertainty, by itself or at one of its points."""
    return bool(getattr(value, "uncertainty", None)) or any(getattr(value, "spreads", ()))


def _argument(value: Value) -> Any:
    if isinstance(value.si, float):
        return Traced(value.si, Symbol(value.name, value.symbol))
    if value.kind == "curve":
        return Curve(value.si.points, Symbol(value.name, value.symbol))
    return value.si


def _changed(entry: Entry, change: Any) -> Entry:
    old = entry.value
    if isinstance(old, Quantity):
        kind = "pressure" if old.kind in PRESSURES else old.kind
        if isinstance(change, str):
            change = read(change, kind)
        elif not isinstance(change, Quantity):
            kind = "absolute_pressure" if kind == "pressure" else kind
            change = replace(old, kind=kind, si=float(change), text="")
    return replace(entry, value=change, assumed="")


def _typed_digits(text: str) -> int:
    """The significant digits that an author typed, zeros included."""
    number = text.split("±")[0].strip().split(" ")[0].lower().split("e")[0]
    return max(1, len(number.lstrip("+-").replace(".", "").lstrip("0")))


def read_paths(value: Value) -> set[str]:
    """The paths that a value's own formula reads (constants left out)."""
    if value.node is None:
        return set()
    return {leaf.path for leaf in leaves(value.node) if not leaf.path.startswith("constant:")}
