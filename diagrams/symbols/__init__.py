"""The symbols, after the general forms of ISO 10628-2, ISO 14617 and IEC 60617."""

from __future__ import annotations

from diagrams.symbols import electric, fittings, instruments, machines, valves, vessels
from diagrams.symbols.symbol import SIDES, Setting, Symbol, symbol_class, symbol_ports, symbols

__all__ = [
    "SIDES",
    "Setting",
    "Symbol",
    "electric",
    "fittings",
    "instruments",
    "machines",
    "symbol_class",
    "symbol_ports",
    "symbols",
    "valves",
    "vessels",
]
