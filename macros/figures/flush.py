"""
Figures of the flush: nitrogen that keeps the oxygen side safe from the loss of the current until the cathode is let down.

Hydrogen keeps crossing while no oxygen is made; the nitrogen must thin it out for as long as the let-down lasts, from the
highest pressure that the relief allows. What an open flush valve takes beyond that is told apart: bottles that were full
in the evening may be empty in the morning, and the stack must then stand at rest without them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.description.loading import Description
from macros.figures.graph import Figure, figure

__all__ = ["figures"]


def figures(description: Description) -> Iterator[Figure]:
    """What a stop takes and the bottles hold, where a plant describes its flush and the flow of its supply."""
    flush = description.plant.flush
    if flush is None or description.plant.buffer is None or description.network.items[flush.tag].supply_flow is None:
        return
    flow = f"items.{flush.tag.lower()}.supply_flow"
    nitrogen: dict[str, Any] = {"digits": 2, "source": "mass-balance"}
    yield figure(
        "flush.nitrogen_per_stop", _taken, unit="NL", symbol="V_stop", rounding="up", safety=True,
        flow=flow, time="stack.let_down_time_relief", **nitrogen,
    )  # fmt: skip
    yield figure(
        "flush.hydrogen_in_nitrogen", _thinned, unit="%", symbol="x_H2", rounding="up", safety=True,
        crossing="stack.crossover_at_rest_relief", flow=flow, **nitrogen,
    )  # fmt: skip
    yield figure(
        "flush.nitrogen_stored", _stored, unit="Nm3", symbol="V_st", rounding="down",
        bottles="flush.bottles", content="flush.content", **nitrogen,
    )  # fmt: skip
    yield figure(
        "flush.stops", _share, kind="count", symbol="n_stop", rounding="down", safety=True,
        whole="flush.nitrogen_stored", part="flush.nitrogen_per_stop", **nitrogen,
    )  # fmt: skip
    yield figure(
        "flush.time_open", _share, unit="h", symbol="t_open", rounding="down", safety=True,
        whole="flush.nitrogen_stored", part=flow, **nitrogen,
    )  # fmt: skip
    yield figure(
        "flush.bottles_per_year", _yearly, kind="ratio", symbol="n_a", rounding="up",
        stops="demand.starts", each="flush.nitrogen_per_stop", content="flush.content", **nitrogen,
    )  # fmt: skip


def _taken(flow: float, time: float) -> float:
    return flow * time


def _thinned(crossing: float, flow: float) -> float:
    """Well mixed, all oxygen gone: the most that the space holds while it is flushed."""
    return crossing / (crossing + flow)


def _stored(bottles: float, content: float) -> float:
    return bottles * content


def _share(whole: float, part: float) -> float:
    return whole / part


def _yearly(stops: float, each: float, content: float) -> float:
    """As many stops as starts."""
    return stops * each / content
