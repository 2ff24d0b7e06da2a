"""The year of the shed by its months and of the farm by its hours: sums by hand, dark months, and mass kept."""

import math
import shutil
from pathlib import Path

import numpy as np
import pytest

from macros.description.hourly import HourlyYear
from macros.figures.plant import Plant
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


# The farm, hour by hour.

FARM = Path(__file__).parents[2] / "docs" / "designs" / "farm"
HOUR = 3600.0


@pytest.fixture(scope="module")
def farm():
    return Plant.load(FARM).graph


@pytest.fixture(scope="module")
def table():
    """The file as numpy reads it: hour, surplus and demand in kW."""
    lines = [line for line in (FARM / "year.csv").read_text("utf-8").splitlines() if not line.startswith("#")]
    return np.array([line.split(",") for line in lines[1:]], dtype=float)


def hours(surplus_kw, demand_kw):
    return HourlyYear(
        "year.csv",
        tuple((hour * HOUR, float(power) * 1000) for hour, power in enumerate(surplus_kw)),
        tuple((hour * HOUR, float(power) * 1000) for hour, power in enumerate(demand_kw)),
    )


def test_the_hours_of_the_file_are_the_hours_of_the_figure(farm, table):
    """Sums by numpy, which reads the file for itself."""
    assert table.shape == (8760, 3) and (table[:, 0] == np.arange(1, 8761)).all()
    year = farm["season.run"].si
    assert (year.used_j + year.left_over_j) / 3.6e6 == pytest.approx(table[:, 1].sum())
    wanted = table[:, 2].sum() * 3.6e6 / 119.96e6
    assert farm["season.drawn"].si + farm["season.missing"].si == pytest.approx(wanted)
    assert farm["season.share_met"].si == pytest.approx(farm["season.drawn"].si / wanted)


def another_year(surplus_w, demand_w, full, smallest, energy, start, capacity):
    """
    The year once more, kept in joules of stored electricity instead of kilograms, and written as a plant is run: look at
    the store, decide, run, draw. What the store gives in the hour it takes in the hour.
    """
    store, largest = 0.0, capacity * energy
    for _ in range(2):
        made = drawn = short = begun = ran = most = rested = 0.0
        on = waiting = False
        most = store
        for offer, wish in zip(surplus_w * HOUR, demand_w * HOUR / 119.96e6 * energy, strict=True):
            space = largest - max(store - wish, 0.0)
            if space >= 0.1 * largest:
                waiting = False
            new = 0.0
            if offer >= smallest * HOUR and offer > 0 and space > 0 and not waiting:
                put_in = min(offer, full * HOUR)
                heat = 0.0 if on else min(start, put_in)
                begun += not on
                new = min(put_in - heat, space)
                ran += (heat + new) / put_in
                rested += (put_in - heat - new) / put_in
                on = waiting = False
                if new < put_in - heat:
                    waiting = True
                else:
                    on = True
            else:
                on = False
                rested += offer >= smallest * HOUR and offer > 0
            taken = min(wish, store + new)
            store = min(store + new - taken, largest)
            made, drawn, short, most = made + new, drawn + taken, short + wish - taken, max(most, store)
    return {
        "made": made / energy, "drawn": drawn / energy, "missing": short / energy, "stored_peak": most / energy,
        "starts": begun, "hours_running": ran * HOUR, "hours_full": rested * HOUR,
    }  # fmt: skip


def test_the_year_of_the_farm_by_another_reckoning(farm, table):
    ours = {
        name: farm[f"season.{name}"].si
        for name in ("made", "drawn", "missing", "stored_peak", "starts", "hours_running", "hours_full")
    }
    theirs = another_year(
        table[:, 1] * 1000, table[:, 2] * 1000, farm["season.full_power"].si, farm["season.smallest_power"].si,
        farm["plant.energy_per_kg_running"].si, farm["stack.preheat_energy"].si, farm["season.capacity"].si,
    )  # fmt: skip
    assert ours == pytest.approx(theirs, rel=1e-9)
    assert 50 < ours["starts"] < 365 and 0 < ours["missing"] < ours["drawn"]


def test_one_hour_of_sun_by_hand(farm):
    """
    One hour at full power P and nothing drawn: the year makes (P × 3600 s − start)/energy, with 1 start and 1 h of
    running. It is followed twice, so the store ends with twice as much.
    """
    one = farm.with_inputs({"demand.hourly": hours(np.eye(1, 8760, 4999)[0] * 1e4, np.zeros(8760))})
    full, start = farm["season.full_power"].si, farm["stack.preheat_energy"].si
    made = max(0.0, full * 3600 - start) / farm["plant.energy_per_kg_running"].si
    assert one["season.made"].si == pytest.approx(made, rel=1e-12)
    assert one["season.starts"].si == 1 and one["season.hours_running"].si == pytest.approx(3600)
    assert one["season.stored_peak"].si == pytest.approx(2 * made)
    assert one["season.left_over"].si == pytest.approx((1e7 - full) * 3600)


def test_a_demand_at_night_is_not_one_at_noon(farm):
    """The same sums of a day, ordered otherwise: more than the store holds is met at noon in part from the stack."""
    sun = np.tile([10.0 * (8 <= hour < 17) for hour in range(24)], 365)
    noon, night = (np.tile(np.eye(1, 24, hour)[0] * 500.0, 365) for hour in (12, 0))
    small = {"banks.low.cylinders": "1", "banks.high.cylinders": "1"}
    by_day, by_night = (farm.with_inputs({"demand.hourly": hours(sun, each)} | small) for each in (noon, night))
    assert by_day["season.missing"].si < by_night["season.missing"].si


def test_the_hours_enter_the_digest(tmp_path):
    """One digit of one hour, and every page and sheet shows another digest."""
    before = Plant.load(FARM)
    folder = tmp_path / "farm"
    shutil.copytree(FARM, folder)
    text = (folder / "year.csv").read_text("utf-8")
    (folder / "year.csv").write_text(text.replace("\n7,0.00,4\n", "\n7,0.01,4\n"), "utf-8")
    assert (folder / "year.csv").read_text("utf-8") != text
    assert Plant.load(folder).digest != before.digest
