"""Roots are found where a library finds them, and not where there is none."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from macros.calculations.roots import root_between


@settings(max_examples=300, deadline=None)
@given(st.floats(-5.0, 5.0), st.floats(0.1, 3.0), st.floats(0.0, 2.0))
def test_it_agrees_with_scipy(shift, slope, bend):
    def function(x):
        return slope * (x - shift) + bend * (x - shift) ** 3

    root = root_between(function, -20.0, 19.0)
    assert root == pytest.approx(brentq(function, -20.0, 19.0, xtol=1e-14), abs=1e-9)
    assert root == pytest.approx(shift, abs=1e-6)


def test_a_bent_function_takes_few_steps():
    asked = []

    def function(x):
        asked.append(x)
        return math.exp(20 * x) - 2

    assert root_between(function, -10.0, 3.0) == pytest.approx(math.log(2) / 20, rel=1e-9)
    assert len(asked) < 120


def test_a_root_at_an_end_is_found():
    assert root_between(lambda x: x, 0.0, 5.0) == 0
    assert root_between(lambda x: x, -5.0, 0.0) == 0


def test_without_a_change_of_sign_there_is_no_root():
    for function in (lambda x: x * x + 1, lambda x: -x * x - 1, lambda x: x * math.nan):
        with pytest.raises(ValueError, match="no change of sign"):
            root_between(function, -1.0, 1.0)
