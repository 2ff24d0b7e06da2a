"""Water: what is filled in is what leaves."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.water_balance import top_up_interval, water_consumption, water_drained

flows = st.floats(0.0, 1.0)


@settings(max_examples=300)
@given(flows, flows, flows, flows)
def test_each_way_out_counts_once(split, oxygen, hydrogen, drained):
    total = water_consumption(split, oxygen, hydrogen, drained)
    assert total == pytest.approx(split + oxygen + hydrogen + drained, rel=1e-12, abs=1e-300)
    assert water_consumption(split, oxygen, hydrogen) == pytest.approx(total - drained, rel=1e-9, abs=1e-12)


@settings(max_examples=300)
@given(st.floats(1e-4, 10.0), st.floats(1e-7, 1.0))
def test_in_the_interval_the_usable_water_is_used(usable, consumption):
    assert top_up_interval(usable, consumption) * consumption / 998.2 == pytest.approx(usable, rel=1e-12)


@settings(max_examples=300)
@given(st.floats(0.0, 1e-2), st.floats(0.0, 1.0), flows)
def test_drains_take_what_condenses_and_what_is_dragged(vapour, left, dragged):
    drained = water_drained(vapour, left * vapour, dragged)
    assert drained + left * vapour == pytest.approx(vapour + dragged, rel=1e-9, abs=1e-12)
    assert drained >= dragged * (1 - 1e-12)
