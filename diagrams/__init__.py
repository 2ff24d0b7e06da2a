"""Neutral piping symbols, their layout, and the schematic drawing; knows nothing of the plant behind it."""

from __future__ import annotations

from diagrams.errors import DrawingError
from diagrams.items import Item, Line, Text
from diagrams.schematic import schematic
from diagrams.symbols import symbol_ports

__all__ = ["DrawingError", "Item", "Line", "Text", "schematic", "symbol_ports"]
