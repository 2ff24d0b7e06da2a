"""
The working of a number: formula, numbers put in, what is assumed, uncertainty, sources.

`working_body` is the same text in a pop-up of a guide, in a printed note and on the workings page of a plant.
"""

from __future__ import annotations

import functools
import importlib
import inspect
import pkgutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from html import escape

import macros.calculations
import macros.figures
from macros.calculations.contract import OPAQUE
from macros.calculations.formula import Constant, Symbol, leaves
from macros.figures.graph import ATMOSPHERE, Graph, Value, read_paths
from macros.pages.citations import calls_in, citation, sources_of
from macros.pages.context import PageContext, anchor
from macros.pages.mathml import TooLongError, formula, symbol_mathml, symbol_text
from macros.pages.numbers import Numbers
from macros.quantities import Shown, say, unit
from macros.quantities.languages import with_mark

__all__ = [
    "assumed_mark", "constants", "lowered", "popover", "said", "scrolling", "symbol_html", "symbols_of", "systems",
    "table_html", "title_in", "value_span", "working_body",
]  # fmt: skip


def popover(key: str, identity: str, title: str, number: str, body: str, link: str, note: str) -> str:
    """
    A working as a pop-up.

    Parameters
    ----------
    key : str
        Name of the figure, for scripts and tests.
    identity : str
        Id of the element, to which buttons refer.
    title : str
        What the number is.
    number : str
        HTML of the number itself.
    body : str
        HTML of its working.
    link : str
        Where the full working stands; empty for none.
    note : str
        Number of the working on its page.
    """
    more = f'<p class="gw-more"><a href="{link}">{escape(say("pages.full_working"))}</a></p>' if link else ""
    return (
        f'<div popover id="{identity}" class="gw-working" role="dialog" aria-label="{escape(title)}" '
        f'data-working="{escape(key)}" data-note="{note}">'
        f'<p class="gw-working-title"><span class="gw-note">{note}</span> {escape(title)}: {number}</p>'
        f"{body}{more}"
        f'<p class="gw-close"><button type="button" popovertarget="{identity}" popovertargetaction="hide">'
        f"{escape(say('pages.close'))}</button></p></div>"
    )


def value_span(texts: Shown, path: str = "") -> str:
    """A number that cannot be pressed, in all three systems of units."""
    named = f' data-figure="{escape(path)}"' if path else ""
    return f'<span class="gw-value"{named}{systems(texts)}>{escape(texts.workshop)}</span>'


def systems(texts: Shown) -> str:
    """The attributes that carry a number in all three systems of units."""
    return f' data-workshop="{escape(texts.workshop)}" data-si="{escape(texts.si)}" data-us="{escape(texts.us)}"'


def assumed_mark() -> str:
    """What follows a number that stands on assumed values."""
    return f'<span class="gw-assumed-mark" role="img" aria-label="{escape(say("pages.assumed_mark"))}">†</span>'


def working_body(graph: Graph, numbers: Numbers, path: str, page: PageContext) -> str:
    """
    The working of an entry or figure, without its title and value.

    Parameters
    ----------
    graph, numbers : Graph, Numbers
        Where it was evaluated, and how its numbers are said. Links are made in the graph of the page's plant only.
    path : str
        Its name there.
    page : PageContext

    Returns
    -------
    str
        Well-formed HTML without ids, so that it may stand more than once.

    Raises
    ------
    FigureError
        If the figure, or one that it reads, cannot be evaluated.
    """
    writer = _Writer(graph, numbers, page)
    value = graph[path]
    return writer.of_entry(value) if value.given else writer.of_figure(value)


