"""
The strict subset of YAML in which a plant is written, with the line of every key and value.

Refused: tags, anchors, aliases, merge keys, more than one document, directives, keys that stand twice or are no text,
tabs, invisible and bidirectional characters, digits other than 0 to 9, and anything too large or too deep.
Plain words are read by rules of our own: `-?digits` without a leading zero is a whole number, `-?digits.digits` a
decimal one, `true`, `false` and `null` are what they say, and everything else is text: `NO`, `1e3`, `12:30` and
`2031-05` stay as typed.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any, Final, NoReturn

import yaml
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from macros.quantities import Fault, Faults, say

__all__ = [
    "LARGEST_BYTES",
    "LONGEST_TEXT",
    "MOST_DEEP",
    "MOST_VALUES",
    "Decimal",
    "Document",
    "Path",
    "dotted",
    "parse",
]

LARGEST_BYTES: Final = 512 * 1024
LONGEST_TEXT: Final = 4000
MOST_DEEP: Final = 12
MOST_VALUES: Final = 20_000
MOST_DIGITS: Final = 18
"""More digits than this are no measured number, and a float would not keep them."""

Path = tuple[str | int, ...]
"""Where a value stands: keys of mappings as text, places in lists counted from 1."""

_LOADER: Final[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_WHOLE: Final = re.compile(r"-?(?:0|[1-9][0-9]*)")
_DECIMAL: Final = re.compile(r"-?(?:0|[1-9][0-9]*)\.[0-9]+")
_LEADING_ZERO: Final = re.compile(r"[+-]?0[0-9_]+(?:\.[0-9]*)?")
_WORDS: Final[dict[str, bool | None]] = {"true": True, "false": False, "null": None}

_UNSEEN: Final = frozenset(
    map(chr, (0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x180B, 0x180C, 0x180D, 0x180F, 0x2800, 0x3164, 0xFFA0))
) | frozenset(map(chr, (*range(0xFE00, 0xFE10), *range(0xE0100, 0xE01F0))))
"""Characters that show nothing although their category says they would."""
_SPACES: Final = " \u00a0\u202f"
"""A number copied from a page has a no-break space before its unit; reading quantities knows it."""
_UNSEEN_CATEGORIES: Final = frozenset(("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"))

# The parser's own words for what went wrong, and what an author most likely did, for both loaders of the library.
_SYNTAX: Final = (
    ("mapping values are not allowed", "second_colon"),
    ("escape", "escape"),
    ("quoted scalar", "quote_left_open"),
    ("flow sequence", "bracket_left_open"),
    ("flow mapping", "bracket_left_open"),
    ("flow node", "bracket_left_open"),
    ("cannot start any token", "first_character"),
    ("block scalar", "block_text"),
    ("block mapping", "indentation"),
    ("block collection", "indentation"),
    ("block sequence", "indentation"),
    ("block entry", "indentation"),
    ("sequence entries are not allowed", "indentation"),
    ("simple key", "no_colon"),
    ("directive", "directive"),
    ("document start", "documents"),
)


_BRACKETED: Final = re.compile(r"(?:^|[:-])\s+[\[{].*[\]}]\s*[^\s,#]")


class Decimal(float):
    """A decimal number that remembers how it was typed: `1.50` has three digits, 1.5 two."""

    typed: str

    def __new__(cls, typed: str) -> Decimal:
        made = super().__new__(cls, typed)
        made.typed = typed
        return made

    def __str__(self) -> str:
        return self.typed

    __repr__ = __str__


@dataclass
class Document:
    """A file as read: plain values, and the line of each key and value."""

    data: dict[str, Any] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    """What is wrong with the writing itself; values at fault are left out of the data."""
    lines: dict[Path, int] = field(default_factory=dict)
    """Where the key of a value stands, or the value itself in a list."""
    value_lines: dict[Path, int] = field(default_factory=dict)
    """Where the value itself begins."""
    broken: set[Path] = field(default_factory=set)
    """Paths that hold nothing, or not what was meant, because of a fault."""
    bad_keys: set[Path] = field(default_factory=set)
    """Mappings in which a key is at fault, so that another key may seem to be missing."""

    def line(self, path: Path) -> int:
        """The line of the deepest part of a path that stands in the file."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)


