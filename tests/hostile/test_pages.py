"""No page runs, reads or hides anything: each is refused with its reason and line; harmless pages pass as they are."""

import re

import html5lib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.pages.front_matter import split_source
from macros.pages.macros import MACROS
from macros.pages.page_text import read_page
from macros.pages.plain_html import strange_html
from macros.pages.vocabulary import Vocabulary
from tests.hostile.pages import HARMLESS, HTML, MARKUP, TEMPLATES, WITHOUT_END
from tests.hostile.watching import watched
from tests.pages.small_plant import converter

FILE, FRONT = "docs/guides/x.md", "---\ntitle: A page\n---\n"
FIRST = FRONT.count("\n") + 1
KNOWN = Vocabulary(["stack.voltage"])

HOSTILE = [
    *TEMPLATES,
    *((name, body, "pages.markup.raw_html", line) for name, body, line in HTML),
    *MARKUP,
    *WITHOUT_END,
]


def faults_of(body: str) -> list[tuple[str, int, str]]:
    source = split_source((FRONT + body).encode(), FILE, (), KNOWN)
    page = read_page(source.body, FILE, source.first_line, MACROS)
    return [(one.code, one.line, one.file) for one in (*source.faults, *page.faults, *page.markup)]


def ids(rows: list[tuple[object, ...]]) -> list[str]:
    return [str(row[0]) for row in rows]


@pytest.mark.parametrize(("name", "body", "code", "line"), HOSTILE, ids=ids(HOSTILE))
def test_a_hostile_page_is_refused(name: str, body: str, code: str, line: int) -> None:
    with watched():
        found = faults_of(body)
    assert (code, FIRST + line - 1, FILE) in found, (name, found)


@pytest.mark.parametrize(("name", "body", "shown"), HARMLESS, ids=ids(HARMLESS))
def test_a_harmless_page_passes_as_it_is(name: str, body: str, shown: str) -> None:
    assert faults_of(body) == [], name
    html = converter().convert(body)
    assert list(strange_html(html)) == []
    assert shown in html


ACTING = {
    "script",
    "style",
    "iframe",
    "object",
    "embed",
    "form",
    "base",
    "meta",
    "link",
    "svg",
    "template",
    "button",
    "frame",
}
"""Elements that run, load or show something of their own (HTML Living Standard, sections 4.2, 4.8, 4.10, 4.12)."""


def acts(html: str) -> bool:
    """Whether a reader by the open standard, which shares nothing with ours, finds something in it that acts."""
    for element in html5lib.parseFragment(html, namespaceHTMLElements=False).iter():
        if not isinstance(element.tag, str):
            continue
        names = {str(name).lower() for name in element.attrib}
        links = [str(element.get(name) or "") for name in ("href", "src")]
        schemes = [re.sub(r"[\x00-\x20]", "", link).lower() for link in links]
        if element.tag.rpartition("}")[2] in ACTING or any(name.startswith("on") for name in names):
            return True
        if names & {"style", "hidden", "target", "data-figure", "aria-hidden", "srcdoc"}:
            return True
        if any(
            scheme.startswith(("javascript:", "vbscript:", "data:", "blob:", "file:", "//", "/\\"))
            for scheme in schemes
        ):
            return True
    return False


MARKED_UP = [(name, body) for name, body, _ in HTML] + [(name, body) for name, body, _, _ in MARKUP]


def test_what_the_first_look_would_miss_the_second_sees() -> None:
    """Each hostile page is converted all the same: where something in it acts, the look at the HTML refuses it too."""
    acting = [(name, html) for name, body in MARKED_UP if acts(html := converter().convert(body))]
    assert len(acting) > 40
    assert [name for name, html in acting if not list(strange_html(html))] == []


@settings(max_examples=300)
@given(st.lists(st.sampled_from([
    "<", ">", "script", "<img src=x onerror=y>", "</", "<!--", "-->", "`", "``", "\\", "\n", "\n\n", "    ", "- ", "> ", "# ", "[a]", "(", ")",
    "javascript:x", "[a]: ", "data:", "//", "{: ", "}", "onclick=x", ".a", "#b", "```\n", "~~~\n", "|", "&lt;", "&#60;", "!!! note", '"', "*", "!",
]), max_size=14).map("".join))  # fmt: skip
def test_no_mixture_of_marks_acts_unseen(body: str) -> None:
    """Whatever both looks let pass has nothing in it that acts, by the reader of the open standard."""
    if not faults_of(body):
        html = converter().convert(body)
        assert list(strange_html(html)) or not acts(html), html
