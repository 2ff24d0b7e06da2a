"""Rules of the gas: hydrogen in the oxygen, water in the hydrogen, and what returns from the gas side."""

from __future__ import annotations

from collections.abc import Iterator

from macros.description.item_kinds import HYDROGEN
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule
from macros.review.tracing import is_kind, is_not_kind, ports_reached, reached

HARMED_BY_DUST = frozenset(("booster", "bank", "buffer", "vehicle_tank", "burner", "fuel_cell"))
ENDS = ("stack", "reservoir", "separator", "coalescer", "degassing_pot", "desiccant_column", "buffer", "bank", "pump")
"""Where the nitrogen that sweeps a side stops: behind them it would be mixed with what they hold."""


@rule("hydrogen-in-oxygen-below-alarm", "common-practice", waivable=False)
def hydrogen_in_oxygen_below_alarm(plant: Reviewed) -> Iterator[Look]:
    """At operating current the hydrogen in the oxygen stays below its alarm, at cut-out and at relief pressure."""
    for path in ("stack.hydrogen_in_oxygen", "stack.hydrogen_in_oxygen_relief"):
        yield plant.at_most(path, path, "stack.hydrogen_in_oxygen_alarm")


@rule("hydrogen-in-oxygen-limits-as-usual", "common-practice", waivable=False)
def hydrogen_in_oxygen_limits_as_usual(plant: Reviewed) -> Iterator[Look]:
    """Alarm and trip for hydrogen in oxygen are set no higher than is usual, the trip at half of the lower limit."""
    for name in ("hydrogen_in_oxygen_alarm", "hydrogen_in_oxygen_trip"):
        yield plant.at_most(f"stack.{name}", f"stack.{name}", f"fact:{name}")


@rule("hydrogen-in-oxygen-alarm-below-trip", "common-practice")
def hydrogen_in_oxygen_alarm_below_trip(plant: Reviewed) -> Iterator[Look]:
    """The alarm for hydrogen in oxygen stands below the trip, so that somebody hears of it first."""
    alarm, trip = "stack.hydrogen_in_oxygen_alarm", "stack.hydrogen_in_oxygen_trip"
    yield plant.at_most(alarm, alarm, trip, times=0.75)


@rule("catalyst-dead-below-lower-limit", "common-practice", waivable=False)
def catalyst_dead_below_lower_limit(plant: Reviewed) -> Iterator[Look]:
    """With the catalyst dead and the pressure at the relief, the oxygen still does not burn."""
    for path in ("stack.hydrogen_in_oxygen_catalyst_dead", "stack.hydrogen_in_oxygen_catalyst_dead_relief"):
        yield plant.at_most(path, path, "fact:lower_flammable_limit")


@rule("catalyst-dead-below-trip", "common-practice", severity="warn")
def catalyst_dead_below_trip(plant: Reviewed) -> Iterator[Look]:
    """With the catalyst dead the stack runs on to cut-out before the trip for hydrogen in oxygen stops it."""
    path = "stack.hydrogen_in_oxygen_catalyst_dead"
    yield plant.at_most(path, path, "stack.hydrogen_in_oxygen_trip")


@rule("minimum-current-below-operating", "common-practice", waivable=False)
def minimum_current_below_operating(plant: Reviewed) -> Iterator[Look]:
    """The least current that keeps hydrogen in oxygen below alarm and below trip lies below the operating current."""
    for path in ("stack.minimum_current_alarm", "stack.minimum_current_trip"):
        yield plant.at_most(path, path, "stack.current")


@rule("oxygen-space-safe-after-a-stop", "common-practice", waivable=False)
def oxygen_space_safe_after_a_stop(plant: Reviewed) -> Iterator[Look]:
    """After a stop the oxygen space stays below the trip: it is let down fast enough, or swept with enough nitrogen."""
    for stack, _ in plant.items("stack"):
        flushes = [tag for tag, _ in plant.items("purge_inlet") if _sweeps(plant, tag, stack)]
        for tag in flushes:
            yield plant.at_least(tag, f"items.{tag.lower()}.supply_flow", "stack.sweep_flow_minimum_relief")
        if not flushes:
            yield plant.at_most(stack, "stack.hydrogen_after_let_down_relief", "stack.hydrogen_in_oxygen_trip")


@rule("flush-opens-by-itself", "common-practice", waivable=False)
def flush_opens_by_itself(plant: Reviewed) -> Iterator[Look]:
    """The nitrogen that sweeps the oxygen side is let in by a valve that opens when its drive is lost."""
    for stack, _ in plant.items("stack"):
        for tag, _ in plant.items("purge_inlet"):
            if _sweeps(plant, tag, stack):
                way = reached(plant.network, tag, through=is_not_kind(*ENDS))
                valves = [each for each, _ in plant.items("actuated_valve") if each in way]
                opens = [each for each in valves if plant.network.items[each].settings.get("fail_position") == "open"]
                yield plant.must(tag, bool(valves) and opens == valves, tag=tag)


