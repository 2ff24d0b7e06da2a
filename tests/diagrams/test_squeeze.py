"""Drawing a plan closer together changes no order and no shape of what is drawn."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagrams.squeeze import Squeeze

stretches = st.lists(
    st.tuples(st.integers(0, 500), st.integers(1, 60)).map(lambda pair: (float(pair[0]), float(sum(pair)))),
    min_size=1,
    max_size=20,
)


@given(stretches, st.floats(1, 80))
def test_what_is_covered_keeps_its_length(covered, keep):
    squeeze = Squeeze.of(covered, keep)
    for low, high in covered:
        assert squeeze(high) - squeeze(low) == pytest.approx(high - low)


@given(stretches, st.floats(1, 80))
def test_no_empty_stretch_stays_longer_than_asked_and_none_vanishes(covered, keep):
    squeeze = Squeeze.of(covered, keep)
    ends = sorted(covered)
    reached = ends[0][1]
    for low, high in ends[1:]:
        if low > reached:
            assert 0 < squeeze(low) - squeeze(reached) <= min(low - reached, keep) + 1e-9
        reached = max(reached, high)
    assert squeeze.length == pytest.approx(squeeze(reached) - squeeze(ends[0][0]))


@given(stretches, st.floats(1, 80), st.lists(st.floats(0, 600), min_size=2, max_size=10))
def test_no_order_changes(covered, keep, values):
    squeeze = Squeeze.of(covered, keep)
    placed = [squeeze(value) for value in sorted(values)]
    assert placed == sorted(placed)


def test_by_hand():
    # Two symbols of 10, 50 apart, drawn 20 apart: 10 + 20 + 10 = 40.
    squeeze = Squeeze.of([(0, 10), (60, 70)], 20)
    assert (squeeze(0), squeeze(10), squeeze(35), squeeze(60), squeeze(70)) == (0, 10, 20, 30, 40)
    assert squeeze.length == 40
