"""The year of the shed: sums by hand, dark months, and mass kept."""

import math

import pytest

from tests.figures import the_shed

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
SURPLUS = (4, 8, 16, 24, 30, 32, 30, 26, 18, 10, 5, 3)


@pytest.fixture(scope="module")
def graph():
    return the_shed.pinned(the_shed.description())


def test_what_is_wanted_is_drawn_or_missing(graph):
    """365 × 6 kWh/33.322 kWh/kg = 65.72 kg."""
    assert graph["season.drawn"].si + graph["season.missing"].si == pytest.approx(365 * 6 * 3.6e6 / 119.96e6)
    assert graph["season.share_met"].si == pytest.approx(graph["season.drawn"].si / 65.722, rel=1e-4)
    assert graph["season.shortfall"].si == pytest.approx(graph["season.missing"].si * 119.96e6)


def test_all_surplus_is_taken_or_left_over(graph):
    """31 × 4 + 28 × 8 + … = 6283 kWh."""
    total = sum(days * energy for days, energy in zip(DAYS, SURPLUS, strict=True))
    assert total == 6283
    assert (graph["season.run"].si.used_j + graph["season.left_over"].si) / 3.6e6 == pytest.approx(total)


def test_the_year_keeps_its_mass_and_ends_as_it_begins(graph):
    year = graph["season.run"].si
    assert year.residual <= 1e-9
    assert year.last_kg == pytest.approx(year.first_kg, abs=1e-6)
    assert len(year.stored) == 8760


def test_the_energy_of_what_is_made(graph):
    """A kilogram at the energy of running, and the starts: no more was taken."""
    year = graph["season.run"].si
    made = year.made_kg * graph["plant.energy_per_kg_running"].si
    starting = year.starts * graph["stack.preheat_energy"].si
    assert made <= year.used_j <= made + starting + 1


def test_in_the_dark_months_the_stack_rests(graph):
    """
    10 kWh a day of half a sine over 10 h are at most 10 × (cos 72° − cos 108°)/2 = 3.09 kWh in the two hours about
    noon, 1.55 kW;
    the stack rests below 1.7 kW. So does it in all months of less.
    """
    assert 10 * (math.cos(math.radians(72)) - math.cos(math.radians(108))) / 2 / 2 == pytest.approx(1.545, rel=1e-3)
    assert graph["season.smallest_power"].si > 1545
    dark = graph.with_inputs({f"power.surplus.{month}": "10 kWh" for month in range(1, 13)})
    assert dark["season.made"].si == 0.0 and dark["season.starts"].si == 0.0
    assert dark["season.share_met"].si == 0.0


def test_the_smallest_power_is_in_proportion_to_the_current_of_the_alarm(graph):
    share = graph["stack.minimum_current_alarm"].si / 60
    assert graph["season.smallest_power"].si == pytest.approx(share * graph["season.full_power"].si)


def test_the_store_is_never_fuller_than_it_can_be(graph):
    """200 L between 51.013 and 1.013 bar(a): 0.2 × (4.165 − 0.085) = 0.816 kg."""
    assert graph["season.capacity"].si == pytest.approx(0.816, rel=2e-3)
    assert 0 < graph["season.stored_peak"].si <= graph["season.capacity"].si * (1 + 1e-9)


def test_a_larger_bank_misses_less(graph):
    larger = graph.with_inputs({"banks.store.cylinders": "40"})
    assert larger["season.missing"].si < graph["season.missing"].si
