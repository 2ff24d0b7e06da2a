"""Rules of trips: that each cause is watched, by what, at which limits."""

from __future__ import annotations

import functools
from collections.abc import Collection, Iterable, Iterator

from macros.description.item_kinds import HYDROGEN
from macros.description.plant import Trip
from macros.network import How, Way
from macros.quantities import say
from macros.review.reliefs import lifts_at
from macros.review.reviewed import Look, Reading, Reviewed
from macros.review.rules import rule
from macros.review.ways import carries, feeders, tags_beyond

PRACTICE = "common-practice"

MEASURED = {
    "hydrogen_in_oxygen": "hydrogen_in_oxygen", "oxygen_in_hydrogen": "oxygen_in_hydrogen",
    "cell_voltage_spread": "cell_voltage", "pressure_high": "pressure", "temperature_high": "temperature",
    "level_low": "level", "level_high": "level", "water_flow_low": "flow", "fan_lost": "fan_flow",
}  # fmt: skip
"""What the transmitter of a trip must measure, by cause."""

NUMBERED = (
    "hydrogen_in_oxygen", "oxygen_in_hydrogen", "cell_voltage_spread", "pressure_high", "temperature_high",
    "water_flow_low", "gas_in_room",
)  # fmt: skip
"""Causes with a number at which they alarm and trip; the others are either there or not."""

CLOSE = (How.FREE, How.LIMITS)


def trips(plant: Reviewed, *causes: str) -> Iterator[tuple[int, Trip]]:
    """The trips of some causes, of all where none is named, with their numbers."""
    found = enumerate(plant.described.trips, start=1)
    return ((number, trip) for number, trip in found if not causes or trip.cause in causes)


def called(trip: Trip) -> str:
    """A trip as a place: its cause, and what watches it."""
    return f"{trip.cause} {trip.sensor}" if trip.sensor else trip.cause


def near(plant: Reviewed, *ports: tuple[str, str]) -> frozenset[str]:
    """The items that stand with some ports, no valve between."""
    node = plant.piping.node
    nodes = {node[port] for port in ports if port in node}
    return frozenset(tag for (tag, _), each in node.items() if each in nodes)


def stacks(plant: Reviewed) -> list[str]:
    return [tag for tag, _ in plant.items("stack")]


def _answered(plant: Reviewed, where: str, cause: str, seen: Collection[str] | None = None) -> Look:
    """Whether a trip answers a cause at a place, by one of the items that would see it; by any where none are named."""
    found = [trip for _, trip in trips(plant, cause) if seen is None or trip.sensor in seen]
    sensors = ", ".join(trip.sensor or trip.cause for trip in found)
    words = say("review.tripped_by", sensors=sensors) if found else say("review.not_tripped")
    return plant.must(where, bool(found), reads=("trips",), part=where, found=words)


def _of_stack(plant: Reviewed, cause: str, port: str, media: tuple[str, ...]) -> Iterator[Look]:
    """A trip for every stack, watching the gas that leaves by one of its ports, as far as it flows freely."""
    own = set(stacks(plant))

    def onwards(way: Way, _: bool) -> bool:
        return way.through not in own and way.how in CLOSE and carries(plant, way, media)

    for tag in stacks(plant):
        seen = tags_beyond(plant, [(tag, port)], onwards)
        yield _answered(plant, tag, cause, seen)


def _in_room(plant: Reviewed, name: str) -> set[str]:
    return {tag for tag, item in plant.network.items.items() if item.room == name}


@rule("trip-for-hydrogen-in-oxygen", PRACTICE, waivable=False)
def trip_for_hydrogen_in_oxygen(plant: Reviewed) -> Iterator[Look]:
    """Hydrogen in the oxygen trips the plant, watched in the oxygen that leaves the stack."""
    yield from _of_stack(plant, "hydrogen_in_oxygen", "o2", ("oxygen",))


@rule("trip-for-oxygen-in-hydrogen", PRACTICE, waivable=False)
def trip_for_oxygen_in_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """Oxygen in the hydrogen trips the plant, watched in the hydrogen that leaves the stack."""
    yield from _of_stack(plant, "oxygen_in_hydrogen", "h2", HYDROGEN)


@rule("trip-for-cell-voltage", PRACTICE)
def trip_for_cell_voltage(plant: Reviewed) -> Iterator[Look]:
    """A cell whose voltage strays from the others trips the plant."""
    for tag in stacks(plant):
        yield _answered(plant, tag, "cell_voltage_spread")


