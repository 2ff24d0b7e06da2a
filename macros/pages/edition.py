"""
An edition: every page of a handbook finished, from its sources alone.

A page is a function of what its key says: its own source, the plants that it tells of, the day, our code. So it is taken
from a former edition, or from what was kept of one on disk, wherever the key is the same. Only pages without faults are
kept.
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, Final

from macros.pages.binding import Chapter, bound
from macros.pages.converting import Converted, Heading, convert
from macros.pages.finishing import finished as for_every_reader
from macros.pages.handbook import DESIGNS, GUIDES, Handbook, Page, Rendered
from macros.pages.plain_html import strange_html
from macros.pages.time_limit import MOST_SECONDS, TooLongError, limited
from macros.pages.translations import marked
from macros.quantities import Fault, say, store
from macros.quantities.languages import SOURCE
from macros.review.refusal import day_of_review

__all__ = ["BESIDE", "Edition", "Finished", "finish", "is_there"]

BESIDE: Final = ("figures.json", "parts.csv", "parts.xlsx", "wall-guide-a3.pdf", "wall-guide-a4.pdf")
"""Files that stand beside the pages of a plant."""


BOUND: Final = ("guide", "drawing", "procedure", "trips", "parts")
"""Kinds of pages that a plant's whole handbook binds, in this order."""


@dataclass(frozen=True)
class Finished:
    """
    A page as its readers get it.

    Attributes
    ----------
    title, purpose : str
        Plain text, for navigation, head and search.
    content : str
        Its HTML.
    headings : tuple of Heading
        What its table of contents shows; titles are HTML.
    targets : tuple of str
        Addresses of the site that its links lead to.
    """

    title: str
    purpose: str
    content: str
    headings: tuple[Heading, ...]
    targets: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()

    def as_data(self) -> dict[str, Any]:
        """The page as JSON can say it; one with faults is never kept."""
        return {
            "title": self.title, "purpose": self.purpose, "content": self.content,
            "headings": [asdict(one) for one in self.headings], "targets": self.targets,
        }  # fmt: skip

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> Finished:
        """The page that was kept."""
        headings = tuple(map(_heading, data["headings"]))
        return cls(data["title"], data["purpose"], data["content"], headings, tuple(data["targets"]))


def _heading(data: dict[str, Any]) -> Heading:
    return Heading(data["level"], data["identity"], data["title"], tuple(map(_heading, data["below"])))


@dataclass(frozen=True)
class Edition:
    """A handbook with every page finished: what one build publishes."""

    handbook: Handbook
    pages: dict[str, Page]
    finished: dict[str, Finished]

    keys: dict[str, str]
    """What each page was made from, of a bound handbook its leaf: the same key, the same page."""

    alone: dict[str, Finished]
    """Each page as it is made from its key, before any is bound into another."""

    @classmethod
    def of(
        cls,
        docs: Path,
        former: Edition | None = None,
        *,
        reviewed: bool = True,
        written_in: str = SOURCE,
        beside_source: bool = False,
    ) -> tuple[Edition, list[Fault]]:
        """
        The edition of a folder of documents, and all faults.

        Parameters
        ----------
        docs : Path
        former : Edition, optional
            One whose pages are kept where they are the same.
        reviewed : bool
            Whether plants are reviewed and their handbooks bound. A preview does not wait for that, and nothing of it
            is kept on disk.
        written_in, beside_source
            As of `Handbook.load`.
        """
        handbook = Handbook.load(docs, reviewed=reviewed, written_in=written_in, beside_source=beside_source)
        pages = {page.address: page for page in handbook.pages()}
        keys = dict(_keys(handbook))
        there = is_there(handbook)
        alone: dict[str, Finished] = {}
        for address, page in pages.items():
            known = former.alone.get(address) if former and former.keys.get(address) == keys[address] else None
            alone[address] = known if known and _stands(known, there) else _kept(handbook, page, keys[address], there)
        whole = [page for page in pages.values() if page.kind == "whole"] if reviewed else []
        finished = alone | {page.address: _kept_bound(page, pages.values(), alone, keys) for page in whole}
        faults = [*handbook.faults, *(fault for one in finished.values() for fault in one.faults)]
        return cls(handbook, pages, finished, keys, alone), sorted(set(faults))


def _kept(handbook: Handbook, page: Page, key: str, there: Callable[[str], bool]) -> Finished:
    if handbook.reviewed and (data := store.read(key)) is not None:
        known = Finished.from_data(data)
        if _stands(known, there):
            return known
    made = finish(page, handbook.render(page), there)
    if handbook.reviewed and not made.faults:
        store.write(key, made.as_data())
    return made


def _kept_bound(
    whole: Page, pages: Iterable[Page], finished: Mapping[str, Finished], keys: Mapping[str, str]
) -> Finished:
    """The whole handbook of a plant, as it was kept where none of its pages has changed."""
    mine = [page for page in pages if page.plant is whole.plant and page.kind in BOUND]
    leaf, *chapters = (finished[page.address] for page in (whole, *mine))
    key = store.key_of("bound", *(keys[page.address] for page in (whole, *mine)))
    if (data := store.read(key)) is not None:
        return Finished.from_data(data)
    made = _bound(whole, mine, finished)
    if not any(one.faults for one in (leaf, *chapters)):
        store.write(key, made.as_data())
    return made


