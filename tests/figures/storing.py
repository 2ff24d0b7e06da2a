"""
Shed and farm as the tests of buffer, boosters, banks, transfers and runs see them: the values by which the arithmetic
was done are pinned, and what the stack makes, takes and reaches are entries, so that they do not move with the stack.
"""

import functools
from dataclasses import replace
from pathlib import Path

from macros.description.loading import load
from macros.figures import banks, boosters, buffer, runs, surroundings, transfers
from macros.figures.graph import Entry, Graph
from macros.figures.plant import entries_of
from macros.quantities import read

DESIGNS = Path(__file__).parents[2] / "docs" / "designs"
MODULES = (surroundings, buffer, boosters, banks, transfers, runs)
STACK = {"stack.hydrogen_flow": "36 g/h", "stack.supply_power": "2.1 kW", "stack.relief_pressure": "33.9 bar(g)"}

SITE = {"site.altitude": "0 m", "site.coldest": "-8 °C", "site.usual": "15 °C", "site.hottest": "38 °C"}
SHED = SITE | {
    "buffer.volume": "10 L",
    "buffer.train_volume": "2.5 L",
    "buffer.cut_in": "15 bar(g)",
    "buffer.cut_out": "25 bar(g)",
    "buffer.high_trip": "27 bar(g)",
    "buffer.temperature": "15 °C",
    "buffer.allowable_pressure": "50 bar(g)",
    "buffer.cycle_life": "200000",
    "boosters.1.ratio": "12",
    "boosters.1.assist_ratio": "0",
    "boosters.1.swept_volume": "60 mL",
    "boosters.1.faces": "1",
    "boosters.1.return_share": "100 %",
    "boosters.1.cracking": "0.2 bar",
    "boosters.1.clearance": "8 %",
    "boosters.1.stroke_rate": "20 1/min",
    "boosters.1.drive_pressure": "6.0 bar(g)",
    "boosters.1.drive_pressure_highest": "7.5 bar(g)",
    "boosters.1.polytropic_index": "1.2",
    "boosters.1.seal_life": "2000000",
    "compressor.free_air": "220 NL/min",
    "compressor.power": "1.5 kW",
    "compressor.cut_in": "6.5 bar(g)",
    "banks.store.cylinders": "4",
    "banks.store.water_volume": "50 L",
    "banks.store.fill_pressure": "50 bar(g)",
    "banks.store.working_pressure": "200 bar(g)",
    "banks.store.test_pressure": "300 bar(g)",
    "banks.store.cylinder_mass": "55 kg",
    "banks.store.cylinder_heat": "0.47 kJ/(kg K)",
    "banks.store.slenderness": "6",
    "banks.store.inner_film": "30 W/(m2 K)",
    "banks.store.outer_film": "6 W/(m2 K)",
    "demand.running_hours": "1600 h",
}
FARM = SITE | {
    "buffer.volume": "50 L",
    "buffer.train_volume": "10 L",
    "buffer.cut_in": "15 bar(g)",
    "buffer.cut_out": "28 bar(g)",
    "buffer.high_trip": "30 bar(g)",
    "boosters.1.ratio": "12",
    "boosters.1.drive_pressure": "6 bar(g)",
    "boosters.2.ratio": "36",
    "boosters.2.assist_ratio": "0",
    "boosters.2.swept_volume": "60 mL",
    "boosters.2.faces": "1",
    "boosters.2.return_share": "100 %",
    "boosters.2.clearance": "6 %",
    "boosters.2.stroke_rate": "30 1/min",
    "boosters.2.drive_pressure": "5.5 bar(g)",
    "boosters.2.drive_pressure_highest": "7 bar(g)",
    "banks.low.cylinders": "12",
    "banks.low.water_volume": "50 L",
    "banks.low.fill_pressure": "50 bar(g)",
    "banks.high.cylinders": "6",
    "banks.high.water_volume": "50 L",
    "banks.high.fill_pressure": "140 bar(g)",
    "transfers.1.source_lowest": "30 bar(g)",
}


def described(name, **parts):
    """A plant as described, with other parts where a test wants them."""
    description = load(DESIGNS / name)
    return replace(description, plant=description.plant.model_copy(update=parts)) if parts else description


def graph_of(description, pins, **changes):
    """The figures of storing over a description, pinned."""
    stack = [Entry(path, read(text), path, path) for path, text in STACK.items()]
    figures = [each for module in MODULES for each in module.figures(description)]
    graph = Graph([*entries_of(description), *stack], figures)
    wanted = pins | changes
    return graph.with_inputs({path: text for path, text in wanted.items() if path in graph.entries})


@functools.cache
def shed():
    return graph_of(described("shed"), SHED)


@functools.cache
def farm():
    return graph_of(described("farm"), FARM)
