"""Rules of procedures: that those are written which the parts of a plant ask for, and that they say what they must."""

from __future__ import annotations

from collections.abc import Iterator

from macros.description.item_kinds import GASES, HYDROGEN
from macros.description.plant import Trip
from macros.description.procedures_file import Procedure, State
from macros.network import How
from macros.quantities import say
from macros.review.findings import place_named
from macros.review.line_ups import RUNNING
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule
from macros.review.ways import tags_beyond

PRACTICE = "common-practice"
CURRENT = frozenset(("current", "holding_current"))


def sections(plant: Reviewed) -> list[str]:
    """The sections of hydrogen that can be under pressure, and so are purged."""
    return [
        name for name, section in plant.network.sections.items()
        if section.medium in HYDROGEN and plant.has(f"safety.{name}.highest_pressure")
    ]  # fmt: skip


def inert_by(procedure: Procedure) -> set[str]:
    """The sections that a procedure makes inert."""
    return {name for step in procedure.steps for name in step.makes_inert}


def texts(procedure: Procedure) -> str:
    """All that a procedure says in its steps."""
    return " ".join(
        text for step in procedure.steps
        for text in (step.do, step.why or "", *(reading.wanted for reading in step.reads))
    )  # fmt: skip


@rule("purged-before-hydrogen", "purge-formula", waivable=False)
def purged_before_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """Every section that ever holds air is purged by a procedure before hydrogen is let in."""
    for name in sections(plant):
        aired = [state for state, each in plant.procedures.states.items() if name in each.air]
        if aired:
            by = [
                title for title, each in plant.procedures.procedures.items()
                if each.start in aired and name in inert_by(each)
            ]  # fmt: skip
            yield plant.must(name, bool(by), section=name, procedures=_list(by))


@rule("purged-before-opening", "purge-formula", waivable=False)
def purged_before_opening(plant: Reviewed) -> Iterator[Look]:
    """Every section of hydrogen can be purged out of service by a procedure, before it is opened or laid up."""
    for name in sections(plant):
        holding = [
            state for state, each in plant.procedures.states.items() if name not in each.air and name not in each.inert
        ]  # fmt: skip
        by = [
            title for title, each in plant.procedures.procedures.items()
            if each.start in holding and name in inert_by(each)
        ]  # fmt: skip
        yield plant.must(name, bool(by), section=name, procedures=_list(by))


def _list(words: list[str]) -> str:
    return ", ".join(words) or say("review.none")


@rule("purge-counts-its-swings", "purge-formula", waivable=False)
def purge_counts_its_swings(plant: Reviewed) -> Iterator[Look]:
    """A procedure that purges a section of pressure asks for as many swings as are computed."""
    wanted = set(sections(plant))
    for name, procedure in plant.procedures.procedures.items():
        if wanted & inert_by(procedure):
            counted = [each for each in ("in", "out") if f"{{safety.purge_swings_{each}}}" in texts(procedure)]
            yield plant.must(name, bool(counted), procedure=name)


@rule("purge-proved-by-analysis", PRACTICE)
def purge_proved_by_analysis(plant: Reviewed) -> Iterator[Look]:
    """A procedure that purges a section of pressure proves by a sample what is left."""
    wanted = set(sections(plant))
    for name, procedure in plant.procedures.procedures.items():
        if wanted & inert_by(procedure):
            said = [each for each in ("oxygen_left", "hydrogen_left") if f"{{safety.{each}}}" in texts(procedure)]
            yield plant.must(name, bool(said), procedure=name)


@rule("purge-leaves-as-little-as-usual", PRACTICE, waivable=False)
def purge_leaves_as_little_as_usual(plant: Reviewed) -> Iterator[Look]:
    """What a purge may leave, of oxygen before hydrogen and of hydrogen before air, is no more than is usual."""
    for path, fact in (("safety.oxygen_left", "purged_oxygen"), ("safety.hydrogen_left", "purged_hydrogen")):
        yield plant.at_most(path, path, f"fact:{fact}")


@rule("purge-supply-reaches-swing", PRACTICE)
def purge_supply_reaches_swing(plant: Reviewed) -> Iterator[Look]:
    """A supply of nitrogen that a procedure admits brings the pressure of a swing."""
    admitted = [
        tag for each in plant.procedures.procedures.values() for step in each.steps for tag in step.admits
    ]  # fmt: skip
    for tag in dict.fromkeys(admitted):
        yield plant.at_least(tag, f"items.{tag.lower()}.supply_pressure", "safety.purge_pressure", tag=tag)


@rule("isolation-pressure-as-usual", PRACTICE, waivable=False)
def isolation_pressure_as_usual(plant: Reviewed) -> Iterator[Look]:
    """The pressure from which an opened item stands behind two valves and a bleed is no higher than is usual."""
    yield plant.at_most("safety.isolation_pressure", "safety.isolation_pressure", "fact:double_isolation_pressure")


@rule("leak-test-written", PRACTICE)
def leak_test_written(plant: Reviewed) -> Iterator[Look]:
    """A leak test with nitrogen is written by itself: it raises the pressure of the test and reads what may be lost."""
    named = [
        name for name, each in plant.procedures.procedures.items()
        if "{safety.leak_test_pressure}" in texts(each) and ".leak_test_allowance}" in texts(each)
        and not any(step.opens for step in each.steps)
    ]  # fmt: skip
    yield plant.must(plant.plant.name, bool(named), procedures=_list(named))


