"""
What is promised of every figure of every plant: each test names the promise and lists every offender.

The plants are found, not listed: a new folder of designs is held to the same, and so is the plant that a newcomer gets.
"""

import functools
import inspect
import json
import math
import random
import re
import shutil
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import pytest

from macros.calculations.formula import Call, Node, Number, Operation
from macros.command.starter import create
from macros.figures.explain import cited
from macros.figures.graph import ATMOSPHERE, FigureError, Graph, read_paths, title_of
from macros.figures.lines import HYDROGEN, STEEL_LINES
from macros.figures.plant import Plant, folders_in
from macros.quantities import Quantity, QuantityError, read, units_of

ROOT = Path(__file__).parents[2]
DESIGNS = ROOT / "docs" / "designs"
NAMES = [folder.name for folder in folders_in(DESIGNS)]
STARTER = "starter"


@functools.cache
def the_plant(name: str) -> Plant:
    return Plant.load(DESIGNS / name)


@pytest.fixture(scope="module")
def starter(tmp_path_factory) -> Plant:
    return Plant.load(create(STARTER, tmp_path_factory.mktemp("handbook")))


@pytest.fixture(params=[*NAMES, STARTER])
def plant(request) -> Plant:
    return request.getfixturevalue("starter") if request.param == STARTER else the_plant(request.param)


@pytest.fixture
def graph(plant) -> Graph:
    return plant.graph


def values_of(graph: Graph) -> dict[str, object]:
    return {name: graph[name].si for name in graph}


def close(one: object, other: object, tolerance: float) -> bool:
    """Whether two values of figures agree: numbers to a tolerance, tables and runs number by number."""
    if isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=tolerance, abs_tol=1e-12 * bool(tolerance))
    if isinstance(one, (list, tuple)) and isinstance(other, (list, tuple)):
        return len(one) == len(other) and all(close(a, b, tolerance) for a, b in zip(one, other, strict=True))
    if hasattr(one, "__dict__") and type(one) is type(other):
        return all(close(value, vars(other)[key], tolerance) for key, value in vars(one).items())
    return one == other


def below(graph: Graph) -> dict[str, set[str]]:
    """For each path all figures that stand on it."""
    readers: dict[str, set[str]] = defaultdict(set)
    for name in graph:
        for path in graph.inputs_of(name):
            readers[path].add(name)
    found: dict[str, set[str]] = {}
    for path in graph:
        seen: set[str] = set()
        waiting = [path]
        while waiting:
            for reader in readers[waiting.pop()] - seen:
                seen.add(reader)
                waiting.append(reader)
        found[path] = seen
    return found


def operations(node: Node | None) -> Iterator[str]:
    if isinstance(node, (Operation, Call)):
        yield node.name
        for argument in node.arguments:
            yield from operations(argument)


def numbers(node: Node | None) -> Iterator[float]:
    if isinstance(node, Number):
        yield node.value
    elif isinstance(node, (Operation, Call)):
        for argument in node.arguments:
            yield from numbers(argument)


# Each figure by itself.


def test_every_figure_evaluates_to_something_finite(graph):
    def is_finite(value: object) -> bool:
        if isinstance(value, float):
            return math.isfinite(value)
        if isinstance(value, (list, tuple)):
            return bool(value) and all(is_finite(each) for each in value)
        if hasattr(value, "__dict__"):
            return all(is_finite(each) for each in vars(value).values() if isinstance(each, float))
        return bool(value)

    assert [name for name in graph.figures if not is_finite(graph[name].si)] == []


def test_every_figure_has_a_title(graph):
    assert all(title_of(name).strip() for name in graph.figures)


def test_titles_are_told_apart(graph):
    """Two figures of one part never read alike: a reader who sees only titles could not tell which is which."""
    seen: dict[tuple[str, str], list[str]] = defaultdict(list)
    for name in graph.figures:
        seen[name.rsplit(".", 1)[0], title_of(name)].append(name)
    assert [names for names in seen.values() if len(names) > 1] == []


