"""The air of a room: balances close, more leak is never safer, the layer is never better than the mean, refusals."""

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.ventilation import (
    dilution_air,
    draught,
    fraction_after,
    hydrogen_in_room,
    layer_draught,
    layer_fraction,
    lightness_of_hydrogen,
    lightness_of_warmth,
    mixed_fraction,
    opening_needed,
    openings_in_series,
    plume_air,
    release_fraction,
    time_to_clear,
    time_to_fraction,
)

leaks = st.floats(1e-7, 0.1)
airs = st.floats(1e-4, 10.0)
spaces = st.floats(0.5, 1000.0)
fractions = st.floats(1e-4, 0.5)


@settings(max_examples=300)
@given(leaks, fractions)
@example(1e-7, 1e-4)
@example(0.1, 0.5)
def test_the_air_asked_for_gives_the_fraction_allowed(leak, fraction):
    assert mixed_fraction(leak, dilution_air(leak, fraction)) == pytest.approx(fraction, rel=1e-12)


@settings(max_examples=300)
@given(leaks, airs, spaces)
def test_after_long_a_room_settles_at_the_mixed_fraction(leak, air, space):
    assert fraction_after(leak, air, space, 60 * space / air) == pytest.approx(mixed_fraction(leak, air), rel=1e-9)
    assert fraction_after(leak, air, space, 0.0) == 0.0


@settings(max_examples=300)
@given(leaks, spaces, st.floats(0.0, 0.9))
def test_the_time_to_a_fraction_is_the_time_at_which_it_is_reached(leak, space, fraction):
    assert fraction_after(leak, 0.0, space, time_to_fraction(leak, space, fraction)) == pytest.approx(
        fraction, abs=1e-9
    )


@settings(max_examples=300)
@given(leaks, airs, spaces, st.floats(0.0, 1e6), st.floats(1.0, 3.0))
def test_a_longer_or_larger_leak_is_never_safer(leak, air, space, time_s, more):
    now = fraction_after(leak, air, space, time_s)
    assert 0.0 <= now <= fraction_after(leak, air, space, time_s * more) * (1 + 1e-12) <= 1.0 + 1e-12
    assert now <= fraction_after(leak * more, air, space, time_s) * (1 + 1e-9) + 1e-15


def test_without_leak_and_air_nothing_changes():
    assert fraction_after(0.0, 0.0, 30.0, 3600.0) == 0.0


@settings(max_examples=300)
@given(st.floats(1e-4, 1.0), st.floats(0.01, 1.0), st.floats(1e-5, 0.1))
def test_twice_the_air_changes_clear_in_half_the_time(start, share, changes):
    time_s = time_to_clear(start, start * share, changes)
    assert time_s >= 0
    assert time_to_clear(start, start * share, 2 * changes) == pytest.approx(time_s / 2)
    assert start * math.exp(-changes * time_s) == pytest.approx(start * share)


@settings(max_examples=300)
@given(st.floats(1e-3, 5.0), st.floats(1e-3, 5.0))
def test_two_openings_resist_more_than_the_smaller(lower, upper):
    both = openings_in_series(lower, upper)
    assert min(lower, upper) / math.sqrt(2) * (1 - 1e-12) <= both < min(lower, upper)
    assert both == pytest.approx(openings_in_series(upper, lower))


@settings(max_examples=300)
@given(st.floats(1e-4, 5.0), st.floats(0.2, 1.0), st.floats(0.1, 8.0), st.floats(1e-4, 0.5))
def test_the_opening_needed_draws_what_is_wanted(air, coefficient, height, lightness):
    each = opening_needed(air, coefficient, height, lightness)
    assume(1e-6 < each < 1000)
    assert draught(openings_in_series(each, each), coefficient, height, lightness) == pytest.approx(air)


@settings(max_examples=300)
@given(st.floats(250.0, 320.0), st.floats(250.0, 320.0))
def test_only_the_warmer_room_draws(inside, outside):
    assert (lightness_of_warmth(inside, outside) > 0) == (inside > outside)
    assert lightness_of_warmth(inside, outside) * lightness_of_warmth(outside, inside) == 0.0


