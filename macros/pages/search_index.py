"""
The index of a plant, or of the handbook's own pages, in which a reader finds a tag, a figure, a symptom or a word.

It is made from the finished pages: titles, headings, rows and terms that have an id, and the words of what stands below
each heading. A page loads it as a script when the search is opened, since a page opened from a file may fetch nothing.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from macros.figures.plant import Plant
from macros.pages.context import anchor
from macros.pages.finishing import plain_text
from macros.pages.mathml import symbol_text

__all__ = ["SearchIndex", "names_of_values"]

PLACE = re.compile(
    r'<h[23]\b[^>]*?\bid="(?P<heading>[^"]+)"[^>]*>(?P<title>.*?)</h[23]>'
    r'|<tr\b[^>]*?\bid="(?P<row>[^"]+)"[^>]*>(?P<cells>.*?)</tr>'
    r'|<dt id="(?P<term>[^"]+)">(?P<words>.*?)</dt>',
    re.DOTALL,
)
CELL = re.compile(r"<t[hd]\b[^>]*>(.*?)</t[hd]>", re.DOTALL)
UNREAD = re.compile(
    r"<(svg|math|button class=\"gw-close|script|style|summary)\b.*?</\1>|<section class=\"gw-workings\".*", re.DOTALL
)
WORD = re.compile(r"[A-Z]{1,4}\d{1,3}\b|[^\W\d_][^\W\d_'’-]{2,}")

READ = frozenset(
    ["overview", "guide", "page", "procedure", "procedures", "trips", "record", "drawing", "parts", "plants"]
)
"""Kinds of pages whose running text is searched word by word; of others what has a name is enough."""

DRAWN = frozenset(["symbols"])
"""Kinds of pages whose drawing is searched by the words in it."""

COMMONEST = 0.35
"""A word in a larger share of the places than this leads nowhere."""

LONGEST = 90
"""Letters of a title; a symptom in a table may be a long one."""


@dataclass
class SearchIndex:
    """
    Collects places page by page.

    Parameters
    ----------
    names : mapping
        Title and further names of a place by its id: of a figure its dotted name and symbol.
    """

    names: Mapping[str, Sequence[str]] = field(default_factory=dict)
    _pages: list[tuple[str, str]] = field(default_factory=list)
    _places: list[tuple[int, str, str, str]] = field(default_factory=list)
    _words: dict[str, set[int]] = field(default_factory=dict)

    def add(self, address: str, kind: str, title: str, purpose: str, html: str) -> None:
        """
        Take in a finished page.

        Parameters
        ----------
        address : str
            From the root of the site.
        kind, title, purpose : str, str, str
            As of `Page` and `Rendered`.
        html : str
            Its content.
        """
        number = len(self._pages)
        self._pages.append((address, title))
        place = self._place(number, "", title)
        self._take_in(place, purpose)
        if kind in DRAWN:
            self._take_in(place, plain_text(html))
        html = UNREAD.sub(" ", html)
        start = 0
        for found in PLACE.finditer(html):
            if kind in READ:
                self._take_in(place, plain_text(html[start : found.start()]))
            start = found.end()
            if found["heading"]:
                place = self._place(number, found["heading"], plain_text(found["title"]))
            elif found["row"]:
                named, said = _row(found["cells"])
                row = self._place(number, found["row"], named)
                if kind in READ:
                    self._take_in(row, said)
            else:
                place = self._place(number, found["term"], plain_text(found["words"]))
        if kind in READ:
            self._take_in(place, plain_text(html[start:]))

    def _place(self, page: int, anchor: str, title: str) -> int:
        title, names = self.names.get(anchor, (title, ""))
        self._places.append((page, anchor, title if len(title) <= LONGEST else f"{title[: LONGEST - 1]}…", names))
        return len(self._places) - 1

    def _take_in(self, place: int, text: str) -> None:
        for word in WORD.findall(text):
            self._words.setdefault(word.lower(), set()).add(place)

    def script(self) -> str:
        """The index as a script that hands one object to the page."""
        most = max(20, int(len(self._places) * COMMONEST))
        words = {word: _packed(places) for word, places in sorted(self._words.items()) if len(places) <= most}
        data = {"pages": self._pages, "places": self._places, "words": words}
        text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
        return f"(window.gaswrightIndex ??= []).push({text});\n"


def names_of_values(plant: Plant) -> dict[str, tuple[str, str]]:
    """Title, and dotted name with symbol, of every figure and entry, by the ids under which they stand."""
    kinds = (("w", plant.graph.figures), ("i", plant.graph.entries))
    return {
        anchor(kind, name): (plant.graph[name].title or name, f"{name} {symbol_text(plant.graph[name].symbol)}".strip())
        for kind, names in kinds
        for name in names
    }


def _row(cells: str) -> tuple[str, str]:
    """What a row is called, its first cell and, where that is short as a tag, the second; and what it says."""
    said = [plain_text(cell) for cell in CELL.findall(cells)]
    first = said[0] if said else ""
    if len(first) <= 6 and len(said) > 1:
        first = f"{first} {said[1]}"
    return first, " ".join(said)


def _packed(places: set[int]) -> str:
    """Numbers as the distances between them, to the base of 36, since most are small."""
    return " ".join(_distances(sorted(places)))


def _distances(places: list[int]) -> Iterator[str]:
    former = 0
    for one in places:
        yield _base36(one - former)
        former = one


def _base36(number: int) -> str:
    digits = "0123456789abcdefghijklmnopqrstuvwxyz"
    text = digits[number % 36]
    while number := number // 36:
        text = digits[number % 36] + text
    return text
