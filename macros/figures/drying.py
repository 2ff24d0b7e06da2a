"""
Figures of the gas treatment: what each stage takes out, how dry the gas leaves, how long the desiccant lasts.

Without a back-pressure regulator the train rides the buffer, so every stage is figured three times: at cut-in, where
the gas carries most vapour and the dew point is worst; at cut-out; and at the pressure of the mean load over a fill,
by which desiccant and drains are counted. Names without an ending mean cut-in.

Water is followed as a load, so much for each mole of dry hydrogen, vapour and droplets together, from stage to stage:
what does not depend on the size of the stack (dew points, fractions, temperatures) reads loads, and the flows of water
are loads times the flow of hydrogen. Nothing is lost on the way: a mist that a stage lets through counts in full
for the next stage, for the water in the treated gas and for its frost point. A dew point at line pressure is that of
the vapour: mist or not, saturated gas has the dew point of its own temperature. What leaves the stack is the water
that the protons drag, nearly all of it liquid.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from macros.calculations.cold_coil import coil_area, coil_heat, ice_margin, log_mean_difference
from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.desiccant import (
    bed_length,
    bed_temperature,
    inlet_humidity,
    regeneration_energy,
    regeneration_interval,
    residual_loading,
    water_after_bed,
    working_capacity,
)
from macros.calculations.humidity import dew_point, frost_point, water_fraction_of_load
from macros.calculations.hydrogen import density
from macros.calculations.line_flow import line_velocity
from macros.calculations.separator import (
    pressure_of_mean_load,
    vapour_carried,
    water_after_separating,
    water_leaving_stack,
)
from macros.description.loading import Description
from macros.figures.graph import Figure, figure

GAS = "stack.hydrogen_normal_flow"

MOLE = 1.0
"""The dry hydrogen to which a load belongs: with it in place of a flow, calculations of flows give loads."""

PRESSURES = {"": "buffer.cut_in", "_cut_out": "buffer.cut_out", "_mean": "drying.pressure_mean"}
"""The endings of names, and the pressure that each stands for."""


def figures(description: Description) -> Iterator[Figure]:
    """The figures of every stage, in the order of flow, then those of the whole train."""
    plant = description.plant
    if plant.buffer is None or not plant.drying:
        return
    yield figure(
        "drying.pressure_mean",
        pressure_of_mean_load,
        unit="bar(g)",
        digits=3,
        symbol="p_mean",
        lower_pressure_pa="buffer.cut_in",
        higher_pressure_pa="buffer.cut_out",
    )
    kinds = [stage.kind for stage in plant.drying]
    for number, kind in enumerate(kinds, start=1):
        for ending, pressure in PRESSURES.items():
            yield from _balance(number, kind, ending, pressure, "m" if "desiccant" in kinds[: number - 1] else "")
        # The first of its kind has the plain name; a second one is told apart by its number.
        prefix = "drying" if kinds.index(kind) == number - 1 else f"drying.{number}"
        if kind == "desiccant":
            yield from _desiccant(number, prefix)
            if plant.drying[number - 1].bed_diameter is not None:
                yield from _column(number, prefix)
        if kind == "cold_coil":
            yield from _cold_coil(number, prefix)
    yield from _train(kinds)


def _balance(number: int, kind: str, ending: str, pressure: str, prefix: str) -> Iterator[Figure]:
    """What enters a stage, what leaves it, and at which dew point, at one of the pressures; `prefix` of the gram."""
    stage = f"drying.{number}"
    inlet, outlet, removed = (f"{stage}.{place}_load{ending}" for place in ("inlet", "outlet", "removed"))
    temperature = f"{stage}.temperature"
    load_unit = f"{prefix}g/Nm3"
    if number == 1:
        yield figure(
            inlet, _leaving_stack, unit=load_unit, symbol="l_in", source="common-practice",
            dragged="stack.cell_water_dragged", hydrogen="stack.cell_hydrogen_normal_flow",
            pressure=pressure, temperature="stack.temperature",
        )  # fmt: skip
    else:
        yield figure(
            inlet, _the_same, unit=load_unit, symbol="l_in", source="by-definition",
            value=f"drying.{number - 1}.outlet_load{ending}",
        )  # fmt: skip
    outlet_prefix = prefix
    if kind == "desiccant":
        outlet_prefix = "m"
        temperature = f"{stage}.bed_temperature{ending}"
        yield figure(
            temperature, _bed_temperature, unit="°C", digits=3, symbol="T_bed", source="chua-2004",
            temperature=f"{stage}.temperature", load=inlet, pressure=pressure,
        )  # fmt: skip
        yield figure(
            outlet, _after_bed, unit="mg/Nm3", symbol="l_out", source="wang-levan-2009",
            load=inlet, pressure=pressure, temperature=temperature, residual_loading=f"{stage}.residual_loading",
        )  # fmt: skip
    else:
        yield figure(
            outlet, _after_separating, unit=load_unit, symbol="l_out", source="by-definition",
            load=inlet, pressure=pressure, temperature=temperature, carry_over=f"{stage}.carry_over",
        )  # fmt: skip
    yield figure(
        removed, _difference, unit=load_unit, symbol="l_rem", source="by-definition", inlet=inlet, outlet=outlet
    )
    for name, load, symbol, gram in (
        ("inlet_water", inlet, "m_in", prefix),
        ("outlet_water", outlet, "m_out", outlet_prefix),
        ("removed", removed, "m_rem", prefix),
    ):
        yield figure(
            f"{stage}.{name}{ending}", _flow_of_load, unit=f"{gram}g/h", symbol=symbol, source="by-definition",
            load=load, hydrogen=GAS,
        )  # fmt: skip
    yield figure(
        f"{stage}.outlet_dew_point{ending}", _dew_point_of_vapour, unit="°C", digits=3, symbol="T_dp",
        source="by-definition", rounding="up", load=outlet, pressure=pressure, temperature=temperature,
    )  # fmt: skip


def _desiccant(number: int, prefix: str) -> Iterator[Figure]:
    """What a bed of silica gel takes up, how long it lasts and what its regeneration asks for."""
    stage = f"drying.{number}"
    yield figure(
        f"{stage}.residual_loading", residual_loading, unit="g/kg", digits=2, symbol="w_res", rounding="up",
        regeneration_temperature_k=f"{stage}.regeneration_temperature",
        purge_dew_point_k=f"{stage}.regeneration_dew_point",
    )  # fmt: skip
    yield figure(
        f"{prefix}.desiccant_inlet_humidity", _humidity, unit="%", digits=2, symbol="φ_in", source="by-definition",
        load=f"{stage}.inlet_load_mean", pressure="drying.pressure_mean", temperature=f"{stage}.temperature",
    )  # fmt: skip
    yield figure(
        f"{prefix}.desiccant_capacity", _capacity, unit="kg", digits=2, symbol="m_w", rounding="down",
        source="wang-levan-2009",
        bed_mass=f"{stage}.bed_mass", load=f"{stage}.inlet_load_mean",
        pressure="drying.pressure_mean", temperature=f"{stage}.bed_temperature_mean",
        residual_loading=f"{stage}.residual_loading", transfer_zone=f"{stage}.transfer_zone",
    )  # fmt: skip
    yield figure(
        f"{prefix}.desiccant_interval", regeneration_interval, unit="h", digits=2, symbol="t_reg", rounding="down",
        working_capacity_kg=f"{prefix}.desiccant_capacity", water_removed_kg_per_s=f"{stage}.removed_mean",
    )  # fmt: skip
    yield figure(
        f"{prefix}.regeneration_energy", regeneration_energy, unit="kWh", digits=2, symbol="E_reg", rounding="up",
        bed_mass_kg=f"{stage}.bed_mass", water_kg=f"{prefix}.desiccant_capacity",
        temperature_k=f"{stage}.temperature",
        regeneration_temperature_k=f"{stage}.regeneration_temperature",
        column_heat_capacity_j_per_k=f"{stage}.column_heat_capacity",
        efficiency=f"{stage}.regeneration_efficiency",
    )  # fmt: skip


def _column(number: int, prefix: str) -> Iterator[Figure]:
    """The shape of the bed: a short wide one is all transfer zone."""
    stage = f"drying.{number}"
    yield figure(
        f"{prefix}.bed_length", bed_length, unit="cm", digits=2, symbol="L_bed",
        bed_mass_kg=f"{stage}.bed_mass", bed_diameter_m=f"{stage}.bed_diameter",
    )  # fmt: skip
    yield figure(
        f"{prefix}.bed_velocity", _bed_velocity, unit="m/s", digits=2, symbol="v_bed", rounding="up",
        source="by-definition",
        dry_gas_mol_per_s=GAS, pressure_pa="buffer.cut_in", temperature_k=f"{stage}.temperature",
        diameter_m=f"{stage}.bed_diameter",
    )  # fmt: skip


def _cold_coil(number: int, prefix: str) -> Iterator[Figure]:
    """The heat that a coil takes, the area for it, and its distance from ice."""
    stage = f"drying.{number}"
    before = f"{stage}.inlet_temperature"
    yield figure(
        before, _the_same, unit="°C", digits=3, symbol="T_in", source="by-definition",
        value="stack.temperature" if number == 1 else f"drying.{number - 1}.temperature",
    )  # fmt: skip
    yield figure(
        f"{prefix}.coil_heat", coil_heat, unit="W", digits=2, symbol="P_coil", rounding="up",
        dry_gas_mol_per_s=GAS, water_condensed_kg_per_s=f"{stage}.removed", pressure_pa="buffer.cut_in",
        temperature_in_k=before, temperature_out_k=f"{stage}.temperature",
    )  # fmt: skip
    yield figure(
        f"{prefix}.coil_area_minimum", _coil_area, unit="cm2", digits=2, symbol="A_coil", rounding="up",
        source="heat-exchanger-texts",
        heat_w=f"{prefix}.coil_heat", coefficient=f"{stage}.coil_coefficient",
        temperature_in_k=before, temperature_out_k=f"{stage}.temperature",
        coolant_temperature_k=f"{stage}.coolant_temperature",
    )  # fmt: skip
    # The dew point rises with the pressure: for ice cut-out is the worst, not cut-in.
    yield figure(
        f"{prefix}.coil_ice_margin", _ice_margin, unit="K", digits=2, symbol="ΔT_ice", rounding="down",
        source="common-practice",
        coolant_temperature=f"{stage}.coolant_temperature", load=f"{stage}.inlet_load_cut_out",
        pressure="buffer.cut_out", temperature=before,
    )  # fmt: skip


def _train(kinds: Sequence[str]) -> Iterator[Figure]:
    """What drains from the train, and the gas that leaves it; let down to 1 atm its mist evaporates and counts."""
    drained: dict[str, Any] = {
        f"stage_{n}": f"drying.{n}.removed_load_mean" for n, kind in enumerate(kinds, start=1) if kind != "desiccant"
    }
    if drained:
        yield figure("drying.condensate_load", _sum, unit="g/Nm3", symbol="l_c", source="by-definition", **drained)
        yield figure(
            "drying.condensate", _flow_of_load, unit="g/h", digits=3, symbol="m_c", source="by-definition",
            load="drying.condensate_load", hydrogen=GAS,
        )  # fmt: skip
    for ending in PRESSURES:
        fraction = f"drying.water_fraction{ending}"
        yield figure(
            fraction, _fraction, unit="ppm", digits=2, symbol="x_w", rounding="up", source="by-definition",
            load=f"drying.{len(kinds)}.outlet_load{ending}",
        )  # fmt: skip
        yield figure(
            f"drying.dew_point{ending}", _the_same, unit="°C", digits=3, symbol="T_dp", rounding="up",
            source="by-definition", value=f"drying.{len(kinds)}.outlet_dew_point{ending}",
        )  # fmt: skip
        yield figure(
            f"drying.frost_point{ending}", frost_point, unit="°C", digits=3, symbol="T_fp", rounding="up",
            water_fraction=fraction,
        )  # fmt: skip


def _the_same(value: float) -> float:
    return value


def _difference(inlet: float, outlet: float) -> float:
    return inlet - outlet


def _sum(**loads: float) -> float:
    first, *rest = loads.values()
    for load in rest:
        first = first + load
    return first


def _flow_of_load(load: float, hydrogen: float) -> float:
    return load * hydrogen


def _leaving_stack(dragged: float, hydrogen: float, pressure: float, temperature: float) -> float:
    """What leaves one cell, for each mole of its hydrogen; every cell's gas carries as much."""
    return water_leaving_stack(dragged, hydrogen, pressure, temperature) / hydrogen


