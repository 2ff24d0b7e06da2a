"""The run that fills a bank: mass to the last digit, events where they belong, the course of another integrator."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from macros.calculations import hydrogen
from macros.calculations.booster import (
    assumed_stroke_rate,
    booster_flow,
    stall_pressure,
    strokes_per_mass,
    volumetric_efficiency,
)
from macros.calculations.buffer_cycle import cycle_mass
from macros.calculations.compression import polytropic_temperature
from macros.calculations.contract import OutOfRange
from macros.calculations.equalise import equalised_pressure, pressure_after
from macros.calculations.free_flow import free_flow_mass
from macros.calculations.hydrogen import density
from macros.calculations.run import fill_run
from macros.calculations.storage import mass_between, mass_stored

ATMOSPHERE = 101325.0


def gauge(bar):
    return bar * 1e5 + ATMOSPHERE


SHED = {
    "buffer_volume_m3": 0.010,
    "train_volume_m3": 0.0025,
    "bank_volume_m3": 0.2,
    "buffer_start_pa": gauge(15),
    "bank_start_pa": ATMOSPHERE,
    "bank_full_pa": gauge(50),
    "cut_in_pa": gauge(15),
    "cut_out_pa": gauge(25),
    "trip_pa": gauge(27),
    "cracking_difference_pa": 0.0,
    "temperature_k": 288.15,
    "stack_flow_kg_per_s": 9.9e-6,
    "stack_power_w": 1900.0,
    "swept_volume_m3": 60e-6,
    "faces": 1.0,
    "clearance": 0.08,
    "free_stroke_rate_per_s": 20 / 60,
    "area_ratio": 12.0,
    "assisting_area_ratio": 0.0,
    "drive_pressure_pa": gauge(6),
    "atmosphere_pa": ATMOSPHERE,
    "free_air_of_stroke_m3": 9.967e-3,
    "electricity_j_per_m3": 4e5,
    "polytropic_index": 1.2,
}


def test_the_shed_fills_its_bank_in_a_day_of_running():
    """
    The bank gains 0.8327 − 0.0170 = 0.8157 kg; at 9.9 mg/s (35.6 g/h) that is 22.9 h, give or take a swing.
    Half of it flows freely: 0.2 m³ × (2.1550 − 0.0852) kg/m³ = 0.414 kg.
    """
    run = fill_run(**SHED)
    assert run.outcome == "full"
    assert run.time_s == pytest.approx(0.8157 / 9.9e-6, abs=1100)
    assert run.free_mass_kg == pytest.approx(0.414, abs=1e-3)
    assert run.bank_mass_gained_kg == pytest.approx(0.8157, abs=3e-4)
    assert str(run) == f"full after {run.time_s / 3600:.4g} h"


plants = st.fixed_dictionaries(
    {
        "buffer_volume_m3": st.floats(0.002, 0.1),
        "train_volume_m3": st.floats(0.0, 0.01),
        "bank_volume_m3": st.floats(0.02, 0.6),
        "buffer_start_pa": st.floats(2e5, 2.7e6),
        "bank_start_pa": st.floats(1e5, 4e6),
        "bank_full_pa": st.floats(1e6, 8e6),
        "cracking_difference_pa": st.one_of(st.just(0.0), st.floats(0.0, 9e4)),
        "temperature_k": st.floats(260.0, 320.0),
        "stack_flow_kg_per_s": st.floats(1e-6, 1e-4),
        "swept_volume_m3": st.floats(3e-5, 5e-4),
        "faces": st.sampled_from((1.0, 2.0)),
        "clearance": st.floats(0.0, 0.2),
        "free_stroke_rate_per_s": st.floats(0.1, 2.0),
        "assisting_area_ratio": st.floats(0.0, 1.0),
    }
)


@settings(max_examples=300, deadline=None)
@given(plants)
def test_mass_is_kept_to_the_last_digit(change):
    run = fill_run(**SHED | change)
    assert abs(run.mass_residual) <= 1e-9
    plant = SHED | change
    volume, bank = plant["buffer_volume_m3"] + plant["train_volume_m3"], plant["bank_volume_m3"]
    last, temperature = run.points[-1], plant["temperature_k"]
    before = mass_stored(volume, plant["buffer_start_pa"], temperature) + mass_stored(
        bank, plant["bank_start_pa"], temperature
    )
    after = mass_stored(volume, last.buffer_pressure_pa, temperature) + mass_stored(
        bank, last.bank_pressure_pa, temperature
    )
    assert after - before == pytest.approx(plant["stack_flow_kg_per_s"] * run.time_s, abs=1e-7 * after)
    gained = mass_stored(bank, last.bank_pressure_pa, temperature) - mass_stored(
        bank, plant["bank_start_pa"], temperature
    )
    assert run.bank_mass_gained_kg == pytest.approx(gained, abs=1e-7 * after)


@settings(max_examples=300, deadline=None)
@given(plants)
def test_a_run_ends_where_it_says(change):
    plant = SHED | change
    run = fill_run(**plant)
    last = run.points[-1]
    assert run.outcome in ("full", "overrun", "stalled")
    if run.outcome == "full":
        assert last.bank_pressure_pa >= plant["bank_full_pa"] * (1 - 1e-6)
        assert last.bank_pressure_pa <= max(plant["bank_full_pa"], plant["bank_start_pa"]) * (1 + 1e-6)
    if run.outcome == "overrun":
        assert last.buffer_pressure_pa == pytest.approx(plant["trip_pa"], rel=2e-3)
    if run.outcome == "stalled":
        inlet, outlet = last.buffer_pressure_pa, last.bank_pressure_pa
        stall = stall_pressure(12.0, gauge(6), inlet, plant["assisting_area_ratio"], ATMOSPHERE)
        choked = volumetric_efficiency(plant["clearance"], inlet, outlet, plant["temperature_k"]) < 1e-6
        assert outlet >= stall * (1 - 1e-6) or choked


@settings(max_examples=300, deadline=None)
@given(plants)
def test_the_course_breaks_no_rule(change):
    plant = SHED | change
    run = fill_run(**plant)
    highest = max(plant["trip_pa"], plant["buffer_start_pa"])
    for before, after in itertools.pairwise(run.points):
        assert after.time_s >= before.time_s
        assert after.bank_pressure_pa >= before.bank_pressure_pa * (1 - 1e-9)
        assert after.energy_j >= before.energy_j * (1 - 1e-12)
        assert after.buffer_pressure_pa <= highest * (1 + 2e-3)
        full = after.bank_pressure_pa >= plant["bank_full_pa"] * (1 - 1e-9)
        assert (
            full
            or after.buffer_pressure_pa - after.bank_pressure_pa <= plant["cracking_difference_pa"] + 1e-3 * highest
        )
    running = [point for point in run.points if point.stroke_rate_per_s > 0]
    for point in running:
        assert point.stroke_rate_per_s <= plant["free_stroke_rate_per_s"]
        assert point.drive_air_m3_per_s == pytest.approx(point.stroke_rate_per_s * plant["free_air_of_stroke_m3"])
        assert point.power_w == pytest.approx(1900.0 + point.drive_air_m3_per_s * 4e5)
        if point.bank_pressure_pa > point.buffer_pressure_pa:
            warm = polytropic_temperature(point.buffer_pressure_pa, point.bank_pressure_pa, plant["temperature_k"], 1.2)
            assert point.discharge_temperature_k == pytest.approx(warm)
    assert run.points[-1].energy_j == pytest.approx(run.stack_energy_j + run.compressor_energy_j)
    assert run.stack_energy_j == pytest.approx(1900.0 * run.time_s)
    assert run.compressor_energy_j == pytest.approx(run.drive_air_m3 * 4e5)
    assert run.drive_air_m3 == pytest.approx(run.strokes * plant["free_air_of_stroke_m3"])


def test_each_point_follows_the_public_laws():
    """What the course says of a moment is what the calculations behind the figures say of its pressures."""
    run = fill_run(**SHED)
    running = [point for point in run.points if point.stroke_rate_per_s > 0]
    assert len(running) > 100
    for point in running[::7]:
        inlet, outlet = point.buffer_pressure_pa, point.bank_pressure_pa
        stall = stall_pressure(12.0, gauge(6), inlet, 0.0, ATMOSPHERE)
        rate = assumed_stroke_rate(20 / 60, outlet, stall, ATMOSPHERE)
        efficiency = volumetric_efficiency(0.08, inlet, outlet, 288.15)
        assert point.stroke_rate_per_s == pytest.approx(rate, rel=1e-6)
        assert point.booster_flow_kg_per_s == pytest.approx(
            booster_flow(60e-6, 1.0, rate, efficiency, inlet, 288.15), rel=1e-6
        )


def test_free_flow_lasts_until_the_bank_has_the_pressure_of_cut_out():
    run = fill_run(**SHED)
    first = next(point for point in run.points if point.stroke_rate_per_s > 0)
    assert first.buffer_pressure_pa == pytest.approx(gauge(25))
    assert first.bank_pressure_pa == pytest.approx(gauge(25))
    joined = mass_between(0.0125 + 0.2, gauge(25), ATMOSPHERE, 288.15) - mass_between(
        0.0125, gauge(15), ATMOSPHERE, 288.15
    )
    assert first.time_s == pytest.approx(joined / 9.9e-6, rel=1e-6)
    assert run.free_mass_kg == pytest.approx(free_flow_mass(0.2, ATMOSPHERE, gauge(25), 288.15), rel=1e-6)


def test_the_buffer_empties_into_the_bank_at_once_when_it_is_opened():
    run = fill_run(**SHED)
    assert run.points[0].bank_pressure_pa == pytest.approx(ATMOSPHERE)
    assert run.points[1].time_s == 0
    met = equalised_pressure(0.0125, gauge(15), 0.2, ATMOSPHERE, 288.15)
    assert run.points[1].buffer_pressure_pa == pytest.approx(met, rel=1e-6)
    assert run.points[1].bank_pressure_pa == pytest.approx(met, rel=1e-6)


def test_check_valves_hold_the_bank_below_the_buffer():
    run = fill_run(**SHED | {"cracking_difference_pa": 5e4})
    first = next(point for point in run.points if point.stroke_rate_per_s > 0)
    assert first.bank_pressure_pa == pytest.approx(gauge(24.5), rel=1e-6)
    assert run.free_mass_kg == pytest.approx(free_flow_mass(0.2, ATMOSPHERE, gauge(24.5), 288.15), rel=1e-6)


def test_a_bank_above_cut_out_gets_nothing_without_strokes():
    run = fill_run(**SHED | {"bank_start_pa": gauge(30)})
    assert run.free_mass_kg == 0
    assert run.points[1].buffer_pressure_pa == pytest.approx(gauge(25))
    assert run.points[1].time_s == pytest.approx(cycle_mass(0.01, 0.0025, gauge(15), gauge(25), 288.15) / 9.9e-6)


def test_a_bank_between_cut_in_and_cut_out_waits_and_then_rises_with_the_buffer():
    run = fill_run(**SHED | {"bank_start_pa": gauge(20)})
    rises = next(point for point in run.points if point.bank_pressure_pa > gauge(20) * (1 + 1e-9))
    assert rises.buffer_pressure_pa == pytest.approx(rises.bank_pressure_pa, rel=1e-6)
    assert run.free_mass_kg == pytest.approx(free_flow_mass(0.2, gauge(20), gauge(25), 288.15), rel=1e-6)


def test_a_full_bank_takes_nothing():
    run = fill_run(**SHED | {"bank_start_pa": gauge(55)})
    assert (run.outcome, run.time_s, run.bank_mass_gained_kg, run.starts) == ("full", 0.0, 0.0, 0)


def test_a_bank_below_the_buffer_fills_without_a_start():
    run = fill_run(**SHED | {"bank_full_pa": gauge(20)})
    assert (run.outcome, run.starts, run.strokes, run.boosted_mass_kg) == ("full", 0, 0.0, 0.0)
    assert run.points[-1].buffer_pressure_pa == pytest.approx(gauge(20))


def test_the_rest_of_the_buffer_is_kept_when_the_bank_is_full_at_once():
    run = fill_run(**SHED | {"bank_full_pa": gauge(0.2)})
    assert run.time_s == 0
    assert run.outcome == "full"
    kept = pressure_after(0.0125, gauge(15), -mass_between(0.2, gauge(0.2), ATMOSPHERE, 288.15), 288.15)
    assert run.points[-1].buffer_pressure_pa == pytest.approx(kept, rel=1e-6)


def test_a_strong_booster_cycles_as_the_buffer_says():
    """Against a nearly constant back pressure the time from start to start is that of the public calculation."""
    strong = SHED | {"bank_start_pa": gauge(40), "bank_full_pa": gauge(41), "bank_volume_m3": 20.0, "clearance": 0.0,
                     "swept_volume_m3": 600e-6, "area_ratio": 100.0}  # fmt: skip
    run = fill_run(**strong)
    starts = [
        after.time_s
        for before, after in itertools.pairwise(run.points)
        if before.stroke_rate_per_s == 0 and after.stroke_rate_per_s > 0
    ]
    assert run.starts == len(starts)
    assert len(starts) > 5
    swing = cycle_mass(0.01, 0.0025, gauge(15), gauge(25), 288.15)
    rate = 20 / 60 * (1 - 40.5 / 600)
    # The inlet density falls along the stroke from that at cut-out to that at cut-in: the logarithmic mean counts.
    dense, thin = density(gauge(25), 288.15), density(gauge(15), 288.15)
    draws = (dense - thin) / math.log(dense / thin) * 600e-6 * rate
    periods = [b - a for a, b in itertools.pairwise(starts)]
    assert sum(periods) / len(periods) == pytest.approx(swing / 9.9e-6 + swing / (draws - 9.9e-6), rel=5e-3)


def test_a_weak_booster_runs_on_at_a_balance_above_cut_in():
    """Where the booster takes no more than the stack makes, the buffer settles where both are equal."""
    weak = SHED | {"bank_start_pa": gauge(47), "bank_full_pa": gauge(49.9), "bank_volume_m3": 2.0}
    run = fill_run(**weak)
    assert run.starts == 1
    assert run.outcome == "full"
    last = run.points[-1]
    rate = 20 / 60 * (1 - 49.9 / 72)
    efficiency = volumetric_efficiency(0.08, last.buffer_pressure_pa, gauge(49.9), 288.15)
    taken = booster_flow(60e-6, 1.0, rate, efficiency, last.buffer_pressure_pa, 288.15)
    assert taken == pytest.approx(9.9e-6, rel=0.01)
    assert gauge(15) < last.buffer_pressure_pa < gauge(25)


def test_a_stack_too_strong_for_the_booster_runs_into_the_trip():
    run = fill_run(**SHED | {"stack_flow_kg_per_s": 4e-5, "bank_volume_m3": 0.02})
    assert run.outcome == "overrun"
    assert run.points[-1].buffer_pressure_pa == pytest.approx(gauge(27), rel=1e-6)
    assert run.points[-1].bank_pressure_pa < gauge(50)


def test_a_fill_above_the_stall_ends_before():
    run = fill_run(**SHED | {"bank_full_pa": gauge(80), "stack_flow_kg_per_s": 1e-8})
    assert run.outcome != "full"
    assert run.points[-1].bank_pressure_pa <= gauge(72) * (1 + 1e-6)


def test_a_clearance_that_swallows_the_stroke_stalls():
    run = fill_run(**SHED | {"bank_start_pa": gauge(55), "bank_full_pa": gauge(60), "clearance": 1.0})
    assert run.outcome == "stalled"
    assert run.boosted_mass_kg == 0


def test_a_bank_no_stack_can_fill_is_left_unfinished():
    run = fill_run(**SHED | {"stack_flow_kg_per_s": 1e-9, "bank_full_pa": gauge(20)} | {"bank_volume_m3": 100.0})
    assert run.time_s > 1e8
    boosted = fill_run(**SHED | {"stack_flow_kg_per_s": 1e-9, "bank_start_pa": gauge(30), "bank_volume_m3": 100.0})
    assert boosted.outcome == "unfinished"


@pytest.mark.parametrize("change", [{}, {"bank_start_pa": gauge(42), "assisting_area_ratio": 0.8, "faces": 2.0}])
def test_the_strokes_of_the_run_are_those_of_another_integrator(change):
    """From a start at cut-out to the first stop, by an integrator of scipy on the public calculations."""
    plant = SHED | {"buffer_start_pa": gauge(25), "bank_start_pa": gauge(30)} | change
    run = fill_run(**plant)
    stop = next(i for i, point in enumerate(run.points) if i > 2 and point.stroke_rate_per_s == 0)
    end, start = run.points[stop], run.points[1]

    def change_of(_, state):
        inlet, outlet = (
            pressure_after(v, 1e5, m - mass_stored(v, 1e5, 288.15), 288.15)
            for v, m in zip((0.0125, 0.2), state[:2], strict=True)
        )
        stall = stall_pressure(12.0, gauge(6), inlet, plant["assisting_area_ratio"], ATMOSPHERE)
        rate = assumed_stroke_rate(20 / 60, outlet, stall, ATMOSPHERE)
        efficiency = volumetric_efficiency(0.08, inlet, outlet, 288.15)
        flow = booster_flow(60e-6, plant["faces"], rate, efficiency, inlet, 288.15)
        return [9.9e-6 - flow, flow, rate]

    def at_cut_in(_, state):
        return state[0] - mass_stored(0.0125, gauge(15), 288.15)

    at_cut_in.terminal = True
    masses = [mass_stored(0.0125, gauge(25), 288.15), mass_stored(0.2, plant["bank_start_pa"], 288.15), 0.0]
    course = solve_ivp(change_of, (0, 20000.0), masses, rtol=1e-8, atol=1e-10, events=at_cut_in)
    assert end.buffer_pressure_pa == pytest.approx(gauge(15), rel=1e-6)
    assert end.time_s - start.time_s == pytest.approx(course.t_events[0][0], rel=1e-4)
    bank = pressure_after(0.2, 1e5, course.y[1][-1] - mass_stored(0.2, 1e5, 288.15), 288.15)
    assert end.bank_pressure_pa == pytest.approx(bank, rel=1e-6)
    air = (end.energy_j - start.energy_j - 1900.0 * (end.time_s - start.time_s)) / 4e5
    assert air / 9.967e-3 == pytest.approx(course.y[2][-1], rel=1e-4)


def test_strokes_and_mass_agree_over_the_run():
    run = fill_run(**SHED)
    most = strokes_per_mass(60e-6, 1.0, volumetric_efficiency(0.08, gauge(15), gauge(50), 288.15), gauge(15), 288.15)
    fewest = strokes_per_mass(60e-6, 1.0, 1.0, gauge(25), 288.15)
    assert fewest < run.strokes / run.boosted_mass_kg < most


@pytest.mark.parametrize(
    ("change", "argument"),
    [
        ({"cut_in_pa": gauge(25)}, "cut_in_pa"),
        ({"cut_out_pa": gauge(27)}, "cut_out_pa"),
        ({"buffer_start_pa": gauge(27)}, "buffer_start_pa"),
        ({"drive_pressure_pa": ATMOSPHERE}, "atmosphere_pa"),
        ({"cut_in_pa": 8e4, "cracking_difference_pa": 8.5e4}, "cracking_difference_pa"),
    ],
)
def test_a_plant_that_cannot_be_is_refused(change, argument):
    with pytest.raises(OutOfRange) as refusal:
        fill_run(**SHED | change)
    assert refusal.value.argument == argument
    assert refusal.value.wanted.startswith("below ")


def test_a_measured_table_replaces_the_line():
    line = fill_run(**SHED)
    table = fill_run(**SHED, rate_curve=((0.0, 1.0), (1.0, 0.0)))
    assert table.strokes == pytest.approx(line.strokes)
    faster = fill_run(**SHED, rate_curve=((0.0, 1.0), (1.0, 1.0)))
    assert faster.starts > line.starts
    with pytest.raises(OutOfRange):
        fill_run(**SHED, rate_curve=((0.0, 1.0), (0.5, 0.5)))


def test_a_run_asks_for_properties_at_each_start_and_not_at_each_stroke(monkeypatch):
    """Sizing asks for many runs: the gas is tabulated, so thousands of strokes ask no more of it."""
    asked = []
    density = hydrogen.state_density
    monkeypatch.setattr(hydrogen, "state_density", lambda *at: asked.append(at) or density(*at))

    def run(**change):
        asked.clear()
        found = fill_run(**SHED | change)
        assert found.strokes > 20 * len(asked) > 0
        return found.starts, len(asked)

    (few, first), (many, second) = run(), run(buffer_volume_m3=SHED["buffer_volume_m3"] / 4)
    assert many > 2 * few
    assert second - first <= 3 * (many - few)
