"""
Formulas that evaluate and show themselves: one expression, never two.

A `Traced` number is a float that remembers how it was made. A calculation called with traced
arguments computes as always, and its result carries the tree of the arithmetic that was done.
The reader's formula is drawn from that tree, so it cannot differ from what was evaluated.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

__all__ = [
    "Call",
    "Constant",
    "Curve",
    "Node",
    "Number",
    "Operation",
    "Symbol",
    "Traced",
    "exp",
    "largest",
    "leaves",
    "log",
    "node_of",
    "number",
    "power",
    "smallest",
    "sqrt",
]


@dataclass(frozen=True)
class Number:
    """A pure number that stands in the formula itself, like the 2 of two electrons."""

    value: float


@dataclass(frozen=True)
class Symbol:
    """A named quantity: an entry of the description, a figure, or a constant of nature."""

    path: str
    symbol: str


@dataclass(frozen=True)
class Operation:
    """Arithmetic: `+ - * / ** neg` and the few functions a reader knows (`exp log sqrt max min`)."""

    name: str
    arguments: tuple[Node, ...]


@dataclass(frozen=True)
class Call:
    """A function shown by its name only: an equation of state, a root, an integral, a table."""

    name: str
    arguments: tuple[Node, ...]


Node = Number | Symbol | Operation | Call

ONE = Number(1.0)


class Traced(float):
    """A float that remembers the formula it came from."""

    node: Node
    __slots__ = ("node",)

    def __new__(cls, value: float, node: Node) -> Traced:
        traced = super().__new__(cls, value)
        traced.node = node
        return traced

    def __add__(self, other: float) -> Traced:
        return _operation("+", float.__add__, self, other)

    def __radd__(self, other: float) -> Traced:
        return _operation("+", float.__add__, other, self)

    def __sub__(self, other: float) -> Traced:
        return _operation("-", float.__sub__, self, other)

    def __rsub__(self, other: float) -> Traced:
        return _operation("-", float.__sub__, other, self)

    def __mul__(self, other: float) -> Traced:
        return _operation("*", float.__mul__, self, other)

    def __rmul__(self, other: float) -> Traced:
        return _operation("*", float.__mul__, other, self)

    def __truediv__(self, other: float) -> Traced:
        return _operation("/", float.__truediv__, self, other)

    def __rtruediv__(self, other: float) -> Traced:
        return _operation("/", float.__truediv__, other, self)

    def __pow__(self, other: float, modulo: None = None) -> Traced:
        return _operation("**", math.pow, self, other)

    def __rpow__(self, other: float, modulo: None = None) -> Traced:
        return _operation("**", math.pow, other, self)

    def __neg__(self) -> Traced:
        return Traced(-float(self), Operation("neg", (self.node,)))

    def __pos__(self) -> Traced:
        return self

    def __reduce__(self) -> tuple[Any, ...]:
        return (Traced, (float(self), self.node))


class Constant(Traced):
    """
    A constant of nature or of convention, with its unit and the source it was read in.

    A constant without a source cannot be built.
    """

    symbol: str
    unit: str
    title: str
    source: str
    __slots__ = ("source", "symbol", "title", "unit")

    def __new__(cls, value: float, symbol: str, unit: str, title: str, source: str) -> Constant:
        if not source:
            raise ValueError(f"the constant {title!r} names no source")
        constant = super().__new__(cls, value, Symbol(f"constant:{title}", symbol))
        assert isinstance(constant, Constant)
        constant.symbol, constant.unit, constant.title, constant.source = symbol, unit, title, source
        return constant

    def __reduce__(self) -> tuple[Any, ...]:
        return (Constant, (float(self), self.symbol, self.unit, self.title, self.source))


class Curve(tuple[tuple[float, float], ...]):
    """Measured points `(x, y)` in SI units, x rising, that remember where they were given."""

    node: Node

    def __new__(cls, points: Any, node: Node) -> Curve:
        curve = super().__new__(cls, points)
        curve.node = node
        return curve


def node_of(value: Any) -> Node:
    """The formula behind a value; a plain number is itself."""
    node = getattr(value, "node", None)
    return node if node is not None else Number(float(value))


def is_traced(value: Any) -> bool:
    """Whether a value remembers where it came from (constants do, but start no formula)."""
    return isinstance(value, (Traced, Curve)) and not isinstance(value, Constant)


def _operation(name: str, evaluate: Callable[[float, float], float], left: float, right: float) -> Traced:
    if not isinstance(right, (int, float)) or not isinstance(left, (int, float)):
        return NotImplemented
    nodes = node_of(left), node_of(right)
    if name == "*" and ONE in nodes:  # a factor of exactly one changes nothing and would only clutter the formula
        return Traced(float(left) * float(right), nodes[1 - nodes.index(ONE)])
    if name == "/" and nodes[1] == ONE:
        return Traced(float(left) / float(right), nodes[0])
    return Traced(evaluate(float(left), float(right)), Operation(name, nodes))


def _function(name: str, evaluate: Callable[..., float], *arguments: float) -> float:
    value = evaluate(*(float(argument) for argument in arguments))
    if any(isinstance(argument, Traced) for argument in arguments):
        return Traced(value, Operation(name, tuple(node_of(argument) for argument in arguments)))
    return value


def number(value: float) -> Traced:
    """A pure number that a formula shows even where only numbers meet: the 1 and the 3 of a cube root."""
    return Traced(value, Number(value))


def exp(exponent: float) -> float:
    """e raised to the exponent."""
    return _function("exp", math.exp, exponent)


def log(argument: float) -> float:
    """Natural logarithm."""
    return _function("log", math.log, argument)


def sqrt(argument: float) -> float:
    """Square root."""
    return _function("sqrt", math.sqrt, argument)


def power(base: float, exponent: float) -> float:
    """A base raised to an exponent."""
    return _function("**", math.pow, base, exponent)


def largest(*arguments: float) -> float:
    """The largest of several values; the formula shows all of them."""
    return _function("max", max, *arguments)


def smallest(*arguments: float) -> float:
    """The smallest of several values; the formula shows all of them."""
    return _function("min", min, *arguments)


def leaves(node: Node) -> Iterator[Symbol]:
    """Every symbol a formula reads, in the order of reading, repeats included."""
    if isinstance(node, Symbol):
        yield node
    elif isinstance(node, (Operation, Call)):
        for argument in node.arguments:
            yield from leaves(argument)
