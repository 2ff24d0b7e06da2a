"""
Line-ups: every state of a plant, every step of its procedures, every trip and loss, each with what it brings about.

A line-up after a step holds what the steps before it left: gas that is shut in stays, gas that is open to the air goes,
what was opened holds air until it is purged.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from macros.description.plant import Trip
from macros.description.procedures_file import Procedure, ProceduresFile, State, Step
from macros.network.audit import Found, audit
from macros.network.claims import Swept, always_coupled, claims, comes_to, let_down_ports, swept_after
from macros.network.contents import Contents, Gas, flooded, flowed, in_service
from macros.network.current import CURRENT
from macros.network.failures import Outcome, outcomes
from macros.network.piping import Piping
from macros.network.proofs import Failed, Lineup, bar, prove
from macros.network.reach import Reached
from macros.network.stand import Arrival, Stand
from macros.quantities import say

__all__ = ["Lineups", "Progress", "Proved", "Tripped"]

KEPT_ALIVE = frozenset(("fan", "detectors"))
"""What runs on from its battery when the power is lost."""

SHOWING = ("pressure_gauge", "pressure_switch")


@dataclass(frozen=True)
class Proved:
    """A line-up with what is wrong with it."""

    name: str
    """Of the state, or of the procedure."""
    step: int
    """Counted from 1; 0 for the state in which a procedure begins, or a state by itself."""
    changed: Mapping[str, tuple[str, str]]
    """Positions that the step gave: before and after."""
    lineup: Lineup
    failed: tuple[Failed, ...]


@dataclass(frozen=True)
class Tripped:
    """What a trip, or a loss, leaves of a state."""

    cause: str
    sensor: str | None
    state: str
    """State, or procedure and step, in which it came."""
    lineup: Lineup
    failed: tuple[Failed, ...]


@dataclass(frozen=True)
class Progress:
    """How far a procedure has come, and what of it the next step must know."""

    lineup: Lineup
    swept: Swept = field(default_factory=Swept)
    admitted: frozenset[str] = frozenset()
    """Inlets whose bottle was coupled."""
    shut_in: Mapping[frozenset[int], Arrival] = field(default_factory=dict)


class Lineups:
    """The line-ups of a plant."""

    def __init__(self, piping: Piping, file: ProceduresFile, trips: Sequence[Trip] = ()) -> None:
        self.piping = piping
        self.file = file
        self.trips = tuple(trips)
        self.normal = piping.network.positions()

    # --- states

    def states(self) -> Iterator[Proved]:
        """Every state, proved."""
        for name in self.file.states:
            lineup = self.state(name)
            yield Proved(name, 0, {}, lineup, tuple(prove(lineup)))

    def state(self, name: str) -> Lineup:
        """The line-up of a state as it may be found: what is shut in holds the most that service brings there."""
        if name not in self._states:
            state = self.file.states[name]
            contents = self._contents(state)
            stand = self._stand(state, self._held(contents))
            first = Reached(self.piping, stand)
            settled = Reached(self.piping, replace(stand, held=first.held()))
            self._states[name] = Lineup(settled, flowed(settled, contents), at_rest=True)
        return self._states[name]

    @cached_property
    def _states(self) -> dict[str, Lineup]:
        return {}

    def _stand(self, state: State, held: Mapping[str, Mapping[int, float]]) -> Stand:
        return Stand({**self.normal, **state.positions}, frozenset(state.runs), held=held)

    def _contents(self, state: State) -> Contents:
        found = flooded(self.piping, in_service(self.piping), state.air, Gas.AIR)
        return flooded(self.piping, found, state.inert, Gas.NITROGEN)

    def _held(self, contents: Contents) -> dict[str, dict[int, float]]:
        """What is shut in: with hydrogen the most that service brings, with nitrogen no more than its bottles bring."""
        nitrogen_pa = max(
            (source.pressure_pa for source in self.piping.pressures.sources if source.medium == "nitrogen"),
            default=self.piping.pressures.atmosphere_pa,
        )
        found: dict[str, dict[int, float]] = {}
        gas_at: dict[int, Gas] = {}
        for port, node in self.piping.node.items():
            gas_at[node] = gas_at.get(node, Gas.NONE) | contents[self.piping.gas_node[port]]
        for source, nodes in self._service.items():
            for node, pressure_pa in nodes.items():
                gas = gas_at.get(node, Gas.NONE)
                if gas & Gas.HYDROGEN:
                    found.setdefault(source, {})[node] = pressure_pa
                elif gas & Gas.NITROGEN:
                    kept = found.setdefault("nitrogen", {})
                    kept[node] = max(kept.get(node, 0.0), min(pressure_pa, nitrogen_pa))
        return found

    @cached_property
    def _service(self) -> dict[str, dict[int, float]]:
        """The most that each source brings to each node in any state or step."""
        stores: dict[str, dict[int, float]] = {}
        for tag, pressure_pa in self.piping.pressures.stores.items():
            stores[tag] = {node: pressure_pa for (each, _), node in self.piping.node.items() if each == tag}
        found: dict[str, dict[int, float]] = {tag: dict(nodes) for tag, nodes in stores.items()}
        seen = set()
        for positions, runs in self._stands():
            key = (tuple(sorted(positions.items())), runs)
            if key in seen:
                continue
            seen.add(key)
            reached = Reached(self.piping, Stand(positions, runs, held=stores))
            for node in range(self.piping.count):
                for (source, _), arrival in reached.arrivals.get(reached.part[node], {}).items():
                    if node not in self.piping.headers:
                        kept = found.setdefault(source, {})
                        kept[node] = max(kept.get(node, 0.0), arrival.pressure_pa)
        inert = {source.name for source in self.piping.pressures.sources if source.medium != "hydrogen"}
        return {source: nodes for source, nodes in found.items() if source not in inert}

    def _stands(self) -> Iterator[tuple[dict[str, str], frozenset[str]]]:
        """Positions and what runs, in every state and after every step."""
        for state in self.file.states.values():
            yield {**self.normal, **state.positions}, frozenset(state.runs)
        for procedure in self.file.procedures.values():
            start = self.file.states[procedure.start]
            positions, runs = {**self.normal, **start.positions}, frozenset(start.runs)
            for step in procedure.steps:
                positions = {**positions, **step.sets}
                runs = (runs - frozenset(step.stops)) | frozenset(step.starts)
                yield positions, runs

    # --- procedures

    def procedure(self, name: str) -> list[Proved]:
        """A procedure step by step, each proved; first the state in which it begins. Worked out once."""
        if name not in self._procedures:
            self._procedures[name] = self.walk(name, self.file.procedures[name])
        return self._procedures[name]

    @cached_property
    def _procedures(self) -> dict[str, list[Proved]]:
        return {}

    def walk(self, name: str, procedure: Procedure) -> list[Proved]:
        """The same for a procedure that is handed in, as the file has it or changed."""
        progress = self.begin(procedure)
        found = [Proved(name, 0, {}, progress.lineup, ())]
        for number in range(1, len(procedure.steps) + 1):
            proved, progress = self.advance(progress, name, procedure, number)
            found.append(proved)
        return found

    def begin(self, procedure: Procedure) -> Progress:
        """A procedure before its first step."""
        return Progress(self.state(procedure.start))

    def advance(self, progress: Progress, name: str, procedure: Procedure, number: int) -> tuple[Proved, Progress]:
        """The next step of a procedure, counted from 1, proved."""
        step, before = procedure.steps[number - 1], progress.lineup.reached.stand.positions
        after = self._after(progress, step)
        changed = {
            tag: (before.get(tag, ""), position)
            for tag, position in step.sets.items()
            if before.get(tag) != position
        }  # fmt: skip
        swept = swept_after(progress.swept, after, step, self.always_coupled)
        shut_in = self._shut_in(after)
        failed = [
            *prove(after),
            *claims(after, step, progress.swept, swept, self.always_coupled, progress.admitted),
            *self._forgotten(after, progress.shut_in, shut_in),
        ]
        if number == len(procedure.steps):
            failed += self._ends(after, procedure)
        proved = Proved(name, number, changed, after, tuple(failed))
        return proved, Progress(after, swept, progress.admitted | frozenset(step.admits), shut_in)

    def _after(self, progress: Progress, step: Step) -> Lineup:
        before = progress.lineup
        stand = before.reached.stand
        next_stand = Stand(
            {**stand.positions, **step.sets},
            (stand.runs - frozenset(step.stops)) | frozenset(step.starts),
            (stand.opened - frozenset(step.closes)) | frozenset(step.opens),
            before.held,
        )
        reached = Reached(self.piping, next_stand)
        during = flowed(reached, before.contents)
        # What is swept is driven out and does not come back: it is made inert first, and again once all has flowed.
        coupled = self.always_coupled | frozenset(step.admits)
        come = {gas: progress.swept.came[gas] | comes_to(reached, gas, coupled) for gas in progress.swept.came}
        contents = flowed(reached, self._made(before.contents, step, come))
        read = {reached.part[self.piping.node[port]] for port in let_down_ports(step) if self._shows_pressure(port[0])}
        before = replace(before, before=None)
        return Lineup(
            reached, self._made(contents, step, come), before, self._zero(before, reached, read),
            emptied=frozenset(read) & reached.vented, during=during,
        )  # fmt: skip

    def _made(self, contents: Contents, step: Step, come: Mapping[Gas, frozenset[int]]) -> Contents:
        """The contents once what a step makes inert, or fills with hydrogen, holds nothing else."""
        for gas, places in ((Gas.NITROGEN, step.makes_inert), (Gas.HYDROGEN, step.makes_hydrogen)):
            contents = flooded(self.piping, contents, places, gas, come[gas])
        return contents

    @cached_property
    def always_coupled(self) -> frozenset[str]:
        """Inlets of nitrogen that stay coupled, since no step admits them."""
        items = self.piping.network.items
        inlets = (tag for tag, item in items.items() if item.kind.name == "purge_inlet")
        return always_coupled(self.file.procedures.values(), inlets)

    def _zero(self, before: Lineup, reached: Reached, read: set[int]) -> frozenset[int]:
        """Nodes that a gauge proved at zero, in this step or before and untouched since."""
        held = {node for nodes in reached.held(frozenset(read)).values() for node in nodes}
        arrived = {node for node in range(self.piping.count) if reached.arrivals.get(reached.part[node])}
        shown = {node for node in range(self.piping.count) if reached.part[node] in read}
        return frozenset(((before.proved_zero - arrived) | shown) - held)

    def _shows_pressure(self, tag: str) -> bool:
        item = self.piping.network.items[tag]
        return item.kind.name in SHOWING or item.settings.get("measures") == "pressure"

    # --- what the steps forgot

    def _shut_in(self, lineup: Lineup) -> dict[frozenset[int], Arrival]:
        """Parts that hold pressure, shut off from everything, without a gauge, a relief or a vent."""
        reached = lineup.reached
        seen = set()
        for tag, item in self.piping.network.items.items():
            eased = item.kind.name in ("relief_valve", "burst_disc", "buffer", "bank", "vehicle_tank")
            if eased or ("tap" in item.kind.ports and self._shows_pressure(tag)):
                port = "in" if "in" in item.kind.ports else "tap"
                seen.add(reached.part[self.piping.node[tag, port]])
        found: dict[int, list[int]] = {}
        for node in range(self.piping.count):
            part = reached.part[node]
            fed = reached.is_fed(node) or reached.is_vented(node) or node in self.piping.headers
            if not fed and not reached.leads_to(node) & seen:
                found.setdefault(part, []).append(node)
        highest = {part: reached.highest_in(nodes[0]) for part, nodes in found.items()}
        limit_pa = self.piping.pressures.isolation_pa
        return {
            frozenset(found[part]): arrival
            for part, arrival in highest.items()
            if arrival is not None and arrival.pressure_pa > limit_pa
        }

    @cached_property
    def _by_design(self) -> frozenset[frozenset[int]]:
        """Parts that some state shuts in, and so are known."""
        return frozenset(nodes for name in self.file.states for nodes in self._shut_in(self.state(name)))

    def _forgotten(
        self, lineup: Lineup, before: Mapping[frozenset[int], Arrival], now: Mapping[frozenset[int], Arrival]
    ) -> Iterator[Failed]:
        """Pressure that one step shut in, and the next neither let out nor joined to a gauge."""
        for nodes, arrival in now.items():
            if nodes not in before or nodes in self._by_design:
                continue
            port = next(port for port, node in self.piping.node.items() if node in nodes)
            tags = tuple(dict.fromkeys(tag for tag, _ in self._ports(nodes)))
            pressure = bar(arrival.pressure_pa, lineup.atmosphere_pa)
            message = say("network.shut_in", tags=", ".join(tags[:5]), pressure=pressure)
            yield Failed("no_pressure_forgotten", port[0], message, tags, arrival.pressure_pa)

    def _ports(self, nodes: Iterable[int]) -> Iterator[tuple[str, str]]:
        for node in sorted(nodes):
            yield from self.piping.ports[node]

    def _ends(self, lineup: Lineup, procedure: Procedure) -> Iterator[Failed]:
        """The steps lead to the state in which the procedure says it ends, in positions, in drives and in contents."""
        wanted = self._stand(self.file.states[procedure.end], {})
        stand = lineup.reached.stand
        for tag, position in wanted.positions.items():
            if stand.positions.get(tag) != position:
                message = say("network.ends_at", tag=tag, position=stand.positions.get(tag, ""), wanted=position)
                yield Failed("ends_as_it_says", tag, message, (tag,))
        for drive in sorted(stand.runs ^ wanted.runs):
            message = say("network.ends_running" if drive in stand.runs else "network.ends_still", drive=drive)
            yield Failed("ends_as_it_says", drive, message)
        for tag in sorted(stand.opened):
            yield Failed("ends_as_it_says", tag, say("network.ends_opened", tag=tag), (tag,))
        state = self.file.states[procedure.end]
        for name in state.inert:
            probe = flooded(self.piping, (Gas.NONE,) * self.piping.gas_count, [name], Gas.NITROGEN)
            if any(mark and gas & ~Gas.NITROGEN for mark, gas in zip(probe, lineup.contents, strict=True)):
                yield Failed("ends_as_it_says", name, say("network.ends_not_inert", section=name))

    # --- trips and losses

    def trips_proved(self) -> tuple[Tripped, ...]:
        """Every trip and every loss, from every state in which current flows or a booster strokes; worked out once."""
        return self._trips_proved

    @cached_property
    def _trips_proved(self) -> tuple[Tripped, ...]:
        return tuple(self._all_tripped())

    def _all_tripped(self) -> Iterator[Tripped]:
        for name, state in self.file.states.items():
            if not frozenset(state.runs) & {*CURRENT, "booster_air"}:
                continue
            for cause, sensor, lineup in self.tripped(self.state(name)):
                yield Tripped(cause, sensor, name, lineup, tuple(prove(lineup)))

    def tripped(self, before: Lineup) -> Iterator[tuple[str, str | None, Lineup]]:
        """A line-up after each trip and loss."""
        for trip in self.trips:
            yield trip.cause, trip.sensor, self._tripped(before, [trip])
        yield "power_lost", None, self.power_lost(before)
        yield "drive_air_lost", None, self._lost(before, "drive_air_lost", {"booster_air", "compressor"}, fails=True)
        yield "water_lost", None, self._lost(before, "water_flow_low", {"pump"})
        yield "ventilation_lost", None, self._lost(before, "fan_lost", {"fan"})

    def power_lost(self, before: Lineup) -> Lineup:
        """A line-up once the power is lost: every actuator falls to its fail position, and only batteries go on."""
        return self._lost(before, "power_lost", set(before.runs - KEPT_ALIVE), fails=True)

    def _lost(self, before: Lineup, cause: str, drives: set[str], *, fails: bool = False) -> Lineup:
        return self._tripped(before, [trip for trip in self.trips if trip.cause == cause], drives, fails=fails)

    def _tripped(
        self, before: Lineup, trips: Iterable[Trip], drives: Iterable[str] = (), *, fails: bool = False
    ) -> Lineup:
        stand = before.reached.stand
        positions, runs = dict(stand.positions), stand.runs - frozenset(drives)
        for trip in trips:
            positions |= {**dict.fromkeys(trip.shuts, "closed"), **dict.fromkeys(trip.opens, "open")}
            runs -= frozenset(trip.stops)
        if fails:
            for tag, item in self.piping.network.items.items():
                fail = item.settings.get("fail_position")
                if isinstance(fail, str) and fail != "stays":
                    positions[tag] = fail
        reached = Reached(self.piping, replace(stand, positions=positions, runs=runs, held=before.held))
        return Lineup(reached, flowed(reached, before.contents), before, before.proved_zero, at_rest=True)

    # --- single failures

    def single_failures(self) -> Iterator[tuple[str, Outcome]]:
        """Every single failure of every state."""
        for name in self.file.states:
            for outcome in outcomes(self.state(name)):
                yield name, outcome

    def all_failed(self) -> Iterator[tuple[str, int, Failed]]:
        """Everything that any proof finds wrong, by state or procedure and step."""
        return ((found.place.words, found.place.step, found.failed) for found in self.audited)

    @cached_property
    def audited(self) -> tuple[Found, ...]:
        """The same with the place of each in the plant's files; worked out once."""
        return tuple(audit(self))
