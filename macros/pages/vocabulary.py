"""
The names that plants of a handbook may have: what a misspelt name is told from one that this plant merely lacks.

Built from the fields of the description, the titles of all figures, and the plants at hand.
"""

from __future__ import annotations

import difflib
import types
import typing
from collections.abc import Iterable, Iterator
from typing import Any

from pydantic import BaseModel

from macros.figures.graph import Graph
from macros.quantities.messages import titles

__all__ = ["Vocabulary", "field_names", "figure_names"]

ANY = "*"
MOST_ALIKE = 0.6

Tree = dict[str, "Tree"]


class Vocabulary:
    """
    Dotted names, in which `*` stands for a name, tag or number.

    Parameters
    ----------
    names : iterable of str
        Full names; every beginning of one counts as a part.
    """

    def __init__(self, names: Iterable[str]) -> None:
        self.names = sorted(set(names))
        self._tree: Tree = {}
        for name in self.names:
            inside = self._tree
            for part in name.split("."):
                inside = inside.setdefault(part, {})

    def knows(self, name: str) -> bool:
        """Whether some plant may have a part, entry or figure of this name."""
        reached = [self._tree]
        for part in name.split("."):
            reached = [inside[key] for inside in reached for key in (part, ANY) if key in inside]
        return bool(reached)

    def nearest(self, name: str, graph: Graph | None = None) -> str:
        """The name most like another: one of this plant, else any that a plant may have; empty if none is like it."""
        for pool in (list(graph or ()), [*self.names, *self._parts()]):
            close = difflib.get_close_matches(name, pool, 1, MOST_ALIKE)
            if close:
                return close[0]
        return ""

    def _parts(self) -> set[str]:
        return {name.split(".")[0] for name in self.names}


def figure_names() -> Iterator[str]:
    """The names of all figures that a plant may have, from the table of their titles."""
    yield from titles("figure")


def field_names(model: type[BaseModel], above: str = "") -> Iterator[str]:
    """The names of all entries that a description may have, from the fields of its model."""
    for name, field in model.model_fields.items():
        yield f"{above}{name}"
        for kind, many in _models_in(field.annotation):
            yield from field_names(kind, f"{above}{name}.{ANY}." if many else f"{above}{name}.")


def _models_in(annotation: Any, many: bool = False) -> Iterator[tuple[type[BaseModel], bool]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation, many
        return
    origin = typing.get_origin(annotation)
    is_union = origin in (typing.Union, types.UnionType)
    for argument in typing.get_args(annotation):
        yield from _models_in(argument, many or not is_union)
