"""Uses of the shed, checked by hand, and a vehicle filled from two banks in turn."""

from dataclasses import replace

import pytest

from macros.description.plant import Bank, Use
from macros.figures import surroundings, uses
from tests.figures import the_shed
from tests.figures.the_shed import BAR, NORMAL_L_PER_MIN


@pytest.fixture(scope="module")
def description():
    return the_shed.description()


@pytest.fixture(scope="module")
def graph(description):
    return the_shed.pinned(description)


def test_what_the_cooker_can_draw(graph):
    """
    200 L at 15 °C between 51.013 and 3.013 bar(a): 4.292 3 kg/m3 ideal, over 1.030 6: 4.164 9, less 0.253 5/1.001 8
    = 0.253 0;
    3.911 9 × 0.2 = 0.782 4 kg.
    """
    assert graph["uses.1.mass_available"].si == pytest.approx(0.7824, rel=1e-3)


def test_the_cooker(graph):
    """2500 W/119.96 MJ/kg = 2.084 03e-5 kg/s = 13.90 NL/min; 0.782 4 kg last 37 543 s = 10.4 h and hold 26.07 kWh."""
    assert graph["uses.1.hydrogen_flow"].si * NORMAL_L_PER_MIN == pytest.approx(13.903, rel=1e-3)
    assert graph["uses.1.hours"].si == pytest.approx(37543, rel=2e-3)
    assert graph["uses.1.heat_available"].si / 3.6e6 == pytest.approx(26.07, rel=2e-3)


def test_the_air_and_the_water_of_the_cooker(graph):
    """
    2.387 1 parts of air a part of hydrogen: 13.903 × 2.387 1 = 33.19 NL/min; 8.936 7 × 75.03 g/h = 670.5 g/h of
    water.
    """
    assert graph["uses.1.combustion_air"].si * NORMAL_L_PER_MIN == pytest.approx(33.19, rel=1e-3)
    assert graph["uses.1.water_given_off"].si * 3.6e6 == pytest.approx(670.5, rel=1e-3)


def test_the_fuel_cell(graph):
    """
    1000/(0.48 × 119.96e6) = 1.736 7e-5 kg/s = 11.59 NL/min; 15.99 kWh/kg; 0.782 4 kg make 12.5 kWh in 12.5 h; 1083 W
    of heat.
    """
    assert graph["uses.2.hydrogen_flow"].si * NORMAL_L_PER_MIN == pytest.approx(11.586, rel=1e-3)
    assert graph["uses.2.electricity_per_kg"].si / 3.6e6 == pytest.approx(15.995, rel=1e-3)
    assert graph["uses.2.electricity_available"].si / 3.6e6 == pytest.approx(12.51, rel=2e-3)
    assert graph["uses.2.hours"].si / 3600 == pytest.approx(12.51, rel=2e-3)
    assert graph["uses.2.heat_given_off"].si == pytest.approx(1083.3, rel=1e-3)


@pytest.fixture(scope="module")
def filling(description):
    """A tank of 120 L for 350 bar(g) at 5 bar(g), from 600 L at 50 bar(g), then 300 L at 140 bar(g)."""
    low = description.plant.banks["store"]
    banks = {
        "low": _with(low, tag="BK1", cylinders="12", water_volume="50 L", fill_pressure="50 bar(g)"),
        "high": _with(low, tag="BK2", cylinders="6", water_volume="50 L", fill_pressure="140 bar(g)"),
    }
    vehicle = Use.model_validate(
        {
            "kind": "vehicle", "title": "The van", "tag": "VT1", "supply": ["low", "high"], "tank_volume": "120 L",
            "nominal_pressure": "350 bar(g)", "start_pressure": "5 bar(g)", "tank_mass": "80 kg",
            "lowest_pressure": "5 bar(g)",
        }
    )  # fmt: skip
    plant = description.plant.model_copy(update={"banks": banks, "uses": [vehicle], "transfers": [], "boosters": []})
    return the_shed.graph_of(replace(description, plant=plant), (surroundings, uses))


def _with(bank, **values):
    kept = {
        name: getattr(bank, name).text if hasattr(getattr(bank, name), "text") else getattr(bank, name)
        for name in type(bank).model_fields
    }
    return Bank.model_validate({**kept, **values})


def test_the_low_bank_gives_first(filling):
    """
    15 °C, kg/m3: 50 bar(g) 4.165, 5 bar(g) 0.504. Both level at (600 × 4.165 + 120 × 0.504)/720 = 3.555: the tank
    gains 0.12 × 3.051 =
    0.366 kg and stands at 3.555 kg/m3, which is 43.4 bar(a).
    """
    assert filling["uses.1.from_low"].si == pytest.approx(0.366, rel=3e-3)
    assert filling["uses.1.pressure_after_low"].si == pytest.approx(43.4 * BAR, rel=3e-3)


def test_then_the_high_bank(filling):
    """
    140 bar(g) 10.898 kg/m3: level at (300 × 10.898 + 120 × 3.555)/420 = 8.800: the tank gains 0.12 × 5.245 = 0.629
    kg; 0.996 kg in all, and
    8.800 over the 24.05 of a full tank is 37 %.
    """
    assert filling["uses.1.from_high"].si == pytest.approx(0.629, rel=3e-3)
    assert filling["uses.1.mass_gained"].si == pytest.approx(0.996, rel=3e-3)
    assert filling["uses.1.state_of_charge"].si == pytest.approx(0.366, rel=5e-3)


def test_the_tank_would_take_more(filling):
    """0.12 × (24.05 − 0.504) = 2.826 kg."""
    assert filling["uses.1.mass_to_fill"].si == pytest.approx(2.826, rel=3e-3)


def test_the_shortest_time_grows_as_the_tank_takes_less_heat(filling):
    time_s = filling["uses.1.shortest_fill_time"].si
    assert 1 <= time_s < 3600
    lighter = filling.with_inputs({"uses.1.tank_mass": "20 kg"})
    assert lighter["uses.1.shortest_fill_time"].si >= time_s


def test_a_tank_that_the_bank_fills_stops_at_its_nominal_pressure(filling):
    """A tank for 60 bar(g) is full before both are level: its share is 100 %."""
    small = filling.with_inputs({"uses.1.nominal_pressure": "60 bar(g)"})
    assert small["uses.1.state_of_charge"].si == pytest.approx(1.0, rel=1e-6)
