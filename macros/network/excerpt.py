"""An excerpt of a network: some of its sections with what hangs on them, for a drawing that fits a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from macros.description.chains import Stop
from macros.network.network import Line, Network

__all__ = ["excerpt"]

JOINT = "junction"
ENDS = ("vent", "purge_inlet")
"""Kinds that end a line: they belong to whatever they hang on."""


def excerpt(network: Network, sections: Iterable[str], tags: Iterable[str] = ()) -> Network:
    """
    The items of some sections, with the tees, vents and inlets that hang on them, and the lines between them.

    Parameters
    ----------
    network : Network
    sections : iterable of str
        Names of sections.
    tags : iterable of str
        Items besides those of the sections.

    Raises
    ------
    KeyError
        If the network has no section of a name.
    """
    kept = {tag for name in sections for tag in network.sections[name].items} | set(tags)
    kept |= _hanging(network, kept)
    lines = [piece for line in network.lines.values() for piece in _pieces(line, kept)]
    while bare := _bare_joints(network, kept, lines):
        kept -= bare
        lines = [piece for line in lines for piece in _pieces(line, kept)]
    return replace(
        network,
        items={tag: item for tag, item in network.items.items() if tag in kept},
        lines={line.id: line for line in lines},
        sections={},
    )


def _hanging(network: Network, kept: set[str]) -> set[str]:
    """Tees reached from what is kept through tees alone, and the ends that hang on either."""
    beside: dict[str, list[str]] = {}
    for run in network.runs:
        one, two = run.start[0], run.end[0]
        beside.setdefault(one, []).append(two)
        beside.setdefault(two, []).append(one)
    found: set[str] = set()
    waiting = list(kept)
    while waiting:
        for there in beside.get(waiting.pop(), ()):
            if there not in kept and there not in found:
                kind = network.items[there].kind.name
                if kind == JOINT or kind in ENDS:
                    found.add(there)
                if kind == JOINT:
                    waiting.append(there)
    return found


def _bare_joints(network: Network, kept: set[str], lines: list[Line]) -> set[str]:
    """Tees with fewer than two lines left: they join nothing on this drawing."""
    ends: dict[str, int] = {}
    for line in lines:
        for number, stop in enumerate(line.stops):
            ends[stop.tag] = ends.get(stop.tag, 0) + (1 if number in (0, len(line.stops) - 1) else 2)
    return {tag for tag in kept if network.items[tag].kind.name == JOINT and ends.get(tag, 0) < 2}


def _pieces(line: Line, kept: set[str]) -> Iterator[Line]:
    """The stretches of a line that join at least two kept items; pieces after the first are numbered."""
    stretch: list[Stop] = []
    number = 0
    for stop in (*line.stops, None):
        if stop is not None and stop.tag in kept:
            stretch.append(stop)
            continue
        if len(stretch) >= 2:
            number += 1
            name = line.id if number == 1 else f"{line.id}-{number}"
            yield replace(line, id=name, stops=tuple(stretch))
        stretch = []
