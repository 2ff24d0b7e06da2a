"""
Figures of the stack: what it makes, what crosses its membranes, what it needs, and what happens when it stops.

Without a back-pressure regulator the stack rides the buffer. Names without an ending mean cut-out, where most hydrogen
crosses in normal running; `_cut_in` stands for the lowest pressure in service and `_relief` for the highest that the
relief valve lets the stack reach.

Cells in series share one current: what does not depend on their number (purity, efficiencies, least currents) is
figured from the flows of one cell, and the flows of the stack are those times the cells.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.catalyst import catalyst_heat, hydrogen_in_oxygen, minimum_current, recombined
from macros.calculations.cell_voltage import (
    cold_cell_voltage,
    direct_power,
    dry_pressure,
    measured_voltage,
    modelled_voltage,
    power_drawn,
    reversible_voltage,
    stack_voltage,
    thermoneutral_voltage,
)
from macros.calculations.crossover import (
    crossover_flow,
    crossover_flux,
    faraday_efficiency,
    membrane_permeability,
    wet_thickness,
)
from macros.calculations.dissolved import returned_per_hydrogen
from macros.calculations.faraday import (
    current_density,
    efficiency_higher,
    efficiency_lower,
    hydrogen_mass_flow,
    hydrogen_produced,
    oxygen_produced,
    specific_energy,
    water_consumed,
    water_dragged,
)
from macros.calculations.humidity import water_carried, water_fraction_saturated
from macros.calculations.relief import relieving_pressure
from macros.calculations.stack_heat import evaporation_heat, preheat_energy, preheat_time, stack_heat
from macros.calculations.standstill import (
    LOWER_FLAMMABLE_LIMIT,
    dry_gas_held,
    hydrogen_after_let_down,
    let_down_time,
    sweep_flow,
    time_to_limit,
)
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure

CATHODE = {"": "buffer.cut_out", "_cut_in": "buffer.cut_in", "_relief": "stack.relief_pressure"}
"""The endings of names, and the pressure of the hydrogen side that each stands for."""

MEMBRANE: dict[str, Any] = {
    "permeability": "stack.membrane_permeability", "thickness": "stack.wet_thickness", "excess": "stack.excess_factor",
    "area": "stack.active_area",
}  # fmt: skip
"""What crossing in one cell reads beside the pressures."""


def figures(description: Description) -> Iterator[Figure]:
    """Every figure of the stack; those that a pressure decides only where a buffer gives it one."""
    yield from _gas()
    yield from _membrane(description)
    if description.plant.buffer is None:
        return
    relief = f"items.{description.plant.buffer.relief.lower()}"
    yield figure(
        "stack.relief_pressure", _relieving, unit="bar(g)", digits=3, symbol="p_relief", rounding="up", safety=True,
        source="api-520",
        set_pressure=f"{relief}.set_pressure", tolerance=f"{relief}.tolerance", accumulation=f"{relief}.accumulation",
        atmosphere=ATMOSPHERE,
    )  # fmt: skip
    returned = description.plant.water.drains_return != "waste"
    for ending, pressure in CATHODE.items():
        yield from _crossing(ending, pressure, returned)
    yield figure(
        "stack.differential_highest", _difference, unit="bar", symbol="Δp_max", rounding="up", safety=True,
        source="by-definition", higher="stack.relief_pressure", lower=ATMOSPHERE,
    )  # fmt: skip
    yield from _voltage(description.plant.stack.polarisation is not None)
    yield from _yield()
    yield from _heat()
    if description.plant.stack.heater.si > 0:
        yield from _preheating()
    yield from _standstill()


def _gas() -> Iterator[Figure]:
    """What the current makes and takes before anything crosses."""
    yield figure(
        "stack.current_density", current_density, unit="A/cm2", symbol="j",
        current_a="stack.current", active_area_m2="stack.active_area",
    )  # fmt: skip
    yield figure(
        "stack.cell_hydrogen_gross_flow", _made_by_cell, unit="NmL/min", symbol="G_c", source="iupac-green-book",
        current_a="stack.current",
    )  # fmt: skip
    yield figure(
        "stack.hydrogen_gross_flow", hydrogen_produced, unit="NL/min", symbol="G",
        current_a="stack.current", cells="stack.cells",
    )  # fmt: skip
    yield figure(
        "stack.cell_water_dragged", _dragged_by_cell, unit="g/h", symbol="m_drag,c", source="springer-1991",
        current_a="stack.current", drag_per_proton="stack.drag",
    )  # fmt: skip
    yield figure(
        "stack.water_dragged", water_dragged, unit="kg/h", symbol="m_drag",
        current_a="stack.current", cells="stack.cells", drag_per_proton="stack.drag",
    )  # fmt: skip
    yield figure(
        "stack.thermoneutral_voltage", thermoneutral_voltage, unit="V", digits=4, symbol="U_tn",
        temperature_k="stack.temperature",
    )  # fmt: skip


def _membrane(description: Description) -> Iterator[Figure]:
    """The membrane as it stands in water, and the gas beside it."""
    stack = description.plant.stack
    if stack.permeability is None:
        yield figure(
            "stack.membrane_permeability", membrane_permeability, unit="mol/(m s Pa)", symbol="P_m", safety=True,
            rounding="up", temperature_k="stack.temperature",
        )  # fmt: skip
    else:
        yield figure(
            "stack.membrane_permeability", _the_same, unit="mol/(m s Pa)", symbol="P_m", safety=True, rounding="up",
            source="by-definition", value="stack.permeability",
        )  # fmt: skip
    if stack.thickness_state == "dry":
        yield figure(
            "stack.wet_thickness", wet_thickness, unit="um", symbol="d_w", dry_thickness_m="stack.membrane_thickness"
        )
    else:
        yield figure(
            "stack.wet_thickness", _the_same, unit="um", symbol="d_w", source="by-definition",
            value="stack.membrane_thickness",
        )  # fmt: skip
    yield figure(
        "stack.oxygen_pressure", _dry_pressure, unit="bar(a)", symbol="p_O2", source="by-definition",
        pressure_pa="stack.anode_pressure", temperature_k="stack.temperature",
    )  # fmt: skip
    yield figure(
        "stack.oxygen_space_gas", _gas_in_oxygen_space, unit="NmL", symbol="n_O2", rounding="down",
        source="by-definition",
        volume_m3="stack.oxygen_volume", pressure_pa="stack.anode_pressure", temperature_k="stack.temperature",
    )  # fmt: skip


def _crossing(ending: str, pressure: str, returned: bool) -> Iterator[Figure]:
    """What crosses at one pressure of the hydrogen side, and what of it leaves with the oxygen."""
    cathode = f"stack.hydrogen_pressure{ending}"
    yield figure(
        cathode, _dry_pressure, unit="bar(a)", symbol="p_H2", source="by-definition",
        pressure_pa=pressure, temperature_k="stack.temperature",
    )  # fmt: skip
    cell_rest, rest = f"stack.cell_crossover_at_rest{ending}", f"stack.crossover_at_rest{ending}"
    # At rest the oxygen side holds no hydrogen yet: nothing is taken off the pressure that drives.
    yield figure(
        cell_rest, _crossing_cell_at_rest, unit="NmL/min", symbol="c_rest,c", rounding="up", safety=True,
        source="scheepers-2020", hydrogen_pressure=cathode, **MEMBRANE,
    )  # fmt: skip
    anode = f"stack.oxygen_side_hydrogen_pressure{ending}"
    yield figure(
        anode, _oxygen_side_hydrogen, unit="mbar(a)", digits=2, symbol="p_H2,an", source="by-definition",
        crossing_at_rest=cell_rest, oxygen_pressure="stack.oxygen_pressure", gross="stack.cell_hydrogen_gross_flow",
        catalyst="stack.catalyst_efficiency",
    )  # fmt: skip
    cell = f"stack.cell_crossover_flow{ending}"
    yield figure(
        cell, _crossing_cell, unit="NmL/min", symbol="c_c", rounding="up", safety=True, source="scheepers-2020",
        hydrogen_pressure=cathode, oxygen_side_pressure=anode, **MEMBRANE,
    )  # fmt: skip
    yield figure(
        f"stack.crossover_flow{ending}", all_cells, unit="NmL/min", symbol="c", rounding="up", safety=True,
        source="by-definition", cells="stack.cells", of_one=cell,
    )  # fmt: skip
    drains: dict[str, Any] = {}
    if returned:
        drains = {"returned_mol_per_s": f"water.cell_hydrogen_returned{ending}"}
    catalyst: dict[str, Any] = {"catalyst_efficiency": "stack.catalyst_efficiency"}
    for name, efficiency in (("", catalyst), ("_catalyst_dead", {})):
        yield figure(
            f"stack.hydrogen_in_oxygen{name}{ending}", hydrogen_in_oxygen, unit="%", digits=2, symbol="x_H2",
            rounding="up", safety=True,
            crossover_mol_per_s=cell, hydrogen_gross_mol_per_s="stack.cell_hydrogen_gross_flow",
            **efficiency, **drains,
        )  # fmt: skip
    yield from _least_current(ending, returned)
    yield figure(
        rest, all_cells, unit="NmL/min", symbol="c_rest", rounding="up", safety=True, source="by-definition",
        cells="stack.cells", of_one=cell_rest,
    )  # fmt: skip


def _least_current(ending: str, returned: bool) -> Iterator[Figure]:
    """The currents at which alarm and trip are met, with the catalyst alive and dead."""
    drains: dict[str, Any] = {}
    if returned:
        share = f"stack.hydrogen_returned_per_hydrogen{ending}"
        yield figure(
            share, returned_per_hydrogen, unit="ppm", symbol="r_H2",
            drag_per_proton="stack.drag", dissolved_fraction=f"water.hydrogen_dissolved{ending}",
            degassed_share="water.degassed_share",
        )  # fmt: skip
        drains = {"returned_per_hydrogen": share}
    # Crossing falls a little with the hydrogen that the oxygen side holds; at the limits that is a thousandth, so the
    # crossing against none is taken, the safe side.
    crossing = f"stack.cell_crossover_at_rest{ending}"
    for limit in ("alarm", "trip"):
        for name, calculation in (("", _minimum_current), ("_catalyst_dead", _minimum_current_dead)):
            alive: dict[str, Any] = {"catalyst_efficiency": "stack.catalyst_efficiency"} if not name else {}
            yield figure(
                f"stack.minimum_current_{limit}{name}{ending}", calculation, unit="A", symbol=f"I_min,{limit}",
                rounding="up", safety=True, source="by-definition",
                crossover_mol_per_s=crossing, hydrogen_limit=f"stack.hydrogen_in_oxygen_{limit}", **alive, **drains,
            )  # fmt: skip


def _voltage(measured: bool) -> Iterator[Figure]:
    """What a cell needs, by points that were measured or by a published model."""
    yield figure(
        "stack.reversible_voltage", reversible_voltage, unit="V", digits=4, symbol="U_rev",
        temperature_k="stack.temperature", hydrogen_pressure_pa="stack.hydrogen_pressure",
        oxygen_pressure_pa="stack.oxygen_pressure",
    )  # fmt: skip
    if measured:
        yield figure(
            "stack.cell_voltage", measured_voltage, unit="V", symbol="U_c",
            polarisation="stack.polarisation", current_density_a_per_m2="stack.current_density",
        )  # fmt: skip
    else:
        yield figure(
            "stack.cell_voltage", modelled_voltage, unit="V", symbol="U_c",
            current_density_a_per_m2="stack.current_density", temperature_k="stack.temperature",
            reversible_voltage_v="stack.reversible_voltage", membrane_thickness_m="stack.wet_thickness",
        )  # fmt: skip
    yield figure(
        "stack.cold_cell_voltage", cold_cell_voltage, unit="V", symbol="U_c,cold", rounding="up",
        cell_voltage_v="stack.cell_voltage", cold_rise_v="stack.cold_voltage_rise",
    )  # fmt: skip
    yield figure(
        "stack.voltage", stack_voltage, unit="V", symbol="U", cell_voltage_v="stack.cell_voltage", cells="stack.cells"
    )
    yield figure(
        "stack.power", direct_power, unit="kW", symbol="P", voltage_v="stack.voltage", current_a="stack.current"
    )
    yield figure(
        "stack.supply_power", _supply_power, unit="kW", symbol="P_s", source="by-definition",
        stack_power="stack.power", cable_loss="power.cable_loss", efficiency="power.rectifier_efficiency",
    )  # fmt: skip


def _yield() -> Iterator[Figure]:
    """What leaves the stack for good, and what it costs."""
    yield figure(
        "stack.faraday_efficiency", faraday_efficiency, unit="%", symbol="η_F", rounding="down",
        crossover_mol_per_s="stack.cell_crossover_flow", hydrogen_gross_mol_per_s="stack.cell_hydrogen_gross_flow",
    )  # fmt: skip
    yield figure(
        "stack.cell_hydrogen_normal_flow", _made_by_cell, unit="NmL/min", symbol="n_H2,c", source="iupac-green-book",
        current_a="stack.current", faraday_efficiency="stack.faraday_efficiency",
    )  # fmt: skip
    net: dict[str, Any] = {
        "current_a": "stack.current", "cells": "stack.cells", "faraday_efficiency": "stack.faraday_efficiency",
    }  # fmt: skip
    yield figure("stack.hydrogen_normal_flow", hydrogen_produced, unit="NL/min", symbol="n_H2", **net)
    yield figure(
        "stack.hydrogen_flow", hydrogen_mass_flow, unit="g/h", symbol="m_H2",
        hydrogen_mol_per_s="stack.hydrogen_normal_flow",
    )  # fmt: skip
    yield figure(
        "stack.hydrogen_recombined", recombined, unit="NmL/min", symbol="n_rec",
        crossover_mol_per_s="stack.crossover_flow", catalyst_efficiency="stack.catalyst_efficiency",
    )  # fmt: skip
    balance: dict[str, Any] = {
        "hydrogen_gross_mol_per_s": "stack.hydrogen_gross_flow", "recombined_mol_per_s": "stack.hydrogen_recombined",
    }  # fmt: skip
    yield figure(
        "stack.cell_oxygen_flow", _oxygen_of_cell, unit="NmL/min", symbol="n_O2,c", source="by-definition",
        gross="stack.cell_hydrogen_gross_flow", crossing="stack.cell_crossover_flow",
        catalyst="stack.catalyst_efficiency",
    )  # fmt: skip
    yield figure("stack.oxygen_flow", oxygen_produced, unit="NL/min", symbol="n_O2", **balance)
    yield figure("stack.water_consumed", water_consumed, unit="kg/h", symbol="m_w", **balance)
    yield figure(
        "stack.specific_energy", specific_energy, unit="kWh/kg", symbol="e",
        cell_voltage_v="stack.cell_voltage", faraday_efficiency="stack.faraday_efficiency",
    )  # fmt: skip
    for name, calculation in (("lower", efficiency_lower), ("higher", efficiency_higher)):
        yield figure(
            f"stack.efficiency_{name}", calculation, unit="%", symbol=f"η_{name}",
            specific_energy_j_per_kg="stack.specific_energy",
        )  # fmt: skip


def _heat() -> Iterator[Figure]:
    """Heat while running: into the water, and away with the vapour."""
    yield figure(
        "stack.catalyst_heat", catalyst_heat, unit="W", digits=2, symbol="P_cat",
        recombined_mol_per_s="stack.hydrogen_recombined", thermoneutral_voltage_v="stack.thermoneutral_voltage",
    )  # fmt: skip
    yield figure(
        "stack.heat", stack_heat, unit="W", symbol="P_heat",
        current_a="stack.current", cells="stack.cells", cell_voltage_v="stack.cell_voltage",
        thermoneutral_voltage_v="stack.thermoneutral_voltage", catalyst_heat_w="stack.catalyst_heat",
    )  # fmt: skip
    yield figure(
        "stack.evaporation_heat", _evaporation, unit="W", digits=2, symbol="P_evap", source="iapws-if97-heat",
        hydrogen="stack.hydrogen_normal_flow", hydrogen_pressure="buffer.cut_in", oxygen="stack.oxygen_flow",
        oxygen_pressure="stack.anode_pressure", temperature="stack.temperature",
    )  # fmt: skip


def _preheating() -> Iterator[Figure]:
    """What warming up from the coldest ambient takes, by the heater alone."""
    warming: dict[str, Any] = {
        "heat_capacity_j_per_k": "stack.heat_capacity", "loss_w_per_k": "stack.heat_loss",
        "heater_power_w": "stack.heater", "start_temperature_k": "site.coldest",
        "end_temperature_k": "stack.temperature",
    }  # fmt: skip
    yield figure("stack.preheat_time", preheat_time, unit="min", digits=2, symbol="t_pre", rounding="up", **warming)
    yield figure(
        "stack.preheat_energy", preheat_energy, unit="kWh", digits=2, symbol="E_pre", rounding="up",
        preheat_time_s="stack.preheat_time", heater_power_w="stack.heater",
    )  # fmt: skip


def _standstill() -> Iterator[Figure]:
    """After the current has stopped, hot and at full pressure."""
    yield figure(
        "stack.rest_hydrogen_pressure", _dry_pressure, unit="bar(a)", symbol="p_H2,rest", source="by-definition",
        pressure_pa="stack.rest_pressure", temperature_k="stack.temperature",
    )  # fmt: skip
    yield figure(
        "stack.crossover_let_down", _crossing_at_rest, unit="NmL/min", symbol="c_end", rounding="up",
        source="scheepers-2020", hydrogen_pressure="stack.rest_hydrogen_pressure", cells="stack.cells", **MEMBRANE,
    )  # fmt: skip
    for ending in ("", "_relief"):
        crossing = f"stack.crossover_at_rest{ending}"
        yield figure(
            f"stack.oxygen_space_time_to_limit{ending}", _time_to_flammable, unit="s", digits=2, symbol="t_LFL",
            rounding="down", safety=True, source="iec-60079-20-1",
            gas="stack.oxygen_space_gas", crossover=crossing,
        )  # fmt: skip
        yield figure(
            f"stack.oxygen_space_time_to_trip{ending}", time_to_limit, unit="s", digits=2, symbol="t_trip",
            rounding="down", safety=True,
            gas_mol="stack.oxygen_space_gas", crossover_mol_per_s=crossing,
            hydrogen_limit="stack.hydrogen_in_oxygen_trip",
        )  # fmt: skip
        # The other ways to a safe state: gas that sweeps the oxygen side, or the least current for the trip held on.
        yield figure(
            f"stack.sweep_flow_minimum{ending}", sweep_flow, unit="NL/min", digits=2, symbol="n_sweep",
            rounding="up", safety=True,
            crossover_mol_per_s=crossing, hydrogen_limit="stack.hydrogen_in_oxygen_trip",
        )  # fmt: skip
        yield figure(
            f"stack.let_down_time{ending}", let_down_time, unit="min", digits=2, symbol="t_down", rounding="up",
            pressure_pa=CATHODE[ending], end_pressure_pa="stack.rest_pressure", rate_pa_per_s="stack.let_down_rate",
        )  # fmt: skip
        yield figure(
            f"stack.hydrogen_after_let_down{ending}", hydrogen_after_let_down, unit="%", digits=2, symbol="x_down",
            rounding="up", safety=True,
            crossover_mol_per_s=crossing, crossover_end_mol_per_s="stack.crossover_let_down",
            let_down_time_s=f"stack.let_down_time{ending}", gas_mol="stack.oxygen_space_gas",
        )  # fmt: skip


def _difference(higher: float, lower: float) -> float:
    """Against an oxygen side that has lost its pressure."""
    return higher - lower


def _the_same(value: float) -> float:
    return value


def _relieving(set_pressure: float, tolerance: float, accumulation: float, atmosphere: float) -> float:
    """The highest that the relief lets the stack reach: set pressure, tolerance and accumulation."""
    return relieving_pressure(set_pressure, atmosphere, accumulation, tolerance)


def _dry_pressure(pressure_pa: float, temperature_k: float) -> float:
    """Partial pressure of a gas that leaves the membrane saturated."""
    return dry_pressure(pressure_pa, pressure_pa * water_fraction_saturated(pressure_pa, temperature_k))


def _gas_in_oxygen_space(volume_m3: float, pressure_pa: float, temperature_k: float) -> float:
    vapour = pressure_pa * water_fraction_saturated(pressure_pa, temperature_k)
    return dry_gas_held(volume_m3, pressure_pa, vapour, temperature_k)


def all_cells(cells: float, of_one: float) -> float:
    """The flow of a stack, each cell alike."""
    return cells * of_one


def _made_by_cell(current_a: float, faraday_efficiency: float = 1.0) -> float:
    return hydrogen_produced(current_a, 1.0, faraday_efficiency)


def _dragged_by_cell(current_a: float, drag_per_proton: float) -> float:
    return water_dragged(current_a, 1.0, drag_per_proton)


def _oxygen_of_cell(gross: float, crossing: float, catalyst: float) -> float:
    return oxygen_produced(gross, recombined(crossing, catalyst))


def _crossing_cell(
    permeability: float, hydrogen_pressure: float, oxygen_side_pressure: float, thickness: float, excess: float,
    area: float, cells: float = 1.0,
) -> float:  # fmt: skip
    flux = crossover_flux(permeability, hydrogen_pressure, oxygen_side_pressure, thickness, excess)
    return crossover_flow(flux, area, cells)


def _crossing_cell_at_rest(
    permeability: float, hydrogen_pressure: float, thickness: float, excess: float, area: float
) -> float:
    return _crossing_cell(permeability, hydrogen_pressure, 0.0, thickness, excess, area)


def _crossing_at_rest(
    permeability: float, hydrogen_pressure: float, thickness: float, excess: float, area: float, cells: float
) -> float:
    return _crossing_cell(permeability, hydrogen_pressure, 0.0, thickness, excess, area, cells)


def _oxygen_side_hydrogen(crossing_at_rest: float, oxygen_pressure: float, gross: float, catalyst: float) -> float:
    """
    Partial pressure of the hydrogen that the oxygen already holds, from what crosses against none.

    One pass is enough: it is a few millibar against bars, and the second pass would change it by as small a share.
    """
    return hydrogen_in_oxygen(crossing_at_rest, gross, catalyst) * oxygen_pressure


def _minimum_current(
    crossover_mol_per_s: float, hydrogen_limit: float, catalyst_efficiency: float, returned_per_hydrogen: float = 0.0
) -> float:
    """From what crosses in one cell: all cells carry the same current."""
    return minimum_current(crossover_mol_per_s, hydrogen_limit, catalyst_efficiency, 1.0, returned_per_hydrogen)


def _minimum_current_dead(
    crossover_mol_per_s: float, hydrogen_limit: float, returned_per_hydrogen: float = 0.0
) -> float:
    return _minimum_current(crossover_mol_per_s, hydrogen_limit, 0.0, returned_per_hydrogen)


def _supply_power(stack_power: float, cable_loss: float, efficiency: float) -> float:
    return power_drawn(stack_power + cable_loss, efficiency)


def _evaporation(
    hydrogen: float, hydrogen_pressure: float, oxygen: float, oxygen_pressure: float, temperature: float
) -> float:
    """Heat that leaves with the vapour of both gases, saturated at the stack's temperature."""
    vapour = water_carried(hydrogen, water_fraction_saturated(hydrogen_pressure, temperature)) + water_carried(
        oxygen, water_fraction_saturated(oxygen_pressure, temperature)
    )
    return evaporation_heat(vapour, temperature)


def _time_to_flammable(gas: float, crossover: float) -> float:
    return time_to_limit(gas, crossover, LOWER_FLAMMABLE_LIMIT)
