"""The flush of the oxygen side: what a stop takes, what the bottles hold, and what the space then holds, by hand."""

from dataclasses import replace

import pytest

from macros.description.loading import load
from macros.figures import flush, surroundings
from macros.figures.graph import Entry, Graph
from macros.figures.plant import entries_of
from macros.quantities import read
from tests.figures.the_shed import SHED

PINNED = {
    "items.pi4.supply_flow": "20 NL/min", "flush.bottles": "2", "flush.content": "9 Nm3", "demand.starts": "300",
    "stack.let_down_time_relief": "6 min", "stack.crossover_at_rest_relief": "80 NmL/min",
}  # fmt: skip
STACK = [
    Entry("stack.let_down_time_relief", read("6 min"), "t", "t"),
    Entry("stack.crossover_at_rest_relief", read("80 NmL/min"), "c", "c"),
]


def graph_of(description):
    figures = [each for module in (surroundings, flush) for each in module.figures(description)]
    return Graph([*entries_of(description), *STACK], figures)


@pytest.fixture(scope="module")
def graph():
    return graph_of(load(SHED)).with_inputs(PINNED)


def test_a_stop_takes_the_flow_for_as_long_as_the_let_down_lasts(graph):
    """20 NL/min × 6 min = 120 NL."""
    assert graph["flush.nitrogen_per_stop"].show("NL", 4) == "120.0\u00a0NL"


def test_the_space_holds_what_crosses_thinned_by_the_nitrogen(graph):
    """0.08/(0.08 + 20) = 0.3984 %."""
    assert graph["flush.hydrogen_in_nitrogen"].si == pytest.approx(0.08 / 20.08)


def test_two_bottles_last_for_so_many_stops(graph):
    """18 Nm³ are 18 000 NL: 18 000/120 = 150 stops, 18 000/20 = 900 min = 15 h."""
    assert graph["flush.nitrogen_stored"].show("Nm3", 4) == "18.00\u00a0Nm³"
    assert graph["flush.stops"].si == pytest.approx(150)
    assert graph["flush.time_open"].si == pytest.approx(15 * 3600)


def test_a_year_of_stops_takes_so_many_bottles(graph):
    """300 × 120 NL/9000 NL = 4."""
    assert graph["flush.bottles_per_year"].si == pytest.approx(4)


def test_a_plant_that_does_not_flush_has_no_such_figures():
    description = load(SHED)
    plain = replace(description, plant=description.plant.model_copy(update={"flush": None}))
    assert not list(flush.figures(plain))


def test_without_the_flow_of_the_supply_nothing_is_promised():
    description = load(SHED)
    items = dict(description.network.items)
    items["PI4"] = items["PI4"].model_copy(update={"supply_flow": None})
    network = description.network.model_copy(update={"items": items})
    assert not list(flush.figures(replace(description, network=network)))
