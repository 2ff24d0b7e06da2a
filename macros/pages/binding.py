"""
The handbook of a plant bound into one document, to read through or to print: a leaf, its contents, chapters, notes.

Pages are bound as they were finished, so no number is computed, shown or rounded a second time. Ids take the name of
their chapter, links between chapters stay within the document, headings move below those of the document, and every
working stands once, as a note that all chapters share.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Final

from macros.quantities import say

__all__ = ["Chapter", "bound"]

DEEPER: Final = 2
"""Levels by which the headings of a chapter move: the document and its parts stand above it."""

WORKINGS: Final = re.compile(r'<section class="gw-workings".*\Z', re.DOTALL)
WORKING, END, UNPRINTED = '\n<div popover id="', "\n</section>", '" class="gw-working gw-unprinted"'
"""Where each working of those begins, where the last one ends, and what follows the id of one that stays off paper."""
REFERENCE: Final = re.compile(r' popovertarget="([^"]*)"[^>]*? data-note="\d+"')
NUMBER: Final = re.compile(r'(?<= data-note=")\d+(?=")|(?<=class="gw-note">)\d+(?=<)')
BANNER, AGAIN = '<div class="gw-banner gw-', '<div class="gw-banner gw-again-'
"""What stands across a page of a plant that is no plant to build by; the leaf's holds for the screen, paper has it again."""
TITLE: Final = re.compile(r'<h1[^>]*\sid="([^"]*)"[^>]*>')
PLACE: Final = re.compile(
    r'<(?P<close>/?)h(?P<level>[1-4])(?=[\s>])'
    r'| (?:popovertarget="(?P<working>[^"]*)"(?P<between>[^>]*? data-note=")\d+"'
    r'|(?P<name>id|aria-labelledby|aria-describedby|aria-controls|for)="(?P<ids>[^"]*)"'
    r'|href="(?P<link>[^"]*)"'
    r'|(?P<region>role="region" aria-label="[^"]*)")'
)  # fmt: skip
"""What is turned; each begins with a letter that is rare enough for a page of megabytes to be gone through at once."""


@dataclass(frozen=True)
class Chapter:
    """
    A finished page on its way into the document.

    Attributes
    ----------
    name : str
        Of its file, without an ending; the beginning of its ids.
    part : str
        What it stands under, plain text; neighbours that say the same share a part.
    title : str
        Plain text.
    content : str
        HTML.
    """

    name: str
    part: str
    title: str
    content: str


def bound(leaf: str, chapters: Sequence[Chapter]) -> str:
    """
    One document, as HTML.

    Parameters
    ----------
    leaf : str
        The finished page that stands before everything; its ids stay as they are.
    chapters : sequence of Chapter
        In the order in which they are read.
    """
    workings, printed = _workings([leaf, *(one.content for one in chapters)])
    bodies = [WORKINGS.sub("", text) for text in (leaf, *(one.content for one in chapters))]
    asked = dict.fromkeys(key for body in bodies for key in REFERENCE.findall(body))
    order = sorted(asked, key=lambda key: key not in printed)
    notes = {key: str(number) for number, key in enumerate(order, 1)}
    anchors = {
        one.name: found[1] for one, body in zip(chapters, bodies[1:], strict=True) if (found := TITLE.search(body))
    }
    numbers = {one.name: number for number, one in enumerate(chapters, 1)}
    pieces = [_Turned("", "", anchors, numbers, notes).of(bodies[0]), _contents(chapters, anchors, len(printed))]
    for part, members in itertools.groupby(zip(chapters, bodies[1:], strict=True), key=lambda one: one[0].part):
        pieces.append(f'<h2 class="gw-part">{escape(part)}</h2>')
        for one, body in members:
            turned = _Turned(one.name, one.title, anchors, numbers, notes).of(body)
            pieces.append(f'<section class="gw-chapter">\n{_numbered(turned, numbers[one.name])}\n</section>')
    pieces.append(_notes(order, workings, notes, len(printed)))
    return "\n".join(('<div class="gw-whole">', *pieces, "</div>\n"))


