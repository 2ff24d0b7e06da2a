"""
Reached pressures: how high every part of a network can be brought in a line-up, by which source, and along which path.

Each source is followed by itself, since a relief that is proven against one may not be against another. Gas flows
where it may: both ways through what is open, one way through a non-return valve, forward through a booster that stands
still. It loses what a working regulator takes, and what a relief of proven capacity lets off.
"""

from __future__ import annotations

import heapq
from collections import deque
from collections.abc import Container, Iterable, Iterator, Mapping
from copy import copy
from dataclasses import replace
from functools import cached_property
from math import inf

from macros.network.gates import Gate, Way, failed_ways
from macros.network.kinds import How
from macros.network.lines import Port
from macros.network.piping import Groups, Piping, Weakest
from macros.network.stand import MARGIN_PA, Arrival, Failure, Key, Stand

__all__ = ["Reached"]


class Reached:
    """
    What a stand of the plant brings about.

    Parameters
    ----------
    piping : Piping
    stand : Stand
        Items that are left out of its positions stand as if every way through them were open.
    """

    def __init__(self, piping: Piping, stand: Stand) -> None:
        self.piping = piping
        self.stand = stand
        self.arrivals: dict[int, dict[Key, Arrival]] = {}
        """What arrives at every part, by source."""
        self._supplies: dict[str, frozenset[str]] = {}
        self._stalls: dict[str, float] = {}
        self._follow_all()

    # --- parts and ways

    @cached_property
    def part(self) -> list[int]:
        """Part of every node: nodes of one part stand at one pressure."""
        piping, positions = self.piping, self.stand.positions
        groups = Groups(piping.count)
        for gate in piping.joining:
            if gate.stands_open(positions):
                groups.join(gate.start, gate.end)
        found = list(range(piping.count))
        for node in piping.joined:
            found[node] = groups.find(node)
        return found

    @cached_property
    def _ways(self) -> dict[int, list[Way]]:
        """The ways that lead from every part to another, those that a failure opens last."""
        part, positions = self.part, self.stand.positions
        found: dict[int, list[Way]] = {}
        for way in self.piping.parting:
            start = part[way.start]
            if start != part[way.end] and way.gate.stands_open(positions):
                found.setdefault(start, []).append(way)
        for way in self._failed_ways():
            found.setdefault(part[way.start], []).append(way)
        return found

    def _failed_ways(self) -> list[Way]:
        """The ways from part to part that a failure opens."""
        failure, headers, part = self.stand.failure, self.piping.headers, self.part
        if failure is None:
            return []
        gates = self.piping.gates_of.get(failure.tag, ())
        opened = [way for gate in gates for way in failed_ways(gate, failure.how, self.stand.positions)]
        found = [way for way in opened if way.start not in headers]
        if failure.how == "seal_leaks":
            found += self._past_seals(gates)
        return [way for way in found if part[way.start] != part[way.end]]

    def ways_of(self, gate: Gate) -> Iterable[Way]:
        """The ways through a gate as things stand, those that a failure opens last."""
        failure, positions = self.stand.failure, self.stand.positions
        ways = self.piping.sound[gate] if gate.stands_open(positions) else ()
        if failure is None or failure.tag != gate.tag:
            return ways
        return (*ways, *failed_ways(gate, failure.how, positions))

    def _past_seals(self, gates: Iterable[Gate]) -> Iterator[Way]:
        """Ways past the seal of a booster: from gas to drive air, and back."""
        driving = [gate for gate in gates if gate.how is How.DRIVES]
        raising = [gate for gate in gates if gate.how is How.RAISES]
        for drive in driving:
            for gas in raising:
                # Each stroke lets the drive side out by its exhaust, and with it what came past the seal.
                ends = [(gas.end, drive.end), (drive.start, gas.start), (drive.start, gas.end)]
                if drive.end not in self.piping.headers:
                    ends.insert(1, (gas.end, drive.start))
                yield from (Way(start, end, drive, by_failure=True) for start, end in ends)

    # --- sources

    def _follow_all(self) -> None:
        for (source, live), starts in self._origins().items():
            self._follow((source, live), starts)
        self._boost()

    def _origins(self, only: Container[Key] | None = None) -> dict[Key, dict[int, float]]:
        """Where every source but the boosters stands, or some of them, and at what pressure."""
        piping, stand, at = self.piping, self.stand, self.part
        found: dict[Key, dict[int, float]] = {}
        for source in piping.pressures.sources:
            if source.is_live(stand.runs) and (only is None or (source.name, True) in only):
                found[source.name, True] = {at[piping.node[source.port]]: source.pressure_pa}
        for tag, nodes in stand.held.items():
            if only is not None and (tag, False) not in only:
                continue
            starts: dict[int, float] = {}
            for node, pressure_pa in nodes.items():
                if pressure_pa > starts.get(at[node], 0.0):
                    starts[at[node]] = pressure_pa
            found[tag, False] = starts
        return found

    def _boost(self) -> None:
        """Boosters last, each helped by what the others bring to its supply, never by what it brought itself."""
        driven = [tag for tag in self.piping.pressures.raised if self.is_driven(tag)]
        for _ in range(len(driven)):
            for tag in driven:
                stall = self.piping.pressures.raised[tag]
                supply_pa, chain = self.piping.pressures.atmosphere_pa, frozenset((tag,))
                for (source, _), arrival in self.arrivals.get(self.part[self.piping.node[tag, "in"]], {}).items():
                    behind = self._supplies.get(source, frozenset((source,)))
                    if tag not in behind and arrival.pressure_pa > supply_pa:
                        supply_pa, chain = arrival.pressure_pa, behind | {tag}
                self._supplies[tag] = chain
                help_pa = stall.assist * (supply_pa - self.piping.pressures.atmosphere_pa) if stall.assist else 0.0
                self._stalls[tag] = stall.pressure_pa + help_pa
                self._follow((tag, True), {self.part[self.piping.node[tag, "out"]]: self._stalls[tag]})

    def is_driven(self, tag: str) -> bool:
        """Whether drive air reaches a booster; one to which no line of air leads is taken to be driven."""
        port = (tag, "drive_air")
        if len(self.piping.ports[self.piping.node[port]]) == 1:
            return True
        return any(arrival.live for arrival in self.arrivals.get(self.part[self.piping.node[port]], {}).values())

    def _follow(self, key: Key, starts: Mapping[int, float]) -> None:
        """Carry one source as far as it gets."""
        self._spread(key, [(part, False, pressure_pa, ()) for part, pressure_pa in starts.items()])

    def _spread(
        self, key: Key, offers: Iterable[tuple[int, bool, float, tuple[Gate, ...]]], upon: Reached | None = None
    ) -> set[int]:
        """
        Carry what one source offers as far as it gets, the highest pressure first, and tell the parts that it raised.

        Parameters
        ----------
        key : Key
        offers : iterable
            Part, whether the way to it needs the failure, pressure, gates passed.
        upon : Reached, optional
            The same stand without the failure: what arrives there already is not carried again.
        """
        source, live = key
        at, ways, eased = self.part, self._ways, self._eased
        floor_pa = self.piping.pressures.atmosphere_pa + MARGIN_PA
        best: dict[tuple[int, bool], float] = {}
        waiting: list[tuple[float, int, bool, int, tuple[Gate, ...]]] = []
        raised: set[int] = set()
        order = 0

        def offer(part: int, failed: bool, pressure_pa: float, gates: tuple[Gate, ...]) -> None:
            nonlocal order
            least_pa = best.get((part, failed), floor_pa)
            if upon is not None and (settled := upon.arrivals.get(part, {}).get(key)) is not None:
                least_pa = max(least_pa, settled.pressure_pa)
            if pressure_pa <= least_pa:
                return
            capped_pa = min(pressure_pa, self.cap_pa(part, source, failed)) if part in eased else pressure_pa
            if capped_pa > least_pa:
                best[part, failed] = capped_pa
                order += 1
                heapq.heappush(waiting, (-capped_pa, order, failed, part, gates))

        for each in offers:
            offer(*each)
        while waiting:
            negative_pa, _, failed, part, gates = heapq.heappop(waiting)
            pressure_pa = -negative_pa
            if pressure_pa < best[part, failed]:
                continue
            known = self.arrivals.setdefault(part, {})
            before = known.get(key)
            if before is None or before.pressure_pa < pressure_pa:
                if upon is not None and part not in raised:
                    known = self.arrivals[part] = dict(known)
                raised.add(part)
                known[key] = Arrival(pressure_pa, source, live, gates)
            for way in ways.get(part, ()):
                if way.above_pa is not None and pressure_pa <= way.above_pa:
                    continue
                passed_pa = pressure_pa if way.most_pa is None else min(pressure_pa, way.most_pa)
                end, needs = at[way.end], failed or way.by_failure
                # Most ways lead back to where it has been.
                if passed_pa > best.get((end, needs), floor_pa):
                    offer(end, needs, passed_pa, (*gates, way.gate))
        return raised

    # --- the same stand with one thing changed

    def failing(self, failure: Failure) -> Reached:
        """The same stand with something failed; where nothing rises, `arrivals` is the very same."""
        found = copy(self)
        found.stand = replace(self.stand, failure=failure)
        found._forget("_ways", "_into")
        offers: dict[Key, list[tuple[int, bool, float, tuple[Gate, ...]]]] = {}
        for way in found._failed_ways():
            for key, arrival in self.arrivals.get(self.part[way.start], {}).items():
                offer = self.part[way.end], True, arrival.pressure_pa, (*arrival.gates, way.gate)
                offers.setdefault(key, []).append(offer)
        if not offers:
            return found
        found.arrivals = dict(self.arrivals)
        raised = {part for key, each in offers.items() for part in found._spread(key, each, upon=self)}
        if raised & self._moving_boosters:
            found.arrivals, found._supplies, found._stalls = {}, {}, {}
            found._follow_all()
        elif not raised:
            found.arrivals = self.arrivals
        if raised:
            found._forget("_highest", "fed")
        return found

    def turned(self, tag: str, position: str) -> Reached:
        """The same stand with one item in another position; where nothing can change, `arrivals` is the very same."""
        stand = replace(self.stand, positions={**self.stand.positions, tag: position})
        found = Reached.__new__(Reached)
        found.piping, found.stand, found.arrivals = self.piping, stand, self.arrivals
        found._supplies, found._stalls = self._supplies, self._stalls
        turning = {node for gate in self.piping.gates_of.get(tag, ()) for node in (gate.start, gate.end)}
        touched = self._arriving_near({self.part[node] for node in turning - self.piping.headers})
        if touched:
            found._follow_again(touched, self)
        return found

    def _follow_again(self, touched: set[Key], before: Reached) -> None:
        """Follow some sources anew, the others as before; boosters all, if what moves or feeds one may have changed."""
        self.arrivals = {}
        for part, known in before.arrivals.items():
            kept = {key: arrival for key, arrival in known.items() if key not in touched}
            if kept:
                self.arrivals[part] = kept
        for key, starts in self._origins(touched).items():
            self._follow(key, starts)
        boosters = {(tag, True) for tag in self.piping.pressures.raised}
        moved = any(
            not touched.isdisjoint(each.arrivals.get(part, {})) for each in (self, before)
            for part in each._moving_boosters
        )  # fmt: skip
        if moved:
            for known in self.arrivals.values():
                for key in boosters & known.keys():
                    del known[key]
            self._supplies, self._stalls = {}, {}
            self._boost()
            return
        for tag, live in boosters & set(touched):
            if tag in self._stalls:
                self._follow((tag, live), {self.part[self.piping.node[tag, "out"]]: self._stalls[tag]})

    def _arriving_near(self, parts: set[int]) -> set[Key]:
        """The sources that arrive in parts, or in one from which gas or a relief's ease leads there."""
        near, waiting = set(parts), list(parts)
        while waiting:
            for part, way in self._into.get(waiting.pop(), ()):
                if part not in near and way.gate.how is How.ONE_WAY:
                    waiting.append(part)
                near.add(part)
        return {key for part in near for key in self.arrivals.get(part, ())}

    @cached_property
    def _into(self) -> dict[int, list[tuple[int, Way]]]:
        """The ways that lead into every part, each with the part from which it leads."""
        found: dict[int, list[tuple[int, Way]]] = {}
        for part, ways in self._ways.items():
            for way in ways:
                found.setdefault(self.part[way.end], []).append((part, way))
        return found

    @cached_property
    def _moving_boosters(self) -> frozenset[int]:
        """The parts whose pressures decide what boosters bring: their drive air, and their supply where one assists."""
        node, raised = self.piping.node, self.piping.pressures.raised
        ports = ("drive_air", "in") if any(stall.assist for stall in raised.values()) else ("drive_air",)
        return frozenset(self.part[node[tag, port]] for tag in raised for port in ports)

    def _forget(self, *names: str) -> None:
        """Drop what was worked out for another stand."""
        for name in names:
            self.__dict__.pop(name, None)

    def cap_pa(self, part: int, source: str, failed: bool = False) -> float:
        """What the reliefs leave of a source in a part: its own, and those to which it leads by non-return valves."""
        caps = self._caps_near(part)
        names = ("*", source, self.stand.failure.name) if failed and self.stand.failure else ("*", source)
        return min(caps.get(name, inf) for name in names)

    def _caps_near(self, part: int) -> Mapping[str, float]:
        """The least that any relief of a part, or of one to which it leads by non-return valves, leaves there, by source."""
        if part not in self._near:
            near: dict[str, float] = {}
            seen, waiting = {part}, deque([(part, 0.0)])
            while waiting:
                here, slack_pa = waiting.popleft()
                for cap in self._caps.get(here, ()):
                    for name, cap_pa in cap.items():
                        near[name] = min(cap_pa + slack_pa, near.get(name, inf))
                for way in self._ways.get(here, ()):
                    end = self.part[way.end]
                    if way.gate.how is How.ONE_WAY and not way.by_failure and end not in seen:
                        seen.add(end)
                        waiting.append((end, slack_pa + self.piping.pressures.cracks_at.get(way.gate.tag, 0.0)))
            self._near[part] = near
        return self._near[part]

    @cached_property
    def _near(self) -> dict[int, Mapping[str, float]]:
        return {}

    @cached_property
    def _eased(self) -> frozenset[int]:
        """The parts of which some relief caps something: few, so that most are not asked."""
        found = set(self._caps)
        one_way = [
            (self.part[way.start], self.part[way.end]) for way in self.piping.parting if way.gate.how is How.ONE_WAY
        ]
        while more := {start for start, end in one_way if end in found} - found:
            found |= more
        return frozenset(found)

    @cached_property
    def _caps(self) -> dict[int, list[Mapping[str, float]]]:
        found: dict[int, list[Mapping[str, float]]] = {}
        for tag, cap in self.piping.pressures.caps.items():
            node = self.piping.relief_nodes.get(tag)
            if node is not None:
                found.setdefault(self.part[node], []).append(cap)
        return found

    # --- answers

    def highest(self, port: Port) -> Arrival | None:
        """The highest pressure at a port and how it comes there; none where nothing is above the atmosphere."""
        return self.highest_in(self.piping.node[port])

    def highest_in(self, node: int) -> Arrival | None:
        """The same for a node."""
        return self._highest.get(self.part[node])

    def highest_of(self, part: int) -> Arrival | None:
        """The same for a part."""
        return self._highest.get(part)

    @cached_property
    def weakest(self) -> Mapping[int, Weakest]:
        """What bears least of every part that has a rating."""
        found: dict[int, Weakest] = {}
        for node, weak in self.piping.weakest.items():
            part = self.part[node]
            if part not in found or weak.rating_pa < found[part].rating_pa:
                found[part] = weak
        return found

    @cached_property
    def _highest(self) -> dict[int, Arrival]:
        """The highest arrival of every part that has one."""
        return {part: _highest_of(known.values()) for part, known in self.arrivals.items() if known}

    def at(self, port: Port) -> tuple[Arrival, ...]:
        """Everything that arrives at a port."""
        return tuple(self.arrivals.get(self.part[self.piping.node[port]], {}).values())

    def pressure_pa(self, port: Port) -> float:
        """Highest absolute pressure at a port."""
        found = self.highest(port)
        return found.pressure_pa if found is not None else self.piping.pressures.atmosphere_pa

    def is_fed(self, node: int) -> bool:
        """Whether something that runs brings pressure to a node."""
        return self.part[node] in self.fed

    @cached_property
    def fed(self) -> frozenset[int]:
        """Parts to which something that runs brings pressure."""
        return frozenset(
            part for part, known in self.arrivals.items() if any(arrival.live for arrival in known.values())
        )

    @cached_property
    def vented(self) -> frozenset[int]:
        """Parts from which gas can leave to the air without a relief."""
        into: dict[int, set[int]] = {}
        for part, ways in self._ways.items():
            for way in ways:
                if not way.by_failure and way.gate.how not in (How.RELIEVES, How.HOLDS_BACK):
                    into.setdefault(self.part[way.end], set()).add(part)
        mouths = set(self.piping.mouths)
        mouths |= {node for (tag, _), node in self.piping.node.items() if tag in self.stand.opened}
        found = {self.part[node] for node in mouths}
        waiting = list(found)
        while waiting:
            for part in into.get(waiting.pop(), set()) - found:
                found.add(part)
                waiting.append(part)
        return frozenset(found)

    def is_vented(self, node: int) -> bool:
        """Whether gas can leave a node to the air."""
        return self.part[node] in self.vented

    def leads_to(self, node: int) -> frozenset[int]:
        """The parts to which gas can flow from a node as things stand."""
        begin = self.part[node]
        if begin not in self._leads:
            self._leads[begin] = self._led_to(begin)
        return self._leads[begin]

    @cached_property
    def _leads(self) -> dict[int, frozenset[int]]:
        return {}

    def _led_to(self, begin: int) -> frozenset[int]:
        found = {begin}
        waiting = list(found)
        while waiting:
            for way in self._ways.get(waiting.pop(), ()):
                end = self.part[way.end]
                if end not in found and not way.by_failure and way.gate.how is not How.RELIEVES:
                    found.add(end)
                    waiting.append(end)
        return frozenset(found)

    @cached_property
    def bled(self) -> frozenset[int]:
        """Parts from which gas can leave by a vent, whatever else is open to the air."""
        if not self.stand.opened:
            return self.vented
        return Reached(self.piping, replace(self.stand, opened=frozenset(), held={})).vented_nodes(self.part)

    def vented_nodes(self, part: list[int]) -> frozenset[int]:
        """The vented parts, as another division into parts names them."""
        return frozenset(part[node] for node in range(self.piping.count) if self.part[node] in self.vented)

    def eased_by(self, node: int) -> frozenset[int]:
        """The parts whose reliefs ease a node: itself, and those to which it leads without a regulator between."""
        found = {self.part[node]}
        waiting = list(found)
        while waiting:
            for way in self._ways.get(waiting.pop(), ()):
                end = self.part[way.end]
                passes = way.gate.how in (How.FREE, How.ONE_WAY, How.RAISES) and not way.by_failure
                if passes and end not in found:
                    found.add(end)
                    waiting.append(end)
        return frozenset(found)

    def beside(self, part: int) -> Iterator[tuple[int, Gate, bool]]:
        """
        Parts next to a part whichever way the gas goes, the gate between, and whether it stands open.

        What passes one way or changes the pressure counts as open. Nothing is next to a part by way of a vent line, a
        relief, a membrane or a seal.
        """
        for gate in self.piping.gates:
            if gate.how in (How.RELIEVES, How.CROSSES, How.DRIVES) or {gate.start, gate.end} & self.piping.headers:
                continue
            ends = self.part[gate.start], self.part[gate.end]
            if part in ends and ends[0] != ends[1]:
                is_open = not gate.is_set or gate.stands_open(self.stand.positions)
                yield ends[1] if ends[0] == part else ends[0], gate, is_open

    def held(self, emptied: frozenset[int] = frozenset()) -> dict[str, dict[int, float]]:
        """
        What the parts hold once gas has left those that are open to the air.

        A part with a vessel that stores gas is not empty because a valve of it was opened: it is once a gauge said so.

        Parameters
        ----------
        emptied : frozenset of int
            Parts of which a gauge said so.
        """
        stored = {self.part[node] for node in self.piping.stores}
        found: dict[str, dict[int, float]] = {}
        members: dict[int, list[int]] = {}
        for node in range(self.piping.count):
            members.setdefault(self.part[node], []).append(node)
        for part, arrivals in self.arrivals.items():
            for arrival in arrivals.values():
                leaves = part in self.vented and not arrival.live
                if leaves and (part not in stored or part in emptied):
                    continue
                kept = found.setdefault(arrival.source, {})
                for node in members[part]:
                    if node not in self.piping.headers:
                        kept[node] = max(arrival.pressure_pa, kept.get(node, 0.0))
        return found


def _highest_of(arrivals: Iterable[Arrival]) -> Arrival:
    """The first of the highest. Asked for a million times, so without the function that `max` would call for each."""
    found: Arrival | None = None
    for arrival in arrivals:
        if found is None or arrival.pressure_pa > found.pressure_pa:
            found = arrival
    assert found is not None
    return found
