"""
The way of the gas through the main items of a plant: from the stack through what cleans, stores and lifts it to its uses.

What stands between them, valves, tees, hoses and filters, is passed over.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from macros.description.item_kinds import HYDROGEN
from macros.network.network import Network

__all__ = ["MAIN_KINDS", "GasPath", "gas_path"]

MAIN_KINDS = (
    "stack", "separator", "desiccant_column", "buffer", "booster", "bank", "burner", "fuel_cell", "vehicle_tank",
)  # fmt: skip
"""The kinds that stand for a plant where there is little room."""

STORE = "bank"
"""A kind that hangs on a pipe at its end: what branches off the same pipe draws from it."""


@dataclass(frozen=True)
class GasPath:
    """
    Main items in the order of the gas, and the ways from one to the next.

    Attributes
    ----------
    columns : tuple of tuple of str
        Tags; every way leads from a column to one further on.
    ways : tuple of tuple of str
        Pairs of tags.
    """

    columns: tuple[tuple[str, ...], ...]
    ways: tuple[tuple[str, str], ...]


def gas_path(network: Network) -> GasPath:
    """The way of the gas through a network; items that no gas reaches from the stack are left out."""
    following = _following(network)
    starts = [tag for tag, item in network.items.items() if item.kind.name == "stack"]
    after: dict[str, tuple[str, ...]] = {}
    waiting = list(starts)
    while waiting:
        tag = waiting.pop()
        if tag not in after:
            after[tag] = _next_main(tag, network, following)
            waiting += after[tag]
    ways = _forward(_from_stores(network, after), starts)
    depth = _depths([tag for tag in network.items if tag in after], ways)
    columns = tuple(
        tuple(tag for tag in network.items if depth.get(tag) == number)
        for number in range(max(depth.values(), default=-1) + 1)
    )
    return GasPath(columns, tuple(ways))


def _following(network: Network) -> dict[str, list[str]]:
    """The items that hydrogen comes to next from each, along its lines."""
    found: dict[str, list[str]] = {}
    for line in network.lines.values():
        if line.medium in HYDROGEN:
            for run in line.runs:
                found.setdefault(run.start[0], []).append(run.end[0])
    return found


def _next_main(tag: str, network: Network, following: Mapping[str, list[str]]) -> tuple[str, ...]:
    """The main items that gas comes to next, in the order in which it meets them."""
    found: dict[str, None] = {}
    seen = {tag}
    waiting = list(following.get(tag, ()))
    while waiting:
        here = waiting.pop(0)
        if here in seen:
            continue
        seen.add(here)
        if network.items[here].kind.name in MAIN_KINDS:
            found[here] = None
        else:
            waiting += following.get(here, ())
    return tuple(found)


def _from_stores(network: Network, after: Mapping[str, tuple[str, ...]]) -> list[tuple[str, str]]:
    """Ways with each store between what fills it and what draws from the same pipe."""
    ways: dict[tuple[str, str], None] = {}
    for tag, reached in after.items():
        stores = [one for one in reached if network.items[one].kind.name == STORE]
        others = [one for one in reached if one not in stores]
        for store in stores:
            ways[tag, store] = None
            ways.update(dict.fromkeys((store, other) for other in others))
        if not stores:
            ways.update(dict.fromkeys((tag, other) for other in others))
    return list(ways)


def _forward(ways: list[tuple[str, str]], starts: list[str]) -> list[tuple[str, str]]:
    """The ways without those that lead back to where the gas has been: a network may hold a ring."""
    kept: list[tuple[str, str]] = []
    done: set[str] = set()

    def go(tag: str, above: tuple[str, ...]) -> None:
        done.add(tag)
        for way in ways:
            if way[0] == tag and way[1] not in (*above, tag):
                kept.append(way)
                if way[1] not in done:
                    go(way[1], (*above, tag))

    for start in starts:
        if start not in done:
            go(start, ())
    return kept


def _depths(tags: list[str], ways: list[tuple[str, str]]) -> dict[str, int]:
    """The column of each item: one further than the furthest that leads to it."""
    depth = dict.fromkeys(tags, 0)
    for _ in tags:
        for start, end in ways:
            depth[end] = max(depth[end], depth[start] + 1)
    return depth