@rule("trip-for-high-pressure", PRACTICE, waivable=False)
def trip_for_high_pressure(plant: Reviewed) -> Iterator[Look]:
    """High pressure trips the plant: at the stack with no valve between, and at every bank that a booster fills."""
    for tag in stacks(plant):
        seen = near(plant, (tag, "h2"))
        yield _answered(plant, tag, "pressure_high", seen)
    for name in dict.fromkeys(booster.target for booster in plant.described.boosters):
        bank = plant.described.banks[name].tag
        held = plant.network.section_of(bank)
        yield _answered(plant, bank, "pressure_high", plant.network.sections[held].items if held else ())


@rule("trip-for-high-temperature", PRACTICE)
def trip_for_high_temperature(plant: Reviewed) -> Iterator[Look]:
    """High temperature trips the plant: of the stack, and of the discharge of every booster."""
    ports = [(tag, "o2") for tag in stacks(plant)] + [(booster.tag, "out") for booster in plant.described.boosters]
    for port in ports:
        yield _answered(plant, port[0], "temperature_high", near(plant, port))


@rule("trip-for-low-level", PRACTICE)
def trip_for_low_level(plant: Reviewed) -> Iterator[Look]:
    """A low level trips the plant: of the reservoir, before heater and pump run dry, and of the pot, before gas blows through."""
    yield from _level(plant, "level_low")


@rule("trip-for-high-level", PRACTICE)
def trip_for_high_level(plant: Reviewed) -> Iterator[Look]:
    """A high level trips the plant: of the reservoir, before water comes to the oxygen vent, and of the pot, before it shuts its vent."""
    yield from _level(plant, "level_high")


def _level(plant: Reviewed, cause: str) -> Iterator[Look]:
    for tag, item in plant.items("reservoir", "degassing_pot"):
        ports = {(tag, port) for port in item.kind.ports}
        runs = [run for run in plant.network.runs if run.start in ports or run.end in ports]
        seen = {port[0] for run in runs for port in (run.start, run.end)}
        yield _answered(plant, tag, cause, seen)


@rule("trip-for-low-water-flow", PRACTICE)
def trip_for_low_water_flow(plant: Reviewed) -> Iterator[Look]:
    """A low flow of water trips the plant, before membranes run hot and dry."""
    for tag, _ in plant.items("pump"):
        yield _answered(plant, tag, "water_flow_low")


@rule("trip-for-gas-in-room", PRACTICE, waivable=False)
def trip_for_gas_in_room(plant: Reviewed) -> Iterator[Look]:
    """Gas in a closed room, or where a booster stands, trips the plant."""
    boosters = {plant.network.items[booster.tag].room for booster in plant.described.boosters}
    for name, room in plant.described.rooms.items():
        closed = not room.outdoors and name in plant.hydrogen_sections.values()
        if closed or name in boosters:
            yield _answered(plant, name, "gas_in_room", _in_room(plant, name))


@rule("trip-for-lost-fan", PRACTICE, waivable=False)
def trip_for_lost_fan(plant: Reviewed) -> Iterator[Look]:
    """A fan that is counted on for ventilation trips the plant when its air stops, watched by the flow and not by the motor."""
    for name, room in plant.described.rooms.items():
        if room.fan_flow is not None and name in plant.hydrogen_sections.values():
            yield _answered(plant, name, "fan_lost", _in_room(plant, name))


@rule("trip-for-emergency-stop", PRACTICE, waivable=False)
def trip_for_emergency_stop(plant: Reviewed) -> Iterator[Look]:
    """The plant has an emergency stop."""
    yield _answered(plant, plant.plant.name, "emergency_stop")


@rule("trip-for-lost-power", PRACTICE, waivable=False)
def trip_for_lost_power(plant: Reviewed) -> Iterator[Look]:
    """Loss of power is a trip: its valves and its safe state are described."""
    yield _answered(plant, plant.plant.name, "power_lost")


@rule("trip-for-lost-drive-air", PRACTICE)
def trip_for_lost_drive_air(plant: Reviewed) -> Iterator[Look]:
    """Loss of drive air is a trip wherever boosters, and valves with them, live on it."""
    if plant.described.boosters:
        yield _answered(plant, plant.plant.name, "drive_air_lost")


