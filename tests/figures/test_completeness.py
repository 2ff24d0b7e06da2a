"""
The figures that a handbook cannot do without, typed name by name with the plants that have the part.

The list is a floor, written without looking at the code: a part that a plant loses, or a figure that a change drops, is
missed here. What is promised of every figure of every plant stands in `test_contracts`.
"""

import math
from collections.abc import Iterator

import pytest

from macros.calculations.sources import sources
from macros.figures.explain import cited, explain
from macros.figures.graph import Graph
from macros.figures.tables import Table
from tests.figures.test_contracts import the_plant

ALL = ("bench", "shed", "farm")

EVERYWHERE = """
    stack.current_density stack.cell_voltage stack.reversible_voltage stack.thermoneutral_voltage
    stack.voltage stack.power stack.supply_power
    stack.crossover_flow stack.crossover_flow_cut_in stack.crossover_flow_relief
    stack.faraday_efficiency stack.hydrogen_flow stack.hydrogen_normal_flow
    stack.oxygen_flow stack.water_consumed stack.water_dragged
    stack.hydrogen_in_oxygen stack.hydrogen_in_oxygen_cut_in stack.hydrogen_in_oxygen_relief
    stack.hydrogen_in_oxygen_catalyst_dead stack.hydrogen_in_oxygen_catalyst_dead_cut_in
    stack.hydrogen_in_oxygen_catalyst_dead_relief
    stack.minimum_current_alarm stack.minimum_current_trip
    stack.crossover_at_rest stack.oxygen_space_time_to_limit stack.let_down_time
    stack.specific_energy stack.efficiency_lower stack.efficiency_higher stack.heat stack.evaporation_heat
    stack.preheat_energy stack.preheat_time
    power.supply_current power.fuse_minimum power.fuse_maximum power.cable_drop power.cable_loss
    power.cable_area_minimum power.voltage_headroom
    water.temperature_rise water.cooling_capacity water.cooling_margin water.consumption water.top_up_interval
    water.deioniser_life water.hydrogen_returned water.drain_blow_by
    oxygen.vent_velocity oxygen.water_carried
    drying.condensate drying.dew_point drying.dew_point_cut_out drying.dew_point_mean drying.frost_point
    drying.water_fraction drying.desiccant_capacity drying.desiccant_interval drying.regeneration_energy
    buffer.cycle_mass buffer.cycle_normal_volume buffer.fill_time buffer.cycles_per_year
    safety.ventilation_needed safety.natural_opening_needed safety.ceiling_layer_fraction safety.time_to_quarter_limit
    safety.release_fraction safety.purge_swings_in safety.purge_swings_out safety.leak_test_allowance
    safety.strength_test_pressure
    plant.daily_mass plant.energy_per_kg_stored plant.stored_inventory
    cost.total.eur cost.total.gbp cost.total.usd cost.per_stored_kwh
"""
STAGE = "inlet_water outlet_water removed outlet_dew_point"
BOOSTER = """
    stall_pressure stall_pressure_highest pressure_ratio ratio_limit stall_share
    volumetric_efficiency volumetric_efficiency_mean volumetric_efficiency_cut_out volumetric_efficiency_cut_out_mean
    flow flow_mean flow_cut_out flow_cut_out_mean
    discharge_temperature_isentropic discharge_temperature ideal_work drive_air specific_energy efficiency strokes_per_year
"""
BANK = """
    mass energy_lower normal_volume hot_pressure cold_pressure developed_pressure gauge_table
    fill_temperature_adiabatic fill_temperature settled_pressure category free_flow_mass
    buffer_cycles fill_time fill_energy
"""
SEASON = "season.stored_peak season.shortfall season.hours_running season.starts"
RELIEF = "required_area capacity largest_source"
LINE = "rating velocity pressure_drop"

PLANTS_WITH = {
    ("bench", "shed", "farm"): EVERYWHERE,
    ("shed", "farm"): f"compressor.duty {SEASON} drying.coil_area_minimum",
    ("bench", "shed"): "uses.1.hours uses.1.heat_available",
    ("shed",): "uses.2.hours uses.2.electricity_available plant.round_trip_efficiency",
    ("farm",): """
        transfers.1.free_mass transfers.1.boosted_mass transfers.1.final_source_pressure
        transfers.1.final_target_pressure transfers.1.time
        uses.1.from_low uses.1.from_high uses.1.pressure_after_low uses.1.pressure_after_high uses.1.mass_gained
        uses.1.shortest_fill_time uses.2.hours uses.2.heat_available
    """,
}
"""Names by the plants that must have them."""

