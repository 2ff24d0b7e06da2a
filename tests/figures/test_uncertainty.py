"""
Uncertainty of a figure, held to hand arithmetic and to drawing the entries at random.

How close the draws must come: the standard deviation of N draws of a normal value is itself uncertain by 1/sqrt(2(N - 1)),
1.1 % for 4000; four times that is exceeded once in 16 000 tries, and the draws are seeded. Beside it stands the curvature
that a difference of first order leaves out: for y = x^p with a relative spread s of x it adds about ((p - 1)·s)²/2 of the
deviation, or so, 0.5 % for p = 6 and s = 2 %; the spreads here keep it below 1 %.
"""

import math
import statistics
from random import Random

import pytest

from macros.calculations.contract import above, calculation
from macros.calculations.faraday import hydrogen_produced
from macros.calculations.formula import exp, power, sqrt
from macros.description.loading import load
from macros.figures import graph as graphs
from macros.figures.explain import explain
from macros.figures.graph import Entry, FigureError, Graph, figure
from macros.figures.plant import Plant
from macros.pages.numbers import Numbers
from macros.quantities import Faults, read
from tests.figures.the_shed import SHED

DRAWS = 4000
TOLERANCE = 4 / math.sqrt(2 * (DRAWS - 1)) + 0.01


def drawn(graph, spreads, figures, draws=DRAWS):
    """Standard deviations of figures, the entries drawn at random about what they are."""
    random = Random(20261125)
    middles = {path: graph[path].si for path in spreads}
    found = {name: [] for name in figures}
    for _ in range(draws):
        again = graph.with_inputs({path: random.gauss(middles[path], spread) for path, spread in spreads.items()})
        for name in figures:
            found[name].append(again[name].si)
    return {name: statistics.stdev(values) for name, values in found.items()}


# A chain of figures, the steeper ones at its end.


def steep(flow: float, temperature_k: float) -> float:
    return sqrt(flow) * exp(-2000 / temperature_k)


def steeper(one: float, other: float) -> float:
    return power(one, 3) / other


@pytest.fixture
def chain(monkeypatch):
    monkeypatch.setattr(graphs, "title_of", lambda name: f"title of {name}")
    entries = [
        Entry("site.atmosphere", read("101.325 kPa(a)", "absolute_pressure")),
        Entry("stack.current", read("60 ± 1.2 A", "current")),
        Entry("stack.cells", read("16", "count")),
        Entry("stack.temperature", read("60 ± 2 °C", "temperature")),
        Entry("buffer.cut_out", read("25 ± 0.4 bar(g)", "pressure")),
    ]
    figures = [
        figure("a.flow", hydrogen_produced, unit="NL/min", current_a="stack.current", cells="stack.cells"),
        figure("a.steep", steep, kind="ratio", flow="a.flow", temperature_k="stack.temperature"),
        figure("a.steeper", steeper, kind="ratio", one="a.steep", other="a.flow"),
        figure("a.pressed", steeper, kind="ratio", one="buffer.cut_out", other="a.steeper"),
        figure("a.certain", lambda cells: cells * 1.5, kind="ratio", cells="stack.cells"),
    ]
    return Graph(entries, figures)


SPREADS = {"stack.current": 1.2, "stack.temperature": 2.0, "buffer.cut_out": 0.4e5}


@pytest.mark.parametrize("name", ["a.flow", "a.steep", "a.steeper", "a.pressed"])
def test_differences_agree_with_drawing_at_random_on_a_chain(chain, name):
    assert chain.uncertainty(name)[0] == pytest.approx(drawn(chain, SPREADS, [name])[name], rel=TOLERANCE)


def test_a_steep_chain_by_hand(chain):
    """
    a.steeper = flow^(3/2) e^(-6000/T) / flow = flow^(1/2) e^(-6000/T): of the current's 2 % it has a half, 1 %; of the
    temperature's 2 K at 333.15 K it has 6000 x 2 / 333.15² = 10.81 %. Together 10.86 %, most of it from the temperature.
    """
    spread, largest = chain.uncertainty("a.steeper")
    assert spread / chain["a.steeper"].si == pytest.approx(0.1086, rel=5e-3)
    assert largest == "stack.temperature"
    assert chain.uncertainty("a.flow") == (pytest.approx(0.02 * chain["a.flow"].si), "stack.current")


