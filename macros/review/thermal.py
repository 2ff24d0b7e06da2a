"""Rules of heat, water and frost."""

from __future__ import annotations

from collections.abc import Iterator

from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule

WATERY = frozenset(("pump", "cooler", "deioniser", "reservoir", "stack", "degassing_pot", "separator", "coalescer"))


@rule("cooling-holds-on-hottest-day", "ntu-method")
def cooling_holds_on_hottest_day(plant: Reviewed) -> Iterator[Look]:
    """On the hottest day the cooler takes the heat of the stack."""
    yield plant.at_least("water.cooling_capacity", "water.cooling_capacity", "stack.heat")


@rule("cooling-has-margin", "common-practice", severity="warn")
def cooling_has_margin(plant: Reviewed) -> Iterator[Look]:
    """On the hottest day some cooling is left, for scale, dust and an older stack."""
    yield plant.at_least("water.cooling_margin", "water.cooling_margin", "fact:cooling_margin_lowest")


@rule("temperature-trip-above-operating", "common-practice")
def temperature_trip_above_operating(plant: Reviewed) -> Iterator[Look]:
    """The stack runs below the temperature at which it trips."""
    yield plant.at_most("stack.temperature", "stack.temperature", "stack.temperature_trip")


@rule("temperature-trip-below-membrane-limit", "common-practice")
def temperature_trip_below_membrane_limit(plant: Reviewed) -> Iterator[Look]:
    """The stack trips before its membrane creeps."""
    yield plant.at_most("stack.temperature_trip", "stack.temperature_trip", "fact:stack_temperature_highest")


@rule("deioniser-below-its-limit", "common-practice")
def deioniser_below_its_limit(plant: Reviewed) -> Iterator[Look]:
    """The water never reaches the resin hotter than it bears, with the cooler idle too."""
    yield plant.at_most("water.deioniser", "stack.temperature", "water.deioniser.temperature_limit")


@rule("deioniser-limit-as-resin-bears", "common-practice")
def deioniser_limit_as_resin_bears(plant: Reviewed) -> Iterator[Look]:
    """The limit described for the deioniser is no higher than anion resin bears for long."""
    yield plant.at_most("water.deioniser", "water.deioniser.temperature_limit", "fact:anion_resin_temperature")


@rule("deioniser-lasts", "mixed-bed-note", severity="warn")
def deioniser_lasts(plant: Reviewed) -> Iterator[Look]:
    """The deioniser lasts long enough to be changed as planned, not by surprise."""
    yield plant.at_least("water.deioniser", "water.deioniser_life", "fact:deioniser_life_shortest")


@rule("water-rise-over-stack-small", "common-practice", severity="warn")
def water_rise_over_stack_small(plant: Reviewed) -> Iterator[Look]:
    """The pump moves enough water to keep the stack at one temperature."""
    yield plant.at_most("water.flow", "water.temperature_rise", "fact:water_rise_highest")


@rule("preheat-in-time", "common-practice", severity="warn")
def preheat_in_time(plant: Reviewed) -> Iterator[Look]:
    """The heater warms the stack on the coldest day before the sun is wasted."""
    yield plant.at_most("stack.heater", "stack.preheat_time", "fact:preheat_longest")


@rule("water-kept-from-frost", "common-practice")
def water_kept_from_frost(plant: Reviewed) -> Iterator[Look]:
    """What holds water stands indoors where the coldest day freezes."""
    for tag, item in plant.network.items.items():
        if item.kind.name in WATERY:
            room = plant.described.rooms.get(item.room or "")
            look = plant.at_least(tag, "site.coldest", "fact:freezing", tag=tag, title=item.title)
            if look.verdict == "broken":
                kept = None if room is None else not room.outdoors
                look = plant.must(
                    tag,
                    kept,
                    reads=look.reads,
                    tag=tag,
                    title=item.title,
                    value=look.words["value"],
                    limit=look.words["limit"],
                )
            yield look


@rule("water-lasts-a-day", "common-practice", severity="warn")
def water_lasts_a_day(plant: Reviewed) -> Iterator[Look]:
    """The usable water lasts a long day of running."""
    yield plant.at_least("water.usable", "water.top_up_interval", "fact:top_up_shortest")


@rule("reservoir-holds-usable-water", "common-practice")
def reservoir_holds_usable_water(plant: Reviewed) -> Iterator[Look]:
    """The reservoir holds more than the water that is used between two fillings."""
    yield plant.at_most("water.reservoir", "water.usable", "water.reservoir")


@rule("loop-water-pure", "iso-3696", "grade 2", severity="warn")
def loop_water_pure(plant: Reviewed) -> Iterator[Look]:
    """The loop alarms before its water conducts more than water of grade 2."""
    yield plant.at_most("water.loop_conductivity_alarm", "water.loop_conductivity_alarm", "fact:water_grade_2")


@rule("feed-water-pure", "iso-3696", "grade 3", severity="warn")
def feed_water_pure(plant: Reviewed) -> Iterator[Look]:
    """Only water of grade 3 or better is filled in."""
    yield plant.at_most("water.feed_conductivity", "water.feed_conductivity", "fact:water_grade_3")
