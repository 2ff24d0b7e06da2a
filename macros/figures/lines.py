"""
Figures of lines: what their tubes and their weakest parts bear, how fast the gas goes, what a torn hose lets out.

A line is rated by the lowest of tube, fittings and every item that it passes. Speed and loss are figured for the lines
that carry the stack's gas or a use's, at the lowest pressure in service, where the gas is fastest.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.formula import Constant
from macros.calculations.hose import rupture_flow
from macros.calculations.hydrogen import compressibility, density, viscosity
from macros.calculations.leak import RATIO_HYDROGEN, hole_area
from macros.calculations.line_flow import (
    DRAWN_TUBE,
    friction_factor,
    line_pressure_drop,
    line_velocity,
    reynolds_number,
)
from macros.calculations.tube import tube_rating
from macros.description.item_kinds import HYDROGEN
from macros.description.loading import Description
from macros.description.network_file import Line as DescribedLine
from macros.figures.graph import ATMOSPHERE, Figure, figure
from macros.figures.safety import has_pressure, least
from macros.network.lines import Port
from macros.network.network import Line, Network

STEEL_LINES = ("hydrogen", "wet_hydrogen", "oxygen", "nitrogen")
"""Media whose tubes are of the plant's usual tube unless the line says its own stress."""

TORN_FRICTION_REYNOLDS = 1e8
"""At the Reynolds number of the greatest flow friction is least, which lets out the most."""

WATER_SEAL = Constant(3e3, "Δp_s", "Pa", "water seal of a degassing pot, 0.3 m deep", "common-practice")
POT_VENT_REYNOLDS = 4e3
"""Where friction of a turbulent flow is greatest, which lets through the least."""
POT_VENT_ENDS = Constant(1.5, "ζ", "1", "loss of entry and exit of a vent", "common-practice")


def figures(description: Description) -> Iterator[Figure]:
    """Tubes and lines, then hoses, then the vents of degassing pots."""
    network = Network.of(description)
    for name, line in network.lines.items():
        if line.medium != "electric":
            yield from _ratings(description, name, line)
    for name, line in network.lines.items():
        yield from _flow(description, network, name, line)
    for tag, item in description.network.items.items():
        section = network.section_of(tag)
        if item.kind == "hose" and section is not None:
            described = description.network.sections[section]
            if described.medium in HYDROGEN and has_pressure(description, described):
                yield _hose(tag, section)
    for name, line in network.lines.items():
        first, last = (network.items[line.stops[end].tag] for end in (0, -1))
        described_line = description.network.lines[name]
        bored = described_line.bore is not None and described_line.length is not None
        if (first.kind.name, last.kind.name) == ("degassing_pot", "vent") and line.medium in HYDROGEN and bored:
            yield _pot_vent(last.tag, f"lines.{name.lower()}")


def _ratings(description: Description, name: str, line: Line) -> Iterator[Figure]:
    """What the tube of a line bears, and what the weakest of its parts does."""
    described, path = description.network.lines[name], f"lines.{name.lower()}"
    parts: dict[str, Any] = {}
    stress = tube_stress(described, path)
    if described.outer_diameter is not None and described.wall is not None and stress is not None:
        tolerance: dict[str, Any] = (
            {"tolerance": f"{path}.wall_tolerance"} if described.wall_tolerance is not None else {}
        )
        parts["tube"] = f"safety.tube.{name.lower()}.rating"
        yield figure(
            parts["tube"], _tube, unit="bar(g)", digits=3, symbol="p_tube", rounding="down", safety=True,
            source="asme-b31-3",
            outer=f"{path}.outer_diameter", wall=f"{path}.wall", stress=stress, atmosphere=ATMOSPHERE, **tolerance,
        )  # fmt: skip
    if described.fitting_rating is not None:
        parts["fittings"] = f"{path}.fitting_rating"
    for run in line.runs:
        for port in (run.start, run.end):
            found = rating_path(description, port)
            if found is not None:
                parts[f"{port[0].lower()}_{port[1]}"] = found
    # Paths that stand twice (two ports of one item) are read once.
    first: dict[str, str] = {}
    for key, found in parts.items():
        first.setdefault(found, key)
    parts = {key: found for found, key in first.items()}
    if parts:
        yield figure(
            f"safety.line.{name.lower()}.rating", least, unit="bar(g)", digits=3, symbol="p_line", rounding="down",
            safety=True, source="by-definition", **parts,
        )  # fmt: skip


