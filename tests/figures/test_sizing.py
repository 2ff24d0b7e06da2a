"""Sizing, the other way round: held to arithmetic by hand, to another root finder, and to trying every whole number."""

import dataclasses
import re
from pathlib import Path

import pytest
from scipy.optimize import brentq

from macros.figures.graph import FigureError, UnknownPath
from macros.figures.plant import Plant
from macros.figures.ratings import RATINGS, passed
from macros.figures.sizing import SizingError, read_wish, size
from macros.quantities import QuantityError
from tests.figures.the_shed import PINNED, SHED

FARM = Path(SHED).parent / "farm"


@pytest.fixture(scope="module")
def shed():
    """The shed with the values by which the arithmetic below was done."""
    plant = Plant.load(SHED)
    return dataclasses.replace(plant, graph=plant.graph.with_inputs(PINNED))


@pytest.fixture(scope="module")
def farm():
    return Plant.load(FARM)


def sized(plant, *wishes, vary):
    return size(plant, [read_wish(plant.graph, wish) for wish in wishes], vary)


# Whole numbers.


def test_cells_for_a_daily_mass_by_hand(shed):
    """
    A cell makes I·M/(2·F) = 60 A x 2.01588e-3 kg/mol / (2 x 96485.33 C/mol) = 6.2680e-7 kg/s, of which 0.99 is left by
    crossover; a day of running has 1600 h x 3600 / 320 = 18 000 s: 0.011170 kg a cell. 0.5 kg / 0.01117 kg = 44.8.
    """
    found = sized(shed, "plant.daily_mass=0.5 kg", vary=["stack.cells"])
    (move,) = found.moves
    assert (move.path, move.before.si, move.after.si) == ("stack.cells", 16, 45)
    assert found.after["plant.daily_mass"].si == pytest.approx(45 * 0.011170, rel=1e-3)
    assert found.before is shed.graph
    assert shed.graph["stack.cells"].si == 16


def test_a_wish_below_what_is_made_takes_fewer_cells(shed):
    """0.1 kg / 0.011170 kg a cell = 8.95."""
    (move,) = sized(shed, "plant.daily_mass=0.1 kg", vary=["stack.cells"]).moves
    assert move.after.si == 9


@pytest.mark.parametrize(
    ("figure", "entry", "wish", "fits"),
    [
        # The smallest number that reaches at least; of a figure rounded up, that reaches at most.
        ("banks.store.energy_lower", "banks.store.cylinders", 100 * 3.6e6, lambda found, wanted: found >= wanted),
        ("banks.store.fill_time", "stack.cells", 17.5 * 3600, lambda found, wanted: found <= wanted),
    ],
)
def test_a_whole_number_is_the_first_of_all_that_reaches_the_wish(shed, figure, entry, wish, fits):
    text = "100 kWh(lower)" if figure.endswith("energy_lower") else "17.5 h"
    now = int(shed.graph[entry].si)
    tried = next(
        number for number in range(now, 60) if fits(shed.graph.with_inputs({entry: str(number)})[figure].si, wish)
    )
    assert tried > now
    (move,) = sized(shed, f"{figure} = {text}", vary=[entry]).moves
    assert move.after.si == tried


def test_at_least_and_at_most_may_be_said_outright(shed):
    """45 cells make the first 0.5 kg; 44 are the last to make no more."""
    assert sized(shed, "plant.daily_mass>=0.5 kg", vary=["stack.cells"]).moves[0].after.si == 45
    more = dataclasses.replace(shed, graph=shed.graph.with_inputs({"stack.cells": "60"}))
    assert sized(more, "plant.daily_mass<=0.5 kg", vary=["stack.cells"]).moves[0].after.si == 44


def test_a_full_tank_on_saturdays_takes_more_cylinders(farm):
    """The farm's vehicle: the number of high cylinders, found by trying them all."""
    start = int(farm.graph["banks.high.cylinders"].si)
    tried = next(
        number
        for number in range(start, 201)
        if farm.graph.with_inputs({"banks.high.cylinders": str(number)})["uses.1.state_of_charge"].si >= 0.7
    )
    (move,) = sized(farm, "uses.1.state_of_charge=70 %", vary=["banks.high.cylinders"]).moves
    assert move.after.si == tried > start


