"""
Figures of leaks and rooms: how much a leak lets out, what air it asks for, what gathers under the ceiling.

No room is ventilated against a hole of a millimetre. Air is figured for the declared leak of a seal or the whole
output of the stack, the larger; larger holes are left to detection, isolation and a small inventory, which
`release_fraction` judges. Leaks are those of a nozzle without losses on the coldest day: no hole passes more.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.formula import Constant, largest, smallest
from macros.calculations.hydrogen import density
from macros.calculations.leak import hole_area, leak_flow
from macros.calculations.relief import relieving_pressure
from macros.calculations.standstill import LOWER_FLAMMABLE_LIMIT
from macros.calculations.storage import pressure_when
from macros.calculations.vehicle import SETTLED_TEMPERATURE
from macros.calculations.ventilation import (
    LAYER_DEPTH,
    OPENING_COEFFICIENT,
    dilution_air,
    draught,
    hydrogen_in_room,
    layer_draught,
    layer_fraction,
    lightness_of_hydrogen,
    mixed_fraction,
    opening_needed,
    openings_in_series,
    plume_air,
    release_fraction,
    time_to_fraction,
)
from macros.description.item_kinds import HYDROGEN
from macros.description.loading import Description
from macros.description.network_file import Section
from macros.figures.graph import ATMOSPHERE, Figure, figure

HOLE = Constant(1e-3, "d_hole", "m", "bore of the hole by which larger leaks are judged", "common-practice")


def figures(description: Description) -> Iterator[Figure]:
    """Pressure and leak of every section that holds hydrogen, then the rooms, then the worst of them."""
    sections = description.network.sections
    known = [
        name for name, section in sections.items() if section.medium in HYDROGEN and has_pressure(description, section)
    ]
    for name in known:
        yield highest_pressure(description, name)
        yield from _leaks(description, name)
    rooms = [room for room in closed_rooms(description) if any(sections[name].room == room for name in known)]
    found: set[str] = set()
    for room in rooms:
        for one in _room(description, room, [name for name in known if sections[name].room == room]):
            found.add(one.name)
            yield one
    if rooms:
        yield from _worst(rooms, found)


def closed_rooms(description: Description) -> list[str]:
    """Rooms that are not in the open."""
    return [name for name, room in description.plant.rooms.items() if not room.outdoors]


def has_size(description: Description, room: str) -> bool:
    """Whether floor and height of a room are described; without them only the air that it needs can be told."""
    described = description.plant.rooms[room]
    return described.floor_area is not None and described.height is not None


def bank_of(description: Description, section: Section) -> str | None:
    """The bank that a section holds; none if it holds none."""
    return next((name for name, bank in description.plant.banks.items() if bank.tag in section.items), None)


def reliefs_of(description: Description, section: Section) -> list[str]:
    """The reliefs that cap a section: its own, those that the author names, or that of the buffer it rides with."""
    buffer = description.plant.buffer
    if section.relief or section.capped_by:
        return list(section.relief or section.capped_by)
    return [buffer.relief] if buffer is not None and section.rides_with_buffer else []


def has_pressure(description: Description, section: Section) -> bool:
    """Whether something says how high the pressure of a section can be; what is open to its vent has none."""
    return bank_of(description, section) is not None or bool(reliefs_of(description, section))


def highest_pressure(description: Description, name: str) -> Figure:
    """Pressure that the gas of a section can reach: a bank's on the hottest day, else what its reliefs let through."""
    section = description.network.sections[name]
    shown: dict[str, Any] = {"unit": "bar(g)", "digits": 3, "symbol": "p_high", "rounding": "up", "safety": True}
    bank = bank_of(description, section)
    path = f"safety.{name}.highest_pressure"
    if bank is not None:
        return figure(
            path, _on_the_hottest_day, source="by-definition", **shown,
            fill_pressure=f"banks.{bank}.fill_pressure", hottest="site.hottest",
        )  # fmt: skip
    inputs: dict[str, Any] = {}
    for number, tag in enumerate(reliefs_of(description, section), start=1):
        item = f"items.{tag.lower()}"
        settings = description.network.items[tag]
        for key in ("set_pressure", "tolerance", "accumulation"):
            if getattr(settings, key) is not None:
                inputs[f"{key}_{number}"] = f"{item}.{key}"
    return figure(path, _through_reliefs, source="api-520", **shown, atmosphere=ATMOSPHERE, **inputs)


