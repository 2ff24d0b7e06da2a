"""Hydrogen in the oxygen: atoms balance, a dead catalyst is the worst, the least current meets its limit exactly."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from macros.calculations.catalyst import catalyst_heat, hydrogen_in_oxygen, minimum_current, recombined
from macros.calculations.contract import OutOfRange
from macros.calculations.faraday import hydrogen_produced, oxygen_produced

crossings = st.floats(1e-8, 1e-3)
efficiencies = st.floats(0.0, 1.0)
limits = st.floats(1e-3, 0.2)


@settings(max_examples=300)
@given(crossings, st.floats(1.5, 1e4), efficiencies, st.floats(0.0, 1e-4))
def test_the_gas_that_leaves_is_the_hydrogen_and_oxygen_that_remain(crossing, times, efficiency, returned):
    gross = times * crossing
    burnt = recombined(crossing, efficiency)
    hydrogen, oxygen = crossing - burnt + returned, oxygen_produced(gross, burnt)
    share = hydrogen_in_oxygen(crossing, gross, efficiency, returned)
    assert share == pytest.approx(hydrogen / (hydrogen + oxygen), rel=1e-9, abs=1e-12)
    assert 0 <= share < 1


@settings(max_examples=300)
@given(crossings, st.floats(2.1, 1e4), efficiencies, efficiencies)
def test_a_dead_catalyst_is_never_better_than_a_living_one(crossing, times, one, other):
    worse, better = sorted((one, other))
    dead = hydrogen_in_oxygen(crossing, times * crossing)
    assert dead >= hydrogen_in_oxygen(crossing, times * crossing, worse) - 1e-12
    assert hydrogen_in_oxygen(crossing, times * crossing, worse) >= (
        hydrogen_in_oxygen(crossing, times * crossing, better) - 1e-12
    )


@settings(max_examples=300)
@given(crossings, limits, st.floats(0.0, 0.999), st.integers(1, 300), st.floats(0.0, 3e-3))
def test_at_the_least_current_the_limit_is_met_exactly(crossing, limit, efficiency, cells, returned):
    assume(returned * (1 - limit) / limit < 0.49)
    current = minimum_current(crossing, limit, efficiency, float(cells), returned)
    assume(1e-6 < current < 1e4)
    gross = hydrogen_produced(current, float(cells))
    assume(gross >= 1e-9)
    assert hydrogen_in_oxygen(crossing, gross, efficiency, returned * gross) == pytest.approx(limit, rel=1e-8)


@settings(max_examples=300)
@given(crossings, limits, limits, st.integers(1, 300))
def test_a_stricter_limit_or_a_dead_catalyst_asks_for_more_current(crossing, one, other, cells):
    strict, loose = sorted((one, other))
    assert minimum_current(crossing, strict, 0.7, float(cells)) >= minimum_current(crossing, loose, 0.7, float(cells))
    assert minimum_current(crossing, loose, 0.0, float(cells)) > minimum_current(crossing, loose, 0.7, float(cells))


def test_drains_that_bring_more_than_the_limit_leave_no_current():
    with pytest.raises(OutOfRange, match="the drains alone") as refusal:
        minimum_current(4e-5, 0.004, 0.7, 16.0, 0.0022)
    assert refusal.value.argument == "returned_per_hydrogen"
    assert minimum_current(4e-5, 0.005, 0.7, 16.0, 0.0022) > 0


def test_a_catalyst_cannot_burn_more_oxygen_than_there_is():
    with pytest.raises(OutOfRange, match="which the catalyst burns") as refusal:
        hydrogen_in_oxygen(1e-3, 7e-4, 0.7)
    assert refusal.value.argument == "hydrogen_gross_mol_per_s"
    assert 0.9 < hydrogen_in_oxygen(1e-3, 7.1e-4, 0.7) < 1


@settings(max_examples=300)
@given(crossings, efficiencies)
def test_the_catalyst_gives_the_heat_of_what_it_burns(crossing, efficiency):
    heat = catalyst_heat(recombined(crossing, efficiency), 1.4812)
    assert heat == pytest.approx(efficiency * crossing * 285.83e3, rel=1e-4, abs=1e-15)


def test_the_shed_plants_oxygen_with_its_catalyst_alive_and_dead():
    """
    Sixteen cells at 60 A with 54.4 NmL/min crossing, by hand.

    G = 16 × 60 / 192 970.66 = 4.974 85e-3 mol/s. 54.4 NmL/min = 54.4e-3 / 22.414 / 60 = 4.045 1e-5 mol/s.
    Alive, η = 0.7: 1.213 5e-5 over 1.213 5e-5 + 2.487 43e-3 − 1.415 8e-5 = 0.488 2 %.
    Dead: 4.045 1e-5 over 4.045 1e-5 + 2.487 43e-3 = 1.600 2 %.
    """
    crossing = 54.4e-3 / 22.41396954 / 60
    assert hydrogen_in_oxygen(crossing, 4.97485e-3, 0.7) == pytest.approx(0.004882, rel=1e-3)
    assert hydrogen_in_oxygen(crossing, 4.97485e-3, 0.0) == pytest.approx(0.016002, rel=1e-3)
