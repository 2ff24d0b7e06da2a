"""
What a page may say in Markdown: words, lists, tables, pictures, links and cautions, and nothing that acts.

Refused are HTML and everything through which it could come in: attributes, links that run or lead to another host
unseen, inclusion of files, characters that show nothing or something else, cautions that a reader would not see, and
more than a page of a handbook needs. Code and expressions are blanked out before; where readers of Markdown might
differ on what is code, it counts as text. What Markdown then makes of the page is looked at again: `plain_html`.
"""

from __future__ import annotations

import html
import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from typing import Final

from macros.description.strict_yaml import bad_character
from macros.pages.code_regions import CodeRegions
from macros.quantities import Fault, say

__all__ = [
    "ADMONITIONS",
    "LANGUAGES",
    "LONGEST_LINE",
    "MOST_BRACKETS",
    "MOST_DEEP",
    "MOST_LINES",
    "SCHEMES",
    "markup_faults",
    "only_prose",
    "scheme_of",
    "wrong_target",
]

FILLER: Final = "\u2063"
"""Stands for code and expressions, so that places stay where they are and no mark meets another over a gap."""

ADMONITIONS: Final = ("note", "tip", "warning", "danger")
CAUTIONS: Final = ("warning", "danger")
SCHEMES: Final = ("https", "http", "mailto")
LANGUAGES: Final = ("text", "yaml", "json", "toml", "csv", "python", "sh", "bash", "console", "markdown")
"""What a fence may say it holds; a reader for each of hundreds of languages is more than a handbook can vouch for."""

LONGEST_LINE: Final = 2000
MOST_LINES: Final = 3000
MOST_BRACKETS: Final = 300
"""Square brackets in a paragraph, list or table; Markdown's search for their partners takes the square of their number."""
MOST_DEEP: Final = 8
"""Quotations and lists within each other."""

_OPENS: Final = re.compile(r"<(?=[a-zA-Z/!?])")
_COMMENT: Final = re.compile(r"<!--(?!-?>)((?:(?!--)[^<>])*)-->")
_POINTED: Final = re.compile(r"<(https?://[^<>\s]*|[A-Za-z0-9._+-]+@[A-Za-z0-9.-]+)>")
_ENTITY: Final = re.compile(r"&(?:#[xX]?[0-9a-fA-F]+|[a-zA-Z][a-zA-Z0-9]*);?")
_LINK: Final = re.compile(r"\]\(\s*(<[^<>]*>|[^\s<()]*)")
_DEFINED: Final = re.compile(r"\]:[ \t]*\n?[ \t>]*(\S+)")
_PICTURE: Final = re.compile(r"!\[[^\]\n]{0,400}\]\(\s*<?([^\s<>()]*)")
_BRACES: Final = re.compile(r"\{([^{}\n]*)\}")
_ATTRIBUTES: Final = re.compile(r"\s*[:.#]|[^=]*=")
_IDENTITY: Final = re.compile(r":?[ ]*#([a-z][a-z0-9-]*)[ ]*")
_KEPT_IDS: Final = re.compile(r"(?:working|w|i|gw|fn|fnref)[-:]")
_ADMONITION: Final = re.compile(
    r"^[ \t>]*!!![ ]?(?P<kinds>[^\"\n]*?)[ ]*(?:\"(?P<title>[^\"\n]*)\"[ ]*)?$", re.MULTILINE
)
_COLLAPSED: Final = re.compile(r"^[ \t>]*\?\?\?\+?[ ]", re.MULTILINE)
_SNIPPET: Final = re.compile(r"-+8<-+|\{!")
_DEEP: Final = re.compile(r"[ \t]*(?:(?:>|[*+:-](?=[ \t])|[0-9]{1,9}[.)](?=[ \t]))[ \t]*)+")
_MARK: Final = re.compile(r">|[*+:-](?=[ \t])|[0-9]+[.)]")
_FENCE: Final = re.compile(r"(?:`{3,}|~{3,})[ \t]*\{?[ \t]*\.?([\w#.+-]+)")
_PLAIN: Final = re.compile(r"[ -~\n]*")