def _sweeps(plant: Reviewed, inlet: str, stack: str) -> bool:
    """Whether nitrogen from an inlet comes to the oxygen side of the stack without passing a vessel or machine."""
    found = ports_reached(plant.network, inlet, through=is_not_kind(*ENDS))
    return bool(found & {(stack, "water_in"), (stack, "o2")})


@rule("drains-return-through-degassing-pot", "common-practice", waivable=False)
def drains_return_through_degassing_pot(plant: Reviewed) -> Iterator[Look]:
    """A drain of the gas side comes back to the water only through a degassing pot."""
    for tag, _ in plant.items("drain"):
        section = plant.network.sections.get(plant.network.section_of(tag) or "")
        if section is None or section.medium in HYDROGEN:
            found = reached(plant.network, tag, through=is_not_kind("degassing_pot"))
            kinds = {plant.network.items[each].kind.name for each in found}
            yield plant.must(tag, not kinds & {"reservoir", "pump", "stack"}, tag=tag)


@rule("degassing-pot-open-to-its-vent", "common-practice", waivable=False)
def degassing_pot_open_to_its_vent(plant: Reviewed) -> Iterator[Look]:
    """A degassing pot stands open to a hydrogen vent outdoors, with nothing between that shuts."""
    for tag, _ in plant.items("degassing_pot"):
        found = reached(plant.network, tag, through=is_kind("junction"))
        vents = [plant.network.items[each].settings for each, _ in plant.items("vent") if each in found]
        yield plant.must(
            tag, any(vent["leads_to"] == "outdoors" and vent["medium"] in HYDROGEN for vent in vents), tag=tag
        )


@rule("degassing-vent-passes-blow-by", "common-practice", waivable=False)
def degassing_vent_passes_blow_by(plant: Reviewed) -> Iterator[Look]:
    """The vent of a degassing pot passes what a drain lets through that stays open, before the water seal gives way."""
    for pot, _ in plant.items("degassing_pot"):
        found = reached(plant.network, pot, through=is_kind("junction"))
        for tag, _ in plant.items("vent"):
            if tag in found:
                yield plant.at_most(tag, "water.drain_blow_by_relief", f"safety.vent.{tag.lower()}.capacity", tag=tag)


@rule("degassing-pot-level-guarded", "common-practice")
def degassing_pot_level_guarded(plant: Reviewed) -> Iterator[Look]:
    """The level of a degassing pot is watched, so that no gas blows through its seal and no water shuts its vent."""
    for tag, _ in plant.items("degassing_pot"):
        found = reached(plant.network, tag, through=is_kind("junction"))
        sensors = [item for each, item in plant.items("transmitter") if each in found]
        yield plant.must(tag, any(item.settings.get("measures") == "level" for item in sensors), tag=tag)


@rule("undegassed-drains-below-trip", "common-practice")
def undegassed_drains_below_trip(plant: Reviewed) -> Iterator[Look]:
    """If the degassing pot frees nothing of what the drained water holds, the oxygen still stays below the trip."""
    if plant.described.water.drains_return == "waste":
        return
    for ending in ("", "_relief"):
        oxygen, returned = f"stack.hydrogen_in_oxygen{ending}", f"water.hydrogen_returned_share_undegassed{ending}"
        yield plant.at_most(returned, (oxygen, returned), "stack.hydrogen_in_oxygen_trip")


@rule("separators-have-a-drain", "common-practice")
def separators_have_a_drain(plant: Reviewed) -> Iterator[Look]:
    """What gathers water has a drain at its bottom."""
    for tag, item in plant.items("separator", "coalescer"):
        if plant.holds_hydrogen(tag):
            found = reached(plant.network, tag, "bottom", through=is_kind("junction", "hand_valve", "filter"))
            yield plant.must(tag, any(each in found for each, _ in plant.items("drain")), tag=tag, title=item.title)


@rule("dew-point-below-coldest-day", "common-practice")
def dew_point_below_coldest_day(plant: Reviewed) -> Iterator[Look]:
    """The treated gas is drier than the coldest day asks, so that nothing freezes in valves, reliefs and buffer."""
    for path in ("drying.dew_point", "drying.dew_point_cut_out"):
        yield plant.at_most(path, path, "site.coldest")


@rule("gas-dry-enough-for-fuel-cell", "iso-14687", "grade D", severity="warn")
def gas_dry_enough_for_fuel_cell(plant: Reviewed) -> Iterator[Look]:
    """Gas for a fuel cell holds no more water than its grade allows, at cut-in too."""
    for use in plant.described.uses:
        if use.kind == "fuel_cell":
            yield plant.at_most(use.tag, "drying.water_fraction", "fact:purity_water", tag=use.tag)


