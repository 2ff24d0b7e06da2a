"""What the parts of a plant hold: which gas comes where as valves move, sources run, and items are opened."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from macros.network.gases import Gas, gas_of
from macros.network.gates import failed_ways
from macros.network.piping import Piping
from macros.network.reach import Reached

__all__ = ["Contents", "Flow", "Gas", "flooded", "flowed", "gas_of", "in_service", "named_nodes"]


Contents = tuple[Gas, ...]
"""The gases of every node of gas."""


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
    for node, (owners, firm) in enumerate(zip(piping.owners, piping.firm, strict=True)):
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


def flowed(reached: Reached, contents: Contents) -> Contents:
    """The contents once everything has flowed that may: what runs brings its gas, what is opened lets in air."""
    return Flow(reached).settle(contents)


class Flow:
    """How gas is carried as things stand: ways from node to node, and how far each node lies from what runs."""

    def __init__(self, reached: Reached) -> None:
        self.reached = reached
        leads: dict[int, list[int]] = {}
        for start, end in _ways(reached, reached.piping.gates_of):
            leads.setdefault(start, []).append(end)
        self.far = _distances(reached, leads)
        # What a source drives away from itself does not come back against it.
        self.beyond = {start: self._driven(start, ends) for start, ends in leads.items()}

    def _driven(self, start: int, ends: list[int]) -> list[int]:
        """Those of the nodes next to one that lie no nearer to a source."""
        here = self.far.get(start, 0)
        return [end for end in ends if self.far.get(end, here) >= here]

    def settle(self, contents: Contents) -> Contents:
        """The contents once everything has flowed; the very same where nothing changes."""
        piping, stand = self.reached.piping, self.reached.stand
        found = list(contents)
        for source in piping.pressures.sources:
            if source.is_live(stand.runs):
                found[piping.gas_node[source.port]] |= gas_of(source.medium)
        for (tag, _), node in piping.gas_node.items() if stand.opened else ():
            if tag in stand.opened:
                found[node] = Gas.AIR
        waiting = list(self.beyond)
        while waiting:
            start = waiting.pop()
            gas = found[start]
            for end in self.beyond.get(start, ()):
                # Most nodes hold what their neighbours hold: no need to join that.
                if found[end] is not gas and (both := found[end] | gas) is not found[end]:
                    found[end] = both
                    waiting.append(end)
        settled = tuple(found)
        return contents if settled == contents else settled

    def leaves(self, contents: Contents, changed: Reached, tag: str) -> bool:
        """
        Whether settled contents stay as they are though an item has failed or been turned.

        A way that opens changes nothing where its end holds already what its start holds, and lies no farther from a
        source than by it; one that shuts changes nothing where its end lies as near by another.
        """
        before, after = set(_ways(self.reached, (tag,))), set(_ways(changed, (tag,)))
        far = self.far
        for start, end in after - before:
            nearer = start in far and (end not in far or far[start] + 1 < far[end])
            if nearer or contents[start] & ~contents[end]:
                return False
        return all(start not in far or far[end] <= far[start] for start, end in before - after)


def _distances(reached: Reached, leads: Mapping[int, Iterable[int]]) -> dict[int, int]:
    """How many gates away from the nearest source that runs; nothing for what no source feeds."""
    live = [source for source in reached.piping.pressures.sources if source.is_live(reached.stand.runs)]
    far = {reached.piping.gas_node[source.port]: 0 for source in live if gas_of(source.medium)}
    waiting = list(far)
    for here in waiting:
        for there in leads.get(here, ()):
            if there not in far:
                far[there] = far[here] + 1
                waiting.append(there)
    return far


def _ways(reached: Reached, tags: Iterable[str]) -> Iterator[tuple[int, int]]:
    """From node to node, as gas is carried through items."""
    piping, stand = reached.piping, reached.stand
    for tag in tags:
        for gate in piping.gates_of.get(tag, ()):
            if gate.stands_open(stand.positions):
                yield from piping.carrying[gate]
            if stand.failure is not None and stand.failure.tag == tag:
                yield from piping.carried(failed_ways(gate, stand.failure.how, stand.positions))
