"""A handbook in two languages: one site, each page led to the same page in the other, by keyboard and from a file."""

import re

import pytest

from macros.site.build import build_site
from tests.once import made_once
from tests.site.conftest import FEW, copy_handbook


@pytest.fixture(scope="module")
def both(shared, pages_kept):
    """The bench with a few guides in English and German; its English pages are kept already."""

    def built(folder):
        handbook = copy_handbook(folder.with_name("handbook-of-two-languages"), ("bench",), FEW)
        settings = handbook / "mkdocs.yml"
        text = settings.read_text(encoding="utf-8")
        assert "languages:" not in text
        settings.write_text(text.replace("extra:\n", "extra:\n  languages: [en, de]\n"), encoding="utf-8")
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("GASWRIGHT_CACHE", str(pages_kept))
            build_site(handbook, folder)

    return made_once(shared / "site-of-two-languages", built)


def test_both_editions_hold_the_same_pages_in_their_own_language(both):
    english = {path.relative_to(both).as_posix() for path in both.rglob("*.html")} - {"404.html"}
    english = {name for name in english if not name.startswith("de/")}
    german = {path.relative_to(both / "de").as_posix() for path in (both / "de").rglob("*.html")} - {"404.html"}
    assert german == english
    assert len(english) > 30
    for name in ("bench/index.html", "bench/review.html", "bench/stack.html"):
        for folder, code, other in ((both, "en", "de"), (both / "de", "de", "en")):
            page = (folder / name).read_text(encoding="utf-8")
            assert f'<html lang="{code}"' in page
            assert set(re.findall(r'<link rel="alternate" hreflang="(\w+)"', page)) == {"en", "de"}
            assert re.search(rf'<a class="gw-cell" rel="alternate" lang="{other}" hreflang="{other}"', page)
    assert (both / "de/bench/wall-guide-a3.pdf").is_file()
    assert '"shown": "0.870\u00a0NL/min"' in (both / "de/bench/figures.json").read_text(encoding="utf-8")


def test_a_reader_turns_to_the_other_language_and_back_by_keyboard_from_a_file(browser, both):
    with browser.new_context(viewport={"width": 360, "height": 740}) as context:
        page = context.new_page()
        page.goto(f"file://{both}/bench/review.html")
        link = page.get_by_role("link", name="Deutsch")
        link.focus()
        page.keyboard.press("Enter")
        page.wait_for_url("**/de/bench/review.html")
        assert page.evaluate("document.documentElement.lang") == "de"
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), "nothing beside the screen"
        assert re.search(r"\d,\d", page.inner_text("main"))
        page.get_by_role("link", name="English").focus()
        page.keyboard.press("Enter")
        page.wait_for_url(f"file://{both}/bench/review.html")


def test_what_moves_in_german_is_written_in_german(browser, both):
    """The script of what-if writes the numbers of another step with the comma, as the page does."""
    with browser.new_context() as context:
        page = context.new_page()
        page.goto(f"file://{both}/de/bench/index.html")
        slider = page.locator(".gw-what-if input[type=range]").first
        slider.focus()
        page.keyboard.press("ArrowRight")
        moved = page.locator("tr.gw-what-if-moved .gw-what-if-here").all_inner_texts()
        assert any(re.search(r"\d,\d", text) for text in moved)
        assert not [text for text in moved if re.search(r"\d\.\d", text)]
