"""Rules of ratings: what parts, lines, gauges and vessels bear against the highest pressure that can reach them."""

from __future__ import annotations

import functools
from collections.abc import Iterator

from macros.figures.lines import rating_path
from macros.network import How, Way
from macros.quantities import say
from macros.review.reliefs import lifts_at
from macros.review.reviewed import Look, Reading, Reviewed
from macros.review.rules import rule
from macros.review.ways import (
    beyond,
    carries,
    highest_at,
    line_ratings,
    lowest,
    part_of,
    tags_beyond,
    weakest,
    working_pressure,
)

PRACTICE = "common-practice"
CLOSE = (How.FREE, How.LIMITS)
GAUGES = ("pressure_gauge", "transmitter")
REGULATORS = ("pressure_regulator", "air_regulator")


@rule("section-within-ratings", PRACTICE, waivable=False)
def section_within_ratings(plant: Reviewed) -> Iterator[Look]:
    """The highest pressure of a section stays within the rating of its weakest part."""
    for name in plant.network.sections:
        if plant.has(path := f"safety.{name}.highest_pressure"):
            part = weakest(plant, name)
            yield plant.at_most(name, path, part, section=name, part=part_of(part))


@rule("line-within-ratings", "asme-b31-3", waivable=False)
def line_within_ratings(plant: Reviewed) -> Iterator[Look]:
    """A line's tube, at its thinnest wall, and its fittings bear the highest pressure of what the line joins."""
    for name, line in plant.network.lines.items():
        paths = list(line_ratings(plant, name))
        highest = highest_at(plant, {plant.piping.node[run.start] for run in line.runs})
        if paths and highest is not None:
            yield plant.at_most(name, highest, lowest(plant, paths), line=name)


@rule("stack-rated-above-relief", PRACTICE, waivable=False)
def stack_rated_above_relief(plant: Reviewed) -> Iterator[Look]:
    """The stack bears the highest pressure that the reliefs of its train let through, for as a compressor it knows no stall."""
    if plant.described.buffer is not None:
        yield plant.at_most("stack", "stack.relief_pressure", "stack.pressure_rating")


@rule("membrane-bears-difference", PRACTICE, waivable=False)
def membrane_bears_difference(plant: Reviewed) -> Iterator[Look]:
    """The membrane bears the highest difference of pressure between its sides."""
    if plant.described.buffer is not None:
        yield plant.at_most("stack", "stack.differential_highest", "stack.differential_allowed")


@rule("membrane-bears-higher-side", PRACTICE, waivable=False)
def membrane_bears_higher_side(plant: Reviewed) -> Iterator[Look]:
    """The side of the stack that stands at the higher pressure is one that its membrane is held up for."""
    if plant.described.buffer is not None:
        over = plant.reading("buffer.cut_out").si > plant.reading("stack.anode_pressure").si
        allowed = plant.described.stack.higher_side
        higher = "cathode" if over else "anode"
        yield plant.must("stack", allowed in (higher, "either"), reads=("stack.higher_side",), side=higher)


@rule("oxygen-side-within-rating", PRACTICE, waivable=False)
def oxygen_side_within_rating(plant: Reviewed) -> Iterator[Look]:
    """The oxygen side works within what the anode of the stack bears."""
    yield plant.at_most("stack", "stack.anode_pressure", "stack.anode_rating")


@rule("ruptured-membrane-within-oxygen-side", PRACTICE, waivable=False)
def ruptured_membrane_within_oxygen_side(plant: Reviewed) -> Iterator[Look]:
    """When a membrane ruptures, vents and reliefs proven against it keep the oxygen side within its weakest part."""
    for stack, _ in plant.items("stack"):
        for name, section in plant.network.sections.items():
            if section.medium == "oxygen":
                part = weakest(plant, name)
                yield plant.at_most(name, functools.partial(_ruptured, plant, stack), part, part=part_of(part))


def _ruptured(plant: Reviewed, stack: str) -> Reading:
    """
    What the vents and reliefs that always stand open to the oxygen of a stack leave of a ruptured membrane.

    What could only get out by pressing water away is not counted.
    """
    source = f"{stack}:ruptured"
    with_gas = beyond(
        plant, [(stack, "o2")],
        lambda way, _: way.through != stack and way.how in CLOSE and carries(plant, way, ("oxygen",)),
    )  # fmt: skip
    caps = plant.lineups.piping.pressures.caps
    found = [caps[tag][source] for tag, port in with_gas if port == "in" and source in caps.get(tag, {})]
    if not found:
        raise LookupError(say("review.nothing_caps", source=source))
    return plant.made(plant.reading("stack.anode_rating"), min(found))


@rule("regulator-lock-up-within-outlet", PRACTICE)
def regulator_lock_up_within_outlet(plant: Reviewed) -> Iterator[Look]:
    """A regulator that locks up stays within the rating of its outlet."""
    for tag, _ in plant.items(*REGULATORS):
        yield plant.at_most(
            tag, functools.partial(locked_up, plant, tag), f"items.{tag.lower()}.outlet_rating", tag=tag
        )


