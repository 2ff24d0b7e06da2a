"""
Questions that only an authority or a licensed person may answer, each put only where the plant has the part.

They stay open until somebody writes the answer down: as a waiver of the rule, with what was decided, by whom and until
when.
"""

from __future__ import annotations

from collections.abc import Iterator

from macros.review.reviewed import Look, Reviewed
from macros.review.rules import rule


@rule("ask-pressure-equipment", "ped-2014-68", "Annex II", severity="open", body="inspection")
def ask_pressure_equipment(plant: Reviewed) -> Iterator[Look]:
    """An inspection body confirms the category of every fixed vessel and the inspections that follow from it."""
    vessels = [(bank.tag, bank.regime, f"banks.{name}.category") for name, bank in plant.described.banks.items()]
    if plant.described.buffer is not None:
        vessels.insert(0, (plant.described.buffer.tag, plant.described.buffer.regime, "buffer.category"))
    for tag, regime, path in vessels:
        if regime != "transportable":
            yield plant.must(tag, False, reads=(path,), tag=tag, category=str(plant.graph[path].si))


@rule("ask-cylinder-inspection", "transport-of-gases", severity="open", body="inspection")
def ask_cylinder_inspection(plant: Reviewed) -> Iterator[Look]:
    """An inspection body says when and how cylinders are inspected, and whether they need a relief against fire."""
    for bank in plant.described.banks.values():
        if bank.regime == "transportable":
            yield plant.must(bank.tag, False, tag=bank.tag, due=bank.inspection_due)


@rule("ask-cylinder-transport", "transport-of-gases", severity="open", body="transport")
def ask_cylinder_transport(plant: Reviewed) -> Iterator[Look]:
    """Whoever moves filled cylinders on a road asks under which rules."""
    for bank in plant.described.banks.values():
        if bank.regime == "transportable":
            yield plant.must(bank.tag, False, tag=bank.tag)


@rule("ask-zone-plan", "iec-60079-10-1", severity="open", body="explosion")
def ask_zone_plan(plant: Reviewed) -> Iterator[Look]:
    """A competent person draws the zones of every place where hydrogen can leak."""
    for room in dict.fromkeys(plant.hydrogen_sections.values()):
        described = plant.described.rooms.get(room)
        yield plant.must(f"rooms.{room}", False, room=described.title if described is not None else room)


@rule("ask-vents-and-neighbours", "common-practice", severity="open", body="fire")
def ask_vents_and_neighbours(plant: Reviewed) -> Iterator[Look]:
    """Heights of vents and their distances from windows, intakes, boundaries and each other are agreed on the spot."""
    if any(item.settings["medium"] in ("hydrogen", "wet_hydrogen", "oxygen") for _, item in plant.items("vent")):
        yield plant.must(plant.plant.name, False, distance=plant.reading("fact:vent_distance").texts)


@rule("ask-fire-service", "common-practice", severity="open", body="fire")
def ask_fire_service(plant: Reviewed) -> Iterator[Look]:
    """The fire service knows what is stored where, and how it is shut off."""
    if plant.has("plant.stored_inventory"):
        mass = plant.reading("plant.stored_inventory")
        yield plant.must(plant.plant.name, False, reads=mass.reads, mass=mass.texts)


@rule("ask-stored-inventory", "common-practice", severity="open", body="authority")
def ask_stored_inventory(plant: Reviewed) -> Iterator[Look]:
    """The local authority says from what stored quantity a notice or a permit is needed."""
    if plant.described.banks:
        mass = plant.reading("plant.stored_inventory")
        yield plant.must(plant.plant.name, False, reads=mass.reads, mass=mass.texts)


@rule("ask-insurer", "common-practice", severity="open", body="insurer")
def ask_insurer(plant: Reviewed) -> Iterator[Look]:
    """The insurer of building and liability agrees in writing."""
    yield plant.must(plant.plant.name, False, title=plant.described.title)


@rule("ask-building-authority", "common-practice", severity="open", body="authority")
def ask_building_authority(plant: Reviewed) -> Iterator[Look]:
    """The building and planning authority says what may stand where."""
    yield plant.must(plant.plant.name, False, place=plant.described.site.place)


@rule("ask-electrical-installation", "common-practice", severity="open", body="electrician")
def ask_electrical_installation(plant: Reviewed) -> Iterator[Look]:
    """A licensed electrician connects the rectifier, checks the polarity before the first current, bonds and measures."""
    for tag, item in plant.items("rectifier"):
        yield plant.must(tag, False, tag=tag, title=item.title)


@rule("ask-vehicle-approval", "gtr-13", severity="open", body="vehicle")
def ask_vehicle_approval(plant: Reviewed) -> Iterator[Look]:
    """Type approval or inspection of vehicles says whether one with a tank for hydrogen may be filled and driven."""
    for use in plant.described.uses:
        if use.kind == "vehicle":
            yield plant.must(use.tag, False, tag=use.tag, title=use.title)


@rule("ask-gas-appliance", "common-practice", severity="open", body="gas_fitter")
def ask_gas_appliance(plant: Reviewed) -> Iterator[Look]:
    """A licensed fitter installs burners and fuel cells, and looks after air, flue and flame failure."""
    for use in plant.described.uses:
        if use.kind in ("burner", "fuel_cell"):
            yield plant.must(use.tag, False, tag=use.tag, title=use.title)


@rule("ask-strength-test", "asme-b31-3", severity="open", body="tester")
def ask_strength_test(plant: Reviewed) -> Iterator[Look]:
    """Strength tests with gas are left to licensed hands; whoever tests with water knows what must stay dry."""
    if plant.has("safety.strength_test_pressure"):
        pressure = plant.reading("safety.strength_test_pressure")
        yield plant.must(plant.plant.name, False, reads=pressure.reads, pressure=pressure.texts)


@rule("ask-waste-water-and-resin", "common-practice", severity="open", body="water")
def ask_waste_water_and_resin(plant: Reviewed) -> Iterator[Look]:
    """The water authority or the waste site says where drained water, spent resin and dyed desiccant may go."""
    for tag, item in plant.items("deioniser", "desiccant_column"):
        yield plant.must(tag, False, tag=tag, title=item.title)
