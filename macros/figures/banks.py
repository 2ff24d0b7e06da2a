"""
Figures of the banks: what they hold, what their gauges read, how they fill and how warm they become.

A bank counts as full at its fill pressure, settled at 15 °C. Where the booster in front draws from the buffer, filling
is followed by a run; a bank that gets its gas from another bank fills as fast as the stack makes it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from macros.calculations.buffer_cycle import time_to_make
from macros.calculations.filling import Filling, adiabatic_fill_temperature, cylinder_surface, gas_wall_fill
from macros.calculations.formula import Call, Symbol, Traced, smallest
from macros.calculations.free_flow import free_flow_mass
from macros.calculations.storage import (
    DEVELOPED_TEMPERATURE,
    SETTLED_TEMPERATURE,
    amount_of_mass,
    energy_higher,
    energy_lower,
    mass_between,
    mass_stored,
    pressure_when,
    transportable_fill_limit,
)
from macros.calculations.vessel_category import vessel_category
from macros.description.loading import Description
from macros.description.plant import Bank
from macros.figures.graph import ATMOSPHERE, Figure, figure
from macros.figures.supplies import filled_from_buffer
from macros.figures.tables import Column, Table

GAUGE_TEMPERATURES = tuple(273.15 + celsius for celsius in range(-20, 51, 5))
"""The days for which the reading to stop at is told; wider than most climates, so that every site finds its own."""


def figures(description: Description) -> Iterator[Figure]:
    """The figures of every bank."""
    for name, bank in description.plant.banks.items():
        yield from _held(name)
        yield from _pressures(name, bank)
        if description.plant.buffer is not None and any(
            booster.target == name for booster in description.plant.boosters
        ):
            yield from _filling(description, name)
            yield from _warmth(name)


def _held(name: str) -> Iterator[Figure]:
    """What the full bank holds."""
    at = f"banks.{name}"
    yield figure(
        f"{at}.volume", _volume, unit="L", symbol="V_bank", source="by-definition", cylinders=f"{at}.cylinders",
        each=f"{at}.water_volume",
    )  # fmt: skip
    yield figure(
        f"{at}.mass", _settled_mass, unit="kg", symbol="m_bank", digits=3, rounding="down", source="leachman-2009",
        volume=f"{at}.volume", pressure=f"{at}.fill_pressure",
    )  # fmt: skip
    mass: dict[str, Any] = {"mass_kg": f"{at}.mass"}
    yield figure(f"{at}.energy_lower", energy_lower, unit="kWh(lower)", symbol="E_l", **mass)
    yield figure(f"{at}.energy_higher", energy_higher, unit="kWh(higher)", symbol="E_h", **mass)
    yield figure(f"{at}.normal_volume", amount_of_mass, unit="Nm3", symbol="n_bank", **mass)
    yield figure(
        f"{at}.category", vessel_category, kind="category", safety=True,
        allowable_pressure_pa=f"{at}.working_pressure", atmosphere_pa=ATMOSPHERE, volume_m3=f"{at}.water_volume",
        regime=f"{at}.regime",
    )  # fmt: skip


def _pressures(name: str, bank: Bank) -> Iterator[Figure]:
    """What the gauge of the full bank reads, day by day, and how far it may be filled."""
    at = f"banks.{name}"
    full: dict[str, Any] = {"unit": "bar(g)", "source": "leachman-2009", "pressure": f"{at}.fill_pressure"}
    yield figure(
        f"{at}.hot_pressure", _on_a_day, symbol="p_hot", rounding="up", safety=True, day="site.hottest", **full
    )
    yield figure(f"{at}.cold_pressure", _on_a_day, symbol="p_cold", rounding="down", day="site.coldest", **full)
    if bank.regime != "fixed":
        yield figure(f"{at}.developed_pressure", _developed, symbol="p_65", rounding="up", safety=True, **full)
    stamps: dict[str, Any] = {"working": f"{at}.working_pressure"}
    if bank.regime != "fixed":
        stamps["test"] = f"{at}.test_pressure"
    if bank.regime != "transportable":
        stamps["hottest"] = "site.hottest"
    yield figure(
        f"{at}.fill_limit", LIMITS[bank.regime], unit="bar(g)", symbol="p_max", rounding="down", safety=True,
        source="transport-filling", **stamps,
    )  # fmt: skip
    yield figure(
        f"{at}.gauge_table", _gauge_table, kind="table", source="leachman-2009", full=f"{at}.fill_pressure",
        atmosphere=ATMOSPHERE,
    )  # fmt: skip


def _filling(description: Description, name: str) -> Iterator[Figure]:
    """From atmospheric to full."""
    at = f"banks.{name}"
    number = filled_from_buffer(description, name)
    yield figure(
        f"{at}.mass_to_fill", _to_fill, unit="kg", symbol="m_fill", rounding="up", source="mass-balance",
        volume=f"{at}.volume", full=f"{at}.fill_pressure", empty=ATMOSPHERE,
    )  # fmt: skip
    if number is not None:
        yield figure(
            f"{at}.free_flow_mass", free_flow_mass, unit="kg", symbol="m_free", rounding="down",
            bank_volume_m3=f"{at}.volume", start_pressure_pa=ATMOSPHERE,
            free_pressure_pa=f"boosters.{number}.free_flow_pressure", temperature_k="buffer.temperature",
        )  # fmt: skip
        return
    into = next((n for n, one in enumerate(description.plant.transfers, start=1) if one.target == name), None)
    if into is not None:
        yield figure(
            f"{at}.free_flow_mass", _the_same, unit="kg", symbol="m_free", rounding="down", source="mass-balance",
            value=f"transfers.{into}.free_mass",
        )  # fmt: skip
    # Whatever way the gas takes through other banks, the stack has to make it.
    chain = _boosters_before(description, name)
    yield figure(
        f"{at}.fill_time", time_to_make, unit="h", symbol="t_fill", rounding="up", mass_kg=f"{at}.mass_to_fill",
        mass_flow_kg_per_s="stack.hydrogen_flow",
    )  # fmt: skip
    yield figure(
        f"{at}.buffer_cycles", _cycles, kind="count", digits=2, rounding="up", symbol="n_fill", source="mass-balance",
        mass=f"{at}.mass_to_fill", cycle="buffer.cycle_mass",
    )  # fmt: skip
    boosting: dict[str, Any] = {}
    if description.plant.compressor is not None:
        boosting = {f"booster_{one}": f"boosters.{one}.specific_energy" for one in chain}
    yield figure(
        f"{at}.fill_energy", _energy, unit="kWh", symbol="E_fill", rounding="up", source="by-definition",
        mass=f"{at}.mass_to_fill", time=f"{at}.fill_time", power="stack.supply_power", **boosting,
    )  # fmt: skip


def _boosters_before(description: Description, name: str) -> list[int]:
    """Every booster that the gas of a bank has passed, from the buffer on."""
    numbers: list[int] = []
    wanted = name
    for _ in description.plant.boosters:
        found = next(
            (
                n
                for n, one in enumerate(description.plant.boosters, start=1)
                if one.target == wanted and n not in numbers
            ),
            None,
        )
        if found is None:
            break
        numbers.insert(0, found)
        wanted = description.plant.boosters[found - 1].supply
    return numbers


def _warmth(name: str) -> Iterator[Figure]:
    """Filled on the hottest day in the time that the plant takes, and the bound for a fill at once."""
    at = f"banks.{name}"
    yield figure(
        f"{at}.fill_temperature_adiabatic", _adiabatic, unit="°C", symbol="T_ad", rounding="up", source="uniform-flow",
        full=f"{at}.fill_pressure", empty=ATMOSPHERE, ambient="site.hottest",
    )  # fmt: skip
    yield figure(
        f"{at}.filling", _fill, kind="run", source="uniform-flow",
        volume=f"{at}.water_volume", mass=f"{at}.cylinder_mass", heat=f"{at}.cylinder_heat",
        slenderness=f"{at}.slenderness", inner=f"{at}.inner_film", outer=f"{at}.outer_film",
        full=f"{at}.fill_pressure", empty=ATMOSPHERE, ambient="site.hottest", time=f"{at}.fill_time",
    )  # fmt: skip
    filling: dict[str, Any] = {"filling": f"{at}.filling", "source": "uniform-flow"}
    yield figure(
        f"{at}.fill_temperature", _of_filling(at, "peak_temperature_k"), unit="°C", symbol="T_fill", rounding="up",
        **filling,
    )  # fmt: skip
    yield figure(
        f"{at}.settled_pressure", _of_filling(at, "settled_pressure_pa"), unit="bar(g)", symbol="p_settled",
        rounding="down", **filling,
    )  # fmt: skip


def _of_filling(at: str, attribute: str) -> Any:
    """One number of the filling, shown as read from it."""

    def read(filling: Filling) -> float:
        return Traced(getattr(filling, attribute), Call("gas, wall and ambient", (Symbol(f"{at}.filling", "filling"),)))

    return read


def _the_same(value: float) -> float:
    return value


def _volume(cylinders: float, each: float) -> float:
    return cylinders * each


def _settled_mass(volume: float, pressure: float) -> float:
    return mass_stored(volume, pressure, SETTLED_TEMPERATURE)


def _on_a_day(pressure: float, day: float) -> float:
    return pressure_when(pressure, SETTLED_TEMPERATURE, day)


def _developed(pressure: float) -> float:
    return pressure_when(pressure, SETTLED_TEMPERATURE, DEVELOPED_TEMPERATURE)


def _transportable_limit(working: float, test: float) -> float:
    return transportable_fill_limit(working, test)


def _fixed_limit(working: float, hottest: float) -> float:
    """The fill, settled at 15 °C, that reaches the allowable pressure on the hottest day; never more than that."""
    return smallest(working, pressure_when(working, hottest, SETTLED_TEMPERATURE))


def _undecided_limit(working: float, test: float, hottest: float) -> float:
    """Nobody has said which rules hold, so both do."""
    return smallest(_transportable_limit(working, test), _fixed_limit(working, hottest))


LIMITS: dict[str, Callable[..., float]] = {
    "transportable": _transportable_limit,
    "fixed": _fixed_limit,
    "undecided": _undecided_limit,
}
"""How far a vessel may be filled, by its legal regime."""


def _gauge_table(full: float, atmosphere: float) -> Table:
    rows = tuple((day, float(_on_a_day(full, day))) for day in GAUGE_TEMPERATURES)
    return Table((Column("temperature", "°C"), Column("reading", "bar(g)", 1)), rows, float(atmosphere))


def _to_fill(volume: float, full: float, empty: float) -> float:
    return mass_between(volume, full, empty, SETTLED_TEMPERATURE)


def _cycles(mass: float, cycle: float) -> float:
    return mass / cycle


def _energy(mass: float, time: float, power: float, **boosters: float) -> float:
    """The stack through its rectifier all the time, and every booster that the gas passes."""
    total = power * time
    for each in boosters.values():
        total = total + mass * each
    return total


def _adiabatic(full: float, empty: float, ambient: float) -> float:
    return adiabatic_fill_temperature(empty, ambient, full, full, ambient)


def _fill(
    volume: float,
    mass: float,
    heat: float,
    slenderness: float,
    inner: float,
    outer: float,
    full: float,
    empty: float,
    ambient: float,
    time: float,
) -> Filling:
    """One cylinder of the bank; the flow stops when its gauge reads what the table says for the day."""
    surface = cylinder_surface(volume, slenderness)
    return gas_wall_fill(
        volume, mass * heat, inner * surface, outer * surface, empty, ambient, full,
        pressure_when(full, SETTLED_TEMPERATURE, ambient), full, ambient, time,
    )  # fmt: skip
