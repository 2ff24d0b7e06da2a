"""Small networks for tests, written as an author would."""

from __future__ import annotations

from typing import Any

from macros.description.item_kinds import ITEM_KINDS
from macros.description.network_file import NetworkFile
from macros.network import Network

SETTINGS: dict[str, Any] = {
    "rating": "100 bar(g)", "outlet_rating": "100 bar(g)", "set_pressure": "30 bar(g)", "tolerance": "3 %",
    "accumulation": "10 %", "discharge_coefficient": "0.6", "orifice_bore": "3 mm", "cracking_pressure": "50 mbar",
    "closing_flow": "20 NL/min", "lock_up": "0.2 bar", "fail_position": "closed", "gas_group": "iic",
    "highest_pressure": "8 bar(g)", "positive_displacement": False, "scale_end": "40 bar(g)", "measures": "pressure",
    "height": "2 m", "bore": "4 mm", "length": "1 m", "leads_to": "outdoors", "medium": "hydrogen",
    "supply_pressure": "8 bar(g)",
}  # fmt: skip
"""A value for every setting that some kind needs."""


def item(kind: str, column: int = 0, **changes: Any) -> dict[str, Any]:
    """An item of a kind with all that it needs."""
    needs = {need: SETTINGS[need] for need in ITEM_KINDS[kind].needs if need != "normal_position"}
    if "normal_position" in ITEM_KINDS[kind].needs:
        needs["normal_position"] = ITEM_KINDS[kind].positions[0]
    return {"kind": kind, "title": kind, "room": "yard", "at": [column, 0], **needs, **changes}


def network(items: dict[str, str], *chains: str, sections: dict[str, Any] | None = None) -> Network:
    """A network of items by tag and kind, joined by chains of hydrogen unless a chain names its medium: `air: …`."""
    lines = {}
    for number, chain in enumerate(chains, 1):
        medium, _, rest = chain.rpartition(": ")
        lines[f"L{number}"] = {"chain": rest, "medium": medium or "hydrogen"}
    file = {
        "format": 1,
        "items": {tag: item(kind, column) for column, (tag, kind) in enumerate(items.items())},
        "lines": lines,
        "sections": sections or {},
    }
    return Network.build(NetworkFile.model_validate(file))