def _leaks(description: Description, name: str) -> Iterator[Figure]:
    """What the declared leak of a section's worst seal lets out, and what a hole would."""
    section = description.network.sections[name]
    seals: dict[str, Any] = {"seals": f"sections.{name}.seal_leak_area"}
    for tag in section.items:
        if description.network.items[tag].seal_leak_area is not None:
            seals[f"seal_of_{tag.lower()}"] = f"items.{tag.lower()}.seal_leak_area"
    yield figure(
        f"safety.{name}.seal_leak_area", most, unit="mm2", symbol="A_s", digits=2, rounding="up", safety=True,
        source="by-definition", **seals,
    )  # fmt: skip
    flow: dict[str, Any] = {
        "pressure": f"safety.{name}.highest_pressure", "temperature": "site.coldest", "atmosphere": ATMOSPHERE,
    }  # fmt: skip
    yield figure(
        f"safety.{name}.leak_flow", _seal_leak, unit="NL/min", digits=2, symbol="n_leak", rounding="up", safety=True,
        source="nozzle-flow", area=f"safety.{name}.seal_leak_area", **flow,
    )  # fmt: skip
    yield figure(
        f"safety.{name}.hole_leak_flow", _hole_leak, unit="Nm3/h", digits=2, symbol="n_hole", rounding="up",
        safety=True, source="nozzle-flow", **flow,
    )  # fmt: skip


def _room(description: Description, room: str, sections: list[str]) -> Iterator[Figure]:
    """What a leak does to the air of a room, its fan running and lost."""
    described = description.plant.rooms[room]
    path, at = f"safety.rooms.{room}", f"rooms.{room}"
    sources: dict[str, Any] = {f"leak_of_{name}": f"safety.{name}.leak_flow" for name in sections}
    stack = next((item for item in description.network.items.values() if item.kind == "stack"), None)
    if stack is not None and stack.room == room:
        sources["stack"] = "stack.hydrogen_gross_flow"
    worst: dict[str, Any] = {"digits": 2, "rounding": "up", "safety": True}
    yield figure(
        f"{path}.hydrogen_released", _released, unit="L/min", symbol="q_H2", source="by-definition", **worst,
        temperature="site.hottest", atmosphere=ATMOSPHERE, **sources,
    )  # fmt: skip
    yield figure(
        f"{path}.ventilation_needed", _air_needed, unit="m3/h", symbol="Q_need", source="hse-rr993", **worst,
        hydrogen=f"{path}.hydrogen_released",
    )  # fmt: skip
    if not has_size(description, room):
        return
    yield figure(
        f"{path}.natural_opening_needed", _opening_needed, unit="cm2", symbol="A_need", source="bs-5925", **worst,
        air=f"{path}.ventilation_needed", height=f"{at}.height",
    )  # fmt: skip
    openings = _low_and_high(description, room)
    if openings is not None:
        low, high = openings
        yield figure(
            f"{path}.natural_flow", _draught, unit="m3/h", symbol="Q_nat", digits=2, rounding="down", safety=True,
            source="bs-5925",
            low_area=f"{low}.area", high_area=f"{high}.area", low_height=f"{low}.height", high_height=f"{high}.height",
        )  # fmt: skip
    lowest_rise: dict[str, Any] = {
        "height": f"{at}.height",
        **{f"seal_{name}": f"sections.{name}.seal_height" for name in sections},
    }
    if described.pocket_height is not None:
        lowest_rise["pocket"] = f"{at}.pocket_height"
    yield figure(
        f"{path}.plume_rise", _rise, unit="m", symbol="h_rise", digits=2, rounding="down", safety=True,
        source="by-definition", **lowest_rise,
    )  # fmt: skip
    layer: dict[str, Any] = {"hydrogen": f"{path}.hydrogen_released", "rise": f"{path}.plume_rise"}
    if described.fan_flow is not None:
        yield figure(
            f"{path}.mixed_fraction", mixed_fraction, unit="%", symbol="x_mix", **worst,
            hydrogen_m3_per_s=f"{path}.hydrogen_released", air_m3_per_s=f"{at}.fan_flow",
        )  # fmt: skip
        yield figure(
            f"{path}.ceiling_layer_fraction", _layer_with_fan, unit="%", symbol="x_layer", source="linden-1990",
            **worst,
            air=f"{at}.fan_flow", **layer,
        )  # fmt: skip
    if openings is not None:
        low, high = openings
        name = "ceiling_layer_fraction" + ("_fan_lost" if described.fan_flow is not None else "")
        yield figure(
            f"{path}.{name}", _layer_without_fan, unit="%", symbol="x_lost", source="linden-1990", **worst,
            low_area=f"{low}.area", high_area=f"{high}.area", low_height=f"{low}.height", high_height=f"{high}.height",
            **layer,
        )  # fmt: skip
    depth: dict[str, Any] = {"depth": f"{at}.pocket_height"} if described.pocket_height is not None else {}
    yield figure(
        f"{path}.time_to_quarter_limit", _time_to_quarter, unit="min", symbol="t_quarter", digits=2, rounding="down",
        safety=True, source="mass-balance",
        hydrogen=f"{path}.hydrogen_released", floor=f"{at}.floor_area", **depth,
    )  # fmt: skip
    yield from _inventory(description, room, sections)


