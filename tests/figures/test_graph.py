"""The figure graph: pure, traced, evaluated once, and evaluated again with other inputs."""

import math

import pytest

from macros.calculations.contract import above, between, calculation
from macros.calculations.faraday import hydrogen_produced
from macros.figures import graph as graphs
from macros.figures.explain import explain, linear
from macros.figures.graph import Entry, FigureError, Graph, UnknownPath, figure, read_paths
from macros.quantities import QuantityError, read

ATMOSPHERE = Entry("site.atmosphere", read("101.325 kPa(a)", "absolute_pressure"), "Atmosphere", "p_atm")


def ratio(high_pa, low_pa):
    return high_pa / low_pa


def entries():
    texts = {
        "stack.current": ("60 ± 3 A", "current"),
        "stack.cells": ("16", "count"),
        "buffer.cut_out": ("25 bar(g)", "pressure"),
        "buffer.cut_in": ("15 bar(g)", "pressure"),
    }
    return [ATMOSPHERE] + [Entry(path, read(text, kind), path, path[-3:]) for path, (text, kind) in texts.items()]


def figures():
    return [
        figure("stack.flow", hydrogen_produced, unit="NL/min", symbol="n", current_a="stack.current", cells="stack.cells"),
        figure("boosters.1.pressure_ratio", ratio, kind="ratio", symbol="r", source="by-definition",
               high_pa="buffer.cut_out", low_pa="buffer.cut_in"),
        figure("stack.twice", lambda flow: 2 * flow, unit="NL/min", source="by-definition", flow="stack.flow"),
    ]  # fmt: skip


@pytest.fixture(autouse=True)
def _titles(monkeypatch):
    monkeypatch.setattr(graphs, "title_of", lambda name: f"title of {name}")


@pytest.fixture
def graph():
    return Graph(entries(), figures())


def test_a_figure_is_computed_from_its_entries(graph):
    # 60 A x 16 / (2 x 96485.332 C/mol) = 4.97485e-3 mol/s; x 22.41397 L/mol x 60 = 6.6903 NL/min
    assert graph["stack.flow"].si == pytest.approx(4.97485e-3, rel=1e-5)
    assert graph["stack.flow"].show() == "6.69\u00a0NL/min"


def test_gauge_pressures_enter_as_absolute_ones(graph):
    assert graph["buffer.cut_out"].si == pytest.approx(2.5e6 + 101325)
    assert graph["boosters.1.pressure_ratio"].si == pytest.approx(26.01325 / 16.01325)
    assert graph["buffer.cut_out"].show() == "25\u00a0bar(g)"
    assert "site.atmosphere" in graph.ancestors("boosters.1.pressure_ratio")


def test_traced_reads_equal_declared_inputs(graph):
    for name in graph.figures:
        assert read_paths(graph[name]) == set(graph.inputs_of(name))


def test_descendants_are_what_changes(graph):
    again = graph.with_inputs({"stack.cells": "20"})
    changed = {name for name in graph.figures if not math.isclose(again[name].si, graph[name].si, rel_tol=1e-12)}
    assert changed == graph.descendants({"stack.cells"}) == {"stack.flow", "stack.twice"}
    assert graph["stack.cells"].si == 16, "the first graph is untouched"


def test_each_figure_is_computed_once():
    calls = []

    def counted(current_a):
        calls.append(current_a)
        return current_a * 1

    graph = Graph(entries(), [
        figure("a.b", counted, unit="A", current_a="stack.current"),
        figure("a.c", lambda b: b + 1, unit="A", b="a.b"),
        figure("a.d", lambda b: b + 2, unit="A", b="a.b"),
    ])  # fmt: skip
    graph["a.c"], graph["a.d"], graph["a.b"]
    assert len(calls) == 1


def test_uncertainty_agrees_with_hand_arithmetic(graph):
    spread, largest = graph.uncertainty("stack.twice")
    assert spread / graph["stack.twice"].si == pytest.approx(3 / 60, rel=1e-6)
    assert largest == "stack.current"


def test_defaults_are_seen_wherever_they_reach():
    default = Entry("stack.current", read("60 A", "current"), "Current", "I", assumed="common-practice", safe="low")
    graph = Graph([default if entry.path == "stack.current" else entry for entry in entries()], figures())
    assert graph["stack.twice"].assumed == {"stack.current"}
    assert graph.with_inputs({"stack.current": "60 A"})["stack.twice"].assumed == frozenset()


def test_unknown_paths_are_named(graph):
    with pytest.raises(UnknownPath, match=r"no entry or figure stack\.flwo"):
        graph["stack.flwo"]
    with pytest.raises(UnknownPath):
        graph.with_inputs({"stack.flow": "1 NL/min"})
    with pytest.raises(QuantityError, match="gauge or absolute"):
        graph.with_inputs({"buffer.cut_in": "15 bar"})


def test_a_figure_that_reads_what_the_plant_lacks_cannot_be_built():
    with pytest.raises(ValueError, match=r"reads stack\.volts"):
        Graph(entries(), [figure("a.b", abs, unit="V", x="stack.volts")])
    with pytest.raises(ValueError, match="defined twice"):
        Graph(entries(), [*figures(), *figures()])


def test_a_figure_out_of_range_says_which_and_why():
    @calculation(share=between(0, 1))
    def of_share(share):
        return share

    graph = Graph(entries(), [figure("a.b", of_share, kind="ratio", share="stack.cells")])
    with pytest.raises(
        FigureError, match=r"a\.b cannot be evaluated: of_share: share is .*16.*, wanted at least 0 and at most 1"
    ):
        graph["a.b"]


def test_no_figure_is_ever_nan():
    graph = Graph(entries(), [figure("a.b", lambda x: x * math.inf - x * math.inf, unit="A", x="stack.current")])
    with pytest.raises(FigureError, match="the result is nan"):
        graph["a.b"]


def test_a_circle_is_named():
    graph = Graph(entries(), [
        figure("a.b", lambda x: x + 1, unit="A", x="a.c"),
        figure("a.c", lambda x: x + 1, unit="A", x="a.b"),
    ])  # fmt: skip
    with pytest.raises(FigureError, match=r"it reads itself: a\.b > a\.c > a\.b"):
        graph["a.b"]


def test_the_explanation_goes_down_to_the_entries_and_up_to_the_readers(graph):
    text = explain(graph, "stack.flow")
    assert "stack.flow = 6.7\u00a0NL/min" in text, "a current known to a twentieth bears no third digit"
    assert "n = lls·ent / (2·F)" in text
    assert "stack.cells" in text
    assert "read by: stack.twice" in text


def test_formulas_on_a_line_keep_their_meaning():
    @calculation(a=above(0), b=above(0))
    def nested(a, b):
        return (a - (b - a)) / (a / b) ** 2

    graph = Graph(entries(), [figure("a.b", nested, kind="ratio", a="stack.cells", b="stack.current")])
    assert linear(graph["a.b"].node) == "(lls − (ent − lls)) / (lls / ent)^2"


def test_a_figure_is_computed_again_with_one_argument_and_leaves_the_graph_as_it_was(graph):
    before = graph["stack.flow"].si
    # Half the current makes half the gas.
    assert graph.computed("stack.flow", current_a=30.0) == pytest.approx(before / 2, rel=1e-12)
    assert graph["stack.flow"].si == before
    with pytest.raises(FigureError, match=r"stack\.flow"):
        graph.computed("stack.flow", current_a=-1.0)
