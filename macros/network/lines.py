"""Lines: the chains of `network.yml` as runs from port to port."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from macros.description.chains import Joint, Stop, joints, nearest, stops
from macros.quantities import say

__all__ = ["ChainError", "Joint", "Port", "Run", "parse_chain"]

Port = tuple[str, str]
"""A tag and one of its ports."""


class ChainError(ValueError):
    """A chain that joins nothing; the message says what to write."""


@dataclass(frozen=True)
class Run:
    """One run of a line, from a port to a port."""

    line: str
    start: Port
    end: Port


def parse_chain(line: str, chain: str, kinds: Mapping[str, str]) -> tuple[tuple[Stop, ...], tuple[Run, ...]]:
    """
    The stops of a chain, and its runs from port to port.

    Parameters
    ----------
    line : str
        Tag of the line.
    chain : str
        As `network.yml` has it.
    kinds : mapping
        Kind of every item by tag.

    Raises
    ------
    ChainError
        If the chain is malformed, names an unknown tag or port, or leaves out a port that must be named.
    """
    found = stops(chain)
    if isinstance(found, str):
        raise ChainError(found)
    for stop in found:
        if stop.tag not in kinds:
            raise ChainError(say("description.unknown_tag", name=stop.tag, nearest=nearest(stop.tag, kinds), also=""))
    runs = []
    for each in joints(line, found, kinds):
        if isinstance(each, str):
            raise ChainError(each)
        runs.append(Run(line, _port(each.start), _port(each.end)))
    return tuple(found), tuple(runs)


def _port(stop: Stop) -> Port:
    assert stop.port is not None
    return stop.tag, stop.port
