"""The buffer's cycle: mass, times and counts that must agree with each other."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.buffer_cycle import cycle_mass, cycles_in_time, time_of_cycle_life, time_to_make
from macros.calculations.contract import OutOfRange
from macros.calculations.storage import mass_between
from tests.calculations import other_hydrogen

pressures = st.floats(1.1e5, 3e7)
flows = st.floats(1e-7, 1e-2)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-3, 1.0), st.floats(0.0, 0.5), pressures, pressures, st.floats(240.0, 340.0))
def test_the_train_counts_as_if_it_were_buffer(buffer, train, one, two, temperature):
    cut_in, cut_out = sorted((one, two))
    mass = cycle_mass(buffer, train, cut_in, cut_out, temperature)
    assert mass == pytest.approx(mass_between(buffer + train, cut_out, cut_in, temperature))
    assert mass == pytest.approx(
        (buffer + train) * (other_hydrogen.density(cut_out, temperature) - other_hydrogen.density(cut_in, temperature)),
        rel=2e-3, abs=2e-3 * (buffer + train),
    )  # fmt: skip


def test_a_switch_upside_down_is_refused():
    with pytest.raises(OutOfRange) as refusal:
        cycle_mass(0.01, 0.0, 2.6e6, 1.6e6, 288.15)
    assert refusal.value.argument == "cut_in_pa"
    assert cycle_mass(0.01, 0.0, 1.6e6, 1.6e6, 288.15) == 0


@settings(max_examples=300, deadline=None)
@given(st.floats(1.0, 3e7), st.floats(1.0, 1e6), st.floats(100.0, 1e7))
def test_cycles_and_their_life_agree(running, period, life):
    cycles = cycles_in_time(running, period)
    assert cycles * period == pytest.approx(running)
    lasts = time_of_cycle_life(life, cycles, running)
    assert lasts / period == pytest.approx(life)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-6, 1e3), flows)
def test_time_times_flow_is_the_mass(mass, flow):
    assert time_to_make(mass, flow) * flow == pytest.approx(mass)
