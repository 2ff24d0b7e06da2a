"""
The gas treatment of the shed plant, checked by hand, and what must hold for any order of stages.

The flows of the stack stand here as entries, 6.63 NL/min of hydrogen and 1936 g/h of dragged water, and those of one
of its 16 cells, so that the arithmetic below does not move with the stack's own figures. The shed lies 4 m above the
sea: 101.277 kPa.
"""

from dataclasses import replace
from itertools import permutations
from pathlib import Path

import pytest

from macros.description.loading import load
from macros.figures import drying, surroundings
from macros.figures.graph import Entry, FigureError, Graph, read_paths, title_of
from macros.figures.plant import entries_of
from macros.quantities import read

SHED = Path(__file__).parents[2] / "docs" / "designs" / "shed"
CELSIUS = 273.15
G_PER_H, MG_PER_H = 1e-3 / 3600, 1e-6 / 3600
PINNED = {
    "site.altitude": "4 m",
    "buffer.cut_in": "15 bar(g)",
    "buffer.cut_out": "25 bar(g)",
    "stack.temperature": "60 °C",
    "drying.1.temperature": "40 °C",
    "drying.1.carry_over": "0.1 %",
    "drying.2.temperature": "22 °C",
    "drying.2.carry_over": "0.1 %",
    "drying.3.temperature": "25 °C",
    "drying.3.bed_mass": "2 kg",
    "drying.3.bed_diameter": "80 mm",
    "drying.3.transfer_zone": "20 %",
    "drying.3.regeneration_temperature": "140 °C",
    "drying.3.regeneration_dew_point": "10 °C",
    "drying.3.column_heat_capacity": "2.5 kJ/K",
    "drying.3.regeneration_efficiency": "50 %",
    "drying.4.temperature": "10 °C",
    "drying.4.coolant_temperature": "4 °C",
    "drying.4.coil_coefficient": "30",
}
"""The shed's values by which the arithmetic was done, so that it holds when the shed is changed."""

FLOWS = [
    Entry("stack.hydrogen_normal_flow", read("6.63 NL/min", "normal_flow"), "Hydrogen", "n_H2"),
    Entry("stack.cell_hydrogen_normal_flow", read("0.414375 NL/min", "normal_flow"), "Hydrogen of a cell", "n_H2,c"),
    Entry("stack.cell_water_dragged", read("121 g/h", "mass_flow"), "Water dragged in a cell", "m_drag,c"),
]


@pytest.fixture(scope="module")
def description():
    return load(SHED)


@pytest.fixture(scope="module")
def graph(description):
    return graph_of(description).with_inputs(PINNED)


def graph_of(description, order=None):
    """The graph of the plant with its stages in another order, numbered from 1 as they were."""
    stages = description.plant.drying
    order = list(order or range(1, len(stages) + 1))
    plant = description.plant.model_copy(update={"drying": [stages[old - 1] for old in order]})
    others = [entry for entry in entries_of(description) if not entry.path.startswith("drying.")]
    moved = [
        replace(entry, path=f"drying.{new}.{entry.path.split('.', 2)[2]}")
        for new, old in enumerate(order, start=1)
        for entry in entries_of(description)
        if entry.path.startswith(f"drying.{old}.")
    ]
    turned = replace(description, plant=plant)
    return Graph([*others, *moved, *FLOWS], [*surroundings.figures(turned), *drying.figures(turned)])


def test_the_mean_load_of_a_fill(graph):
    """15 to 25 bar(g): (2 601 277 − 1 601 277) / ln(1.624 502) = 1 000 000 / 0.485 201 = 2 061 001 Pa."""
    assert graph["drying.pressure_mean"].si == pytest.approx(2061001, rel=1e-5)


