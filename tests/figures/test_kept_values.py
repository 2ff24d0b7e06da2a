"""What a graph keeps over a change of inputs is what it would compute again."""

from pathlib import Path

import pytest

from macros.figures.graph import Graph
from macros.figures.plant import Plant

FARM = Plant.load(Path(__file__).parents[2] / "docs" / "designs" / "farm").graph


@pytest.mark.parametrize(
    "change",
    [
        {"stack.cells": "38"},
        {"site.altitude": "300 m"},
        {"banks.high.fill_pressure": "130 bar(g)", "stack.current": "110 A"},
    ],
    ids=", ".join,
)
def test_what_is_kept_over_a_change_is_what_would_be_computed_again(change: dict[str, str]) -> None:
    moved = FARM.with_inputs(change)
    anew = Graph(moved.entries.values(), moved.figures.values())
    names = [name for name, one in anew.figures.items() if one.kind != "run" and not one.late]
    assert len(names) > 500
    assert [moved[name] for name in names] == [anew[name] for name in names]


def test_a_change_of_the_atmosphere_keeps_nothing_and_any_other_keeps_most() -> None:
    for name, one in FARM.figures.items():
        if not one.late:
            FARM[name]
    assert FARM.with_inputs({"site.altitude": "300 m"})._values == {}
    assert len(FARM.with_inputs({"stack.cells": "38"})._values) > 0.7 * len(FARM._values)
