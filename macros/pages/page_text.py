"""
The text of a page: read once into parts, written for each plant.

Line numbers are those of the file, though its front matter was taken off before: the text knows its first line, and
what is written remembers for each line where it came from. All faults are gathered; none stops the reading.
"""

from __future__ import annotations

import functools
import re
from bisect import bisect_right
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from macros.pages.code_regions import code_regions
from macros.pages.expressions import Condition, Expression, RefusedError, read_condition, read_expression
from macros.pages.markup import markup_faults, only_prose
from macros.pages.tokens import PRIVATE_USE
from macros.quantities import Fault, say

__all__ = ["Body", "Choice", "PageText", "Quoted", "Text", "Written", "read_page"]

DELIMITER = re.compile(r"\{\{|\{%|\{#|\}\}|%\}")
CLOSING = {"{{": "}}", "{%": "%}", "{#": "#}"}
FURTHEST = 2000
"""Characters in which an expression is expected to end."""

EMPTY_LINE = re.compile(r"\n[ \t]*\n")
WORD = re.compile(r"[+-]?\s*([A-Za-z_]*)\s*(.*?)\s*[+-]?", re.DOTALL)
HEADING_ID = re.compile(r"\{#([A-Za-z0-9_-]+)\s*\}")
MARKDOWN_MARKS = re.compile("[\x00-\x08\x0b-\x1f\x7f]")
"""Control characters; Markdown uses some of them for places of its own."""


@dataclass(frozen=True)
class Text:
    """Markdown as it stands."""

    line: int
    text: str


@dataclass(frozen=True)
class Quoted:
    """An expression in double braces."""

    line: int
    source: str
    expression: Expression


@dataclass
class Choice:
    """`if`, `elif`, `else`: conditions with what each lets through; the last may have none."""

    line: int
    branches: list[tuple[int, Condition | None, list[Part]]] = field(default_factory=list)


Part = Text | Quoted | Choice


@dataclass(frozen=True)
class PageText:
    """A page as read."""

    file: str
    parts: tuple[Part, ...]
    faults: tuple[Fault, ...]
    markup: tuple[Fault, ...] = ()
    """What may not stand in its Markdown; titles and purposes are no Markdown, so nobody asks there."""

    def write(self, quote: Callable[[Quoted], str], holds: Callable[[int, Condition], bool]) -> Written:
        """
        The text with its expressions replaced and its conditions decided.

        Parameters
        ----------
        quote : callable
            What stands for an expression.
        holds : callable
            Whether a condition, written at a line, holds.
        """
        written = Written()
        _write(self.parts, written, quote, holds)
        return written


@dataclass
class Written:
    """Text with the line of the file that each of its lines came from."""

    pieces: list[str] = field(default_factory=list)
    lines: list[int] = field(default_factory=lambda: [0])
    _line_is_empty: bool = True

    @property
    def text(self) -> str:
        return "".join(self.pieces)

    def add(self, text: str, line: int) -> None:
        """Add a text that begins at a line of the file."""
        if not text:
            return
        if self._line_is_empty:
            self.lines[-1] = line
        breaks = text.count("\n")
        self.lines.extend(range(line + 1, line + breaks + 1))
        self.pieces.append(text)
        self._line_is_empty = text.endswith("\n")


def _write(
    parts: tuple[Part, ...] | list[Part],
    written: Written,
    quote: Callable[[Quoted], str],
    holds: Callable[[int, Condition], bool],
) -> None:
    for part in parts:
        if isinstance(part, Text):
            written.add(part.text, part.line)
        elif isinstance(part, Quoted):
            written.add(quote(part), part.line)
        else:
            for line, condition, inside in part.branches:
                if condition is None or holds(line, condition):
                    _write(inside, written, quote, holds)
                    break