def test_every_figure_has_a_source(graph):
    assert [name for name in graph.figures if not cited(graph[name])] == []


def test_what_a_formula_reads_is_what_the_figure_declares(graph):
    """Both ways: no input is declared in vain, none is read in secret. Runs, tables and categories have no formula."""
    wrong = {
        name: read_paths(graph[name]) ^ set(graph.inputs_of(name))
        for name in graph.figures
        if graph[name].node is not None and read_paths(graph[name]) != set(graph.inputs_of(name))
    }
    assert wrong == {}


def test_every_number_has_a_formula(graph):
    assert [name for name in graph.figures if graph[name].is_number and graph[name].node is None] == []


COEFFICIENTS = {
    "stack.reversible_voltage": "coefficients of the published equation, as printed",
    "water.henry_constant": "coefficients of the published equation, as printed",
}
"""Formulas that show numbers of more than four digits, and why."""


def test_no_formula_shows_a_number_that_nobody_can_place(graph):
    """More than four digits are a constant that lost its name, or coefficients as printed in the source cited."""
    for name in graph.figures:
        long = [
            f"{abs(value):.12g}"
            for value in numbers(graph[name].node)
            if len(f"{abs(value):.15e}".split("e")[0].replace(".", "").rstrip("0")) > 4
        ]
        if name not in COEFFICIENTS:
            assert long == [], name
            continue
        assert long, f"{name} shows none any more"
        code = inspect.getsource(inspect.getmodule(inspect.unwrap(graph.figures[name].compute)))
        typed = {float(text) for text in re.findall(r"(?<![\w.])\d+\.?\d*(?:e-?\d+)?", code)}
        typed |= {abs(float(text)) for path in (ROOT / "macros/calculations").glob("*.py")
                  for text in re.findall(r"(?<![\w.])\d+\.?\d*(?:e-?\d+)?", path.read_text("utf-8"))}  # fmt: skip
        assert {float(text) for text in long} <= typed


# The graph as a whole.

SELECTING = {
    "max": "takes the largest of several",
    "min": "takes the smallest of several",
    "next whole number": "rounds up to a whole number",
    "conductor table": "takes the next size of a table",
    "fill run": "counts what a run does in whole starts and strokes",
    "transfer run": "counts what a run does",
    "a year step by step": "counts what a year does in whole hours",
    "dew point": "a root, no sharper than its tolerance",
    "air through a room with a layer": "takes the smaller of two drafts",
}
"""What a formula may hold that makes a figure depend on an input and yet stay as it is."""

EQUAL = {
    r"cost\.per_stored_kwh": "a change of its electricity below the last bit of all other costs is lost in their sum",
    r"safety\.\w+\.purge_nitrogen": "the atmosphere cancels between two gauge readings",
    r"stack\.let_down_time.*|boosters\.\d+\.stall_share|stack\.differential_highest": "a difference of gauge readings",
    r".*\.category|.*_outcome": "a word, which changes only at its limit",
    r"season\.run|banks\.\w+\.run": "a run, the same where an event is not met",
    r"stack\.(cell_oxygen_flow|hydrogen_recombined|catalyst_heat).*": "a stack without a catalyst recombines nothing",
    r"drying\.\d+\.(removed|removed_load).*": "a stage that is warmer than the dew point removes nothing",
    r"drying\.\d+\.inlet_water.*": "water comes with the current, whatever the hydrogen that carries it",
    r"boosters\.\d+\.stall_pressure.*": "the supply helps only a booster with an assisting area",
    r"boosters\.\d+\.(drive_air|efficiency|specific_energy)|compressor\.duty": "the volume of a stroke cancels",
    r"plant\.energy_per_kg_running|banks\.\w+\.(fill|boosting)_energy|transfers\.\d+\.energy|season\.share_met": "reads"
    " a booster's energy",
    r"transfers\.\d+\.final_source_pressure": "a source that is drawn down to its lowest ends there",
}
"""Figures, by pattern, that stand on an entry and do not move with it, and why."""


