"""Every calculation of storage, buffer, boosters, compression, filling and transfers keeps to its bounds."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations import booster, buffer_cycle, compression, equalise, filling, free_flow, run, storage, transfer
from macros.calculations.contract import CALCULATIONS, OutOfRange
from tests.calculations.drawn import arguments_of, drawn_for, is_finite_or_refused, outside

SUBJECTS = (booster, buffer_cycle, compression, equalise, filling, free_flow, run, storage, transfer)
OURS = sorted(
    key for key, entry in CALCULATIONS.items() if entry.module in {one.__name__.rsplit(".", 1)[-1] for one in SUBJECTS}
)
NUMBERS = [key for key in OURS if not key.startswith(("run.", "transfer.", "filling.gas_wall", "filling.shortest"))]
CURVES = {"rate_curve": ((0.0, 1.0), (0.5, 0.6), (1.0, 0.0))}


RANGES = {
    "booster.assumed_stroke_rate": {
        "free_stroke_rate_per_s": "at least 0 and at most 50",
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "stall_pressure_pa": "at least 1000 and at most 1e+08",
        "atmosphere_pa": "at least 30000 and at most 120000",
    },
    "booster.booster_flow": {
        "swept_volume_m3": "at least 1e-09 and at most 0.1",
        "faces": "at least 1 and at most 2",
        "stroke_rate_per_s": "at least 0 and at most 50",
        "volumetric_efficiency": "at least 0 and at most 1",
        "inlet_pressure_pa": "at least 1000 and at most 1e+08",
        "inlet_temperature_k": "at least 200 and at most 500",
    },
    "booster.drive_air_per_mass": {
        "strokes_per_kg": "at least 0 and at most 1e+09",
        "free_air_m3": "at least 0 and at most 10",
    },
    "booster.free_air_of_stroke": {
        "area_ratio": "above 0 and at most 500",
        "swept_volume_m3": "at least 1e-09 and at most 0.1",
        "return_share": "at least 0 and at most 1",
        "drive_pressure_pa": "at least 10000 and at most 2e+06",
        "atmosphere_pa": "at least 30000 and at most 120000",
    },
    "booster.measured_stroke_rate": {
        "free_stroke_rate_per_s": "at least 0 and at most 50",
        "rate_curve": "at least two points, x rising, all finite",
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "stall_pressure_pa": "at least 1000 and at most 1e+08",
        "atmosphere_pa": "at least 30000 and at most 120000",
    },
    "booster.pressure_ratio": {
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "inlet_pressure_pa": "at least 1000 and at most 1e+08",
    },
    "booster.rate_share": {
        "rate_curve": "at least two points, x rising, all finite",
        "share": "at least 0 and at most 1e+06",
    },
    "booster.ratio_of_no_flow": {
        "clearance": "at least 0.001 and at most 1",
        "inlet_pressure_pa": "at least 1000 and at most 1e+07",
        "temperature_k": "at least 200 and at most 500",
    },
    "booster.share_of_stall": {
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "stall_pressure_pa": "at least 1000 and at most 1e+08",
        "atmosphere_pa": "at least 30000 and at most 120000",
    },
    "booster.stall_pressure": {
        "area_ratio": "above 0 and at most 500",
        "drive_pressure_pa": "at least 10000 and at most 2e+06",
        "supply_pressure_pa": "at least 1000 and at most 1e+08",
        "assisting_area_ratio": "at least 0 and at most 10",
        "atmosphere_pa": "at least 30000 and at most 120000",
    },
    "booster.strokes_for_mass": {
        "strokes_per_kg": "at least 0 and at most 1e+09",
        "mass_kg": "at least 0 and at most 1e+06",
    },
    "booster.strokes_per_mass": {
        "swept_volume_m3": "at least 1e-09 and at most 0.1",
        "faces": "at least 1 and at most 2",
        "volumetric_efficiency": "at least 1e-06 and at most 1",
        "inlet_pressure_pa": "at least 1000 and at most 1e+08",
        "inlet_temperature_k": "at least 200 and at most 500",
    },
    "booster.volumetric_efficiency": {
        "clearance": "at least 0 and at most 1",
        "inlet_pressure_pa": "at least 1000 and at most 1e+08",
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 500",
    },
    "buffer_cycle.cycle_mass": {
        "buffer_volume_m3": "above 0 and at most 100",
        "train_volume_m3": "at least 0 and at most 100",
        "cut_in_pa": "at least 1000 and at most 1e+08",
        "cut_out_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
    },
    "buffer_cycle.cycles_in_time": {
        "running_time_s": "at least 0 and at most 3.16224e+07",
        "period_s": "at least 0.001 and at most 3.16224e+07",
    },
    "buffer_cycle.time_of_cycle_life": {
        "cycle_life": "above 0 and at most 1e+12",
        "cycles": "at least 1e-06 and at most 1e+09",
        "in_time_s": "above 0 and at most 3.16224e+07",
    },
    "buffer_cycle.time_to_make": {
        "mass_kg": "at least 0 and at most 100000",
        "mass_flow_kg_per_s": "at least 1e-12 and at most 10",
    },
    "compression.air_compression_work": {
        "inlet_pressure_pa": "at least 1000 and at most 5e+06",
        "discharge_pressure_pa": "at least 1000 and at most 5e+06",
        "inlet_temperature_k": "at least 200 and at most 400",
        "index": "above 1 and at most 1.67",
        "stages": "at least 1 and at most 5",
    },
    "compression.boosting_efficiency": {
        "ideal_j_per_kg": "at least 0 and at most 1e+09",
        "spent_j_per_kg": "at least 0.001 and at most 1e+09",
    },
    "compression.boosting_energy": {
        "free_air_m3_per_kg": "at least 0 and at most 1e+06",
        "electricity_j_per_m3": "at least 0 and at most 1e+08",
    },
    "compression.compressor_duty": {
        "air_taken_m3_per_s": "at least 0 and at most 100",
        "free_air_m3_per_s": "at least 1e-09 and at most 100",
    },
    "compression.electricity_of_free_air": {
        "power_w": "above 0 and at most 1e+06",
        "free_air_m3_per_s": "at least 1e-09 and at most 10",
    },
    "compression.free_air_isothermal_work": {
        "atmosphere_pa": "at least 30000 and at most 120000",
        "line_pressure_pa": "at least 30000 and at most 5e+06",
    },
    "compression.free_air_of_normal_flow": {
        "normal_flow_mol_per_s": "at least 0 and at most 10000",
        "atmosphere_pa": "at least 30000 and at most 120000",
        "temperature_k": "at least 200 and at most 400",
    },
    "compression.isothermal_work": {
        "inlet_pressure_pa": "at least 1000 and at most 1e+08",
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 500",
    },
    "compression.polytropic_temperature": {
        "inlet_pressure_pa": "at least 1000 and at most 1e+08",
        "discharge_pressure_pa": "at least 1000 and at most 1e+08",
        "inlet_temperature_k": "at least 200 and at most 500",
        "index": "at least 1 and at most 1.67",
    },
    "equalise.boosted_transfer_mass": {
        "source_volume_m3": "at least 1e-06 and at most 1000",
        "source_pressure_pa": "at least 1000 and at most 1e+08",
        "source_lowest_pa": "at least 1000 and at most 1e+08",
        "target_volume_m3": "at least 1e-06 and at most 1000",
        "target_pressure_pa": "at least 1000 and at most 1e+08",
        "target_full_pa": "at least 1000 and at most 1e+08",
        "free_mass_kg": "at least 0 and at most 100000",
        "temperature_k": "at least 200 and at most 400",
    },
    "equalise.equalised_pressure": {
        "source_volume_m3": "at least 1e-06 and at most 1000",
        "source_pressure_pa": "at least 1000 and at most 1e+08",
        "target_volume_m3": "at least 1e-06 and at most 1000",
        "target_pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
    },
    "equalise.free_transfer_mass": {
        "source_volume_m3": "at least 1e-06 and at most 1000",
        "source_pressure_pa": "at least 1000 and at most 1e+08",
        "source_lowest_pa": "at least 1000 and at most 1e+08",
        "target_volume_m3": "at least 1e-06 and at most 1000",
        "target_pressure_pa": "at least 1000 and at most 1e+08",
        "target_full_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
    },
    "equalise.pressure_after": {
        "volume_m3": "at least 1e-06 and at most 1000",
        "pressure_pa": "at least 1000 and at most 1e+08",
        "added_mass_kg": "at least -100000 and at most 100000",
        "temperature_k": "at least 200 and at most 400",
    },
    "filling.adiabatic_fill_temperature": {
        "initial_pressure_pa": "at least 10000 and at most 1e+08",
        "initial_temperature_k": "at least 230 and at most 400",
        "final_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_temperature_k": "at least 230 and at most 400",
    },
    "filling.cylinder_surface": {
        "volume_m3": "at least 1e-06 and at most 100",
        "slenderness": "at least 0.5 and at most 50",
    },
    "filling.gas_wall_fill": {
        "volume_m3": "at least 1e-06 and at most 100",
        "wall_heat_capacity_j_per_k": "at least 0 and at most 1e+08",
        "inner_conductance_w_per_k": "at least 0 and at most 1e+06",
        "outer_conductance_w_per_k": "at least 0 and at most 1e+06",
        "initial_pressure_pa": "at least 10000 and at most 1e+08",
        "ambient_temperature_k": "at least 230 and at most 400",
        "settled_pressure_pa": "at least 10000 and at most 1e+08",
        "stop_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_temperature_k": "at least 230 and at most 400",
        "fill_time_s": "at least 1 and at most 3.16224e+07",
    },
    "filling.shared_fill_temperature": {
        "volume_m3": "at least 1e-06 and at most 100",
        "wall_heat_capacity_j_per_k": "at least 0 and at most 1e+08",
        "initial_pressure_pa": "at least 10000 and at most 1e+08",
        "initial_temperature_k": "at least 230 and at most 400",
        "settled_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_temperature_k": "at least 230 and at most 400",
    },
    "filling.shortest_fill_time": {
        "volume_m3": "at least 1e-06 and at most 100",
        "wall_heat_capacity_j_per_k": "at least 0 and at most 1e+08",
        "inner_conductance_w_per_k": "at least 0 and at most 1e+06",
        "outer_conductance_w_per_k": "at least 0 and at most 1e+06",
        "initial_pressure_pa": "at least 10000 and at most 1e+08",
        "ambient_temperature_k": "at least 230 and at most 400",
        "settled_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_pressure_pa": "at least 10000 and at most 1e+08",
        "supply_temperature_k": "at least 230 and at most 400",
        "limit_temperature_k": "at least 230 and at most 400",
    },
    "free_flow.free_flow_mass": {
        "bank_volume_m3": "above 0 and at most 1000",
        "start_pressure_pa": "at least 1000 and at most 1e+08",
        "free_pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
    },
    "free_flow.free_flow_pressure": {
        "supply_pressure_pa": "at least 100000 and at most 1e+08",
        "cracking_difference_pa": "at least 0 and at most 90000",
        "full_pressure_pa": "at least 1000 and at most 1e+08",
    },
    "run.fill_run": {
        "buffer_volume_m3": "above 0 and at most 100",
        "train_volume_m3": "at least 0 and at most 100",
        "bank_volume_m3": "above 0 and at most 1000",
        "buffer_start_pa": "at least 1000 and at most 1e+08",
        "bank_start_pa": "at least 1000 and at most 1e+08",
        "bank_full_pa": "at least 1000 and at most 1e+08",
        "cut_in_pa": "at least 1000 and at most 1e+08",
        "cut_out_pa": "at least 1000 and at most 1e+08",
        "trip_pa": "at least 1000 and at most 1e+08",
        "cracking_difference_pa": "at least 0 and at most 90000",
        "temperature_k": "at least 200 and at most 400",
        "stack_flow_kg_per_s": "at least 1e-09 and at most 1",
        "stack_power_w": "at least 0 and at most 1e+08",
        "swept_volume_m3": "at least 1e-09 and at most 0.1",
        "faces": "at least 1 and at most 2",
        "clearance": "at least 0 and at most 1",
        "free_stroke_rate_per_s": "above 0 and at most 50",
        "area_ratio": "above 0 and at most 500",
        "assisting_area_ratio": "at least 0 and at most 10",
        "drive_pressure_pa": "at least 10000 and at most 2e+06",
        "atmosphere_pa": "at least 30000 and at most 120000",
        "free_air_of_stroke_m3": "at least 0 and at most 10",
        "electricity_j_per_m3": "at least 0 and at most 1e+08",
        "polytropic_index": "at least 1 and at most 1.67",
        "rate_curve": "at least two points, x rising, all finite",
    },
    "storage.amount_of_mass": {
        "mass_kg": "at least 0 and at most 100000",
    },
    "storage.energy_higher": {
        "mass_kg": "at least 0 and at most 100000",
    },
    "storage.energy_lower": {
        "mass_kg": "at least 0 and at most 100000",
    },
    "storage.mass_between": {
        "volume_m3": "at least 1e-06 and at most 1000",
        "full_pressure_pa": "at least 1000 and at most 1e+08",
        "empty_pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
    },
    "storage.mass_stored": {
        "volume_m3": "at least 1e-06 and at most 1000",
        "pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
    },
    "storage.pressure_when": {
        "pressure_pa": "at least 1000 and at most 1e+08",
        "temperature_k": "at least 200 and at most 400",
        "later_temperature_k": "at least 200 and at most 400",
    },
    "storage.transportable_fill_limit": {
        "working_pressure_pa": "at least 1000 and at most 1e+08",
        "test_pressure_pa": "at least 1000 and at most 1e+08",
    },
    "transfer.transfer_run": {
        "source_volume_m3": "above 0 and at most 1000",
        "source_pressure_pa": "at least 1000 and at most 1e+08",
        "target_volume_m3": "above 0 and at most 1000",
        "target_pressure_pa": "at least 1000 and at most 1e+08",
        "mass_kg": "at least 0 and at most 100000",
        "temperature_k": "at least 200 and at most 400",
        "swept_volume_m3": "at least 1e-09 and at most 0.1",
        "faces": "at least 1 and at most 2",
        "clearance": "at least 0 and at most 1",
        "free_stroke_rate_per_s": "above 0 and at most 50",
        "area_ratio": "above 0 and at most 500",
        "assisting_area_ratio": "at least 0 and at most 10",
        "drive_pressure_pa": "at least 10000 and at most 2e+06",
        "atmosphere_pa": "at least 30000 and at most 120000",
        "free_air_of_stroke_m3": "at least 0 and at most 10",
        "rate_curve": "at least two points, x rising, all finite",
    },
}
"""What each calculation promises to accept: a range is part of what a reader relies on, so a change is made twice."""


def test_each_range_is_the_one_that_is_promised():
    assert {key: {name: str(bound) for name, bound in CALCULATIONS[key].bounds.items()} for key in OURS} == RANGES


@pytest.mark.parametrize("key", NUMBERS)
def test_gives_a_finite_number_or_says_that_it_cannot(key):
    function = CALCULATIONS[key].function
    for arguments in drawn_for(function, 400):
        assert is_finite_or_refused(function, arguments | _curves(arguments)), arguments


@pytest.mark.parametrize("key", OURS)
def test_each_argument_outside_its_bounds_is_refused_by_name(key):
    entry = CALCULATIONS[key]
    usual = {name: CURVES.get(name, _inside(bound)) for name, bound in entry.bounds.items()}
    for name, bound in entry.bounds.items():
        if bound.curve:
            continue
        for value in outside(bound):
            with pytest.raises(OutOfRange) as refusal:
                entry.function(**usual | {name: value})
            assert refusal.value.argument == name
            assert refusal.value.wanted == str(bound)


def _inside(bound):
    low, high = max(bound.low, -1e9), min(bound.high, 1e9)
    return math.sqrt(low * high) if low > 0 else (low + high) / 2


def test_measured_points_that_do_not_rise_are_refused():
    with pytest.raises(OutOfRange):
        booster.rate_share(((0.5, 1.0), (0.5, 0.2)), 0.5)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(NUMBERS), st.data())
def test_never_gives_not_a_number(key, data):
    entry = CALCULATIONS[key]
    arguments = data.draw(arguments_of(entry.function))
    name = data.draw(st.sampled_from([name for name in arguments if name not in CURVES]))
    with pytest.raises(OutOfRange):
        entry.function(**arguments | _curves(arguments) | {name: math.nan})


def _curves(arguments):
    return {name: CURVES[name] for name in arguments if name in CURVES}
