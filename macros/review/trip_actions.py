"""Rules of what trips do: what they stop, shut, open and leave running, and how they are reset."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Iterator

from macros.description.plant import Trip
from macros.network import How, Way
from macros.quantities import say
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule
from macros.review.trips import called, guards_booster, guards_stack, trips
from macros.review.ways import beyond

PRACTICE = "common-practice"
ALIVE = ("fan", "detectors")
TAKING = ("machine", "use", "vessel")
"""Groups of items that take or hold gas: what is shut off from a bank leads to none of them."""


@rule("trip-reset-by-hand", PRACTICE)
def trip_reset_by_hand(plant: Reviewed) -> Iterator[Look]:
    """A trip is reset by hand, by somebody who has found out why."""
    for number, trip in trips(plant):
        reads = (f"trips.{number}.reset",)
        yield plant.must(called(trip), trip.reset == "by_hand", reads=reads, trip=called(trip))


@rule("trip-stops-current", PRACTICE, waivable=False)
def trip_stops_current(plant: Reviewed) -> Iterator[Look]:
    """Every trip that guards the stack, or the whole plant, stops its current."""
    for number, trip in trips(plant):
        if guards_stack(plant, trip):
            reads = (f"trips.{number}.stops",)
            yield plant.must(
                called(trip), "current" in trip.stops, reads=reads, trip=called(trip), stops=_list(trip.stops)
            )


@rule("trip-stops-boosters", PRACTICE, waivable=False)
def trip_stops_boosters(plant: Reviewed) -> Iterator[Look]:
    """Every trip that guards a booster or a bank that it fills, or the whole plant, stops the drive air."""
    for number, trip in trips(plant):
        if plant.described.boosters and guards_booster(plant, trip):
            reads, holds = (f"trips.{number}.stops",), "booster_air" in trip.stops
            yield plant.must(called(trip), holds, reads=reads, trip=called(trip), stops=_list(trip.stops))


@rule("trip-keeps-fan-and-detectors", PRACTICE, waivable=False)
def trip_keeps_fan_and_detectors(plant: Reviewed) -> Iterator[Look]:
    """No trip, the emergency stop least of all, stops fan or detectors."""
    for number, trip in trips(plant):
        reads, holds = (f"trips.{number}.stops",), not set(ALIVE) & set(trip.stops)
        yield plant.must(called(trip), holds, reads=reads, trip=called(trip), stops=_list(trip.stops))


def _list(words: Iterable[str]) -> str:
    return ", ".join(words) or "-"


@rule("fail-position-fits-trip", PRACTICE, waivable=False)
def fail_position_fits_trip(plant: Reviewed) -> Iterator[Look]:
    """A valve that trips shut fails shut, and one that trips open fails open, so that a lost drive does as a trip does."""
    moved: dict[str, set[str]] = {}
    for _, trip in trips(plant):
        for tag in trip.shuts:
            moved.setdefault(tag, set()).add("closed")
        for tag in trip.opens:
            moved.setdefault(tag, set()).add("open")
    for tag, positions in moved.items():
        item = plant.network.items.get(tag)
        fails = item.settings.get("fail_position") if item is not None else None
        holds = None if fails is None else positions == {fails}
        reads = (f"items.{tag.lower()}.fail_position",)
        yield plant.must(tag, holds, reads=reads, tag=tag, fails=str(fails), moved=_list(sorted(positions)))


@rule("actuated-valve-fails-to-a-position", PRACTICE)
def actuated_valve_fails_to_a_position(plant: Reviewed) -> Iterator[Look]:
    """An actuated valve falls open or shut when its drive is lost, and does not stay as it stood."""
    for tag, item in plant.items("actuated_valve"):
        fails = item.settings.get("fail_position")
        holds = None if fails is None else fails != "stays"
        yield plant.must(tag, holds, reads=(f"items.{tag.lower()}.fail_position",), tag=tag, fails=str(fails))


@rule("trip-shuts-quickly", PRACTICE)
def trip_shuts_quickly(plant: Reviewed) -> Iterator[Look]:
    """A valve that a trip moves is there within seconds."""
    for tag in dict.fromkeys(tag for _, trip in trips(plant) for tag in (*trip.shuts, *trip.opens)):
        yield plant.at_most(tag, f"items.{tag.lower()}.closing_time", "fact:valve_time_longest", tag=tag)


@rule("emergency-stop-stops-drives", PRACTICE, waivable=False)
def emergency_stop_stops_drives(plant: Reviewed) -> Iterator[Look]:
    """The emergency stop stops the current, the heater and the drive air of boosters."""
    wanted = {"current", "heater"} | ({"booster_air"} if plant.described.boosters else set())
    for number, trip in trips(plant, "emergency_stop"):
        left = sorted(wanted - set(trip.stops))
        yield plant.must(trip.cause, not left, reads=(f"trips.{number}.stops",), left=_list(left))


@rule("emergency-stop-shuts-banks", PRACTICE, waivable=False)
def emergency_stop_shuts_banks(plant: Reviewed) -> Iterator[Look]:
    """The emergency stop shuts every bank off on all sides, by valves that it moves itself."""
    yield from _shuts_banks(plant, "emergency_stop")


@rule("gas-trip-shuts-banks", PRACTICE, waivable=False)
def gas_trip_shuts_banks(plant: Reviewed) -> Iterator[Look]:
    """Gas found by a detector shuts every bank off on all sides, so that no leak feeds on it."""
    yield from _shuts_banks(plant, "gas_in_room")


@rule("lost-power-shuts-banks", PRACTICE, waivable=False)
def lost_power_shuts_banks(plant: Reviewed) -> Iterator[Look]:
    """Without power every bank is shut off on all sides."""
    yield from _shuts_banks(plant, "power_lost")


def _shuts_banks(plant: Reviewed, cause: str) -> Iterator[Look]:
    for _, trip in trips(plant, cause):
        for name, bank in plant.described.banks.items():
            open_to = _led_to(plant, bank.tag, trip)
            words = say("review.leads_to", tags=_list(open_to)) if open_to else say("review.leads_nowhere")
            yield plant.must(f"{called(trip)} {name}", not open_to, trip=called(trip), bank=name, found=words)


def _led_to(plant: Reviewed, bank: str, trip: Trip) -> list[str]:
    """What a bank still leads to once a trip has shut its valves; those that a hand moves may stand open."""
    ports = [(bank, port) for port in plant.network.items[bank].kind.ports]
    found = {tag for tag, _ in beyond(plant, ports, functools.partial(_through, set(trip.shuts)))} - {bank}
    return sorted(tag for tag in found if plant.network.items[tag].kind.group in TAKING)


@rule("emergency-stop-vents-drive-air", PRACTICE, waivable=False)
def emergency_stop_vents_drive_air(plant: Reviewed) -> Iterator[Look]:
    """The emergency stop shuts the drive air off from every booster and vents what is behind the valve."""
    for _, trip in trips(plant, "emergency_stop"):
        for booster in plant.described.boosters:
            fed = any(
                plant.network.items[tag].kind.name == "compressor"
                for tag, _ in beyond(plant, [(booster.tag, "drive_air")], functools.partial(_through, set(trip.shuts)))
            )
            node = plant.piping.node[booster.tag, "drive_air"]
            vented = any(
                gate.tag in trip.opens
                and node in (gate.start, gate.end)
                and {gate.start, gate.end} & plant.piping.headers
                for gate in plant.piping.gates
            )
            wrong = [say(key) for key, is_so in (("review.air_comes", fed), ("review.air_stays", not vented)) if is_so]
            found = ", ".join(wrong) or say("review.air_vented")
            yield plant.must(booster.tag, not wrong, tag=booster.tag, found=found)


def _through(shut: set[str], way: Way, _: bool) -> bool:
    """Whether gas comes through a way, either way round, with some valves shut: non-return valves do not count as shut."""
    return way.through not in shut and way.how in (How.FREE, How.LIMITS, How.ONE_WAY, How.LOWERS)
