"""Checks of plant.yml: its tags and names stand for something, its limits stand in an order that makes sense."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from macros.description.fields import comparable
from macros.description.naming import RELIEFS, SILENT, Naming
from macros.description.references import references
from macros.description.shape import slot_at
from macros.description.strict_yaml import Path, dotted
from macros.quantities import Fault, Quantity, QuantityError, read, say

__all__ = ["plant_faults"]

STAGE_KINDS = {
    "separator": "separator",
    "coalescer": "coalescer",
    "desiccant": "desiccant_column",
    "cold_coil": "cold_coil",
}
STAGE_NEEDS = {
    "desiccant": (
        "bed_mass", "transfer_zone", "regeneration_temperature", "regeneration_dew_point", "column_heat_capacity",
        "regeneration_efficiency",
    ),
    "cold_coil": ("coolant_temperature", "coil_coefficient"),
}  # fmt: skip
"""What a stage of a kind cannot do without: no figure may be missing for want of a size."""

USE_KINDS = {"burner": "burner", "fuel_cell": "fuel_cell", "vehicle": "vehicle_tank"}
SENSORS = ("transmitter", "pressure_switch", "gas_detector", "pressure_gauge")


def plant_faults(naming: Naming) -> Iterator[Fault]:
    """Everything wrong in plant.yml that its parts cannot tell by themselves."""
    yield from plant_tags(naming)
    yield from stages(naming)
    names(naming)
    yield from orders(naming)


def plant_tags(naming: Naming) -> Iterator[Fault]:
    """Each tag of plant.yml is an item of the right kind, and no two parts have the same."""
    plant = naming.plant
    paths: list[tuple[Path, tuple[str, ...]]] = []
    for number in plant.numbers("drying"):
        kind = plant.text("drying", number, "kind")
        paths.append((("drying", number, "tag"), (STAGE_KINDS[kind],) if kind in STAGE_KINDS else ()))
    paths.append((("buffer", "tag"), ("buffer",)))
    paths.extend((("boosters", number, "tag"), ("booster",)) for number in plant.numbers("boosters"))
    paths.extend((("banks", bank, "tag"), ("bank",)) for bank in plant.mapping("banks"))
    for number in plant.numbers("uses"):
        kind = plant.text("uses", number, "kind")
        paths.append((("uses", number, "tag"), (USE_KINDS[kind],) if kind in USE_KINDS else ()))
    paths.append((("flush", "tag"), ("purge_inlet",)))
    first: dict[str, Path] = {}
    for path, kinds in paths:
        wrong = list(naming.tag(plant, path, kinds))
        yield from wrong
        tag = plant.text(*path)
        if not wrong and tag is not None and first.setdefault(tag, path) != path:
            yield plant.fault(path, say("description.tag_twice", tag=tag, first=dotted(first[tag])))
    yield from naming.tag(plant, ("buffer", "relief"), RELIEFS)
    for number in plant.numbers("trips"):
        yield from naming.tag(plant, ("trips", number, "sensor"), SENSORS)
        for key in ("shuts", "opens"):
            for place in plant.numbers("trips", number, key):
                yield from naming.tag(plant, ("trips", number, key, place), ("actuated_valve",))
        for key in ("alarm", "trip"):
            yield from _limit(naming, ("trips", number, key))


def stages(naming: Naming) -> Iterator[Fault]:
    """Each stage of gas treatment has the sizes that its kind needs; no coil cools below its coolant."""
    plant = naming.plant
    for number in plant.numbers("drying"):
        stage, kind = ("drying", number), plant.text("drying", number, "kind")
        written = plant.mapping(*stage)
        for key in STAGE_NEEDS.get(kind or "", ()):
            slot = slot_at(plant.root, (*stage, key))
            if written and key not in written and slot is not None and plant.sound((*stage, key)):
                message = say("description.setting_missing", title=slot.title, kind=kind)
                yield plant.fault((*stage, key), message)
        if kind == "cold_coil":
            yield from _rising(naming, (*stage, "coolant_temperature"), (*stage, "temperature"))


def _limit(naming: Naming, path: Path) -> Iterator[Fault]:
    """A limit of a trip is a quantity, or one reference to where it stands already."""
    text = naming.plant.text(*path)
    if text is None:
        return
    found = references(text)
    if len(found) == 1 and found[0].start == 0 and found[0].end == len(text):
        return
    try:
        read(text)
    except QuantityError as error:
        yield naming.plant.fault(path, str(error))


def names(naming: Naming) -> None:
    """Rooms, banks and supplies exist."""
    plant = naming.plant
    supplies = naming.banks
    if supplies is not SILENT and (not plant.sound(("buffer",)) or plant.document.data.get("buffer") is not None):
        supplies = supplies | {"buffer"}
    for bank in plant.mapping("banks"):
        naming.name(plant, ("banks", bank, "room"), naming.rooms, "description.unknown_room")
    for number in plant.numbers("boosters"):
        naming.name(plant, ("boosters", number, "supply"), supplies, "description.unknown_supply")
        naming.name(plant, ("boosters", number, "target"), naming.banks, "description.unknown_bank")
    for number in plant.numbers("transfers"):
        naming.name(plant, ("transfers", number, "source"), naming.banks, "description.unknown_bank")
        naming.name(plant, ("transfers", number, "target"), naming.banks, "description.unknown_bank")
    for number in plant.numbers("uses"):
        for place in plant.numbers("uses", number, "supply"):
            naming.name(plant, ("uses", number, "supply", place), supplies, "description.unknown_supply")
    for tag in naming.network.mapping("items"):
        naming.name(naming.network, ("items", tag, "room"), naming.rooms, "description.unknown_room")
    for section in naming.network.mapping("sections"):
        naming.name(naming.network, ("sections", section, "room"), naming.rooms, "description.unknown_room")


def _rising(naming: Naming, *paths: Path, equal: bool = False) -> Iterator[Fault]:
    """Quantities stand in rising order; a fault at the later of two that do not."""
    for lower, upper in itertools.pairwise(paths):
        low, high = naming.plant.quantity(*lower), naming.plant.quantity(*upper)
        if low is None or high is None:
            continue
        if comparable(low) > comparable(high) or (not equal and comparable(low) == comparable(high)):
            key = "description.not_at_least" if equal else "description.not_above"
            yield naming.plant.fault(upper, say(key, found=high.text, other=dotted(lower), value=low.text))


def orders(naming: Naming) -> Iterator[Fault]:
    """Limits stand in the order that makes sense of them."""
    plant = naming.plant
    yield from _rising(naming, ("site", "coldest"), ("site", "usual"), ("site", "hottest"), equal=True)
    yield from _rising(naming, ("stack", "temperature"), ("stack", "temperature_trip"))
    yield from _rising(naming, ("water", "usable"), ("water", "reservoir"), equal=True)
    yield from _rising(naming, ("buffer", "cut_in"), ("buffer", "cut_out"), ("buffer", "high_trip"))
    for number in plant.numbers("boosters"):
        booster = ("boosters", number)
        yield from _rising(naming, (*booster, "drive_pressure"), (*booster, "drive_pressure_highest"), equal=True)
    for bank in plant.mapping("banks"):
        pressures = ("fill_pressure", "working_pressure", "test_pressure")
        yield from _rising(naming, *(("banks", bank, key) for key in pressures), equal=True)
    for number in plant.numbers("uses"):
        if plant.text("uses", number, "kind") == "vehicle":
            yield from _cascade(naming, number)
    for number in plant.numbers("transfers"):
        which = plant.quantity("transfers", number, "booster")
        count = len(plant.numbers("boosters"))
        if which is not None and plant.sound(("boosters",)) and which.si > count:
            message = say("description.no_such_booster", found=which.text, count=count)
            yield plant.fault(("transfers", number, "booster"), message)
    months = plant.numbers("power", "surplus")
    if plant.get("power", "surplus") is not None and len(months) != 12:
        yield plant.fault(("power", "surplus"), say("description.not_twelve", found=len(months)))
    hourly = plant.text("demand", "hourly")
    for path in (("power", "surplus"), ("demand", "daily_energy")):
        if hourly is not None and plant.get(*path) is not None:
            yield plant.fault(path, say("description.hours_say_it", file=hourly))


def _cascade(naming: Naming, use: int) -> Iterator[Fault]:
    """A vehicle draws from the bank of the lowest pressure first: one that follows a higher gives nothing."""
    before: tuple[str, Quantity] | None = None
    for place in naming.plant.numbers("uses", use, "supply"):
        name = naming.plant.text("uses", use, "supply", place)
        fill = naming.plant.quantity("banks", name, "fill_pressure") if name is not None else None
        if name is None or fill is None:
            continue
        if before is not None and comparable(fill) < comparable(before[1]):
            message = say("description.fill_order", name=name, value=fill.text, before=before[0], other=before[1].text)
            yield naming.plant.fault(("uses", use, "supply", place), message)
        before = (name, fill)