def moved(graph: Graph, path: str) -> Iterator[dict[str, float]]:
    """An entry a tenth up and a tenth down; a temperature three kelvin, a number one."""
    value = graph[path]
    step = 0.1 * abs(value.si) or 1e-3
    if value.kind in ("temperature", "count"):
        step = 3.0 if value.kind == "temperature" else 1.0
    if path == "site.altitude":
        step = 500.0
    for sign in (+1, -1):
        yield {path: value.si + sign * step}


def test_an_entry_moves_what_stands_on_it_and_nothing_else(graph):
    """
    By construction no figure moves that does not stand on the entry. Each that is said to stand on it does move with it,
    or it selects, or it is listed as equal with the reason.

    Values that do not stand on the entry are taken over from the first graph; that they may be is the next test. What
    is evaluated late takes too long to be moved by each entry, and has a test of its own beside its module.
    """
    first = {name: graph[name] for name in graph}
    late = {name for name, one in graph.figures.items() if one.late}
    standing = {path: names - late for path, names in below(graph).items()}
    silent: dict[str, set[str]] = defaultdict(set)
    used: set[str] = set()
    for path in graph.entries:
        if not first[path].is_number:
            continue
        changed: set[str] = {path}
        evaluated: set[str] = set()
        for change in moved(graph, path):
            again = graph.with_inputs(change)
            again._values.update({name: first[name] for name in graph if name not in standing[path] and name != path})
            for name in standing[path] - changed:
                try:
                    if not close(again[name].si, first[name].si, 0.0):
                        changed.add(name)
                    evaluated.add(name)
                except FigureError:
                    continue
        assert evaluated | changed >= standing[path], f"{path}: nothing can be evaluated a little beside it"
        for name in standing[path] - changed:
            if not any(read in changed for read in graph.inputs_of(name)):
                continue  # explained by what it reads
            if set(operations(first[name].node)) & SELECTING.keys():
                continue
            reasons = [pattern for pattern in EQUAL if re.fullmatch(pattern, name)]
            used.update(reasons)
            if not reasons:
                silent[name].add(path)
    assert {name: sorted(paths) for name, paths in silent.items()} == {}


def test_figures_do_not_depend_on_the_order_in_which_they_are_asked_for(graph):
    forwards = values_of(graph)
    names = list(graph)
    for order in (list(reversed(names)), random.Random(7).sample(names, len(names))):
        again = graph.with_inputs({})
        found = {name: again[name].si for name in order}
        assert [name for name in names if not close(found[name], forwards[name], 0.0)] == []


def test_other_inputs_leave_the_first_graph_alone(plant):
    """What it had evaluated and what it had not: an untouched copy of the plant gives the same afterwards."""
    graph = plant.graph.with_inputs({})
    half = list(graph)[::2]
    before = {name: graph[name].si for name in half}
    entries = dict(graph.entries)
    other = graph.with_inputs({"stack.cells": str(int(graph["stack.cells"].si) + 1), "site.altitude": "500 m"})
    assert other["stack.voltage"].si > plant.graph["stack.voltage"].si
    assert graph.entries == entries
    assert [name for name in half if not close(graph[name].si, before[name], 0.0)] == []
    assert [name for name in graph if not close(graph[name].si, plant.graph[name].si, 0.0)] == []


def in_another_unit(value, atmosphere_pa: float) -> str | None:
    """The same quantity as another author would type it; none where its kind has one unit only."""
    typed: Quantity = value
    kind = "absolute_pressure" if typed.kind == "gauge_pressure" else typed.kind
    si = typed.si + (atmosphere_pa if typed.kind == "gauge_pressure" else 0.0)
    others = [unit for unit in units_of(kind) if unit.typed not in (typed.unit, "")]
    return f"{others[-1].from_si(si)!r} {others[-1].typed}" if others else None


