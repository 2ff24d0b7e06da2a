"""The handbook built once for all tests of the site."""

import os
import re
import shutil
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


FEW = ("stack.md", "gas_treatment.md", "banks.md")
"""Guides enough for tests that build again and again."""


def copy_handbook(target: Path, plants: tuple[str, ...] = (), guides: tuple[str, ...] = ()) -> Path:
    """A copy of the handbook's sources that a test may spoil, with all plants and guides or only those named."""
    target.mkdir(parents=True, exist_ok=True)
    shutil.copy(ROOT / "mkdocs.yml", target)
    shutil.copytree(ROOT / "docs", target / "docs")
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


def made_once(folder: Path, make) -> Path:
    """A folder that the first process to ask makes; the others wait for it, so that a site is built once for all."""
    done, failed = (folder.with_name(f"{folder.name}.{word}") for word in ("done", "failed"))
    try:
        folder.with_name(f"{folder.name}.begun").touch(exist_ok=False)
    except FileExistsError:
        while not done.exists():
            if failed.exists():
                pytest.fail(f"{folder.name} was not made: {failed.read_text(encoding='utf-8')}")
            time.sleep(0.2)
        return folder
    try:
        make(folder)
    except BaseException as error:
        failed.write_text(str(error), encoding="utf-8")
        raise
    done.touch()
    return folder


@pytest.fixture(scope="session")
def shared(tmp_path_factory):
    """The folder of this run of the tests, whichever of its processes asks."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session")
def sources(shared):
    """The handbook's sources as they stood when the tests began; nobody spoils this copy."""
    return made_once(shared / "handbook", copy_handbook)


@pytest.fixture(scope="session")
def site(shared, sources):
    """The handbook, built."""
    from macros.site.build import build_site

    return made_once(shared / "site", lambda folder: build_site(sources, folder))


@pytest.fixture(scope="session")
def plants(sources):
    """Its plants by name."""
    from macros.figures.plant import plants_in

    return {plant.name: plant for plant in plants_in(sources / "docs/designs", sources)}
