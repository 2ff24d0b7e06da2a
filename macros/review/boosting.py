"""Rules of the boosters and their drive air."""

from __future__ import annotations

import functools
from collections.abc import Iterator

from macros.description.plant import Booster
from macros.network import How, Way
from macros.quantities import say
from macros.review.reliefs import PROTECTING, fully_open
from macros.review.reviewed import CANNOT, Look, Reading, Reviewed
from macros.review.rules import rule
from macros.review.ways import beyond, part_of, tags_beyond, weakest

PRACTICE = "common-practice"


def numbered(plant: Reviewed) -> Iterator[tuple[str, Booster]]:
    """Every booster with the path at which it is described."""
    return ((f"boosters.{number}", each) for number, each in enumerate(plant.described.boosters, start=1))


@rule("stall-within-discharge-rating", PRACTICE, waivable=False)
def stall_within_discharge_rating(plant: Reviewed) -> Iterator[Look]:
    """A booster that stalls on the highest credible drive air stays within the rating of its discharge side."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.stall_pressure_highest", f"{at}.discharge_rating", tag=booster.tag)


@rule("stall-share", PRACTICE, severity="warn")
def stall_share(plant: Reviewed) -> Iterator[Look]:
    """A bank is filled at no more than the share of stall at which a booster still fills well."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.stall_share", "fact:stall_share_highest", tag=booster.tag)


@rule("booster-discharge-relieved", PRACTICE, waivable=False)
def booster_discharge_relieved(plant: Reviewed) -> Iterator[Look]:
    """Behind a booster a relief protects all parts, or all of them bear its stall on the highest credible drive air."""
    for at, booster in numbered(plant):
        section = plant.network.section_of(booster.tag)
        if section is None:
            yield plant.must(booster.tag, None, reason=say("review.in_no_section", tag=booster.tag))
        elif plant.network.sections[section].relief:
            reliefs = ", ".join(plant.network.sections[section].relief)
            yield plant.must(booster.tag, True, tag=booster.tag, found=say("review.relieved", reliefs=reliefs))
        else:
            part = weakest(plant, section)
            found = say("review.unrelieved", part=part_of(part))
            yield plant.at_most(booster.tag, f"{at}.stall_pressure_highest", part, tag=booster.tag, found=found)


@rule("booster-inlet-within-limit", PRACTICE, waivable=False)
def booster_inlet_within_limit(plant: Reviewed) -> Iterator[Look]:
    """What stands before a booster, at its highest credible pressure, stays within the inlet that its maker allows."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.supply_proof", f"{at}.inlet_highest", tag=booster.tag)


@rule("booster-drawn-above-atmosphere", PRACTICE)
def booster_drawn_above_atmosphere(plant: Reviewed) -> Iterator[Look]:
    """A booster never draws what it is fed from below a pressure that keeps air out."""
    for at, booster in numbered(plant):
        yield plant.at_least(booster.tag, f"{at}.supply_lowest", "fact:suction_lowest", tag=booster.tag)


@rule("booster-ratio-within-maker-limit", PRACTICE)
def booster_ratio_within_maker_limit(plant: Reviewed) -> Iterator[Look]:
    """The pressure ratio of a booster, from its lowest supply into the bank of the hottest day, is one that its maker allows."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.pressure_ratio_hot", f"{at}.ratio_allowed", tag=booster.tag)


@rule("booster-ratio-within-clearance-limit", "clearance-volume")
def booster_ratio_within_clearance_limit(plant: Reviewed) -> Iterator[Look]:
    """The pressure ratio of a booster stays below the one at which its clearance lets nothing through."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.pressure_ratio_hot", f"{at}.ratio_limit", tag=booster.tag)


@rule("booster-discharge-within-seals", PRACTICE)
def booster_discharge_within_seals(plant: Reviewed) -> Iterator[Look]:
    """The discharge of a booster, at its stated index on the hottest day, is no hotter than its seals bear."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.discharge_temperature", f"{at}.seal_temperature", tag=booster.tag)


