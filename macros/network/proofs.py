"""
Proofs of a line-up: what must hold in every state, after every step, and once anything has tripped.

Each proof yields what it found wrong, as data: the name of the proof, the place, the path of the gas tag by tag, the
pressure and the rating. Nothing found means that it holds. What cannot be known counts as wrong.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from math import isfinite

from macros.network.contents import Contents, Flow, Gas, in_service
from macros.network.current import CURRENT, breaks
from macros.network.kinds import How
from macros.network.network import Item
from macros.network.paths import path_to, way_round
from macros.network.piping import Piping
from macros.network.reach import Reached
from macros.network.stand import MARGIN_PA, Arrival, Held
from macros.quantities import say, show

__all__ = ["PROOFS", "Failed", "Lineup", "bar", "prove"]

WARMING = frozenset((*CURRENT, "heater", "pump"))
"""What warms water that is shut in."""

EXPLOSIVE = tuple(
    with_hydrogen | inert
    for with_hydrogen in (Gas.HYDROGEN | Gas.OXYGEN, Gas.HYDROGEN | Gas.AIR, Gas.HYDROGEN | Gas.OXYGEN | Gas.AIR)
    for inert in (Gas.NONE, Gas.NITROGEN)
)
"""What of all that may meet must never meet. Nitrogen beside it does not make it safe."""

RECEIVING = ("buffer", "bank", "vehicle_tank", "burner", "fuel_cell")
"""Kinds that take up what a stack makes."""

WATER = frozenset(("water",))
"""What lines at a port hold that holds water and nothing else."""

BREATHING = ("reservoir", "degassing_pot", "separator", "coalescer")
"""Vessels in which water stands under gas, and so has room to grow."""


@dataclass(frozen=True)
class Failed:
    """What a proof found wrong."""

    proof: str
    where: str
    """Tag of the item."""
    message: str
    path: tuple[str, ...] = ()
    pressure_pa: float | None = None
    rating_pa: float | None = None


@dataclass(frozen=True)
class Lineup:
    """A stand of the plant with what it brings about, and what led to it."""

    reached: Reached
    contents: Contents
    before: Lineup | None = None
    proved_zero: frozenset[int] = frozenset()
    """Nodes at which a gauge was read at zero, and nothing has come since."""
    emptied: frozenset[int] = frozenset()
    """Parts that stand open to a vent, and of which a gauge said that they are let down."""
    at_rest: bool = False
    """Whether the plant may be left like this."""
    during: Contents | None = None
    """What met while the step was done, before what it sweeps was swept; the contents where nothing was swept."""

    @property
    def piping(self) -> Piping:
        return self.reached.piping

    @property
    def runs(self) -> frozenset[str]:
        return self.reached.stand.runs

    @property
    def atmosphere_pa(self) -> float:
        return self.piping.pressures.atmosphere_pa

    @cached_property
    def held(self) -> Held:
        """What is shut in once gas has left what is open to the air."""
        return self.reached.held(self.emptied)

    def node(self, tag: str, port: str) -> int:
        return self.piping.node[tag, port]

    def tags_of(self, kind: str) -> list[str]:
        return [tag for tag, item in self.piping.network.items.items() if item.kind.name == kind]

    @cached_property
    def above_rating(self) -> dict[str, float]:
        """What is reached by more than it bears, and by how much, by tag."""
        return {found.where: found.pressure_pa or 0.0 for found in within_ratings(self)}

    @cached_property
    def section_pressures(self) -> dict[str, float]:
        """Highest pressure of every section."""
        return {name: self._pressure_pa(name) for name in self.piping.network.sections}

    def _pressure_pa(self, section: str) -> float:
        parts = {self.reached.part[node] for node in self.piping.nodes_of_section(section)}
        found = (self.reached.highest_of(part) for part in parts)
        return max((arrival.pressure_pa for arrival in found if arrival is not None), default=self.atmosphere_pa)

    @cached_property
    def flow(self) -> Flow:
        """How gas is carried as things stand."""
        return Flow(self.reached)

    @cached_property
    def is_settled(self) -> bool:
        """Whether all has flowed that may."""
        return self.flow.settle(self.contents) is self.contents

    @cached_property
    def idle_stacks(self) -> frozenset[str]:
        """Sources of hydrogen that have no current and might be given some by one mistake."""
        network, positions = self.piping.network, self.reached.stand.positions
        return frozenset(
            source.name for source in self.piping.pressures.sources
            if source.runs & CURRENT and source.port[1] == "h2" and not source.is_live(self.runs)
            and breaks(network, positions, source.port[0]) < 2
        )  # fmt: skip

    @cached_property
    def inert_sources(self) -> frozenset[str]:
        """Sources of nitrogen, and nitrogen that is held."""
        sources = self.piping.pressures.sources
        return frozenset(("nitrogen", *(source.name for source in sources if source.medium == "nitrogen")))


def bar(pressure_pa: float, atmosphere_pa: float) -> str:
    """A pressure as messages show it."""
    if not isfinite(pressure_pa):
        return say("network.without_limit")
    return show(pressure_pa, "bar(g)", atmosphere_pa=atmosphere_pa)


def way(tags: Iterable[str]) -> str:
    """A path as messages show it."""
    return " > ".join(tags)


def within_ratings(lineup: Lineup) -> Iterator[Failed]:
    """Nothing is reached by more than it bears."""
    reached = lineup.reached
    for part, weak in reached.weakest.items():
        arrival = reached.highest_of(part)
        if arrival is not None and not arrival.pressure_pa <= weak.rating_pa + MARGIN_PA:
            path = path_to(reached, arrival, weak.port)
            values = {"path": way(path), "tag": weak.tag, **_both(lineup, arrival.pressure_pa, weak.rating_pa)}
            yield Failed(
                "within_ratings", weak.tag, say("network.above_rating", **values), path, arrival.pressure_pa,
                weak.rating_pa,
            )  # fmt: skip


def _both(lineup: Lineup, pressure_pa: float, rating_pa: float) -> dict[str, str]:
    return {"pressure": bar(pressure_pa, lineup.atmosphere_pa), "rating": bar(rating_pa, lineup.atmosphere_pa)}


def non_return_valves_hold(lineup: Lineup) -> Iterator[Failed]:
    """What stands behind a non-return valve does not get round it to the side that it guards."""
    reached = lineup.reached
    for gate in lineup.piping.gates:
        if gate.how is not How.ONE_WAY or reached.part[gate.start] not in reached.leads_to(gate.end):
            continue
        arrivals = reached.arrivals.get(reached.part[gate.end], {}).values()
        bad = [found for found in arrivals if found.source not in lineup.inert_sources]
        if bad:
            arrival = max(bad, key=lambda found: found.pressure_pa)
            path = (*path_to(reached, arrival, (gate.tag, "out")), *way_round(reached, gate)[1:])
            pressure = bar(arrival.pressure_pa, lineup.atmosphere_pa)
            message = say("network.round_non_return", tag=gate.tag, path=way(path), pressure=pressure)
            yield Failed("non_return_valves_hold", gate.tag, message, path, arrival.pressure_pa)


def stores_stand_apart(lineup: Lineup) -> Iterator[Failed]:
    """No vessel is filled by another beyond what it is filled to."""
    stores = lineup.piping.pressures.stores
    for tag, own_pa in stores.items():
        port = next(port for port in lineup.piping.node if port[0] == tag)
        for arrival in lineup.reached.arrivals.get(lineup.reached.part[lineup.piping.node[port]], {}).values():
            other = arrival.source
            if other in stores and other != tag and arrival.pressure_pa > own_pa + MARGIN_PA:
                path = path_to(lineup.reached, arrival, port)
                values = _both(lineup, arrival.pressure_pa, own_pa)
                message = say("network.overfilled", tag=tag, other=other, path=way(path), **values)
                yield Failed("stores_stand_apart", tag, message, path, arrival.pressure_pa, own_pa)


def media_stay_apart(lineup: Lineup) -> Iterator[Failed]:
    """Hydrogen meets neither oxygen nor air."""
    told: set[frozenset[int]] = set()
    for node, gas in enumerate(lineup.contents if lineup.during is None else lineup.during):
        if gas not in EXPLOSIVE:
            continue
        items = [lineup.piping.network.items[tag] for tag, _ in lineup.piping.gas_ports[node]]
        # A vent line breathes air, and so does a pot that is open to its vent at all times.
        breathes = node in lineup.piping.gas_headers or any(item.kind.name == "degassing_pot" for item in items)
        if breathes and not gas & Gas.OXYGEN:
            continue
        group = frozenset({lineup.reached.part[lineup.piping.node[port]] for port in lineup.piping.gas_ports[node]})
        if group in told:
            continue
        told.add(group)
        if lineup.before is not None and lineup.before.contents[node] == gas:
            continue
        other = say("network.gas_oxygen" if gas & Gas.OXYGEN else "network.gas_air")
        tag = items[0].tag
        yield Failed("media_stay_apart", tag, say("network.media_mix", tag=_named(items), other=other), (tag,))


def _named(items: Iterable[Item]) -> str:
    tags = dict.fromkeys(item.tag for item in items if item.kind.name != "junction")
    return ", ".join(list(tags)[:4])


def reliefs_serve(lineup: Lineup) -> Iterator[Failed]:
    """No relief is shut off from what it protects while something feeds that, and none from its vent."""
    reached, piping = lineup.reached, lineup.piping
    for name, section in piping.network.sections.items():
        reliefs = [tag for tag in section.relief if tag in piping.relief_nodes]
        if not reliefs:
            continue
        for tag in reliefs:
            outlet = piping.node[tag, "out"]
            if outlet not in piping.headers and not reached.is_vented(outlet):
                yield Failed("reliefs_serve", tag, say("network.relief_outlet_shut", tag=tag), (tag,))
        wanted = {reached.part[piping.relief_nodes[tag]] for tag in reliefs}
        for tag in section.items:
            item = piping.network.items[tag]
            if item.kind.group not in ("vessel", "machine", "use"):
                continue
            for port in item.kind.ports:
                if piping.section_holds(name, (tag, port)) and _needs_relief(lineup, piping.node[tag, port], wanted):
                    arrival = reached.highest((tag, port))
                    path = path_to(reached, arrival, (tag, port)) if arrival else ()
                    message = say("network.relief_shut_off", relief=", ".join(reliefs), tag=tag, path=way(path))
                    yield Failed("reliefs_serve", tag, message, path)
                    break


def _needs_relief(lineup: Lineup, node: int, wanted: set[int]) -> bool:
    """Whether something feeds a node, no relief eases it, and the source is not one that has its own cut-out."""
    reached, piping = lineup.reached, lineup.piping
    if not reached.is_fed(node) or reached.eased_by(node) & wanted:
        return False
    rating_pa = min(
        (found.rating_pa for each, found in piping.weakest.items() if reached.part[each] == reached.part[node]),
        default=0.0,
    )
    compressors = lineup.tags_of("compressor")
    arrivals = [found for found in reached.arrivals[reached.part[node]].values() if found.live]
    return not all(each.source in compressors and each.pressure_pa <= rating_pa for each in arrivals)


def outlets_open(lineup: Lineup) -> Iterator[Failed]:
    """No stack and no positive-displacement pump works against a shut outlet."""
    reached, piping = lineup.reached, lineup.piping
    taking = {
        reached.part[node] for (tag, _), node in piping.node.items()
        if piping.network.items[tag].kind.name in RECEIVING
    } | reached.vented  # fmt: skip
    if lineup.runs & CURRENT:
        for tag in lineup.tags_of("stack"):
            for port, open_to in (("h2", taking), ("o2", reached.vented)):
                if not reached.leads_to(lineup.node(tag, port)) & open_to:
                    message = say("network.stack_shut", tag=f"{tag}.{port}")
                    yield Failed("outlets_open", tag, message, (tag,))
    if "pump" in lineup.runs:
        back = {reached.part[lineup.node(tag, "in")] for tag in lineup.tags_of("reservoir")} | reached.vented
        for tag in lineup.tags_of("pump"):
            displaces = piping.network.items[tag].settings.get("positive_displacement")
            if displaces is not False and not reached.leads_to(lineup.node(tag, "out")) & back:
                yield Failed("outlets_open", tag, say("network.pump_shut", tag=tag), (tag,))


def stack_let_down(lineup: Lineup) -> Iterator[Failed]:
    """A stack without current is let down; one that stopped under pressure has its oxygen side swept."""
    if lineup.runs & CURRENT:
        return
    for tag in lineup.tags_of("stack"):
        node = lineup.node(tag, "h2")
        swept = any(
            arrival.live and arrival.source in lineup.inert_sources
            for arrival in lineup.reached.arrivals.get(lineup.reached.part[lineup.node(tag, "o2")], {}).values()
        )
        bad = _hydrogen_at(lineup, node)
        if bad is not None and not (_lets_down(lineup, node) or swept):
            path = path_to(lineup.reached, bad, (tag, "h2"))
            pressure = bar(bad.pressure_pa, lineup.atmosphere_pa)
            message = say("network.stack_left", tag=tag, pressure=pressure)
            yield Failed("stack_let_down", tag, message, path, bad.pressure_pa)
        elif lineup.piping.pressures.swept and not swept and _stopped_under_pressure(lineup, node):
            yield Failed("stack_let_down", tag, say("network.stack_unswept", tag=tag), (tag,))


def _lets_down(lineup: Lineup, node: int) -> bool:
    """Whether a node is open to a vent, and no vessel that stores gas keeps the pressure up behind it."""
    reached = lineup.reached
    part = reached.part[node]
    kept = part in {reached.part[store] for store in lineup.piping.stores} - lineup.emptied
    return reached.is_vented(node) and not kept


def _hydrogen_at(lineup: Lineup, node: int) -> Arrival | None:
    arrivals = lineup.reached.arrivals.get(lineup.reached.part[node], {}).values()
    return max(
        (found for found in arrivals if found.source not in lineup.inert_sources),
        key=lambda found: found.pressure_pa, default=None,
    )  # fmt: skip


def _stopped_under_pressure(lineup: Lineup, node: int) -> bool:
    """Whether the current went off in this step, and the stack was not let down before."""
    before = lineup.before
    return before is not None and bool(before.runs & CURRENT) and not _lets_down(before, node)


def drives_agree(lineup: Lineup) -> Iterator[Failed]:
    """What runs can run, and what is said to stand still has lost its drive."""
    positions = lineup.reached.stand.positions
    if lineup.runs & CURRENT:
        for tag in lineup.tags_of("isolator"):
            if positions.get(tag) != "closed":
                yield Failed("drives_agree", tag, say("network.no_current", tag=tag), (tag,))
    for tag in lineup.tags_of("booster"):
        if len(lineup.piping.ports[lineup.node(tag, "drive_air")]) == 1:
            continue
        if "booster_air" not in lineup.runs and lineup.reached.is_driven(tag):
            yield Failed("drives_agree", tag, say("network.drive_air_on", tag=tag), (tag,))
        running = "booster_air" in lineup.runs and lineup.reached.is_driven(tag)
        if running and lineup.reached.is_vented(lineup.node(tag, "drive_air")):
            yield Failed("drives_agree", tag, say("network.drive_air_lost", tag=tag), (tag,))
    boosters = lineup.tags_of("booster")
    if "booster_air" in lineup.runs and boosters and not any(lineup.reached.is_driven(tag) for tag in boosters):
        yield Failed("drives_agree", boosters[0], say("network.no_drive_air", tag=boosters[0]), (boosters[0],))


def no_water_shut_in(lineup: Lineup) -> Iterator[Failed]:
    """Water is not shut in without room to grow where it may become warm."""
    if not (lineup.at_rest or lineup.runs & WARMING):
        return
    reached, piping = lineup.reached, lineup.piping
    roomy = set(reached.vented)
    for (tag, _), node in piping.node.items():
        if piping.network.items[tag].kind.name in BREATHING:
            roomy.add(reached.part[node])
    roomy |= {reached.part[node] for node in piping.relief_nodes.values()}
    told: set[int] = set()
    for port, node in piping.node.items():
        part = reached.part[node]
        if piping.network.media.get(port) != WATER or part in told:
            continue
        if port[0] in reached.stand.opened or not _only_water(lineup, part):
            continue
        if not _eased_water(lineup, node) & roomy:
            told.add(part)
            yield Failed("no_water_shut_in", port[0], say("network.water_shut_in", tag=port[0]), (port[0],))


def _eased_water(lineup: Lineup, node: int) -> frozenset[int]:
    """Where water goes that grows: wherever it can flow, and back through a pump that is no displacer."""
    reached, piping = lineup.reached, lineup.piping
    found = reached.leads_to(node)
    for tag in lineup.tags_of("pump"):
        slips = piping.network.items[tag].settings.get("positive_displacement") is False
        if slips and reached.part[lineup.node(tag, "out")] in found:
            found |= reached.leads_to(lineup.node(tag, "in"))
    return found


def _only_water(lineup: Lineup, part: int) -> bool:
    media = lineup.piping.network.media
    return all(
        media.get(port, WATER) == WATER
        for node, ports in lineup.piping.ports.items()
        if lineup.reached.part[node] == part
        for port in ports
    )


def opened_safely(lineup: Lineup) -> Iterator[Failed]:
    """What is opened to the air is without pressure, proved so, inert, and shut off as its pressures demand."""
    for tag in sorted(lineup.reached.stand.opened):
        new = lineup.before is None or tag not in lineup.before.reached.stand.opened
        yield from _isolated(lineup, tag)
        if new:
            yield from _emptied(lineup, tag)


def _emptied(lineup: Lineup, tag: str) -> Iterator[Failed]:
    """Nothing but inert gas in an item, and a gauge read at zero since it was last under pressure."""
    piping = lineup.piping
    service = in_service(piping)
    gas_ports = [port for port in piping.gas_node if port[0] == tag and service[piping.gas_node[port]]]
    before = lineup.before.contents if lineup.before is not None else lineup.contents
    holds = Gas.NONE
    for port in gas_ports:
        holds |= before[piping.gas_node[port]]
    if holds & (Gas.HYDROGEN | Gas.OXYGEN):
        yield Failed("opened_safely", tag, say("network.opened_not_inert", tag=tag), (tag,))
    if gas_ports and not any(lineup.reached.part[piping.node[port]] in lineup.reached.bled for port in gas_ports):
        yield Failed("opened_safely", tag, say("network.opened_unvented", tag=tag), (tag,))
    if not gas_ports:
        yield from _drained(lineup, tag)
    # A vent line stands at the air, without a gauge to say so.
    if gas_ports and not {piping.node[port] for port in gas_ports} <= lineup.proved_zero | piping.headers:
        yield Failed("opened_safely", tag, say("network.opened_unproved", tag=tag), (tag,))


def _drained(lineup: Lineup, tag: str) -> Iterator[Failed]:
    """An item that holds water stands open to no other: what it holds would run out, and more after it."""
    reached, piping = lineup.reached, lineup.piping
    parts = {reached.part[node] for port, node in piping.node.items() if port[0] == tag}
    waiting = list(parts)
    while waiting:
        for end, _, is_open in reached.beside(waiting.pop()):
            if is_open and end not in parts:
                parts.add(end)
                waiting.append(end)
    for (other, _), node in piping.node.items():
        holds = piping.network.items[other].kind.group in ("vessel", "machine")
        if other != tag and holds and reached.part[node] in parts:
            message = say("network.opened_joined", tag=tag, other=other)
            yield Failed("opened_safely", tag, message, (other, tag))
            return


def _isolated(lineup: Lineup, tag: str) -> Iterator[Failed]:
    """
    Every way to an opened item is shut, above the stated pressure by two valves with an open bleed between.

    Non-return valves, boosters and regulators shut nothing. A vent line stands at the air: nothing comes by it.
    """
    reached, piping = lineup.reached, lineup.piping
    beside = reached.beside
    start = {reached.part[node] for port, node in piping.node.items() if port[0] == tag}
    bled = reached.bled
    waiting: list[tuple[int, int, bool, tuple[str, ...]]] = [(part, 0, False, (tag,)) for part in start]
    seen = {(part, 0, False) for part in start}
    told: set[int] = set()
    while waiting:
        part, shut, armed, path = waiting.pop(0)
        pressure_pa, source = _standing(lineup, part)
        if pressure_pa > lineup.atmosphere_pa + MARGIN_PA and part not in told:
            found = tuple(dict.fromkeys((source, *reversed(path))))
            values = {"tag": tag, "path": way(found), "pressure": bar(pressure_pa, lineup.atmosphere_pa)}
            if shut == 0:
                told.add(part)
                idle = source in lineup.idle_stacks
                message = say("network.opened_beside_stack" if idle else "network.opened_under_pressure", **values)
                yield Failed("opened_safely", tag, message, found, pressure_pa)
            elif pressure_pa > piping.pressures.isolation_pa:
                told.add(part)
                message = say("network.single_block" if shut == 1 else "network.no_bleed", **values)
                yield Failed("opened_safely", tag, message, found, pressure_pa)
        if part in told or (part in start and shut):
            continue
        # The bleed counts only behind the first valve.
        armed_now = armed or (shut > 0 and part in bled)
        for end, gate, is_open in beside(part):
            crossed = shut if is_open else min(shut + 1, 2)
            if not is_open and armed_now:
                continue
            state = (end, crossed, armed_now)
            if state not in seen:
                seen.add(state)
                waiting.append((end, crossed, armed_now, (*path, gate.tag)))


def _standing(lineup: Lineup, part: int) -> tuple[float, str]:
    """
    Pressure that stands in a part or may arise there, and its source.

    A stack is one, its current on or off, until two isolators on the way of its current stand open, one of which may
    be shut by mistake.
    """
    reached, piping = lineup.reached, lineup.piping
    found = [(arrival.pressure_pa, arrival.source) for arrival in reached.arrivals.get(part, {}).values()]
    for source in piping.pressures.sources:
        if source.name in lineup.idle_stacks and reached.part[piping.node[source.port]] == part:
            found.append((min(source.pressure_pa, reached.cap_pa(part, source.name)), source.name))
    return min(found, key=lambda each: (-each[0], each[1]), default=(0.0, ""))


PROOFS = (
    within_ratings, non_return_valves_hold, stores_stand_apart, media_stay_apart, reliefs_serve, outlets_open,
    stack_let_down, drives_agree, no_water_shut_in, opened_safely,
)  # fmt: skip


def prove(lineup: Lineup) -> list[Failed]:
    """Everything that the proofs find wrong with a line-up."""
    return [found for proof in PROOFS for found in proof(lineup)]
