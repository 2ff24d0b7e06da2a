"""Every calculation of storage, buffer, boosters, compression, filling and transfers keeps to its bounds."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations import booster, buffer_cycle, compression, equalise, filling, free_flow, run, storage, transfer
from macros.calculations.contract import CALCULATIONS, OutOfRange
from tests.calculations.drawn import arguments_of, is_finite_or_refused, outside

SUBJECTS = (booster, buffer_cycle, compression, equalise, filling, free_flow, run, storage, transfer)
OURS = sorted(
    key for key, entry in CALCULATIONS.items() if entry.module in {one.__name__.rsplit(".", 1)[-1] for one in SUBJECTS}
)
NUMBERS = [key for key in OURS if not key.startswith(("run.", "transfer.", "filling.gas_wall", "filling.shortest"))]
CURVES = {"rate_curve": ((0.0, 1.0), (0.5, 0.6), (1.0, 0.0))}


@pytest.mark.parametrize("key", NUMBERS)
def test_gives_a_finite_number_or_says_that_it_cannot(key):
    function = CALCULATIONS[key].function

    @settings(max_examples=300, deadline=None)
    @given(arguments_of(function))
    def check(arguments):
        assert is_finite_or_refused(function, arguments | _curves(arguments))

    check()


@pytest.mark.parametrize("key", OURS)
def test_each_argument_outside_its_bounds_is_refused_by_name(key):
    entry = CALCULATIONS[key]
    usual = {name: CURVES.get(name, _inside(bound)) for name, bound in entry.bounds.items()}
    for name, bound in entry.bounds.items():
        if bound.curve:
            continue
        for value in outside(bound):
            with pytest.raises(OutOfRange) as refusal:
                entry.function(**usual | {name: value})
            assert refusal.value.argument == name
            assert refusal.value.wanted == str(bound)


def _inside(bound):
    low, high = max(bound.low, -1e9), min(bound.high, 1e9)
    return math.sqrt(low * high) if low > 0 else (low + high) / 2


def test_measured_points_that_do_not_rise_are_refused():
    with pytest.raises(OutOfRange):
        booster.rate_share(((0.5, 1.0), (0.5, 0.2)), 0.5)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(NUMBERS), st.data())
def test_never_gives_not_a_number(key, data):
    entry = CALCULATIONS[key]
    arguments = data.draw(arguments_of(entry.function))
    name = data.draw(st.sampled_from([name for name in arguments if name not in CURVES]))
    with pytest.raises(OutOfRange):
        entry.function(**arguments | _curves(arguments) | {name: math.nan})


def _curves(arguments):
    return {name: CURVES[name] for name in arguments if name in CURVES}
