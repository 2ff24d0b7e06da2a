"""
The highest credible pressures of a plant, handed to its line-ups: banks on the hottest day, boosters at stall on the
highest drive, reliefs with tolerance and accumulation as far as their capacity is proven, regulators at lock-up.
"""

from __future__ import annotations

import functools
import math
from collections import deque
from collections.abc import Iterator, Mapping

from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.contract import OutOfRange
from macros.calculations.faraday import hydrogen_produced
from macros.calculations.leak import hole_area, leak_flow, opening_of_valve
from macros.calculations.line_flow import DRAWN_TUBE, friction_factor, line_pressure_drop, reynolds_number
from macros.calculations.relief import relieving_pressure
from macros.figures.plant import Plant
from macros.network.kinds import How
from macros.network.lines import Port
from macros.network.lineups import Lineups
from macros.network.network import Item, Line
from macros.network.piping import Piping, absolute
from macros.network.pressures import Pressures, Raise, Source, unlimited

__all__ = ["lineups_of", "pressures_of"]

CURRENT = frozenset(("current", "holding_current"))
PROTECTING = ("relief_valve", "burst_disc")
MOLAR_MASS_NITROGEN, MOLAR_MASS_OXYGEN = 0.0280134, 0.0319988
VISCOSITY_PA_S = 2e-5
"""Of nitrogen and oxygen at the temperature of a shed, from memory; hydrogen has less, and loses less."""

HOPELESS_PA = 1e8
"""A vent that needs more before it vents nothing."""

FITTINGS = 3.0
"""Loss coefficients of each line to a vent: inlet, outlet, two bends; common practice."""


@functools.lru_cache(maxsize=64)
def lineups_of(plant: Plant) -> Lineups:
    """The line-ups of a plant, under the highest credible pressures of its figures; worked out once for all who ask."""
    piping = Piping(plant.network, pressures_of(plant))
    return Lineups(piping, plant.description.procedures, plant.description.plant.trips)


def pressures_of(plant: Plant) -> Pressures:
    """The highest credible pressures of a plant."""
    return _Pressures(plant).all()


