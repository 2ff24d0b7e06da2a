"""Rules of the direct current, and of what may light a spark beside hydrogen."""

from __future__ import annotations

from collections.abc import Iterator

from macros.network.network import Item
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule
from macros.review.tracing import reached

SPARKING = frozenset((
    "rectifier", "isolator", "fuse", "supply", "transmitter", "gas_detector", "pressure_switch", "pump", "compressor",
    "actuated_valve", "cooler",
))  # fmt: skip
"""Kinds that work with electricity, a cooler by its fan. Flames and fuel cells are judged by their own approval."""


@rule("fuse-above-operating-current", "iec-60364-4-43")
def fuse_above_operating_current(plant: Reviewed) -> Iterator[Look]:
    """The fuse carries the operating current for good."""
    yield plant.at_least("power.fuse", "power.fuse", "power.fuse_minimum")


@rule("fuse-protects-cable", "iec-60364-4-43", waivable=False)
def fuse_protects_cable(plant: Reviewed) -> Iterator[Look]:
    """The fuse blows before the cable grows too hot."""
    yield plant.at_most("power.fuse", "power.fuse", "power.fuse_maximum")


@rule("fuse-rated-for-direct-voltage", "common-practice", waivable=False)
def fuse_rated_for_direct_voltage(plant: Reviewed) -> Iterator[Look]:
    """The fuse breaks direct current at the highest voltage of the rectifier."""
    yield plant.at_least("power.fuse", "power.fuse_direct_current_voltage", "power.rectifier_voltage")


@rule("isolator-rated-for-direct-voltage", "common-practice", waivable=False)
def isolator_rated_for_direct_voltage(plant: Reviewed) -> Iterator[Look]:
    """The isolator breaks direct current at the highest voltage of the rectifier."""
    yield plant.at_least("power.isolator", "power.isolator_voltage", "power.rectifier_voltage")


@rule("isolator-carries-what-fuse-lets-through", "common-practice")
def isolator_carries_what_fuse_lets_through(plant: Reviewed) -> Iterator[Look]:
    """The isolator carries whatever current the fuse carries for good."""
    yield plant.at_least("power.isolator", "power.isolator", "power.fuse")


@rule("cable-carries-rectifier-current", "iec-60364-4-43")
def cable_carries_rectifier_current(plant: Reviewed) -> Iterator[Look]:
    """The cable carries the highest current of the rectifier as it is laid."""
    yield plant.at_least("power.cable", "power.cable.ampacity", "power.rectifier_current")


@rule("cable-thick-enough", "iec-60228", severity="warn")
def cable_thick_enough(plant: Reviewed) -> Iterator[Look]:
    """The cable is thick enough for the drop of voltage that is allowed."""
    yield plant.at_least("power.cable", "power.cable.area", "power.cable_area_minimum")


@rule("rectifier-makes-operating-current", "common-practice")
def rectifier_makes_operating_current(plant: Reviewed) -> Iterator[Look]:
    """The rectifier makes the operating current."""
    yield plant.at_least("power.rectifier_current", "power.rectifier_current", "stack.current")


@rule("rectifier-starts-cold-stack", "common-practice")
def rectifier_starts_cold_stack(plant: Reviewed) -> Iterator[Look]:
    """The rectifier has the voltage for a cold stack and the drop of its cable."""
    yield plant.at_most(
        "power.rectifier_voltage", ("power.cold_voltage", "power.cable_drop"), "power.rectifier_voltage"
    )


@rule("cell-voltage-trip-above-cold-start", "common-practice")
def cell_voltage_trip_above_cold_start(plant: Reviewed) -> Iterator[Look]:
    """A cold start at operating current stays below the trip of the cell voltage."""
    yield plant.at_most("stack.cell_voltage_trip", "stack.cold_cell_voltage", "stack.cell_voltage_trip")


@rule("cell-voltage-trip-below-damage", "common-practice")
def cell_voltage_trip_below_damage(plant: Reviewed) -> Iterator[Look]:
    """The cell voltage trips before it harms membrane and metal."""
    yield plant.at_most("stack.cell_voltage_trip", "stack.cell_voltage_trip", "fact:cell_voltage_highest")


@rule("stack-circuit-through-fuse", "common-practice", waivable=False)
def stack_circuit_through_fuse(plant: Reviewed) -> Iterator[Look]:
    """No current reaches the stack but through a fuse."""
    yield from _circuit(plant, "fuse")


@rule("stack-circuit-through-isolator", "common-practice", waivable=False)
def stack_circuit_through_isolator(plant: Reviewed) -> Iterator[Look]:
    """No current reaches the stack but through an isolator."""
    yield from _circuit(plant, "isolator")


def _circuit(plant: Reviewed, kind: str) -> Iterator[Look]:
    """Whether an item of a kind stands in the positive lead of every rectifier."""
    for tag, _ in plant.items("rectifier"):
        stacks = {stack for stack, _ in plant.items("stack")}
        joined = stacks & reached(plant.network, tag, "positive", through=lambda item: item.kind.group == "electric")
        past = stacks & reached(plant.network, tag, "positive", through=lambda item: _conducts(item, kind))
        yield plant.must(tag, not past if joined else None, tag=tag)


def _conducts(item: Item, but: str) -> bool:
    return item.kind.group == "electric" and item.kind.name != but


@rule("no-ordinary-equipment-beside-hydrogen", "iec-60079-10-1", "zones around seals and vents")
def no_ordinary_equipment_beside_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """Where hydrogen can leak, electrical equipment is made for gas group IIC and temperature class T1."""
    places = set(plant.hydrogen_sections.values())
    for tag, item in plant.network.items.items():
        if item.kind.name in SPARKING and item.room in places:
            found = item.settings.get("ignition_class")
            yield plant.must(tag, None if found is None else found != "ordinary", tag=tag, title=item.title)


@rule("rectifier-and-compressor-apart-from-hydrogen", "common-practice", waivable=False)
def rectifier_and_compressor_apart_from_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """Rectifier and drive-air compressor stand where no hydrogen can leak: one sparks, the other breathes in."""
    places = set(plant.hydrogen_sections.values())
    for tag, item in plant.items("rectifier", "compressor"):
        yield plant.must(tag, None if item.room is None else item.room not in places, tag=tag, title=item.title)