@pytest.mark.parametrize(
    ("ending", "separator", "coalescer"),
    [("", 3.43244, 0.538116), ("_cut_out", 2.86196, 0.334219), ("_mean", 3.10117, 0.419773)],
)
def test_separator_and_coalescer(graph, ending, separator, coalescer):
    """
    6.63 / 22.413 97 / 60 = 4.929 96e-3 mol/s of hydrogen.

    Separator at 40 °C, saturation 7384.4 Pa, at cut-in: Poynting exp(18.157e-6 × 1 593 893 / 2603.7) = 1.011 177,
    7384.4 × 1.011 177 / 1 601 277 = 4663.1 ppm, 4.929 96e-3 × 4663.1e-6 / 0.995 337 × 18.015 28 × 3600 = 1.497 93 g/h;
    mist 0.1 % of 1936 − 1.498: 1.934 50. Together 3.432 44 g/h.
    Coalescer at 22 °C, 2644.7 Pa: 1671.16 ppm, 0.535 219 g/h; mist 0.1 % of 2.897 2: 0.002 897. Together 0.538 116 g/h.
    At cut-out 2890.58 and 1036.32 ppm: 0.926 89 + 1.935 07 and 0.331 69 + 0.002 53 g/h.
    At the mean 3634.60 and 1302.79 ppm: 1.166 34 + 1.934 83 and 0.417 09 + 0.002 68 g/h.
    """
    assert graph[f"drying.1.inlet_water{ending}"].si == pytest.approx(1936 * G_PER_H, rel=1e-12)
    assert graph[f"drying.1.outlet_water{ending}"].si == pytest.approx(separator * G_PER_H, rel=1e-4)
    assert graph[f"drying.2.inlet_water{ending}"].si == graph[f"drying.1.outlet_water{ending}"].si
    assert graph[f"drying.2.outlet_water{ending}"].si == pytest.approx(coalescer * G_PER_H, rel=3e-4)
    assert graph[f"drying.1.outlet_dew_point{ending}"].si - CELSIUS == pytest.approx(40.0, abs=1e-3)
    assert graph[f"drying.2.outlet_dew_point{ending}"].si - CELSIUS == pytest.approx(22.0, abs=1e-3)


def test_what_drains(graph):
    """Separator 1936 − 3.101 17, coalescer 3.101 17 − 0.419 77, coil nothing: 1935.580 g/h."""
    assert graph["drying.condensate"].si == pytest.approx(1935.580 * G_PER_H, rel=1e-6)


def test_the_bed_warms(graph):
    """
    At the mean: 0.417 089 g/h of vapour × 2.693 03 MJ/kg = 0.312 01 W
    into 4.929 96e-3 mol/s × 28.93 J/(mol K) = 0.142 62 W/K: 2.188 K.

    At cut-in 0.538 116 g/h, all vapour at 25 °C: 0.402 55 W, 2.823 K.
    """
    assert graph["drying.3.bed_temperature_mean"].si - CELSIUS == pytest.approx(27.206, abs=0.01)
    assert graph["drying.3.bed_temperature"].si - CELSIUS == pytest.approx(27.828, abs=0.01)


def test_what_regeneration_leaves(graph):
    """
    Air of dew point 10 °C (1228.2 Pa) at 140 °C; carried to 25 °C with
    exp[−5835.03 × (1/298.15 − 1/413.15)] = 0.004 307 it is 5.290 Pa.

    5.290 / 3169.7 = 0.166 88 %, 0.346 × 0.001 668 8^0.625 = 6.354 g/kg.
    """
    assert graph["drying.3.residual_loading"].si == pytest.approx(6.354e-3, rel=1e-3)


def test_the_gas_behind_the_bed(graph):
    """
    The gel holds 5.290 Pa at 25 °C; at 27.828 °C
    5.290 × exp[5835.03 × (1/298.15 − 1/300.978)] = 5.290 × 1.201 9 = 6.358 Pa.

    With Poynting 1.0116 over 1 601 277 Pa: 4.017 ppm, 1.2843 mg/h. Frost point at 1 atm where ice has
    4.017e-6 × 101 325 / 1.001 = 0.406 6 Pa: −66.96 °C by Hyland and Wexler.
    """
    assert graph["drying.water_fraction"].si == pytest.approx(4.017e-6, rel=2e-3)
    assert graph["drying.3.outlet_water"].si == pytest.approx(1.2843 * MG_PER_H, rel=2e-3)
    assert graph["drying.frost_point"].si - CELSIUS == pytest.approx(-66.96, abs=0.05)


