"""The sheet as a printer, a reader and a screen reader find it."""

import importlib.metadata
import itertools
import re

import pytest
import segno

from macros.sheets.wall import setting, wall_guide
from macros.sheets.wall.setting import LEAF_MM, OVERFLOW
from macros.sheets.wall.wording import Wording
from tests.sheets.conftest import ADDRESS
from tests.sheets.paper import POINTS_PER_MM, Sheet

# Paper sizes after ISO 216, from memory.
A3, A4 = (420, 297), (210, 297)
CLEAR_MM = 10
LEAST_TYPE = 7.0
CODE_PT = 54


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


def test_it_says_its_version_and_where_a_newer_sheet_is_found(sheet):
    version = importlib.metadata.version("gaswright")
    line = f"Made with Gaswright {version}. Look for a newer sheet at {ADDRESS} before you run by this one."
    assert line in sheet.text


@pytest.mark.parametrize(("address", "newer_at", "wanted"), [
    (ADDRESS, "", f"at {ADDRESS} before"),
    (ADDRESS, "https://newest.example/", "at https://newest.example/ before"),
    ("", "https://newest.example/", "at https://newest.example/ before"),
    ("", "", "ask where you got it for a newer one, by plant and digest"),
])  # fmt: skip
def test_a_newer_sheet_is_looked_for_where_somebody_said_else_where_it_stands_else_asked_for(
    plants, tmp_path, address, newer_at, wanted
):
    file = tmp_path / "sheet.pdf"
    file.write_bytes(wall_guide(plants["bench"], "a4", address=address, newer_at=newer_at))
    assert wanted in Sheet(file).text


def test_the_line_on_newer_sheets_stands_beside_the_code_and_takes_no_height(sheet):
    words = list(sheet.words())
    line = next(word for word in words if word.text == "Gaswright")
    emergency = next(word for word in words if word.text == "EMERGENCY")
    assert line.bottom <= CLEAR_MM * POINTS_PER_MM + CODE_PT < emergency.top


def test_letters_of_the_title_hang_clear_of_what_stands_below(sheets):
    """The g of the bench's name: a row of white parts it from the cautions."""
    sheet = sheets["bench", "a4", "workshop"]
    words = list(sheet.words())
    title = next(word for word in words if word.text == "teaching")
    below = next(word for word in words if word.text == "pressure," and word.top > title.bottom)
    dpi = 300
    rows = slice(*(round(at / 72 * dpi) for at in (title.bottom + 1, below.top + 1)))
    columns = slice(*(round(at / 72 * dpi) for at in (title.left, title.right)))
    assert (sheet.ink(1, dpi)[rows, columns].min(axis=1) == 255).any()


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
    size = CODE_PT / 72 * dpi
    right, top = (210 - CLEAR_MM) / 25.4 * dpi, CLEAR_MM / 25.4 * dpi
    module = size / (len(matrix) + 4)  # two modules of quiet zone on either side, and white paper beyond
    for row, line in enumerate(matrix):
        for column, dark in enumerate(line):
            y, x = top + (row + 2.5) * module, right - size + (column + 2.5) * module
            assert (ink[round(y), round(x)] < 128) == bool(dark), (row, column)


