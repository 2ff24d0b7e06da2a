"""A traced number computes as a float does and remembers how."""

import math
import operator
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from macros.calculations.constants import FARADAY, GAS_CONSTANT
from macros.calculations.contract import OutOfRange
from macros.calculations.faraday import hydrogen_produced
from macros.calculations.formula import (
    Call,
    Constant,
    Curve,
    Number,
    Symbol,
    Traced,
    exp,
    largest,
    leaves,
    log,
    power,
    smallest,
    sqrt,
)

NUMBERS = st.floats(min_value=0.01, max_value=1e6)
BINARY = [operator.add, operator.sub, operator.mul, operator.truediv]


def traced(value, name="x"):
    return Traced(value, Symbol(f"test.{name}", name))


def evaluate(node, values):
    """The reader's way: work a formula out from its symbols alone."""
    if isinstance(node, Number):
        return node.value
    if isinstance(node, Symbol):
        return values[node.path]
    arguments = [evaluate(argument, values) for argument in node.arguments]
    functions = {
        "+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv, "**": math.pow,
        "neg": operator.neg, "exp": math.exp, "log": math.log, "sqrt": math.sqrt, "max": max, "min": min,
    }  # fmt: skip
    return functions[node.name](*arguments)


@given(NUMBERS, NUMBERS, st.sampled_from(BINARY))
def test_arithmetic_is_that_of_floats_and_the_tree_gives_it_again(a, b, operation):
    result = operation(traced(a, "a"), traced(b, "b"))
    assert float(result) == operation(a, b)
    assert evaluate(result.node, {"test.a": a, "test.b": b}) == operation(a, b)


@given(NUMBERS, NUMBERS)
def test_plain_numbers_on_either_side_stand_in_the_formula(a, b):
    for operation in BINARY:
        assert evaluate(operation(a, traced(b)).node, {"test.x": b}) == operation(a, b)
        assert evaluate(operation(traced(a), b).node, {"test.x": a}) == operation(a, b)


def test_a_factor_of_one_does_not_clutter_the_formula():
    assert (1.0 * traced(3.0)).node == (traced(3.0) * 1.0).node == Symbol("test.x", "x")
    assert (traced(3.0) / 1.0).node == Symbol("test.x", "x")
    assert (1.0 / traced(3.0)).node != Symbol("test.x", "x")


@given(st.floats(min_value=0.1, max_value=20), st.floats(min_value=0.1, max_value=3))
def test_functions_keep_the_trace(a, b):
    x, y = traced(a, "a"), traced(b, "b")
    result = exp(-x) + log(x) * sqrt(y) + power(x, y) + x**2 + largest(x, y) - smallest(x, y)
    assert evaluate(result.node, {"test.a": a, "test.b": b}) == pytest.approx(float(result), rel=1e-12)


def test_functions_of_plain_numbers_are_plain():
    assert type(exp(1.0)) is float
    assert type(largest(1.0, 2.0)) is float


def test_a_calculation_of_plain_numbers_is_plain_though_it_reads_constants():
    assert type(hydrogen_produced(60.0, 16.0)) is float


def test_a_calculation_of_traced_numbers_shows_its_arithmetic():
    result = hydrogen_produced(traced(60.0, "I"), traced(16.0, "N"))
    assert [leaf.symbol for leaf in leaves(result.node)] == ["N", "I", "F"]
    assert float(result) == hydrogen_produced(60.0, 16.0)


def test_a_constant_without_a_source_cannot_be_built():
    with pytest.raises(ValueError, match="names no source"):
        Constant(1.0, "c", "m/s", "speed", "")


def test_constants_multiplied_with_each_other_stay_named():
    assert [leaf.symbol for leaf in leaves((GAS_CONSTANT / FARADAY).node)] == ["R", "F"]


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -1.0, 0.0, True, "60"])
def test_an_argument_out_of_its_range_is_refused_by_name(wrong):
    with pytest.raises(OutOfRange, match="hydrogen_produced: current_a is") as refusal:
        hydrogen_produced(wrong, 16.0)
    assert refusal.value.wanted.startswith("above 0")


def test_traced_numbers_and_curves_survive_copying():
    copy = pickle.loads(pickle.dumps(traced(2.0)))
    assert copy == 2.0
    assert copy.node == Symbol("test.x", "x")


def test_curves_remember_where_they_were_given():
    curve = Curve(((0.0, 1.0), (1.0, 2.0)), Symbol("stack.polarisation", "U"))
    assert curve[1] == (1.0, 2.0)
    assert Call("interpolate", (curve.node,)).arguments[0].path == "stack.polarisation"
