"""What was measured beside what was predicted: how far apart, and whether that is within what is accepted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from macros.description.record_file import Measured
from macros.figures.graph import ATMOSPHERE, FigureError, UnknownPath, Value
from macros.figures.plant import Plant
from macros.quantities import Quantity, Shown, say, show, shown, unit
from macros.quantities.showing import MINUS

__all__ = ["Compared", "as_typed", "compared", "readings_of"]

DIFFERENCE_DIGITS = 2
PRESSURES = ("gauge_pressure", "absolute_pressure")


@dataclass(frozen=True)
class Compared:
    """
    A reading beside its prediction.

    Attributes
    ----------
    reading : Measured
    si : float
        What was measured, in SI units, pressures absolute.
    predicted : Value or None
        The figure; none where the plant has it not.
    allowed_si : float or None
        The difference that is accepted; none where it cannot be told.
    is_limit : bool
        Whether the figure is a limit that no reading may pass: its tolerance is nothing.
    reason : str
        Why it cannot be compared; empty where it can.
    """

    reading: Measured
    si: float
    predicted: Value | None
    allowed_si: float | None
    is_limit: bool
    reason: str = ""

    @property
    def apart_si(self) -> float | None:
        """Measured less predicted, in SI units."""
        return None if self.predicted is None or self.reason else self.si - float(self.predicted.si)

    @property
    def holds(self) -> bool | None:
        """Whether the reading is within its tolerance, or on the safe side of a limit; none where it cannot be told."""
        apart = self.apart_si
        if apart is None or self.allowed_si is None or self.predicted is None:
            return None
        if self.is_limit and self.predicted.rounding != "nearest":
            return apart >= 0 if self.predicted.rounding == "up" else apart <= 0
        return abs(apart) <= self.allowed_si * (1 + 1e-9)

    @property
    def apart_told(self) -> str:
        """The difference in words: a share of the prediction, or kelvins; empty where it cannot be told."""
        apart = self.apart_si
        if apart is None or self.predicted is None:
            return ""
        span = _span(self.predicted)
        of = unit("K", "temperature_difference") if span is None else unit("%", "fraction")
        text = show(abs(apart) / (span or 1.0), of, DIFFERENCE_DIGITS)
        return text if not apart else f"{'+' if apart > 0 else MINUS}{text}"


def readings_of(plant: Plant) -> Iterator[Compared]:
    """Every reading of a plant's record, in the order of days."""
    for reading in sorted(plant.description.record.readings, key=lambda one: one.date):
        yield compared(plant, reading)


def compared(plant: Plant, reading: Measured) -> Compared:
    """A reading beside the figure that it checks."""
    measured = reading.value
    atmosphere_pa = float(plant.graph[ATMOSPHERE].si)
    si = measured.si + (atmosphere_pa if measured.kind == "gauge_pressure" else 0.0)
    try:
        predicted = plant.graph[reading.figure]
    except (UnknownPath, FigureError):
        return Compared(reading, si, None, None, False, say("review.reading.no_figure", figure=reading.figure))
    kind = "pressure" if measured.kind in PRESSURES else measured.kind
    if not predicted.is_number or predicted.kind != kind:
        return Compared(reading, si, predicted, None, False, say("review.reading.other_kind", figure=reading.figure))
    allowed = _allowed(predicted, reading.tolerance)
    reason = say("review.reading.tolerance", figure=reading.figure) if allowed is None else ""
    return Compared(reading, si, predicted, allowed, reading.tolerance.si == 0, reason)


def _span(predicted: Value) -> float | None:
    """What a share of a prediction is a share of: its size above its own zero; a temperature has none."""
    if predicted.kind == "temperature":
        return None
    zero = predicted.atmosphere_pa or 0.0 if predicted.kind == "pressure" and "(g)" in predicted.unit else 0.0
    return abs(float(predicted.si) - zero) or None


def _allowed(predicted: Value, tolerance: Quantity) -> float | None:
    """The difference that is accepted, in SI units: a share of the prediction, or a difference of its own kind."""
    if tolerance.kind in ("fraction", "ratio"):
        span = _span(predicted)
        return None if span is None else span * tolerance.si
    differences = {"temperature": "temperature_difference", "pressure": "pressure_difference"}
    return tolerance.si if tolerance.kind == differences.get(predicted.kind, predicted.kind) else None


def as_typed(quantity: Quantity) -> Shown:
    """A quantity of the record in all three systems of units, in the digits that were typed."""
    digits = sum(each.isdigit() for each in quantity.text.split("±")[0].split("e")[0].split(" ")[0].lstrip("-+0."))
    return shown(quantity.si, quantity.unit, max(1, digits))