@rule("booster-uncooled-within-seals", PRACTICE, severity="warn")
def booster_uncooled_within_seals(plant: Reviewed) -> Iterator[Look]:
    """The seals of a booster bear even the discharge of a stroke without any cooling, the bound."""
    for at, booster in numbered(plant):
        bound = f"{at}.discharge_temperature_isentropic"
        yield plant.at_most(booster.tag, bound, f"{at}.seal_temperature", tag=booster.tag)


@rule("seals-last-a-year", PRACTICE, severity="warn")
def seals_last_a_year(plant: Reviewed) -> Iterator[Look]:
    """The strokes of a year use up no more than one set of seals."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.strokes_per_year", f"{at}.seal_life", tag=booster.tag)


@rule("drive-side-bears-highest-air", PRACTICE, waivable=False)
def drive_side_bears_highest_air(plant: Reviewed) -> Iterator[Look]:
    """The drive side of a booster bears the highest drive air that a failed regulator lets through."""
    for at, booster in numbered(plant):
        yield plant.at_most(booster.tag, f"{at}.drive_pressure_highest", f"{at}.drive_rating", tag=booster.tag)


@rule("highest-drive-air-as-described", PRACTICE, waivable=False)
def highest_drive_air_as_described(plant: Reviewed) -> Iterator[Look]:
    """The drive air that a booster is proved for covers all that relief or compressor let through when the regulator fails."""
    for at, booster in numbered(plant):
        brought = functools.partial(drive_air_brought, plant, booster.tag)
        yield plant.at_most(booster.tag, brought, f"{at}.drive_pressure_highest", tag=booster.tag)


def drive_air_brought(plant: Reviewed, tag: str) -> Reading:
    """The highest drive air at a booster, its regulator failed: the reliefs' full opening, or what the compressor makes."""

    def upstream(way: Way, _: bool) -> bool:
        return way.how in (How.FREE, How.LIMITS, How.ONE_WAY, How.LOWERS)

    found = tags_beyond(plant, [(tag, "drive_air")], upstream)
    kinds = {each: plant.network.items[each].kind.name for each in found}
    reliefs = [fully_open(plant, each) for each in sorted(found) if kinds[each] in PROTECTING]
    makes = [plant.reading(f"items.{each.lower()}.highest_pressure") for each in found if kinds[each] == "compressor"]
    if not (reliefs or makes):
        raise LookupError(say("review.nothing_feeds", tag=tag))
    return min([*reliefs, *makes], key=lambda reading: reading.si)


@rule("compressor-cuts-in-above-drive", PRACTICE, severity="warn")
def compressor_cuts_in_above_drive(plant: Reviewed) -> Iterator[Look]:
    """The compressor starts before its air falls to the pressure that a booster is driven with."""
    if plant.described.compressor is not None:
        for at, booster in numbered(plant):
            yield plant.at_least(booster.tag, "compressor.cut_in", f"{at}.drive_pressure", tag=booster.tag)


@rule("compressor-duty-within-limit", PRACTICE)
def compressor_duty_within_limit(plant: Reviewed) -> Iterator[Look]:
    """The compressor runs no more of the time than its maker allows, on all that the stack makes and while a booster strokes."""
    if plant.described.compressor is not None:
        for path in ("compressor.duty", "compressor.duty_boosting"):
            if plant.has(path):
                yield plant.at_most(path, path, "compressor.duty_allowed")


@rule("drive-air-dry-enough", PRACTICE, severity="warn")
def drive_air_dry_enough(plant: Reviewed) -> Iterator[Look]:
    """The drive air is so dry that the exhaust of a booster does not freeze up on the coldest day."""
    if plant.described.compressor is not None and plant.described.boosters:
        yield plant.at_most("compressor", "compressor.dew_point", functools.partial(dry_below, plant))


