"""
Tokens: how what an expression returns crosses Markdown.

HTML put into a page before Markdown gives heading ids that move with the numbers, splits table cells at `|` and lands
escaped in alt texts. So a page carries a token made wholly of private-use characters, which Markdown takes for letters
of no word and slugs of headings drop; afterwards each token is replaced by what the place where it landed can bear.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html import escape

from macros.quantities import Fault, say

__all__ = ["PRIVATE_USE", "Fragment", "Tokens", "note", "working_id"]

PRIVATE_USE = re.compile("[\ue000-\uf8ff\U000f0000-\U000ffffd\U00100000-\U0010fffd]")
"""Characters that have no meaning of their own. Sources that hold any are refused, so a token cannot be forged."""

START, END = "\ue100", "\ue101"
DIGITS = "\ue110\ue111\ue112\ue113\ue114\ue115\ue116\ue117\ue118\ue119"
NOTE_START, NOTE_END = "\ue102", "\ue103"

TOKEN = re.compile(f"{START}([{DIGITS}]+){END}")
NOTE = re.compile(f"{NOTE_START}([^{NOTE_START}{NOTE_END}]*){NOTE_END}")
TO_PLAIN = str.maketrans(DIGITS, "0123456789")
TO_PRIVATE = str.maketrans("0123456789", DIGITS)

PIECE = re.compile(
    r"""<!--.*?-->|<!\[CDATA\[.*?\]\]>|<[!?][^>]*>|</?[a-zA-Z](?:[^<>"']|"[^"]*"|'[^']*')*>""",
    re.DOTALL,
)
TAG = re.compile(r"<(/?)([a-zA-Z][a-zA-Z0-9:-]*)")
ATTRIBUTE = re.compile(r"""([a-zA-Z_:@][-a-zA-Z0-9_:.]*)\s*=\s*("[^"]*"|'[^']*'|[^\s"'>]+)""")
LEFT_OVER = re.compile(r"\{\{|\}\}|\{%|%\}|\{#")

WORKING, UNPRINTED = 'class="gw-working"', 'class="gw-working gw-unprinted"'
"""A working on a page, and one that its paper leaves out."""

VOID = frozenset(
    ["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr"]
)
CODE = frozenset(["code", "pre", "script", "style", "textarea"])
QUIET = frozenset(["a", "button", "h1", "h2", "h3", "h4", "h5", "h6", "label", "option", "summary", "title"])
"""Elements in which nothing can be pressed: a number there is text with its name, without a working."""
FLOW = frozenset(
    [
        "article",
        "aside",
        "blockquote",
        "body",
        "dd",
        "details",
        "div",
        "fieldset",
        "figcaption",
        "figure",
        "footer",
        "header",
        "li",
        "main",
        "nav",
        "section",
        "td",
        "th",
    ]
)
"""Elements that may hold a table or a drawing."""
READ = frozenset(["alt", "title", "aria-label", "aria-description", "content", "placeholder", "summary"])
"""Attributes that somebody reads; in any other a number is a mistake."""


@dataclass(frozen=True)
class Fragment:
    """
    What an expression returns: one thing said for several places.

    Attributes
    ----------
    plain : str
        Unescaped text: titles, navigation, alt texts, search.
    rich : str
        HTML of running text; empty where the plain text says it all.
    marked : str
        HTML for headings, links and summaries.
    block : bool
        Whether `rich` is a table, drawing or the like, which stands in a paragraph of its own.
    workings : mapping
        HTML of each working by its key; `rich` refers to them by `note(key)` and `working_id(key)`.
    printed : bool
        Whether paper carries those workings: a form to write on would grow to many sheets by them.
    """

    plain: str
    rich: str = ""
    marked: str = ""
    block: bool = False
    workings: Mapping[str, str] = field(default_factory=dict)
    printed: bool = True


@dataclass(frozen=True)
class _Placed:
    fragment: Fragment
    line: int
    text: str


def note(key: str) -> str:
    """Stands, in HTML of a fragment, for the number that the working gets on the page."""
    return f"{NOTE_START}{key}{NOTE_END}"


def working_id(key: str) -> str:
    """The id of a working on the page that uses it."""
    return "working-" + key.replace(".", "-")


class Tokens:
    """
    The tokens of one page.

    Parameters
    ----------
    file : str
        The page's source, for faults.
    """

    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[Fault] = []
        self._placed: list[_Placed] = []
        self._seen: set[int] = set()

    def add(self, fragment: Fragment, line: int = 0, text: str = "") -> str:
        """The token that stands for a fragment, written at a line as `text`."""
        self._placed.append(_Placed(fragment, line, text))
        return START + str(len(self._placed) - 1).translate(TO_PRIVATE) + END

    def words(self, text: str) -> str:
        """The token of a text that is data, so that nothing in it acts as Markdown."""
        return self.add(Fragment(plain=text, rich=escape(text), marked=escape(text)))

    def plain(self, text: str) -> str:
        """A text with each token as plain text, not escaped."""
        return TOKEN.sub(lambda found: self._of(found).fragment.plain, text)

    def escaped(self, html: str) -> str:
        """A piece of HTML without tags, such as an entry of the table of contents, with each token as escaped text."""
        return TOKEN.sub(lambda found: escape(self._of(found).fragment.plain), html)

    def replace(self, html: str) -> str:
        """
        The HTML of the page with each token as its place can bear, and the workings that it uses at the end.

        Tokens in places that can bear none, and braces that Markdown shows though we took them for code, are added to
        `faults`.
        """
        replaced = "".join(_Walk(self, html).pieces())
        for number, placed in enumerate(self._placed):
            if number not in self._seen:
                self._fault(placed, say("pages.token_lost", found=placed.text))
        # Markdown's own slips may tear a token apart; it counts as dropped, and its pieces are not shown.
        return PRIVATE_USE.sub("", self._numbered(replaced))

    def _of(self, found: re.Match[str]) -> _Placed:
        number = int(found[1].translate(TO_PLAIN))
        self._seen.add(number)
        return self._placed[number]

    def _fault(self, placed: _Placed, message: str) -> None:
        self.faults.append(Fault(self.file, placed.line, "", message))

    def _numbered(self, html: str) -> str:
        """Number the workings in the order in which the page refers to them, those for the screen alone last; append all."""
        workings: dict[str, str] = {}
        printed: set[str] = set()
        for placed in self._placed:
            workings.update(placed.fragment.workings)
            printed.update(placed.fragment.workings if placed.fragment.printed else ())
        # Workings refer to none but themselves, so the order is complete by now.
        order = dict.fromkeys(NOTE.findall(html))
        if not order:
            return html
        keys = sorted(order, key=lambda key: key not in printed)
        numbers = {key: str(number) for number, key in enumerate(keys, 1)}

        def number(found: re.Match[str]) -> str:
            return numbers[found[1]]

        told = [workings[key] if key in printed else workings[key].replace(WORKING, UNPRINTED, 1) for key in keys]
        title = escape(say("pages.workings"))
        elsewhere = (
            f'<p class="gw-on-paper">{escape(say("pages.workings_elsewhere"))}</p>\n' if set(keys) - printed else ""
        )
        used = "\n".join(NOTE.sub(number, one) for one in told)
        return (
            f'{NOTE.sub(number, html)}\n<section class="gw-workings" data-search-exclude aria-label="{title}">\n'
            f'<h2 class="gw-workings-title">{title}</h2>\n{elsewhere}{used}\n</section>\n'
        )


class _Walk:
    """One pass over the HTML of a page, which knows what is open around each token."""

    def __init__(self, tokens: Tokens, html: str) -> None:
        self.tokens = tokens
        self.open: list[str] = []
        self.parts = list(_parts(html))

    def pieces(self) -> Iterator[str]:
        position = 0
        while position < len(self.parts):
            is_tag, part = self.parts[position]
            blocks = self._blocks_alone(position)
            if blocks:
                yield blocks
                position += 3
                continue
            yield self._tag(part) if is_tag else self._text(part)
            position += 1

    def _blocks_alone(self, position: int) -> str:
        """What replaces a paragraph of nothing but block tokens; empty where this is none."""
        if position + 2 >= len(self.parts):
            return ""
        (_, opening), (inside_is_tag, inside), (_, closing) = self.parts[position : position + 3]
        if inside_is_tag or closing != "</p>" or not re.match(r"<p[\s>]", opening):
            return ""
        if not TOKEN.search(inside) or TOKEN.sub("", inside).strip():
            return ""
        placed = [self.tokens._of(found) for found in TOKEN.finditer(inside)]
        if not all(one.fragment.block for one in placed):
            return ""
        return "\n".join(one.fragment.rich for one in placed)

    def _tag(self, tag: str) -> str:
        found = TAG.match(tag)
        if found is None:
            return self.tokens.plain(tag)
        name = found[2].lower()
        if TOKEN.search(tag):
            tag = self._attributes(tag)
        if found[1]:
            if name in self.open:
                while self.open.pop() != name:
                    pass
        elif name not in VOID and not tag.endswith("/>"):
            self.open.append(name)
        return tag

    def _attributes(self, tag: str) -> str:
        def attribute(found: re.Match[str]) -> str:
            if found[1].lower() not in READ:
                for token in TOKEN.finditer(found[0]):
                    placed = self.tokens._of(token)
                    message = say("pages.token_in_attribute", found=placed.text, attribute=found[1])
                    self.tokens._fault(placed, message)
            return found[0]

        return self.tokens.escaped(ATTRIBUTE.sub(attribute, tag))

    def _text(self, text: str) -> str:
        inside_code = any(name in CODE for name in self.open)
        if not inside_code and (left := LEFT_OVER.search(text)):
            excerpt = " ".join(text[max(0, left.start() - 20) : left.end() + 30].split())
            message = say("pages.left_over", found=self.tokens.plain(excerpt))
            self.tokens.faults.append(Fault(self.tokens.file, 0, "", message))
        return TOKEN.sub(lambda found: self._inserted(self.tokens._of(found), inside_code), text)

    def _inserted(self, placed: _Placed, inside_code: bool) -> str:
        fragment = placed.fragment
        plain = escape(fragment.plain)
        if inside_code:
            self.tokens._fault(placed, say("pages.token_in_code", found=placed.text))
            return plain
        quiet = any(name in QUIET for name in self.open)
        if fragment.block:
            if quiet or (self.open and self.open[-1] not in FLOW):
                self.tokens._fault(placed, say("pages.block_in_text", found=placed.text))
                return plain
            return fragment.rich
        if quiet:
            return fragment.marked or plain
        return fragment.rich or plain


def _parts(html: str) -> Iterator[tuple[bool, str]]:
    """Text and tags in turn; the parts joined are the HTML again."""
    position = 0
    for found in PIECE.finditer(html):
        if found.start() > position:
            yield False, html[position : found.start()]
        yield True, found[0]
        position = found.end()
    if position < len(html):
        yield False, html[position:]
