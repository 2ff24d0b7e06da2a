"""
What every page gets after Markdown so that all its readers can use it.

Markdown gives tables that no keyboard scrolls, boxes to tick that have no name, and cautions told apart by colour alone.
"""

from __future__ import annotations

import re
from html import escape, unescape

from macros.quantities import say

__all__ = ["finished", "plain_text"]

PIECE = re.compile(
    r'<(?:(?P<heading>h(?P<level>[1-4])\b(?:[^>]*?\bid="(?P<id>[^"]*)")?[^>]*>(?P<title>.*?)</h(?P=level)>)'
    r"|(?<=\n<)(?P<table>table>\n.*?</table>)"
    r'|(?P<opens>div class="gw-(?:scroll|drawing-frame)[^>]*\brole="region" aria-label=")(?P<label>[^"]*)")',
    re.DOTALL,
)
"""A heading, a table that an author wrote, a frame that scrolls; all begin alike, so that a long page is soon gone through."""
NO_HEADER = re.compile(r"<th(?=[\s>])[^>]*></th>")
WORKINGS = '<section class="gw-workings"'
STEP = re.compile(r'(<li class="gw-step"[^>]*\bdata-step="(\d+)"[^>]*><p class="gw-do">)')
HEADER = re.compile(r"<th(?=[\s>])(?![^>]*\bscope=)")
ROW = re.compile(r"<tr>(?=\s*<td)")
TASK = re.compile(
    r'(<li class="task-list-item">)\s*(<p>)?<input type="checkbox"( disabled)?( checked)?\s*/>'
    r"\s*(.*?)(?=</p>|</li>|\n<[uo]l)",
    re.DOTALL,
)
LEVEL = re.compile(r'<div class="admonition (danger|warning|caution|note|tip)"[^>]*>\s*<p class="admonition-title">')
PERMALINK = re.compile(r'<a class="headerlink" href="([^"]*)"[^>]*>')
TERM = re.compile(r"<dt>(?<=\n<dt>)([^<]+)</dt>")
TAGS = re.compile(r"<[^>]*>")


def finished(html: str) -> str:
    """
    The content of a page for every reader.

    Tables that authors wrote scroll by keyboard and are named after their heading, their rows can be led to; boxes to
    tick have their text for a name; a caution says its level as a word; a step says its number to those who listen; the
    sign beside a heading is for the mouse only.
    """
    html = PERMALINK.sub(r'<a class="headerlink" href="\1" aria-hidden="true" tabindex="-1">', html)
    html = STEP.sub(_step, html)
    html = TERM.sub(_term, LEVEL.sub(_level, html))
    return NO_HEADER.sub("<td></td>", _Tables().of(_tasks(html)))


def plain_text(html: str) -> str:
    """The words of a piece of HTML, in one line."""
    text = TAGS.sub(" ", html)
    for entity, meant in (
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", '"'),
        ("&#x27;", "'"),
        ("&nbsp;", " "),
        ("&amp;", "&"),
    ):
        text = text.replace(entity, meant)
    return " ".join(text.replace("¶", " ").split())


def _level(found: re.Match[str]) -> str:
    word = escape(say(f"pages.level.{found[1]}"))
    return f'{found[0]}<span class="gw-level">{word}</span> '


def _step(found: re.Match[str]) -> str:
    return f'{found[1]}<span class="gw-heard">{escape(say("pages.step_heard", number=found[2]))} </span>'


def _term(found: re.Match[str]) -> str:
    name = re.sub(r"[^a-z0-9]+", "-", found[1].lower()).strip("-")
    return f'<dt id="t-{name}">{found[1]}</dt>'


def _tasks(html: str) -> str:
    number = 0

    def task(found: re.Match[str]) -> str:
        nonlocal number
        number += 1
        name = f"task-{number}"
        checked = found[4] or ""
        return (
            f'{found[1]}{found[2] or ""}<input type="checkbox" aria-labelledby="{name}"{checked}>'
            f'<span id="{name}">{found[5]}</span>'
        )

    return TASK.sub(task, html)


class _Tables:
    """Goes through headings and tables in the order of the page."""

    def __init__(self) -> None:
        self.title = ""
        self.anchor = ""
        self.rows = 0
        self.told: dict[str, int] = {}

    def of(self, html: str) -> str:
        # Workings are opened one at a time, so their tables may share their names.
        page, opens, workings = html.partition(WORKINGS)
        return PIECE.sub(self._piece, page) + opens + workings

    def _piece(self, found: re.Match[str]) -> str:
        if found["heading"]:
            return self._heading(found)
        return self._table(found[0]) if found["table"] else f'<{found["opens"]}{self._label(found["label"])}"'

    def _label(self, wanted: str) -> str:
        """A name that no other table of the page has, as HTML."""
        label = wanted
        if self.told.get(wanted):
            label = escape(say("pages.table_of", what=unescape(wanted), title=self.title)) if self.title else wanted
        self.told[wanted] = self.told.get(wanted, 0) + 1
        if label != wanted:
            self.told[label] = self.told.get(label, 0) + 1
        if (number := self.told[label]) > 1:
            label = escape(say("pages.table_further", title=unescape(label), number=number))
        return label

    def _heading(self, found: re.Match[str]) -> str:
        self.title, self.anchor, self.rows = plain_text(found["title"]), found["id"] or "", 0
        return found[0]

    def _table(self, table: str) -> str:
        label = escape(self.title or say("pages.table"))
        self.told[label] = self.told.get(label, 0) + 1
        if (number := self.told[label]) > 1:
            label = escape(say("pages.table_further", title=unescape(label), number=number))
        table = HEADER.sub('<th scope="col"', table)
        if self.anchor:
            table = ROW.sub(self._row, table)
        return f'<div class="gw-scroll" tabindex="0" role="region" aria-label="{label}">{table}</div>'

    def _row(self, _: re.Match[str]) -> str:
        self.rows += 1
        return f'<tr id="{self.anchor}-row-{self.rows}">'
