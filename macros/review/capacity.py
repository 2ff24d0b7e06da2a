"""Rules of capacity: whether what is made, stored and drawn fits together, and whether the vessels outlive it."""

from __future__ import annotations

from collections.abc import Iterator

from macros.network import Way
from macros.network.network import Item
from macros.quantities import read
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule
from macros.review.ways import BOTH_WAYS, IN_SERVICE, tags_beyond

ALL = read("100 %", "fraction")


@rule("buffer-outlives-its-cycles", "common-practice")
def buffer_outlives_its_cycles(plant: Reviewed) -> Iterator[Look]:
    """The pressure cycles that the buffer is made for last for many years of running."""
    if plant.described.buffer is not None:
        yield plant.at_least(plant.described.buffer.tag, "buffer.cycle_life_time", "fact:buffer_life_shortest")


@rule("buffer-large-enough", "common-practice", severity="warn")
def buffer_large_enough(plant: Reviewed) -> Iterator[Look]:
    """The buffer is large enough that its switch does not flutter."""
    if plant.described.buffer is not None:
        yield plant.at_least(plant.described.buffer.tag, "buffer.fill_time", "fact:buffer_fill_shortest")


@rule("day-fits-into-banks", "common-practice", severity="warn")
def day_fits_into_banks(plant: Reviewed) -> Iterator[Look]:
    """What a usual day makes fits into the banks."""
    banks = tuple(f"banks.{name}.mass_to_fill" for name in plant.described.banks)
    if banks:
        yield plant.at_most("plant.daily_mass", "plant.daily_mass", banks)


@rule("bank-fills-to-its-pressure", "common-practice")
def bank_fills_to_its_pressure(plant: Reviewed) -> Iterator[Look]:
    """A bank that a booster fills comes to its fill pressure: the booster does not stall before."""
    for name, bank in plant.described.banks.items():
        path = f"banks.{name}.fill_outcome"
        if plant.has(path):
            outcome = plant.given.get(path, plant.graph[path].si) if path in plant.graph else None
            yield plant.must(bank.tag, None if outcome is None else outcome == "full", reads=(path,), tag=bank.tag)


@rule("bank-fills-within-the-year", "common-practice", severity="warn")
def bank_fills_within_the_year(plant: Reviewed) -> Iterator[Look]:
    """A bank fills many times in the hours that the plant runs in a year."""
    for name, bank in plant.described.banks.items():
        if plant.has(f"banks.{name}.fill_time"):
            path = f"banks.{name}.fill_time"
            yield plant.at_most(bank.tag, path, "demand.running_hours", times=0.1, tag=bank.tag)


@rule("booster-keeps-up-with-stack", "mass-balance", severity="warn")
def booster_keeps_up_with_stack(plant: Reviewed) -> Iterator[Look]:
    """The booster that draws from the buffer moves more than the stack makes, at mean pressures."""
    for number, booster in enumerate(plant.described.boosters, start=1):
        if booster.supply == "buffer":
            yield plant.at_least(booster.tag, f"boosters.{number}.flow_mean", "stack.hydrogen_flow", tag=booster.tag)


@rule("transfer-leaves-its-source-enough", "mass-balance")
def transfer_leaves_its_source_enough(plant: Reviewed) -> Iterator[Look]:
    """A transfer stops before its source is drawn lower than asked."""
    for number, transfer in enumerate(plant.described.transfers, start=1):
        at = f"transfers.{number}"
        if transfer.source_lowest is not None:
            limit = f"{at}.source_lowest"
            yield plant.at_least(at, f"{at}.final_source_pressure", limit, times=ROUNDING, place=at)


ROUNDING = 1 - 1e-6
"""A run stops where it was asked to, but for its last step."""


@rule("use-reaches-its-pressure", "common-practice")
def use_reaches_its_pressure(plant: Reviewed) -> Iterator[Look]:
    """Every use is fed from more than the lowest pressure at which it still draws."""
    for number, use in enumerate(plant.described.uses, start=1):
        if use.kind == "vehicle":
            continue
        for turn, supply in enumerate(use.supply, start=1):
            full = "buffer.cut_in" if supply == "buffer" else f"banks.{supply}.fill_pressure"
            limit = f"uses.{number}.lowest_pressure"
            yield plant.at_least(f"uses.{number}.supply.{turn}", full, limit, tag=use.tag)


@rule("vehicle-starts-below-banks", "transport-filling", severity="warn")
def vehicle_starts_below_banks(plant: Reviewed) -> Iterator[Look]:
    """The tank of a vehicle gains something from every bank that it is filled from."""
    for number, use in enumerate(plant.described.uses, start=1):
        if use.kind == "vehicle":
            for turn, supply in enumerate(use.supply, start=1):
                start, bank = f"uses.{number}.start_pressure", f"banks.{supply}.fill_pressure"
                yield plant.at_most(f"uses.{number}.supply.{turn}", start, bank, tag=use.tag)


@rule("vehicle-filling-restricted", "sae-j2601", "gas temperature while filling", waivable=False)
def vehicle_filling_restricted(plant: Reviewed) -> Iterator[Look]:
    """Every way from a bank to a vehicle passes a restrictor, so that its tank cannot be filled too hot."""
    banks = [(tag, port) for tag, item in plant.items("bank") for port in item.kind.ports]
    fed = tags_beyond(plant, banks, _goes)
    past = tags_beyond(plant, banks, lambda way, against: _goes(way, against) and not _restricts(plant, way))
    for target, _ in plant.items("vehicle_tank"):
        yield plant.must(target, target not in past if target in fed else None, tag=target)


def _goes(way: Way, against: bool) -> bool:
    """Whether gas goes a way in service."""
    return way.how in (BOTH_WAYS if against else IN_SERVICE)


def _restricts(plant: Reviewed, way: Way) -> bool:
    """Whether a way leads through an item whose flow is small by its bore, or whose outlet pressure is set."""
    item: Item | None = plant.network.items.get(way.through)
    if item is None:
        return False
    bored = item.kind.name in ("needle_valve", "actuated_valve") and "bore" in item.settings
    return bored or item.kind.name == "pressure_regulator"


@rule("vehicle-filled-no-faster-than-cool", "sae-j2601", "gas temperature while filling", waivable=False)
def vehicle_filled_no_faster_than_cool(plant: Reviewed) -> Iterator[Look]:
    """The restrictor lets no filling run so fast that the gas in a vehicle tank grows too hot."""
    for number, use in enumerate(plant.described.uses, start=1):
        if use.kind == "vehicle":
            at = f"uses.{number}"
            yield plant.at_least(use.tag, f"{at}.fastest_fill_time", f"{at}.shortest_fill_time", tag=use.tag)


@rule("vehicle-fill-time-within-reason", "sae-j2601", "gas temperature while filling", severity="warn")
def vehicle_fill_time_within_reason(plant: Reviewed) -> Iterator[Look]:
    """The shortest filling that keeps the gas in a vehicle tank cool enough fits into a working day."""
    for number, use in enumerate(plant.described.uses, start=1):
        if use.kind == "vehicle":
            limit = "fact:vehicle_filling_longest"
            yield plant.at_most(use.tag, f"uses.{number}.shortest_fill_time", limit, tag=use.tag)


@rule("demand-met-through-the-year", "mass-balance", severity="warn")
def demand_met_through_the_year(plant: Reviewed) -> Iterator[Look]:
    """What is wanted in a year is there when it is wanted, in winter too."""
    if plant.has("season.share_met"):
        yield plant.at_least("season.share_met", "season.share_met", ALL)