def test_what_no_uncertain_entry_reaches_has_none(chain):
    assert chain.uncertainty("a.certain") == (0.0, "")


def test_uncertainty_on_either_side_of_an_edge(monkeypatch):
    """Where a figure can be evaluated on one side only, the difference to that side; on neither, the figure says so."""
    monkeypatch.setattr(graphs, "title_of", lambda name: f"title of {name}")

    @calculation(share=above(0, 1))
    def of_share(share: float) -> float:
        return share * 3

    def graph_of(text):
        atmosphere = Entry("site.atmosphere", read("101.325 kPa(a)", "absolute_pressure"))
        return Graph(
            [atmosphere, Entry("a.share", read(text, "fraction"))],
            [figure("a.b", of_share, kind="ratio", share="a.share")],
        )

    assert graph_of("50 ± 10 %").uncertainty("a.b")[0] == pytest.approx(0.3)
    assert graph_of("95 ± 10 %").uncertainty("a.b")[0] == pytest.approx(0.3)
    with pytest.raises(FigureError, match="of_share"):
        graph_of("95 ± 120 %").uncertainty("a.b")


# The shed.

STATED = {
    "stack.current": "60 ± 0.9 A",
    "stack.temperature": "60 ± 1 °C",
    "stack.membrane_thickness": "178 ± 5 µm",
    "stack.excess_factor": "1.3 ± 0.04",
    "buffer.cut_out": "25 ± 0.25 bar(g)",
    "buffer.cut_in": "15 ± 0.25 bar(g)",
    "buffer.volume": "10 ± 0.2 L",
    "banks.store.water_volume": "50 ± 0.5 L",
    "site.usual": "15 ± 3 °C",
}


@pytest.fixture(scope="module")
def shed():
    return Plant.load(SHED).graph.with_inputs(STATED)


def test_differences_agree_with_drawing_at_random_on_the_shed(shed):
    figures = [
        "stack.hydrogen_in_oxygen", "stack.crossover_flow", "stack.cell_voltage", "stack.hydrogen_normal_flow",
        "buffer.cycle_mass", "banks.store.mass", "plant.daily_mass", "stack.oxygen_space_time_to_limit",
    ]  # fmt: skip
    spreads = {path: shed.entries[path].value.uncertainty for path in STATED}
    draws = 1500
    found = drawn(shed, spreads, figures, draws)
    for name in figures:
        allowed = 4 / math.sqrt(2 * (draws - 1)) + 0.02
        assert shed.uncertainty(name)[0] == pytest.approx(found[name], rel=allowed), name


def test_the_largest_contributor_is_the_one_that_alone_moves_it_most(shed):
    for name in ("stack.hydrogen_in_oxygen", "buffer.cycle_mass", "banks.store.mass", "stack.crossover_flow"):
        alone = {}
        for path, text in STATED.items():
            others = {other: said.partition(" ±")[0] + " " + said.rsplit(" ", 1)[-1]
                      for other, said in STATED.items() if other not in (path, "stack.excess_factor")}  # fmt: skip
            if path != "stack.excess_factor":
                others["stack.excess_factor"] = "1.3"
            alone[path] = shed.with_inputs(others | {path: text}).uncertainty(name)[0]
        spread, largest = shed.uncertainty(name)
        assert largest == max(alone, key=alone.get)
        assert spread == pytest.approx(math.hypot(*alone.values()), rel=1e-6)


def test_the_mass_of_a_cycle_by_hand(shed):
    """
    (V + V_train)·(ρ(25 bar(g)) − ρ(15 bar(g))), nearly proportional to the 10 bar between: of the volume 0.2 L of 12.5 L,
    1.6 %; of each switch 0.25 bar of 10 bar, 2.5 %; sqrt(1.6² + 2.5² + 2.5²) = 3.9 %.
    """
    spread, largest = shed.uncertainty("buffer.cycle_mass")
    assert spread / shed["buffer.cycle_mass"].si == pytest.approx(0.039, rel=0.02)
    assert largest in ("buffer.cut_in", "buffer.cut_out")


