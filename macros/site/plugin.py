"""The seam to the site generator: hands it our pages, and puts the numbers in after Markdown."""

from __future__ import annotations

import html
import importlib.metadata
import json
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import Any, Literal

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page as SitePage
from mkdocs.structure.toc import AnchorLink, TableOfContents

from macros.pages import Handbook, Page, Rendered
from macros.pages.dialect import EXTENSIONS
from macros.pages.drawing import drawing_rules
from macros.pages.finishing import finished as finish_html
from macros.pages.known_files import link_faults
from macros.pages.plain_html import strange_html
from macros.pages.report import report_html
from macros.pages.search_index import SearchIndex, names_of_values
from macros.quantities import Fault, Faults, say
from macros.review.refusal import Reason
from macros.sheets.parts import parts_csv, parts_xlsx
from macros.sheets.published import published
from macros.site import time_limit
from macros.site.configuration import edition_line
from macros.site.heads import heads_style
from macros.site.navigation import Links
from macros.site.wall_guides import links_to_wall_guides, wall_guides

__all__ = ["HandbookPlugin"]

SOURCES = ("guides/", "designs/")
"""Folders of `docs/` that are published only through their plants."""

THEME_FOLDERS = ("assets/javascripts/", "assets/stylesheets/", "assets/images/")

STYLES = (
    "frame.css",
    "text.css",
    "search.css",
    "gaswright.css",
    "review.css",
    "lineups.css",
    "plants.css",
    "print.css",
    "readers.css",
)
SCRIPTS = ("gaswright.js", "filter.js", "drawings.js", "sort.js", "frame.js", "search.js", "what_if.js", "report.js")
NOT_FOUND = frozenset(["workings"])
"""Kinds of pages that the search passes by: what stands there leads to another page."""


@dataclass(frozen=True)
class Edition:
    """A handbook with every page rendered: what one build publishes."""

    handbook: Handbook
    pages: dict[str, Page]
    rendered: dict[str, Rendered]

    keys: dict[str, Hashable]
    """What each page was made from: the same key, the same page."""

    @classmethod
    def of(cls, docs: Path, former: Edition | None = None, *, reviewed: bool = True) -> tuple[Edition, list[Fault]]:
        """The edition of a folder of documents, pages of a former one kept where they are the same; and all faults."""
        handbook = Handbook.load(docs, reviewed=reviewed)
        pages = {page.address: page for page in handbook.pages()}
        keys = {address: _key(handbook, page) for address, page in pages.items()}
        known = {} if former is None else {
            address: one for address, one in former.rendered.items() if former.keys[address] == keys.get(address) and not one.faults
        }  # fmt: skip
        rendered = {address: known.get(address) or handbook.render(page) for address, page in pages.items()}
        faults = [*handbook.faults, *(fault for one in rendered.values() for fault in one.faults)]
        return cls(handbook, pages, rendered, keys), sorted(set(faults))


@dataclass(frozen=True)
class Finished:
    """A page after Markdown, kept by the preview for as long as nothing that it was made from changes."""

    rendered: Rendered
    content: str
    toc: TableOfContents


