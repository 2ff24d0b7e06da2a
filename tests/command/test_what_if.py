"""What the points of a plant tell on the command line, and that a figure that misses the bound is no success."""

import math

import pytest

from macros.command import main, what_if
from macros.figures.axes import Axis
from macros.figures.what_if import Grid, grid_of

BENCH = "docs/designs/bench"
AXIS = Axis("stack.current", (10.0, 25.0, 30.0), (10.0, 20.0, 25.0, 30.0), 2)


@pytest.mark.parametrize(
    ("missed", "status", "told"),
    [
        ({"stack.supply_power": 0.0012, "drying.frost_point": 0.01}, 0, "off by at most 0.12 %, allowed 0.50 %"),
        ({"stack.supply_power": 0.0061, "drying.frost_point": 0.01}, 1, "off by 0.61 %, more than 0.50 %: left out"),
        ({"stack.supply_power": math.inf, "drying.frost_point": 0.01}, 1, "off by what has no answer"),
    ],
)
def test_it_says_how_far_each_figure_is_off(missed, status, told, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("GASWRIGHT_CACHE", str(tmp_path))
    held = {name: (1.0, 2.0, 3.0) for name, off in missed.items() if off in (0.0012, 0.01)}
    grid = Grid((AXIS,), dict.fromkeys(missed, (0,)), held, missed)
    asked = []
    monkeypatch.setattr(what_if, "asked_of", lambda plant: asked.append(plant) or grid)
    assert main(["what-if", BENCH]) == status
    text = capsys.readouterr().out.replace("\u00a0", " ")
    assert "stack.current from 10.0 A to 30.0 A: 3 points, 4 steps" in text
    assert told in text
    assert "drying.frost_point  off by at most 0.010 K, allowed 0.20 K" in text
    # It is kept for the build.
    assert grid_of(asked[0], only_kept=True) == grid