def passes(plant: Reviewed, procedure: Procedure, name: str) -> bool:
    """Whether a procedure starts in a state, or one of its steps leads to what that is: positions, and what runs."""
    if procedure.start == name:
        return True
    states = plant.procedures.states
    start, wanted = states[procedure.start], states[name]
    positions, runs = plant.network.positions(start.positions), set(start.runs)
    stands, running = plant.network.positions(wanted.positions), set(wanted.runs)
    for step in procedure.steps[:-1]:
        positions |= step.sets
        runs = runs - set(step.stops) | set(step.starts)
        if positions == stands and runs == running:
            return True
    return False


@rule("running-state-can-be-stopped", PRACTICE, waivable=False)
def running_state_can_be_stopped(plant: Reviewed) -> Iterator[Look]:
    """From every state in which current flows or a booster strokes, procedures lead to one in which neither does."""
    running = {name for name, state in plant.procedures.states.items() if RUNNING & set(state.runs)}
    for name in sorted(running):
        reached, waiting = {name}, [name]
        while waiting:
            here = waiting.pop()
            ends = {each.end for each in plant.procedures.procedures.values() if passes(plant, each, here)}
            waiting.extend(ends - reached)
            reached |= ends
        yield plant.must(name, bool(reached - running), state=name)


@rule("way-on-after-emergency-stop", PRACTICE)
def way_on_after_emergency_stop(plant: Reviewed) -> Iterator[Look]:
    """What the emergency stop leaves of a plant with current is a described state, and a procedure leads on from it."""
    starts = {procedure.start for procedure in plant.procedures.procedures.values()}
    for trip in plant.described.trips:
        if trip.cause != "emergency_stop":
            continue
        for name, state in plant.procedures.states.items():
            if CURRENT & set(state.runs):
                left = [each for each, other in plant.procedures.states.items() if _leaves(plant, state, trip, other)]
                yield plant.must(name, bool(set(left) & starts), state=name, left=_list(left))


def _leaves(plant: Reviewed, state: State, trip: Trip, other: State) -> bool:
    """Whether a trip leaves of a state what another is: where actuated valves stand, and what runs."""
    positions = plant.network.positions(state.positions)
    positions |= {**dict.fromkeys(trip.shuts, "closed"), **dict.fromkeys(trip.opens, "open")}
    wanted = plant.network.positions(other.positions)
    same = all(positions[tag] == wanted[tag] for tag, _ in plant.items("actuated_valve", "isolator"))
    return same and set(state.runs) - set(trip.stops) == set(other.runs)


@rule("every-state-has-a-way-on", PRACTICE, severity="warn")
def every_state_has_a_way_on(plant: Reviewed) -> Iterator[Look]:
    """From every state a procedure leads on, so that nobody has to make one up."""
    for name in plant.procedures.states:
        by = [title for title, each in plant.procedures.procedures.items() if passes(plant, each, name)]
        yield plant.must(name, bool(by), state=name, procedures=_list(by))


@rule("desiccant-change-written", PRACTICE)
def desiccant_change_written(plant: Reviewed) -> Iterator[Look]:
    """A procedure opens every desiccant column and every deioniser, for both are changed while the plant lives."""
    opened = {tag for each in plant.procedures.procedures.values() for step in each.steps for tag in step.opens}
    for tag, _ in plant.items("desiccant_column", "deioniser"):
        yield plant.must(tag, tag in opened, tag=tag)


@rule("vehicle-filling-written", PRACTICE)
def vehicle_filling_written(plant: Reviewed) -> Iterator[Look]:
    """A procedure fills a vehicle: it opens the coupling, reads a gauge, and shuts it again."""
    for use in plant.described.uses:
        if use.kind != "vehicle":
            continue
        near = tags_beyond(plant, [(use.tag, "in")], lambda way, _: way.how in (How.FREE, How.LIMITS))
        couplings = {tag for tag, _ in plant.items("quick_coupling")} & near
        by = [name for name, each in plant.procedures.procedures.items() if _couples(each, couplings)]
        yield plant.must(use.tag, bool(by), tag=use.tag, procedures=_list(by))


def _couples(procedure: Procedure, couplings: set[str]) -> bool:
    """Whether a procedure opens a coupling and shuts it again."""
    positions = [step.sets[tag] for tag in sorted(couplings) for step in procedure.steps if tag in step.sets]
    return "open" in positions and positions[-1] == "closed"


@rule("opening-reads-first", PRACTICE, waivable=False)
def opening_reads_first(plant: Reviewed) -> Iterator[Look]:
    """Before a step opens an item of gas a gauge was read at zero, and before it opens any other something was read."""
    for name, procedure in plant.procedures.procedures.items():
        for number, step in enumerate(procedure.steps, start=1):
            if step.opens:
                read = [reading for each in procedure.steps[:number] for reading in each.reads]
                gas = any(_of_gas(plant, tag) for tag in step.opens)
                holds = any(reading.let_down or not gas for reading in read)
                where = place_named("review.at_step", place=name, step=str(number))
                yield plant.must(where, holds, procedure=where, tags=_list(step.opens))


def _of_gas(plant: Reviewed, tag: str) -> bool:
    media = {medium for port, found in plant.network.media.items() if port[0] == tag for medium in found}
    return bool(media & set(GASES))


@rule("opening-says-what-is-needed", PRACTICE)
def opening_says_what_is_needed(plant: Reviewed) -> Iterator[Look]:
    """A procedure that opens something, or lets nitrogen in, says which people, tools and papers it needs."""
    for name, procedure in plant.procedures.procedures.items():
        if any(step.opens or step.admits for step in procedure.steps):
            yield plant.must(name, bool(procedure.needs), procedure=name)
