"""
Figures of the boosters and of the compressor that makes their drive air.

Names without an ending are the case against which a booster is judged: the lowest supply and the full bank; `_cut_out`
stands for the highest supply, `_mean` for the mean back pressure of the part that takes strokes, `_hot` for the bank on
the hottest day. Capacity counts the lowest drive air, proof the highest that a failed regulator lets through.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.booster import (
    assumed_stroke_rate,
    booster_flow,
    drive_air_per_mass,
    free_air_of_stroke,
    measured_stroke_rate,
    pressure_ratio,
    ratio_of_no_flow,
    share_of_stall,
    stall_pressure,
    strokes_for_mass,
    strokes_per_mass,
    volumetric_efficiency,
)
from macros.calculations.buffer_cycle import time_of_cycle_life
from macros.calculations.compression import (
    boosting_efficiency,
    boosting_energy,
    compressor_duty,
    electricity_of_free_air,
    free_air_isothermal_work,
    free_air_of_normal_flow,
    isothermal_work,
    polytropic_temperature,
)
from macros.calculations.formula import Curve, largest
from macros.calculations.free_flow import free_flow_pressure
from macros.calculations.hydrogen import isentropic_temperature
from macros.calculations.storage import amount_of_mass
from macros.description.loading import Description
from macros.figures.buffer import YEAR
from macros.figures.graph import ATMOSPHERE, Figure, Graph, figure
from macros.figures.supplies import transfer_of
from macros.quantities import say

CASES = {
    "": ("supply_lowest", "full"),
    "_mean": ("supply_lowest", "mean"),
    "_cut_out": ("supply_highest", "full"),
    "_cut_out_mean": ("supply_highest", "mean"),
}
"""The endings of names, and for each the supply and the back pressure that it stands for."""


def figures(description: Description) -> Iterator[Figure]:
    """The figures of every booster, then those of the compressor."""
    plant = description.plant
    if plant.buffer is None:
        return
    for number in range(1, len(plant.boosters) + 1):
        yield from _booster(description, number)
    if plant.compressor is not None and plant.boosters:
        yield from _compressor(description)


def faults(description: Description, graph: Graph) -> Iterator[tuple[str, str]]:
    """
    Boosters whose lowest supply lies above their highest: each with the path of the entry at fault and what to write.

    Two banks come by themselves to the pressure at which they meet; below the lowest pressure of the source nothing is
    drawn. Where the one is no higher than the other the booster never draws, and no figure of it means anything.
    """
    for number, booster in enumerate(description.plant.boosters, start=1):
        if booster.supply == "buffer" or description.plant.buffer is None:
            continue
        lowest, highest = graph[f"boosters.{number}.supply_lowest"], graph[f"boosters.{number}.supply_highest"]
        if lowest.si < highest.si:
            continue
        transfer, shown = transfer_of(description, booster), {"lowest": lowest.show(), "highest": highest.show()}
        if transfer is not None and description.plant.transfers[transfer - 1].source_lowest is not None:
            yield f"transfers.{transfer}.source_lowest", say("figures.source_lowest_too_high", **shown)
        else:
            path = f"boosters.{number}.ratio_allowed"
            yield path, say("figures.ratio_allowed_too_low", **shown, allowed=graph[path].show())


def _booster(description: Description, number: int) -> Iterator[Figure]:
    booster = description.plant.boosters[number - 1]
    at = f"boosters.{number}"
    yield from _supply(description, number)
    yield from _limits(at, booster.target)
    yield from _flows(at, booster.target, booster.rate_curve is not None)
    yield from _warmth(at, booster.target)
    yield from _spent(at, description.plant.compressor is not None, booster.seal_life is not None)


def _supply(description: Description, number: int) -> Iterator[Figure]:
    """What stands before the booster, and the mean of what stands behind it while it strokes."""
    booster = description.plant.boosters[number - 1]
    at, full = f"boosters.{number}", f"banks.{booster.target}.fill_pressure"
    transfer = None if booster.supply == "buffer" else transfer_of(description, booster)
    same: dict[str, Any] = {"unit": "bar(g)", "digits": 3, "source": "by-definition"}
    if booster.supply == "buffer":
        yield figure(f"{at}.supply_lowest", _the_same, symbol="p_s", value="buffer.cut_in", **same)
        yield figure(f"{at}.supply_highest", _the_same, symbol="p_s_max", value="buffer.cut_out", **same)
        yield figure(f"{at}.supply_proof", _the_same, symbol="p_s_top", value="stack.relief_pressure", **same)
    else:
        source = f"banks.{booster.supply}"
        if transfer is None:
            yield figure(f"{at}.supply_lowest", _lowest_by_ratio, symbol="p_s", full=full,
                         allowed=f"{at}.ratio_allowed", atmosphere=ATMOSPHERE, **same)  # fmt: skip
            yield figure(f"{at}.supply_highest", _the_same, symbol="p_s_max", value=f"{source}.fill_pressure", **same)
        else:
            named = f"transfers.{transfer}"
            yield figure(
                f"{at}.supply_lowest", _the_same, symbol="p_s", value=f"{named}.lowest_source_pressure", **same
            )
            yield figure(f"{at}.supply_highest", _the_same, symbol="p_s_max", value=f"{named}.equal_pressure", **same)
        yield figure(f"{at}.supply_proof", _the_same, symbol="p_s_top", value=f"{source}.hot_pressure", **same)
    if booster.supply == "buffer":
        yield figure(
            f"{at}.free_flow_pressure", free_flow_pressure, unit="bar(g)", symbol="p_free", rounding="down",
            supply_pressure_pa="buffer.cut_out", cracking_difference_pa=f"{at}.cracking", full_pressure_pa=full,
        )  # fmt: skip
        first = f"{at}.free_flow_pressure"
    else:
        first = f"{at}.supply_highest"
    yield figure(f"{at}.supply_mean", _mean, symbol="p_s_m", one=f"{at}.supply_lowest", other=f"{at}.supply_highest",
                 **same)  # fmt: skip
    yield figure(f"{at}.back_pressure_mean", _mean, symbol="p_b_m", one=first, other=full, **same)


def _limits(at: str, target: str) -> Iterator[Figure]:
    """Where it stalls, how near it works to that, which ratios are asked and allowed."""
    full, hot = f"banks.{target}.fill_pressure", f"banks.{target}.hot_pressure"
    areas: dict[str, Any] = {
        "area_ratio": f"{at}.ratio", "assisting_area_ratio": f"{at}.assist_ratio", "atmosphere_pa": ATMOSPHERE
    }  # fmt: skip
    yield figure(
        f"{at}.stall_pressure", stall_pressure, unit="bar(g)", symbol="p_st", rounding="down",
        drive_pressure_pa=f"{at}.drive_pressure", supply_pressure_pa=f"{at}.supply_lowest", **areas,
    )  # fmt: skip
    yield figure(
        f"{at}.stall_pressure_highest", stall_pressure, unit="bar(g)", symbol="p_st_max", rounding="up", safety=True,
        drive_pressure_pa=f"{at}.drive_pressure_highest", supply_pressure_pa=f"{at}.supply_proof", **areas,
    )  # fmt: skip
    for ending, back in (("", full), ("_hot", hot)):
        yield figure(
            f"{at}.stall_share{ending}", share_of_stall, unit="%", digits=2, rounding="up", symbol=f"s_st{ending}",
            discharge_pressure_pa=back, stall_pressure_pa=f"{at}.stall_pressure", atmosphere_pa=ATMOSPHERE,
        )  # fmt: skip
        yield figure(
            f"{at}.pressure_ratio{ending}", pressure_ratio, kind="ratio", rounding="up", symbol=f"π{ending}",
            discharge_pressure_pa=back, inlet_pressure_pa=f"{at}.supply_lowest",
        )  # fmt: skip
    yield figure(
        f"{at}.ratio_limit", ratio_of_no_flow, kind="ratio", rounding="down", symbol="π_0",
        clearance=f"{at}.clearance", inlet_pressure_pa=f"{at}.supply_lowest", temperature_k="site.usual",
    )  # fmt: skip


def _flows(at: str, target: str, measured: bool) -> Iterator[Figure]:
    """What it moves, at lowest and highest supply, against mean and full back pressure."""
    behind = {"full": f"banks.{target}.fill_pressure", "mean": f"{at}.back_pressure_mean"}
    rate: dict[str, Any] = {
        "free": f"{at}.stroke_rate", "stall": f"{at}.stall_pressure", "atmosphere": ATMOSPHERE,
        "source": "common-practice",
    }  # fmt: skip
    if measured:
        rate |= {"curve": f"{at}.rate_curve", "source": "by-definition"}
    for ending, back in (("", "full"), ("_mean", "mean")):
        yield figure(
            f"{at}.working_rate{ending}", _rate_measured if measured else _rate_assumed, unit="1/min", rounding="down",
            symbol=f"f{ending}", back=behind[back], **rate,
        )  # fmt: skip
    for ending, (supply, back) in CASES.items():
        yield figure(
            f"{at}.volumetric_efficiency{ending}", volumetric_efficiency, unit="%", digits=2, rounding="down",
            symbol=f"η_v{ending}",
            clearance=f"{at}.clearance", inlet_pressure_pa=f"{at}.{supply}", discharge_pressure_pa=behind[back],
            temperature_k="site.usual",
        )  # fmt: skip
        yield figure(
            f"{at}.flow{ending}", booster_flow, unit="g/h", digits=2, rounding="down", symbol=f"m_b{ending}",
            swept_volume_m3=f"{at}.swept_volume", faces=f"{at}.faces",
            stroke_rate_per_s=f"{at}.working_rate{'' if back == 'full' else '_mean'}",
            volumetric_efficiency=f"{at}.volumetric_efficiency{ending}", inlet_pressure_pa=f"{at}.{supply}",
            inlet_temperature_k="site.usual",
        )  # fmt: skip
    yield figure(
        f"{at}.normal_flow", amount_of_mass_flow, unit="NL/min", digits=2, rounding="down", symbol="n_b",
        source="by-definition", flow=f"{at}.flow",
    )  # fmt: skip


def _warmth(at: str, target: str) -> Iterator[Figure]:
    """How warm the gas comes out, on the hottest day into the full bank, from the lowest supply."""
    hot: dict[str, Any] = {"unit": "°C", "digits": 3, "rounding": "up", "safety": True}
    yield figure(
        f"{at}.discharge_temperature_isentropic", isentropic_temperature, symbol="T_s",
        pressure_in_pa=f"{at}.supply_lowest", temperature_in_k="site.hottest",
        pressure_out_pa=f"banks.{target}.hot_pressure", **hot,
    )  # fmt: skip
    yield figure(
        f"{at}.discharge_temperature", polytropic_temperature, symbol="T_d",
        inlet_pressure_pa=f"{at}.supply_lowest", discharge_pressure_pa=f"banks.{target}.hot_pressure",
        inlet_temperature_k="site.hottest", index=f"{at}.polytropic_index", **hot,
    )  # fmt: skip


def _spent(at: str, has_compressor: bool, has_seal_life: bool) -> Iterator[Figure]:
    """Air, electricity and strokes for what it moves, half way through the part that takes strokes."""
    middle: dict[str, Any] = {"inlet": f"{at}.supply_mean", "outlet": f"{at}.back_pressure_mean"}
    yield figure(
        f"{at}.ideal_work", isothermal_work, unit="kWh/kg", symbol="w_i", inlet_pressure_pa=middle["inlet"],
        discharge_pressure_pa=middle["outlet"], temperature_k="site.usual",
    )  # fmt: skip
    yield figure(
        f"{at}.volumetric_efficiency_usual", volumetric_efficiency, unit="%", digits=2, symbol="η_v_u",
        clearance=f"{at}.clearance", inlet_pressure_pa=middle["inlet"], discharge_pressure_pa=middle["outlet"],
        temperature_k="site.usual",
    )  # fmt: skip
    yield figure(
        f"{at}.stroke_air", free_air_of_stroke, unit="L", symbol="V_air", area_ratio=f"{at}.ratio",
        swept_volume_m3=f"{at}.swept_volume", return_share=f"{at}.return_share",
        drive_pressure_pa=f"{at}.drive_pressure", atmosphere_pa=ATMOSPHERE,
    )  # fmt: skip
    strokes: dict[str, Any] = {
        "swept": f"{at}.swept_volume", "faces": f"{at}.faces", "efficiency": f"{at}.volumetric_efficiency_usual",
        "inlet": middle["inlet"], "temperature": "site.usual",
    }  # fmt: skip
    yield figure(
        f"{at}.drive_air", _drive_air, unit="m3(free)/kg", symbol="a_d", rounding="up", source="fluid-power-examples",
        air=f"{at}.stroke_air", **strokes,
    )  # fmt: skip
    # As if nothing flowed freely: the most strokes that the year's hydrogen asks for.
    yield figure(
        f"{at}.strokes_per_year", _strokes_in_a_year, kind="count", digits=2, rounding="up", symbol="n_s_a",
        source="clearance-volume", flow="stack.hydrogen_flow", running="demand.running_hours", **strokes,
    )  # fmt: skip
    if has_seal_life:
        yield figure(
            f"{at}.seal_life_time", _seal_life, unit="a", digits=2, rounding="down", symbol="t_seal",
            source="by-definition", life=f"{at}.seal_life", strokes=f"{at}.strokes_per_year",
        )  # fmt: skip
    if has_compressor:
        yield figure(
            f"{at}.specific_energy", _specific_energy, unit="kWh/kg", symbol="w_b", rounding="up",
            source="common-practice",
            air=f"{at}.drive_air", power="compressor.power", delivery="compressor.free_flow",
        )  # fmt: skip
        yield figure(
            f"{at}.efficiency", boosting_efficiency, unit="%", digits=2, symbol="η_b", rounding="down",
            ideal_j_per_kg=f"{at}.ideal_work", spent_j_per_kg=f"{at}.specific_energy",
        )  # fmt: skip


def _compressor(description: Description) -> Iterator[Figure]:
    """The compressor that makes the drive air."""
    numbers = range(1, len(description.plant.boosters) + 1)
    yield figure(
        "compressor.free_flow", free_air_of_normal_flow, unit="L/min(free)", symbol="Q_free", rounding="down",
        normal_flow_mol_per_s="compressor.free_air", atmosphere_pa=ATMOSPHERE, temperature_k="site.usual",
    )  # fmt: skip
    yield figure(
        "compressor.efficiency", _compressor_efficiency, unit="%", digits=2, symbol="η_k", source="flow-work",
        power="compressor.power", delivery="compressor.free_flow", line="compressor.cut_in", atmosphere=ATMOSPHERE,
    )  # fmt: skip
    from_buffer = [n for n in numbers if description.plant.boosters[n - 1].supply == "buffer"]
    if from_buffer:
        yield figure(
            "compressor.duty", _duty, unit="%", digits=2, rounding="up", symbol="d_k", source="by-definition",
            flow="stack.hydrogen_flow", delivery="compressor.free_flow",
            **dict[str, Any]((f"air_{number}", f"boosters.{number}.drive_air") for number in from_buffer),
        )  # fmt: skip
    yield figure(
        "compressor.duty_boosting", _duty_boosting, unit="%", digits=2, rounding="up", symbol="d_k_b",
        source="by-definition", delivery="compressor.free_flow",
        **dict[str, Any]((f"air_{number}", f"boosters.{number}.stroke_air") for number in numbers),
        **dict[str, Any]((f"rate_{number}", f"boosters.{number}.working_rate_mean") for number in numbers),
    )  # fmt: skip


def amount_of_mass_flow(flow: float) -> float:
    """A mass flow as an amount flow: what it brings in a second."""
    return amount_of_mass(flow)


def _the_same(value: float) -> float:
    return value


def _mean(one: float, other: float) -> float:
    return (one + other) / 2


def _lowest_by_ratio(full: float, allowed: float, atmosphere: float) -> float:
    """The lowest supply from which the booster still reaches the full bank within its ratio."""
    return largest(atmosphere, full / allowed)


def _rate_assumed(free: float, back: float, stall: float, atmosphere: float) -> float:
    return assumed_stroke_rate(free, back, stall, atmosphere)


def _rate_measured(free: float, back: float, stall: float, atmosphere: float, curve: Curve) -> float:
    return measured_stroke_rate(free, curve, back, stall, atmosphere)


def _drive_air(swept: float, faces: float, efficiency: float, inlet: float, temperature: float, air: float) -> float:
    return drive_air_per_mass(strokes_per_mass(swept, faces, efficiency, inlet, temperature), air)


def _strokes_in_a_year(
    swept: float, faces: float, efficiency: float, inlet: float, temperature: float, flow: float, running: float
) -> float:
    return strokes_for_mass(strokes_per_mass(swept, faces, efficiency, inlet, temperature), flow * running)


def _seal_life(life: float, strokes: float) -> float:
    return time_of_cycle_life(life, strokes, YEAR)


def _specific_energy(air: float, power: float, delivery: float) -> float:
    return boosting_energy(air, electricity_of_free_air(power, delivery))


def _compressor_efficiency(power: float, delivery: float, line: float, atmosphere: float) -> float:
    """Least work on a cubic metre of free air over the electricity spent on it."""
    return free_air_isothermal_work(atmosphere, line) / electricity_of_free_air(power, delivery)


def _duty(flow: float, delivery: float, **air: float) -> float:
    """While the stack runs and all that it makes takes strokes: the bank already stands above the buffer."""
    taken = sum_of(*air.values())
    return compressor_duty(flow * taken, delivery)


def _duty_boosting(delivery: float, **values: float) -> float:
    """While a booster strokes against its mean back pressure; the greediest one."""
    takes = [
        values[f"air_{name.removeprefix('rate_')}"] * rate for name, rate in values.items() if name.startswith("rate_")
    ]
    return compressor_duty(takes[0] if len(takes) == 1 else largest(*takes), delivery)


def sum_of(*values: float) -> float:
    """The sum, so that a single value is shown as itself."""
    total = values[0]
    for value in values[1:]:
        total = total + value
    return total