def locked_up(plant: Reviewed, tag: str) -> Reading:
    """Pressure behind a regulator when the flow has stopped."""
    at = f"items.{tag.lower()}"
    set_to, rise = plant.reading(f"{at}.set_pressure"), plant.reading(f"{at}.lock_up")
    return plant.made(set_to, set_to.si + rise.si, set_to, rise)


@rule("gauge-scale-holds-working-pressure", PRACTICE, severity="warn")
def gauge_scale_holds_working_pressure(plant: Reviewed) -> Iterator[Look]:
    """A gauge works in the lower three quarters of its scale."""
    for tag in _gauges(plant):
        service = functools.partial(working_pressure, plant, (tag, "tap"))
        end = functools.partial(plant.reading, f"items.{tag.lower()}.scale_end", _working_share(plant))
        yield plant.at_most(tag, service, end, tag=tag)


def _working_share(plant: Reviewed) -> float:
    return plant.reading("fact:gauge_working_share").si


@rule("gauge-scale-holds-highest-pressure", PRACTICE)
def gauge_scale_holds_highest_pressure(plant: Reviewed) -> Iterator[Look]:
    """The scale of a gauge reaches to the highest pressure of its section, a relief that blows included."""
    for tag in _gauges(plant):
        highest = highest_at(plant, [plant.piping.node[tag, "tap"]])
        if highest is not None:
            yield plant.at_most(tag, highest, f"items.{tag.lower()}.scale_end", tag=tag)


def _gauges(plant: Reviewed) -> list[str]:
    """Gauges, and transmitters of pressure."""
    return [
        tag for tag, item in plant.items(*GAUGES)
        if item.kind.name == "pressure_gauge" or item.settings.get("measures") == "pressure"
    ]  # fmt: skip


@rule("fill-within-working-pressure", "transport-of-gases", waivable=False)
def fill_within_working_pressure(plant: Reviewed) -> Iterator[Look]:
    """A bank is filled, settled at the reference temperature, to no more than the working pressure stamped on its cylinders."""
    for name in plant.described.banks:
        yield plant.at_most(name, f"banks.{name}.fill_pressure", f"banks.{name}.working_pressure", bank=name)


@rule("hot-cylinder-within-test-pressure", "transport-of-gases", waivable=False)
def hot_cylinder_within_test_pressure(plant: Reviewed) -> Iterator[Look]:
    """A transportable cylinder, developed at the temperature of the code, stays within its test pressure."""
    for name, bank in plant.described.banks.items():
        if bank.regime != "fixed":
            yield plant.at_most(name, f"banks.{name}.developed_pressure", f"banks.{name}.test_pressure", bank=name)


@rule("hottest-day-within-allowable-pressure", "ped-2014-68", waivable=False)
def hottest_day_within_allowable_pressure(plant: Reviewed) -> Iterator[Look]:
    """A bank of fixed vessels stays within its allowable pressure on the hottest day."""
    for name, bank in plant.described.banks.items():
        if bank.regime != "transportable":
            yield plant.at_most(name, f"banks.{name}.hot_pressure", f"banks.{name}.working_pressure", bank=name)


@rule("vehicle-rated-above-station", "sae-j2601", waivable=False)
def vehicle_rated_above_station(plant: Reviewed) -> Iterator[Look]:
    """The nominal pressure of a vehicle tank is at least the highest pressure that the station can bring."""
    for number, use in enumerate(plant.described.uses, start=1):
        if use.kind == "vehicle":
            brought = functools.partial(_brought, plant, use.tag)
            yield plant.at_most(use.tag, brought, f"uses.{number}.nominal_pressure", tag=use.tag)


def _brought(plant: Reviewed, tag: str) -> Reading:
    """The highest pressure of the section that leads to an item."""
    found = beyond(plant, [(tag, "in")], lambda way, _: way.how in (How.FREE, How.LIMITS) and way.through != tag)
    highest = highest_at(plant, {plant.piping.node[port] for port in found if port[0] != tag})
    if highest is None:
        raise LookupError(say("review.nothing_feeds", tag=tag))
    return highest()


@rule("purge-supply-within-ratings", PRACTICE, waivable=False)
def purge_supply_within_ratings(plant: Reviewed) -> Iterator[Look]:
    """A supply of nitrogen brings no more than the weakest part of what it purges bears, or a vent there passes it all."""
    for tag, _ in plant.items("purge_inlet"):
        for name in _purged(plant, tag):
            part = weakest(plant, name)
            brought = functools.partial(_supplied, plant, tag, name)
            yield plant.at_most(f"{tag} {name}", brought, part, tag=tag, section=name, part=part_of(part))