@rule("trip-has-alarm-and-limit", PRACTICE)
def trip_has_alarm_and_limit(plant: Reviewed) -> Iterator[Look]:
    """A trip that hangs on a number says at which it alarms and at which it trips."""
    for _, trip in trips(plant, *NUMBERED):
        given = [key for key in ("alarm", "trip") if getattr(trip, key) is not None]
        yield plant.must(called(trip), len(given) == 2, trip=called(trip), given=", ".join(given) or "-")


@rule("alarm-before-trip", PRACTICE)
def alarm_before_trip(plant: Reviewed) -> Iterator[Look]:
    """A trip alarms before it trips, so that somebody can act."""
    for number, trip in trips(plant, *NUMBERED):
        compare = plant.at_least if trip.cause == "water_flow_low" else plant.at_most
        yield compare(called(trip), f"trips.{number}.alarm", f"trips.{number}.trip", trip=called(trip))


def _no_higher(plant: Reviewed, cause: str, alarm: str, trip: str) -> Iterator[Look]:
    for number, each in trips(plant, cause):
        for key, fact in (("alarm", alarm), ("trip", trip)):
            where = f"{each.sensor or each.cause} {key}"
            yield plant.at_most(where, f"trips.{number}.{key}", f"fact:{fact}", sensor=where)


@rule("hydrogen-in-oxygen-trips-early", PRACTICE, waivable=False)
def hydrogen_in_oxygen_trips_early(plant: Reviewed) -> Iterator[Look]:
    """Hydrogen in the oxygen alarms and trips no later than is usual, a quarter and a half of what burns."""
    yield from _no_higher(plant, "hydrogen_in_oxygen", "hydrogen_in_oxygen_alarm", "hydrogen_in_oxygen_trip")


@rule("oxygen-in-hydrogen-trips-early", PRACTICE, waivable=False)
def oxygen_in_hydrogen_trips_early(plant: Reviewed) -> Iterator[Look]:
    """Oxygen in the hydrogen alarms and trips no later than is usual, well below what burns."""
    yield from _no_higher(plant, "oxygen_in_hydrogen", "oxygen_in_hydrogen_alarm", "oxygen_in_hydrogen_trip")


@rule("gas-detector-trips-early", PRACTICE, waivable=False)
def gas_detector_trips_early(plant: Reviewed) -> Iterator[Look]:
    """A gas detector alarms at a tenth and trips at a quarter of the lower flammable limit at the latest."""
    yield from _no_higher(plant, "gas_in_room", "tenth_of_limit", "quarter_of_limit")


@rule("pressure-trip-below-relief", PRACTICE, waivable=False)
def pressure_trip_below_relief(plant: Reviewed) -> Iterator[Look]:
    """A high-pressure trip acts before any relief that protects the place, or caps what feeds it, may lift."""
    for number, trip in trips(plant, "pressure_high"):
        if trip.sensor in plant.network.items:
            for relief in _reliefs_over(plant, str(trip.sensor)):
                lifts = functools.partial(lifts_at, plant, relief)
                where = f"{trip.sensor} {relief}"
                yield plant.at_most(where, f"trips.{number}.trip", lifts, sensor=trip.sensor or "", relief=relief)


def _reliefs_over(plant: Reviewed, sensor: str) -> list[str]:
    """The reliefs of the section of a sensor; where it has none, those of what feeds it that are set highest."""
    name = plant.network.section_of(sensor)
    own = plant.network.sections[name] if name else None
    if own is not None and (own.relief or own.capped_by):
        return list(own.relief or own.capped_by)
    held = {plant.network.section_of(tag) for tag, _ in feeders(plant, (sensor, "tap"))} - {None, name}
    return list(dict.fromkeys(tag for each in held if each for tag in plant.network.sections[each].relief))


@rule("stack-pressure-trips-as-described", PRACTICE, waivable=False)
def stack_pressure_trips_as_described(plant: Reviewed) -> Iterator[Look]:
    """The high-pressure trip of the stack is set no higher than the buffer describes it."""
    if plant.described.buffer is None:
        return
    seen = near(plant, *((tag, "h2") for tag in stacks(plant)))
    for number, trip in trips(plant, "pressure_high"):
        if trip.sensor in seen:
            yield plant.at_most(str(trip.sensor), f"trips.{number}.trip", "buffer.high_trip", sensor=str(trip.sensor))


