"""The front matter of a page: a few keys between two lines of three dashes; the body keeps its line numbers."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field
from typing import Any

from macros.description import strict_yaml
from macros.pages.vocabulary import Vocabulary
from macros.quantities import Fault, Faults, say

__all__ = ["GROUPS", "FrontMatter", "digest_in", "split_source"]

GROUPS = ("before", "build", "test", "run", "use", "service", "trouble", "reference")
"""The groups of guides, in the order in which a builder comes to them; their names are messages."""

KEYS: dict[str, type] = {"title": str, "purpose": str, "group": str, "order": int, "needs": list, "source_digest": str}
"""The keys that may stand in front matter, and what each holds."""

DIGEST = re.compile(r"[0-9a-f]{12}")
_NAMED_DIGEST = re.compile(rb"^source_digest:[ \t]*[\"']?([0-9a-f]{12})[\"']?[ \t]*\r?$", re.MULTILINE)

FENCE = "---"
MARK = "\ufeff"
LARGEST_BYTES = 64 * 1024


@dataclass
class FrontMatter:
    """
    What a page says of itself.

    Attributes
    ----------
    title, purpose : str
        May quote figures, like any text of the page.
    group : str
        The group of guides in which it stands, one of `GROUPS`.
    order : int or None
        Place among the guides of its group.
    needs : tuple of str
        Parts that a plant must have for the page to make sense.
    source_digest : str
        Of a translation: the state of its source from which it was made.
    lines : dict
        The line of each key.
    """

    title: str = ""
    purpose: str = ""
    group: str = ""
    order: int | None = None
    needs: tuple[str, ...] = ()
    source_digest: str = ""
    lines: dict[str, int] = field(default_factory=dict)


@dataclass
class Source:
    """A page as a file: front matter, body, the line at which the body begins, and what is wrong so far."""

    front: FrontMatter
    body: str
    first_line: int
    faults: list[Fault]


def split_source(content: bytes, file: str, wanted: tuple[str, ...], vocabulary: Vocabulary) -> Source:
    """
    Take a page apart.

    Parameters
    ----------
    content : bytes
        The file.
    file : str
        Its name in faults.
    wanted : tuple of str
        Keys that must be there.
    vocabulary : Vocabulary
        The parts that may be needed.
    """
    faults: list[Fault] = []
    if len(content) > LARGEST_BYTES:
        return Source(FrontMatter(), "", 1, [Fault(file, 0, "", say("pages.too_large", most=LARGEST_BYTES // 1024))])
    try:
        text = content.decode("utf-8").removeprefix(MARK)
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        return Source(FrontMatter(), "", 1, [Fault(file, line, "", say("pages.not_utf8"))])
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    front, body_starts = FrontMatter(), 0
    if lines[0].rstrip() == FENCE:
        end = next((number for number, line in enumerate(lines[1:], 1) if line.rstrip() == FENCE), None)
        if end is None:
            faults.append(Fault(file, 1, "", say("pages.front_not_closed")))
        else:
            body_starts = end + 1
            front = _read("\n".join(lines[1:end]), file, vocabulary, faults)
    for key in wanted:
        if key not in front.lines:
            faults.append(Fault(file, 1, key, say("pages.front_missing", key=key, keys=", ".join(KEYS))))
    return Source(front, "\n".join(lines[body_starts:]), body_starts + 1, faults)


def digest_in(content: bytes) -> str:
    """The digest of its source that a translation names; empty where it names none."""
    front = re.match(rb"(?:\xef\xbb\xbf)?---[ \t]*\r?\n(.*?\n)---[ \t]*(?:\r?\n|$)", content, re.DOTALL)
    found = _NAMED_DIGEST.search(front[1]) if front else None
    return found[1].decode() if found else ""


def _read(text: str, file: str, vocabulary: Vocabulary, faults: list[Fault]) -> FrontMatter:
    front = FrontMatter()
    if not text.strip():
        return front
    try:
        # The line of dashes above counts, so that lines are those of the file.
        document = strict_yaml.parse(f"\n{text}\n".encode(), file)
    except Faults as error:
        faults.extend(error)
        front.lines = dict.fromkeys(KEYS, 1)  # nothing can be said of keys in front matter that cannot be read
        return front
    faults.extend(document.faults)
    for key in (path[0] for path in document.broken if path):
        front.lines.setdefault(str(key), 1)
    for key, held in document.data.items():
        # A digest of digits alone is a number to YAML, and is kept as typed.
        value = str(held) if key == "source_digest" and not isinstance(held, (list, dict)) else held
        line = document.lines.get((key,), 1)
        front.lines[key] = line
        if key not in KEYS:
            close = difflib.get_close_matches(key, KEYS, 1)
            known = close[0] if close else ", ".join(KEYS)
            if close:
                front.lines.setdefault(close[0], line)
            faults.append(Fault(file, line, key, say("pages.front_unknown", found=key, known=known)))
        elif not _fits(value, KEYS[key]):
            faults.append(Fault(file, line, key, say(f"pages.front_wanted.{key}")))
        elif key == "group" and value not in GROUPS:
            faults.append(Fault(file, line, key, say("pages.front_group", found=value, known=", ".join(GROUPS))))
        elif key == "source_digest" and not DIGEST.fullmatch(value):
            faults.append(Fault(file, line, key, say("pages.front_wanted.source_digest")))
        elif key == "needs":
            front.needs = tuple(value)
            for number, part in enumerate(value, 1):
                if not vocabulary.knows(part):
                    place = document.lines.get((key, number), line)
                    nearest = vocabulary.nearest(part) or say("pages.none")
                    faults.append(Fault(file, place, key, say("pages.unknown_part", found=part, nearest=nearest)))
        else:
            setattr(front, key, value)
    return front


def _fits(value: Any, kind: type) -> bool:
    if kind is list:
        return isinstance(value, list) and all(isinstance(each, str) for each in value)
    if kind is str:
        return isinstance(value, str) and bool(value.strip()) and "\n" not in value
    return isinstance(value, kind) and not isinstance(value, bool)
