"""
The HTML of a number on a page: a button that opens its working, and the working itself.

A *fragment* says one number for every place where it may stand; see `tokens`.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace
from html import escape
from typing import Literal

from macros.description.references import Reference, references
from macros.figures.graph import FigureError, Graph, Value
from macros.pages.context import PageContext
from macros.pages.numbers import Numbers, as_typed
from macros.pages.tokens import Fragment, note, working_id
from macros.pages.working import assumed_mark, popover, said, systems, value_span, working_body
from macros.quantities import QuantityError, Shown, read, say
from macros.quantities.languages import with_mark

__all__ = [
    "FragmentError",
    "call_key",
    "evaluated_fragment",
    "figure_fragment",
    "quantity_fragment",
    "resolve_references",
    "word_fragment",
    "worked_fragment",
]


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
            return _words(value, page)
    texts = numbers.shown(path, digits, unit) if value.is_number else Shown(said(value), said(value), said(value))
    return evaluated_fragment(
        graph, numbers, path, page, texts, key=path, data=f'data-figure="{escape(path)}"', link=page.working_url(path)
    )


def evaluated_fragment(
    graph: Graph, numbers: Numbers, path: str, page: PageContext, texts: Shown, *, key: str, data: str, link: str = ""
) -> Fragment:
    """
    A value of a graph with its working.

    Parameters
    ----------
    graph, numbers : Graph, Numbers
        Where it was evaluated, and how its numbers are said.
    path : str
        Its name there.
    page : PageContext
    texts : Shown
        What to show.
    key : str
        Names the working on the page; equal keys share one.
    data : str
        Attribute that says what it is, for scripts and tests.
    link : str
        Where the full working stands; empty for none.
    """
    value = graph[path]
    own = numbers.shown(path) if value.is_number else texts
    return worked_fragment(
        title=value.title or path,
        texts=texts,
        body=working_body(graph, numbers, path, page),
        key=key,
        data=data,
        own=own,
        link=link,
        assumed="itself" if path in value.assumed else "below" if value.assumed else "",
    )


def worked_fragment(
    *,
    title: str,
    texts: Shown,
    body: str,
    key: str,
    data: str,
    own: Shown | None = None,
    link: str = "",
    assumed: Literal["", "itself", "below"] = "",
) -> Fragment:
    """
    A number that opens its working.

    Parameters
    ----------
    title : str
        What the number is.
    texts, own : Shown
        What to show in the sentence, and in the working if that differs.
    body : str
        HTML of the working.
    key, data, link
        As for `evaluated_fragment`.
    assumed : {"", "itself", "below"}
        Whether it is a default, or stands on some.
    """
    mark = assumed_mark() if assumed else ""
    named = f'<span class="gw-value" {data}{systems(own or texts)}>{escape((own or texts).workshop)}</span>{mark}'
    working = popover(key, working_id(key), title, named, body, link, note(key))
    classes = "gw-figure gw-assumed" if assumed else "gw-figure"
    button = (
        f'<button type="button" class="{classes}" popovertarget="{working_id(key)}" {data} data-note="{note(key)}"'
        f"{systems(texts)}>{escape(texts.workshop)}</button>{mark}"
    )
    return Fragment(
        plain=say("pages.assumed_plain", value=texts.workshop) if assumed == "itself" else texts.workshop,
        rich=button,
        marked=f'<span class="gw-value" {data}{systems(texts)}>{escape(texts.workshop)}</span>{mark}',
        workings={key: working},
    )


def _words(value: Value, page: PageContext) -> Fragment:
    """A text of the description, with what it refers to; one that is a quantity is told in every system of units."""
    if not isinstance(value.si, str) or not references(value.si):
        return quantity_fragment(value) or word_fragment(said(value), value.name)
    shown = resolve_references(value.si, page)
    span = f'<span class="gw-word" data-figure="{escape(value.name)}">'
    return replace(shown, rich=f"{span}{shown.rich}</span>", marked=f"{span}{shown.marked}</span>")


def quantity_fragment(value: Value) -> Fragment | None:
    """A text that is a quantity, such as the limit of a trip; none where it is any other text."""
    try:
        quantity = read(str(value.si))
    except QuantityError:
        return None
    if quantity.kind in ("count", "ratio"):
        return None
    marked = value_span(as_typed(quantity), value.name)
    return Fragment(with_mark(quantity.text), marked, marked)


def resolve_references(text: str, page: PageContext, *, worked: bool = True) -> Fragment:
    """
    A text of the description with what its references stand for.

    A reference that leads nowhere, or to another text, stays as typed; `references.unresolved` tells of those. On a page
    of several plants no number has a working (`worked=False`): their names would meet.
    """
    plain: list[str] = []
    rich: list[str] = []
    marked: list[str] = []
    workings: dict[str, str] = {}
    position = 0
    for one in references(text):
        before, shown = text[position : one.start], _referred(one, page, worked)
        plain += [before, shown.plain]
        rich += [escape(before), shown.rich or escape(shown.plain)]
        marked += [escape(before), shown.marked or escape(shown.plain)]
        workings.update(shown.workings)
        position = one.end
    rest = text[position:]
    return Fragment(
        plain="".join([*plain, rest]),
        rich="".join([*rich, escape(rest)]),
        marked="".join([*marked, escape(rest)]),
        workings=workings,
    )


def _referred(reference: Reference, page: PageContext, worked: bool) -> Fragment:
    if reference.is_tag and reference.name in page.tags:
        title = escape(page.tags[reference.name])
        tag = f'<span class="gw-tag" title="{title}">{escape(reference.name)}</span>'
        url = page.item_url(reference.name)
        link = f'<a class="gw-tag" href="{url}" title="{title}">{escape(reference.name)}</a>' if url else tag
        return Fragment(reference.name, link, tag)
    if page.graph is not None and reference.name in page.graph:
        try:
            if page.graph[reference.name].kind != "text":
                return figure_fragment(page, reference.name) if worked else _number(reference.name, page)
        except (FigureError, FragmentError):
            pass
    return Fragment(f"{{{reference.name}}}")


def _number(path: str, page: PageContext) -> Fragment:
    """A number without its working."""
    assert page.graph is not None and page.numbers is not None
    value = page.graph[path]
    if not value.is_number:
        return word_fragment(said(value), path)
    texts = page.numbers.shown(path)
    marked = value_span(texts, path) + (assumed_mark() if value.assumed else "")
    return Fragment(texts.workshop, marked, marked)


def word_fragment(text: str, path: str = "") -> Fragment:
    """Words of the description, such as the name of a place."""
    named = f' data-figure="{escape(path)}"' if path else ""
    marked = f'<span class="gw-word"{named}>{escape(text)}</span>'
    return Fragment(plain=text, rich=marked, marked=marked)


def call_key(name: str, *parts: object) -> str:
    """A key for the working of a macro's result: the same call, the same working."""
    digest = hashlib.sha256(repr(parts).encode()).hexdigest()[:8]
    return f"{name}-{digest}"
