"""The closed table of kinds: what a number measures, in which SI unit it is kept, what people call it."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final


@dataclass(frozen=True, slots=True)
class Kind:
    """What a quantity measures. Units convert within a kind and never out of it."""

    name: str
    si: str
    """The unit in which values are kept inside, as text for readers of code and reference pages."""
    word: str
    """What a message calls it: "a normal flow"."""
    lowest: float | None = None
    """The lowest value that physics allows, in the SI unit; none where the description sets the bounds."""


# No barometer on land has read 1.1 bar: a vacuum deeper than that below the atmosphere is a slip of the pen.
DEEPEST_VACUUM_PA: Final = -110e3

CURRENCIES: Final = (
    "EUR", "GBP", "USD", "AUD", "CAD", "CHF", "CZK", "DKK", "HUF", "JPY", "NOK", "NZD", "PLN", "RON", "SEK",
)  # fmt: skip
"""
Currencies of prices, by their codes of ISO 4217. Each is a kind of its own: what one is worth in another changes by the
day, so no table of units may convert it.
"""

_ROWS: Final = (
    Kind("absolute_pressure", "Pa", "an absolute pressure", lowest=0.0),
    Kind("gauge_pressure", "Pa", "a gauge pressure", lowest=DEEPEST_VACUUM_PA),
    Kind("pressure_difference", "Pa", "a difference of pressures"),
    Kind("pressure_rate", "Pa/s", "a rate of pressure"),
    Kind("pressure_volume", "Pa m3", "a pressure times a volume"),
    Kind("temperature", "K", "a temperature", lowest=0.0),
    Kind("temperature_difference", "K", "a difference of temperatures"),
    Kind("length", "m", "a length"),
    Kind("area", "m2", "an area"),
    Kind("volume", "m3", "a volume"),
    Kind("mass", "kg", "a mass"),
    Kind("time", "s", "a time"),
    Kind("frequency", "1/s", "a rate of events"),
    Kind("velocity", "m/s", "a velocity"),
    Kind("mass_flow", "kg/s", "a mass flow"),
    Kind("volume_flow", "m3/s", "an actual volume flow"),
    Kind("free_flow", "m3/s", "a flow of free air"),
    Kind("free_air_per_mass", "m3/kg", "free air for each mass"),
    Kind("normal_flow", "mol/s", "a normal flow"),
    Kind("normal_volume", "mol", "a normal volume"),
    Kind("amount_flow", "mol/s", "a flow of amount"),
    Kind("flow_coefficient", "m3/h at 1 bar of water", "a flow coefficient"),
    Kind("density", "kg/m3", "a density"),
    Kind("concentration", "mol/m3", "a concentration"),
    Kind("exchange_capacity", "mol/m3", "an exchange capacity"),
    Kind("water_load", "kg/mol", "a load of water"),
    Kind("loading", "kg/kg", "a loading"),
    Kind("molar_mass", "kg/mol", "a molar mass"),
    Kind("fraction", "1", "a fraction"),
    Kind("ratio", "1", "a ratio"),
    Kind("count", "1", "a count", lowest=0.0),
    Kind("current", "A", "a current"),
    Kind("current_density", "A/m2", "a current density"),
    Kind("charge", "C", "a charge"),
    Kind("voltage", "V", "a voltage"),
    Kind("resistance", "ohm", "a resistance"),
    Kind("area_resistance", "ohm m2", "a resistance times an area"),
    Kind("resistivity", "ohm m", "a resistivity"),
    Kind("conductivity", "S/m", "a conductivity"),
    Kind("permeability", "mol/(m s Pa)", "a permeability"),
    Kind("power", "W", "a power"),
    Kind("energy", "J", "an energy"),
    Kind("energy_lower", "J", "an energy by the lower heating value"),
    Kind("energy_higher", "J", "an energy by the higher heating value"),
    Kind("specific_energy", "J/kg", "an energy for each mass"),
    Kind("energy_per_free_air", "J/m3", "an energy for each volume of free air"),
    Kind("molar_energy", "J/mol", "an energy for each amount"),
    Kind("heat_capacity", "J/K", "a heat capacity"),
    Kind("specific_heat", "J/(kg K)", "a specific heat"),
    Kind("thermal_conductance", "W/K", "a thermal conductance"),
    Kind("thermal_conductivity", "W/(m K)", "a thermal conductivity"),
    Kind("heat_transfer_coefficient", "W/(m2 K)", "a heat transfer coefficient"),
    Kind("inverse_temperature", "1/K", "a change for each kelvin"),
    *(Kind(f"money_{code.lower()}", code, f"a sum in {code}") for code in CURRENCIES),
    *(Kind(f"price_of_energy_{code.lower()}", f"{code}/J", f"a price of energy in {code}") for code in CURRENCIES),
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
