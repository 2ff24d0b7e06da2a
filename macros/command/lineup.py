"""`gaswright lineup`: a procedure step by step, as text or as data."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network.lineups import Proved
from macros.network.proofs import bar
from macros.network.told import SectionStand, data_of, failed_data, sections_of
from macros.quantities import say
from macros.review.refusal import failed_proofs

__all__ = ["failed_as_data", "lineup_data", "lineup_text"]

REFERENCE = re.compile(r"\{([^{}]+)\}")


def lineup_data(plant: Plant, name: str) -> dict[str, Any]:
    """A procedure as lists and dictionaries."""
    lineups = lineups_of(plant)
    procedure = lineups.file.procedures[name]
    steps = lineups.procedure(name)
    told = [""] + [step.do for step in procedure.steps]
    return {
        "plant": plant.name,
        "procedure": name,
        "start": procedure.start,
        "end": procedure.end,
        "steps": [{"do": written(plant, told[proved.step]), **data_of(proved)} for proved in steps],
    }


def lineup_text(plant: Plant, name: str) -> tuple[str, int]:
    """A procedure as text, and how many proofs fail."""
    lineups = lineups_of(plant)
    procedure = lineups.file.procedures[name]
    lines = [say("command.lineup_title", title=procedure.title, start=procedure.start, end=procedure.end)]
    failed = 0
    for proved in lineups.procedure(name):
        do = written(plant, procedure.steps[proved.step - 1].do) if proved.step else ""
        lines += _step(proved, do)
        failed += len(proved.failed)
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


def failed_as_data(plant: Plant) -> list[dict[str, Any]]:
    """The same, ready for JSON."""
    return [{"place": place, **failed_data(failed)} for place, failed in failed_proofs(plant)]
