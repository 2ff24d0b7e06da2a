"""Quantities: kinds and units as closed tables, reading, showing, messages, faults."""

from macros.quantities.errors import QuantityError
from macros.quantities.faults import Fault, Faults
from macros.quantities.kinds import CURRENCIES, KINDS, Kind, kinds_named
from macros.quantities.messages import MessageError, say
from macros.quantities.reading import Quantity, parse_shown, read
from macros.quantities.scan import Match, numbers_with_units
from macros.quantities.showing import Rounding, Shown, System, show, shown
from macros.quantities.spellings import unit, units_of
from macros.quantities.units import UNITS, Unit

__all__ = [
    "CURRENCIES",
    "KINDS",
    "UNITS",
    "Fault",
    "Faults",
    "Kind",
    "Match",
    "MessageError",
    "Quantity",
    "QuantityError",
    "Rounding",
    "Shown",
    "System",
    "Unit",
    "kinds_named",
    "numbers_with_units",
    "parse_shown",
    "read",
    "say",
    "show",
    "shown",
    "unit",
    "units_of",
]
