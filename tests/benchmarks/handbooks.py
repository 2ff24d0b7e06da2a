"""
What computed pages cost beside plain ones.

The plain build has the same theme, frame and navigation, converts the same Markdown and writes the same bytes; it
computes nothing, for every page lies finished on disk. What ours does beyond: reading plants, computing, drawing, checking,
policies and the verification of every link and id, all counted.
"""

from __future__ import annotations

import contextlib
import math
import os
import re
import shutil
import statistics
import tempfile
import tracemalloc
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest import mock

from mkdocs.config.config_options import Plugins
from mkdocs.config.defaults import MkDocsConfig

import macros.site
from macros.figures.plant import Plant
from macros.pages import handbook as handbook_module
from macros.pages.dialect import EXTENSIONS
from macros.pages.edition import Edition
from macros.quantities import store
from macros.quantities.languages import SOURCE
from macros.site.beside import files_beside
from macros.site.build import _generate, build_site
from macros.site.plugin import HandbookPlugin
from tests.benchmarks.timing import Row, processor_s

ROOT = Path(__file__).parents[2]
GUIDE = """---
title: Page {number}
purpose: Shows what {{{{ plant.title }}}} gives on page {number}.
group: run
order: {number}
---
# Page {number}

{text}
"""


@contextlib.contextmanager
def handbook(plants: tuple[str, ...] = (), guides: int | None = None) -> Iterator[Path]:
    """A copy of the handbook in a folder of its own, with all plants and guides or some, and nothing kept."""
    with tempfile.TemporaryDirectory() as made, mock.patch.dict(os.environ, {"GASWRIGHT_CACHE": f"{made}/kept"}):
        folder = Path(made) / "handbook"
        folder.mkdir()
        shutil.copy(ROOT / "mkdocs.yml", folder)
        shutil.copytree(ROOT / "docs", folder / "docs", ignore=shutil.ignore_patterns("de"))
        for one in (folder / "docs/designs").iterdir():
            if plants and one.name not in plants:
                shutil.rmtree(one)
        if guides is not None:
            _synthetic(folder / "docs", guides)
        yield folder


def _synthetic(docs: Path, guides: int) -> None:
    """So many guides of twenty figures each in place of the handbook's own pages."""
    for page in [*docs.glob("*.md"), *(docs / "guides").glob("*.md")]:
        page.unlink()
    (docs / "index.md").write_text("# Many pages\n", encoding="utf-8")
    name = next((docs / "designs").iterdir()).name
    figures = _numbers_of(docs, name)
    for number in range(guides):
        said = [figures[(number * 20 + place) % len(figures)] for place in range(20)]
        text = "\n".join(f"The plant says {{{{ plant.{one} }}}} here." for one in said)
        (docs / f"guides/page_{number}.md").write_text(GUIDE.format(number=number, text=text), encoding="utf-8")


def _numbers_of(docs: Path, name: str) -> list[str]:
    plant = Plant.load(docs / "designs" / name, docs.parent)
    return [one for one, figure in plant.graph.figures.items() if not figure.late and plant.graph[one].is_number]


class _Plain(HandbookPlugin):
    """The same site from pages that lie on disk."""

    handed: tuple[Edition, dict[str, str], dict[str, bytes]]
    lying: Path
    """The folder of the finished pages."""

    def _load(self, docs: Path) -> Edition:  # noqa: ARG002
        self._navigations = {}
        self._edition = self.handed[0]
        return self._edition

    def _set_beside(self, edition: Edition, config: Any) -> dict[str, bytes]:  # noqa: ARG002
        self._beside = self.handed[2]
        return self._beside

    def on_config(self, config: Any) -> Any:
        config = super().on_config(config)
        config.markdown_extensions, config.mdx_configs = list(EXTENSIONS), dict(EXTENSIONS)
        return config

    def on_page_markdown(self, markdown: str, *, page: Any, config: Any, files: Any) -> str:
        super().on_page_markdown(markdown, page=page, config=config, files=files)
        return self.handed[1][page.file.src_uri]

    def on_page_content(self, html: str, *, page: Any, config: Any, files: Any) -> str:
        super().on_page_content(html, page=page, config=config, files=files)
        return (self.lying / page.file.src_uri).read_text(encoding="utf-8")


@dataclass(frozen=True)
class Measured:
    """Processor seconds of three builds of one handbook, and its pages."""

    plain_s: float
    cold_s: float
    warm_s: float
    pages: int
    bytes_a_page: float
    peak: tuple[int, int] = (0, 0)
    """Bytes at most in use by the plain and by ours from nothing."""


def lay_down(folder: Path, edition: Edition) -> None:
    """Put the finished pages where the plain build finds them."""
    for address, page in edition.finished.items():
        lying = folder / "finished" / address
        lying.parent.mkdir(parents=True, exist_ok=True)
        lying.write_text(page.content, encoding="utf-8")


