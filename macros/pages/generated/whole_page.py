"""The leaf before a plant's whole handbook: what it is of, how it stands, and who must be asked."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.fragments import resolve_references
from macros.pages.tokens import Fragment, Tokens
from macros.quantities import say
from macros.review import RULES, Review
from macros.review.refusal import failed_proofs
from macros.review.telling import verdict_of

__all__ = ["whole_leaf"]


def whole_leaf(plant: Plant, page: PageContext, tokens: Tokens, found: Review | None) -> str:
    """
    The leaf as Markdown.

    Parameters
    ----------
    plant : Plant
    page : PageContext
    tokens : Tokens
    found : Review or None
        None in a preview, which neither reviews nor binds.
    """
    return "\n".join(_lines(plant, page, tokens, found))


def _lines(plant: Plant, page: PageContext, tokens: Tokens, found: Review | None) -> Iterator[str]:
    yield f"# {tokens.words(plant.title)} {{: #whole }}"
    yield ""
    yield tokens.add(Fragment("", f'<p class="gw-subtitle">{escape(say("pages.whole.subtitle"))}</p>', block=True))
    yield ""
    yield tokens.add(resolve_references(plant.description.plant.summary, page))
    yield ""
    yield tokens.add(Fragment("", _stands(plant, found), block=True))
    yield ""
    yield f'!!! danger "{say("pages.overview.caution_title")}"'
    yield ""
    yield f"    {say('pages.overview.caution')}"
    yield f"    {say('pages.whole.caution')}"
    yield ""
    if found is None:
        yield say("pages.whole.preview")
        return
    yield tokens.add(Fragment("", f'<p class="gw-hint">{escape(say("pages.whole.hint"))}</p>', block=True))
    yield ""
    yield f"## {say('pages.whole.ask')} {{: #ask }}"
    yield ""
    yield from _asked(found, tokens)
    yield ""
    pages = ("inputs", "workings", "review", "record")
    yield say("pages.whole.left_out", **{one: page.source_url(f"{plant.name}/{one}.md") for one in pages})


def _stands(plant: Plant, found: Review | None) -> str:
    """How the plant stands, as a list of terms."""
    values = [plant.graph[name] for name in plant.graph.figures]
    assumed = sum(bool(value.assumed) for value in values)
    told = (
        say("pages.whole.assumed_some", count=assumed, all=len(values)) if assumed else say("pages.whole.assumed_none")
    )
    verdict = verdict_of(found, len(failed_proofs(plant))) if found is not None else say("pages.whole.not_reviewed")
    rows = {
        "place": escape(plant.description.plant.site.place),
        "status": f"<strong>{escape(say(f'pages.status.{plant.status}'))}</strong>",
        "verdict": escape(verdict[:1].upper() + verdict[1:]),
        "digest": f'<span class="gw-digest">{plant.digest}</span>',
        "day": escape(found.today.isoformat()) if found is not None else "",
        "assumed": escape(told),
    }
    terms = "".join(
        f"<dt>{escape(say(f'pages.whole.{name}'))}</dt><dd>{text}</dd>" for name, text in rows.items() if text
    )
    return f'<dl class="gw-stands">{terms}</dl>'


def _asked(found: Review, tokens: Tokens) -> Iterator[str]:
    """Whom to ask what, each question once."""
    asked: dict[str, dict[str, None]] = {}
    for finding in found.open:
        rule = RULES[finding.rule]
        asked.setdefault(rule.asks, {})[rule.says] = None
    if not asked:
        yield say("pages.whole.ask_none")
        return
    yield say("pages.whole.ask_purpose")
    yield ""
    for body, questions in asked.items():
        yield f"- **{tokens.words(body[:1].upper() + body[1:])}:** {tokens.words(' '.join(questions))}"
