"""What we take for code is what Markdown takes for code, or else it is told as a fault."""

import itertools
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.pages.code_regions import code_regions
from tests.pages.small_plant import converter

CODE = "QCODE"
PROSE = "QPROSE"


def inside(text: str, word: str) -> list[bool]:
    """Whether we take each place of a word for code."""
    regions = code_regions(text)
    return [regions.within(found.start()) for found in re.finditer(word, text)]


def shown_as_code(text: str, word: str) -> list[bool]:
    """Whether Markdown shows each place of a word as code."""
    html = converter().convert(text)
    marked = re.sub(r"<(/?)(?:code|pre)\b[^>]*>", lambda found: "\x01" if found[1] else "\x02", html)
    depth, found = 0, []
    for piece in re.findall(rf"\x01|\x02|{word}", marked):
        depth += {"\x02": 1, "\x01": -1}.get(piece, 0)
        if piece == word:
            found.append(depth > 0)
    return found


@pytest.mark.parametrize(
    "text",
    [
        "```\nQCODE\n```\n\nQPROSE",
        "~~~\nQCODE\n~~~\nQPROSE",
        "````\n```\nQCODE\n```\nQCODE\n````\n\nQPROSE",
        "```python\nQCODE\n```",
        '``` yaml title="plant.yml"\nQCODE\n```',
        "```{.yaml}\nQCODE\n```",
        "```\nQCODE\n~~~\nQCODE\n```\n\nQPROSE",
        "```\n\nQCODE\n\n\nQCODE\n```",
        "- item\n\n    ```\n    QCODE\n    ```\n\n    QPROSE",
        "1. item\n    - inner\n\n        ~~~\n        QCODE\n        ~~~\n",
        "!!! note\n\n    QPROSE\n\n    ```\n    QCODE\n    ```\n\n    QPROSE",
        "> ```\n> QCODE\n> ```\n>\n> QPROSE",
        "    ```\n    QCODE\n    ```",
        "a `QCODE` QPROSE `QCODE`",
        "a `` QCODE ` QCODE `` QPROSE",
        "a \\`QPROSE\\`",
        "a \\\\`QCODE`",
        "| a | b |\n| - | - |\n| `QCODE` | QPROSE |",
        "# a `QCODE` QPROSE",
        "a ` QPROSE",
        "```QCODE``` QPROSE",
        "a `QCODE`\n\n`QCODE` QPROSE",
        "\t```\n\tQCODE\n\t```",
    ],
)
def test_code_is_where_markdown_shows_it(text: str) -> None:
    for word in (CODE, PROSE):
        assert inside(text, word) == shown_as_code(text, word) == [word == CODE] * text.count(word)
    assert code_regions(text).problems == []


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a\n\n```\nb", 2),
        ("```\na\n````", 0),
        ("~~~\na\n```", 0),
        ("a\n- b\n\n    ```\n    c\n  d\n    ```", 3),
        ("> ```\n> a\n\nb\n> ```", 0),
        ("```\n> a\n```\n```\n", 3),
        ("a\n``` python weather\nb\n```", 1),
        ("```{#id}\na\n```", 0),
    ],
)
def test_a_fence_that_markdown_gives_up_is_a_fault(text: str, line: int) -> None:
    problems = code_regions(text).problems
    assert text.count("\n", 0, problems[0].offset) == line


@pytest.mark.parametrize(
    "text",
    ["- a `b\n- c {{ x }} `d`", "a `b\nc` {{ x }} `d", "a ``b` {{ x }} `c", "a `b {{ x }}\nc`", "`\n-\n`\n` {{ x }} `"],
)
def test_backticks_that_may_be_read_in_two_ways_make_a_place_doubtful(text: str) -> None:
    assert code_regions(text).doubtful(text.index("{{"))


@pytest.mark.parametrize("text", ["`a` {{ x }} `b`", "a ` {{ x }}", "`{{ x }}`", "`a` b\n{{ x }} `c`"])
def test_plain_backticks_leave_no_doubt(text: str) -> None:
    assert not code_regions(text).doubtful(text.index("{{"))


LINES = st.lists(st.text("`~>-    \tabQ\\|", max_size=14).map(lambda line: line.replace("Q", f" {PROSE} ")), max_size=8)


@settings(max_examples=500, deadline=None)
@given(LINES)
def test_where_we_differ_from_markdown_there_is_a_fault(lines: list[str]) -> None:
    text = "\n".join(lines)
    regions = code_regions(text)
    ours = inside(text, PROSE)
    doubtful = [regions.doubtful(found.start()) for found in re.finditer(PROSE, text)]
    if regions.problems or any(doubtful):
        return
    theirs = shown_as_code(text, PROSE)
    # Text indented by four spaces is code to Markdown only; a token in it, or one that a table drops with a column too
    # many, is told afterwards (see test_tokens).
    assert len(theirs) != len(ours) or all(their for our, their in zip(ours, theirs, strict=True) if our)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=200))
def test_any_text_has_regions_in_order(text: str) -> None:
    regions = code_regions(text)
    for ranges in (regions.fences, regions.spans):
        assert all(first < last for first, last in ranges)
        assert all(before[1] <= after[0] for before, after in itertools.pairwise(ranges))


def test_a_hostile_line_of_backticks_takes_no_time() -> None:
    code_regions(" ".join("`" * (1 + number % 7) for number in range(40_000)))
