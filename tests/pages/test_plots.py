"""
Plots of a plant: their points are its figures, they run as physics says, labels keep apart, and parts it lacks drop out.
"""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest

from diagrams.items import Text
from macros.figures.plant import Plant
from macros.pages.fragments import FragmentError
from macros.pages.handbook import Handbook, Page
from macros.pages.macros import call
from macros.pages.plot_picture import Measure
from macros.pages.plots import PLOTS, pictures, plots_of
from tests.diagrams.plot_labels import boxes_of, meeting, outside

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
OF_A_BANK = {"filling", "stroke_rate", "mass", "gauge"}


@pytest.fixture(scope="module")
def shed() -> Plant:
    return Plant.load(ROOT / "docs/designs/shed", ROOT)


@pytest.fixture(scope="module")
def starter() -> Plant:
    return Plant.load(ROOT / "macros/command/starter_plant", ROOT)


@pytest.fixture(scope="module")
def shown(shed: Plant):
    """All plots of the shed on one page, as HTML."""
    page = Handbook.of(ROOT / "docs", [shed]).context(Page("shed/any.md", "overview", shed))
    return {name: call("plot", (name,), {}, page).rich for name in PLOTS}


def curve(plant: Plant, plot: str, field: int = 0, which: int = 0) -> dict[float, float]:
    return dict(pictures(plant, plot)[0].fields[field].curves[which].points)


def rising(points: dict[float, float]) -> bool:
    return all(one < other for one, other in pairwise(points[x] for x in sorted(points)))


def falling(points: dict[float, float]) -> bool:
    return all(one > other for one, other in pairwise(points[x] for x in sorted(points)))


@pytest.mark.parametrize(
    ("plot", "field", "which", "at", "figure"),
    [
        ("polarisation", 0, 0, "stack.current", "stack.cell_voltage"),
        ("polarisation", 1, 0, "stack.current", "stack.faraday_efficiency"),
        ("polarisation", 1, 1, "stack.current", "stack.efficiency_higher"),
        ("polarisation", 2, 0, "stack.current", "stack.heat"),
        ("crossing", 0, 0, "stack.current", "stack.hydrogen_in_oxygen"),
        ("crossing", 0, 1, "stack.current", "stack.hydrogen_in_oxygen_cut_in"),
        ("crossing", 0, 2, "stack.current", "stack.hydrogen_in_oxygen_catalyst_dead"),
        ("stroke_rate", 0, 0, "banks.store.fill_pressure", "boosters.1.working_rate"),
        ("stroke_rate", 1, 0, "banks.store.fill_pressure", "boosters.1.flow"),
        ("mass", 0, 0, "banks.store.fill_pressure", "banks.store.mass"),
    ],
)
def test_at_the_plants_own_point_a_curve_is_the_figure(
    shed: Plant, plot: str, field: int, which: int, at: str, figure: str
) -> None:
    assert curve(shed, plot, field, which)[shed.graph[at].si] == pytest.approx(shed.graph[figure].si, rel=1e-12)


def test_at_another_current_a_curve_is_the_figure_of_the_plant_changed_to_it(shed: Plant) -> None:
    voltages = curve(shed, "polarisation")
    other = min(voltages)
    assert voltages[other] == shed.graph.with_inputs({"stack.current": f"{other} A"})["stack.cell_voltage"].si


def test_the_train_ends_at_the_dew_points_of_the_plant(shed: Plant) -> None:
    picture = pictures(shed, "train")[0]
    last = len(shed.description.plant.drying)
    for which, ending in enumerate(("", "_mean", "_cut_out")):
        load, dew = (dict(one.curves[which].points) for one in picture.fields)
        assert dew[last] == shed.graph[f"drying.dew_point{ending}"].si
        assert load[0] == shed.graph[f"drying.1.inlet_load{ending}"].si
        assert load[last] == shed.graph[f"drying.{last}.outlet_load{ending}"].si


