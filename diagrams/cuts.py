"""Where lines go on beyond a part of a plan: a stub, two strokes that cut it off, and the tags at which it goes on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from diagrams.ink import attributes, number
from diagrams.items import Text
from diagrams.layout import Plan
from diagrams.lettering import Room
from diagrams.metrics import ASCENT, DESCENT, widest
from diagrams.pipes import Point, steps_of
from diagrams.places import Box
from diagrams.proportions import CLEAR, LABEL, SLASH, STUB
from diagrams.routes import Leg

__all__ = ["Beyond", "Cut", "cuts_of", "labelled", "slashes"]

NEAR = 0.01
CUT_OFF = 4.0
"""From the end of a stub to the second of the strokes across it."""
MOST_TAGS = 3
"""Where a line branches on beyond a part, no more tags than these are named."""

Beyond = Callable[[str, bool], Text]
"""How the place is said at which a line goes on: the tags there, and whether the line leads to them or comes from them."""


@dataclass(frozen=True)
class Cut:
    """Where a line goes on beyond the part: the stub that is drawn of it, from what is kept outward."""

    leg: Leg
    start: Point
    end: Point
    tags: tuple[str, ...]
    """The items at which it goes on: beyond a tee all that follow."""
    onward: bool
    """Whether the line leads to them; otherwise it comes from them."""
    text: Text | None = None
    box: Box | None = None
    """Where the text stands; none where it found no room."""

    @property
    def way(self) -> tuple[int, int]:
        """Outward along the stub."""
        return _sign(self.end[0] - self.start[0]), _sign(self.end[1] - self.start[1])

    @property
    def ink(self) -> Box:
        """The paper that the stub and its strokes take."""
        (dx, dy), (x, y) = self.way, self.end
        tip = (x + dx * CUT_OFF, y + dy * CUT_OFF)
        stub = Box(min(self.start[0], x), min(self.start[1], y), max(self.start[0], x), max(self.start[1], y))
        return stub.grown(1.0).joined(Box(*self.end, *self.end).joined(Box(*tip, *tip)).grown(SLASH + 1))


def cuts_of(whole: Plan, legs: Sequence[Leg], kept: set[str]) -> tuple[Cut, ...]:
    """A stub of every leg with one end kept, from where it parts from what is drawn."""
    drawn = {(leg.net, frozenset(edge)) for leg in legs for edge in pairwise(steps_of(leg))}
    begun: dict[tuple[int, Point, Point], Cut] = {}
    for leg in whole.legs:
        onward = leg.start.item.tag in kept
        if onward == (leg.end.item.tag in kept) or leg.to_instrument:
            continue
        steps = steps_of(leg)
        if not onward:
            steps = steps[::-1]
        for one, two in pairwise(steps):
            if (leg.net, frozenset((one, two))) in drawn:
                continue
            tags = tuple(_tags_beyond(whole, leg, onward))
            cut = Cut(leg, one, _along(one, steps[steps.index(one) :]), tags, onward)
            first = begun.setdefault((leg.net, one, two), cut)
            # Legs that leave as one pipe and part further on have one stub, with the tags of all.
            begun[leg.net, one, two] = replace(first, tags=tuple(dict.fromkeys((*first.tags, *tags))))
            break
    return tuple(begun.values())


def _tags_beyond(whole: Plan, leg: Leg, onward: bool) -> Iterator[str]:
    """The nearest items with a tag in the direction in which a leg goes on, the way of its own line first."""
    seen = {id(leg)}
    waiting = [leg]
    while waiting:
        here = waiting.pop(0)
        far = here.end if onward else here.start
        if far.kind.tag_shown:
            yield far.item.tag
            continue
        following = [
            each for each in whole.legs
            if (each.start if onward else each.end).item.tag == far.item.tag
            and id(each) not in seen and not each.to_instrument
        ]  # fmt: skip
        seen.update(id(each) for each in following)
        waiting += sorted(following, key=lambda each: each.line.id != here.line.id)


def _along(start: Point, steps: Sequence[Point]) -> Point:
    """The end of a stub: as far as it may go before its line turns."""
    way = (_sign(steps[1][0] - start[0]), _sign(steps[1][1] - start[1]))
    length = 0.0
    for one, two in pairwise(steps):
        if (_sign(two[0] - one[0]), _sign(two[1] - one[1])) != way:
            break
        length += abs(two[0] - one[0]) + abs(two[1] - one[1])
    length = min(length, STUB)
    return (start[0] + way[0] * length, start[1] + way[1] * length)


def _sign(value: float) -> int:
    return (value > NEAR) - (value < -NEAR)


def labelled(cuts: Sequence[Cut], beyond: Beyond, room: Room) -> tuple[Cut, ...]:
    """The cuts with the tags at which they go on, each where it keeps clear of all else; it takes its room."""
    found = []
    for cut in cuts:
        tags = ", ".join(cut.tags[:MOST_TAGS]) + (", …" if len(cut.tags) > MOST_TAGS else "")
        text = beyond(tags, cut.onward)
        box = next((box for box in _places(cut, text) if room.fits(box, CLEAR)), None)
        if box is not None:
            room.take(box)
        found.append(replace(cut, text=text, box=box))
    return tuple(found)


def _places(cut: Cut, text: Text) -> Iterator[Box]:
    """Places for a text at the end of a stub, the best first: in its line, then beside it, then further off."""
    width, height = widest(text.versions, LABEL), LABEL * (ASCENT + DESCENT)
    (dx, dy), ink = cut.way, cut.ink
    x, y = (ink.left + ink.right) / 2, (ink.top + ink.bottom) / 2
    gap = CLEAR + 0.5

    def beyond(shift: float, off: float) -> Box:
        if dx:
            left = ink.right + gap + off if dx > 0 else ink.left - gap - off - width
            return Box(left, y - height / 2 + shift, left + width, y + height / 2 + shift)
        top = ink.bottom + gap + off if dy > 0 else ink.top - gap - off - height
        return Box(x - width / 2 + shift, top, x + width / 2 + shift, top + height)

    def beside(side: int, off: float) -> Iterator[Box]:
        if dx:
            top = ink.bottom + gap + off if side > 0 else ink.top - gap - off - height
            for left in (ink.left, ink.right - width, x - width / 2):
                yield Box(left, top, left + width, top + height)
        else:
            left = ink.right + gap + off if side > 0 else ink.left - gap - off - width
            for top in (ink.top, ink.bottom - height, y - height / 2):
                yield Box(left, top, left + width, top + height)

    for off in (0.0, 6.0, 14.0, 24.0):
        yield beyond(0.0, off)
        for side in (1, -1):
            yield from beside(side, off)
        for shift in (8.0, -8.0, 16.0, -16.0, 26.0, -26.0):
            yield beyond(shift, off)


def slashes(start: Point, end: Point) -> str:
    """Two short strokes aslant at the end of a stub: the line goes on, and is not drawn."""
    (bx, by), (dx, dy) = end, (_sign(end[0] - start[0]), _sign(end[1] - start[1]))
    lean = (SLASH / 2, SLASH) if dx else (SLASH, SLASH / 2)
    parts = []
    for off in (1.0, CUT_OFF):
        x, y = bx + dx * off, by + dy * off
        parts.append(f"M{number(x - lean[0])} {number(y + lean[1])}L{number(x + lean[0])} {number(y - lean[1])}")
    return f"<path{attributes(class_='gw-cut', d=''.join(parts), stroke_width=1)}/>"
