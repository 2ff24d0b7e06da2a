"""One plant in German, from its numbers to its wall guide: the words differ, and no name, verdict or digit does."""

import re
from html import unescape
from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.pages.edition import finish, is_there
from macros.pages.handbook import Handbook
from macros.pages.translations import digest_of, standings
from macros.quantities import numbers_with_units, say
from macros.quantities.languages import speaking, with_point
from macros.review import review
from macros.review.refusal import day_of_review
from macros.sheets.published import published
from macros.sheets.wall import wall_guide
from tests.sheets.paper import Sheet

ROOT = Path(__file__).parents[1]
TAGS = re.compile(r"<[^>]*>")
SYSTEMS = ("workshop", "si", "us")

GUIDE = """---
title: The stack
purpose: What it makes.
group: build
order: 1
---

# The stack

!!! danger "Hydrogen crosses"
    Always.

It makes {{ plant.stack.hydrogen_normal_flow }}.
"""
GERMAN = """---
title: Der Stack
purpose: Was er macht.
source_digest: "DIGEST"
---

# Der Stack

!!! danger "Wasserstoff geht hindurch"
    Immer.

Er macht {{ plant.stack.hydrogen_normal_flow }}.
"""


@pytest.fixture(scope="module")
def bench():
    with speaking("de"):
        return Plant.load(ROOT / "docs/designs/bench", ROOT)


@pytest.fixture
def german():
    with speaking("de"):
        yield


def docs_of(folder, guide=GUIDE, translation=GERMAN, name="stack.md"):
    """Documents of one guide and, if there is one, its translation."""
    (folder / "guides").mkdir(parents=True)
    (folder / "guides" / name).write_text(guide, encoding="utf-8")
    (folder / "index.md").write_text("# Home\n", encoding="utf-8")
    if translation:
        (folder / "de/guides").mkdir(parents=True)
        (folder / "de/guides" / name).write_text(
            translation.replace("DIGEST", digest_of(guide.encode())), encoding="utf-8"
        )
    return folder


def page_of(docs, bench, address="bench/stack.md", **settings):
    """A finished page of the German edition and all faults."""
    handbook = Handbook.of(docs, [bench], **settings)
    page = next(one for one in handbook.pages() if one.address == address)
    made = finish(page, handbook.render(page), is_there(handbook))
    return made, [*handbook.faults, *made.faults]


# --- numbers


def test_every_digit_is_the_same_in_english(bench):
    """In all three systems of units; only the mark differs."""
    said = 0
    for name in bench.graph:
        if bench.graph[name].is_number:
            english = bench.graph[name].shown()
            with speaking("de"):
                spoken = bench.graph[name].shown()
            for system in SYSTEMS:
                number, space, unit = getattr(english, system).partition("\u00a0")
                assert getattr(spoken, system) == f"{number.replace('.', ',')}{space}{unit}", name
                said += "," in getattr(spoken, system)
    assert said > 500


@pytest.mark.usefixtures("german")
def test_what_machines_read_keeps_the_point(bench):
    data = published(bench)["figures"]["stack.hydrogen_normal_flow"]
    assert re.fullmatch(r"0\.\d+\u00a0NL/min", data["shown"])
    assert data["title"] != "Hydrogen made, net, normal flow"


@pytest.mark.usefixtures("german")
def test_what_somebody_signs_for_is_the_same_in_every_language(bench):
    again = Plant.of(bench.description)
    assert again.design_digest == bench.design_digest
    with speaking("en"):
        assert Plant.of(bench.description).design_digest == bench.design_digest


# --- review


def test_the_review_finds_the_same_and_has_words_for_it(bench):
    with speaking("de"):
        german = review(bench, day_of_review()).findings
    english = review(bench, day_of_review()).findings
    assert len(german) == len(english) > 200
    other = 0
    for ours, theirs in zip(german, english, strict=True):
        assert (ours.rule, ours.where, ours.verdict, ours.severity, ours.margin) == (
            theirs.rule, theirs.where, theirs.verdict, theirs.severity, theirs.margin,
        )  # fmt: skip
        assert all(getattr(ours.message, system) for system in SYSTEMS)
        assert bool(ours.hint.workshop) == bool(theirs.hint.workshop)
        assert digits(ours.message.workshop) == digits(theirs.message.workshop), ours.rule
        other += ours.message.workshop != theirs.message.workshop
    assert other > 0.9 * len(german)


def digits(text):
    """The quantities of a sentence with a point, in any order: languages place them differently."""
    return sorted(" ".join(one.text.replace(",", ".").split()) for one in numbers_with_units(text))


# --- pages


@pytest.mark.usefixtures("german")
def test_a_translated_page_speaks_german_with_german_numbers(bench, tmp_path):
    made, faults = page_of(docs_of(tmp_path / "docs"), bench)
    assert not faults
    assert "gw-translation" not in made.content
    shown = bench.graph["stack.hydrogen_normal_flow"].show()
    assert "," in shown
    assert f"Er macht {shown}" in " ".join(unescape(TAGS.sub("", made.content)).split(" "))
    assert (made.title, say("pages.full_working") in made.content) == ("Der Stack", True)


@pytest.mark.usefixtures("german")
def test_a_page_that_is_not_translated_says_so_and_marks_its_language(bench, tmp_path):
    made, faults = page_of(docs_of(tmp_path / "docs", translation=""), bench)
    assert not faults
    note, _, rest = made.content.partition("</aside>")
    assert 'data-translation="missing"' in note
    assert "Englisch" in note
    assert rest.strip().startswith('<div class="gw-untranslated" lang="en">')
    text, _, workings = rest.partition('<section class="gw-workings"')
    assert text.strip().endswith("</div>"), "a working is said in the language of the edition"
    assert say("pages.full_working") in workings


