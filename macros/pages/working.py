"""
The working of a number: formula, numbers put in, what is assumed, uncertainty, sources.

`working_body` is the same text in a pop-up of a guide, in a printed note and on the workings page of a plant.
"""

from __future__ import annotations

import functools
import inspect
import sys
from collections.abc import Iterable, Mapping
from html import escape

from macros.calculations.contract import OPAQUE
from macros.calculations.formula import Constant, Symbol, leaves
from macros.figures.graph import ATMOSPHERE, Graph, Value, read_paths
from macros.pages.citations import calls_in, citation, sources_of
from macros.pages.context import PageContext, anchor
from macros.pages.mathml import TooLong, formula, symbol_mathml, symbol_text
from macros.pages.numbers import Numbers
from macros.quantities import Shown, say, unit

__all__ = ["constants", "popover", "symbols_of", "value_span", "working_body"]


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


def value_span(texts: Shown, path: str = "", assumed: bool = False) -> str:
    """A number that cannot be pressed, in all three systems of units; marked where defaults reach it."""
    named = f' data-figure="{escape(path)}"' if path else ""
    return f'<span class="gw-value"{named}{systems(texts)}>{escape(texts.workshop)}</span>{assumed_mark() if assumed else ""}'


def systems(texts: Shown) -> str:
    """The attributes that carry a number in all three systems of units."""
    return (
        f' data-workshop="{escape(texts.workshop)}" data-si="{escape(texts.si)}" data-us="{escape(texts.us)}"'
    )


def assumed_mark() -> str:
    """What follows a number that stands on assumed values."""
    return f'<span class="gw-assumed-mark" role="img" aria-label="{escape(say("pages.assumed_mark"))}">†</span>'


def working_body(graph: Graph, numbers: Numbers, path: str, page: PageContext) -> str:
    """
    The working of an entry or figure, without its title and value.

    Returns
    -------
    str
        Well-formed HTML without ids, so that it may stand more than once.

    Raises
    ------
    FigureError
        If the figure, or one that it reads, cannot be evaluated.
    """
    value = graph[path]
    return _of_entry(graph, value, page) if value.given else _of_figure(graph, numbers, value, page)


def _of_entry(graph: Graph, value: Value, page: PageContext) -> str:
    if value.name in value.assumed:
        source = citation(value.source, "", page)
        safe = graph.entries[value.name].safe
        side = f" {escape(say(f'pages.safe.{safe}'))}" if safe else ""
        typed = escape(value.typed)
        return f'<p class="gw-given">{escape(say("pages.assumed_entry", typed=typed))} {source}.{side}</p>'
    if not value.place:
        return ""
    return f'<p class="gw-given">{escape(say("pages.given_in", place=value.place, typed=value.typed))}</p>'


def _of_figure(graph: Graph, numbers: Numbers, value: Value, page: PageContext) -> str:
    parts = [_formula(graph, value), _inputs(graph, numbers, value, page)]
    if value.kind == "pressure" and ATMOSPHERE in graph and unit(value.unit, "pressure").kind == "gauge_pressure":
        atmosphere = value_span(numbers.shown(ATMOSPHERE, unit_asked="mbar(a)", digits=4), ATMOSPHERE)
        parts.append(f'<p class="gw-gauge">{escape(say("pages.gauge_from"))} {atmosphere}.</p>')
    if value.rounding != "nearest":
        parts.append(f'<p class="gw-rounding">{escape(say(f"pages.rounded.{value.rounding}"))}</p>')
    if spread := numbers.spread(value.name):
        _, largest = numbers.uncertainty(value.name)
        said = say("pages.uncertainty", spread=spread, largest=_title(graph, largest))
        parts.append(f'<p class="gw-uncertainty">{escape(said)}</p>')
    parts.append(_assumed(graph, numbers, value, page))
    cited = sources_of(value)
    if cited:
        listed = "; ".join(citation(key, place, page) for key, place in cited)
        parts.append(f'<p class="gw-source">{escape(say("pages.source"))} {listed}.</p>')
    return "".join(parts)


