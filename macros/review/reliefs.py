"""Rules of reliefs, burst discs, excess-flow valves, and of the order of settings below them."""

from __future__ import annotations

import functools
from collections.abc import Iterator

from macros.calculations.relief import relieving_pressure
from macros.figures.graph import ATMOSPHERE
from macros.network import How
from macros.quantities import say
from macros.review.reviewed import Look, Reading, Reviewed
from macros.review.rules import rule
from macros.review.ways import bore_of, part_of, tags_beyond, weakest, working_pressure

PRACTICE = "common-practice"
PROTECTING = ("relief_valve", "burst_disc")


def protected(plant: Reviewed, tag: str) -> list[str]:
    """The sections that a relief protects, by their own word."""
    return [name for name, each in plant.network.sections.items() if tag in (*each.relief, *each.capped_by)]


def lifts_at(plant: Reviewed, tag: str) -> Reading:
    """The lowest pressure at which a relief may lift: set pressure less tolerance, of what a gauge shows."""
    tolerance = plant.reading(f"items.{tag.lower()}.tolerance")
    return plant.reading(f"items.{tag.lower()}.set_pressure", 1.0 - tolerance.si)


def fully_open(plant: Reviewed, tag: str) -> Reading:
    """The highest pressure at which a relief is fully open: set pressure, tolerance and accumulation."""
    at = f"items.{tag.lower()}"
    set_to = plant.reading(f"{at}.set_pressure")
    shares = [plant.reading(path) for key in ("accumulation", "tolerance") if plant.has(path := f"{at}.{key}")]
    atmosphere_pa = plant.reading(ATMOSPHERE).si
    si = relieving_pressure(set_to.si, atmosphere_pa, *(share.si for share in shares))
    return plant.made(set_to, si, set_to, *shares)


@rule("relief-set-below-weakest-part", PRACTICE, waivable=False)
def relief_set_below_weakest_part(plant: Reviewed) -> Iterator[Look]:
    """A relief opens at or below the rating of every part that it protects."""
    for tag, _ in plant.items(*PROTECTING):
        sections = protected(plant, tag)
        if not sections:
            yield plant.must(tag, None, reason=say("review.protects_nothing", tag=tag), tag=tag)
            continue
        part = weakest(plant, *sections)
        yield plant.at_most(tag, f"items.{tag.lower()}.set_pressure", part, tag=tag, part=part_of(part))


@rule("relief-open-within-weakest-part", PRACTICE, waivable=False)
def relief_open_within_weakest_part(plant: Reviewed) -> Iterator[Look]:
    """A relief, its tolerance and accumulation added, is fully open within the rating of every part that it protects."""
    for tag, _ in plant.items(*PROTECTING):
        if sections := protected(plant, tag):
            part = weakest(plant, *sections)
            opened = functools.partial(fully_open, plant, tag)
            yield plant.at_most(tag, opened, part, tag=tag, part=part_of(part))


@rule("relief-passes-largest-source", "api-520", waivable=False)
def relief_passes_largest_source(plant: Reviewed) -> Iterator[Look]:
    """A relief passes the largest source that can fill what it protects."""
    for tag, _ in plant.items(*PROTECTING):
        at = f"safety.relief.{tag.lower()}"
        yield plant.at_most(tag, f"{at}.largest_source", f"{at}.capacity", tag=tag)


@rule("relief-reseats-above-working-pressure", PRACTICE, severity="warn")
def relief_reseats_above_working_pressure(plant: Reviewed) -> Iterator[Look]:
    """A relief that has blown shuts again above the pressure of service."""
    for tag, _ in plant.items("relief_valve"):
        if _works_open(plant, tag):
            continue
        shuts = functools.partial(reseated, plant, tag)
        yield plant.at_least(tag, shuts, functools.partial(working_pressure, plant, (tag, "in")), tag=tag)


def _works_open(plant: Reviewed, tag: str) -> bool:
    """Whether what a relief protects stands open to a vent in service, and so has no pressure to shut above."""
    return all(plant.network.sections[name].medium == "oxygen" for name in protected(plant, tag))


def reseated(plant: Reviewed, tag: str) -> Reading:
    share = plant.reading(f"items.{tag.lower()}.reseat")
    return plant.reading(f"items.{tag.lower()}.set_pressure", share.si)


@rule("burst-disc-above-working-pressure", PRACTICE)
def burst_disc_above_working_pressure(plant: Reviewed) -> Iterator[Look]:
    """Service stays at the share of a burst disc's lowest burst pressure at which the disc does not tire."""
    for tag, _ in plant.items("burst_disc"):
        service = functools.partial(working_pressure, plant, (tag, "in"))
        yield plant.at_most(tag, service, functools.partial(untired, plant, tag), tag=tag)


def untired(plant: Reviewed, tag: str) -> Reading:
    tolerance, share = plant.reading(f"items.{tag.lower()}.tolerance"), plant.reading("fact:disc_working_share")
    return plant.reading(f"items.{tag.lower()}.set_pressure", share.si * (1.0 - tolerance.si))


