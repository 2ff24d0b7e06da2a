"""
The highest pressure that a single failure brings: as figures of the graph, and as rows for a page.

The answers are those of the shed, worked by hand from what its files say; the list of failures is common practice.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from macros.figures.credible import Credible
from macros.figures.graph import Graph, read_paths
from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant, entries_of, figures_of
from macros.figures.single_failures import RUN, highest_brought, single_failures
from macros.network.lineups import Lineups
from macros.network.piping import Piping
from macros.network.pressures import Pressures
from tests.description.plants import ROOT

PLANTS = ("bench", "farm", "shed")


@pytest.fixture(scope="module")
def plants() -> dict[str, Plant]:
    return {name: Plant.load(ROOT / "docs/designs" / name, ROOT) for name in PLANTS}


@pytest.fixture(scope="module")
def shed(plants: dict[str, Plant]) -> Plant:
    return plants["shed"]


def highest(graph: Graph, tag: str) -> float:
    """In bar(g)."""
    value = graph[f"safety.single_failure.{tag}.highest_pressure"]
    return (float(value.si) - float(graph["site.atmosphere"].si)) / 1e5


def test_what_a_failure_brings_is_what_holds_it(shed: Plant) -> None:
    """
    A regulator failed open meets its relief: 1.0 × 1.15 = 1.15 bar(g). The second is fed at the lock-up of the first,
    0.5 + 0.15. The buffer behind its leaking valve stands at its relief, 30 × 1.13 = 33.9. A booster whose valves leak
    lets the high side back, at 65 × 1.13 = 73.45.
    """
    for tag, answer in (("pr1", 1.15), ("pr2", 0.65), ("nr1", 33.9), ("bo1", 73.45), ("ar1", 8.0)):
        assert highest(shed.graph, tag) == pytest.approx(answer, rel=1e-6), tag


def test_the_drive_of_the_booster_changes_what_its_failure_brings(shed: Plant) -> None:
    """On a drive of 4 bar(g) it stalls at 12 × 4 = 48, below its relief; nothing else of the drive is read."""
    lower = shed.graph.with_inputs({"boosters.1.drive_pressure_highest": "4 bar(g)"})
    assert highest(lower, "bo1") == pytest.approx(48.0, rel=1e-6)
    assert highest(lower, "pr1") == pytest.approx(1.15, rel=1e-6)


def test_the_setting_of_a_relief_changes_what_it_holds(shed: Plant) -> None:
    lower = shed.graph.with_inputs({"items.rv5.set_pressure": "0.8 bar(g)"})
    assert highest(lower, "pr1") == pytest.approx(0.8 * 1.15, rel=1e-6)


def test_the_graph_goes_through_the_same_failures_as_the_line_ups(plants: dict[str, Plant]) -> None:
    for plant in plants.values():
        tags = [row.tag for row in single_failures(plant) if row.tag]
        for tag, pressure_pa in highest_brought(lineups_of(plant), tags).items():
            assert plant.graph[f"safety.single_failure.{tag.lower()}.highest_pressure"].si == pressure_pa


def test_every_item_that_may_fail_has_its_figure(plants: dict[str, Plant]) -> None:
    for plant in plants.values():
        tags = {row.tag for row in single_failures(plant)} - {""}
        assert len(tags) > 15
        for tag in tags:
            value = plant.graph[f"safety.single_failure.{tag.lower()}.highest_pressure"]
            assert math.isfinite(value.si)
            assert value.title
            assert value.source
            assert read_paths(value) == {RUN}


class Reading:
    """Numbers of a graph by path; remembers which were read."""

    def __init__(self, graph: Graph) -> None:
        self.graph = graph
        self.paths: set[str] = set()

    def __call__(self, path: str) -> float:
        self.paths.add(path)
        return float(self.graph[path].si)


@pytest.mark.parametrize("name", PLANTS)
def test_the_run_declares_what_it_reads(plants: dict[str, Plant], name: str) -> None:
    """Both ways: no path is declared in vain, none is read in secret."""
    plant = plants[name]
    reading = Reading(plant.graph)
    known = frozenset(path for path in plant.graph if "single_failure" not in path)
    Credible(plant.description, plant.network, known).pressures(reading)
    assert reading.paths == set(plant.graph.inputs_of(RUN))


def test_nothing_but_the_pressures_decides_what_is_reached(shed: Plant) -> None:
    """What is read from the network beside them would not move with other inputs: without them nothing is left."""
    bare = Lineups(Piping(shed.network, Pressures(101325.0)), shed.description.procedures)
    for name in bare.file.states:
        assert bare.state(name).reached.arrivals == {}, name


def test_they_wait_until_something_asks(shed: Plant) -> None:
    graph = Graph(entries_of(shed.description), figures_of(shed.description))
    late = [name for name, one in graph.figures.items() if one.late]
    assert len(late) > 30
    assert all("single_failure" in name for name in late)


def test_a_pressure_without_limit_is_told_in_words(shed: Plant) -> None:
    """With a relief too small for the stack nothing caps it: no number may stand there."""
    bare = shed.graph.with_inputs({f"items.{tag}.orifice_bore": "0.1 mm" for tag in ("rv1", "rv2")})
    value = bare["safety.single_failure.v10.highest_pressure"]
    assert not value.is_number
    assert value.show() == "a pressure without limit"


# --- rows for a page


def test_the_rows_tell_everything_that_practice_lists(shed: Plant) -> None:
    """The list of single failures: common practice, no source."""
    rows = {(row.tag, row.how): row for row in single_failures(shed)}
    wanted = {
        ("ST1", "ruptured"), ("NR1", "leaks_back"), ("NR2", "leaks_back"), ("DR1", "stuck_open"),
        ("PR1", "fails_open"), ("AR1", "fails_open"), ("PS1", "stuck"), ("AV5", "passes"), ("V10", "opened_wrongly"),
        ("V1", "shut_wrongly"), ("BO1", "checks_leak"), ("BO1", "seal_leaks"), ("ST1", "catalyst_dead"),
        ("", "power_lost"), ("", "drive_air_lost"), ("", "water_lost"), ("", "ventilation_lost"),
    }  # fmt: skip
    assert wanted <= rows.keys()
    for row in rows.values():
        assert row.lost.endswith(".")
        assert row.told
        assert set(row.highest) == set(shed.network.sections)
        assert row.failed == ()
    assert rows["ST1", "ruptured"].holds == ("VT3",)
    assert "oxygen" in rows["ST1", "ruptured"].rises
    assert rows["PR1", "fails_open"].holds == ("RV5",)
    assert rows["PS1", "stuck"].holds[:1] == ("PT1",)
    dead = rows["ST1", "catalyst_dead"]
    assert dead.holds == ("AT1",)
    assert dead.figure is not None
    assert shed.graph[dead.figure].si > shed.graph["stack.hydrogen_in_oxygen"].si


def test_the_rows_are_worked_out_once_for_a_plant(shed: Plant) -> None:
    assert single_failures(shed) is single_failures(shed)


def test_a_part_too_weak_for_a_failure_is_told_in_its_row(shed: Plant) -> None:
    barely = shed.graph.entries["items.pr2.set_pressure"].value
    weak = replace(shed.network.items["BU1"], ratings={"in": barely})
    network = replace(shed.network, items={**shed.network.items, "BU1": weak})
    rows = {(row.tag, row.how): row for row in single_failures(replace(shed, network=network))}
    (failed,) = rows["PR2", "fails_open"].failed
    assert failed.where == "BU1"
