"""
Figures of the whole plant: what a day and a year bring, what a stored kilogram takes, what comes back of it.

Counted for a kilogram that is in the banks: stack through its rectifier, water pump, the compressor's share for every
booster on the way there, and the year's heating up and regenerating spread over the year's hydrogen. Where there are
several banks it is the mean of what full ones hold.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.hydrogen import density
from macros.calculations.plant_energy import (
    energy_per_kg_kept,
    energy_per_kg_made,
    mass_in_time,
    round_trip_efficiency,
)
from macros.calculations.storage import energy_lower
from macros.calculations.vehicle import SETTLED_TEMPERATURE
from macros.description.loading import Description
from macros.figures.graph import Figure, figure
from macros.figures.supplies import stages_into


def figures(description: Description) -> Iterator[Figure]:
    """Hydrogen and energy of the whole plant; the inventory that an authority asks for."""
    plant = description.plant
    if plant.buffer is None:
        return
    yield figure(
        "plant.yearly_mass", mass_in_time, unit="kg", symbol="m_a", digits=3,
        mass_flow_kg_per_s="stack.hydrogen_flow", running_s="demand.running_hours",
    )  # fmt: skip
    yield figure(
        "plant.daily_mass", _each, unit="kg", symbol="m_d", digits=2, source="by-definition",
        total="plant.yearly_mass", count="demand.starts",
    )  # fmt: skip
    yield figure(
        "plant.energy_per_kg_made", _made, unit="kWh/kg", symbol="w_made", digits=3, source="by-definition",
        supply="stack.supply_power", pump="water.pump_power", flow="stack.hydrogen_flow",
    )  # fmt: skip
    yearly: dict[str, Any] = {"starts": "demand.starts", "start": "stack.preheat_energy"}
    if any(stage.kind == "desiccant" for stage in plant.drying):
        yearly |= {
            "regeneration": "drying.regeneration_energy", "interval": "drying.desiccant_interval",
            "running": "demand.running_hours",
        }  # fmt: skip
    yield figure(
        "plant.yearly_extra_energy", _yearly, unit="kWh", symbol="E_a", digits=3, rounding="up", source="by-definition",
        **yearly,
    )  # fmt: skip
    boosting: dict[str, Any] = {}
    for name in plant.banks:
        stages = stages_into(description, name)
        if stages:
            yield figure(
                f"banks.{name}.boosting_energy", _summed, unit="kWh/kg", symbol="w_boost", digits=3, rounding="up",
                source="by-definition",
                **dict[str, Any]((f"stage_{number}", f"boosters.{number}.specific_energy") for number in stages),
            )  # fmt: skip
            boosting[f"energy_of_{name}"] = f"banks.{name}.boosting_energy"
        if len(plant.banks) > 1:
            boosting[f"mass_of_{name}"] = f"banks.{name}.mass"
    yield figure(
        "plant.energy_per_kg_running", _running, unit="kWh/kg", symbol="w_run", digits=3, rounding="up",
        source="by-definition", made="plant.energy_per_kg_made", **boosting,
    )  # fmt: skip
    yield figure(
        "plant.energy_per_kg_stored", _stored, unit="kWh/kg", symbol="w_kept", digits=3, rounding="up",
        source="by-definition",
        running="plant.energy_per_kg_running", yearly="plant.yearly_extra_energy", mass="plant.yearly_mass",
    )  # fmt: skip
    cell = next((number for number, use in enumerate(plant.uses, start=1) if use.efficiency is not None), None)
    if cell is not None:
        yield figure(
            "plant.round_trip_efficiency", round_trip_efficiency, unit="%", symbol="η_rt", digits=2, rounding="down",
            efficiency=f"uses.{cell}.efficiency", stored_j_per_kg="plant.energy_per_kg_stored",
        )  # fmt: skip
    yield from _inventory(description)


def _inventory(description: Description) -> Iterator[Figure]:
    """Everything that the plant holds when it is full."""
    inputs: dict[str, Any] = {
        "buffer": "buffer.volume", "train": "buffer.train_volume", "full": "buffer.cut_out",
        "usual": "buffer.temperature",
    }  # fmt: skip
    for name in description.plant.banks:
        inputs |= {
            f"cylinders_of_{name}": f"banks.{name}.cylinders", f"volume_of_{name}": f"banks.{name}.water_volume",
            f"pressure_of_{name}": f"banks.{name}.fill_pressure",
        }  # fmt: skip
    yield figure(
        "plant.stored_inventory", _held, unit="kg", symbol="m_all", digits=3, rounding="up", safety=True,
        source="mass-balance", **inputs,
    )  # fmt: skip
    yield figure(
        "plant.stored_energy",
        energy_lower,
        unit="kWh(lower)",
        symbol="E_all",
        digits=3,
        mass_kg="plant.stored_inventory",
    )


def _each(total: float, count: float) -> float:
    return total / count


def _made(supply: float, pump: float, flow: float) -> float:
    return energy_per_kg_made(supply, pump, 0.0, flow)


def _yearly(
    starts: float, start: float, regeneration: float = 0.0, interval: float = 1.0, running: float = 0.0
) -> float:
    return starts * start + running / interval * regeneration


def _summed(**parts: float) -> float:
    total, *others = parts.values()
    for each in others:
        total = total + each
    return total


def _running(made: float, **banks: float) -> float:
    """Making and boosting, starts and regenerations left out; several banks by what each holds when full."""
    energies = {key.removeprefix("energy_of_"): value for key, value in banks.items() if key.startswith("energy_of_")}
    masses = {key.removeprefix("mass_of_"): value for key, value in banks.items() if key.startswith("mass_of_")}
    if not energies:
        return made
    if not masses:
        return made + _summed(**energies)
    return made + _summed(**{name: masses[name] * energies[name] for name in energies}) / _summed(**masses)


def _stored(running: float, yearly: float, mass: float) -> float:
    return energy_per_kg_kept(running, yearly, mass)


def _held(buffer: float, train: float, full: float, usual: float, **banks: float) -> float:
    total = (buffer + train) * density(full, usual)
    for key, volume in banks.items():
        if key.startswith("volume_of_"):
            name = key.removeprefix("volume_of_")
            filled = density(banks[f"pressure_of_{name}"], SETTLED_TEMPERATURE)
            total = total + banks[f"cylinders_of_{name}"] * volume * filled
    return total