@rule("temperature-trips-below-limit", PRACTICE)
def temperature_trips_below_limit(plant: Reviewed) -> Iterator[Look]:
    """A high temperature trips no later than stack or seals of the booster that it guards bear."""
    guards = {(tag, "o2"): "stack.temperature_trip" for tag in stacks(plant)}
    for at, booster in enumerate(plant.described.boosters, start=1):
        guards[booster.tag, "out"] = f"boosters.{at}.seal_temperature"
    for number, trip in trips(plant, "temperature_high"):
        for port, limit in guards.items():
            if trip.sensor in near(plant, port):
                where = str(trip.sensor)
                yield plant.at_most(where, f"trips.{number}.trip", limit, sensor=where, part=port[0])


@rule("water-flow-trips-early", PRACTICE)
def water_flow_trips_early(plant: Reviewed) -> Iterator[Look]:
    """A low flow of water trips while a good share of the pump's flow still comes."""
    for number, trip in trips(plant, "water_flow_low"):
        least = functools.partial(least_water, plant)
        yield plant.at_least(trip.sensor or trip.cause, f"trips.{number}.trip", least, sensor=trip.sensor or "")


def least_water(plant: Reviewed) -> Reading:
    """The flow of water below which the stack is stopped at the latest."""
    return plant.reading("water.flow", plant.reading("fact:water_flow_trip_share").si)


@rule("water-flow-alarms-below-flow", PRACTICE, severity="warn")
def water_flow_alarms_below_flow(plant: Reviewed) -> Iterator[Look]:
    """The alarm for a low flow of water is set below what the pump brings, so that the plant can run."""
    for number, trip in trips(plant, "water_flow_low"):
        where = trip.sensor or trip.cause
        yield plant.at_most(where, f"trips.{number}.alarm", "water.flow", sensor=where)


@rule("trip-sensor-measures-cause", PRACTICE, waivable=False)
def trip_sensor_measures_cause(plant: Reviewed) -> Iterator[Look]:
    """What watches a cause measures it."""
    for _, trip in trips(plant):
        if trip.cause not in MEASURED and trip.cause != "gas_in_room":
            continue
        item = plant.network.items.get(trip.sensor or "")
        kind = item.kind.name if item is not None else ""
        measures = item.settings.get("measures") if item is not None else None
        if trip.cause == "gas_in_room":
            holds = kind == "gas_detector"
        else:
            holds = measures == MEASURED[trip.cause] or (trip.cause == "pressure_high" and kind == "pressure_switch")
        told = str(measures or kind or say("review.no_sensor"))
        yield plant.must(called(trip), holds, trip=called(trip), measures=told)


@rule("high-pressure-trip-apart-from-switch", PRACTICE, waivable=False)
def high_pressure_trip_apart_from_switch(plant: Reviewed) -> Iterator[Look]:
    """The high-pressure trip of the stack has a sensor of its own: the switch that controls the plant is no protection."""
    switches = {tag for tag, _ in plant.items("pressure_switch")}
    seen = near(plant, *((tag, "h2") for tag in stacks(plant)))
    sensors = [str(trip.sensor) for _, trip in trips(plant, "pressure_high")]
    for tag in stacks(plant):
        apart = [sensor for sensor in sensors if sensor in seen and not (sensor in switches and len(switches) < 2)]
        yield plant.must(tag, bool(apart), tag=tag, sensors=", ".join(apart or sensors) or "-")


def guards_stack(plant: Reviewed, trip: Trip) -> bool:
    """Whether a trip guards the stack itself, or everything, and so must stop its current."""
    if trip.cause == "drive_air_lost":
        return False
    if trip.cause in ("pressure_high", "temperature_high"):
        return trip.sensor in near(plant, *((tag, port) for tag in stacks(plant) for port in ("h2", "o2")))
    return True


def guards_booster(plant: Reviewed, trip: Trip) -> bool:
    """Whether a trip guards a booster or a bank that it fills, or everything, and so must stop the drive air."""
    if trip.cause in ("gas_in_room", "emergency_stop", "power_lost", "drive_air_lost"):
        return True
    held = _sections(plant, [booster.tag for booster in plant.described.boosters])
    held |= _sections(plant, [plant.described.banks[booster.target].tag for booster in plant.described.boosters])
    return trip.sensor is not None and plant.network.section_of(trip.sensor) in held


def _sections(plant: Reviewed, tags: Iterable[str]) -> set[str | None]:
    return {plant.network.section_of(tag) for tag in tags} - {None}
