"""
Flags: what a drawing says of a whole section, in a frame on a stem beside one of its items.

What a flag says changes from step to step, so a plan keeps room for the most that it may come to say, and the
drawings of all steps stand still.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape

from diagrams.ink import TEXT_GROUP, attributes, number
from diagrams.lettering import Block, NoRoomError, Room, Row, size_of
from diagrams.places import Box, Placed
from diagrams.proportions import FLAG_PAD, FLAG_STROKE, LABEL, RING, RING_STROKE
from diagrams.signs import sign_path

Point = tuple[float, float]

STEMS = (8.0, 14.0, 20.0, 28.0, 38.0, 50.0, 64.0, 80.0, 100.0, 124.0, 150.0)
"""How far a flag may stand from its item, tried one after another."""
ALONG = (0.5, 0.25, 0.75, 0.05, 0.95)
"""Where on an item's side a stem may begin, and where on the flag's it may end."""
LATER_ITEM = 7.0
"""How much worse it is to stand beside the next item of a section than beside the one before."""
INSET = 12.0
"""Where a stem from the side meets a flag, from its top: there its first row stands, however many follow."""


@dataclass(frozen=True)
class Wanted:
    """A flag for which a plan must keep room: the items beside which it may stand, the best first, and its size."""

    name: str
    beside: tuple[str, ...]
    width: float
    height: float


@dataclass(frozen=True)
class Flag:
    """Room for a flag: the most that it takes, its stem, and whether it grows up or down as rows are added."""

    name: str
    box: Box
    stem: tuple[Point, Point]
    upward: bool

    @property
    def stem_box(self) -> Box:
        """The paper that the stem takes."""
        (ax, ay), (bx, by) = self.stem
        return Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)).grown(FLAG_STROKE / 2)


def wanted_flag(name: str, beside: Sequence[str], contents: Sequence[Sequence[Row]]) -> Wanted:
    """A flag with room for whichever of several contents it is to show."""
    sizes = [size_of(rows) for rows in contents]
    return Wanted(
        name, tuple(beside),
        max(width for width, _ in sizes) + 2 * FLAG_PAD, max(height for _, height in sizes) + 2 * FLAG_PAD,
    )  # fmt: skip


def place_flags(wanted: Sequence[Wanted], placed: Mapping[str, Placed], room: Room) -> list[Flag]:
    """Place every flag where it keeps clear of all else; what finds no room is raised."""
    found = []
    for one in wanted:
        flag = _best(one, [placed[tag] for tag in one.beside if tag in placed], room)
        if flag is None:
            raise NoRoomError([placed[one.beside[0]].item], "the flag of")
        room.take(flag.box)
        room.take(flag.stem_box)
        found.append(flag)
    return found


def _best(wanted: Wanted, items: Sequence[Placed], room: Room) -> Flag | None:
    best: tuple[float, Flag] | None = None
    for length in STEMS:
        for rank, item in enumerate(items):
            least = length + rank * LATER_ITEM
            if best is not None and least >= best[0]:
                break
            for off, flag in _around(wanted, item.box, length):
                cost = least + off
                if (best is None or cost < best[0] - 1e-9) and _fits(flag, room):
                    best = (cost, flag)
        if best is not None and length >= best[0]:
            break
    return best[1] if best else None


def _around(wanted: Wanted, ink: Box, length: float) -> Iterator[tuple[float, Flag]]:
    """Places for a flag round the ink of an item, with how much worse than the best each is."""
    width, height = wanted.width, wanted.height

    def flag(left: float, top: float, start: Point, end: Point, upward: bool = False) -> Flag:
        return Flag(wanted.name, Box(left, top, left + width, top + height), (start, end), upward)

    above, below = ink.top - length, ink.bottom + length
    for index, share in enumerate(ALONG):
        x = ink.left + (ink.right - ink.left) * share
        for second, where in enumerate(ALONG):
            off, left = index + second * 0.5, x - width * where
            yield off, flag(left, above - height, (x, ink.top), (x, above), upward=True)
            yield off + 0.2, flag(left, below, (x, ink.bottom), (x, below))
        y = ink.top + (ink.bottom - ink.top) * share
        right, left = ink.right + length, ink.left - length
        yield index + 1.0, flag(right, y - INSET, (ink.right, y), (right, y))
        yield index + 1.2, flag(left - width, y - INSET, (ink.left, y), (left, y))


def _fits(flag: Flag, room: Room) -> bool:
    if not room.fits(flag.box):
        return False
    (ax, ay), (bx, by) = flag.stem
    # It begins on the ink of its own item, and must keep clear of all else.
    length = abs(bx - ax) + abs(by - ay)
    ax, ay = ax + (bx - ax) * 2 / length, ay + (by - ay) * 2 / length
    return room.fits(Box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)), 1.6)


def flag_group(flag: Flag, rows: Sequence[Row], classes: str) -> str:
    """A flag with what it says now; it stands in a group with the attributes `FLAGS`."""
    height = size_of(rows)[1] + 2 * FLAG_PAD
    left = flag.box.left
    top = flag.box.bottom - height if flag.upward else flag.box.top
    inside = Box(FLAG_PAD, FLAG_PAD, flag.box.right - left - FLAG_PAD, height - FLAG_PAD)
    parts = []
    for row, x, y in Block(tuple(rows), inside, "start").baselines():
        at = x
        if row.sign:
            size = row.size * 0.8
            parts.append(sign_path(row.sign, x + size / 2, y - row.size * 0.36, size))
            at = x + row.size + 3
        about = attributes(
            class_=row.class_, x=at, y=y, font_weight="bold" if row.bold else None,
            data_si=row.text.si or None, data_us=row.text.us or None,
        )  # fmt: skip
        parts.append(f"<text{about}>{escape(row.text.workshop)}</text>")
    (ax, ay), (bx, by) = ((x - left, y - top) for x, y in flag.stem)
    frame = attributes(width=flag.box.right - left, height=height, rx=3)
    lines = f'<path d="M{number(ax)} {number(ay)}L{number(bx)} {number(by)}"/><rect{frame}/>'
    about = attributes(
        class_=f"gw-flag {classes}".strip(), data_section=flag.name,
        transform=f"translate({number(left)} {number(top)})",
    )  # fmt: skip
    return f'<g{about}><g class="gw-flag-frame"{FRAME}>{lines}</g>{"".join(parts)}</g>'


FRAME = attributes(fill="none", stroke="currentColor", stroke_width=FLAG_STROKE)
FLAGS = f"{TEXT_GROUP}{attributes(font_size=LABEL, text_anchor='start')}"
"""Attributes of a group of flags: what each of them says is written in one size."""


def ring(box: Box) -> str:
    """The frame round what a step moves."""
    wide = box.grown(RING)
    about = attributes(
        class_="gw-ring", x=wide.left, y=wide.top, width=wide.right - wide.left, height=wide.bottom - wide.top, rx=4,
        fill="currentColor", fill_opacity=0.12, stroke="currentColor", stroke_width=RING_STROKE,
    )  # fmt: skip
    return f"<rect{about}/>"
