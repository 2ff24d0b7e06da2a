"""
What a plant's own description allows its figures: the pairs of a figure and the entry or figure that it must not pass.

A sized plant is held against them before and after. The design review judges with margins and says what to change; this
table only notices what passes a rating when an entry moves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from macros.figures.graph import FigureError, Graph, Value

__all__ = ["RATINGS", "Passed", "passed"]

RATINGS: tuple[tuple[str, str], ...] = (
    ("stack.cell_voltage", "stack.cell_voltage_trip"),
    ("stack.cold_cell_voltage", "stack.cell_voltage_trip"),
    ("stack.temperature", "stack.temperature_trip"),
    ("stack.relief_pressure", "stack.pressure_rating"),
    ("stack.differential_highest", "stack.differential_allowed"),
    ("stack.hydrogen_in_oxygen", "stack.hydrogen_in_oxygen_alarm"),
    ("stack.minimum_current_alarm", "stack.current"),
    ("stack.current", "power.rectifier_current"),
    ("stack.current", "power.fuse"),
    ("stack.current", "power.isolator"),
    ("stack.current", "power.cable.ampacity"),
    ("power.fuse_minimum", "power.fuse"),
    ("power.fuse", "power.fuse_maximum"),
    ("power.cold_voltage", "power.rectifier_voltage"),
    ("power.cold_voltage", "power.fuse_direct_current_voltage"),
    ("power.cold_voltage", "power.isolator_voltage"),
    ("power.cable_area_minimum", "power.cable.area"),
    ("stack.heat", "water.cooling_capacity"),
    ("stack.temperature", "water.deioniser.temperature_limit"),
    ("water.usable", "water.reservoir"),
    ("buffer.cut_in", "buffer.cut_out"),
    ("buffer.cut_out", "buffer.high_trip"),
    ("buffer.high_trip", "buffer.allowable_pressure"),
    ("boosters.*.stall_pressure_highest", "boosters.*.discharge_rating"),
    ("boosters.*.drive_pressure_highest", "boosters.*.drive_rating"),
    ("boosters.*.supply_highest", "boosters.*.inlet_highest"),
    ("boosters.*.pressure_ratio", "boosters.*.ratio_allowed"),
    ("boosters.*.pressure_ratio_hot", "boosters.*.ratio_allowed"),
    ("boosters.*.pressure_ratio", "boosters.*.ratio_limit"),
    ("boosters.*.discharge_temperature", "boosters.*.seal_temperature"),
    ("compressor.duty", "compressor.duty_allowed"),
    ("compressor.duty_boosting", "compressor.duty_allowed"),
    ("banks.*.fill_pressure", "banks.*.fill_limit"),
    ("banks.*.fill_pressure", "banks.*.working_pressure"),
    ("banks.*.developed_pressure", "banks.*.test_pressure"),
    ("banks.*.hot_pressure", "banks.*.allowable_pressure"),
    ("safety.rooms.*.ventilation_needed", "rooms.*.fan_flow"),
    ("safety.relief.*.largest_source", "safety.relief.*.capacity"),
)
"""What must not be above what; `*` stands for the same name on both sides."""


@dataclass(frozen=True)
class Passed:
    """A value above what is allowed it."""

    value: Value
    allowed: Value


def passed(graph: Graph) -> Iterator[Passed]:
    """Every pair of `RATINGS` that does not hold; pairs that the plant lacks, or cannot evaluate, are left out."""
    names = list(graph)
    for pattern, allowed_pattern in RATINGS:
        before, star, after = pattern.partition("*")
        for name in names:
            middle = name.removeprefix(before).removesuffix(after) if star else ""
            if name != before + middle + after or (star and (not middle or "." in middle)):
                continue
            allowed = allowed_pattern.replace("*", middle)
            if allowed not in graph:
                continue
            try:
                pair = Passed(graph[name], graph[allowed])
            except FigureError:
                continue
            if pair.value.is_number and pair.allowed.is_number and not pair.value.si <= pair.allowed.si * (1 + 1e-9):
                yield pair
