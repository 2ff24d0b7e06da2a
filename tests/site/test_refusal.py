"""A refused plant is published with its refusal, and fails the build only where somebody builds by it."""

import contextlib
import io
import re

import html5lib
import pytest

from macros.command import main
from macros.site.build import Built
from tests.once import made_once
from tests.pages.kept_record import refused_bench
from tests.site.conftest import ROOT, copy_handbook


@pytest.fixture(scope="module")
def handbook(shared):
    """One plant, the bench, refused though it is published, built; `status` and `said` tell how."""

    def built(folder):
        copy_handbook(folder, ("none",))
        for guide in (folder / "docs/guides").glob("*.md"):
            guide.unlink()
        refused_bench(folder, "published")
        (folder / "docs/index.md").write_text("# Home\n\n[Plants](plants.md)\n", "utf-8")
        said = io.StringIO()
        with contextlib.redirect_stdout(said):
            status = main(["build", "--handbook", str(folder)])
        (folder / "status").write_text(str(status), "utf-8")
        (folder / "said").write_text(said.getvalue(), "utf-8")

    return made_once(shared / "refused", built)


@pytest.fixture(scope="module")
def told(handbook):
    """The exit of the build, and what it said."""
    return int((handbook / "status").read_text("utf-8")), (handbook / "said").read_text("utf-8")


@pytest.fixture(scope="module")
def pages(handbook):
    return {
        path.relative_to(handbook / "site").as_posix(): html5lib.parse(
            path.read_text("utf-8"), namespaceHTMLElements=False
        )
        for path in (handbook / "site").glob("*/*.html")
    }


def banners(page, name):
    return [one for one in page.iter("div") if f"gw-{name}" in (one.get("class") or "").split()]


def test_the_build_fails_for_a_published_plant_and_says_which_and_why_in_a_line(told):
    status, said = told
    lines = [line for line in said.splitlines() if line.startswith("REFUSED")]
    assert status == 1
    assert len(lines) == 1
    assert "bench (published)" in lines[0]
    assert "hydrogen-in-oxygen" in lines[0]


def test_every_page_of_the_refused_plant_carries_the_refusal(pages):
    mine = [page for address, page in pages.items() if address.startswith("bench/")]
    assert len(mine) > 10
    assert all(len(banners(page, "refused")) == 1 for page in mine)


def test_each_sheet_of_the_refused_plant_says_so_at_its_foot(handbook):
    for name in ("whole", "drawing", "parts"):
        path = handbook / f"site/bench/{name}.html"
        assert re.search(r'<html[^>]*data-running="[^"]* · Refused\."', path.read_text("utf-8"))
    whole = (handbook / "site/bench/whole.html").read_text("utf-8")
    assert whole.count('class="gw-banner gw-again-refused"') == whole.count('<section class="gw-chapter">') > 10


@pytest.mark.parametrize(
    ("status", "fails"), [("draft", False), ("withdrawn", False), ("published", True), ("built", True)]
)
def test_only_a_plant_that_somebody_builds_by_fails_the_build(status, fails):
    assert Built(ROOT, {"bench": ()}, {"bench": status, "shed": "published"}).fails is fails
    assert not Built(ROOT, {}, {"bench": status}).fails


def test_the_refused_plant_is_named_so_among_all_plants(handbook):
    text = (handbook / "site/plants.html").read_text("utf-8")
    assert "Refused." in text[text.index('id="bench"') :]


@pytest.mark.browser
def test_line_ups_of_a_refused_plant_are_not_printed(browser):
    from importlib import resources

    style = (resources.files("macros.site") / "assets/review.css").read_text("utf-8")
    page = browser.new_page()
    page.set_content(
        f'<style>{style}</style><div class="gw-banner gw-refused">x <span class="gw-on-paper">not printed</span></div>'
        '<p>text</p><div class="gw-lineup">steps</div><section><div class="gw-lineup">more</div></section>'
    )
    shown = [page.locator(".gw-lineup").nth(number).is_visible() for number in (0, 1)]
    page.emulate_media(media="print")
    printed = [page.locator(".gw-lineup").nth(number).is_visible() for number in (0, 1)]
    assert (shown, printed) == ([True, True], [False, False])
    assert page.locator(".gw-on-paper").is_visible()
    page.close()
