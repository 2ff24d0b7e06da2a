"""The handbook built once for all tests of the site."""

import re
import shutil
from pathlib import Path

import pytest

from macros.quantities.languages import SOURCE, languages
from tests.once import made_once

ROOT = Path(__file__).parents[2]


FEW = ("stack.md", "gas_treatment.md", "banks.md")
"""Guides enough for tests that build again and again."""


def copy_handbook(target: Path, plants: tuple[str, ...] = (), guides: tuple[str, ...] = ()) -> Path:
    """A copy of the handbook's sources that a test may spoil, with all plants and guides or only those named."""
    target.mkdir(parents=True, exist_ok=True)
    shutil.copy(ROOT / "mkdocs.yml", target)
    shutil.copytree(ROOT / "docs", target / "docs")
    for language in set(languages()) - {SOURCE}:
        shutil.rmtree(target / "docs" / language, ignore_errors=True)  # a copy with few pages has no sources for theirs
    for folder in (target / "docs/designs").iterdir():
        if plants and folder.name not in plants:
            shutil.rmtree(folder)
    for guide in (target / "docs/guides").iterdir():
        if guides and guide.name not in guides:
            guide.unlink()
    for guide in (target / "docs/guides").iterdir() if guides else ():
        text = guide.read_text(encoding="utf-8")
        guide.write_text(LINK.sub(lambda link: _led(link, guides), text), encoding="utf-8")
    return target


LINK = re.compile(r"\[([^\]]+)\]\((\w+\.md)\)")
GENERATED = ("workings.md", "drawing.md", "inputs.md")


def _led(link: re.Match[str], guides: tuple[str, ...]) -> str:
    """A link to a page that the copy has, or its text alone."""
    return link[0] if link[2] in (*guides, *GENERATED) else link[1]


@pytest.fixture
def handbook(tmp_path):
    return copy_handbook(tmp_path / "handbook", ("shed",), FEW)


@pytest.fixture(scope="session")
def site(shared, sources, pages_kept):
    """The handbook, built from pages that were finished without the site generator."""
    from macros.site.build import build_site

    def built(folder):
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("GASWRIGHT_CACHE", str(pages_kept))
            build_site(sources, folder)

    return made_once(shared / "site", built)


@pytest.fixture
def with_kept(monkeypatch, pages_kept):
    """For a build that need not work out again what stands on the handbook's pages."""
    monkeypatch.setenv("GASWRIGHT_CACHE", str(pages_kept))


@pytest.fixture(scope="session")
def plants(sources):
    """Its plants by name."""
    from macros.figures.plant import plants_in

    return {plant.name: plant for plant in plants_in(sources / "docs/designs", sources)}
