"""
Where texts go: the letters of a medium into a gap of its line, tags and labels beside their items.

Every text is measured before it is placed, at the widest of its unit systems, and keeps clear of every symbol,
line and other text. What finds no room is told to the caller, who lets the grid grow there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagrams.items import Item, Text
from diagrams.metrics import ASCENT, DESCENT, text_width, widest
from diagrams.places import Box, Placed
from diagrams.proportions import CLEAR, GAP, LABEL, LEADING, MEDIUM, TAG


@dataclass(frozen=True)
class Row:
    """One row of a block of texts: its versions, its size, and how it is written."""

    text: Text
    size: float
    class_: str
    bold: bool = False
    sign: str = ""

    @property
    def width(self) -> float:
        """The widest that the row can become, its sign included."""
        return widest(self.text.versions, self.size, bold=self.bold) + (self.size + 3 if self.sign else 0)


@dataclass(frozen=True)
class Block:
    """Rows that stand together at one place."""

    rows: tuple[Row, ...]
    box: Box
    anchor: str

    def baselines(self) -> Iterator[tuple[Row, float, float]]:
        """Each row with the point from which it is written."""
        x = {"start": self.box.left, "middle": (self.box.left + self.box.right) / 2, "end": self.box.right}[self.anchor]
        y = self.box.top
        for number, row in enumerate(self.rows):
            y += row.size * (ASCENT if number == 0 else LEADING)
            yield row, x, y


def label_rows(item: Item, *, with_tag: bool) -> tuple[Row, ...]:
    """The rows of an item's own texts: its tag, its labels."""
    tag = [Row(Text(item.tag), TAG, "gw-tag", bold=True)] if with_tag else []
    return (*tag, *(Row(label, LABEL, "gw-label") for label in item.labels if label.workshop))


def mark_rows(item: Item, signs: Mapping[str, Text]) -> tuple[Row, ...]:
    """The rows of an item's marks, in the order of the signs."""
    shown = [mark for mark in signs if mark in item.marks]
    return tuple(Row(signs[mark], LABEL, f"gw-mark gw-mark-{mark}", sign=mark) for mark in shown)


def size_of(rows: Sequence[Row]) -> tuple[float, float]:
    """Width and height of rows that stand together."""
    height = rows[0].size * ASCENT + sum(row.size * LEADING for row in rows[1:]) + rows[-1].size * DESCENT
    return max(row.width for row in rows), height


def _beside(
    ink: Box, width: float, height: float, gap: float, middle: tuple[float, float]
) -> Iterator[tuple[str, float, Box, str]]:
    """Places for a block round an ink box: which side, how far from the best there, the place, the anchor."""
    x, y = middle

    def box(left: float, top: float) -> Box:
        return Box(left, top, left + width, top + height)

    for shift in (0, 8, -8, 16, -16, 24, -24, 34, -34):
        off = abs(shift) / 8
        yield "above", off, box(x - width / 2 + shift, ink.top - gap - height), "middle"
        yield "below", off, box(x - width / 2 + shift, ink.bottom + gap), "middle"
        yield "right", off, box(ink.right + gap, y - height / 2 + shift), "start"
        yield "left", off, box(ink.left - gap - width, y - height / 2 + shift), "end"
    # Beside a symbol whose line runs on: just above or just below that line.
    for side, left, anchor in (("right", ink.right + gap, "start"), ("left", ink.left - gap - width, "end")):
        yield f"{side} above", 0.0, box(left, y - gap - 2 - height), anchor
        yield f"{side} below", 0.0, box(left, y + gap + 2), anchor
    # Beside an upright run: just left or right of it.
    for side, top in (("above", ink.top - gap - height), ("below", ink.bottom + gap)):
        yield f"{side} right", 0.0, box(x + gap + 2, top), "start"
        yield f"{side} left", 0.0, box(x - gap - 2 - width, top), "end"


PREFERENCES: dict[str, dict[str, float]] = {
    "along": {"above": 0, "below": 1, "above right": 4, "above left": 4, "below right": 4, "below left": 4,
              "right above": 6, "right below": 6, "left above": 7, "left below": 7, "right": 8, "left": 8},
    "upright": {"right": 0, "left": 1, "right above": 4, "right below": 4, "left above": 5, "left below": 5,
                "above right": 6, "above left": 6, "below right": 6, "below left": 6, "above": 8, "below": 8},
    "instrument": {"above": 0, "right": 0.5, "left": 1, "below": 1, "right above": 4, "right below": 4, "left above": 5,
                   "left below": 5, "above right": 4, "above left": 4, "below right": 5, "below left": 5},
    "vessel": {"below": 0, "above": 0.5, "below right": 2, "above right": 2, "below left": 3, "above left": 3,
               "right above": 3, "right below": 3, "left above": 4, "left below": 4, "right": 4, "left": 5},
}  # fmt: skip
"""How much worse each side is than the best one, by how the item stands."""


