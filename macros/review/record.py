"""Rules of the record: what was measured against what was figured, what still stands on assumptions, who signed."""

from __future__ import annotations

import dataclasses
import datetime
from collections.abc import Iterator

from macros.description.record_file import Measured
from macros.review.readings import Compared, as_typed, compared
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import RULES, rule


def _latest(plant: Reviewed) -> Iterator[Compared]:
    """The last reading of every figure beside it: what was mended since an earlier one counts no more."""
    last: dict[str, Measured] = {}
    for reading in sorted(plant.record.readings, key=lambda each: each.date):
        last[reading.figure] = reading
    return (compared(plant.plant, reading) for reading in last.values())


def _deviation(plant: Reviewed, read: Compared) -> Look:
    """Whether a reading lies as near to its figure as its tolerance allows; one far better is no less suspect."""
    reading = read.reading
    predicted = read.predicted.shown() if read.predicted is not None else ""
    return plant.must(
        reading.figure, read.holds, reads=(reading.figure,), reason=read.reason, figure=reading.figure,
        date=reading.date, tolerance=reading.tolerance.text, value=as_typed(reading.value), predicted=predicted,
    )  # fmt: skip


@rule("measured-safety-figures-hold", "common-practice", waivable=False)
def measured_safety_figures_hold(plant: Reviewed) -> Iterator[Look]:
    """What was measured of a figure by which something is protected keeps its limit or lies within its tolerance."""
    for read in _latest(plant):
        if read.predicted is None or read.predicted.safety:
            yield _deviation(plant, read)


@rule("measured-as-predicted", "common-practice", severity="warn")
def measured_as_predicted(plant: Reviewed) -> Iterator[Look]:
    """What was measured lies within its tolerance of what was figured."""
    for read in _latest(plant):
        if read.predicted is not None and not read.predicted.safety:
            yield _deviation(plant, read)


@rule("readings-not-from-the-future", "common-practice")
def readings_not_from_the_future(plant: Reviewed) -> Iterator[Look]:
    """No reading and no signature is dated after today."""
    dated = [(each.figure, each.date) for each in plant.record.readings]
    dated += [(each.role, each.date) for each in plant.record.sign_offs]
    for where, date in dated:
        yield plant.must(where, datetime.date.fromisoformat(date) <= plant.today, date=date)


@rule("measure-at-commissioning", "common-practice", severity="open", body="commissioning")
def measure_at_commissioning(plant: Reviewed) -> Iterator[Look]:
    """What commissioning owes is measured before the plant is called built."""
    if plant.described.status != "built":
        yield from _owed(plant)


@rule("built-plant-is-measured", "common-practice")
def built_plant_is_measured(plant: Reviewed) -> Iterator[Look]:
    """A plant that is called built has been measured."""
    if plant.described.status == "built":
        yield from _owed(plant)


def _owed(plant: Reviewed) -> Iterator[Look]:
    """Whether there is a reading of everything that is to be measured."""
    measured = {reading.figure for reading in plant.record.readings}
    for owed in plant.record.to_measure:
        yield plant.must(owed.figure, owed.figure in measured, figure=owed.figure)


@rule("safety-figures-to-be-measured", "common-practice", severity="warn")
def safety_figures_to_be_measured(plant: Reviewed) -> Iterator[Look]:
    """The figures by which safety stands most are on the list of what commissioning measures."""
    listed = {owed.figure for owed in plant.record.to_measure} | {each.figure for each in plant.record.readings}
    for name in ("stack.hydrogen_in_oxygen", "stack.let_down_time"):
        if plant.has(name):
            yield plant.must(name, name in listed, figure=name)


@rule("built-plant-is-signed-for", "common-practice")
def built_plant_is_signed_for(plant: Reviewed) -> Iterator[Look]:
    """Somebody has signed for a plant that is called built, as it is described now."""
    if plant.described.status == "built":
        digest = plant.plant.design_digest
        signed = any(each.digest.startswith(digest) for each in plant.record.sign_offs)
        yield plant.must(plant.plant.name, signed, digest=digest)


@rule("signatures-still-hold", "common-practice", severity="warn")
def signatures_still_hold(plant: Reviewed) -> Iterator[Look]:
    """A signature was given for the design as it is described now."""
    for signed in plant.record.sign_offs:
        holds = signed.digest.startswith(plant.plant.design_digest)
        yield plant.must(signed.role, holds, role=signed.role, date=signed.date)


@rule("waivers-name-a-rule", "common-practice")
def waivers_name_a_rule(plant: Reviewed) -> Iterator[Look]:
    """A waiver names a rule that there is."""
    for waiver in plant.record.waivers:
        yield plant.must(waiver.rule, waiver.rule in RULES, waived=waiver.rule)


@rule("waivers-may-be-given", "common-practice", waivable=False)
def waivers_may_be_given(plant: Reviewed) -> Iterator[Look]:
    """No waiver is written for a rule that nobody may waive."""
    for waiver in plant.record.waivers:
        if waiver.rule in RULES:
            yield plant.must(waiver.rule, RULES[waiver.rule].waivable, waived=waiver.rule)


@rule("waivers-in-force", "common-practice", severity="warn")
def waivers_in_force(plant: Reviewed) -> Iterator[Look]:
    """A waiver has not run out."""
    for waiver in plant.record.waivers:
        holds = datetime.date.fromisoformat(waiver.expiry) >= plant.today
        yield plant.must(waiver.rule, holds, waived=waiver.rule, expiry=waiver.expiry)


@rule("waivers-end-soon", "common-practice", severity="warn")
def waivers_end_soon(plant: Reviewed) -> Iterator[Look]:
    """A waiver is given for a short term only."""
    for waiver in plant.record.waivers:
        longest = datetime.timedelta(seconds=plant.reading("fact:waiver_longest").si)
        short = datetime.date.fromisoformat(waiver.expiry) - plant.today <= longest
        yield plant.must(waiver.rule, short, waived=waiver.rule, expiry=waiver.expiry)


@rule("waivers-for-this-design", "common-practice", severity="warn")
def waivers_for_this_design(plant: Reviewed) -> Iterator[Look]:
    """A waiver was given for the design as it is described now."""
    for waiver in plant.record.waivers:
        holds = waiver.digest.startswith(plant.plant.design_digest)
        yield plant.must(waiver.rule, holds, waived=waiver.rule)


@rule("inputs-within-usual-practice", "common-practice", severity="warn")
def inputs_within_usual_practice(plant: Reviewed) -> Iterator[Look]:
    """What is described lies within usual practice."""
    description = dataclasses.replace(plant.plant.description, plant=plant.described, record=plant.record)
    faults = list(description.unusual())
    for fault in faults:
        yield plant.must(fault.key, False, told=fault.message.rstrip("."))
    if not faults:
        yield plant.must("plant.yml", True, told=plant.described.title)


@rule("safety-stands-on-given-inputs", "common-practice", severity="warn")
def safety_stands_on_given_inputs(plant: Reviewed) -> Iterator[Look]:
    """No figure by which something is protected stands on an assumption."""
    reached: dict[str, int] = {}
    for name in plant.graph.figures:
        value = plant.graph[name]
        for path in sorted(value.assumed) if value.safety else ():
            reached[path] = reached.get(path, 0) + 1
    for path, count in reached.items():
        value = plant.graph[path]
        yield plant.must(
            path, False, reads=(path,), path=path, title=value.title, assumed=value.shown(), count=str(count)
        )
    if not reached:
        yield plant.must(plant.plant.name, True, path="", title=plant.plant.title, assumed="", count="0")
