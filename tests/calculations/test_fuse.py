"""The fuse window: the cable is protected by both conditions of IEC 60364-4-43, clause 433.1."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.fuse import fuse_maximum, fuse_minimum


@settings(max_examples=300)
@given(st.floats(1.0, 1e3), st.floats(1.0, 2.5))
def test_the_largest_fuse_meets_both_conditions_and_one_of_them_just_so(ampacity, ratio):
    rating = fuse_maximum(ampacity, ratio)
    assert rating <= ampacity
    assert ratio * rating <= 1.45 * ampacity * (1 + 1e-12)
    assert rating == pytest.approx(ampacity, rel=1e-12) or ratio * rating == pytest.approx(1.45 * ampacity, rel=1e-12)


@settings(max_examples=300)
@given(st.floats(1.0, 1e3), st.floats(1.0, 2.0))
def test_the_smallest_fuse_bears_the_current(current, factor):
    assert fuse_minimum(current) == current
    assert fuse_minimum(current, factor) >= current
    assert fuse_minimum(current, factor) == pytest.approx(factor * current, rel=1e-12)


def test_the_shed_plants_window():
    """60 A and a cable that bears 110 A: from 60 A to 1.45 × 110 / 1.6 = 99.7 A; a fuse of 80 A lies inside."""
    assert fuse_minimum(60.0) < 80.0 < fuse_maximum(110.0) == pytest.approx(99.6875)
