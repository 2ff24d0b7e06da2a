"""
The shed plant as the tests of its figures see it: the values by which the arithmetic was done are pinned, so that it
holds when the shed is changed, and what a booster takes is an entry, so that it does not move with the booster's model.
"""

from pathlib import Path

from macros.description.loading import load
from macros.figures import (
    drying,
    lines,
    plant_totals,
    power,
    purging,
    relief,
    safety,
    season,
    stack,
    surroundings,
    uses,
    water,
)
from macros.figures.graph import Entry, Graph
from macros.figures.plant import entries_of
from macros.quantities import read

SHED = Path(__file__).parents[2] / "docs" / "designs" / "shed"
MODULES = (surroundings, stack, power, water, drying, safety, relief, lines, purging, uses, season, plant_totals)
BOOSTING = Entry("boosters.1.specific_energy", read("12 kWh/kg"), "Electricity of boosting", "w_b")

PINNED = {
    "site.altitude": "4 m",
    "site.coldest": "-8 °C",
    "site.usual": "15 °C",
    "site.hottest": "38 °C",
    "rooms.shed.floor_area": "9 m2",
    "rooms.shed.height": "2.4 m",
    "rooms.shed.pocket_height": "0.15 m",
    "rooms.shed.fan_flow": "250 m3/h",
    "rooms.shed.openings.1.area": "400 cm2",
    "rooms.shed.openings.1.height": "0.2 m",
    "rooms.shed.openings.2.area": "400 cm2",
    "rooms.shed.openings.2.height": "2.3 m",
    "power.rectifier_current": "80 A",
    "stack.cells": "16",
    "stack.current": "60 A",
    "stack.temperature": "60 °C",
    "buffer.volume": "10 L",
    "buffer.train_volume": "2.5 L",
    "buffer.temperature": "15 °C",
    "buffer.cut_in": "15 bar(g)",
    "buffer.cut_out": "25 bar(g)",
    "boosters.1.swept_volume": "60 mL",
    "boosters.1.faces": "1",
    "boosters.1.stroke_rate": "20 1/min",
    "boosters.1.inlet_highest": "60 bar(g)",
    "banks.store.cylinders": "4",
    "banks.store.water_volume": "50 L",
    "banks.store.fill_pressure": "50 bar(g)",
    "demand.running_hours": "1600 h",
    "demand.starts": "320",
    "demand.daily_energy": "6 kWh(lower)",
    "safety.purge_pressure": "4 bar(g)",
    "safety.oxygen_left": "1 %",
    "safety.hydrogen_left": "1 %",
    "safety.leak_test_pressure": "6 bar(g)",
    "safety.leak_test_time": "30 min",
    "safety.leak_allowed": "5 NmL/min",
    "safety.tube_stress": "115 MPa",
    "safety.membrane_hole": "1 mm",
    "sections.train.free_volume": "1.2 L",
    "sections.train.seal_height": "1.5 m",
    "sections.column.seal_height": "1.5 m",
    "sections.dry.seal_height": "1.5 m",
    "sections.column.free_volume": "1 L",
    "sections.dry.free_volume": "0.3 L",
    "items.rv1.set_pressure": "30 bar(g)",
    "items.rv2.set_pressure": "30 bar(g)",
    "items.rv1.tolerance": "3 %",
    "items.rv2.tolerance": "3 %",
    "items.rv1.accumulation": "10 %",
    "items.rv2.accumulation": "10 %",
    "items.rv1.orifice_bore": "4 mm",
    "items.rv1.discharge_coefficient": "0.6",
    "items.rv3.set_pressure": "7 bar(g)",
    "items.rv3.accumulation": "4 %",
    "items.rv3.orifice_bore": "3 mm",
    "items.rv3.discharge_coefficient": "0.6",
    "items.rv5.set_pressure": "1 bar(g)",
    "items.rv6.set_pressure": "1 bar(g)",
    "items.rv6.accumulation": "10 %",
    "items.rv6.orifice_bore": "9 mm",
    "items.rv6.discharge_coefficient": "0.6",
    "items.pr1.flow_coefficient": "0.02 Kv",
    "items.v16.flow_coefficient": "0.1 Kv",
    "items.ho1.bore": "4 mm",
    "items.ho1.length": "1 m",
    "lines.l1.outer_diameter": "6 mm",
    "lines.l1.wall": "1 mm",
    "lines.l1.wall_tolerance": "10 %",
    "lines.l1.length": "3 m",
    "stack.pressure_rating": "35 bar(g)",
    "compressor.free_air": "220 NL/min",
    "uses.1.heat": "2.5 kW",
    "uses.1.lowest_pressure": "2 bar(g)",
    "uses.2.electric_power": "1 kW",
    "uses.2.efficiency": "48 %",
    "uses.2.lowest_pressure": "2 bar(g)",
    **{
        f"power.surplus.{month}": f"{energy} kWh"
        for month, energy in enumerate((4, 8, 16, 24, 30, 32, 30, 26, 18, 10, 5, 3), start=1)
    },
}

NORMAL_M3_PER_H = 22.41396954e-3 * 3600
"""Normal cubic metres an hour for each mole a second."""
NORMAL_L_PER_MIN = 22.41396954 * 60
BAR, ATMOSPHERE = 1e5, 101277.0


def description():
    return load(SHED)


def graph_of(plant, modules=MODULES):
    """All figures of a description, what a booster takes given."""
    found = [one for module in modules for one in module.figures(plant)]
    given = [] if any(one.name == BOOSTING.path for one in found) else [BOOSTING]
    return Graph([*entries_of(plant), *given], found)


def pinned(plant):
    return graph_of(plant).with_inputs(PINNED)
