"""
A handbook: plants, guides and pages read from a folder, and every page of the site written from them.

Nothing here raises for what authors wrote: faults are gathered, so that one report tells all of them.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from pathlib import Path

from macros.description.item_kinds import ITEM_KINDS
from macros.description.plant import PlantFile
from macros.figures.plant import Plant, folders_in
from macros.figures.what_if import grid_of
from macros.pages.banner import banner
from macros.pages.context import PageContext
from macros.pages.drawing import schematic_svg
from macros.pages.fragments import resolve_references, word_fragment
from macros.pages.front_matter import GROUPS, FrontMatter, split_source
from macros.pages.generated import handbook_pages, plant_pages
from macros.pages.generated.choices_page import choices_page
from macros.pages.generated.drawing_page import drawing
from macros.pages.generated.line_up_pages import procedure_address, procedure_page, procedures_page, trips_page
from macros.pages.generated.parts_page import parts_page
from macros.pages.generated.plants_page import Told, plants_page
from macros.pages.generated.record_page import record_page
from macros.pages.generated.review_page import review_page
from macros.pages.generated.whole_page import whole_leaf
from macros.pages.generated.workings_pages import groups_of, workings_index, workings_of
from macros.pages.known_files import file_faults, link_faults
from macros.pages.macros import MACROS
from macros.pages.numbers import Numbers
from macros.pages.page_text import Body, PageText, read_page
from macros.pages.plots import PLOTS, plots_of
from macros.pages.references import unresolved
from macros.pages.tokens import Fragment, Tokens
from macros.pages.translations import Translated, differing, digest_of, folders, is_careful, strangers
from macros.pages.typed_numbers import typed_in_drawing, typed_numbers
from macros.pages.vocabulary import Vocabulary, field_names, figure_names
from macros.pages.writing import names_in, unknown_part, write
from macros.quantities import Fault, Faults, say, store
from macros.quantities.languages import SOURCE, language
from macros.review import review
from macros.review.refusal import Reason, day_of_review, failed_proofs, refusal

__all__ = ["Handbook", "Page", "Rendered"]

DESIGNS, GUIDES = "designs", "guides"
MOST_READ = 256
TO_MEASURE, CATALYST = "record.to_measure", "catalyst"
WANTED = ("title", "purpose", "group", "order")
TRANSLATED = {"guide": ("title", "purpose", "source_digest"), "page": ("source_digest",)}
"""Keys of front matter that a guide must have; those that a translation must have."""
TITLE = re.compile(r"^# (.+?)(?:[ \t]*\{:[^}\n]*\})?[ \t]*$", re.MULTILINE)

OF_PLANT = (
    ("overview", "index"), ("drawing", "drawing"), ("procedures", "procedures"), ("trips", "trip-matrix"),
    ("review", "review"), ("record", "record"), ("parts", "parts"), ("inputs", "inputs"), ("workings", "workings"),
    ("whole", "whole"),
)  # fmt: skip
OF_HANDBOOK: tuple[tuple[str, Callable[[PageContext, Tokens], str] | None], ...] = (
    ("plants", None),
    ("choices", None),
    ("symbols", handbook_pages.symbols_page),
    ("facts", handbook_pages.facts_page),
    ("sources", handbook_pages.sources_page),
    ("verification", handbook_pages.verification),
    ("format", handbook_pages.description_format),
)
"""Generated pages of a handbook as a whole, in the order of navigation; those of all plants are handed the plants."""
OF_PLANTS = 2


@dataclass(frozen=True)
class Page:
    """
    A page of the site before it is written.

    Attributes
    ----------
    address : str
        Where it will stand, `shed/stack.md`.
    kind : str
        "overview", "guide", "drawing", "procedures", "procedure", "trips", "review", "record", "inputs", "workings",
        "working", "whole", "page", or one of the handbook's own.
    plant : Plant or None
    file : str
        The file that its author wrote, as messages show it; empty for a page that nobody writes.
    """

    address: str
    kind: str
    plant: Plant | None = None
    file: str = ""
    front: FrontMatter = field(default_factory=FrontMatter, compare=False)
    body: Body | None = field(default=None, compare=False)
    """What its author wrote below the front matter; none for a page that nobody writes."""
    translated: Translated | None = None
    """How a page that is no translation of its source as it stands says so; none where there is nothing to say."""
    part: str = ""
    """The part of the plant whose figures a page of kind "working" tells; the procedure that one of kind "procedure" does."""


@dataclass(frozen=True)
class Rendered:
    """
    A page as Markdown, numbers as tokens.

    Attributes
    ----------
    title, purpose : str
        Plain text, for navigation, head and search.
    lines : tuple of int
        The line of the page's file that each line of the Markdown came from; 0 for generated ones.
    """

    markdown: str
    title: str
    purpose: str
    tokens: Tokens
    faults: tuple[Fault, ...]
    lines: tuple[int, ...]


@dataclass
class Handbook:
    """All that one site publishes. Build with `Handbook.load`."""

    docs: Path
    plants: list[Plant]
    faults: list[Fault]
    vocabulary: Vocabulary
    _pages: list[Page] = field(default_factory=list)
    _numbers: dict[str, Numbers] = field(default_factory=dict)
    reviewed: bool = True
    """Whether plants are reviewed, which takes a second or two each; a preview does not wait for it."""
    written_in: str = SOURCE
    """The language in which its pages are written; in another that is spoken, translations stand for them."""
    beside_source: bool = False
    """Whether it is published one folder below the edition in the language in which it is written."""
    _from_disk: bool = False
    _identities: list[str] = field(default_factory=list)
    """Of all plants, as far as they are known by what they were read from."""
    _reasons: dict[str, tuple[Reason, ...]] = field(default_factory=dict)
    _told: set[tuple[str, int, str]] = field(default_factory=set)
    """Names that no plant can have, by file and line: told once, not again for each plant."""

    @classmethod
    def load(
        cls, docs: Path, *, reviewed: bool = True, written_in: str = SOURCE, beside_source: bool = False
    ) -> Handbook:
        """
        Read the plants, guides and pages of a folder.

        Parameters
        ----------
        docs : Path
            Holds `designs/<plant>/`, `guides/*.md`, and any other pages.
        reviewed : bool
            Whether plants are reviewed; without, their pages say that they were not.
        written_in : str
            The language of its pages. Where another is spoken, their translations are taken.
        beside_source : bool
            Whether this is the edition of another language, published one folder below the one in `written_in`.
        """
        root = docs.resolve().parent
        if strangers := link_faults(docs):
            return cls(docs, [], strangers, Vocabulary([]))
        plants: list[Plant] = []
        faults: list[Fault] = file_faults(docs)
        for folder in folders_in(docs / DESIGNS):
            try:
                plants.append(_loaded(folder, root, _stamp(folder)))
            except Faults as error:
                faults.extend(error)
        handbook = cls._of(docs, plants, from_disk=True, written_in=written_in, beside_source=beside_source)
        handbook.faults[:0] = faults
        handbook.reviewed = reviewed
        return handbook

    @classmethod
    def of(cls, docs: Path, plants: list[Plant], *, written_in: str = SOURCE, beside_source: bool = False) -> Handbook:
        """The pages of a folder for plants that were loaded, from wherever; the rest as of `load`."""
        return cls._of(docs, plants, from_disk=False, written_in=written_in, beside_source=beside_source)

    @classmethod
    def _of(
        cls, docs: Path, plants: list[Plant], *, from_disk: bool, written_in: str = SOURCE, beside_source: bool = False
    ) -> Handbook:
        names = [
            *figure_names(),
            *field_names(PlantFile),
            *ITEM_KINDS,
            "procedures.*",
            "sections.*",
            *(f"plots.{name}" for name in PLOTS),
            TO_MEASURE,
            CATALYST,
            *(path for plant in plants for path in plant.graph),
        ]
        told = [plant for plant in plants if plant.description.plant.buffer is not None]
        unfit = [_no_buffer(one) for one in plants if one not in told]
        handbook = cls(
            docs,
            told,
            unfit,
            Vocabulary(names),
            written_in=written_in,
            beside_source=beside_source,
            _from_disk=from_disk,
        )
        handbook._numbers = {plant.name: Numbers(plant.graph) for plant in plants}
        handbook._identities = [part for plant in told for part in plant.identity] if from_disk else []
        handbook._read_pages(docs.resolve().parent)
        handbook.faults.extend(handbook._faults_of_references())
        handbook.faults.extend(handbook._faults_of_titles())
        return handbook

    def pages(self) -> list[Page]:
        """Every page of the site, in the order of navigation."""
        return list(self._pages)

    def reasons(self, plant: Plant) -> tuple[Reason, ...] | None:
        """Why a plant is refused, empty where it is not; none where nobody looked."""
        if not self.reviewed:
            return None
        if plant.name not in self._reasons:
            self._reasons[plant.name] = refusal(plant, as_read=self._from_disk)
        return self._reasons[plant.name]

    def _banner(self, page: Page, context: PageContext) -> Fragment | None:
        return None if page.plant is None else banner(page.plant, context, self.reasons(page.plant))

    def render(self, page: Page) -> Rendered:
        """A page as Markdown with tokens, and what is wrong with it for its plant."""
        tokens = Tokens(page.file or page.address)
        context = self.context(page)
        if page.body is None:
            return self._generated(page, context, tokens)
        written, faults = write(page.body.read, context, tokens)
        title, purpose = (
            self._line(page, context, text, line) for text, line in
            ((page.front.title, page.front.lines.get("title", 1)), (page.front.purpose, page.front.lines.get("purpose", 1)))
        )  # fmt: skip
        faults += [*title[1], *purpose[1]]
        above = self._banner(page, context)
        body = (tokens.add(above) + "\n\n" if above else "") + written.text
        heading = TITLE.search(written.text)
        shown = title[0] or (tokens.plain(heading.group(1)) if heading else page.address)
        lines = (0, *((0, 0) if above else ()), *written.lines)
        new = tuple(fault for fault in dict.fromkeys(faults) if not self._told_already(fault))
        return Rendered("\n" + body, shown, purpose[0], tokens, new, lines)

    def context(self, page: Page) -> PageContext:
        """What a page knows while it is written."""
        plant = page.plant
        if plant is None:
            return PageContext(page.address, vocabulary=self.vocabulary)
        context = PageContext(
            page.address,
            plant.name,
            plant.graph,
            plant,
            tags={tag: item.title for tag, item in plant.network.items.items()},
            sections=tuple(plant.network.sections),
            parts=_parts(plant),
            vocabulary=self.vocabulary,
            drawing=functools.partial(schematic_svg, plant),
            shared_numbers=self._numbers[plant.name],
        )
        described = plant.description.plant
        words = {
            "name": word_fragment(plant.name),
            "title": word_fragment(plant.title, "title"),
            "status": word_fragment(plant.status, "status"),
            "digest": word_fragment(plant.digest),
            "summary": resolve_references(described.summary, context),
        }
        return replace(context, words=words)

    def _generated(self, page: Page, context: PageContext, tokens: Tokens) -> Rendered:
        text = self._text_of(page, context, tokens)
        above = self._banner(page, context)
        if above:
            text = f"{tokens.add(above)}\n\n{text}"
        heading = TITLE.search(text)
        assert heading is not None
        by_kind = page.plant is not None and not page.part
        title = say(f"pages.title.{page.kind}") if by_kind else tokens.plain(heading.group(1))
        return Rendered("\n" + text, title, "", tokens, (), (0,) * (text.count("\n") + 2))

    def _text_of(self, page: Page, context: PageContext, tokens: Tokens) -> str:
        plant = page.plant
        if plant is None:
            if page.kind in ("plants", "choices"):
                own = [(one, self.context(Page(page.address, "overview", one))) for one in self.plants]
                if page.kind == "choices":
                    return choices_page(own, context, tokens)
                return plants_page([self._told_of(*each) for each in own], context, tokens)
            write_page = dict(OF_HANDBOOK)[page.kind]
            assert write_page is not None
            return write_page(context, tokens)
        if page.kind == "overview":
            # A preview does not wait for the grid either.
            grid = grid_of(plant, only_kept=not self.reviewed)
            return plant_pages.overview(plant, context, tokens, self._guides_of(plant), grid)
        if page.kind == "working":
            return workings_of(plant, context, tokens, page.part)
        if page.kind == "procedure":
            return procedure_page(plant, context, tokens, page.part)
        if page.kind == "whole":
            return whole_leaf(plant, context, tokens, review(plant, day_of_review()) if self.reviewed else None)
        if page.kind == "review":
            return review_page(plant, context, tokens, review(plant, day_of_review()) if self.reviewed else None)
        writers = {
            "drawing": drawing, "inputs": plant_pages.inputs, "workings": workings_index, "record": record_page,
            "procedures": procedures_page, "trips": trips_page, "parts": parts_page,
        }  # fmt: skip
        return writers[page.kind](plant, context, tokens)

    def _told_of(self, plant: Plant, own: PageContext) -> Told:
        if not self.reviewed:
            return Told(plant, own, None)
        return Told(plant, own, review(plant, day_of_review()), len(failed_proofs(plant)))

    def _guides_of(self, plant: Plant) -> Iterator[tuple[str, str, str, str]]:
        for page in self._pages:
            if page.kind == "guide" and page.plant is plant:
                context = self.context(page)
                yield (
                    page.front.group,
                    page.address,
                    self._line(page, context, page.front.title, 1)[0],
                    self._line(page, context, page.front.purpose, 1)[0],
                )

    def _line(self, page: Page, context: PageContext, text: str, line: int) -> tuple[str, list[Fault]]:
        """A line of front matter as plain text."""
        if not text:
            return "", []
        tokens = Tokens(page.file)
        written, faults = write(read_page(text, page.file, line, MACROS), context, tokens)
        return tokens.plain(written.text), faults

    def _read_pages(self, root: Path) -> None:
        guides = sorted(self._read_guides(root), key=_place)
        own = list(self._read_own(root))
        home = [page for page in own if page.address == "index.md"]
        self._pages = [*home, *(Page(f"{kind}.md", kind) for kind, _ in OF_HANDBOOK[:OF_PLANTS])]
        self._pages += [page for page in own if page.address != "index.md"]
        self._pages += [Page(f"{kind}.md", kind) for kind, _ in OF_HANDBOOK[OF_PLANTS:]]
        for plant in self.plants:
            first, *rest = (Page(f"{plant.name}/{address}.md", kind, plant) for kind, address in OF_PLANT)
            context = self.context(first)
            fitting = [guide for guide in guides if all(context.has(part) for part in guide.front.needs)]
            mine = [replace(guide, address=f"{plant.name}/{guide.address}", plant=plant) for guide in fitting]
            workings = [
                Page(f"{plant.name}/workings_{group}.md", "working", plant, part=group)
                for group, _ in groups_of(plant.graph.figures)
            ]
            procedures = [
                Page(procedure_address(plant.name, name), "procedure", plant, part=name)
                for name in plant.description.procedures.procedures
            ]
            self._pages += [first, rest[0], *mine, rest[1], *procedures, *rest[2:], *workings]
        self._read_drawings(root)
        self._check_addresses()

    def _read_drawings(self, root: Path) -> None:
        """Drawings that somebody made by hand say no number that a plant decides."""
        graphs = [plant.graph for plant in self.plants]
        for path in sorted(self.docs.rglob("*.svg")):
            file = path.resolve().relative_to(root).as_posix()
            self.faults.extend(typed_in_drawing(path.read_text("utf-8", errors="replace"), file, graphs))

    def _read_guides(self, root: Path) -> Iterator[Page]:
        for path in sorted((self.docs / GUIDES).glob("*.md")):
            yield self._read_or_translated(path, path.name, "guide", WANTED, root)

    def _read_own(self, root: Path) -> Iterator[Page]:
        for path in sorted(self.docs.rglob("*.md")):
            address = path.relative_to(self.docs).as_posix()
            if address.split("/")[0] not in (DESIGNS, GUIDES, *folders(self.written_in)):
                yield self._read_or_translated(path, address, "page", (), root)
        self.faults.extend(strangers(self.docs, self.written_in))

    def _read_or_translated(self, path: Path, address: str, kind: str, wanted: tuple[str, ...], root: Path) -> Page:
        """A page in the language spoken, as its front matter says where it is no translation of its source as it stands."""
        source = self._read(path, address, kind, wanted, root)
        if "source_digest" in source.front.lines:
            message = say("pages.translation.not_here")
            self.faults.append(Fault(source.file, source.front.lines["source_digest"], "source_digest", message))
        if language() == self.written_in:
            return source
        content = path.read_bytes()
        told = Translated("missing", self.written_in, is_careful(content), self.beside_source)
        other = self.docs / language() / path.relative_to(self.docs)
        if not other.is_file():
            return replace(source, translated=told)
        page = self._read(other, address, kind, TRANSLATED[kind], root)
        self.faults.extend(differing(source.front, page.front, page.file))
        decided = replace(page.front, group=source.front.group, order=source.front.order, needs=source.front.needs)
        older = page.front.source_digest != digest_of(content)
        return replace(page, front=decided, translated=replace(told, state="older") if older else None)

    def _read(self, path: Path, address: str, kind: str, wanted: tuple[str, ...], root: Path) -> Page:
        """
        A page as its author wrote it, with all that is wrong in it whichever plant it is for.

        A page in which nothing was wrong is not gone through again beside the same plants; then its body waits until
        something asks.
        """
        file = path.resolve().relative_to(root).as_posix()
        content = path.read_bytes()
        source = split_source(content, file, wanted, self.vocabulary)
        page = Page(address, kind, None, file, source.front, Body(source.body, file, source.first_line, MACROS))
        key = store.key_of("sound page", file, kind, *wanted, "", *self._identities, content)
        if self._from_disk and store.read(key) is not None:
            return page
        faults = [*source.faults, *self._wrong_in(page)]
        if self._from_disk and not faults:
            store.write(key, True)
        self.faults.extend(faults)
        return page

    def _wrong_in(self, page: Page) -> Iterator[Fault]:
        assert page.body is not None
        text = page.body.read
        yield from text.faults
        yield from text.markup
        graphs = [plant.graph for plant in self.plants]
        yield from typed_numbers(page.body.text, page.file, page.body.first_line, graphs)
        for key in ("title", "purpose"):
            line = page.front.lines.get(key, 1)
            said = getattr(page.front, key)
            yield from typed_numbers(said, page.file, line, graphs)
            yield from read_page(said, page.file, line, MACROS).faults
        if page.kind == "guide":
            yield from self._strange_names(page.file, text)

    def _strange_names(self, file: str, text: PageText) -> Iterator[Fault]:
        """Names that no plant can have, in branches that no plant takes too."""
        context = PageContext(vocabulary=self.vocabulary)
        for line, name, in_condition in names_in(text):
            if "." in name and not self.vocabulary.knows(name):
                nearest = self.vocabulary.nearest(name)
                found = unknown_part(name, context) if in_condition else say(
                    "pages.no_plant_has", found=f"plant.{name}", nearest=f"plant.{nearest}" if nearest else say("pages.none")
                )  # fmt: skip
                self._told.add((file, line, f"plant.{name}"))
                yield Fault(file, line, "", found)

    def _told_already(self, fault: Fault) -> bool:
        return any(
            (fault.file, fault.line) == (file, line) and name in fault.message for file, line, name in self._told
        )

    def _check_addresses(self) -> None:
        taken: dict[str, Page] = {}
        for page in self._pages:
            former = taken.setdefault(page.address, page)
            if former is not page:
                written = next((one for one in (former, page) if one.kind in ("page", "guide")), page)
                self.faults.append(Fault(written.file, 0, "", say("pages.reserved", address=page.address)))

    def _faults_of_titles(self) -> Iterator[Fault]:
        """A plant that is called like another could be taken for it, and their pages would stand under one heading."""
        seen: dict[str, Plant] = {}
        for plant in self.plants:
            former = seen.setdefault(" ".join(plant.title.casefold().split()), plant)
            if former is not plant:
                file, _, line = plant.description.place("plant.yml", ("title",)).rpartition(":")
                yield Fault(file, int(line or 0), "title", say("pages.same_title", plant=former.name))

    def _faults_of_references(self) -> Iterator[Fault]:
        """References in the texts of descriptions that lead nowhere."""
        for plant in self.plants:
            key = store.key_of("every reference leads somewhere", *plant.identity)
            if self._from_disk and store.read(key) is not None:
                continue
            found = list(_wrong_references(plant, self.context(Page(f"{plant.name}/index.md", "overview", plant))))
            if self._from_disk and not found:
                store.write(key, True)
            yield from found


def _no_buffer(plant: Plant) -> Fault:
    """Nothing is published of a plant whose stack fills no vessel: too little of it can be worked out."""
    return Fault(plant.description.file("plant.yml"), 1, "buffer", say("pages.no_buffer"))


def _parts(plant: Plant) -> frozenset[str]:
    """Kinds of items that the plant has, its procedures, sections and plots, and what a value tells of."""
    kinds = {item.kind.name for item in plant.network.items.values()}
    procedures = {f"procedures.{name}" for name in plant.description.procedures.procedures}
    sections = {f"sections.{name}" for name in plant.network.sections}
    plots = {f"plots.{name}" for name in plots_of(plant.graph)}
    described = plant.description
    others = {CATALYST: described.plant.stack.catalyst_efficiency.si > 0, TO_MEASURE: bool(described.record.to_measure)}
    return frozenset(kinds | procedures | sections | plots | {part for part, held in others.items() if held})


def _place(guide: Page) -> tuple[int, int, str]:
    """Where a guide stands among all guides: by group, by its order in the group, by name."""
    group = guide.front.group
    return (GROUPS.index(group) if group in GROUPS else len(GROUPS), guide.front.order or 0, guide.address)


def _wrong_references(plant: Plant, context: PageContext) -> Iterator[Fault]:
    for name, path, text in plant.description.texts():
        for message in unresolved(text, context):
            place = plant.description.place(name, path)
            file, _, line = place.rpartition(":")
            key = ".".join(map(str, path))
            yield Fault(file or plant.description.file(name), int(line or 0), key, message)


def _stamp(folder: Path) -> _Stamp:
    described = (path for path in sorted(folder.iterdir()) if path.suffix in (".yml", ".csv"))
    return tuple((path.name, path.stat().st_mtime_ns, path.stat().st_size) for path in described)


_Stamp = tuple[tuple[str, int, int], ...]
_read: dict[tuple[Path, str], tuple[_Stamp, Plant]] = {}
"""Plants as they were last read from their folders, for the preview; what they say is in one language."""


def _loaded(folder: Path, root: Path, stamp: _Stamp) -> Plant:
    """A plant that has not changed since it was read; behind an edit only what descends from it is computed."""
    known = folder, language()
    before, plant = _read.pop(known, ((), None))
    if plant is None or before != stamp:
        plant = Plant.load(folder, root, plant)
    if len(_read) >= MOST_READ:
        del _read[next(iter(_read))]
    _read[known] = stamp, plant
    return plant
