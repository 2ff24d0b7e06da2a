"""
Figures of purging and testing: swings of nitrogen, what a leak test may show, at what pressure strength is tested.

The strength test is with water; a test with gas has its own figure, with the energy that it would store, and is for
licensed hands. Neither goes through the stack, and a cylinder is tested by whoever may stamp it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.blowdown import blowdown_time
from macros.calculations.constants import MOLAR_MASS_HYDROGEN, MOLAR_MASS_NITROGEN
from macros.calculations.formula import Constant
from macros.calculations.hydrogen import viscosity
from macros.calculations.leak import opening_of_valve
from macros.calculations.leak_test import (
    NITROGEN_VISCOSITY,
    decay_allowed,
    hydrogen_leak_factor,
    pressure_at_reference,
)
from macros.calculations.purge import pressure_swings_exact, purge_gas_used, whole_swings
from macros.calculations.strength_test import hydrostatic_test_pressure, pneumatic_test_pressure, stored_energy
from macros.description.item_kinds import HYDROGEN
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE, Figure, figure
from macros.figures.safety import bank_of, has_pressure, least, most, reliefs_of
from macros.network.network import Network

OXYGEN_IN_AIR = Constant(0.209, "x_air", "1", "oxygen in dry air, rounded", "by-definition")
ALL_HYDROGEN = Constant(1.0, "x_0", "1", "hydrogen in a space that is full of it", "by-definition")
GAUGE_ZERO = Constant(1e3, "Δp_0", "Pa", "what a gauge at its zero may still hide", "common-practice")
ONE_KELVIN = Constant(1.0, "ΔT_1", "K", "one kelvin", "by-definition")


def figures(description: Description) -> Iterator[Figure]:
    """Purging for the whole plant, then what each section of hydrogen uses, may leak and is tested at."""
    sections = [name for name, section in description.network.sections.items() if section.medium in HYDROGEN]
    yield from _swings()
    yield from _leak_test()
    tested = []
    for name in sections:
        section = description.network.sections[name]
        if bank_of(description, section) is not None or not has_pressure(description, section):
            continue
        volume = volume_path(description, name)
        if volume is not None:
            tested.append(name)
            yield from _section(name, volume)
        set_pressures = _set_pressures(description, name)
        if set_pressures:
            yield from _strength(name, set_pressures, volume)
    yield from _bleeding(description)
    if tested:
        yield figure(
            "safety.leak_test_allowance", least, unit="mbar", symbol="Δp_a", digits=2, rounding="down", safety=True,
            source="by-definition", **_of_all("leak_test_allowance", tested),
        )  # fmt: skip
    strong = [name for name in sections if _set_pressures(description, name)]
    strong = [name for name in strong if bank_of(description, description.network.sections[name]) is None]
    if strong:
        yield figure(
            "safety.strength_test_pressure", most, unit="bar(g)", symbol="p_test", digits=3, safety=True,
            source="by-definition", **_of_all("strength_test_pressure", strong),
        )  # fmt: skip


def volume_path(description: Description, name: str) -> str | None:
    """Where the free volume of a section stands; none where nobody says it."""
    section, buffer = description.network.sections[name], description.plant.buffer
    if section.free_volume is not None:
        return f"sections.{name}.free_volume"
    return "buffer.volume" if buffer is not None and buffer.tag in section.items else None


def _swings() -> Iterator[Figure]:
    """How often nitrogen is let in and out, before hydrogen comes and before air does."""
    for way, start, left in (("in", _air_out, "oxygen_left"), ("out", _hydrogen_out, "hydrogen_left")):
        yield figure(
            f"safety.purge_swings_{way}_exact", start, kind="ratio", symbol="n_ex", digits=3, rounding="up",
            safety=True, source="purge-formula",
            left=f"safety.{left}", high="safety.purge_pressure", atmosphere=ATMOSPHERE,
        )  # fmt: skip
        yield figure(
            f"safety.purge_swings_{way}", whole_swings, kind="count", symbol="n_sw", digits=3, safety=True,
            exact=f"safety.purge_swings_{way}_exact",
        )  # fmt: skip


def _leak_test() -> Iterator[Figure]:
    """What the test gas may leak, and what the temperature does to the gauge."""
    yield figure(
        "safety.leak_test_factor", _factor, kind="ratio", symbol="f_H2", digits=2, rounding="up", safety=True,
        source="kinetic-theory", temperature="site.usual", atmosphere=ATMOSPHERE,
    )  # fmt: skip
    yield figure(
        "safety.leak_test_flow_allowed", _allowed, unit="NmL/min", symbol="Q_N2", digits=2, rounding="down",
        safety=True, source="by-definition", hydrogen="safety.leak_allowed", factor="safety.leak_test_factor",
    )  # fmt: skip
    yield figure(
        "safety.leak_test_per_kelvin", _per_kelvin, unit="mbar", symbol="Δp_K", digits=2, source="by-definition",
        pressure="safety.leak_test_pressure", temperature="site.usual",
    )  # fmt: skip


def _section(name: str, volume: str) -> Iterator[Figure]:
    """Nitrogen that a section uses, and by how much its gauge may fall in a leak test."""
    yield figure(
        f"safety.{name}.purge_nitrogen", purge_gas_used, unit="NL", symbol="n_N2", digits=2, rounding="up",
        space_m3=volume, high_pressure_pa="safety.purge_pressure", low_pressure_pa=ATMOSPHERE,
        temperature_k="site.coldest", swings="safety.purge_swings_in",
    )  # fmt: skip
    yield figure(
        f"safety.{name}.leak_test_allowance", decay_allowed, unit="mbar", symbol="Δp_a", digits=2, rounding="down",
        safety=True,
        space_m3=volume, temperature_k="site.usual", leak_mol_per_s="safety.leak_test_flow_allowed",
        time_s="safety.leak_test_time",
    )  # fmt: skip


def _bleeding(description: Description) -> Iterator[Figure]:
    """How long a section takes to empty through its widest bleed; no opening is quicker than one without losses."""
    network = Network.of(description)
    for name, section in description.network.sections.items():
        bank, volume = bank_of(description, section), volume_path(description, name)
        bleeds = [tag for tag in section.items if _bleeds(network, tag)]
        if section.medium not in HYDROGEN or not has_pressure(description, section) or not bleeds:
            continue
        if bank is not None:
            held: dict[str, Any] = {"cylinders": f"banks.{bank}.cylinders", "volume": f"banks.{bank}.water_volume"}
        elif volume is not None:
            held = {"volume": volume}
        else:
            continue
        yield figure(
            f"safety.{name}.bleeding_time", _bleeding_time, unit="min", symbol="t_bleed", digits=2,
            source="blowdown-balance", pressure=f"safety.{name}.highest_pressure", temperature="site.usual",
            atmosphere=ATMOSPHERE, **held,
            **dict[str, Any]((f"bleed_{tag.lower()}", f"items.{tag.lower()}.flow_coefficient") for tag in bleeds),
        )  # fmt: skip


def _bleeds(network: Network, tag: str) -> bool:
    """Whether a valve opens straight into a vent, junctions passed over."""
    item = network.items[tag]
    if item.kind.group != "valve" or "flow_coefficient" not in item.settings or item.kind.name == "non_return_valve":
        return False
    port = (tag, "out")
    for _ in range(len(network.items)):
        run = next((run for run in network.runs if run.start == port), None)
        if run is None:
            return False
        kind = network.items[run.end[0]].kind.name
        if kind != "junction":
            return kind == "vent"
        port = (run.end[0], "out")
    return False


def _strength(name: str, set_pressures: dict[str, Any], volume: str | None) -> Iterator[Figure]:
    """Test pressures by what the section's reliefs allow it, and what gas would store."""
    path = f"safety.{name}"
    yield figure(
        f"{path}.allowable_pressure", least, unit="bar(g)", symbol="PS", digits=3, rounding="down", safety=True,
        source="by-definition", **set_pressures,
    )  # fmt: skip
    yield figure(
        f"{path}.strength_test_pressure", hydrostatic_test_pressure, unit="bar(g)", symbol="p_test", digits=3,
        safety=True, allowable_pressure_pa=f"{path}.allowable_pressure", atmosphere_pa=ATMOSPHERE,
    )  # fmt: skip
    yield figure(
        f"{path}.pneumatic_test_pressure", pneumatic_test_pressure, unit="bar(g)", symbol="p_gas", digits=3,
        safety=True, allowable_pressure_pa=f"{path}.allowable_pressure", atmosphere_pa=ATMOSPHERE,
    )  # fmt: skip
    if volume is not None:
        yield figure(
            f"{path}.pneumatic_stored_energy", stored_energy, unit="kJ", symbol="E_gas", digits=2, rounding="up",
            safety=True,
            space_m3=volume, test_pressure_pa=f"{path}.pneumatic_test_pressure", atmosphere_pa=ATMOSPHERE,
        )  # fmt: skip


