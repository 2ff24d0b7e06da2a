"""
What Markdown may make of a page: the second look, at the HTML itself, before numbers are put in.

`markup` reads the source as an author writes it and tells lines. Whatever it and Markdown might read differently shows
here: an element, an attribute or a link that no page needs is a fault, however it came in.
"""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator
from typing import Final

from macros.pages.markup import ADMONITIONS, wrong_target
from macros.quantities import say

__all__ = ["strange_html"]

_TAG: Final = re.compile(r"""<(/?)([a-zA-Z][^\s/>]*)((?>[^>"']+|"[^"]*"|'[^']*')*+)>""")
_ATTRIBUTE: Final = re.compile(r"""([^\s=>"'/]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>"']+)))?""")
_COMMENT: Final = re.compile(r"<!--(?!-?>)(?:(?!--)[^<>])*-->")
_OPENS: Final = re.compile(r"<(?=[a-zA-Z/!?])")
_IDENTITY: Final = re.compile(r"(?!__)[^\s\"'<>&]+")
_CLASSES: Final = re.compile(
    "|".join(
        ("headerlink", "admonition-title", "task-list", "task-list-item", "footnote", "footnote-ref", "footnote-backref",
         "highlight", "filename", "hll", "linenos", "gw-digest", r"language-[\w+-]+", "[a-z]{1,3}[0-9]?(?: [a-z]{1,3}[0-9]?(?:-[A-Za-z0-9]+)+)*",
         *(f"admonition {kind}" for kind in ADMONITIONS))
    )
)  # fmt: skip
"""What Markdown, its reader of code and our own generated pages call things; the short ones are words of code."""


def _one_of(*known: str) -> Callable[[str], bool]:
    return lambda value: value in known


def _any(_: str) -> bool:
    return True


def _identity(value: str) -> bool:
    return _IDENTITY.fullmatch(value) is not None


_WHOLE = re.compile(r"[0-9]{1,4}").fullmatch
_BARE: Final = (
    "abbr", "b", "blockquote", "br", "code", "dd", "del", "dl", "dt", "em", "hr", "p", "pre", "strong", "sub", "sup", "table",
    "tbody", "thead", "tr", "ul", "div", "span",
)  # fmt: skip
_ELEMENTS: Final[dict[str, dict[str, Callable[[str], object]]]] = {
    **{name: {} for name in _BARE},
    **{f"h{level}": {"id": _identity} for level in range(1, 7)},
    "a": {"href": _any, "title": _any, "id": _identity, "name": _identity},
    "img": {"src": _any, "alt": _any, "title": _any},
    "input": {"type": _one_of("checkbox"), "disabled": _one_of("", "disabled"), "checked": _one_of("", "checked")},
    "label": {},
    "li": {"id": _identity},
    "ol": {"start": _WHOLE},
    "sup": {"id": _identity},
    "td": {"align": _one_of("left", "center", "right")},
    "th": {"align": _one_of("left", "center", "right")},
}
"""The elements of a page with the attributes that each may have; any may have a class of the table above."""


def strange_html(page: str) -> Iterator[str]:
    """
    What no page of a handbook holds: one message for each.

    Parameters
    ----------
    page : str
        The HTML that Markdown made of a page, numbers still tokens.
    """
    position = 0
    while found := _OPENS.search(page, position):
        position = found.start()
        comment = _COMMENT.match(page, position)
        tag = _TAG.match(page, position)
        if comment is not None:
            position = comment.end()
        elif tag is None:
            yield say("pages.markup.strange_element", found=_short(page[position:]))
            position += 1
        else:
            position = tag.end()
            yield from _wrong(tag)


def _wrong(tag: re.Match[str]) -> Iterator[str]:
    name = tag[2].lower()
    known = _ELEMENTS.get(name)
    if known is None:
        yield say("pages.markup.strange_element", found=_short(tag[0]))
        return
    for one in _ATTRIBUTE.finditer(tag[3]):
        attribute, value = one[1].lower(), html.unescape(one[2] or one[3] or one[4] or "")
        if attribute == "class":
            fits: object = _CLASSES.fullmatch(value)
        else:
            fits = attribute in known and known[attribute](value)
        if not fits:
            yield say("pages.markup.strange_attribute", found=_short(one[0]), element=name)
        elif attribute in ("href", "src") and (wrong := wrong_target(value, picture=name == "img")) is not None:
            yield wrong


def _short(text: str) -> str:
    line = " ".join(text[:120].split())
    return line if len(line) <= 60 else f"{line[:59]}…"
