"""
Figures of relief valves: what the largest source brings, what area that asks for, what the valve passes.

Sources are taken at their worst: the stack at all the current that the rectifier gives, since as a compressor it knows
no stall; a booster at its highest inlet, every stroke full; a regulator failed open; a membrane with a hole in it.
A first check: the maker's certificate decides, and the choice belongs to licensed practice.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.constants import MOLAR_MASS_AIR, MOLAR_MASS_HYDROGEN
from macros.calculations.faraday import hydrogen_produced
from macros.calculations.hydrogen import compressibility, density
from macros.calculations.leak import RATIO_AIR, RATIO_HYDROGEN, hole_area, leak_flow, opening_of_valve
from macros.calculations.relief import relief_area_required, relief_capacity, relieving_pressure
from macros.description.item_kinds import HYDROGEN
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure
from macros.figures.safety import has_pressure, most
from macros.network.network import Network

PROTECTING = ("relief_valve", "burst_disc")


def figures(description: Description) -> Iterator[Figure]:
    """The figures of every relief valve and burst disc that stands in a section."""
    network = Network.of(description)
    for tag, item in description.network.items.items():
        section = network.section_of(tag)
        if item.kind in PROTECTING and section is not None:
            yield from _relief(description, network, tag, section)


def _relief(description: Description, network: Network, tag: str, section: str) -> Iterator[Figure]:
    """One relief valve: the pressure at which it is fully open, its sources, its area and capacity."""
    described = description.network.items[tag]
    path, item = f"safety.relief.{tag.lower()}", f"items.{tag.lower()}"
    air = description.network.sections[section].medium in ("air", "nitrogen")
    accumulation: dict[str, Any] = (
        {"accumulation": f"{item}.accumulation"} if described.accumulation is not None else {}
    )
    yield figure(
        f"{path}.relieving_pressure", _relieving, unit="bar(g)", symbol="p_1", source="api-520", rounding="down",
        set_pressure=f"{item}.set_pressure", atmosphere=ATMOSPHERE, **accumulation,
    )  # fmt: skip
    gas: dict[str, Any] = {
        "pressure": f"{path}.relieving_pressure", "atmosphere": ATMOSPHERE,
        "coefficient": f"{item}.discharge_coefficient",
        "temperature": "stack.temperature" if _rides(description, section) else "site.hottest",
    }  # fmt: skip
    yield figure(
        f"{path}.capacity", _capacity_air if air else _capacity, unit="Nm3/h", symbol="n_cap", digits=2,
        rounding="down", safety=True, source="api-520", bore=f"{item}.orifice_bore", **gas,
    )  # fmt: skip
    sources = list(_sources(description, network, section))
    if not sources:
        return
    for name, compute, inputs in sources:
        yield figure(
            f"{path}.{name}", compute, unit="Nm3/h", symbol="n_src", digits=2, rounding="up", safety=True,
            source="by-definition", **inputs,
        )  # fmt: skip
    yield figure(
        f"{path}.largest_source", most, unit="Nm3/h", symbol="n_max", digits=2, rounding="up", safety=True,
        source="by-definition", **dict[str, Any]((name, f"{path}.{name}") for name, _, _ in sources),
    )  # fmt: skip
    yield figure(
        f"{path}.required_area", _area_air if air else _area, unit="mm2", symbol="A_req", digits=2, rounding="up",
        safety=True, source="api-520", source_flow=f"{path}.largest_source", **gas,
    )  # fmt: skip
    yield figure(
        f"{path}.load", _load, unit="%", symbol="s_load", digits=2, rounding="up", safety=True, source="by-definition",
        source_flow=f"{path}.largest_source", capacity=f"{path}.capacity",
    )  # fmt: skip


Source = tuple[str, Any, dict[str, Any]]


def _sources(description: Description, network: Network, section: str) -> Iterator[Source]:
    """Everything that can fill a section, each with what it reads."""
    plant = description.plant
    items = description.network.sections[section].items
    medium = description.network.sections[section].medium
    if medium in HYDROGEN and _rides(description, section):
        yield "from_stack", hydrogen_produced, {"current_a": "power.rectifier_current", "cells": "stack.cells"}
    for number, booster in enumerate(plant.boosters, start=1):
        if booster.tag in items and medium in HYDROGEN:
            at = f"boosters.{number}"
            inputs = {
                "swept": f"{at}.swept_volume", "faces": f"{at}.faces", "rate": f"{at}.stroke_rate",
                "inlet": f"{at}.inlet_highest",
            }  # fmt: skip
            yield f"from_{booster.tag.lower()}", _from_booster, {**inputs, "temperature": "site.coldest"}
    for tag in items:
        described = description.network.items[tag]
        if described.kind == "pressure_regulator" and described.flow_coefficient is not None and medium in HYDROGEN:
            before = _section_before(description, network, tag)
            if before is not None and before != section:
                yield f"from_{tag.lower()}", _from_regulator, {
                    "flow_coefficient": f"items.{tag.lower()}.flow_coefficient",
                    "pressure": f"safety.{before}.highest_pressure", "temperature": "site.coldest",
                    "atmosphere": ATMOSPHERE,
                }  # fmt: skip
    if medium == "oxygen" and plant.buffer is not None:
        yield "from_membrane", _from_membrane, {
            "hole": "safety.membrane_hole", "pressure": "stack.relief_pressure", "temperature": "stack.temperature",
            "atmosphere": ATMOSPHERE,
        }  # fmt: skip
    if medium == "air" and plant.compressor is not None:
        yield "from_compressor", _the_same, {"value": "compressor.free_air"}


def _section_before(description: Description, network: Network, tag: str) -> str | None:
    """The section from which an item is fed, junctions passed over; none where it cannot be told or has no pressure."""
    port = (tag, "in")
    for _ in range(len(network.items)):
        run = next((run for run in network.runs if run.end == port), None)
        if run is None:
            return None
        name = network.section_of(run.start[0])
        if name is not None:
            section = description.network.sections[name]
            return name if section.medium in HYDROGEN and has_pressure(description, section) else None
        port = (run.start[0], "in")
    return None


def _rides(description: Description, section: str) -> bool:
    """Whether a section stands at the pressure of the buffer and gets the stack's gas."""
    buffer = description.plant.buffer
    described = description.network.sections[section]
    stacks = {tag for tag, item in description.network.items.items() if item.kind == "stack"}
    held = set(described.items)
    hydrogen = described.medium in HYDROGEN
    return hydrogen and (
        described.rides_with_buffer or bool(held & stacks) or (buffer is not None and buffer.tag in held)
    )


