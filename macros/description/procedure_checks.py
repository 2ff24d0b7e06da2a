"""Checks of procedures and parts: what they name exists, and steps end where they say."""

from __future__ import annotations

from collections.abc import Iterator

from macros.description.fields import is_tag
from macros.description.item_kinds import ITEM_KINDS
from macros.description.naming import SILENT, Naming, keys_sound
from macros.description.strict_yaml import Path
from macros.quantities import Fault, say

__all__ = ["note_parts", "procedure_faults"]


def _sets(naming: Naming, path: Path) -> Iterator[Fault]:
    """Positions are given to items that have them."""
    sheet = naming.procedures
    for tag, position in sheet.mapping(*path).items():
        here = (*path, tag)
        if not is_tag(tag) or not sheet.sound(here) or not naming.items_known:
            continue
        if naming.tag_stands(sheet, here, tag):
            yield from naming.position(sheet, here, tag, position)


def _place(naming: Naming, path: Path, *, items: bool) -> Iterator[Fault]:
    """A section, or an item where items are allowed."""
    sheet, word = naming.procedures, naming.procedures.text(*path)
    if word is None:
        return
    sections = naming.names(naming.network, "sections")
    if items and is_tag(word):
        yield from naming.tag(sheet, path)
    elif sections is not SILENT and word not in sections:
        naming.missing("description.unknown_section", sheet, path, word, [*sections, *(naming.kinds if items else ())])


def procedure_faults(naming: Naming) -> Iterator[Fault]:
    """States and steps set items that can be set, and procedures lead from state to state."""
    sheet = naming.procedures
    doubtful = set()
    for state in sheet.mapping("states"):
        told = list(_state_faults(naming, ("states", state)))
        if told or any(each[:2] == ("states", state) for each in sheet.at_fault):
            doubtful.add(state)
        yield from told
    for name in sheet.mapping("procedures"):
        path: Path = ("procedures", name)
        for key in ("start", "end"):
            naming.name(sheet, (*path, key), naming.states, "description.unknown_state")
        told = [fault for number in sheet.numbers(*path, "steps") for fault in _step(naming, (*path, "steps", number))]
        yield from told
        ends = {sheet.text(*path, "start"), sheet.text(*path, "end")}
        sound = not told and not ends & doubtful and not any(each[:2] == path for each in sheet.at_fault)
        if sound and ends <= naming.states and not naming.has_unknown_tags and None not in naming.kinds.values():
            yield from _ends(naming, name)


def _state_faults(naming: Naming, path: Path) -> Iterator[Fault]:
    yield from _sets(naming, (*path, "positions"))
    for key in ("inert", "air"):
        for place in naming.procedures.numbers(*path, key):
            yield from _place(naming, (*path, key, place), items=False)


def _ends(naming: Naming, name: str) -> Iterator[Fault]:
    """The steps of a procedure lead to the state in which it says it ends."""
    sheet = naming.procedures
    path: Path = ("procedures", name)
    start, end = sheet.mapping(*path)["start"], sheet.mapping(*path)["end"]
    positions, runs = _state(naming, start)
    for number in sheet.numbers(*path, "steps"):
        positions |= sheet.mapping(*path, "steps", number, "sets")
        step = sheet.mapping(*path, "steps", number)
        runs = (runs - set(step.get("stops", ()))) | set(step.get("starts", ()))
    wanted_positions, wanted_runs = _state(naming, end)
    wrong = [
        say("description.left_at", tag=tag, position=position, wanted=wanted_positions[tag])
        for tag, position in positions.items()
        if position != wanted_positions.get(tag, position)
    ]
    wrong += [say("description.left_running", drive=drive) for drive in sorted(runs - wanted_runs)]
    wrong += [say("description.left_still", drive=drive) for drive in sorted(wanted_runs - runs)]
    if wrong:
        yield sheet.fault((*path, "end"), say("description.ends_elsewhere", state=end, found=", ".join(wrong)))


def _state(naming: Naming, name: str) -> tuple[dict[str, str], set[str]]:
    """Positions of all items that have one, and what runs, in a state."""
    normal = {tag: naming.network.text("items", tag, "normal_position") for tag in naming.kinds}
    positions = {
        tag: position
        for tag, position in normal.items()
        if position is not None and position in ITEM_KINDS[naming.kinds[tag] or ""].positions
    }
    state = naming.procedures.mapping("states", name)
    return positions | state.get("positions", {}), set(state.get("runs", ()))


def _step(naming: Naming, step: Path) -> Iterator[Fault]:
    sheet = naming.procedures
    yield from _sets(naming, (*step, "sets"))
    for key in ("opens", "closes"):
        for place in sheet.numbers(*step, key):
            yield from naming.tag(sheet, (*step, key, place))
    for place in sheet.numbers(*step, "admits"):
        yield from naming.tag(sheet, (*step, "admits", place), ("purge_inlet",))
    for key in ("makes_inert", "makes_hydrogen"):
        for place in sheet.numbers(*step, key):
            yield from _place(naming, (*step, key, place), items=True)
    for place in sheet.numbers(*step, "reads"):
        yield from naming.tag(sheet, (*step, "reads", place, "at"))


def note_parts(naming: Naming) -> None:
    """Parts are bought for items or lines that exist."""
    lines = naming.network.mapping("lines")
    for number in naming.parts.numbers("parts"):
        for place in naming.parts.numbers("parts", number, "tags"):
            path = ("parts", number, "tags", place)
            tag = naming.parts.text(*path)
            if (
                tag is not None
                and tag not in lines
                and naming.network.sound(("lines",))
                and keys_sound(naming.network, "lines")
            ):
                naming.tag_stands(naming.parts, path, tag)
