"""Figures of the power side: what the supply gives, what fuse and cable must bear, what is left for a cold stack."""

from __future__ import annotations

from collections.abc import Iterator

from macros.calculations.cell_voltage import direct_power, stack_voltage
from macros.calculations.conductor import (
    conductor_resistance,
    current_drawn,
    hot_resistance,
    share_of_voltage,
    smallest_conductor,
    voltage_drop,
    voltage_headroom,
)
from macros.calculations.fuse import fuse_maximum, fuse_minimum
from macros.description.loading import Description
from macros.figures.graph import Figure, figure


def figures(description: Description) -> Iterator[Figure]:
    """All figures of the power side; what depends on the stack's voltage only where a pressure decides that."""
    yield figure(
        "power.fuse_minimum", fuse_minimum, unit="A", symbol="I_n,min", rounding="up", safety=True,
        current_a="stack.current",
    )  # fmt: skip
    yield figure(
        "power.fuse_maximum", fuse_maximum, unit="A", symbol="I_n,max", rounding="down", safety=True,
        ampacity_a="power.cable.ampacity",
    )  # fmt: skip
    yield figure(
        "power.cable_drop", _cable_drop, unit="V", symbol="ΔU", rounding="up", source="iec-60228",
        area="power.cable.area", temperature="power.cable.temperature", length="power.cable.length",
        current="stack.current",
    )  # fmt: skip
    yield figure(
        "power.cable_loss", direct_power, unit="W", symbol="P_loss", rounding="up",
        voltage_v="power.cable_drop", current_a="stack.current",
    )  # fmt: skip
    if description.plant.buffer is None:
        return
    yield figure(
        "power.supply_current", current_drawn, unit="A", symbol="I_s", rounding="up",
        power_w="stack.supply_power", voltage_v="power.supply_voltage", power_factor="power.power_factor",
    )  # fmt: skip
    yield figure(
        "power.cable_area_minimum", _smallest_cable, unit="mm2", symbol="A_min", rounding="up", source="iec-60228",
        length="power.cable.length", current="stack.current", stack="stack.voltage", share="power.drop_allowed",
        temperature="power.cable.temperature",
    )  # fmt: skip
    yield figure(
        "power.cold_voltage", stack_voltage, unit="V", symbol="U_cold", rounding="up",
        cell_voltage_v="stack.cold_cell_voltage", cells="stack.cells",
    )  # fmt: skip
    yield figure(
        "power.voltage_headroom", voltage_headroom, unit="V", digits=2, symbol="ΔU_head", rounding="down",
        rectifier_voltage_v="power.rectifier_voltage", cable_drop_v="power.cable_drop",
        cold_voltage_v="power.cold_voltage",
    )  # fmt: skip


def _cable_drop(area: float, temperature: float, length: float, current: float) -> float:
    """Drop over both conductors at their temperature in service."""
    return voltage_drop(hot_resistance(conductor_resistance(area), temperature), length, current)


def _smallest_cable(length: float, current: float, stack: float, share: float, temperature: float) -> float:
    """Smallest size for the drop allowed; the current that it must bear as laid is for the local code."""
    return smallest_conductor(length, current, share_of_voltage(stack, share), temperature)
