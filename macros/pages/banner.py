"""What stands across the top of every page of a plant that must not be built as it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape

from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import resolve_references
from macros.pages.tokens import Fragment
from macros.quantities import say
from macros.review.refusal import Reason

__all__ = ["banner"]


def banner(plant: Plant, page: PageContext, reasons: Sequence[Reason] | None) -> Fragment | None:
    """
    The refusal, the recall and the status of a plant, the gravest first.

    Parameters
    ----------
    plant : Plant
    page : PageContext
    reasons : sequence of Reason, or None
        Why it is refused, empty where it is not; none where nobody has looked.
    """
    parts: list[tuple[str, str]] = []
    workings: Mapping[str, str] = {}
    if plant.status == "withdrawn":
        recall = plant.description.plant.recall
        told = resolve_references(recall, page) if recall else Fragment("")
        workings = told.workings
        parts.append(("withdrawn", f"{escape(say('pages.banner.withdrawn'))} {told.rich or escape(told.plain)}"))
    if reasons:
        link = f'<a href="{page.url(f"{plant.name}/review.md")}">{escape(say("pages.banner.to_review"))}</a>'
        paper = f'<span class="gw-on-paper">{escape(say("pages.banner.not_printed"))}</span>'
        parts.append(("refused", f"{escape(say('pages.banner.refused', count=len(reasons)))} {link} {paper}"))
    if reasons is None:
        parts.append(("unseen", escape(say("pages.banner.unseen", plant=plant.name))))
    if plant.status == "draft":
        parts.append(("draft", escape(say("pages.banner.draft"))))
    if not parts:
        return None
    html = "\n".join(
        f'<div class="gw-banner gw-{name}"><strong>{escape(say(f"pages.status.{name}"))}</strong> {text}</div>'
        for name, text in parts
    )
    return Fragment(say(f"pages.status.{parts[0][0]}"), html, block=True, workings=workings)
