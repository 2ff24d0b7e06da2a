"""Rules of line-ups: what the proofs of every state, step, trip and single failure must find to hold."""

from __future__ import annotations

from collections.abc import Iterator

from macros.network.proofs import Failed
from macros.quantities import say
from macros.review.findings import place_named
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule

PRACTICE = "common-practice"
RUNNING = frozenset(("current", "holding_current", "booster_air"))
LOSSES = ("power_lost", "drive_air_lost", "water_lost", "ventilation_lost")


def states(plant: Reviewed) -> dict[str, tuple[str, ...]]:
    """The states of a plant, each with the words by which proofs tell of it."""
    return {
        place_named("review.place_state", name=name): (say("network.in_state", state=name),) for name in plant.procedures.states
    }  # fmt: skip


def procedures(plant: Reviewed) -> dict[str, tuple[str, ...]]:
    """The procedures, a loss of power in one of their steps included."""
    return {
        place_named("review.place_procedure", name=name): (name, say("network.power_lost_in", name=name))
        for name in plant.procedures.procedures
    }  # fmt: skip


def causes(plant: Reviewed) -> dict[str, tuple[str, ...]]:
    """The causes of trips and losses, from every state that runs."""
    running = [name for name, state in plant.procedures.states.items() if RUNNING & set(state.runs)]
    wanted = dict.fromkeys([*(trip.cause for trip in plant.described.trips), *LOSSES]) if running else {}
    return {
        place_named("review.place_trip", name=cause): tuple(
            say("network.tripped_in", cause=cause, state=state) for state in running
        )
        for cause in wanted
    }  # fmt: skip


def _proved(plant: Reviewed, proof: str, *, steps_only: bool = False) -> Iterator[Look]:
    """Whether a proof holds, place by place, with the first that it found wrong there."""
    places = procedures(plant) if steps_only else {**states(plant), **procedures(plant), **causes(plant)}
    found: dict[str, str] = {}
    for words, step, failed in plant.failed_proofs:
        if failed.proof == proof:
            found.setdefault(words, _told(words, step, failed))
    for place, names in places.items():
        wrong = next((found[each] for each in names if each in found), "")
        yield plant.must(place, not wrong, place=place, found=wrong or say("review.proof_holds"))


def _told(words: str, step: int, failed: Failed) -> str:
    at = say("review.at_step", place=words, step=str(step)) if step else words
    return say("review.proof_failed", place=at, message=failed.message.rstrip("."))


@rule("nothing-above-its-rating", PRACTICE, waivable=False)
def nothing_above_its_rating(plant: Reviewed) -> Iterator[Look]:
    """In every state, after every step and trip, nothing is reached by more than it bears."""
    yield from _proved(plant, "within_ratings")


@rule("no-way-round-non-return-valve", PRACTICE, waivable=False)
def no_way_round_non_return_valve(plant: Reviewed) -> Iterator[Look]:
    """What stands behind a non-return valve does not get round it to the side that it guards."""
    yield from _proved(plant, "non_return_valves_hold")


@rule("no-vessel-overfilled-by-another", PRACTICE, waivable=False)
def no_vessel_overfilled_by_another(plant: Reviewed) -> Iterator[Look]:
    """No vessel is filled by another beyond what it is filled to."""
    yield from _proved(plant, "stores_stand_apart")


@rule("hydrogen-meets-no-oxygen-or-air", PRACTICE, waivable=False)
def hydrogen_meets_no_oxygen_or_air(plant: Reviewed) -> Iterator[Look]:
    """Hydrogen meets neither oxygen nor air."""
    yield from _proved(plant, "media_stay_apart")


@rule("no-relief-shut-off", PRACTICE, waivable=False)
def no_relief_shut_off(plant: Reviewed) -> Iterator[Look]:
    """No relief is shut off from what it protects while something feeds that, and none from its vent."""
    yield from _proved(plant, "reliefs_serve")


@rule("no-shut-outlet", PRACTICE, waivable=False)
def no_shut_outlet(plant: Reviewed) -> Iterator[Look]:
    """No stack and no positive-displacement pump works against a shut outlet."""
    yield from _proved(plant, "outlets_open")


@rule("stop-ends-let-down-or-swept", PRACTICE, waivable=False)
def stop_ends_let_down_or_swept(plant: Reviewed) -> Iterator[Look]:
    """Every stop, trip and loss leaves the stack let down or its oxygen side swept, never under pressure and still."""
    yield from _proved(plant, "stack_let_down")


@rule("drives-agree-with-valves", PRACTICE)
def drives_agree_with_valves(plant: Reviewed) -> Iterator[Look]:
    """What runs can run, and what is said to stand still has lost its drive."""
    yield from _proved(plant, "drives_agree")


@rule("no-warm-water-shut-in", PRACTICE)
def no_warm_water_shut_in(plant: Reviewed) -> Iterator[Look]:
    """Water is not shut in without room to grow where it may become warm."""
    yield from _proved(plant, "no_water_shut_in")


@rule("opened-only-isolated-vented-inert", PRACTICE, waivable=False)
def opened_only_isolated_vented_inert(plant: Reviewed) -> Iterator[Look]:
    """What is opened is shut off by as many valves as its pressures demand, vented, proved at zero and inert."""
    yield from _proved(plant, "opened_safely")


@rule("steps-do-what-they-say", PRACTICE)
def steps_do_what_they_say(plant: Reviewed) -> Iterator[Look]:
    """What a step says to admit, to purge or to read happens as its valves stand."""
    yield from _proved(plant, "steps_do_what_they_say", steps_only=True)


@rule("no-pressure-forgotten", PRACTICE, waivable=False)
def no_pressure_forgotten(plant: Reviewed) -> Iterator[Look]:
    """No step leaves pressure shut in where no gauge shows it and no relief or vent lets it out."""
    yield from _proved(plant, "no_pressure_forgotten", steps_only=True)


@rule("procedure-ends-as-it-says", PRACTICE)
def procedure_ends_as_it_says(plant: Reviewed) -> Iterator[Look]:
    """The steps of a procedure lead to the state in which it says that it ends."""
    yield from _proved(plant, "ends_as_it_says", steps_only=True)


@rule("single-failures-held", PRACTICE, waivable=False)
def single_failures_held(plant: Reviewed) -> Iterator[Look]:
    """Whatever fails alone, nothing is reached by more than it bears and no gases meet that must not."""
    known = {each for words in (*states(plant).values(), *procedures(plant).values()) for each in words}
    known |= {each for words in causes(plant).values() for each in words}
    told: dict[str, str] = {}
    for words, step, failed in plant.failed_proofs:
        if words not in known:
            told.setdefault(words, _told(words, step, failed))
    for words, message in told.items():
        yield plant.must(words, False, found=message)
    if not told:
        name = plant.plant.name
        yield plant.must(name, True, found=say("review.failures_held", states=str(len(plant.procedures.states))))