def test_fewer_digits_are_shown_where_they_are_not_known(shed):
    """10.3 g known to 3.9 %, 0.40 g, is 10.3 g: the first digit of the uncertainty is its last. To 20 % it is 10 g."""
    assert Numbers(shed).shown("buffer.cycle_mass").workshop == "10.3\u00a0g"
    loose = shed.with_inputs({"buffer.volume": "10 ± 2.5 L"})
    assert Numbers(loose).shown("buffer.cycle_mass").workshop == "10\u00a0g"
    exact = Plant.load(SHED).graph
    assert Numbers(exact).shown("stack.hydrogen_normal_flow").workshop == "6.63\u00a0NL/min"
    assert Numbers(shed).shown("stack.hydrogen_normal_flow").workshop == "6.6\u00a0NL/min"


def test_more_digits_than_known_are_not_even_shown_when_asked_for(shed):
    assert Numbers(shed).shown("stack.hydrogen_normal_flow", 5, "NL/min").workshop == "6.6\u00a0NL/min"


def test_the_explanation_names_the_largest_contributor_and_shows_no_digit_too_many(shed):
    """1.5 % of 6.63 NL/min is 0.10 NL/min."""
    text = explain(shed, "stack.hydrogen_normal_flow").splitlines()
    assert text[0] == "stack.hydrogen_normal_flow = 6.6\u00a0NL/min"
    assert any("standard uncertainty 1.5" in line and "most of it from stack.current" in line for line in text)


def test_a_plant_without_stated_uncertainties_explains_none():
    assert "standard uncertainty" not in explain(Plant.load(SHED).graph, "stack.hydrogen_normal_flow")


# Measured points.


def described(tmp_path, points):
    """The shed with other points of polarisation."""
    folder = tmp_path / "shed"
    folder.mkdir(parents=True)
    for path in SHED.glob("*.yml"):
        text = path.read_text("utf-8")
        for old, new in points.items() if path.name == "plant.yml" else ():
            assert old in text
            text = text.replace(old, new)
        (folder / path.name).write_text(text, "utf-8")
    return folder


def test_a_measured_point_carries_its_uncertainty_into_the_voltage(tmp_path):
    """At 60 A over 50 cm² the stack is at the point of 1.2 A/cm² itself: what that voltage is uncertain by, it is."""
    folder = described(tmp_path, {"[1.2 A/cm2, 1.99 V]": "[1.2 A/cm2, 1.99 ± 0.02 V]"})
    graph = Plant.load(folder).graph
    assert graph.uncertainty("stack.cell_voltage") == (pytest.approx(0.02, rel=1e-6), "stack.polarisation")
    assert graph.uncertainty("stack.voltage")[0] == pytest.approx(16 * 0.02, rel=1e-6)
    assert "most of it from stack.polarisation" in explain(graph, "stack.voltage")


def test_points_are_uncertain_independently(tmp_path):
    """Each point moved by itself in the description, there and back, and the halves of both moves added in squares."""
    between = {"current: 60 A": "current: 55 A"}
    points = {"[1.2 A/cm2, 1.99 V]": (1.97, 2.01), "[1.0 A/cm2, 1.92 V]": (1.90, 1.94)}
    halves = []
    for point, (low, high) in points.items():
        x = point.split(",")[0]
        moved = [
            Plant.load(described(tmp_path / f"{x[1:4]}_{volt}", {**between, point: f"{x}, {volt} V]"})).graph
            for volt in (low, high)
        ]
        halves.append((moved[1]["stack.cell_voltage"].si - moved[0]["stack.cell_voltage"].si) / 2)
    stated = {point: point.replace(" V]", " ± 0.02 V]") for point in points}
    graph = Plant.load(described(tmp_path / "stated", {**between, **stated})).graph
    assert graph.uncertainty("stack.cell_voltage")[0] == pytest.approx(math.hypot(*halves), rel=1e-6)


def test_only_the_second_value_of_a_point_may_be_uncertain(tmp_path):
    folder = described(tmp_path, {"[1.2 A/cm2, 1.99 V]": "[1.2 ± 0.1 A/cm2, 1.99 V]"})
    with pytest.raises(Faults, match="only the second value of a point may carry ±"):
        load(folder)


def test_a_plant_that_cannot_be_evaluated_beside_an_uncertain_entry_is_told(tmp_path):
    """The polarisation of the shed was measured from 0.02 to 1.4 A/cm², 1 to 70 A over 50 cm²."""
    folder = described(tmp_path, {"current: 60 A": "current: 60 ± 65 A"})
    with pytest.raises(Faults, match=r"stack\.\w+: "):
        Plant.load(folder)