def test_figures_do_not_depend_on_the_units_of_the_entries(graph):
    """Every entry at once in another unit of its kind, gauge pressures as absolute ones: 25 bar(g) as 377.3 psi(a)."""
    atmosphere_pa = graph[ATMOSPHERE].si
    changes = {}
    for path, entry in graph.entries.items():
        if isinstance(entry.value, Quantity) and path != ATMOSPHERE:
            text = in_another_unit(entry.value, atmosphere_pa)
            if text is not None:
                changes[path] = text
    assert len(changes) > 100
    again = graph.with_inputs(changes)
    assert again.entries["buffer.cut_out"].value.unit != graph.entries["buffer.cut_out"].value.unit
    # Fifteen digits of an input; roots and runs stop at a tolerance of their own.
    assert [name for name in graph if not close(again[name].si, graph[name].si, 1e-6)] == []


@pytest.mark.parametrize(
    ("gauge", "other"),
    [("26 bar(g)", "377.098118098544 psi(g)"), ("26 bar(g)", "2.6 MPa(g)"), ("26 bar(g)", "2600 kPa(g)")],
)
def test_a_gauge_pressure_is_the_same_in_other_gauge_units(gauge, other):
    """26 bar = 26e5 Pa / 6894.757293168361 Pa/psi = 377.098118098544 psi."""
    graph = the_plant("shed").graph
    one, two = (graph.with_inputs({"buffer.cut_out": text}) for text in (gauge, other))
    assert [name for name in graph if not close(one[name].si, two[name].si, 1e-6)] == []


def test_the_altitude_moves_every_gauge_pressure_and_no_reading(graph):
    """ICAO standard atmosphere: 84.556 kPa at 1500 m. What a gauge shows stays, what is inside falls with the air."""
    high = graph.with_inputs({"site.altitude": "1500 m"})
    assert high[ATMOSPHERE].si == pytest.approx(84556, rel=1e-4)
    difference = graph[ATMOSPHERE].si - high[ATMOSPHERE].si
    gauges = [path for path, entry in graph.entries.items() if getattr(entry.value, "kind", "") == "gauge_pressure"]
    assert len(gauges) >= 10
    assert [path for path in gauges if not math.isclose(graph[path].si - high[path].si, difference, rel_tol=1e-6)] == []
    assert [path for path in gauges if graph[path].show() != high[path].show()] == []


def test_reasons_are_given_only_for_figures_that_exist():
    names = {name for plant in NAMES for name in the_plant(plant).graph.figures}
    assert [pattern for pattern in EQUAL if not any(re.fullmatch(pattern, name) for name in names)] == []


# The same plant written otherwise.


def written_otherwise(plant: Plant, folder: Path, change) -> Plant:
    """A plant whose files were rewritten; JSON is YAML, so data that was changed goes back as such."""
    target = folder / plant.name
    shutil.copytree(plant.description.folder, target)
    change(target)
    return Plant.load(target)


def test_items_in_another_order_change_nothing(plant, tmp_path):
    def backwards(folder: Path) -> None:
        data = dict(plant.description.documents["network.yml"].data)
        for key in ("items", "sections"):
            data[key] = dict(reversed(data[key].items()))
        (folder / "network.yml").write_text(json.dumps(data, ensure_ascii=False), "utf-8")

    other = written_otherwise(plant, tmp_path, backwards).graph
    assert set(other) == set(plant.graph)
    # What the failures bring is compared figure by figure; their run lists them in the order of the items.
    names = [name for name in other if name != "safety.single_failures"]
    assert [name for name in names if not close(other[name].si, plant.graph[name].si, 1e-12)] == []


def test_keys_in_another_order_change_nothing(plant, tmp_path):
    def backwards(folder: Path) -> None:
        data = plant.description.documents["plant.yml"].data
        turned = {
            key: dict(reversed(value.items())) if isinstance(value, dict) else value
            for key, value in reversed(data.items())
        }
        (folder / "plant.yml").write_text(json.dumps(turned, ensure_ascii=False), "utf-8")

    other = written_otherwise(plant, tmp_path, backwards).graph
    assert set(other) == set(plant.graph)
    assert [name for name in other if not close(other[name].si, plant.graph[name].si, 1e-12)] == []


