"""
What a built site must keep to before it may replace the one that stands.

Every page is read once, forgivingly; a link must lead to a file of the site and, with a
fragment, to an id on it; ids are unique; no template brace, no token and no NaN is left in sight.
"""

from __future__ import annotations

import bisect
import html
import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import unquote, urlsplit

from macros.pages.tokens import PRIVATE_USE
from macros.quantities import Fault, say, store

__all__ = ["PageFacts", "faults_in", "read_page"]

LINKS = {"a": "href", "link": "href", "img": "src", "script": "src", "source": "src", "use": "href"}
REFERENCES = ("popovertarget", "aria-labelledby", "aria-describedby", "aria-controls", "for")
SHOWN = ("alt", "title", "content", "aria-label")
_APART = "\x7f"
"""A control character, which no page may hold."""
REMAINS = re.compile(r"\{\{|\}\}|\{%|%\}|\bNaN\b|" + PRIVATE_USE.pattern)

# Possessive, so that a quote that is never closed costs no more than the page once.
TAG = re.compile(r"""<([a-zA-Z][^\s/>]*)((?>[^>"']+|"[^"]*"|'[^']*')*+)>""")
ATTRIBUTE = re.compile(r"""([^\s=>"'/]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>"']+)))?""")
ASKED = re.compile(rf"\s(?:{'|'.join(sorted({'id', 'xlink:href', *LINKS.values(), *REFERENCES, *SHOWN}))})\s*=")
"""Where to look closer, names as the theme and we write them: most tags are those of formulas and hold none of it."""
UNREAD = re.compile(r"<!--.*?-->|<(script|style)\b[^>]*>.*?(?=</\1)", re.DOTALL)
SILENT = re.compile(r"<(script|style|template|code|pre)\b.*?</\1>", re.DOTALL)


@dataclass
class Named:
    """Names on a page, each with its line."""

    names: list[str] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)

    def __iter__(self) -> Iterator[tuple[str, int]]:
        return zip(self.names, self.lines, strict=True)

    def add(self, name: str, line: int) -> None:
        """Take in one more."""
        self.names.append(name)
        self.lines.append(line)


@dataclass
class PageFacts:
    """What a page offers and asks for."""

    ids: Named = field(default_factory=Named)
    links: Named = field(default_factory=Named)
    """Those that leave the page."""
    within: Named = field(default_factory=Named)
    references: Named = field(default_factory=Named)
    remains: Named = field(default_factory=Named)

    def repeated(self) -> Iterator[tuple[str, int]]:
        """The ids that stood on the page before."""
        seen: set[str] = set()
        for one, line in self.ids:
            if one in seen:
                yield one, line
            seen.add(one)

    def as_data(self) -> dict[str, tuple[str, list[int]]]:
        """As JSON can say it; a page holds as many links as its site has pages, so names are one text that is soon read."""
        return {
            kind: (_APART.join(name.replace(_APART, " ") for name in found.names), found.lines)
            for kind, found in vars(self).items()
        }

    @classmethod
    def from_data(cls, data: dict[str, tuple[str, list[int]]]) -> PageFacts:
        """What was kept."""
        return cls(
            **{kind: Named(names.split(_APART) if lines else [], lines) for kind, (names, lines) in data.items()}
        )


def read_page(text: str) -> PageFacts:
    """What one page offers and asks for."""
    page = PageFacts()
    text = UNREAD.sub(_blank_behind_its_tag, text)
    ends = [found.start() for found in re.finditer("\n", text)]
    end = 0
    while asked := ASKED.search(text, end):
        start = text.rfind("<", end, asked.start())
        tag = TAG.match(text, start) if start >= 0 else None
        if tag is None or tag.end() <= asked.start():
            end = asked.end()  # words of a text
            continue
        _look(page, tag[1].lower(), tag[2], bisect.bisect(ends, start) + 1)
        end = tag.end()
    if _may_remain(text):
        shown = TAG.sub(_blank, SILENT.sub(_blank, text))
        for left in REMAINS.finditer(shown):
            page.remains.add(left.group(), bisect.bisect(ends, left.start()) + 1)
    return page