def _set_pressures(description: Description, name: str) -> dict[str, Any]:
    """The set pressures of the reliefs that cap a section."""
    tags = [tag.lower() for tag in reliefs_of(description, description.network.sections[name])]
    return {tag: f"items.{tag}.set_pressure" for tag in tags}


def _of_all(figure_name: str, sections: list[str]) -> dict[str, Any]:
    return {name: f"safety.{name}.{figure_name}" for name in sections}


def _bleeding_time(
    volume: float, pressure: float, temperature: float, atmosphere: float, cylinders: float = 1.0, **bleeds: float
) -> float:
    """To a hundredth of a bar over the atmosphere, where a gauge reads zero."""
    return blowdown_time(
        cylinders * volume, pressure, atmosphere + GAUGE_ZERO, temperature, opening_of_valve(most(**bleeds)), atmosphere
    )


def _air_out(left: float, high: float, atmosphere: float) -> float:
    return pressure_swings_exact(OXYGEN_IN_AIR, left, high, atmosphere)


def _hydrogen_out(left: float, high: float, atmosphere: float) -> float:
    return pressure_swings_exact(ALL_HYDROGEN, left, high, atmosphere)


def _factor(temperature: float, atmosphere: float) -> float:
    """Hydrogen over nitrogen through the same leak."""
    return hydrogen_leak_factor(
        NITROGEN_VISCOSITY, viscosity(atmosphere, temperature), MOLAR_MASS_NITROGEN, MOLAR_MASS_HYDROGEN
    )


def _allowed(hydrogen: float, factor: float) -> float:
    return hydrogen / factor


def _per_kelvin(pressure: float, temperature: float) -> float:
    return pressure_at_reference(pressure, temperature, temperature + ONE_KELVIN) - pressure
