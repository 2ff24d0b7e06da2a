"""The page of the record: measured beside predicted, what falls due, signatures that fall when the design changes."""

import datetime
import shutil

import pytest

from macros.description.record_file import Measured
from macros.figures.plant import Plant
from macros.quantities import read
from macros.review.inspections import dated
from macros.review.readings import compared, readings_of
from macros.review.reviewing import holds
from tests.pages.kept_record import run_bench
from tests.pages.test_review_page import having, page_of, text_of
from tests.review.looking import plant_named


@pytest.fixture(scope="module")
def plant(tmp_path_factory):
    return run_bench(tmp_path_factory.mktemp("run"))


@pytest.fixture(scope="module")
def tree(plant):
    return page_of(plant, "record")


def measured(figure, value, tolerance, kind=None):
    return Measured(
        date="2026-01-01", figure=figure, value=read(value, kind), tolerance=read(tolerance), role="builder"
    )


def test_a_reading_within_its_tolerance_passes_and_one_beyond_deviates(plant):
    """The bench's cells are read at 1.0 A/cm² from its own measured points: 1.96 V; 5 % of that are 0.098 V."""
    verdicts = [one.holds for one in readings_of(plant) if one.reading.figure == "stack.cell_voltage"]
    assert plant.graph["stack.cell_voltage"].si == pytest.approx(1.96)
    assert verdicts == [True, True, False]


@pytest.mark.parametrize(("value", "verdict"), [("2.0579 V", True), ("2.0581 V", False), ("1.8621 V", True), ("1.8619 V", False)])  # fmt: skip
def test_a_share_counts_on_either_side(plant, value, verdict):
    assert compared(plant, measured("stack.cell_voltage", value, "5 %")).holds is verdict


def test_a_share_of_a_gauge_pressure_counts_from_the_atmosphere():
    """By hand: the shed's booster stalls at 72 bar(g); a tenth of that are 7.2 bar, whatever the air weighs."""
    shed = plant_named("shed")
    one = compared(shed, measured("boosters.1.stall_pressure", "79.1 bar(g)", "10 %"))
    assert one.allowed_si == pytest.approx(7.2e5, rel=1e-3)
    assert one.holds is True
    assert compared(shed, measured("boosters.1.stall_pressure", "79.4 bar(g)", "10 %")).holds is False


def test_a_tolerance_of_nothing_is_a_limit_with_a_safe_side(plant):
    limit = plant.graph["safety.buffer.leak_test_allowance"]
    assert limit.rounding == "down"
    unit = limit.unit
    below, above = (f"{limit.unit_for().from_si(limit.si) * factor:.6g} {unit}" for factor in (0.5, 1.01))
    assert compared(plant, measured(limit.name, below, "0 %")).holds is True
    assert compared(plant, measured(limit.name, above, "0 %")).holds is False


@pytest.mark.parametrize(
    ("figure", "value", "tolerance"),
    [
        ("stack.no_such_figure", "1 V", "5 %"),
        ("stack.cell_voltage", "1 A", "5 %"),
        ("stack.cell_voltage", "1.9 V", "5 K"),
        ("drying.frost_point", "-20 °C", "5 %"),
    ],
)
def test_what_cannot_be_compared_is_neither_within_nor_beyond_and_says_why(plant, figure, value, tolerance):
    one = compared(plant, measured(figure, value, tolerance))
    assert one.holds is None
    assert one.reason


def test_the_page_shows_each_reading_with_its_verdict(tree):
    rows = [row for row in tree.iter("tr") if row.get("data-reading")]
    classes = [row.get("class") for row in rows if row.get("data-reading") == "stack.cell_voltage"]
    assert classes == ["gw-reading-within", "gw-reading-within", "gw-reading-deviates"]
    assert [row.get("class") for row in rows if row.get("data-reading") == "stack.let_down_time"] == [
        "gw-reading-unknown"
    ]
    deviating = next(row for row in rows if row.get("class") == "gw-reading-deviates")
    # 2.31 V over 1.96 V is 17.9 % more.
    assert "+18 %" in text_of(deviating).replace("\u00a0", " ")
    assert "One cell runs warm" in text_of(deviating)


def test_what_was_not_measured_is_still_owed(plant, tree):
    owed = {row.get("data-owed"): row.get("class") for row in tree.iter("tr") if row.get("data-owed")}
    assert set(owed) == {one.figure for one in plant.description.record.to_measure}
    assert owed["stack.cell_voltage"] == "gw-reading-deviates"
    assert owed["stack.hydrogen_normal_flow"] == "gw-reading-to_measure"


def test_a_figure_measured_more_than_once_is_plotted(tree):
    trends = [one.get("data-trend") for one in tree.iter("div") if one.get("data-trend")]
    assert trends == ["stack.cell_voltage"]
    assert having(tree, "gw-plot")


def test_a_signature_holds_for_its_design_and_falls_with_another(tree):
    assert [row.get("data-signature") for row in tree.iter("tr") if row.get("data-signature")] == ["holds", "void"]


def test_a_record_does_not_change_what_is_signed_for(plant):
    """A signature stands in the record: were the record signed for, no signature could ever hold."""
    assert plant.design_digest == plant_named("bench").design_digest
    assert plant.digest != plant_named("bench").digest


def test_what_is_signed_for_is_the_design_and_not_its_status_or_its_sheet(plant, tmp_path):
    shutil.copytree(plant.description.folder, folder := tmp_path / "bench")
    for name, before, after in (
        ("plant.yml", b"status: ", b"status: built # "),
        ("wall.yml", b"\n", b"\n# hung\n"),
    ):
        content = (folder / name).read_bytes()
        assert before in content
        (folder / name).write_bytes(content.replace(before, after, 1))
    assert Plant.load(folder).design_digest == plant.design_digest
    (folder / "procedures.yml").write_bytes((folder / "procedures.yml").read_bytes() + b"# changed\n")
    assert Plant.load(folder).design_digest != plant.design_digest


def test_a_waiver_holds_until_its_day_and_for_its_design(plant):
    waiver = plant.description.record.waivers[0]
    last = datetime.date.fromisoformat(waiver.expiry)
    assert holds(waiver, last, plant.design_digest)
    assert not holds(waiver, last + datetime.timedelta(days=1), plant.design_digest)
    assert not holds(waiver, last, "0123456789ab")


def test_an_inspection_is_due_until_the_last_day_of_its_month():
    shed = plant_named("shed")
    bank = next(one for one in dated(shed, datetime.date(2026, 1, 1)) if one.path.endswith("inspection_due"))
    assert (bank.day + datetime.timedelta(days=1)).day == 1

    def state(day):
        return next(one.state for one in dated(shed, day) if one.path == bank.path)

    assert state(bank.day) == "soon"
    assert state(bank.day + datetime.timedelta(days=1)) == "overdue"
    assert state(bank.day - datetime.timedelta(days=90)) == "soon"
    assert state(bank.day - datetime.timedelta(days=91)) == "later"
