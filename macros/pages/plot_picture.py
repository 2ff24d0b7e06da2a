"""What a plot of a plant shows, in SI units: quantities along its axes, curves, limits, marked points."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise

from diagrams.items import Text
from diagrams.panels import Limit, Mark, Panel, Series
from diagrams.plots import plot_panels
from diagrams.proportions import PANEL_HEIGHT, PLOT
from diagrams.ticks import Axis, ticks_of
from macros.figures.graph import Value
from macros.quantities import Rounding, Shown, Unit, say, shown, unit
from macros.quantities.languages import decimal_mark, without_mark
from macros.quantities.messages import messages, placeholders

__all__ = ["Field", "Limit", "Mark", "Measure", "Picture", "Series", "curve", "named", "text_of"]

DIGITS = 3
"""Significant digits of a number that is read off a curve."""


@dataclass(frozen=True)
class Measure:
    """
    A quantity along an axis, or one that is read at it.

    Attributes
    ----------
    title : str
    unit : str
        Unit of the workshop system; it may be empty where `named` names every place.
    atmosphere_pa : float or None
        What a gauge pressure is shown against.
    rounding : {"nearest", "up", "down"}
        The safe side.
    named : mapping
        Places that have names in place of numbers: the stages of a train, the months.
    told : mapping
        What a table says of places in place of these names, where that is more.
    """

    title: str
    unit: str = ""
    atmosphere_pa: float | None = None
    rounding: Rounding = "nearest"
    named: Mapping[float, str] = field(default_factory=dict)
    told: Mapping[float, str] = field(default_factory=dict)

    @classmethod
    def of(cls, value: Value, title: str = "") -> Measure:
        """The quantity that an entry or figure tells."""
        return cls(title or value.title, value.unit, value.atmosphere_pa, value.rounding)

    @cached_property
    def own(self) -> Unit:
        """Its unit."""
        return unit(self.unit)

    @property
    def _base(self) -> float:
        return (self.atmosphere_pa or 0.0) if self.own.kind == "gauge_pressure" else 0.0

    def place(self, si: float) -> float:
        """Where a value stands on the axis."""
        return si if self.named else self.own.from_si(si - self._base)

    def shown(self, si: float, decimals: int | None = None) -> Shown:
        """A value in all three systems of units, or its name."""
        if self.named:
            name = self.told.get(si, self.named.get(si, ""))
            return Shown(name, name, name)
        rounding = self.rounding if decimals is None else "nearest"
        return shown(si, self.own, DIGITS, rounding=rounding, atmosphere_pa=self.atmosphere_pa, decimals=decimals)

    def axis(self, places: Sequence[float], *, logarithmic: bool = False, about: int = 6) -> Axis:
        """The axis with its ticks: round in the workshop system, what they come to in the others."""
        if self.named:
            return Axis(Text(self.title), ticks=tuple((place, Text(name)) for place, name in self.named.items()))
        says = self._says_powers if logarithmic else self._says
        ticks = ticks_of(Axis(Text(self.title), logarithmic=logarithmic, says=says), places, about)
        decided = [_unit_of([getattr(text, system) for _, text in ticks]) for system in SYSTEMS]
        said = [
            Text(*(_bare(getattr(text, system), one) for system, one in zip(SYSTEMS, decided, strict=True)))
            for _, text in ticks
        ]
        label = Text(*(f"{self.title}, {one}" if one else self.title for one in decided))
        spread = tuple((place, text) for (place, _), text in zip(ticks, said, strict=True))
        return Axis(label, ticks=spread, logarithmic=logarithmic)

    def _says_powers(self, places: Sequence[float], decimals: int) -> list[Text]:
        """Powers of ten each have digits of their own."""
        return [text for place in places for text in self._says([place], _decimals(place, decimals))]

    def _says(self, places: Sequence[float], decimals: int) -> list[Text]:
        """Round in the workshop system; in the others with as many digits as tell where the ticks stand."""
        ticks = [(self.own.to_si(place) + self._base, decimals) for place in places]
        columns = [[getattr(self.shown(*tick), SYSTEMS[0]) for tick in ticks]]
        for system in SYSTEMS[1:]:
            finer = [[getattr(self.shown(si, own + more), system) for si, own in ticks] for more in range(FINEST + 1)]
            columns.append(next((texts for texts in finer if _true(texts, finer[-1])), finer[-1]))
        return [Text(*texts) for texts in zip(*columns, strict=True)]


SYSTEMS = ("workshop", "si", "us")

TRUE = 0.01
"""How far what is written at a tick may be from where it stands, as a share of the way to the next or of itself."""

FINEST = 4


def _true(texts: Sequence[str], exact: Sequence[str]) -> bool:
    """Whether what is written at ticks is near enough to what would be with more digits."""
    said, meant = [_number(text) for text in texts], [_number(text) for text in exact]
    apart = min((abs(after - before) for before, after in pairwise(meant) if after != before), default=math.inf)
    return all(abs(a - b) <= TRUE * min(apart, abs(b)) for a, b in zip(said, meant, strict=True))


def _number(text: str) -> float:
    """The number of a text that `show` has written; beyond its plain digits, whatever it is."""
    digits = text.partition("\u00a0")[0].replace("\u202f", "").replace("−", "-")
    return float(without_mark(digits))


def _decimals(place: float, most: int) -> int:
    text = f"{place:.{most}f}"
    return len(text.rstrip("0").partition(".")[2])


def _unit_of(texts: Iterable[str]) -> str:
    """The unit that all ticks share; empty if some have another. A zero fits any."""
    units = {text.rpartition("\u00a0")[2] for text in texts if not _is_zero(text)}
    return units.pop() if len(units) == 1 else ""


def _is_zero(text: str) -> bool:
    return not text.partition("\u00a0")[0].strip(f"−0{decimal_mark()}")


def _bare(text: str, common: str) -> str:
    return text.rpartition("\u00a0")[0] if common else text


@dataclass(frozen=True)
class Field:
    """One upright quantity with its curves, limits and marked points, all in SI units."""

    measure: Measure
    curves: tuple[Series, ...]
    limits: tuple[Limit, ...] = ()
    marks: tuple[Mark, ...] = ()
    logarithmic: bool = False
    from_zero: bool = False

    def called(self, one: Series) -> str:
        """What a curve tells, with its own name where there are several."""
        return self.measure.title if len(self.curves) == 1 else f"{self.measure.title}, {one.name.workshop}"

    def panel(self, x: Measure, height: float) -> Panel:
        """The same in the units of the axes."""
        at = self.measure
        series = tuple(
            replace(one, points=tuple((x.place(a), at.place(b)) for a, b in one.points)) for one in self.curves
        )
        limits = tuple(replace(one, value=(at if one.upright_axis else x).place(one.value)) for one in self.limits)
        marks = tuple(replace(one, x=x.place(one.x), y=at.place(one.y)) for one in self.marks)
        panel = Panel(Axis(Text(at.title)), series, limits, marks, height)
        places = [*panel.ys, 0.0] if self.from_zero else panel.ys
        axis = at.axis(places, logarithmic=self.logarithmic, about=6 if height > PANEL_HEIGHT else 4)
        return Panel(axis, series, limits, marks, height)


@dataclass(frozen=True)
class Picture:
    """
    A plot: fields over one level axis.

    Attributes
    ----------
    name : str
        Of its kind, and of what it belongs to: `filling-store`.
    title : str
        What it shows.
    told : Shown
        What there is to see, in words, in each system of units.
    rows : tuple of float
        Places on the level axis that its table tells; all points without.
    """

    name: str
    title: str
    told: Shown
    x: Measure
    fields: tuple[Field, ...]
    rows: tuple[float, ...] = ()

    def svg(self, identity: str) -> str:
        """The plot as inline SVG; `identity` begins every id in it."""
        height = PANEL_HEIGHT if len(self.fields) > 1 else PLOT[1] * 0.85
        panels = [one.panel(self.x, height) for one in self.fields]
        axis = self.x.axis([x for panel in panels for x in panel.xs])
        return plot_panels(panels, axis, title=self.title, description=self.described(), identity=identity)

    def described(self) -> Text:
        """What it shows, for those who hear it."""
        words: list[Text | Shown] = [self.told]
        for one in self.fields:
            for curve in one.curves:
                (x0, y0), (x1, y1) = curve.points[0], curve.points[-1]
                words.append(
                    _telling(
                        "pages.plot.curve_in_words",
                        what=one.called(curve),
                        begin=self.x.shown(x0),
                        end=self.x.shown(x1),
                        first=one.measure.shown(y0),
                        last=one.measure.shown(y1),
                    )
                )
            words += [_telling("pages.plot.limit_in_words", limit=bound.label) for bound in one.limits]
        return Text(*(" ".join(_in(said, system) for said in words) for system in SYSTEMS))

    def told_at(self) -> list[float]:
        """The places that its table tells."""
        return sorted(set(self.rows) or {x for one in self.fields for curve in one.curves for x, _ in curve.points})


def curve(name: str, points: Iterable[tuple[float, float]], dotted: bool = False) -> Series:
    """A curve by its points, under a name of plain words; `dotted` where only the points mean something."""
    return Series(Text(name), tuple(points), dotted)


def text_of(texts: Shown) -> Text:
    """A number as a label."""
    return Text(texts.workshop, texts.si, texts.us)


def telling(key: str, **values: Shown | str) -> Shown:
    """What there is to see in a plot, in each system of units, with those of the values that its text names."""
    key = f"pages.plot.{key}"
    return _telling(key, **{name: values[name] for name in placeholders(key, messages()[key])})


def _telling(key: str, **values: Shown | Text | str) -> Shown:
    return Shown(*(say(key, **{name: _in(value, system) for name, value in values.items()}) for system in SYSTEMS))


def _in(said: Shown | Text | str, system: str) -> str:
    """A text as the readers of a system see it; a label of plain words is the same to all."""
    return said if isinstance(said, str) else getattr(said, system) or said.workshop


def named(key: str, texts: Shown, **more: str) -> Text:
    """A label that says a number, with the words of `pages.plot.KEY`."""
    return Text(*(say(f"pages.plot.{key}", value=getattr(texts, system), **more) for system in SYSTEMS))
