"""Which sources a figure stands on, and how they are cited on a page."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterator
from html import escape
from typing import Any

from macros.calculations.contract import CALCULATIONS
from macros.calculations.formula import Call, Node, Operation
from macros.calculations.sources import sources
from macros.figures.graph import Value
from macros.pages.context import PageContext, anchor
from macros.quantities import say

__all__ = ["calls_in", "citation", "cited_by", "sources_of"]

CITED = re.compile(r"\[([a-z0-9-]+)(?:,\s+([^\]]+))?\]")

Citation = tuple[str, str]
"""Key of a source and the place in it."""


def sources_of(value: Value) -> list[Citation]:
    """
    The sources that a figure stands on, each once: its own or those of its calculation, and those of the functions
    that its formula shows by name only.
    """
    found = [(value.source, "")] if value.source else []
    if not found and value.compute is not None:
        found = cited_by(value.compute)
    for name in calls_in(value.node) if value.node is not None else []:
        for calculation in CALCULATIONS.values():
            if calculation.opaque == name:
                found.extend(cited_by(calculation.function))
    return list(dict.fromkeys(found))


def cited_by(function: Callable[..., Any]) -> list[Citation]:
    """What the notes of a docstring cite as `[source, place]`."""
    notes = (inspect.getdoc(function) or "").partition("Notes")[2]
    known = sources()
    return [(key, " ".join(place.split())) for key, place in CITED.findall(notes) if key in known]


def calls_in(node: Node) -> list[str]:
    """The names of the functions that a formula shows by name only, each once, in the order of reading."""
    return list(dict.fromkeys(_calls(node)))


def _calls(node: Node) -> Iterator[str]:
    if isinstance(node, Call):
        yield node.name
    if isinstance(node, (Call, Operation)):
        for argument in node.arguments:
            yield from _calls(argument)


def citation(key: str, place: str, page: PageContext) -> str:
    """
    A source as HTML: title, place in it, and how we know it, with a link to the list of sources.

    What title and place say is the source's own, numbers too.
    """
    source = sources().get(key)
    if source is None:
        return escape(key)
    link = page.url("sources.md", anchor("s", key))
    where = f'<span data-typed="">, {escape(place)}</span>' if place else ""
    how = escape(say(f"pages.how.{source.how}"))
    return f'<a href="{link}" data-typed="">{escape(source.title)}</a>{where} ({how})'