def _bound(whole: Page, mine: Sequence[Page], finished: Mapping[str, Finished]) -> Finished:
    """The whole handbook of a plant: its leaf, then guides, drawing, line-ups that no guide holds, trips and parts."""
    guides = "".join(finished[page.address].content for page in mine if page.kind == "guide")
    chapters = [
        Chapter(
            posixpath.basename(page.address).removesuffix(".md"),
            say(f"pages.group.{page.front.group}") if page.front.group else say("pages.whole.appendix"),
            finished[page.address].title,
            finished[page.address].content,
        )
        for page in sorted(mine, key=lambda one: BOUND.index(one.kind))
        if not (page.kind == "procedure" and f'id="lineup-{page.part}-1"' in guides)
    ]
    leaf = finished[whole.address]
    targets = dict.fromkeys(target for page in (whole, *mine) for target in finished[page.address].targets)
    return replace(leaf, content=bound(leaf.content, chapters), headings=(), targets=tuple(targets))


def _stands(known: Finished, there: Callable[[str], bool]) -> bool:
    """Whether a page without faults is still without: each of its links leads somewhere yet."""
    return not known.faults and all(map(there, known.targets))


def finish(page: Page, rendered: Rendered, is_there: Callable[[str], bool]) -> Finished:
    """
    A rendered page as its readers get it.

    Parameters
    ----------
    page : Page
    rendered : Rendered
    is_there : callable
        Whether a page or file stands at an address of the site.
    """
    file = page.file or page.address
    try:
        with limited():
            converted = convert(rendered.markdown, page.address, is_there)
    except TooLongError:
        slow = Fault(file, 0, "", say("pages.markup.takes_too_long", most=int(MOST_SECONDS)))
        return Finished(rendered.title, rendered.purpose, "", (), (), (*rendered.faults, slow))
    tokens = rendered.tokens
    content = for_every_reader(tokens.replace(converted.html))
    if page.translated is not None:
        content = marked(content, page.translated, page.address)
    headings = tuple(_read(one, tokens.escaped) for one in converted.headings)
    faults = (*rendered.faults, *_faults(page, rendered, converted), *tokens.faults)
    return Finished(rendered.title, rendered.purpose, content, headings, converted.targets, faults)


def _read(heading: Heading, escaped: Callable[[str], str]) -> Heading:
    return Heading(
        heading.level, heading.identity, escaped(heading.title), tuple(_read(one, escaped) for one in heading.below)
    )


def _faults(page: Page, rendered: Rendered, converted: Converted) -> Iterator[Fault]:
    file = page.file or page.address
    for message in strange_html(converted.html):
        yield Fault(file, 0, "", message)
    for link in converted.dead_links:
        yield Fault(file, _line_of(link, rendered), "", say("pages.dead_link", link=link, address=page.address))


def _line_of(link: str, rendered: Rendered) -> int:
    """The line of the page's file on which a link stands; 0 where it is not found as written."""
    for number, line in enumerate(rendered.markdown.split("\n")):
        if link in line and number < len(rendered.lines):
            return rendered.lines[number]
    return 0


def is_there(handbook: Handbook) -> Callable[[str], bool]:
    """Whether a page of a handbook, or a file of its documents, stands at an address."""
    pages = {page.address for page in handbook.pages()}
    plants = {plant.name for plant in handbook.plants}

    def found(address: str) -> bool:
        if address in pages or (posixpath.dirname(address) in plants and posixpath.basename(address) in BESIDE):
            return True
        return address.split("/")[0] not in (DESIGNS, GUIDES) and (handbook.docs / address).is_file()

    return found


def _keys(handbook: Handbook) -> Iterator[tuple[str, str]]:
    """The key of every page, by address."""
    day = day_of_review().isoformat()
    told = {plant.name: "\t".join(plant.identity) for plant in handbook.plants}
    guides: dict[str, list[str]] = {name: [] for name in told}
    for page in handbook.pages():
        if page.plant and page.kind == "guide":
            guides[page.plant.name].append(_entry(page))
    for page in handbook.pages():
        plants = [told[page.plant.name]] if page.plant else told.values()
        listed = guides[page.plant.name] if page.plant and page.kind == "overview" else ()
        source = (handbook.docs.parent / page.file).read_bytes() if page.file else b""
        yield (
            page.address,
            store.key_of(
                "page",
                page.address,
                page.kind,
                page.part,
                page.file,
                day,
                str(handbook.reviewed),
                str(page.translated),
                *plants,
                "",
                *listed,
                source,
            ),
        )


def _entry(page: Page) -> str:
    """What an overview tells of a guide."""
    front = page.front
    return f"{page.address}\t{front.group}\t{front.order}\t{front.title}\t{front.purpose}"
