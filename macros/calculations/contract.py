"""What every calculation keeps to: bounds on each argument, no NaN, and a name where arithmetic is not shown."""

from __future__ import annotations

import functools
import inspect
import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final, TypeVar, cast

from macros.calculations.formula import Call, Constant, Curve, Traced, is_traced, node_of
from macros.quantities import say
from macros.quantities.languages import with_mark

__all__ = [
    "CALCULATIONS",
    "OPAQUE",
    "Bounds",
    "Calculation",
    "OutOfRange",
    "above",
    "any_number",
    "at_least",
    "between",
    "calculation",
    "points",
    "range_said",
]

OPAQUE: Final = frozenset(
    (
        "interpolate",
        "conductor table",
        "density",
        "pressure of hydrogen",
        "enthalpy",
        "entropy",
        "internal energy",
        "compressibility factor",
        "viscosity",
        "heat capacity at constant pressure",
        "heat capacity at constant volume",
        "temperature from energy",
        "temperature at constant entropy",
        "saturation pressure",
        "sublimation pressure",
        "molar volume of water",
        "loading of silica gel",
        "humidity over silica gel",
        "dew point",
        "nozzle flow of hydrogen",
        "air through a room with a layer",
        "fill run",
        "adiabatic fill",
        "shared heat",
        "gas, wall and ambient",
        "shortest fill time",
        "next whole number",
        "transfer run",
        "friction factor",
        "pressure lost along a line",
        "flow from a torn line",
        "time to empty",
        "category of a vessel",
        "category of a pipe",
        "single failures",
        "a year step by step",
    )
)
"""The closed list of functions that a formula shows by name; what each stands for is a message."""


class OutOfRange(ValueError):
    """
    An argument lies outside the range for which a calculation is known to hold.

    Attributes
    ----------
    calculation, argument : str
        Where.
    found : float
        The value handed in, in SI units.
    wanted : str
        The range in words.
    """

    def __init__(self, calculation: str, argument: str, found: float, wanted: str) -> None:
        super().__init__(calculation, argument, found, wanted)
        self.calculation, self.argument, self.found, self.wanted = calculation, argument, found, wanted

    def __str__(self) -> str:
        said = {"calculation": self.calculation, "argument": self.argument, "found": repr(self.found)}
        return say("range.of", wanted=self.wanted, **said)


def range_said(key: str, **numbers: float) -> str:
    """What is wanted of an argument, from the family `range` of the messages."""
    return say(f"range.{key}", **{name: with_mark(f"{number:g}") for name, number in numbers.items()})


@dataclass(frozen=True)
class Bounds:
    """The range of one argument. NaN lies in none."""

    low: float = -math.inf
    high: float = math.inf
    open_low: bool = False
    curve: bool = False

    def hold(self, value: float) -> bool:
        above_low = value > self.low if self.open_low else value >= self.low
        return bool(above_low and value <= self.high and math.isfinite(value))

    def __str__(self) -> str:
        if self.curve:
            return range_said("points")
        low = range_said("above" if self.open_low else "least", limit=self.low) if self.low > -math.inf else ""
        high = range_said("most", limit=self.high) if self.high < math.inf else ""
        if low and high:
            return say("range.both", low=low, high=high)
        return low or high or range_said("finite")


def above(low: float, high: float = math.inf) -> Bounds:
    """More than `low`, and at most `high`."""
    return Bounds(low, high, open_low=True)


def at_least(low: float) -> Bounds:
    """`low` or more."""
    return Bounds(low)


def between(low: float, high: float) -> Bounds:
    """From `low` to `high`, both included."""
    return Bounds(low, high)


def any_number() -> Bounds:
    """Any finite number."""
    return Bounds()


def points() -> Bounds:
    """Measured points: at least two, x strictly rising."""
    return Bounds(curve=True)


@dataclass(frozen=True)
class Calculation:
    """A public calculation as the registry knows it."""

    name: str
    module: str
    bounds: dict[str, Bounds]
    opaque: str | None
    function: Callable[..., Any]


CALCULATIONS: dict[str, Calculation] = {}
"""Every public calculation by `subject.name`, filled as subjects are imported."""

Function = TypeVar("Function", bound=Callable[..., Any])


def calculation(*, opaque: str | None = None, **bounds: Bounds) -> Callable[[Function], Function]:
    """
    Declare a public calculation: the range of every argument, enforced at each call.

    Parameters
    ----------
    opaque : str, optional
        The name from `OPAQUE` under which formulas show it; without, its arithmetic is shown.
    **bounds : Bounds
        For each argument that is a number or a curve. An argument that may be None or is text needs none.
    """
    if opaque is not None and opaque not in OPAQUE:
        raise ValueError(f"{opaque!r} is not on the closed list of functions shown by name")

    def declare(function: Function) -> Function:
        signature = inspect.signature(function)
        if strange := set(bounds) - set(signature.parameters):
            raise TypeError(f"{function.__name__} has no argument {', '.join(sorted(strange))}")
        defaults = {name: parameter.default for name, parameter in signature.parameters.items()}
        names = list(signature.parameters)
        subject = function.__module__.rsplit(".", 1)[-1]

        @functools.wraps(function)
        def checked(*positional: Any, **named: Any) -> Any:
            arguments = {**dict(zip(names, positional, strict=False)), **named}
            if len(positional) > len(names):
                raise TypeError(f"{function.__name__} takes {len(names)} arguments")
            for name, bound in bounds.items():
                value = arguments.get(name, defaults[name])
                if value is not inspect.Parameter.empty:
                    _check(function.__name__, name, value, bound)
            traced = any(is_traced(value) for value in arguments.values())
            if opaque is not None:
                plain = {name: _plain(value) for name, value in arguments.items()}
                result = function(**plain)
                if traced and isinstance(result, float):
                    shown = [value for value in arguments.values() if isinstance(value, (int, float, Curve))]
                    return Traced(result, Call(opaque, tuple(node_of(value) for value in shown)))
                return result
            result = function(**arguments)
            # A constant handed in starts no formula, but where a formula goes on it is to be read in it.
            readable = traced or any(isinstance(value, Constant) for value in arguments.values())
            return result if readable or not isinstance(result, Traced) else float(result)

        CALCULATIONS[f"{subject}.{function.__name__}"] = Calculation(
            function.__name__, subject, dict(bounds), opaque, checked
        )
        return cast(Function, checked)

    return declare


def _plain(value: Any) -> Any:
    if isinstance(value, Curve):
        return tuple(value)
    return float(value) if isinstance(value, Traced) else value


def _check(calculation: str, argument: str, value: Any, bound: Bounds) -> None:
    if value is None:
        return
    if bound.curve:
        _check_points(calculation, argument, value, bound)
    elif isinstance(value, bool) or not isinstance(value, (int, float)) or not bound.hold(float(value)):
        raise OutOfRange(calculation, argument, value, str(bound))


def _check_points(calculation: str, argument: str, value: Sequence[tuple[float, float]], bound: Bounds) -> None:
    xs = [x for x, _ in value]
    finite = all(math.isfinite(x) and math.isfinite(y) for x, y in value)
    if not (finite and len(xs) >= 2 and all(a < b for a, b in itertools.pairwise(xs))):
        raise OutOfRange(calculation, argument, math.nan if not xs else xs[-1], str(bound))
