"""
The navigation of a page: its plant first, by groups that fold, then the pages of the handbook as a whole.

All pages of a folder share their links, so each is written once, and a page only marks its own.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from mkdocs.structure.nav import Navigation, Section
from mkdocs.structure.pages import Page

from macros.quantities import say

__all__ = ["Links"]


@dataclass(frozen=True)
class _Piece:
    """A link, or a group of links that folds."""

    html: str
    targets: frozenset[str] = frozenset()

    def for_page(self, target: str) -> str:
        if target not in self.targets:
            return self.html
        opened = self.html.replace("<details>", "<details open>", 1)
        return opened.replace(f'<a href="{target}">', f'<a href="{target}" aria-current="page">', 1)


class Links:
    """
    The links of all pages of one folder.

    Parameters
    ----------
    nav : Navigation
        That of the whole site: pages of the handbook, then a section for each plant.
    folder : str
        Where the pages stand, empty for those of the handbook itself.
    plants : set of str
        Titles of all plants; sections of others than `mine` are left out, so that a page does not grow with their number.
    mine : str or None
        Title of the plant at hand.
    """

    def __init__(self, nav: Navigation, folder: str, plants: set[str], mine: str | None) -> None:
        self._folder = folder
        own = [item for item in nav.items if not (isinstance(item, Section) and item.title in plants)]
        plant = next((item for item in nav.items if isinstance(item, Section) and item.title == mine), None)
        self._title = mine
        self._plant = [self._piece(item) for item in (plant.children if plant else ())]
        self._own = [self._piece(item) for item in own]

    def html(self, page: Page | None = None) -> str:
        """The lists of links, the one to the page marked and its group open."""
        target = posixpath.relpath(page.url, self._folder or ".") if page is not None else ""
        own = _list(piece.for_page(target) for piece in self._own)
        if not self._plant:
            return own
        handbook = f"<details><summary>{escape(say('site.handbook'))}</summary>{own}</details>"
        return (
            f'<p class="gw-panel-title">{escape(self._title or "")}</p>'
            f'{_list(piece.for_page(target) for piece in self._plant)}<div class="gw-nav-own">{handbook}</div>'
        )

    def _piece(self, item: object) -> _Piece:
        if isinstance(item, Page):
            target = posixpath.relpath(item.url, self._folder or ".")
            return _Piece(f'<a href="{escape(target)}">{escape(str(item.title))}</a>', frozenset([target]))
        assert isinstance(item, Section)
        inside = [self._piece(child) for child in item.children]
        html = f"<details><summary>{escape(item.title)}</summary>{_list(one.html for one in inside)}</details>"
        return _Piece(html, frozenset().union(*(one.targets for one in inside)))


def _list(entries: Iterable[str]) -> str:
    return f"<ul>{''.join(f'<li>{entry}</li>' for entry in entries)}</ul>"
