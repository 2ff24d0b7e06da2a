"""How the numbers of one graph are said: in three systems of units, no finer than their uncertainty allows."""

from __future__ import annotations

from dataclasses import replace

from macros.figures.graph import PRESSURES, Graph, Value
from macros.quantities import KINDS, Quantity, QuantityError, Shown, Unit, show, shown, unit, units_of
from macros.quantities.languages import with_mark

__all__ = ["Numbers", "as_typed", "typed_digits"]

INSIDE_DIGITS = 6
"""Digits of a number as it was put into a formula, enough to redo the arithmetic."""


class Numbers:
    """
    The numbers of one graph as text.

    Parameters
    ----------
    graph : Graph
    """

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self._uncertainties: dict[str, tuple[float, str]] = {}
        self._shown: dict[tuple[str, int | None, str | None], Shown] = {}

    def uncertainty(self, path: str) -> tuple[float, str]:
        """Standard uncertainty in SI units (0 where none is stated) and the entry that contributes most."""
        if path not in self._uncertainties:
            value = self.graph[path]
            if value.given:
                stated = getattr(self.graph.entries[path].value, "uncertainty", None)
                self._uncertainties[path] = (stated or 0.0, path if stated else "")
            else:
                self._uncertainties[path] = self.graph.uncertainty(path) if value.is_number else (0.0, "")
        return self._uncertainties[path]

    def shown(self, path: str, digits: int | None = None, unit_asked: str | None = None) -> Shown:
        """
        An entry or figure in all three systems of units.

        Raises
        ------
        QuantityError
            If the unit asked for is none of its kind.
        """
        key = path, digits, unit_asked
        if key not in self._shown:
            self._shown[key] = self._texts(*key)
        return self._shown[key]

    def _texts(self, path: str, digits: int | None, unit_asked: str | None) -> Shown:
        value = self.graph[path]
        if not value.is_number:
            return Shown(str(value.si), str(value.si), str(value.si))
        if unit_asked is None:
            return value.shown(digits, uncertainty=self.uncertainty(path)[0] or None)
        own = self.unit_for(value, unit_asked)
        digits_shown = digits or value.digits
        spread = self.uncertainty(path)[0] or None
        texts = shown(
            value.si, own, digits_shown, rounding=value.rounding, atmosphere_pa=value.atmosphere_pa, uncertainty=spread,
        )  # fmt: skip
        # A unit asked for is what the author wants seen; the other systems still show their own.
        asked = show(
            value.si, own, digits_shown, rounding=value.rounding, atmosphere_pa=value.atmosphere_pa, uncertainty=spread
        )
        return replace(texts, workshop=asked)

    def unit_for(self, value: Value, asked: str | None) -> Unit:
        """
        The unit in which to show a value.

        Raises
        ------
        QuantityError
            If the unit asked for is none of its kind.
        """
        return unit(value.unit if asked is None else asked, value.kind)

    def spread(self, path: str) -> Shown | None:
        """The uncertainty with its unit, two digits at most; none where none is stated."""
        size, _ = self.uncertainty(path)
        if not size:
            return None
        value = self.graph[path]
        return shown(size, _difference_unit(unit(value.unit, value.kind)), 2)

    def inside(self, path: str) -> str:
        """A number as it stands in formulas: in SI units, pressures absolute."""
        value = self.graph[path]
        return inside(value.si, value.kind) if value.is_number else ""


def as_typed(quantity: Quantity) -> Shown:
    """A quantity of the description as its author typed it; in the other systems of units no coarser than that."""
    own, digits = unit(quantity.unit, quantity.kind), typed_digits(quantity.text)
    texts = shown(quantity.si, own, digits if quantity.kind == "temperature" else max(3, digits))
    typed = with_mark(quantity.text)
    others = (typed if text.rpartition("\u00a0")[2] == own.symbol else text for text in (texts.si, texts.us))
    return Shown(typed, *others)


def typed_digits(text: str) -> int:
    """Significant digits of a number as typed."""
    digits = "".join(each for each in text.split("±")[0].split("e")[0].split(" ")[0] if each.isdigit()).lstrip("0")
    return max(1, len(digits))


def inside(si: float, kind: str) -> str:
    """A value in the SI unit of its kind, without trailing zeros."""
    kind = "absolute_pressure" if kind in ("pressure", *PRESSURES) else kind
    mantissa = f"{si:.{INSIDE_DIGITS - 1}e}".split("e")[0].lstrip("-").replace(".", "").rstrip("0")
    plain = [one for one in units_of(kind) if one.factor == 1.0 and one.offset == 0.0] if kind in KINDS else []
    return show(si, plain[0] if plain else unit("", "ratio"), max(1, len(mantissa)))


def _difference_unit(own: Unit) -> Unit:
    """The unit in which a difference of two values shown in `own` is said."""
    if own.kind in PRESSURES:
        bare = own.typed.replace("(g)", "").replace("(a)", "")
        try:
            return unit(bare, "pressure_difference")
        except QuantityError:
            return unit("kPa", "pressure_difference")
    return unit("Δ°F" if own.typed == "°F" else "K", "temperature_difference") if own.kind == "temperature" else own