# Entries that take any value.


@pytest.mark.parametrize(
    ("wish", "figure", "wanted", "entry", "low", "high"),
    [
        ("plant.daily_mass=0.2 kg", "plant.daily_mass", 0.2, "stack.current", 40.0, 80.0),
        ("buffer.cycle_mass=20 g", "buffer.cycle_mass", 0.02, "buffer.volume", 5e-3, 50e-3),
        ("stack.hydrogen_in_oxygen=0.5 %", "stack.hydrogen_in_oxygen", 0.005, "buffer.cut_out", 1.7e6, 2.6e6),
        ("boosters.1.stall_share=60 %", "boosters.1.stall_share", 0.6, "boosters.1.ratio", 11.0, 30.0),
        ("banks.store.fill_time=20 h", "banks.store.fill_time", 72000.0, "banks.store.fill_pressure", 3e6, 5.4e6),
        ("stack.preheat_time=1 h", "stack.preheat_time", 3600.0, "stack.heater", 400.0, 3000.0),
    ],
)
def test_brent_finds_the_same_place(shed, wish, figure, wanted, entry, low, high):
    root = brentq(lambda si: shed.graph.with_inputs({entry: si})[figure].si - wanted, low, high, xtol=1e-12, rtol=1e-12)
    found = sized(shed, wish, vary=[entry])
    (move,) = found.moves
    # A fill is followed in steps, so the place of a fill time is as sharp as they are.
    assert move.found_si == pytest.approx(root, rel=1e-6 if figure.endswith("fill_time") else 1e-9)
    # What is proposed is what an author would type, four digits, on the side that meets the wish.
    gap = found.after[figure].si - wanted
    assert (gap <= 0) if found.after.figures[figure].rounding == "up" else (gap >= 0)
    assert found.after[figure].si == pytest.approx(wanted, rel=2e-3)
    assert len(re.sub(r"\D", "", move.after.typed).strip("0")) <= 4


def test_the_volume_of_a_buffer_by_hand(shed):
    """What the buffer gives between its limits is proportional to its volume with the train's 2.5 L."""
    now = shed.graph["buffer.cycle_mass"].si
    (move,) = sized(shed, "buffer.cycle_mass=20 g", vary=["buffer.volume"]).moves
    assert move.found_si == pytest.approx(0.0125 * 0.020 / now - 0.0025, rel=1e-9)


def test_a_wished_gauge_pressure_is_one_of_the_plants_own_altitude(shed):
    """The bank is full at a gauge reading, so on the hottest day a gauge reading is wished for as well."""
    found = sized(shed, "banks.store.hot_pressure=60 bar(g)", vary=["banks.store.fill_pressure"])
    assert found.after["banks.store.hot_pressure"].show("bar(g)", 4) == "60.00\u00a0bar(g)"
    assert found.moves[0].after.typed.endswith("bar(g)")
    other = sized(shed, "banks.store.hot_pressure=61.01325 bar(a)", vary=["banks.store.fill_pressure"])
    assert other.moves[0].found_si == pytest.approx(found.moves[0].found_si, rel=1e-4)


# Several entries, several wishes.


def test_what_is_already_there_moves_nothing(shed):
    found = sized(shed, "plant.daily_mass>=0.1 kg", "stack.power<=5 kW", vary=["stack.cells"])
    assert found.moves == ()
    assert found.is_fine
    assert found.changed == ()