def test_tags_by_other_names_change_nothing(plant, tmp_path):
    """Every tag gets another number, 500 higher; figures that carry a tag carry the new one, with the old value."""
    network = plant.description.documents["network.yml"].data
    renamed = {tag: re.sub(r"\d+$", lambda found: str(int(found[0]) + 500), tag)
               for tag in [*network["items"], *network["lines"]]}  # fmt: skip
    every = re.compile(r"\b(" + "|".join(sorted(renamed, key=len, reverse=True)) + r")\b")

    def rename(folder: Path) -> None:
        for path in folder.glob("*.yml"):
            path.write_text(every.sub(lambda found: renamed[found[0]], path.read_text("utf-8")), "utf-8")

    other = written_otherwise(plant, tmp_path, rename).graph
    small = {tag.lower(): name.lower() for tag, name in renamed.items()}

    def renamed_path(path: str) -> str:
        parts = path.split(".")
        return ".".join(
            re.sub(r"(?<=from_)\w+", lambda found: small.get(found[0], found[0]), small.get(part, part))
            if parts[0] in ("items", "lines", "safety", "boosters", "drying")
            else part
            for part in parts
        )

    mapped = {name: renamed_path(name) for name in plant.graph}
    assert set(mapped.values()) == set(other)
    texts = [
        name
        for name, theirs in mapped.items()
        if plant.graph[name].kind != "text"
        and name != "safety.single_failures"
        and not close(plant.graph[name].si, other[theirs].si, 1e-12)
    ]
    assert texts == []


def test_a_mistyped_entry_never_reaches_a_figure(graph):
    with pytest.raises(QuantityError):
        graph.with_inputs({"buffer.cut_out": "26 bar"})
    with pytest.raises(QuantityError):
        read("NaN bar(g)", "pressure")


# What a plant must have.

FOR_EVERY_PLANT = [
    "stack.current_density",
    "stack.cell_voltage",
    "stack.reversible_voltage",
    "stack.thermoneutral_voltage",
    "stack.voltage",
    "stack.power",
    "stack.supply_power",
    "stack.crossover_flow",
    "stack.crossover_flow_cut_in",
    "stack.crossover_flow_relief",
    "stack.faraday_efficiency",
    "stack.hydrogen_flow",
    "stack.hydrogen_normal_flow",
    "stack.oxygen_flow",
    "stack.water_consumed",
    "stack.water_dragged",
    "stack.hydrogen_in_oxygen",
    "stack.hydrogen_in_oxygen_catalyst_dead",
    "stack.minimum_current_alarm",
    "stack.minimum_current_trip",
    "stack.crossover_at_rest",
    "stack.oxygen_space_time_to_limit",
    "stack.let_down_time",
    "stack.specific_energy",
    "stack.efficiency_lower",
    "stack.efficiency_higher",
    "stack.heat",
    "stack.preheat_energy",
    "stack.preheat_time",
    "power.supply_current",
    "power.fuse_minimum",
    "power.fuse_maximum",
    "power.cable_drop",
    "power.cable_loss",
    "power.cable_area_minimum",
    "power.voltage_headroom",
    "water.temperature_rise",
    "water.cooling_capacity",
    "water.cooling_margin",
    "water.consumption",
    "water.top_up_interval",
    "water.deioniser_life",
    "water.hydrogen_returned",
    "water.drain_blow_by",
    "oxygen.vent_velocity",
    "oxygen.water_carried",
    "drying.condensate",
    "drying.dew_point",
    "drying.dew_point_cut_out",
    "drying.dew_point_mean",
    "drying.frost_point",
    "drying.water_fraction",
    "buffer.cycle_mass",
    "buffer.cycle_normal_volume",
    "buffer.fill_time",
    "buffer.cycles_per_year",
    "safety.ventilation_needed",
    "safety.natural_opening_needed",
    "safety.ceiling_layer_fraction",
    "safety.time_to_quarter_limit",
    "safety.release_fraction",
    "safety.purge_swings_in",
    "safety.purge_swings_out",
    "safety.leak_test_allowance",
    "safety.strength_test_pressure",
    "plant.daily_mass",
    "plant.energy_per_kg_stored",
    "plant.stored_inventory",
]

