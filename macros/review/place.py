"""Rules of the place: air, openings, what stands outdoors, where vents end, where detectors hang."""

from __future__ import annotations

from collections.abc import Iterator

from macros.description.item_kinds import HYDROGEN
from macros.description.plant import Room
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule

LED_OUTDOORS = (*HYDROGEN, "oxygen", "nitrogen")


def closed_rooms(plant: Reviewed) -> Iterator[tuple[str, Room]]:
    """Rooms that are not in the open and in which hydrogen can leak."""
    places = set(plant.hydrogen_sections.values())
    return ((name, room) for name, room in plant.described.rooms.items() if name in places and not room.outdoors)


@rule("air-dilutes-leak", "hse-rr993", "a quarter of the lower limit as the mean of a room", waivable=False)
def air_dilutes_leak(plant: Reviewed) -> Iterator[Look]:
    """The fan of a room, or its openings where it has none, dilute the declared leak and the output of the stack."""
    for name, room in closed_rooms(plant):
        air = f"rooms.{name}.fan_flow" if room.fan_flow is not None else f"safety.rooms.{name}.natural_flow"
        yield plant.at_least(f"rooms.{name}", air, f"safety.rooms.{name}.ventilation_needed", room=room.title)


@rule("openings-dilute-leak-without-fan", "bs-5925", severity="warn")
def openings_dilute_leak_without_fan(plant: Reviewed) -> Iterator[Look]:
    """The openings of a room dilute the declared leak by themselves while the fan stands still."""
    for name, room in closed_rooms(plant):
        if room.fan_flow is not None:
            at = f"safety.rooms.{name}"
            yield plant.at_least(f"rooms.{name}", f"{at}.natural_flow", f"{at}.ventilation_needed", room=room.title)


@rule("layer-under-ceiling-below-quarter", "linden-1990", waivable=False)
def layer_under_ceiling_below_quarter(plant: Reviewed) -> Iterator[Look]:
    """The layer that a declared leak makes under the ceiling stays below a quarter of the lower limit."""
    for name, room in closed_rooms(plant):
        path = f"safety.rooms.{name}.ceiling_layer_fraction"
        yield plant.at_most(f"rooms.{name}", path, "fact:quarter_of_limit", room=room.title)


@rule("layer-without-fan-below-limit", "linden-1990", waivable=False)
def layer_without_fan_below_limit(plant: Reviewed) -> Iterator[Look]:
    """With the fan lost, the layer that a declared leak makes under the ceiling does not burn."""
    for name, room in closed_rooms(plant):
        if room.fan_flow is not None:
            path = f"safety.rooms.{name}.ceiling_layer_fraction_fan_lost"
            yield plant.at_most(f"rooms.{name}", path, "fact:lower_flammable_limit", room=room.title)


@rule("detector-answers-before-quarter", "iso-26142", "response time", severity="warn")
def detector_answers_before_quarter(plant: Reviewed) -> Iterator[Look]:
    """In still air a declared leak takes longer to a quarter of the lower limit than a detector takes to answer."""
    for name, room in closed_rooms(plant):
        path = f"safety.rooms.{name}.time_to_quarter_limit"
        yield plant.at_least(f"rooms.{name}", path, "fact:detector_response", room=room.title)


@rule("inventory-below-half-limit", "mass-balance", waivable=False)
def inventory_below_half_limit(plant: Reviewed) -> Iterator[Look]:
    """All hydrogen that can come out in a room, mixed with its air, stays below half of the lower limit."""
    for name, room in closed_rooms(plant):
        path = f"safety.rooms.{name}.release_fraction"
        yield plant.at_most(f"rooms.{name}", path, "fact:lower_flammable_limit", times=0.5, room=room.title)


@rule("room-opens-low", "bs-5925")
def room_opens_low(plant: Reviewed) -> Iterator[Look]:
    """A room with hydrogen has an opening near the floor, by which air comes in."""
    for name, room in closed_rooms(plant):
        heights = {n: each.height.si for n, each in enumerate(room.openings, start=1)}
        lowest = min(heights, key=lambda number: heights[number], default=1)
        path = f"rooms.{name}.openings.{lowest}.height"
        yield plant.at_most(f"rooms.{name}", path, "fact:low_opening_highest", room=room.title)


@rule("room-opens-high", "bs-5925")
def room_opens_high(plant: Reviewed) -> Iterator[Look]:
    """A room with hydrogen has an opening near the ceiling, by which hydrogen leaves."""
    for name, room in closed_rooms(plant):
        heights = {n: each.height.si for n, each in enumerate(room.openings, start=1)}
        highest = max(heights, key=lambda number: heights[number], default=1)
        reach = (f"rooms.{name}.openings.{highest}.height", "fact:high_opening_below")
        yield plant.at_least(f"rooms.{name}", reach, f"rooms.{name}.height", room=room.title)