def test_entries_move_in_turn_first_within_what_is_usual(shed):
    """
    What crosses goes with one over the thickness, what returns dissolved does not: 0.70 % = 0.57 % + 0.13 % through
    178 um is 0.64 % through the 200 um that are usual at most; a lower pressure does the rest. Alone, a membrane of
    178 um x 0.57 / (0.50 - 0.13) = 270 um does it, and is told as unusual.
    """
    wish = "stack.hydrogen_in_oxygen<=0.5 %"
    both = sized(shed, wish, vary=["stack.membrane_thickness", "buffer.cut_out"])
    thickness, cut_out = both.moves
    assert thickness.after.si == pytest.approx(200e-6)
    assert thickness.unusual is None
    between = shed.graph.with_inputs({"stack.membrane_thickness": "200 um"})
    root = brentq(
        lambda si: between.with_inputs({"buffer.cut_out": si})["stack.hydrogen_in_oxygen"].si - 0.005, 1.7e6, 2.6e6
    )
    assert cut_out.found_si == pytest.approx(root, rel=1e-9)
    (alone,) = sized(shed, wish, vary=["stack.membrane_thickness"]).moves
    assert alone.after.si == pytest.approx(270e-6, rel=0.02)
    assert alone.unusual == ("50 µm", "200 µm")


def test_two_wishes_with_entries_of_their_own(shed):
    """1.5 kg / (0.832 kg / 4 cylinders) = 7.2 cylinders; cells as above."""
    found = sized(
        shed, "plant.daily_mass=0.5 kg", "banks.store.mass=1.5 kg", vary=["banks.store.cylinders", "stack.cells"]
    )
    assert {move.path: move.after.si for move in found.moves} == {"stack.cells": 45, "banks.store.cylinders": 8}


def test_wishes_that_share_an_entry_are_all_met_or_refused(shed):
    both = sized(shed, "plant.daily_mass>=0.3 kg", "stack.power>=4 kW", vary=["stack.cells"])
    # 4 kW / (60 A x 1.99 V) = 33.5 cells, more than 0.3 kg / 0.01117 kg = 26.9.
    assert both.moves[0].after.si == 34
    with pytest.raises(SizingError, match=r"pull against each other .* not reached: plant\.daily_mass=0\.5 kg"):
        sized(shed, "plant.daily_mass=0.5 kg", "stack.power<=2 kW", vary=["stack.cells"])


# What else moves.


def test_what_passes_a_rating_is_told_and_whether_it_did_before(shed):
    """45 cells of 2.24 V cold ask 101 V of a rectifier for 40 V; their heat, 45/16 x 503 W, is above 760 W."""
    found = sized(shed, "plant.daily_mass=0.5 kg", vary=["stack.cells"])
    now = {(one.value.name, one.allowed.name) for one, already in found.passed if not already}
    assert {("power.cold_voltage", "power.rectifier_voltage"), ("stack.heat", "water.cooling_capacity")} <= now
    assert not found.is_fine
    again = sized(dataclasses.replace(shed, graph=found.after), "plant.daily_mass=0.51 kg", vary=["stack.cells"])
    assert ("stack.heat", "water.cooling_capacity") in {
        (one.value.name, one.allowed.name) for one, already in again.passed if already
    }


def test_figures_that_can_no_longer_be_evaluated_are_told(shed):
    """The polarisation of the stack was measured up to 1.4 A/cm2, 70 A; the booster takes less than 45 cells make."""
    found = sized(shed, "plant.daily_mass=0.5 kg", vary=["stack.current"])
    assert "wanted between the measured" in found.failed["stack.cell_voltage"]
    assert not found.is_fine


def test_every_figure_that_changes_is_told(shed):
    found = sized(shed, "banks.store.energy_lower=100 kWh(lower)", vary=["banks.store.cylinders"])
    assert "banks.store.mass" in found.changed
    assert "stack.voltage" not in found.changed
    assert set(found.changed) <= found.after.descendants(["banks.store.cylinders"])


def test_the_workings_are_those_of_the_sized_plant(shed):
    found = sized(shed, "plant.daily_mass=0.5 kg", vary=["stack.cells"])
    assert found.after["plant.daily_mass"].node == found.before["plant.daily_mass"].node
    assert found.after["stack.cells"].typed == "45"