def _inventory(description: Description, room: str, sections: list[str]) -> Iterator[Figure]:
    """What could come out in the room at most; a non-return valve counts as no isolation, so the buffer comes too."""
    path = f"safety.rooms.{room}"
    plant = description.plant
    inputs: dict[str, Any] = {"temperature": "site.coldest"}
    riding = [name for name in sections if description.network.sections[name].rides_with_buffer]
    for name in sections:
        section = description.network.sections[name]
        if section.free_volume is not None:
            inputs[f"volume_{name}"] = f"sections.{name}.free_volume"
            inputs[f"pressure_{name}"] = f"safety.{name}.highest_pressure"
    if riding and plant.buffer is not None:
        inputs["volume_of_buffer"] = "buffer.volume"
        inputs["pressure_of_buffer"] = f"safety.{riding[0]}.highest_pressure"
    if len(inputs) == 1:
        return
    worst: dict[str, Any] = {"digits": 2, "rounding": "up", "safety": True}
    yield figure(f"{path}.inventory", _held, unit="g", symbol="m_inv", source="by-definition", **worst, **inputs)
    yield figure(
        f"{path}.release_fraction", _release, unit="%", symbol="x_rel", source="mass-balance", **worst,
        mass=f"{path}.inventory", temperature="site.hottest", atmosphere=ATMOSPHERE,
        floor=f"rooms.{room}.floor_area", height=f"rooms.{room}.height",
    )  # fmt: skip


ROOM_FIGURES = {
    "ventilation_needed": ("m3/h", "Q_need"),
    "natural_opening_needed": ("cm2", "A_need"),
    "ceiling_layer_fraction": ("%", "x_layer"),
    "release_fraction": ("%", "x_rel"),
}
"""Figures of rooms of which the plant shows the largest."""


def _worst(rooms: list[str], found: set[str]) -> Iterator[Figure]:
    """
    The worst of the rooms.

    Where one room has not what it takes, its size or a way for air, the plant goes without the figure: the worst of the
    others would look like the worst of all.
    """
    for name, (unit, symbol) in ROOM_FIGURES.items():
        paths: dict[str, Any] = {room: f"safety.rooms.{room}.{name}" for room in rooms}
        if found.issuperset(paths.values()):
            yield figure(
                f"safety.{name}", most, unit=unit, symbol=symbol, digits=2, rounding="up", safety=True,
                source="by-definition", **paths,
            )  # fmt: skip
    times: dict[str, Any] = {room: f"safety.rooms.{room}.time_to_quarter_limit" for room in rooms}
    if found.issuperset(times.values()):
        yield figure(
            "safety.time_to_quarter_limit", least, unit="min", symbol="t_quarter", digits=2, rounding="down",
            safety=True, source="by-definition", **times,
        )  # fmt: skip


