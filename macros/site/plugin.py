"""The seam to the site generator: hands it our pages, and puts the numbers in after Markdown."""

from __future__ import annotations

import html
import importlib.metadata
import os
from collections.abc import Iterable, Iterator
from functools import partial
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

from macros.figures.plant import Plant
from macros.pages import Page
from macros.pages.converting import Heading
from macros.pages.drawing import drawing_rules
from macros.pages.edition import Edition, Finished
from macros.pages.known_files import link_faults
from macros.pages.report import report_html
from macros.pages.search_index import SearchIndex, names_of_values
from macros.quantities import Fault, Faults, say, store
from macros.quantities.languages import SOURCE, VARIABLE, language, name_of, speak
from macros.review.refusal import Reason
from macros.site.beside import files_beside
from macros.site.configuration import edition_line, languages_in
from macros.site.heads import heads_style
from macros.site.navigation import Links
from macros.site.wall_guides import links_to_wall_guides

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
    "whole.css",
    "readers.css",
    "languages.css",
)
SCRIPTS = ("gaswright.js", "filter.js", "drawings.js", "sort.js", "frame.js", "search.js", "what_if.js", "report.js")
NOT_FOUND = frozenset(["workings", "whole"])
"""Kinds of pages that the search passes by: what stands there leads to another page, or stands on one."""


