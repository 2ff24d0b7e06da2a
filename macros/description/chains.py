"""
Chains: how `network.yml` says which items a line joins, `ST1.h2 > SE1 > CO1 > V1`.

An item in the middle of a chain is entered at its inlet and left at its outlet. Where a chain begins or ends, an item
of several ports names the port, unless the line leaves it at its outlet or enters it at its inlet.
"""

from __future__ import annotations

import difflib
import itertools
import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from macros.description.item_kinds import ITEM_KINDS, ItemKind
from macros.quantities import say

__all__ = ["ChainFault", "Joint", "Stop", "Wiring", "joints", "nearest", "stops"]

_STOP = re.compile(r"([A-Z]{1,4}[0-9]{1,3})(?:\.([a-z][a-z0-9_]*))?")


class Stop(NamedTuple):
    """One item of a chain, with the port if the chain names it."""

    tag: str
    port: str | None = None


@dataclass(frozen=True)
class Joint:
    """One run of a line from a port to a port, in the direction of its chain."""

    line: str
    start: Stop
    end: Stop


def stops(chain: str) -> list[Stop] | str:
    """The stops of a chain, or what is wrong with its writing."""
    found = []
    for piece in chain.split(">"):
        match = _STOP.fullmatch(piece.strip())
        if match is None:
            return say("description.chain.malformed", found=piece.strip() or say("description.chain.nothing"))
        found.append(Stop(match[1], match[2]))
    if len(found) < 2:
        return say("description.chain.one_item", found=chain)
    return found


def joints(line: str, chain: list[Stop], kinds: Mapping[str, str]) -> Iterator[Joint | str]:
    """The runs of a chain with all ports named, or messages where that is impossible; `kinds` by tag."""
    ends: list[tuple[Stop | None, Stop | None]] = []
    wrong: list[str] = []
    for number, stop in enumerate(chain):
        kind = ITEM_KINDS[kinds[stop.tag]]
        first, last = number == 0, number == len(chain) - 1
        if stop.port is not None and stop.port not in kind.ports:
            ports = _ports(stop.tag, kind)
            wrong.append(say("description.chain.unknown_port", tag=stop.tag, port=stop.port, ports=ports))
            ends.append((None, None))
        elif not first and not last:
            if stop.port is not None:
                wrong.append(say("description.chain.port_between", tag=stop.tag, port=stop.port))
            elif not kind.runs_through:
                wrong.append(say("description.chain.no_passage", tag=stop.tag, kind=kind.name))
            ends.append((Stop(stop.tag, "in"), Stop(stop.tag, "out")))
        else:
            port = stop.port or kind.one_port or _usual(kind, "out" if first else "in")
            if port is None:
                wrong.append(say("description.chain.port_missing", tag=stop.tag, ports=_ports(stop.tag, kind)))
            at = Stop(stop.tag, port) if port else None
            ends.append((at, at))
    if wrong:
        yield from wrong
        return
    for (_, start), (end, _) in itertools.pairwise(ends):
        assert start is not None and end is not None
        yield Joint(line, start, end)


def _usual(kind: ItemKind, port: str) -> str | None:
    return port if port in kind.ports else None


def _ports(tag: str, kind: ItemKind) -> str:
    return say("description.or").join(f"{tag}.{port}" for port in kind.ports)


@dataclass(frozen=True)
class ChainFault:
    """What is wrong with a line, or with an item that no line meets."""

    line: str | None
    tag: str | None
    message: str
    unknown: str | None = None
    """A tag that no item bears."""


