"""A page read strictly by other parsers than ours: HTML by html5lib, each drawing and formula as XML."""

from __future__ import annotations

import functools
import gc
import re
import xml.etree.ElementTree as ET

from html5lib import HTMLParser
from html5lib._tokenizer import HTMLTokenizer
from html5lib.constants import tokenTypes

DRAWN = re.compile(r"<(svg|math)\b.*?</\1>", re.DOTALL)
NAMED = re.compile(r"&(?!amp;|lt;|gt;|quot;|apos;|#)\w+;")


TAG = re.compile(r'(/?)([a-z][a-z0-9]*)((?:[ \n][a-zA-Z][a-zA-Z0-9:-]*(?:="[^"&\0]*")?)*)(/?)>')
ATTRIBUTE = re.compile(r'[ \n]([a-zA-Z0-9:-]+)(?:="([^"]*)")?')


class _Tokenizer(HTMLTokenizer):
    """That of html5lib, which goes letter by letter; here a tag with nothing unusual in it is read at once, as often before."""

    def tagOpenState(self):  # noqa: N802 (the library's name)
        tag = TAG.match(self.stream.chunk, self.stream.chunkOffset)
        known = tag and _read_tag(tag[0])
        if not known:
            return super().tagOpenState()
        self.stream.chunkOffset = tag.end()
        self.currentToken = {**known, "data": known["data"].copy()}
        self.tokenQueue.append(self.currentToken)
        self.state = self.dataState
        return True


@functools.cache
def _read_tag(text):
    """The token of a tag; none where html5lib has to say what is wrong with it."""
    end, name, written, closing = TAG.fullmatch(text).groups()
    pairs = [(one.lower(), value) for one, value in ATTRIBUTE.findall(written)]
    if end:
        plain = not pairs and not closing
        return {"type": tokenTypes["EndTag"], "name": name, "data": [], "selfClosing": False} if plain else None
    if len(data := dict(pairs)) < len(pairs):
        return None
    token = {"type": tokenTypes["StartTag"], "name": name, "data": data}
    return {**token, "selfClosing": bool(closing), "selfClosingAcknowledged": False}


class _Parser(HTMLParser):
    def _parse(self, stream, *_):
        self.innerHTMLMode, self.container, self.scripting = False, None, False
        self.tokenizer = _Tokenizer(stream, parser=self)
        self.reset()
        self.mainLoop()


def read_strictly(text, by=_Parser):
    """A page as a tree, and each parse error of the HTML standard in it as a line."""
    parser = by(strict=False)
    gc.disable()  # a tree is all alive while it grows; looking through it again and again takes as long as reading
    try:
        tree = parser.parse(text)
    finally:
        gc.enable()
    return tree, [f"{line}: {code} {data}" for (line, _), code, data in parser.errors]


@functools.cache
def page_read(path):
    """A page of the built site, which no test changes, as of `read_strictly`."""
    return read_strictly(path.read_text(encoding="utf-8"))


def torn_drawings(text):
    """Drawings and formulas of a page that are no XML, each with its line."""
    for drawn in DRAWN.finditer(text):
        try:
            ET.fromstring(NAMED.sub("", drawn[0]))
        except ET.ParseError as error:
            yield f"{text.count(chr(10), 0, drawn.start()) + 1}: {drawn[1]}: {error}"


def faults_of(text):
    """What is wrong with a page as HTML, or with a drawing in it as XML; one line for each."""
    return [*read_strictly(text)[1], *torn_drawings(text)]