@rule("cut-in-below-cut-out", PRACTICE)
def cut_in_below_cut_out(plant: Reviewed) -> Iterator[Look]:
    """The switch of the buffer has room between cut-in and cut-out."""
    if (buffer := plant.described.buffer) is not None:
        apart = _share(plant, "fact:setting_gap")
        yield plant.at_most(buffer.tag, "buffer.cut_in", functools.partial(plant.reading, "buffer.cut_out", apart))


@rule("cut-out-below-high-trip", PRACTICE)
def cut_out_below_high_trip(plant: Reviewed) -> Iterator[Look]:
    """The switch of the buffer cuts out below the high-pressure trip, with room for what both are off by."""
    if (buffer := plant.described.buffer) is not None:
        apart = _share(plant, "fact:setting_gap")
        yield plant.at_most(buffer.tag, "buffer.cut_out", functools.partial(plant.reading, "buffer.high_trip", apart))


def _share(plant: Reviewed, gap: str) -> float:
    return 1.0 - plant.reading(gap).si


@rule("high-trip-below-relief", PRACTICE, waivable=False)
def high_trip_below_relief(plant: Reviewed) -> Iterator[Look]:
    """The high-pressure trip acts before any relief of the stack's train and buffer may lift, its tolerance taken off."""
    if plant.described.buffer is None:
        return
    stacks = {tag for tag, _ in plant.items("stack")} | {plant.described.buffer.tag}
    tags = [tag for each in plant.network.sections.values() if stacks & set(each.items) for tag in each.relief]
    for tag in dict.fromkeys([*tags, plant.described.buffer.relief]):
        yield plant.at_most(tag, "buffer.high_trip", functools.partial(lifts_at, plant, tag), tag=tag)


@rule("relief-lines-wide-enough", PRACTICE)
def relief_lines_wide_enough(plant: Reviewed) -> Iterator[Look]:
    """Every line to and from a relief is at least as wide as its orifice."""
    for tag, _ in plant.items(*PROTECTING):
        for name, line in plant.network.lines.items():
            if any(stop.tag == tag for stop in line.stops):
                bore = functools.partial(bore_of, plant, name)
                yield plant.at_least(f"{tag} {name}", bore, f"items.{tag.lower()}.orifice_bore", tag=tag, line=name)


@rule("no-flame-arrestor-on-relief-line", PRACTICE)
def no_flame_arrestor_on_relief_line(plant: Reviewed) -> Iterator[Look]:
    """No flame arrestor stands before or behind a relief, where it would choke what must get out."""
    arrestors = {tag for tag, _ in plant.items("flame_arrestor")}
    for tag, _ in plant.items(*PROTECTING):
        on_line = {
            stop.tag for line in plant.network.lines.values() for stop in line.stops
            if any(each.tag == tag for each in line.stops)
        }  # fmt: skip
        behind = tags_beyond(plant, [(tag, "out")], lambda way, against: not against and way.how is How.FREE)
        yield plant.must(tag, not (arrestors & (on_line | behind)), tag=tag)


@rule("relief-led-outdoors", PRACTICE, waivable=False)
def relief_led_outdoors(plant: Reviewed) -> Iterator[Look]:
    """A relief of hydrogen or oxygen blows into a vent of its gas that leads outdoors."""
    vents = dict(plant.items("vent"))
    for tag, _ in plant.items(*PROTECTING):
        media = {plant.network.sections[name].medium for name in protected(plant, tag)}
        if media and media <= {"air", "nitrogen"}:
            continue
        node = plant.piping.node[tag, "out"]
        ends = [vent for each, vent in vents.items() if plant.piping.node[each, "in"] == node]
        holds = bool(ends) and all(vent.settings.get("leads_to") == "outdoors" for vent in ends)
        yield plant.must(tag, holds, tag=tag)


@rule("excess-flow-valve-shuts-on-torn-hose", PRACTICE)
def excess_flow_valve_shuts_on_torn_hose(plant: Reviewed) -> Iterator[Look]:
    """An excess-flow valve before a hose shuts at no more than the hose lets out when it is torn off."""
    hoses = {tag for tag, _ in plant.items("hose")}
    for tag, _ in plant.items("excess_flow_valve"):
        onwards = tags_beyond(plant, [(tag, "out")], lambda way, against: not against and way.how is How.FREE)
        for hose in sorted(hoses & onwards):
            torn = f"safety.hose.{hose.lower()}.rupture_flow"
            yield plant.at_most(f"{tag} {hose}", f"items.{tag.lower()}.closing_flow", torn, tag=tag, hose=hose)


@rule("excess-flow-valve-passes-use", PRACTICE, severity="warn")
def excess_flow_valve_passes_use(plant: Reviewed) -> Iterator[Look]:
    """An excess-flow valve passes what the use behind it draws without shutting."""
    for tag, _ in plant.items("excess_flow_valve"):
        onwards = tags_beyond(plant, [(tag, "out")], lambda _, against: not against)
        for number, use in enumerate(plant.described.uses, start=1):
            if use.tag in onwards and use.kind != "vehicle":
                drawn = f"uses.{number}.hydrogen_flow"
                yield plant.at_least(
                    f"{tag} {use.tag}", f"items.{tag.lower()}.closing_flow", drawn, tag=tag, use=use.tag
                )