class Wiring:
    """
    Judges the chains of a network together: which ports they meet, twice, or not at all.

    Parameters
    ----------
    kinds : mapping
        Kind by tag; none where the kind itself is at fault, so that nothing can be said of the item's ports.
    hanging : collection of str
        Tags of items that no line need meet.
    """

    def __init__(self, kinds: Mapping[str, str | None], hanging: Collection[str] = ()) -> None:
        self.kinds, self.hanging = kinds, hanging
        self.known = {tag: kind for tag, kind in kinds.items() if kind is not None}
        self.used: dict[Stop, str] = {}
        self.first_line: dict[str, str] = {}
        self.doubtful: set[str] = set()
        """Items of lines at fault: nothing is said of their other ports."""
        self.complete = True
        """Whether every chain was read and right; if not, nothing is said of items and ports that no line meets."""

    def faults(self, chains: Mapping[str, tuple[str, str | None]]) -> Iterator[ChainFault]:
        """Everything wrong with chains, each with its medium; one fault for each mistake."""
        for line, (chain, medium) in chains.items():
            for found in self._line(line, chain, medium):
                # An item that seems to be on no line may be the one that was meant here.
                self.complete = False
                yield found if isinstance(found, ChainFault) else ChainFault(line, None, found)
        if self.complete:
            yield from self._loose_ends()

    def _line(self, line: str, chain: str, medium: str | None) -> Iterator[str | ChainFault]:
        found = stops(chain)
        if isinstance(found, str):
            yield found
            return
        tags = [stop.tag for stop in found]
        for tag in tags:
            self.first_line.setdefault(tag, line)
        unknown = [tag for tag in dict.fromkeys(tags) if tag not in self.kinds]
        for tag in unknown:
            yield ChainFault(line, None, "", tag)
        if unknown or any(tag not in self.known for tag in tags):
            self.doubtful.update(tags)
            return
        runs = list(joints(line, found, self.known))
        wrong = [run for run in runs if isinstance(run, str)]
        if wrong:
            self.doubtful.update(tags)
            yield from wrong
            return
        ports = [stop for run in runs if isinstance(run, Joint) for stop in (run.start, run.end)]
        for stop in ports:
            yield from self._meet(line, stop)
        yield from itertools.islice(self._other_media(ports, medium), 1)

    def _meet(self, line: str, stop: Stop) -> Iterator[str]:
        kind = ITEM_KINDS[self.known[stop.tag]]
        if stop in self.used and not kind.shared:
            free = [port for port in kind.ports if Stop(stop.tag, port) not in self.used]
            key = "description.chain.twice" if free else "description.chain.twice_full"
            named = {"free": say("description.or").join(f"{stop.tag}.{port}" for port in free)} if free else {}
            yield say(key, port=f"{stop.tag}.{stop.port}", first=self.used[stop], **named)
        self.used.setdefault(stop, line)

    def _other_media(self, ports: Iterable[Stop], medium: str | None) -> Iterator[str]:
        """Ports that hold something else than the line."""
        for stop in ports:
            allowed = ITEM_KINDS[self.known[stop.tag]].media(stop.port or "")
            if medium is not None and medium not in allowed:
                port, words = f"{stop.tag}.{stop.port}", say("description.or").join(allowed)
                yield say("description.chain.medium", port=port, medium=medium, allowed=words)

    def _loose_ends(self) -> Iterator[ChainFault]:
        for tag, name in self.known.items():
            kind = ITEM_KINDS[name]
            if tag in self.doubtful or tag in self.hanging or not kind.joined:
                continue
            if tag not in self.first_line:
                yield ChainFault(None, tag, say("description.chain.on_no_line"))
                continue
            for port in kind.joined:
                if Stop(tag, port) not in self.used:
                    yield ChainFault(self.first_line[tag], tag, say("description.chain.loose", port=f"{tag}.{port}"))


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like another, as messages put it; empty if none is like it."""
    words = list(known)
    tag = _TAG.fullmatch(word)
    close = [each for each in words if tag and (found := _TAG.fullmatch(each)) and found[1] == tag[1]]
    if tag and close:
        # Of the tags with the same letters, the one whose number takes the fewest strokes to mend, then the nearest.
        close.sort(key=lambda each: (-_alike(each, word), abs(_number(each) - _number(word))))
    else:
        close = difflib.get_close_matches(word, words, n=1, cutoff=0.5)
    return say("description.nearest", known=close[0]) if close else ""


_TAG = re.compile(r"([A-Z]{1,4})([0-9]{1,3})")


def _alike(one: str, other: str) -> float:
    return difflib.SequenceMatcher(None, one, other).ratio()


def _number(tag: str) -> int:
    return int("".join(filter(str.isdigit, tag)))