def _low_and_high(description: Description, room: str) -> tuple[str, str] | None:
    """The lowest and the highest opening of a room, where they lie apart."""
    openings = description.plant.rooms[room].openings
    if len(openings) < 2:
        return None
    heights = [opening.height.si for opening in openings]
    low, high = heights.index(min(heights)), heights.index(max(heights))
    if heights[low] == heights[high]:
        return None
    return f"rooms.{room}.openings.{low + 1}", f"rooms.{room}.openings.{high + 1}"


def most(**values: float) -> float:
    """The largest of any number of values."""
    found = list(values.values())
    return found[0] if len(found) == 1 else largest(*found)


def least(**values: float) -> float:
    """The smallest of any number of values."""
    found = list(values.values())
    return found[0] if len(found) == 1 else smallest(*found)


def _on_the_hottest_day(fill_pressure: float, hottest: float) -> float:
    return pressure_when(fill_pressure, SETTLED_TEMPERATURE, hottest)


def _through_reliefs(atmosphere: float, **settings: float) -> float:
    """Set pressure, tolerance and accumulation of every relief; the most that any of them lets through."""
    numbers = sorted({key.rsplit("_", 1)[1] for key in settings})
    return most(
        **{
            number: relieving_pressure(
                settings[f"set_pressure_{number}"], atmosphere, settings.get(f"accumulation_{number}", 0.0),
                settings.get(f"tolerance_{number}", 0.0),
            )
            for number in numbers
        }
    )  # fmt: skip


def _seal_leak(area: float, pressure: float, temperature: float, atmosphere: float) -> float:
    return leak_flow(area, 1.0, pressure, temperature, atmosphere) / MOLAR_MASS_HYDROGEN


def _hole_leak(pressure: float, temperature: float, atmosphere: float) -> float:
    return leak_flow(hole_area(HOLE), 1.0, pressure, temperature, atmosphere) / MOLAR_MASS_HYDROGEN


def _released(temperature: float, atmosphere: float, **sources: float) -> float:
    return hydrogen_in_room(most(**sources) * MOLAR_MASS_HYDROGEN, temperature, atmosphere)


def _air_needed(hydrogen: float) -> float:
    return dilution_air(hydrogen, LOWER_FLAMMABLE_LIMIT / 4)


def _opening_needed(air: float, height: float) -> float:
    """By the lightness of the mixture that is allowed alone: no wind, no warmth."""
    return opening_needed(air, OPENING_COEFFICIENT, height, lightness_of_hydrogen(LOWER_FLAMMABLE_LIMIT / 4))


def _draught(low_area: float, high_area: float, low_height: float, high_height: float) -> float:
    lightness = lightness_of_hydrogen(LOWER_FLAMMABLE_LIMIT / 4)
    return draught(openings_in_series(low_area, high_area), OPENING_COEFFICIENT, high_height - low_height, lightness)


def _rise(height: float, pocket: float = 0.0, **seals: float) -> float:
    return largest(0.0, height - pocket - most(**seals))


def _layer_with_fan(hydrogen: float, rise: float, air: float) -> float:
    return layer_fraction(hydrogen, air, plume_air(hydrogen, rise))


def _layer_without_fan(
    hydrogen: float, rise: float, low_area: float, high_area: float, low_height: float, high_height: float
) -> float:
    """The leak as far below the high opening as it is below the pocket, but no lower than the low opening."""
    between = high_height - low_height
    air = layer_draught(
        hydrogen,
        openings_in_series(low_area, high_area),
        OPENING_COEFFICIENT,
        between,
        between - smallest(rise, between),
    )
    return layer_fraction(hydrogen, air, plume_air(hydrogen, rise))


def _time_to_quarter(hydrogen: float, floor: float, depth: float = LAYER_DEPTH) -> float:
    return time_to_fraction(hydrogen, floor * depth, LOWER_FLAMMABLE_LIMIT / 4)


def _held(temperature: float, **parts: float) -> float:
    """Volume times density of every part, the coldest day holding the most."""
    held = [
        volume * density(parts[key.replace("volume", "pressure", 1)], temperature)
        for key, volume in parts.items()
        if key.startswith("volume")
    ]
    total = held[0]
    for each in held[1:]:
        total = total + each
    return total


def _release(mass: float, temperature: float, atmosphere: float, floor: float, height: float) -> float:
    return release_fraction(mass, temperature, atmosphere, floor * height)
