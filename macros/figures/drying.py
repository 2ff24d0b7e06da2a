"""
Figures of the gas treatment: what each stage takes out, how dry the gas leaves, how long the desiccant lasts.

Without a back-pressure regulator the train rides the buffer, so every stage is figured three times: at cut-in, where
the gas carries most vapour and the dew point is worst; at cut-out; and at the pressure of the mean load over a fill,
by which desiccant and drains are counted. Names without an ending mean cut-in.

Water is followed as one flow, vapour and droplets together: a mist that a stage lets through counts in full for the
next stage, for the water in the treated gas and for its frost point. A dew point at line pressure is that of the
vapour: mist or not, saturated gas has the dew point of its own temperature. What leaves the stack is the water that
the protons drag, nearly all of it liquid.
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
            yield from _balance(number, kind, ending, pressure, "mg/h" if "desiccant" in kinds[: number - 1] else "g/h")
        # The first of its kind has the plain name; a second one is told apart by its number.
        prefix = "drying" if kinds.index(kind) == number - 1 else f"drying.{number}"
        if kind == "desiccant":
            yield from _desiccant(number, prefix)
            if plant.drying[number - 1].bed_diameter is not None:
                yield from _column(number, prefix)
        if kind == "cold_coil":
            yield from _cold_coil(number, prefix)
    yield from _train(kinds)


def _balance(number: int, kind: str, ending: str, pressure: str, unit: str) -> Iterator[Figure]:
    """What enters a stage, what leaves it, and at which dew point, at one of the pressures."""
    stage = f"drying.{number}"
    inlet, outlet = f"{stage}.inlet_water{ending}", f"{stage}.outlet_water{ending}"
    temperature = f"{stage}.temperature"
    if number == 1:
        yield figure(
            inlet, water_leaving_stack, unit=unit, symbol="m_in",
            water_dragged_kg_per_s="stack.water_dragged", dry_gas_mol_per_s=GAS,
            pressure_pa=pressure, temperature_k="stack.temperature",
        )  # fmt: skip
    else:
        yield figure(
            inlet, _the_same, unit=unit, symbol="m_in", source="by-definition",
            value=f"drying.{number - 1}.outlet_water{ending}",
        )  # fmt: skip
    if kind == "desiccant":
        temperature = f"{stage}.bed_temperature{ending}"
        yield figure(
            temperature, _bed_temperature, unit="°C", digits=3, symbol="T_bed", source="chua-2004",
            temperature_k=f"{stage}.temperature", water_kg_per_s=inlet, dry_gas_mol_per_s=GAS, pressure_pa=pressure,
        )  # fmt: skip
        yield figure(
            outlet, water_after_bed, unit="mg/h", symbol="m_out",
            water_kg_per_s=inlet, dry_gas_mol_per_s=GAS, pressure_pa=pressure, temperature_k=temperature,
            residual_loading=f"{stage}.residual_loading",
        )  # fmt: skip
    else:
        yield figure(
            outlet, water_after_separating, unit=unit, symbol="m_out",
            water_kg_per_s=inlet, dry_gas_mol_per_s=GAS, pressure_pa=pressure, temperature_k=temperature,
            carry_over=f"{stage}.carry_over",
        )  # fmt: skip
    yield figure(
        f"{stage}.removed{ending}", _difference, unit=unit, symbol="m_rem", source="by-definition",
        inlet=inlet, outlet=outlet,
    )  # fmt: skip
    yield figure(
        f"{stage}.outlet_dew_point{ending}", _dew_point_of_vapour, unit="°C", digits=3, symbol="T_dp",
        source="by-definition", rounding="up",
        water_kg_per_s=outlet, dry_gas_mol_per_s=GAS, pressure_pa=pressure, temperature_k=temperature,
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
        f"{prefix}.desiccant_inlet_humidity", inlet_humidity, unit="%", digits=2, symbol="φ_in",
        water_kg_per_s=f"{stage}.inlet_water_mean", dry_gas_mol_per_s=GAS, pressure_pa="drying.pressure_mean",
        temperature_k=f"{stage}.temperature",
    )  # fmt: skip
    yield figure(
        f"{prefix}.desiccant_capacity", _capacity, unit="kg", digits=2, symbol="m_w", rounding="down",
        source="wang-levan-2009",
        bed_mass_kg=f"{stage}.bed_mass", water_kg_per_s=f"{stage}.inlet_water_mean", dry_gas_mol_per_s=GAS,
        pressure_pa="drying.pressure_mean", temperature_k=f"{stage}.bed_temperature_mean",
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
        coolant_temperature_k=f"{stage}.coolant_temperature", water_kg_per_s=f"{stage}.inlet_water_cut_out",
        temperature_k=before,
        dry_gas_mol_per_s=GAS, pressure_pa="buffer.cut_out",
    )  # fmt: skip


def _train(kinds: Sequence[str]) -> Iterator[Figure]:
    """What drains from the train, and the gas that leaves it; let down to 1 atm its mist evaporates and counts."""
    drained: dict[str, Any] = {
        f"stage_{n}": f"drying.{n}.removed_mean" for n, kind in enumerate(kinds, start=1) if kind != "desiccant"
    }
    if drained:
        yield figure(
            "drying.condensate", _sum, unit="g/h", digits=3, symbol="m_c", source="by-definition", **drained
        )  # fmt: skip
    for ending in PRESSURES:
        fraction = f"drying.water_fraction{ending}"
        yield figure(
            fraction, water_fraction_of_load, unit="ppm", digits=2, symbol="x_w", rounding="up",
            water_kg_per_s=f"drying.{len(kinds)}.outlet_water{ending}", dry_gas_mol_per_s=GAS,
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


def _sum(**flows: float) -> float:
    first, *rest = flows.values()
    for flow in rest:
        first = first + flow
    return first


def _dew_point_of_vapour(
    water_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float, temperature_k: float
) -> float:
    """Dew point of the vapour alone: behind a separator that of saturated gas, whatever mist it lets through."""
    vapour = vapour_carried(water_kg_per_s, dry_gas_mol_per_s, pressure_pa, temperature_k)
    return dew_point(pressure_pa, water_fraction_of_load(vapour, dry_gas_mol_per_s))


def _bed_temperature(
    temperature_k: float, water_kg_per_s: float, dry_gas_mol_per_s: float, pressure_pa: float
) -> float:
    """The bed is warmed by the vapour it takes up; droplets gave off their heat before."""
    vapour = vapour_carried(water_kg_per_s, dry_gas_mol_per_s, pressure_pa, temperature_k)
    return bed_temperature(temperature_k, vapour, dry_gas_mol_per_s, pressure_pa)


def _capacity(
    bed_mass_kg: float,
    water_kg_per_s: float,
    dry_gas_mol_per_s: float,
    pressure_pa: float,
    temperature_k: float,
    residual_loading: float,
    transfer_zone: float,
) -> float:
    """Capacity at the humidity that the gas has once it is as warm as the bed."""
    humidity = inlet_humidity(water_kg_per_s, dry_gas_mol_per_s, pressure_pa, temperature_k)
    return working_capacity(bed_mass_kg, humidity, temperature_k, residual_loading, transfer_zone)


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


def _ice_margin(
    coolant_temperature_k: float,
    water_kg_per_s: float,
    temperature_k: float,
    dry_gas_mol_per_s: float,
    pressure_pa: float,
) -> float:
    dew_point_k = _dew_point_of_vapour(water_kg_per_s, dry_gas_mol_per_s, pressure_pa, temperature_k)
    return ice_margin(coolant_temperature_k, dew_point_k)