@pytest.mark.usefixtures("german")
def test_a_page_older_than_its_source_warns_and_leads_there(bench, tmp_path):
    docs = docs_of(tmp_path / "docs")
    source = docs / "guides/stack.md"
    source.write_text(GUIDE.replace("Always.", "Always, and more when hot."), encoding="utf-8")
    made, faults = page_of(docs, bench, beside_source=True)
    assert not faults
    note = made.content.partition("</aside>")[0]
    assert 'class="gw-translation gw-translation-danger" data-translation="older"' in note
    assert 'href="../../bench/stack.html" hreflang="en"' in note
    alone, _ = page_of(docs, bench)
    assert "href" not in alone.content.partition("</aside>")[0], "no link where the source is not published beside it"


@pytest.mark.usefixtures("german")
def test_a_page_that_warns_of_nothing_is_marked_quietly(bench, tmp_path):
    calm = GUIDE.replace('!!! danger "Hydrogen crosses"\n    Always.\n', "")
    docs = docs_of(tmp_path / "docs", calm)
    (docs / "guides/stack.md").write_text(calm.replace("It makes", "Always it makes"), encoding="utf-8")
    made, _ = page_of(docs, bench)
    assert 'class="gw-translation gw-translation-note" data-translation="older"' in made.content


@pytest.mark.usefixtures("german")
def test_ends_of_lines_make_no_translation_older(bench, tmp_path):
    docs = docs_of(tmp_path / "docs")
    (docs / "guides/stack.md").write_bytes(GUIDE.replace("\n", "\r\n").encode())
    assert page_of(docs, bench)[0].content.count("gw-translation") == 0
    assert {one.state for one in standings(docs, "de", "en") if one.source.endswith("stack.md")} == {"current"}


@pytest.mark.parametrize(
    ("before", "after", "code"),
    [
        ('source_digest: "DIGEST"\n', "", "pages.front_missing"),
        ('"DIGEST"', '"12345"', "pages.front_wanted.source_digest"),
        ("purpose:", "group: test\npurpose:", "pages.translation.of_source"),
        ("Er macht", "Er macht 5,3 NL/min, das ist", "pages.typed_by_hand"),
        ("Er macht", "Er läuft 5 Minuten und macht", "pages.typed_by_hand"),
        ("Er macht", "Er macht 1.234,5 bar(g) und", "pages.typed_by_hand"),
        ("Er macht", '{{ typed("2,5 mm", "Schlüsselweite") }} Er macht {{ plant.stack.heat }', "pages."),
        ("Er macht", "<script>alert(1)</script> Er macht", "pages."),
    ],
)
@pytest.mark.usefixtures("german")
def test_a_translation_is_held_to_all_that_its_source_is(bench, tmp_path, before, after, code):
    docs = docs_of(tmp_path / "docs", translation=GERMAN.replace(before, after))
    _, faults = page_of(docs, bench)
    assert [fault for fault in faults if fault.file.endswith("de/guides/stack.md") and fault.code.startswith(code)], (
        faults
    )


@pytest.mark.usefixtures("german")
def test_a_number_typed_with_a_comma_is_told_with_what_to_write(bench, tmp_path):
    shown = bench.graph["stack.hydrogen_normal_flow"].show().replace("\u00a0", " ")
    docs = docs_of(tmp_path / "docs", translation=GERMAN.replace("Er macht", f"Er macht {shown}, also"))
    _, faults = page_of(docs, bench)
    (told,) = [fault.message for fault in faults if fault.code.startswith("pages.typed")]
    assert "plant.stack.hydrogen_normal_flow" in told
    assert with_point(shown) in told, "an expression wants the point"


@pytest.mark.usefixtures("german")
def test_a_translation_without_a_source_is_a_fault(bench, tmp_path):
    docs = docs_of(tmp_path / "docs")
    (docs / "de/guides/stak.md").write_text(GERMAN, encoding="utf-8")
    _, faults = page_of(docs, bench)
    assert [fault.file for fault in faults if fault.code == "pages.translation.no_source"] == ["docs/de/guides/stak.md"]


@pytest.mark.usefixtures("german")
def test_the_guides_of_the_handbook_have_no_fault_in_german(bench):
    handbook = Handbook.of(ROOT / "docs", [bench])
    assert not handbook.faults
    written = [page for page in handbook.pages() if page.file.startswith("docs/de/")]
    assert written
    assert not [fault for page in written for fault in handbook.render(page).faults]


# --- wall guide


def test_the_wall_guide_says_the_same_numbers(bench, tmp_path):
    sheets = {}
    for code in ("en", "de"):
        file = tmp_path / f"{code}.pdf"
        with speaking(code):
            file.write_bytes(wall_guide(bench, "a4", "workshop", "https://handbook.example/bench/index.html"))
        sheets[code] = Sheet(file)
    texts = {code: sheet.text.replace("†", " ") for code, sheet in sheets.items()}
    assert re.search(r"\d,\d", texts["de"])
    assert not re.search(r"\d\.\d+\s(?:bar|NL|V|A|kWh|°C|%)", texts["de"])
    assert digits(texts["de"]) == digits(texts["en"])
    with speaking("de"):
        assert say("wall.limits.title") in " ".join(texts["de"].split())
