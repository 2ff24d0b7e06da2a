"""The closed table of kinds: what a number measures, in which SI unit it is kept; what people call it is a message."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from macros.quantities.messages import say


@dataclass(frozen=True, slots=True)
class Kind:
    """What a quantity measures. Units convert within a kind and never out of it."""

    name: str
    si: str
    """The unit in which values are kept inside, as text for readers of code and reference pages."""
    lowest: float | None = None
    """The lowest value that physics allows, in the SI unit; none where the description sets the bounds."""

    @property
    def word(self) -> str:
        """What a message calls it: "a normal flow"."""
        family, _, currency = self.name.rpartition("_")
        if family in OF_CURRENCY:
            return say(f"kind.{family}", currency=currency.upper())
        return say(f"kind.{self.name}")


# No barometer on land has read 1.1 bar: a vacuum deeper than that below the atmosphere is a slip of the pen.
DEEPEST_VACUUM_PA: Final = -110e3

CURRENCIES: Final = (
    "EUR", "GBP", "USD", "AUD", "CAD", "CHF", "CZK", "DKK", "HUF", "JPY", "NOK", "NZD", "PLN", "RON", "SEK",
)  # fmt: skip
"""
Currencies of prices, by their codes of ISO 4217. Each is a kind of its own: what one is worth in another changes by the
day, so no table of units may convert it.
"""

OF_CURRENCY: Final = frozenset(("money", "price_of_energy"))
"""Beginnings of kinds of which each currency has one of its own."""

_ROWS: Final = (
    Kind("absolute_pressure", "Pa", lowest=0.0),
    Kind("gauge_pressure", "Pa", lowest=DEEPEST_VACUUM_PA),
    Kind("pressure_difference", "Pa"),
    Kind("pressure_rate", "Pa/s"),
    Kind("pressure_volume", "Pa m3"),
    Kind("temperature", "K", lowest=0.0),
    Kind("temperature_difference", "K"),
    Kind("length", "m"),
    Kind("area", "m2"),
    Kind("volume", "m3"),
    Kind("mass", "kg"),
    Kind("time", "s"),
    Kind("frequency", "1/s"),
    Kind("velocity", "m/s"),
    Kind("mass_flow", "kg/s"),
    Kind("volume_flow", "m3/s"),
    Kind("free_flow", "m3/s"),
    Kind("free_air_per_mass", "m3/kg"),
    Kind("normal_flow", "mol/s"),
    Kind("normal_volume", "mol"),
    Kind("amount_flow", "mol/s"),
    Kind("flow_coefficient", "m3/h at 1 bar of water"),
    Kind("density", "kg/m3"),
    Kind("concentration", "mol/m3"),
    Kind("exchange_capacity", "mol/m3"),
    Kind("water_load", "kg/mol"),
    Kind("loading", "kg/kg"),
    Kind("molar_mass", "kg/mol"),
    Kind("fraction", "1"),
    Kind("ratio", "1"),
    Kind("count", "1", lowest=0.0),
    Kind("current", "A"),
    Kind("current_density", "A/m2"),
    Kind("charge", "C"),
    Kind("voltage", "V"),
    Kind("resistance", "ohm"),
    Kind("area_resistance", "ohm m2"),
    Kind("resistivity", "ohm m"),
    Kind("conductivity", "S/m"),
    Kind("permeability", "mol/(m s Pa)"),
    Kind("power", "W"),
    Kind("energy", "J"),
    Kind("energy_lower", "J"),
    Kind("energy_higher", "J"),
    Kind("specific_energy", "J/kg"),
    Kind("energy_per_free_air", "J/m3"),
    Kind("molar_energy", "J/mol"),
    Kind("heat_capacity", "J/K"),
    Kind("specific_heat", "J/(kg K)"),
    Kind("thermal_conductance", "W/K"),
    Kind("thermal_conductivity", "W/(m K)"),
    Kind("heat_transfer_coefficient", "W/(m2 K)"),
    Kind("inverse_temperature", "1/K"),
    *(Kind(f"money_{code.lower()}", code) for code in CURRENCIES),
    *(Kind(f"price_of_energy_{code.lower()}", f"{code}/J") for code in CURRENCIES),
)

KINDS: Final = MappingProxyType({kind.name: kind for kind in _ROWS})
"""Every kind by its name."""

EITHER: Final = MappingProxyType(
    {
        "pressure": ("gauge_pressure", "absolute_pressure"),
        "price_of_energy": tuple(f"price_of_energy_{code.lower()}" for code in CURRENCIES),
    }
)
"""Words that a description may ask for where it takes one of several kinds."""


def kinds_named(name: str) -> tuple[Kind, ...]:
    """
    The kinds that a name stands for: one of the table, or each of those that the name leaves open.

    Raises
    ------
    KeyError
        If no kind has that name: a slip in our own code, so not a message for authors.
    """
    return tuple(KINDS[each] for each in EITHER.get(name, (name,)))
