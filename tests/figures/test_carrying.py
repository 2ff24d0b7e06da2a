"""What a preview carries over an edit of a description is what reading the plant anew would compute."""

import shutil
from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.quantities import Faults

DESIGNS = Path(__file__).parents[2] / "docs" / "designs"
FORMER = Plant.load(DESIGNS / "bench", DESIGNS.parents[1])

EDITS = {
    "a number": ("plant.yml", "cells: 5", "cells: 6"),
    "a number of the network": ("network.yml", "bore: 10 mm", "bore: 11 mm"),
    "a line that moves all below it": ("plant.yml", "format: 1\n", "format: 1\n# moved\n\n"),
    "the height of the place": ("plant.yml", "altitude: ", "altitude: 1"),
    "a title": ("plant.yml", "title: ", "title: Other "),
    "a price": ("parts.yml", "unit_price: ", "unit_price: 1"),
    "a procedure": ("procedures.yml", "title: ", "title: Other "),
}  # fmt: skip


def _edited(folder: Path, file: str, found: str, instead: str) -> Path:
    shutil.copytree(DESIGNS / "bench", folder / "bench")
    path = folder / "bench" / file
    text = path.read_text(encoding="utf-8")
    assert found in text
    path.write_text(text.replace(found, instead, 1), encoding="utf-8")
    return folder / "bench"


def _known(plant: Plant) -> dict[str, object]:
    figures = plant.graph.figures
    return {name: plant.graph[name] for name in plant.graph if name not in figures or not figures[name].late}


@pytest.mark.parametrize("edit", EDITS.values(), ids=EDITS.keys())
def test_what_is_carried_over_an_edit_is_what_would_be_computed(tmp_path, edit):
    folder = _edited(tmp_path, *edit)
    carried, anew = Plant.load(folder, tmp_path, FORMER), Plant.load(folder, tmp_path)
    assert _known(carried) == _known(anew)
    assert carried.digest == anew.digest


def test_an_edit_computes_its_descendants_alone(tmp_path):
    """What could not be compared is computed too: it is little."""
    plant = Plant.load(_edited(tmp_path, *EDITS["a number"]), tmp_path, FORMER)
    _known(plant)
    carried = plant.graph
    computed = {name for name in carried.figures if name in carried._values} - {
        name for name, value in FORMER.graph._values.items() if carried._values.get(name) is value
    }
    below = carried.descendants(["stack.cells"])
    assert computed & below
    assert len(computed - below) < 0.02 * len(carried.figures)


def test_a_figure_that_an_edit_makes_impossible_is_told_as_ever(tmp_path):
    folder = _edited(tmp_path, "plant.yml", "\n  current: 25 A", "\n  current: 60 A")
    told = []
    for former in (None, FORMER):
        try:
            Plant.load(folder, tmp_path, former)
        except Faults as error:
            told.append([str(one) for one in error])
        else:
            told.append([])
    assert told[0], "the edit is impossible"
    assert told[0] == told[1]
