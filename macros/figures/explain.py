"""The working of a figure as text: formula, numbers put in, what is assumed, and the way up and down the graph."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator

from macros.calculations.formula import Call, Node, Number, Operation, Symbol
from macros.calculations.sources import sources
from macros.figures.graph import Graph, Value
from macros.quantities import say
from macros.quantities.languages import between, with_mark

__all__ = ["cited", "explain", "linear"]

RANK = {"+": 1, "-": 1, "*": 2, "/": 2, "neg": 3, "**": 4}
SIGN = {"+": " + ", "-": " − ", "*": "·", "/": " / ", "**": "^"}
NAME = {"log": "ln"}


def linear(node: Node, rank: int = 0) -> str:
    """A formula on one line, `η_F·N·I / (2·F)`, with no more brackets than it needs."""
    if isinstance(node, Number):
        return with_mark(f"{node.value:.12g}")
    if isinstance(node, Symbol):
        return node.symbol or node.path
    if isinstance(node, Call):
        return f"{say(f'opaque_name.{node.name}')}({f'{between()} '.join(linear(argument) for argument in node.arguments)})"
    assert isinstance(node, Operation)
    if node.name not in RANK:
        inside = f"{between()} ".join(linear(argument) for argument in node.arguments)
        return f"{NAME.get(node.name, node.name)}({inside})"
    own = RANK[node.name]
    if node.name == "neg":
        text = "−" + linear(node.arguments[0], own)
    else:
        left, right = node.arguments
        tight = own + 1 if node.name in ("-", "/", "**") else own
        text = linear(left, own + 1 if node.name == "**" else own) + SIGN[node.name] + linear(right, tight)
    return f"({text})" if own < rank else text


def cited(value: Value) -> list[tuple[str, str]]:
    """The sources that a figure stands on, `(key, locator)`: its own, or those its calculation's docstring names."""
    if value.source:
        return [(value.source, "")]
    documented = inspect.getdoc(value.compute) or "" if value.compute else ""
    found = re.findall(r"\[([a-z0-9-]+)(?:, ([^\]]+))?\]", documented.split("Notes")[-1])
    return [(key, locator.strip()) for key, locator in found if key in sources()]


def explain(graph: Graph, path: str) -> str:
    """
    The working of a figure or entry.

    Parameters
    ----------
    graph : Graph
    path : str

    Returns
    -------
    str
        Lines for a terminal: what it is, its formula and numbers, all inputs down to the entries, and what reads it.

    Raises
    ------
    UnknownPath
        If the plant has none of this name.
    """
    return "\n".join(_lines(graph, path))


def _lines(graph: Graph, path: str) -> Iterator[str]:
    value = graph[path]
    spread, largest = (0.0, "") if value.given or not value.is_number else graph.uncertainty(path)
    yield f"{path} = {value.shown(uncertainty=spread or None).workshop}"
    yield f"  {value.title}"
    if value.node is not None and not value.given:
        yield f"  {value.symbol} = {linear(value.node)}"
    for key, locator in [] if value.given else cited(value):
        yield "  " + say("figures.source", source=sources()[key].title, locator=f" ({locator})" if locator else "")
    if spread:
        share = with_mark(f"{spread / abs(value.si):.2%}" if value.si else f"{spread:.3g}")
        yield "  " + say("figures.uncertainty", share=share, largest=largest)
    for one in sorted(value.assumed - {path}):
        yield "  " + say("figures.assumed", name=one, value=graph[one].show())
    yield from _tree(graph, value, "  ", set())
    readers = sorted(name for name in graph.figures if path in graph.inputs_of(name))
    if readers:
        yield "  " + say("figures.read_by", names=", ".join(readers))


def _tree(graph: Graph, value: Value, indent: str, seen: set[str]) -> Iterator[str]:
    for one in value.inputs:
        inner = graph[one]
        origin = inner.place or (say("figures.default", source=inner.source) if inner.given else "")
        again = one in seen and bool(inner.inputs)
        text = f"{indent}{inner.symbol} = {inner.show()}   {one}   {inner.title}"
        yield f"{text}   [{origin}]" if origin else f"{text}   …" if again else text
        if not again:
            seen.add(one)
            yield from _tree(graph, inner, indent + "  ", seen)
