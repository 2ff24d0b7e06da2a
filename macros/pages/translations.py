"""
Translations of the pages that authors write: `docs/<language>/` holds the same paths as `docs/`.

A translation says in its front matter of which state of its source it is: `source_digest`, the first digits of a hash
of the source file. Where the source has changed since, the page says so; where there is no translation, the page is that
of the source, and says that.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path
from typing import Final, Literal

from macros.pages.context import html_address
from macros.pages.finishing import WORKINGS
from macros.pages.front_matter import FrontMatter, digest_in
from macros.quantities import Fault, say
from macros.quantities.languages import called, language, languages

__all__ = [
    "DIGITS", "STATES", "Standing", "Translated", "differing", "digest_of", "folders", "is_careful", "marked", "standings",
    "strangers",
]  # fmt: skip

DIGITS: Final = 12
"""Hexadecimal digits of a digest: enough to know a file by, few enough to type."""

State = Literal["current", "older", "missing"]
STATES: Final[tuple[State, ...]] = ("current", "older", "missing")

_CAREFUL: Final = re.compile(r"^[ \t]*!!![ \t]*(?:danger|warning|caution)\b|\bdevice_form\(", re.MULTILINE)
"""What makes a page one by which somebody may be hurt if it says what no longer holds: a caution, or a safety device."""

_OF_SOURCE: Final = ("group", "order", "needs")
"""Keys of front matter that a source decides for its translations."""


@dataclass(frozen=True)
class Translated:
    """
    What a page that is no translation of its source as it stands must say of itself.

    Attributes
    ----------
    state : {"older", "missing"}
    source_language : str
        The language in which the handbook is written.
    careful : bool
        Whether the source warns of something.
    linked : bool
        Whether the edition in the language of the source is published one folder above.
    """

    state: State
    source_language: str
    careful: bool = False
    linked: bool = False


@dataclass(frozen=True)
class Standing:
    """How a translation stands to its source: both files as messages show them, and the digest of the source today."""

    source: str
    file: str
    state: State
    digest: str
    written: str = ""
    """The digest that the translation names."""

    def data(self) -> dict[str, str]:
        """Ready for JSON."""
        return {
            "source": self.source, "file": self.file, "state": self.state, "digest": self.digest, "written": self.written,
        }  # fmt: skip


def digest_of(content: bytes) -> str:
    """The digest of a source file, the same whichever ends its lines have."""
    return hashlib.sha256(content.replace(b"\r\n", b"\n").replace(b"\r", b"\n")).hexdigest()[:DIGITS]


def folders(written_in: str) -> tuple[str, ...]:
    """The folders of `docs/` that hold translations: the codes of all languages but that of the handbook."""
    return tuple(code for code in languages() if code != written_in)


def sources(docs: Path, written_in: str) -> Iterator[Path]:
    """The pages that authors write, relative to the folder of documents."""
    apart = ("designs", *folders(written_in))
    for path in sorted(docs.rglob("*.md")):
        inside = path.relative_to(docs)
        if inside.parts[0] not in apart:
            yield inside


def standings(docs: Path, code: str, written_in: str) -> list[Standing]:
    """
    How every page of a handbook stands in a language.

    Parameters
    ----------
    docs : Path
        The folder of documents.
    code, written_in : str
        The language asked for, and that of the handbook.
    """
    found: list[Standing] = []
    for inside in sources(docs, written_in):
        digest = digest_of((docs / inside).read_bytes())
        file = docs / code / inside
        written = digest_in(file.read_bytes()) if file.is_file() else ""
        state: State = "missing" if not file.is_file() else "current" if written == digest else "older"
        place = inside.as_posix()
        found.append(Standing(f"{docs.name}/{place}", f"{docs.name}/{code}/{place}", state, digest, written))
    return found


def strangers(docs: Path, written_in: str) -> Iterator[Fault]:
    """Translations of pages that the handbook does not have."""
    held = set(sources(docs, written_in))
    for code in folders(written_in):
        for path in sorted((docs / code).rglob("*.md")):
            if path.relative_to(docs / code) not in held:
                yield Fault(
                    f"{docs.name}/{path.relative_to(docs).as_posix()}", 0, "", say("pages.translation.no_source")
                )


def differing(source: FrontMatter, translated: FrontMatter, file: str) -> Iterator[Fault]:
    """Where front matter of a translation says what its source decides, and says it otherwise."""
    for key in _OF_SOURCE:
        if key in translated.lines and getattr(translated, key) != getattr(source, key):
            yield Fault(file, translated.lines[key], key, say("pages.translation.of_source"))


def is_careful(source: bytes) -> bool:
    """Whether a page warns of something."""
    return _CAREFUL.search(source.decode("utf-8", errors="replace")) is not None


def link_to_source(address: str) -> str:
    """From a page of a translated edition to the same page of the handbook's own, one folder above."""
    return "../" * (address.count("/") + 1) + html_address(address)


def marked(content: str, page: Translated, address: str) -> str:
    """
    A finished page under the note that says how it stands to its source; what is said in another language is marked.

    Parameters
    ----------
    content : str
        HTML.
    page : Translated
    address : str
        Of the page within its edition.
    """
    source = called(page.source_language)
    key = f"pages.translation.{page.state}{'_careful' if page.careful and page.state == 'older' else ''}"
    told = escape(say(key, language=source))
    if page.linked and page.state == "older":
        word, link = escape(say("pages.translation.read_source", language=source)), link_to_source(address)
        told += f' <a href="{escape(link)}" hreflang="{page.source_language}">{word}</a>'
    level = "danger" if page.careful and page.state == "older" else "note"
    title = escape(say(f"pages.translation.title_{page.state}"))
    note = (
        f'<aside class="gw-translation gw-translation-{level}" data-translation="{page.state}">'
        f"<p><strong>{title}</strong> {told}</p></aside>\n"
    )
    if page.state != "missing":
        return note + content
    # Workings and banners are said by our code, in the language of the edition.
    text, workings, rest = content.partition(WORKINGS)
    text = re.sub(r'(class="gw-banner[ "])', rf'lang="{language()}" \1', text)
    return f'{note}<div class="gw-untranslated" lang="{page.source_language}">{text}</div>\n{workings}{rest}'
