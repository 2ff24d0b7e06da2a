"""
Figures of a year: what the surplus fills, what the uses draw, what is missing and what is left over.

Where the author supplies the hours of a year, those are followed. Where he gives the average day of each month, every
day of a month is alike, its surplus half a sine about noon: a made-up year that shows the shape, not the weather.
The store begins the year as it ends it, since a year is followed twice. The stack runs from the current at which the
alarm for hydrogen in oxygen stands, and never below.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from macros.calculations.constants import LOWER_HEATING_VALUE
from macros.calculations.formula import Call, Constant, Symbol, Traced
from macros.calculations.season import Season, Steps, constant_demand, follow_year, year_of_days
from macros.calculations.storage import energy_lower, mass_between
from macros.calculations.vehicle import SETTLED_TEMPERATURE
from macros.description.hourly import HourlyYear
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure

RESTART_SHARE = Constant(0.1, "s_r", "1", "room of a full store before the stack starts again", "common-practice")

HOUR_S, DAY_S = 3600.0, 86400.0


def figures(description: Description) -> Iterator[Figure]:
    """The year, where the surplus and the demand are described."""
    plant = description.plant
    by_month = plant.power.surplus is not None and plant.demand.daily_energy is not None
    if plant.buffer is None or (description.hours is None and not by_month):
        return
    yield figure(
        "season.full_power", _full_power, unit="kW", symbol="P_full", digits=3, source="by-definition",
        energy="plant.energy_per_kg_running", flow="stack.hydrogen_flow",
    )  # fmt: skip
    yield figure(
        "season.smallest_power", _smallest_power, unit="kW", symbol="P_min", digits=3, rounding="up",
        source="by-definition",
        full="season.full_power", smallest="stack.minimum_current_alarm", current="stack.current",
    )  # fmt: skip
    capacity: dict[str, Any] = {"lowest": ATMOSPHERE}
    for name in plant.banks:
        capacity |= {
            f"cylinders_of_{name}": f"banks.{name}.cylinders", f"volume_of_{name}": f"banks.{name}.water_volume",
            f"pressure_of_{name}": f"banks.{name}.fill_pressure",
        }  # fmt: skip
    if not plant.banks:
        capacity = {
            "lowest": "buffer.cut_in", "volume_of_buffer": "buffer.volume", "pressure_of_buffer": "buffer.cut_out",
        }  # fmt: skip
    yield figure(
        "season.capacity", _capacity, unit="kg", symbol="m_cap", digits=3, rounding="down", source="mass-balance",
        **capacity,
    )  # fmt: skip
    if description.hours is not None:
        weather: dict[str, Any] = {"hours": "demand.hourly"}
    else:
        weather = {"demand": "demand.daily_energy"}
        weather |= {f"month_{month}": f"power.surplus.{month}" for month in range(1, 13)}
    yield figure(
        "season.run", _year_by_month if description.hours is None else _year_by_hour, kind="run", source="mass-balance",
        **weather, full="season.full_power", smallest="season.smallest_power",
        energy="plant.energy_per_kg_running", start="stack.preheat_energy", capacity="season.capacity",
    )  # fmt: skip
    yield from _results()


def _results() -> Iterator[Figure]:
    """What the year came to, one number at a time."""
    run: dict[str, Any] = {"run": "season.run", "source": "mass-balance"}
    yield figure("season.made", _of(lambda year: year.made_kg), unit="kg", symbol="m_made", digits=3, **run)
    yield figure("season.drawn", _of(lambda year: year.drawn_kg), unit="kg", symbol="m_drawn", digits=3, **run)
    yield figure(
        "season.missing", _of(lambda year: year.missing_kg), unit="kg", symbol="m_miss", digits=2, rounding="up", **run
    )
    yield figure("season.stored_peak", _of(lambda year: year.peak_kg), unit="kg", symbol="m_peak", digits=3, **run)
    yield figure("season.hours_running", _of(lambda year: year.running_s), unit="h", symbol="t_run", digits=3, **run)
    yield figure("season.hours_full", _of(lambda year: year.full_s), unit="h", symbol="t_full", digits=3, **run)
    yield figure(
        "season.starts",
        _of(lambda year: float(year.starts)),
        kind="count",
        symbol="n_st",
        digits=3,
        rounding="up",
        **run,
    )
    yield figure("season.left_over", _of(lambda year: year.left_over_j), unit="kWh", symbol="E_left", digits=3, **run)
    yield figure(
        "season.shortfall", energy_lower, unit="kWh(lower)", symbol="E_short", digits=2, rounding="up",
        mass_kg="season.missing",
    )  # fmt: skip
    yield figure(
        "season.share_met", _share, unit="%", symbol="s_met", digits=2, rounding="down", source="by-definition",
        drawn="season.drawn", missing="season.missing",
    )  # fmt: skip


def _of(pick: Callable[[Season], float]) -> Callable[[Season], float]:
    """One number of the year, shown as read from it."""

    def read(run: Season) -> float:
        return Traced(pick(run), Call("a year step by step", (Symbol("season.run", "year"),)))

    return read


def _full_power(energy: float, flow: float) -> float:
    """Of everything that a kilogram takes, while it is made."""
    return energy * flow


def _smallest_power(full: float, smallest: float, current: float) -> float:
    return full * smallest / current


def _capacity(lowest: float, **supplies: float) -> float:
    """What the banks take from empty, or the buffer from cut-in where there are none."""
    parts = [
        supplies.get(f"cylinders_of_{name}", 1.0)
        * mass_between(volume, supplies[f"pressure_of_{name}"], lowest, SETTLED_TEMPERATURE)
        for name, volume in (
            (key.removeprefix("volume_of_"), value) for key, value in supplies.items() if key.startswith("volume_of_")
        )
    ]
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    return total


def _year_by_hour(hours: HourlyYear, **plant: float) -> Season:
    """The hours as the author supplies them."""
    return _twice(hours.surplus_w, hours.demand_w, **plant)


def _year_by_month(
    demand: float, full: float, smallest: float, energy: float, start: float, capacity: float, **months: float
) -> Season:
    """Hours made up of the average day of each month, the demand the same at every hour."""
    surplus = year_of_days([float(months[f"month_{month}"]) for month in range(1, 13)])
    wanted = constant_demand(len(surplus), float(demand) / DAY_S, HOUR_S)
    return _twice(surplus, wanted, full, smallest, energy, start, capacity)


def _twice(
    surplus: Steps, wanted: Steps, full: float, smallest: float, energy: float, start: float, capacity: float
) -> Season:
    """Followed twice, so that the second begins with what the first left."""
    first = 0.0
    for _ in range(2):
        year = follow_year(
            surplus, wanted, HOUR_S, float(full), min(float(smallest), float(full)), float(energy), float(start),
            float(capacity), float(RESTART_SHARE * capacity), first, float(LOWER_HEATING_VALUE),
        )  # fmt: skip
        first = year.last_kg
    return year


def _share(drawn: float, missing: float) -> float:
    return drawn / (drawn + missing)
