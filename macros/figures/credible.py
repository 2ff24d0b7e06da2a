"""
The highest credible pressures of a plant: banks on the hottest day, boosters at stall on the highest drive, reliefs with
tolerance and accumulation as far as their capacity is proven, regulators at lock-up, vents by the loss along their lines.

Each is a term: the paths that it reads, and what is worked out of them. So the line-ups of a plant, and a figure that
follows them, read the same and can say what.
"""

from __future__ import annotations

import functools
import math
from collections import deque
from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from dataclasses import dataclass

from macros.calculations.constants import MOLAR_MASS_HYDROGEN
from macros.calculations.contract import OutOfRange
from macros.calculations.faraday import hydrogen_produced
from macros.calculations.leak import hole_area, leak_flow, opening_of_valve
from macros.calculations.line_flow import DRAWN_TUBE, friction_factor, line_pressure_drop, reynolds_number
from macros.calculations.relief import relieving_pressure
from macros.description.loading import Description
from macros.figures.graph import ATMOSPHERE
from macros.network.kinds import How
from macros.network.lines import Port
from macros.network.network import Item, Line, Network, Way
from macros.network.piping import Piping
from macros.network.pressures import Pressures, Raise, Source, unlimited

__all__ = ["Credible", "Term"]

CURRENT = frozenset(("current", "holding_current"))
PROTECTING = ("relief_valve", "burst_disc")
MOLAR_MASS_NITROGEN, MOLAR_MASS_OXYGEN = 0.0280134, 0.0319988
VISCOSITY_PA_S = 2e-5
"""Of nitrogen and oxygen at the temperature of a shed, from memory; hydrogen has less, and loses less."""

HOPELESS_PA = 1e8
"""A vent that needs more before it vents nothing."""

FITTINGS = 3.0
"""Loss coefficients of each line to a vent: inlet, outlet, two bends; common practice."""

Read = Callable[[str], float]
"""Gives the number at a path, in SI units, pressures absolute."""


@dataclass(frozen=True)
class Term:
    """A number, and the paths of which it is worked out."""

    paths: tuple[str, ...]
    compute: Callable[..., float]

    def of(self, read: Read) -> float:
        """The number."""
        return self.compute(*(read(path) for path in self.paths))


UNLIMITED = Term((), lambda: unlimited)


def joined(compute: Callable[[list[float]], float], terms: Iterable[Term]) -> Term:
    """A term of terms."""
    found = tuple(terms)

    def of_all(*values: float) -> float:
        waiting = iter(values)
        return compute([each.compute(*(next(waiting) for _ in each.paths)) for each in found])

    return Term(tuple(path for each in found for path in each.paths), of_all)


def one(path: str) -> Term:
    """The number at a path."""
    return Term((path,), float)


