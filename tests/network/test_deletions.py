"""
Every valve action of every procedure is left out in turn: a proof fails, or the action is listed here as harmless.

An action that only says again how a valve stands already is harmless by itself; every other one that no proof misses
stands below with the reason. A reason that is no longer needed is told too, so that the list stays true.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network.failures import outcomes
from macros.network.lineups import Lineups, Progress
from tests.description.plants import ROOT

DEAD_END = "each vent of the let-down sweeps another dead end; the same part is swept through the others as well"
TEST_ONLY = "the test then tells less; no pressure comes where it must not, and nothing is opened on its strength"
STALLS = "nothing flows, or the booster stalls, which all that it reaches bears; the reading does not rise"
HELD = "the stack was let down while the current was held, so that no sweep is needed when it goes off"
BARRIER = "a second barrier by hand; the actuated valves on both sides are shut already"
LET_DOWN = "the column was let down with the train in the state of the start, and the swings that follow sweep it"
EMPTIED = "the buffer was let down with the bank in an earlier step, and the swings that follow sweep it"
WATCH = "the watch then tells nothing; the column stays open to its vent, and two shut valves isolate it"
RISES = "nitrogen flows on to an open vent; the part is swept all the same, and the gauge does not stand as told"
WATER = "the water stays where it is until the next time, and its level alarms"
NITROGEN = "all that could come holds nitrogen, below the pressure that asks for two valves; the gauge is read before"
SLOW = "the swings then go through the restrictor alone, and nothing comes to the bleed where the sample is drawn"
ALONE = "the other way sweeps the line; what lies before the valve was filled with its bank"

HARMLESS: dict[str, dict[tuple[str, str, str], str]] = {
    "bench": {
        ("purge_in", "AV1", "closed"): RISES,
        ("leak_test", "V2", "closed"): TEST_ONLY,
        ("leak_test", "AV2", "open"): TEST_ONLY,
        ("first_start", "V3", "open"): DEAD_END,
        ("change_desiccant", "V3", "closed"): WATCH,
        ("purge_out", "V3", "open"): LET_DOWN,
        ("purge_out", "AV1", "closed"): RISES,
        **{("draining", tag, "open"): WATER for tag in ("DR1", "DR2")},
        ("test_non_return", "V1", "closed"): TEST_ONLY,
        **{("exchange_reliefs", tag, "open"): NITROGEN for tag in ("V3", "V5", "AV2")},
        ("exchange_reliefs", "V3", "closed"): RISES,
        ("exchange_stack_reliefs", "V3", "open"): SLOW,
        ("exchange_stack_reliefs", "V1", "open"): SLOW,
        ("take_apart", "V3", "open"): NITROGEN,
    },
    "farm": {
        **{("purge_in", tag, "open"): DEAD_END for tag in ("V3", "V6", "V7", "V10")},
        ("purge_in", "AV6", "closed"): RISES,
        **{("leak_test", tag, "closed"): TEST_ONLY for tag in ("V1", "V2", "V4", "V5", "V9", "V15", "V28")},
        **{("leak_test", tag, "open"): TEST_ONLY for tag in ("V1", "V15", "V28", "AV10", "AV11", "AV12")},
        ("first_start", "V7", "open"): DEAD_END,
        ("first_start", "V10", "open"): DEAD_END,
        ("first_start", "AV7", "open"): STALLS,
        ("first_start", "AV10", "open"): ALONE,
        ("first_start", "AV11", "open"): ALONE,
        ("bank_to_bank", "AV9", "open"): STALLS,
        ("bank_to_bank", "AV6", "open"): STALLS,
        ("fill_vehicle", "V30", "open"): STALLS,
        ("fill_vehicle", "AV10", "open"): STALLS,
        ("fill_vehicle", "QC1", "open"): STALLS,
        ("fill_vehicle", "AV11", "open"): STALLS,
        ("standby", "AV5", "open"): HELD,
        ("emergency_stop", "V15", "closed"): BARRIER,
        ("emergency_stop", "V28", "closed"): BARRIER,
        ("change_desiccant", "V7", "closed"): WATCH,
        **{("purge_out", tag, "open"): DEAD_END for tag in ("V3", "V6", "V7")},
        ("purge_out", "V10", "open"): EMPTIED,
        **{("draining", tag, "open"): WATER for tag in ("DR1", "DR2")},
        ("test_non_return", "AV1", "closed"): TEST_ONLY,
        **{("exchange_reliefs", tag, "closed"): NITROGEN for tag in ("V2", "V4")},
        **{("exchange_reliefs", tag, "open"): NITROGEN for tag in ("V3", "V6")},
        ("exchange_reliefs", "V10", "open"): DEAD_END,
        ("exchange_stack_reliefs", "V5", "closed"): NITROGEN,
        **{("take_apart", tag, "open"): NITROGEN for tag in ("V3", "V7", "V10", "AV9", "V27")},
        ("take_apart", "V2", "closed"): NITROGEN,
    },
    "shed": {
        **{("purge_in", tag, "open"): DEAD_END for tag in ("V3", "V6", "V7")},
        ("leak_test", "V4", "closed"): TEST_ONLY,
        ("leak_test", "V6", "open"): TEST_ONLY,
        ("leak_test", "V9", "closed"): TEST_ONLY,
        ("first_start", "V7", "open"): DEAD_END,
        ("filling", "AV2", "open"): STALLS,
        ("standby", "AV6", "open"): HELD,
        ("emergency_stop", "V15", "closed"): BARRIER,
        ("change_desiccant", "V7", "open"): LET_DOWN,
        ("change_desiccant", "V7", "closed"): WATCH,
        **{("purge_out", tag, "open"): DEAD_END for tag in ("V3", "V6", "V7")},
        ("purge_out", "V10", "open"): EMPTIED,
        **{("draining", tag, "open"): WATER for tag in ("DR1", "DR2")},
        ("test_non_return", "V1", "closed"): TEST_ONLY,
        **{("exchange_reliefs", tag, "closed"): NITROGEN for tag in ("V2", "V4", "V5")},
        **{("exchange_reliefs", tag, "open"): NITROGEN for tag in ("V3", "V6", "V18", "V19")},
        ("exchange_reliefs", "V10", "open"): DEAD_END,
        **{("take_apart", tag, "open"): NITROGEN for tag in ("V3", "V7", "V10", "V19")},
        ("take_apart", "V2", "closed"): NITROGEN,
        **{("exchange_stack_reliefs", tag, "open"): SLOW for tag in ("V1", "V3")},
    },
}
"""By plant: procedure, tag and position of an action that no proof misses, and why it may be missed."""


def unnoticed(lineups: Lineups) -> Iterator[tuple[str, int, str, str]]:
    """Actions that no proof misses: procedure, step, tag, position."""
    for name, procedure in lineups.file.procedures.items():
        progress = lineups.begin(procedure)
        for number, step in enumerate(procedure.steps, 1):
            before = progress.lineup.reached.stand.positions
            for tag, position in step.sets.items():
                if before.get(tag) != position and not misses(lineups, name, progress, number, tag):
                    yield name, number, tag, position
            _, progress = lineups.advance(progress, name, procedure, number)


def misses(lineups: Lineups, name: str, progress: Progress, number: int, tag: str) -> bool:
    """Whether some proof fails, in this step or a later one, or with a single failure soon after, if it is left out."""
    procedure = lineups.file.procedures[name]
    steps = [*procedure.steps]
    sets = {each: position for each, position in steps[number - 1].sets.items() if each != tag}
    steps[number - 1] = steps[number - 1].model_copy(update={"sets": sets})
    changed = procedure.model_copy(update={"steps": steps})
    soon = []
    for following in range(number, len(steps) + 1):
        proved, progress = lineups.advance(progress, name, changed, following)
        if proved.failed:
            return True
        soon.append(proved.lineup)
    return any(outcome.failed for lineup in soon[:2] for outcome in outcomes(lineup))


@pytest.mark.parametrize("name", sorted(HARMLESS))
def test_every_action_left_out_fails_a_proof_or_is_harmless_for_a_reason(name: str) -> None:
    lineups = lineups_of(Plant.load(ROOT / "docs/designs" / name, ROOT))
    found = list(unnoticed(lineups))
    listed = HARMLESS[name]
    unlisted = [each for each in found if (each[0], each[2], each[3]) not in listed]
    assert unlisted == []
    needed = {(each[0], each[2], each[3]) for each in found}
    assert sorted(set(listed) - needed) == []
