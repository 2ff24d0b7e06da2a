"""The paths of gas through a plant as it stands, tag by tag, as a failed proof names them."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from macros.network.gates import Gate
from macros.network.kinds import How
from macros.network.lines import Port
from macros.network.stand import Arrival

if TYPE_CHECKING:
    from macros.network.reach import Reached

__all__ = ["next_to", "path_to", "search", "way_round"]


def search(
    starts: Iterable[Port], is_goal: Callable[[Port], bool], onward: Callable[[Port], Iterable[Port]]
) -> tuple[str, ...]:
    """The shortest way from one of some ports to a goal, tag by tag; empty where none leads there."""
    before: dict[Port, Port | None] = dict.fromkeys(starts)
    waiting = deque(before)
    while waiting:
        here = waiting.popleft()
        if is_goal(here):
            return _back(before, here)
        for there in onward(here):
            if there not in before:
                before[there] = here
                waiting.append(there)
    return ()


def _back(before: dict[Port, Port | None], end: Port) -> tuple[str, ...]:
    """The tags of a way that is known backwards, each once where it is passed."""
    tags: list[str] = []
    step: Port | None = end
    while step is not None:
        if not tags or tags[-1] != step[0]:
            tags.append(step[0])
        step = before[step]
    return tuple(reversed(tags))


def path_to(reached: Reached, arrival: Arrival, target: Port) -> tuple[str, ...]:
    """The way of an arrival to a port, tag by tag."""
    starts = _starts(reached, arrival)
    part, node = reached.part, reached.piping.node
    allowed = {id(gate) for gate in arrival.gates}
    parts = {part[node[port]] for port in (*starts, target)}
    parts |= {part[end] for gate in arrival.gates for end in (gate.start, gate.end)}
    found = search(starts, lambda port: port == target, lambda port: _beside(reached, port, allowed, parts))
    return found or (arrival.source, target[0])


def _starts(reached: Reached, arrival: Arrival) -> list[Port]:
    pressures, node, part = reached.piping.pressures, reached.piping.node, reached.part
    if arrival.live:
        found = [source.port for source in pressures.sources if source.name == arrival.source]
        return found or [(arrival.source, "out")]
    held = reached.stand.held.get(arrival.source, {})
    own = [port for port in node if port[0] == arrival.source and node[port] in held]
    if own:
        return own
    first = {part[end] for gate in arrival.gates[:1] for end in (gate.start, gate.end)}
    return [port for port, place in node.items() if place in held and (not first or part[place] in first)]


def _beside(reached: Reached, here: Port, allowed: set[int], parts: set[int]) -> Iterator[Port]:
    """Ports next to a port within some parts, or past a gate that is allowed or open."""
    for there in reached.piping.neighbours.get(here, ()):
        if reached.part[reached.piping.node[there]] in parts:
            yield there
    for gate in reached.piping.gates_of.get(here[0], ()):
        ends = _ends(gate)
        if here in ends and (id(gate) in allowed or _joins(reached, gate)):
            yield ends[1] if here == ends[0] else ends[0]


def next_to(reached: Reached, port: Port) -> Iterator[Port]:
    """Ports joined to a port by a line, through an item that is always open, or through a valve that stands so."""
    yield from reached.piping.neighbours.get(port, ())
    for gate in reached.piping.gates_of.get(port[0], ()):
        ends = _ends(gate)
        if port in ends and gate.is_set and gate.stands_open(reached.stand.positions):
            yield ends[1] if port == ends[0] else ends[0]


def way_round(reached: Reached, gate: Gate) -> tuple[str, ...]:
    """The way from behind a non-return valve back to the side before it, tag by tag."""
    goal, start = _ends(gate)
    return search([start], lambda port: port == goal, lambda port: _onward(reached, port, gate)) or (gate.tag,)


def _onward(reached: Reached, here: Port, but: Gate) -> Iterator[Port]:
    """Ports next to a port to which gas can flow, one gate left out."""
    yield from reached.piping.neighbours.get(here, ())
    for gate in reached.piping.gates_of.get(here[0], ()):
        if gate is but or gate.how is How.RELIEVES:
            continue
        ends = _ends(gate)
        for way in reached.ways_of(gate):
            if here == (ends[0] if way.forward else ends[1]) and not way.by_failure:
                yield ends[1] if way.forward else ends[0]


def _ends(gate: Gate) -> tuple[Port, Port]:
    return (gate.tag, gate.passage.start), (gate.tag, gate.passage.end)


def _joins(reached: Reached, gate: Gate) -> bool:
    """Whether a gate stands open and so makes what lies on either side one part; one to a vent line never does."""
    is_open = gate.is_set and gate.stands_open(reached.stand.positions)
    return is_open and reached.part[gate.start] == reached.part[gate.end]
