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

    kind: str = field("Kind of item", json_schema_extra={"choices": list(ITEM_KINDS)})
    title: str = field("What it is called")
    room: str | None = field("Room where it stands", None, pattern=f"^{NAME}$")
    at: list[float] = field(
        "Place on the drawing: column and row, from the left and from above", min_length=2, max_length=2
    )
    facing: Facing = field("Side to which the flow leaves it on the drawing", "right")
    note: str | None = field("What else must be known of it", None)
    ignition_class: Literal["none", "ordinary", "iic_t1"] | None = field(
        "Whether it can ignite gas: `none`, `ordinary` equipment, or made for gas group IIC and temperature class T1",
        None,
    )
    leak_class: Literal["welded", "joint", "seal", "moving_seal"] | None = field(
        "How it is sealed: welded, by resting joints, by a seal moved now and then, or by one that always moves",
        None,
    )
    seal_leak_area: Quantity | None = measure(
        "area",
        "Declared leak area of its seal",
        symbol="A_s",
        low="0 mm2",
        high="10 mm2",
        usual=("0.01 mm2", "1 mm2"),
        optional=True,
    )
    rating: Quantity | None = measure(
        "pressure", "Highest pressure that it bears", symbol="p_r", low="0 bar(g)", high="2000 bar(g)", optional=True
    )
    outlet_rating: Quantity | None = measure(
        "pressure",
        "Highest pressure that its outlet bears",
        symbol="p_r_o",
        low="0 bar(g)",
        high="2000 bar(g)",
        optional=True,
    )
    set_pressure: Quantity | None = measure(
        "pressure", "Pressure to which it is set", symbol="p_set", low="0 bar(g)", high="2000 bar(g)", optional=True
    )
    tolerance: Quantity | None = measure(
        "fraction",
        "Tolerance of the set pressure",
        symbol="t_set",
        low="0 %",
        high="25 %",
        usual=("1 %", "10 %"),
        optional=True,
    )
    accumulation: Quantity | None = measure(
        "fraction",
        "Rise above the set pressure at which it is fully open",
        symbol="a_set",
        low="0 %",
        high="30 %",
        usual=("0 %", "10 %"),
        optional=True,
    )
    reseat: Quantity | None = measure(
        "fraction",
        "Share of the set pressure at which it has shut again",
        symbol="r_set",
        low="30 %",
        high="100 %",
        usual=("75 %", "95 %"),
        optional=True,
    )
    discharge_coefficient: Quantity | None = measure(
        "ratio",
        "Coefficient of discharge, certified or derated",
        symbol="K_d",
        low="0.1",
        high="1",
        usual=("0.5", "0.9"),
        optional=True,
    )
    orifice_bore: Quantity | None = measure(
        "length", "Bore of its narrowest passage", symbol="d_o", low="0.05 mm", high="100 mm", optional=True
    )
    bore: Quantity | None = measure("length", "Inner diameter", symbol="d", low="0.05 mm", high="300 mm", optional=True)
    length: Quantity | None = measure("length", "Length", symbol="l", low="10 mm", high="100 m", optional=True)
    cracking_pressure: Quantity | None = measure(
        "pressure_difference",
        "Difference at which it begins to open",
        symbol="Δp_c",
        low="0 mbar",
        high="10 bar",
        optional=True,
    )
    leak_back: Quantity | None = measure(
        "normal_flow",
        "Leak against its direction that is allowed at test",
        symbol="Q_b",
        low="0 NL/min",
        high="100 NL/min",
        optional=True,
    )
    flow_coefficient: Quantity | None = measure(
        "flow_coefficient", "Flow coefficient, fully open", symbol="K_v", low="0.0001 Kv", high="1000 Kv", optional=True
    )
    closing_flow: Quantity | None = measure(
        "normal_flow", "Flow at which it shuts", symbol="Q_c", low="0.1 NL/min", high="1000000 NL/min", optional=True
    )
    closing_time: Quantity | None = measure(
        "time", "Time that it takes to move", symbol="t_c", low="0 s", high="60 s", optional=True
    )
    lock_up: Quantity | None = measure(
        "pressure_difference",
        "Rise above the set pressure when the flow stops",
        symbol="Δp_l",
        low="0 mbar",
        high="50 bar",
        optional=True,
    )
    fail_position: Literal["open", "closed", "stays"] | None = field("What it does when its drive is lost", None)
    normal_position: str | None = field(
        "Where it stands unless a state or step says otherwise: `open`, `closed`, or the legs of a three-way valve",
        None,
    )
    volume: Quantity | None = measure("volume", "Free volume", symbol="V", low="1 mL", high="10000 L", optional=True)
    material: str | None = field("Material that meets the gas", None)
    inlet_height: Quantity | None = measure(
        "length", "Height of its inlet above its outlet", symbol="z_i", low="0 m", high="20 m", optional=True
    )
    mesh: Quantity | None = measure(
        "length", "Size that it holds back", symbol="d_f", low="0.001 µm", high="5 mm", optional=True
    )
    measures: Measured | None = field("What it measures", None)
    scale_end: Quantity | None = measure(
        "pressure", "End of its scale", symbol="p_e", low="0 bar(g)", high="4000 bar(g)", optional=True
    )
    height: Quantity | None = measure(
        "length", "Height above the floor or the ground", symbol="z", low="0 m", high="50 m", optional=True
    )
    leads_to: Literal["outdoors", "room"] | None = field("Where its mouth lies", None)
    medium: Medium | None = field("What leaves or enters by it", None)
    supply_pressure: Quantity | None = measure(
        "pressure",
        "Highest pressure that the supply connected to it brings",
        symbol="p_s",
        low="0 bar(g)",
        high="300 bar(g)",
        optional=True,
    )
    supply_flow: Quantity | None = measure(
        "normal_flow",
        "Flow that the supply connected to it brings",
        symbol="Q_s",
        low="0.1 NL/min",
        high="100000 NL/min",
        optional=True,
    )
    highest_pressure: Quantity | None = measure(
        "pressure",
        "Highest pressure that it makes against a shut outlet",
        symbol="p_h",
        low="0 bar(g)",
        high="1000 bar(g)",
        optional=True,
    )
    positive_displacement: bool | None = field("Whether a shut outlet makes its pressure rise without end", None)
    gas_group: Literal["iia", "iib", "iib_hydrogen", "iic"] | None = field("Gas group for which it stops a flame", None)
    approved_gas: str | None = field("Gas for which it is approved", None)
    tested: str | None = field("Month in which its test falls due", None, pattern=MONTH)


