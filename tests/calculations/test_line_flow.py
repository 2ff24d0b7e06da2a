"""Flow along a line: more flow loses more, a choked line is refused, friction is continuous, refusals."""

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.line_flow import friction_factor, line_pressure_drop, line_velocity, reynolds_number

flows = st.floats(1e-7, 1e-2)
bores = st.floats(2e-3, 25e-3)
pressures = st.floats(1.1e5, 35e6)


def drop(flow, pressure_pa, bore=0.006, length=10.0, friction=0.03, fittings=2.0):
    return line_pressure_drop(flow, pressure_pa, 300.0, bore, length, friction, fittings, 2.01588e-3, 1.02)


@settings(max_examples=300)
@given(flows, pressures, bores, st.floats(0.0, 100.0), st.floats(1.01, 2.0))
@example(1e-7, 1.1e5, 2e-3, 0.0, 1.01)
def test_more_flow_or_length_loses_more(flow, pressure_pa, bore, length, more):
    try:
        lost = drop(flow * more, pressure_pa, bore, length)
        longer = drop(flow, pressure_pa, bore, length * more)
    except OutOfRange:
        return
    assert 0.0 <= drop(flow, pressure_pa, bore, length) <= min(lost, longer) + 1e-9 * pressure_pa < pressure_pa


@settings(max_examples=300)
@given(flows, pressures, bores, st.floats(0.0, 100.0))
def test_the_momentum_balance_closes(flow, pressure_pa, bore, length):
    try:
        outlet_pa = pressure_pa - drop(flow, pressure_pa, bore, length)
    except OutOfRange:
        return
    flux = flow / (math.pi * bore**2 / 4)
    specific = 1.02 * 8.31446261815324 * 300.0 / 2.01588e-3
    lost = flux**2 * (2 * math.log(pressure_pa / outlet_pa) + 0.03 * length / bore + 2.0)
    assert (pressure_pa**2 - outlet_pa**2) / specific == pytest.approx(
        lost, rel=1e-6, abs=1e-12 * pressure_pa**2 / specific * 1e3
    )


def test_a_line_that_cannot_pass_the_flow_is_refused():
    with pytest.raises(OutOfRange, match="a flow that the line can pass"):
        drop(0.05, 2e5)
    with pytest.raises(OutOfRange):
        drop(0.01, 2e5, length=1000.0)


def test_without_flow_nothing_is_lost():
    assert drop(0.0, 2e5) == 0.0


@settings(max_examples=300)
@given(st.floats(1.0, 1e8), st.floats(0.0, 0.05))
@example(2100.0, 0.0)
@example(4000.0, 0.05)
def test_friction_is_continuous_and_rougher_is_never_smoother(reynolds, roughness):
    factor = friction_factor(reynolds, roughness)
    assert factor > 0.005
    assert friction_factor(min(reynolds * 1.0001, 1e8), roughness) == pytest.approx(factor, rel=1e-2)
    assert friction_factor(reynolds, min(roughness + 1e-3, 0.05)) >= factor * (1 - 1e-9)


@settings(max_examples=300)
@given(st.floats(1.0, 1800.0))
def test_laminar_friction_is_64_over_reynolds(reynolds):
    assert friction_factor(reynolds, 0.0) == pytest.approx(64 / reynolds, rel=2e-3)


@settings(max_examples=300)
@given(flows, bores, st.floats(0.05, 50.0))
def test_speed_and_reynolds_number_agree(flow, bore, density):
    assume(flow > 0)
    speed = line_velocity(flow, bore, density)
    assert reynolds_number(flow, bore, 9e-6) == pytest.approx(density * speed * bore / 9e-6)
    assert line_velocity(flow, 2 * bore, density) == pytest.approx(speed / 4)


@pytest.mark.parametrize(
    "call",
    [
        lambda: reynolds_number(1e-3, 0.0, 9e-6),
        lambda: reynolds_number(math.nan, 0.01, 9e-6),
        lambda: line_velocity(1e-3, 0.01, 0.0),
        lambda: friction_factor(0.0, 0.0),
        lambda: friction_factor(1e4, 0.1),
        lambda: drop(1e-4, 0.0),
        lambda: drop(1e-4, 2e5, bore=0.0),
        lambda: drop(1e-4, 2e5, fittings=-1.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


def test_a_line_passes_all_but_the_speed_of_sound():
    """
    Just below and just above: flux p/√(R T/M) with the pressure at the outlet, p₂; the balance
    (p₁² − p₂²)/p₂² = 2 ln(p₁/p₂) + resistance gives p₂ = 1.2 bar for 3 bar and a resistance of 5.25 − 1.832 6 =
    3.417 4.
    """
    specific = 1.02 * 8.31446261815324 * 300.0 / 2.01588e-3
    choked = 1.2e5 / math.sqrt(specific) * math.pi * 0.006**2 / 4
    resistance = (9.0 - 1.44) / 1.44 - 2 * math.log(2.5)
    lost = drop(choked * (1 - 1e-9), 3e5, length=0.0, fittings=resistance)
    assert lost == pytest.approx(1.8e5, rel=1e-3)
    with pytest.raises(OutOfRange):
        drop(choked * (1 + 1e-6), 3e5, length=0.0, fittings=resistance)


def test_a_rough_wall_in_fully_rough_flow():
    """Colebrook without Reynolds number: (2 log₁₀(3.7/0.01))^−2 = 0.037 89."""
    assert friction_factor(1e8, 0.01) == pytest.approx(0.03789, rel=5e-3)
