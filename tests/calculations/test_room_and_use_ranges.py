"""
The ranges of the calculations of rooms, leaks, reliefs, pipes, uses and years, written down a second time.

A range that is widened by a slip lets through what no plant has, and nothing else would notice.
"""

import pytest

from macros.calculations.contract import CALCULATIONS, Bounds, above, any_number, at_least, between, points
from tests.calculations.subjects import import_all_subjects

RANGES: dict[str, dict[str, Bounds]] = {
    "blowdown.blowdown_time": {
        "space_m3": above(0, 1000),
        "first_pressure_pa": between(2000, 100000000.0),
        "last_pressure_pa": between(1000, 100000000.0),
        "temperature_k": between(230, 400),
        "effective_area_m2": above(0, 1),
        "back_pressure_pa": between(0, 100000000.0),
    },
    "burner.burner_flow": {"heat_w": between(0, 100000000.0)},
    "burner.combustion_air": {"mass_flow_kg_per_s": between(0, 100), "excess_air": between(1, 10)},
    "burner.combustion_water": {"mass_flow_kg_per_s": between(0, 100)},
    "burner.time_of_store": {"mass_kg": between(0, 1000000.0), "mass_flow_kg_per_s": above(0, 100)},
    "fuel_cell.electricity_of_store": {"mass_kg": between(0, 1000000.0), "efficiency": above(0, 0.83)},
    "fuel_cell.electricity_per_kg": {"efficiency": above(0, 0.83)},
    "fuel_cell.fuel_cell_efficiency": {"cell_voltage_v": between(0, 1.25), "fuel_use": between(0, 1)},
    "fuel_cell.fuel_cell_flow": {"electric_power_w": between(0, 100000000.0), "efficiency": above(0, 0.83)},
    "fuel_cell.fuel_cell_heat": {"electric_power_w": between(0, 100000000.0), "efficiency": above(0, 0.83)},
    "hose.rupture_flow": {
        "bore_area_m2": above(0, 1),
        "upstream_pressure_pa": between(1000, 100000000.0),
        "upstream_temperature_k": between(200, 500),
        "back_pressure_pa": between(1000, 110000.0),
        "resistance": between(0, 100000.0),
        "heat_capacity_ratio": above(1, 1.6666666666666667),
        "molar_mass_kg_per_mol": between(0.001, 0.5),
    },
    "hose.torn_line_flux": {
        "upstream_pressure_pa": between(1000, 100000000.0),
        "upstream_temperature_k": between(200, 500),
        "back_pressure_pa": between(1000, 110000.0),
        "resistance": between(0, 100000.0),
        "heat_capacity_ratio": above(1, 1.6666666666666667),
        "molar_mass_kg_per_mol": between(0.001, 0.5),
    },
    "leak.critical_pressure_ratio": {"heat_capacity_ratio": above(1, 1.6666666666666667)},
    "leak.hole_area": {"diameter_m": above(0, 1)},
    "leak.ideal_mass_flux": {
        "upstream_pressure_pa": between(1000, 100000000.0),
        "upstream_temperature_k": between(200, 1000),
        "back_pressure_pa": between(0, 100000000.0),
        "heat_capacity_ratio": above(1, 1.6666666666666667),
        "molar_mass_kg_per_mol": between(0.001, 0.5),
        "compressibility": between(0.2, 3),
    },
    "leak.leak_flow": {
        "hole_area_m2": above(0, 1),
        "discharge_coefficient": above(0, 1),
        "upstream_pressure_pa": between(1000, 100000000.0),
        "upstream_temperature_k": between(200, 500),
        "back_pressure_pa": between(0, 100000000.0),
    },
    "leak.nozzle_mass_flux": {
        "upstream_pressure_pa": between(1000, 100000000.0),
        "upstream_temperature_k": between(200, 500),
        "back_pressure_pa": between(0, 100000000.0),
    },
    "leak.opening_of_valve": {"flow_coefficient": above(0, 10000)},
    "leak_test.decay_allowed": {
        "space_m3": above(0, 10000),
        "temperature_k": between(200, 400),
        "leak_mol_per_s": between(0, 10),
        "time_s": above(0, 100000000.0),
    },
    "leak_test.decay_leak": {
        "space_m3": above(0, 10000),
        "first_pressure_pa": between(10, 100000000.0),
        "first_temperature_k": between(200, 400),
        "last_pressure_pa": between(10, 100000000.0),
        "last_temperature_k": between(200, 400),
        "time_s": above(0, 100000000.0),
    },
    "leak_test.hydrogen_leak_factor": {
        "test_viscosity_pa_s": between(1e-06, 0.0001),
        "hydrogen_viscosity_pa_s": between(1e-06, 0.0001),
        "test_molar_mass_kg_per_mol": between(0.001, 0.5),
        "hydrogen_molar_mass_kg_per_mol": between(0.001, 0.5),
    },
    "leak_test.passing_leak": {
        "space_m3": above(0, 10000),
        "pressure_rise_pa": any_number(),
        "temperature_k": between(200, 400),
        "time_s": above(0, 100000000.0),
    },
    "leak_test.pressure_at_reference": {
        "pressure_pa": between(10, 100000000.0),
        "temperature_k": between(200, 400),
        "reference_k": between(200, 400),
    },
    "leak_test.smallest_leak_seen": {
        "space_m3": above(0, 10000),
        "pressure_pa": between(10, 100000000.0),
        "temperature_k": between(200, 400),
        "gauge_step_pa": between(0, 10000000.0),
        "thermometer_step_k": between(0, 20),
        "time_s": above(0, 100000000.0),
    },
    "levelised_cost.annuity": {"interest": between(0, 1), "years": above(0, 100)},
    "levelised_cost.cost_of_energy": {
        "investment": at_least(0),
        "interest": between(0, 1),
        "years": above(0, 100),
        "yearly_cost": at_least(0),
        "yearly_j": above(0),
    },
    "line_flow.friction_factor": {"reynolds": above(0, 100000000.0), "relative_roughness": between(0, 0.05)},
    "line_flow.line_pressure_drop": {
        "mass_flow_kg_per_s": between(0, 100),
        "inlet_pressure_pa": between(1000, 100000000.0),
        "temperature_k": between(200, 500),
        "bore_m": above(0, 2),
        "length_m": between(0, 1000000.0),
        "friction": between(0, 10000),
        "fittings": between(0, 10000),
        "molar_mass_kg_per_mol": between(0.001, 0.5),
        "compressibility": between(0.2, 3),
    },
    "line_flow.line_velocity": {
        "mass_flow_kg_per_s": between(0, 100),
        "bore_m": above(0, 2),
        "density_kg_per_m3": above(0, 2000),
    },
    "line_flow.reynolds_number": {
        "mass_flow_kg_per_s": between(0, 100),
        "bore_m": above(0, 2),
        "viscosity_pa_s": between(1e-06, 1),
    },
    "plant_energy.energy_per_kg_kept": {
        "running_j_per_kg": between(0, 10000000000.0),
        "yearly_j": between(0, 100000000000000.0),
        "yearly_mass_kg": above(0, 10000000.0),
    },
    "plant_energy.energy_per_kg_made": {
        "supply_power_w": between(0, 100000000.0),
        "pump_power_w": between(0, 100000000.0),
        "other_power_w": between(0, 100000000.0),
        "mass_flow_kg_per_s": above(0, 100),
    },
    "plant_energy.mass_in_time": {"mass_flow_kg_per_s": between(0, 100), "running_s": between(0, 32000000.0)},
    "plant_energy.round_trip_efficiency": {"efficiency": above(0, 0.83), "stored_j_per_kg": above(0, 100000000000.0)},
    "purge.fraction_left": {
        "start_fraction": between(0, 1),
        "high_pressure_pa": between(1000, 100000000.0),
        "low_pressure_pa": between(10, 100000000.0),
        "swings": between(0, 10000),
        "purge_gas_fraction": between(0, 0.2),
    },
    "purge.pressure_swings_exact": {
        "start_fraction": above(0, 1),
        "end_fraction": above(0, 1),
        "high_pressure_pa": between(1000, 100000000.0),
        "low_pressure_pa": between(10, 100000000.0),
        "purge_gas_fraction": between(0, 0.2),
    },
    "purge.purge_gas_used": {
        "space_m3": above(0, 10000),
        "high_pressure_pa": between(1000, 100000000.0),
        "low_pressure_pa": between(10, 100000000.0),
        "temperature_k": between(200, 400),
        "swings": between(0, 10000),
    },
    "purge.sweep_volumes": {"start_fraction": above(0, 1), "end_fraction": above(0, 1)},
    "purge.whole_swings": {"exact": between(0, 1000000.0)},
    "relief.relief_area_required": {
        "mass_flow_kg_per_s": above(0, 100),
        "relieving_pressure_pa": between(1000, 100000000.0),
        "temperature_k": between(200, 1000),
        "back_pressure_pa": between(0, 100000000.0),
        "discharge_coefficient": above(0, 1),
        "heat_capacity_ratio": above(1, 1.6666666666666667),
        "molar_mass_kg_per_mol": between(0.001, 0.5),
        "compressibility": between(0.2, 3),
    },
    "relief.relief_capacity": {
        "flow_area_m2": above(0, 1),
        "relieving_pressure_pa": between(1000, 100000000.0),
        "temperature_k": between(200, 1000),
        "back_pressure_pa": between(0, 100000000.0),
        "discharge_coefficient": above(0, 1),
        "heat_capacity_ratio": above(1, 1.6666666666666667),
        "molar_mass_kg_per_mol": between(0.001, 0.5),
        "compressibility": between(0.2, 3),
    },
    "relief.relieving_pressure": {
        "set_pressure_pa": between(1000, 100000000.0),
        "atmosphere_pa": between(50000, 110000.0),
        "accumulation": between(0, 0.5),
        "tolerance": between(0, 0.2),
    },
    "season.follow_year": {
        "surplus_w": points(),
        "demand_w": points(),
        "step_s": between(60, 3456000.0),
        "full_power_w": above(0, 100000000.0),
        "smallest_power_w": between(0, 100000000.0),
        "energy_j_per_kg": above(1000000.0, 10000000000.0),
        "start_j": between(0, 10000000000.0),
        "capacity_kg": above(0, 1000000.0),
        "restart_room_kg": between(0, 1000000.0),
        "first_kg": between(0, 1000000.0),
        "heating_value_j_per_kg": above(1000000.0, 1000000000.0),
    },
    "strength_test.hydrostatic_test_pressure": {
        "allowable_pressure_pa": between(1000, 200000000.0),
        "atmosphere_pa": between(50000, 110000.0),
        "factor": between(1, 3),
        "stress_ratio": between(1, 3),
    },
    "strength_test.pneumatic_test_pressure": {
        "allowable_pressure_pa": between(1000, 200000000.0),
        "atmosphere_pa": between(50000, 110000.0),
        "factor": between(1, 1.5),
    },
    "strength_test.stored_energy": {
        "space_m3": above(0, 10000),
        "test_pressure_pa": between(1000, 200000000.0),
        "atmosphere_pa": between(50000, 110000.0),
        "heat_capacity_ratio": above(1, 1.6666666666666667),
    },
    "tube.minimum_wall": {
        "nominal_wall_m": above(0, 0.5),
        "tolerance": between(0, 0.5),
        "allowance_m": between(0, 0.1),
    },
    "tube.thick_wall_rating": {
        "outside_diameter_m": above(0, 2),
        "wall_m": above(0, 0.5),
        "allowable_stress_pa": above(0, 1000000000.0),
    },
    "tube.thin_wall_rating": {
        "outside_diameter_m": above(0, 2),
        "wall_m": above(0, 0.5),
        "allowable_stress_pa": above(0, 1000000000.0),
        "joint_factor": above(0, 1),
        "wall_coefficient": between(0, 0.7),
    },
    "tube.tube_rating": {
        "outside_diameter_m": above(0, 2),
        "nominal_wall_m": above(0, 0.5),
        "tolerance": between(0, 0.5),
        "allowable_stress_pa": above(0, 1000000000.0),
        "atmosphere_pa": between(50000, 110000.0),
    },
    "vehicle.mass_to_fill": {
        "tank_volume_m3": above(0, 100),
        "start_pressure_pa": between(10000, 100000000.0),
        "temperature_k": between(200, 400),
        "nominal_pressure_pa": between(10000, 100000000.0),
    },
    "vehicle.state_of_charge": {
        "pressure_pa": between(10000, 100000000.0),
        "temperature_k": between(200, 400),
        "nominal_pressure_pa": between(10000, 100000000.0),
    },
    "ventilation.dilution_air": {"hydrogen_m3_per_s": between(0, 1000), "allowed_fraction": between(1e-05, 0.5)},
    "ventilation.draught": {
        "series_area_m2": above(0, 1000),
        "discharge_coefficient": above(0, 1),
        "height_m": between(0, 100),
        "lightness": between(0, 1),
    },
    "ventilation.fraction_after": {
        "hydrogen_m3_per_s": between(0, 1000),
        "air_m3_per_s": between(0, 1000000.0),
        "space_m3": above(0, 1000000.0),
        "time_s": between(0, 1000000000000.0),
    },
    "ventilation.hydrogen_in_room": {
        "mass_flow_kg_per_s": between(0, 100),
        "temperature_k": between(200, 400),
        "atmosphere_pa": between(50000, 110000.0),
    },
    "ventilation.layer_draught": {
        "hydrogen_m3_per_s": between(0, 1000),
        "series_area_m2": above(0, 1000),
        "discharge_coefficient": above(0, 1),
        "height_m": above(0, 100),
        "leak_height_m": between(0, 100),
        "entrainment": between(0.05, 0.2),
    },
    "ventilation.layer_fraction": {
        "hydrogen_m3_per_s": above(0, 1000),
        "air_m3_per_s": between(0, 1000000.0),
        "plume_air_m3_per_s": between(0, 1000000.0),
    },
    "ventilation.lightness_of_hydrogen": {"fraction": between(0, 1)},
    "ventilation.lightness_of_warmth": {"inside_k": between(200, 400), "outside_k": between(200, 400)},
    "ventilation.mixed_fraction": {"hydrogen_m3_per_s": between(0, 1000), "air_m3_per_s": above(0, 1000000.0)},
    "ventilation.opening_needed": {
        "air_m3_per_s": between(0, 10000),
        "discharge_coefficient": above(0, 1),
        "height_m": above(0, 100),
        "lightness": above(0, 1),
    },
    "ventilation.openings_in_series": {"lower_area_m2": above(0, 1000), "upper_area_m2": above(0, 1000)},
    "ventilation.plume_air": {
        "hydrogen_m3_per_s": between(0, 1000),
        "rise_m": between(0, 100),
        "entrainment": between(0.05, 0.2),
    },
    "ventilation.release_fraction": {
        "mass_kg": between(0, 100000.0),
        "temperature_k": between(200, 400),
        "atmosphere_pa": between(50000, 110000.0),
        "room_m3": above(0, 1000000.0),
    },
    "ventilation.time_to_clear": {
        "start_fraction": above(0, 1),
        "end_fraction": above(0, 1),
        "air_changes_per_s": above(0, 1),
    },
    "ventilation.time_to_fraction": {
        "hydrogen_m3_per_s": above(0, 1000),
        "space_m3": above(0, 1000000.0),
        "fraction": between(0, 0.9),
    },
    "vessel_category.pipe_category": {
        "allowable_pressure_pa": between(1000, 500000000.0),
        "atmosphere_pa": between(50000, 110000.0),
        "nominal_size": between(1, 2000),
    },
    "vessel_category.vessel_category": {
        "allowable_pressure_pa": between(1000, 500000000.0),
        "atmosphere_pa": between(50000, 110000.0),
        "volume_m3": above(0, 10000),
    },
}

import_all_subjects()


@pytest.mark.parametrize("key", RANGES)
def test_the_range_of_each_argument_is_the_one_agreed(key):
    assert CALCULATIONS[key].bounds == RANGES[key]


def test_no_calculation_of_these_subjects_is_left_out():
    subjects = {key.partition(".")[0] for key in RANGES}
    assert {key for key in CALCULATIONS if key.partition(".")[0] in subjects} == set(RANGES)