class HandbookPlugin(BasePlugin):  # type: ignore[type-arg, no-untyped-call]
    """Replaces rendering by the macro plugin with our own; see `macros.pages`."""

    def __init__(self) -> None:
        super().__init__()
        self._serving = False
        self._written_in = SOURCE
        self._edition: Edition | None = None
        self._faults: list[Fault] = []
        self._navigations: dict[str, Links] = {}
        self._theme_styles: list[str] = []
        self._beside: dict[str, bytes] = {}
        self.beside: tuple[str, ...] = ()
        """The languages of all editions that are published together; the first stands at the root, others below it."""

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
        if self._serving:
            speak(os.environ.get(VARIABLE) or SOURCE)  # the server is a process of its own

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        if links := link_faults(Path(config.docs_dir)):
            raise _failure(links)  # the generator would follow them
        self._written_in = languages_in(config.extra)[0]
        config.markdown_extensions = []  # pages come finished
        config.mdx_configs = {}
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
        for address, content in self._set_beside(edition, config).items():
            files.append(File.generated(config, address, content=content))
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

    def _set_beside(self, edition: Edition, config: MkDocsConfig) -> dict[str, bytes]:
        """The files beside the pages of each plant; a preview has none, since nobody prints or buys from it."""
        if self._serving:
            return {}
        try:
            newer_at = str(config.extra.get("newer_at") or "")
            self._beside = files_beside(edition.handbook.plants, config.site_url or "", newer_at)
        except Faults as error:
            raise _failure(error) from error
        return self._beside

    def _load(self, docs: Path) -> Edition:
        """
        The edition to publish; in a preview the last good one where today's has faults.

        Raises
        ------
        PluginError
            In a build, with all faults as its cause.
        """
        self._navigations = {}
        edition, self._faults = Edition.of(
            docs,
            self._edition if self._serving else None,  # the generator uses this object again in the next build
            reviewed=not self._serving,
            written_in=self._written_in,
            beside_source=self._written_in == next(iter(self.beside), "") != language(),
        )
        if self._faults:
            if not self._serving:
                raise _failure(self._faults)
            edition = self._edition or edition
        self._edition = edition
        return edition

    def on_page_markdown(self, markdown: str, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:
        """Nothing for the generator to convert: the page is finished."""
        if purpose := self._finished(page).purpose:
            page.meta["description"] = purpose
        if self._page(page).kind in ("plants", "drawing", "workings", "procedure", "trips", "parts", "whole"):
            page.meta["hide"] = ["toc"]  # drawing and table take the whole width
        return "\n"

    @event_priority(50)
    def on_page_content(self, html: str, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:
        finished, ours = self._finished(page), self._page(page)
        page.toc = TableOfContents([_link(one) for one in finished.headings])
        page.title = finished.title
        sheets = links_to_wall_guides(ours.plant, self._beside) if ours.plant and ours.kind == "overview" else ""
        return (self._banner() if self._faults and self._serving else "") + finished.content + sheets

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> None:
        if self._faults and not self._serving:
            raise _failure(self._faults)
        # Pages tell where they stand in the whole site; links lead from there to the same page in other languages.
        spoken = language()
        above = "" if not self.beside or spoken == self.beside[0] else f"{spoken}/"
        env.globals |= {
            "say": say, "language": spoken, "report": report_html, "theme_styles": self._theme_styles,
            "above": above, "editions": list(self._editions(above)),
        }  # fmt: skip
        for name, script in ({} if self._serving else self._indices(files)).items():
            files.append(File.generated(config, f"assets/{name}", content=script))

    def _editions(self, above: str) -> Iterator[tuple[str, str, str]]:
        """Code, name and way from this edition's root to that of each edition, this one too."""
        for number, code in enumerate(self.beside if len(self.beside) > 1 else ()):
            root = "../" if above else ""
            yield code, name_of(code), root if number == 0 else f"{root}{code}/"

    def _indices(self, files: Files) -> dict[str, str]:
        """The search index of each plant and that of the handbook's own pages, as scripts by name."""
        assert self._edition is not None
        indices: dict[str, SearchIndex] = {"": SearchIndex()}
        for plant in self._edition.handbook.plants:
            key = store.key_of("names of values", *plant.identity)
            indices[plant.name] = SearchIndex(store.kept(key, partial(names_of_values, plant)))
        for address, ours in self._edition.pages.items():
            file = files.get_file_from_path(address)
            if ours.kind in NOT_FOUND or file is None or file.page is None:
                continue
            finished = self._edition.finished[address]
            index = indices[ours.plant.name if ours.plant else ""]
            index.add(file.dest_uri, ours.kind, finished.title, finished.purpose, file.page.content or "")
        return {_index_name(name): index.script() for name, index in indices.items()}

    def on_page_context(self, context: Any, *, page: SitePage, config: MkDocsConfig, nav: Navigation) -> Any:
        ours = self._page(page)
        name = ours.plant.name if ours.plant is not None else ""
        if name not in self._navigations:
            self._navigations[name] = Links(nav, name, self._titles(), ours.plant.title if ours.plant else None)
        context["navigation"] = self._navigations[name].html(page)
        context["plant"], context["kind"] = ours.plant, ours.kind
        context["running"] = self._running(ours.plant) if ours.plant is not None else ""
        indices = () if self._serving else dict.fromkeys((name, ""))  # an author does not wait for them
        context["search_scripts"] = [f"assets/{_index_name(one)}" for one in indices]
        for side in ("previous_page", "next_page"):
            neighbour = getattr(page, side)
            if neighbour is not None and self._page(neighbour).plant is not ours.plant:
                setattr(page, side, None)
        return context

    def _running(self, plant: Plant) -> str:
        """What stands at the foot of each sheet, so that a loose one is known: plant, digest, and what is wrong with it."""
        assert self._edition is not None
        stands = [plant.status] if plant.status in ("draft", "withdrawn") else []
        if self._edition.handbook.reasons(plant):
            stands.append("refused")
        return " · ".join((plant.title, plant.digest, *(say(f"pages.status.{one}") for one in stands)))

    def _page(self, page: SitePage) -> Page:
        assert self._edition is not None
        return self._edition.pages[page.file.src_uri]

    def _finished(self, page: SitePage) -> Finished:
        assert self._edition is not None
        return self._edition.finished[page.file.src_uri]

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
        entry = {edition.finished[address].title: address}
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


def _link(heading: Heading) -> AnchorLink:
    link = AnchorLink(heading.title, heading.identity, heading.level)
    link.children = [_link(one) for one in heading.below]
    return link
