"""`gaswright review`: its exit, the verdict first, all of it as data."""

import json
import shutil

import pytest

from macros.command import main
from macros.review import RULES


@pytest.fixture(scope="module")
def refused_bench(tmp_path_factory):
    """The bench with its let-down valve falling shut when the power is lost: hydrogen then crosses at rest."""
    folder = tmp_path_factory.mktemp("refused") / "docs/designs/bench"
    shutil.copytree("docs/designs/bench", folder)
    network = folder / "network.yml"
    text = network.read_text("utf-8")
    assert "fail_position: open" in text
    network.write_text(text.replace("fail_position: open", "fail_position: closed"), "utf-8")
    return folder


def test_a_plant_that_nothing_fails_passes_and_says_so_first(capsys):
    assert main(["review", "bench"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("Marram Lane teaching bench: nothing fails.")
    assert not any(line.startswith("Failed (") for line in lines)
    assert not any(line.startswith("Passed (") for line in lines)
    assert "Local codes and licensed practice come first." in lines[-1]


def test_what_passed_is_told_on_demand_and_every_rule_is_accounted_for(capsys):
    assert main(["review", "bench", "--all"]) == 0
    shown = capsys.readouterr().out
    assert [name for name in RULES if f"  {name}" not in shown] == []


def test_a_failed_proof_refuses_a_plant_with_its_place_and_message(refused_bench, capsys):
    assert main(["review", str(refused_bench)]) == 1
    shown = capsys.readouterr().out
    assert "refused." in shown.splitlines()[0]
    assert "Failed (" in shown
    assert "hydrogen crosses" in shown


def test_as_data_it_says_the_same(refused_bench, capsys):
    assert main(["review", str(refused_bench), "--json"]) == 1
    data = json.loads(capsys.readouterr().out, parse_constant=pytest.fail)
    assert data["refused"] is True
    assert data["failed_proofs"]
    assert {each["verdict"] for each in data["findings"]} <= {"passed", "broken", "unknown"}
    assert set(data["counts"]) == {"failed", "warned", "open", "waived", "passed"}


def test_an_invalid_plant_is_not_reviewed(tmp_path, capsys):
    folder = tmp_path / "bench"
    shutil.copytree("docs/designs/bench", folder)
    plant = folder / "plant.yml"
    plant.write_text(plant.read_text("utf-8").replace("cells:", "cels:", 1), "utf-8")
    assert main(["review", str(folder)]) == 2
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "stack.cels" in captured.err