def test_a_fill_ends_when_the_plant_says(shed: Plant) -> None:
    bank, buffer = (one.curves[0].points for one in pictures(shed, "filling")[0].fields)
    assert bank[-1][0] == shed.graph["banks.store.fill_time"].si
    assert all(one[0] <= other[0] for one, other in pairwise(bank))
    # No stroke takes the buffer below its cut-in, and the trip is never reached.
    after = [pressure for time, pressure in buffer if time > bank[-1][0] / 2]
    assert min(after) == pytest.approx(shed.graph["buffer.cut_in"].si, rel=1e-3)
    assert max(after) <= shed.graph["buffer.high_trip"].si


def test_a_year_peaks_at_what_the_plant_stores_and_its_days_add_up_to_its_surplus(shed: Plant) -> None:
    stored, surplus = curve(shed, "season"), curve(shed, "season", 1)
    assert max(stored.values()) <= shed.graph["season.stored_peak"].si
    assert len(stored) == 366
    assert list(surplus.values()) == [shed.graph[f"power.surplus.{month}"].si for month in range(1, 13)]


def test_curves_run_as_physics_says(shed: Plant) -> None:
    assert rising(curve(shed, "polarisation"))
    assert rising(curve(shed, "polarisation", 1))
    assert rising(curve(shed, "polarisation", 2))
    for which in range(3):
        assert falling(curve(shed, "crossing", 0, which))
    for field in range(2):
        assert falling(curve(shed, "stroke_rate", field))
        assert min(curve(shed, "stroke_rate", field).values()) == pytest.approx(0, abs=1e-9)
    assert rising(curve(shed, "gauge"))
    assert rising(curve(shed, "mass"))


def test_less_real_gas_than_ideal_gas_fits_a_bank_and_by_as_much_as_tables_say(shed: Plant) -> None:
    """
    The compressibility of hydrogen at 20.0 MPa and 288 K is 1.13 and at 5.0 MPa 1.03; from memory of handbook tables.
    """
    real, ideal = curve(shed, "mass"), curve(shed, "mass", 0, 1)
    assert all(real[x] < ideal[x] for x in real)
    assert ideal[max(ideal)] / real[max(real)] == pytest.approx(1.13, abs=0.01)
    full = shed.graph["banks.store.fill_pressure"].si
    assert ideal[full] / real[full] == pytest.approx(1.03, abs=0.005)
    # An ideal gas at twice the pressure weighs twice as much.
    low, high = min(ideal), max(ideal)
    assert ideal[high] / ideal[low] == pytest.approx(high / low, rel=1e-4)


def test_alarm_and_trip_stand_where_their_currents_meet_the_curve(shed: Plant) -> None:
    points = sorted(curve(shed, "crossing").items())
    for limit in ("alarm", "trip"):
        current = shed.graph[f"stack.minimum_current_{limit}"].si
        (x0, y0), (x1, y1) = next((a, b) for a, b in pairwise(points) if a[0] <= current < b[0])
        # What crosses is spread over the current: the share is straight over 1/current.
        share = y0 + (1 / current - 1 / x0) / (1 / x1 - 1 / x0) * (y1 - y0)
        assert share == pytest.approx(shed.graph[f"stack.hydrogen_in_oxygen_{limit}"].si, rel=0.01)


@pytest.mark.parametrize("name", PLOTS)
def test_a_plot_is_drawn_with_words_and_numbers_and_no_style(shed: Plant, shown, name: str) -> None:
    html = shown[name]
    assert "style=" not in html
    drawings = re.findall(r"<svg.*?</svg>", html, re.DOTALL)
    assert len(drawings) == len(pictures(shed, name)) == html.count("<details")
    for text, picture in zip(drawings, pictures(shed, name), strict=True):
        svg = ElementTree.fromstring(text)
        assert svg.find(f"{SVG}title").text == picture.title
        told = svg.find(f"{SVG}desc")
        assert Text(told.text, told.get("data-si"), told.get("data-us")) == picture.described()
        for element in svg.iter():
            assert element.get("stroke") in (None, "none", "currentColor")
            assert element.get("fill") in (None, "none", "currentColor")


