"""
Figures of the water circuit and of the oxygen side.

What returns from the gas side is the risk here: dissolved hydrogen always, the whole gas where a drain stays open.
Names without an ending mean cut-out; `_cut_in` and `_relief` as for the stack. What returns is figured for one cell,
as the purity of the oxygen asks for it, and for the stack as that times the cells.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.cooler import (
    air_capacity_rate,
    capacity_ratio,
    cooling_capacity,
    cooling_margin,
    effectiveness_crossflow,
    temperature_rise,
    transfer_units,
    water_capacity_rate,
)
from macros.calculations.dissolved import dissolved_fraction, henry_constant, hydrogen_returned, share_of_oxygen
from macros.calculations.humidity import water_carried, water_fraction_saturated
from macros.calculations.leak import hole_area, leak_flow
from macros.calculations.oxygen_vent import vent_velocity
from macros.calculations.water_balance import top_up_interval, water_consumption, water_drained
from macros.calculations.water_quality import deioniser_life, exhaustion_time, ionic_load
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure
from macros.figures.stack import CATHODE, all_cells


def figures(description: Description) -> Iterator[Figure]:
    """All figures of the water circuit and the oxygen side."""
    if description.plant.buffer is None:
        return
    drains = any(stage.kind != "desiccant" for stage in description.plant.drying)
    returned = description.plant.water.drains_return != "waste"
    first = "drying.1.temperature" if description.plant.drying else "stack.temperature"
    yield from _cooling()
    yield from _drains(first, drains, returned)
    yield from _consumption(drains, returned)
    yield from _resin()
    yield from _oxygen()


def _cooling() -> Iterator[Figure]:
    """The stack's heat into the water, and out of it on the hottest day."""
    yield figure("water.capacity_rate", water_capacity_rate, unit="W/K", symbol="W_w", water_flow_m3_per_s="water.flow")
    yield figure(
        "water.temperature_rise", temperature_rise, unit="K", digits=2, symbol="ΔT_w", rounding="up",
        heat_w="stack.heat", rate_w_per_k="water.capacity_rate",
    )  # fmt: skip
    yield figure(
        "water.air_capacity_rate", air_capacity_rate, unit="W/K", symbol="W_a",
        air_flow_m3_per_s="water.cooler.air_flow", pressure_pa=ATMOSPHERE, temperature_k="site.hottest",
    )  # fmt: skip
    yield figure(
        "water.cooler_effectiveness", _effectiveness, unit="%", symbol="ε", source="ntu-method",
        conductance="water.cooler.conductance", water="water.capacity_rate", air="water.air_capacity_rate",
    )  # fmt: skip
    yield figure(
        "water.cooling_capacity", cooling_capacity, unit="W", digits=2, symbol="P_cool", rounding="down",
        effectiveness="water.cooler_effectiveness", first_rate_w_per_k="water.capacity_rate",
        second_rate_w_per_k="water.air_capacity_rate", hot_temperature_k="stack.temperature",
        cold_temperature_k="site.hottest",
    )  # fmt: skip
    yield figure(
        "water.cooling_margin", cooling_margin, unit="%", digits=2, symbol="m_cool", rounding="down",
        capacity_w="water.cooling_capacity", heat_w="stack.heat",
    )  # fmt: skip


def _drains(first: str, drains: bool, returned: bool) -> Iterator[Figure]:
    """What the drained water holds, what of it comes back, and what an open drain would let through."""
    yield figure("water.henry_constant", henry_constant, unit="bar(a)", symbol="k_H", temperature_k=first)
    water = "stack.cell_water_dragged"
    if drains and returned:
        water = "water.cell_drained"
        yield figure(
            water, _drained_of_cell, unit="g/h", symbol="m_dr,c", source="by-definition",
            load="drying.condensate_load", hydrogen="stack.cell_hydrogen_normal_flow",
        )  # fmt: skip
    for ending in CATHODE:
        yield figure(
            f"water.hydrogen_dissolved{ending}", dissolved_fraction, unit="ppm", symbol="x_d", rounding="up",
            hydrogen_pressure_pa=f"stack.hydrogen_pressure{ending}", henry_constant_pa="water.henry_constant",
        )  # fmt: skip
        if not returned:
            continue
        flow: dict[str, Any] = {"water_kg_per_s": water, "dissolved_fraction": f"water.hydrogen_dissolved{ending}"}
        cell = f"water.cell_hydrogen_returned{ending}"
        yield figure(
            cell, hydrogen_returned, unit="NmL/min", symbol="n_ret,c", rounding="up", safety=True,
            degassed_share="water.degassed_share", **flow,
        )  # fmt: skip
        yield figure(
            f"water.hydrogen_returned{ending}", all_cells, unit="NmL/min", symbol="n_ret", rounding="up", safety=True,
            source="by-definition", cells="stack.cells", of_one=cell,
        )  # fmt: skip
        yield figure(
            f"water.hydrogen_flashed{ending}", _flashed, unit="NmL/min", symbol="n_fl", rounding="up",
            source="by-definition", degassed_share="water.degassed_share", cells="stack.cells", **flow,
        )  # fmt: skip
        yield figure(
            f"water.hydrogen_returned_share{ending}", share_of_oxygen, unit="%", digits=2, symbol="s_ret",
            rounding="up", safety=True,
            returned_mol_per_s=cell, oxygen_mol_per_s="stack.cell_oxygen_flow",
        )  # fmt: skip
        yield figure(
            f"water.hydrogen_returned_share_undegassed{ending}", _share_undegassed, unit="%", digits=2, symbol="s_all",
            rounding="up", safety=True, source="by-definition", oxygen="stack.cell_oxygen_flow", **flow,
        )  # fmt: skip
    for ending in ("", "_relief"):
        yield figure(
            f"water.drain_blow_by{ending}", _blow_by, unit="NL/min", digits=2, symbol="n_bb", rounding="up",
            safety=True, source="nozzle-flow",
            bore="water.drain_orifice", pressure=CATHODE[ending], temperature=first, atmosphere=ATMOSPHERE,
        )  # fmt: skip


