"""Only names of the plant, `.to(…)`, macros with constants and conditions on `has` may stand in braces."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.pages.expressions import (
    And,
    Has,
    MacroCall,
    Not,
    Or,
    Quote,
    RefusedError,
    read_condition,
    read_expression,
)


def gas_yield(
    cells: float, current: str, faraday_efficiency: str | None = None, *, digits: int = 3, page: object = None
) -> None:
    """Stands for a macro."""


def each(part: str, *names: str, page: object = None) -> None:
    """Stands for a macro that takes as many names as it is given."""


MACROS = {"gas_yield": gas_yield, "each": each}


def refusal(code: str) -> str:
    with pytest.raises(RefusedError) as caught:
        read_expression(code, MACROS)
    return str(caught.value)


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        ("plant.stack.voltage", Quote("stack.voltage")),
        (" plant.stack.voltage ", Quote("stack.voltage")),
        ("plant.drying.3.dew_point", Quote("drying.3.dew_point")),
        ("plant.title", Quote("title")),
        ('plant.stack.flow.to("NL/h")', Quote("stack.flow", "NL/h")),
        ("plant.stack.flow.to(digits=2)", Quote("stack.flow", None, 2)),
        ('plant.stack.flow.to("°C", digits=2)', Quote("stack.flow", "°C", 2)),
        ("plant.stack.flow.to('NL/h', digits=12)", Quote("stack.flow", "NL/h", 12)),
        ('gas_yield(cells=20, current="40 A")', MacroCall("gas_yield", (), {"cells": 20, "current": "40 A"})),
        ('gas_yield(20, "40 A", digits=2)', MacroCall("gas_yield", (20, "40 A"), {"digits": 2})),
        ("gas_yield(20, 40)", MacroCall("gas_yield", (20, "40"), {})),
        ('each("banks", "mass", 3)', MacroCall("each", ("banks", "mass", "3"), {})),
        ('gas_yield(-2.5, "a }} b")', MacroCall("gas_yield", (-2.5, "a }} b"), {})),
        ('gas_yield(\n  cells=20,\n  current="40 A",\n)', MacroCall("gas_yield", (), {"cells": 20, "current": "40 A"})),
    ],
)
def test_what_is_allowed(code: str, expected: object) -> None:
    assert read_expression(code, MACROS) == expected


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("plant.stack.voltage|round", "a filter"),
        ("plant.stack.voltage is defined", "a test"),
        ("plant.stack.voltage if plant.has('x')", "an if inside"),
        ("plant.stack.voltage * 2", "arithmetic"),
        ("plant.stack.voltage + plant.stack.current", "arithmetic"),
        (" -plant.stack.voltage", "arithmetic"),
        ("plant.stack.voltage ** 2", "arithmetic"),
        ("plant.stack.voltage > 2", "a comparison"),
        ("plant.stack ~ 'a'", "joining"),
        ("[plant.stack]", "a list"),
        ("{'a': 1}", "a list"),
        ("plant.stack, plant.buffer", "a list"),
        ("plant['stack']", "a value in brackets"),
        ("plant.drying[1]", "a value in brackets"),
        ("plant.drying[1:2]", "a value in brackets"),
        ("plant.stack[plant.x]", "a value in brackets"),
        ("''.__class__", "a constant"),
        ("''.__class__.__mro__[1].__subclasses__()", "a value in brackets"),
        ("(plant.a).b.to('x')(1)", "a call"),
        ("'text'", "a constant"),
        ("3", "a constant"),
        ("none", "a constant"),
        ("true and false", "a condition"),
        ("not plant.has('x')", "a condition"),
        ("gas_yield(20, '40 A').rich", "a call"),
        ("gas_yield(*plant.x)", "unpacking"),
        ("gas_yield(**plant.x)", "unpacking"),
        ("(1 + 2).to('x')", "arithmetic"),
        ("(x for x in y)", "cannot be read"),
        ("[x for x in y]", "cannot be read"),
        ("lambda: 1", "cannot be read"),
        ("x := 1", "cannot be read"),
        ("plant.", "cannot be read"),
        ("plant..stack", "cannot be read"),
        ("plant.stack.2x", "cannot be read"),
        ("a b", "cannot be read"),
        ("} }", "cannot be read"),
        ("a }} b {{ c", "braces close too early"),
        ("plant.stack.__class__", "is no name"),
        ("plant.Stack.voltage", "is no name"),
        ("plant.drying.0.dew_point", "is no name"),
        ("plant.stäck.x", "is no name"),
        ("stack.voltage", "names of the plant begin with plant"),
        ("self", "names of the plant begin with plant"),
        ("config.site_name", "names of the plant begin with plant"),
        ("config.items()", "names of the plant begin with plant"),
        ("gas_yield", "write gas_yield(…)"),
        ("gas_yeild(1)", "known is gas_yield"),
        ("open('/etc/passwd')", "there is no macro"),
        ("plant", "plant by itself"),
        ("plant.has('boosters')", "is a condition"),
        ("plant.stack.voltage.show()", ".show(…)"),
        ("plant.to('V')", ".to(…)"),
        ("plant.stack.voltage.to()", ".to takes"),
        ("plant.stack.voltage.to(2)", ".to takes"),
        ("plant.stack.voltage.to('V', 2)", ".to takes"),
        ("plant.stack.voltage.to(unit='V')", ".to takes"),
        ("plant.stack.voltage.to('V', digits=2, digits=3)", ".to takes"),
        ("plant.stack.voltage.to(plant.x)", "constants only"),
        ("plant.stack.voltage.to(digits=0)", "from 1 to 12"),
        ("plant.stack.voltage.to(digits=13)", "from 1 to 12"),
        ("plant.stack.voltage.to(digits=2.0)", "from 1 to 12"),
        ("plant.stack.voltage.to(digits=true)", "from 1 to 12"),
        ("plant.stack.voltage.to(digits='2')", "from 1 to 12"),
        ("gas_yield(cells=plant.stack.cells, current='4 A')", "constants only"),
        ("gas_yield(cells=20, current='a' 'b' ~ 'c')", "constants only"),
        ("gas_yield(cells=20, current=-'a')", "constants only"),
        ("gas_yield(cells=[1], current='4 A')", "constants only"),
        ("gas_yield(cells=20, current='4 A', cells=2)", "given twice"),
        ("gas_yield(20, '4 A', cells=2)", "given twice"),
        ("gas_yield(20, '4 A', celsl=2)", "takes no celsl; it takes cells, current"),
        ("gas_yield(20, '4 A', page=2)", "takes no page"),
        ("gas_yield(20, '4 A', '98 %', 3)", "fewer values"),
        ("gas_yield(20)", "needs current"),
        ("gas_yield('20', '40 A')", "cells is 20; wanted is a number without quotes"),
        ("gas_yield(true, '40 A')", "cells is True; wanted is a number"),
        ("gas_yield(20, true)", "current is True; wanted is a text in quotes"),
        ("gas_yield(20, '40 A', digits=2.5)", "digits is 2.5; wanted is a whole number"),
        ("gas_yield(20, '40 A', digits='2')", "wanted is a whole number"),
        ("gas_yield()", "needs cells, current"),
        ("", "nothing stands between"),
        ("   ", "nothing stands between"),
        ("- plant.stack.voltage", "does nothing here"),
        ("-plant.stack.voltage -", "does nothing here"),
        ("gas_yield(20, '4\\x41')", "no backslash"),
        ("gas_yield(20, '4`A')", "no backtick"),
        ("plant." + "a" * 500, "at most 500"),
        ("(" * 240 + ")" * 240, ""),
        ("not " * 120 + "x", "a condition"),
        ("1" * 400, "a constant"),
    ],
)
def test_what_is_refused_and_what_is_said(code: str, said: str) -> None:
    assert said in refusal(code)


def test_a_hyphen_is_named_as_one() -> None:
    said = refusal("plant.banks.high-side.mass")
    assert "reads as a subtraction, since names have no hyphen; write plant.banks.high_side.mass." in said


def test_every_refusal_says_what_is_allowed() -> None:
    assert refusal("plant.a|round").endswith(
        'Allowed are a name such as plant.stack.voltage, its .to("unit", digits=2), and a macro with constants; '
        "what must be calculated becomes a figure."
    )


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        ('plant.has("boosters")', Has("boosters")),
        ("plant.has('banks.high')", Has("banks.high")),
        ('not plant.has("a")', Not(Has("a"))),
        ('plant.has("a") and plant.has("b") or plant.has("c")', Or(And(Has("a"), Has("b")), Has("c"))),
        ('plant.has("a") and (plant.has("b") or not plant.has("c"))', And(Has("a"), Or(Has("b"), Not(Has("c"))))),
    ],
)
def test_conditions(code: str, expected: object) -> None:
    assert read_condition(code) == expected


@pytest.mark.parametrize(
    ("code", "said"),
    [
        ("plant.stack.voltage", "is no condition"),
        ("plant.stack.voltage > 3", "is no condition"),
        ("true", "is no condition"),
        ("1", "is no condition"),
        ("plant.has", "is no condition"),
        ("plant.has()", "is no condition"),
        ("plant.has(1)", "is no condition"),
        ("plant.has('a', 'b')", "is no condition"),
        ("plant.has(part='a')", "is no condition"),
        ("plant.has(*x)", "is no condition"),
        ("plant.has('a' ~ 'b')", "is no condition"),
        ("plant.stack.has('a')", "is no condition"),
        ("plant.has('a') is true", "is no condition"),
        ("plant.has('a')|upper", "is no condition"),
        ("plant.has('a') if plant.has('b')", "cannot be read"),
        ("has('a')", "is no condition"),
        ("plant.has('A b')", "is no name"),
        ("plant.has('')", "is no name"),
        ("plant.has('a') %}{{ x }}{% if y", "cannot be read"),
        ("plant.has('a') %}{{ x }}{% endif %}{% if plant.has('b')", "is no condition"),
        ("plant.has('a') %}{% else", "is no condition"),
        ("plant.has('a') and", "cannot be read"),
        ("", "nothing stands between"),
        ("plant.has('a\\'')", "no backslash"),
    ],
)
def test_conditions_that_are_refused(code: str, said: str) -> None:
    with pytest.raises(RefusedError) as caught:
        read_condition(code)
    assert said in str(caught.value)


PIECES = st.sampled_from(
    ["plant", "stack", ".", "(", ")", "[", "]", "{", "}", '"', "'", "a", "1", "|", "~", "*", "-", ",", "=", " ", "gas_yield",
     "to", "has", "not", "and", "if", "else", "is", "in", "for", "%}", "}}", "{{", "{%", "#", "\n", "°", "\\", "`", "__class__"]
)  # fmt: skip


@settings(max_examples=500, deadline=None)
@given(st.one_of(st.lists(PIECES, max_size=14).map("".join), st.text(max_size=40)))
def test_anything_is_read_or_refused(code: str) -> None:
    for read in (lambda: read_expression(code, MACROS), lambda: read_condition(code)):
        try:
            assert read() is not None
        except RefusedError as refused:
            assert str(refused)