class _Pressures:
    def __init__(self, plant: Plant) -> None:
        self.plant = plant
        self.described = plant.description.plant
        self.atmosphere_pa = self.si("site.atmosphere")
        self.tags = {kind: tag for tag, item in plant.network.items.items() for kind in (item.kind.name,)}

    def si(self, path: str) -> float:
        found = self.plant.graph[path].si
        if not isinstance(found, float | int):
            raise TypeError(path)
        return float(found)

    def has(self, path: str) -> bool:
        return path in self.plant.graph.figures or path in self.plant.graph.entries

    def setting_pa(self, item: Item, key: str) -> float | None:
        found = item.settings.get(key)
        return None if found is None else absolute(found.kind, found.si, self.atmosphere_pa)

    def all(self) -> Pressures:
        sources = tuple(self.sources())
        return Pressures(
            atmosphere_pa=self.atmosphere_pa,
            sources=sources,
            stores=self.stores(),
            caps={**self.reliefs(), **self.vents(sources)},
            held_to=dict(self.regulators()),
            raised=dict(self.boosters()),
            opens_at=dict(self.opening()),
            tubes=dict(self.tubes()),
            isolation_pa=self.si("safety.isolation_pressure"),
            swept=self.must_be_swept(),
        )

    def items(self, *kinds: str) -> Iterator[tuple[str, Item]]:
        return ((tag, item) for tag, item in self.plant.network.items.items() if item.kind.name in kinds)

    def sources(self) -> Iterator[Source]:
        for tag, _ in self.items("stack"):
            yield Source(tag, (tag, "h2"), unlimited, "hydrogen", CURRENT)
            yield Source(f"{tag}.o2", (tag, "o2"), unlimited, "oxygen", CURRENT)
        for tag, item in self.items("compressor", "pump"):
            runs = frozenset(("pump",)) if item.kind.name == "pump" else frozenset[str]()
            # The receiver of a compressor keeps its air when the motor stops.
            medium = "water" if item.kind.name == "pump" else "air"
            highest_pa = self.setting_pa(item, "highest_pressure")
            yield Source(tag, (tag, "out"), unlimited if highest_pa is None else highest_pa, medium, runs)
        for tag, item in self.items("purge_inlet"):
            supply_pa = self.setting_pa(item, "supply_pressure")
            yield Source(tag, (tag, "out"), unlimited if supply_pa is None else supply_pa, "nitrogen")

    def stores(self) -> dict[str, float]:
        found: dict[str, float] = {}
        if self.described.buffer is not None:
            found[self.described.buffer.tag] = self.relief_pa(self.described.buffer.relief)
        for name, bank in self.described.banks.items():
            found[bank.tag] = self.si(f"banks.{name}.hot_pressure")
        for use in self.described.uses:
            if self.plant.network.items[use.tag].kind.name == "vehicle_tank" and use.nominal_pressure is not None:
                nominal = use.nominal_pressure
                found[use.tag] = absolute(nominal.kind, nominal.si, self.atmosphere_pa)
        return found

    def relief_pa(self, tag: str) -> float:
        """Highest pressure that a relief lets through: set, tolerance and accumulation."""
        settings = self.plant.network.items[tag].settings
        set_pa = self.setting_pa(self.plant.network.items[tag], "set_pressure")
        if set_pa is None:
            return unlimited
        shares = [float(settings[key].si) if key in settings else 0.0 for key in ("accumulation", "tolerance")]
        return relieving_pressure(set_pa, self.atmosphere_pa, *shares)

    def opening(self) -> Iterator[tuple[str, float]]:
        for tag, item in self.items(*PROTECTING):
            set_pa = self.setting_pa(item, "set_pressure")
            if set_pa is not None:
                yield tag, set_pa

    def reliefs(self) -> dict[str, dict[str, float]]:
        """What each relief leaves of every source whose flow is known and no more than its capacity."""
        flows = dict(self.flows())
        found: dict[str, dict[str, float]] = {}
        for tag, _ in self.items(*PROTECTING):
            path = f"safety.relief.{tag.lower()}.capacity"
            if not self.has(path):
                continue
            capacity, cap_pa = self.si(path), self.relief_pa(tag)
            found[tag] = {source: cap_pa for source, flow in flows.items() if flow <= capacity}
        return found

    def flows(self) -> Iterator[tuple[str, float]]:
        """Flow of each source and failure, in mol/s of hydrogen; nitrogen counts for as much as takes the same area."""
        stack = self.tags.get("stack", "")
        yield stack, hydrogen_produced(self.si("power.rectifier_current"), int(self.si("stack.cells")))
        for figure in self.plant.graph.figures:
            parts = figure.split(".")
            if parts[:2] != ["safety", "relief"] or not parts[-1].startswith("from_"):
                continue
            source = parts[-1].removeprefix("from_").upper()
            if source == "MEMBRANE":
                yield f"{stack}:ruptured", self.si(figure)
            elif source == "COMPRESSOR":
                yield self.tags.get("compressor", ""), self.si(figure)
            elif source in self.plant.network.items:
                kind = self.plant.network.items[source].kind.name
                if kind == "booster":
                    yield source, self.si(figure)
                    # Through valves that leak back no more comes than it delivers.
                    yield f"{source}:checks_leak", self.si(figure)
                else:
                    yield f"{source}:fails_open", self.si(figure)
        heavier = math.sqrt(MOLAR_MASS_NITROGEN / MOLAR_MASS_HYDROGEN)
        for tag, item in self.items("purge_inlet"):
            if "supply_flow" in item.settings:
                yield tag, float(item.settings["supply_flow"].si) * heavier
        for tag, flow in self.leaking_back():
            yield tag, flow

    def leaking_back(self) -> Iterator[tuple[str, float]]:
        """A non-return valve that stays open, its seat as an opening before the highest pressure of the plant."""
        tops = [*self.stores().values(), *(self.relief_pa(tag) for tag, _ in self.items(*PROTECTING))]
        highest_pa = max((each for each in tops if math.isfinite(each)), default=self.atmosphere_pa)
        for tag, item in self.items("non_return_valve"):
            if "flow_coefficient" in item.settings:
                opening = opening_of_valve(float(item.settings["flow_coefficient"].si))
                flow = leak_flow(opening, 1.0, highest_pa, self.si("site.hottest"), self.atmosphere_pa)
                yield f"{tag}:leaks_back", flow / MOLAR_MASS_HYDROGEN

    def regulators(self) -> Iterator[tuple[str, float]]:
        for tag, item in self.items("pressure_regulator", "air_regulator"):
            set_pa = self.setting_pa(item, "set_pressure")
            if set_pa is not None and "lock_up" in item.settings:
                yield tag, set_pa + float(item.settings["lock_up"].si)

    def boosters(self) -> Iterator[tuple[str, Raise]]:
        for number, booster in enumerate(self.described.boosters, start=1):
            at = f"boosters.{number}"
            drive_pa = self.si(f"{at}.drive_pressure_highest") - self.atmosphere_pa
            yield (
                booster.tag,
                Raise(self.atmosphere_pa + self.si(f"{at}.ratio") * drive_pa, self.si(f"{at}.assist_ratio")),
            )

    def tubes(self) -> Iterator[tuple[str, float]]:
        for name, line in self.plant.network.lines.items():
            found = [unlimited]
            if self.has(path := f"safety.tube.{name.lower()}.rating"):
                found.append(self.si(path))
            if "fitting_rating" in line.sizes:
                fitting = line.sizes["fitting_rating"]
                found.append(absolute(fitting.kind, fitting.si, self.atmosphere_pa))
            if math.isfinite(min(found)):
                yield name, min(found)

    def must_be_swept(self) -> bool:
        """Unless the stack is let down before its oxygen space is flammable; where that cannot be told, it must."""
        names = "stack.let_down_time_relief", "stack.oxygen_space_time_to_limit_relief"
        if not all(self.has(name) for name in names):
            return True
        return not self.si(names[0]) < self.si(names[1])

    # --- vents that are never shut off

    def vents(self, sources: tuple[Source, ...]) -> dict[str, dict[str, float]]:
        """Pressure that a source leaves in what is open to a vent at all times, by the loss along its lines."""
        piping = Piping(self.plant.network, Pressures(self.atmosphere_pa))
        found: dict[str, dict[str, float]] = {}
        for tag, _ in self.items("vent"):
            node = piping.node[tag, "in"]
            if node in piping.headers:
                continue
            for name, port, flow, molar_mass in self.vent_flows(sources):
                if piping.node[port] == node:
                    found.setdefault(tag, {})[name] = self.back_pressure_pa(port, (tag, "in"), flow, molar_mass)
            for source in sources:
                # A pump that draws from an open vessel cannot press it up.
                if source.medium == "water" and piping.node[source.port[0], "in"] == node:
                    found.setdefault(tag, {})[source.name] = self.atmosphere_pa
        return found

    def vent_flows(self, sources: tuple[Source, ...]) -> Iterator[tuple[str, Port, float, float]]:
        """Name, port, flow in mol/s and molar mass of what may leave by a vent."""
        stack = self.tags.get("stack", "")
        # What cannot be told is not capped, and so becomes a finding.
        if self.has("stack.oxygen_flow"):
            yield f"{stack}.o2", (stack, "o2"), self.si("stack.oxygen_flow"), MOLAR_MASS_OXYGEN
        if self.has("stack.relief_pressure"):
            yield f"{stack}:ruptured", (stack, "o2"), self.membrane_flow(), MOLAR_MASS_HYDROGEN
        for source in sources:
            flow = self.plant.network.items[source.port[0]].settings.get("supply_flow")
            if source.medium == "nitrogen" and flow is not None:
                # The flush enters with the water of the stack; elsewhere nitrogen meets no vent that is always open.
                yield source.name, (stack, "water_in"), float(flow.si), MOLAR_MASS_NITROGEN
        if self.has("water.drain_blow_by_relief"):
            for tag, _ in self.items("drain"):
                blow_by = self.si("water.drain_blow_by_relief")
                yield f"{tag}:passes", (tag, "out"), blow_by, MOLAR_MASS_HYDROGEN

    def membrane_flow(self) -> float:
        """Hydrogen through a hole in a membrane, the stack at the highest pressure that its relief lets through."""
        flow = leak_flow(
            hole_area(self.si("safety.membrane_hole")), 1.0, self.si("stack.relief_pressure"),
            self.si("stack.temperature"), self.atmosphere_pa,
        )  # fmt: skip
        return flow / MOLAR_MASS_HYDROGEN

    def back_pressure_pa(self, port: Port, vent: Port, flow: float, molar_mass: float) -> float:
        """Pressure at which a flow leaves by the lines between a port and its vent; without limit if it cannot."""
        lines = self.lines_between(port, vent)
        sizes = [(bore, length) for line in lines if (bore := self.bore_m(line)) and (length := self.length_m(line))]
        if not lines or len(sizes) < len(lines):
            return unlimited
        pressure_pa = self.atmosphere_pa
        for bore_m, length_m in reversed(sizes):
            pressure_pa = self.before_line_pa(pressure_pa, flow * molar_mass, bore_m, length_m, molar_mass)
        return pressure_pa

    def before_line_pa(
        self, outlet_pa: float, mass_flow: float, bore_m: float, length_m: float, molar_mass: float
    ) -> float:
        """Pressure before a line that leaves what is wanted behind it."""
        friction = friction_factor(reynolds_number(mass_flow, bore_m, VISCOSITY_PA_S), DRAWN_TUBE / bore_m)
        temperature_k = max(self.si("site.hottest"), self.si("stack.temperature"))

        def enough(inlet_pa: float) -> bool:
            try:
                lost_pa = line_pressure_drop(
                    mass_flow, inlet_pa, temperature_k, bore_m, length_m, friction, FITTINGS, molar_mass, 1.0
                )
            except OutOfRange:
                return False
            return inlet_pa - lost_pa >= outlet_pa

        low_pa, high_pa = outlet_pa, outlet_pa
        while not enough(high_pa):
            high_pa *= 1.5
            if high_pa > HOPELESS_PA:
                return unlimited
        for _ in range(40):
            middle_pa = (low_pa + high_pa) / 2
            low_pa, high_pa = (low_pa, middle_pa) if enough(middle_pa) else (middle_pa, high_pa)
        return high_pa

    def lines_between(self, port: Port, vent: Port) -> list[Line]:
        """The lines from a port to its vent, in the order of flow."""
        beside: dict[Port, list[tuple[Port, str]]] = {}
        for way in self.plant.network.ways(self.plant.network.positions()):
            if way.how in (How.FREE, How.LIMITS):
                beside.setdefault(way.start, []).append((way.end, way.through))
                beside.setdefault(way.end, []).append((way.start, way.through))
        before: dict[Port, tuple[Port, str] | None] = {port: None}
        waiting = deque((port,))
        while waiting and vent not in before:
            here = waiting.popleft()
            for there, through in beside.get(here, ()):
                if there not in before:
                    before[there] = (here, through)
                    waiting.append(there)
        names: list[str] = []
        step = before.get(vent)
        while step is not None:
            names.append(step[1])
            step = before[step[0]]
        return [self.plant.network.lines[name] for name in dict.fromkeys(reversed(names)) if name in self.lines]

    @property
    def lines(self) -> Mapping[str, Line]:
        return self.plant.network.lines

    @staticmethod
    def bore_m(line: Line) -> float | None:
        if "bore" in line.sizes:
            return float(line.sizes["bore"].si)
        if "outer_diameter" in line.sizes and "wall" in line.sizes:
            return float(line.sizes["outer_diameter"].si - 2 * line.sizes["wall"].si)
        return None

    @staticmethod
    def length_m(line: Line) -> float | None:
        return float(line.sizes["length"].si) if "length" in line.sizes else None
