"""
The closed table of units: how each is typed and shown, what it measures, how it converts.

General parsers of units read `bar(g)` as bar times gram and accept `NaN bar`; a table that is closed does neither.
Every factor is built from the definitions at the top, so that each can be checked by reading.
"""

import functools
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from macros.quantities.kinds import CURRENCIES

# Exact by definition: the inch, the foot and the pound (agreement of 1959), standard gravity, the gallon of 231 cubic
# inches, the standard atmosphere, the British thermal unit of the International Table.
INCH_M: Final = 0.0254
FOOT_M: Final = 0.3048
POUND_KG: Final = 0.45359237
GRAVITY_M_PER_S2: Final = 9.80665
GALLON_M3: Final = 231 * INCH_M**3
FOOT3_M3: Final = FOOT_M**3
PSI_PA: Final = POUND_KG * GRAVITY_M_PER_S2 / INCH_M**2
ATMOSPHERE_PA: Final = 101325.0
BTU_J: Final = 1055.05585262
FAHRENHEIT_K: Final = 5 / 9

MINUTE_S: Final = 60.0
HOUR_S: Final = 3600.0
DAY_S: Final = 86400.0
WEEK_S: Final = 7 * DAY_S
# The year that a season follows hour by hour: 365 days, 8760 hours.
YEAR_S: Final = 365 * DAY_S
KWH_J: Final = 3.6e6

# The Boltzmann and Avogadro constants are exact since 2019, and so is their product.
GAS_CONSTANT_J_PER_MOL_K: Final = 8.31446261815324
NL_MOL: Final = 1e-3 * ATMOSPHERE_PA / (GAS_CONSTANT_J_PER_MOL_K * 273.15)
NM3_MOL: Final = ATMOSPHERE_PA / (GAS_CONSTANT_J_PER_MOL_K * 273.15)
SCF_MOL: Final = 14.696 * PSI_PA * FOOT3_M3 / (GAS_CONSTANT_J_PER_MOL_K * (60 + 459.67) * FAHRENHEIT_K)

# Water at one gallon a minute with one psi across the valve is Cv 1; at one cubic metre an hour with one bar, Kv 1.
CV_KV: Final = (GALLON_M3 / MINUTE_S * HOUR_S) / (PSI_PA / 1e5) ** 0.5


@dataclass(frozen=True)
class Unit:
    """A unit: `si = (value + offset) * factor`."""

    typed: str
    """As an author types it: `Nm3/h`, `uS/cm`."""
    kind: str
    factor: float
    offset: float = 0.0
    also: tuple[str, ...] = ()
    """Further spellings that are read."""
    workshop: tuple[str, ...] = ()
    """As which units the readers of workshop metric see it, the smallest first; empty if as this one."""
    si: tuple[str, ...] = ()
    """The same for readers of SI units."""
    us: tuple[str, ...] = ()
    """The same for readers of US customary units."""

    @functools.cached_property
    def symbol(self) -> str:
        """As readers see it: `Nm³/h`, `µS/cm`, `A·h`."""
        text = re.sub(r"(?<=[mtn])[23]", lambda digit: "²³"[int(digit[0]) - 2], self.typed)
        return re.sub(r"^u(?=[a-zA-Z])", "µ", text.replace("ohm", "Ω")).replace(" ", "·")

    def to_si(self, value: float) -> float:
        """The value in the SI unit of the kind."""
        return (value + self.offset) * self.factor

    def from_si(self, si: float) -> float:
        """The value in this unit."""
        return si / self.factor - self.offset


_Row = tuple[str, float] | tuple[str, float, str]


def _units(
    kind: str, *rows: _Row, workshop: str = "", si: str = "", us: str = "", offset: float = 0.0
) -> Iterator[Unit]:
    """Units with the same partners. A row: typed text, factor, further spellings; lists of texts with " | " between."""

    def texts(joined: str) -> tuple[str, ...]:
        return tuple(joined.split(" | ")) if joined else ()

    for typed, factor, *also in rows:
        yield Unit(typed, kind, factor, offset, texts("".join(also)), texts(workshop), texts(si), texts(us))


