"""
Where a page holds code: fences and inline spans, in which nothing is interpreted.

Fences are found as `pymdownx.superfences` finds them, line by line, in lists, admonitions and quotations too. A fence
that it would give up is a fault, and so is an expression of which the reading decides whether it stands in a span: what
we take for code and what Markdown takes for code must not differ.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field

from macros.quantities import say

__all__ = ["CodeRegions", "Problem", "code_regions"]

TAB = 4
PREFIX = "> \t"

FENCE = re.compile(r"(?P<fence>~{3,}|`{3,})(?P<rest>.*)$")
HEADER = re.compile(
    r"""[ \t]*(?:\.?[\w#.+-]+)?(?:[ \t]+(?:title="[^"<>&]*"|linenums="[0-9]{1,4}"|hl_lines="[0-9]{1,3}(?:[ -][0-9]{1,3}){0,40}"))*[ \t]*"""
    r"""|[ \t]*\{[ \t]*\.[\w#.+-]+[ \t]*\}[ \t]*"""
)
SPAN = re.compile(r"(?<!`)(`+)(?!`).+?(?<!`)\1(?!`)", re.DOTALL)
"""An inline span as most readers of Markdown see it: as many backticks behind as before it."""
TICKS = re.compile(r"`+")

Span = tuple[int, int]


@dataclass(frozen=True)
class Problem:
    """Something wrong at a place of a text."""

    offset: int
    message: str


@dataclass
class CodeRegions:
    """The code of a text: `fences` as ranges of whole lines, inline `spans` and two other readings of those."""

    fences: list[Span] = field(default_factory=list)
    spans: list[Span] = field(default_factory=list)
    line_spans: list[Span] = field(default_factory=list)
    strict_spans: list[Span] = field(default_factory=list)
    unsure: list[Span] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def within(self, offset: int) -> bool:
        """Whether a place lies in code."""
        return _holds(self.fences, offset) or _holds(self.spans, offset)

    def doubtful(self, offset: int) -> bool:
        """Whether it depends on the reading if a place lies in code: on how lines or unequal backticks are paired."""
        if _holds(self.fences, offset):
            return False
        # A heading, a rule or a list may part the lines of a block; then a backtick left over on one line decides about
        # the lines after it.
        if _holds(self.unsure, offset):
            return True
        return len({_holds(reading, offset) for reading in (self.spans, self.line_spans, self.strict_spans)}) > 1


def _holds(ranges: list[Span], offset: int) -> bool:
    position = bisect_right(ranges, (offset, 1 << 60)) - 1
    return position >= 0 and ranges[position][0] <= offset < ranges[position][1]


def code_regions(text: str) -> CodeRegions:
    """The code of a page's text, and what is wrong with its fences."""
    found = CodeRegions()
    lines = text.split("\n")
    starts = [0]
    for line in lines:
        starts.append(starts[-1] + len(line) + 1)
    fenced = [False] * len(lines)
    for first, last, problem in _fences(lines):
        if problem:
            found.problems.append(Problem(starts[first], problem))
        fenced[first : last + 1] = [True] * (last + 1 - first)
        found.fences.append((starts[first], starts[last + 1]))
    for first, last in _blocks(lines, fenced, PREFIX):
        start = starts[first]
        block = text[start : starts[last + 1]]
        found.spans.extend(_spans(block, start))
        found.strict_spans.extend((start + span.start(), start + span.end()) for span in SPAN.finditer(block))
        for number in range(first, last + 1):
            found.line_spans.extend(_spans(lines[number], starts[number]))
    for first, last in _blocks(lines, fenced, " \t"):
        alone = next((number for number in range(first, last + 1) if _leaves_over(lines[number])), last)
        last_tick = text.rfind("`", starts[alone + 1], starts[last + 1])
        if last_tick >= 0:
            found.unsure.append((starts[alone + 1], last_tick + 1))
    return found


def _leaves_over(line: str) -> bool:
    """Whether a line has a backtick that pairs with none of the same line."""
    if "`" not in line:
        return False
    rest = list(line)
    for first, last in _spans(line, 0):
        rest[first:last] = " " * (last - first)
    return "`" in re.sub(r"\\.", "", "".join(rest))


def _spans(text: str, start: int) -> Iterator[Span]:
    """Inline spans as Python-Markdown finds them: an opening that finds no equal end gives up its outer backticks."""
    runs = [(run.start(), run.end()) for run in TICKS.finditer(text)]
    by_size: dict[int, list[int]] = {}
    for number, (first, last) in enumerate(runs):
        by_size.setdefault(last - first, []).append(number)
    longest_after = [0] * (len(runs) + 1)
    for number in range(len(runs) - 1, -1, -1):
        first, last = runs[number]
        longest_after[number] = max(longest_after[number + 1], last - first)
    number = 0
    while number < len(runs):
        first, last = runs[number]
        before = text[max(0, first - 100) : first]
        if (len(before) - len(before.rstrip("\\"))) % 2:
            first += 1
        size = last - first
        end = _next_of(by_size, size, number) if size else None
        if end is None and 0 < longest_after[number + 1] < size:
            size = longest_after[number + 1]
            end = _next_of(by_size, size, number)
        if end is None:
            number += 1
            continue
        yield start + last - size, start + runs[end][1]
        number = end + 1


def _next_of(by_size: dict[int, list[int]], size: int, number: int) -> int | None:
    """The first run of so many backticks after another run."""
    candidates = by_size.get(size, [])
    position = bisect_right(candidates, number)
    return candidates[position] if position < len(candidates) else None


def _blocks(lines: list[str], fenced: list[bool], empty: str) -> Iterator[tuple[int, int]]:
    """First and last line of each run of lines that are neither fenced nor made of the characters of `empty` only."""
    first = None
    for number in range(len(lines) + 1):
        ends = number == len(lines) or fenced[number] or not lines[number].strip(empty)
        if ends and first is not None:
            yield first, number - 1
            first = None
        elif not ends and first is None:
            first = number


@dataclass
class _Open:
    """A fence that waits for its end."""

    first: int
    fence: str
    width: int
    quotes: int
    empty_lines: int = 0


def _fences(lines: list[str]) -> Iterator[tuple[int, int, str]]:
    """First line, last line and problem of each fence, in order; one that is given up takes its first line only."""
    fence: _Open | None = None
    for number, raw in enumerate(lines):
        line = raw.expandtabs(TAB)
        if fence is None:
            prefix = len(line) - len(line.lstrip(PREFIX))
            found = FENCE.match(line, prefix)
            if found is None or (found["fence"][0] == "`" and "`" in found["rest"]):
                continue
            if HEADER.fullmatch(found["rest"]) is None:
                yield number, number, say("pages.fence_header", found=found["rest"].strip())
                continue
            fence = _Open(number, found["fence"], prefix, line[:prefix].count(">"))
            continue
        state = _continues(fence, line)
        if state == "ends":
            yield fence.first, number, ""
            fence = None
        elif state == "broken":
            yield fence.first, fence.first, say("pages.fence_broken", line=number - fence.first)
            fence = None
    if fence is not None:
        yield fence.first, fence.first, say("pages.fence_unclosed", fence=fence.fence)


def _continues(fence: _Open, line: str) -> str:
    """What a line does to an open fence: "goes on", "ends" or "broken"."""
    width = 0
    while width < fence.width and width < len(line) and line[width] in PREFIX:
        width += 1
    prefix, content = line[:width], line[width:]
    quotes = prefix.count(">")
    if quotes > fence.quotes:
        return "broken"
    if not content.strip() and not prefix.strip():
        fence.empty_lines += 1
        return "goes on"
    if content and width < fence.width:
        return "broken"
    if fence.quotes and fence.empty_lines and quotes < fence.quotes:
        return "broken"
    if content.rstrip(" ") == fence.fence:
        return "ends"
    fence.empty_lines = 0
    return "goes on"
