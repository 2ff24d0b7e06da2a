"""A page is read whole, whatever is wrong with it, and every fault has the line of the file."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.pages.expressions import Has
from macros.pages.macros import MACROS
from macros.pages.page_text import read_page
from macros.quantities import say

FIRST = 6


def faults(text: str) -> list[tuple[int, str]]:
    return [(fault.line, fault.message) for fault in read_page(text, "docs/guides/x.md", FIRST, MACROS).faults]


def written(text: str, has: tuple[str, ...] = ()) -> str:
    page = read_page(text, "x.md", FIRST, MACROS)
    assert page.faults == ()

    def holds(_: int, condition: object) -> bool:
        assert isinstance(condition, Has)
        return condition.part in has

    return page.write(lambda quoted: f"<{quoted.source}>", holds).text


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a {{ plant.b.c }} d", "a <{{ plant.b.c }}> d"),
        ("{{plant.b.c}}{{plant.d.e}}", "<{{plant.b.c}}><{{plant.d.e}}>"),
        ("a\n{{ plant.b.c }}\nd\n", "a\n<{{ plant.b.c }}>\nd\n"),
        ('{{ typed("a }} b", "why so") }}', '<{{ typed("a }} b", "why so") }}>'),
        ("`{{ plant.b.c }}`", "`{{ plant.b.c }}`"),
        ("```\n{{ x|y }}\n{% for %}\n```", "```\n{{ x|y }}\n{% for %}\n```"),
        ("~~~\n{# x #}\n~~~", "~~~\n{# x #}\n~~~"),
        ("- a\n\n    ```\n    {{ x }}\n    ```\n", "- a\n\n    ```\n    {{ x }}\n    ```\n"),
        ("a { b } c {: .d }", "a { b } c {: .d }"),
        ("## a {: #b }", "## a {: #b }"),
        ("a\r", "a\r"),
    ],
)
def test_text_passes_and_code_is_left_alone(text: str, expected: str) -> None:
    if "\r" in text:
        assert faults(text) == [(FIRST, say("pages.control_character", code="U+000D"))]
    else:
        assert written(text) == expected


@pytest.mark.parametrize(
    ("has", "expected"),
    [(("a",), "1\n2\n6\n"), (("b",), "1\n3\n6\n"), ((), "1\n4\n6\n"), (("a", "c"), "1\n2\n5\n6\n")],
)
def test_conditions_take_their_lines_with_them(has: tuple[str, ...], expected: str) -> None:
    text = (
        '1\n{% if plant.has("a") %}\n2\n  {% if plant.has("c") %}\n5\n  {% endif %}\n'
        '{% elif plant.has("b") %}\n3\n{% else %}\n4\n{% endif %}\n6\n'
    )
    assert written(text, has) == expected


def test_a_condition_within_a_line_leaves_the_line() -> None:
    assert written('a {% if plant.has("b") %}c{% else %}d{% endif %} e\n') == "a d e\n"


def test_a_list_is_not_torn_by_a_condition() -> None:
    text = '- a\n{% if plant.has("x") %}\n- b\n{% endif %}\n- c\n'
    assert written(text) == "- a\n- c\n"
    assert written(text, ("x",)) == "- a\n- b\n- c\n"


def test_every_written_line_knows_where_it_came_from() -> None:
    page = read_page(
        'one\n{% if plant.has("x") %}\ntwo\n{% endif %}\nthree {{ plant.a.b }}\nfour\n', "x.md", FIRST, MACROS
    )
    with_two = page.write(lambda _: "N", lambda *_: True)
    assert with_two.text.split("\n") == ["one", "two", "three N", "four", ""]
    assert with_two.lines == [6, 8, 10, 11, 12]
    without = page.write(lambda _: "N", lambda *_: False)
    assert without.text.split("\n") == ["one", "three N", "four", ""]
    assert without.lines == [6, 10, 11, 12]


@pytest.mark.parametrize(
    ("text", "line", "key"),
    [
        ("a\n\n{# note #}", 8, "pages.comment"),
        ("a\n\\{{ plant.a.b }}", 7, "pages.escaped_braces"),
        ("{% endif %}", 6, "no_if"),
        ("{% else %}", 6, "no_if"),
        ("{% elif plant.has('a') %}", 6, "no_if"),
        ("\n{% if plant.has('a') %}\nb", 7, "pages.if_not_closed"),
        ("{% if plant.has('a') %}\n{% else %}\n{% else %}\n{% endif %}", 8, "after_else"),
        ("{% if plant.has('a') %}\n{% else %}\n{% elif plant.has('b') %}\n{% endif %}", 8, "after_else"),
        ("{% if plant.has('a') %}\n{% endif x %}", 7, "words_behind"),
        ("{% if plant.has('a') %}\n{% else if %}\n{% endif %}", 7, "words_behind"),
        ("{% %}", 6, "pages.empty_tag"),
        ("{%%}", 6, "pages.empty_tag"),
        ("{%- if plant.has('a') %}{% endif %}", 6, "whitespace_mark"),
        ("{% if plant.has('a') -%}{% endif %}", 6, "whitespace_mark"),
        ("a }} b", 6, "closing_alone"),
        ("a %} b", 6, "closing_alone"),
        ("a\n{{ b", 7, "not_closed"),
        ("a\n{{ b\n\n}}", 7, "not_closed"),
        ("{{ a {{ plant.b.c }}", 6, "not_closed"),
        ("a `b\nc` d\n`e {{ plant.a.b }}\nf` `g", 8, "pages.doubtful_code"),
        ("a\n```\nb", 7, "fence_unclosed"),
        ("a\ue100b", 6, "private_use"),
        ("a\n\U000f0000", 7, "private_use"),
        ("a\n\x02b", 7, "control_character"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(text: str, line: int, key: str) -> None:
    found = faults(text)
    template = say(key) if key.startswith("pages.") else None
    wanted = {
        "no_if": "without an if before it",
        "after_else": "follows the else",
        "words_behind": "means nothing",
        "whitespace_mark": "does nothing here",
        "closing_alone": "closes nothing",
        "not_closed": "is not closed; end it with",
        "fence_unclosed": "this fence is not closed",
        "private_use": "has no meaning of its own",
        "control_character": "the control character",
    }
    assert any(at == line and (message == template or wanted.get(key, "\0") in message) for at, message in found)


@pytest.mark.parametrize(
    "word",
    ["set x = 1", "for x in y", "include 'a'", "import 'a' as b", "macro a()", "raw", "block a", "extends 'a'", "do x"],
)
def test_other_tags_are_refused(word: str) -> None:
    name = word.split()[0]
    assert faults(f"a\n{{% {word} %}}") == [(7, say("pages.unknown_tag", found=name))]


def test_an_id_in_the_old_form_is_told_how_to_be_written() -> None:
    assert faults("## Purge {#purge}") == [
        (6, '"{#purge}" opens a comment of the template language; an id is written {: #purge }.')
    ]


def test_all_faults_are_told_at_once_and_in_order() -> None:
    text = "{{ a|b }}\n\n{{ plant.c }\n\n{% for x in y %}\n\n{{ plant.d-e.f }}\n\n```\nx"
    assert [line for line, _ in faults(text)] == [14, 6, 8, 10, 12]


def test_an_apostrophe_does_not_swallow_the_page() -> None:
    text = "{{ plant.o'neil }} and don't {{ plant.a|b }}"
    found = [message for _, message in faults(text)]
    assert len(found) == 2
    assert "a filter" in found[1]


def test_expressions_in_a_branch_that_is_not_taken_are_read_too() -> None:
    assert faults('{% if plant.has("x") %}\n{{ a|b }}\n{% endif %}')[0][0] == 7


ODD = st.text(
    alphabet=st.one_of(st.sampled_from("{}%#`\\\n \t\"'~-+ab."), st.characters(exclude_categories=["Cs"])), max_size=80
)


@settings(max_examples=500, deadline=None)
@given(ODD)
def test_any_text_is_read_and_no_line_is_lost(text: str) -> None:
    page = read_page(text, "x.md", 1, MACROS)
    result = page.write(lambda _: "", lambda *_: True)
    assert len(result.lines) == result.text.count("\n") + 1
    if not any(mark in text for mark in ("{{", "{%", "{#")):
        assert result.text == text
        assert not text or result.lines == list(range(1, text.count("\n") + 2))
    for fault in page.faults:
        assert 1 <= fault.line <= text.count("\n") + 1
    kept = [line for line in text.split("\n") if not set(line) & set("{}%#`")]
    for line in kept:
        assert line in result.text or "{{" in text or "{%" in text or "{#" in text


def test_a_hostile_page_takes_no_time() -> None:
    for unit in ("{{", "{% if ", "{#", "`{{`", "{{'", "{% if plant.has('a') %}"):
        read_page(unit * (60_000 // len(unit)), "x.md", 1, MACROS)