def _pressures(kind: str, mark: str) -> Iterator[Unit]:
    """The same units of pressure for gauge, absolute and difference, told apart by the mark behind them."""
    kpa, mpa, pa = f"kPa{mark}", f"MPa{mark}", f"Pa{mark}"
    bar, mbar, psi = f"bar{mark}", f"mbar{mark}", f"psi{mark}"
    yield from _units(kind, (bar, 1e5), si=f"{kpa} | {mpa}", us=psi)
    yield from _units(kind, (mbar, 100.0), si=f"{pa} | {kpa}", us=psi)
    yield from _units(kind, (pa, 1.0), (kpa, 1e3), (mpa, 1e6), workshop=f"{mbar} | {bar}", us=psi)
    yield from _units(kind, (psi, PSI_PA), workshop=f"{mbar} | {bar}", si=f"{kpa} | {mpa}")


def _energies(kind: str, mark: str, us: str) -> Iterator[Unit]:
    """The same units of energy for plain, lower and higher heating value."""
    joules = f"kJ{mark} | MJ{mark}"
    hours = f"Wh{mark} | kWh{mark}"
    yield from _units(kind, (f"kWh{mark}", KWH_J), (f"Wh{mark}", HOUR_S), si=joules, us=us)
    yield from _units(kind, (f"J{mark}", 1.0), (f"kJ{mark}", 1e3), (f"MJ{mark}", 1e6), workshop=hours, us=us)
    yield from _units(kind, (f"BTU{mark}", BTU_J), workshop=hours, si=joules)