def test_capacity_and_interval(graph):
    """
    Water at the mean 0.419 773 g/h in 4.929 96e-3 mol/s: 1311.16 ppm; saturated at 27.206 °C
    3611.2 Pa × 1.014 92 / 2 061 001 = 1778.3 ppm: 73.73 %. Carried to 25 °C with
    3611.2 / 3169.7 × exp[−5835.03 × (1/298.15 − 1/300.356)] = 1.139 29 × 0.866 07 = 0.986 71 it is 72.75 %:
    0.279 24 + (0.7275 − 0.5048) / (0.7666 − 0.5048) × 0.061 25 = 0.331 35 kg/kg.
    (0.331 35 − 0.006 35) × 2 kg × 0.8 = 0.519 99 kg. Over 0.419 773 − 0.000 961 g/h: 1241.6 h.
    """
    assert graph["drying.desiccant_capacity"].si == pytest.approx(0.51999, rel=1e-3)
    assert graph["drying.desiccant_interval"].si / 3600 == pytest.approx(1241.6, rel=1e-3)
    assert graph["drying.desiccant_interval"].show() == "1200\u00a0h"


def test_the_gel_stays_dry_of_liquid(graph):
    """1311.16 ppm against saturation at 25 °C, 3169.7 Pa × 1.015 18 / 2 061 001 = 1561.3 ppm: 83.98 %."""
    assert graph["drying.desiccant_inlet_humidity"].si == pytest.approx(0.8398, rel=1e-3)
    wet = graph.with_inputs({"drying.2.temperature": "35 °C"})
    assert wet["drying.desiccant_inlet_humidity"].si > 1.7


def test_regeneration_energy(graph):
    """
    (2 kg × 920 + 2500 J/K) × 115 K = 499 100 J; 0.519 99 kg × 2.693 03 MJ/kg = 1 400 350 J.

    Together, at one half, 3 798 900 J: 1.0553 kWh, shown as 1.1 kWh, on the high side.
    """
    assert graph["drying.regeneration_energy"].si == pytest.approx(3798900, rel=1e-3)
    assert graph["drying.regeneration_energy"].show() == "1.1\u00a0kWh"


def test_the_column(graph):
    """
    2 kg / 720 kg/m3 / 50.2655 cm2 = 55.26 cm.

    4.929 96e-3 mol/s × 8.314 46 × 298.15 × 1.0095 / 1 601 277 = 7.7046e-6 m3/s over 50.2655 cm2: 1.5328 mm/s.
    """
    assert graph["drying.bed_length"].si == pytest.approx(0.5526, rel=1e-3)
    assert graph["drying.bed_velocity"].si == pytest.approx(1.5328e-3, rel=1e-3)


def test_the_coil(graph):
    """
    Gas of 25 °C to 10 °C against 4 °C: 4.929 96e-3 × 28.87 × 15 = 2.135 W, nothing condenses.

    Mean difference (21 − 6) / ln(21 / 6) = 11.9735 K; 2.135 / (30 × 11.9735) = 59.44 cm2.
    """
    assert graph["drying.coil_heat"].si == pytest.approx(2.135, rel=2e-3)
    assert graph["drying.coil_area_minimum"].si == pytest.approx(59.44e-4, rel=2e-3)
    assert graph["drying.4.removed"].si == 0.0


def test_a_coil_below_freezing_is_safe_only_on_dry_gas(description, graph):
    """Behind the desiccant the dew point at 25 bar(g) is near −47 °C; before it ice fills the coil."""
    frozen = {"drying.4.coolant_temperature": "-8 °C", "drying.4.temperature": "-2 °C"}
    assert graph["drying.coil_ice_margin"].si == pytest.approx(4 + 46.7, abs=0.2)
    assert graph.with_inputs(frozen)["drying.coil_ice_margin"].si > 0
    before = graph_of(description, (1, 4, 2, 3)).with_inputs(
        {"drying.2.coolant_temperature": "-8 °C", "drying.2.temperature": "-2 °C"}
    )
    assert before["drying.coil_ice_margin"].si == pytest.approx(-8.0, abs=1e-9)


def test_cut_in_is_the_worst(graph):
    for what in ("water_fraction", "dew_point", "frost_point"):
        worst, mean, best = (graph[f"drying.{what}{ending}"].si for ending in ("", "_mean", "_cut_out"))
        assert worst > mean > best