def _workings(pages: Sequence[str]) -> tuple[dict[str, str], set[str]]:
    """Each working of the pages once, by its id, and those that paper carries on one page at least."""
    workings: dict[str, str] = {}
    printed: set[str] = set()
    for page in pages:
        found = WORKINGS.search(page)
        held = found[0][: found[0].rindex(END)] if found else ""
        for text in held.split(WORKING)[1:]:
            identity, told = text[: text.index('"')], f"{WORKING}{text}".strip()
            if not text.startswith(UNPRINTED, len(identity)) and identity not in printed:
                printed.add(identity)
                workings[identity] = told
            workings.setdefault(identity, told)
    return workings, printed


def _notes(order: Sequence[str], workings: Mapping[str, str], notes: Mapping[str, str], printed: int) -> str:
    if not order:
        return ""
    title = escape(say("pages.workings"))
    elsewhere = (
        f'<p class="gw-on-paper">{escape(say("pages.workings_elsewhere"))}</p>\n' if printed < len(order) else ""
    )
    told = "\n".join(NUMBER.sub(notes[key], workings[key]) for key in order)
    return (
        f'<section class="gw-workings" data-search-exclude aria-label="{title}">\n'
        f'<h2 class="gw-workings-title">{title}</h2>\n{elsewhere}{told}\n</section>'
    )


def _contents(chapters: Sequence[Chapter], anchors: Mapping[str, str], notes: int) -> str:
    """The contents: parts, and in each its chapters, numbered through."""
    title = escape(say("pages.whole.contents"))
    lines = [f'<nav class="gw-contents" aria-labelledby="contents">\n<h2 id="contents">{title}</h2>']
    number = 1
    for part, members in itertools.groupby(chapters, key=lambda one: one.part):
        entries = [
            f'<li><a href="#{one.name}.{anchors[one.name]}">{escape(one.title)}</a></li>' for one in members
        ]  # fmt: skip
        lines.append(f'<div><p>{escape(part)}</p>\n<ol start="{number}">{"".join(entries)}</ol></div>')
        number += len(entries)
    if notes:
        lines.append(f'<p class="gw-on-paper">{escape(say("pages.whole.notes", count=notes))}</p>')
    return "\n".join([*lines, "</nav>"])


def _numbered(body: str, number: int) -> str:
    """A chapter with its number in its title."""
    return re.sub(r"(<h3\b[^>]*>)", rf'\g<1><span class="gw-chapter-number">{number}</span> ', body, count=1)


@dataclass(frozen=True)
class _Turned:
    """Turns a page into a chapter: `name` begins its ids and `title` ends the names of its tables; a leaf has neither."""

    name: str
    title: str
    anchors: Mapping[str, str]
    numbers: Mapping[str, int]
    notes: Mapping[str, str]

    def of(self, body: str) -> str:
        return PLACE.sub(self._piece, body.replace(BANNER, AGAIN) if self.name else body)

    def _piece(self, found: re.Match[str]) -> str:
        if found["level"]:
            return f"<{found['close']}h{int(found['level']) + DEEPER}" if self.name else found[0]
        if found.string.rfind("<", 0, found.start()) < found.string.rfind(">", 0, found.start()):
            return found[0]  # words of a text
        if found["working"] is not None:
            return f' popovertarget="{found["working"]}"{found["between"]}{self.notes[found["working"]]}"'
        if found["region"]:
            return f' {found["region"]} · {escape(self.title)}"' if self.title else found[0]
        if found["ids"] is not None:
            return f' {found["name"]}="{" ".join(map(self._identity, found["ids"].split()))}"'
        return self._link(found["link"])

    def _identity(self, identity: str) -> str:
        return f"{self.name}.{identity}" if self.name else identity

    def _link(self, link: str) -> str:
        path, _, fragment = link.partition("#")
        if not path:
            return f' href="#{self._identity(fragment)}"'
        chapter = path.removesuffix(".html")
        if chapter == path or chapter not in self.anchors:
            return f' href="{link}"'
        return f' href="#{chapter}.{fragment or self.anchors[chapter]}" data-chapter="{self.numbers[chapter]}"'
