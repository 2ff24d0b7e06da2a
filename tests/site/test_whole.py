"""A plant's whole handbook as one document: each guide once, every number as on its own page, and whole on paper."""

import io
import itertools
import re
from html import unescape

import pytest
from pypdf import PdfReader

from macros.pages.edition import Edition
from macros.pages.front_matter import GROUPS
from macros.site.verify import read_page

from .found import search_index

PLANTS = ("bench", "shed", "farm")
FIGURE = re.compile(r'data-(?:figure|fact)="([^"]*)"[^>]*>([^<]*)<')
ASKED = re.compile(r'popovertarget="(working-[^"]*)"[^>]*data-note="(\d+)"')
NOTE = re.compile(
    r'<div popover id="(working-[^"]*)" class="gw-working[^>]*data-note="(\d+)">\s*<p[^>]*><span class="gw-note">(\d+)<'
)
WORKINGS = '<section class="gw-workings"'


@pytest.fixture(scope="module")
def documents(site):
    return {name: article(site / name / "whole.html") for name in PLANTS}


def article(path):
    text = path.read_text("utf-8")
    return text[text.index("<article") : text.index("</article>")]


def chapters(document):
    """Title and content of each chapter."""
    for piece in document.partition(WORKINGS)[0].split('<section class="gw-chapter">')[1:]:
        title = re.search(r"<h3[^>]*>(.*?)<a class=\"headerlink", piece, re.DOTALL)[1]
        yield re.sub(r"<[^>]*>", "", title), piece


def guides_of(site, sources, name):
    """Names of a plant's guides in the order of the handbook, read off their own front matter."""
    told = {}
    for path in (sources / "docs/guides").glob("*.md"):
        front = dict(re.findall(r"^(group|order): *(\S+)$", path.read_text("utf-8"), re.MULTILINE))
        told[path.stem] = GROUPS.index(front["group"]), int(front["order"]), path.stem
    return sorted((one for one in told if (site / name / f"{one}.html").exists()), key=told.get)


@pytest.mark.parametrize("name", PLANTS)
def test_every_guide_stands_in_it_once_in_the_order_of_the_handbook(site, sources, documents, name):
    guides = guides_of(site, sources, name)
    names = [re.search(r'<h3 id="([^".]*)\.', piece)[1] for _, piece in chapters(documents[name])]
    assert names[: len(guides)] == guides
    assert len(guides) > 50
    further = names[len(guides) :]
    assert further[0] == "drawing"
    assert further[-2:] == ["trip-matrix", "parts"]
    assert all(one.startswith("procedure-") for one in further[1:-2])
    assert [int(title.split()[0]) for title, _ in chapters(documents[name])] == list(range(1, len(names) + 1))


@pytest.mark.parametrize("name", PLANTS)
def test_every_procedure_is_drawn_once(plants, documents, name):
    drawn = re.findall(r'id="[^".]*\.lineup-(\w+)-1"', documents[name])
    assert sorted(drawn) == sorted(plants[name].description.procedures.procedures)


@pytest.mark.parametrize("name", PLANTS)
def test_every_number_is_that_of_its_own_page(site, sources, documents, name):
    held = {re.search(r'<h3 id="([^".]*)\.', piece)[1]: piece for _, piece in chapters(documents[name])}
    seen = 0
    for guide in guides_of(site, sources, name):
        alone = FIGURE.findall(article(site / name / f"{guide}.html").partition(WORKINGS)[0])
        assert FIGURE.findall(held[guide]) == alone, guide
        seen += len(alone)
    assert seen > 500


@pytest.mark.parametrize("name", PLANTS)
def test_notes_are_numbered_through_and_each_number_leads_to_its_own(documents, name):
    body, _, told = documents[name].partition(WORKINGS)
    notes = {identity: number for identity, number, shown in NOTE.findall(told) if number == shown}
    assert list(notes.values()) == [str(number) for number in range(1, len(notes) + 1)]
    assert len(notes) > 300
    asked = ASKED.findall(body)
    assert {notes[identity] == number for identity, number in asked} == {True}
    printed = len(notes) - told.count("gw-unprinted")
    firsts = [int(number) for number in dict.fromkeys(number for _, number in asked)]
    assert [number for number in firsts if number <= printed] == list(range(1, printed + 1)), "in the order of reading"


@pytest.mark.parametrize("name", PLANTS)
def test_it_holds_together(documents, name):
    facts = read_page(documents[name])
    assert list(facts.repeated()) == []
    inner = [link for link, _ in facts.within if link.startswith("#")]
    assert [link for link in inner if unescape(link[1:]) not in facts.ids.names] == []
    assert [one for one, _ in facts.references if one not in facts.ids.names] == []
    own = {piece[1] for piece in re.finditer(r'<h3 id="([^".]*)\.', documents[name])}
    assert [link for link, _ in facts.links if link.partition(".html")[0] in own] == [], "a chapter is led to inside"
    levels = [int(level) for level in re.findall(r"<h(\d)", documents[name])]
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in itertools.pairwise(levels))
    regions = re.findall(r'role="region" aria-label="([^"]*)"', documents[name].partition(WORKINGS)[0])
    assert len(regions) == len(set(regions))


