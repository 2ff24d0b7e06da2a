"""What is live in a line-up: fed by what runs, or open to a vessel that stores gas under pressure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from macros.network.proofs import Lineup
from macros.network.stand import MARGIN_PA

__all__ = ["circulating", "live_nodes"]


def live_nodes(lineup: Lineup, coupled: frozenset[str] | None = None) -> frozenset[int]:
    """
    The nodes to which gas is brought: by what runs, or by a store that stands open to more than its own section.

    What is open to the air counts too: the oxygen of a running stack leaves by its vent without pressure.

    Parameters
    ----------
    lineup : Lineup
    coupled : frozenset of str, optional
        Inlets of nitrogen to which a bottle is coupled. Up to its valve another inlet is dead; without this, none is.
    """
    reached, piping = lineup.reached, lineup.piping
    found = {node for node in range(piping.count) if reached.is_fed(node)}
    gases = [source for source in piping.pressures.sources if source.medium != "water" and source.is_live(lineup.runs)]
    for source in gases:
        found |= _led_to(lineup, piping.node[source.port])
    if coupled is not None:
        found -= set(_capped(lineup, coupled))
    for nodes in _open_stores(lineup):
        found |= nodes
    return frozenset(found)


def _open_stores(lineup: Lineup) -> Iterator[set[int]]:
    """For each store that holds pressure and stands open to more than its own section, the nodes to which it leads."""
    reached, piping = lineup.reached, lineup.piping
    for tag in piping.pressures.stores:
        node = next(node for (each, _), node in piping.node.items() if each == tag)
        arrival = reached.highest_in(node)
        if arrival is None or arrival.pressure_pa <= lineup.atmosphere_pa + MARGIN_PA:
            continue
        nodes = _led_to(lineup, node)
        section = piping.section_of.get(tag)
        own = piping.nodes_of_section(section) if section is not None else frozenset((node,))
        if nodes - own:
            yield nodes


def circulating(lineup: Lineup) -> frozenset[tuple[str, int]]:
    """
    The runs of water lines round which a running pump moves water, by line and number of the run.

    Water is everywhere under the pump's head; it moves only where the way leads round to the pump again.
    """
    network, positions = lineup.piping.network, lineup.reached.stand.positions
    pumps = {
        source.port[0] for source in lineup.piping.pressures.sources
        if source.medium == "water" and source.is_live(lineup.runs)
    }  # fmt: skip
    shut = {tag for tag, position in positions.items() if position == "closed"}
    runs = {
        (name, number): (run.start[0], run.end[0])
        for name, line in network.lines.items() if line.medium in ("water", "oxygen")
        for number, run in enumerate(line.runs) if not {run.start[0], run.end[0]} & shut
    }  # fmt: skip
    while dead := _dead_ends(runs):
        runs = {key: ends for key, ends in runs.items() if not dead & set(ends)}
    if not any(pumps & set(ends) for ends in runs.values()):
        return frozenset()
    return frozenset(key for key in runs if network.lines[key[0]].medium == "water")


def _dead_ends(runs: Mapping[tuple[str, int], tuple[str, str]]) -> set[str]:
    """Items at which a single run ends."""
    ends = Counter(tag for pair in runs.values() for tag in pair)
    return {tag for tag, count in ends.items() if count == 1}


def _led_to(lineup: Lineup, node: int) -> set[int]:
    """The nodes to which gas can flow from a node as things stand."""
    reached = lineup.reached
    parts = reached.leads_to(node)
    return {each for each in range(lineup.piping.count) if reached.part[each] in parts}


def _capped(lineup: Lineup, coupled: frozenset[str]) -> Iterator[int]:
    """Nodes of no section that nothing feeds but an inlet to which no bottle is coupled."""
    reached, piping = lineup.reached, lineup.piping
    items = piping.network.items
    inlets = {
        source.name for source in piping.pressures.sources
        if items[source.port[0]].kind.name == "purge_inlet" and source.port[0] not in coupled
    }  # fmt: skip
    held = {node for name in piping.network.sections for node in piping.nodes_of_section(name)}
    for node in range(piping.count):
        sources = {arrival.source for arrival in reached.arrivals.get(reached.part[node], {}).values() if arrival.live}
        if sources and sources <= inlets and node not in held:
            yield node