class Credible:
    """
    What decides which pressure is brought where in a plant.

    Parameters
    ----------
    description : Description
    network : Network
    known : container of str
        The paths that the plant has. What cannot be told is not capped, and so becomes a finding.
    """

    def __init__(self, description: Description, network: Network, known: Container[str]) -> None:
        self.described = description.plant
        self.network = network
        self.known = known
        self.stack = next((tag for tag, _ in self.items("stack")), "")
        self.sources = tuple(self._sources())
        self.stores = dict(self._stores())
        self.held_to = dict(self._regulators())
        self.raised = dict(self._boosters())
        self.opens_at = {tag: one(path) for tag, path in self._settings("set_pressure", *PROTECTING)}
        self.cracks_at = {tag: one(path) for tag, path in self._settings("cracking_pressure", "non_return_valve")}
        self.flows = tuple(self._flows())
        self.reliefs = dict(self._reliefs())
        self.vents = tuple(self._vents())

    @property
    def paths(self) -> tuple[str, ...]:
        """Every path that is read."""
        terms = [
            *(term for _, term in self.sources), *self.stores.values(), *self.held_to.values(),
            *(term for pair in self.raised.values() for term in pair), *self.opens_at.values(),
            *self.cracks_at.values(), *(term for _, term in self.flows),
            *(term for pair in self.reliefs.values() for term in pair), *(term for _, _, term in self.vents),
        ]  # fmt: skip
        return tuple(dict.fromkeys((ATMOSPHERE, *(path for term in terms for path in term.paths))))

    def pressures(self, read: Read) -> Pressures:
        """The pressures, once the paths are read."""
        flows = [(name, term.of(read)) for name, term in self.flows]
        caps: dict[str, dict[str, float]] = {}
        for tag, (cap, capacity) in self.reliefs.items():
            cap_pa, most = cap.of(read), capacity.of(read)
            caps[tag] = {source: cap_pa for source, flow in flows if flow <= most}
        for tag, source, term in self.vents:
            caps.setdefault(tag, {})[source] = term.of(read)
        return Pressures(
            atmosphere_pa=read(ATMOSPHERE),
            sources=tuple(
                Source(each.name, each.port, term.of(read), each.medium, each.runs) for each, term in self.sources
            ),
            stores={tag: term.of(read) for tag, term in self.stores.items()},
            caps=caps,
            held_to={tag: term.of(read) for tag, term in self.held_to.items()},
            raised={tag: Raise(stall.of(read), assist.of(read)) for tag, (stall, assist) in self.raised.items()},
            opens_at={tag: term.of(read) for tag, term in self.opens_at.items()},
            cracks_at={tag: term.of(read) for tag, term in self.cracks_at.items()},
        )

    # --- what the description gives

    def items(self, *kinds: str) -> Iterator[tuple[str, Item]]:
        return ((tag, item) for tag, item in self.network.items.items() if item.kind.name in kinds)

    def _settings(self, key: str, *kinds: str) -> Iterator[tuple[str, str]]:
        """Tag and path of a setting, for the items of some kinds that have it."""
        return ((tag, path_of(tag, key)) for tag, item in self.items(*kinds) if key in item.settings)

    def _sources(self) -> Iterator[tuple[Source, Term]]:
        for tag, _ in self.items("stack"):
            yield Source(tag, (tag, "h2"), unlimited, "hydrogen", CURRENT), UNLIMITED
            yield Source(f"{tag}.o2", (tag, "o2"), unlimited, "oxygen", CURRENT), UNLIMITED
        for tag, item in self.items("compressor", "pump"):
            runs = frozenset(("pump",)) if item.kind.name == "pump" else frozenset[str]()
            # The receiver of a compressor keeps its air when the motor stops.
            medium = "water" if item.kind.name == "pump" else "air"
            yield Source(tag, (tag, "out"), unlimited, medium, runs), self._setting(tag, "highest_pressure")
        for tag, _ in self.items("purge_inlet"):
            yield Source(tag, (tag, "out"), unlimited, "nitrogen"), self._setting(tag, "supply_pressure")

    def _setting(self, tag: str, key: str) -> Term:
        """A pressure that an item is set to; without limit where nobody says."""
        return one(path_of(tag, key)) if key in self.network.items[tag].settings else UNLIMITED

    def _stores(self) -> Iterator[tuple[str, Term]]:
        if self.described.buffer is not None:
            yield self.described.buffer.tag, self.let_through(self.described.buffer.relief)
        for name, bank in self.described.banks.items():
            yield bank.tag, one(f"banks.{name}.hot_pressure")
        for number, use in enumerate(self.described.uses, start=1):
            if self.network.items[use.tag].kind.name == "vehicle_tank" and use.nominal_pressure is not None:
                yield use.tag, one(f"uses.{number}.nominal_pressure")

    def let_through(self, tag: str) -> Term:
        """Highest pressure that a relief lets through: set, tolerance and accumulation."""
        settings = self.network.items[tag].settings
        if "set_pressure" not in settings:
            return UNLIMITED
        shares = [key for key in ("accumulation", "tolerance") if key in settings]
        paths = (path_of(tag, "set_pressure"), ATMOSPHERE, *(path_of(tag, key) for key in shares))

        def fully_open(set_pa: float, atmosphere_pa: float, *given: float) -> float:
            found = dict(zip(shares, given, strict=True))
            return relieving_pressure(
                set_pa, atmosphere_pa, found.get("accumulation", 0.0), found.get("tolerance", 0.0)
            )

        return Term(paths, fully_open)

    def _regulators(self) -> Iterator[tuple[str, Term]]:
        for tag, item in self.items("pressure_regulator", "air_regulator"):
            if {"set_pressure", "lock_up"} <= item.settings.keys():
                yield tag, joined(math.fsum, (one(path_of(tag, key)) for key in ("set_pressure", "lock_up")))

    def _boosters(self) -> Iterator[tuple[str, tuple[Term, Term]]]:
        for number, booster in enumerate(self.described.boosters, start=1):
            at = f"boosters.{number}"
            stall = Term((f"{at}.drive_pressure_highest", f"{at}.ratio", ATMOSPHERE), _stall)
            yield booster.tag, (stall, one(f"{at}.assist_ratio"))

    # --- what reliefs pass

    def _reliefs(self) -> Iterator[tuple[str, tuple[Term, Term]]]:
        """Every relief whose capacity is known, with the pressure that it lets through."""
        for tag, _ in self.items(*PROTECTING):
            path = f"safety.relief.{tag.lower()}.capacity"
            if path in self.known:
                yield tag, (self.let_through(tag), one(path))

    def _flows(self) -> Iterator[tuple[str, Term]]:
        """Flow of each source and failure, in mol/s of hydrogen; nitrogen counts for as much as takes the same area."""
        yield self.stack, Term(("power.rectifier_current", "stack.cells"), _all_the_current)
        for relief, _ in self.items(*PROTECTING):
            for name, ending in self._named_flows():
                path = f"safety.relief.{relief.lower()}.from_{ending}"
                if path in self.known:
                    yield name, one(path)
        for tag, path in self._settings("supply_flow", "purge_inlet"):
            yield tag, Term((path,), _as_hydrogen)
        yield from self._leaking_back()

    def _named_flows(self) -> Iterator[tuple[str, str]]:
        """Names of sources and failures, and how the figures of reliefs call them."""
        yield f"{self.stack}:ruptured", "membrane"
        for tag, item in self.network.items.items():
            if item.kind.name == "compressor":
                yield tag, "compressor"
            elif item.kind.name == "booster":
                yield tag, tag.lower()
                # Through valves that leak back no more comes than it delivers.
                yield f"{tag}:checks_leak", tag.lower()
            else:
                yield f"{tag}:fails_open", tag.lower()

    def _leaking_back(self) -> Iterator[tuple[str, Term]]:
        """A non-return valve that stays open, its seat as an opening before the highest pressure of the plant."""
        tops = (*self.stores.values(), *(self.let_through(tag) for tag, _ in self.items(*PROTECTING)))
        for tag, path in self._settings("flow_coefficient", "non_return_valve"):
            first = (one(path), one("site.hottest"), one(ATMOSPHERE))
            yield f"{tag}:leaks_back", joined(_through_seat, (*first, *tops))

    # --- vents that are never shut off

    def _vents(self) -> Iterator[tuple[str, str, Term]]:
        """Vent, source, and the pressure that the loss along the lines between them leaves of it."""
        piping = Piping(self.network, Pressures(0.0))
        for tag, _ in self.items("vent"):
            node = piping.node[tag, "in"]
            if node in piping.headers:
                continue
            for name, port, flow, molar_mass in self._leaving():
                if piping.node[port] == node:
                    yield tag, name, self._back_pressure(port, (tag, "in"), flow, molar_mass)
            for source, _ in self.sources:
                # A pump that draws from an open vessel cannot press it up.
                if source.medium == "water" and piping.node[source.port[0], "in"] == node:
                    yield tag, source.name, one(ATMOSPHERE)

    def _leaving(self) -> Iterator[tuple[str, Port, Term, float]]:
        """Name, port, flow in mol/s and molar mass of what may leave by a vent."""
        if "stack.oxygen_flow" in self.known:
            yield f"{self.stack}.o2", (self.stack, "o2"), one("stack.oxygen_flow"), MOLAR_MASS_OXYGEN
        if "stack.relief_pressure" in self.known:
            paths = ("safety.membrane_hole", "stack.relief_pressure", "stack.temperature", ATMOSPHERE)
            yield f"{self.stack}:ruptured", (self.stack, "o2"), Term(paths, _through_membrane), MOLAR_MASS_HYDROGEN
        for tag, path in self._settings("supply_flow", "purge_inlet"):
            # The flush enters with the water of the stack; elsewhere nitrogen meets no vent that is always open.
            yield tag, (self.stack, "water_in"), one(path), MOLAR_MASS_NITROGEN
        if "water.drain_blow_by_relief" in self.known:
            for tag, _ in self.items("drain"):
                yield f"{tag}:passes", (tag, "out"), one("water.drain_blow_by_relief"), MOLAR_MASS_HYDROGEN

    def _back_pressure(self, port: Port, vent: Port, flow: Term, molar_mass: float) -> Term:
        """Pressure at which a flow leaves by the lines between a port and its vent; without limit if it cannot."""
        lines = self._lines_between(port, vent)
        sizes = [(bore, f"lines.{line.id.lower()}.length") for line in lines if "length" in line.sizes
                 for bore in _bores(line)]  # fmt: skip
        if not lines or len(sizes) < len(lines):
            return UNLIMITED
        mouth = path_of(vent[0], "bore")
        if mouth in self.known:
            # A vent is no wider than its mouth, however wide the line before it.
            last, length = sizes[-1]
            sizes[-1] = (joined(min, (last, one(mouth))), length)
        given = (one(ATMOSPHERE), one("site.hottest"), one("stack.temperature"), flow)

        def before_all(values: list[float]) -> float:
            pressure_pa, hottest_k, stack_k, mol_per_s, *along = values
            for bore_m, length_m in reversed(list(zip(along[::2], along[1::2], strict=True))):
                pressure_pa = _before_line_pa(
                    pressure_pa,
                    float(mol_per_s * molar_mass),
                    bore_m,
                    length_m,
                    float(molar_mass),
                    max(hottest_k, stack_k),
                )
            return pressure_pa

        return joined(before_all, (*given, *(term for bore, length in sizes for term in (bore, one(length)))))

    @functools.cached_property
    def _open_ways(self) -> tuple[Way, ...]:
        """The ways that gas goes as everything stands in service."""
        ways = self.network.ways(self.network.positions())
        return tuple(way for way in ways if way.how in (How.FREE, How.LIMITS))

    def _lines_between(self, port: Port, vent: Port) -> list[Line]:
        """
        The lines from a port to its vent, in the order of flow.

        What leaves the stack does not leave through water: a seal gives way, but nobody vents by it.
        """
        sealed = {line.id for line in self.network.lines.values() if line.medium == "water" and port[0] == self.stack}
        beside: dict[Port, list[tuple[Port, str]]] = {}
        for way in self._open_ways:
            if way.through not in sealed:
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
        lines: Mapping[str, Line] = self.network.lines
        return [lines[name] for name in dict.fromkeys(reversed(names)) if name in lines]