class Line(Part):
    """A line: a chain of items joined by one run of tube, pipe, hose or cable."""

    chain: str = field("Tags in the direction of flow: `ST1.h2 > SE1 > V1`; a branch begins at an item named before")
    medium: Medium = field("What flows in it")
    title: str | None = field("What it is called", None)
    outer_diameter: Quantity | None = measure(
        "length", "Outer diameter of the tube", symbol="D", low="1 mm", high="300 mm", optional=True
    )
    wall: Quantity | None = measure(
        "length", "Nominal wall of the tube", symbol="s", low="0.1 mm", high="20 mm", optional=True
    )
    wall_tolerance: Quantity | None = measure(
        "fraction",
        "Share by which the wall may be thinner than nominal",
        symbol="t_s",
        low="0 %",
        high="30 %",
        usual=("5 %", "15 %"),
        optional=True,
    )
    bore: Quantity | None = measure(
        "length",
        "Inner diameter, where outer diameter and wall do not say it",
        symbol="d",
        low="0.2 mm",
        high="300 mm",
        optional=True,
    )
    length: Quantity | None = measure(
        "length", "Length of the run", symbol="l", low="10 mm", high="500 m", optional=True
    )
    material: str | None = field("Material of the tube", None)
    allowable_stress: Quantity | None = measure(
        "pressure_difference",
        "Allowable stress of the tube, where it is not that of the plant's usual tube",
        symbol="σ",
        low="1 MPa",
        high="400 MPa",
        optional=True,
    )
    fitting_rating: Quantity | None = measure(
        "pressure", "Rating of the weakest fitting", symbol="p_f", low="0 bar(g)", high="2000 bar(g)", optional=True
    )


class Section(Part):
    """A part of the plant that figures and tests speak of as one: what its items and lines hold."""

    title: str = field("What it is called")
    items: list[str] = field("Tags of its items", min_length=1)
    medium: Medium = field("What it holds in service")
    room: str = field("Room in which it would leak", pattern=f"^{NAME}$")
    free_volume: Quantity | None = measure(
        "volume",
        "Free volume, where plant.yml does not say it",
        symbol="V_f",
        low="1 mL",
        high="100000 L",
        optional=True,
    )
    rides_with_buffer: bool = field(
        "Whether it is part of the train volume that plant.yml counts with the buffer", False
    )
    seal_leak_area: Quantity = measure(
        "area",
        "Declared leak area of its seals",
        symbol="A_s",
        low="0 mm2",
        high="10 mm2",
        usual=("0.01 mm2", "1 mm2"),
        default=Default("0.025 mm2", "common-practice", "high"),
    )
    seal_height: Quantity = measure(
        "length",
        "Height of its highest seal above the floor",
        symbol="z_s",
        low="0 m",
        high="10 m",
        default=Default("1.5 m", "common-practice", "high"),
    )
    relief: list[str] = field("Tags of the relief valves and burst discs that protect it", [])
    capped_by: list[str] = field(
        "Tags of the relief valves of other sections that cap its pressure, where it has none of its own", []
    )
    unprotected: str | None = field("Why it needs no relief of its own", None)


class NetworkFile(Part):
    """The network of a plant."""

    format: Literal[1] = field("Version of this format")
    items: dict[str, Item] = field("Items by tag", json_schema_extra={"keys": TAG})
    lines: dict[str, Line] = field("Lines by tag", json_schema_extra={"keys": TAG})
    sections: dict[str, Section] = field("Sections by name", {}, json_schema_extra={"keys": NAME})
