"""Purging and testing of the shed, checked by hand."""

import pytest

from tests.figures import the_shed
from tests.figures.the_shed import ATMOSPHERE, BAR


@pytest.fixture(scope="module")
def graph():
    return the_shed.pinned(the_shed.description())


def test_swings_before_hydrogen(graph):
    """
    20.9 % to 1 %, to 4 bar(g) over 1.012 77 bar: ln 20.9/ln(5.012 77/1.012 77) = 3.039 75/1.599 30 = 1.900 7, so 2.
    """
    assert graph["safety.purge_swings_in_exact"].si == pytest.approx(1.9007, rel=1e-4)
    assert graph["safety.purge_swings_in"].si == 2.0
    assert graph["safety.purge_swings_in"].show() == "2"


def test_swings_before_air(graph):
    """100 % to 1 %: 4.605 17/1.599 30 = 2.879 5, so 3."""
    assert graph["safety.purge_swings_out_exact"].si == pytest.approx(2.8795, rel=1e-4)
    assert graph["safety.purge_swings_out"].si == 3.0


def test_more_swings_where_less_may_be_left(graph):
    """20.9 % to 0.1 %: 5.342 33/1.599 30 = 3.34, so 4."""
    assert graph.with_inputs({"safety.oxygen_left": "0.1 %"})["safety.purge_swings_in"].si == 4.0


def test_nitrogen_for_the_train(graph):
    """2 swings × 4 bar × 1.2 L/(8.314 463 × 265.15) = 0.435 46 mol = 9.76 NL."""
    assert graph["safety.train.purge_nitrogen"].si == pytest.approx(0.43546, rel=1e-4)


def test_what_the_gauge_may_fall(graph):
    """
    5 NmL/min of hydrogen are 3.717 9e-6 mol/s, over 3.727 8 of nitrogen 9.973 4e-7; × 8.314 463 × 288.15 ×
    1800/0.001 2 = 3584 Pa.
    In the buffer's 10 L it is 430 Pa, the smallest of all.
    """
    assert graph["safety.leak_test_factor"].si == pytest.approx(3.7278, rel=1e-4)
    assert graph["safety.train.leak_test_allowance"].si == pytest.approx(3584, rel=1e-3)
    assert graph["safety.leak_test_allowance"].si == pytest.approx(430.1, rel=1e-3)


def test_a_kelvin_moves_the_gauge_more_than_the_leak_may(graph):
    """7.012 77 bar(a)/288.15 K = 2434 Pa for each kelvin."""
    assert graph["safety.leak_test_per_kelvin"].si == pytest.approx(2433.7, rel=1e-4)
    assert graph["safety.leak_test_per_kelvin"].si > graph["safety.leak_test_allowance"].si


def test_the_strength_test_is_with_water_and_says_so(graph):
    """1.43 × 30 = 42.9 bar(g)."""
    assert graph["safety.train.strength_test_pressure"].si == pytest.approx(42.9 * BAR + ATMOSPHERE, abs=10)
    assert "with water" in graph["safety.train.strength_test_pressure"].title
    assert "with water" in graph["safety.strength_test_pressure"].title


def test_the_test_with_gas_is_for_licensed_hands(graph):
    """
    1.1 × 30 = 33 bar(g); 1.2 L hold 3 401 277 × 0.001 2/0.4 × (1 − 0.029 776^0.285 714) = 10 204 × 0.633 6 = 6465 J.
    """
    assert graph["safety.train.pneumatic_test_pressure"].si == pytest.approx(33 * BAR + ATMOSPHERE, abs=10)
    assert "licensed hands" in graph["safety.train.pneumatic_test_pressure"].title
    assert graph["safety.train.pneumatic_stored_energy"].si == pytest.approx(6465, rel=1e-3)


def test_cylinders_are_not_tested_here(graph):
    assert "safety.bank.strength_test_pressure" not in graph


def test_how_long_the_bank_takes_to_bleed(graph):
    """
    200 L from 55.13 bar(a) through Kv 0.1, 1.964 2e-6 m2, at 15 °C, as an ideal gas (the real one holds 2 % less):
    choked down to 1.93 bar(a), at 6.289e-4 kg/(s m2) for each pascal: 0.2 × 8.414e-7 × ln(55.13/1.93)/(1.964 2e-6 ×
    6.289e-4) = 457 s. Then 13, 56, 80, 98, 113 and 121 kg/(s m2) at 1.02, 1.2, 1.4, 1.6, 1.8 and 1.93 bar(a): steps of
    0.2 × 8.414e-7 × Δp/(1.964 2e-6 × G): 36 to 1.2, 26, 19, 16 and 10 s, 108 s in all: 565 s.
    """
    assert graph["safety.bank.bleeding_time"].si == pytest.approx(565, rel=2e-2)
    assert graph.with_inputs({"items.v16.flow_coefficient": "0.2 Kv"})["safety.bank.bleeding_time"].si == pytest.approx(
        graph["safety.bank.bleeding_time"].si / 2
    )