def dry_below(plant: Reviewed) -> Reading:
    """The dew point at line pressure that keeps the exhaust free of ice."""
    coldest = plant.reading("site.coldest")
    return plant.made(coldest, coldest.si - plant.reading("fact:drive_air_margin").si, coldest)


@rule("bank-parted-by-two-means", PRACTICE, waivable=False)
def bank_parted_by_two_means(plant: Reviewed) -> Iterator[Look]:
    """Between a bank and its booster a non-return valve and a valve that fails shut stand against reverse flow, or the low side bears the bank."""
    for _, booster in numbered(plant):
        bank = plant.described.banks[booster.target].tag
        valves = {
            tag for tag, item in plant.items("actuated_valve") if item.settings.get("fail_position") == "closed"
        }  # fmt: skip
        one = _flows_back(plant, bank, booster.tag, frozenset(), non_return=True)
        other = _flows_back(plant, bank, booster.tag, frozenset(valves), non_return=False)
        holds = not (one or other) or _bears(plant, booster)
        lacks = [
            say(key) for key, open_ in (("review.no_non_return", one), ("review.no_shut_off", other)) if open_
        ]  # fmt: skip
        found = ", ".join(lacks) or say("review.both_stand")
        yield plant.must(booster.tag, holds, tag=booster.tag, bank=booster.target, found=found)


def _flows_back(plant: Reviewed, bank: str, booster: str, shut: frozenset[str], *, non_return: bool) -> bool:
    """Whether gas comes from a bank back to a booster, some valves shut, the non-return valves holding or not."""

    def crosses(way: Way, against: bool) -> bool:
        if way.through in shut:
            return False
        return way.how in (How.FREE, How.LIMITS) or (way.how is How.ONE_WAY and not (non_return and against))

    ports = [(bank, port) for port in plant.network.items[bank].kind.ports]
    return (booster, "out") in beyond(plant, ports, crosses)


def _bears(plant: Reviewed, booster: Booster) -> bool:
    """Whether all that stands with what a booster draws from bears the bank that it fills, on the hottest day."""
    if booster.supply == "buffer":
        tag = plant.described.buffer.tag if plant.described.buffer is not None else None
    else:
        tag = plant.described.banks[booster.supply].tag
    section = plant.network.section_of(tag) if tag is not None else None
    if section is None:
        return False
    try:
        bears = plant.reading(weakest(plant, section)).si
        return bears >= plant.reading(f"banks.{booster.target}.hot_pressure").si
    except CANNOT:
        return False


@rule("booster-exhaust-led-outdoors", PRACTICE)
def booster_exhaust_led_outdoors(plant: Reviewed) -> Iterator[Look]:
    """The exhaust of a booster, very cold and perhaps with gas in it, is led outdoors by a vent of its own."""
    vents = dict(plant.items("vent"))
    for _, booster in numbered(plant):
        node = plant.piping.node[booster.tag, "exhaust"]
        ends = [vent for tag, vent in vents.items() if plant.piping.node[tag, "in"] == node]
        holds = bool(ends) and all(vent.settings.get("leads_to") == "outdoors" for vent in ends)
        yield plant.must(booster.tag, holds, tag=booster.tag)


@rule("dust-filter-before-booster", PRACTICE)
def dust_filter_before_booster(plant: Reviewed) -> Iterator[Look]:
    """Between the desiccant and a booster a filter holds back the dust that would wear its seals."""
    filters = {tag for tag, _ in plant.items("filter")}
    columns = {tag for tag, _ in plant.items("desiccant_column")}

    def upstream(way: Way, against: bool) -> bool:
        if way.through in filters:
            return False
        return way.how in (How.FREE, How.LIMITS) or (way.how is How.ONE_WAY and against)

    for _, booster in numbered(plant):
        found = tags_beyond(plant, [(booster.tag, "in")], upstream)
        yield plant.must(booster.tag, not columns & found, tag=booster.tag)
