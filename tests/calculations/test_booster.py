"""Boosters: forces in balance, nothing moved at the limits, air counted both ways."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.booster import (
    assumed_stroke_rate,
    booster_flow,
    drive_air_per_mass,
    free_air_of_stroke,
    measured_stroke_rate,
    pressure_ratio,
    rate_share,
    ratio_of_no_flow,
    share_of_stall,
    stall_pressure,
    strokes_for_mass,
    strokes_per_mass,
    volumetric_efficiency,
)
from macros.calculations.contract import OutOfRange
from macros.calculations.formula import Curve, Symbol, Traced
from macros.calculations.strokes import Piston
from tests.calculations import other_hydrogen

ATMOSPHERE = 101325.0
atmospheres = st.floats(6e4, 1.05e5)
ratios = st.floats(1.0, 200.0)
drives = st.floats(2e5, 1.2e6)
supplies = st.floats(2e5, 2e7)
clearances = st.floats(0.005, 0.3)


def gauge(bar):
    return bar * 1e5 + ATMOSPHERE


def test_the_shed_booster_stalls_where_practice_says():
    """Ratio 12, drive 6 bar(g), no help of the supply: 12 × 6 = 72 bar(g)."""
    assert stall_pressure(12.0, gauge(6), gauge(25), 0.0, ATMOSPHERE) == pytest.approx(gauge(72))


def test_the_farm_booster_stalls_where_practice_says():
    """Ratio 36, drive 5.5 bar(g): 198 bar(g)."""
    assert stall_pressure(36.0, gauge(5.5), gauge(50), 0.0, ATMOSPHERE) == pytest.approx(gauge(198))


@settings(max_examples=300, deadline=None)
@given(ratios, drives, supplies, st.floats(0.0, 1.5), atmospheres)
def test_the_forces_balance_at_the_stall(ratio, drive, supply, assist, atmosphere):
    """On a gas piston of 1 m²: drive on `ratio`, supply on `assist`, against the stall on 1."""
    stall = stall_pressure(ratio, drive, supply, assist, atmosphere)
    forth = (drive - atmosphere) * ratio + (supply - atmosphere) * assist
    assert (stall - atmosphere) * 1.0 == pytest.approx(forth, rel=1e-9)


@settings(max_examples=300, deadline=None)
@given(ratios, st.floats(2e5, 1e6), supplies, st.floats(0.0, 1.5), st.floats(1.0, 2e5))
def test_more_drive_or_supply_never_lowers_the_stall(ratio, drive, supply, assist, more):
    stall = stall_pressure(ratio, drive, supply, assist, ATMOSPHERE)
    assert stall_pressure(ratio, drive + more, supply, assist, ATMOSPHERE) > stall
    assert stall_pressure(ratio, drive, supply + more, assist, ATMOSPHERE) >= stall


def test_a_drive_below_the_atmosphere_is_refused():
    for refused in (
        lambda: stall_pressure(12.0, 0.9e5, 1e6, 0.0, ATMOSPHERE),
        lambda: free_air_of_stroke(12.0, 60e-6, 1.0, 0.9e5, ATMOSPHERE),
    ):
        with pytest.raises(OutOfRange) as refusal:
            refused()
        assert refusal.value.argument == "drive_pressure_pa"
        assert refusal.value.wanted == "at least 101325"
    assert stall_pressure(12.0, ATMOSPHERE, ATMOSPHERE, 1.0, ATMOSPHERE) == ATMOSPHERE
    assert free_air_of_stroke(12.0, 60e-6, 1.0, ATMOSPHERE, ATMOSPHERE) == pytest.approx(1.44e-3)


def test_a_stall_at_the_atmosphere_has_no_share():
    with pytest.raises(OutOfRange) as refusal:
        share_of_stall(1e6, ATMOSPHERE, ATMOSPHERE)
    assert refusal.value.argument == "stall_pressure_pa"
    assert refusal.value.wanted == "above 101325"


def test_the_shed_fill_is_seven_tenths_of_stall():
    assert share_of_stall(gauge(50), gauge(72), ATMOSPHERE) == pytest.approx(50 / 72)


def test_the_ratio_is_one_of_absolute_pressures():
    assert pressure_ratio(gauge(50), gauge(15)) == pytest.approx(51.01325 / 16.01325)


@settings(max_examples=300, deadline=None)
@given(clearances, supplies, st.floats(1.0, 4.0), st.floats(260.0, 340.0))
def test_volumetric_efficiency_agrees_with_the_other_equation(clearance, inlet, times, temperature):
    discharge = inlet * times
    dense, thin = other_hydrogen.density(discharge, temperature), other_hydrogen.density(inlet, temperature)
    ours = volumetric_efficiency(clearance, inlet, discharge, temperature)
    assert ours == pytest.approx(max(0.0, 1 - clearance * (dense / thin - 1)), abs=2e-3)
    assert 0 <= ours <= 1


@settings(max_examples=300, deadline=None)
@given(clearances, supplies, st.floats(0.1, 1.0), st.floats(260.0, 340.0))
def test_gas_that_flows_by_itself_fills_the_whole_stroke(clearance, inlet, share, temperature):
    assert volumetric_efficiency(clearance, inlet, max(inlet * share, 1e3), temperature) == pytest.approx(1, abs=1e-9)


@settings(max_examples=300, deadline=None)
@given(st.floats(0.02, 0.3), st.floats(1e5, 3e6), st.floats(260.0, 340.0))
def test_at_the_ratio_of_no_flow_nothing_flows(clearance, inlet, temperature):
    ratio = ratio_of_no_flow(clearance, inlet, temperature)
    if ratio * inlet < 9e7:
        assert volumetric_efficiency(clearance, inlet, ratio * inlet, temperature) == pytest.approx(0, abs=1e-6)
        assert volumetric_efficiency(clearance, inlet, 0.99 * ratio * inlet, temperature) > 0
        assert volumetric_efficiency(clearance, inlet, 1.01 * ratio * inlet, temperature) == 0


def test_a_clearance_too_small_to_matter_gives_the_ratio_to_very_dense_gas():
    assert ratio_of_no_flow(0.001, 10e6, 288.15) == pytest.approx(
        other_hydrogen.pressure(85.0, 288.15) / 10e6, rel=0.15
    )
    assert ratio_of_no_flow(0.001, 10e6, 288.15) == ratio_of_no_flow(0.002, 10e6, 288.15)


@settings(max_examples=300, deadline=None)
@given(st.floats(0.05, 5.0), st.floats(5e5, 5e7), st.floats(0.0, 1.5))
def test_the_assumed_rate_is_a_straight_line_to_the_stall(free, stall, share):
    back = ATMOSPHERE + share * (stall - ATMOSPHERE)
    assert assumed_stroke_rate(free, back, stall, ATMOSPHERE) == pytest.approx(free * max(0.0, 1 - share), abs=1e-9)


CURVE = ((0.0, 1.0), (0.5, 0.8), (0.9, 0.1))


@settings(max_examples=300, deadline=None)
@given(st.floats(0.0, 0.9))
def test_a_measured_rate_lies_between_its_neighbours(share):
    rate = rate_share(CURVE, share)
    assert rate == pytest.approx(1 - 0.4 * share if share <= 0.5 else 0.8 - 1.75 * (share - 0.5))
    stall = gauge(100)
    back = ATMOSPHERE + share * (stall - ATMOSPHERE)
    if share_of_stall(back, stall, ATMOSPHERE) <= 0.9:
        assert measured_stroke_rate(2.0, CURVE, back, stall, ATMOSPHERE) == pytest.approx(2 * rate, rel=1e-6)


def test_beyond_a_measured_table_nobody_knows():
    for share in (0.9001, 1.0):
        with pytest.raises(OutOfRange) as refusal:
            rate_share(CURVE, share)
        assert refusal.value.argument == "share"
        assert refusal.value.wanted == "within the table, 0 to 0.9"
    with pytest.raises(OutOfRange):
        rate_share(CURVE[1:], 0.4)
    assert [rate_share(CURVE, x) for x, _ in CURVE] == pytest.approx([y for _, y in CURVE])


@settings(max_examples=300, deadline=None)
@given(st.floats(1e-6, 1e-3), st.sampled_from((1.0, 2.0)), st.floats(0.01, 5.0), st.floats(0.05, 1.0), supplies)
def test_strokes_move_what_the_flow_says(swept, faces, rate, efficiency, inlet):
    flow = booster_flow(swept, faces, rate, efficiency, inlet, 288.15)
    strokes = strokes_per_mass(swept, faces, efficiency, inlet, 288.15)
    assert flow == pytest.approx(rate / strokes, rel=1e-9)
    assert flow == pytest.approx(faces * swept * rate * efficiency * other_hydrogen.density(inlet, 288.15), rel=1e-3)
    assert strokes_for_mass(strokes, 3.0) * flow == pytest.approx(3.0 * rate, rel=1e-9)


@settings(max_examples=300, deadline=None)
@given(ratios, st.floats(1e-6, 1e-3), st.floats(0.0, 1.0), drives, atmospheres)
def test_drive_air_counts_both_ways_at_absolute_pressure(ratio, swept, back, drive, atmosphere):
    free = free_air_of_stroke(ratio, swept, back, drive, atmosphere)
    assert free * atmosphere == pytest.approx(ratio * swept * (1 + back) * drive)
    assert drive_air_per_mass(1e4, min(free, 10.0)) == pytest.approx(1e4 * min(free, 10.0))


def test_the_shed_booster_spends_what_practice_expects():
    """
    60 mL from 20 bar(g): 60e-6 × 1.7457 kg/m³ × 0.85 = 89 mg a stroke, 11 200 strokes and × 9.97 L = 112 m³ of free air
    for a kilogram; at 0.114 kWh for each cubic metre 12.7 kWh, within the 10 to 16 kWh that practice expects.
    """
    strokes = strokes_per_mass(60e-6, 1.0, 0.85, gauge(20), 288.15)
    air = drive_air_per_mass(strokes, free_air_of_stroke(12.0, 60e-6, 1.0, gauge(6), ATMOSPHERE))
    assert strokes == pytest.approx(11230, rel=5e-3)
    assert air == pytest.approx(112, rel=5e-3)
    assert 10 < air * 0.114 < 16


@settings(max_examples=300, deadline=None)
@given(st.floats(1.5e5, 1e7), st.floats(1.0, 5.0), clearances, st.floats(0.0, 1.5), st.booleans())
def test_the_piston_of_the_runs_follows_the_same_laws(inlet, times, clearance, assist, measured):
    outlet = inlet * times
    curve = ((0.0, 1.0), (1.0, 0.0)) if measured else None
    piston = Piston(60e-6, 2.0, clearance, 0.5, 36.0, assist, gauge(6), ATMOSPHERE, curve)
    stall = stall_pressure(36.0, gauge(6), inlet, assist, ATMOSPHERE)
    assert piston.stall(inlet) == pytest.approx(stall)
    assert piston.rate(inlet, outlet) == pytest.approx(assumed_stroke_rate(0.5, outlet, stall, ATMOSPHERE), abs=1e-12)
    thin, dense = other_hydrogen.density(inlet, 288.15), other_hydrogen.density(outlet, 288.15)
    drawn = 2 * 60e-6 * max(0.0, thin - clearance * (dense - thin))
    assert piston.drawn(thin, dense) == pytest.approx(drawn, abs=1e-12)
    assert piston.drawn(dense, thin) == pytest.approx(2 * 60e-6 * dense)
    assert piston.rate(inlet, stall) == 0


def test_the_formula_shows_what_is_measured_as_a_table():
    symbols = [Traced(value, Symbol(name, name)) for name, value in (("f", 0.5), ("p", gauge(50)), ("s", gauge(72)))]
    curve = Curve(CURVE, Symbol("curve", "curve"))
    rate = measured_stroke_rate(symbols[0], curve, symbols[1], symbols[2], ATMOSPHERE)
    assert "interpolate" in repr(rate.node)
    assert "curve" in repr(rate.node)
