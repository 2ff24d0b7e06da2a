"""
The range of every argument of hydrogen, humidity and gas treatment: its ends are inside, the next value beyond is not.

The ends are typed here once more, so that a slip in one place shows.
"""

import math

import pytest

from macros.calculations import atmosphere, cold_coil, desiccant, humidity, hydrogen, separator
from macros.calculations.contract import CALCULATIONS, OutOfRange

STATE = {"pressure_pa": (10.0, 100e6), "temperature_k": (100.0, 1000.0)}
WET_GAS = {"pressure_pa": (100.0, 100e6), "temperature_k": (150.0, 473.15)}
STREAM = {"pressure_pa": (100.0, 100e6), "temperature_k": (200.0, 423.15)}
BED_GAS = {"pressure_pa": (1e3, 100e6), "temperature_k": (243.15, 423.15)}
OPEN = None

LIMITS = {
    atmosphere.pressure_at_altitude: {"altitude_m": (-1000, 11000)},
    hydrogen.density: STATE,
    hydrogen.enthalpy: STATE,
    hydrogen.entropy: STATE,
    hydrogen.internal_energy: STATE,
    hydrogen.compressibility: STATE,
    hydrogen.viscosity: STATE,
    hydrogen.heat_capacity_pressure: STATE,
    hydrogen.heat_capacity_volume: STATE,
    hydrogen.pressure: {"density_kg_per_m3": (1e-6, 90.0), "temperature_k": (100.0, 1000.0)},
    hydrogen.temperature_of_energy: {"density_kg_per_m3": (1e-6, 90.0), "internal_energy_j_per_kg": (-1e6, 1.5e7)},
    hydrogen.isentropic_temperature: {
        "pressure_in_pa": (10.0, 100e6),
        "temperature_in_k": (100.0, 1000.0),
        "pressure_out_pa": (10.0, 100e6),
    },
    humidity.saturation_pressure: {"temperature_k": (273.15, 647.096)},
    humidity.saturation_pressure_over_ice: {"temperature_k": (150.0, 273.16)},
    humidity.molar_volume_of_water: {"temperature_k": (150.0, 473.15)},
    humidity.poynting_factor: WET_GAS,
    humidity.water_fraction_saturated: WET_GAS,
    humidity.dew_point: {"pressure_pa": (100.0, 100e6), "water_fraction": (0.0, 1.0)},
    humidity.frost_point: {"water_fraction": (0.0, 1.0)},
    humidity.relative_humidity: {**WET_GAS, "water_fraction": (0.0, 1.0)},
    humidity.water_carried: {"dry_gas_mol_per_s": (0, OPEN), "water_fraction": (0.0, 0.999)},
    humidity.water_fraction_of_load: {"water_kg_per_s": (0, OPEN), "dry_gas_mol_per_s": ("above", 0)},
    separator.water_after_separating: {
        "water_kg_per_s": (0, OPEN),
        "dry_gas_mol_per_s": ("above", 0),
        **STREAM,
        "carry_over": (0, 1),
    },
    separator.vapour_carried: {"water_kg_per_s": (0, OPEN), "dry_gas_mol_per_s": ("above", 0), **STREAM},
    separator.water_leaving_stack: {"water_dragged_kg_per_s": (0, OPEN), "dry_gas_mol_per_s": ("above", 0), **STREAM},
    separator.pressure_of_mean_load: {"lower_pressure_pa": ("above", 0), "higher_pressure_pa": ("above", 0)},
    desiccant.loading: {"relative_humidity": (0, 1), "temperature_k": (243.15, 523.15)},
    desiccant.humidity_over_gel: {"loading": (0, 0.34049), "temperature_k": (243.15, 423.15)},
    desiccant.residual_loading: {
        "regeneration_temperature_k": (313.15, 523.15),
        "purge_dew_point_k": (193.15, 313.15),
    },
    desiccant.bed_length: {"bed_mass_kg": ("above", 0), "bed_diameter_m": ("above", 0)},
    desiccant.bed_temperature: {"vapour_kg_per_s": (0, OPEN), "dry_gas_mol_per_s": ("above", 0), **BED_GAS},
    desiccant.inlet_humidity: {"water_kg_per_s": (0, OPEN), "dry_gas_mol_per_s": ("above", 0), **BED_GAS},
    desiccant.working_capacity: {
        "bed_mass_kg": ("above", 0),
        "inlet_humidity": (0, OPEN),
        "temperature_k": (243.15, 423.15),
        "residual_loading": (0, 0.34049),
        "transfer_zone": (0, 0.95),
    },
    desiccant.water_after_bed: {
        "water_kg_per_s": (0, OPEN),
        "dry_gas_mol_per_s": ("above", 0),
        **BED_GAS,
        "residual_loading": (0, 0.34049),
    },
    desiccant.regeneration_interval: {"working_capacity_kg": (0, OPEN), "water_removed_kg_per_s": ("above", 0)},
    desiccant.regeneration_energy: {
        "bed_mass_kg": ("above", 0),
        "water_kg": (0, OPEN),
        "temperature_k": (243.15, 423.15),
        "regeneration_temperature_k": (313.15, 523.15),
        "column_heat_capacity_j_per_k": (0, OPEN),
        "efficiency": (0.01, 1),
    },
    cold_coil.coil_heat: {
        "dry_gas_mol_per_s": ("above", 0),
        "water_condensed_kg_per_s": (0, OPEN),
        "pressure_pa": (1e3, 100e6),
        "temperature_in_k": (200.0, 423.15),
        "temperature_out_k": (200.0, 423.15),
    },
    cold_coil.log_mean_difference: {
        "temperature_in_k": (200.0, 423.15),
        "temperature_out_k": (200.0, 423.15),
        "coolant_temperature_k": (200.0, 423.15),
    },
    cold_coil.coil_area: {
        "heat_w": (0, OPEN),
        "coefficient_w_per_m2_k": ("above", 0),
        "mean_difference_k": ("above", 0),
    },
    cold_coil.ice_margin: {"coolant_temperature_k": (200.0, 423.15), "dew_point_k": (150.0, 473.15)},
}

