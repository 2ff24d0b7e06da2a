"""
Figures of the transfers: gas passed from one bank into another, freely until both have met, then by a booster.

The source counts as full and the target as empty, both settled at 15 °C, real gas throughout.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.compression import electricity_of_free_air
from macros.calculations.equalise import boosted_transfer_mass, equalised_pressure, free_transfer_mass, pressure_after
from macros.calculations.formula import Call, Symbol, Traced, largest
from macros.calculations.storage import SETTLED_TEMPERATURE
from macros.calculations.transfer import TransferRun, transfer_run
from macros.description.loading import Description
from macros.description.plant import Booster, Transfer
from macros.figures.graph import ATMOSPHERE, Figure, figure
from macros.figures.supplies import booster_of


def figures(description: Description) -> Iterator[Figure]:
    """The figures of every transfer."""
    for number, transfer in enumerate(description.plant.transfers, start=1):
        booster = booster_of(description, transfer)
        yield from _masses(f"transfers.{number}", transfer, booster, description)
        if booster is not None:
            yield from _strokes(f"transfers.{number}", transfer, booster, description)


def _masses(at: str, transfer: Transfer, booster: Booster | None, description: Description) -> Iterator[Figure]:
    """What flows by itself, what strokes move, and where both banks end."""
    source, target = f"banks.{transfer.source}", f"banks.{transfer.target}"
    banks: dict[str, Any] = {
        "source_volume": f"{source}.volume", "source_full": f"{source}.fill_pressure",
        "target_volume": f"{target}.volume", "target_start": ATMOSPHERE,
    }  # fmt: skip
    bar: dict[str, Any] = {"unit": "bar(g)", "source": "mass-balance"}
    if transfer.source_lowest is not None:
        yield figure(f"{at}.lowest_source_pressure", _the_same, symbol="p_low", value=f"{at}.source_lowest", **bar)
    elif booster is not None:
        number = _number(description, booster)
        yield figure(
            f"{at}.lowest_source_pressure", _by_ratio, symbol="p_low", rounding="up",
            full=f"{target}.fill_pressure", allowed=f"boosters.{number}.ratio_allowed", atmosphere=ATMOSPHERE, **bar,
        )  # fmt: skip
    else:
        yield figure(f"{at}.lowest_source_pressure", _the_same, symbol="p_low", value=ATMOSPHERE, **bar)
    yield figure(f"{at}.equal_pressure", _equal, symbol="p_eq", **banks, **bar)
    limits: dict[str, Any] = {
        **banks, "lowest": f"{at}.lowest_source_pressure", "target_full": f"{target}.fill_pressure",
    }  # fmt: skip
    mass: dict[str, Any] = {"unit": "kg", "source": "mass-balance"}
    yield figure(f"{at}.free_mass", _free, symbol="m_free", rounding="down", **limits, **mass)
    moved: dict[str, Any] = {"free": f"{at}.free_mass"}
    if booster is not None:
        yield figure(
            f"{at}.boosted_mass", _boosted, symbol="m_boost", rounding="down", free=f"{at}.free_mass", **limits, **mass
        )
        moved["boosted"] = f"{at}.boosted_mass"
    yield figure(
        f"{at}.final_source_pressure", _source_end, symbol="p_src", volume=banks["source_volume"],
        start=banks["source_full"], **moved, **bar,
    )  # fmt: skip
    yield figure(
        f"{at}.final_target_pressure", _target_end, symbol="p_tgt", rounding="down", volume=banks["target_volume"],
        start=ATMOSPHERE, **moved, **bar,
    )  # fmt: skip


def _strokes(at: str, transfer: Transfer, booster: Booster, description: Description) -> Iterator[Figure]:
    """How long the booster takes and what it spends."""
    one = f"boosters.{_number(description, booster)}"
    source, target = f"banks.{transfer.source}", f"banks.{transfer.target}"
    inputs: dict[str, Any] = {
        "source_volume": f"{source}.volume", "source_full": f"{source}.fill_pressure",
        "target_volume": f"{target}.volume", "free": f"{at}.free_mass", "boosted": f"{at}.boosted_mass",
        "swept": f"{one}.swept_volume", "faces": f"{one}.faces", "clearance": f"{one}.clearance",
        "rate": f"{one}.stroke_rate", "ratio": f"{one}.ratio", "assist": f"{one}.assist_ratio",
        "drive": f"{one}.drive_pressure", "atmosphere": ATMOSPHERE, "air": f"{one}.stroke_air",
    }  # fmt: skip
    if booster.rate_curve is not None:
        inputs["curve"] = f"{one}.rate_curve"
    yield figure(f"{at}.run", _run, kind="run", source="mass-balance", **inputs)
    run: dict[str, Any] = {"run": f"{at}.run", "source": "mass-balance"}
    yield figure(f"{at}.time", _of(at, "time_s"), unit="h", symbol="t_tr", rounding="up", **run)
    yield figure(f"{at}.strokes", _of(at, "strokes"), kind="count", digits=2, symbol="n_tr", rounding="up", **run)
    if description.plant.compressor is not None:
        yield figure(
            f"{at}.energy", _energy, unit="kWh", symbol="E_tr", digits=2, rounding="up", source="common-practice",
            strokes=f"{at}.strokes", air=f"{one}.stroke_air", power="compressor.power", delivery="compressor.free_flow",
        )  # fmt: skip


def _number(description: Description, booster: Booster) -> int:
    return next(n for n, one in enumerate(description.plant.boosters, start=1) if one is booster)


def _the_same(value: float) -> float:
    return value


def _by_ratio(full: float, allowed: float, atmosphere: float) -> float:
    """The lowest source from which the booster still reaches the full target within its ratio."""
    return largest(atmosphere, full / allowed)


def _equal(source_volume: float, source_full: float, target_volume: float, target_start: float) -> float:
    return equalised_pressure(source_volume, source_full, target_volume, target_start, SETTLED_TEMPERATURE)


def _free(
    source_volume: float,
    source_full: float,
    lowest: float,
    target_volume: float,
    target_start: float,
    target_full: float,
) -> float:
    return free_transfer_mass(
        source_volume, source_full, lowest, target_volume, target_start, target_full, SETTLED_TEMPERATURE
    )


def _boosted(
    source_volume: float,
    source_full: float,
    lowest: float,
    target_volume: float,
    target_start: float,
    target_full: float,
    free: float,
) -> float:
    return boosted_transfer_mass(
        source_volume, source_full, lowest, target_volume, target_start, target_full, free, SETTLED_TEMPERATURE
    )


def _source_end(volume: float, start: float, free: float, boosted: float | None = None) -> float:
    moved = free if boosted is None else free + boosted
    return pressure_after(volume, start, -moved, SETTLED_TEMPERATURE)


def _target_end(volume: float, start: float, free: float, boosted: float | None = None) -> float:
    moved = free if boosted is None else free + boosted
    return pressure_after(volume, start, moved, SETTLED_TEMPERATURE)


def _run(
    source_volume: float,
    source_full: float,
    target_volume: float,
    free: float,
    boosted: float,
    swept: float,
    faces: float,
    clearance: float,
    rate: float,
    ratio: float,
    assist: float,
    drive: float,
    atmosphere: float,
    air: float,
    curve: Any = None,
) -> TransferRun:
    """The strokes, which begin when nothing flows freely any more."""
    return transfer_run(
        source_volume, pressure_after(source_volume, source_full, -free, SETTLED_TEMPERATURE), target_volume,
        pressure_after(target_volume, atmosphere, free, SETTLED_TEMPERATURE), boosted, SETTLED_TEMPERATURE, swept,
        faces, clearance, rate, ratio, assist, drive, atmosphere, air, curve,
    )  # fmt: skip


def _of(at: str, attribute: str) -> Any:
    """One number of the transfer, shown as read from it."""

    def read(run: TransferRun) -> float:
        return Traced(getattr(run, attribute), Call("transfer run", (Symbol(f"{at}.run", "run"),)))

    return read


def _energy(strokes: float, air: float, power: float, delivery: float) -> float:
    return strokes * air * electricity_of_free_air(power, delivery)