def only_prose(text: str, code: CodeRegions, expressions: Iterable[tuple[int, int]]) -> str:
    """
    A page's text with code and expressions blanked out, place by place.

    Parameters
    ----------
    text : str
        Markdown without front matter.
    code : CodeRegions
    expressions : iterable of (int, int)
        Where each expression or tag begins and ends.
    """
    kept = list(text)
    readings = (set(code.line_spans), set(code.strict_spans))
    sure = [one for one in code.spans if all(one in reading for reading in readings) and not _meets(code.unsure, one)]
    for start, end in [*code.fences, *sure, *expressions]:
        for place in range(start, min(end, len(kept))):
            if kept[place] != "\n":
                kept[place] = FILLER
    return "".join(kept)


def _meets(ranges: list[tuple[int, int]], one: tuple[int, int]) -> bool:
    return any(start < one[1] and one[0] < end for start, end in ranges)


def markup_faults(text: str, prose: str, code: CodeRegions, file: str, first_line: int) -> list[Fault]:
    """
    What may not stand in the Markdown of a page, each with its line.

    Parameters
    ----------
    text : str
        Markdown without front matter.
    prose : str
        The same without code and expressions, from `only_prose`.
    code : CodeRegions
    file : str
        Its name in faults.
    first_line : int
        The line of the file at which the text begins.
    """
    starts = [0, *(found.end() for found in re.finditer("\n", text))]
    faults = [
        Fault(file, first_line + bisect_right(starts, offset) - 1, "", message)
        for offset, message in _wrong(text, prose, code, starts)
    ]
    return sorted(set(faults))


def _wrong(text: str, prose: str, code: CodeRegions, starts: list[int]) -> Iterator[tuple[int, str]]:
    yield from _too_much(prose, starts)
    yield from _characters(text, starts)
    yield from _tags(prose)
    yield from _entities(prose)
    yield from _targets(prose)
    yield from _attributes(prose)
    yield from _cautions(prose)
    for found in _SNIPPET.finditer(prose):
        yield found.start(), say("pages.markup.snippet", found=found[0].strip())
    for start, _ in code.fences:
        named = _FENCE.search(text, start, text.find("\n", start) if "\n" in text[start:] else len(text))
        if named is not None and named[1].lower() not in LANGUAGES:
            yield start, say("pages.markup.language", found=named[1], known=", ".join(LANGUAGES))


def _too_much(prose: str, starts: list[int]) -> Iterator[tuple[int, str]]:
    """More than Markdown reads in a moment."""
    if len(starts) > MOST_LINES:
        yield starts[MOST_LINES], say("pages.markup.too_many_lines", most=MOST_LINES)
    brackets = 0
    for number, start in enumerate(starts):
        line = prose[start : starts[number + 1] - 1 if number + 1 < len(starts) else len(prose)]
        if len(line) > LONGEST_LINE:
            yield start, say("pages.markup.line_too_long", most=LONGEST_LINE)
        deep = _DEEP.match(line)
        if deep is not None and len(_MARK.findall(deep[0])) > MOST_DEEP:
            yield start, say("pages.markup.too_deep", most=MOST_DEEP)
        if len(line) - len(line.lstrip(" \t")) > 4 * MOST_DEEP and line.strip(" \t" + FILLER):
            yield start, say("pages.markup.too_deep", most=MOST_DEEP)
        brackets = brackets + line.count("[") if line.strip() else 0
        if brackets > MOST_BRACKETS:
            yield start, say("pages.markup.too_many_brackets", most=MOST_BRACKETS)
            brackets = 0