@dataclass(frozen=True)
class _Writer:
    """Writes the workings of one graph for one page."""

    graph: Graph
    numbers: Numbers
    page: PageContext

    def of_entry(self, value: Value) -> str:
        if value.name in value.assumed:
            source = citation(value.source, "", self.page)
            safe = self.graph.entries[value.name].safe
            side = f" {escape(say(f'pages.safe.{safe}'))}" if safe else ""
            typed = escape(with_mark(value.typed))
            return f'<p class="gw-given">{escape(say("pages.assumed_entry"))} {typed}; {source}.{side}</p>'
        if not value.place:
            return ""
        return (
            f'<p class="gw-given">{escape(say("pages.given_in", place=value.place, typed=with_mark(value.typed)))}</p>'
        )

    def of_figure(self, value: Value) -> str:
        parts = [self._formula(value), self._inputs(value)]
        if value.atmosphere_pa is not None and unit(value.unit, "pressure").kind == "gauge_pressure":
            atmosphere = self._span(ATMOSPHERE, self.numbers.shown(ATMOSPHERE, 4, "mbar(a)"))
            parts.append(f'<p class="gw-gauge">{escape(say("pages.gauge_from"))} {atmosphere}.</p>')
        if value.rounding != "nearest":
            parts.append(f'<p class="gw-rounding">{escape(say(f"pages.rounded.{value.rounding}"))}</p>')
        if spread := self.numbers.spread(value.name):
            _, largest = self.numbers.uncertainty(value.name)
            text = f"{escape(say('pages.uncertainty'))} {self._linked_title(largest)}."
            parts.append(f'<p class="gw-uncertainty">± {value_span(spread)}: {text}</p>')
        parts.append(self._assumed(value))
        if cited := sources_of(value):
            listed = "; ".join(citation(key, place, self.page) for key, place in cited)
            parts.append(f'<p class="gw-source">{escape(say("pages.source"))} {listed}.</p>')
        return "".join(parts)

    def _formula(self, value: Value) -> str:
        if value.node is None:
            about = (inspect.getdoc(value.compute) or "").partition("\n\n")[0] if value.compute else ""
            return f'<p class="gw-about">{escape(" ".join(about.split()))}</p>' if about else ""
        written = symbols_of(leaves(value.node))
        try:
            shown = formula(
                value.symbol,
                value.node,
                lambda one: written[one.path],
                lambda one: self._spoken_title(one.path),
                lowered(value.title),
            )
        except TooLongError:
            return f'<p class="gw-about">{escape(say("pages.formula_too_long"))}</p>'
        named = [
            f"<li>{escape(say(f'opaque_name.{name}'))}: {escape(say(f'opaque.{name}'))}</li>"
            for name in calls_in(value.node)
            if name in OPAQUE
        ]
        functions = f'<ul class="gw-functions">{"".join(named)}</ul>' if named else ""
        return f'<div class="gw-formula">{shown}</div>{functions}'

    def _inputs(self, value: Value) -> str:
        symbols = symbols_of(leaves(value.node)) if value.node is not None else {}
        # A formula may pass through values that the figure does not read by name.
        further = sorted(read_paths(value) - set(value.inputs))
        paths = [path for path in (*value.inputs, *further) if path in self.graph]
        rows = [self._input_row(path, symbols.get(path, "")) for path in paths]
        rows += [self._constant_row(path, symbols[path]) for path in symbols if path.startswith("constant:")]
        if not rows:
            return ""
        table = table_html(("symbol", "what", "value", "inside"), rows)
        return scrolling(table, say("pages.numbers_put_in"), "gw-inputs")

    def _input_row(self, path: str, symbol: str) -> str:
        value = self.graph[path]
        inside = f'<span class="gw-inside">{escape(self.numbers.inside(path))}</span>' if value.is_number else ""
        return _row(symbol or value.symbol, self._linked_title(path), self._number(value), inside)

    def _constant_row(self, path: str, symbol: str) -> str:
        constant = constants()[path]
        link = self.page.url("facts.md", anchor("c", constant.title))
        number = with_mark(f"{float(constant):.10g} {constant.unit if constant.unit != '1' else ''}".strip())
        title = f'<a href="{link}">{escape(say(f"constant.{constant.title}"))}</a>'
        return _row(symbol, title, "", f'<span class="gw-inside">{escape(number)}</span>')

    def _assumed(self, value: Value) -> str:
        if not value.assumed:
            return ""
        items = [
            f"<li>{self._linked_title(path)}: {self._number(self.graph[path], mark=False)}, "
            f"{citation(self.graph[path].source, '', self.page)}</li>"
            for path in sorted(value.assumed)
        ]
        text = say("pages.assumed_safety" if value.safety else "pages.assumed")
        return f'<div class="gw-assumptions"><p>{escape(text)}</p><ul>{"".join(items)}</ul></div>'

    def _number(self, value: Value, mark: bool = True) -> str:
        if not value.is_number:
            return escape(said(value))
        marked = assumed_mark() if mark and value.assumed else ""
        return self._span(value.name, self.numbers.shown(value.name)) + marked

    def _span(self, path: str, texts: Shown) -> str:
        return value_span(texts, path if self._is_plants else "")

    def _linked_title(self, path: str) -> str:
        title = escape(title_in(self.graph, path))
        link = self.page.working_url(path) if self._is_plants else ""
        return f'<a href="{link}">{title}</a>' if link else title

    def _spoken_title(self, path: str) -> str:
        if path.startswith("constant:"):
            return say(f"constant.{path.removeprefix('constant:')}")
        return lowered(title_in(self.graph, path))

    @property
    def _is_plants(self) -> bool:
        return self.graph is self.page.graph


