"""Writing a page for a plant: its expressions looked up, its conditions decided, every fault with its line."""

from __future__ import annotations

from collections.abc import Iterator

from macros.figures.graph import FigureError, Graph, UnknownPath
from macros.pages.context import PageContext
from macros.pages.expressions import And, Condition, Has, MacroCall, Not, Or, Quote
from macros.pages.fragments import FragmentError, figure_fragment
from macros.pages.macros import call
from macros.pages.page_text import Choice, PageText, Part, Quoted, Written
from macros.pages.tokens import Fragment, Tokens
from macros.quantities import Fault, QuantityError, say

__all__ = ["LookupFaultError", "evaluate", "names_in", "write"]


class LookupFaultError(ValueError):
    """A name that this plant has not; its text is ready for the author."""


def write(text: PageText, page: PageContext, tokens: Tokens) -> tuple[Written, list[Fault]]:
    """
    The Markdown of a page, numbers as tokens, and what is wrong with it for this plant.

    What is wrong with the text itself, for any plant, is in `text.faults`.
    """
    faults: list[Fault] = []

    def quote(quoted: Quoted) -> str:
        try:
            return tokens.add(evaluate(quoted, page), quoted.line, quoted.source)
        except (LookupFaultError, FragmentError) as error:
            message = say("pages.in_expression", source=quoted.source, reason=str(error))
            faults.append(Fault(text.file, quoted.line, "", message))
            return ""

    def holds(line: int, condition: Condition) -> bool:
        try:
            return _holds(condition, page)
        except LookupFaultError as error:
            faults.append(Fault(text.file, line, "", str(error)))
            return True

    return text.write(quote, holds), faults


def evaluate(quoted: Quoted, page: PageContext) -> Fragment:
    """
    What an expression stands for on a page.

    Raises
    ------
    LookupFaultError, FragmentError
        If the plant lacks what it names, or it cannot be shown as asked.
    """
    expression = quoted.expression
    if isinstance(expression, MacroCall):
        return call(expression.name, expression.positional, dict(expression.named), page)
    return _figure(expression, page)


def _figure(quote: Quote, page: PageContext) -> Fragment:
    if page.graph is None:
        raise LookupFaultError(say("pages.no_plant"))
    if "." not in quote.path:
        if quote.path in page.words and quote.unit is None and quote.digits is None:
            return page.words[quote.path]
        if not page.graph.has(quote.path) and not page.vocabulary.knows(quote.path):
            raise LookupFaultError(say("pages.no_word", found=quote.path, known=", ".join(sorted(page.words))))
    try:
        return figure_fragment(page, quote.path, quote.unit, quote.digits)
    except UnknownPath:
        raise LookupFaultError(_unknown(quote.path, page, page.graph)) from None
    except FigureError as error:
        raise FragmentError(str(error)) from error
    except QuantityError as error:
        raise FragmentError(error.message) from error


def _unknown(name: str, page: PageContext, graph: Graph) -> str:
    """Why a name leads nowhere: a part, a part that this plant lacks, or a slip of the pen."""
    if graph.has(name):
        example = next(path for path in (*graph.figures, *graph.entries) if path.startswith(f"{name}."))
        return say("pages.is_part", found=name, example=f"plant.{example}")
    if page.vocabulary.knows(name):
        parts = name.split(".")
        beginnings = (".".join(parts[:length]) for length in range(1, len(parts) + 1))
        missing = next(beginning for beginning in beginnings if not graph.has(beginning))
        return say("pages.part_lacks", plant=page.name, missing=missing, found=f"plant.{name}")
    nearest = page.vocabulary.nearest(name, graph)
    if not nearest:
        return say("pages.unknown_name_alone", plant=page.name, found=f"plant.{name}")
    return say("pages.unknown_name", plant=page.name, found=f"plant.{name}", nearest=f"plant.{nearest}")


def _holds(condition: Condition, page: PageContext) -> bool:
    if isinstance(condition, Has):
        return _has(condition.part, page)
    if isinstance(condition, Not):
        return not _holds(condition.condition, page)
    left, right = _holds(condition.left, page), _holds(condition.right, page)
    return (left and right) if isinstance(condition, And) else (left or right)


def _has(part: str, page: PageContext) -> bool:
    """Whether the plant has a part. A part that no plant can have is a slip that would silently hide a passage."""
    if page.graph is None:
        raise LookupFaultError(say("pages.no_plant"))
    if page.has(part):
        return True
    if not page.vocabulary.knows(part):
        raise LookupFaultError(unknown_part(part, page))
    return False


def unknown_part(part: str, page: PageContext) -> str:
    """The message for a part that no plant can have."""
    nearest = page.vocabulary.nearest(part, page.graph)
    if nearest:
        return say("pages.unknown_part", found=part, nearest=nearest)
    known = sorted({name.split(".")[0] for name in page.vocabulary.names})
    return say("pages.unknown_part_alone", found=part, known=", ".join(known))


def names_in(text: PageText) -> Iterator[tuple[int, str, bool]]:
    """
    Every name of the plant on a page, branches that a plant does not take included.

    Yields
    ------
    tuple of int, str and bool
        Line, name without `plant`, and whether it stands in a condition.
    """
    yield from _names(text.parts)


def _names(parts: tuple[Part, ...] | list[Part]) -> Iterator[tuple[int, str, bool]]:
    for part in parts:
        if isinstance(part, Quoted) and isinstance(part.expression, Quote):
            yield part.line, part.expression.path, False
        elif isinstance(part, Choice):
            for line, condition, inside in part.branches:
                for one in _parts_asked(condition):
                    yield line, one, True
                yield from _names(inside)


def _parts_asked(condition: Condition | None) -> Iterator[str]:
    if isinstance(condition, Has):
        yield condition.part
    elif isinstance(condition, Not):
        yield from _parts_asked(condition.condition)
    elif isinstance(condition, (And, Or)):
        yield from _parts_asked(condition.left)
        yield from _parts_asked(condition.right)
