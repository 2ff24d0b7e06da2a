"""The whole shed, checked by hand."""

import pytest

from macros.description.loading import load
from macros.figures import drying, plant_totals, power, stack, surroundings, water
from macros.figures.graph import Entry, Graph, read_paths
from macros.figures.plant import entries_of
from macros.quantities import read
from tests.figures import the_shed


@pytest.fixture(scope="module")
def graph():
    return the_shed.pinned(the_shed.description())


def test_the_hydrogen_of_a_year_and_of_a_day(graph):
    """Net flow for 1600 h; 320 starts make as many days of running of 5 h."""
    flow = graph["stack.hydrogen_flow"].si
    assert graph["plant.yearly_mass"].si == pytest.approx(flow * 5.76e6)
    assert graph["plant.daily_mass"].si == pytest.approx(flow * 18000)


def test_what_a_kilogram_takes(graph):
    """
    Supply and pump over the flow, 12 kWh/kg of boosting, 320 starts and the regenerations over the year's hydrogen.
    """
    made = (graph["stack.supply_power"].si + graph["water.pump_power"].si) / graph["stack.hydrogen_flow"].si
    assert graph["plant.energy_per_kg_made"].si == pytest.approx(made)
    boosted = graph["boosters.1.specific_energy"].si
    assert graph["plant.energy_per_kg_running"].si == pytest.approx(made + boosted)
    regenerations = 5.76e6 / graph["drying.desiccant_interval"].si
    yearly = 320 * graph["stack.preheat_energy"].si + regenerations * graph["drying.regeneration_energy"].si
    assert graph["plant.yearly_extra_energy"].si == pytest.approx(yearly)
    assert graph["plant.energy_per_kg_stored"].si == pytest.approx(
        made + boosted + yearly / graph["plant.yearly_mass"].si
    )


def test_what_comes_back(graph):
    """48 % of 33.32 kWh/kg over what a stored kilogram takes: a fifth."""
    stored = graph["plant.energy_per_kg_stored"].si / 3.6e6
    assert graph["plant.round_trip_efficiency"].si == pytest.approx(0.48 * 33.3222 / stored, rel=1e-4)
    assert 0.15 < graph["plant.round_trip_efficiency"].si < 0.25


def test_what_the_full_plant_holds(graph):
    """
    200 L at 51.013 bar(a) and 15 °C: 4.164 9 kg/m3, 0.833 0 kg; 12.5 L at 26.013 bar(a): 2.188 8 ideal, over 1.015
    6: 2.155 2, 0.026 9 kg:
    0.859 9 kg, 28.7 kWh.
    """
    assert graph["plant.stored_inventory"].si == pytest.approx(0.8599, rel=1e-3)
    assert graph["plant.stored_energy"].si / 3.6e6 == pytest.approx(28.65, rel=1e-3)


def test_each_total_reads_what_it_declares_and_moves_with_it(graph):
    for name in (name for name in graph.figures if name.startswith("plant.")):
        assert read_paths(graph[name]) == set(graph[name].inputs), name
    longer = graph.with_inputs({"demand.running_hours": "1700 h"})
    assert longer["plant.yearly_mass"].si > graph["plant.yearly_mass"].si
    assert longer["plant.energy_per_kg_stored"].si < graph["plant.energy_per_kg_stored"].si


# The farm: two banks, the high one filled from the low one.

GIVEN = {
    "boosters.1.specific_energy": "10 kWh/kg", "boosters.2.specific_energy": "20 kWh/kg",
    "banks.low.mass": "3 kg", "banks.high.mass": "1 kg",
}  # fmt: skip


@pytest.fixture(scope="module")
def farm():
    """What boosters take and banks hold given, so that the sums can be done in the head."""
    description = load(the_shed.SHED.parent / "farm")
    entries = [Entry(path, read(text), path, path) for path, text in GIVEN.items()]
    modules = (surroundings, stack, power, water, drying, plant_totals)
    return Graph([*entries_of(description), *entries], [one for each in modules for one in each.figures(description)])


def test_every_stage_on_the_way_into_a_bank_is_counted(farm):
    """10 kWh/kg into the low bank; 10 + 20 = 30 kWh/kg into the high one, whose gas has passed both boosters."""
    assert farm["banks.low.boosting_energy"].si / 3.6e6 == pytest.approx(10)
    assert farm["banks.high.boosting_energy"].si / 3.6e6 == pytest.approx(30)


def test_several_banks_count_by_what_each_holds(farm):
    """(3 × 10 + 1 × 30)/4 = 15 kWh/kg of boosting."""
    boosted = farm["plant.energy_per_kg_running"].si - farm["plant.energy_per_kg_made"].si
    assert boosted / 3.6e6 == pytest.approx(15)
    yearly = farm["plant.yearly_extra_energy"].si / farm["plant.yearly_mass"].si
    assert farm["plant.energy_per_kg_stored"].si == pytest.approx(farm["plant.energy_per_kg_running"].si + yearly)
    dearer = farm.with_inputs({"boosters.2.specific_energy": "24 kWh/kg"})
    more = dearer["plant.energy_per_kg_stored"].si - farm["plant.energy_per_kg_stored"].si
    assert more / 3.6e6 == pytest.approx(1)


def test_a_plant_without_banks_counts_no_boosting():
    description = load(the_shed.SHED.parent / "bench")
    figures = [
        one for each in (surroundings, stack, power, water, drying, plant_totals) for one in each.figures(description)
    ]
    bench = Graph(entries_of(description), figures)
    assert bench["plant.energy_per_kg_running"].si == bench["plant.energy_per_kg_made"].si
