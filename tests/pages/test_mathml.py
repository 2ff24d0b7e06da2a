"""The formula that is shown is the one that was evaluated: read back from its MathML, it gives the same value."""

import math
from collections.abc import Callable
from xml.etree import ElementTree

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from macros.calculations.formula import (
    Call,
    Node,
    Number,
    Operation,
    Symbol,
    Traced,
    exp,
    largest,
    log,
    node_of,
    power,
    smallest,
    sqrt,
)
from macros.pages.mathml import LONGEST, TooLongError, formula, spoken, symbol_mathml

VALUES = {"a": 2.0, "b": 3.5, "c": 0.25, "d": 7.0}


def traced(name: str) -> Traced:
    return Traced(VALUES[name], Symbol(f"x.{name}", name))


def written(node: Node) -> str:
    return formula("y", node, lambda one: one.symbol, lambda one: one.symbol, "result")


def said(node: Node) -> str:
    return spoken(node, lambda one: one.symbol)


class Reader:
    """Evaluates presentation MathML as a reader would, by the usual rules of writing and nothing of ours."""

    def __init__(self, values: dict[str, float], functions: dict[str, Callable[..., float]]) -> None:
        self.values, self.functions = values, functions

    def value(self, element: ElementTree.Element) -> float:
        match element.tag:
            case "mn":
                return float(element.text or "")
            case "mi":
                return self.values[element.text or ""]
            case "mfrac":
                return self.value(element[0]) / self.value(element[1])
            case "msqrt":
                return math.sqrt(self.sequence(list(element)))
            case "msup":
                return math.pow(self.value(element[0]), self.value(element[1]))
            case "mrow":
                return self.sequence(list(element))
        raise AssertionError(element.tag)

    def sequence(self, items: list[ElementTree.Element]) -> float:
        """A row of terms and signs, brackets and applied functions in it."""
        if [item.text for item in items if item.tag == "mo"][:1] == ["\u2061"]:
            name = items[0].text or ""
            return self.functions[name](*self.arguments(items[2]))
        if items and items[0].tag == "mo" and items[0].text == "(":
            assert items[-1].text == ")"
            return self.sequence(items[1:-1])
        if not any(item.tag == "mo" for item in items):
            (only,) = items
            return self.value(only)
        total, sign, term = 0.0, 1.0, None
        times = False
        for item in items:
            if item.tag == "mo" and item.text in "+−":
                if term is not None:
                    total += sign * term
                sign, term = (1.0 if item.text == "+" else -1.0), None
            elif item.tag == "mo":
                assert item.text in ("⋅", "×"), item.text
                times = True
            else:
                assert term is None or times, "two terms beside each other"
                term = self.value(item) if term is None else term * self.value(item)
                times = False
        assert term is not None
        return total + sign * term

    def arguments(self, element: ElementTree.Element) -> list[float]:
        parts: list[list[ElementTree.Element]] = [[]]
        for item in list(element)[1:-1]:
            if item.tag == "mo" and item.text == ",":
                parts.append([])
            else:
                parts[-1].append(item)
        return [self.sequence(part) for part in parts]


READER = Reader(VALUES, {"exp": math.exp, "ln": math.log, "max": max, "min": min, "density": lambda p, t: p * 10 + t})


def read_back(node: Node) -> float:
    root = ElementTree.fromstring(written(node))
    (row,) = root
    assert row[1].text == "="
    return READER.value(row[2])


A, B, C, D = (traced(name) for name in "abcd")


@pytest.mark.parametrize(
    "value",
    [
        A * B / (C * D),
        A / B / C,
        A / (B / C),
        A * (B + C),
        (A - B) - (C - D),
        A - (B + C),
        A + (B - C),
        -(A + B) * C,
        A * -B,
        A + -B,
        A - -B,
        (-A).__neg__(),
        2 * A,
        A * 2 * B,
        A * 1.5e-14 / 3,
        A + -2.0,
        A * -2.0,
        A - 273.15,
        A**2,
        (A * B) ** 2,
        (A + B) ** C,
        (-A) ** 2.0,
        A ** (B / C),
        power(A, 0.5),
        power(power(A, 2.0), 3.0),
        (2e-9 * A) ** 2,
        Traced(2e-9**2, Operation("**", (Number(2e-9), Number(2.0)))) * A,
        sqrt(A * B + C),
        sqrt(A) ** 2,
        exp(-A / B) * C,
        log((A + B) / C) / log(D),
        largest(A, B * C, 3.0) - smallest(A, D),
        1 / (A * B),
        1 * A / 1,
        A / B * C / D,
        (A / B) ** 2,
        A * 1e7,
        A * 123456789.0,
        A + 1e-5,
    ],
    ids=lambda value: said(node_of(value)),
)
def test_what_is_shown_is_what_was_evaluated(value: Traced) -> None:
    assert read_back(value.node) == pytest.approx(float(value), rel=1e-12)


def test_an_opaque_function_is_shown_by_its_name() -> None:
    node = Operation("*", (Call("density", (A.node, B.node)), C.node))
    shown = written(node)
    assert "<mtext>density</mtext>" in shown
    assert read_back(node) == (2.0 * 10 + 3.5) * 0.25


