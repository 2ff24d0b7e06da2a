"""`procedures.yml`: the states in which a plant rests or runs, and the steps that lead from one to the next."""

from __future__ import annotations

from typing import Literal

from macros.description.fields import NAME, TAG, Part, field
from macros.description.plant import Drive


class State(Part):
    """A state in which the plant may be left: where items stand if not as normal, and what runs."""

    title: str = field()
    positions: dict[str, str] = field({}, json_schema_extra={"keys": TAG})
    runs: list[Drive] = field([])
    inert: list[str] = field([])
    air: list[str] = field([])


class Reading(Part):
    """What must be read before going on."""

    at: str | None = field(None, pattern=f"^{TAG}$")
    wanted: str = field()
    let_down: bool = field(False)


class Step(Part):
    """A step: what to do, what it sets, and what must be true before the next."""

    do: str = field()
    why: str | None = field(None)
    sets: dict[str, str] = field({}, json_schema_extra={"keys": TAG})
    starts: list[Drive] = field([])
    stops: list[Drive] = field([])
    admits: list[str] = field([])
    makes_inert: list[str] = field([])
    makes_hydrogen: list[str] = field([])
    opens: list[str] = field([])
    closes: list[str] = field([])
    reads: list[Reading] = field([])


class Procedure(Part):
    """A procedure: one job, from one state to another, step by step."""

    title: str = field()
    when: str = field()
    hazards: list[str] = field(min_length=1)
    needs: list[str] = field([])
    start: str = field(pattern=f"^{NAME}$")
    end: str = field(pattern=f"^{NAME}$")
    steps: list[Step] = field(min_length=1)


class ProceduresFile(Part):
    """The procedures of a plant."""

    format: Literal[1] = field()
    states: dict[str, State] = field({}, json_schema_extra={"keys": NAME})
    procedures: dict[str, Procedure] = field({}, json_schema_extra={"keys": NAME})