def stance(placed: Placed) -> str:
    """How an item stands, as far as its labels are concerned."""
    if placed.kind.tag_inside or "tap" in placed.ports:
        return "instrument"
    if placed.box.bottom - placed.box.top >= 50:
        return "vessel"
    if placed.kind.tag_side == "right" or placed.item.facing in ("up", "down"):
        return "upright"
    return "along"


AWAY = (0.0, 5.0, 11.0, 18.0)
"""How much further than the usual gap a block may stand, tried one after another."""
ENOUGH = 12
"""So many free places are looked for before a block is put further away."""


def places_for(placed: Placed, rows: Sequence[Row], extra: float = 0.0) -> list[tuple[float, Block]]:
    """Places for an item's rows at one distance, with what each costs, the best first."""
    width, height = size_of(rows)
    likes = PREFERENCES[stance(placed)]
    found = [
        (likes[side] + off + extra * 0.5, Block(tuple(rows), box, anchor))
        for side, off, box, anchor in _beside(placed.box, width, height, GAP + extra, (placed.x, placed.y))
    ]
    found.sort(key=lambda pair: pair[0])
    return found


def first_wish(placed: Placed, rows: Sequence[Row]) -> Box:
    """The place that an item's rows would take if nothing stood in the way."""
    return places_for(placed, rows)[0][1].box


class Room:
    """What is taken on the paper, and whether a box still fits."""

    CELL = 64.0

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[Box]] = {}

    def _touched(self, box: Box) -> Iterator[tuple[int, int]]:
        for column in range(int(box.left // self.CELL), int(box.right // self.CELL) + 1):
            for row in range(int(box.top // self.CELL), int(box.bottom // self.CELL) + 1):
                yield column, row

    def take(self, box: Box) -> None:
        """Mark a box as taken."""
        for cell in self._touched(box):
            self._cells.setdefault(cell, []).append(box)

    def meeting(self, box: Box) -> int:
        """How many taken boxes a box would overlap."""
        near = {id(taken): taken for cell in self._touched(box) for taken in self._cells.get(cell, ())}
        return sum(taken.meets(box) for taken in near.values())

    def fits(self, box: Box, clear: float = CLEAR) -> bool:
        """Whether a box keeps clear of all that is taken."""
        wide = box.grown(clear)
        return not any(taken.meets(wide) for cell in self._touched(wide) for taken in self._cells.get(cell, ()))


class NoRoomError(Exception):
    """Texts that found no room, by the items round which the grid must grow."""

    def __init__(self, items: Sequence[Item], what: str = "the labels of") -> None:
        super().__init__(what)
        self.items = items
        self.what = what


def place_blocks(
    wanted: Sequence[tuple[Placed, tuple[Row, ...]]], room: Room, others: Sequence[Placed]
) -> list[tuple[Placed, Block]]:
    """Place every block, those with the fewest free places first; what finds no room is raised."""
    tagged = Room()
    for other in others:
        if other.kind.tag_shown:
            tagged.take(other.box)
    choices = [(placed, _free_places(placed, rows, room, tagged)) for placed, rows in wanted]
    nowhere = [placed.item for placed, free in choices if not free]
    if nowhere:
        raise NoRoomError(nowhere)
    first: list[int] = []
    while True:
        order = first + [index for index in sorted(range(len(choices)), key=lambda i: (_good(choices[i][1]), i))
                         if index not in first]  # fmt: skip
        done: dict[int, Block] = {}
        taken: list[Box] = []
        for index in order:
            for _, block in choices[index][1]:
                wide = block.box.grown(CLEAR)
                if not any(box.meets(wide) for box in taken):
                    done[index] = block
                    taken.append(block.box)
                    break
            else:
                if index in first:
                    raise NoRoomError([choices[index][0].item])
                first.insert(0, index)
                break
        else:
            for box in taken:
                room.take(box)
            return [(choices[index][0], done[index]) for index in range(len(choices))]


def _free_places(placed: Placed, rows: Sequence[Row], room: Room, tagged: Room) -> list[tuple[float, Block]]:
    """The free places nearest to an item, with what each costs, the best first."""
    free: list[tuple[float, Block]] = []
    for extra in AWAY:
        for cost, block in places_for(placed, rows, extra):
            if room.fits(block.box):
                free.append((cost + _nearness(block.box, placed, tagged), block))
                if len(free) >= ENOUGH:
                    break
        if len(free) >= ENOUGH:
            break
    free.sort(key=lambda pair: pair[0])
    return free


def _good(free: Sequence[tuple[float, Block]]) -> int:
    """How many places are about as good as the best."""
    return sum(cost <= free[0][0] + 2 for cost, _ in free)


def _nearness(box: Box, own: Placed, tagged: Room) -> float:
    """A text near a symbol that is not its own could be taken for that symbol's."""
    near = box.grown(9)
    return 4.0 * (tagged.meeting(near) - (own.kind.tag_shown and own.box.meets(near)))


def letters_size(text: str) -> tuple[float, float]:
    """Width and height of the gap that the letters of a medium need in their line."""
    return text_width(text, MEDIUM) + 6, MEDIUM * (ASCENT + 0.1) + 4