@rule("banks-outdoors", "common-practice", waivable=False)
def banks_outdoors(plant: Reviewed) -> Iterator[Look]:
    """Banks stand outdoors."""
    for bank in plant.described.banks.values():
        item = plant.network.items.get(bank.tag)
        places = [bank.room] if item is None or item.room is None else [bank.room, item.room]
        rooms = [plant.described.rooms.get(place) for place in places]
        known = all(room is not None for room in rooms)
        yield plant.must(bank.tag, all(room and room.outdoors for room in rooms) if known else None, tag=bank.tag)


@rule("boosters-outdoors", "common-practice")
def boosters_outdoors(plant: Reviewed) -> Iterator[Look]:
    """Boosters stand outdoors: their seals always move."""
    for tag, item in plant.items("booster"):
        room = plant.described.rooms.get(item.room or "")
        yield plant.must(tag, None if room is None else room.outdoors, tag=tag)


@rule("high-pressure-outdoors", "common-practice", waivable=False)
def high_pressure_outdoors(plant: Reviewed) -> Iterator[Look]:
    """Indoors no hydrogen stands at high pressure."""
    rooms = dict(closed_rooms(plant))
    for section, place in plant.hydrogen_sections.items():
        path = f"safety.{section}.highest_pressure"
        if place in rooms and plant.has(path):
            yield plant.at_most(f"sections.{section}", path, "fact:indoor_pressure_highest", section=section)


@rule("items-say-their-place", "common-practice")
def items_say_their_place(plant: Reviewed) -> Iterator[Look]:
    """Every item says where it stands, so that zones, leaks and frost can be judged."""
    lost = [tag for tag, item in plant.network.items.items() if item.room is None]
    for tag in lost:
        yield plant.must(tag, False, tag=tag)
    if not lost:
        yield plant.must("network.yml", True, tag=str(len(plant.network.items)))


@rule("network-leaves-nothing-open", "common-practice")
def network_leaves_nothing_open(plant: Reviewed) -> Iterator[Look]:
    """Every section is protected, every item belongs to one where it stands, and no media meet in an item."""
    faults = list(plant.network.findings())
    for fault in faults:
        yield plant.must(fault.key, False, told=fault.message.rstrip("."))
    if not faults:
        yield plant.must("network.yml", True, told=str(len(plant.network.sections)))


@rule("vents-lead-outdoors", "common-practice", waivable=False)
def vents_lead_outdoors(plant: Reviewed) -> Iterator[Look]:
    """Vents of hydrogen, oxygen and nitrogen end outdoors."""
    for tag, item in plant.items("vent"):
        if item.settings["medium"] in LED_OUTDOORS:
            yield plant.must(tag, item.settings["leads_to"] == "outdoors", tag=tag, title=item.title)


@rule("vents-high-enough", "common-practice")
def vents_high_enough(plant: Reviewed) -> Iterator[Look]:
    """Vents of hydrogen and oxygen end above heads, where a jet that burns reaches nobody."""
    for tag, item in plant.items("vent"):
        if item.settings["medium"] in (*HYDROGEN, "oxygen"):
            yield plant.at_least(tag, f"items.{tag.lower()}.height", "fact:vent_height_lowest", tag=tag)


@rule("oxygen-and-hydrogen-vents-apart", "common-practice", waivable=False)
def oxygen_and_hydrogen_vents_apart(plant: Reviewed) -> Iterator[Look]:
    """No vent takes both oxygen or air and hydrogen: each side has vents of its own."""
    for tag, item in plant.items("vent"):
        arriving = set(plant.network.media.get((tag, "in"), ()))
        all_media = {*arriving, item.settings["medium"]}
        both = bool(all_media & set(HYDROGEN)) and bool(all_media & {"oxygen", "air"})
        yield plant.must(tag, not both if arriving else None, tag=tag, title=item.title)


@rule("closed-room-has-detector", "common-practice", waivable=False)
def closed_room_has_detector(plant: Reviewed) -> Iterator[Look]:
    """Every room in which hydrogen can leak has a gas detector."""
    for name, room in closed_rooms(plant):
        hung = [tag for tag, item in plant.items("gas_detector") if item.room == name]
        yield plant.must(f"rooms.{name}", bool(hung), room=room.title)


@rule("booster-has-detector", "common-practice")
def booster_has_detector(plant: Reviewed) -> Iterator[Look]:
    """Where a booster stands a gas detector watches its seals, outdoors too."""
    for tag, item in plant.items("booster"):
        hung = [each for each, detector in plant.items("gas_detector") if detector.room == item.room]
        yield plant.must(tag, None if item.room is None else bool(hung), tag=tag)


@rule("detector-in-highest-pocket", "common-practice")
def detector_in_highest_pocket(plant: Reviewed) -> Iterator[Look]:
    """A gas detector indoors hangs in the highest pocket, where hydrogen gathers first."""
    rooms = dict(closed_rooms(plant))
    for tag, item in plant.items("gas_detector"):
        if item.room in rooms:
            reach = (f"items.{tag.lower()}.height", "fact:detector_below_ceiling")
            yield plant.at_least(tag, reach, f"rooms.{item.room}.height", tag=tag)