def _purged(plant: Reviewed, tag: str) -> list[str]:
    """The sections that an inlet leads into first."""
    node, sections = plant.piping.node, plant.network.sections
    held = {each for name in sections for each in plant.piping.nodes_of_section(name)}
    found = beyond(plant, [(tag, "out")], lambda way, against: not against and node[way.start] not in held)
    into = {node[port] for port in found} & held
    return [name for name in sections if plant.piping.nodes_of_section(name) & into]


def _supplied(plant: Reviewed, tag: str, section: str) -> Reading:
    supply = plant.reading(f"items.{tag.lower()}.supply_pressure")
    caps = plant.lineups.piping.pressures.caps
    nodes = plant.lineups.piping.nodes_of_section(section)
    passed = [
        caps[each][tag] for each, node in plant.lineups.piping.relief_nodes.items()
        if node in nodes and tag in caps.get(each, {})
    ]  # fmt: skip
    return plant.made(supply, min([supply.si, *passed]), supply)


@rule("leak-test-within-ratings", PRACTICE, waivable=False)
def leak_test_within_ratings(plant: Reviewed) -> Iterator[Look]:
    """The leak test stays within the weakest part of every section that it is read at."""
    for name in _leak_tested(plant):
        part = weakest(plant, name)
        yield plant.at_most(name, "safety.leak_test_pressure", part, section=name, part=part_of(part))


@rule("leak-test-below-relief", PRACTICE)
def leak_test_below_relief(plant: Reviewed) -> Iterator[Look]:
    """The leak test stays below what lifts a relief of the section, its tolerance taken off."""
    for name in _leak_tested(plant):
        section = plant.network.sections[name]
        for tag in section.relief or section.capped_by:
            lifts = functools.partial(lifts_at, plant, tag)
            yield plant.at_most(f"{name} {tag}", "safety.leak_test_pressure", lifts, section=name, tag=tag)


def _leak_tested(plant: Reviewed) -> list[str]:
    """Sections at whose gauges a procedure wants to read the pressure of the leak test."""
    file = plant.plant.description.procedures
    gauges = {
        reading.at for procedure in file.procedures.values() for step in procedure.steps for reading in step.reads
        if reading.wanted.startswith("{safety.leak_test_pressure}")
    }  # fmt: skip
    return [name for name, section in plant.network.sections.items() if gauges & set(section.items)]


@rule("pump-within-water-circuit", PRACTICE)
def pump_within_water_circuit(plant: Reviewed) -> Iterator[Look]:
    """Everything between a pump and the open reservoir bears what the pump makes against a shut outlet."""
    ends = {tag for tag, _ in plant.items("reservoir", "pump")}

    def onwards(way: Way, against: bool) -> bool:
        return not against and way.through not in ends and carries(plant, way, ("water",))

    for tag, _ in plant.items("pump"):
        ports = [
            port
            for port in beyond(plant, [(tag, "out")], onwards)
            if plant.network.items[port[0]].kind.name != "reservoir"
        ]
        paths = [path for port in sorted(ports) if (path := rating_path(plant.plant.description, port))]
        part = lowest(plant, paths)
        yield plant.at_most(tag, f"items.{tag.lower()}.highest_pressure", part, tag=tag, part=part_of(part))


@rule("hose-within-test-date", PRACTICE)
def hose_within_test_date(plant: Reviewed) -> Iterator[Look]:
    """A hose or breakaway that holds hydrogen has its test ahead of it, not behind."""
    for tag, item in plant.items("hose", "breakaway"):
        if plant.holds_hydrogen(tag):
            due = item.settings.get("tested")
            holds = None if due is None else due >= f"{plant.today:%Y-%m}"
            yield plant.must(tag, holds, reads=(f"items.{tag.lower()}.tested",), tag=tag, due=due or "")


@rule("flame-arrestor-before-burner", PRACTICE)
def flame_arrestor_before_burner(plant: Reviewed) -> Iterator[Look]:
    """A burner has a flame arrestor before it, and nothing leads round that."""
    arrestors = {tag for tag, _ in plant.items("flame_arrestor")}
    for tag, _ in plant.items("burner"):
        found = tags_beyond(plant, [(tag, "in")], lambda way, _: way.through not in arrestors)
        fed = any(plant.network.items[each].kind.name in ("pressure_regulator", "buffer", "bank") for each in found)
        yield plant.must(tag, bool(arrestors) and not fed, tag=tag)


@rule("flame-arrestor-stops-hydrogen", PRACTICE, waivable=False)
def flame_arrestor_stops_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """A flame arrestor is made for gas group IIC, for a hydrogen flame passes gaps that stop others."""
    for tag, item in plant.items("flame_arrestor"):
        group = item.settings.get("gas_group")
        holds = None if group is None else group == "iic"
        yield plant.must(tag, holds, reads=(f"items.{tag.lower()}.gas_group",), tag=tag, group=str(group))
