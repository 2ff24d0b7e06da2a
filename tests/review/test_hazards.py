"""Hazardous variants of the plants: each is failed by the rule meant for it, by name, while the plant itself passes it."""

import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest

from macros.description.loading import load
from macros.figures.plant import Plant
from macros.review import RULES
from macros.review.reviewed import Reviewed
from macros.review.reviewing import findings_of
from tests.review.looking import DESIGNS, TODAY, found

HAZARDS = tomllib.loads((Path(__file__).parent / "hazards.toml").read_text("utf-8"))["hazard"]


def made(hazard: dict[str, Any], folder: Path) -> Path:
    """A copy of the plant with the fault in it."""
    target = folder / hazard["plant"]
    shutil.copytree(DESIGNS / hazard["plant"], target)
    for edit in hazard["edits"]:
        file = target / edit["file"]
        text = file.read_text("utf-8")
        start = text.index(edit["after"])
        place = text.index(edit["find"], start)
        file.write_text(text[:place] + edit["put"] + text[place + len(edit["find"]) :], "utf-8")
    return target


def test_there_are_hazards_of_every_plant_and_no_two_are_one() -> None:
    assert len(HAZARDS) >= 40
    assert {hazard["plant"] for hazard in HAZARDS} == {"bench", "shed", "farm"}
    assert len({hazard["rule"] for hazard in HAZARDS}) == len(HAZARDS)


@pytest.mark.parametrize("hazard", HAZARDS, ids=lambda hazard: hazard["rule"])
def test_the_rule_meant_for_it_fails_the_hazard_and_no_plant_of_the_handbook(
    hazard: dict[str, Any], tmp_path: Path
) -> None:
    rule = RULES[hazard["rule"]]
    assert rule.severity == "fail"
    plant = Plant.of(load(made(hazard, tmp_path)))
    failed = [each for each in findings_of(rule, Reviewed(plant, TODAY)) if each.verdict == "broken"]
    assert failed, f"{hazard['says']}: not seen"
    assert all(each.hint.workshop for each in failed)
    assert all(each.holds for each in found(rule.id, hazard["plant"]))
