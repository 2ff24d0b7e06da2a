"""
The one table of messages: every string that code shows to people.

Each floor keeps its texts in `en/<floor>.toml` or `en/<floor>_<subject>.toml`, keys in full. A text names its values in
braces, `{found}`; braces that are to be seen are doubled. `families = ["figure."]` at the top of a table declares keys
that code looks up by a name known only while it runs.

Other languages keep tables of the same names beside `en/`. What one leaves out is said in English; it has no key that
English lacks, and each text names the same values as the English one.
"""

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from string import Formatter
from types import MappingProxyType
from typing import Final

from macros.quantities.languages import SOURCE, TABLES, language

FOLDER: Final = TABLES / SOURCE


class MessageError(LookupError):
    """A slip in our own code or tables, never in a plant: an unknown key, values that do not fit, a duplicate."""


class Message(str):
    """A text of the table that remembers which it is."""

    __slots__ = ("code",)
    code: str

    def __new__(cls, text: str, code: str = "") -> "Message":
        made = super().__new__(cls, text)
        made.code = code
        return made

    def __str__(self) -> str:
        # An error's text, `str(error)`, goes on knowing its code.
        return self


def code_of(text: str) -> str:
    """The key of the message that a text is; empty where it is none."""
    return text.code if isinstance(text, Message) else ""


def say(key: str, /, **values: object) -> str:
    """
    The text of a message with its values put in; a `Message`, whose code is its key.

    A message that only says where a *reason* was met has the code of that reason.

    Raises
    ------
    MessageError
        If no table has the key, or the values are not exactly those that the text names.
    """
    text = messages().get(key)
    if text is None:
        raise MessageError(f"no message {key!r} in {FOLDER.name}/*.toml")
    named = placeholders(key, text)
    if named != values.keys():
        missing, unnamed = sorted(named - values.keys()), sorted(values.keys() - named)
        raise MessageError(f"message {key!r}: values missing: {missing}, values its text does not name: {unnamed}")
    reason = values.get("reason")
    return Message(text.format(**values), reason.code if isinstance(reason, Message) else key)


def titles(family: str) -> dict[str, str]:
    """
    The texts of a family by the rest of their keys: in `figure`, `figure.stack.voltage` is `stack.voltage`.

    Raises
    ------
    MessageError
        If no table declares the family.
    """
    beginning = f"{family}."
    if beginning not in families():
        raise MessageError(f"no table in {FOLDER.name}/*.toml declares the family {beginning!r}")
    return {key.removeprefix(beginning): text for key, text in messages().items() if key.startswith(beginning)}


def messages() -> Mapping[str, str]:
    """Every message of the language spoken by its key, in English what it does not say itself."""
    return _messages(language())


@cache
def _messages(code: str) -> Mapping[str, str]:
    source = merged(tables(FOLDER))[0]
    return source if code == SOURCE else translated(source, merged(tables(TABLES / code))[0])


def translated(source: Mapping[str, str], spoken: Mapping[str, str]) -> Mapping[str, str]:
    """
    The messages of a language, with those of the source where it has none.

    Raises
    ------
    MessageError
        If a key is none of the source, or a text names other values than that of the source.
    """
    for key, text in spoken.items():
        if key not in source:
            raise MessageError(f"{key} is translated, but there is no such message")
        wanted, found = placeholders(key, source[key]), placeholders(key, text)
        if wanted != found:
            raise MessageError(f"{key} names {sorted(found)} where its source names {sorted(wanted)}")
    return MappingProxyType({**source, **spoken})


@cache
def families() -> frozenset[str]:
    """The beginnings of keys whose rest is known only while the program runs."""
    return merged(tables(FOLDER))[1]


def tables(folder: Path) -> dict[str, dict[str, object]]:
    """The tables of a folder by the name of their file."""
    return {path.name: tomllib.loads(path.read_text("utf-8")) for path in sorted(folder.glob("*.toml"))}


def merged(files: Mapping[str, Mapping[str, object]]) -> tuple[Mapping[str, str], frozenset[str]]:
    """
    All messages and all families of several tables.

    Raises
    ------
    MessageError
        If two tables have the same key, an entry is not a text, or its braces hold anything but a plain name.
    """
    found: dict[str, str] = {}
    origin: dict[str, str] = {}
    beginnings: set[str] = set()
    for name, table in files.items():
        declared = table.get("families", [])
        if not isinstance(declared, list) or not all(str(each).endswith(".") for each in declared):
            raise MessageError(f"{name}: families is a list of beginnings of keys, each with the dot at its end")
        beginnings.update(map(str, declared))
        for key, text in _flat({key: entry for key, entry in table.items() if key != "families"}):
            if not isinstance(text, str):
                raise MessageError(f"{name}: {key} is not a text")
            if key in found:
                raise MessageError(f"{name}: {key} stands in {origin[key]} too")
            placeholders(key, text)
            found[key], origin[key] = text, name
    return MappingProxyType(found), frozenset(beginnings)


@cache
def placeholders(key: str, text: str) -> frozenset[str]:
    """
    The names in the braces of a text.

    Raises
    ------
    MessageError
        If braces hold anything but a plain name: what is formatted goes through `show`, not through the table.
    """
    try:
        fields = [(name, how, turned) for _, name, how, turned in Formatter().parse(text) if name is not None]
    except ValueError as error:
        raise MessageError(f"message {key!r}: {error}") from error
    for name, how, turned in fields:
        if not name.isidentifier() or how or turned:
            raise MessageError(f"message {key!r}: the braces hold more than a plain name: {text!r}")
    return frozenset(name for name, _, _ in fields)


def _flat(table: Mapping[str, object], above: str = "") -> Iterator[tuple[str, object]]:
    """The entries of nested tables with their keys in full."""
    for name, entry in table.items():
        if isinstance(entry, dict):
            yield from _flat(entry, f"{above}{name}.")
        else:
            yield f"{above}{name}", entry
