"""
The kinds of item that a network may hold: how each is called, where lines meet it, what must be said of it.

A kind is called as its symbol is, and has the ports of its symbol. What gas may do in an item is told on the floor
above, where the network is proved.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

__all__ = ["ITEM_KINDS", "POSITIONS", "ItemKind"]

POSITIONS: Final = ("open", "closed")
LEGS: Final = ("closed", "in_out", "in_branch", "branch_out", "open")

COMMON: Final = ("kind", "title", "room", "at", "facing", "note", "ignition_class", "leak_class", "seal_leak_area")
"""Keys that every item may have."""


@dataclass(frozen=True)
class ItemKind:
    """
    A kind of item.

    Attributes
    ----------
    name : str
        As its symbol is called.
    group : str
        "valve", "protection", "vessel", "machine", "instrument", "fitting", "use" or "electric".
    ports : tuple of str
        Where lines meet it.
    needs : tuple of str
        Settings that must be given.
    may : tuple of str
        Settings that may be given.
    positions : tuple of str
        What a step of a procedure can set; empty where nothing can be set.
    described : str
        Part of `plant.yml` that says its ratings and sizes; empty where the network says them.
    """

    name: str
    group: str
    ports: tuple[str, ...]
    needs: tuple[str, ...] = ()
    may: tuple[str, ...] = ()
    positions: tuple[str, ...] = ()
    described: str = ""

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key that an item of this kind may have."""
        return (*COMMON, *self.needs, *self.may)

    @property
    def runs_through(self) -> bool:
        """Whether a line may pass it without naming ports."""
        return {"in", "out"} <= set(self.ports)

    @property
    def one_port(self) -> str | None:
        """The only port, where there is but one."""
        return self.ports[0] if len(self.ports) == 1 else None

    @property
    def joined(self) -> tuple[str, ...]:
        """The ports that some line must meet; a detector hangs in the air and meets none."""
        return tuple(port for port in self.ports if port not in FREE.get(self.name, FREE.get(self.group, ())))

    def media(self, port: str) -> tuple[str, ...]:
        """What a line that meets a port may hold."""
        return MEDIA.get(f"{self.name}.{port}") or MEDIA.get(self.name) or MEDIA.get(self.group) or FLUIDS

    @property
    def shared(self) -> bool:
        """Whether a port may bear several lines: a reservoir's lid, never a pressure part."""
        return self.name in SHARED


SHARED: Final = frozenset(("reservoir",))

FREE: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "vessel": ("in", "out", "top", "bottom", "fill", "return"),
        "electric": ("in", "out", "positive", "negative"),
        "stack": ("h2_water", "positive", "negative"),
        "fuel_cell": ("out", "air", "exhaust", "positive", "negative"),
        "compressor": ("in",),
        "gas_detector": ("tap",),
        "quick_coupling": ("out",),
        "receptacle": ("out",),
        "vehicle_tank": ("out",),
        "junction": ("branch",),
    }
)
"""Ports that no line need meet, by kind or group: all else that is joined to nothing would leak."""

HYDROGEN: Final = ("hydrogen", "wet_hydrogen")
PURGED: Final = (*HYDROGEN, "nitrogen")
"""What an item of the hydrogen side meets: its gas, and the gas that purges it."""
GASES: Final = (*HYDROGEN, "oxygen", "air", "nitrogen")
FLUIDS: Final = (*GASES, "water")

MEDIA: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "stack.h2": PURGED,
        "stack.h2_water": PURGED,
        "stack.o2": ("oxygen", "water"),
        "stack.water_in": ("water",),
        "stack.positive": ("electric",),
        "stack.negative": ("electric",),
        "booster": PURGED,
        "booster.drive_air": ("air",),
        "booster.exhaust": ("air",),
        "fuel_cell": PURGED,
        "fuel_cell.air": ("air",),
        "fuel_cell.exhaust": ("air",),
        "fuel_cell.positive": ("electric",),
        "fuel_cell.negative": ("electric",),
        "compressor": ("air",),
        "air_regulator": ("air",),
        "pump": ("water",),
        "cooler": ("water",),
        "deioniser": ("water",),
        "reservoir": ("water", "oxygen"),
        "degassing_pot": ("water", *PURGED),
        "separator": (*PURGED, "oxygen", "water", "air"),
        "coalescer": (*PURGED, "water", "air"),
        "desiccant_column": (*PURGED, "air"),
        "cold_coil": PURGED,
        "buffer": PURGED,
        "bank": PURGED,
        "burner": PURGED,
        "receptacle": PURGED,
        "vehicle_tank": PURGED,
        "flame_arrestor": PURGED,
        "excess_flow_valve": PURGED,
        "pressure_regulator": GASES,
        "vent": GASES,
        "purge_inlet": ("nitrogen",),
        "electric": ("electric",),
    }
)
"""What a line that meets an item may hold, by kind and port, kind, or group; where nothing is said, any fluid."""

_INLINE: Final = ("in", "out")
_VESSEL: Final = ("in", "out", "top", "bottom")
_TEE: Final = ("in", "out", "branch")
_VALVE: Final = ("flow_coefficient", "approved_gas")

