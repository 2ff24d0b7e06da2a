"""Lines of the shed, checked by hand."""

import pytest

from tests.figures import the_shed
from tests.figures.the_shed import ATMOSPHERE, BAR, NORMAL_M3_PER_H


@pytest.fixture(scope="module")
def graph():
    return the_shed.pinned(the_shed.description())


def test_the_tube_of_minimum_wall(graph):
    """6 mm by 1 mm less 10 %: thin wall 2 × 115 × 0.9/(6 − 0.72) = 39.205 MPa, thick wall 39.362: 392 bar(g)."""
    assert graph["safety.tube.l1.rating"].si == pytest.approx(39.2045e6 + ATMOSPHERE, rel=1e-5)


def test_a_tube_of_another_metal_has_its_own_stress(graph):
    assert "lines.a1.allowable_stress" in graph["safety.tube.a1.rating"].inputs
    assert "safety.tube_stress" not in graph["safety.tube.a1.rating"].inputs


def test_a_line_is_rated_by_its_weakest_part(graph):
    """Tube 392, fittings 250, separator 40 bar(g) and the stack 35: the stack."""
    assert graph["safety.line.l1.rating"].si == pytest.approx(35 * BAR + ATMOSPHERE, abs=10)
    weaker = graph.with_inputs({"items.se1.rating": "20 bar(g)"})
    assert weaker["safety.line.l1.rating"].si == pytest.approx(20 * BAR + ATMOSPHERE, abs=10)


def test_the_booster_bears_other_pressures_at_other_ports(graph):
    assert "boosters.1.inlet_highest" in graph["safety.line.l11.rating"].inputs
    assert "boosters.1.discharge_rating" in graph["safety.line.l12.rating"].inputs
    assert "boosters.1.drive_rating" in graph["safety.line.a1.rating"].inputs


def test_behind_a_regulator_its_outlet_counts(graph):
    assert "items.pr1.outlet_rating" in graph["safety.line.l17.rating"].inputs
    assert "items.pr1.rating" in graph["safety.line.l16.rating"].inputs


def test_how_fast_the_wet_gas_goes(graph):
    """
    60 A × 16/(2 F) = 4.974 85e-3 mol/s = 1.002 87e-5 kg/s; 15 bar(g), 60 °C: 1.165 3 kg/m3 ideal, over 1.008 8:
    1.155 2;
    4 mm: 1.256 64e-5 m2; 1.002 87e-5/(1.155 2 × 1.256 64e-5) = 0.690 8 m/s.
    """
    assert graph["safety.line.l1.velocity"].si == pytest.approx(0.6908, rel=2e-3)


def test_what_it_loses_on_its_way(graph):
    """
    Viscosity 9.57 µPa s: Reynolds number 4 × 1.002 87e-5/(π × 0.004 × 9.57e-6) = 333.6, friction 64/333.6 = 0.191 8;
    0.191 8 × 3/0.004 × 1.155 2 × 0.690 8²/2 = 39.7 Pa.
    """
    assert graph["safety.line.l1.pressure_drop"].si == pytest.approx(39.7, rel=1e-2)


def test_a_torn_hose(graph):
    """
    4 mm, 1 m, roughness 1.5 µm: friction (2 log10(3.7 × 4/0.001 5))^−2 = 0.015 67, resistance 3.918; Mach 0.336 5 at
    the inlet (printed
    tables: 3.452 5 at 0.35, 5.299 3 at 0.30); 5 513 000 × 0.924 6 × 0.336 5 × 1.133 46e-3 × √1.022 6 = 1966 kg/(s m2);
    × 1.256 64e-5 = 0.024 71 kg/s = 989 Nm3/h.
    """
    assert graph["safety.hose.ho1.rupture_flow"].si * NORMAL_M3_PER_H == pytest.approx(989, rel=1e-2)


def test_every_gas_line_has_a_rating(graph):
    lines = {path.split(".")[1] for path in graph.entries if path.startswith("lines.") and path.endswith(".medium")}
    media = {line: graph[f"lines.{line}.medium"].si for line in lines}
    lacking = [
        line
        for line in lines
        if media[line] in ("hydrogen", "wet_hydrogen", "oxygen") and f"safety.line.{line}.rating" not in graph
    ]
    assert not lacking


def test_the_vent_of_a_degassing_pot(graph):
    """
    16 mm, 4 m, 3 kPa of water seal at 38 °C: friction 0.316/4000^(1/4) = 0.0397 (Blasius), resistance 0.0397 × 250 + 1.5
    = 11.4; density 104.3 kPa × 2.016 g/mol/(8.314 × 311.15) = 0.0813 kg/m3; speed √(2 × 3000/(0.0813 × (1 + 11.4)))
    = 77.1 m/s, as if the gas kept its density; × 2.011e-4 m2 × 273.15/311.15 = 13.6 NL/s = 817 NL/min.
    """
    per_minute = graph["safety.vent.vt5.capacity"].si * NORMAL_M3_PER_H * 1000 / 60
    assert per_minute == pytest.approx(817, rel=2e-2)
