"""Build aside, verify, swap: an earlier site survives a build that fails."""

from __future__ import annotations

import contextlib
import gc
import logging
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from mkdocs.commands.build import build as generate
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException

from macros.quantities import Fault, Faults, store
from macros.quantities.languages import language, speaking
from macros.review.refusal import BINDING, Reason
from macros.site.configuration import configuration_faults, languages_of
from macros.site.content_policy import set_policies
from macros.site.plugin import HandbookPlugin
from macros.site.serve import QUIET
from macros.site.verify import faults_in

__all__ = ["Built", "build", "build_site"]


@dataclass(frozen=True)
class Built:
    """A site that was built, and the plants of it that are refused: their status and why."""

    folder: Path
    refused: Mapping[str, tuple[Reason, ...]]
    status: Mapping[str, str]

    @property
    def fails(self) -> bool:
        """Whether a refused plant is one that somebody builds by."""
        return any(self.status[name] in BINDING for name in self.refused)


class _Warnings(logging.Handler):
    """Keeps what the generator warned of, so that one report says everything."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.texts: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.texts.append(record.getMessage())


def build_site(handbook: Path, site: Path | None = None, *, only: str = "") -> Path:
    """The same as `build`, for whom only the folder of the site matters."""
    return build(handbook, site, only=only).folder


def build(handbook: Path, site: Path | None = None, *, only: str = "") -> Built:
    """
    Build the handbook of a folder that holds `mkdocs.yml`, in every language that it names.

    The edition in its own language stands at the root of the site, each other one in a folder called as its language.

    Parameters
    ----------
    handbook : Path
        The folder.
    site : Path, optional
        Where the site goes; `site/` in the folder without.
    only : str
        The one language in which to build it; then that edition stands at the root.

    Returns
    -------
    Built
        The folder of the site; a refused plant is in it, with its refusal across every page.

    Raises
    ------
    Faults
        Everything wrong; the site that stood before is then untouched and nothing is left behind.
    """
    site = (site or handbook / "site").absolute()
    site.parent.mkdir(parents=True, exist_ok=True)
    aside = Path(tempfile.mkdtemp(prefix=f".{site.name}-aside-", dir=site.parent))
    try:
        fresh = aside / "fresh"
        with _seldom_tidied():
            config = _editions(handbook, fresh, only)
        (fresh / "sitemap.xml.gz").unlink(missing_ok=True)  # it tells the time of day; the map itself stands beside it
        if faults := [*set_policies(fresh), *faults_in(fresh, base=_base(config))]:
            raise Faults(faults)
        if site.exists():
            site.replace(aside / "former")
        fresh.replace(site)
    except BaseException:
        if not site.exists() and (aside / "former").exists():
            (aside / "former").replace(site)
        raise
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    store.prune()
    plugin = config.plugins["gaswright"]
    assert isinstance(plugin, HandbookPlugin)
    return Built(site, plugin.refused(), plugin.status())


@contextlib.contextmanager
def _seldom_tidied() -> Iterator[None]:
    """What a build makes it needs to its end: looking through all of it for what may go takes a tenth of its time."""
    before = gc.get_threshold()
    gc.set_threshold(50_000, 20, 100)
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _editions(handbook: Path, target: Path, only: str) -> MkDocsConfig:
    """Every edition, each language's in its place; the configuration of the one at the root."""
    first, *further = (only,) if only else languages_of(handbook)
    with speaking(first):
        config = _generate(handbook, target, (first, *further))
    for code in further:
        with speaking(code):
            _generate(handbook, target / code, (first, *further))
        (target / code / "sitemap.xml.gz").unlink(missing_ok=True)
    return config


def _generate(handbook: Path, target: Path, beside: tuple[str, ...]) -> MkDocsConfig:
    """Run the generator strictly in the language spoken; its warnings are faults."""
    file = handbook / "mkdocs.yml"
    if faults := configuration_faults(handbook):
        raise Faults(faults)
    os.environ |= QUIET
    warnings = _Warnings()
    logger = logging.getLogger("mkdocs")
    logger.addHandler(warnings)
    try:
        config = load_config(str(file), site_dir=str(target), strict=True)
        plugin = config.plugins["gaswright"]
        assert isinstance(plugin, HandbookPlugin)
        plugin.beside = beside
        if language() != beside[0] and config.site_url:
            config.site_url = f"{config.site_url.rstrip('/')}/{language()}/"
        config.plugins.on_startup(command="build", dirty=False)
        try:
            generate(config)
        finally:
            config.plugins.on_shutdown()
    except (Abort, MkDocsException) as error:
        raise _as_faults(error, warnings, file) from error
    finally:
        logger.removeHandler(warnings)
    if warnings.texts:
        raise Faults([Fault(str(file), 0, "", text) for text in warnings.texts])
    return config


def _as_faults(error: BaseException, warnings: _Warnings, file: Path) -> Faults:
    cause: BaseException | None = error
    while cause is not None:
        if isinstance(cause, Faults):
            return cause
        cause = cause.__cause__ or cause.__context__
    texts = warnings.texts or [str(error)]
    return Faults([Fault(str(file), 0, "", text) for text in texts])


def _base(config: Any) -> str:
    return urlsplit(config.site_url or "").path or "/"