def test_an_entry_outside_its_usual_range_is_told(shed):
    """A membrane thinner than usual."""
    found = sized(shed, "stack.crossover_flow=250 NmL/min", vary=["stack.membrane_thickness"])
    (move,) = found.moves
    assert move.unusual is not None
    inside = sized(shed, "stack.crossover_flow=70 NmL/min", vary=["stack.membrane_thickness"])
    assert inside.moves[0].unusual is None


@pytest.mark.parametrize("name", ["bench", "shed", "farm"])
def test_every_rating_is_one_of_some_plant_and_holds_on_a_sound_one(name):
    plant = Plant.load(Path(SHED).parent / name)
    assert list(passed(plant.graph)) == []


def test_each_rating_names_what_a_plant_has():
    graphs = [Plant.load(Path(SHED).parent / name).graph for name in ("bench", "shed", "farm")]
    names = {name for graph in graphs for name in graph}
    for pair in RATINGS:
        for pattern in pair:
            regular = re.escape(pattern).replace(r"\*", r"[a-z0-9_]+")
            # No plant of ours is a fixed vessel in a bank, which alone has an allowable pressure.
            if pattern != "banks.*.allowable_pressure":
                assert any(re.fullmatch(regular, name) for name in names), pattern


# What cannot be.


def test_a_wish_that_no_value_reaches_says_the_best_and_why(shed):
    with pytest.raises(SizingError) as refusal:
        sized(shed, "banks.store.fill_time=6 h", vary=["stack.cells"])
    said = str(refusal.value)
    assert said.startswith("banks.store.fill_time=6 h cannot be reached; the best is ")
    best = int(re.search(r"stack\.cells = (\d+)", said)[1])
    shed.graph.with_inputs({"stack.cells": str(best)})["banks.store.fill_time"]
    with pytest.raises(FigureError):
        shed.graph.with_inputs({"stack.cells": str(best + 1)})["banks.store.fill_time"]
    assert "Beyond that, banks.store.fill_time cannot be evaluated" in said


def test_a_wish_beyond_the_bounds_says_the_best(shed):
    """200 cylinders of 0.208 kg are all that the format takes."""
    with pytest.raises(
        SizingError, match=r"within the bounds of the format; the best is 41\.\d\xa0kg, at .*cylinders = 200"
    ):
        sized(shed, "banks.store.mass=50 kg", vary=["banks.store.cylinders"])


@pytest.mark.parametrize(
    ("wish", "vary", "error", "message"),
    [
        ("nonsense", "stack.cells", SizingError, "is no wish; write a figure, = or"),
        ("stack.cells=20", "stack.current", SizingError, "stack.cells is an entry of the description"),
        ("plant.daly_mass=1 kg", "stack.cells", SizingError, r"no plant\.daly_mass; the nearest is plant\.daily_mass"),
        ("xyzzy=1 kg", "stack.cells", UnknownPath, "no entry or figure xyzzy"),
        ("plant.daily_mass=1 L", "stack.cells", QuantityError, "is a volume; wanted is a mass"),
        ("plant.daily_mass=1", "stack.cells", QuantityError, "has no unit"),
        ("banks.store.hot_pressure=60 bar", "stack.cells", QuantityError, "does not say gauge or absolute"),
        ("banks.store.category=1", "stack.cells", SizingError, "is no number"),
        ("plant.daily_mass=1 kg", "stack.celss", SizingError, r"no stack\.celss; the nearest is stack\.cells"),
        ("plant.daily_mass=1 kg", "xyzzy", UnknownPath, "no entry or figure xyzzy"),
        ("plant.daily_mass=1 kg", "stack.power", SizingError, r"is a figure .* stack\.active_area, stack\.cells"),
        ("plant.daily_mass=1 kg", "site.coldest", SizingError, r"site\.coldest changes nothing in plant\.daily_mass"),
        ("stack.voltage=50 V", "stack.polarisation", SizingError, "is no quantity"),
    ],
)
def test_what_cannot_be_sized_is_told(shed, wish, vary, error, message):
    with pytest.raises(error, match=message):
        sized(shed, wish, vary=[vary])
