"""Small networks under pressures that are handed in, for tests."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import Any

from macros.description.network_file import NetworkFile
from macros.network import Network
from macros.network.contents import flowed, in_service
from macros.network.piping import Piping
from macros.network.pressures import Pressures, Raise, Source
from macros.network.proofs import Lineup
from macros.network.reach import Reached
from macros.network.stand import Failure, Stand
from tests.network.networks import item

ATMOSPHERE = 101_325.0
CURRENT = frozenset(("current", "holding_current"))


def bar(gauge: float) -> float:
    """bar(g) as Pa absolute."""
    return ATMOSPHERE + gauge * 1e5


def gauge(pressure_pa: float) -> float:
    """Pa absolute as bar(g)."""
    return round((pressure_pa - ATMOSPHERE) / 1e5, 6) if pressure_pa < inf else inf


def piping(
    items: Mapping[str, str | dict[str, Any]], *chains: str, sections: dict[str, Any] | None = None, **pressures: Any
) -> Piping:
    """
    A network of items by tag (kind, or kind with settings), with pressures.

    A stack and its current, the compressor, pumps and inlets become sources by themselves; `stores`, `caps`, `held_to`
    and `raised` are in bar(g).
    """
    lines = {}
    for number, chain in enumerate(chains, 1):
        medium, _, rest = chain.rpartition(": ")
        lines[f"L{number}"] = {"chain": rest, "medium": medium or "hydrogen"}
    described = {
        tag: item(made, column) if isinstance(made, str) else item(column=column, **made)
        for column, (tag, made) in enumerate(items.items())
    }
    file = {"format": 1, "items": described, "lines": lines, "sections": sections or {}}
    ratings = pressures.pop("ratings", {})
    network = Network.build(NetworkFile.model_validate(file), ratings)
    return Piping(network, _pressures(network, pressures))


def _pressures(network: Network, given: dict[str, Any]) -> Pressures:
    sources = []
    for tag, made in network.items.items():
        if made.kind.name == "stack":
            sources.append(Source(tag, (tag, "h2"), inf, "hydrogen", CURRENT))
            sources.append(Source(f"{tag}.o2", (tag, "o2"), inf, "oxygen", CURRENT))
        if made.kind.name == "compressor":
            sources.append(Source(tag, (tag, "out"), _absolute(made.settings["highest_pressure"]), "air"))
        if made.kind.name == "pump":
            highest = _absolute(made.settings["highest_pressure"])
            sources.append(Source(tag, (tag, "out"), highest, "water", frozenset(("pump",))))
        if made.kind.name == "purge_inlet":
            sources.append(Source(tag, (tag, "out"), _absolute(made.settings["supply_pressure"]), "nitrogen"))
    caps = {
        tag: {source: bar(cap) for source, cap in each.items()} if isinstance(each, dict) else {"*": bar(each)}
        for tag, each in given.pop("caps", {}).items()
    }
    raised = given.pop("raised", {})
    return Pressures(
        ATMOSPHERE,
        tuple(sources),
        stores={tag: bar(each) for tag, each in given.pop("stores", {}).items()},
        caps=caps,
        held_to={tag: bar(each) for tag, each in given.pop("held_to", {}).items()},
        raised={
            tag: Raise(bar(each[0]), each[1]) if isinstance(each, tuple) else Raise(bar(each))
            for tag, each in raised.items()
        },
        cracks_at={
            tag: float(made.settings["cracking_pressure"].si)
            for tag, made in network.items.items()
            if made.kind.name == "non_return_valve"
        },
        isolation_pa=bar(given.pop("isolation", 10.0)),
        **given,
    )


def _absolute(found: Any) -> float:
    return float(found.si) + (ATMOSPHERE if found.kind == "gauge_pressure" else 0.0)


def stand(
    pipes: Piping, *, runs: str = "", opened: str = "", failure: str | None = None, held: Any = None, **positions: str
) -> Reached:
    """What a stand brings about; stores hold their pressure unless `held` says what is held, in bar(g) by tag."""
    kept = pipes.pressures.stores if held is None else {tag: bar(each) for tag, each in held.items()}
    nodes = {
        tag: {node: pressure_pa for (each, _), node in pipes.node.items() if each == tag}
        for tag, pressure_pa in kept.items()
    }
    tag, _, how = (failure or "").partition(":")
    return Reached(
        pipes,
        Stand(
            pipes.network.positions(positions),
            frozenset(runs.split()),
            frozenset(opened.split()),
            nodes,
            Failure(tag, how) if failure else None,
        ),
    )


def lineup(pipes: Piping, **given: Any) -> Lineup:
    """A line-up of a stand, whose parts hold what their lines bring in service."""
    at_rest = given.pop("at_rest", False)
    reached = stand(pipes, **given)
    return Lineup(reached, flowed(reached, in_service(pipes)), at_rest=at_rest)


def at(reached: Reached, port: str) -> float:
    """Pressure at a port in bar(g)."""
    tag, _, name = port.partition(".")
    return gauge(reached.pressure_pa((tag, name or "in")))
