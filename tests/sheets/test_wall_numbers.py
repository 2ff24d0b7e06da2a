"""Every number on a sheet is one that the handbook shows, with the same digits, in one unit system."""

import re

import pytest

from macros.pages.numbers import Numbers
from macros.quantities import numbers_with_units

KEYS = [
    ("bench", "a4", "workshop"),
    ("farm", "a3", "workshop"),
    ("shed", "a3", "workshop"),
    ("shed", "a4", "us"),
    ("shed", "a4", "si"),
]


def alike(text):
    return re.sub(r"\s+", " ", text).strip()


def published(plant, system):
    """Everything that the plant's graph shows in a system, spaces alike."""
    numbers = Numbers(plant.graph)
    for name in plant.graph:
        value = plant.graph[name]
        if value.is_number:
            yield alike(getattr(numbers.shown(name), system))
        elif value.kind == "table":
            yield from (alike(getattr(cell, system)) for row in value.si.shown() for cell in row)
    if system == "workshop":
        for trip in plant.description.plant.trips:
            yield from (alike(text) for text in (trip.alarm, trip.trip) if text)


@pytest.mark.parametrize("key", KEYS, ids="-".join)
def test_every_quantity_on_the_sheet_is_published(plants, sheets, key):
    name, _, system = key
    known = set(published(plants[name], system))
    found = [alike(each.text) for each in numbers_with_units(sheets[key].text.replace("†", " "))]
    assert len(found) > 40
    strange = [text for text in found if text not in known]
    # The trips of the shed type some limits as quantities; in other units they are the author's number converted.
    typed = [text for trip in plants[name].description.plant.trips for text in (trip.alarm, trip.trip) if text]
    assert len(strange) <= (0 if system == "workshop" else len(typed)), strange


@pytest.mark.parametrize("key", KEYS, ids="-".join)
def test_each_limit_stands_on_the_sheet_as_the_graph_shows_it(plants, sheets, key):
    name, _, system = key
    plant = plants[name]
    numbers = Numbers(plant.graph)
    text = alike(sheets[key].text)
    for row in plant.description.wall.limits.rows:
        assert alike(getattr(numbers.shown(row.figure), system)) in text


@pytest.mark.parametrize(("key", "foreign"), [
    (("shed", "a4", "us"), ("bar(g)", "°C", "NL/min", " K ")), (("shed", "a4", "si"), ("bar(g)", "psi", "°F", "scf")),
    (("shed", "a4", "workshop"), ("psi", "°F", "kPa", "scf")),
])  # fmt: skip
def test_one_system_of_units_and_no_other(sheets, key, foreign):
    text = sheets[key].text
    assert not [unit for unit in foreign if unit in text]


def test_what_rests_on_an_assumed_value_is_marked_and_the_rest_is_not(plants, sheets):
    plant, text = plants["shed"], alike(sheets["shed", "a4", "workshop"].text)
    numbers = Numbers(plant.graph)
    for row in plant.description.wall.limits.rows:
        shown = alike(numbers.shown(row.figure).workshop)
        marked = f"{shown}†" in text.replace(" †", "†")
        assert marked == bool(plant.graph[row.figure].assumed), row.figure
    assert "assumed" in text


def test_gauge_readings_are_those_of_the_graph(plants, sheets):
    plant, text = plants["farm"], alike(sheets["farm", "a4", "workshop"].text)
    for bank in plant.description.plant.banks:
        readings = [row[1].workshop.split("\u00a0")[0] for row in plant.graph[f"banks.{bank}.gauge_table"].si.shown()]
        assert " ".join(readings) in text


def test_a_plant_without_banks_has_no_readings_to_stop_at(sheets):
    assert "Stop filling" in sheets["shed", "a4", "workshop"].text
    assert "Stop filling" not in sheets["bench", "a4", "workshop"].text