def _characters(text: str, starts: list[int]) -> Iterator[tuple[int, str]]:
    """The first character of each line that shows nothing or something else; code is read by people too."""
    if _PLAIN.fullmatch(text):
        return
    for number, line in enumerate(text.split("\n")):
        if not line.isascii() and (wrong := bad_character(line.replace("\t", " "))) is not None:
            yield starts[number], wrong


def _tags(prose: str) -> Iterator[tuple[int, str]]:
    position = 0
    while found := _OPENS.search(prose, position):
        start = position = found.start()
        position += 1
        comment = _COMMENT.match(prose, start)
        if comment is not None:
            if "!!!" in comment[1]:
                yield start, say("pages.markup.hidden_caution")
            position = comment.end()
        elif (pointed := _POINTED.match(prose, start)) is not None:
            position = pointed.end()
        else:
            shown = prose[start : start + 40].split("\n")[0].replace(FILLER, "")
            yield start, say("pages.markup.raw_html", found=shown)


def _entities(prose: str) -> Iterator[tuple[int, str]]:
    """Characters by their number or name, which would slip past the eye that reads the source."""
    for found in _ENTITY.finditer(prose):
        meant = html.unescape(found[0])
        if meant != found[0] and bad_character(meant) is not None:
            yield found.start(), say("pages.markup.entity", found=found[0])


def scheme_of(target: str) -> str:
    """The scheme of a link as a browser reads it, "//" where it leads to another host without one; empty for neither."""
    meant = re.sub(r"[\x00-\x20\x7f-\xa0\u200b-\u200f\u2028\u2029\ufeff]", "", html.unescape(html.unescape(target)))
    meant = meant.replace("\\", "/")
    if meant.startswith("//"):
        return "//"
    found = re.match(r"([^/?#:]*):", meant)
    return found[1].lower() if found is not None else ""


def wrong_target(target: str, *, picture: bool = False) -> str | None:
    """Why a link may not lead there; none where it may."""
    target = target.strip().strip("<>")
    scheme = scheme_of(target)
    if scheme == "//":
        return say("pages.markup.other_host", found=target[:80])
    if scheme and scheme not in SCHEMES:
        return say("pages.markup.scheme", found=target[:80], known=", ".join(SCHEMES))
    if picture and scheme:
        return say("pages.markup.foreign_picture", found=target[:80])
    if not scheme and (target.startswith(("/", "\\")) or "\\" in target):
        return say("pages.markup.absolute", found=target[:80])
    return None


def _targets(prose: str) -> Iterator[tuple[int, str]]:
    pictures = {found.start(1) for found in _PICTURE.finditer(prose)}
    for pattern in (_LINK, _DEFINED):
        for found in pattern.finditer(prose):
            place = found.start(1) + found[1].startswith("<")
            wrong = wrong_target(found[1], picture=place in pictures)
            if wrong is not None:
                yield found.start(1), wrong


def _attributes(prose: str) -> Iterator[tuple[int, str]]:
    for found in _BRACES.finditer(prose):
        if _ATTRIBUTES.match(found[1]) is None:
            continue
        identity = _IDENTITY.fullmatch(found[1])
        if identity is None or _KEPT_IDS.match(identity[1]):
            yield found.start(), say("pages.markup.attributes", found=found[0][:80].replace(FILLER, ""))


def _cautions(prose: str) -> Iterator[tuple[int, str]]:
    """Boxes of a kind that the handbook has, which nobody can fold away, and cautions that say what of."""
    for found in _ADMONITION.finditer(prose):
        kinds, title = found["kinds"].strip(), found["title"]
        if kinds not in ADMONITIONS:
            yield found.start("kinds"), say("pages.markup.admonition", found=kinds, known=", ".join(ADMONITIONS))
        elif kinds in CAUTIONS and title is not None and not title.strip():
            yield found.start("kinds"), say("pages.markup.silent_caution", found=kinds)
    for found in _COLLAPSED.finditer(prose):
        yield found.end() - 1, say("pages.markup.folded_caution")
