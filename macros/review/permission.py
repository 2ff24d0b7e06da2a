"""Rules of permission: approvals, legal regimes, inspection dates, materials, thresholds."""

from __future__ import annotations

import calendar
import datetime
from collections.abc import Iterator

from macros.quantities import say
from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule

OTHER_GASES = {
    "natural_gas": ("natural gas", "methane", "biogas", "biomethane", "cng"),
    "liquefied": ("lpg", "propane", "butane", "autogas", "liquefied petroleum gas", "propane and butane"),
    "inert": ("nitrogen", "argon", "helium", "inert gas", "carbon dioxide"),
    "air": ("air", "breathing air", "compressed air", "diving air"),
    "oxygen": ("oxygen", "medical oxygen"),
}
"""Gases for which cylinders, tanks and burners are often offered, by the reason for which they are refused."""

UNFIT_MATERIALS = (
    "cast iron", "grey iron", "galvanised", "galvanized", "zinc", "pvc", "rubber", "titanium", "nickel", "carbon steel",
)  # fmt: skip
"""What hydrogen makes brittle, passes through, or what breaks in frost and fire."""

DATED = ("relief_valve", "burst_disc", "breakaway")


def _approval(plant: Reviewed, where: str, gas: str | None) -> Look:
    """Whether something is approved for hydrogen, with the reason for which any other gas is refused."""
    if gas is None:
        return plant.must(where, None)
    named = gas.strip().lower()
    reason = next((key for key, gases in OTHER_GASES.items() if named in gases), "other")
    told = say(f"review.reason.{reason}")
    return plant.must(where, named == "hydrogen", tag=where, gas=gas, why=told)


@rule("cylinders-approved-for-hydrogen", "transport-of-gases", waivable=False)
def cylinders_approved_for_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """Cylinders are approved for hydrogen; those approved only for another gas are refused."""
    for bank in plant.described.banks.values():
        yield _approval(plant, bank.tag, bank.approved_gas)


@rule("no-light-gauge-bottles", "transport-of-gases", waivable=False)
def no_light_gauge_bottles(plant: Reviewed) -> Iterator[Look]:
    """No bottle made of light gauge for liquefied gas holds hydrogen."""
    for name, bank in plant.described.banks.items():
        path = f"banks.{name}.test_pressure"
        look = plant.at_least(bank.tag, path, "fact:light_gauge_test_pressure", tag=bank.tag)
        if look.verdict == "passed" and bank.approved_gas.strip().lower() in OTHER_GASES["liquefied"]:
            look = plant.must(bank.tag, False, tag=bank.tag, value=look.words["value"], limit=look.words["limit"])
        yield look


@rule("vehicle-tank-approved-for-hydrogen", "gtr-13", waivable=False)
def vehicle_tank_approved_for_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """The tank of a vehicle is approved for hydrogen; one for another fuel is refused."""
    for use in plant.described.uses:
        if use.kind == "vehicle":
            yield _approval(plant, use.tag, use.approved_gas)


@rule("burner-made-for-hydrogen", "common-practice", waivable=False)
def burner_made_for_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """A burner is made for hydrogen, whose flame runs back where another stays."""
    for tag, item in plant.items("burner"):
        yield _approval(plant, tag, item.settings.get("approved_gas"))


@rule("protection-approved-for-hydrogen", "common-practice")
def protection_approved_for_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """What protects a section of hydrogen is approved for hydrogen."""
    for tag, item in plant.items("relief_valve", "burst_disc"):
        if plant.holds_hydrogen(tag):
            yield _approval(plant, tag, item.settings.get("approved_gas"))


@rule("parts-approved-for-hydrogen", "common-practice")
def parts_approved_for_hydrogen(plant: Reviewed) -> Iterator[Look]:
    """Whatever else meets hydrogen and says its approval is approved for hydrogen."""
    judged = ("burner", "relief_valve", "burst_disc", "vehicle_tank")
    for tag, item in plant.network.items.items():
        if "approved_gas" in item.settings and item.kind.name not in judged and plant.holds_hydrogen(tag):
            yield _approval(plant, tag, item.settings["approved_gas"])


