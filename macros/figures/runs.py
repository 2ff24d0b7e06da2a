"""
Figures of the runs: the plant followed through time while it fills a bank from its buffer.

The run itself is a figure, for plots; what it came to are figures of the bank.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from macros.calculations.compression import electricity_of_free_air
from macros.calculations.formula import Call, Symbol, Traced
from macros.calculations.run import FillRun, fill_run
from macros.calculations.storage import SETTLED_TEMPERATURE, pressure_when
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, FigureError, figure
from macros.figures.supplies import filled_from_buffer
from macros.quantities import say, show


def figures(description: Description) -> Iterator[Figure]:
    """A run for every bank that a booster fills from the buffer."""
    if description.plant.buffer is None:
        return
    for name in description.plant.banks:
        number = filled_from_buffer(description, name)
        if number is not None:
            yield from _run(description, name, number)


def _run(description: Description, name: str, number: int) -> Iterator[Figure]:
    at, booster = f"banks.{name}", f"boosters.{number}"
    inputs: dict[str, Any] = {
        "buffer_volume": "buffer.volume", "train_volume": "buffer.train_volume", "bank_volume": f"{at}.volume",
        "cut_in": "buffer.cut_in", "cut_out": "buffer.cut_out", "trip": "buffer.high_trip",
        "temperature": "buffer.temperature", "full": f"{at}.fill_pressure", "stack_flow": "stack.hydrogen_flow",
        "stack_power": "stack.supply_power", "swept": f"{booster}.swept_volume", "faces": f"{booster}.faces",
        "clearance": f"{booster}.clearance", "rate": f"{booster}.stroke_rate", "ratio": f"{booster}.ratio",
        "assist": f"{booster}.assist_ratio", "drive": f"{booster}.drive_pressure", "cracking": f"{booster}.cracking",
        "air": f"{booster}.stroke_air", "index": f"{booster}.polytropic_index", "atmosphere": ATMOSPHERE,
    }  # fmt: skip
    if description.plant.compressor is not None:
        inputs |= {"compressor_power": "compressor.power", "delivery": "compressor.free_flow"}
    if description.plant.boosters[number - 1].rate_curve is not None:
        inputs["curve"] = f"{booster}.rate_curve"
    yield figure(f"{at}.run", _fill, kind="run", source="mass-balance", **inputs)
    run: dict[str, Any] = {"run": f"{at}.run", "source": "mass-balance"}
    yield figure(f"{at}.fill_outcome", _outcome, kind="category", **run)
    for result, pick, shown_as in RESULTS:
        yield figure(f"{at}.{result}", _of(f"{at}.{result}", pick), **shown_as, **run)


RESULTS: tuple[tuple[str, Callable[[FillRun], float], dict[str, Any]], ...] = (
    ("fill_time", lambda run: run.time_s, {"unit": "h", "symbol": "t_fill", "rounding": "up"}),
    ("buffer_cycles", lambda run: run.starts, {"kind": "count", "symbol": "n_fill", "rounding": "up"}),
    ("boosted_mass", lambda run: run.boosted_mass_kg, {"unit": "kg", "symbol": "m_boost"}),
    (
        "fill_strokes",
        lambda run: run.strokes,
        {"kind": "count", "digits": 2, "symbol": "n_strokes", "rounding": "up"},
    ),
    (
        "fill_energy",
        lambda run: run.stack_energy_j + run.compressor_energy_j,
        {"unit": "kWh", "symbol": "E_fill", "rounding": "up"},
    ),
    (
        "fill_energy_boosting",
        lambda run: run.compressor_energy_j,
        {"unit": "kWh", "digits": 2, "symbol": "E_boost", "rounding": "up"},
    ),
)
"""What a run comes to, each with how it is picked and shown."""


def _of(name: str, pick: Callable[[FillRun], float]) -> Callable[[FillRun], float]:
    """One number of a run that filled its bank, shown as read from it; a run that did not has none."""
    path = name.rpartition(".")[0] + ".run"

    def read(run: FillRun) -> float:
        if run.outcome != "full":
            raise FigureError(name, _why(run))
        return Traced(pick(run), Call("fill run", (Symbol(path, "run"),)))

    return read


def _why(run: FillRun) -> str:
    """Why the bank is not filled, in words."""
    reached = show(run.points[-1].bank_pressure_pa, "bar(a)")
    if run.outcome == "stalled":
        return say("figures.fill_stalled", reached=reached)
    if run.outcome == "overrun":
        return say("figures.fill_overrun", reached=reached)
    return say("figures.fill_unfinished", reached=reached)


def _outcome(run: FillRun) -> str:
    return run.outcome


def _fill(
    buffer_volume: float,
    train_volume: float,
    bank_volume: float,
    cut_in: float,
    cut_out: float,
    trip: float,
    temperature: float,
    full: float,
    stack_flow: float,
    stack_power: float,
    swept: float,
    faces: float,
    clearance: float,
    rate: float,
    ratio: float,
    assist: float,
    drive: float,
    cracking: float,
    air: float,
    index: float,
    atmosphere: float,
    compressor_power: float = 0.0,
    delivery: float = 1.0,
    curve: Any = None,
) -> FillRun:
    """From an empty bank, opened to a buffer at cut-in, to the full one at the temperature of the buffer."""
    electricity = electricity_of_free_air(compressor_power, delivery) if compressor_power > 0 else 0.0
    return fill_run(
        buffer_volume, train_volume, bank_volume, cut_in, atmosphere,
        pressure_when(full, SETTLED_TEMPERATURE, temperature), cut_in, cut_out, trip, cracking, temperature, stack_flow,
        stack_power, swept, faces, clearance, rate, ratio, assist, drive, atmosphere, air, electricity, index, curve,
    )  # fmt: skip
