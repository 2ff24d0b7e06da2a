"""A description in which nothing was wrong is not checked again as long as nothing of it changes."""

import shutil
from pathlib import Path

import pytest

from macros.description import loading
from macros.description.loading import load
from macros.quantities import Faults

ROOT = Path(__file__).parents[2]


@pytest.fixture
def plant(tmp_path, monkeypatch):
    monkeypatch.setenv("GASWRIGHT_CACHE", str(tmp_path / "kept"))
    return Path(shutil.copytree(ROOT / "macros/command/starter_plant", tmp_path / "own"))


@pytest.fixture
def checked(monkeypatch):
    """How often a description was checked."""
    times = []
    true = loading.crossing_faults
    monkeypatch.setattr(loading, "crossing_faults", lambda naming: times.append(1) or true(naming))
    return times


def _edit(plant, file, before, after):
    path = plant / file
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")


def test_it_is_checked_once_and_reads_the_same(plant, checked):
    first, second = load(plant), load(plant)
    assert len(checked) == 1
    assert first.contents == second.contents
    assert first.entries() == second.entries()


@pytest.mark.parametrize("file", ["plant.yml", "network.yml", "procedures.yml", "parts.yml", "record.yml", "wall.yml"])
def test_an_edit_of_any_file_is_checked(plant, checked, file):
    load(plant)
    path = plant / file
    path.write_text(f"{path.read_text(encoding='utf-8')}# seen\n", encoding="utf-8")
    load(plant)
    assert len(checked) == 2


def test_what_an_edit_breaks_is_told_every_time(plant):
    load(plant)
    _edit(plant, "network.yml", "RV1", "RV9")
    told = []
    for _ in range(2):
        with pytest.raises(Faults) as found:
            load(plant)
        told.append(list(map(str, found.value)))
    assert told[0]
    assert told[0] == told[1]


def test_nothing_is_kept_where_nothing_may_be(plant, checked, monkeypatch):
    monkeypatch.setenv("GASWRIGHT_CACHE", "")
    load(plant)
    load(plant)
    assert len(checked) == 2
