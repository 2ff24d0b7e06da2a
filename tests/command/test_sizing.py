"""`gaswright size`: what a terminal shows, what data hold; a wish that cannot be read costs nothing but a message."""

import json

import pytest

from macros.command import main

SIZE = ["size", "docs/designs/shed"]


def test_size_shows_the_entry_the_figures_and_the_working(capsys):
    """3 kg / (0.832 kg / 4 cylinders) = 14.4."""
    assert main([*SIZE, "--wish", "banks.store.mass=3 kg", "--vary", "banks.store.cylinders"]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith("banks.store.mass = 3.12\u00a0kg, before 0.832\u00a0kg")
    assert said[1] == "banks.store.cylinders = 15, before 4"
    assert any("27.7\u00a0kWh(lower)" in line and line.strip().startswith("banks.store.energy_lower") for line in said)
    assert any("docs/designs/shed/plant.yml:" in line for line in said), "the working goes down to the entries"
    assert "Local codes and licensed practice come first." in said[-1]


def test_what_passes_a_rating_makes_it_exit_with_1(capsys):
    assert main([*SIZE, "--wish", "plant.daily_mass=0.22 kg", "--vary", "stack.cells"]) == 1
    said = capsys.readouterr().out
    assert "power.cold_voltage = 40.4\u00a0V, allowed 40\u00a0V by power.rectifier_voltage" in said


def test_what_cannot_be_evaluated_any_more_is_said_once(capsys):
    assert main([*SIZE, "--wish", "plant.daily_mass=0.5 kg", "--vary", "stack.cells"]) == 1
    said = capsys.readouterr().out
    assert said.count("the stack makes more than the booster moves") == 1
    assert "banks.store.fill_time, " in said


def test_size_as_data(capsys):
    wishes = ["--wish", "banks.store.mass=1 kg", "--wish", "plant.daily_mass>=0.1 kg"]
    assert main([*SIZE, *wishes, "--vary", "banks.store.cylinders", "stack.cells", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert [wish["relation"] for wish in found["wishes"]] == ["=", ">="]
    (entry,) = found["entries"]
    assert (entry["entry"], entry["before"]["si"], entry["after"]["si"]) == ("banks.store.cylinders", 4, 5)
    assert found["failed"] == {}
    assert "banks.store.mass" in {one["figure"] for one in found["changed"]}


def test_a_wish_already_met_needs_nothing(capsys):
    assert main([*SIZE, "--wish", "plant.daily_mass>=0.1 kg", "--vary", "stack.cells"]) == 0
    assert "Nothing needs to move." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("wish", "message"),
    [
        ("plant.daily_mass", "is no wish"),
        ("plant.daily_mass=3 L", "wanted is a mass"),
        ("plant.day=3 kg", "the nearest is plant.daily_mass"),
        ("banks.store.fill_time=1 h", "cannot be reached; the best is"),
    ],
)
def test_a_wish_that_cannot_be_met_is_told_on_standard_error(capsys, wish, message):
    assert main([*SIZE, "--wish", wish, "--vary", "stack.cells"]) == 2
    told = capsys.readouterr()
    assert message in told.err
    assert told.out == ""
