"""`gaswright lineup`: a procedure step by step, as text or as data."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from macros.figures.lineups import lineups_of, proofs_failed
from macros.figures.plant import Plant
from macros.network.failures import Outcome, outcomes
from macros.network.lineups import Proved
from macros.network.proofs import Failed, bar
from macros.network.told import SectionStand, data_of, failed_data, outcome_data, sections_of
from macros.quantities import say

__all__ = ["failed_as_data", "lineup_data", "lineup_text"]

REFERENCE = re.compile(r"\{([^{}]+)\}")


def lineup_data(plant: Plant, name: str, *, every: bool = False) -> dict[str, Any]:
    """A procedure as lists and dictionaries, with the single failures that raise something, or with every one."""
    lineups = lineups_of(plant)
    procedure = lineups.file.procedures[name]
    steps = lineups.procedure(name)
    told = [""] + [step.do for step in procedure.steps]
    return {
        "plant": plant.name,
        "procedure": name,
        "start": procedure.start,
        "end": procedure.end,
        "steps": [
            {
                "do": written(plant, told[proved.step]),
                **data_of(proved),
                "failures": [outcome_data(found) for found in _failures(proved, every=every)],
            }
            for proved in steps
        ],
    }


def _failures(proved: Proved, *, every: bool) -> list[Outcome]:
    """The single failures of a step that raise a pressure or fail a proof, or all of them."""
    return [found for found in outcomes(proved.lineup) if every or found.rises or found.failed]


def lineup_text(plant: Plant, name: str, *, every: bool = False) -> tuple[str, int]:
    """A procedure as text, with the single failures that raise something or with all, and how many proofs fail."""
    lineups = lineups_of(plant)
    procedure = lineups.file.procedures[name]
    lines = [say("command.lineup_title", title=procedure.title, start=procedure.start, end=procedure.end)]
    failed = 0
    before: set[str] = set()
    for proved in lineups.procedure(name):
        do = written(plant, procedure.steps[proved.step - 1].do) if proved.step else ""
        lines += _step(proved, do)
        found = _failures(proved, every=every)
        told = _told(found, proved.lineup.atmosphere_pa)
        shown = {line: more for line, more in told.items() if every or more or line not in before}
        lines += [each for line, more in shown.items() for each in (line, *more)]
        if repeated := len(told) - len(shown):
            lines.append(say("command.failures_as_before", count=repeated))
        before = set(told)
        failed += len(proved.failed) + sum(len(each.failed) for each in found)
    lines.append(say("command.lineup_failed", count=failed) if failed else say("command.lineup_passed"))
    return "\n".join(lines), failed


def written(plant: Plant, text: str) -> str:
    """A text of the description with its references put in: a figure's value, an item's tag."""
    return REFERENCE.sub(lambda found: _reference(plant, found.group(1)), text)


def _reference(plant: Plant, name: str) -> str:
    return plant.graph[name].show() if name in plant.graph else name


def _step(proved: Proved, do: str) -> Iterator[str]:
    yield ""
    yield say("command.lineup_step", number=proved.step, do=do) if proved.step else say("command.lineup_start")
    for tag, (before, after) in proved.changed.items():
        yield say("command.lineup_set", tag=tag, before=before, after=after)
    stands = sections_of(proved.lineup)
    width = max((len(stand.name) for stand in stands), default=0)
    for stand in stands:
        yield _section(stand, width, proved.lineup.atmosphere_pa)
    for found in proved.failed:
        yield say("command.proof_failed", message=found.message)


def _section(stand: SectionStand, width: int, atmosphere_pa: float) -> str:
    words = [
        say("command.isolated") if stand.isolated else say("command.fed"),
        *([say("command.vented")] if stand.vented else []),
        *([say("command.inert")] if stand.inert else []),
    ]
    if stand.rests_pa < stand.pressure_pa:
        words.append(say("command.rests", pressure=bar(stand.rests_pa, atmosphere_pa)))
    return say(
        "command.lineup_section", section=f"{stand.name:<{width}}", stands=", ".join(words),
        pressure=f"{bar(stand.pressure_pa, atmosphere_pa):>14}",
    )  # fmt: skip


def _told(found: list[Outcome], atmosphere_pa: float) -> dict[str, list[str]]:
    """What single failures bring, what holds it, and what is lost, in a line each; with it the proofs that then fail."""
    lines: dict[tuple[str, str], list[Outcome]] = {}
    for each in found:
        lines.setdefault((each.tag, _brings(each, atmosphere_pa)), []).append(each)
    told = {}
    for (tag, brings), alike in lines.items():
        fails = say("command.failure_or").join(each.told for each in alike)
        line = say("command.failure", tag=tag, fails=fails, brings=brings, lost=alike[0].lost)
        messages = dict.fromkeys(failed.message for each in alike for failed in each.failed)
        told[line] = [say("command.proof_failed", message=message) for message in messages]
    return told


def _brings(outcome: Outcome, atmosphere_pa: float) -> str:
    """The pressures to which a failure raises sections, and what holds them."""
    highest: dict[str, list[str]] = {}
    for name in outcome.rises:
        highest.setdefault(bar(outcome.highest[name], atmosphere_pa), []).append(name)
    raised = [
        say("command.failure_rises", sections=", ".join(names), pressure=pressure)
        for pressure, names in highest.items()
    ]  # fmt: skip
    brings = "; ".join(raised) if raised else say("command.failure_raises_nothing")
    if outcome.holds:
        return brings + say("command.failure_held", by=", ".join(outcome.holds))
    return brings + (say("command.failure_borne") if raised and not outcome.failed else "")


def failed_as_data(plant: Plant) -> list[dict[str, Any]]:
    """Everything that the proofs find wrong with a plant, ready for JSON; the network by itself has no proof."""
    return [
        {
            "place": fault.key,
            "file": fault.file,
            "line": fault.line,
            **failed_data(failed or Failed("network", fault.key, fault.message)),
        }
        for fault, failed in proofs_failed(plant)
    ]
