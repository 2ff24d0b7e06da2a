"""Neutral piping symbols, their layout, and the schematic drawing; knows nothing of the plant behind it."""

from __future__ import annotations

from diagrams.catalogue import Entry, Explained, catalogue, entries, legend, legend_entries, symbol_drawing
from diagrams.errors import DrawingError
from diagrams.items import Item, Line, Text
from diagrams.schematic import schematic
from diagrams.stylesheet import stylesheet
from diagrams.symbols import symbol_ports

__all__ = [
    "DrawingError",
    "Entry",
    "Explained",
    "Item",
    "Line",
    "Text",
    "catalogue",
    "entries",
    "legend",
    "legend_entries",
    "schematic",
    "stylesheet",
    "symbol_drawing",
    "symbol_ports",
]
