"""
What every page gets after Markdown so that all its readers can use it.

Markdown gives tables that no keyboard scrolls, boxes to tick that have no name, and cautions told apart by colour alone.
"""

from __future__ import annotations

import re
from html import escape

from macros.quantities import say

__all__ = ["finished", "plain_text"]

HEADING = re.compile(
    r'<h(?P<level>[1-4])\b(?:[^>]*?\bid="(?P<id>[^"]*)")?[^>]*>(?P<title>.*?)</h(?P=level)>', re.DOTALL
)
TABLE = re.compile(r"(?<=\n)<table>\n.*?</table>", re.DOTALL)
PIECE = re.compile(f"(?P<heading>{HEADING.pattern})|(?P<table>{TABLE.pattern})", re.DOTALL)
STEP = re.compile(r'(<li class="gw-step"[^>]*\bdata-step="(\d+)"[^>]*><p class="gw-do">)')
HEADER = re.compile(r"<th(?=[\s>])(?![^>]*\bscope=)")
ROW = re.compile(r"<tr>(?=\s*<td)")
TASK = re.compile(
    r'(<li class="task-list-item">)(<p>)?<input type="checkbox"( disabled)?( checked)?\s*/>'
    r"\s*(.*?)(?=</p>|</li>|\n<[uo]l)",
    re.DOTALL,
)
LEVEL = re.compile(r'<div class="admonition (danger|warning|caution|note|tip)"[^>]*>\s*<p class="admonition-title">')
PERMALINK = re.compile(r'<a class="headerlink" href="([^"]*)"[^>]*>')
TERM = re.compile(r"(?<=\n)<dt>([^<]+)</dt>")
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
    return _Tables().of(_tasks(html))


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
        return PIECE.sub(lambda found: self._heading(found) if found["heading"] else self._table(found[0]), html)

    def _heading(self, found: re.Match[str]) -> str:
        self.title, self.anchor, self.rows = plain_text(found["title"]), found["id"] or "", 0
        return found[0]

    def _table(self, table: str) -> str:
        name = self.title or say("pages.table")
        self.told[name] = self.told.get(name, 0) + 1
        label = name if self.told[name] == 1 else say("pages.table_further", title=name, number=self.told[name])
        table = HEADER.sub('<th scope="col"', table)
        if self.anchor:
            table = ROW.sub(self._row, table)
        return f'<div class="gw-scroll" tabindex="0" role="region" aria-label="{escape(label)}">{table}</div>'

    def _row(self, _: re.Match[str]) -> str:
        self.rows += 1
        return f'<tr id="{self.anchor}-row-{self.rows}">'