def _consumption(drains: bool, returned: bool) -> Iterator[Figure]:
    """Water that must be filled in while the plant runs."""
    yield figure(
        "oxygen.water_carried", _oxygen_water, unit="g/h", symbol="m_O2w", source="by-definition",
        oxygen="stack.oxygen_flow", pressure="stack.anode_pressure", temperature="water.oxygen_outlet",
    )  # fmt: skip
    if drains:
        # What leaves the stack's hydrogen side and no drain catches goes on with the gas or stays in the desiccant.
        yield figure(
            "water.with_hydrogen", _not_drained, unit="g/h", symbol="m_H2w", source="by-definition",
            leaving="drying.1.inlet_water_mean", drained="drying.condensate",
        )  # fmt: skip
    else:
        yield figure(
            "water.with_hydrogen", _hydrogen_water, unit="g/h", symbol="m_H2w", source="by-definition",
            hydrogen="stack.hydrogen_normal_flow", pressure="buffer.cut_in", temperature="stack.temperature",
            dragged="stack.water_dragged",
        )  # fmt: skip
    lost: dict[str, Any] = {"drained_kg_per_s": "drying.condensate"} if drains and not returned else {}
    yield figure(
        "water.consumption", water_consumption, unit="kg/h", symbol="m_use", rounding="up",
        split_kg_per_s="stack.water_consumed", with_oxygen_kg_per_s="oxygen.water_carried",
        with_hydrogen_kg_per_s="water.with_hydrogen", **lost,
    )  # fmt: skip
    yield figure(
        "water.top_up_interval", top_up_interval, unit="h", digits=2, symbol="t_top", rounding="down",
        usable_m3="water.usable", consumption_kg_per_s="water.consumption",
    )  # fmt: skip


def _resin() -> Iterator[Figure]:
    """How long the deioniser lasts."""
    yield figure(
        "water.ionic_load", ionic_load, unit="mmol/L", digits=2, symbol="c_ion", rounding="up",
        conductivity_s_per_m="water.feed_conductivity",
    )  # fmt: skip
    yield figure(
        "water.exhaustion_time", exhaustion_time, unit="a", digits=2, symbol="t_ion", rounding="down",
        exchange_capacity_mol_per_m3="water.deioniser.capacity", resin_m3="water.deioniser.resin",
        ionic_load_mol_per_m3="water.ionic_load", carbon_dioxide_mol_per_m3="water.carbon_dioxide",
        feed_kg_per_s="water.consumption", running_time_s="demand.running_hours",
    )  # fmt: skip
    yield figure(
        "water.deioniser_life", deioniser_life, unit="d", digits=2, symbol="t_resin", rounding="down",
        exhaustion_time_s="water.exhaustion_time", age_limit_s="water.deioniser.age_limit",
    )  # fmt: skip


def _oxygen() -> Iterator[Figure]:
    """The oxygen in its own vent."""
    yield figure(
        "oxygen.vent_velocity", _vent_velocity, unit="m/s", digits=2, symbol="v_O2", rounding="up",
        source="by-definition",
        oxygen="stack.oxygen_flow", pressure=ATMOSPHERE, temperature="water.oxygen_outlet", bore="water.vent_bore",
    )  # fmt: skip


def _effectiveness(conductance: float, water: float, air: float) -> float:
    return effectiveness_crossflow(transfer_units(conductance, water, air), capacity_ratio(water, air))


def _drained_of_cell(load: float, hydrogen: float) -> float:
    """Each cell's part of what the train drains."""
    return load * hydrogen


def _flashed(cells: float, water_kg_per_s: float, dissolved_fraction: float, degassed_share: float) -> float:
    """What the degassing pot releases to its own vent."""
    return all_cells(cells, hydrogen_returned(water_kg_per_s, dissolved_fraction, 1 - degassed_share))


def _share_undegassed(water_kg_per_s: float, dissolved_fraction: float, oxygen: float) -> float:
    """What would come back if the pot freed nothing: level held too high, vent blocked."""
    return share_of_oxygen(hydrogen_returned(water_kg_per_s, dissolved_fraction), oxygen)


def _blow_by(bore: float, pressure: float, temperature: float, atmosphere: float) -> float:
    """Gas through an open drain as through a nozzle without losses: no hole passes more."""
    return leak_flow(hole_area(bore), 1.0, pressure, temperature, atmosphere) / MOLAR_MASS_HYDROGEN


def _oxygen_water(oxygen: float, pressure: float, temperature: float) -> float:
    return water_carried(oxygen, water_fraction_saturated(pressure, temperature))


def _not_drained(leaving: float, drained: float) -> float:
    return leaving - drained


def _hydrogen_water(hydrogen: float, pressure: float, temperature: float, dragged: float) -> float:
    return water_drained(water_carried(hydrogen, water_fraction_saturated(pressure, temperature)), 0.0, dragged)


def _vent_velocity(oxygen: float, pressure: float, temperature: float, bore: float) -> float:
    return vent_velocity(oxygen, water_fraction_saturated(pressure, temperature), temperature, pressure, bore)
