"""
The water circuit and the oxygen side of the shed plant, checked by hand.

4 L/min through stack and cooler, 38 °C on the hottest day, drains back by a degassing pot that frees 70 % of what is
dissolved. The first separator stands at 40 °C.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.figures import water
from macros.figures.graph import read_paths, title_of
from tests.figures.shed_pinned import NORMAL_ML_PER_MIN, graph_of, shed, shed_graph, shed_with


@pytest.fixture
def graph():
    return shed_graph()


def test_each_figure_of_the_water_side_has_a_value_a_title_and_reads_what_it_declares(graph):
    names = [each.name for each in water.figures(shed())]
    assert len(names) > 30
    for name in names:
        value = graph[name]
        assert value.is_number
        assert title_of(name)
        assert read_paths(value) == set(value.inputs), name


def test_cooling_on_the_hottest_day(graph):
    # 4 L/min × 4.11 MJ/(m³ K) = 274.0 W/K; 503.4 W warm it by 1.837 K
    assert graph["water.capacity_rate"].si == pytest.approx(274.0)
    assert graph["water.temperature_rise"].si == pytest.approx(1.8372, rel=1e-3)
    # 400 m³/h of air at 38 °C and 101.277 kPa: 1006 × 0.111 11 × 101 277 / (287.05 × 311.15) = 126.75 W/K
    assert graph["water.air_capacity_rate"].si == pytest.approx(126.75, rel=1e-4)
    # NTU 45 / 126.75 = 0.355 04, ratio 0.462 58: 0.355 04^0.22 = 0.796 34, 0.355 04^0.78 = 0.445 84;
    # 1 − exp(0.796 34 / 0.462 58 × (exp(−0.206 24) − 1)) = 1 − exp(−1.721 51 × 0.186 36) = 27.44 %
    assert graph["water.cooler_effectiveness"].si == pytest.approx(0.2744, rel=1e-3)
    # 0.274 44 × 126.75 × 22 K = 765.3 W; (765.3 − 503.4) / 765.3 = 34.2 % is left
    assert graph["water.cooling_capacity"].si == pytest.approx(765.3, rel=1e-3)
    assert graph["water.cooling_margin"].si == pytest.approx(0.3422, rel=1e-3)
    # At 50 °C ambient only 10 K are left: 348 W, and the margin says that the stack trips
    assert graph.with_inputs({"site.hottest": "50 °C"})["water.cooling_margin"].si < 0


def test_dissolved_hydrogen_that_returns(graph):
    # k_H at 40 °C 7.593e9 Pa (IAPWS G7-04): 25.809 9e5 / 7.593 3e9 = 339.9 ppm
    assert graph["water.henry_constant"].si == pytest.approx(7.593e9, rel=1e-3)
    assert graph["water.hydrogen_dissolved"].si == pytest.approx(339.9e-6, rel=1e-3)
    # 1.936 kg/h drain, 0.029 84 mol/s of water: 1.014 4e-5 mol/s dissolved; 70 % go to the pot's vent, 30 % come back
    assert graph["water.hydrogen_flashed"].si == pytest.approx(7.10e-6, rel=2e-3)
    assert graph["water.hydrogen_returned"].si == pytest.approx(3.043e-6, rel=2e-3)
    assert graph["water.hydrogen_returned"].si == pytest.approx(4.09 * NORMAL_ML_PER_MIN, rel=2e-3)
    # 4 × 3 × 25.81 / 75 933 = 0.408 % of the oxygen made, 0.411 % of what leaves beside the catalyst; 0.123 % of it
    # come back
    assert graph["water.hydrogen_returned_share_undegassed"].si == pytest.approx(0.00411, rel=2e-3)
    assert graph["water.hydrogen_returned_share"].si == pytest.approx(0.3 * 0.00411, rel=2e-3)
    # At cut-in 15.811 2 / 25.809 9 of it
    assert graph["water.hydrogen_returned_cut_in"].si == pytest.approx(3.043e-6 * 15.8112 / 25.8099, rel=2e-3)


def test_only_what_grows_with_the_stack_reads_the_number_of_its_cells(graph):
    """Twice the cells make twice the oxygen and bring twice the hydrogen back: the shares stay."""
    grows = {name for name in graph.descendants(["stack.cells"]) if name.startswith(("water.", "oxygen."))}
    assert grows == {
        "water.temperature_rise", "water.cooling_margin", "water.with_hydrogen", "water.consumption",
        "water.top_up_interval", "water.exhaustion_time", "water.deioniser_life",
        "oxygen.water_carried", "oxygen.vent_velocity",
        *(f"water.hydrogen_{name}{ending}" for name in ("returned", "flashed") for ending in water.CATHODE),
    }  # fmt: skip
    twice = graph.with_inputs({"stack.cells": "32"})
    for name in grows - {"water.deioniser_life"}:  # the resin's age limit comes first, whatever the stack uses
        assert twice[name].si != pytest.approx(graph[name].si, rel=0.1), name
    assert twice["water.hydrogen_returned"].si == pytest.approx(2 * graph["water.hydrogen_returned"].si, rel=1e-12)


def test_without_a_train_the_shares_of_a_cell_are_those_of_what_it_drags():
    graph = graph_of(shed_with("plant", drying=[]))
    # 121 g/h dragged through each cell, 1.865e-3 mol/s of water, × 25.809 9e5 / 7.842e9 = 329.1 ppm: 6.138e-7 mol/s,
    # against (60 / 192 970.66 − 0.7 × 2.954 6e-6) / 2 = 1.544 30e-4 mol/s of oxygen: 0.397 5 %
    assert graph["water.hydrogen_returned_share_undegassed"].si == pytest.approx(0.003975, rel=2e-3)
    assert graph["water.hydrogen_returned"].si == pytest.approx(16 * 0.3 * 6.138e-7, rel=2e-3)


def test_a_drain_that_stays_open(graph):
    # Choked ideal gas, k = 1.405: 26.013e5 × √(1.405 × 2.015 88e-3 / (8.314 463 × 313.15)) × (2 / 2.405)^(2.405 /
    # 0.81) = 26.013e5 × 1.043 0e-3 × 0.578 3 = 1569 kg/(s m²) through 7.068 6e-8 m²: 1.109e-4 kg/s = 0.055 02 mol/s =
    # 74.0 NL/min. The real gas gives a thousandth or two less. That is eleven times what the stack makes.
    assert graph["water.drain_blow_by"].si == pytest.approx(0.05502, rel=5e-3)
    assert graph["water.drain_blow_by"].si > 10 * graph["stack.hydrogen_normal_flow"].si
    # A bore of 1 mm passes 11.1 times as much, hundreds of NL/min
    wide = graph.with_inputs({"water.drain_orifice": "1 mm"})
    assert wide["water.drain_blow_by"].si == pytest.approx(graph["water.drain_blow_by"].si / 0.09, rel=1e-6)
    assert graph["water.drain_blow_by_relief"].si == pytest.approx(0.05502 * 34.913 / 26.013, rel=6e-3)


def test_water_used_and_how_long_it_lasts(graph):
    # Oxygen leaves at 40 °C and 1.112 77 bar(a): 0.073 85 × 1.000 7 / 1.112 77 = 6.642 % vapour: 2.470 88e-3 × 0.066
    # 42 / 0.933 58 = 1.757 9e-4 mol/s = 11.40 g/h
    assert graph["oxygen.water_carried"].si * 3.6e6 == pytest.approx(11.40, rel=2e-3)
    # 320.50 + 11.40 + what the drains miss, below a gram an hour: 0.332 kg/h; 6 L × 0.998 2 / 0.332 3 = 18.02 h
    assert graph["water.with_hydrogen"].si * 3.6e6 < 1.0
    assert graph["water.consumption"].si * 3600 == pytest.approx(0.3323, rel=2e-3)
    assert graph["water.top_up_interval"].show() == "18\u00a0h"


def test_water_drained_to_waste_must_be_filled_in_again():
    graph = graph_of(shed_with("water", drains_return="waste"))
    # 1.936 kg/h dragged go down the drain: six times what is split
    assert graph["water.consumption"].si * 3600 == pytest.approx(0.3323 + 1.936, rel=3e-3)
    assert graph["water.top_up_interval"].si == pytest.approx(6 * 0.9982 / 2.268 * 3600, rel=3e-3)


def test_water_is_kept(graph):
    """What is filled in leaves split, with the oxygen or with the hydrogen; what drains comes back."""
    leaving = (
        graph["stack.water_consumed"].si + graph["oxygen.water_carried"].si
        + graph["drying.1.inlet_water_mean"].si - graph["drying.condensate"].si
    )  # fmt: skip
    assert graph["water.consumption"].si == pytest.approx(leaving, rel=1e-12)


def test_the_resin_ages_before_it_fills(graph):
    # 1.445e-4 S/m / 94.6e-4 = 0.015 275 mol/m³, and 0.014 of carbon dioxide; 0.615 mol last 39 years, so the year
    # counts
    assert graph["water.ionic_load"].si == pytest.approx(0.015275, rel=1e-4)
    assert graph["water.exhaustion_time"].si / (8760 * 3600) == pytest.approx(39.4, rel=5e-3)
    assert graph["water.deioniser_life"].si == graph["water.deioniser.age_limit"].si
    # Tap water of 500 µS/cm: 5.279 mol/m³; 0.615 mol / 5.293 = 0.116 2 m³, at 0.333 kg/h 349 h of running, at 1600 h
    # a year 80 days
    tap = graph.with_inputs({"water.feed_conductivity": "500 uS/cm"})
    assert tap["water.deioniser_life"].si / 86400 == pytest.approx(79.6, rel=5e-3)


def test_the_oxygen_leaves_slowly(graph):
    # 2.470 88e-3 / (1 − 0.072 97) = 2.665 4e-3 mol/s × 8.314 463 × 313.15 / 101 277 = 6.852e-5 m³/s over 1.131 0e-4
    # m²: 0.606 m/s
    assert graph["oxygen.vent_velocity"].si == pytest.approx(0.606, rel=2e-3)


def test_without_a_train_the_dragged_water_is_what_leaves_with_the_hydrogen():
    graph = graph_of(shed_with("plant", drying=[]))
    assert graph["water.henry_constant"].si == pytest.approx(7.842e9, rel=1e-3)
    assert graph["water.with_hydrogen"].si > graph["stack.water_dragged"].si
    assert "drying.condensate" not in graph


@settings(max_examples=60, deadline=None)
@given(st.floats(20.0, 59.0), st.floats(0.0, 100.0), st.floats(0.1, 2.0))
def test_hotter_days_cool_less_and_pots_that_free_more_return_less(hottest, freed, bore):
    graph = shed_graph().with_inputs({"site.hottest": f"{hottest!r} °C", "water.degassed_share": f"{freed!r} %"})
    hotter = graph.with_inputs({"site.hottest": f"{hottest + 0.5!r} °C"})
    assert hotter["water.cooling_capacity"].si < graph["water.cooling_capacity"].si
    together = graph["water.hydrogen_returned"].si + graph["water.hydrogen_flashed"].si
    assert together == pytest.approx(shed_graph()["water.hydrogen_returned"].si / 0.3, rel=1e-9)
    narrow = graph.with_inputs({"water.vent_bore": f"{bore!r} cm"})
    assert narrow["oxygen.vent_velocity"].si == pytest.approx(
        graph["oxygen.vent_velocity"].si * (1.2 / bore) ** 2, rel=1e-9
    )
