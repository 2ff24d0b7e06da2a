"""What falls due on a plant: by the dates of its description, by what its figures count, by what practice asks."""

from __future__ import annotations

import calendar
import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from macros.figures.plant import Plant

__all__ = ["Counted", "Dated", "Usual", "counted", "dated", "usual"]

SOON = datetime.timedelta(days=90)
"""How long before its day an inspection is told as coming."""

State = Literal["overdue", "soon", "later"]

COUNTED = (
    "water.top_up_interval", "drying.desiccant_interval", "water.deioniser_life", "buffer.cycle_life_time",
    "stack.replacement_life",
)  # fmt: skip
"""Figures and entries that say after what time something is done or changed."""

USUAL = {
    "detector_test_interval": ("gas_detector",),
    "detector_calibration_interval": ("gas_detector",),
    "analyser_calibration_interval": ("transmitter",),
    "trip_test_interval": (),
    "emergency_stop_interval": (),
    "relief_interval": ("relief_valve", "burst_disc"),
    "non_return_interval": ("non_return_valve",),
    "hose_interval": ("hose", "breakaway"),
    "cylinder_interval": ("bank",),
    "earth_interval": (),
}
"""Facts that say how often practice looks at something, and the kinds of items that they are about; all without."""

ANALYSED = ("hydrogen_in_oxygen", "oxygen_in_hydrogen")
"""What a transmitter measures that an analyser must be calibrated for."""


@dataclass(frozen=True)
class Dated:
    """An inspection that falls due in a month of the description: by its last day it must be done."""

    tag: str
    title: str
    path: str
    month: str
    day: datetime.date
    state: State


@dataclass(frozen=True)
class Counted:
    """Something that is done after a time that the plant's figures count."""

    path: str


@dataclass(frozen=True)
class Usual:
    """How often practice looks at something: the name of the fact, and the tags that it is about."""

    fact: str
    tags: tuple[str, ...]


def dated(plant: Plant, today: datetime.date) -> list[Dated]:
    """Every inspection with a month, the earliest first."""
    found = [_dated(plant, *one, today) for one in _months(plant)]
    return sorted(found, key=lambda one: (one.day, one.tag))


def _months(plant: Plant) -> Iterator[tuple[str, str, str]]:
    """Tag, path and month of everything that has one."""
    for name, bank in plant.description.plant.banks.items():
        yield bank.tag, f"banks.{name}.inspection_due", bank.inspection_due
    for tag, item in plant.network.items.items():
        month = item.settings.get("tested")
        if isinstance(month, str):
            yield tag, f"items.{tag.lower()}.tested", month


def _dated(plant: Plant, tag: str, path: str, month: str, today: datetime.date) -> Dated:
    year, number = map(int, month.split("-"))
    day = datetime.date(year, number, calendar.monthrange(year, number)[1])
    state: State = "overdue" if day < today else "soon" if day - today <= SOON else "later"
    return Dated(tag, plant.network.items[tag].title, path, month, day, state)


def counted(plant: Plant) -> Iterator[Counted]:
    """What is done after a time that the plant has a figure for."""
    boosters = [f"boosters.{number}.seal_life_time" for number in range(1, len(plant.description.plant.boosters) + 1)]
    for path in (*COUNTED, *boosters):
        if path in plant.graph:
            yield Counted(path)


def usual(plant: Plant) -> Iterator[Usual]:
    """How often practice looks at what this plant has."""
    for fact, kinds in USUAL.items():
        tags = tuple(tag for tag, item in plant.network.items.items() if item.kind.name in kinds)
        if fact == "analyser_calibration_interval":
            tags = tuple(tag for tag in tags if plant.network.items[tag].settings.get("measures") in ANALYSED)
        if tags or not kinds:
            yield Usual(fact, tags)
