"""What the parts of a plant hold: which gas comes where as valves move, sources run, and items are opened."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from enum import Flag, auto

from macros.network.kinds import How
from macros.network.piping import Gate, Piping
from macros.network.reach import Reached

__all__ = ["Contents", "Flow", "Gas", "firm_at", "flooded", "flowed", "gas_of", "in_service", "named_nodes"]


class Gas(Flag):
    """What a part may hold, several at once."""

    NONE = 0
    HYDROGEN = auto()
    OXYGEN = auto()
    AIR = auto()
    NITROGEN = auto()


Contents = tuple[Gas, ...]
"""The gases of every node of gas."""

_OF_MEDIUM: Mapping[str, Gas] = {
    "hydrogen": Gas.HYDROGEN,
    "wet_hydrogen": Gas.HYDROGEN,
    "oxygen": Gas.OXYGEN,
    "air": Gas.AIR,
    "nitrogen": Gas.NITROGEN,
}


def gas_of(medium: str) -> Gas:
    """The gas of a medium; none for water and current."""
    return _OF_MEDIUM.get(medium, Gas.NONE)


def in_service(piping: Piping) -> Contents:
    """What each part holds by its lines; what only a purge line meets holds nitrogen."""
    found = [Gas.NONE] * piping.gas_count
    for port, media in piping.network.media.items():
        for medium in media:
            found[piping.gas_node[port]] |= gas_of(medium)
    # A line of nitrogen ends in every part that can be purged, and brings nothing while its valve is shut.
    process = Gas.HYDROGEN | Gas.OXYGEN | Gas.AIR
    return tuple(gas & process if gas & process else gas for gas in found)


def flooded(
    piping: Piping, contents: Contents, places: Iterable[str], gas: Gas, come: frozenset[int] | None = None
) -> Contents:
    """
    The contents after sections or items were filled with one gas and nothing else.

    Parameters
    ----------
    piping : Piping
    contents : Contents
    places : iterable of str
        Sections and items; a tee stands for what is joined to it.
    gas : Gas
    come : frozenset of int, optional
        Nodes to which the gas has come: of what lies between two valves only these are filled.
    """
    sections = piping.network.sections
    places = tuple(places)
    tags = {tag for name in places for tag in (sections[name].items if name in sections else (name,))}
    if not tags:
        return contents
    found = list(contents)
    for node in named_nodes(piping, places):
        if come is None or node in come:
            found[node] = gas
    doubtful = []
    for node in range(piping.gas_count):
        owners, firm = _owners(piping, node), firm_at(piping, node)
        deciding = firm or owners
        if deciding and deciding <= tags and (firm or come is None or node in come):
            found[node] = gas
        elif not firm and owners & tags and (come is None or node in come):
            doubtful.append(node)
    for node in doubtful:
        beyond = {
            found[gate.gas_end if gate.gas_start == node else gate.gas_start]
            for gate in piping.gates
            if node in (gate.gas_start, gate.gas_end) and not {gate.gas_start, gate.gas_end} & piping.gas_headers
        }
        if beyond <= {gas, Gas.NITROGEN, Gas.NONE}:
            found[node] = gas
    return tuple(found)


def named_nodes(piping: Piping, places: Iterable[str]) -> frozenset[int]:
    """Nodes that are named by a tee of no section: the space between two valves and a bleed has no other name."""
    tags = {name for name in places if name in piping.network.items and name not in piping.section_of}
    return frozenset(node for (tag, _), node in piping.gas_node.items() if tag in tags)


def firm_at(piping: Piping, node: int) -> set[str]:
    """What says to which section a node belongs: a valve does not, since it stands between two."""
    return {tag for tag in _owners(piping, node) if piping.network.items[tag].kind.group != "valve"}


def _owners(piping: Piping, node: int) -> set[str]:
    """Items at a node that some section of the gas there holds; a drain ends the section that it drains."""
    found: set[str] = set()
    if not any(port in piping.network.media for port in piping.gas_ports[node]):
        # Nothing leads there: the air side of a fuel cell.
        return found
    for tag, port in piping.gas_ports[node]:
        name = piping.section_of.get(tag)
        if name is None or piping.network.items[tag].kind.name == "drain":
            continue
        own = gas_of(piping.network.sections[name].medium) | Gas.NITROGEN
        media = piping.network.media.get((tag, port), frozenset())
        gases = [gas_of(medium) for medium in media]
        if not gases or any(gas & own for gas in gases):
            found.add(tag)
    return found


def flowed(reached: Reached, contents: Contents) -> Contents:
    """The contents once everything has flowed that may: what runs brings its gas, what is opened lets in air."""
    return Flow(reached).settle(contents)


class Flow:
    """How gas is carried as things stand: ways from node to node, and how far each node lies from what runs."""

    def __init__(self, reached: Reached) -> None:
        self.reached = reached
        ways = list(_ways(reached, reached.piping.gates))
        self.far = _distances(reached, ways)
        # What a source drives away from itself does not come back against it.
        self.beyond: dict[int, list[int]] = {}
        for start, end in ways:
            if self.far.get(start, 0) <= self.far.get(end, self.far.get(start, 0)):
                self.beyond.setdefault(start, []).append(end)

    def settle(self, contents: Contents) -> Contents:
        """The contents once everything has flowed; the very same where nothing changes."""
        piping, stand = self.reached.piping, self.reached.stand
        found = [gas.value for gas in contents]
        for source in piping.pressures.sources:
            if source.is_live(stand.runs):
                found[piping.gas_node[source.port]] |= gas_of(source.medium).value
        for (tag, _), node in piping.gas_node.items() if stand.opened else ():
            if tag in stand.opened:
                found[node] = Gas.AIR.value
        waiting = list(self.beyond)
        while waiting:
            start = waiting.pop()
            for end in self.beyond.get(start, ()):
                if found[start] & ~found[end]:
                    found[end] |= found[start]
                    waiting.append(end)
        settled = tuple(_GASES[each] for each in found)
        return contents if settled == contents else settled

    def leaves(self, contents: Contents, changed: Reached, tag: str) -> bool:
        """
        Whether settled contents stay as they are though an item has failed or been turned.

        A way that opens changes nothing where its end holds already what its start holds, and lies no farther from a
        source than by it; one that shuts changes nothing where its end lies as near by another.
        """
        gates = self.reached.piping.gates_of.get(tag, ())
        before, after = set(_ways(self.reached, gates)), set(_ways(changed, gates))
        far = self.far
        for start, end in after - before:
            nearer = start in far and (end not in far or far[start] + 1 < far[end])
            if nearer or contents[start] & ~contents[end]:
                return False
        return all(start not in far or far[end] <= far[start] for start, end in before - after)


_GASES = tuple(Gas(value) for value in range(16))


def _distances(reached: Reached, ways: Iterable[tuple[int, int]]) -> dict[int, int]:
    """How many gates away from the nearest source that runs; nothing for what no source feeds."""
    beyond: dict[int, list[int]] = {}
    for start, end in ways:
        beyond.setdefault(start, []).append(end)
    live = [source for source in reached.piping.pressures.sources if source.is_live(reached.stand.runs)]
    far = {reached.piping.gas_node[source.port]: 0 for source in live if gas_of(source.medium)}
    waiting = deque(far)
    while waiting:
        here = waiting.popleft()
        for there in beyond.get(here, ()):
            if there not in far:
                far[there] = far[here] + 1
                waiting.append(there)
    return far


def _ways(reached: Reached, gates: Iterable[Gate]) -> Iterator[tuple[int, int]]:
    """From node to node, as gas is carried; nothing comes back from a vent line, and none past a water line."""
    headers = reached.piping.gas_headers
    for gate in gates:
        for forward, _ in reached.ways_of(gate):
            back = not forward and gate.how is How.LOWERS
            if gate.how is How.RELIEVES or back:
                continue
            start, end = (gate.gas_start, gate.gas_end) if forward else (gate.gas_end, gate.gas_start)
            if start not in headers and start != end:
                yield start, end