FOR_EACH = {
    "drying.{}": "inlet_water outlet_water removed outlet_dew_point",
    "boosters.{}": """stall_pressure stall_pressure_highest pressure_ratio ratio_limit stall_share
        volumetric_efficiency flow volumetric_efficiency_cut_out flow_cut_out discharge_temperature_isentropic discharge_temperature ideal_work
        drive_air specific_energy efficiency strokes_per_year""",
    "banks.{}": """mass energy_lower normal_volume free_flow_mass buffer_cycles fill_time fill_energy hot_pressure
        cold_pressure developed_pressure gauge_table fill_temperature_adiabatic fill_temperature settled_pressure
        category""",
    "transfers.{}": "free_mass boosted_mass final_source_pressure final_target_pressure time",
    "safety.relief.{}": "required_area capacity largest_source",
    "safety.line.{}": "rating",
    "safety.tube.{}": "rating",
    "safety.hose.{}": "rupture_flow",
    "safety.{}": "leak_flow hole_leak_flow",
    "vehicle": """uses.{}.mass_gained uses.{}.shortest_fill_time""",
    "burner": "uses.{}.hours uses.{}.heat_available",
    "fuel_cell": "uses.{}.hours uses.{}.electricity_available",
}


def wanted_of(plant: Plant) -> Iterator[str]:
    """Every figure that the plant has the parts for."""
    yield from FOR_EVERY_PLANT
    description = plant.description
    parts, network = description.plant, description.network

    def each(pattern: str, names) -> Iterator[str]:
        for name in names:
            yield from (f"{pattern.format(name)}.{figure}" for figure in FOR_EACH[pattern].split())

    for kind, figures in (
        ("desiccant", "desiccant_capacity desiccant_interval regeneration_energy"), ("cold_coil", "coil_area_minimum")
    ):  # fmt: skip
        if any(stage.kind == kind for stage in parts.drying):
            yield from (f"drying.{figure}" for figure in figures.split())
    yield from each("drying.{}", range(1, len(parts.drying) + 1))
    yield from each("boosters.{}", range(1, len(parts.boosters) + 1))
    if parts.compressor is not None:
        yield "compressor.duty"
    yield from each("banks.{}", parts.banks)
    yield from each("transfers.{}", range(1, len(parts.transfers) + 1))
    for number, use in enumerate(parts.uses, start=1):
        yield from (figure.format(number) for figure in FOR_EACH[use.kind].split())
        if use.kind == "vehicle":
            yield from (
                f"uses.{number}.{figure}_{bank}" for bank in use.supply for figure in ("from", "pressure_after")
            )
        if use.kind == "fuel_cell":
            yield "plant.round_trip_efficiency"
    by_month = parts.power.surplus is not None and parts.demand.daily_energy is not None
    if by_month or description.hours is not None:
        yield from (f"season.{figure}" for figure in ("stored_peak", "shortfall", "hours_running", "starts"))
    yield from each(
        "safety.relief.{}", [tag.lower() for tag, item in network.items.items() if item.kind == "relief_valve"]
    )
    yield from each("safety.hose.{}", [tag.lower() for tag, item in network.items.items() if item.kind == "hose"])
    tubes = [tag for tag, line in network.lines.items() if line.wall is not None and line.medium in STEEL_LINES]
    yield from each("safety.tube.{}", map(str.lower, tubes))
    gas = [tag for tag, line in network.lines.items() if line.medium in HYDROGEN]
    yield from each("safety.line.{}", map(str.lower, gas))
    under_pressure = [
        name for name, section in network.sections.items() if section.medium in HYDROGEN and not section.unprotected
    ]
    yield from each("safety.{}", under_pressure)


def test_a_plant_has_every_figure_that_its_parts_call_for(plant):
    assert [name for name in wanted_of(plant) if name not in plant.graph.figures] == []
