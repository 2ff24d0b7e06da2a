"""What the parts of a file refuse, put into messages: one for each mistake, with line, key and what to write."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from typing import Any

import pydantic

from macros.description.fields import DATE, MONTH, NAME, TABLE, TAG, Part, in_words
from macros.description.item_kinds import ITEM_KINDS
from macros.description.network_file import Item
from macros.description.record_file import FIGURE, RULE
from macros.description.shape import Slot, choices, key_pattern, slot_at
from macros.description.strict_yaml import Document, Path, dotted
from macros.quantities import Fault, say

__all__ = ["faults_of", "nearest_word"]

PATTERNS = {
    f"^{TAG}$": "tag",
    f"^{NAME}$": "name",
    MONTH: "month",
    DATE: "date",
    TABLE: "table",
    FIGURE: "figure",
    RULE: "rule",
    r"^[A-Z]{2}$": "country",
    r"^[A-Z]{3}$": "currency",
    r"^([A-Z]{2}|world)$": "region",
    r"^[0-9a-f]{12,64}$": "digest",
}
"""What a pattern asks for, by the name of its message."""

_ALIKE = 0.6


def nearest_word(word: str, known: list[str]) -> str:
    """The known word most like another; empty if none is like it."""
    close = difflib.get_close_matches(word, known, n=1, cutoff=_ALIKE)
    return close[0] if close else ""


def faults_of(
    error: pydantic.ValidationError, root: type[Part], document: Document, file: str
) -> Iterator[tuple[Path, Fault]]:
    """The faults that the parts of a file tell, each with its path; what the writing broke is not told again."""
    meant = meant_paths(error, root, document)
    for each in error.errors(include_url=False):
        path = _path(each["loc"])
        told = _broken(path, document) or _misnamed(path, root) or (each["type"] == "missing" and path in meant)
        if not told:
            message = _message(path, each, slot_at(root, path), _keys(path, root, document))
            yield path, Fault(file, document.line(path), dotted(path), message)


def meant_paths(error: pydantic.ValidationError, root: type[Part], document: Document) -> set[Path]:
    """The paths of keys that are misspelt, as they were meant: nothing else is said of them."""
    found = set()
    misspelt = []
    for each in error.errors(include_url=False):
        if each["type"] == "extra_forbidden":
            misspelt.append(_path(each["loc"]))
    for path in (*misspelt, *document.broken):
        key = path[-1] if path else None
        if (
            isinstance(key, str)
            and slot_at(root, path) is None
            and (near := nearest_word(key, _keys(path, root, document)))
        ):
            found.add((*path[:-1], near))
    return found


def _path(loc: tuple[int | str, ...]) -> Path:
    return tuple(each + 1 if isinstance(each, int) else each for each in loc)


def _broken(path: Path, document: Document) -> bool:
    return any(path[:length] in document.broken for length in range(1, len(path) + 1))


def _misnamed(path: Path, root: type[Part]) -> bool:
    """Whether a path leads through a name or tag that is none: what stands below is likely meant for elsewhere."""
    for length in range(1, len(path)):
        slot = slot_at(root, path[:length])
        pattern = key_pattern(slot) if slot is not None else None
        if pattern is not None and re.fullmatch(pattern, str(path[length])) is None:
            return True
    return False


def _keys(path: Path, root: type[Part], document: Document) -> list[str]:
    """The keys known beside the last of a path, those that stand there already left out."""
    above = slot_at(root, path[:-1])
    if above is None or above.holds is None:
        return []
    written: Any = document.data
    for step in path[:-1]:
        if isinstance(written, list) and isinstance(step, int) and step <= len(written):
            written = written[step - 1]
        else:
            written = written.get(step) if isinstance(written, dict) else None
    if not isinstance(written, dict):
        return []
    kind = written.get("kind") if above.holds is Item else None
    known = ITEM_KINDS[kind].keys if isinstance(kind, str) and kind in ITEM_KINDS else above.holds.model_fields
    return [key for key in known if key not in written]


def _message(path: Path, error: Any, slot: Slot | None, known: list[str]) -> str:
    code, value = error["type"], error.get("input")
    if code == "quantity":
        return str(error["ctx"]["message"])
    if code == "extra_forbidden":
        return unknown_key(known, str(path[-1]))
    assert slot is not None
    if code == "missing":
        return say("description.missing", title=slot.title, wanted=wanted_of(slot))
    if choices(slot.annotation):
        words = [str(each) for each in choices(slot.annotation)]
        near = nearest_word(str(value), words)
        if slot.name == "format":
            return say("description.format", found=in_words(value), known=words[0])
        if near and near != str(value):
            return say("description.no_choice_near", found=in_words(value), nearest=near)
        return say("description.no_choice", found=in_words(value), known=", ".join(words))
    if code == "string_pattern_mismatch":
        return say(f"description.pattern.{PATTERNS[error['ctx']['pattern']]}", found=in_words(value))
    if code == "too_short":
        return say("description.too_few", found=len(value), wanted=error["ctx"]["min_length"])
    if code == "too_long":
        return say("description.too_many", found=len(value), wanted=error["ctx"]["max_length"])
    if code == "string_too_short":
        return say("description.text_too_short", wanted=error["ctx"]["min_length"])
    return say("description.wrong_type", found=in_words(value), wanted=wanted_of(slot))


def unknown_key(known: list[str], key: str) -> str:
    """The message for a key that does not exist, with the nearest that does."""
    near = nearest_word(key, known)
    if near:
        return say("description.unknown_key_near", key=key, nearest=near)
    if not known:
        return say("description.unknown_key_more", key=key)
    return say("description.unknown_key", key=key, known=", ".join(known))


def wanted_of(slot: Slot) -> str:
    """What to write at a key, in words."""
    if slot.measure is not None:
        return slot.measure.wanted
    known = choices(slot.annotation)
    if known:
        return say("description.or").join(map(str, known))
    if slot.holds is not None:
        return say("description.wanted_part", keys=", ".join(slot.holds.model_fields))
    name = getattr(slot.annotation, "__name__", "")
    return say(f"description.wanted.{name if name in ('bool', 'int', 'list', 'dict', 'Decimal') else 'str'}")
