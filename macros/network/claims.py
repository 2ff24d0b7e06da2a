"""
What steps claim, held against what they do: that nitrogen is let in, that a part is swept, that a gauge stands at zero.

A part is swept of what it held once another gas came to it and left by a vent, at once or after. Who says that a part
is inert without having done so has purged nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from macros.description.procedures_file import Procedure, Step
from macros.network.contents import Contents, Gas, flooded, gas_of, named_nodes
from macros.network.current import CURRENT
from macros.network.pressures import Source
from macros.network.proofs import Failed, Lineup, bar
from macros.network.reach import Reached
from macros.network.stand import Arrival
from macros.quantities import say

__all__ = ["Swept", "always_coupled", "claims", "comes_to", "let_down_ports", "swept_after"]

PRESSURES = ("{safety.purge_pressure}", "{safety.leak_test_pressure}")
"""Readings that a gauge shows only where something brings pressure, and nothing lets it out."""

CLAIMED = (Gas.NITROGEN, Gas.HYDROGEN)


@dataclass(frozen=True)
class Swept:
    """Nodes of gas to which a gas has come, and from which it has left since."""

    came: Mapping[Gas, frozenset[int]] = field(default_factory=lambda: dict.fromkeys(CLAIMED, frozenset()))
    left: Mapping[Gas, frozenset[int]] = field(default_factory=lambda: dict.fromkeys(CLAIMED, frozenset()))
    fed: frozenset[int] = frozenset()
    """Nodes to which something brought pressure since the procedure began."""


def swept_after(before: Swept, lineup: Lineup, step: Step, always: frozenset[str]) -> Swept:
    """What has come and left once a step is done; an inlet that is never admitted by name is always coupled."""
    reached, piping = lineup.reached, lineup.piping
    coupled = always | frozenset(step.admits)
    came: dict[Gas, frozenset[int]] = {}
    left: dict[Gas, frozenset[int]] = {}
    earlier = lineup.before.contents if lineup.before is not None else lineup.contents
    opened = {node for (tag, _), node in piping.gas_node.items() if tag in reached.stand.opened}
    come = [node for node, gas in enumerate(lineup.contents) if gas is not earlier[node]]
    for gas in CLAIMED:
        now = comes_to(reached, gas, coupled)
        gained = opened | {node for node in come if lineup.contents[node] & ~earlier[node] & ~gas}
        kept = (before.came[gas] - gained) | now
        vented = {node for node in kept if reached.is_vented(piping.node[piping.gas_ports[node][0]])}
        came[gas], left[gas] = kept, frozenset((before.left[gas] - gained) | vented)
    parts = {reached.part[node] for node in piping.stores}
    parts |= {
        part for part, arrivals in reached.arrivals.items()
        if any(arrival.live or arrival.gates for arrival in arrivals.values())
    }  # fmt: skip
    fed = before.fed | {node for node in range(piping.count) if reached.part[node] in parts}
    return Swept(came, left, frozenset(fed))


def comes_to(reached: Reached, gas: Gas, coupled: frozenset[str]) -> frozenset[int]:
    """The nodes of gas to which a gas comes as things stand."""
    piping = reached.piping
    sources = {source.name: source for source in piping.pressures.sources}
    parts = {part for part, known in reached.arrivals.items() if _comes(known.values(), gas, coupled, sources)}
    return frozenset(
        node for node, ports in piping.gas_ports.items() if reached.part[piping.node[ports[0]]] in parts
    )  # fmt: skip


def _comes(arrivals: Iterable[Arrival], gas: Gas, coupled: frozenset[str], sources: Mapping[str, Source]) -> bool:
    """Whether a gas is brought to a part: by an inlet that is coupled, by what runs, or from a vessel."""
    for arrival in arrivals:
        source = sources.get(arrival.source)
        unnamed = Gas.NITROGEN if arrival.source == "nitrogen" else Gas.HYDROGEN
        brings = unnamed if source is None else gas_of(source.medium)
        if brings is gas and (gas is not Gas.NITROGEN or not arrival.live or arrival.source in coupled):
            return True
    return False


def claims(
    lineup: Lineup, step: Step, before: Swept, swept: Swept, always: frozenset[str], admitted: frozenset[str]
) -> Iterator[Failed]:
    """What a step says and does not do."""
    yield from _admits(lineup, step, admitted)
    yield from _fills(lineup, step, swept)
    yield from _reads(lineup, step, before, always)


def _admits(lineup: Lineup, step: Step, admitted: frozenset[str]) -> Iterator[Failed]:
    """What is admitted comes somewhere, and a bottle that was coupled is shut off once nothing is to be admitted."""
    for tag in step.admits:
        if not _feeds(lineup, tag):
            yield Failed("steps_do_what_they_say", tag, say("network.admits_nothing", tag=tag), (tag,))
    for tag in sorted(admitted - frozenset(step.admits)):
        if _feeds(lineup, tag):
            yield Failed("steps_do_what_they_say", tag, say("network.still_admitted", tag=tag), (tag,))


def _feeds(lineup: Lineup, tag: str) -> bool:
    """Whether an inlet leads to more than the line up to its own valve."""
    reached, piping = lineup.reached, lineup.piping
    parts = reached.leads_to(piping.node[tag, "out"])
    return any(
        reached.part[node] in parts and piping.network.items[each].kind.group in ("vessel", "machine", "use")
        for (each, _), node in piping.node.items()
    )


def _fills(lineup: Lineup, step: Step, swept: Swept) -> Iterator[Failed]:
    """What is said to hold one gas was swept with it."""
    piping = lineup.piping
    during = lineup.during if lineup.during is not None else lineup.contents
    for gas, places in ((Gas.NITROGEN, step.makes_inert), (Gas.HYDROGEN, step.makes_hydrogen)):
        for place in places:
            probe, named = _probe(lineup, place, gas), named_nodes(piping, (place,))
            for node, mark in enumerate(probe):
                foreign = during[node] & (Gas.HYDROGEN | Gas.OXYGEN | Gas.AIR) & ~gas
                foreign |= during[node] & Gas.NITROGEN & ~gas if gas is Gas.HYDROGEN else Gas.NONE
                firm = {place} if node in named else piping.firm[node]
                if mark and foreign and firm and node not in swept.left[gas] and node not in piping.gas_headers:
                    tag = min(firm)
                    message = "network.not_made_inert" if gas is Gas.NITROGEN else "network.not_made_hydrogen"
                    yield Failed("steps_do_what_they_say", tag, say(message, place=place, tag=tag), (tag,))
                    break


def _probe(lineup: Lineup, place: str, gas: Gas) -> Contents:
    return flooded(lineup.piping, (Gas.NONE,) * lineup.piping.gas_count, [place], gas)


def _reads(lineup: Lineup, step: Step, before: Swept, always: frozenset[str]) -> Iterator[Failed]:
    """What must be read before going on can be read."""
    reached, piping = lineup.reached, lineup.piping
    for reading in step.reads:
        if reading.at is None or (reading.at, "tap") not in piping.node:
            continue
        node = piping.node[reading.at, "tap"]
        if reading.let_down and not reached.is_vented(node) and _holds(lineup, node, before):
            highest = reached.highest_in(node)
            pressure = bar(highest.pressure_pa if highest else lineup.atmosphere_pa, lineup.atmosphere_pa)
            message = say("network.not_let_down", tag=reading.at, pressure=pressure)
            yield Failed("steps_do_what_they_say", reading.at, message, (reading.at,))
        if reading.wanted.startswith(PRESSURES):
            inlets = always | frozenset(step.admits)
            brought = lineup.runs & CURRENT or any(
                arrival.live and arrival.source in inlets
                for arrival in reached.arrivals.get(reached.part[node], {}).values()
            )
            if not brought or reached.is_vented(node):
                message = say("network.pressure_not_reached", tag=reading.at)
                yield Failed("steps_do_what_they_say", reading.at, message, (reading.at,))


def _holds(lineup: Lineup, node: int, before: Swept) -> bool:
    """Whether a part holds pressure that no reading explains: a vessel's, or what was brought since the start."""
    reached, piping = lineup.reached, lineup.piping
    if reached.highest_in(node) is None:
        return False
    nodes = {each for each in range(piping.count) if reached.part[each] == reached.part[node]}
    return bool(nodes & piping.stores) or bool(nodes & before.fed) or reached.is_fed(node)


def let_down_ports(step: Step) -> Iterable[tuple[str, str]]:
    """The gauges that a step wants to see at zero."""
    return ((reading.at, "tap") for reading in step.reads if reading.let_down and reading.at is not None)


def always_coupled(procedures: Iterable[Procedure], inlets: Iterable[str]) -> frozenset[str]:
    """Inlets that no step admits by name: they stay coupled."""
    named = {tag for procedure in procedures for step in procedure.steps for tag in step.admits}
    return frozenset(set(inlets) - named)
