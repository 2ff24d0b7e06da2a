"""A stopped stack: two ways to a limit agree where they must, letting down faster leaves less hydrogen."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations import standstill
from macros.calculations.contract import OutOfRange
from macros.calculations.standstill import (
    dry_gas_held,
    hydrogen_after_let_down,
    let_down_time,
    sweep_flow,
    time_to_limit,
    time_to_limit_shut,
)

gases = st.floats(1e-3, 10.0)
crossings = st.floats(1e-8, 1e-2)
limits = st.floats(1e-3, 0.9)


@settings(max_examples=300)
@given(gases, crossings, limits)
def test_an_open_vent_loses_oxygen_and_reaches_the_limit_sooner(gas, crossing, limit):
    vented, shut = time_to_limit(gas, crossing, limit), time_to_limit_shut(gas, crossing, limit)
    assert 0 < vented < shut
    hydrogen = crossing * shut
    assert hydrogen / (hydrogen + gas) == pytest.approx(limit, rel=1e-9)


@settings(max_examples=300)
@given(gases, crossings, limits)
def test_steady_crossing_for_that_long_gives_the_limit(gas, crossing, limit):
    time = time_to_limit(gas, crossing, limit)
    if time <= 1e7:
        assert hydrogen_after_let_down(crossing, crossing, time, gas) == pytest.approx(limit, rel=1e-9)


@settings(max_examples=300)
@given(st.floats(2e5, 1e7), st.floats(10.0, 1e6), gases, crossings)
def test_a_faster_let_down_leaves_less_hydrogen(pressure, rate, gas, crossing):
    slow, fast = let_down_time(pressure, 1.5e5, rate), let_down_time(pressure, 1.5e5, 2 * rate)
    assert fast == pytest.approx(slow / 2, rel=1e-12)
    if slow <= 1e7:
        assert hydrogen_after_let_down(crossing, 0.0, fast, gas) <= hydrogen_after_let_down(crossing, 0.0, slow, gas)
        assert hydrogen_after_let_down(crossing, 0.0, slow, gas) <= hydrogen_after_let_down(
            crossing, crossing, slow, gas
        )
        assert 0 <= hydrogen_after_let_down(crossing, crossing, slow, gas) <= 1


def test_letting_down_to_a_higher_pressure_is_refused():
    assert let_down_time(2e5, 2e5, 1e3) == 0.0
    with pytest.raises(OutOfRange) as refusal:
        let_down_time(2e5, 2.1e5, 1e3)
    assert refusal.value.argument == "end_pressure_pa"


@settings(max_examples=300)
@given(st.floats(1e-5, 1.0), st.floats(1.1e5, 1e6), st.floats(0.0, 1e5), st.floats(280.0, 370.0))
def test_gas_held_grows_with_volume_and_pressure_and_gives_way_to_vapour(volume, pressure, vapour, temperature):
    dry = dry_gas_held(volume, pressure, vapour, temperature)
    assert dry * 8.31446261815324 * temperature / volume == pytest.approx(pressure - vapour, rel=1e-12)
    assert dry <= dry_gas_held(volume, pressure, 0.0, temperature)


def test_boiling_water_leaves_no_gas():
    with pytest.raises(OutOfRange, match="above the vapour's") as refusal:
        dry_gas_held(1e-3, 1e5, 1e5, 373.0)
    assert refusal.value.argument == "pressure_pa"


def test_a_litre_of_oxygen_passes_four_percent_in_about_forty_seconds():
    """
    A common rule for 55 NmL/min into a litre. By hand, at 60 °C and 1.11 bar(a), vapour 0.1995 bar taken off:
    0.910 5e5 × 1e-3 / (8.314 46 × 333.15) = 0.032 871 mol; 55 NmL/min = 4.089 8e-5 mol/s; 0.032 871 / 4.089 8e-5
    × 0.040 822 = 32.8 s. A litre counted at 0 °C and one atmosphere, as the rule seems to do, takes 44.5 s.
    """
    crossing = 55e-3 / 22.41396954 / 60
    hot = dry_gas_held(1e-3, 1.11e5, 0.1995e5, 333.15)
    assert time_to_limit(hot, crossing, 0.04) == pytest.approx(32.8, rel=2e-3)
    normal = dry_gas_held(1e-3, 101325.0, 0.0, 273.15)
    assert time_to_limit(normal, crossing, 0.04) == pytest.approx(44.5, rel=2e-3)


@settings(max_examples=300)
@given(crossings, limits)
def test_the_sweep_thins_what_crosses_to_the_limit(crossing, limit):
    sweep = sweep_flow(crossing, limit)
    assert crossing / (crossing + sweep) == pytest.approx(limit, rel=1e-9)


def test_the_lower_flammable_limit_is_that_of_hydrogen_in_air():
    """4 % by volume, the common figure of handbooks and of ISO/TR 15916 (from memory)."""
    assert float(standstill.LOWER_FLAMMABLE_LIMIT) == 0.04