def _table() -> Iterator[Unit]:
    """Every unit. Where kinds share a text, the one listed first is meant if no kind is asked for."""
    yield from _pressures("gauge_pressure", "(g)")
    yield from _pressures("absolute_pressure", "(a)")
    yield from _units(
        "absolute_pressure", ("atm(a)", ATMOSPHERE_PA), workshop="bar(a)", si="kPa(a) | MPa(a)", us="psi(a)"
    )
    yield from _pressures("pressure_difference", "")
    yield from _units("pressure_rate", ("bar/min", 1e5 / MINUTE_S), ("bar/s", 1e5), si="kPa/s", us="psi/min")
    yield from _units("pressure_rate", ("kPa/s", 1e3), ("Pa/s", 1.0), workshop="bar/min", us="psi/min")
    yield from _units("pressure_rate", ("psi/min", PSI_PA / MINUTE_S), workshop="bar/min", si="kPa/s")
    yield from _units("pressure_volume", ("bar L", 100.0), ("Pa m3", 1.0))

    # A bare K is a difference; figures give temperatures in °C, and their partner in SI is asked for by kind.
    yield from _units("temperature_difference", ("K", 1.0, "ΔK | Δ°C"), us="Δ°F")
    yield from _units("temperature_difference", ("Δ°F", FAHRENHEIT_K), workshop="K", si="K")
    yield from _units("temperature", ("°C", 1.0, "degC"), offset=273.15, si="K", us="°F")
    yield from _units("temperature", ("K", 1.0), workshop="°C", us="°F")
    yield from _units("temperature", ("°F", FAHRENHEIT_K, "degF"), offset=459.67, workshop="°C", si="K")
    yield from _units("inverse_temperature", ("1/K", 1.0))

    yield from _units("length", ("mm", 1e-3), ("cm", 1e-2), us="in")
    yield from _units("length", ("um", 1e-6), us="in")
    yield from _units("length", ("m", 1.0), ("km", 1e3), us="ft")
    yield from _units("length", ("in", INCH_M), workshop="mm", si="mm")
    yield from _units("length", ("ft", FOOT_M), workshop="m", si="m")
    yield from _units("area", ("mm2", 1e-6), ("cm2", 1e-4), us="in2")
    yield from _units("area", ("m2", 1.0), us="ft2")
    yield from _units("area", ("in2", INCH_M**2), workshop="mm2 | cm2", si="mm2 | cm2")
    yield from _units("area", ("ft2", FOOT_M**2), workshop="m2", si="m2")
    yield from _units("volume", ("mL", 1e-6), ("cm3", 1e-6), si="cm3", us="in3")
    yield from _units("volume", ("L", 1e-3), si="m3", us="ft3")
    yield from _units("volume", ("m3", 1.0), us="ft3")
    yield from _units("volume", ("in3", INCH_M**3), workshop="mL | L", si="cm3")
    yield from _units("volume", ("ft3", FOOT3_M3), ("gal", GALLON_M3), workshop="L", si="m3")
    yield from _units("mass", ("kg", 1.0), us="lb")
    yield from _units("mass", ("g", 1e-3), us="oz | lb")
    yield from _units("mass", ("mg", 1e-6), ("ug", 1e-9))
    yield from _units("mass", ("lb", POUND_KG), ("oz", POUND_KG / 16), workshop="g | kg", si="g | kg")
    yield from _units("time", ("s", 1.0), ("ms", 1e-3), ("min", MINUTE_S), ("h", HOUR_S), ("d", DAY_S))
    yield from _units("time", ("week", WEEK_S), ("a", YEAR_S))
    yield from _units("frequency", ("1/s", 1.0, "Hz"), ("1/min", 1 / MINUTE_S), ("1/h", 1 / HOUR_S))
    yield from _units("frequency", ("1/d", 1 / DAY_S), ("1/a", 1 / YEAR_S))

    yield from _units("velocity", ("m/s", 1.0), us="ft/s")
    yield from _units("velocity", ("ft/s", FOOT_M), workshop="m/s", si="m/s")
    yield from _units("mass_flow", ("g/h", 1e-3 / HOUR_S), ("mg/h", 1e-6 / HOUR_S), si="mg/s | g/s", us="lb/h")
    yield from _units("mass_flow", ("kg/h", 1 / HOUR_S), si="g/s | kg/s", us="lb/h")
    yield from _units("mass_flow", ("kg/d", 1 / DAY_S), ("kg/week", 1 / WEEK_S), si="mg/s | g/s", us="lb/d")
    yield from _units("mass_flow", ("kg/a", 1 / YEAR_S), us="lb/d")
    yield from _units("mass_flow", ("mg/s", 1e-6), ("g/s", 1e-3), ("kg/s", 1.0), workshop="g/h | kg/h", us="lb/h")
    yield from _units("mass_flow", ("lb/h", POUND_KG / HOUR_S), workshop="g/h | kg/h", si="mg/s | g/s")
    yield from _units("mass_flow", ("lb/d", POUND_KG / DAY_S), workshop="kg/d", si="mg/s | g/s")
    litre_per_min = 1e-3 / MINUTE_S
    yield from _units("volume_flow", ("L/min", litre_per_min), ("L/h", 1e-3 / HOUR_S), si="m3/h", us="gal/min")
    yield from _units("volume_flow", ("mL/min", 1e-6 / MINUTE_S), si="cm3/s", us="in3/min")
    yield from _units("volume_flow", ("m3/h", 1 / HOUR_S), us="ft3/min")
    yield from _units("volume_flow", ("m3/s", 1.0), ("cm3/s", 1e-6), workshop="mL/min | L/min | m3/h", us="ft3/min")
    yield from _units("volume_flow", ("ft3/min", FOOT3_M3 / MINUTE_S), workshop="L/min | m3/h", si="m3/h")
    yield from _units("volume_flow", ("gal/min", GALLON_M3 / MINUTE_S), workshop="L/min", si="m3/h")
    yield from _units("volume_flow", ("in3/min", INCH_M**3 / MINUTE_S), workshop="mL/min", si="cm3/s")
    # Free air: as much of it as the compressor draws in, counted at the state of its intake.
    yield from _units("free_flow", ("L/min(free)", litre_per_min), si="m3/h(free)", us="ft3/min(free)")
    free = "L/min(free) | m3/h(free)"
    yield from _units("free_flow", ("m3/h(free)", 1 / HOUR_S), ("m3/s(free)", 1.0), workshop=free, us="ft3/min(free)")
    yield from _units("free_flow", ("ft3/min(free)", FOOT3_M3 / MINUTE_S), workshop="L/min(free)", si="m3/h(free)")
    yield from _units("free_air_per_mass", ("m3(free)/kg", 1.0), us="ft3(free)/lb")
    yield from _units(
        "free_air_per_mass", ("ft3(free)/lb", FOOT3_M3 / POUND_KG), workshop="m3(free)/kg", si="m3(free)/kg"
    )

    moles = "umol/s | mmol/s | mol/s"
    yield from _units("amount_flow", ("mol/s", 1.0), ("mmol/s", 1e-3), ("umol/s", 1e-6), ("mol/h", 1 / HOUR_S))
    yield from _units("normal_flow", ("NL/min", NL_MOL / MINUTE_S), ("NL/h", NL_MOL / HOUR_S), si=moles, us="scf/h")
    yield from _units("normal_flow", ("NmL/min", 1e-3 * NL_MOL / MINUTE_S), si=moles, us="scf/h")
    yield from _units("normal_flow", ("Nm3/h", NM3_MOL / HOUR_S), si=moles, us="scf/h | scf/min")
    yield from _units(
        "normal_flow", ("scf/h", SCF_MOL / HOUR_S), ("scf/min", SCF_MOL / MINUTE_S), workshop="NL/min", si=moles
    )
    yield from _units(
        "normal_flow", ("mol/s", 1.0), ("mmol/s", 1e-3), ("umol/s", 1e-6), workshop="NmL/min | NL/min", us="scf/h"
    )
    yield from _units("normal_volume", ("NL", NL_MOL), ("NmL", 1e-3 * NL_MOL), ("Nm3", NM3_MOL), si="mol", us="scf")
    yield from _units("normal_volume", ("scf", SCF_MOL), workshop="NL | Nm3", si="mol")
    yield from _units("normal_volume", ("mol", 1.0), workshop="NL | Nm3", us="scf")
    yield from _units("flow_coefficient", ("Kv", 1.0), us="Cv")
    yield from _units("flow_coefficient", ("Cv", CV_KV), workshop="Kv", si="Kv")

    yield from _units("density", ("kg/m3", 1.0), ("g/L", 1.0), ("kg/L", 1e3), us="lb/ft3")
    yield from _units("density", ("mg/L", 1e-3), ("g/m3", 1e-3))
    yield from _units("density", ("lb/ft3", POUND_KG / FOOT3_M3), workshop="kg/m3", si="kg/m3")
    yield from _units("concentration", ("mol/m3", 1.0), ("mol/L", 1e3), ("mmol/L", 1.0))
    yield from _units("exchange_capacity", ("eq/L", 1e3), ("meq/L", 1.0), ("eq/m3", 1.0))
    yield from _units("molar_mass", ("g/mol", 1e-3), ("kg/mol", 1.0))
    yield from _units("water_load", ("g/Nm3", 1e-3 / NM3_MOL), ("mg/Nm3", 1e-6 / NM3_MOL), us="lb/MMscf")
    yield from _units("water_load", ("kg/mol", 1.0), workshop="mg/Nm3 | g/Nm3", si="mg/Nm3 | g/Nm3", us="lb/MMscf")
    yield from _units(
        "water_load", ("lb/MMscf", POUND_KG / (1e6 * SCF_MOL)), workshop="mg/Nm3 | g/Nm3", si="mg/Nm3 | g/Nm3"
    )
    yield from _units("loading", ("g/kg", 1e-3), ("kg/kg", 1.0))
    yield from _units("fraction", ("%", 1e-2), ("‰", 1e-3), ("ppm", 1e-6))
    yield from _units("ratio", ("", 1.0))
    yield from _units("count", ("", 1.0))

    yield from _units("current", ("A", 1.0), ("mA", 1e-3))
    yield from _units("current_density", ("A/cm2", 1e4), ("mA/cm2", 10.0), ("A/m2", 1.0))
    yield from _units("charge", ("A h", HOUR_S, "Ah"), ("C", 1.0))
    yield from _units("voltage", ("V", 1.0), ("mV", 1e-3))
    yield from _units("resistance", ("ohm", 1.0), ("mohm", 1e-3))
    yield from _units("area_resistance", ("ohm cm2", 1e-4), ("mohm cm2", 1e-7), ("ohm m2", 1.0))
    yield from _units("resistivity", ("ohm m", 1.0), ("ohm mm2/m", 1e-6))
    yield from _units("conductivity", ("uS/cm", 1e-4), ("mS/m", 1e-3), ("S/m", 1.0), ("S/cm", 100.0))
    yield from _units("permeability", ("mol/(m s Pa)", 1.0), ("mol/(cm s bar)", 1e-3))

    yield from _units("power", ("W", 1.0), ("kW", 1e3))
    yield from _units("power", ("kWh/d", KWH_J / DAY_S), ("kWh/a", KWH_J / YEAR_S), si="W | kW")
    yield from _units("power", ("BTU/h", BTU_J / HOUR_S), workshop="W | kW", si="W | kW")
    yield from _energies("energy", "", us="Wh | kWh")
    yield from _units("energy", ("mJ", 1e-3))
    yield from _energies("energy_lower", "(lower)", us="BTU(lower)")
    yield from _energies("energy_higher", "(higher)", us="BTU(higher)")
    yield from _units("specific_energy", ("kWh/kg", KWH_J), si="MJ/kg")
    yield from _units("specific_energy", ("MJ/kg", 1e6), ("kJ/kg", 1e3), ("J/kg", 1.0), us="BTU/lb")
    yield from _units("specific_energy", ("BTU/lb", BTU_J / POUND_KG), workshop="kJ/kg | MJ/kg", si="kJ/kg | MJ/kg")
    yield from _units("energy_per_free_air", ("kWh/m3(free)", KWH_J), si="MJ/m3(free)", us="kWh/ft3(free)")
    yield from _units("energy_per_free_air", ("MJ/m3(free)", 1e6), ("J/m3(free)", 1.0), workshop="kWh/m3(free)")
    yield from _units(
        "energy_per_free_air", ("kWh/ft3(free)", KWH_J / FOOT3_M3), workshop="kWh/m3(free)", si="MJ/m3(free)"
    )
    yield from _units("molar_energy", ("J/mol", 1.0), ("kJ/mol", 1e3))
    yield from _units("molar_energy", ("kWh/Nm3", KWH_J / NM3_MOL), si="kJ/mol")
    yield from _units("heat_capacity", ("J/K", 1.0), ("kJ/K", 1e3), us="BTU/°F")
    yield from _units("heat_capacity", ("Wh/K", HOUR_S), si="kJ/K", us="BTU/°F")
    yield from _units("heat_capacity", ("BTU/°F", BTU_J / FAHRENHEIT_K), workshop="kJ/K", si="kJ/K")
    btu_per_lb_f = BTU_J / (POUND_KG * FAHRENHEIT_K)
    yield from _units("specific_heat", ("J/(kg K)", 1.0), ("kJ/(kg K)", 1e3), us="BTU/(lb °F)")
    yield from _units("specific_heat", ("BTU/(lb °F)", btu_per_lb_f), workshop="kJ/(kg K)", si="kJ/(kg K)")
    yield from _units("thermal_conductance", ("W/K", 1.0), us="BTU/(h °F)")
    yield from _units("thermal_conductance", ("BTU/(h °F)", BTU_J / (HOUR_S * FAHRENHEIT_K)), workshop="W/K", si="W/K")
    btu_per_h_ft2_f = BTU_J / (HOUR_S * FOOT_M**2 * FAHRENHEIT_K)
    yield from _units("heat_transfer_coefficient", ("W/(m2 K)", 1.0), us="BTU/(h ft2 °F)")
    yield from _units(
        "heat_transfer_coefficient", ("BTU/(h ft2 °F)", btu_per_h_ft2_f), workshop="W/(m2 K)", si="W/(m2 K)"
    )
    yield from _units("thermal_conductivity", ("W/(m K)", 1.0), us="BTU/(h ft °F)")
    yield from _units(
        "thermal_conductivity",
        ("BTU/(h ft °F)", BTU_J / (HOUR_S * FOOT_M * FAHRENHEIT_K)),
        workshop="W/(m K)",
        si="W/(m K)",
    )

    for code in CURRENCIES:
        yield from _units(f"money_{code.lower()}", (code, 1.0))
        price = f"price_of_energy_{code.lower()}"
        yield from _units(price, (f"{code}/kWh", 1 / KWH_J), si=f"{code}/MJ")
        yield from _units(price, (f"{code}/MJ", 1e-6), (f"{code}/J", 1.0), workshop=f"{code}/kWh", us=f"{code}/kWh")


UNITS: Final = tuple(_table())
"""Every unit, by kind in the order in which a reader looks for them."""