def _relieving(set_pressure: float, atmosphere: float, accumulation: float = 0.0) -> float:
    """Without its tolerance: a valve that opens early passes less."""
    return relieving_pressure(set_pressure, atmosphere, accumulation)


def _capacity(bore: float, pressure: float, temperature: float, atmosphere: float, coefficient: float) -> float:
    flow = relief_capacity(
        hole_area(bore), pressure, temperature, atmosphere, coefficient, RATIO_HYDROGEN, MOLAR_MASS_HYDROGEN,
        compressibility(pressure, temperature),
    )  # fmt: skip
    return flow / MOLAR_MASS_HYDROGEN


def _capacity_air(bore: float, pressure: float, temperature: float, atmosphere: float, coefficient: float) -> float:
    flow = relief_capacity(
        hole_area(bore), pressure, temperature, atmosphere, coefficient, RATIO_AIR, MOLAR_MASS_AIR, 1.0
    )
    return flow / MOLAR_MASS_AIR


def _area(source_flow: float, pressure: float, temperature: float, atmosphere: float, coefficient: float) -> float:
    return relief_area_required(
        source_flow * MOLAR_MASS_HYDROGEN, pressure, temperature, atmosphere, coefficient, RATIO_HYDROGEN,
        MOLAR_MASS_HYDROGEN, compressibility(pressure, temperature),
    )  # fmt: skip


def _area_air(source_flow: float, pressure: float, temperature: float, atmosphere: float, coefficient: float) -> float:
    return relief_area_required(
        source_flow * MOLAR_MASS_AIR, pressure, temperature, atmosphere, coefficient, RATIO_AIR, MOLAR_MASS_AIR, 1.0
    )


def _load(source_flow: float, capacity: float) -> float:
    return source_flow / capacity


def _from_booster(swept: float, faces: float, rate: float, inlet: float, temperature: float) -> float:
    """Every stroke full, at the highest inlet pressure allowed and the coldest."""
    return faces * swept * rate * density(inlet, temperature) / MOLAR_MASS_HYDROGEN


def _from_regulator(flow_coefficient: float, pressure: float, temperature: float, atmosphere: float) -> float:
    """Failed open, its seat as an opening without losses."""
    return leak_flow(opening_of_valve(flow_coefficient), 1.0, pressure, temperature, atmosphere) / MOLAR_MASS_HYDROGEN


def _from_membrane(hole: float, pressure: float, temperature: float, atmosphere: float) -> float:
    """Hydrogen through a hole in a membrane, the stack at the highest pressure that its relief lets through."""
    return leak_flow(hole_area(hole), 1.0, pressure, temperature, atmosphere) / MOLAR_MASS_HYDROGEN


def _the_same(value: float) -> float:
    return value
