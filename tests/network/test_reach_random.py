"""
Random networks against brute force: every simple way from every source, listed by another library.

The reference knows ports, lines and one law for each kind, written again here; it shares neither the joining of nodes
nor the order of search with what it checks. networkx lists the ways.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import networkx
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.network.paths import path_to
from macros.network.piping import Piping
from macros.network.pressures import Raise
from macros.network.reach import Reached
from macros.network.stand import Failure
from tests.network.stands import ATMOSPHERE, bar, gauge, piping, stand

LETTERS = {
    "bank": "BK", "buffer": "BV", "hand_valve": "V", "junction": "J", "non_return_valve": "NR",
    "pressure_regulator": "PR", "relief_valve": "RV", "three_way_valve": "TW", "filter": "FI", "booster": "BO",
    "vent": "VT",
}  # fmt: skip
PORTS = {
    "bank": ("in", "out"), "buffer": ("in", "out"), "hand_valve": ("in", "out"), "junction": ("in", "out", "branch"),
    "non_return_valve": ("in", "out"), "pressure_regulator": ("in", "out"), "relief_valve": ("in",),
    "three_way_valve": ("in", "out", "branch"), "filter": ("in", "out"), "booster": ("in", "out"), "vent": ("in",),
}  # fmt: skip
CRACKING = 0.05


@st.composite
def networks(draw: st.DrawFn, most: int = 30) -> tuple[Piping, dict[str, str], dict[str, str], str | None]:
    """A network of up to thirty items, joined at random with few rings, and the positions of its valves."""
    usual = [kind for kind in LETTERS if kind not in ("bank", "vent", "relief_valve", "booster")]
    kinds = draw(st.lists(st.sampled_from([*usual, "bank", "junction", "junction"]), min_size=2, max_size=most - 4))
    kinds += draw(st.lists(st.sampled_from(("bank", "vent", "relief_valve", "booster")), min_size=1, max_size=4))
    items = {f"{LETTERS[kind]}{number}": kind for number, kind in enumerate(kinds, 1)}
    free = {tag: list(PORTS[kind]) for tag, kind in items.items()}
    chains, tags = [], list(items)
    for place, tag in enumerate(tags[1:], 1):
        near = [each for each in tags[:place] if free[each]]
        if near:
            other = draw(st.sampled_from(near))
            one, two = (draw(st.sampled_from(free[each])) for each in (other, tag))
            free[other].remove(one)
            free[tag].remove(two)
            chains.append(f"{other}.{one} > {tag}.{two}")
    for _ in range(draw(st.integers(0, 2))):
        ends = [(tag, port) for tag, ports in free.items() for port in ports]
        if len(ends) >= 2:
            first, second = draw(st.lists(st.sampled_from(ends), min_size=2, max_size=2, unique=True))
            if first[0] != second[0]:
                free[first[0]].remove(first[1])
                free[second[0]].remove(second[1])
                chains.append(f"{first[0]}.{first[1]} > {second[0]}.{second[1]}")
    level = st.integers(1, 200).map(float)
    pipes = piping(
        items, *chains,
        stores={tag: draw(level) for tag, kind in items.items() if kind == "bank"},
        held_to={tag: draw(level) for tag, kind in items.items() if kind == "pressure_regulator"},
        caps={tag: draw(level) for tag, kind in items.items() if kind == "relief_valve"},
        raised={},
    )  # fmt: skip
    positions = {tag: draw(st.sampled_from(("open", "closed"))) for tag, kind in items.items() if kind == "hand_valve"}
    three = ("in_out", "in_branch", "branch_out", "open", "closed")
    positions |= {tag: draw(st.sampled_from(three)) for tag, kind in items.items() if kind == "three_way_valve"}
    leaks = [f"{tag}:leaks_back" for tag, kind in items.items() if kind == "non_return_valve"]
    leaks += [f"{tag}:fails_open" for tag, kind in items.items() if kind == "pressure_regulator"]
    leaks += [f"{tag}:checks_leak" for tag, kind in items.items() if kind == "booster"]
    return pipes, items, positions, draw(st.sampled_from([None, *leaks]))


Port = tuple[str, str]


def reference(
    pipes: Piping, items: dict[str, str], positions: dict[str, str], failure: str | None
) -> dict[Port, float]:
    """Highest pressure of every port in bar(g), by listing every simple way from every bank."""
    graph = networkx.DiGraph()
    free = networkx.Graph()
    eased = networkx.DiGraph()

    def both(one: Port, two: Port) -> None:
        graph.add_edge(one, two)
        graph.add_edge(two, one)
        free.add_edge(one, two)
        eased.add_edge(one, two, slack=0.0)
        eased.add_edge(two, one, slack=0.0)

    for tag, kind in items.items():
        graph.add_nodes_from((tag, port) for port in PORTS[kind])
        free.add_nodes_from((tag, port) for port in PORTS[kind])
        eased.add_nodes_from((tag, port) for port in PORTS[kind])
    for run in pipes.network.runs:
        both(run.start, run.end)
    limits: dict[tuple[Port, Port], float] = {}
    for tag, kind in items.items():
        start, end = (tag, "in"), (tag, "out")
        if kind in ("bank", "buffer", "filter") or (kind == "hand_valve" and positions[tag] == "open"):
            both(start, end)
        elif kind == "junction" or (kind == "three_way_valve" and positions[tag] == "open"):
            both(start, end)
            both(start, (tag, "branch"))
            both((tag, "branch"), end)
        elif kind == "three_way_valve" and positions[tag] != "closed":
            one, two = positions[tag].split("_")
            both((tag, one), (tag, two))
        elif kind == "non_return_valve":
            graph.add_edge(start, end)
            eased.add_edge(start, end, slack=CRACKING)
            if failure == f"{tag}:leaks_back":
                graph.add_edge(end, start)
        elif kind == "booster":
            graph.add_edge(start, end)
            if failure == f"{tag}:checks_leak":
                graph.add_edge(end, start)
        elif kind == "pressure_regulator":
            graph.add_edge(start, end)
            graph.add_edge(end, start)
            if failure != f"{tag}:fails_open":
                limits[start, end] = gauge(pipes.pressures.held_to[tag])
    header = _headers(pipes, items)
    caps = _caps(pipes, eased, header)
    found: dict[Port, float] = {}
    inner = graph.copy()
    # A vent line hands nothing on.
    inner.remove_edges_from([(one, two) for one, two in graph.edges if one in header and two not in header])
    for tag, store_pa in pipes.pressures.stores.items():
        start = (tag, "out")
        for end in inner.nodes:
            ways = [[start]] if end == start else networkx.all_simple_paths(inner, start, end)
            for way in ways:
                pressure = min(gauge(store_pa), caps[start])
                for one, two in pairwise(way):
                    pressure = min(pressure, limits.get((one, two), pressure), caps[two])
                found[end] = max(found.get(end, 0.0), pressure)
    return found


def _headers(pipes: Piping, items: dict[str, str]) -> set[Port]:
    """Ports that lines, tees and filters join to a vent without a vessel: they can never be parted."""
    always = networkx.Graph()
    for tag, kind in items.items():
        ports = [(tag, port) for port in PORTS[kind]]
        always.add_nodes_from(ports)
        if kind in ("bank", "buffer", "filter", "junction"):
            always.add_edges_from(pairwise(ports))
    always.add_edges_from((run.start, run.end) for run in pipes.network.runs)
    found: set[Port] = set()
    for group in networkx.connected_components(always):
        kinds = {items[tag] for tag, _ in group}
        machines = {"bank", "buffer", "filter", "booster"}
        if "vent" in kinds and not kinds & machines:
            found |= group
    return found


def _caps(pipes: Piping, eased: Any, header: set[Port]) -> dict[Port, float]:
    """What reliefs leave at every port: those that it reaches by what is open and by non-return valves."""
    inner = eased.copy()
    inner.remove_edges_from([(one, two) for one, two in eased.edges if one in header and two not in header])
    caps = dict.fromkeys(eased.nodes, float("inf"))
    for tag, cap in pipes.pressures.caps.items():
        lengths = networkx.single_source_dijkstra_path_length(inner.reverse(), (tag, "in"), weight="slack")
        for port, slack in lengths.items():
            # Into a vent line nothing flows that a relief there would ease.
            blocked = (tag, "in") in header and port not in header
            if not blocked:
                caps[port] = min(caps[port], gauge(cap["*"]) + slack)
    return caps


@settings(max_examples=150, deadline=None)
@given(networks())
def test_every_port_is_reached_as_the_list_of_all_ways_says(
    drawn: tuple[Piping, dict[str, str], dict[str, str], str | None],
) -> None:
    pipes, items, positions, failure = drawn
    reached: Reached = stand(pipes, failure=failure, **positions)
    wanted = reference(pipes, items, positions, failure)
    for tag, kind in items.items():
        for port in PORTS[kind]:
            got = gauge(reached.pressure_pa((tag, port)))
            assert abs(got - wanted.get((tag, port), 0.0)) < 1e-5, (tag, port, positions, failure)


@settings(max_examples=60, deadline=None)
@given(networks(most=16))
def test_a_path_is_a_way_that_gas_can_take(drawn: tuple[Piping, dict[str, str], dict[str, str], str | None]) -> None:
    """Neighbours on a path are joined by a line or are one item, and it leads from the source to the port."""
    pipes, items, positions, failure = drawn
    reached = stand(pipes, failure=failure, **positions)
    beside = {frozenset((run.start[0], run.end[0])) for run in pipes.network.runs}
    for tag, kind in items.items():
        port = (tag, PORTS[kind][0])
        arrival = reached.highest(port)
        if arrival is None:
            continue
        path = path_to(reached, arrival, port)
        assert path[0] == arrival.source
        assert path[-1] == tag
        assert all(frozenset(pair) in beside for pair in pairwise(path))


@settings(max_examples=60, deadline=None)
@given(networks(), st.floats(1.0, 150.0))
def test_opening_a_valve_never_lowers_what_is_reached_without_reliefs(
    drawn: tuple[Piping, dict[str, str], dict[str, str], str | None], level: float
) -> None:
    pipes, items, positions, _ = drawn
    if pipes.pressures.caps or any(kind == "vent" for kind in items.values()):
        return
    held = dict.fromkeys(pipes.pressures.stores, level)
    shut = stand(pipes, held=held, **positions)
    opened = {**positions, **{tag: "open" for tag, kind in items.items() if kind == "hand_valve"}}
    wide = stand(pipes, held=held, **opened)
    assert all(wide.pressure_pa(port) >= shut.pressure_pa(port) for port in pipes.node)
    assert bar(level) > ATMOSPHERE


@settings(max_examples=150, deadline=None)
@given(networks(), st.data())
def test_one_change_worked_out_upon_a_stand_is_the_same_as_the_changed_stand_from_the_start(
    drawn: tuple[Piping, dict[str, str], dict[str, str], str | None], data: st.DataObject
) -> None:
    """Failures and turned valves share what they leave as it was; every port is reached as if nothing were shared."""
    bare, items, positions, failure = drawn
    raised = {
        tag: Raise(bar(data.draw(st.floats(10.0, 250.0))), data.draw(st.sampled_from((0.0, 1.0))))
        for tag, kind in items.items() if kind == "booster"
    }  # fmt: skip
    pipes = Piping(bare.network, replace(bare.pressures, raised=raised))
    before = stand(pipes, **positions)
    if failure is not None:
        tag, _, how = failure.partition(":")
        _same(before.failing(Failure(tag, how)), stand(pipes, failure=failure, **positions))
    for tag in positions:
        legs = ("open", "closed") if items[tag] == "hand_valve" else ("in_out", "in_branch", "branch_out", "closed")
        position = data.draw(st.sampled_from(legs))
        _same(before.turned(tag, position), stand(pipes, **{**positions, tag: position}))


def _same(shared: Reached, anew: Reached) -> None:
    pipes = anew.piping
    for port in pipes.node:
        one = {key: arrival.pressure_pa for key, arrival in _arriving(shared, port)}
        other = {key: arrival.pressure_pa for key, arrival in _arriving(anew, port)}
        assert one == other, port
    assert {shared.part.index(part) for part in shared.vented} == {anew.part.index(part) for part in anew.vented}


def _arriving(reached: Reached, port: Port) -> Any:
    return reached.arrivals.get(reached.part[reached.piping.node[port]], {}).items()