def dotted(path: Path) -> str:
    """A path as messages show it."""
    return ".".join(map(str, path))


def parse(source: bytes, file: str) -> Document:
    """
    Read a file of a description.

    Faults of single values are gathered in the document, so that the rest can still be judged.

    Raises
    ------
    Faults
        If the file cannot be read as a whole: too large, not UTF-8, with characters that must not stand in it, no
        YAML, no mapping.
    """
    text = _decoded(source, file)
    if faults := list(_bad_characters(text, file)):
        raise Faults(faults)
    reader = _Reader(file)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            reader.take(event)
    except yaml.MarkedYAMLError as error:
        raise Faults([_syntax(error, file, text.split("\n"))]) from None
    except yaml.YAMLError:
        raise Faults([Fault(file, 0, "", say("description.yaml.unreadable"))]) from None
    if not isinstance(reader.root, dict):
        raise Faults([*reader.document.faults, Fault(file, 1, "", say("description.yaml.no_mapping"))])
    reader.document.data = reader.root
    return reader.document


def _decoded(source: bytes, file: str) -> str:
    if len(source) > LARGEST_BYTES:
        raise Faults([Fault(file, 0, "", say("description.yaml.too_large", most=LARGEST_BYTES // 1024))])
    try:
        # Some editors put a mark at the beginning of a file that shows nothing and means nothing here.
        text = source.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = source.count(b"\n", 0, error.start) + 1
        raise Faults([Fault(file, line, "", say("description.yaml.not_utf8"))]) from None
    return text.replace("\r\n", "\n")


def _bad_characters(text: str, file: str) -> Iterator[Fault]:
    """One fault for each line with a character that must not stand there."""
    if text.isascii() and text.replace("\n", "").isprintable():
        return
    for number, line in enumerate(text.split("\n"), 1):
        if (found := bad_character(line)) is not None:
            yield Fault(file, number, "", found)


def bad_character(text: str, spaces: str = _SPACES) -> str | None:
    """What is wrong with the first character that must not stand in a text; none if all may."""
    if text.isascii() and text.isprintable():
        return None
    for column, each in enumerate(text, 1):
        if " " <= each <= "~":
            continue
        named = {"column": column, "code": f"U+{ord(each):04X}", "name": unicodedata.name(each, "").lower()}
        category = unicodedata.category(each)
        if each == "\t":
            return say("description.yaml.tab", column=column)
        if category == "Nd":
            return say("description.yaml.digit", digit=str(unicodedata.decimal(each)), **named)
        lost = category in ("Mn", "Me") and not _bears_marks(text[max(0, column - 2) : column - 1])
        if lost or category in _UNSEEN_CATEGORIES or each in _UNSEEN or (category == "Zs" and each not in spaces):
            return say("description.yaml.unseen", **named)
    return None


def _bears_marks(before: str) -> bool:
    """Whether a mark over or through a character may follow: behind a letter; behind a digit it would change the number."""
    return before.isalpha() or (before != "" and unicodedata.category(before) in ("Mn", "Mc"))


def _syntax(error: yaml.MarkedYAMLError, file: str, lines: Sequence[str]) -> Fault:
    said = f"{error.context or ''} {error.problem or ''}"
    key = next((ours for theirs, ours in _SYNTAX if theirs in said), "unreadable")
    # A quote or bracket left open is noticed at the end of the file: show where it was opened.
    opened = key in ("quote_left_open", "bracket_left_open") and error.context_mark is not None
    mark = error.context_mark if opened else error.problem_mark or error.context_mark
    number = min(mark.line + 1, len(lines)) if mark else 0
    if key == "indentation" and number and _BRACKETED.search(lines[number - 1]):
        key = "text_after_bracket"
    return Fault(file, number, "", say(f"description.yaml.{key}"))


@dataclass
class _Open:
    """A mapping or list that is being read."""

    path: Path
    value: dict[str, Any] | list[Any]
    key: str | None = None
    """The key whose value comes next; none where that key is at fault."""
    key_line: int = 0
    awaits_value: bool = False
    seen: dict[str, int] = field(default_factory=dict)


_LEFT_OUT: Final = object()


class _Reader:
    """Builds plain values from the parser's events, without recursion, so that no depth of nesting can exhaust it."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.document = Document()
        self.root: Any = None
        self.open: list[_Open] = []
        self.skipping = 0
        """How many mappings and lists are open within a value that is passed over."""
        self.values = 0
        self.documents = 0

    def note(self, line: int, path: Path, message: str) -> None:
        self.document.faults.append(Fault(self.file, line, dotted(path), message))

    def stop(self, line: int, path: Path, message: str) -> NoReturn:
        """Give up on the file: nothing after this place can be trusted."""
        self.note(line, path, message)
        raise Faults(self.document.faults)

    def take(self, event: yaml.Event) -> None:
        """Take the next event of the parser."""
        line = event.start_mark.line + 1  # type: ignore[union-attr]
        opens = isinstance(event, (MappingStartEvent, SequenceStartEvent))
        closes = isinstance(event, (MappingEndEvent, SequenceEndEvent))
        if opens or isinstance(event, (ScalarEvent, AliasEvent)):
            self.values += 1
            if self.values > MOST_VALUES:
                self.stop(line, (), say("description.yaml.too_many", most=MOST_VALUES))
        if isinstance(event, DocumentStartEvent):
            self.start(event, line)
        elif self.skipping:
            self.skipping += opens - closes
            if not self.skipping:
                self.put(_LEFT_OUT)
        elif closes:
            self.put(self.open.pop().value)
        elif opens or isinstance(event, (ScalarEvent, AliasEvent)):
            inside = self.open[-1] if self.open else None
            if inside is not None and isinstance(inside.value, dict) and not inside.awaits_value:
                self.key(event, line, inside)
            else:
                self.value(event, line, inside)

    def start(self, event: DocumentStartEvent, line: int) -> None:
        self.documents += 1
        if self.documents > 1:
            self.stop(line, (), say("description.yaml.documents"))
        if event.version or event.tags:
            self.stop(line, (), say("description.yaml.directive"))

    def key(self, event: Any, line: int, inside: _Open) -> None:
        """A key of the mapping that is open."""
        if not isinstance(event, (ScalarEvent, AliasEvent)):
            found = "[ ]" if isinstance(event, SequenceStartEvent) else "{ }"
            self.stop(line, inside.path, say("description.yaml.key_no_text", found=found))
        inside.awaits_value, inside.key, inside.key_line = True, None, line
        typed = event.value if isinstance(event, ScalarEvent) else ""
        wrong = _refused(event)
        if wrong is None and isinstance(event, ScalarEvent) and event.implicit[0]:
            if typed == "<<":
                wrong = say("description.yaml.merge")
            elif not isinstance(_resolved(typed), str) or not typed:
                wrong = say("description.yaml.key_no_text", found=typed)
        if wrong is None and typed in inside.seen:
            # Where the beginning of a part was lost, all its keys stand twice: the first says it.
            if inside.path not in self.document.bad_keys:
                self.note(line, (*inside.path, typed), say("description.yaml.twice", first=inside.seen[typed]))
            self.document.bad_keys.add(inside.path)
            self.document.broken.add((*inside.path, typed))
            return
        wrong = wrong or bad_character(typed, spaces=" ")
        if wrong is not None:
            self.note(line, inside.path, wrong)
            # The key that was meant is not missing: it stands here, with a fault.
            self.document.bad_keys.add(inside.path)
            self.document.broken.add((*inside.path, "".join(filter(str.isascii, typed)).strip()))
            return
        inside.key = typed
        inside.seen[typed] = line

    def value(self, event: Any, line: int, inside: _Open | None) -> None:
        """A value, or the beginning of one."""
        if inside is not None and isinstance(inside.value, dict) and inside.key is None:
            self.pass_over(event)
            return
        path = self.here(inside)
        self.document.lines[path] = line if inside is None or isinstance(inside.value, list) else inside.key_line
        self.document.value_lines[path] = line
        wrong = _refused(event)
        value: Any = None
        if wrong is None and isinstance(event, ScalarEvent):
            value = _resolved(event.value) if event.implicit[0] else event.value
            wrong = _wrong_scalar(event)
        if wrong is not None:
            self.note(line, path, wrong)
            self.document.broken.add(path)
            self.pass_over(event)
        elif isinstance(event, ScalarEvent):
            self.put(value)
        elif len(self.open) >= MOST_DEEP:
            self.stop(line, path, say("description.yaml.too_deep", most=MOST_DEEP))
        else:
            self.open.append(_Open(path, {} if isinstance(event, MappingStartEvent) else []))

    def here(self, inside: _Open | None) -> Path:
        """The path of the value that comes next."""
        if inside is None:
            return ()
        if isinstance(inside.value, dict):
            return (*inside.path, inside.key or "")
        return (*inside.path, len(inside.value) + 1)

    def pass_over(self, event: Any) -> None:
        """Leave out a value, with all that is in it."""
        if isinstance(event, (MappingStartEvent, SequenceStartEvent)):
            self.skipping = 1
        else:
            self.put(_LEFT_OUT)

    def put(self, value: Any) -> None:
        """Put a finished value into what is open."""
        if not self.open:
            self.root = value
            return
        inside = self.open[-1]
        if isinstance(inside.value, dict):
            if inside.key is not None and value is not _LEFT_OUT:
                inside.value[inside.key] = value
            inside.awaits_value = False
        else:
            inside.value.append(None if value is _LEFT_OUT else value)


def _refused(event: Any) -> str | None:
    """Why a key or value may not stand in this subset, whatever it holds."""
    if isinstance(event, AliasEvent):
        return say("description.yaml.alias", name=event.anchor)
    if event.anchor is not None:
        return say("description.yaml.anchor", name=event.anchor)
    if event.tag is not None:
        return say("description.yaml.tag", name=event.tag)
    return None


def _wrong_scalar(event: ScalarEvent) -> str | None:
    """What is wrong with a single value."""
    typed = event.value
    if len(typed) > LONGEST_TEXT:
        return say("description.yaml.too_long", most=LONGEST_TEXT)
    if event.implicit[0]:
        if not typed:
            return say("description.yaml.no_value")
        if _LEADING_ZERO.fullmatch(typed):
            return say("description.yaml.leading_zero", found=typed, instead=_without_zeros(typed))
        if len(typed) > MOST_DIGITS and (_WHOLE.fullmatch(typed) or _DECIMAL.fullmatch(typed)):
            return say("description.yaml.too_many_digits", most=MOST_DIGITS)
    return next(filter(None, map(bad_character, typed.split("\n"))), None)


def _without_zeros(typed: str) -> str:
    sign = "-" if typed.startswith("-") else ""
    rest = typed.lstrip("+-").replace("_", "").lstrip("0")
    return sign + ("0" if not rest or rest.startswith(".") else "") + rest


def _resolved(typed: str) -> Any:
    """What a plain word means."""
    if typed in _WORDS:
        return _WORDS[typed]
    if len(typed) <= MOST_DIGITS:
        if _WHOLE.fullmatch(typed):
            return int(typed)
        if _DECIMAL.fullmatch(typed):
            return Decimal(typed)
    return typed
