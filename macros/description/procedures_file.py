"""`procedures.yml`: the states in which a plant rests or runs, and the steps that lead from one to the next."""

from __future__ import annotations

from typing import Literal

from macros.description.fields import NAME, TAG, Part, field
from macros.description.plant import Drive


class State(Part):
    """A state in which the plant may be left: where items stand if not as normal, and what runs."""

    title: str = field("What it is called")
    positions: dict[str, str] = field(
        "Positions of items, where they are not the normal ones", {}, json_schema_extra={"keys": TAG}
    )
    runs: list[Drive] = field("What runs", [])
    inert: list[str] = field("Sections that hold inert gas", [])
    air: list[str] = field("Sections that hold air", [])


class Reading(Part):
    """What must be read before going on."""

    at: str | None = field("Tag of the item that is read", None, pattern=f"^{TAG}$")
    wanted: str = field("What it must show, by reference to a figure where it is a number")
    let_down: bool = field(
        "Whether it must show that the part is let down: open to a vent, or shut with nothing in it", False
    )


class Step(Part):
    """A step: what to do, what it sets, and what must be true before the next."""

    do: str = field("What to do")
    why: str | None = field("Why, where it keeps someone safe", None)
    sets: dict[str, str] = field("Positions that it gives to items", {}, json_schema_extra={"keys": TAG})
    starts: list[Drive] = field("What it starts", [])
    stops: list[Drive] = field("What it stops", [])
    admits: list[str] = field("Purge inlets through which inert gas is let in", [])
    makes_inert: list[str] = field("Items or sections that hold inert gas when it is done", [])
    makes_hydrogen: list[str] = field("Items or sections that hold hydrogen again when it is done", [])
    opens: list[str] = field("Items that it opens to the air", [])
    closes: list[str] = field("Items that it closes again", [])
    reads: list[Reading] = field("What must be read before going on", [])


class Procedure(Part):
    """A procedure: one job, from one state to another, step by step."""

    title: str = field("What it is called")
    when: str = field("When it is done")
    hazards: list[str] = field("What can hurt, and how it is kept from doing so", min_length=1)
    needs: list[str] = field("People, tools and papers that must be at hand", [])
    start: str = field("State in which it begins", pattern=f"^{NAME}$")
    end: str = field("State in which it ends", pattern=f"^{NAME}$")
    steps: list[Step] = field("Steps in their order", min_length=1)


class ProceduresFile(Part):
    """The procedures of a plant."""

    format: Literal[1] = field("Version of this format")
    states: dict[str, State] = field("States by name", {}, json_schema_extra={"keys": NAME})
    procedures: dict[str, Procedure] = field("Procedures by name", {}, json_schema_extra={"keys": NAME})
