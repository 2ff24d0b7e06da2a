"""Hydrogen that crosses: more pressure, warmth and area let more through, thickness less, and nothing runs uphill."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.crossover import (
    crossover_flow,
    crossover_flux,
    faraday_efficiency,
    membrane_permeability,
    wet_thickness,
)

NORMAL_ML_PER_MIN = 22.41396954e-3 * 1e6 * 60
temperatures = st.floats(278.15, 363.15)
permeabilities = st.floats(1e-15, 1e-13)
pressures = st.floats(1e5, 1e7)
thicknesses = st.floats(10e-6, 500e-6)


@settings(max_examples=300)
@given(temperatures, temperatures)
def test_a_warmer_membrane_lets_more_through(one, other):
    cool, warm = sorted((one, other))
    assert membrane_permeability(cool) <= membrane_permeability(warm)


@settings(max_examples=300)
@given(permeabilities, pressures, st.floats(0.0, 1.0), thicknesses, st.floats(0.5, 20.0))
def test_crossing_is_proportional_to_what_drives_it(permeability, pressure, other_side, thickness, excess):
    flux = crossover_flux(permeability, pressure, other_side * pressure, thickness, excess)
    undisturbed = excess * crossover_flux(permeability, pressure, 0.0, thickness)
    # the difference of two nearly equal pressures is known to the last bits of either, and no better
    assert flux == pytest.approx((1 - other_side) * undisturbed, rel=1e-9, abs=1e-14 * undisturbed)
    assert flux >= 0
    assert crossover_flux(permeability, pressure, 0.0, 2 * thickness) == pytest.approx(
        crossover_flux(permeability, pressure, 0.0, thickness) / 2, rel=1e-12
    )


def test_hydrogen_does_not_cross_against_its_pressure():
    assert crossover_flux(3e-14, 1e5, 1e5, 178e-6) == 0.0
    with pytest.raises(OutOfRange) as refusal:
        crossover_flux(3e-14, 1e5, 1.001e5, 178e-6)
    assert refusal.value.argument == "oxygen_side_pressure_pa"


@settings(max_examples=300)
@given(st.floats(0.0, 1e-2), st.floats(1e-5, 0.1), st.integers(1, 300))
def test_cells_add_up(flux, area, cells):
    assert crossover_flow(flux, area, float(cells)) == pytest.approx(cells * crossover_flow(flux, area, 1.0), rel=1e-12)


@settings(max_examples=300)
@given(st.floats(0.0, 1.0, exclude_max=True), st.floats(1e-6, 1.0))
def test_what_crosses_is_what_the_efficiency_lacks(share, gross):
    efficiency = faraday_efficiency(share * gross, gross)
    assert 0 <= efficiency <= 1
    assert (1 - efficiency) * gross == pytest.approx(share * gross, rel=1e-9, abs=1e-15 * gross)


def test_a_stack_that_loses_all_it_makes_has_no_efficiency():
    with pytest.raises(OutOfRange, match="the hydrogen made") as refusal:
        faraday_efficiency(1e-3, 1e-3)
    assert refusal.value.argument == "crossover_mol_per_s"


def test_a_dry_membrane_swells_and_lets_less_through_than_its_dry_thickness_says():
    assert wet_thickness(178e-6) > 178e-6


def test_sixteen_cells_at_25_bar_and_60_degrees_leak_about_fifty_normal_millilitres_a_minute():
    """
    A common rule says about 55 NmL/min for sixteen cells of 50 cm², 178 µm, 25 bar(g), 60 °C.

    It stands for 3.5e-14 mol/(m s Pa) on the dry thickness. The sources give, by hand: 5.31e-14 at 80 °C × 0.679 1 =
    3.606e-14 at 60 °C on the wet thickness, 204.7 µm: 3.606e-14 × 25.81e5 / 204.7e-6 = 4.547e-4 mol/(m² s), × 0.08 m²
    = 3.637e-5 mol/s, × 22.414 L/mol × 60 = 48.9 NmL/min. Without the credit for swelling it were 56.3.
    """
    wet = crossover_flux(membrane_permeability(333.15), 26.01e5 - 0.1995e5, 0.0, wet_thickness(178e-6))
    assert crossover_flow(wet, 50e-4, 16.0) * NORMAL_ML_PER_MIN == pytest.approx(48.9, rel=2e-3)
    dry = crossover_flux(membrane_permeability(333.15), 26.01e5 - 0.1995e5, 0.0, 178e-6)
    assert crossover_flow(dry, 50e-4, 16.0) * NORMAL_ML_PER_MIN == pytest.approx(56.3, rel=2e-3)
