"""The shed plant with the values by which the tests were reckoned, so that they hold when the shed is changed."""

from __future__ import annotations

import functools
from dataclasses import replace
from pathlib import Path
from typing import Any

from macros.description.loading import Description, load
from macros.figures import drying, power, stack, surroundings, water
from macros.figures.graph import Graph
from macros.figures.plant import entries_of

SHED = Path(__file__).parents[2] / "docs" / "designs" / "shed"
CELSIUS = 273.15
NORMAL_ML_PER_MIN = 1e-6 / 22.41396954e-3 / 60
PINNED = {
    "site.altitude": "4 m",
    "site.coldest": "-8 °C",
    "site.hottest": "38 °C",
    "power.supply_voltage": "230 V",
    "power.power_factor": "0.95",
    "power.rectifier_efficiency": "90 %",
    "power.rectifier_voltage": "40 V",
    "power.cable.length": "4 m",
    "power.cable.area": "25 mm2",
    "power.cable.ampacity": "110 A",
    "power.cable.temperature": "70 °C",
    "power.drop_allowed": "3 %",
    "stack.cells": "16",
    "stack.active_area": "50 cm2",
    "stack.membrane_thickness": "178 um",
    "stack.current": "60 A",
    "stack.temperature": "60 °C",
    "stack.cold_voltage_rise": "0.25 V",
    "stack.catalyst_efficiency": "70 %",
    "stack.excess_factor": "1.3",
    "stack.drag": "3",
    "stack.anode_pressure": "0.1 bar(g)",
    "stack.oxygen_volume": "1 L",
    "stack.let_down_rate": "5 bar/min",
    "stack.rest_pressure": "0.5 bar(g)",
    "stack.hydrogen_in_oxygen_alarm": "1 %",
    "stack.hydrogen_in_oxygen_trip": "2 %",
    "stack.heat_capacity": "30 kJ/K",
    "stack.heat_loss": "4 W/K",
    "stack.heater": "500 W",
    "water.flow": "4 L/min",
    "water.cooler.conductance": "45 W/K",
    "water.cooler.air_flow": "400 m3/h",
    "water.deioniser.resin": "1.5 L",
    "water.deioniser.capacity": "0.41 eq/L",
    "water.deioniser.age_limit": "1 a",
    "water.usable": "6 L",
    "water.feed_conductivity": "1.5 uS/cm",
    "water.carbon_dioxide": "0.014 mol/m3",
    "water.oxygen_outlet": "40 °C",
    "water.degassed_share": "70 %",
    "water.drain_orifice": "0.3 mm",
    "water.vent_bore": "12 mm",
    "drying.1.temperature": "40 °C",
    "drying.2.temperature": "22 °C",
    "buffer.cut_in": "15 bar(g)",
    "buffer.cut_out": "25 bar(g)",
    "items.rv1.set_pressure": "30 bar(g)",
    "items.rv1.tolerance": "3 %",
    "items.rv1.accumulation": "10 %",
    "demand.running_hours": "1600 h",
}


@functools.cache
def shed() -> Description:
    """The shed plant as it is described."""
    return load(SHED)


def shed_with(part: str = "stack", **changes: Any) -> Description:
    """The shed plant with other values of one part, fields by name."""
    plant = shed().plant
    if part == "plant":
        return replace(shed(), plant=plant.model_copy(update=changes))
    return replace(shed(), plant=plant.model_copy(update={part: getattr(plant, part).model_copy(update=changes)}))


def graph_of(description: Description, **more: str) -> Graph:
    """The figures of stack, power, water and drying over a description, its values pinned."""
    figures = [each for module in (surroundings, stack, power, water, drying) for each in module.figures(description)]
    graph = Graph(entries_of(description), figures)
    changes = PINNED | {path.replace("__", "."): value for path, value in more.items()}
    return graph.with_inputs({path: value for path, value in changes.items() if path in graph.entries})


@functools.cache
def shed_graph() -> Graph:
    """The shed plant as pinned."""
    return graph_of(shed())