def _look(page: PageFacts, tag: str, attributes: str, line: int) -> None:
    for found in ATTRIBUTE.finditer(attributes):
        name, value = found[1].lower(), html.unescape(found[2] or found[3] or found[4] or "")
        if name == "id":
            page.ids.add(value, line)
        elif name == LINKS.get(tag) or (name == "xlink:href" and tag in LINKS):
            (page.within if value[:1] in ("", "#", "?") else page.links).add(value, line)
        elif name in REFERENCES:
            for one in value.split():
                page.references.add(one, line)
        if name in SHOWN and _may_remain(value) and (left := REMAINS.search(value)):
            page.remains.add(left.group(), line)


def _blank(found: re.Match[str]) -> str:
    """As long and as many lines, with nothing in it."""
    return re.sub(r"[^\n]", " ", found.group())


def _blank_behind_its_tag(found: re.Match[str]) -> str:
    """A comment, or what a script or style holds: nothing in there is a tag."""
    tag = found[0][: found[0].index(">") + 1] if found[1] else ""
    return tag + re.sub(r"[^\n]", " ", found.group()[len(tag) :])


def _may_remain(text: str) -> bool:
    """A look that is quick where nothing remains, as nearly always."""
    return any(mark in text for mark in ("{{", "}}", "{%", "%}", "NaN")) or PRIVATE_USE.search(text) is not None


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
    files = sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    places = frozenset(files)
    pages = [name for name in files if name.endswith(".html")]
    ids: dict[str, frozenset[str]] = {}
    # The pages of a folder share their navigation, and with it most of their links: each is followed once.
    asked: dict[str, set[str]] = defaultdict(set)
    for name in pages:
        page = _facts(site / name)
        mine = ids[name] = frozenset(page.ids.names)
        asked[_folder(name)].update(page.links.names)
        yield from (Fault(name, line, "", say("site.repeated_id", id=one)) for one, line in page.repeated())
        yield from (Fault(name, line, "", say("site.remains", found=ascii(one))) for one, line in page.remains)
        for one, line in page.references:
            if one not in mine and not one.startswith("__"):
                yield Fault(name, line, "", say("site.no_such_id", id=one))
        for link, line in page.within:
            if link[1:] not in mine and (message := _broken(places, base, name, link, ids)):
                yield Fault(name, line, "", message)
    broken = {
        (start, link): message
        for start, links in asked.items()
        for link in links
        if (message := _broken(places, base, start, link, ids))
    }
    for name in pages if broken else ():
        for link, line in _facts(site / name).links:
            if message := broken.get((_folder(name), link)):
                yield Fault(name, line, "", message)


def _facts(path: Path) -> PageFacts:
    """What a page offers and asks for, kept for as long as not a byte of it changes."""
    content = path.read_bytes()
    return PageFacts.from_data(
        store.kept(store.key_of("facts", content), lambda: read_page(content.decode("utf-8")).as_data())
    )


def _folder(name: str) -> str:
    """The folder of a page, with its slash; of the site's root nothing."""
    return name[: name.rfind("/") + 1]


def _broken(places: frozenset[str], base: str, start: str, link: str, ids: Mapping[str, frozenset[str]]) -> str | None:
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
        resolved = _resolve(start, path)
        if resolved is None:
            return say("site.leaves_site", link=link)
        target = resolved
    if target not in places:
        target = f"{target.rstrip('/')}/index.html".lstrip("/")  # where a folder is named, its page is meant
    if target not in places:
        return say("site.no_such_file", link=link)
    fragment = unquote(parts.fragment)
    if fragment and target in ids and fragment not in ids[target] and not fragment.startswith("__"):
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