def test_the_same_things_give_the_same_bytes(plants, monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1790000000")  # 21 September 2026
    day = setting.day_of_review()
    first, second = (
        setting._set.__wrapped__(plants["bench"], "a4", "workshop", ADDRESS, ADDRESS, day) for _ in range(2)
    )
    assert first == second
    assert b"D:20260921" in first
    assert first != setting._set.__wrapped__(plants["bench"], "a4", "workshop", "", "", day)


def test_template_and_code_agree_on_the_leaf():
    template = (setting.resources.files("macros.sheets.wall") / "wall_guide.typ").read_text("utf-8")
    assert f"width: {LEAF_MM:g}mm, height: 277mm" in template
    assert f'panic("{OVERFLOW}"' in template


def _spoken(plant, text):
    """A text of the description as a sheet prints it, spaces alike."""
    return " ".join("".join(run["text"] for run in Wording(plant, "workshop").runs(text)).split())


@pytest.mark.parametrize("paper", ["a3", "a4"])
@pytest.mark.parametrize(("name", "wanted"), [
    ("bench", "normal_start light_burner normal_stop change_desiccant"),
    ("shed", "normal_start filling standby normal_stop change_desiccant"),
    ("farm", "normal_start fill_low bank_to_bank normal_stop change_desiccant"),
])  # fmt: skip
def test_start_run_stop_and_the_desiccant_stand_on_every_paper_with_each_step(plants, sheets, name, wanted, paper):
    plant = plants[name]
    said = sheets[name, paper, "workshop"].text.replace("†", "")
    for procedure in (plant.description.procedures.procedures[each] for each in wanted.split()):
        assert procedure.title in said
        for step in procedure.steps:
            # Words may part at the end of a line where the typesetter says no space; letters and their order stay.
            assert _spoken(plant, step.do).replace(" ", "") in said.replace(" ", ""), step.do
        for hazard in procedure.hazards:
            assert _spoken(plant, hazard).replace(" ", "") in said.replace(" ", ""), hazard


def test_what_a_step_moves_stands_white_on_black_or_framed_and_the_rest_is_quiet(sheets):
    """Of the farm, step 2 of the desiccant's change shuts V2, V4 and V5 of nine items: three dark fields in its row."""
    sheet = sheets["farm", "a4", "workshop"]
    words = list(sheet.words(2))
    head = next(word for word in words if word.text == "V7" and any(
        other.text == "V8" and abs(other.top - word.top) < 1 and 0 < other.left - word.left < 30 for other in words))  # fmt: skip
    tags = {word.text: word for word in words if abs(word.top - head.top) < 1 and re.fullmatch(r"I?[SV]\d+", word.text)}
    assert set(tags) == {"IS1", "V1", "V2", "V3", "V4", "V5", "V6", "V7", "V8"}
    below = sorted({round(word.top, 1) for word in words if word.text in ("shut", "open") and word.top > head.top})
    dpi = 300
    ink = sheet.ink(2, dpi)

    def dark(tag, top):
        """Share of black in the field of a tag in the row that begins at `top`."""
        middle = (tags[tag].left + tags[tag].right) / 2
        rows = slice(*(round(at / 72 * dpi) for at in (top - 0.5, top + 5.5)))
        columns = slice(*(round((middle + by) / 72 * dpi) for by in (-6, 6)))
        return float((ink[rows, columns] < 100).mean())

    second = below[1]
    moved = {tag for tag in tags if dark(tag, second) > 0.5}
    assert moved == {"V2", "V4", "V5"}


def test_lines_to_write_on_are_as_many_as_asked_for_at_least(plants, sheets):
    for name in ("bench", "farm", "shed"):
        least = int(plants[name].description.wall.lines.least.si)
        for paper in ("a3", "a4"):
            pdf = sheets[name, paper, "workshop"]
            assert "Written by hand" in pdf.text
            page = next(n for n in range(1, len(pdf.sizes_mm) + 1) if "hand" in {word.text for word in pdf.words(n)}
                        and "Written" in {word.text for word in pdf.words(n)})  # fmt: skip
            words = list(pdf.words(page))
            title = next(word for word in words if word.text == "Written" and word.bottom - word.top > 5)
            column = next(word for word in words if word.text == "Date" and 0 < word.top - title.top < 25)
            dpi = 150
            ink = pdf.ink(page, dpi)
            x = round((column.left + 4) / 72 * dpi)
            strip = ink[round((column.bottom + 2) / 72 * dpi) :, x - 8 : x + 8].max(axis=1) < 200
            rows = [y for y in range(1, len(strip)) if strip[y] and not strip[y - 1]]
            # Rows to write on are 15.5 pt high, common practice for a hand: no source.
            gaps = [b - a for a, b in itertools.pairwise(rows) if abs((b - a) / dpi * 72 - 15.5) < 1]
            assert len(gaps) >= least, (name, paper)
