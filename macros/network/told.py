"""Line-ups as data: what a step changes, how each section then stands, and which proofs fail."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite
from typing import Any

from macros.network.contents import Gas
from macros.network.failures import Outcome
from macros.network.lineups import Proved
from macros.network.live import live_nodes
from macros.network.proofs import Failed, Lineup

__all__ = ["SectionStand", "data_of", "failed_data", "outcome_data", "sections_of"]


@dataclass(frozen=True)
class SectionStand:
    """How a section stands in a line-up."""

    name: str
    pressure_pa: float
    """Highest absolute pressure that reaches it while the step is done."""
    rests_pa: float
    """What is left once gas has gone from what stands open to the air; what is fed stays as it is."""
    weakest: str | None
    """Its part that bears least, where one is rated."""
    rating_pa: float | None
    isolated: bool
    """Nothing that runs reaches it, and no store of gas stands open to it."""
    vented: bool
    """Every part of it can let gas out to the air."""
    inert: bool
    """It holds nitrogen and nothing else."""
    holds: tuple[str, ...]
    """The gases in it."""
    sources: tuple[str, ...]
    """What brings pressure to it, the highest first."""


def sections_of(lineup: Lineup) -> list[SectionStand]:
    """How every section stands."""
    live = live_nodes(lineup)
    return [_section(lineup, name, live) for name in lineup.piping.network.sections]


def _section(lineup: Lineup, name: str, live: frozenset[int]) -> SectionStand:
    reached, piping = lineup.reached, lineup.piping
    nodes = piping.nodes_within(name)
    arrivals = sorted(
        (found for node in nodes for found in reached.arrivals.get(reached.part[node], {}).values()),
        key=lambda found: (-found.pressure_pa, found.source),
    )
    rated = min(
        (piping.weakest[node] for node in nodes if node in piping.weakest),
        key=lambda found: found.rating_pa,
        default=None,
    )
    holds = Gas.NONE
    for port in piping.ports_of_section(name):
        holds |= lineup.contents[piping.gas_node[port]]
    return SectionStand(
        name,
        arrivals[0].pressure_pa if arrivals else lineup.atmosphere_pa if nodes else inf,
        max((held.get(node, 0.0) for held in lineup.held.values() for node in nodes), default=0.0)
        or lineup.atmosphere_pa,
        rated.tag if rated else None,
        rated.rating_pa if rated else None,
        bool(nodes) and not nodes & live,
        bool(nodes) and all(reached.is_vented(node) for node in nodes),
        holds == Gas.NITROGEN,
        tuple(gas.name.lower() for gas in Gas if gas & holds and gas.name),
        tuple(dict.fromkeys(found.source for found in arrivals)),
    )


def data_of(proved: Proved) -> dict[str, Any]:
    """A line-up as lists and dictionaries, ready for JSON; a pressure without limit is told as none."""
    return {
        "step": proved.step,
        "changed": {tag: {"from": before, "to": after} for tag, (before, after) in proved.changed.items()},
        "positions": dict(proved.lineup.reached.stand.positions),
        "runs": sorted(proved.lineup.runs),
        "opened": sorted(proved.lineup.reached.stand.opened),
        "sections": {
            stand.name: {
                "pressure_pa": _finite(stand.pressure_pa),
                "rests_pa": _finite(stand.rests_pa),
                "weakest": stand.weakest,
                "rating_pa": stand.rating_pa,
                "isolated": stand.isolated,
                "vented": stand.vented,
                "inert": stand.inert,
                "holds": list(stand.holds),
                "sources": list(stand.sources),
            }
            for stand in sections_of(proved.lineup)
        },
        "failed": [failed_data(found) for found in proved.failed],
    }


def failed_data(failed: Failed) -> dict[str, Any]:
    """A failed proof, ready for JSON."""
    return {
        "proof": failed.proof,
        "where": failed.where,
        "message": failed.message,
        "path": list(failed.path),
        "pressure_pa": _finite(failed.pressure_pa),
        "rating_pa": failed.rating_pa,
    }


def outcome_data(outcome: Outcome) -> dict[str, Any]:
    """What a single failure brings about, ready for JSON."""
    return {
        "item": outcome.tag,
        "failure": outcome.how,
        "highest_pa": {name: _finite(pressure_pa) for name, pressure_pa in outcome.highest.items()},
        "rises": list(outcome.rises),
        "holds": list(outcome.holds),
        "lost": outcome.lost,
        "failed": [failed_data(found) for found in outcome.failed],
    }


def _finite(pressure_pa: float | None) -> float | None:
    return pressure_pa if pressure_pa is not None and isfinite(pressure_pa) else None
