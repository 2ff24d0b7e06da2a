"""
Leaks and rooms of the shed, checked by hand.

Leaks by the ideal equation, which errs by less than 1 % here: hydrogen at −8 °C, k M/(R T) = 1.405 × 2.015 88e-3 /
(8.314 463 × 265.15) = 1.284 74e-6, root 1.133 46e-3, × 0.578 377 = 6.555 7e-4 kg/(s m2) for each pascal before the
hole.
"""

from dataclasses import replace

import pytest

from macros.calculations.sources import sources
from macros.figures.graph import read_paths
from tests.figures import the_shed
from tests.figures.the_shed import ATMOSPHERE, BAR, NORMAL_L_PER_MIN, NORMAL_M3_PER_H


@pytest.fixture(scope="module")
def description():
    return the_shed.description()


@pytest.fixture(scope="module")
def graph(description):
    return the_shed.pinned(description)


def test_the_train_reaches_what_its_relief_lets_through(graph):
    """30 bar(g) × (1 + 0.03 + 0.10) = 33.9 bar(g)."""
    assert graph["safety.train.highest_pressure"].si == pytest.approx(33.9 * BAR + ATMOSPHERE, abs=10)
    assert graph["safety.train.highest_pressure"].show() == "33.9\u00a0bar(g)"


def test_what_rides_with_the_buffer_reaches_what_the_buffers_relief_lets_through(graph):
    assert graph["safety.column.highest_pressure"].inputs[1:] == (
        "items.rv1.set_pressure", "items.rv1.tolerance", "items.rv1.accumulation",
    )  # fmt: skip


def test_the_bank_reaches_its_pressure_of_the_hottest_day(graph):
    """51.013 bar(a) × 311.15/288.15 = 55.08 as an ideal gas; the real one gains a little more."""
    assert graph["safety.bank.highest_pressure"].si == pytest.approx(55.13 * BAR, rel=2e-3)


def test_the_leak_of_a_seal(graph):
    """34.913 bar(a) through 0.025 mm2: 3 491 277 × 6.555 7e-4 × 2.5e-8 = 5.722e-5 kg/s = 38.2 NL/min."""
    assert graph["safety.train.leak_flow"].si * NORMAL_L_PER_MIN == pytest.approx(38.17, rel=1e-2)


def test_the_leak_of_a_hole_is_no_leak_that_air_could_thin(graph):
    """1 mm: 0.785 4 mm2, 31.4 times as much: 71.95 Nm3/h, which would ask for 7000 m3/h of air."""
    assert graph["safety.train.hole_leak_flow"].si * NORMAL_M3_PER_H == pytest.approx(71.95, rel=1e-2)


def test_the_worst_seal_of_a_section_counts(graph):
    """The booster's own 0.1 mm2 beats the 0.025 mm2 of the other seals."""
    assert graph["safety.high_side.seal_leak_area"].si == pytest.approx(0.1e-6)


def test_the_hydrogen_in_the_shed(graph):
    """
    The seal's leak of 0.028 38 mol/s beats the stack's 0.004 97: × 8.314 463 × 311.15/101 277 = 7.25e-4 m3/s (43.5
    L/min).
    """
    assert graph["safety.rooms.shed.hydrogen_released"].si == pytest.approx(7.250e-4, rel=1e-2)


def test_the_air_that_the_shed_needs(graph):
    """To 1 %: 7.25e-4 × 99 = 0.071 78 m3/s = 258 m3/h; the plant's worst room is this one."""
    assert graph["safety.rooms.shed.ventilation_needed"].si * 3600 == pytest.approx(258.4, rel=1e-2)
    assert graph["safety.ventilation_needed"].si == graph["safety.rooms.shed.ventilation_needed"].si


def test_the_openings_that_would_draw_it(graph):
    """√2 × 0.071 78/(0.61 × √(2 × 9.806 65 × 2.4 × 0.009 304)) = 0.101 51/(0.61 × 0.661 79) = 0.251 5 m2."""
    assert graph["safety.natural_opening_needed"].si == pytest.approx(0.2515, rel=1e-2)


def test_what_the_openings_draw(graph):
    """
    Two of 0.04 m2, 2.1 m apart: 0.61 × 0.028 284 × √(2 × 9.806 65 × 2.1 × 0.009 304) = 0.017 253 × 0.619 05 = 0.010
    68 m3/s.
    """
    assert graph["safety.rooms.shed.natural_flow"].si == pytest.approx(0.010681, rel=1e-3)


def test_the_mean_of_the_shed(graph):
    """7.25e-4/(7.25e-4 + 250/3600) = 1.033 %: the fan of 250 m3/h falls a little short."""
    assert graph["safety.rooms.shed.mixed_fraction"].si == pytest.approx(0.01033, rel=1e-2)


def test_the_layer_under_the_ceiling(graph):
    """
    Rise 2.4 − 0.15 − 1.5 = 0.75 m; 9.806 65 × 7.25e-4 × 0.930 4 = 6.615e-3, cube root 0.187 72; 0.75^(5/3) = 0.619 1;
    0.115 353 × 0.187 72 × 0.619 1 = 0.013 41 m3/s, less than the fan takes: 7.25e-4/(7.25e-4 + 0.013 41) = 5.13 %.
    """
    assert graph["safety.rooms.shed.plume_rise"].si == pytest.approx(0.75)
    assert graph["safety.ceiling_layer_fraction"].si == pytest.approx(0.0513, rel=1e-2)


def test_with_the_fan_lost_the_layer_is_worse_and_both_are_worse_than_the_mean(graph):
    shed = "safety.rooms.shed"
    mean, layer, lost = (
        graph[f"{shed}.{name}"].si
        for name in ("mixed_fraction", "ceiling_layer_fraction", "ceiling_layer_fraction_fan_lost")
    )
    assert mean < layer < lost < 1


