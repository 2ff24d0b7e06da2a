"""The power side of the shed plant, checked by hand: 31.84 V, 60 A, 4 m of 25 mm², a rectifier of 40 V."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.figures import power
from macros.figures.graph import FigureError, read_paths, title_of
from tests.figures.shed_pinned import shed, shed_graph, shed_with


@pytest.fixture
def graph():
    return shed_graph()


def test_each_figure_of_the_power_side_has_a_value_a_title_and_reads_what_it_declares(graph):
    for each in power.figures(shed()):
        value = graph[each.name]
        assert value.is_number
        assert title_of(each.name)
        assert read_paths(value) == set(value.inputs), each.name


def test_the_fuse_window(graph):
    # The fuse bears 60 A or more, and no more than 1.45 × 110 / 1.6 = 99.69 A; shown to the safe side
    assert graph["power.fuse_minimum"].show() == "60.0\u00a0A"
    assert graph["power.fuse_maximum"].si == pytest.approx(99.6875)
    assert graph["power.fuse_maximum"].show() == "99.6\u00a0A"


def test_what_the_cable_costs(graph):
    # 0.780 mΩ/m × 1.196 5 = 0.933 27 at 70 °C; 8 m × 60 A: 0.447 97 V; × 60 A = 26.878 W
    assert graph["power.cable_drop"].si == pytest.approx(0.44797, rel=1e-5)
    assert graph["power.cable_loss"].si == pytest.approx(26.878, rel=1e-4)
    # 3 % of 31.84 V = 0.955 2 V: 10 mm² would lose 1.097 V, 16 mm² 0.695 V
    assert graph["power.cable_area_minimum"].si == pytest.approx(16e-6)
    # (1910.4 + 26.878) / 0.9 = 2152.53 W; / (230 × 0.95) = 9.851 A
    assert graph["power.supply_current"].si == pytest.approx(9.8514, rel=1e-4)


def test_what_a_cold_stack_leaves_of_the_voltage(graph):
    # 16 × (1.99 + 0.25) = 35.84 V cold; 40 − 0.448 − 35.84 = 3.712 V, shown rounded down
    assert graph["power.cold_voltage"].si == pytest.approx(35.84)
    assert graph["power.voltage_headroom"].si == pytest.approx(3.712, rel=1e-3)
    assert graph["power.voltage_headroom"].show() == "3.7\u00a0V"
    # A rectifier of 36 V never brings the cold stack to its current: the headroom falls below zero and says so
    assert graph.with_inputs({"power.rectifier_voltage": "36 V"})["power.voltage_headroom"].si < 0


def test_a_drop_that_no_conductor_keeps_is_said_so(graph):
    with pytest.raises(FigureError, match="300 mm2"):
        graph.with_inputs({"power.cable.length": "100 m", "power.drop_allowed": "0.1 %"})["power.cable_area_minimum"]


def test_without_a_buffer_only_what_the_current_decides_is_figured():
    names = {each.name for each in power.figures(shed_with("plant", buffer=None))}
    assert names == {"power.fuse_minimum", "power.fuse_maximum", "power.cable_drop", "power.cable_loss"}


@settings(max_examples=60, deadline=None)
@given(st.floats(12.0, 69.0), st.floats(0.5, 30.0))
def test_more_current_or_cable_costs_more(current, length):
    graph = shed_graph().with_inputs({"stack.current": f"{current!r} A", "power.cable.length": f"{length!r} m"})
    more = graph.with_inputs({"stack.current": f"{current * 1.01!r} A"})
    longer = graph.with_inputs({"power.cable.length": f"{length * 1.01!r} m"})
    for name in ("power.cable_drop", "power.cable_loss", "power.supply_current"):
        assert graph[name].si < more[name].si
        assert graph[name].si < longer[name].si
    assert graph["power.voltage_headroom"].si > longer["power.voltage_headroom"].si
    assert graph["power.cable_loss"].si == pytest.approx(graph["power.cable_drop"].si * current, rel=1e-9)