_ROWS: Final = (
    # --- valves that a hand or an actuator moves
    ItemKind("hand_valve", "valve", _INLINE, ("rating", "normal_position"), _VALVE, POSITIONS),
    ItemKind("needle_valve", "valve", _INLINE, ("rating", "normal_position"), (*_VALVE, "bore"), POSITIONS),
    ItemKind("three_way_valve", "valve", _TEE, ("rating", "normal_position"), _VALVE, LEGS),
    ItemKind(
        "actuated_valve", "valve", _INLINE, ("rating", "normal_position", "fail_position"),
        (*_VALVE, "bore", "closing_time"), POSITIONS,
    ),
    # --- valves that move by themselves
    ItemKind("non_return_valve", "valve", _INLINE, ("rating", "cracking_pressure"), (*_VALVE, "leak_back")),
    ItemKind("excess_flow_valve", "valve", _INLINE, ("rating", "closing_flow"), _VALVE),
    ItemKind(
        "pressure_regulator", "valve", _INLINE, ("rating", "outlet_rating", "set_pressure", "lock_up"), _VALVE,
    ),
    ItemKind("air_regulator", "valve", _INLINE, ("rating", "outlet_rating", "set_pressure", "lock_up"), _VALVE),
    ItemKind("back_pressure_regulator", "valve", _INLINE, ("rating", "set_pressure"), _VALVE),
    # --- what protects
    ItemKind(
        "relief_valve", "protection", _INLINE,
        ("rating", "set_pressure", "tolerance", "accumulation", "discharge_coefficient", "orifice_bore"),
        ("reseat", "tested", "approved_gas"),
    ),
    ItemKind(
        "burst_disc", "protection", _INLINE,
        ("rating", "set_pressure", "tolerance", "discharge_coefficient", "orifice_bore"), ("tested", "approved_gas"),
    ),
    ItemKind("flame_arrestor", "protection", _INLINE, ("rating", "gas_group"), ("flow_coefficient", "approved_gas")),
    ItemKind("breakaway", "protection", _INLINE, ("rating",), ("flow_coefficient", "tested")),
    # --- vessels
    ItemKind("separator", "vessel", _VESSEL, ("rating",), ("volume", "material")),
    ItemKind("coalescer", "vessel", _VESSEL, ("rating",), ("volume", "material")),
    ItemKind("degassing_pot", "vessel", _VESSEL, ("rating",), ("volume", "material", "inlet_height")),
    ItemKind("desiccant_column", "vessel", _VESSEL, ("rating",), ("volume", "material")),
    ItemKind("deioniser", "vessel", _VESSEL, ("rating",), ("volume",)),
    ItemKind("reservoir", "vessel", (*_VESSEL, "fill", "return"), ("rating",), ("volume",), described="water"),
    ItemKind("buffer", "vessel", _VESSEL, described="buffer"),
    ItemKind("bank", "vessel", ("in", "out", "top"), described="banks"),
    # --- machines
    ItemKind(
        "stack", "machine", ("water_in", "o2", "h2", "h2_water", "positive", "negative"), described="stack",
    ),
    ItemKind("booster", "machine", ("in", "out", "drive_air", "exhaust"), described="boosters"),
    ItemKind("compressor", "machine", _INLINE, ("highest_pressure",), ("outlet_rating",), described="compressor"),
    ItemKind("pump", "machine", _INLINE, ("rating", "highest_pressure", "positive_displacement")),
    ItemKind("cooler", "machine", _INLINE, ("rating",)),
    ItemKind("cold_coil", "machine", _INLINE, ("rating",), ("volume", "material")),
    ItemKind("filter", "machine", _INLINE, ("rating",), ("mesh", "volume", "flow_coefficient")),
    # --- instruments
    ItemKind("pressure_gauge", "instrument", ("tap",), ("rating", "scale_end")),
    ItemKind("pressure_switch", "instrument", ("tap",), ("rating",)),
    ItemKind("transmitter", "instrument", ("tap",), ("measures",), ("rating", "scale_end")),
    ItemKind("gas_detector", "instrument", ("tap",), ("height",)),
    # --- fittings
    ItemKind("drain", "fitting", _INLINE, ("rating", "normal_position"), ("orifice_bore",), POSITIONS),
    ItemKind("quick_coupling", "fitting", _INLINE, ("rating", "normal_position"), ("flow_coefficient",), POSITIONS),
    ItemKind("hose", "fitting", _INLINE, ("rating", "bore", "length"), ("tested",)),
    ItemKind("junction", "fitting", _TEE, ("rating",)),
    ItemKind("vent", "fitting", ("in",), ("leads_to", "medium", "height"), ("bore", "rating")),
    ItemKind("purge_inlet", "fitting", ("out",), ("rating", "medium", "supply_pressure"), ("supply_flow",)),
    # --- uses
    ItemKind("burner", "use", ("in",), ("rating",), ("approved_gas",), described="uses"),
    ItemKind(
        "fuel_cell", "use", ("in", "out", "air", "exhaust", "positive", "negative"), ("rating",), ("approved_gas",),
        described="uses",
    ),
    ItemKind("receptacle", "use", _INLINE, ("rating",), ("approved_gas",)),
    ItemKind("vehicle_tank", "use", _INLINE, (), ("approved_gas",), described="uses"),
    # --- electric
    ItemKind("supply", "electric", ("in", "out"), described="power"),
    ItemKind("rectifier", "electric", ("in", "out", "positive", "negative"), described="power"),
    ItemKind("fuse", "electric", _INLINE, described="power"),
    ItemKind("isolator", "electric", _INLINE, ("normal_position",), (), POSITIONS, described="power"),
)  # fmt: skip

ITEM_KINDS: Final[Mapping[str, ItemKind]] = MappingProxyType({row.name: row for row in _ROWS})
"""Every kind by its name."""
