"""The piping network of a plant: items, lines, sections, and what is joined to what."""

from macros.network.kinds import ITEM_KINDS, How, ItemKind, Passage
from macros.network.lines import ChainError, Port, Run
from macros.network.network import Item, Line, Network, Section, Way

__all__ = [
    "ITEM_KINDS",
    "ChainError",
    "How",
    "Item",
    "ItemKind",
    "Line",
    "Network",
    "Passage",
    "Port",
    "Run",
    "Section",
    "Way",
]
