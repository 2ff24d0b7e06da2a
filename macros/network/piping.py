"""
A network drawn together: what can never be parted becomes one node, what may part or turn the flow stays a gate.

Line-ups are proved hundreds of times for one plant, with single failures thousands of times. All that does not depend
on the position of a valve is therefore worked out once, here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import inf

from macros.description.item_kinds import HYDROGEN
from macros.network.gases import Gas, gas_of
from macros.network.gates import Gate, Way, sound_ways
from macros.network.kinds import PASSAGES, How
from macros.network.lines import Port
from macros.network.network import Network
from macros.network.pressures import Pressures

__all__ = ["Gate", "Piping", "Weakest"]

JOINED = (How.FREE, How.LIMITS)
APART = (How.CONDUCTS,)
VESSELS = ("vessel", "machine", "use")
"""Groups of kinds that hold gas or use it: a vent line that holds one of them is no mere header."""

STORES = ("buffer", "bank", "vehicle_tank")
"""Kinds that hold so much gas that an open vent alone does not empty them."""

OPEN_USES = ("burner",)
"""Uses that lead to the air as a vent does."""


@dataclass(frozen=True)
class Weakest:
    """The weakest part of a node, and a port to find it by."""

    port: Port
    rating_pa: float
    tag: str
    """Of the item, or of the line."""


class Groups:
    """Numbers that are joined step by step into groups."""

    def __init__(self, count: int) -> None:
        self.above = list(range(count))

    def find(self, one: int) -> int:
        above = self.above
        while above[one] != one:
            above[one] = above[above[one]]
            one = above[one]
        return one

    def join(self, one: int, other: int) -> None:
        self.above[self.find(one)] = self.find(other)


class Piping:
    """The nodes and gates of a network."""

    def __init__(self, network: Network, pressures: Pressures) -> None:
        self.network = network
        self.pressures = pressures
        self.node = self._nodes(water=True)
        """Node of every port at which pressure may stand."""
        self.gas_node = self._nodes(water=False)
        """The same where lines of water part the gas."""
        self.gates = tuple(self._gates())

    def _nodes(self, *, water: bool) -> dict[Port, int]:
        network = self.network
        ports = [(tag, port) for tag, item in network.items.items() for port in item.kind.ports]
        number = {port: place for place, port in enumerate(ports)}
        groups = Groups(len(ports))
        for line in network.lines.values():
            if line.medium == "electric" or (line.medium == "water" and not water):
                continue
            for run in line.runs:
                groups.join(number[run.start], number[run.end])
        for tag, item in network.items.items():
            for passage in PASSAGES[item.kind.name]:
                if passage.positions is None and passage.how in JOINED:
                    groups.join(number[tag, passage.start], number[tag, passage.end])
        first: dict[int, int] = {}
        return {port: first.setdefault(groups.find(place), len(first)) for port, place in number.items()}

    def _gates(self) -> Iterable[Gate]:
        for tag, item in self.network.items.items():
            for passage in PASSAGES[item.kind.name]:
                if passage.how in APART or (passage.positions is None and passage.how in JOINED):
                    continue
                start, end = (tag, passage.start), (tag, passage.end)
                yield Gate(tag, passage, self.node[start], self.node[end], self.gas_node[start], self.gas_node[end])

    @cached_property
    def gates_of(self) -> Mapping[str, tuple[Gate, ...]]:
        """The gates of every item that has any."""
        found: dict[str, list[Gate]] = {}
        for gate in self.gates:
            found.setdefault(gate.tag, []).append(gate)
        return {tag: tuple(gates) for tag, gates in found.items()}

    @cached_property
    def joining(self) -> tuple[Gate, ...]:
        """The gates that make two nodes one part while they stand open."""
        return tuple(gate for gate in self.gates if self._joins(gate))

    @cached_property
    def joined(self) -> frozenset[int]:
        """The nodes at those gates; any other is a part by itself."""
        return frozenset(node for gate in self.joining for node in (gate.start, gate.end))

    @cached_property
    def sound(self) -> Mapping[Gate, tuple[Way, ...]]:
        """The ways through every gate in which nothing has failed."""
        return {gate: tuple(sound_ways(gate, self.pressures, self.headers)) for gate in self.gates}

    @cached_property
    def parting(self) -> tuple[Way, ...]:
        """Those that only lead from part to part; none leads out of a vent line."""
        ways = (way for gate in self.gates if not self._joins(gate) for way in self.sound[gate])
        return tuple(way for way in ways if way.start not in self.headers)

    @cached_property
    def carrying(self) -> Mapping[Gate, tuple[tuple[int, int], ...]]:
        """From node to node of gas through every gate in which nothing has failed."""
        return {gate: tuple(self.carried(ways)) for gate, ways in self.sound.items()}

    def carried(self, ways: Iterable[Way]) -> Iterator[tuple[int, int]]:
        """From node to node, as ways carry gas; nothing comes back from a vent line, and none past a water line."""
        for way in ways:
            start, end = way.gas_ends
            how = way.gate.how
            back = not way.forward and how is How.LOWERS
            if how is not How.RELIEVES and not back and start != end and start not in self.gas_headers:
                yield start, end

    def _joins(self, gate: Gate) -> bool:
        apart = gate.start in self.headers or gate.end in self.headers
        return gate.is_set and gate.how is How.FREE and not apart

    @cached_property
    def count(self) -> int:
        """Number of nodes."""
        return max(self.node.values(), default=-1) + 1

    @cached_property
    def gas_count(self) -> int:
        """Number of nodes of gas."""
        return max(self.gas_node.values(), default=-1) + 1

    @cached_property
    def ports(self) -> Mapping[int, tuple[Port, ...]]:
        """The ports of every node."""
        return _turned(self.node)

    @cached_property
    def gas_ports(self) -> Mapping[int, tuple[Port, ...]]:
        """The ports of every node of gas."""
        return _turned(self.gas_node)

    @cached_property
    def section_of(self) -> Mapping[str, str]:
        """The section that holds an item, by tag."""
        return {tag: name for name, section in self.network.sections.items() for tag in section.items}

    @cached_property
    def owners(self) -> tuple[frozenset[str], ...]:
        """Items at every node of gas that some section of the gas there holds; a drain ends the section that it drains."""
        return tuple(frozenset(self._owners(node)) for node in range(self.gas_count))

    def _owners(self, node: int) -> Iterator[str]:
        network = self.network
        if not any(port in network.media for port in self.gas_ports[node]):
            # Nothing leads there: the air side of a fuel cell.
            return
        for tag, port in self.gas_ports[node]:
            name = self.section_of.get(tag)
            if name is None or network.items[tag].kind.name == "drain":
                continue
            own = gas_of(network.sections[name].medium) | Gas.NITROGEN
            gases = [gas_of(medium) for medium in network.media.get((tag, port), ())]
            if not gases or any(gas & own for gas in gases):
                yield tag

    @cached_property
    def firm(self) -> tuple[frozenset[str], ...]:
        """Those that say to which section a node belongs: a valve does not, since it stands between two."""
        items = self.network.items
        return tuple(frozenset(tag for tag in tags if items[tag].kind.group != "valve") for tags in self.owners)

    @cached_property
    def stores(self) -> frozenset[int]:
        """Nodes of the vessels that store gas."""
        kinds = {tag: item.kind.name for tag, item in self.network.items.items()}
        return frozenset(node for (tag, _), node in self.node.items() if kinds[tag] in STORES)

    def section_holds(self, name: str, port: Port) -> bool:
        """Whether a port of an item of a section belongs to it: the oxygen side of a stack is no part of its train."""
        hydrogen = frozenset(HYDROGEN)
        medium = self.network.sections[name].medium
        media = self.network.media.get(port, frozenset()) - {"nitrogen"}
        return not media or medium in media or (medium in hydrogen and bool(media & hydrogen))

    def ports_of_section(self, name: str) -> tuple[Port, ...]:
        """The ports of a section's items that belong to it, vent lines left out."""
        if name not in self._section_ports:
            tags = set(self.network.sections[name].items)
            own = [
                port for port, node in self.node.items()
                if port[0] in tags and node not in self.headers and port in self.network.media
                and self.section_holds(name, port)
            ]  # fmt: skip
            inside = tuple(port for port in own if self._inside(port, tags))
            # A section of valves alone lies where its valves meet.
            self._section_ports[name] = inside or tuple(
                port for port in own if len({tag for tag, _ in self.ports[self.node[port]] if tag in tags}) > 1
            )
        return self._section_ports[name]

    def nodes_of_section(self, name: str) -> frozenset[int]:
        """The nodes of a section."""
        if name not in self._section_nodes:
            self._section_nodes[name] = frozenset(self.node[port] for port in self.ports_of_section(name))
        return self._section_nodes[name]

    @cached_property
    def _section_nodes(self) -> dict[str, frozenset[int]]:
        return {}

    def nodes_within(self, name: str) -> frozenset[int]:
        """The nodes of a section without those beyond a coupling that ends it, though a pipe may join them when coupled."""
        tags = set(self.network.sections[name].items)
        ends = {tag for tag in tags if self.network.items[tag].kind.name == "quick_coupling"}
        every = self.nodes_of_section(name)
        return frozenset(node for node in every if {tag for tag, _ in self.ports[node]} & tags - ends) or every

    def _inside(self, port: Port, tags: set[str]) -> bool:
        """Whether a port lies in its section and not beyond the valve that ends it."""
        if self.network.items[port[0]].kind.group != "valve":
            return True
        firm = {
            tag for tag, _ in self.ports[self.node[port]]
            if tag in self.section_of and self.network.items[tag].kind.group != "valve"
        }  # fmt: skip
        return bool(firm & tags)

    @cached_property
    def _section_ports(self) -> dict[str, tuple[Port, ...]]:
        return {}

    @cached_property
    def mouths(self) -> frozenset[int]:
        """Nodes that are open to the air at all times: vents and burners."""
        return frozenset(
            node for (tag, _), node in self.node.items() if self.network.items[tag].kind.name in ("vent", *OPEN_USES)
        )

    @cached_property
    def headers(self) -> frozenset[int]:
        """
        Vent lines that hold nothing but tees.

        They stand at the pressure of the air: what enters them leaves by the vent, and enters no other part.
        """
        return self._headers(self.ports)

    @cached_property
    def gas_headers(self) -> frozenset[int]:
        """The same among nodes of gas."""
        return self._headers(self.gas_ports)

    def _headers(self, ports: Mapping[int, tuple[Port, ...]]) -> frozenset[int]:
        found = set()
        for node, held in ports.items():
            kinds = [(self.network.items[tag].kind, port) for tag, port in held]
            vented = any(kind.name == "vent" for kind, _ in kinds)
            if vented and not any(kind.group in VESSELS and port != "exhaust" for kind, port in kinds):
                found.add(node)
        return frozenset(found)

    @cached_property
    def weakest(self) -> Mapping[int, Weakest]:
        """The weakest rated port of every node that has one."""
        found: dict[int, Weakest] = {}
        for port, node in self.node.items():
            rating = self.network.items[port[0]].ratings.get(port[1])
            if rating is None:
                continue
            rating_pa = absolute(rating.kind, rating.si, self.pressures.atmosphere_pa)
            if node not in found or rating_pa < found[node].rating_pa:
                found[node] = Weakest(port, rating_pa, port[0])
        for run in self.network.runs:
            rating_pa = self.pressures.tubes.get(run.line, inf)
            node = self.node[run.start]
            if rating_pa < (found[node].rating_pa if node in found else inf):
                found[node] = Weakest(run.start, rating_pa, run.line)
        return found

    @cached_property
    def relief_nodes(self) -> Mapping[str, int]:
        """Node of the inlet of every relief, disc and vent."""
        kinds = ("relief_valve", "burst_disc", "vent")
        return {tag: self.node[tag, "in"] for tag, item in self.network.items.items() if item.kind.name in kinds}

    @cached_property
    def neighbours(self) -> Mapping[Port, tuple[Port, ...]]:
        """The ports next to a port by a line, or through an item that nothing ever shuts."""
        found: dict[Port, list[Port]] = {}
        for way in self.network.ways(self.network.positions()):
            item = self.network.items.get(way.through)
            always = item is None or not item.kind.positions
            if always and way.how in JOINED:
                found.setdefault(way.start, []).append(way.end)
                found.setdefault(way.end, []).append(way.start)
        return {port: tuple(beside) for port, beside in found.items()}


def absolute(kind: str, si: float, atmosphere_pa: float) -> float:
    """A pressure that may be gauge, as absolute."""
    return si + atmosphere_pa if kind == "gauge_pressure" else si


def _turned(nodes: Mapping[Port, int]) -> dict[int, tuple[Port, ...]]:
    found: dict[int, list[Port]] = {}
    for port, node in nodes.items():
        found.setdefault(node, []).append(port)
    return {node: tuple(held) for node, held in found.items()}