def _row(symbol: str, title: str, number: str, inside: str) -> str:
    return f'<tr><td>{symbol_html(symbol)}</td><th scope="row">{title}</th><td>{number}</td><td>{inside}</td></tr>'


def symbol_html(symbol: str) -> str:
    """A symbol in a table; the name of a figure that has none, as words."""
    return f"<math>{symbol_mathml(symbol)}</math>" if symbol and "." not in symbol else escape(symbol_text(symbol))


def table_html(columns: Iterable[str], rows: Iterable[str]) -> str:
    """A table of rows that are HTML already; its columns are named in the family `pages.column`."""
    head = "".join(f'<th scope="col">{escape(say(f"pages.column.{one}"))}</th>' for one in columns)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"


def scrolling(table: str, label: str, classes: str = "") -> str:
    """A table that scrolls by itself where the page is too narrow for it, by keyboard too."""
    more = f" {classes}" if classes else ""
    return f'<div class="gw-scroll{more}" tabindex="0" role="region" aria-label="{escape(label)}">{table}</div>'


def said(value: Value) -> str:
    """A value that is no number, in words."""
    if value.kind == "curve":
        return say("pages.points", count=len(value.si.points))
    if isinstance(value.si, bool):
        return say("pages.yes" if value.si else "pages.no")
    if value.kind in ("table", "run"):
        return say(f"pages.kind.{value.kind}")
    if isinstance(value.si, (list, tuple)):
        return ", ".join(map(str, value.si))
    return str(value.si)


def symbols_of(read: Iterable[Symbol]) -> dict[str, str]:
    """
    How each path that a formula reads is written, so that no two of them look alike.

    Symbols that several paths share take on the part of the name in which those differ: `m` of the banks low and high
    become `m_low` and `m_high`.
    """
    symbols = {one.path: one.symbol or one.path.rpartition(".")[2] for one in read}
    sharing: dict[str, list[str]] = {}
    for path, symbol in symbols.items():
        sharing.setdefault(symbol_text(symbol), []).append(path)
    for paths in sharing.values():
        if len(paths) > 1:
            symbols.update(_told_apart(paths, symbols))
    return symbols


def _told_apart(paths: list[str], symbols: Mapping[str, str]) -> dict[str, str]:
    parts = {path: path.split(".") for path in paths}
    shortest = min(map(len, parts.values()))
    differing = [place for place in range(shortest) if len({part[place] for part in parts.values()}) > 1]
    marks = {path: "_".join(part[place].replace("_", " ") for place in differing) for path, part in parts.items()}
    if len(set(marks.values())) < len(paths):
        marks = {path: str(number) for number, path in enumerate(paths, 1)}
    return {path: f"{symbol_text(symbols[path]).replace(' ', '-')}_{marks[path]}" for path in paths}


@functools.cache
def constants() -> dict[str, Constant]:
    """Every constant that calculations and figures define, by the path under which formulas name it."""
    found: dict[str, Constant] = {}
    for package in (macros.calculations, macros.figures):
        for subject in sorted(entry.name for entry in pkgutil.iter_modules(package.__path__)):
            for one in vars(importlib.import_module(f"{package.__name__}.{subject}")).values():
                if isinstance(one, Constant):
                    found[f"constant:{one.title}"] = one
    return found


def title_in(graph: Graph, path: str) -> str:
    """What a path of a graph is called."""
    return graph[path].title or path


def lowered(title: str) -> str:
    """A title in the middle of a sentence."""
    second = title[1:2]
    return title[:1].lower() + title[1:] if second.islower() or second == " " else title
