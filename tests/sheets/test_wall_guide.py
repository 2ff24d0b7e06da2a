"""The sheet as a printer, a reader and a screen reader find it."""

import itertools
import re

import pytest
import segno

from macros.sheets.wall import setting
from macros.sheets.wall.setting import LEAF_MM, OVERFLOW
from tests.sheets.conftest import ADDRESS
from tests.sheets.paper import POINTS_PER_MM

# Paper sizes after ISO 216, from memory.
A3, A4 = (420, 297), (210, 297)
CLEAR_MM = 10
LEAST_TYPE = 7.0


KEYS = [(name, paper, "workshop") for name in ("bench", "farm", "shed") for paper in ("a3", "a4")]
KEYS += [("shed", "a4", "us"), ("shed", "a4", "si")]


@pytest.fixture(params=KEYS, ids="-".join)
def key(request):
    return request.param


@pytest.fixture
def sheet(sheets, key):
    return sheets[key]


def test_a3_has_one_side_and_a4_one_sheet_with_two(sheet, key):
    pages = {"a3": [A3], "a4": [A4, A4]}[key[1]]
    assert sheet.sizes_mm == [pytest.approx(size, abs=0.1) for size in pages]


def test_no_type_is_smaller_than_seven_points(sheet):
    assert min(run.size for run in sheet.runs) >= LEAST_TYPE - 0.01


def test_every_letter_comes_from_the_fonts_of_the_packages(sheet):
    assert {re.sub(r"^/[A-Z]{6}\+|-.*", "", run.font) for run in sheet.runs} == {"FiraSans", "FiraSansCondensed"}
    assert "\ufffd" not in sheet.text


def test_ten_millimetres_stay_clear_for_lamination(sheet):
    for page in range(1, len(sheet.sizes_mm) + 1):
        dpi = 100
        ink = sheet.ink(page, dpi)
        edge = int(CLEAR_MM / 25.4 * dpi) - 1  # a pixel's width for the softened edge of a stroke
        inner = ink[edge:-edge, edge:-edge]
        assert inner.size < ink.size
        assert ink[:edge].min() == ink[-edge:].min() == ink[:, :edge].min() == ink[:, -edge:].min() == 255
        assert inner.min() == 0


def test_no_two_words_stand_on_each_other(sheet):
    for page in range(1, len(sheet.sizes_mm) + 1):
        words = sorted(sheet.words(page), key=lambda word: word.top)
        assert len(words) > 200
        for place, one in enumerate(words):
            for other in itertools.takewhile(lambda word, one=one: word.top < one.bottom, words[place + 1 :]):
                across = min(one.right, other.right) - max(one.left, other.left)
                upright = min(one.bottom, other.bottom) - max(one.top, other.top)
                assert across < 0.3 or upright < 0.3, f"{one} and {other}"


def test_every_word_lies_within_the_clear_edge(sheet):
    for page, (width, height) in enumerate(sheet.sizes_mm, 1):
        for word in sheet.words(page):
            assert word.left >= CLEAR_MM * POINTS_PER_MM - 0.5
            assert word.right <= (width - CLEAR_MM) * POINTS_PER_MM + 0.5
            assert word.bottom <= (height - CLEAR_MM) * POINTS_PER_MM + 0.5


def test_it_is_right_in_greyscale_because_it_has_no_colour(sheet):
    for page in range(1, len(sheet.sizes_mm) + 1):
        colours = sheet.colours(page).astype(int)
        assert (colours.max(axis=2) - colours.min(axis=2)).max() <= 2


def test_it_is_tagged_named_and_in_a_language(sheet, plants, key):
    root = sheet.reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/StructTreeRoot"]
    assert root["/Lang"] == "en"
    assert plants[key[0]].title in sheet.reader.metadata.title
    metadata = root["/Metadata"].get_object().get_data()
    assert b"pdfuaid" in metadata, "PDF/UA is declared, and the typesetter checks what it declares"


def test_it_says_what_it_is(sheet, plants, key):
    plant = plants[key[0]]
    units = {"workshop": "workshop metric", "us": "US customary", "si": "SI"}[key[2]]
    for wanted in (plant.title, plant.digest, units, "Local codes", "licensed practice", "cannot be seen"):
        assert wanted in sheet.text


def test_the_emergency_is_the_largest_but_for_the_plants_name(sheet):
    sizes = {run.text.strip(): run.size for run in sheet.runs}
    assert sizes["EMERGENCY"] > 20
    first = next(size for text, size in sizes.items() if text.startswith("Strike the emergency stop"))
    assert first >= 14
    assert sum(run.size >= 11 for run in sheet.runs) < 40, "what stands out must be little"


def test_the_code_to_scan_leads_to_the_plant(sheets):
    """Each module of the symbol, compared with the one that the library makes (ISO/IEC 18004, through the library)."""
    sheet = sheets["shed", "a4", "workshop"]
    matrix = segno.make(ADDRESS, error="m", micro=False).matrix
    dpi = 400
    ink = sheet.ink(1, dpi)
    size = 54 / 72 * dpi
    right, top = (210 - CLEAR_MM) / 25.4 * dpi, CLEAR_MM / 25.4 * dpi
    module = size / (len(matrix) + 4)  # two modules of quiet zone on either side, and white paper beyond
    for row, line in enumerate(matrix):
        for column, dark in enumerate(line):
            y, x = top + (row + 2.5) * module, right - size + (column + 2.5) * module
            assert (ink[round(y), round(x)] < 128) == bool(dark), (row, column)


def test_the_same_things_give_the_same_bytes(plants, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1790000000")  # 21 September 2026
    day = setting.day_of_review()
    first, second = (setting._set.__wrapped__(plants["bench"], "a4", "workshop", ADDRESS, day) for _ in range(2))
    assert first == second
    assert b"D:20260921" in first
    assert first != setting._set.__wrapped__(plants["bench"], "a4", "workshop", "", day)


def test_template_and_code_agree_on_the_leaf():
    template = (setting.resources.files("macros.sheets.wall") / "wall_guide.typ").read_text("utf-8")
    assert f"width: {LEAF_MM:g}mm, height: 277mm" in template
    assert f'panic("{OVERFLOW}"' in template
