"""Figures on a grid over inputs: between its points they are what the graph says, outside there is nothing."""

from __future__ import annotations

import itertools
import json
import math
import random
from dataclasses import replace
from pathlib import Path

import pytest
from scipy.interpolate import BarycentricInterpolator

from macros.figures import what_if
from macros.figures.axes import Axis, axes_of
from macros.figures.plant import Plant
from macros.figures.what_if import BOUND, Grid, asked_of, bound_of, grid_of, missed_by

BENCH = Path(__file__).parents[2] / "docs" / "designs" / "bench"


@pytest.fixture(scope="module")
def bench() -> Plant:
    return Plant.load(BENCH, BENCH.parents[2])


@pytest.fixture(scope="module")
def grid(bench: Plant) -> Grid:
    return asked_of(bench)


def test_between_its_points_a_figure_is_what_the_graph_says(bench: Plant, grid: Grid) -> None:
    """Half a percent, and of a temperature a fifth of a kelvin: the bound that the page states."""
    drawn = random.Random(2027)
    places = [tuple(drawn.choice(axis.steps) for axis in grid.axes) for _ in range(25)]
    # The corners are where a cubic has points on one side only.
    places += itertools.product(*((axis.steps[1], axis.steps[-2]) for axis in grid.axes))
    for name in grid.values:
        off = max(missed_by(grid, bench.graph, name, at) for at in places)
        assert 0 < off < bound_of(bench.graph[name]), name
    assert BOUND == 0.005


def test_at_its_own_point_a_plant_is_what_its_pages_say(bench: Plant, grid: Grid) -> None:
    own = [axis.steps[axis.own] for axis in grid.axes]
    for name in grid.values:
        value = bench.graph[name]
        assert replace(value, si=grid.at(name, own)).shown() == value.shown()


def test_what_moves_follows_from_what_is_moved(grid: Grid) -> None:
    paths = [axis.path for axis in grid.axes]
    assert paths == ["stack.current", "stack.cells", "buffer.cut_out"]
    assert grid.moved_by["stack.hydrogen_normal_flow"] == (0, 1, 2)
    # The voltage of a cell knows nothing of how many there are.
    assert grid.moved_by["stack.specific_energy"] == (0, 2)
    assert grid.moved_by["plant.stored_inventory"] == (2,)


def test_whole_numbers_stay_whole(grid: Grid) -> None:
    cells = next(axis for axis in grid.axes if axis.path == "stack.cells")
    assert cells.steps == tuple(float(number) for number in range(3, 8))
    assert all(point.is_integer() for point in cells.points)


def test_a_switch_is_moved_between_where_it_starts_and_its_trip_only(bench: Plant, grid: Grid) -> None:
    cut_out = next(axis for axis in grid.axes if axis.path == "buffer.cut_out")
    assert bench.graph["buffer.cut_in"].si < cut_out.steps[0] < cut_out.steps[-1] < bench.graph["buffer.high_trip"].si


def test_what_has_no_way_to_go_is_not_moved(bench: Plant) -> None:
    """A stack of one cell has no fewer; two members of three steps are the fewest that make a curve."""
    one_cell = replace(bench, graph=bench.graph.with_inputs({"stack.cells": "1"}))
    assert "stack.cells" not in [axis.path for axis in axes_of(one_cell)]
    close = replace(
        bench, graph=bench.graph.with_inputs({"buffer.high_trip": "4.05 bar(g)", "buffer.cut_in": "3.95 bar(g)"})
    )
    assert "buffer.cut_out" not in [axis.path for axis in axes_of(close)]


def test_outside_the_grid_there_is_nothing(grid: Grid) -> None:
    inside = [axis.steps[axis.own] for axis in grid.axes]
    for number, axis in enumerate(grid.axes):
        for beyond in (axis.points[0] * 0.999, axis.points[-1] * 1.001):
            at = [*inside[:number], beyond, *inside[number + 1 :]]
            assert grid.at("stack.hydrogen_normal_flow", at) is None


def test_beside_a_point_without_answer_there_is_nothing() -> None:
    axis = Axis("x", (1.0, 2.0, 4.0, 8.0, 16.0, 32.0), (1.0, 32.0), 0)
    grid = Grid((axis,), {"y": (0,)}, {"y": (1.0, 2.0, 3.0, 4.0, 5.0, None)}, {})
    assert grid.at("y", [3.0]) == pytest.approx(1 + math.log2(3.0))
    assert grid.at("y", [20.0]) is None


def test_it_is_the_cubic_of_another_library_through_the_four_nearest() -> None:
    """scipy's barycentric interpolation of the same four points over the logarithm."""
    points, values = (1.0, 1.7, 2.4, 4.1, 6.0, 9.5), (3.0, -1.0, 4.0, 1.5, 9.0, 2.6)
    grid = Grid((Axis("x", points, points, 0),), {"y": (0,)}, {"y": values}, {})
    for at, first in ((1.3, 0), (2.0, 0), (3.0, 1), (5.0, 2), (7.0, 2), (9.4, 2)):
        held = slice(first, first + 4)
        cubic = BarycentricInterpolator([math.log(one) for one in points[held]], values[held])
        assert grid.at("y", [at]) == pytest.approx(float(cubic(math.log(at))), rel=1e-12)
    assert [grid.at("y", [one]) for one in points] == pytest.approx(values)


def test_a_figure_that_misses_the_bound_is_left_out(bench: Plant, grid: Grid, monkeypatch: pytest.MonkeyPatch) -> None:
    worst = max((name for name in grid.missed if bench.graph[name].kind != "temperature"), key=grid.missed.__getitem__)
    monkeypatch.setattr(what_if, "BOUND", grid.missed[worst] * 0.999)
    monkeypatch.setattr(what_if, "axes_of", lambda _plant: grid.axes)
    monkeypatch.setattr(what_if, "_over", lambda *_: iter(()))
    monkeypatch.setattr(what_if, "missed_by", lambda _grid, _graph, name, _places: grid.missed[name])
    found = asked_of(bench)
    left = found.values
    assert worst not in left
    assert worst in found.missed
    assert left.keys() == {name for name, off in grid.missed.items() if name != worst and off < grid.missed[worst]}


def test_it_is_kept_as_json_and_read_again(
    bench: Plant, grid: Grid, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GASWRIGHT_CACHE", str(tmp_path))
    assert Grid.read(json.loads(json.dumps(grid.data()))) == grid
    assert grid_of(bench, only_kept=True) is None
    asked = []
    monkeypatch.setattr(what_if, "asked_of", lambda plant: asked.append(plant) or grid)
    assert grid_of(bench) == grid_of(bench) == grid_of(bench, only_kept=True) == grid
    assert asked == [bench]
    # Another description, be it by a remark, is another plant.
    contents = bench.description.contents | {"plant.yml": bench.description.contents["plant.yml"] + b"# other\n"}
    assert grid_of(replace(bench, description=replace(bench.description, contents=contents)), only_kept=True) is None