@rule("cold-coil-does-not-freeze", "common-practice")
def cold_coil_does_not_freeze(plant: Reviewed) -> Iterator[Look]:
    """A coil below freezing meets only gas whose dew point lies below the coil: wet gas there is an ice plug."""
    for number, stage in enumerate(plant.described.drying, start=1):
        if stage.kind != "cold_coil":
            continue
        coolant = f"drying.{number}.coolant_temperature"
        look = plant.at_least(stage.tag, coolant, "fact:freezing", tag=stage.tag)
        if look.verdict == "broken":
            before = f"drying.{number - 1}.outlet_dew_point_cut_out" if number > 1 else "stack.temperature"
            dry = plant.at_most(stage.tag, before, coolant, tag=stage.tag)
            look = dry if dry.verdict != "broken" else look
        yield look


@rule("desiccant-lasts-a-day", "common-practice", severity="warn")
def desiccant_lasts_a_day(plant: Reviewed) -> Iterator[Look]:
    """A desiccant bed lasts a good day of running before it must be regenerated."""
    for stage in plant.described.drying:
        if stage.kind == "desiccant":
            limit = "fact:desiccant_interval_shortest"
            yield plant.at_least(stage.tag, "drying.desiccant_interval", limit, tag=stage.tag)


@rule("desiccant-regenerated-hot-enough", "common-practice", severity="warn")
def desiccant_regenerated_hot_enough(plant: Reviewed) -> Iterator[Look]:
    """Silica gel is regenerated hot enough to give its water off."""
    for number, stage in enumerate(plant.described.drying, start=1):
        if stage.kind == "desiccant":
            path = f"drying.{number}.regeneration_temperature"
            yield plant.at_least(stage.tag, path, "fact:regeneration_lowest", tag=stage.tag)


@rule("desiccant-not-burnt", "common-practice", severity="warn")
def desiccant_not_burnt(plant: Reviewed) -> Iterator[Look]:
    """Silica gel with an organic indicator is not heated beyond what the indicator bears."""
    for number, stage in enumerate(plant.described.drying, start=1):
        if stage.kind == "desiccant":
            path = f"drying.{number}.regeneration_temperature"
            yield plant.at_most(stage.tag, path, "fact:regeneration_highest", tag=stage.tag)


@rule("regenerated-bed-dry-enough-for-fuel-cell", "wang-levan-2009", "isotherm of silica gel", severity="warn")
def regenerated_bed_dry_enough_for_fuel_cell(plant: Reviewed) -> Iterator[Look]:
    """For a fuel cell, the water that regeneration leaves in the bed lies below what already spoils the gas."""
    if not any(use.kind == "fuel_cell" for use in plant.described.uses):
        return
    for number, stage in enumerate(plant.described.drying, start=1):
        if stage.kind == "desiccant":
            path = f"drying.{number}.residual_loading"
            yield plant.at_most(stage.tag, path, "fact:silica_gel_bound", tag=stage.tag)


@rule("dust-filter-after-desiccant", "common-practice")
def dust_filter_after_desiccant(plant: Reviewed) -> Iterator[Look]:
    """Behind a desiccant a filter keeps its dust from seals, seats and stores."""
    for tag, _ in plant.items("desiccant_column"):
        found = reached(plant.network, tag, through=is_not_kind("filter"))
        kinds = {plant.network.items[each].kind.name for each in found}
        yield plant.must(tag, not kinds & HARMED_BY_DUST, tag=tag)


@rule("oxygen-side-open-to-its-vent", "common-practice", waivable=False)
def oxygen_side_open_to_its_vent(plant: Reviewed) -> Iterator[Look]:
    """From the stack to the mouth of the oxygen vent outdoors nothing stands that can be shut."""
    for tag, _ in plant.items("stack"):
        found = reached(plant.network, tag, "o2", through=is_kind("junction", "reservoir", "separator"))
        vents = [plant.network.items[each].settings for each, _ in plant.items("vent") if each in found]
        yield plant.must(
            tag, any(vent["leads_to"] == "outdoors" and vent["medium"] == "oxygen" for vent in vents), tag=tag
        )


@rule("oxygen-vent-as-wide-as-described", "common-practice")
def oxygen_vent_as_wide_as_described(plant: Reviewed) -> Iterator[Look]:
    """The oxygen vent is nowhere narrower than the bore for which its speed was figured."""
    for stack, _ in plant.items("stack"):
        found = reached(plant.network, stack, "o2", through=is_kind("junction", "reservoir", "separator"))
        for tag, _ in plant.items("vent"):
            if tag in found:
                yield plant.at_least(tag, f"items.{tag.lower()}.bore", "water.vent_bore", tag=tag)


@rule("oxygen-vent-slow", "common-practice", severity="warn")
def oxygen_vent_slow(plant: Reviewed) -> Iterator[Look]:
    """Oxygen rises slowly in its vent, so that drops fall back and no pressure builds up before it."""
    yield plant.at_most("oxygen.vent_velocity", "oxygen.vent_velocity", "fact:oxygen_vent_velocity")