USUAL = {
    "altitude_m": 4.0, "pressure_pa": 26e5, "temperature_k": 298.15, "density_kg_per_m3": 2.0,
    "internal_energy_j_per_kg": 2.6e6, "pressure_in_pa": 16e5, "temperature_in_k": 308.15, "pressure_out_pa": 26e5,
    "water_fraction": 1e-3, "dry_gas_mol_per_s": 5e-3, "water_kg_per_s": 1e-4, "carry_over": 0.01,
    "water_dragged_kg_per_s": 5e-4, "lower_pressure_pa": 16e5, "higher_pressure_pa": 26e5, "relative_humidity": 0.5,
    "loading": 0.1, "regeneration_temperature_k": 413.15, "purge_dew_point_k": 283.15, "bed_mass_kg": 2.0,
    "bed_diameter_m": 0.08, "vapour_kg_per_s": 1e-7, "inlet_humidity": 0.8, "residual_loading": 0.006,
    "transfer_zone": 0.2, "working_capacity_kg": 0.5, "water_removed_kg_per_s": 1e-7, "water_kg": 0.5,
    "column_heat_capacity_j_per_k": 2500.0, "efficiency": 0.5, "water_condensed_kg_per_s": 1e-7,
    "temperature_out_k": 283.15, "coolant_temperature_k": 277.15, "heat_w": 3.0, "coefficient_w_per_m2_k": 30.0,
    "mean_difference_k": 12.0, "dew_point_k": 290.0,
}  # fmt: skip

CASES = [
    pytest.param(calculation, argument, ends, id=f"{calculation.__name__}-{argument}")
    for calculation, arguments in LIMITS.items()
    for argument, ends in arguments.items()
]  # fmt: skip


def refused(calculation, argument, value):
    """Whether a value of an argument is refused for lying outside its own range, the others being usual."""
    key = f"{calculation.__module__.rsplit('.', 1)[-1]}.{calculation.__name__}"
    arguments = {name: USUAL[name] for name in LIMITS[calculation]} | {argument: value}
    if calculation is humidity.saturation_pressure_over_ice and argument != "temperature_k":
        arguments["temperature_k"] = 250.0
    try:
        calculation(**arguments)
    except OutOfRange as refusal:
        return refusal.argument == argument and refusal.wanted == str(CALCULATIONS[key].bounds[argument])
    except ZeroDivisionError:
        return False
    return False


@pytest.mark.parametrize(("calculation", "argument", "ends"), CASES)
def test_the_ends_are_inside_and_beyond_is_not(calculation, argument, ends):
    low, high = ends
    if low == "above":
        assert refused(calculation, argument, float(high))
        assert not refused(calculation, argument, math.nextafter(float(high), math.inf) + 1e-9)
        return
    assert not refused(calculation, argument, float(low))
    assert refused(calculation, argument, math.nextafter(float(low), -math.inf))
    if high is not OPEN:
        assert not refused(calculation, argument, float(high))
        assert refused(calculation, argument, math.nextafter(float(high), math.inf))
    for nonsense in (math.nan, math.inf, -math.inf):
        assert refused(calculation, argument, nonsense)


def test_every_calculation_of_these_subjects_is_listed():
    subjects = ("atmosphere", "cold_coil", "desiccant", "humidity", "hydrogen", "separator")
    listed = {f"{each.__module__.rsplit('.', 1)[-1]}.{each.__name__}" for each in LIMITS}
    assert listed == {key for key in CALCULATIONS if key.split(".")[0] in subjects}
    for each, arguments in LIMITS.items():
        key = f"{each.__module__.rsplit('.', 1)[-1]}.{each.__name__}"
        assert arguments.keys() == CALCULATIONS[key].bounds.keys()
