"""Forms to print: the plant's own limits beside empty fields."""

from importlib import resources
from pathlib import Path

import html5lib
import pytest

from macros.figures.plant import Plant
from macros.pages.fragments import FragmentError, figure_fragment
from macros.pages.handbook import Handbook, Page
from macros.pages.macros import call
from macros.pages.tokens import Tokens
from tests.pages.small_plant import converted

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def context():
    plant = Plant.load(ROOT / "docs/designs/shed", ROOT)
    return Handbook.of(ROOT / "docs", [plant]).context(Page("shed/log.md", "guide", plant))


def rows(page, name, *positional, **named):
    fragment = call(name, positional, named, page)
    tree = html5lib.parse(fragment.rich, namespaceHTMLElements=False)
    return [[" ".join("".join(cell.itertext()).split()) for cell in row] for row in tree.iter("tr")]


def test_every_instrument_stands_in_the_log_with_its_limits(context):
    head, *lines = rows(context, "log_form", 5)
    assert all(len(row) == len(head) == 7 for row in lines)
    told = {line[0].split()[0]: line[1] for line in lines}
    shows = ("pressure_gauge", "transmitter", "gas_detector")
    items = context.plant.network.items
    assert told.keys() == {tag for tag, item in items.items() if item.kind.name in shows}
    assert told["GD1"] == "0.4 % / 1 %"
    assert told["PT1"].endswith("27 bar(g)")
    assert told["LT1"] == "level low, level high"
    assert told["PG3"].startswith("30"), "the relief of the buffer"
    assert told["PG4"].startswith("50"), "the fill pressure of the bank"
    assert told["CT1"] == "1.0 µS/cm"


def test_what_is_to_be_measured_has_its_prediction_and_a_field(context):
    head, *lines = rows(context, "commissioning_form")
    owed = context.plant.description.record.to_measure
    assert len(lines) == len(owed)
    assert [line[3] for line in lines] == [f"± {one.tolerance.text}" for one in owed]
    assert all(line[2] and not line[4] and not line[5] for line in lines)
    assert len(head) == 6


def test_every_trip_has_a_line(context):
    lines = rows(context, "trip_form")[1:]
    trips = context.plant.description.plant.trips
    assert len(lines) == len(trips)
    assert [line[6].split(", ") for line in lines] == [[*trip.shuts, *trip.opens] for trip in trips]


def test_devices_and_sections_have_their_figures_and_the_fields_asked_for(context):
    head, *lines = rows(context, "device_form", "relief_valve", "set_pressure, tested", "Opened at, By")
    assert head[-2:] == ["Opened at", "By"]
    assert {line[0].split()[0] for line in lines} == {"RV1", "RV2", "RV3", "RV4", "RV5", "RV6"}
    assert all(line[1] and line[2] and line[3:] == ["", ""] for line in lines)
    assert "Gas train" not in rows(context, "section_form", "leak_test_allowance", "Fall")[0]


def test_what_cannot_be_filled_in_is_refused(context):
    assert len(rows(context, "form", "Date, What", 3)) == 4
    for name, positional in (
        ("form", (" ,", 3)),
        ("form", ("Date", 400)),
        ("device_form", ("back_pressure_regulator", "rating", "By")),
        ("section_form", ("nothing", "By")),
    ):
        with pytest.raises(FragmentError):
            call(name, positional, {}, context)


def test_sections_rooms_lines_and_devices_are_called_by_their_titles(context):
    def called(part, name):
        head, *lines = rows(context, "each_table", part, name)
        return {*head[1:], *(line[0] for line in lines)}

    network = context.plant.network
    assert network.sections["bank"].title in called("safety", "highest_pressure")
    assert f"RV1 {network.items['RV1'].title}" in called("safety.relief", "capacity")
    assert f"L1 {network.lines['L1'].title}" in called("safety.line", "rating")
    assert "The shed" in called("safety.rooms", "inventory")


def test_the_reading_to_stop_at_stands_in_a_table_by_temperature(context):
    """A fill of 50 bar(g) at 15 °C reads less by about a kelvin's share, 1 in 288, for each kelvin of cold."""
    head, *lines = rows(context, "tables_of", "banks", "gauge_table")
    assert len(head) == 2
    told = {line[0]: line[1] for line in lines}
    assert told["15 °C"].startswith("50")
    warm, cold = (float(told[day].split()[0]) for day in ("15 °C", "0 °C"))
    assert (warm - cold) / (warm + 1.013) == pytest.approx(15 / 288, rel=0.1)
    with pytest.raises(FragmentError):
        call("tables_of", ("banks", "mass"), {}, context)


# --- on paper


@pytest.fixture(scope="module")
def paper(browser, context):
    """A sentence with two numbers and a form, by the rules of paper."""
    tokens = Tokens("x.md")
    first, second = (tokens.add(figure_fragment(context, name)) for name in ("stack.current", "stack.power"))
    form = tokens.add(call("device_form", ("relief_valve", "set_pressure", "Opened at"), {}, context))
    html = converted(f"At {first} and {second}.\n\n{form}", tokens)
    style = (resources.files("macros.site") / "assets/print.css").read_text("utf-8")
    page = browser.new_page()
    page.set_content(f'<style>{style}</style><div class="md-typeset">{html}</div>')
    page.emulate_media(media="print")
    yield page
    page.close()


@pytest.mark.browser
def test_notes_of_a_form_stay_off_paper(paper):
    """Each relief valve has a working of its own, which no sheet carries; those of the sentence are not left out."""
    shown = paper.eval_on_selector_all(
        ".gw-working",
        "all => all.map(each => [each.dataset.working, each.matches('.gw-unprinted'), getComputedStyle(each).display])",
    )
    reliefs = [display for name, unprinted, display in shown if unprinted and name.endswith(".set_pressure")]
    assert len(reliefs) == len(paper.locator(".gw-form .gw-figure").all()) > 3
    assert set(reliefs) == {"none"}
    assert [name for name, unprinted, _ in shown if not unprinted] == ["stack.current", "stack.power"]


@pytest.mark.browser
def test_each_number_of_a_sentence_carries_the_number_of_its_note_on_paper(paper):
    marks = paper.eval_on_selector_all(
        ".gw-figure",
        "all => all.map(each => [!!each.closest('.gw-form'), each.dataset.note, getComputedStyle(each, '::after').content])",
    )
    free = [(note, mark) for inside, note, mark in marks if not inside]
    assert [note for note, _ in free] == ["1", "2"]
    # What a browser answers for attr() is not the same in all of them; none would be no mark.
    assert all(mark != "none" and ("attr" in mark or note in mark) for note, mark in free)
    assert {mark for inside, _, mark in marks if inside} == {"none"}
