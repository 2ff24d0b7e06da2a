"""Relief valves of the shed, checked by hand: sources at their worst, capacity on the low side."""

import pytest

from tests.figures import the_shed
from tests.figures.the_shed import ATMOSPHERE, BAR, NORMAL_M3_PER_H


@pytest.fixture(scope="module")
def graph():
    return the_shed.pinned(the_shed.description())


def test_fully_open_at_its_accumulation(graph):
    """30 × 1.1 = 33 bar(g): the tolerance is left out, since a valve that opens early passes less."""
    assert graph["safety.relief.rv1.relieving_pressure"].si == pytest.approx(33 * BAR + ATMOSPHERE, abs=10)


def test_the_stack_at_all_the_current_of_its_rectifier(graph):
    """80 A × 16/(2 × 96 485.33) = 6.633 1e-3 mol/s = 0.535 2 Nm3/h, not the 60 A of service."""
    assert graph["safety.relief.rv1.from_stack"].si == pytest.approx(6.6331e-3, rel=1e-4)
    assert graph["safety.relief.rv1.largest_source"].si == graph["safety.relief.rv1.from_stack"].si


def test_what_the_buffers_relief_passes(graph):
    """
    4 mm: 12.566 mm2; 34.013 bar(a), 60 °C: k M/(R T) = 1.022 51e-6, over the compressibility 1.018 7 and the root:
    1.001 87e-3;
    × 0.578 377 × 3 401 277 = 1970.9 kg/(s m2); × 0.6 × 1.256 64e-5 = 0.014 860 kg/s = 594.8 Nm3/h.
    """
    assert graph["safety.relief.rv1.capacity"].si * NORMAL_M3_PER_H == pytest.approx(594.8, rel=2e-3)


def test_the_area_that_the_stack_asks_for(graph):
    """
    6.633 1e-3 × 2.015 88e-3/(0.6 × 1970.9) = 1.130 7e-8 m2, a thousandth of what is there; load 0.535 2/594.8 = 0.09
    %.
    """
    assert graph["safety.relief.rv1.required_area"].si == pytest.approx(1.1307e-8, rel=2e-3)
    assert graph["safety.relief.rv1.load"].si == pytest.approx(0.0009, rel=5e-3)


def test_hydrogen_through_a_ruptured_membrane(graph):
    """
    1 mm at 34.913 bar(a), 60 °C: 3 491 277 × 1.011 19e-3 × 0.578 377 × 7.853 98e-7 = 1.603 7e-3 kg/s = 64.2 Nm3/h.
    """
    assert graph["safety.relief.rv6.from_membrane"].si * NORMAL_M3_PER_H == pytest.approx(64.2, rel=1e-2)


def test_what_the_oxygen_relief_passes(graph):
    """
    9 mm: 63.617 mm2; 2.112 77 bar(a), 38 °C: 211 277 × 1.046 33e-3 × 0.578 377 × 0.6 × 6.361 7e-5 = 4.880e-3 kg/s =
    195.4 Nm3/h.
    """
    assert graph["safety.relief.rv6.capacity"].si * NORMAL_M3_PER_H == pytest.approx(195.4, rel=3e-3)
    assert graph["safety.relief.rv6.load"].si == pytest.approx(64.2 / 195.4, rel=1e-2)


def test_a_booster_whose_every_stroke_is_full(graph):
    """
    60 mL × 20/min = 2e-5 m3/s; 61.013 bar(a), −8 °C: 5.579 kg/m3 ideal, over 1.037 4: 5.378; 0.053 36 mol/s = 4.31
    Nm3/h.
    """
    assert graph["safety.relief.rv4.from_bo1"].si * NORMAL_M3_PER_H == pytest.approx(4.306, rel=3e-3)


def test_a_regulator_failed_open(graph):
    """
    Kv 0.02: 0.02/3600/14.142 = 3.928 4e-7 m2; bank at 55.13 bar(a), −8 °C: 5 513 000 × 6.555 7e-4 × 3.928 4e-7 =
    1.419 8e-3 kg/s
    = 56.8 Nm3/h.
    """
    assert graph["safety.relief.rv5.from_pr1"].si * NORMAL_M3_PER_H == pytest.approx(56.8, rel=1e-2)


def test_the_relief_of_the_drive_air(graph):
    """
    3 mm: 7.068 6 mm2; 7.28 bar(g) = 829 277 Pa(a), 38 °C: √(0.028 965/(8.314 463 × 311.15)) = 3.346 1e-3, × 0.684 73
    × 829 277
    = 1900.0; × 0.6 × 7.068 6e-6 = 8.058e-3 kg/s = 22.45 Nm3/h; the compressor gives 220 NL/min = 13.2 Nm3/h.
    """
    assert graph["safety.relief.rv3.from_compressor"].si * NORMAL_M3_PER_H == pytest.approx(13.2)
    assert graph["safety.relief.rv3.capacity"].si * NORMAL_M3_PER_H == pytest.approx(22.45, rel=2e-3)
    assert graph["safety.relief.rv3.load"].si == pytest.approx(0.588, rel=3e-3)


def test_every_relief_of_the_shed_has_a_source_and_passes_it(graph):
    reliefs = [name for name in graph.figures if name.startswith("safety.relief.") and name.endswith(".capacity")]
    assert len(reliefs) == 6
    for name in reliefs:
        assert graph[name.replace("capacity", "load")].si < 1
        assert graph[name.replace("capacity", "required_area")].si > 0


def test_capacities_round_down_and_sources_up(graph):
    assert graph["safety.relief.rv1.capacity"].rounding == "down"
    assert {
        graph[f"safety.relief.rv1.{name}"].rounding
        for name in ("from_stack", "largest_source", "required_area", "load")
    } == {"up"}
