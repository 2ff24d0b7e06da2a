"""
What an honest plant may hold in its words, a hostile one may too: then it is shown, and does nothing.

Every free text of the starter plant gets a word of its own that would act in HTML, Markdown, a template or a spreadsheet.
"""

import csv
import io
import json
import re
import shutil
from html.parser import HTMLParser

import openpyxl
import pytest
import yaml

from macros.description.loading import is_free_text, load
from macros.description.shape import leaves
from macros.figures.plant import Plant
from macros.pages import Handbook
from macros.pages.plain_html import strange_html
from macros.sheets.parts import STARTS_FORMULA, parts_csv, parts_xlsx
from macros.sheets.published import published
from tests.hostile.test_pages import acts
from tests.hostile.watching import ROOT
from tests.pages.small_plant import converter

STARTER = ROOT / "macros/command/starter_plant"

ACTING = (
    "<img src=x onerror=alert(#)>", "</title><script>alert(#)</script>", "\"><svg onload=alert(#)>", "[a](javascript:alert(#))",
    "=cmd#()", "@SUM(#A)", "*a*(: onclick=alert(#) :)", "![#a](//x.example/a)", "`<b>#a`", "]]><script>#a</script>", "&#60;script&#62;#a",
    "</svg><script>#a</script>", "#set page(width: #a)", "| #a | b |", "-->#a<!--", "$#a$ \\#a",
)  # fmt: skip
"""Each with a place for its number; numbers stand before a letter or bracket, so that they carry no unit."""


def _word(number: int) -> str:
    return ACTING[number % len(ACTING)].replace("#a", f"n{number}a").replace("#", f"n{number}")


@pytest.fixture(scope="module")
def hostile(tmp_path_factory):
    """A handbook of the starter plant with a hostile word before each of its texts, and how many there are."""
    root = tmp_path_factory.mktemp("hostile")
    folder = root / "docs/designs/starter"
    shutil.copytree(STARTER, folder)
    described, count = load(folder, root), 0
    for name, part in described._files():
        data = yaml.safe_load((folder / name).read_text("utf-8"))
        for leaf in leaves(part):
            if is_free_text(leaf) and isinstance(leaf.value, str) and not leaf.value.startswith("{"):
                inside = data
                for step in leaf.path[:-1]:
                    inside = inside[step - 1 if isinstance(step, int) else step]
                last = leaf.path[-1]
                last = last - 1 if isinstance(last, int) else last
                if leaf.slot.name not in ("approved_gas", "material", "quantity", "place") and isinstance(
                    inside[last], str
                ):
                    inside[last] = f"{_word(count)} {inside[last]}"
                    count += 1
        (folder / name).write_text(yaml.safe_dump(data, allow_unicode=True, sort_keys=False), encoding="utf-8")
    return root, folder, count


@pytest.fixture(scope="module")
def plant(hostile):
    root, folder, _ = hostile
    return Plant.load(folder, root)


TITLES = {}
"""What each page was called in plain text, by its address."""


@pytest.fixture(scope="module")
def pages(hostile, plant):
    """Every page of that handbook as the site would show it, by address."""
    root, _, _ = hostile
    handbook = Handbook.of(root / "docs", [plant])
    handbook.reviewed = False  # a review takes longest, and its words are those of the rules
    assert not handbook.faults
    found = {}
    for page in handbook.pages():
        if page.plant is not None or page.kind == "plants":
            rendered = handbook.render(page)
            TITLES[page.address] = rendered.title
            html = converter().convert(rendered.markdown)
            assert list(strange_html(html)) == [], page.address
            found[page.address] = rendered.tokens.replace(html)
    return found


def test_every_text_was_made_hostile(hostile, pages):
    _, _, count = hostile
    assert count > 60
    shown = "".join(pages.values())
    seen = {int(number) for number in re.findall(r"n([0-9]+)[a()]", shown)}
    assert len(seen) > 0.6 * count, "most texts are shown on some page"


class _Tags(HTMLParser):
    """Start tags as the standard library reads them, which shares nothing with our own reading."""

    def __init__(self):
        super().__init__()
        self.tags = []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, attrs))


BRINGS = {"script", "iframe", "object", "embed", "img", "base", "meta", "link", "form"}


def test_no_word_acts_on_any_page(pages):
    for address, html in pages.items():
        reader = _Tags()
        reader.feed(html)
        for tag, attributes in reader.tags:
            assert tag not in BRINGS, (address, tag)
            for name, value in attributes:
                assert not name.startswith("on"), (address, tag, name, value)
                if name in ("href", "src", "action", "formaction", "style", "xlink:href"):
                    assert not (value or "").lower().startswith(("javascript:", "data:", "//")), (
                        address,
                        tag,
                        name,
                        value,
                    )


def test_the_yardstick_itself_sees_the_words_act():
    """Put into a page as they are, the words do act: so what is shown above was made harmless by us."""
    assert sum(acts(converter().convert(_word(number))) for number in range(len(ACTING))) >= 6


def test_titles_for_the_head_of_a_page_are_plain_text(plant, pages):
    assert len(pages) == len(TITLES)
    assert "<" in plant.title  # plain text: whoever prints it escapes it
    assert not any("&lt;" in title for title in TITLES.values())


def test_no_cell_is_a_formula_and_data_are_data(plant):
    rows = list(csv.reader(io.StringIO(parts_csv(plant).decode("utf-8-sig"))))
    hidden = [cell for row in rows for cell in row if cell.startswith("'")]
    assert any("=cmd" in cell for cell in hidden)
    assert not [cell for row in rows for cell in row if cell.startswith(tuple(set(STARTS_FORMULA) - {"'"}))]
    book = openpyxl.load_workbook(io.BytesIO(parts_xlsx(plant)))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert any("=cmd" in str(cell.value) for cell in cells)
    assert not [cell.value for cell in cells if cell.data_type == "f" or cell.hyperlink]
    text = json.dumps(published(plant), ensure_ascii=False)
    assert json.loads(text)["digest"] == plant.digest


def test_words_reach_the_sheet_as_data_that_nothing_evaluates():
    """The sheet's language could run a text, read a file or fetch a package; the template asks for none of it."""
    (template,) = (ROOT / "macros/sheets").rglob("*.typ")
    asked = re.findall(
        r"\b(?:eval|read|plugin|cbor|yaml|toml|csv|xml|bibliography|include)\s*\(|@preview|#include",
        template.read_text("utf-8"),
    )
    assert asked == []
    assert "sys.inputs" in template.read_text("utf-8")