@rule("regime-decided", "ped-2014-68", waivable=False)
def regime_decided(plant: Reviewed) -> Iterator[Look]:
    """Of every vessel it is decided under which law it stands: transport or pressure equipment."""
    vessels = [(bank.tag, bank.regime) for bank in plant.described.banks.values()]
    if plant.described.buffer is not None:
        vessels.insert(0, (plant.described.buffer.tag, plant.described.buffer.regime))
    for tag, regime in vessels:
        yield plant.must(tag, regime != "undecided", tag=tag, regime=regime)


def last_day(month: str) -> datetime.date:
    """The last day of a month, on which what falls due in it must be done."""
    year, number = map(int, month.split("-"))
    return datetime.date(year, number, calendar.monthrange(year, number)[1])


def _dates(plant: Reviewed) -> Iterator[tuple[str, str]]:
    """What falls due when, as far as it is said."""
    for bank in plant.described.banks.values():
        yield bank.tag, bank.inspection_due
    for tag, item in plant.network.items.items():
        if "tested" in item.settings:
            yield tag, item.settings["tested"]


@rule("cylinder-inspection-in-date", "transport-of-gases", waivable=False)
def cylinder_inspection_in_date(plant: Reviewed) -> Iterator[Look]:
    """No cylinder is filled after its periodic inspection fell due."""
    for bank in plant.described.banks.values():
        due = bank.inspection_due
        yield plant.must(bank.tag, last_day(due) >= plant.today, tag=bank.tag, due=due)


@rule("protection-test-in-date", "common-practice")
def protection_test_in_date(plant: Reviewed) -> Iterator[Look]:
    """The certificate of what protects the plant has not run out."""
    for tag, item in plant.items(*DATED):
        due = item.settings.get("tested")
        yield plant.must(tag, None if due is None else last_day(due) >= plant.today, tag=tag, due=due or "")


@rule("inspections-booked-in-time", "common-practice", severity="warn")
def inspections_booked_in_time(plant: Reviewed) -> Iterator[Look]:
    """What falls due soon is booked before it does."""
    for tag, due in _dates(plant):
        ahead = datetime.timedelta(seconds=plant.reading("fact:inspection_soon").si)
        yield plant.must(tag, last_day(due) - plant.today >= ahead, tag=tag, due=due)


@rule("vessels-of-fit-material", "common-practice")
def vessels_of_fit_material(plant: Reviewed) -> Iterator[Look]:
    """Vessels and coils that hold hydrogen say their material, and it is none that hydrogen spoils."""
    for tag, item in plant.items("separator", "coalescer", "desiccant_column", "cold_coil"):
        if plant.holds_hydrogen(tag):
            yield _material(plant, tag, item.settings.get("material"))


@rule("lines-of-fit-material", "common-practice")
def lines_of_fit_material(plant: Reviewed) -> Iterator[Look]:
    """No line for hydrogen is of a material that hydrogen spoils."""
    for name, line in plant.plant.description.network.lines.items():
        if line.medium in ("hydrogen", "wet_hydrogen") and line.material is not None:
            yield _material(plant, f"lines.{name}", line.material)


def _material(plant: Reviewed, where: str, material: str | None) -> Look:
    if material is None:
        return plant.must(where, None)
    fit = not any(word in material.lower() for word in UNFIT_MATERIALS)
    return plant.must(where, fit, tag=where, material=material)


@rule("inventory-below-major-hazard", "seveso-2012-18", "Annex I part 2, lower tier", waivable=False)
def inventory_below_major_hazard(plant: Reviewed) -> Iterator[Look]:
    """The plant holds less hydrogen than makes a site one of major accidents."""
    yield plant.at_most("plant.stored_inventory", "plant.stored_inventory", "fact:major_hazard_quantity")
