"""Dissolved hydrogen: the rule 4 · drag · p / k_H, and what a degassing pot leaves of it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.dissolved import (
    dissolved_fraction,
    henry_constant,
    hydrogen_returned,
    returned_per_hydrogen,
    share_of_oxygen,
)
from macros.calculations.faraday import hydrogen_produced, oxygen_produced, water_dragged


@settings(max_examples=300)
@given(
    st.floats(1.0, 500.0), st.integers(1, 300), st.floats(0.1, 5.0), st.floats(1e5, 5e6), st.floats(275.0, 370.0),
    st.floats(0.0, 1.0),
)  # fmt: skip
def test_drains_bring_back_four_drags_of_what_the_water_holds(current, cells, drag, pressure, temperature, freed):
    constant = henry_constant(temperature)
    share = dissolved_fraction(pressure, constant)
    made = hydrogen_produced(current, float(cells))
    returned = hydrogen_returned(water_dragged(current, float(cells), drag), share, freed)
    assert share_of_oxygen(returned, oxygen_produced(made)) == pytest.approx(
        4 * drag * pressure / constant * (1 - freed), rel=1e-9, abs=1e-15
    )
    assert returned == pytest.approx(made * returned_per_hydrogen(drag, share, freed), rel=1e-9, abs=1e-18)


def test_a_common_rule_of_water_dragged_at_26_bar():
    """Drag 3, 26 bar, k_H about 7.1e4 bar: 4 × 3 × 26 / 7.1e4 = 0.44 percentage points (common practice, no source)."""
    share = dissolved_fraction(26e5, henry_constant(298.15))
    assert 2 * returned_per_hydrogen(3.0, share) == pytest.approx(0.0044, rel=2e-3)


@settings(max_examples=300)
@given(st.floats(273.15, 372.0))
def test_hydrogen_is_least_soluble_between_fifty_and_seventy_degrees(temperature):
    """From memory: IUPAC Solubility Data Series 5/6, where hydrogen's solubility passes a minimum there."""
    step = henry_constant(temperature + 1.0) - henry_constant(temperature)
    if temperature < 323.15:
        assert step > 0
    if temperature > 343.15:
        assert step < 0
