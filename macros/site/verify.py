"""
What a built site must keep to before it may replace the one that stands.

Every page is read once with a forgiving parser that keeps places; a link must lead to a file of the site and, with a
fragment, to an id on it; ids are unique; no template brace, no token and no NaN is left in sight.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from macros.pages.tokens import PRIVATE_USE
from macros.quantities import Fault, say

__all__ = ["PageFacts", "faults_in", "read_page"]

LINKS = {"a": "href", "link": "href", "img": "src", "script": "src", "source": "src", "use": "href"}
SILENT = ("script", "style", "template", "code", "pre")
REMAINS = re.compile(r"\{\{|\}\}|\{%|%\}|\bNaN\b|" + PRIVATE_USE.pattern)


@dataclass
class PageFacts:
    """What a page offers and what it asks for, each with its line."""

    ids: dict[str, int] = field(default_factory=dict)
    repeated: list[tuple[str, int]] = field(default_factory=list)
    links: list[tuple[str, int]] = field(default_factory=list)
    references: list[tuple[str, int]] = field(default_factory=list)
    remains: list[tuple[str, int]] = field(default_factory=list)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.page = PageFacts()
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        line = self.getpos()[0]
        if tag in SILENT:
            self._silent += 1
        for name, given in attrs:
            value = given or ""
            if name == "id":
                if value in self.page.ids:
                    self.page.repeated.append((value, line))
                self.page.ids.setdefault(value, line)
            elif name == LINKS.get(tag) or (name == "xlink:href" and tag in LINKS):
                self.page.links.append((value, line))
            elif name in ("popovertarget", "aria-labelledby", "aria-describedby", "aria-controls", "for"):
                self.page.references.extend((one, line) for one in value.split())
            if name in ("alt", "title", "content", "aria-label") and (left := REMAINS.search(value)):
                self.page.remains.append((left.group(), line))

    def handle_endtag(self, tag: str) -> None:
        if tag in SILENT and self._silent:
            self._silent -= 1

    def handle_data(self, data: str) -> None:
        if self._silent:
            return
        for left in REMAINS.finditer(data):
            self.page.remains.append((left.group(), self.getpos()[0] + data.count("\n", 0, left.start())))


def read_page(text: str) -> PageFacts:
    """What one page offers and asks for."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    return reader.page


def faults_in(site: Path, *, base: str = "/") -> Iterator[Fault]:
    """
    Everything wrong with a built site.

    Parameters
    ----------
    site : Path
        Its root folder.
    base : str
        Path under which the site is served; links that begin with it count as its own.
    """
    pages = {path.relative_to(site).as_posix(): read_page(path.read_text(encoding="utf-8")) for path in _pages(site)}
    for name, page in pages.items():
        yield from (Fault(name, line, "", say("site.repeated_id", id=one)) for one, line in page.repeated)
        yield from (Fault(name, line, "", say("site.remains", found=ascii(one))) for one, line in page.remains)
        for one, line in page.references:
            if one not in page.ids and not one.startswith("__"):
                yield Fault(name, line, "", say("site.no_such_id", id=one))
        for link, line in page.links:
            if message := _broken(site, base, name, link, pages):
                yield Fault(name, line, "", message)


def _pages(site: Path) -> Iterable[Path]:
    return sorted(site.rglob("*.html"))


def _broken(site: Path, base: str, name: str, link: str, pages: dict[str, PageFacts]) -> str | None:
    """Why a link leads nowhere; None where it leads somewhere, or out of the site."""
    parts = urlsplit(link)
    if parts.scheme or parts.netloc:
        return None if parts.scheme in ("http", "https", "mailto") else say("site.strange_link", link=link)
    path = unquote(parts.path)
    if path.startswith("/"):
        if not path.startswith(base):
            return say("site.absolute_link", link=link)
        target = path.removeprefix(base)
    else:
        resolved = _resolve(name, path)
        if resolved is None:
            return say("site.leaves_site", link=link)
        target = resolved
    if not target or target.endswith("/") or (site / target).is_dir():
        target = f"{target.rstrip('/')}/index.html".lstrip("/")
    if not (site / target).is_file():
        return say("site.no_such_file", link=link)
    fragment = unquote(parts.fragment)
    if fragment and target in pages and fragment not in pages[target].ids and not fragment.startswith("__"):
        return say("site.no_such_anchor", link=link)
    return None


def _resolve(name: str, path: str) -> str | None:
    if not path:
        return name
    parts = name.split("/")[:-1]
    for part in path.split("/"):
        if part == "..":
            if not parts:
                return None
            parts.pop()
        elif part not in ("", "."):
            parts.append(part)
    return "/".join(parts) + ("/" if path.endswith("/") else "")
