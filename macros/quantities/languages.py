"""
The language that is spoken: one for each build and each run of a command, English where nobody says another.

A language is a folder of message tables beside `messages/en`. What it has no words for is said in English. How it writes
numbers is taken from the locale data of the Unicode consortium, as the library Babel carries
it; but thousands are parted by a thin space in every language, as the SI brochure has it (section 5.4.4, from memory), since
1.234 is a thousand to one reader and a little more than one to another.
"""

from __future__ import annotations

import contextlib
import functools
import re
from collections.abc import Callable, Iterator
from contextvars import ContextVar
from pathlib import Path
from typing import Final, ParamSpec, TypeVar

from babel import Locale

__all__ = [
    "SOURCE", "VARIABLE", "between", "cached_as_spoken", "called", "decimal_mark", "language", "languages", "name_of", "speak",
    "speaking", "with_mark", "with_point", "without_mark",
]  # fmt: skip

Arguments = ParamSpec("Arguments")
Made = TypeVar("Made")

SOURCE: Final = "en"
"""The language in which this program and its handbook are written, and that stands in where another has no words."""

VARIABLE: Final = "GASWRIGHT_LANGUAGE"
"""The variable that says which language a command speaks where its line does not."""

TABLES: Final = Path(__file__).parent / "messages"

_spoken: ContextVar[str] = ContextVar("language", default=SOURCE)


def language() -> str:
    """The code of the language that is spoken."""
    return _spoken.get()


@functools.cache
def languages() -> tuple[str, ...]:
    """The codes of all languages that have tables of messages, English first."""
    codes = {path.name for path in TABLES.iterdir() if path.is_dir() and any(path.glob("*.toml"))}
    return (SOURCE, *sorted(codes - {SOURCE}))


@contextlib.contextmanager
def speaking(code: str) -> Iterator[None]:
    """
    What stands inside speaks a language; plants that are to be told of in it are loaded inside, too.

    Raises
    ------
    LookupError
        If there are no tables of it.
    """
    if code not in languages():
        raise LookupError(_unknown(code))
    before = _spoken.set(code)
    try:
        yield
    finally:
        _spoken.reset(before)


def speak(code: str) -> None:
    """Speak a language from here on, for a process that speaks no other; errors as of `speaking`."""
    if code not in languages():
        raise LookupError(_unknown(code))
    _spoken.set(code)


def _unknown(code: str) -> str:
    return f"no tables of messages in the language {code!r}; there are {', '.join(languages())}"


@functools.cache
def _locale(code: str) -> Locale:
    return Locale.parse(code, sep="-")


@functools.cache
def _mark(code: str) -> str:
    return "." if code == SOURCE else str(_locale(code).number_symbols["latn"]["decimal"])


def decimal_mark() -> str:
    """What stands between the whole of a number and its decimals: a point, or in most languages a comma."""
    return _mark(language())


_POINT: Final = re.compile(r"(?<=[0-9])\.(?=[0-9])")


def with_mark(text: str) -> str:
    """Numbers that were written with a point, as the language spoken writes them."""
    mark = decimal_mark()
    return text if mark == "." else _POINT.sub(mark, text)


def without_mark(text: str) -> str:
    """
    Numbers that the language spoken wrote, with a point.

    A point where the language has another mark is no part of a number that was shown: it becomes one that no reader
    takes, so that 1.234 is never read as a number in a language that writes 1,234.
    """
    mark = decimal_mark()
    if mark == ".":
        return text
    return with_point(_POINT.sub("..", text))


def with_point(text: str) -> str:
    """Numbers that somebody wrote with the mark of the language spoken, as a description and an expression want them."""
    mark = decimal_mark()
    return text if mark == "." else re.sub(rf"(?<=[0-9]){re.escape(mark)}(?=[0-9])", ".", text)


def between() -> str:
    """What parts numbers that follow each other: a comma, or a semicolon where that is the decimal mark."""
    return "," if decimal_mark() != "," else ";"


def cached_as_spoken(maxsize: int | None = None) -> Callable[[Callable[Arguments, Made]], Callable[Arguments, Made]]:
    """As `functools.lru_cache`, for what holds text: what was made in one language is never given in another."""

    def of(function: Callable[Arguments, Made]) -> Callable[Arguments, Made]:
        @functools.lru_cache(maxsize)
        def in_language(_: str, *given: Arguments.args, **named: Arguments.kwargs) -> Made:
            return function(*given, **named)

        @functools.wraps(function)
        def spoken(*given: Arguments.args, **named: Arguments.kwargs) -> Made:
            return in_language(language(), *given, **named)  # type: ignore[arg-type]

        return spoken

    return of


def name_of(code: str) -> str:
    """What a language calls itself, for the reader who looks for it; as a title, its first letter a capital."""
    name = str(_locale(code).get_display_name(code) or code)
    return name[:1].upper() + name[1:]


def called(code: str) -> str:
    """What a language is called in the one that is spoken."""
    return str(_locale(code).get_display_name(language()) or code)