def _formula(graph: Graph, value: Value) -> str:
    if value.node is None:
        about = (inspect.getdoc(value.compute) or "").strip().split("\n\n")[0] if value.compute else ""
        return f'<p class="gw-about">{escape(" ".join(about.split()))}</p>' if about else ""
    written = symbols_of(leaves(value.node))
    try:
        shown = formula(
            value.symbol,
            value.node,
            lambda one: written[one.path],
            lambda one: _spoken_title(graph, one.path),
            _lowered(value.title),
        )
    except TooLong:
        return f'<p class="gw-about">{escape(say("pages.formula_too_long"))}</p>'
    named = [f"<li>{escape(name)}: {escape(OPAQUE[name])}</li>" for name in calls_in(value.node) if name in OPAQUE]
    functions = f'<ul class="gw-functions">{"".join(named)}</ul>' if named else ""
    return f'<div class="gw-formula">{shown}</div>{functions}'


def _inputs(graph: Graph, numbers: Numbers, value: Value, page: PageContext) -> str:
    symbols = symbols_of(leaves(value.node)) if value.node is not None else {}
    rows = [_input_row(graph, numbers, path, symbols.get(path, ""), page) for path in value.inputs]
    constant_paths = [path for path in symbols if path.startswith("constant:")]
    rows += [_constant_row(path, symbols[path], page) for path in constant_paths]
    # A formula of a macro or of a figures module may pass through values that it does not read by name.
    rows += [
        _input_row(graph, numbers, path, symbols[path], page)
        for path in sorted(read_paths(value) - set(value.inputs))
        if path in graph
    ]
    if not rows:
        return ""
    head = "".join(
        f'<th scope="col">{escape(say(f"pages.column.{one}"))}</th>' for one in ("symbol", "what", "value", "inside")
    )
    return (
        f'<div class="gw-scroll gw-inputs" tabindex="0" role="region" aria-label="{escape(say("pages.numbers_put_in"))}">'
        f'<table><thead><tr>{head}</tr></thead><tbody>{"".join(rows)}</tbody></table></div>'
    )


def _input_row(graph: Graph, numbers: Numbers, path: str, symbol: str, page: PageContext) -> str:
    value = graph[path]
    title = escape(_title(graph, path))
    if link := page.working_url(path):
        title = f'<a href="{link}">{title}</a>'
    if value.is_number:
        number = value_span(numbers.shown(path), path, bool(value.assumed))
        inside = f'<span class="gw-inside">{escape(numbers.inside(path))}</span>'
    else:
        number, inside = escape(said(value)), ""
    return _row(symbol or value.symbol, title, number, inside)


def _constant_row(path: str, symbol: str, page: PageContext) -> str:
    constant = constants()[path]
    link = page.url("facts.md", anchor("c", constant.title))
    written = f"{float(constant)!r} {constant.unit}" if constant.unit not in ("", "1") else repr(float(constant))
    title = f'<a href="{link}">{escape(constant.title)}</a>' if page.name else escape(constant.title)
    return _row(symbol, title, "", f'<span class="gw-inside">{escape(written)}</span>')


def _row(symbol: str, title: str, number: str, inside: str) -> str:
    written = f"<math>{symbol_mathml(symbol)}</math>" if symbol and "." not in symbol else escape(symbol_text(symbol))
    return f'<tr><td>{written}</td><th scope="row">{title}</th><td>{number}</td><td>{inside}</td></tr>'


def _assumed(graph: Graph, numbers: Numbers, value: Value, page: PageContext) -> str:
    if not value.assumed:
        return ""
    items = []
    for path in sorted(value.assumed):
        entry = graph[path]
        title = escape(_title(graph, path))
        if link := page.working_url(path):
            title = f'<a href="{link}">{title}</a>'
        number = value_span(numbers.shown(path), path) if entry.is_number else escape(said(entry))
        items.append(f"<li>{title}: {number}, {citation(entry.source, '', page)}</li>")
    key = "pages.assumed_safety" if value.safety else "pages.assumed"
    return f'<div class="gw-assumptions"><p>{escape(say(key))}</p><ul>{"".join(items)}</ul></div>'


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
    """Every constant that the calculations define, by the path under which formulas name it."""
    found: dict[str, Constant] = {}
    for name, module in sorted(sys.modules.items()):
        if name.startswith("macros.calculations."):
            for one in vars(module).values():
                if isinstance(one, Constant):
                    found[f"constant:{one.title}"] = one
    return found


def _title(graph: Graph, path: str) -> str:
    return graph[path].title or path


def _spoken_title(graph: Graph, path: str) -> str:
    if path.startswith("constant:"):
        return path.removeprefix("constant:")
    return _lowered(_title(graph, path))


def _lowered(title: str) -> str:
    """A title in the middle of a sentence."""
    second = title[1:2]
    return title[:1].lower() + title[1:] if second.islower() or second == " " else title