def _after_separating(load: float, pressure: float, temperature: float, carry_over: float) -> float:
    return water_after_separating(load, MOLE, pressure, temperature, carry_over)


def _after_bed(load: float, pressure: float, temperature: float, residual_loading: float) -> float:
    return water_after_bed(load, MOLE, pressure, temperature, residual_loading)


def _humidity(load: float, pressure: float, temperature: float) -> float:
    return inlet_humidity(load, MOLE, pressure, temperature)


def _fraction(load: float) -> float:
    return water_fraction_of_load(load, MOLE)


def _dew_point_of_vapour(load: float, pressure: float, temperature: float) -> float:
    """Dew point of the vapour alone: behind a separator that of saturated gas, whatever mist it lets through."""
    return dew_point(pressure, _fraction(vapour_carried(load, MOLE, pressure, temperature)))


def _bed_temperature(temperature: float, load: float, pressure: float) -> float:
    """The bed is warmed by the vapour it takes up; droplets gave off their heat before."""
    return bed_temperature(temperature, vapour_carried(load, MOLE, pressure, temperature), MOLE, pressure)


def _capacity(
    bed_mass: float, load: float, pressure: float, temperature: float, residual_loading: float, transfer_zone: float
) -> float:
    """Capacity at the humidity that the gas has once it is as warm as the bed."""
    humidity = _humidity(load, pressure, temperature)
    return working_capacity(bed_mass, humidity, temperature, residual_loading, transfer_zone)


def _bed_velocity(dry_gas_mol_per_s: float, pressure_pa: float, temperature_k: float, diameter_m: float) -> float:
    """Speed of the gas in the column as if it were empty."""
    return line_velocity(MOLAR_MASS_HYDROGEN * dry_gas_mol_per_s, diameter_m, density(pressure_pa, temperature_k))


def _coil_area(
    heat_w: float,
    coefficient: float,
    temperature_in_k: float,
    temperature_out_k: float,
    coolant_temperature_k: float,
) -> float:
    difference = log_mean_difference(temperature_in_k, temperature_out_k, coolant_temperature_k)
    return coil_area(heat_w, coefficient, difference)


def _ice_margin(coolant_temperature: float, load: float, pressure: float, temperature: float) -> float:
    return ice_margin(coolant_temperature, _dew_point_of_vapour(load, pressure, temperature))
