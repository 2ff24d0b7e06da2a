"""What is wrong with references in texts of a description; `fragments.resolve_references` shows the right ones."""

from __future__ import annotations

from collections.abc import Iterator

from macros.description.references import references
from macros.figures.graph import FigureError
from macros.pages.context import PageContext
from macros.pages.fragments import FragmentError, figure_fragment
from macros.quantities import say

__all__ = ["unresolved"]


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