def test_the_layer_that_the_openings_leave(graph):
    """
    Rise r from the seal with C³ r⁵ = 2 (C_o A)² (0.75 − r): 1.534 94e-3 r⁵ = 5.953 7e-4 (0.75 − r); r = 0.588 4:
    1.082e-4 on the left,
    9.62e-5 on the right; r = 0.58: 1.007e-4 and 1.012e-4. Air 0.115 353 × 0.187 72 × 0.580 4^(5/3) = 0.021 654 ×
    0.403 9 = 8.75e-3 m3/s:
    7.25e-4/(7.25e-4 + 8.75e-3) = 7.65 %.
    """
    assert graph["safety.rooms.shed.ceiling_layer_fraction_fan_lost"].si == pytest.approx(0.0765, rel=1e-2)


def test_the_time_to_a_quarter_of_the_limit(graph):
    """9 m2 × 0.15 m = 1.35 m3: −1.35/7.25e-4 × ln 0.99 = 18.7 s."""
    assert graph["safety.time_to_quarter_limit"].si == pytest.approx(18.71, rel=1e-2)


def test_what_can_come_out_and_what_share_of_the_shed_it_fills(graph):
    """
    2.5 L of train and 10 L of buffer at 34.913 bar(a) and −8 °C: as an ideal gas 3.192 kg/m3, over 1.021 3 = 3.126;
    × 0.012 5 = 39.1 g.
    19.38 mol × 8.314 463 × 311.15/101 277 = 0.495 m3 in 21.6 m3: 2.29 %.
    """
    assert graph["safety.rooms.shed.inventory"].si == pytest.approx(0.0391, rel=5e-3)
    assert graph["safety.release_fraction"].si == pytest.approx(0.0229, rel=5e-3)


def test_a_section_open_to_its_vent_has_no_pressure_and_no_leak(graph):
    assert "safety.degassing.leak_flow" not in graph


def test_rooms_in_the_open_need_no_air(graph):
    assert not graph.has("safety.rooms.yard")


@pytest.mark.parametrize(
    ("change", "name", "worse"),
    [
        ({"sections.train.seal_leak_area": "0.05 mm2"}, "safety.ventilation_needed", "higher"),
        ({"items.rv2.set_pressure": "40 bar(g)"}, "safety.ventilation_needed", "higher"),
        ({"rooms.shed.pocket_height": "0.1 m"}, "safety.time_to_quarter_limit", "lower"),
        ({"sections.train.seal_height": "2 m"}, "safety.ceiling_layer_fraction", "higher"),
        ({"buffer.volume": "20 L"}, "safety.release_fraction", "higher"),
        ({"rooms.shed.openings.1.area": "100 cm2"}, "safety.rooms.shed.ceiling_layer_fraction_fan_lost", "higher"),
        ({"site.coldest": "-20 °C"}, "safety.train.leak_flow", "higher"),
    ],
)
def test_what_is_worse_reads_worse(graph, change, name, worse):
    before, after = graph[name].si, graph.with_inputs(change)[name].si
    assert after > before if worse == "higher" else after < before


def test_defaults_are_named(graph):
    assert "sections.train.seal_leak_area" in graph["safety.train.leak_flow"].assumed
    assert "sections.train.seal_leak_area" in graph["safety.ceiling_layer_fraction"].assumed


def test_every_safety_figure_reads_what_it_declares(graph):
    names = [name for name in graph.figures if name.startswith("safety.") and graph[name].node is not None]
    assert len(names) > 100
    faults = [name for name in names if read_paths(graph[name]) != set(graph[name].inputs)]
    assert not faults


def test_every_source_that_a_figure_names_is_listed(graph):
    assert not {one.source for one in graph.figures.values() if one.source} - set(sources())


def with_room(description, **changes):
    rooms = dict(description.plant.rooms)
    rooms["shed"] = rooms["shed"].model_copy(update=changes)
    return the_shed.graph_of(replace(description, plant=description.plant.model_copy(update={"rooms": rooms})))


def test_a_room_without_openings_apart_has_no_draught(description):
    graph = with_room(description, openings=description.plant.rooms["shed"].openings[:1])
    assert "safety.rooms.shed.natural_flow" not in graph
    assert graph["safety.ceiling_layer_fraction"].si > 0


def test_without_any_way_for_air_the_layer_is_not_told_as_if_it_were_fine(description):
    graph = with_room(description, openings=[], fan_flow=None)
    assert "safety.ceiling_layer_fraction" not in graph
    assert graph["safety.ventilation_needed"].si > 0 and graph["safety.time_to_quarter_limit"].si > 0


def test_without_a_fan_the_openings_alone_decide(description):
    graph = with_room(description, fan_flow=None)
    both = the_shed.graph_of(description)
    assert graph["safety.ceiling_layer_fraction"].si == both["safety.rooms.shed.ceiling_layer_fraction_fan_lost"].si


def test_a_room_of_unknown_size_still_says_what_air_it_needs(description):
    graph = with_room(description, floor_area=None)
    assert graph["safety.ventilation_needed"].si > 0
    for name in ("natural_opening_needed", "ceiling_layer_fraction", "time_to_quarter_limit", "release_fraction"):
        assert f"safety.{name}" not in graph


def test_without_a_pocket_the_layer_has_its_usual_depth(description):
    """0.15 m where no pocket is described; the plume rises the whole way from the highest seal."""
    graph = with_room(description, pocket_height=None)
    way = graph["rooms.shed.height"].si - graph["sections.train.seal_height"].si
    assert graph["safety.rooms.shed.plume_rise"].si == pytest.approx(way)
    assert graph["safety.time_to_quarter_limit"].si > 0
