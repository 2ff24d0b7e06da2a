"""The warming of a vessel: bounds in their order, energy kept, and the same course as another integrator."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from macros.calculations import hydrogen
from macros.calculations.contract import OutOfRange
from macros.calculations.filling import (
    WARMEST_GAS,
    adiabatic_fill_temperature,
    gas_wall_fill,
    shared_fill_temperature,
    shortest_fill_time,
)

ATMOSPHERE = 101325.0
STEEL_BOTTLE = {
    "volume_m3": 0.05,
    "wall_heat_capacity_j_per_k": 55 * 470.0,
    "inner_conductance_w_per_k": 30.0,
    "outer_conductance_w_per_k": 8.0,
    "initial_pressure_pa": ATMOSPHERE,
    "ambient_temperature_k": 288.15,
    "settled_pressure_pa": 200e5,
    "stop_pressure_pa": 900e5,
    "supply_pressure_pa": 200e5,
    "supply_temperature_k": 288.15,
    "fill_time_s": 1800.0,
}
QUESTION = {name: value for name, value in STEEL_BOTTLE.items() if name not in ("stop_pressure_pa", "fill_time_s")}


def gauge(bar):
    return bar * 1e5 + ATMOSPHERE


def test_the_bound_for_a_bottle_filled_without_loss_of_heat():
    """
    Evacuated to 200 bar from a line at 200 bar and 15 °C: warmer than γT₀ = 1.406 × 288.15 K = 132 °C,
    since hydrogen warms as it expands from the line. Then 10.68 kg/m³, which settles to 138 bar at 15 °C.
    """
    warm = adiabatic_fill_temperature(1e4, 288.15, 200e5, 200e5, 288.15)
    assert warm - 273.15 == pytest.approx(142.3, abs=0.3)
    dense = hydrogen.density(200e5, warm)
    assert dense == pytest.approx(10.68, abs=0.01)
    assert hydrogen.pressure(dense, 288.15) == pytest.approx(137.9e5, abs=0.3e5)


def test_a_steel_bottle_that_shares_its_heat_ends_20_to_30_kelvin_up():
    warm = shared_fill_temperature(0.05, 55 * 470.0, ATMOSPHERE, 288.15, 200e5, 200e5, 288.15)
    assert 20 < warm - 288.15 < 30


def test_no_filling_changes_no_temperature():
    assert adiabatic_fill_temperature(5e6, 300.0, 5e6, 6e6, 350.0) == 300.0
    assert shared_fill_temperature(0.05, 1e4, 20e5, 288.15, 20e5, 30e5, 350.0) == pytest.approx(288.15)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e5, 1e7), st.floats(250.0, 330.0), st.floats(1.01, 5.0), st.floats(1.0, 1.9), st.floats(250.0, 330.0))
def test_energy_is_kept_without_a_wall(initial, temperature, times, over, supplied_at):
    final = initial * times
    supply = final * over
    warm = adiabatic_fill_temperature(initial, temperature, final, supply, supplied_at)
    before, after = hydrogen.density(initial, temperature), hydrogen.density(final, warm)
    brought = (after - before) * hydrogen.enthalpy(supply, supplied_at)
    gained = after * hydrogen.internal_energy(final, warm) - before * hydrogen.internal_energy(initial, temperature)
    assert gained == pytest.approx(brought, rel=1e-6, abs=1e-6 * after * 4e6)
    shared = shared_fill_temperature(
        1.0, 0.0, initial, temperature, hydrogen.pressure(after, 288.15), supply, supplied_at
    )
    assert shared == pytest.approx(warm, abs=1e-5)


@settings(max_examples=300, deadline=None)
@given(st.floats(1e3, 1e6), st.floats(1e3, 1e6), st.floats(20e5, 350e5))
def test_more_wall_means_less_warmth(light, heavy, full):
    ends = [
        shared_fill_temperature(0.05, capacity, ATMOSPHERE, 288.15, full, full, 288.15)
        for capacity in sorted((light, heavy))
    ]
    assert ends[0] >= ends[1] > 288.15


def test_pressures_that_do_not_rise_are_refused():
    with pytest.raises(OutOfRange) as refusal:
        adiabatic_fill_temperature(2e6, 288.15, 1e6, 3e6, 288.15)
    assert (refusal.value.argument, refusal.value.wanted) == ("final_pressure_pa", "at least that before, 2e+06")
    with pytest.raises(OutOfRange) as refusal:
        adiabatic_fill_temperature(1e6, 288.15, 3e6, 2e6, 288.15)
    assert (refusal.value.argument, refusal.value.wanted) == ("supply_pressure_pa", "at least that after, 3e+06")
    with pytest.raises(OutOfRange) as refusal:
        shared_fill_temperature(0.05, 1e4, 2e6, 288.15, 1e6, 2e6, 288.15)
    assert refusal.value.argument == "settled_pressure_pa"
    for change, argument in (
        ({"settled_pressure_pa": 1e5}, "settled_pressure_pa"),
        ({"stop_pressure_pa": ATMOSPHERE}, "stop_pressure_pa"),
    ):
        with pytest.raises(OutOfRange) as refusal:
            gas_wall_fill(**STEEL_BOTTLE | change)
        assert refusal.value.argument == argument


def by_scipy(bottle):
    """Temperatures at the end and the warmest gas, by an integrator of scipy on gas energy and wall temperature."""
    volume, ambient = bottle["volume_m3"], bottle["ambient_temperature_k"]
    before = hydrogen.density(bottle["initial_pressure_pa"], ambient)
    after = hydrogen.density(bottle["settled_pressure_pa"], 288.15)
    flow = volume * (after - before) / bottle["fill_time_s"]
    supplied = hydrogen.enthalpy(bottle["supply_pressure_pa"], bottle["supply_temperature_k"])

    def gas_at(time, energy):
        mass = volume * before + flow * time
        return hydrogen.state_temperature_of_energy(mass / volume, energy / mass, 320.0)

    def change(time, state):
        gas = gas_at(time, state[0])
        to_wall = bottle["inner_conductance_w_per_k"] * (gas - state[1])
        to_ambient = bottle["outer_conductance_w_per_k"] * (state[1] - ambient)
        return [flow * supplied - to_wall, (to_wall - to_ambient) / bottle["wall_heat_capacity_j_per_k"]]

    start = [volume * before * hydrogen.internal_energy(bottle["initial_pressure_pa"], ambient), ambient]
    course = solve_ivp(change, (0, bottle["fill_time_s"]), start, method="LSODA", rtol=1e-9, atol=1e-3, max_step=30.0)
    gases = [gas_at(time, energy) for time, energy in zip(course.t, course.y[0], strict=True)]
    return gases[-1], course.y[1][-1], max(gases)


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"fill_time_s": 120.0},
        {"fill_time_s": 20000.0, "ambient_temperature_k": 308.15},
        {
            "volume_m3": 0.12,
            "wall_heat_capacity_j_per_k": 6e4,
            "settled_pressure_pa": 350e5,
            "supply_pressure_pa": 400e5,
            "initial_pressure_pa": 20e5,
            "fill_time_s": 300.0,
            "inner_conductance_w_per_k": 100.0,
        },
    ],
)
def test_the_course_is_that_of_another_integrator(change):
    bottle = STEEL_BOTTLE | change
    filled = gas_wall_fill(**bottle)
    gas, wall, peak = by_scipy(bottle)
    assert filled.end_temperature_k == pytest.approx(gas, abs=0.05)
    assert filled.end_wall_temperature_k == pytest.approx(wall, abs=0.02)
    assert filled.peak_temperature_k == pytest.approx(peak, abs=0.3)


bottles = st.fixed_dictionaries(
    {
        "volume_m3": st.floats(0.01, 0.5),
        "wall_heat_capacity_j_per_k": st.one_of(st.just(0.0), st.floats(1e2, 1e6)),
        "inner_conductance_w_per_k": st.one_of(st.just(0.0), st.floats(0.1, 1e4)),
        "outer_conductance_w_per_k": st.one_of(st.just(0.0), st.floats(0.1, 1e3)),
        "initial_pressure_pa": st.floats(1e5, 5e6),
        "ambient_temperature_k": st.floats(258.0, 318.0),
        "settled_pressure_pa": st.floats(7e6, 4e7),
        "stop_pressure_pa": st.floats(7e6, 9e7),
        "supply_pressure_pa": st.floats(4e7, 5e7),
        "supply_temperature_k": st.floats(258.0, 318.0),
        "fill_time_s": st.floats(10.0, 1e6),
    }
)


@settings(max_examples=300, deadline=None)
@given(bottles)
def test_mass_and_energy_are_kept_on_the_way(bottle):
    filled = gas_wall_fill(**bottle)
    volume, ambient = bottle["volume_m3"], bottle["ambient_temperature_k"]
    before = volume * hydrogen.density(bottle["initial_pressure_pa"], ambient)
    full = volume * hydrogen.density(bottle["settled_pressure_pa"], 288.15)
    flow = (full - before) / bottle["fill_time_s"]
    assert filled.mass_kg == pytest.approx(before + flow * filled.time_s, rel=1e-9)
    density = filled.mass_kg / volume
    assert filled.settled_pressure_pa == pytest.approx(hydrogen.pressure(density, 288.15), rel=1e-9)
    assert filled.end_pressure_pa == pytest.approx(hydrogen.pressure(density, filled.end_temperature_k), rel=1e-9)
    brought = (filled.mass_kg - before) * hydrogen.enthalpy(
        bottle["supply_pressure_pa"], bottle["supply_temperature_k"]
    )
    gas = filled.mass_kg * hydrogen.state_energy_of_density(density, filled.end_temperature_k)
    gas -= before * hydrogen.internal_energy(bottle["initial_pressure_pa"], ambient)
    assert gas == pytest.approx(brought - filled.heat_to_wall_j, rel=1e-6, abs=1e-6 * abs(brought))
    wall = bottle["wall_heat_capacity_j_per_k"] * (filled.end_wall_temperature_k - ambient)
    assert wall == pytest.approx(filled.heat_to_wall_j - filled.heat_to_ambient_j, abs=1e-6 * abs(brought))


@settings(max_examples=300, deadline=None)
@given(bottles)
def test_it_stops_at_the_mass_or_at_the_gauge(bottle):
    filled = gas_wall_fill(**bottle)
    full = bottle["volume_m3"] * hydrogen.density(bottle["settled_pressure_pa"], 288.15)
    by_gauge = filled.end_pressure_pa == pytest.approx(bottle["stop_pressure_pa"], rel=1e-7)
    by_mass = filled.mass_kg == pytest.approx(full, rel=1e-9)
    assert by_gauge or by_mass
    assert filled.end_pressure_pa <= bottle["stop_pressure_pa"] * (1 + 1e-7)
    assert filled.mass_kg <= full * (1 + 1e-9)
    temperatures = [point.gas_temperature_k for point in filled.points]
    assert filled.peak_temperature_k == max(temperatures)
    assert all(a.time_s < b.time_s for a, b in zip(filled.points, filled.points[1:], strict=False))
    assert filled.points[-1].pressure_pa == pytest.approx(filled.end_pressure_pa)


@settings(max_examples=60, deadline=None)
@given(bottles, st.floats(2.0, 20.0))
def test_no_filling_is_warmer_than_the_bound_and_slower_is_no_warmer(bottle, slower):
    bottle = bottle | {"stop_pressure_pa": 1e8}
    warmest_start = max(bottle["ambient_temperature_k"], bottle["supply_temperature_k"])
    bound = shared_fill_temperature(
        bottle["volume_m3"], 0.0, bottle["initial_pressure_pa"], warmest_start, bottle["settled_pressure_pa"],
        bottle["supply_pressure_pa"], warmest_start,
    )  # fmt: skip
    fast = gas_wall_fill(**bottle)
    assert fast.peak_temperature_k <= bound + 0.6
    slow = gas_wall_fill(**bottle | {"fill_time_s": min(bottle["fill_time_s"] * slower, 3e7)})
    assert slow.peak_temperature_k <= fast.peak_temperature_k + 0.3


def test_hours_leave_a_bottle_near_ambient():
    filled = gas_wall_fill(
        **STEEL_BOTTLE | {"fill_time_s": 86400.0, "settled_pressure_pa": gauge(50), "supply_pressure_pa": gauge(50)}
    )
    assert filled.peak_temperature_k - 288.15 < 1
    assert str(filled) == f"gas up to {filled.peak_temperature_k - 273.15:.4g} °C"


def test_a_fill_stopped_by_the_gauge_settles_lower():
    """Stopped at 200 bar while warm: less gas than the full mass, so that it settles well below 200 bar at 15 °C."""
    filled = gas_wall_fill(**STEEL_BOTTLE | {"fill_time_s": 300.0, "stop_pressure_pa": 200e5})
    assert filled.end_pressure_pa == pytest.approx(200e5)
    assert filled.settled_pressure_pa < 180e5
    assert filled.time_s < 300.0


def test_the_shortest_fill_just_stays_below_the_limit():
    limit = float(WARMEST_GAS)
    assert limit == 358.15
    time = shortest_fill_time(**QUESTION, limit_temperature_k=limit)
    just = gas_wall_fill(**QUESTION, stop_pressure_pa=1e8, fill_time_s=time)
    assert just.peak_temperature_k == pytest.approx(limit, abs=1e-3)
    assert gas_wall_fill(**QUESTION, stop_pressure_pa=1e8, fill_time_s=time * 0.9).peak_temperature_k > limit
    assert 60 < time < 3600


def test_a_limit_that_is_never_met_takes_the_shortest_time():
    assert (
        shortest_fill_time(
            **QUESTION | {"settled_pressure_pa": 20e5, "initial_pressure_pa": 19.5e5}, limit_temperature_k=390.0
        )
        == 1
    )


def test_a_limit_at_ambient_is_refused():
    with pytest.raises(OutOfRange) as refusal:
        shortest_fill_time(**QUESTION, limit_temperature_k=288.15)
    assert refusal.value.argument == "limit_temperature_k"


@settings(max_examples=40, deadline=None)
@given(st.floats(300.0, 390.0), st.floats(5.0, 100.0), st.floats(1e3, 1e5))
def test_the_shortest_time_is_longer_for_a_lower_limit(limit, inner, capacity):
    question = QUESTION | {"inner_conductance_w_per_k": inner, "wall_heat_capacity_j_per_k": capacity}
    time = shortest_fill_time(**question, limit_temperature_k=limit)
    assert math.isfinite(time)
    assert shortest_fill_time(**question, limit_temperature_k=limit - 5.0) >= time
