"""
Figures of the uses: what a burner and a fuel cell draw and how long the store lasts, what a vehicle takes from each
bank in turn.

A bank counts as filled and settled at 15 °C. What can be drawn ends at the lowest pressure at which the use draws.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.burner import burner_flow, combustion_air, combustion_water, time_of_store
from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.equalise import free_transfer_mass, pressure_after
from macros.calculations.filling import WARMEST_GAS, shortest_fill_time
from macros.calculations.fuel_cell import electricity_of_store, electricity_per_kg, fuel_cell_flow, fuel_cell_heat
from macros.calculations.leak import hole_area, leak_flow
from macros.calculations.storage import energy_lower, mass_between
from macros.calculations.vehicle import SETTLED_TEMPERATURE, mass_to_fill, state_of_charge
from macros.description.chains import stops
from macros.description.loading import Description
from macros.description.plant import Use
from macros.figures.graph import ATMOSPHERE, Figure, figure


def figures(description: Description) -> Iterator[Figure]:
    """The figures of every use, in the order of the description."""
    for number, use in enumerate(description.plant.uses, start=1):
        at = f"uses.{number}"
        if use.kind == "vehicle":
            yield from _vehicle(description, use, at)
            continue
        yield from _store(use, at)
        if use.kind == "burner" and use.heat is not None:
            yield from _burner(at)
        if use.kind == "fuel_cell" and use.electric_power is not None and use.efficiency is not None:
            yield from _fuel_cell(at)


def _store(use: Use, at: str) -> Iterator[Figure]:
    """Hydrogen that the use can draw from everything that feeds it, full."""
    inputs: dict[str, Any] = {"lowest": f"{at}.lowest_pressure" if use.lowest_pressure is not None else ATMOSPHERE}
    for name in use.supply:
        if name == "buffer":
            inputs |= {"volume_of_buffer": "buffer.volume", "full_of_buffer": "buffer.cut_out"}
        else:
            inputs |= {
                f"cylinders_of_{name}": f"banks.{name}.cylinders", f"volume_of_{name}": f"banks.{name}.water_volume",
                f"full_of_{name}": f"banks.{name}.fill_pressure",
            }  # fmt: skip
    yield figure(
        f"{at}.mass_available", _available, unit="kg", symbol="m_use", digits=2, rounding="down", source="mass-balance",
        **inputs,
    )  # fmt: skip


def _burner(at: str) -> Iterator[Figure]:
    """What a burner draws, needs and gives off."""
    yield figure(
        f"{at}.hydrogen_flow", _burner_flow, unit="NL/min", symbol="n_b", source="by-definition", heat=f"{at}.heat"
    )
    yield from _hours(at)
    yield figure(
        f"{at}.heat_available", energy_lower, unit="kWh(lower)", symbol="E_b", digits=2, rounding="down",
        mass_kg=f"{at}.mass_available",
    )  # fmt: skip
    yield figure(
        f"{at}.combustion_air", _least_air, unit="Nm3/h", symbol="n_air", digits=2, rounding="up",
        source="combustion-balance", hydrogen=f"{at}.hydrogen_flow",
    )  # fmt: skip
    yield figure(
        f"{at}.water_given_off", _water, unit="g/h", symbol="m_w", source="combustion-balance",
        hydrogen=f"{at}.hydrogen_flow",
    )  # fmt: skip


def _fuel_cell(at: str) -> Iterator[Figure]:
    """What a fuel cell draws and makes."""
    power: dict[str, Any] = {"electric_power_w": f"{at}.electric_power", "efficiency": f"{at}.efficiency"}
    yield figure(
        f"{at}.hydrogen_flow", _fuel_cell_flow, unit="NL/min", symbol="n_fc", source="by-definition",
        power=f"{at}.electric_power", efficiency=f"{at}.efficiency",
    )  # fmt: skip
    yield from _hours(at)
    yield figure(
        f"{at}.electricity_per_kg", electricity_per_kg, unit="kWh/kg", symbol="w_fc", efficiency=f"{at}.efficiency"
    )
    yield figure(
        f"{at}.electricity_available", electricity_of_store, unit="kWh", symbol="E_fc", digits=2, rounding="down",
        mass_kg=f"{at}.mass_available", efficiency=f"{at}.efficiency",
    )  # fmt: skip
    yield figure(f"{at}.heat_given_off", fuel_cell_heat, unit="W", symbol="P_h", digits=2, **power)
    yield figure(
        f"{at}.water_given_off", _water, unit="g/h", symbol="m_w", source="combustion-balance",
        hydrogen=f"{at}.hydrogen_flow",
    )  # fmt: skip


def _hours(at: str) -> Iterator[Figure]:
    yield figure(
        f"{at}.hours", _time_of_store, unit="h", symbol="t_use", digits=2, rounding="down", source="mass-balance",
        mass=f"{at}.mass_available", flow=f"{at}.hydrogen_flow",
    )  # fmt: skip


def _vehicle(description: Description, use: Use, at: str) -> Iterator[Figure]:
    """A tank filled from each bank in turn, by itself, until it is full or no bank brings more."""
    if use.tank_volume is None or use.nominal_pressure is None or use.start_pressure is None:
        return
    yield figure(
        f"{at}.mass_to_fill", _to_fill, unit="kg", symbol="m_fill", digits=3, source="sae-j2601-charge",
        volume=f"{at}.tank_volume", start=f"{at}.start_pressure", nominal=f"{at}.nominal_pressure",
    )  # fmt: skip
    before = f"{at}.start_pressure"
    masses: dict[str, Any] = {}
    for bank in (name for name in use.supply if name != "buffer"):
        mass, after = f"{at}.from_{bank}", f"{at}.pressure_after_{bank}"
        tank: dict[str, Any] = {"volume": f"{at}.tank_volume", "tank": before}
        yield figure(
            mass, _from_bank, unit="kg", symbol="m_bank", digits=3, rounding="down", source="mass-balance",
            cylinders=f"banks.{bank}.cylinders", bank_volume=f"banks.{bank}.water_volume",
            bank=f"banks.{bank}.fill_pressure", nominal=f"{at}.nominal_pressure",
            lowest=f"{at}.lowest_pressure" if use.lowest_pressure is not None else ATMOSPHERE, **tank,
        )  # fmt: skip
        yield figure(
            after, _after, unit="bar(g)", symbol="p_tank", digits=3, rounding="down", source="mass-balance", mass=mass,
            **tank,
        )  # fmt: skip
        before, masses[bank] = after, mass
    if not masses:
        return
    yield figure(
        f"{at}.mass_gained",
        _sum,
        unit="kg",
        symbol="m_tank",
        digits=3,
        rounding="down",
        source="mass-balance",
        **masses,
    )
    yield figure(
        f"{at}.energy_gained", energy_lower, unit="kWh(lower)", symbol="E_tank", digits=3, rounding="down",
        mass_kg=f"{at}.mass_gained",
    )  # fmt: skip
    yield figure(
        f"{at}.state_of_charge", _charge, unit="%", symbol="s_tank", digits=2, rounding="down",
        source="sae-j2601-charge", pressure=before, nominal=f"{at}.nominal_pressure",
    )  # fmt: skip
    if use.tank_mass is not None:
        supplies = [description.plant.banks[bank] for bank in masses]
        highest = max(zip(supplies, masses, strict=True), key=lambda pair: pair[0].fill_pressure.si)[1]
        yield figure(
            f"{at}.shortest_fill_time", _shortest_time, unit="min", symbol="t_fill", digits=2, rounding="up",
            safety=True, source="uniform-flow",
            volume=f"{at}.tank_volume", mass=f"{at}.tank_mass", heat=f"{at}.tank_heat",
            conductance=f"{at}.tank_conductance", loss=f"{at}.tank_loss", start=f"{at}.start_pressure", end=before,
            supply=f"banks.{highest}.fill_pressure", ambient="site.hottest",
        )  # fmt: skip
        restrictor = _restrictor(description, use.tag)
        if restrictor is not None:
            yield figure(
                f"{at}.restricted_flow", _through_restrictor, unit="NL/min", symbol="n_fill", digits=2, rounding="up",
                safety=True, source="nozzle-flow",
                bore=f"items.{restrictor.lower()}.bore", pressure=f"banks.{highest}.hot_pressure",
                temperature="site.coldest", atmosphere=ATMOSPHERE,
            )  # fmt: skip
            yield figure(
                f"{at}.fastest_fill_time", _at_full_flow, unit="min", symbol="t_fast", digits=2, rounding="down",
                safety=True, source="mass-balance", mass=f"{at}.mass_gained", flow=f"{at}.restricted_flow",
            )  # fmt: skip


def _restrictor(description: Description, tag: str) -> str | None:
    """The needle valve of stated bore in the line that ends at a vehicle; none where there is none."""
    for line in description.network.lines.values():
        found = stops(line.chain)
        if isinstance(found, str) or found[-1].tag != tag:
            continue
        for stop in found:
            item = description.network.items.get(stop.tag)
            if item is not None and item.kind == "needle_valve" and item.bore is not None:
                return stop.tag
    return None


def _available(lowest: float, **supplies: float) -> float:
    """Between full and the lowest pressure at which the use draws, of every supply."""
    parts = [
        supplies.get(f"cylinders_of_{name}", 1.0)
        * mass_between(volume, supplies[f"full_of_{name}"], lowest, SETTLED_TEMPERATURE)
        for name, volume in (
            (key.removeprefix("volume_of_"), value) for key, value in supplies.items() if key.startswith("volume_of_")
        )
    ]
    return _sum(**{str(number): part for number, part in enumerate(parts)})


def _sum(**parts: float) -> float:
    values = list(parts.values())
    total = values[0]
    for value in values[1:]:
        total = total + value
    return total


def _burner_flow(heat: float) -> float:
    return burner_flow(heat) / MOLAR_MASS_HYDROGEN


def _fuel_cell_flow(power: float, efficiency: float) -> float:
    return fuel_cell_flow(power, efficiency) / MOLAR_MASS_HYDROGEN


def _time_of_store(mass: float, flow: float) -> float:
    return time_of_store(mass, flow * MOLAR_MASS_HYDROGEN)


def _least_air(hydrogen: float) -> float:
    """What the flame uses up; a burner draws more."""
    return combustion_air(hydrogen * MOLAR_MASS_HYDROGEN, 1.0)


def _water(hydrogen: float) -> float:
    return combustion_water(hydrogen * MOLAR_MASS_HYDROGEN)


def _to_fill(volume: float, start: float, nominal: float) -> float:
    return mass_to_fill(volume, start, SETTLED_TEMPERATURE, nominal)


def _from_bank(
    cylinders: float, bank_volume: float, bank: float, lowest: float, volume: float, tank: float, nominal: float
) -> float:
    return free_transfer_mass(cylinders * bank_volume, bank, lowest, volume, tank, nominal, SETTLED_TEMPERATURE)


def _after(volume: float, tank: float, mass: float) -> float:
    return pressure_after(volume, tank, mass, SETTLED_TEMPERATURE)


def _charge(pressure: float, nominal: float) -> float:
    return state_of_charge(pressure, SETTLED_TEMPERATURE, nominal)


def _shortest_time(
    volume: float,
    mass: float,
    heat: float,
    conductance: float,
    loss: float,
    start: float,
    end: float,
    supply: float,
    ambient: float,
) -> float:
    """On the hottest day, to the pressure to which the tank settles."""
    return shortest_fill_time(volume, mass * heat, conductance, loss, start, ambient, end, supply, ambient, WARMEST_GAS)


def _through_restrictor(bore: float, pressure: float, temperature: float, atmosphere: float) -> float:
    """As through a nozzle without losses into an empty tank: no filling is faster."""
    return leak_flow(hole_area(bore), 1.0, pressure, temperature, atmosphere) / MOLAR_MASS_HYDROGEN


def _at_full_flow(mass: float, flow: float) -> float:
    return mass / (flow * MOLAR_MASS_HYDROGEN)
