"""For all tests: the same drawn examples in every run, and one real browser to look at pages and drawings."""

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import settings

from tests.once import GENERATOR, ROOT, WITHOUT_GENERATOR, made_once

# The day of all tests: what falls due on it and what is printed of it stay the same for ever.
os.environ["SOURCE_DATE_EPOCH"] = "1795608000"

if "PYTEST_XDIST_WORKER" not in os.environ:
    # What the tests work out is kept for this run alone, and shared by all its processes.
    os.environ["GASWRIGHT_CACHE"] = tempfile.mkdtemp(prefix="gaswright-tests-")

settings.register_profile("fixed", derandomize=True, deadline=None)
settings.load_profile("fixed")

CHROMIUM = next((path for path in map(shutil.which, ("chromium", "chromium-browser", "google-chrome")) if path), None)
QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync", "--hide-scrollbars"]  # fmt: skip


def pytest_sessionfinish():
    if "PYTEST_XDIST_WORKER" not in os.environ:
        shutil.rmtree(Path(os.environ["GASWRIGHT_CACHE"]), ignore_errors=True)


def pytest_collection_modifyitems(items):
    """Tests of the built site come first: one process builds it while the others do what needs no site."""
    items.sort(key=lambda item: item.path.parent.name != "site")


@pytest.fixture(scope="session")
def browser():
    if CHROMIUM is None:
        if os.environ.get("CI"):
            pytest.fail("no Chromium, though CI must have one")
        pytest.skip("no Chromium on this machine; CI has one")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        chromium = driver.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def shared(tmp_path_factory):
    """The folder of this run of the tests, whichever of its processes asks."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if "PYTEST_XDIST_WORKER" in os.environ else own


@pytest.fixture(scope="session")
def sources(shared):
    """The handbook's sources as they stood when the tests began; nobody spoils this copy."""

    def copied(folder):
        folder.mkdir()
        shutil.copy(ROOT / "mkdocs.yml", folder)
        shutil.copytree(ROOT / "docs", folder / "docs")

    return made_once(shared / "handbook", copied)


@pytest.fixture(scope="session")
def pages_kept(shared, sources):
    """What is kept of every page of the handbook, finished by a process that has no site generator."""

    def finished(folder):
        code = WITHOUT_GENERATOR.format(blocked=GENERATOR, docs=str(sources / "docs"))
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "GASWRIGHT_CACHE": str(folder)}
        run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, env=environment)
        assert run.returncode == 0, run.stderr
        assert int(run.stdout) > 300, "pages of three plants"

    return made_once(shared / "kept", finished)
