"""Cost of stored energy: annuities pay the investment back, more of anything costs no less, refusals."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.levelised_cost import annuity, cost_of_energy

interests = st.floats(0.0, 0.3)


@settings(max_examples=300)
@given(interests, st.integers(1, 60))
@example(0.0, 1)
@example(1e-9, 30)
@example(2e-9, 60)
def test_the_payments_are_worth_the_investment(interest, years):
    paid = sum(annuity(interest, float(years)) / (1 + interest) ** year for year in range(1, years + 1))
    assert paid == pytest.approx(1.0, rel=1e-6)


@settings(max_examples=300)
@given(st.floats(0.0, 1e6), interests, st.floats(1.0, 50.0), st.floats(0.0, 1e5), st.floats(1e6, 1e12))
def test_more_energy_costs_less_each(investment, interest, years, yearly, energy):
    cost = cost_of_energy(investment, interest, years, yearly, energy)
    assert cost >= 0
    assert cost_of_energy(investment, interest, years, yearly, 2 * energy) == pytest.approx(cost / 2)
    assert cost_of_energy(investment + 1, interest, years, yearly, energy) > cost


@pytest.mark.parametrize(
    "call",
    [
        lambda: annuity(-0.1, 10.0),
        lambda: annuity(0.05, 0.0),
        lambda: cost_of_energy(1e4, 0.05, 10.0, 100.0, 0.0),
        lambda: cost_of_energy(math.nan, 0.05, 10.0, 100.0, 1e9),
        lambda: cost_of_energy(-1.0, 0.05, 10.0, 100.0, 1e9),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()
