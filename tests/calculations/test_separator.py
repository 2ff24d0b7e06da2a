"""Separators and drains: water is conserved, never added, and the mean load lies between the ends."""

import math
from itertools import permutations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.desiccant import water_after_bed
from macros.calculations.humidity import dew_point, water_fraction_of_load
from macros.calculations.separator import (
    pressure_of_mean_load,
    vapour_carried,
    water_after_separating,
    water_leaving_stack,
)

many = settings(max_examples=300, deadline=None)
water = st.floats(0.0, 0.1) | st.sampled_from([0.0, 5.4e-4])
gas = st.floats(1e-4, 1.0)
pressures = st.floats(1.1e5, 350e5) | st.sampled_from([2e5, 16e5, 26e5])
temperatures = st.floats(253.15, 363.15) | st.sampled_from([273.15, 273.16, 298.15, 333.15])
shares = st.floats(0.0, 1.0) | st.sampled_from([0.0, 0.001, 1.0])


@many
@given(water, gas, pressures, temperatures, shares)
def test_a_stage_never_adds_water(water_kg_per_s, dry_gas, pressure_pa, temperature_k, carry_over):
    left = water_after_separating(water_kg_per_s, dry_gas, pressure_pa, temperature_k, carry_over)
    assert math.isfinite(left)
    assert 0 <= left <= water_kg_per_s
    assert left >= vapour_carried(water_kg_per_s, dry_gas, pressure_pa, temperature_k)


@many
@given(water, gas, pressures, temperatures)
def test_without_carry_over_the_gas_leaves_no_wetter_than_saturated(
    water_kg_per_s, dry_gas, pressure_pa, temperature_k
):
    left = water_after_separating(water_kg_per_s, dry_gas, pressure_pa, temperature_k, 0.0)
    assert left == vapour_carried(water_kg_per_s, dry_gas, pressure_pa, temperature_k)
    if 1e-7 * dry_gas < left < water_kg_per_s:
        # At the melting point the saturated fraction steps with the Poynting factor.
        fraction = water_fraction_of_load(left, dry_gas)
        assert dew_point(pressure_pa, fraction) == pytest.approx(temperature_k, abs=0.5)


@many
@given(water, gas, pressures, temperatures)
def test_with_all_carried_over_nothing_is_held_back(water_kg_per_s, dry_gas, pressure_pa, temperature_k):
    left = water_after_separating(water_kg_per_s, dry_gas, pressure_pa, temperature_k, 1.0)
    assert left == pytest.approx(water_kg_per_s, rel=1e-12)


@many
@given(water, gas, pressures, st.floats(253.15, 343.15), shares, st.floats(0.1, 20.0))
def test_a_colder_stage_and_a_better_one_hold_back_more(
    water_kg_per_s, dry_gas, pressure_pa, temperature_k, share, more
):
    left = water_after_separating(water_kg_per_s, dry_gas, pressure_pa, temperature_k, share)
    assert left <= water_after_separating(water_kg_per_s, dry_gas, pressure_pa, temperature_k + more, share) * (
        1 + 1e-3
    )
    assert left >= water_after_separating(water_kg_per_s, dry_gas, pressure_pa, temperature_k, share / 2)


@many
@given(
    water,
    gas,
    pressures,
    st.lists(
        st.tuples(st.sampled_from(["separator", "bed"]), st.floats(263.15, 343.15), st.floats(0.0, 0.05)),
        min_size=1,
        max_size=3,
    ),
)
def test_stages_in_any_order_compute_and_add_up(water_kg_per_s, dry_gas, pressure_pa, stages):
    for order in permutations(stages):
        left, removed = water_kg_per_s, 0.0
        for kind, temperature_k, number in order:
            before = left
            if kind == "separator":
                left = water_after_separating(before, dry_gas, pressure_pa, temperature_k, number)
            else:
                left = water_after_bed(before, dry_gas, pressure_pa, temperature_k, number)
            assert 0 <= left <= before
            removed += before - left
        assert removed + left == pytest.approx(water_kg_per_s, rel=1e-12, abs=1e-15)


@many
@given(water, gas, pressures, temperatures)
def test_gas_from_a_wet_membrane_is_at_least_saturated(water_kg_per_s, dry_gas, pressure_pa, temperature_k):
    leaving = water_leaving_stack(water_kg_per_s, dry_gas, pressure_pa, temperature_k)
    assert leaving >= water_kg_per_s
    assert leaving >= vapour_carried(1.0, dry_gas, pressure_pa, temperature_k) * (1 - 1e-12) or leaving >= 1.0


@many
@given(st.floats(1e4, 500e5), st.floats(1.0, 50.0))
@example(16e5, 1.0)
@example(16e5, 1.0 + 5e-7)
@example(16e5, 1.0 + 2e-6)
def test_the_pressure_of_the_mean_load_lies_between(lower_pa, ratio):
    higher_pa = lower_pa * ratio
    mean = pressure_of_mean_load(lower_pa, higher_pa)
    assert lower_pa * (1 - 1e-12) <= mean <= (lower_pa + higher_pa) / 2 * (1 + 1e-9)
    assert mean >= math.sqrt(lower_pa * higher_pa) * (1 - 1e-9)
    assert pressure_of_mean_load(higher_pa, lower_pa) == pytest.approx(mean, rel=1e-9)


@pytest.mark.parametrize(
    ("change", "argument"),
    [
        ({"water_kg_per_s": -1e-9}, "water_kg_per_s"),
        ({"water_kg_per_s": math.nan}, "water_kg_per_s"),
        ({"dry_gas_mol_per_s": 0.0}, "dry_gas_mol_per_s"),
        ({"pressure_pa": 50.0}, "pressure_pa"),
        ({"temperature_k": 199.0}, "temperature_k"),
        ({"carry_over": 1.01}, "carry_over"),
        ({"carry_over": -0.01}, "carry_over"),
        ({"pressure_pa": 1e4, "temperature_k": 333.15}, "pressure_pa"),
    ],
)
def test_what_makes_no_sense_is_refused_by_name(change, argument):
    usual = {
        "water_kg_per_s": 1e-4,
        "dry_gas_mol_per_s": 5e-3,
        "pressure_pa": 26e5,
        "temperature_k": 298.15,
        "carry_over": 0.01,
    }
    with pytest.raises(OutOfRange) as refusal:
        water_after_separating(**{**usual, **change})
    assert refusal.value.argument == argument
