"""
The one table of messages: every string that code shows to people.

Each floor keeps its texts in `en/<floor>.toml`, keys in full. A text names its values in braces, `{found}`; braces that
are to be seen are doubled. `families = ["figure."]` at the top of a file says that keys with that beginning are looked
up by a name known only while the program runs.
"""

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from string import Formatter
from types import MappingProxyType
from typing import Final

FOLDER: Final = Path(__file__).parent / "en"


class MessageError(LookupError):
    """A slip in our own code or tables, never in a plant: an unknown key, values that do not fit, a duplicate."""


def say(key: str, /, **values: object) -> str:
    """
    The text of a message with its values put in.

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
        missing, extra = sorted(named - values.keys()), sorted(values.keys() - named)
        raise MessageError(f"message {key!r}: values missing {missing}, not named by its text {extra}")
    return text.format(**values)


def placeholders(key: str, text: str) -> frozenset[str]:
    """The names in braces of a text; anything but a plain name is refused."""
    try:
        fields = [field for field in Formatter().parse(text) if field[1] is not None]
    except ValueError as error:
        raise MessageError(f"message {key!r}: {error}") from error
    for _, name, specification, conversion in fields:
        if not (name or "").isidentifier() or specification or conversion:
            raise MessageError(f"message {key!r}: {{{name}}} is not a plain name in braces")
    return frozenset(name for _, name, _, _ in fields if name)


def titles(family: str) -> dict[str, str]:
    """
    The texts of a family by the rest of their keys: `titles("figure")` has `stack.voltage` for `figure.stack.voltage`.

    Raises
    ------
    MessageError
        If no file declares the family.
    """
    beginning = f"{family}."
    if beginning not in families():
        raise MessageError(f"no file of messages declares the family {beginning!r}")
    return {key.removeprefix(beginning): text for key, text in messages().items() if key.startswith(beginning)}


@cache
def messages() -> Mapping[str, str]:
    """Every message by its key."""
    return merged(tables(FOLDER))[0]


@cache
def families() -> frozenset[str]:
    """The beginnings of keys that are put together while the program runs."""
    return merged(tables(FOLDER))[1]


def tables(folder: Path) -> dict[str, dict[str, object]]:
    """The tables of a folder by file name."""
    return {path.name: tomllib.loads(path.read_text("utf-8")) for path in sorted(folder.glob("*.toml"))}


def merged(files: Mapping[str, Mapping[str, object]]) -> tuple[Mapping[str, str], frozenset[str]]:
    """
    All messages and all families of several tables.

    Raises
    ------
    MessageError
        If two files have the same key, or an entry is not a text.
    """
    found: dict[str, str] = {}
    origin: dict[str, str] = {}
    beginnings: set[str] = set()
    for name, table in files.items():
        entries = dict(table)
        declared = entries.pop("families", [])
        if not isinstance(declared, list) or not all(isinstance(each, str) and each.endswith(".") for each in declared):
            raise MessageError(f"{name}: families is a list of beginnings that end in a dot")
        beginnings.update(declared)
        for key, text in _flat(entries):
            if not isinstance(text, str):
                raise MessageError(f"{name}: {key} is not a text")
            if key in found:
                raise MessageError(f"{name}: {key} stands in {origin[key]} too")
            placeholders(key, text)
            found[key], origin[key] = text, name
    return MappingProxyType(found), frozenset(beginnings)


def _flat(table: Mapping[str, object], above: str = "") -> Iterator[tuple[str, object]]:
    """The entries of nested tables with their full keys."""
    for name, entry in table.items():
        if isinstance(entry, dict):
            yield from _flat(entry, f"{above}{name}.")
        else:
            yield f"{above}{name}", entry
