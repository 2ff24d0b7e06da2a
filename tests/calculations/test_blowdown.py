"""Emptying a vessel: parts of the way add up, size and opening go as they must, refusals."""

import math

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from macros.calculations import blowdown
from macros.calculations.blowdown import blowdown_time
from macros.calculations.contract import OutOfRange
from macros.calculations.hydrogen import density
from macros.calculations.leak import nozzle_mass_flux

pressures = st.floats(1.2e5, 20e6)
shares = st.floats(0.0, 1.0)


def empty(first_pa, last_pa, space=0.01, area=1e-6, temperature_k=293.15, back_pa=101325.0):
    return blowdown_time(space, first_pa, last_pa, temperature_k, area, back_pa)


@settings(max_examples=300, deadline=None)
@given(pressures, shares, shares)
@example(20e6, 0.0, 0.5)
@example(1.2e5, 1.0, 0.0)
def test_two_parts_of_the_way_take_as_long_as_the_whole(first_pa, share, middle):
    last_pa = 101325.0 + share * (first_pa - 101325.0)
    middle_pa = last_pa + middle * (first_pa - last_pa)
    whole = empty(first_pa, last_pa)
    assert empty(first_pa, middle_pa) + empty(middle_pa, last_pa) == pytest.approx(whole, rel=2e-3, abs=1e-6)


@settings(max_examples=100, deadline=None)
@given(pressures, st.floats(1.1, 10.0))
def test_twice_the_space_takes_twice_as_long_and_twice_the_opening_half(first_pa, more):
    time_s = empty(first_pa, 1.05e5)
    assert empty(first_pa, 1.05e5, space=0.01 * more) == pytest.approx(time_s * more)
    assert empty(first_pa, 1.05e5, area=1e-6 * more) == pytest.approx(time_s / more)


def test_the_end_takes_a_finite_time():
    """The flow dies away as the root of the difference, so even the last pascal has its hour."""
    assert empty(2e5, 1.02e5) < empty(2e5, 101325.0) < 1.3 * empty(2e5, 1.02e5)


def test_at_the_pressure_wanted_no_time_is_left():
    assert empty(5e5, 5e5) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: empty(2e5, 1e5),
        lambda: empty(2e5, 3e5),
        lambda: empty(2e5, 1.5e5, space=0.0),
        lambda: empty(2e5, 1.5e5, area=0.0),
        lambda: empty(math.nan, 1.5e5),
        lambda: empty(2e5, 1.5e5, temperature_k=200.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


def test_the_nodes_and_weights_are_those_of_gauss_and_legendre():
    """As numpy gives them; the time itself would hardly tell, as what is summed up is smooth."""
    nodes, weights = np.polynomial.legendre.leggauss(5)
    ours = sorted(blowdown._NODES)
    assert [node for node, _ in ours] == pytest.approx(nodes, abs=1e-14)
    assert [weight for _, weight in ours] == pytest.approx(weights, abs=1e-14)


def test_it_is_the_integral_of_what_is_held_over_what_passes():
    """scipy's own quadrature of V dρ/G, ρ stepped by a millionth, from 50 down to 3 bar(a), all of it choked."""

    def slowness(pressure_pa):
        step = 1e-6 * pressure_pa
        held = density(pressure_pa + step, 293.15) - density(pressure_pa - step, 293.15)
        return held / (2 * step) / nozzle_mass_flux(pressure_pa, 293.15, 101325.0)

    theirs, _ = quad(lambda log: math.exp(log) * slowness(math.exp(log)), math.log(3e5), math.log(50e5), epsrel=1e-9)
    assert empty(50e5, 3e5, space=1.0, area=1.0) == pytest.approx(theirs, rel=1e-6)