def test_its_leaf_says_what_it_is_of_and_search_passes_it_by(site, plants, documents):
    for name, plant in plants.items():
        leaf = documents[name].partition("<nav")[0]
        said = (plant.title, plant.digest, plant.description.plant.site.place, "Hydrogen under pressure kills",
                "Who must be asked", "2026-11-25", "Edition 2026.11")  # fmt: skip
        assert [one for one in said if one not in leaf] == []
        assert "whole.html" not in str(search_index(site, name)["pages"])
        assert 'href="whole.html"' in (site / name / "index.html").read_text("utf-8")


# ---- on paper ------------------------------------------------------------------------------------------------------

KEPT = ("stack", "trips", "change_deioniser", "drawing")
FEW_NOTES = 40


def thinned(text):
    """A document of few chapters and few notes: printing takes as long as it is thick."""
    kept = tuple(f'<h3 id="{one}.' for one in KEPT)
    ends = '(?=<section class="gw-chapter">|<h2 class="gw-part">|<section class="gw-workings")'
    chapter = re.compile(f'<section class="gw-chapter">.*?{ends}', re.DOTALL)
    text = chapter.sub(lambda found: found[0] if any(one in found[0] for one in kept) else "", text)
    text = re.sub(r'<h2 class="gw-part">[^<]*</h2>\s*(?=<h2|<section class="gw-workings")', "", text)
    notes = re.compile(r'^<div popover id="working-.*?(?=^<div popover|^</section>)', re.DOTALL | re.MULTILINE)
    return notes.sub(lambda found: found[0] if int(NOTE.match(found[0])[2]) < FEW_NOTES else "", text)


@pytest.mark.browser
def test_it_prints_whole(site, browser, tmp_path):
    """Few chapters of it, as the browser prints them: a sheet begins with each, and nothing reaches past the paper."""
    (tmp_path / "bench").mkdir()
    (tmp_path / "assets").symlink_to(site / "assets")
    text = thinned((site / "bench/whole.html").read_text("utf-8"))
    (tmp_path / "bench/whole.html").write_text(text, "utf-8")
    context = browser.new_context(viewport={"width": 688, "height": 900})
    page = context.new_page()
    page.emulate_media(media="print")
    page.goto((tmp_path / "bench/whole.html").as_uri())
    wide, high = 688, 1017  # what A4 leaves between margins of 14 mm, at 96 pixels an inch
    sizes = page.evaluate(
        "[...document.querySelectorAll('.gw-drawing-frame svg')].map((one) => one.getBoundingClientRect().toJSON())"
    )
    assert len(sizes) > 6
    assert all(one["left"] >= 0 and one["right"] <= wide + 1 and one["height"] <= high for one in sizes)
    cut = """[...document.querySelectorAll('.gw-whole .gw-scroll, .gw-whole figure, .gw-chapter > *')].filter((one) =>
      one.scrollWidth > one.clientWidth + 1 && !one.matches('.gw-trips')).map((one) => one.outerHTML.slice(0, 200))"""
    assert page.evaluate(cut) == []
    printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True, outline=True, tagged=True)))
    context.close()
    sheets = [re.sub(r"\s+", " ", sheet.extract_text()) for sheet in printed.pages]
    feet = [f"{number} / {len(sheets)}Marram Lane teaching bench · " for number in range(1, len(sheets) + 1)]
    assert all(map(str.startswith, sheets, feet)), "a loose sheet tells which plant it is of"
    sheets = [sheet.removeprefix(foot)[13:] for sheet, foot in zip(sheets, feet, strict=True)]
    assert min(map(len, sheets)) > 100, "no empty sheet"
    assert "Marram Lane teaching bench" in sheets[0]
    assert sheets[1].startswith("Contents")
    titles = [re.sub(r"<[^>]*>", "", found) for found in re.findall(r"<h3[^>]*>(.*?)<a", text, re.DOTALL)]
    begun = [
        next(number for number, sheet in enumerate(sheets) if title in sheet[:80] and number > 1) for title in titles
    ]
    assert begun == sorted(set(begun))
    assert titles == [one.title for one in _below(printed.outline) if one.title in titles]


def _below(outline):
    for one in outline:
        yield from _below(one) if isinstance(one, list) else [one]


def test_an_edition_behind_another_binds_no_page_twice(sources, pages_kept, monkeypatch):
    """A page that is bound is taken from its former edition as it was made, before it was bound."""
    monkeypatch.setenv("GASWRIGHT_CACHE", str(pages_kept))
    first, _ = Edition.of(sources / "docs")
    again, _ = Edition.of(sources / "docs", first)
    assert again.finished == first.finished
    whole = again.finished["bench/whole.md"].content
    assert len(re.findall(r'\bid="contents"', whole)) == 1
