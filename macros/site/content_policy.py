"""
The content policy of a site: each page says, in its head, that a browser runs and loads what the site ships, nothing else.

It stands in the page and not in a header of the server, so that it holds from a USB stick too. What stands inline is
allowed by its hash, taken after the build, since only then is it known; what a stranger might bring in later has none.
"""

from __future__ import annotations

import base64
import hashlib
import html
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Final

from macros.quantities import Fault, say

__all__ = ["policy_of", "set_policies"]

_BLOCKS: Final = {f"<{tag}": re.compile(rf"<({tag})\b([^>]*)>(.*?)</{tag}>", re.DOTALL) for tag in ("script", "style")}
_STYLE: Final = {'style="': re.compile(r'style="([^"]*)"')}
_RUNS: Final = {"on": re.compile(r"on[a-z]+\s*=")}
"""Patterns by the letters with which they begin, for which a page of megabytes is gone through in no time."""
_DATA: Final = re.compile(r"""\btype\s*=\s*["']?application/(?:ld\+)?json""")
_HEAD: Final = re.compile(r"""<head>\s*(?:<meta charset=["']?utf-8["']?\s*/?>)?""", re.IGNORECASE)
_DATA_URL: Final = re.compile(r"""url\(\s*["']?data:(image|font|application/(?:x-)?font)""")


def policy_of(page: str, *, data_pictures: bool = False, data_fonts: bool = False) -> str:
    """
    The policy that a page needs, and no more.

    Parameters
    ----------
    page : str
        HTML.
    data_pictures, data_fonts : bool
        Whether style sheets of the site hold pictures or fonts within themselves.
    """
    scripts, styles = [], []
    for found in _blocks(page):
        tag, named, inside = found.groups()
        if tag == "style":
            styles.append(_hash(inside))
        elif "src=" not in named and not _DATA.search(named):
            scripts.append(_hash(inside))
    attributes = [_hash(html.unescape(found[1])) for found in _attributes(_STYLE, page)]
    if attributes:
        styles += ["'unsafe-hashes'", *attributes]
    embedded = " data:" if data_pictures else ""
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src {_sources(scripts)}",
            f"style-src {_sources(styles)}",
            f"img-src 'self'{embedded}",
            f"font-src 'self'{' data:' if data_fonts else ''}",
            "connect-src 'self'",
            "worker-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )


def set_policies(site: Path) -> Iterator[Fault]:
    """
    Write its policy into each page of a built site.

    Yields
    ------
    Fault
        A page with an attribute that would run: no hash is given for those.
    """
    sheets = "".join(path.read_text("utf-8") for path in sorted(site.rglob("*.css")))
    held = {found[1] for found in _DATA_URL.finditer(sheets)}
    for path in sorted(site.rglob("*.html")):
        page = path.read_text("utf-8")
        name = path.relative_to(site).as_posix()
        for found in _attributes(_RUNS, page):
            line = page.count("\n", 0, found.start()) + 1
            yield Fault(name, line, "", say("site.runs_inline", found=found[0].rstrip("= ")))
        head = _HEAD.search(page)
        if head is None:
            yield Fault(name, 1, "", say("site.no_head"))
            continue
        policy = policy_of(page, data_pictures="image" in held, data_fonts=bool(held - {"image"}))
        meta = f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        path.write_text(page[: head.end()] + meta + page[head.end() :], encoding="utf-8", newline="")


def _blocks(page: str) -> list[re.Match[str]]:
    """The scripts and styles of a page in its order; what looks like one within another is none."""
    blocks: list[re.Match[str]] = []
    for found in sorted(_found(_BLOCKS, page), key=lambda each: each.start()):
        if not blocks or found.start() >= blocks[-1].end():
            blocks.append(found)
    return blocks


def _found(kinds: Mapping[str, re.Pattern[str]], page: str) -> Iterator[re.Match[str]]:
    """What patterns find, each looked for by the letters with which it begins."""
    for begins, pattern in kinds.items():
        start = page.find(begins)
        while start >= 0:
            found = pattern.match(page, start)
            if found is not None:
                yield found
            start = page.find(begins, found.end() if found is not None else start + len(begins))


def _attributes(kind: Mapping[str, re.Pattern[str]], page: str) -> Iterator[re.Match[str]]:
    """Attributes of tags, not what looks like one in a text, a script or a style."""
    blocks = None
    for found in _found(kind, page):
        start = found.start()
        if page[start - 1].isspace() and _within_tag(page, start):
            blocks = _blocks(page) if blocks is None else blocks
            if not any(block.start() <= start < block.end() for block in blocks):
                yield found


def _within_tag(page: str, place: int) -> bool:
    return page.rfind("<", 0, place) > page.rfind(">", 0, place)


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _sources(hashes: Iterable[str]) -> str:
    return " ".join(("'self'", *dict.fromkeys(hashes)))