def tube_stress(line: DescribedLine, path: str) -> str | None:
    """Where the allowable stress of a line's tube stands; none where it is unknown."""
    if line.allowable_stress is not None:
        return f"{path}.allowable_stress"
    return "safety.tube_stress" if line.medium in STEEL_LINES else None


def rating_path(description: Description, port: Port) -> str | None:
    """Where the rating of an item at a port stands; none where it has none."""
    tag, at = port
    plant, item = description.plant, description.network.items[tag]
    if item.kind == "stack":
        return "stack.pressure_rating" if at.startswith("h2") else "stack.anode_rating"
    if plant.buffer is not None and tag == plant.buffer.tag:
        return "buffer.allowable_pressure"
    for number, booster in enumerate(plant.boosters, start=1):
        if booster.tag == tag and at in BOOSTER_RATINGS:
            return f"boosters.{number}.{BOOSTER_RATINGS[at]}"
    for name, bank in plant.banks.items():
        if bank.tag == tag:
            return f"banks.{name}.working_pressure"
    for number, use in enumerate(plant.uses, start=1):
        if use.tag == tag and use.nominal_pressure is not None:
            return f"uses.{number}.nominal_pressure"
    if at == "out" and item.outlet_rating is not None:
        return f"items.{tag.lower()}.outlet_rating"
    return f"items.{tag.lower()}.rating" if item.rating is not None else None


BOOSTER_RATINGS = {"in": "inlet_highest", "out": "discharge_rating", "drive_air": "drive_rating"}
"""What each port of a booster bears."""


def _flow(description: Description, network: Network, name: str, line: Line) -> Iterator[Figure]:
    """Speed and loss of a line whose flow is known."""
    described, path = description.network.lines[name], f"lines.{name.lower()}"
    found = _service(description, network, line)
    bored = described.bore is not None or (described.outer_diameter is not None and described.wall is not None)
    if found is None or not bored or described.length is None:
        return
    flow, pressure, temperature = found
    at = f"safety.line.{name.lower()}"
    if described.bore is not None:
        yield figure(f"{at}.bore", _the_same, unit="mm", symbol="d", source="by-definition", value=f"{path}.bore")
    else:
        yield figure(
            f"{at}.bore", _bore, unit="mm", symbol="d", source="by-definition", outer=f"{path}.outer_diameter",
            wall=f"{path}.wall",
        )  # fmt: skip
    gas: dict[str, Any] = {"flow": flow, "bore": f"{at}.bore", "pressure": pressure, "temperature": temperature}
    yield figure(
        f"{at}.velocity", _velocity, unit="m/s", symbol="v", digits=2, rounding="up", source="by-definition", **gas
    )
    yield figure(
        f"{at}.pressure_drop", _drop, unit="mbar", symbol="Δp", digits=2, rounding="up", source="isothermal-pipe",
        length=f"{path}.length", **gas,
    )  # fmt: skip


def _service(description: Description, network: Network, line: Line) -> tuple[str, str, str] | None:
    """Flow, lowest pressure and temperature of the gas in a line; none where nobody knows its flow."""
    plant = description.plant
    if line.medium not in HYDROGEN or plant.buffer is None:
        return None
    tags = [stop.tag for stop in line.stops]
    stages = {stage.tag for stage in plant.drying}
    stacks = {tag for tag, item in network.items.items() if item.kind.name == "stack"}
    if (stacks & set(tags[:1])) or (tags[0] in stages and plant.buffer.tag == tags[-1]):
        return "stack.hydrogen_gross_flow", "buffer.cut_in", "stack.temperature"
    for number, use in enumerate(plant.uses, start=1):
        regulator = next((tag for tag in tags if network.items[tag].kind.name == "pressure_regulator"), None)
        before = regulator or _regulator_before(network, tags[0])
        # Behind the last regulator of a use the gas is at the pressure to which that is set.
        if use.tag == tags[-1] and use.kind != "vehicle" and before is not None:
            return f"uses.{number}.hydrogen_flow", f"items.{before.lower()}.set_pressure", "site.hottest"
    return None