OF_EACH = [
    # pattern, what of each, and by plant the stages, boosters, banks, tags, lines or sections
    ("drying.{}", STAGE, {"bench": "1 2 3", "shed": "1 2 3 4", "farm": "1 2 3 4"}),
    ("boosters.{}", BOOSTER, {"shed": "1", "farm": "1 2"}),
    ("banks.{}", BANK, {"shed": "store", "farm": "low high"}),
    ("safety.{}", "leak_flow hole_leak_flow",
     {"bench": "train column buffer burner", "shed": "train column buffer high_side bank uses kitchen",
      "farm": "train column buffer low high cascade filling boiler_line boiler"}),
    ("safety.relief.{}", RELIEF,
     {"bench": "rv1 rv2 rv3", "shed": "rv1 rv2 rv3 rv4 rv5 rv6", "farm": "rv1 rv2 rv3 rv4 rv5 rv6 rv7"}),
    ("safety.tube.{}", "rating", {"bench": "l1", "shed": "l1 l12 l16", "farm": "l1 l12 l16"}),
    ("safety.line.{}", LINE, {"bench": "l1", "shed": "l1 l2 l17 l19", "farm": "l1"}),
    ("safety.hose.{}", "rupture_flow", {"shed": "ho1", "farm": "ho1 ho2"}),
]  # fmt: skip


def wanted_of(name: str) -> Iterator[str]:
    for plants, names in PLANTS_WITH.items():
        if name in plants:
            yield from names.split()
    for pattern, names, plants in OF_EACH:
        for part in plants.get(name, "").split():
            yield from (f"{pattern.format(part)}.{each}" for each in names.split())


def is_something(value: object) -> bool:
    """A number that is one, a word, or a table or run with numbers that are."""
    if isinstance(value, float):
        return math.isfinite(value)
    if isinstance(value, Table):
        return bool(value.rows) and all(math.isfinite(each) for row in value.rows for each in row)
    return bool(value)


@pytest.mark.parametrize("name", ALL)
def test_no_figure_of_the_list_is_missing(name):
    graph = the_plant(name).graph
    assert [each for each in wanted_of(name) if each not in graph.figures] == []


@pytest.mark.parametrize("name", ALL)
def test_no_figure_of_the_list_is_nothing(name):
    graph = the_plant(name).graph
    assert [each for each in wanted_of(name) if not is_something(graph[each].si)] == []


def test_the_plants_differ_in_their_parts():
    """So that the list is tried on more than one kind of plant."""
    names = {name: set(the_plant(name).graph.figures) for name in ALL}
    for part, having in (
        ("boosters.1.flow", {"shed", "farm"}), ("boosters.2.flow", {"farm"}), ("transfers.1.time", {"farm"}),
        ("uses.1.shortest_fill_time", {"farm"}), ("plant.round_trip_efficiency", {"shed"}),
        ("season.starts", {"shed", "farm"}), ("compressor.duty", {"shed", "farm"}),
    ):  # fmt: skip
        assert {name for name in ALL if part in names[name]} == having, part


def origins(graph: Graph, name: str) -> set[str]:
    """The entries on which a value stands."""
    return {path for path in {name, *graph.ancestors(name)} if path in graph.entries}


@pytest.mark.parametrize("name", ALL)
def test_every_working_runs_down_to_what_the_author_wrote_or_a_source(name):
    """
    Each line of a working is a figure with a source, an entry with its file and line, or a default with its source; what
    the working names is everything that the figure stands on.
    """
    plant = the_plant(name)
    graph, places = plant.graph, plant.description.places
    wrong = []
    for each in (one for one, figure in graph.figures.items() if not getattr(figure, "late", False)):
        text = explain(graph, each)
        if not cited(graph[each]) or any(key not in sources() for key, _ in cited(graph[each])):
            wrong.append(f"{each} names no source")
        told = {line.split("   ")[1] for line in (line.strip() for line in text.splitlines()) if line.count("   ") >= 2}
        if not graph.ancestors(each) <= told:
            wrong.append(f"{each} does not tell of {sorted(graph.ancestors(each) - told)}")
        if not origins(graph, each):
            wrong.append(f"{each} stands on nothing that anybody wrote")
    for path in {path for each in graph.figures for path in origins(graph, each)}:
        value = graph[path]
        if not (value.place and value.place == places.get(path)) and value.source not in sources():
            wrong.append(f"{path} comes from nowhere")
    assert wrong == []
