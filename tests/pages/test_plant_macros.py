"""What a guide shows of the plant itself: procedures, items, trips; and what it is told where the plant lacks them."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.network.proofs import Failed
from macros.pages import procedure_html
from macros.pages.fragments import FragmentError
from macros.pages.handbook import Handbook, Page
from macros.pages.macros import call
from macros.pages.stands import lineups, steps_of
from tests.pages.small_plant import parsed

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def bench() -> Plant:
    return Plant.load(ROOT / "docs/designs/bench", ROOT)


@pytest.fixture(scope="module")
def handbook(bench: Plant) -> Handbook:
    return Handbook.of(ROOT / "docs", [bench])


@pytest.fixture
def page(bench: Plant, handbook: Handbook):
    return handbook.context(Page("bench/any.md", "overview", bench))


def html_of(page, name: str, *given: str) -> str:
    return call(name, given, {}, page).rich


def test_a_procedure_tells_hazards_and_needs_before_the_first_step(bench: Plant, page) -> None:
    html = html_of(page, "lineup", "change_desiccant")
    procedure = bench.description.procedures.procedures["change_desiccant"]
    places = [html.index(text) for text in ("What can hurt", "Have at hand", 'class="gw-steps"')]
    assert places == sorted(places)
    assert html.count("<li>", html.index("What can hurt"), html.index("Have at hand")) == len(procedure.hazards)
    assert html.count('class="gw-step"') == len(procedure.steps)
    assert html.count('<svg class="gw-schematic') == len(procedure.steps) + 1
    parsed(html)


def test_every_drawing_of_a_procedure_uses_the_ground_of_the_first(page) -> None:
    html = html_of(page, "lineup", "normal_stop")
    assert html.count('<g id="lineup-normal_stop-ground">') == 1
    assert html.count('<use href="#lineup-normal_stop-ground"/>') == html.count('class="gw-step"')
    ids = re.findall(r'\bid="([^"]+)"', html)
    assert len(ids) == len(set(ids))


def test_the_table_of_valves_follows_the_line_ups(bench: Plant, page) -> None:
    html = html_of(page, "valve_table", "change_desiccant")
    proved = steps_of(bench, "change_desiccant")
    rows = re.findall(r"<tr><th scope=\"row\">.*?>([A-Z]+\d+)<.*?</th>(.*?)</tr>", html)
    moved = {tag for each in proved for tag in each.changed}
    assert {tag for tag, _ in rows} == moved
    for tag, cells in rows:
        said = re.findall(r"<td( class=\"gw-changed\")?>(?:<strong>)?(\w+)", cells)
        assert [word for _, word in said] == [each.lineup.reached.stand.positions[tag] for each in proved]
        assert [bool(mark) for mark, _ in said] == [tag in each.changed for each in proved]


def test_a_procedure_that_fails_its_proofs_is_refused_in_sight(bench: Plant, page, monkeypatch) -> None:
    failed = Failed("within_ratings", "DC1", "made-up fault of DC1")
    proved = steps_of(bench, "normal_stop")
    spoilt = [*proved[:-1], replace(proved[-1], failed=(failed,))]
    monkeypatch.setattr(procedure_html, "steps_of", lambda *_: spoilt)
    html = procedure_html._Procedure(bench, "normal_stop", page).fragment("spoilt").rich
    assert "gw-refused" in html
    assert html.index(f"Step {len(spoilt) - 1}: made-up fault of DC1") < html.index('class="gw-steps"')


def test_an_item_leads_to_its_row(bench: Plant, page) -> None:
    shown = call("item", ("V1",), {}, page)
    title = bench.network.items["V1"].title
    assert shown.plain == "V1"
    assert 'href="drawing.html#item-v1"' in shown.rich and title in shown.rich and "hand valve" in shown.rich
    assert "<a" not in shown.marked
    with pytest.raises(FragmentError, match="the plant bench has no item V999"):
        call("item", ("V999",), {}, page)


def test_a_procedure_that_the_plant_lacks_is_told_with_what_to_write(page) -> None:
    with pytest.raises(FragmentError) as told:
        call("lineup", ("fill_vehicle",), {}, page)
    assert 'plant.has("procedures.fill_vehicle")' in str(told.value)
    assert "change_desiccant" in str(told.value)
    assert page.has("procedures.change_desiccant") and not page.has("procedures.fill_vehicle")


def test_the_trips_say_what_the_description_says(bench: Plant, page) -> None:
    html = html_of(page, "trips")
    parsed(html)
    body = html[html.index("<tbody>") : html.index("</tbody>")]
    rows = body.split("</tr>")[:-1]
    trips = bench.description.plant.trips
    assert len(rows) == len(trips)
    for row, trip in zip(rows, trips, strict=True):
        assert row.count("gw-stops") == len(trip.stops)
        assert row.count("gw-shuts") == len(trip.shuts)
        assert row.count("gw-opens") == len(trip.opens)
    moved = {tag for trip in trips for tag in (*trip.shuts, *trip.opens)}
    fails = [bench.network.items[tag].settings.get("fail_position") for tag in bench.network.items if tag in moved]
    foot = html[html.index("<tfoot>") : html.index("</tfoot>")]
    assert re.findall(r"<td>(\w+)</td>", foot) == [
        {"open": "opens", "closed": "closes", "stays": "stays"}[one] for one in fails
    ]


def test_every_procedure_of_the_plant_can_be_shown_and_stays_small(bench: Plant, page) -> None:
    for name in lineups(bench).file.procedures:
        html = html_of(page, "lineup", name)
        assert len(html) < 400_000, name