@settings(max_examples=300)
@given(st.floats(0.0, 1.0))
def test_air_with_hydrogen_is_lighter_but_never_weightless(fraction):
    assert 0.0 <= lightness_of_hydrogen(fraction) < 0.9305


@settings(max_examples=300)
@given(leaks, st.floats(0.01, 10.0), st.floats(0.05, 0.2), st.floats(1.01, 3.0))
def test_a_plume_draws_in_more_the_higher_it_rises(leak, rise, entrainment, more):
    assert plume_air(leak, rise * more, entrainment) == pytest.approx(
        plume_air(leak, rise, entrainment) * more ** (5 / 3)
    )
    assert plume_air(8 * leak, rise, entrainment) == pytest.approx(2 * plume_air(leak, rise, entrainment))


@settings(max_examples=300)
@given(leaks, airs, airs)
def test_the_layer_is_never_better_than_the_mean(leak, air, plume):
    assert layer_fraction(leak, air, plume) >= mixed_fraction(leak, air) * (1 - 1e-12)
    assert layer_fraction(leak, air, plume) >= mixed_fraction(leak, plume) * (1 - 1e-12)


@settings(max_examples=300)
@given(leaks, st.floats(1e-3, 2.0), st.floats(0.5, 6.0), st.floats(0.0, 0.95), st.floats(0.05, 0.2))
@example(1e-7, 1e-3, 0.5, 0.95, 0.2)
@example(0.1, 2.0, 6.0, 0.0, 0.05)
def test_the_layer_draws_what_the_plume_brings(leak, area, height, share, entrainment):
    """Where the plume brings `air`, the layer from there to the high opening draws just that."""
    air = layer_draught(leak, area, 0.61, height, share * height, entrainment)
    reach = height * (1 - share)
    assert 0 < air <= plume_air(leak, reach, entrainment)
    rise = reach * (air / plume_air(leak, reach, entrainment)) ** 0.6
    buoyancy = 9.80665 * leak * (1 - 2.01588 / 28.96546)
    drawn = 0.61 * area * math.sqrt(2 * buoyancy / air * max(0.0, reach - rise))
    assert drawn == pytest.approx(air, rel=1e-3) or reach - rise < 1e-9 * reach


@settings(max_examples=300)
@given(st.floats(0.0, 100.0), spaces)
def test_an_inventory_never_fills_more_than_the_room(mass, room):
    share = release_fraction(mass, 293.15, 101325.0, room)
    assert 0.0 <= share <= 1.0
    assert share <= release_fraction(mass + 1.0, 293.15, 101325.0, room)


@settings(max_examples=300)
@given(st.floats(0.0, 1.0), st.floats(250.0, 330.0))
def test_a_leak_takes_more_room_where_it_is_warm_and_high(mass_flow, temperature_k):
    assert hydrogen_in_room(mass_flow, temperature_k, 90e3) >= hydrogen_in_room(mass_flow, temperature_k, 101325.0)
    assert hydrogen_in_room(mass_flow, temperature_k + 10, 90e3) >= hydrogen_in_room(mass_flow, temperature_k, 90e3)


@pytest.mark.parametrize(
    "call",
    [
        lambda: dilution_air(1e-4, 0.0),
        lambda: dilution_air(-1e-4, 0.01),
        lambda: dilution_air(math.nan, 0.01),
        lambda: mixed_fraction(1e-4, 0.0),
        lambda: fraction_after(1e-4, 0.01, 0.0, 1.0),
        lambda: time_to_fraction(0.0, 30.0, 0.01),
        lambda: time_to_clear(0.01, 0.02, 0.001),
        lambda: openings_in_series(0.0, 0.1),
        lambda: opening_needed(0.1, 0.61, 2.0, 0.0),
        lambda: layer_draught(1e-4, 0.1, 0.61, 2.0, 2.0),
        lambda: layer_fraction(0.0, 0.1, 0.1),
        lambda: release_fraction(1.0, 293.15, 101325.0, 0.0),
        lambda: plume_air(1e-4, 2.0, 0.5),
        lambda: hydrogen_in_room(1e-4, 293.15, 0.0),
        lambda: lightness_of_hydrogen(1.1),
        lambda: lightness_of_warmth(0.0, 293.15),
        lambda: draught(0.1, 0.61, -1.0, 0.01),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
