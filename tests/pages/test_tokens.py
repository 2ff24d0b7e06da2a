"""Tokens cross Markdown whole, and become what each place can bear."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.pages.tokens import PRIVATE_USE, Fragment, Tokens, note, working_id
from macros.quantities import say
from tests.pages.small_plant import converted, converter, parsed

RICH = f'<button type="button" popovertarget="{working_id("a.b")}" data-note="{note("a.b")}">5 &lt; 6</button>'
NUMBER = Fragment(
    plain="5 < 6",
    rich=RICH,
    marked='<span class="gw-value" data-figure="a.b">5 &lt; 6</span>',
    workings={"a.b": f'<div popover id="{working_id("a.b")}" data-note="{note("a.b")}">work</div>'},
)
TABLE = Fragment(plain="a table", rich="<table><tbody><tr><td>1</td></tr></tbody></table>", block=True)


def one(text: str, fragment: Fragment = NUMBER) -> tuple[str, Tokens]:
    """A text with `@` for the token, converted."""
    tokens = Tokens("docs/guides/x.md")
    return converted(text.replace("@", tokens.add(fragment, 7, "{{ x }}")), tokens), tokens


def messages(tokens: Tokens) -> list[str]:
    return [fault.message for fault in tokens.faults]


@pytest.mark.parametrize(
    "text",
    [
        "It makes @ an hour.",
        "**@**",
        "_@_",
        "- @\n- two",
        "1. @",
        "> @",
        "| a | b |\n| - | - |\n| @ | c |",
        "!!! note\n\n    @",
        "Word\n:   @",
        "- [ ] @",
        "text[^1]\n\n[^1]: @",
    ],
)
def test_running_text_shows_the_number_with_its_working(text: str) -> None:
    html, tokens = one(text)
    assert RICH.replace(note("a.b"), "1") in html
    assert html.count('id="working-a-b"') == 1
    assert messages(tokens) == []


@pytest.mark.parametrize("text", ["# Makes @ an hour", "Makes @\n=======", "[see @](x.md)", "[see @][1]\n\n[1]: x.md"])
def test_headings_and_links_show_it_marked_but_not_to_be_pressed(text: str) -> None:
    html, tokens = one(text)
    assert NUMBER.marked in html
    assert "<button" not in html and "gw-workings" not in html
    assert messages(tokens) == []


def test_heading_ids_do_not_move_with_the_number() -> None:
    html, _ = one("## Makes @ an hour")
    assert '<h2 id="makes-an-hour">' in html


def test_table_of_contents_takes_it_as_plain_text() -> None:
    tokens = Tokens("x.md")
    reader = converter()
    reader.convert(f"## Makes {tokens.add(NUMBER)} an hour")
    (entry,) = reader.toc_tokens  # type: ignore[attr-defined]
    assert tokens.plain(entry["name"]) == "Makes 5 < 6 an hour"
    assert tokens.escaped(entry["name"]) == "Makes 5 &lt; 6 an hour"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("![makes @](x.png)", 'alt="makes 5 &lt; 6"'),
        ('![a](x.png "makes @")', 'title="makes 5 &lt; 6"'),
        ('[a](x.md "makes @")', 'title="makes 5 &lt; 6"'),
        ('<img alt="makes @" src="x.png">', 'alt="makes 5 &lt; 6"'),
        ("<img alt='makes @' src='x.png'>", "alt='makes 5 &lt; 6'"),
    ],
)
def test_attributes_that_somebody_reads_take_plain_text(text: str, shown: str) -> None:
    html, tokens = one(text)
    assert shown in html
    assert "<button" not in html
    assert messages(tokens) == []


@pytest.mark.parametrize(
    ("text", "attribute"),
    [
        ("[a](x@.md)", "href"),
        ("![a](x@.png)", "src"),
        ("## a {: #b@ }", "id"),
        ("a\n{: .b@ }", "class"),
        ('<p data-x="@">a</p>', "data-x"),
    ],
)
def test_attributes_that_nobody_reads_are_faults(text: str, attribute: str) -> None:
    _, tokens = one(text)
    assert messages(tokens)[0] == say("pages.token_in_attribute", found="{{ x }}", attribute=attribute)
    assert tokens.faults[0].line == 7


@pytest.mark.parametrize("text", ["    @", "`@`", "```\n@\n```", "<pre>@</pre>", "<code>@</code>"])
def test_code_that_was_not_seen_before_is_a_fault(text: str) -> None:
    html, tokens = one(text)
    assert messages(tokens) == [say("pages.token_in_code", found="{{ x }}")]
    assert not PRIVATE_USE.search(html)


@pytest.mark.parametrize("text", ["a\n\n@\n\nb", "@", "- @", "!!! note\n\n    @"])
def test_a_table_alone_in_its_paragraph_loses_the_paragraph(text: str) -> None:
    html, tokens = one(text, TABLE)
    assert TABLE.rich in html
    assert not re.search(r"<p>\s*<table>", html)
    assert messages(tokens) == []
    parsed(html)


def test_two_tables_in_a_row_lose_the_paragraph_together() -> None:
    html, tokens = one("@\n@", TABLE)
    assert html.count(TABLE.rich) == 2
    assert "<p>" not in html
    assert messages(tokens) == []


@pytest.mark.parametrize("text", ["see @", "@ and", "# @", "**@**", "[@](x.md)"])
def test_a_table_within_a_sentence_is_a_fault(text: str) -> None:
    html, tokens = one(text, TABLE)
    assert messages(tokens) == [say("pages.block_in_text", found="{{ x }}")]
    assert "<table" not in html


def test_a_number_that_markdown_drops_is_a_fault() -> None:
    _, tokens = one("[unused]: x.md '@'")
    assert messages(tokens) == [say("pages.token_lost", found="{{ x }}")]


@pytest.mark.parametrize("text", ["a {{ b }} c", "{% if x %}", "a }} b", "a {# b"])
def test_braces_that_markdown_shows_are_faults(text: str) -> None:
    _, tokens = one(text + " @")
    assert len(messages(tokens)) == 1 and "braces" in messages(tokens)[0]


@pytest.mark.parametrize("text", ["`{{ b }}`", "```\n{{ b }}\n```", "    {{ b }}"])
def test_braces_in_code_are_shown_as_typed(text: str) -> None:
    html, tokens = one(text + "\n\n@")
    assert "{{ b }}" in html
    assert messages(tokens) == []


def test_workings_are_numbered_in_the_order_of_the_page() -> None:
    tokens = Tokens("x.md")

    def fragment(key: str) -> Fragment:
        html = f'<div popover id="{working_id(key)}" data-note="{note(key)}"></div>'
        return Fragment(key, f'<button data-note="{note(key)}">{key}</button>', key, workings={key: html})

    second, first = tokens.add(fragment("b")), tokens.add(fragment("a"))
    html = converted(f"# {second}\n\n{first} and {second} and {first}", tokens)
    assert re.findall(r'<button data-note="(\d)">(.)', html) == [("1", "a"), ("2", "b"), ("1", "a")]
    assert re.findall(r'id="working-(.)" data-note="(\d)"', html) == [("a", "1"), ("b", "2")]


def test_a_page_without_numbers_stays_as_it_is() -> None:
    html = "<p>a &amp; b<br></p>\n<!-- c -->"
    assert Tokens("x.md").replace(html) == html


def test_search_leaves_the_workings_out() -> None:
    html, _ = one("@")
    (opening,) = re.findall(r"<section[^>]*>", html)
    assert "data-search-exclude" in opening
    # The theme's search stops leaving out at the first end of the same element, so none may stand within.
    assert html.count("</section>") == 1


@settings(max_examples=200, deadline=None)
@given(
    st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc", "Co"]), max_size=60),
    st.text("*_`|[]()<>#-! \n&", max_size=12),
)
def test_no_token_is_ever_seen(before: str, after: str) -> None:
    tokens = Tokens("x.md")
    first, second = (tokens.add(NUMBER, line, f"{{{{ {line} }}}}") for line in (1, 2))
    html = converted(f"{before}\n\n{after}{first}{after[::-1]}\n\n{second}", tokens)
    assert not PRIVATE_USE.search(html)
    assert html.count("5 &lt; 6") >= 2 or messages(tokens)


def working_of(key: str) -> str:
    return f'<div popover id="{working_id(key)}" class="gw-working" data-note="{note(key)}">how {key}</div>'


def button_of(key: str) -> str:
    return f'<button popovertarget="{working_id(key)}" data-note="{note(key)}">1</button>'


def test_workings_of_a_form_stay_off_paper_and_are_numbered_after_the_rest() -> None:
    tokens = Tokens("x.md")
    form = Fragment(
        "form", f"<table><tr><td>{button_of('a')}{button_of('b')}</td></tr></table>", block=True,
        workings={key: working_of(key) for key in "ab"}, printed=False,
    )  # fmt: skip
    texts = [Fragment("1", button_of(key), workings={key: working_of(key)}) for key in "bc"]
    html = converted(f"{tokens.add(form)}\n\nText {tokens.add(texts[0])} and {tokens.add(texts[1])}.", tokens)
    told = [(each[0] != "", each[1], each[2]) for each in re.findall(
        r'<div popover id="[^"]*" class="gw-working( gw-unprinted)?" data-note="(\d)">how (\w)', html)]  # fmt: skip
    assert told == [(False, "1", "b"), (False, "2", "c"), (True, "3", "a")]
    assert re.findall(r'data-note="(\d)">1<', html) == ["3", "1", "1", "2"]
    assert say("pages.workings_elsewhere") in html


def test_a_page_without_forms_says_nothing_of_them() -> None:
    html, _ = one("@")
    assert say("pages.workings_elsewhere") not in html
    assert "gw-unprinted" not in html
