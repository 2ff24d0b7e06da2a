"""The parts list of a plant as it stands today: quantities followed, texts with their numbers, sums looked up."""

from __future__ import annotations

import decimal
from collections.abc import Iterator
from dataclasses import dataclass

from macros.description.references import references, referred
from macros.figures.plant import Plant
from macros.quantities import Quantity, say

__all__ = ["Line", "basis_of", "lines_of"]


@dataclass(frozen=True)
class Line:
    """
    A line of a parts list.

    Attributes
    ----------
    number : int
        Its place in `parts.yml`, from 1.
    quantity_path : str
        The entry or figure that says how many.
    cost_path : str
        The figure of its cost; empty where the plant says nothing of prices.
    """

    number: int
    group: str
    item: str
    specification: str
    quantity: int
    quantity_path: str
    unit_price: decimal.Decimal
    currency: str
    region: str
    lead_time: str
    life: str
    tags: tuple[str, ...]
    cost_path: str


def lines_of(plant: Plant, group: str = "") -> Iterator[Line]:
    """The lines of a plant's list in its order, or those of one group."""
    for number, part in enumerate(plant.description.parts.parts, 1):
        if group and part.group != group:
            continue
        if isinstance(part.quantity, Quantity):
            path, quantity = f"parts.{number}.quantity", part.quantity.si
        else:
            path = referred(part.quantity) or ""
            quantity = float(plant.graph[path].si)
        cost = f"cost.part.{number}"
        yield Line(
            number, part.group, part.item, _told(part.specification, plant), int(quantity), path, part.unit_price,
            part.currency, part.region, part.lead_time.text, part.life.text if part.life is not None else "",
            tuple(part.tags), cost if cost in plant.graph else "",
        )  # fmt: skip


def basis_of(plant: Plant) -> str:
    """How the prices of a plant are known, with the day: "made up on 2031-05-14"."""
    prices = plant.description.parts.prices
    if prices is None:
        return say("figures.cost.basis.unknown")
    return say(f"figures.cost.basis.{prices.basis}", date=prices.date)


def _told(text: str, plant: Plant) -> str:
    """A text with the numbers of its references in the workshop's units; tags stay as they are."""
    told, position = "", 0
    for one in references(text):
        known = not one.is_tag and one.name in plant.graph and plant.graph[one.name].is_number
        told += text[position : one.start] + (plant.graph[one.name].show() if known else one.name)
        position = one.end
    return told + text[position:]
