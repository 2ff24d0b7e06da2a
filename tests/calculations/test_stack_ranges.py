"""
The ranges of the calculations of stack, power and water, written down a second time.

A range that is widened by a slip lets through what no plant has, and nothing else would notice.
"""

import importlib

import pytest

from macros.calculations.contract import CALCULATIONS, Bounds, above, between, points

RANGES: dict[str, dict[str, Bounds]] = {
    "faraday.current_density": {"current_a": above(0, 10000), "active_area_m2": between(1e-05, 1)},
    "faraday.hydrogen_produced": {
        "current_a": above(0, 10000),
        "cells": between(1, 1000),
        "faraday_efficiency": between(0, 1),
    },
    "faraday.oxygen_produced": {"hydrogen_gross_mol_per_s": between(0, 100), "recombined_mol_per_s": between(0, 100)},
    "faraday.water_consumed": {"hydrogen_gross_mol_per_s": between(0, 100), "recombined_mol_per_s": between(0, 100)},
    "faraday.water_dragged": {
        "current_a": above(0, 10000),
        "cells": between(1, 1000),
        "drag_per_proton": between(0, 10),
    },
    "faraday.hydrogen_mass_flow": {"hydrogen_mol_per_s": between(0, 100)},
    "faraday.specific_energy": {"cell_voltage_v": above(0, 10), "faraday_efficiency": between(0.001, 1)},
    "faraday.efficiency_lower": {"specific_energy_j_per_kg": between(1e06, 1e12)},
    "faraday.efficiency_higher": {"specific_energy_j_per_kg": between(1e06, 1e12)},
    "cell_voltage.thermoneutral_voltage": {"temperature_k": between(273.15, 373.15)},
    "cell_voltage.standard_reversible_voltage": {"temperature_k": between(273.15, 373.15)},
    "cell_voltage.dry_pressure": {"pressure_pa": between(1000, 1e08), "vapour_pressure_pa": between(0, 200000)},
    "cell_voltage.reversible_voltage": {
        "temperature_k": between(273.15, 373.15),
        "hydrogen_pressure_pa": between(1000, 1e08),
        "oxygen_pressure_pa": between(1000, 1e08),
    },
    "cell_voltage.measured_voltage": {"polarisation": points(), "current_density_a_per_m2": above(0, 100000)},
    "cell_voltage.membrane_conductivity": {"water_content": between(2, 30), "temperature_k": between(273.15, 373.15)},
    "cell_voltage.activation_voltage": {
        "current_density_a_per_m2": above(0, 100000),
        "exchange_current_density_a_per_m2": between(1e-12, 100000),
        "temperature_k": between(273.15, 373.15),
    },
    "cell_voltage.exchange_current_density": {
        "exchange_current_density_a_per_m2": between(1e-12, 100000),
        "activation_energy_j_per_mol": between(0, 200000),
        "given_temperature_k": between(273.15, 373.15),
        "temperature_k": between(273.15, 373.15),
    },
    "cell_voltage.modelled_voltage": {
        "current_density_a_per_m2": above(0, 100000),
        "temperature_k": between(273.15, 373.15),
        "reversible_voltage_v": between(1, 2),
        "membrane_thickness_m": between(5e-06, 0.00115),
        "water_content": between(2, 30),
        "contact_resistance_ohm_m2": between(0, 0.001),
    },
    "cell_voltage.cold_cell_voltage": {"cell_voltage_v": above(0, 10), "cold_rise_v": between(0, 2)},
    "cell_voltage.stack_voltage": {"cell_voltage_v": above(0, 10), "cells": between(1, 1000)},
    "cell_voltage.direct_power": {"voltage_v": above(0, 10000), "current_a": above(0, 10000)},
    "cell_voltage.power_drawn": {"power_w": above(0, 1e08), "conversion_efficiency": between(0.01, 1)},
    "crossover.membrane_permeability": {"temperature_k": between(273.15, 373.15)},
    "crossover.wet_thickness": {"dry_thickness_m": between(5e-06, 0.001)},
    "crossover.crossover_flux": {
        "permeability_mol_per_m_s_pa": between(1e-16, 1e-12),
        "hydrogen_pressure_pa": between(1000, 1e08),
        "oxygen_side_pressure_pa": between(0, 1e08),
        "membrane_thickness_m": between(5e-06, 0.00115),
        "excess": between(0.5, 20),
    },
    "crossover.crossover_flow": {
        "flux_mol_per_m2_s": between(0, 10),
        "active_area_m2": between(1e-05, 1),
        "cells": between(1, 1000),
    },
    "crossover.faraday_efficiency": {
        "crossover_mol_per_s": between(0, 100),
        "hydrogen_gross_mol_per_s": between(1e-09, 100),
    },
    "catalyst.recombined": {"crossover_mol_per_s": between(0, 100), "catalyst_efficiency": between(0, 1)},
    "catalyst.hydrogen_in_oxygen": {
        "crossover_mol_per_s": between(0, 100),
        "hydrogen_gross_mol_per_s": between(1e-09, 100),
        "catalyst_efficiency": between(0, 1),
        "returned_mol_per_s": between(0, 100),
    },
    "catalyst.minimum_current": {
        "crossover_mol_per_s": between(0, 100),
        "hydrogen_limit": between(0.0001, 0.5),
        "catalyst_efficiency": between(0, 1),
        "cells": between(1, 1000),
        "returned_per_hydrogen": between(0, 1),
    },
    "catalyst.catalyst_heat": {"recombined_mol_per_s": between(0, 100), "thermoneutral_voltage_v": between(1, 2)},
    "standstill.dry_gas_held": {
        "volume_m3": above(0, 100),
        "pressure_pa": between(1000, 1e08),
        "vapour_pressure_pa": between(0, 200000),
        "temperature_k": between(273.15, 373.15),
    },
    "standstill.time_to_limit": {
        "gas_mol": between(1e-06, 100000),
        "crossover_mol_per_s": between(1e-12, 100),
        "hydrogen_limit": between(0.0001, 0.99),
    },
    "standstill.time_to_limit_shut": {
        "gas_mol": between(1e-06, 100000),
        "crossover_mol_per_s": between(1e-12, 100),
        "hydrogen_limit": between(0.0001, 0.99),
    },
    "standstill.let_down_time": {
        "pressure_pa": between(1000, 1e08),
        "end_pressure_pa": between(1000, 1e08),
        "rate_pa_per_s": between(1, 1e07),
    },
    "standstill.hydrogen_after_let_down": {
        "crossover_mol_per_s": between(0, 100),
        "crossover_end_mol_per_s": between(0, 100),
        "let_down_time_s": between(0, 1e07),
        "gas_mol": between(1e-06, 100000),
    },
    "standstill.sweep_flow": {"crossover_mol_per_s": between(1e-12, 100), "hydrogen_limit": between(0.0001, 0.99)},
    "stack_heat.stack_heat": {
        "current_a": above(0, 10000),
        "cells": between(1, 1000),
        "cell_voltage_v": above(0, 10),
        "thermoneutral_voltage_v": between(1, 2),
        "catalyst_heat_w": between(0, 1e07),
    },
    "stack_heat.latent_heat": {"temperature_k": between(273.15, 373.15)},
    "stack_heat.evaporation_heat": {"vapour_kg_per_s": between(0, 10), "temperature_k": between(273.15, 373.15)},
    "stack_heat.preheat_time": {
        "heat_capacity_j_per_k": above(0, 1e09),
        "loss_w_per_k": between(0, 10000),
        "heater_power_w": between(1e-3, 1e06),
        "start_temperature_k": between(223.15, 373.15),
        "end_temperature_k": between(223.15, 373.15),
    },
    "stack_heat.preheat_energy": {"preheat_time_s": between(0, 1e09), "heater_power_w": above(0, 1e06)},
    "conductor.conductor_resistance": {"area_m2": between(5e-07, 0.0003)},
    "conductor.hot_resistance": {"resistance_ohm_per_m": above(0, 1), "temperature_k": between(233.15, 473.15)},
    "conductor.voltage_drop": {
        "resistance_ohm_per_m": above(0, 1),
        "length_m": between(0, 1000),
        "current_a": above(0, 10000),
    },
    "conductor.share_of_voltage": {"voltage_v": above(0, 10000), "fraction": between(0, 1)},
    "conductor.smallest_conductor": {
        "length_m": between(0, 1000),
        "current_a": above(0, 10000),
        "drop_allowed_v": above(0, 1000),
        "temperature_k": between(233.15, 473.15),
    },
    "conductor.voltage_headroom": {
        "rectifier_voltage_v": above(0, 10000),
        "cable_drop_v": between(0, 1000),
        "cold_voltage_v": above(0, 10000),
    },
    "conductor.current_drawn": {
        "power_w": above(0, 1e08),
        "voltage_v": between(1, 100000),
        "power_factor": between(0.01, 1),
    },
    "fuse.fuse_minimum": {"current_a": above(0, 10000), "continuous_load_factor": between(1, 2)},
    "fuse.fuse_maximum": {"ampacity_a": above(0, 10000), "fusing_ratio": between(1, 2.5)},
    "cooler.water_capacity_rate": {"water_flow_m3_per_s": above(0, 10)},
    "cooler.air_capacity_rate": {
        "air_flow_m3_per_s": above(0, 100),
        "pressure_pa": between(40000, 120000),
        "temperature_k": between(223.15, 353.15),
    },
    "cooler.transfer_units": {
        "conductance_w_per_k": above(0, 1e07),
        "first_rate_w_per_k": between(0.001, 1e07),
        "second_rate_w_per_k": between(0.001, 1e07),
    },
    "cooler.effectiveness_counterflow": {"transfer_units": between(0, 1e06), "capacity_ratio": between(0, 1)},
    "cooler.effectiveness_crossflow": {"transfer_units": between(0, 1e06), "capacity_ratio": between(0, 1)},
    "cooler.capacity_ratio": {"first_rate_w_per_k": between(0.001, 1e07), "second_rate_w_per_k": between(0.001, 1e07)},
    "cooler.cooling_capacity": {
        "effectiveness": between(0, 1),
        "first_rate_w_per_k": between(0.001, 1e07),
        "second_rate_w_per_k": between(0.001, 1e07),
        "hot_temperature_k": between(223.15, 423.15),
        "cold_temperature_k": between(223.15, 423.15),
    },
    "cooler.temperature_rise": {"heat_w": between(-1e07, 1e07), "rate_w_per_k": between(0.001, 1e07)},
    "cooler.cooling_margin": {"capacity_w": between(0.001, 1e08), "heat_w": between(-1e08, 1e08)},
    "dissolved.henry_constant": {"temperature_k": between(273.15, 373.15)},
    "dissolved.dissolved_fraction": {
        "hydrogen_pressure_pa": between(1000, 1e08),
        "henry_constant_pa": between(1e08, 1e12),
    },
    "dissolved.hydrogen_returned": {
        "water_kg_per_s": between(0, 10),
        "dissolved_fraction": between(0, 1),
        "degassed_share": between(0, 1),
    },
    "dissolved.returned_per_hydrogen": {
        "drag_per_proton": between(0, 10),
        "dissolved_fraction": between(0, 0.1),
        "degassed_share": between(0, 1),
    },
    "dissolved.share_of_oxygen": {"returned_mol_per_s": between(0, 100), "oxygen_mol_per_s": between(1e-12, 100)},
    "water_quality.ionic_load": {"conductivity_s_per_m": between(0, 1)},
    "water_quality.exhaustion_time": {
        "exchange_capacity_mol_per_m3": above(0, 10000),
        "resin_m3": above(0, 10),
        "ionic_load_mol_per_m3": between(0, 1000),
        "carbon_dioxide_mol_per_m3": between(0, 1000),
        "feed_kg_per_s": between(1e-09, 10),
        "running_time_s": between(1, 3.1536e07),
    },
    "water_quality.deioniser_life": {"exhaustion_time_s": above(0), "age_limit_s": above(0, 1e10)},
    "water_balance.water_consumption": {
        "split_kg_per_s": between(0, 10),
        "with_oxygen_kg_per_s": between(0, 10),
        "with_hydrogen_kg_per_s": between(0, 10),
        "drained_kg_per_s": between(0, 10),
    },
    "water_balance.top_up_interval": {"usable_m3": above(0, 100), "consumption_kg_per_s": between(1e-09, 10)},
    "water_balance.water_drained": {
        "vapour_at_stack_kg_per_s": between(0, 10),
        "vapour_left_kg_per_s": between(0, 10),
        "dragged_kg_per_s": between(0, 10),
    },
    "oxygen_vent.vent_velocity": {
        "oxygen_mol_per_s": between(0, 100),
        "water_fraction": between(0, 0.99),
        "temperature_k": between(223.15, 423.15),
        "pressure_pa": between(10000, 1e07),
        "bore_m": between(0.0001, 1),
    },
}

for key in RANGES:
    importlib.import_module(f"macros.calculations.{key.partition('.')[0]}")


@pytest.mark.parametrize("key", RANGES)
def test_the_range_of_each_argument_is_the_one_agreed(key):
    assert CALCULATIONS[key].bounds == RANGES[key]


def test_no_calculation_of_these_subjects_is_left_out():
    subjects = {key.partition(".")[0] for key in RANGES}
    assert {key for key in CALCULATIONS if key.partition(".")[0] in subjects} == set(RANGES)
