"""
What boosters draw from and fill: which pressures stand before and behind each, capacity and proof apart.

A booster that draws from the buffer sees it between cut-in and cut-out. One that draws from a bank sees that bank
between the pressure at which both banks have met and the lowest to which the transfer draws it.
"""

from __future__ import annotations

from macros.description.loading import Description
from macros.description.plant import Booster, Transfer

__all__ = ["booster_of", "filled_from_buffer", "stages_into", "transfer_of"]


def filled_from_buffer(description: Description, bank: str) -> int | None:
    """Number of the booster that fills a bank from the buffer; none where the bank gets its gas from another bank."""
    for number, booster in enumerate(description.plant.boosters, start=1):
        if booster.target == bank and booster.supply == "buffer":
            return number
    return None


def stages_into(description: Description, bank: str) -> list[int]:
    """
    Numbers of the boosters through which gas has gone from the buffer until it is in a bank, the last one first.

    Where a bank is filled both from the buffer and from another bank, the way straight from the buffer counts.
    """
    boosters = description.plant.boosters
    found: list[int] = []
    while (number := filled_from_buffer(description, bank)) is None:
        number = next((n for n, one in enumerate(boosters, start=1) if one.target == bank), None)
        if number is None or number in found:
            return found
        found.append(number)
        bank = boosters[number - 1].supply
    return [*found, number]


def transfer_of(description: Description, booster: Booster) -> int | None:
    """Number of the transfer in which a booster works; none where it draws from the buffer or no transfer names it."""
    for number, transfer in enumerate(description.plant.transfers, start=1):
        if booster_of(description, transfer) is booster:
            return number
    return None


def booster_of(description: Description, transfer: Transfer) -> Booster | None:
    """The booster of a transfer; none where gas passes freely only."""
    if transfer.booster is None:
        return None
    return description.plant.boosters[round(transfer.booster.si) - 1]