def read_page(text: str, file: str, first_line: int, macros: Mapping[str, Callable[..., Any]]) -> PageText:
    """
    Read the text of a page.

    Parameters
    ----------
    text : str
        Markdown without front matter, lines ended by a newline only.
    file : str
        Its name in faults.
    first_line : int
        The line of the file at which the text begins.
    macros : mapping
        Functions that a page may call, by name.
    """
    reader = _Reader(text, file, first_line, macros)
    reader.read()
    prose = only_prose(text, reader.code, reader.taken)
    markup = markup_faults(text, prose, reader.code, file, first_line)
    return PageText(file, tuple(reader.root), tuple(dict.fromkeys(reader.faults)), tuple(markup))


@dataclass(frozen=True)
class Body:
    """What stands below the front matter of a page, read when something asks for it; as the arguments of `read_page`."""

    text: str
    file: str
    first_line: int
    macros: Mapping[str, Callable[..., Any]] = field(repr=False)

    @functools.cached_property
    def read(self) -> PageText:
        return read_page(self.text, self.file, self.first_line, self.macros)


@dataclass
class _OpenChoice:
    choice: Choice
    has_else: bool = False


class _Reader:
    def __init__(self, text: str, file: str, first_line: int, macros: Mapping[str, Callable[..., Any]]) -> None:
        self.text, self.file, self.first_line, self.macros = text, file, first_line, macros
        self.root: list[Part] = []
        self.into = self.root
        self.open: list[tuple[_OpenChoice, list[Part]]] = []
        self.faults: list[Fault] = []
        self.taken: list[tuple[int, int]] = []
        """Where each expression and tag stands."""
        self._line_starts = [0, *(found.end() for found in re.finditer("\n", text))]

    def line(self, offset: int) -> int:
        return self.first_line + bisect_right(self._line_starts, offset) - 1

    def fault(self, offset: int, message: str) -> None:
        self.faults.append(Fault(self.file, self.line(offset), "", message))

    def read(self) -> None:
        self._check_characters()
        self.code = code_regions(self.text)
        for problem in self.code.problems:
            self.fault(problem.offset, problem.message)
        position = 0
        for start, end in self._expressions():
            before, after = start, end
            if self.text[start : start + 2] == "{%":
                before, after = self._whole_line(start, end)
            if before > position:
                self.into.append(Text(self.line(position), self.text[position:before]))
            self._take(start, end)
            self.taken.append((start, end))
            position = max(position, after)
        if position < len(self.text):
            self.into.append(Text(self.line(position), self.text[position:]))
        while self.open:
            unfinished, outer = self.open.pop()
            self.faults.append(Fault(self.file, unfinished.choice.line, "", say("pages.if_not_closed")))
            self.into = outer

    def _check_characters(self) -> None:
        for found in PRIVATE_USE.finditer(self.text):
            self.fault(found.start(), say("pages.private_use", code=f"U+{ord(found[0]):04X}"))
        for found in MARKDOWN_MARKS.finditer(self.text):
            self.fault(found.start(), say("pages.control_character", code=f"U+{ord(found[0]):04X}"))

    def _expressions(self) -> Iterator[tuple[int, int]]:
        """Start and end of everything in braces that stands outside code."""
        position = 0
        while found := DELIMITER.search(self.text, position):
            start, opening = found.start(), found[0]
            position = found.end()
            if self.code.doubtful(start):
                self.fault(start, say("pages.doubtful_code"))
            if self.code.within(start):
                continue
            if opening not in CLOSING:
                self.fault(start, say("pages.closing_alone", found=opening))
                continue
            if opening == "{#" and self._heading_id(start):
                continue
            end = self._end(start, opening)
            if end is None:
                self.fault(start, say("pages.not_closed", opening=opening, closing=CLOSING[opening]))
                continue
            if self.text[start - 1 : start] == "\\":
                self.fault(start, say("pages.escaped_braces"))
            yield start, end
            position = end

    def _heading_id(self, start: int) -> bool:
        """Whether a brace with a number sign is meant as an id; then it is a fault of its own."""
        found = HEADING_ID.match(self.text, start)
        if found is None:
            return False
        self.fault(start, say("pages.heading_id", found=found[0], instead=f"{{: #{found[1]} }}"))
        return True

    def _end(self, start: int, opening: str) -> int | None:
        """Where an expression ends: behind its closing braces outside quotes, before the next empty line."""
        furthest = min(start + FURTHEST, len(self.text))
        limit_found = EMPTY_LINE.search(self.text, start, furthest)
        limit = limit_found.start() if limit_found else furthest
        closing = CLOSING[opening]
        if opening == "{#":
            end = self.text.find(closing, start + 2, limit)
            return end + 2 if end >= 0 else None
        quote = ""
        position = start + 2
        while position < limit:
            each = self.text[position]
            if quote:
                quote = "" if each == quote else quote
            elif each in "\"'":
                quote = each
            elif self.text.startswith(closing, position) and position + 2 <= limit:
                return position + 2
            elif self.text.startswith(("{{", "{%"), position):
                break
            position += 1
        # An apostrophe may have hidden the end: then the expression is faulty, but where it stops is clear.
        line_end = self.text.find("\n", start, limit)
        plain = self.text.find(closing, start + 2, limit if line_end < 0 else line_end)
        following = self.text.find("{{", start + 2, plain) if plain >= 0 else -1
        return plain + 2 if plain >= 0 and following < 0 else None

    def _whole_line(self, start: int, end: int) -> tuple[int, int]:
        """The bounds of a tag; with its line, its newline included, where it stands alone on it."""
        line_start = self.text.rfind("\n", 0, start) + 1
        line_end = self.text.find("\n", end)
        line_end = len(self.text) if line_end < 0 else line_end
        if self.text[line_start:start].strip() or self.text[end:line_end].strip():
            return start, end
        return line_start, min(line_end + 1, len(self.text))

    def _take(self, start: int, end: int) -> None:
        source = self.text[start:end]
        code = source[2:-2]
        try:
            if source.startswith("{{"):
                expression = read_expression(code, self.macros)
                self.into.append(Quoted(self.line(start), " ".join(source.split()), expression))
            elif source.startswith("{#"):
                raise RefusedError(say("pages.comment"))
            else:
                self._tag(start, code)
        except RefusedError as refused:
            self.fault(start, str(refused))

    def _tag(self, start: int, code: str) -> None:
        for mark in {code[:1], code[-1:]} & {"+", "-"}:
            self.fault(start, say("pages.whitespace_mark", mark=mark))
        found = WORD.fullmatch(code)
        word, rest = (found[1], found[2]) if found else ("", "")
        line = self.line(start)
        if word == "if":
            branch: list[Part] = []
            choice = Choice(line)
            self.into.append(choice)
            self.open.append((_OpenChoice(choice), self.into))
            self.into = branch
            choice.branches.append((line, self._condition(start, rest), branch))
        elif word in ("elif", "else", "endif"):
            self._continue(start, word, rest)
        elif not word:
            raise RefusedError(say("pages.empty_tag"))
        else:
            raise RefusedError(say("pages.unknown_tag", found=word))

    def _continue(self, start: int, word: str, rest: str) -> None:
        if not self.open:
            raise RefusedError(say("pages.no_if", found=word))
        unfinished, outer = self.open[-1]
        if word == "endif":
            self.open.pop()
            self.into = outer
        else:
            if unfinished.has_else:
                self.fault(start, say("pages.after_else", found=word, line=unfinished.choice.line))
            branch: list[Part] = []
            self.into = branch
            condition = self._condition(start, rest) if word == "elif" else None
            unfinished.has_else = unfinished.has_else or word == "else"
            unfinished.choice.branches.append((self.line(start), condition, branch))
        if word != "elif" and rest:
            raise RefusedError(say("pages.words_behind", found=word, rest=rest))

    def _condition(self, start: int, code: str) -> Condition | None:
        try:
            return read_condition(code)
        except RefusedError as refused:
            self.fault(start, str(refused))
            return None