def path_of(tag: str, key: str) -> str:
    """Path of a setting of an item."""
    return f"items.{tag.lower()}.{key}"


def _bores(line: Line) -> Iterator[Term]:
    """The bore of a line, where its sizes tell it."""
    at = f"lines.{line.id.lower()}"
    if "bore" in line.sizes:
        yield one(f"{at}.bore")
    elif {"outer_diameter", "wall"} <= line.sizes.keys():
        yield Term((f"{at}.outer_diameter", f"{at}.wall"), lambda outer, wall: float(outer - 2 * wall))


def _stall(drive_pa: float, ratio: float, atmosphere_pa: float) -> float:
    return float(atmosphere_pa + ratio * (drive_pa - atmosphere_pa))


def _all_the_current(current_a: float, cells: float) -> float:
    return hydrogen_produced(current_a, int(cells))


def _as_hydrogen(flow: float) -> float:
    return float(flow * math.sqrt(MOLAR_MASS_NITROGEN / MOLAR_MASS_HYDROGEN))


def _through_seat(values: list[float]) -> float:
    flow_coefficient, hottest_k, atmosphere_pa, *tops = values
    highest_pa = max((each for each in tops if math.isfinite(each)), default=atmosphere_pa)
    flow = leak_flow(opening_of_valve(flow_coefficient), 1.0, highest_pa, hottest_k, atmosphere_pa)
    return flow / MOLAR_MASS_HYDROGEN


def _through_membrane(hole_m: float, pressure_pa: float, temperature_k: float, atmosphere_pa: float) -> float:
    """Hydrogen through a hole in a membrane, the stack at the highest pressure that its relief lets through."""
    return leak_flow(hole_area(hole_m), 1.0, pressure_pa, temperature_k, atmosphere_pa) / MOLAR_MASS_HYDROGEN


@functools.lru_cache(maxsize=512)
def _before_line_pa(
    outlet_pa: float, mass_flow: float, bore_m: float, length_m: float, molar_mass: float, temperature_k: float
) -> float:
    """Pressure before a line that leaves what is wanted behind it."""
    friction = friction_factor(reynolds_number(mass_flow, bore_m, VISCOSITY_PA_S), DRAWN_TUBE / bore_m)

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
