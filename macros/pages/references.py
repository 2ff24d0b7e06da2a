"""References in texts of a description, `{buffer.cut_out}` and `{V3}`: looked up by name, never evaluated."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from macros.description.references import Reference, references
from macros.figures.graph import FigureError
from macros.pages.context import PageContext
from macros.pages.fragments import FragmentError, figure_fragment
from macros.pages.tokens import Fragment
from macros.quantities import say

__all__ = ["resolve_references", "unresolved"]


def resolve_references(text: str, page: PageContext) -> Fragment:
    """
    A text of the description with what its references stand for.

    A reference that leads nowhere stays as typed; `unresolved` tells of those.
    """
    plain, rich, marked = [], [], []
    workings: dict[str, str] = {}
    position = 0
    for one in references(text):
        before = text[position : one.start]
        shown = _shown(one, page)
        plain += [before, shown.plain]
        rich += [escape(before), shown.rich or escape(shown.plain)]
        marked += [escape(before), shown.marked or escape(shown.plain)]
        workings.update(shown.workings)
        position = one.end
    rest = text[position:]
    return Fragment(
        "".join([*plain, rest]), "".join([*rich, escape(rest)]), "".join([*marked, escape(rest)]), False, workings
    )


def _shown(reference: Reference, page: PageContext) -> Fragment:
    if reference.is_tag:
        if reference.name in page.tags:
            title = escape(page.tags[reference.name])
            tag = f'<span class="gw-tag" title="{title}">{escape(reference.name)}</span>'
            return Fragment(reference.name, tag, tag)
    elif page.graph is not None and reference.name in page.graph:
        try:
            return figure_fragment(page, reference.name)
        except (FigureError, FragmentError):
            pass
    return Fragment(f"{{{reference.name}}}")


def unresolved(text: str, page: PageContext) -> Iterator[str]:
    """What is wrong with the references of a text, one message each."""
    for one in references(text):
        if one.is_tag:
            if one.name not in page.tags:
                yield say("pages.unknown_reference", found=f"{{{one.name}}}", nearest="")
        elif page.graph is None or one.name not in page.graph:
            near = page.vocabulary.nearest(one.name, page.graph)
            more = say("pages.unknown_reference_nearest", name=near) if near else ""
            yield say("pages.unknown_reference", found=f"{{{one.name}}}", nearest=more)
        else:
            try:
                figure_fragment(page, one.name)
            except (FigureError, FragmentError) as error:
                yield str(error)
