"""`network.yml`: the items of a plant, the lines that join them, and the sections that figures speak of."""

from __future__ import annotations

from typing import Literal

from macros.description.fields import MONTH, NAME, TAG, Default, Part, field, measure
from macros.description.item_kinds import ITEM_KINDS
from macros.quantities import Quantity

Medium = Literal["hydrogen", "wet_hydrogen", "oxygen", "water", "air", "nitrogen", "electric"]
Facing = Literal["right", "left", "up", "down"]
Measured = Literal[
    "pressure",
    "temperature",
    "flow",
    "level",
    "conductivity",
    "hydrogen_in_oxygen",
    "oxygen_in_hydrogen",
    "cell_voltage",
    "dew_point",
    "speed",
    "fan_flow",
]


class Item(Part):
    """An item of the network. Which settings it needs, and which it may have, its kind decides."""

    kind: str = field(json_schema_extra={"choices": list(ITEM_KINDS)})
    title: str = field()
    room: str | None = field(None, pattern=f"^{NAME}$")
    at: list[float] = field(min_length=2, max_length=2)
    facing: Facing = field("right")
    note: str | None = field(None)
    ignition_class: Literal["none", "ordinary", "iic_t1"] | None = field(
        None,
    )
    leak_class: Literal["welded", "joint", "seal", "moving_seal"] | None = field(
        None,
    )
    seal_leak_area: Quantity | None = measure(
        "area",
        symbol="A_s",
        low="0 mm2",
        high="10 mm2",
        usual=("0.01 mm2", "1 mm2"),
        optional=True,
    )
    rating: Quantity | None = measure("pressure", symbol="p_r", low="0 bar(g)", high="2000 bar(g)", optional=True)
    outlet_rating: Quantity | None = measure(
        "pressure",
        symbol="p_r_o",
        low="0 bar(g)",
        high="2000 bar(g)",
        optional=True,
    )
    set_pressure: Quantity | None = measure(
        "pressure", symbol="p_set", low="0 bar(g)", high="2000 bar(g)", optional=True
    )
    tolerance: Quantity | None = measure(
        "fraction",
        symbol="t_set",
        low="0 %",
        high="25 %",
        usual=("1 %", "10 %"),
        optional=True,
    )
    accumulation: Quantity | None = measure(
        "fraction",
        symbol="a_set",
        low="0 %",
        high="30 %",
        usual=("0 %", "10 %"),
        optional=True,
    )
    reseat: Quantity | None = measure(
        "fraction",
        symbol="r_set",
        low="30 %",
        high="100 %",
        usual=("75 %", "95 %"),
        optional=True,
    )
    discharge_coefficient: Quantity | None = measure(
        "ratio",
        symbol="K_d",
        low="0.1",
        high="1",
        usual=("0.5", "0.9"),
        optional=True,
    )
    orifice_bore: Quantity | None = measure("length", symbol="d_o", low="0.05 mm", high="100 mm", optional=True)
    bore: Quantity | None = measure("length", symbol="d", low="0.05 mm", high="300 mm", optional=True)
    length: Quantity | None = measure("length", symbol="l", low="10 mm", high="100 m", optional=True)
    cracking_pressure: Quantity | None = measure(
        "pressure_difference",
        symbol="Δp_c",
        low="0 mbar",
        high="10 bar",
        optional=True,
    )
    leak_back: Quantity | None = measure(
        "normal_flow",
        symbol="Q_b",
        low="0 NL/min",
        high="100 NL/min",
        optional=True,
    )
    flow_coefficient: Quantity | None = measure(
        "flow_coefficient", symbol="K_v", low="0.0001 Kv", high="1000 Kv", optional=True
    )
    closing_flow: Quantity | None = measure(
        "normal_flow", symbol="Q_c", low="0.1 NL/min", high="1000000 NL/min", optional=True
    )
    closing_time: Quantity | None = measure("time", symbol="t_c", low="0 s", high="60 s", optional=True)
    lock_up: Quantity | None = measure(
        "pressure_difference",
        symbol="Δp_l",
        low="0 mbar",
        high="50 bar",
        optional=True,
    )
    fail_position: Literal["open", "closed", "stays"] | None = field(None)
    normal_position: str | None = field(
        None,
    )
    volume: Quantity | None = measure("volume", symbol="V", low="1 mL", high="10000 L", optional=True)
    material: str | None = field(None)
    inlet_height: Quantity | None = measure("length", symbol="z_i", low="0 m", high="20 m", optional=True)
    mesh: Quantity | None = measure("length", symbol="d_f", low="0.001 µm", high="5 mm", optional=True)
    measures: Measured | None = field(None)
    scale_end: Quantity | None = measure("pressure", symbol="p_e", low="0 bar(g)", high="4000 bar(g)", optional=True)
    height: Quantity | None = measure("length", symbol="z", low="0 m", high="50 m", optional=True)
    leads_to: Literal["outdoors", "room"] | None = field(None)
    medium: Medium | None = field(None)
    supply_pressure: Quantity | None = measure(
        "pressure",
        symbol="p_s",
        low="0 bar(g)",
        high="300 bar(g)",
        optional=True,
    )
    supply_flow: Quantity | None = measure(
        "normal_flow",
        symbol="Q_s",
        low="0.1 NL/min",
        high="100000 NL/min",
        optional=True,
    )
    highest_pressure: Quantity | None = measure(
        "pressure",
        symbol="p_h",
        low="0 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )
    positive_displacement: bool | None = field(None)
    gas_group: Literal["iia", "iib", "iib_hydrogen", "iic"] | None = field(None)
    approved_gas: str | None = field(None)
    tested: str | None = field(None, pattern=MONTH)


class Line(Part):
    """A line: a chain of items joined by one run of tube, pipe, hose or cable."""

    chain: str = field()
    medium: Medium = field()
    title: str | None = field(None)
    outer_diameter: Quantity | None = measure("length", symbol="D", low="1 mm", high="300 mm", optional=True)
    wall: Quantity | None = measure("length", symbol="s", low="0.1 mm", high="20 mm", optional=True)
    wall_tolerance: Quantity | None = measure(
        "fraction",
        symbol="t_s",
        low="0 %",
        high="30 %",
        usual=("5 %", "15 %"),
        optional=True,
    )
    bore: Quantity | None = measure(
        "length",
        symbol="d",
        low="0.2 mm",
        high="300 mm",
        optional=True,
    )
    length: Quantity | None = measure("length", symbol="l", low="10 mm", high="500 m", optional=True)
    material: str | None = field(None)
    allowable_stress: Quantity | None = measure(
        "pressure_difference",
        symbol="σ",
        low="1 MPa",
        high="400 MPa",
        optional=True,
    )
    fitting_rating: Quantity | None = measure(
        "pressure", symbol="p_f", low="0 bar(g)", high="2000 bar(g)", optional=True
    )


class Section(Part):
    """A part of the plant that figures and tests speak of as one: what its items and lines hold."""

    title: str = field()
    items: list[str] = field(min_length=1)
    medium: Medium = field()
    room: str = field(pattern=f"^{NAME}$")
    free_volume: Quantity | None = measure(
        "volume",
        symbol="V_f",
        low="1 mL",
        high="100000 L",
        optional=True,
    )
    rides_with_buffer: bool = field(False)
    seal_leak_area: Quantity = measure(
        "area",
        symbol="A_s",
        low="0 mm2",
        high="10 mm2",
        usual=("0.01 mm2", "1 mm2"),
        default=Default("0.025 mm2", "common-practice", "high"),
    )
    seal_height: Quantity = measure(
        "length",
        symbol="z_s",
        low="0 m",
        high="10 m",
        default=Default("1.5 m", "common-practice", "high"),
    )
    relief: list[str] = field([])
    capped_by: list[str] = field([])
    unprotected: str | None = field(None)


class NetworkFile(Part):
    """The network of a plant."""

    format: Literal[1] = field()
    items: dict[str, Item] = field(json_schema_extra={"keys": TAG})
    lines: dict[str, Line] = field(json_schema_extra={"keys": TAG})
    sections: dict[str, Section] = field({}, json_schema_extra={"keys": NAME})