@pytest.mark.parametrize("order", list(permutations((1, 2, 3, 4))))
def test_any_order_of_stages_computes_and_keeps_the_water(description, order):
    turned = graph_of(description, order)
    for name in turned.figures:
        assert turned[name].is_number
    for ending in drying.PRESSURES:
        entered = turned[f"drying.1.inlet_water{ending}"].si
        removed = sum(turned[f"drying.{number}.removed{ending}"].si for number in (1, 2, 3, 4))
        left = turned[f"drying.4.outlet_water{ending}"].si
        assert removed + left == pytest.approx(entered, rel=1e-12)
        for number in (1, 2, 3, 4):
            stage = f"drying.{number}"
            assert 0 <= turned[f"{stage}.outlet_water{ending}"].si <= turned[f"{stage}.inlet_water{ending}"].si


def test_a_second_desiccant_is_told_apart_by_its_number(description):
    twice = graph_of(description, (1, 2, 3, 3))
    assert twice.has("drying.desiccant_capacity")
    assert twice.has("drying.4.desiccant_capacity")
    assert twice["drying.4.desiccant_capacity"].si == pytest.approx(0.0, abs=0.05)
    assert twice["drying.4.desiccant_interval"].si > 2 * twice["drying.desiccant_interval"].si


def test_damper_purge_air_shows_in_the_gas_that_leaves(graph):
    """Regenerated in air of dew point 25 °C (3169.7 Pa instead of 1228.2) the gas is 2.58 times as wet."""
    damp = graph.with_inputs({"drying.3.regeneration_dew_point": "25 °C"})
    assert damp["drying.water_fraction"].si / graph["drying.water_fraction"].si == pytest.approx(2.581, rel=2e-3)
    assert damp["drying.desiccant_capacity"].si < graph["drying.desiccant_capacity"].si


def test_a_longer_transfer_zone_and_a_lower_buffer_shorten_the_interval(graph):
    usual = graph["drying.desiccant_interval"].si
    assert graph.with_inputs({"drying.3.transfer_zone": "60 %"})["drying.desiccant_interval"].si == pytest.approx(
        usual / 2
    )
    assert graph.with_inputs({"buffer.cut_in": "6 bar(g)"})["drying.desiccant_interval"].si < usual


def test_only_what_grows_with_the_stack_reads_its_flow(graph):
    """Twice the cells of the same kind send twice the gas with the same load: nothing dries better or worse."""
    twice = graph.with_inputs({"stack.hydrogen_normal_flow": "13.26 NL/min"})
    grows = graph.descendants(["stack.hydrogen_normal_flow"])
    flows = {f"drying.{n}.{what}{ending}" for n in (1, 2, 3, 4) for what in ("inlet_water", "outlet_water", "removed")
             for ending in drying.PRESSURES}  # fmt: skip
    assert grows == flows | {
        "drying.condensate", "drying.desiccant_interval", "drying.bed_velocity", "drying.coil_heat",
        "drying.coil_area_minimum",
    }  # fmt: skip
    # The gas reaches the coil drier than the coil could make it: it takes out nothing, however much flows.
    idle = {f"drying.4.removed{ending}" for ending in drying.PRESSURES}
    for name in grows - idle:
        share = 0.5 if name == "drying.desiccant_interval" else 2.0
        assert twice[name].si == pytest.approx(share * graph[name].si, rel=1e-12), name
    assert {twice[name].si for name in idle} == {0.0}


def test_declared_inputs_are_the_reads(graph):
    for name in graph.figures:
        if name.startswith("drying."):
            value = graph[name]
            assert set(value.inputs) == read_paths(value), name


def test_every_figure_has_a_title_and_a_finite_value(graph):
    for name in graph.figures:
        assert title_of(name)
        assert graph[name].show()


def test_a_plant_without_a_buffer_has_no_line_pressure_and_so_no_figures(description):
    bare = replace(description, plant=description.plant.model_copy(update={"buffer": None}))
    assert list(drying.figures(bare)) == []


def test_water_that_would_boil_is_told_with_the_figure(graph):
    """At 90 °C and 0.2 bar(a) nothing can be dried."""
    hot = graph.with_inputs(
        {"buffer.cut_in": "0.05 bar(g)", "drying.1.temperature": "90 °C", "site.altitude": "5000 m"}
    )
    with pytest.raises(FigureError, match=r"drying\.1"):
        hot["drying.1.outlet_water"]
