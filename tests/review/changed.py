"""A plant of the handbook with one thing changed: its description, or its network."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from macros.description.network_file import Item, NetworkFile
from macros.description.plant import PlantFile
from macros.network import Network
from macros.network.network import ratings_in
from tests.review.looking import plant_named

__all__ = ["described", "network"]


def described(name: str, path: str = "", **changes: Any) -> PlantFile:
    """The description of a plant with entries of one part changed; `uses.1` is the first use."""
    return _with(plant_named(name).description.plant, path.split(".") if path else [], changes)


def _with(part: Any, path: list[str], changes: Mapping[str, Any]) -> Any:
    if not path:
        return {**part, **changes} if isinstance(part, dict) else part.model_copy(update=dict(changes))
    step, rest = path[0], path[1:]
    if isinstance(part, list):
        return [_with(each, rest, changes) if str(at) == step else each for at, each in enumerate(part, start=1)]
    if isinstance(part, dict):
        return {key: _with(each, rest, changes) if key == step else each for key, each in part.items()}
    return part.model_copy(update={step: _with(getattr(part, step), rest, changes)})


def network(
    name: str,
    *,
    items: Mapping[str, Mapping[str, Any]] | None = None,
    chains: Mapping[str, str] | None = None,
    media: Mapping[str, str] | None = None,
    without: tuple[str, ...] = (),
) -> Network:
    """
    The network of a plant with settings of items, chains or media of lines changed, or with lines and items left out.

    A tag that the plant has not got becomes a new item, which then needs its kind.
    """
    description = plant_named(name).description
    file = description.network
    found = {tag: item for tag, item in file.items.items() if tag not in without}
    for tag, changes in (items or {}).items():
        if tag in found:
            found[tag] = found[tag].model_copy(update=dict(changes))
        else:
            found[tag] = Item.model_validate({"title": tag, "at": [0, 0], **changes})
    lines = {}
    for tag, line in file.lines.items():
        changes = {"chain": (chains or {}).get(tag, line.chain), "medium": (media or {}).get(tag, line.medium)}
        if tag not in without:
            lines[tag] = line.model_copy(update=changes)
    sections = {
        each: section.model_copy(update={"items": [tag for tag in section.items if tag in found]})
        for each, section in file.sections.items()
    }
    changed = NetworkFile.model_construct(format=1, items=found, lines=lines, sections=sections)
    return Network.build(changed, ratings_in(description))