def measure(folder: Path, *, runs: int = 3, memory: bool = False) -> Measured:
    """A handbook built plainly, from nothing, and again with what was kept."""
    edition, faults = Edition.of(folder / "docs")
    assert not faults, faults[:3]
    markdown = {address: edition.handbook.render(page).markdown for address, page in edition.pages.items()}
    beside = files_beside(edition.handbook.plants, "")
    lay_down(folder, edition)
    plain, cold, warm = [], [], []
    for _ in range(runs):
        plain.append(processor_s(lambda: plain_build(folder, edition, markdown, beside)))
        store.clear()
        handbook_module._read.clear()
        cold.append(processor_s(lambda: our_build(folder)))
        warm.append(processor_s(lambda: our_build(folder)))
    written = sorted((folder / "site").rglob("*.html"))
    peak = (0, 0)
    if memory:
        peaks = []
        for work in (lambda: plain_build(folder, edition, markdown, beside), lambda: our_build(folder)):
            tracemalloc.start()
            work()
            peaks.append(tracemalloc.get_traced_memory()[1])
            tracemalloc.stop()
        peak = (peaks[0], peaks[1])
    size = sum(path.stat().st_size for path in written) / len(written)
    middle = statistics.median
    return Measured(middle(plain), middle(cold), middle(warm), len(edition.pages), size, peak)


def whole(runs: int = 3) -> Iterator[Row]:
    """(a) The handbook of three plants."""
    with handbook() as folder:
        found = measure(folder, runs=runs)
        note = f"{found.pages} pages of {found.bytes_a_page / 1e3:.0f} kB, verification counted"
        yield Row("handbook, warm", found.warm_s, found.plain_s, 1.15, note)
        yield Row("handbook, cold", found.cold_s, found.plain_s, 1.5, note)


def growth(sizes: tuple[int, ...] = (300, 3000)) -> Iterator[Row]:
    """(b) Synthetic pages of twenty figures each."""
    seconds: list[tuple[int, float]] = []
    for size in sizes:
        with handbook(("bench",), size) as folder:
            found = measure(folder, runs=1, memory=size == min(sizes))
            seconds.append((found.pages, found.warm_s))
            yield Row(f"{size} pages × 20 figures, warm", found.warm_s, found.plain_s, 1.2)
            yield Row(f"{size} pages × 20 figures, cold", found.cold_s, found.plain_s, None)
            if found.peak[0]:
                note = "bytes in use at most, shown as seconds of 1 GB"
                yield Row("memory, warm", found.peak[1] / 1e9, found.peak[0] / 1e9, 1.5, note)
    (few, least), (many, most) = seconds[0], seconds[-1]
    exponent = math.log(most / least) / math.log(many / few)
    yield Row(f"growth: time goes as pages to the power {exponent:.2f}", most, None, None, "at most 1.05")


def preview() -> Iterator[Row]:
    """(c) One page, then one entry, edited while the preview runs."""
    with handbook() as folder:
        docs = folder / "docs"
        plain, _ = Edition.of(docs)
        markdown = {address: plain.handbook.render(page).markdown for address, page in plain.pages.items()}
        beside = files_beside(plain.handbook.plants, "")
        lay_down(folder, plain)
        plain_s = processor_s(lambda: plain_build(folder, plain, markdown, beside))
        first, _ = Edition.of(docs, reviewed=False)
        guide, plant = docs / "guides/stack.md", docs / "designs/shed/plant.yml"
        guide.write_text(guide.read_text(encoding="utf-8") + "\nOne more line.\n", encoding="utf-8")
        editions: list[Edition] = []
        page_s = processor_s(lambda: editions.append(Edition.of(docs, first, reviewed=False)[0]))
        yield Row("preview, page edit", plain_s + page_s, plain_s, 1.3)
        text = plant.read_text(encoding="utf-8").replace("cells: 16", "cells: 17")
        plant.write_text(text, encoding="utf-8")
        entry_s = processor_s(lambda: editions.append(Edition.of(docs, editions[0], reviewed=False)[0]))
        same = sum(editions[1].finished[one] is editions[0].finished[one] for one in editions[1].finished)
        note = (
            f"{len(editions[1].finished) - same} of {len(editions[1].finished)} pages finished anew: those of the plant"
        )
        yield Row("preview, description edit", plain_s + entry_s, plain_s, None, note)


def many(plants: int = 100) -> Iterator[Row]:
    """(h) A hundred plants in one handbook."""
    with handbook(("bench",), 1) as folder:
        designs = folder / "docs/designs"
        for number in range(1, plants):
            shutil.copytree(designs / "bench", designs / f"bench_{number}")
            described = designs / f"bench_{number}/plant.yml"
            text = described.read_text(encoding="utf-8")
            described.write_text(re.sub(r"^title: .*$", f"title: Bench {number}", text, count=1, flags=re.M), "utf-8")
        for path in designs.glob("*"):
            Plant.load(path, folder)
        loaded = processor_s(lambda: [Plant.load(path, folder) for path in sorted(designs.iterdir())])
        yield Row(f"a plant of {plants}, computed before", loaded / plants, None, 0.040, "reading and checking, warm")
        store.clear()
        few = sorted(designs.iterdir())[:10]
        loaded = processor_s(lambda: [Plant.load(path, folder) for path in few])
        yield Row(f"a plant of {plants}, for the first time", loaded / len(few), None, 0.040, "every figure evaluated")


def our_build(folder: Path) -> None:
    """Build a handbook as ever."""
    _forget_plugins()
    build_site(folder)


def _forget_plugins() -> None:
    """The generator keeps the objects of plugins from build to build; each of ours begins with its own."""
    for _, option in MkDocsConfig._schema:
        if isinstance(option, Plugins):
            option.plugin_cache.clear()


def plain_build(folder: Path, edition: Edition, markdown: dict[str, str], beside: dict[str, bytes]) -> None:
    """Build a handbook whose pages are finished already."""
    _Plain.handed, _Plain.lying = (edition, markdown, beside), folder / "finished"
    _forget_plugins()
    with mock.patch.object(macros.site, "HandbookPlugin", _Plain):
        _generate(folder, folder / "plain", (SOURCE,))
