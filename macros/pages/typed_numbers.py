"""
Numbers with a unit that somebody typed into a guide, a caption, an alternative text or a drawing by hand.

Such a number goes on standing when the plant changes. Each is told with what to write in its place: the figure, entry
or fact of the same value if there is one, else the macro that marks an author's own value.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from macros.calculations.facts import facts
from macros.figures.graph import FigureError, Graph, Value
from macros.pages.code_regions import code_regions
from macros.quantities import Fault, Quantity, QuantityError, numbers_with_units, read, say
from macros.quantities.languages import with_point

__all__ = ["prose", "typed_in_drawing", "typed_numbers", "words_of_drawing"]

FILLER = "\u2063"
"""Stands for what is no prose, so that places stay where they are and no number meets a unit over a gap."""

NO_PROSE = re.compile(
    r"""
    <!--(?:(?!<!--).){0,4000}?-->               # comments
    | \{\{(?:(?!\{\{).){0,1000}?\}\} | \{%(?:(?!\{%).){0,1000}?%\} | \{\#(?:(?!\{\#).){0,1000}?\#\}   # expressions
    | (?<=\])\([^()\s]*(?=[\s)])                # targets of links and pictures; their titles are read
    | (?<=\])\[[^\]\n]*\]                       # names of link targets
    | ^[ ]{0,3}\[[^\]\n]+\]:[ \t]*\S+           # definitions of link targets
    | <[a-z][a-z0-9+.-]*:[^>\s]*>               # links in pointed brackets
    | \bhttps?://\S+
    """,
    re.VERBOSE | re.DOTALL | re.MULTILINE,
)
ATTRIBUTES = re.compile(r"""\{:[^{}\n]*\}|</?[a-zA-Z](?:[^<>"']|"[^"]*"|'[^']*')*>""")
"""Attributes of Markdown and tags of HTML: no prose but for the attributes that somebody reads."""

READ = re.compile(
    r"""(?<![\w-])(?:alt|title|aria-label|aria-description|summary|caption)\s*=\s*(?:"([^"]*)"|'([^']*)')"""
)
SILENT = re.compile(r"<!--.*?-->|<(style|script|metadata)\b.*?</\1\s*>|<[!?][^>]*>", re.DOTALL)
"""What a drawing holds that is no text of it."""

MOST_SUGGESTED = 2


def prose(text: str) -> str:
    """A page's text with everything that is no prose blanked out, place by place."""
    kept = list(text)

    def blank(start: int, end: int) -> None:
        for place in range(start, end):
            if kept[place] != "\n":
                kept[place] = FILLER

    code = code_regions(text)
    for start, end in [*code.fences, *code.spans]:
        blank(start, min(end, len(text)))
    for found in NO_PROSE.finditer("".join(kept)):
        blank(found.start(), found.end())
    return _without_tags("".join(kept))


def _without_tags(text: str) -> str:
    """A text without attributes and tags, but for what in them is read; place by place."""

    def blanked(found: re.Match[str]) -> str:
        tag = [each if each == "\n" else FILLER for each in found[0]]
        for one in READ.finditer(found[0]):
            group = 1 if one[1] is not None else 2
            tag[one.start(group) : one.end(group)] = one[group]
        return "".join(tag)

    return ATTRIBUTES.sub(blanked, text)


def words_of_drawing(svg: str) -> str:
    """The words of a drawing: its texts, title, description and what is read aloud; the rest blanked, place by place."""
    silent = SILENT.sub(lambda found: "".join(each if each == "\n" else FILLER for each in found[0]), svg)
    return _without_tags(silent)


def typed_in_drawing(svg: str, file: str, graphs: Iterable[Graph]) -> Iterator[Fault]:
    """The numbers with a unit among the words of a drawing that somebody made by hand; arguments as below."""
    yield from _typed(words_of_drawing(svg), file, 1, graphs)


def typed_numbers(text: str, file: str, first_line: int, graphs: Iterable[Graph]) -> Iterator[Fault]:
    """
    The numbers with a unit in the prose of a page.

    Parameters
    ----------
    text : str
        Markdown without front matter.
    file : str
        Its name in faults.
    first_line : int
        The line of the file at which the text begins.
    graphs : iterable of Graph
        Plants among whose figures and entries the same value is looked for.
    """
    yield from _typed(prose(text), file, first_line, graphs)


def _typed(words: str, file: str, first_line: int, graphs: Iterable[Graph]) -> Iterator[Fault]:
    known = list(graphs)
    for found in numbers_with_units(words):
        line = first_line + words.count("\n", 0, found.start)
        shown = " ".join(found.text.replace(FILLER, "").split())
        yield Fault(file, line, "", _message(shown, known))


def _message(shown: str, graphs: list[Graph]) -> str:
    # However the language spoken writes it, in an expression it has a point.
    pointed = with_point(shown)
    try:
        quantity = read(pointed)
    except QuantityError:
        return say("pages.typed_by_hand", found=shown, value=pointed.replace('"', ""))
    names = list(dict.fromkeys(name for graph in graphs for name in _same(quantity, graph)))
    instead = [f"{{{{ plant.{name} }}}}" for name in names[:MOST_SUGGESTED]]
    instead += [f'{{{{ fact("{name}") }}}}' for name in _facts_of(quantity)]
    if not instead:
        return say("pages.typed_by_hand", found=shown, value=pointed)
    joined = say("quantities.or").join(instead)
    return say("pages.typed_though_known", found=shown, instead=joined, value=pointed)


def _same(quantity: Quantity, graph: Graph) -> Iterator[str]:
    """Figures, then entries, of the value that was typed, within the last digit typed."""
    for name in (*graph.figures, *graph.entries):
        try:
            value = graph[name]
        except FigureError:
            continue
        if value.is_number and _equal(quantity, value):
            yield name


def _equal(quantity: Quantity, value: Value) -> bool:
    if value.kind == "pressure":
        if quantity.kind not in ("gauge_pressure", "absolute_pressure"):
            return False
        beneath = value.atmosphere_pa if quantity.kind == "gauge_pressure" else 0.0
        return beneath is not None and _near(quantity, value.si - beneath)
    return value.kind == quantity.kind and _near(quantity, value.si)


def _near(quantity: Quantity, si: float) -> bool:
    return abs(si - quantity.si) <= _half_digit(quantity)


def _half_digit(quantity: Quantity) -> float:
    """Half of the last digit typed, in the SI unit."""
    number = re.match(r"[+-]?([0-9.]+)(?:[eE]([+-]?[0-9]+))?", quantity.text)
    if number is None:
        return 0.0
    decimals = len(number[1].partition(".")[2]) - int(number[2] or 0)
    step = read(f"{10.0**-decimals:.15g} {quantity.unit}").si - read(f"0 {quantity.unit}").si
    return abs(step) / 2 * (1 + 1e-9)


def _facts_of(quantity: Quantity) -> Iterator[str]:
    for name, one in facts().items():
        if one.quantity.kind == quantity.kind and _near(quantity, one.quantity.si):
            yield name
