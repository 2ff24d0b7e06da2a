"""
Markdown made HTML, as the site shows it: links lead from page to page, headings are known.

Whatever builds a site from our pages converts them here, so that a page is the same in a build, in the preview and in
what was kept of either.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import unquote, urlsplit, urlunsplit
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor

from macros.pages.dialect import EXTENSIONS

__all__ = ["Converted", "Heading", "convert"]

LINKS = {"a": "href", "img": "src"}


@dataclass(frozen=True)
class Heading:
    """A heading of a page and those below it; the title is HTML."""

    level: int
    identity: str
    title: str
    below: tuple[Heading, ...] = ()


@dataclass(frozen=True)
class Converted:
    """What Markdown made of a page: its HTML, its headings, the addresses it leads to, and links that lead to nothing."""

    html: str
    headings: tuple[Heading, ...]
    targets: tuple[str, ...]
    dead_links: tuple[str, ...]


def convert(markdown: str, address: str, is_there: Callable[[str], bool]) -> Converted:
    """
    A page as HTML.

    Parameters
    ----------
    markdown : str
        Its text, expressions as tokens.
    address : str
        Where it will stand, `shed/stack.md`; links are read from there.
    is_there : callable
        Whether a page or file stands at an address.
    """
    links = _Links(address, is_there)
    converter = Markdown(extensions=[links, *EXTENSIONS], extension_configs=EXTENSIONS)
    html = converter.convert(markdown)
    contents: list[Any] = getattr(converter, "toc_tokens", [])
    return Converted(html, tuple(_headings(contents)), tuple(links.targets), tuple(links.dead))


def _headings(contents: Iterable[Any]) -> Iterator[Heading]:
    for one in contents:
        yield Heading(one["level"], one["id"], one["name"], tuple(_headings(one["children"])))


class _Links(Extension):  # type: ignore[misc]  # the library has no types
    """Turns links to pages, as authors write them, into links to what is made of those."""

    def __init__(self, address: str, is_there: Callable[[str], bool]) -> None:
        super().__init__()
        self.address = address
        self.is_there = is_there
        self.targets: dict[str, None] = {}
        self.dead: list[str] = []

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 (the name that the library calls)
        md.treeprocessors.register(_Turn(self), "links", 0)

    def turned(self, link: str) -> str:
        """A link as the site has it."""
        scheme, host, path, query, fragment = urlsplit(link)
        if scheme or host or not path or path.startswith("/"):
            return link
        target = posixpath.normpath(posixpath.join(posixpath.dirname(self.address), unquote(path)))
        self.targets[target] = None
        if not self.is_there(target):
            self.dead.append(link)
            return link
        return urlunsplit(("", "", f"{path[:-3]}.html" if path.endswith(".md") else path, query, fragment))


class _Turn(Treeprocessor):  # type: ignore[misc]
    def __init__(self, links: _Links) -> None:
        super().__init__()
        self.links = links

    def run(self, root: Element) -> None:
        for element in root.iter():
            name = LINKS.get(element.tag) if isinstance(element.tag, str) else None
            if name and (link := element.get(name)):
                element.set(name, self.links.turned(link))
