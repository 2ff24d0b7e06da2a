"""Tubes: a thicker wall bears more, thin and thick agree where the wall is thin, the stress is never exceeded."""

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.tube import minimum_wall, thick_wall_rating, thin_wall_rating, tube_rating

diameters = st.floats(1e-3, 0.2)
shares = st.floats(0.005, 0.45)
stresses = st.floats(20e6, 400e6)


@settings(max_examples=300)
@given(diameters, shares, stresses, st.floats(1.001, 1.05))
@example(1e-3, 0.45, 20e6, 1.05)
@example(0.2, 0.005, 400e6, 1.001)
def test_a_thicker_wall_bears_more(diameter, share, stress, more):
    for rating in (thin_wall_rating, thick_wall_rating):
        assert rating(diameter, share * more * diameter, stress) > rating(diameter, share * diameter, stress) > 0


@settings(max_examples=300)
@given(diameters, shares, stresses)
def test_a_thick_tube_never_bears_its_allowable_stress(diameter, share, stress):
    assert thick_wall_rating(diameter, share * diameter, stress) < stress


@settings(max_examples=300)
@given(diameters, st.floats(0.001, 0.02), stresses)
def test_thin_and_thick_agree_where_the_wall_is_thin(diameter, share, stress):
    thin, thick = (
        thin_wall_rating(diameter, share * diameter, stress),
        thick_wall_rating(diameter, share * diameter, stress),
    )
    assert thin == pytest.approx(thick, rel=0.01)


@settings(max_examples=300)
@given(diameters, shares, st.floats(0.0, 0.3), stresses)
def test_the_rating_is_the_lower_and_falls_with_tolerance(diameter, share, tolerance, stress):
    wall = share * diameter
    rated = tube_rating(diameter, wall, tolerance, stress, 101325.0) - 101325.0
    thinnest = minimum_wall(wall, tolerance)
    assert rated == pytest.approx(
        min(thin_wall_rating(diameter, thinnest, stress), thick_wall_rating(diameter, thinnest, stress))
    )
    assert rated <= tube_rating(diameter, wall, 0.0, stress, 101325.0) - 101325.0 + 1e-6


@settings(max_examples=300)
@given(st.floats(1e-4, 1e-2), st.floats(0.0, 0.5), st.floats(0.0, 1e-2))
def test_the_minimum_wall_is_never_more_than_the_wall(wall, tolerance, allowance):
    assume(wall * (1 - tolerance) > allowance)
    assert 0 < minimum_wall(wall, tolerance, allowance) <= wall


@pytest.mark.parametrize(
    "call",
    [
        lambda: minimum_wall(1e-3, 0.1, 1e-3),
        lambda: minimum_wall(0.0, 0.1),
        lambda: thin_wall_rating(6e-3, 3e-3, 1e8),
        lambda: thick_wall_rating(6e-3, 3e-3, 1e8),
        lambda: tube_rating(6e-3, 3.5e-3, 0.1, 1e8, 101325.0),
        lambda: thin_wall_rating(6e-3, 1e-3, math.nan),
        lambda: thin_wall_rating(6e-3, 1e-3, 1e8, 1.1),
        lambda: thick_wall_rating(6e-3, 0.0, 1e8),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


def test_a_seam_of_half_the_quality_bears_half():
    assert thin_wall_rating(6e-3, 9e-4, 1e8, 0.5) == pytest.approx(thin_wall_rating(6e-3, 9e-4, 1e8) / 2)


def test_a_wall_that_wear_takes_whole_is_refused():
    with pytest.raises(OutOfRange):
        minimum_wall(1e-3, 0.0, 1e-3)
