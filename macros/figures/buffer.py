"""Figures of the buffer: what a swing of its pressure switch holds, how long it lasts, how often it comes."""

from __future__ import annotations

from collections.abc import Iterator

from macros.calculations.buffer_cycle import cycle_mass, cycles_in_time, time_of_cycle_life, time_to_make
from macros.calculations.formula import Constant
from macros.calculations.storage import amount_of_mass
from macros.calculations.vessel_category import vessel_category
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure

YEAR = Constant(365 * 86400.0, "a", "s", "a year of 365 days", "by-definition")


def figures(description: Description) -> Iterator[Figure]:
    """The figures of the buffer, where the plant has one."""
    buffer = description.plant.buffer
    if buffer is None:
        return
    yield figure(
        "buffer.cycle_mass", cycle_mass, unit="g", symbol="m_c", buffer_volume_m3="buffer.volume",
        train_volume_m3="buffer.train_volume", cut_in_pa="buffer.cut_in", cut_out_pa="buffer.cut_out",
        temperature_k="buffer.temperature",
    )  # fmt: skip
    yield figure("buffer.cycle_normal_volume", amount_of_mass, unit="NL", symbol="n_c", mass_kg="buffer.cycle_mass")
    yield figure(
        "buffer.fill_time", time_to_make, unit="min", symbol="t_c", mass_kg="buffer.cycle_mass",
        mass_flow_kg_per_s="stack.hydrogen_flow",
    )  # fmt: skip
    # As if the booster emptied it at once: the most cycles that the running time holds.
    yield figure(
        "buffer.cycles_per_year", cycles_in_time, kind="count", digits=2, rounding="up", symbol="n_c_a", safety=True,
        running_time_s="demand.running_hours", period_s="buffer.fill_time",
    )  # fmt: skip
    if buffer.cycle_life is not None:
        yield figure(
            "buffer.cycle_life_time", _life, unit="a", digits=2, rounding="down", symbol="t_life", safety=True,
            source="by-definition", life="buffer.cycle_life", cycles="buffer.cycles_per_year",
        )  # fmt: skip
    yield figure(
        "buffer.category", vessel_category, kind="category", safety=True,
        allowable_pressure_pa="buffer.allowable_pressure", atmosphere_pa=ATMOSPHERE, volume_m3="buffer.volume",
        regime="buffer.regime",
    )  # fmt: skip


def _life(life: float, cycles: float) -> float:
    return time_of_cycle_life(life, cycles, YEAR)
