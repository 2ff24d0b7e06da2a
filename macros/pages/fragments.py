"""
The HTML of a number on a page: a button that opens its working, and the working itself.

A *fragment* says one number for every place where it may stand; see `tokens`.
"""

from __future__ import annotations

import hashlib
from html import escape

from macros.figures.graph import Graph, Value
from macros.pages.context import PageContext
from macros.pages.numbers import Numbers
from macros.pages.tokens import Fragment, note, working_id
from macros.pages.working import assumed_mark, popover, said, systems, value_span, working_body
from macros.quantities import Shown, say

__all__ = ["FragmentError", "button", "figure_fragment", "number_fragment", "word_fragment"]


class FragmentError(ValueError):
    """Something that cannot be shown where it is asked for; its text is ready for the author."""


def figure_fragment(page: PageContext, path: str, unit: str | None = None, digits: int | None = None) -> Fragment:
    """
    An entry or figure of the page's plant.

    Parameters
    ----------
    page : PageContext
    path : str
        Dotted name, without `plant`.
    unit : str, optional
        Unit to show it in, in place of its own.
    digits : int, optional
        Significant digits, in place of its own.

    Raises
    ------
    UnknownPath
        If the plant has none of this name.
    FigureError
        If it cannot be evaluated.
    QuantityError
        If the unit is none of its kind.
    FragmentError
        If it is no number but is to be shown in a unit, or is a table, curve or run.
    """
    graph, numbers = page.graph, page.numbers
    assert graph is not None and numbers is not None
    value = graph[path]
    if value.kind in ("table", "run", "curve"):
        raise FragmentError(say("pages.no_single_value", name=path, what=say(f"pages.kind.{value.kind}")))
    if not value.is_number:
        if unit is not None or digits is not None:
            raise FragmentError(say("pages.no_number_to_convert", name=path, value=said(value)))
        if value.given:
            return word_fragment(said(value), path)
    texts = numbers.shown(path, digits, unit) if value.is_number else Shown(said(value), said(value), said(value))
    return number_fragment(graph, numbers, path, texts, page, key=path)


def number_fragment(
    graph: Graph, numbers: Numbers, path: str, texts: Shown, page: PageContext, *, key: str, link: str | None = None
) -> Fragment:
    """
    A value of a graph with its working.

    Parameters
    ----------
    graph, numbers : Graph, Numbers
        Where it was evaluated, and how its numbers are said.
    path : str
        Its name there.
    texts : Shown
        What to show.
    page : PageContext
    key : str
        Names the working on the page; equal keys share one.
    link : str, optional
        Where the full working stands, if not on the page of the plant.
    """
    value = graph[path]
    own = numbers.shown(path) if value.is_number else texts
    working = popover(
        key,
        working_id(key),
        value.title or path,
        value_span(own, path, bool(value.assumed)),
        working_body(graph, numbers, path, page),
        page.working_url(path) if link is None else link,
        note(key),
    )
    plain = texts.workshop
    if path in value.assumed:
        plain = say("pages.assumed_plain", value=plain)
    return Fragment(
        plain=plain,
        rich=button(value, texts, key),
        marked=value_span(texts, path, bool(value.assumed)),
        workings={key: working},
    )


def button(value: Value, texts: Shown, key: str) -> str:
    """A number that opens its working."""
    assumed = " gw-assumed" if value.assumed else ""
    return (
        f'<button type="button" class="gw-figure{assumed}" popovertarget="{working_id(key)}" '
        f'data-figure="{escape(value.name)}" data-note="{note(key)}"{systems(texts)}>{escape(texts.workshop)}</button>'
        f"{assumed_mark() if value.assumed else ''}"
    )


def word_fragment(text: str, path: str = "") -> Fragment:
    """Words of the description, such as the name of a place."""
    named = f' data-figure="{escape(path)}"' if path else ""
    marked = f'<span class="gw-word"{named}>{escape(text)}</span>'
    return Fragment(plain=text, rich=marked, marked=marked)


def call_key(name: str, *parts: object) -> str:
    """A key for the working of a macro's result: the same call, the same working."""
    digest = hashlib.sha256(repr(parts).encode()).hexdigest()[:8]
    return f"{name}-{digest}"
