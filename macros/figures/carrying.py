"""
What an edit of a description leaves as it was: values carried from the plant before the edit to the plant behind it.

A preview reads a plant anew at each edit. A figure of it whose inputs stand, and whose calculation is the same, is what
it was; only the descendants of what changed are computed.
"""

from __future__ import annotations

import functools
from dataclasses import fields, is_dataclass, replace
from types import FunctionType
from typing import Any, TypeVar

from macros.figures.graph import ATMOSPHERE, Entry, Figure, FigureError, Graph, Value

__all__ = ["carry_over"]

PLAIN = (str, bytes, int, float, bool, frozenset, type(None))

Said = TypeVar("Said", Entry, Value)


def carry_over(former: Graph, graph: Graph) -> None:
    """
    Give a graph the values of a former one that it would compute the same.

    Parameters
    ----------
    former : Graph
        Of the plant before its description was edited, evaluated as far as it may be.
    graph : Graph
        Of the plant behind the edit; nothing of it needs to be evaluated yet.
    """
    if not _same_value(former, graph, ATMOSPHERE):
        return  # every pressure is shown against it
    stand: dict[str, bool] = {}
    for path in graph.figures:
        _stands(path, former, graph, stand)
    graph.take(former, (path for path, stands in stand.items() if stands and path in graph.figures))


def _stands(path: str, former: Graph, graph: Graph, stand: dict[str, bool]) -> bool:
    """Whether a path is the same in both graphs, and all that it is worked out from."""
    if path not in stand:
        stand[path] = False  # a circle stands for nothing
        if path in graph.entries:
            stand[path] = _same_value(former, graph, path)
        elif path in former.figures and _same_figure(former.figures[path], graph.figures[path]):
            inputs = graph.inputs_of(path)
            stand[path] = all(_stands(one, former, graph, stand) for one in inputs)
    return stand[path]


def _same_value(former: Graph, graph: Graph, path: str) -> bool:
    """Whether an entry says the same in both, on whatever line it stands."""
    if path not in former:
        return False
    try:
        before, now = former[path], graph[path]
    except FigureError:
        return False
    return _same(_anywhere(before), _anywhere(now)) and _same(
        *(_anywhere(each.entries[path]) if path in each.entries else None for each in (former, graph))
    )


def _anywhere(said: Said) -> Said:
    """What is said, on whatever line."""
    return replace(said, place="")


def _same_figure(one: Figure, other: Figure) -> bool:
    return all(_same(getattr(one, each.name), getattr(other, each.name)) for each in fields(Figure))


def _same(one: Any, other: Any) -> bool:
    """
    Whether two things are alike in all that a calculation could read of them.

    Functions are where their code is the same and all that is bound to them; of anything that we do not know, no two
    are.
    """
    if one is other:
        return True
    if type(one) is not type(other):
        return False
    if isinstance(one, PLAIN):
        return bool(one == other)
    if isinstance(one, (tuple, list)):
        return len(one) == len(other) and all(map(_same, one, other))
    if isinstance(one, dict):
        return list(one) == list(other) and all(_same(one[key], other[key]) for key in one)
    if isinstance(one, functools.partial):
        return _same((one.func, one.args, one.keywords), (other.func, other.args, other.keywords))
    if isinstance(one, FunctionType):
        return one.__code__ is other.__code__ and _same(_bound(one), _bound(other))
    if is_dataclass(one):
        return all(_same(getattr(one, each.name), getattr(other, each.name)) for each in fields(one))
    return False


def _bound(function: FunctionType) -> tuple[Any, ...]:
    cells = tuple(cell.cell_contents for cell in function.__closure__ or ())
    return (function.__defaults__, function.__kwdefaults__, cells)
