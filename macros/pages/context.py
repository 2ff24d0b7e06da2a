"""What a page knows while it is written: its address, its plant, how things are linked from it."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from macros.figures.graph import Graph
from macros.figures.plant import Plant
from macros.pages.numbers import Numbers
from macros.pages.tokens import Fragment
from macros.pages.vocabulary import Vocabulary

__all__ = ["PageContext", "anchor", "html_address"]

Drawing = Callable[[str, Sequence[str], str], str]
"""
Draws the plant's schematic, or some of its sections, as an SVG: beginning of its ids, names of the sections, link to the
page with a row for each item.
"""


@dataclass(frozen=True)
class PageContext:
    """
    A page while it is written.

    Attributes
    ----------
    address : str
        Where the page will stand, `shed/stack.md`.
    name : str
        The plant's name; empty on a page of no plant.
    graph : Graph or None
        Its entries and figures.
    plant : Plant or None
        The plant itself, for what no entry or figure says: its line-ups.
    words : mapping
        Words about the plant that a page may quote as `plant.title` and so on.
    tags : mapping
        Tag of each item of its network, and what it is called.
    sections : tuple of str
        Names of the sections of its network.
    parts : frozenset of str
        What the plant has besides entries and figures: kinds of items, `burner`, procedures, `procedures.standby`,
        and sections of the network, `sections.train`.
    vocabulary : Vocabulary
        The names that a plant of this handbook may have, whether this one has them or not.
    drawing : callable or None
        Draws the schematic.
    identities : list of str
        Ids that drawings on this page have taken.
    shared_numbers : Numbers or None
        What says the plant's numbers on all of its pages.
    """

    address: str = "index.md"
    name: str = ""
    graph: Graph | None = None
    plant: Plant | None = None
    words: Mapping[str, Fragment] = field(default_factory=dict)
    tags: Mapping[str, str] = field(default_factory=dict)
    sections: tuple[str, ...] = ()
    parts: frozenset[str] = frozenset()
    vocabulary: Vocabulary = field(default_factory=lambda: Vocabulary(()))
    drawing: Drawing | None = None
    identities: list[str] = field(default_factory=list)
    shared_numbers: Numbers | None = None

    @cached_property
    def numbers(self) -> Numbers | None:
        """How the plant's numbers are said."""
        return self.shared_numbers or (Numbers(self.graph) if self.graph is not None else None)

    def has(self, part: str) -> bool:
        """Whether the plant has an entry, a figure, anything below it, a kind of item, a procedure or a section of this name."""
        return part in self.parts or (self.graph is not None and self.graph.has(part))

    def url(self, address: str, fragment: str = "") -> str:
        """A relative link from this page to another one of the site."""
        link = _relative(html_address(address), posixpath.dirname(self.address) or ".")
        if address == self.address and fragment:
            link = ""
        return f"{link}#{fragment}" if fragment else link

    def source_url(self, address: str) -> str:
        """A relative link for Markdown, from this page's source to that of another."""
        return posixpath.relpath(address, posixpath.dirname(self.address) or ".")

    def identity(self, wanted: str) -> str:
        """An id that no other drawing of the page has."""
        taken = sum(one == wanted or one.startswith(f"{wanted}-") for one in self.identities)
        self.identities.append(f"{wanted}-{taken + 1}" if taken else wanted)
        return self.identities[-1]

    def item_url(self, tag: str) -> str:
        """The link to the row of an item; empty where the plant has none of this tag, and for a mere tee."""
        if self.plant is None or tag not in self.tags or self.plant.network.items[tag].kind.name == "junction":
            return ""
        return self.url(f"{self.name}/drawing.md", anchor("item", tag.lower()))

    def working_url(self, path: str) -> str:
        """The link to the full working of a figure, or to an entry on the page of inputs; empty where there is none."""
        if not self.name or self.graph is None or path not in self.graph:
            return ""
        if path in self.graph.entries:
            return self.url(f"{self.name}/inputs.md", anchor("i", path))
        return self.url(f"{self.name}/workings_{path.split('.')[0]}.md", anchor("w", path))


@lru_cache(maxsize=65536)
def _relative(address: str, folder: str) -> str:
    """The way from a folder; a page asks for the same few thousands of times."""
    return posixpath.relpath(address, folder)


def anchor(kind: str, path: str) -> str:
    """The id of a figure (`w`), entry (`i`), constant, fact or source on the page that tells all of it."""
    return f"{kind}-{path}".replace(".", "-").replace(" ", "-").replace("'", "")


def html_address(address: str) -> str:
    """Where a page stands in the built site."""
    return address.removesuffix(".md") + ".html" if address.endswith(".md") else address