def _regulator_before(network: Network, tag: str) -> str | None:
    """The regulator that feeds an item, junctions passed over."""
    for _ in range(len(network.items)):
        if network.items[tag].kind.name == "pressure_regulator":
            return tag
        run = next((run for run in network.runs if run.end == (tag, "in")), None)
        if run is None:
            return None
        tag = run.start[0]
    return None


def _hose(tag: str, section: str) -> Figure:
    """What a hose lets out if it is torn off, friction of its own length counted and nothing else."""
    item = f"items.{tag.lower()}"
    return figure(
        f"safety.hose.{tag.lower()}.rupture_flow", _torn, unit="Nm3/h", symbol="n_torn", digits=2, rounding="up",
        safety=True, source="fanno-flow",
        bore=f"{item}.bore", length=f"{item}.length", pressure=f"safety.{section}.highest_pressure",
        temperature="site.coldest", atmosphere=ATMOSPHERE,
    )  # fmt: skip


def _pot_vent(tag: str, line: str) -> Figure:
    """Gas that the vent of a degassing pot passes before the pot's water seal gives way."""
    return figure(
        f"safety.vent.{tag.lower()}.capacity", _before_the_seal, unit="NL/min", symbol="n_pot", digits=2,
        rounding="down", safety=True, source="fanno-flow",
        bore=f"{line}.bore", length=f"{line}.length", temperature="site.hottest", atmosphere=ATMOSPHERE,
    )  # fmt: skip


def _tube(outer: float, wall: float, stress: float, atmosphere: float, tolerance: float = 0.0) -> float:
    return tube_rating(outer, wall, tolerance, stress, atmosphere)


def _bore(outer: float, wall: float) -> float:
    return outer - 2 * wall


def _the_same(value: float) -> float:
    return value


def _velocity(flow: float, bore: float, pressure: float, temperature: float) -> float:
    return line_velocity(flow * MOLAR_MASS_HYDROGEN, bore, density(pressure, temperature))


def _drop(flow: float, bore: float, pressure: float, temperature: float, length: float) -> float:
    """By the tube alone: entry and exit of a line are small beside the valves in it, which have their own Kv."""
    mass_flow = flow * MOLAR_MASS_HYDROGEN
    friction = friction_factor(reynolds_number(mass_flow, bore, viscosity(pressure, temperature)), DRAWN_TUBE / bore)
    return line_pressure_drop(
        mass_flow, pressure, temperature, bore, length, friction, 0.0, MOLAR_MASS_HYDROGEN,
        compressibility(pressure, temperature),
    )  # fmt: skip


def _torn(bore: float, length: float, pressure: float, temperature: float, atmosphere: float) -> float:
    friction = friction_factor(TORN_FRICTION_REYNOLDS, DRAWN_TUBE / bore)
    flow = rupture_flow(
        hole_area(bore),
        pressure,
        temperature,
        atmosphere,
        friction * length / bore,
        RATIO_HYDROGEN,
        MOLAR_MASS_HYDROGEN,
    )
    return flow / MOLAR_MASS_HYDROGEN


def _before_the_seal(bore: float, length: float, temperature: float, atmosphere: float) -> float:
    friction = friction_factor(POT_VENT_REYNOLDS, DRAWN_TUBE / bore)
    flow = rupture_flow(
        hole_area(bore),
        atmosphere + WATER_SEAL,
        temperature,
        atmosphere,
        friction * length / bore + POT_VENT_ENDS,
        RATIO_HYDROGEN,
        MOLAR_MASS_HYDROGEN,
    )
    return flow / MOLAR_MASS_HYDROGEN
