"""Stages of gas treatment: each has what its kind needs, told with file, line and key."""

import shutil
from pathlib import Path

import pytest

from macros.description.loading import load
from macros.quantities import Faults

SHED = Path(__file__).parents[2] / "docs" / "designs" / "shed"


def faults_with(tmp_path, old, new):
    """What is wrong with the shed once a text of its plant.yml is another."""
    folder = tmp_path / "shed"
    shutil.copytree(SHED, folder)
    plant = folder / "plant.yml"
    text = plant.read_text("utf-8")
    assert text.count(old) == 1
    plant.write_text(text.replace(old, new), "utf-8")
    with pytest.raises(Faults) as refusal:
        load(folder)
    return [(fault.key, fault.message) for fault in refusal.value]


def test_a_desiccant_without_its_regeneration_is_refused(tmp_path):
    """Without it nobody knows how dry the gas leaves: no figure may quietly be missing."""
    lines = SHED.joinpath("plant.yml").read_text("utf-8").splitlines(keepends=True)
    line = next(each for each in lines if "regeneration_dew_point" in each)
    found = faults_with(tmp_path, line, "")
    assert found == [
        (
            "drying.3.regeneration_dew_point",
            "the key is missing (Dew point of the air or gas that regenerates it, at atmospheric pressure);"
            " a desiccant needs it.",
        )
    ]


def test_a_coil_without_coolant_is_refused(tmp_path):
    found = faults_with(tmp_path, "coolant_temperature: 4 °C, ", "")
    assert [key for key, _ in found] == ["drying.4.coolant_temperature"]


def test_gas_cannot_leave_a_coil_colder_than_its_coolant(tmp_path):
    found = faults_with(tmp_path, "coolant_temperature: 4 °C", "coolant_temperature: 12 °C")
    assert [key for key, _ in found] == ["drying.4.temperature"]
    assert "10 °C is not above drying.4.coolant_temperature" in found[0][1]
