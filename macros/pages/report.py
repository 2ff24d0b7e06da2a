"""Tell us: the text that says exactly which page a reader saw, to copy into a report."""

from __future__ import annotations

import functools
import importlib.metadata
from html import escape

from macros.figures.plant import Plant, code_digest
from macros.quantities import say

__all__ = ["report_html"]


def report_html(plant: Plant | None, address: str, title: str) -> str:
    """
    The folded text at the end of a page.

    Parameters
    ----------
    plant : Plant or None
    address : str
        Where the page stands in the site: no host, which may be a stick or a server that nobody else reaches.
    title : str
    """
    told = say("pages.report.page", title=title, address=address)
    if plant is None:
        edition = say("pages.report.handbook", digest=code_digest().hex()[:12])
    else:
        edition = say("pages.report.plant", title=plant.title, name=plant.name, digest=plant.digest)
    text = "\n".join([told, edition, say("pages.report.version", version=_version())])
    # The script puts a figure's name, title and value in.
    figure = say("pages.report.figure", name="{name}", title="{title}", value="{value}")
    words = {"of-figure": figure} | {key: say(f"pages.report.{key}") for key in ("copy", "copied")}
    data = "".join(f' data-{key}="{escape(word)}"' for key, word in words.items())
    return (
        f'<details class="gw-report"{data} data-by-hand="{escape(say("pages.report.by_hand"))}">'
        f"<summary>{escape(say('pages.report.summary'))}</summary>"
        f"<p>{escape(say('pages.report.purpose'))}</p>"
        f'<textarea class="gw-copy-text" readonly rows="4" aria-label="{escape(say("pages.report.text"))}">'
        f"{escape(text)}</textarea></details>"
    )


@functools.cache
def _version() -> str:
    return importlib.metadata.version("gaswright")
