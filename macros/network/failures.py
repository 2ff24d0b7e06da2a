"""
Single failures, one at a time: how high each then brings every part, what holds it, and what is lost.

A line-up that passes its proofs is gone through once for every thing of it that may fail. What a failure brings above
a rating, or brings together, is a failed proof of the line-up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from macros.network.contents import Gas, flowed
from macros.network.gates import Gate
from macros.network.kinds import How
from macros.network.lines import Port
from macros.network.paths import next_to, search
from macros.network.piping import Piping
from macros.network.proofs import Failed, Lineup, media_stay_apart, way, within_ratings
from macros.network.reach import Reached
from macros.network.stand import MARGIN_PA, Failure
from macros.quantities import say

__all__ = ["Outcome", "failures_of", "may_fail", "outcome", "outcomes"]

FAILING: Mapping[How, tuple[str, ...]] = {
    How.ONE_WAY: ("leaks_back",),
    How.LOWERS: ("fails_open",),
    How.CROSSES: ("ruptured",),
    How.DRIVES: ("seal_leaks",),
}
"""How each way through an item may fail; what is set by hand or actuator fails by passing, or by being set wrong."""


@dataclass(frozen=True)
class Outcome:
    """What a failure brings about; how high it brings what is worked out when it is asked."""

    tag: str
    """What has failed."""
    how: str
    failed: tuple[Failed, ...]
    before: Lineup = field(repr=False)
    after: Lineup = field(repr=False)

    @property
    def told(self) -> str:
        """How it has failed, in words."""
        if self.how.startswith("set_"):
            return say("network.fails.set_wrong", position=self.how.removeprefix("set_"))
        return say(f"network.fails.{self.how}")

    @property
    def lost(self) -> str:
        """What is lost, in words."""
        return say(f"network.lost.{'set_wrong' if self.how.startswith('set_') else self.how}", tag=self.tag)

    @property
    def highest(self) -> Mapping[str, float]:
        """Highest pressure of every section."""
        return self.after.section_pressures if _moves(self.before, self.after) else self.before.section_pressures

    @cached_property
    def rises(self) -> tuple[str, ...]:
        """Sections in which the pressure is above that of the line-up without the failure."""
        before = self.before.section_pressures
        return tuple(name for name, pressure_pa in self.highest.items() if pressure_pa > before[name] + MARGIN_PA)

    @cached_property
    def holds(self) -> tuple[str, ...]:
        """Reliefs and open vents that then cap it; empty where its own strength holds everything."""
        if self.how == "stuck":
            # No pressure was ever proved by a switch, so that none rises: what holds its section holds it.
            section = self.before.piping.section_of.get(self.tag)
            return holding(self.before.reached, (section,) if section is not None else ())
        return holding(self.after.reached, self.rises)


def _moves(before: Lineup, after: Lineup) -> bool:
    """Whether anything arrives otherwise than before."""
    return after.reached.arrivals is not before.reached.arrivals


def failures_of(lineup: Lineup) -> Iterator[tuple[str, str]]:
    """Every item of a line-up that may fail, and how."""
    return may_fail(lineup.piping, lineup.reached.stand.positions)


def may_fail(piping: Piping, positions: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """The same for items in positions, whatever they hold."""
    seen: set[tuple[str, str]] = set()
    for gate in piping.gates:
        for how in _ways_to_fail(piping, gate, positions):
            if (gate.tag, how) not in seen:
                seen.add((gate.tag, how))
                yield gate.tag, how
    for tag, item in piping.network.items.items():
        if item.kind.name == "pressure_switch":
            yield tag, "stuck"


def _ways_to_fail(piping: Piping, gate: Gate, positions: Mapping[str, str]) -> Iterable[str]:
    """How the item of a gate may fail where it stands."""
    item = piping.network.items[gate.tag]
    stands_open, position = gate.stands_open(positions), positions.get(gate.tag)
    if item.kind.name == "quick_coupling" and not stands_open:
        # Nothing is coupled to it, so nothing passes.
        return ()
    if not gate.is_set:
        return ("checks_leak",) if item.kind.name == "booster" and gate.how is How.RAISES else FAILING.get(gate.how, ())
    if item.kind.positions != ("open", "closed"):
        return tuple(f"set_{each}" for each in item.kind.positions if each != position)
    if item.kind.name == "drain" and position == "closed":
        return ("stuck_open",)
    return ("shut_wrongly",) if stands_open else ("passes", "opened_wrongly")


def outcome(lineup: Lineup, tag: str, how: str) -> Outcome:
    """What one failure brings about."""
    if how == "stuck":
        return Outcome(tag, how, (), lineup, lineup)
    after = failed_reached(lineup.reached, tag, how)
    stays = lineup.is_settled and lineup.flow.leaves(lineup.contents, after, tag)
    then = Lineup(after, lineup.contents if stays else flowed(after, lineup.contents), before=lineup)
    failed: list[Failed] = []
    if _moves(lineup, then):
        above = lineup.above_rating
        failed += [found for found in within_ratings(then) if (found.pressure_pa or 0.0) > above.get(found.where, 0.0)]
    if then.contents is not lineup.contents and how not in ("ruptured", "seal_leaks"):
        failed += media_stay_apart(then)
    if how == "stuck_open":
        failed += blown_by(lineup, tag)
    return Outcome(tag, how, tuple(failed), lineup, then)


def blown_by(lineup: Lineup, tag: str) -> Iterator[Failed]:
    """Gas that follows the water out of a drain comes to no oxygen: a pot open to its vent lets it off before."""
    reached, piping = lineup.reached, lineup.piping
    if not any(found.source not in lineup.inert_sources for found in reached.at((tag, "in"))):
        return

    def lets_off(port: Port) -> bool:
        return piping.network.items[port[0]].kind.name == "degassing_pot" and reached.is_vented(piping.node[port])

    def meets_oxygen(port: Port) -> bool:
        return not lets_off(port) and Gas.OXYGEN in lineup.contents[piping.gas_node[port]]

    path = search([(tag, "out")], meets_oxygen, lambda port: () if lets_off(port) else next_to(reached, port))
    if path:
        message = say("network.blown_by", tag=tag, path=way(path), end=path[-1])
        yield Failed("media_stay_apart", path[-1], message, path)


def failed_reached(reached: Reached, tag: str, how: str) -> Reached:
    """What a stand brings about with something failed in it."""
    # The flow through a drain that stays open is known, so a vent may be proven against it; a valve's is not.
    if how == "stuck_open":
        return reached.failing(Failure(tag, "passes"))
    if how == "opened_wrongly":
        return reached.turned(tag, "open")
    if how == "shut_wrongly":
        return reached.turned(tag, "closed")
    if how.startswith("set_"):
        return reached.turned(tag, how.removeprefix("set_"))
    return reached.failing(Failure(tag, how))


def outcomes(lineup: Lineup) -> Iterator[Outcome]:
    """What every single failure of a line-up brings about."""
    for tag, how in failures_of(lineup):
        yield outcome(lineup, tag, how)


def holding(reached: Reached, sections: Iterable[str]) -> tuple[str, ...]:
    """The reliefs and open vents that cap what rises in sections."""
    parts = {reached.part[node] for name in sections for node in reached.piping.nodes_of_section(name)}
    found = []
    for tag, cap in reached.piping.pressures.caps.items() if parts else ():
        part = reached.part[reached.piping.relief_nodes[tag]]
        arrivals = reached.arrivals.get(part, {}).values()
        if part in parts and any(
            abs(arrival.pressure_pa - least) < MARGIN_PA for arrival in arrivals for least in cap.values()
        ):
            found.append(tag)
    return tuple(found)