@pytest.mark.parametrize("name", PLOTS)
@pytest.mark.parametrize("system", ["workshop", "data-si", "data-us"])
def test_no_label_of_a_plot_meets_another(shown, name: str, system: str) -> None:
    for text in re.findall(r"<svg.*?</svg>", shown[name], re.DOTALL):
        svg = ElementTree.fromstring(text)
        boxes = boxes_of(svg, system)
        assert not meeting(boxes)
        assert not outside(svg, boxes)


def test_a_plot_is_the_same_again(shed: Plant) -> None:
    again = Plant.of(shed.description)
    for name in ("train", "mass", "gauge"):
        for one, other in zip(pictures(shed, name), pictures(again, name), strict=True):
            assert one.svg("plot") == other.svg("plot")


def test_the_table_says_what_the_curve_says(shed: Plant, shown) -> None:
    full = shed.graph["banks.store.mass"]
    assert f">{full.show()}<" in shown["mass"]
    assert f'data-us="{full.shown().us}"' in shown["mass"]


def test_the_table_of_a_year_has_a_full_row_for_each_month(shown) -> None:
    rows = re.findall(r"<tr><th scope=\"row\">.*?</tr>", shown["season"])
    assert len(rows) == 12
    assert all(row.count("<td>") == row.count("<td><span") == 3 for row in rows)


def test_a_plant_without_the_part_drops_the_plot(starter: Plant) -> None:
    held = plots_of(starter.graph)
    assert {"polarisation", "crossing", "train"} <= held
    assert not held & OF_A_BANK
    book = Handbook.of(ROOT / "docs", [starter])
    page = book.context(Page("starter_plant/any.md", "overview", starter))
    for name in PLOTS:
        assert page.has(f"plots.{name}") == (name in held)
    with pytest.raises(FragmentError, match=r"plots\.filling"):
        call("plot", ("filling",), {}, page)
    with pytest.raises(FragmentError, match="is no plot"):
        call("plot", ("weather",), {}, page)


def test_ticks_are_round_in_the_workshop_and_true_elsewhere() -> None:
    """1 bar is 100 kPa by definition; 1 psi is 6894.757 Pa, NIST SP 811 (from memory)."""
    axis = Measure("Pressure", "bar(g)", 101325.0).axis([0.0, 48.0])
    assert axis.label.workshop == "Pressure, bar(g)"
    assert [text.workshop for _, text in axis.ticks] == ["0", "10", "20", "30", "40", "50"]
    place, text = axis.ticks[-1]
    assert place == 50
    assert float(text.us) == pytest.approx(50e5 / 6894.757, abs=5)
    assert (axis.label.si, text.si) == ("Pressure, MPa(g)", "5.0")


def test_what_is_written_at_a_tick_is_where_it_stands() -> None:
    """
    1 lb is 453.59237 g by definition; 1 scf (60 °F, 14.696 psi) holds 1.1953 mol, so 1 g/Nm³ are 59.06 lb/MMscf.

    Rounded like the workshop's ticks these read 0, 100 or 590 600 where the tick stands at 0.59, 59 and 590 645.
    """
    mol_per_scf = 14.696 * 6894.757 * 0.3048**3 / (8.314462618 * (60 + 459.67) / 1.8)
    mol_per_nm3 = 101325 / (8.314462618 * 273.15)
    pounds = 1e6 * mol_per_scf / mol_per_nm3 / 453.59237
    axis = Measure("Water", "g/Nm3").axis([0.013, 5000.0], logarithmic=True)
    assert [text.workshop for _, text in axis.ticks] == ["0.01", "0.1", "1", "10", "100", "1000", "10\u202f000"]
    for place, text in axis.ticks:
        assert float(text.us.replace("\u202f", "")) == pytest.approx(place * pounds, rel=0.011)
    even = Measure("Flow", "NL/min").axis([0.0, 6.6])
    for place, text in even.ticks:
        assert float(text.si) == pytest.approx(place / 60 * mol_per_nm3, abs=0.0151)
