"""The handbook built once for all tests of the site."""

import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def copy_handbook(target: Path, plants: tuple[str, ...] = ()) -> Path:
    """A copy of the handbook's sources that a test may spoil, with all plants or only those named."""
    target.mkdir(parents=True, exist_ok=True)
    shutil.copy(ROOT / "mkdocs.yml", target)
    shutil.copytree(ROOT / "docs", target / "docs")
    for folder in (target / "docs/designs").iterdir():
        if plants and folder.name not in plants:
            shutil.rmtree(folder)
    return target


@pytest.fixture
def handbook(tmp_path):
    return copy_handbook(tmp_path / "handbook", ("shed",))


@pytest.fixture(scope="session")
def sources(tmp_path_factory):
    """The handbook's sources as they stood when the tests began; nobody spoils this copy."""
    return copy_handbook(tmp_path_factory.mktemp("sources") / "handbook")


@pytest.fixture(scope="session")
def site(sources):
    """The handbook, built."""
    from macros.site.build import build_site

    return build_site(sources)


@pytest.fixture(scope="session")
def plants(sources):
    """Its plants by name."""
    from macros.figures.plant import plants_in

    return {plant.name: plant for plant in plants_in(sources / "docs/designs", sources)}