NODES = st.recursive(
    st.one_of(
        st.sampled_from(list(VALUES)).map(lambda name: Symbol(f"x.{name}", name)),
        st.floats(-1e6, 1e6, allow_nan=False).map(Number),
        st.floats(1e-20, 1e20).map(Number),
    ),
    lambda inner: st.one_of(
        st.tuples(st.sampled_from(["+", "-", "*", "/", "**"]), inner, inner).map(
            lambda t: Operation(t[0], (t[1], t[2]))
        ),
        st.tuples(st.sampled_from(["neg", "exp", "log", "sqrt"]), inner).map(lambda t: Operation(t[0], (t[1],))),
        st.tuples(st.sampled_from(["max", "min"]), inner, inner).map(lambda t: Operation(t[0], (t[1], t[2]))),
    ),
    max_leaves=8,
)

OPERATIONS: dict[str, Callable[..., float]] = {
    "+": lambda a, b: a + b,
    "-": lambda a, b: a - b,
    "*": lambda a, b: a * b,
    "/": lambda a, b: a / b,
    "**": math.pow,
    "neg": lambda a: -a,
    "exp": math.exp,
    "log": math.log,
    "sqrt": math.sqrt,
    "max": max,
    "min": min,
}


def direct(node: Node) -> float:
    if isinstance(node, Number):
        return node.value
    if isinstance(node, Symbol):
        return VALUES[node.symbol]
    assert isinstance(node, Operation)
    return OPERATIONS[node.name](*(direct(argument) for argument in node.arguments))


@settings(max_examples=400, deadline=None)
@given(NODES)
def test_any_tree_reads_back_to_its_value(node: Node) -> None:
    try:
        value = direct(node)
        again = read_back(node)
    except (ArithmeticError, ValueError):
        assume(False)
    # Products are shown as one fraction, so the order of rounding differs, and sums may cancel.
    assume(1e-100 < abs(value) < 1e100 and 1e-100 < abs(again) < 1e100)
    close = math.isclose(again, value, rel_tol=1e-6)
    if not close:
        shaken = direct(_shaken(node))
        assume(math.isclose(shaken, value, rel_tol=1e-6))
    assert close


def _shaken(node: Node) -> Node:
    """The same tree with every number a little off: where that changes the value much, the tree is ill-conditioned."""
    if isinstance(node, Number):
        return Number(node.value * (1 + 1e-12))
    if isinstance(node, Operation):
        return Operation(node.name, tuple(_shaken(argument) for argument in node.arguments))
    return node


@pytest.mark.parametrize(
    ("symbol", "shown"),
    [
        ("I", "<mi>I</mi>"),
        ("p_in", "<msub><mi>p</mi><mtext>in</mtext></msub>"),
        ("T_1", "<msub><mi>T</mi><mn>1</mn></msub>"),
        ("η_F", "<msub><mi>η</mi><mi>F</mi></msub>"),
        ("m_H2", '<msub><mi>m</mi><mrow><msub><mi mathvariant="normal">H</mi><mn>2</mn></msub></mrow></msub>'),
        ("p_d_max", "<msub><mi>p</mi><mrow><mi>d</mi><mo>,</mo><mtext>max</mtext></mrow></msub>"),
        ("ΔU_cold", '<msub><mrow><mi mathvariant="normal">Δ</mi><mi>U</mi></mrow><mtext>cold</mtext></msub>'),
        ("U(j)", "<mrow><mi>U</mi><mo>(</mo><mi>j</mi><mo>)</mo></mrow>"),
        ("UA", "<mi>UA</mi>"),
        ("a<b", "<mi>a&lt;b</mi>"),
        ("stack.hydrogen_flow", "<mtext>hydrogen flow</mtext>"),
    ],
)
def test_symbols(symbol: str, shown: str) -> None:
    assert symbol_mathml(symbol) == shown


@pytest.mark.parametrize(
    ("node", "words"),
    [
        ((A * B / (2 * C)).node, "the fraction a times b over 2 times c, end of fraction"),
        (((A + B) * C).node, "open bracket a plus b close bracket times c"),
        ((A - (B - C)).node, "a minus open bracket b minus c close bracket"),
        ((A**2 + B**3 + A**C).node, "a squared plus b cubed plus a to the power of c, end of power"),
        (node_of(sqrt(A)), "the square root of a, end of root"),
        (node_of(log(A)), "the natural logarithm of a, end of logarithm"),
        (node_of(exp(-A)), "e to the power of minus a, end of power"),
        (node_of(largest(A, B, 3.0)), "the largest of a, b and 3, end of list"),
        (node_of(smallest(A, B)), "the smallest of a and b, end of list"),
        (Call("density", (A.node, B.node)), "density of a and b, end of arguments"),
        ((1.5e-14 * A).node, "1.5 times 10 to the power of −14 times a"),
    ],
)
def test_spoken_text_says_what_a_listener_cannot_see(node: Node, words: str) -> None:
    assert said(node) == words


def test_spoken_text_comes_with_the_formula() -> None:
    root = ElementTree.fromstring(written((A * B).node))
    assert root.get("alttext") == root.get("aria-label") == "result equals a times b"


def test_a_formula_that_nobody_reads_is_not_shown() -> None:
    total = A
    for _ in range(LONGEST):
        total = total + B
    with pytest.raises(TooLongError):
        written(total.node)


def test_a_deep_formula_does_not_exhaust_the_stack() -> None:
    node = A.node
    for _ in range(LONGEST // 2 - 2):
        node = Operation("neg", (Operation("sqrt", (node,)),))
    assert ElementTree.fromstring(written(node)) is not None