class HandbookPlugin(BasePlugin):  # type: ignore[type-arg, no-untyped-call]
    """Replaces rendering by the macro plugin with our own; see `macros.pages`."""

    def __init__(self) -> None:
        super().__init__()
        self._serving = False
        self._edition: Edition | None = None
        self._faults: list[Fault] = []
        self._navigations: dict[str, Links] = {}
        self._finished: dict[str, Finished] = {}
        self._theme_styles: list[str] = []
        self._wall_guides: dict[str, bytes] = {}

    def refused(self) -> dict[str, tuple[Reason, ...]]:
        """The plants of the edition that are refused, by name, each with its reasons."""
        assert self._edition is not None
        handbook = self._edition.handbook
        return {plant.name: reasons for plant in handbook.plants if (reasons := handbook.reasons(plant))}

    def status(self) -> dict[str, str]:
        """The status of each plant of the edition."""
        assert self._edition is not None
        return {plant.name: plant.status for plant in self._edition.handbook.plants}

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        self._serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        if links := link_faults(Path(config.docs_dir)):
            raise _failure(links)  # the generator would follow them
        config.markdown_extensions = list(EXTENSIONS)
        config.mdx_configs = dict(EXTENSIONS)
        styles = ("drawings.css", "heads.css", *STYLES)
        config.extra_css = [*config.extra_css, *(f"assets/{name}" for name in styles)]
        config.extra_javascript = [*config.extra_javascript, *(f"assets/{name}" for name in SCRIPTS)]
        config.theme.dirs.insert(0, str(resources.files("macros.site") / "overrides"))
        line = edition_line(config.extra, importlib.metadata.version("gaswright"))
        config.copyright = " ".join(filter(None, (config.copyright, html.escape(line))))
        if self._serving:
            config.strict = False  # a preview shows what is wrong; it does not stop at it
        return config

    @event_priority(-50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        edition = self._load(Path(config.docs_dir))
        self._keep_styles(files)
        for file in list(files):
            if file.src_uri.startswith(SOURCES) or (file.is_documentation_page() and file.src_uri not in edition.pages):
                files.remove(file)
        for address in edition.pages:
            if (standing := files.get_file_from_path(address)) is not None:
                files.remove(standing)
            files.append(File.generated(config, address, content="\n"))
        for address, sheet in self._set_wall_guides(edition, config).items():
            files.append(File.generated(config, address, content=sheet))
        for plant in edition.handbook.plants:
            data = json.dumps(published(plant), indent=1, ensure_ascii=False, sort_keys=True)
            files.append(File.generated(config, f"{plant.name}/figures.json", content=data + "\n"))
            files.append(File.generated(config, f"{plant.name}/parts.csv", content=parts_csv(plant)))
            files.append(File.generated(config, f"{plant.name}/parts.xlsx", content=parts_xlsx(plant)))
        assets = resources.files("macros.site") / "assets"
        for name in sorted(file.name for file in assets.iterdir()):
            files.append(File.generated(config, f"assets/{name}", abs_src_path=str(assets / name)))
        files.append(File.generated(config, "assets/heads.css", content=heads_style()))
        files.append(File.generated(config, "assets/drawings.css", content=drawing_rules()))
        config.nav = _navigation(edition)
        return files

    def _keep_styles(self, files: Files) -> None:
        """Of the theme's own files only its style sheets are asked for: they set running text."""
        of_theme = [file for file in files if file.src_uri.startswith(THEME_FOLDERS)]
        self._theme_styles = sorted(file.dest_uri for file in of_theme if file.src_uri.endswith(".css"))
        for file in of_theme:
            if not file.src_uri.endswith(".css"):
                files.remove(file)

    def _set_wall_guides(self, edition: Edition, config: MkDocsConfig) -> dict[str, bytes]:
        """The sheets of a build; a preview shows none, since nobody prints from it."""
        if self._serving:
            return {}
        try:
            self._wall_guides = wall_guides(edition.handbook.plants, config.site_url or "")
        except Faults as error:
            raise _failure(error) from error
        return self._wall_guides

    def _load(self, docs: Path) -> Edition:
        """
        The edition to publish; in a preview the last good one where today's has faults.

        Raises
        ------
        PluginError
            In a build, with all faults as its cause.
        """
        self._navigations = {}
        edition, self._faults = Edition.of(docs, self._edition, reviewed=not self._serving)
        if self._faults:
            if not self._serving:
                raise _failure(self._faults)
            edition = self._edition or edition
        self._edition = edition
        return edition

    def on_page_markdown(self, markdown: str, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:
        rendered = self._rendered(page)
        if rendered.purpose:
            page.meta["description"] = rendered.purpose
        kind = self._page(page).kind
        if kind in ("plants", "drawing", "workings", "procedure", "trips", "parts"):
            page.meta["hide"] = ["toc"]  # drawing and table take the whole width
        time_limit.start(lambda: Faults([self._too_long(page)]))
        return "\n" if self._kept(page) else rendered.markdown

    def on_build_error(self, *, error: Exception) -> None:
        time_limit.stop()

    def _too_long(self, page: SitePage) -> Fault:
        most = int(time_limit.MOST_SECONDS)
        return Fault(self._page(page).file or page.file.src_uri, 0, "", say("pages.markup.takes_too_long", most=most))

    @event_priority(50)
    def on_page_content(self, html: str, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:
        time_limit.stop()
        finished = self._kept(page) or self._finish(page, html)
        page.toc = finished.toc
        page.title = finished.rendered.title
        if self._serving:
            self._finished[page.file.src_uri] = finished
        ours = self._page(page)
        sheets = links_to_wall_guides(ours.plant, self._wall_guides) if ours.plant and ours.kind == "overview" else ""
        return (self._banner() if self._faults and self._serving else "") + finished.content + sheets

    def _finish(self, page: SitePage, html: str) -> Finished:
        rendered, file = self._rendered(page), self._page(page).file or page.file.src_uri
        self._faults.extend(Fault(file, 0, "", message) for message in strange_html(html))
        content = finish_html(rendered.tokens.replace(html))
        self._faults.extend(rendered.tokens.faults)
        for link in _links(page.toc.items):
            link.title = rendered.tokens.escaped(link.title)
        return Finished(rendered, content, page.toc)

    def _kept(self, page: SitePage) -> Finished | None:
        finished = self._finished.get(page.file.src_uri)
        return finished if finished is not None and finished.rendered is self._rendered(page) else None

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> None:
        if self._faults and not self._serving:
            raise _failure(self._faults)
        env.globals |= {"say": say, "report": report_html, "theme_styles": self._theme_styles}
        for name, script in ({} if self._serving else self._indices(files)).items():
            files.append(File.generated(config, f"assets/{name}", content=script))

    def _indices(self, files: Files) -> dict[str, str]:
        """The search index of each plant and that of the handbook's own pages, as scripts by name."""
        assert self._edition is not None
        indices: dict[str, SearchIndex] = {"": SearchIndex()}
        for plant in self._edition.handbook.plants:
            indices[plant.name] = SearchIndex(names_of_values(plant))
        for address, ours in self._edition.pages.items():
            file = files.get_file_from_path(address)
            if ours.kind in NOT_FOUND or file is None or file.page is None:
                continue
            rendered = self._edition.rendered[address]
            index = indices[ours.plant.name if ours.plant else ""]
            index.add(file.dest_uri, ours.kind, rendered.title, rendered.purpose, file.page.content or "")
        return {_index_name(name): index.script() for name, index in indices.items()}

    def on_page_context(self, context: Any, *, page: SitePage, config: MkDocsConfig, nav: Navigation) -> Any:
        ours = self._page(page)
        name = ours.plant.name if ours.plant is not None else ""
        if name not in self._navigations:
            self._navigations[name] = Links(nav, name, self._titles(), ours.plant.title if ours.plant else None)
        context["navigation"] = self._navigations[name].html(page)
        context["plant"] = ours.plant
        indices = () if self._serving else dict.fromkeys((name, ""))  # an author does not wait for them
        context["search_scripts"] = [f"assets/{_index_name(one)}" for one in indices]
        for side in ("previous_page", "next_page"):
            neighbour = getattr(page, side)
            if neighbour is not None and self._page(neighbour).plant is not ours.plant:
                setattr(page, side, None)
        return context

    def _page(self, page: SitePage) -> Page:
        assert self._edition is not None
        return self._edition.pages[page.file.src_uri]

    def _rendered(self, page: SitePage) -> Rendered:
        assert self._edition is not None
        return self._edition.rendered[page.file.src_uri]

    def _titles(self) -> set[str]:
        assert self._edition is not None
        return {plant.title for plant in self._edition.handbook.plants}

    def _banner(self) -> str:
        lines = "\n".join(html.escape(str(fault)) for fault in self._faults)
        heading = html.escape(say("site.faults_in_preview"))
        return (
            f'<div class="gw-banner gw-banner-faults" role="alert"><strong>{heading}</strong><pre>{lines}</pre></div>\n'
        )


def _index_name(plant: str) -> str:
    return f"find-{plant}.js" if plant else "find.js"


def _key(handbook: Handbook, page: Page) -> Hashable:
    file = handbook.docs.parent / page.file
    stamp = (file.stat().st_mtime_ns, file.stat().st_size) if page.file else None
    guides = tuple(
        (one.address, one.front.group, one.front.title, one.front.purpose)
        for one in handbook.pages()
        if one.kind == "guide"
    )
    return (page.kind, page.plant or tuple(handbook.plants), stamp, guides if page.kind == "overview" else None)


def _failure(faults: Iterable[Fault]) -> PluginError:
    cause = Faults(faults)
    error = PluginError(f"\n{cause}")
    error.__cause__ = cause
    return error


def _navigation(edition: Edition) -> list[Any]:
    """The navigation of the whole site: the handbook's own pages, then a section for each plant, its guides by group."""
    own: list[Any] = []
    plants: dict[str, list[Any]] = {}
    for address, page in edition.pages.items():
        if page.kind == "working":
            continue  # reached from the page of all workings and from every number
        entry = {edition.rendered[address].title: address}
        held = own if page.plant is None else plants.setdefault(page.plant.title, [])
        if page.kind in ("procedures", "procedure"):
            held = _section(held, say("pages.title.procedures"))
        if page.front.group:
            held = _section(held, say(f"pages.group.{page.front.group}"))
        held.append(entry)
    return [*own, *({title: entries} for title, entries in plants.items())]


def _section(entries: list[Any], name: str) -> list[Any]:
    """The entries of the section that stands last, which is begun if another does."""
    if not (entries and isinstance(entries[-1].get(name), list)):
        entries.append({name: []})
    section: list[Any] = entries[-1][name]
    return section


def _links(items: Iterable[AnchorLink]) -> Iterator[AnchorLink]:
    for item in items:
        yield item
        yield from _links(item.children)
