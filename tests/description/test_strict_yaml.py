"""The strict subset of YAML: what is read, what is refused, where everything stands."""

# ruff: noqa: E501 - a message that is promised word for word stands on one line

from __future__ import annotations

import string

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from macros.description import strict_yaml
from macros.description.strict_yaml import LARGEST_BYTES, LONGEST_TEXT, MOST_DEEP, MOST_VALUES, Document, parse
from macros.quantities import Faults


def read(text: str) -> Document:
    return parse(text.encode(), "plant.yml")


def faults(text: str) -> list[str]:
    """All faults of a text, whether they end the reading or not."""
    try:
        return [str(fault) for fault in read(text).faults]
    except Faults as error:
        return str(error).split("\n")


@pytest.fixture(params=["fast", "plain"], autouse=True)
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test runs with the loader in C and with the one that works everywhere."""
    if request.param == "plain":
        monkeypatch.setattr(strict_yaml, "_LOADER", yaml.SafeLoader)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("16", 16),
        ("-8", -8),
        ("0", 0),
        ("1.50", 1.5),
        ("-0.25", -0.25),
        ("true", True),
        ("false", False),
        ("null", None),
        # What the older YAML would change without a word stays text: YAML 1.1 reads these as false, true, 12 h 30 min in
        # minutes, a date, hexadecimal, a number with separators, infinity, null (yaml.org, language-independent types).
        ("NO", "NO"),
        ("yes", "yes"),
        ("on", "on"),
        ("True", "True"),
        ("12:30", "12:30"),
        ("2031-05", "2031-05"),
        ("2031-05-14", "2031-05-14"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        (".inf", ".inf"),
        ("~", "~"),
        ("1e3", "1e3"),
        ("+5", "+5"),
        (".5", ".5"),
        ("'010'", "010"),
        ('"16"', "16"),
        ("26 bar(g)", "26 bar(g)"),
        ("-8 °C", "-8 °C"),
        ("1.95 ± 0.03 V", "1.95 ± 0.03 V"),
        ("26\u00a0bar(g)", "26\u00a0bar(g)"),
    ],
)
def test_words_mean_what_they_show(typed: str, meant: object) -> None:
    value = read(f"key: {typed}").data["key"]
    assert value == meant
    assert isinstance(value, bool) == isinstance(meant, bool)


def test_a_decimal_number_remembers_its_digits() -> None:
    assert str(read("ratio: 1.50").data["ratio"]) == "1.50"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a: 010", "plant.yml:1: a: 010 begins with a zero, which some read as another number; write 10, or put it in quotes if it is text."),
        ("a: -007.5", "plant.yml:1: a: -007.5 begins with a zero, which some read as another number; write -7.5, or put it in quotes if it is text."),
        ("a:", "plant.yml:1: a: no value stands here; write one, or leave the key out. A text that begins with a brace, or holds a comma within braces, needs quotes."),
        ("a: &x 1", 'plant.yml:1: a: the anchor "&x" is not read here; remove it.'),
        ("a: *x", 'plant.yml:1: a: the alias "*x" is not read here; write the value itself.'),
        ("a: !!str 1", 'plant.yml:1: a: the tag "tag:yaml.org,2002:str" is not read here; remove it.'),
        ("a: !x {b: 1}", 'plant.yml:1: a: the tag "!x" is not read here; remove it.'),
        ("<<: {a: 1}", 'plant.yml:1: "<<" is not read here; write the keys themselves.'),
        ("1: x", "plant.yml:1: the key 1 is no text; a key is a word such as cut_out."),
        ("true: x", "plant.yml:1: the key true is no text; a key is a word such as cut_out."),
        ("? [a]\n: b", "plant.yml:1: the key [ ] is no text; a key is a word such as cut_out."),
        ("a: 1\nb: 2\na: 3", "plant.yml:3: a: this key stands twice; the first is in line 1."),
        ("a:\tb", "plant.yml:1: a tab stands in column 3; indent with spaces."),
        ('a: "\\t"', "plant.yml:1: a: a tab stands in column 1; indent with spaces."),
        ("a: 1\n---\nb: 2", 'plant.yml:2: a second document begins here; one file holds one document, without "---".'),
        ("%YAML 1.1\n---\na: 1", "plant.yml:1: a line that begins with % is not read here; remove it."),
        ("a: 1\nb: ٣ bar(g)", "plant.yml:2: the digit U+0663 (arabic-indic digit three) stands in column 4; type 3."),
        ("a: x\u202ey", "plant.yml:1: a character that shows nothing or something else stands in column 5: U+202E right-to-left override; delete it."),
        ("a: x\u200by", "plant.yml:1: a character that shows nothing or something else stands in column 5: U+200B zero width space; delete it."),
        ('a: "\\u2066"', "plant.yml:1: a: a character that shows nothing or something else stands in column 1: U+2066 left-to-right isolate; delete it."),
        ("a\u00a0b: 1", "plant.yml:1: a character that shows nothing or something else stands in column 2: U+00A0 no-break space; delete it."),
        ("a: " + "1" * 30, "plant.yml:1: a: the number has more than 18 digits."),
        ("a: " + "x" * (LONGEST_TEXT + 1), "plant.yml:1: a: the text is longer than 4000 characters."),
        ("a: {b.c} holds", "plant.yml:1: text stands after a bracket or brace that closes; put quotes round a text that begins with one."),
        ("a:\n  - {b.c}", "plant.yml:2: a.1.b.c: no value stands here; write one, or leave the key out. A text that begins with a brace, or holds a comma within braces, needs quotes."),
        ("a: b: c", "plant.yml:1: a second colon stands where none may; put the text in quotes if the colon belongs to it."),
        ("a: 'x", "plant.yml:1: a quote opens here and nothing closes it as it should; close it, or double a quote that belongs to the text."),
        ("a: [1, 2", "plant.yml:1: a bracket opens here, and what follows does not fit it; close it, put commas between the entries, and quotes round a text that begins with a brace or bracket."),
        ("a: @x", "plant.yml:1: a text begins with a character that has a meaning of its own; put the text in quotes."),
        ("a:\n  b: 1\n c: 2", "plant.yml:3: the indentation does not fit the lines before; entries of one part begin in the same column."),
        ("a: |\n x\ny", 'plant.yml:3: a key without a colon and a space after it; write "key: value".'),
        ('a: "\\q"', "plant.yml:1: a backslash begins something unknown; use single quotes for a text with backslashes."),
        ("- a", 'plant.yml:1: the file holds no keys with values; begin with "format: 1".'),
        ("", 'plant.yml:1: the file holds no keys with values; begin with "format: 1".'),
        ("a: " + "[" * (MOST_DEEP + 1) + "]" * (MOST_DEEP + 1), f"plant.yml:1: a{'.1' * (MOST_DEEP - 1)}: parts lie more than 12 deep; a description does not."),
        ("a: [" + "1," * MOST_VALUES + "1]", "plant.yml:1: the file holds more than 20000 values; a description does not."),
    ],
    ids=lambda each: each[:24],
)  # fmt: skip
def test_each_refusal_says_where_and_what_to_write(text: str, message: str) -> None:
    assert faults(text) == [message]


def test_a_file_that_is_too_large_is_not_even_read() -> None:
    with pytest.raises(Faults, match="larger than 512 KiB"):
        parse(b"#" * (LARGEST_BYTES + 1), "plant.yml")


def test_a_file_that_is_no_text_says_so_with_its_line() -> None:
    with pytest.raises(Faults, match=r"plant\.yml:2: this line is not UTF-8"):
        parse(b"a: 1\nb: \xff", "plant.yml")


def test_the_mark_that_some_editors_put_first_is_passed_over() -> None:
    assert parse(b"\xef\xbb\xbfa: 1", "plant.yml").data == {"a": 1}


def test_line_endings_of_other_systems_are_read() -> None:
    document = parse(b"a: 1\r\nb: |\r\n  x\r\n  y\r\n", "plant.yml")
    assert document.data == {"a": 1, "b": "x\ny\n"}
    assert document.lines["b",] == 2


def test_several_faults_of_one_file_are_told_together() -> None:
    assert [fault.split(":")[1] for fault in faults("a: 010\nb: &x 1\nb: 2\nc: *x\nd: 5")] == ["1", "2", "3", "4"]


def test_what_is_at_fault_is_left_out_and_the_rest_is_kept() -> None:
    document = read("a: {b: &x {c: 1}, d: 2}\ne: [1, *x, 3]")
    assert document.data == {"a": {"d": 2}, "e": [1, None, 3]}
    assert document.broken == {("a", "b"), ("e", 2)}


def test_every_key_and_value_knows_its_line() -> None:
    document = read(
        "# first\nsite:\n  place: here\n  list:\n    - a\n    - {x: 1,\n       y: 2}\nlong:\n  >-\n  text\n"
    )
    assert document.lines == {
        (): 2,
        ("site",): 2,
        ("site", "place"): 3,
        ("site", "list"): 4,
        ("site", "list", 1): 5,
        ("site", "list", 2): 6,
        ("site", "list", 2, "x"): 6,
        ("site", "list", 2, "y"): 7,
        ("long",): 8,
    }
    assert document.value_lines["long",] == 9
    assert document.line(("site", "list", 2, "absent")) == 6


ANY_YAML = st.text(alphabet=string.printable + "é°±\u00a0\u202e٣\ufeff\x00\x85\u2028", max_size=120)
PIECES = st.lists(
    st.sampled_from(
        ["a", "b", ": ", "\n", "  ", "- ", "[", "]", "{", "}", ",", "&x ", "*x", "!!str ", "'", '"', "|", ">", "#", "?", "%", "---", "<<", "010",
         "null", "1.5", "\t", "\\", "~", "@", "`", "\u202e", "...", "!", "\r"],
    ),
    max_size=40,
).map("".join)  # fmt: skip


@given(st.one_of(ANY_YAML, PIECES))
@example("a: [" * 200)
@example("? " * 500)
@example("- " * 2000)
def test_any_text_is_read_or_refused_but_never_breaks_the_reader(text: str) -> None:
    try:
        document = read(text)
    except Faults as error:
        assert all(fault.file == "plant.yml" and fault.message for fault in error)
        assert all(0 <= fault.line <= text.count("\n") + 2 for fault in error)
        return
    assert isinstance(document.data, dict)
    assert all(isinstance(key, str) for key in document.data)


@given(st.binary(max_size=80))
def test_any_bytes_are_read_or_refused(source: bytes) -> None:
    try:
        parse(source, "plant.yml")
    except Faults as error:
        assert len(error) >= 1


PLAIN = st.from_regex(r"[a-z][a-z0-9_]{0,8}", fullmatch=True)
TREE = st.recursive(
    st.one_of(st.integers(-(10**15), 10**15), st.booleans(), st.text(alphabet=string.printable.strip() + " é°", max_size=20)),
    lambda below: st.one_of(st.lists(below, max_size=4), st.dictionaries(PLAIN, below, max_size=4)),
    max_leaves=12,
)  # fmt: skip


@given(st.dictionaries(PLAIN, TREE, min_size=1, max_size=5))
def test_what_another_writer_quotes_comes_back_the_same(data: dict[str, object]) -> None:
    """PyYAML's own writer puts quotes where its YAML would read something else; ours then reads the text as it is."""
    written = yaml.safe_dump(data, allow_unicode=True, default_flow_style=None)
    document = read(written)
    if document.faults:
        # A text such as 08, which that writer leaves without quotes, is the one thing that is refused rather than guessed.
        assert all("begins with a zero" in fault.message for fault in document.faults)
    else:
        assert document.data == data
