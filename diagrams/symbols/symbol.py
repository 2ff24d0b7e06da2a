"""What every symbol is: strokes and ports, drawn for a flow from left to right, y upward, around (0, 0)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from schemdraw.elements import Element
from schemdraw.segments import Segment, SegmentArc, SegmentBezier, SegmentCircle, SegmentPoly, SegmentText

from diagrams.errors import DrawingError
from diagrams.proportions import DETAIL, LETTER, PITCH

XY = tuple[float, float]

SIDES: dict[str, XY] = {"right": (1, 0), "left": (-1, 0), "up": (0, 1), "down": (0, -1)}


@dataclass(frozen=True)
class Setting:
    """What a symbol is told about the item that it stands for."""

    tag: str = ""
    state: str | None = None
    above: float = PITCH / 2
    below: float = PITCH / 2


class Symbol(Element):
    """
    A symbol: a class that says how it is called, which ports it offers, and draws its strokes.

    A port has one spot or several; where it has several, a line takes the one that suits it. Each spot is
    an anchor on the ink (the first bears the port's own name) and the side to which a line leaves.
    """

    name: ClassVar[str]
    says: ClassVar[str]
    form: ClassVar[str]
    """Where the general form comes from."""
    states: ClassVar[tuple[str, ...]] = ()
    """The states that the symbol can show; an item without a state shows none of them."""
    turns: ClassVar[str] = "round"
    """`round`: turned with the flow; `over`: keeps its up and down unless it faces down; `aside`: mirrored at most."""
    tag_inside: ClassVar[bool] = False
    tag_shown: ClassVar[bool] = True
    tag_side: ClassVar[str] = ""
    """Where the tag stands best: `inside`, or a side; empty: beside the run of the line."""

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()  # type: ignore[no-untyped-call]  # the drawing library does not say its type

    def __init__(self, setting: Setting | None = None) -> None:
        super().__init__()
        self.setting = setting or Setting()
        self.sides: dict[str, tuple[tuple[str, str], ...]] = {}
        self.anchors["center"] = (0.0, 0.0)
        self.draw_strokes()

    def draw_strokes(self) -> None:
        """Put the strokes and ports of the symbol; each symbol says how."""
        raise DrawingError(f"symbol {type(self).__name__} has no strokes of its own")

    def ink(self) -> tuple[float, float, float, float]:
        """The box of the strokes once the symbol is placed: left, bottom, right, top."""
        left, bottom, right, top = self.get_bbox(transform=True, includetext=False)  # type: ignore[no-untyped-call]
        return float(left), float(bottom), float(right), float(top)

    # --- what the strokes are made of ------------------------------------------------------

    def port(self, name: str, *spots: tuple[float, float, str]) -> None:
        """A port with its spots: x, y and the side to which a line leaves."""
        named = []
        for number, (x, y, side) in enumerate(spots):
            anchor = name if number == 0 else f"{name}_{side}"
            self.anchors[anchor] = (x, y)
            named.append((anchor, side))
        self.sides[name] = tuple(named)

    def through(self, reach: float) -> None:
        """The two ports of an item that stands in the run of a line."""
        self.port("in", (-reach, 0, "left"))
        self.port("out", (reach, 0, "right"))

    def stroke(self, *points: XY, weight: float | None = None, dash: str | None = None) -> None:
        """An open stroke."""
        self.segments.append(Segment(points, lw=weight, ls=dash))  # type: ignore[arg-type]

    def detail(self, *points: XY, dash: str | None = None) -> None:
        """A thin stroke inside or beside the outline."""
        self.stroke(*points, weight=DETAIL, dash=dash)

    def area(self, *points: XY, filled: bool = False, weight: float | None = None) -> None:
        """A closed outline, hollow or filled."""
        self.segments.append(SegmentPoly(points, fill="ink" if filled else None, lw=weight))

    def box(self, left: float, bottom: float, right: float, top: float, *, filled: bool = False) -> None:
        """An upright rectangle."""
        self.area((left, bottom), (right, bottom), (right, top), (left, top), filled=filled)

    def ring(self, x: float, y: float, radius: float, *, filled: bool = False, weight: float | None = None) -> None:
        """A circle."""
        self.segments.append(SegmentCircle((x, y), radius, fill="ink" if filled else None, lw=weight))

    def arc(self, x: float, y: float, width: float, height: float, start: float, end: float) -> None:
        """A part of an ellipse, counter-clockwise between two angles in degrees."""
        self.segments.append(SegmentArc((x, y), width, height, theta1=start, theta2=end))

    def curve(self, *points: XY, weight: float | None = None) -> None:
        """A curve with two handles."""
        self.segments.append(SegmentBezier(points, lw=weight))

    def letters(self, x: float, y: float, text: str, size: float = LETTER, class_: str = "gw-letter") -> None:
        """Letters that belong to the symbol, upright however it is turned, centred."""
        self.segments.append(SegmentText((x, y), text, align=("center", "center"), fontsize=size, font=class_))

    def tip(self, x: float, y: float, side: str, length: float = 6, width: float = 5) -> None:
        """A small filled arrowhead with its point at (x, y)."""
        dx, dy = SIDES[side]
        back_x, back_y = x - dx * length, y - dy * length
        half = width / 2
        self.area(
            (x, y), (back_x - dy * half, back_y + dx * half), (back_x + dy * half, back_y - dx * half),
            filled=True, weight=0.5,
        )  # fmt: skip


SYMBOLS: dict[str, type[Symbol]] = {}


def symbol(kind: type[Symbol]) -> type[Symbol]:
    """Enter a symbol into the catalogue; its name is the one an item gives."""
    if kind.name in SYMBOLS:
        raise DrawingError(f"two symbols are called {kind.name}")
    SYMBOLS[kind.name] = kind
    return kind


def symbol_class(name: str) -> type[Symbol]:
    """The symbol of a name."""
    if name not in SYMBOLS:
        raise DrawingError(f"there is no symbol {name!r}; the symbols are {', '.join(sorted(SYMBOLS))}")
    return SYMBOLS[name]


FAMILIES = ("valves", "fittings", "vessels", "machines", "instruments", "electric")
"""The order of the catalogue, by module."""


def symbols() -> Iterator[type[Symbol]]:
    """Every symbol, in the order of the catalogue."""
    for family in FAMILIES:
        yield from (kind for kind in SYMBOLS.values() if kind.__module__.endswith(f".{family}"))


def symbol_ports(name: str) -> tuple[str, ...]:
    """The ports that a symbol offers."""
    return tuple(symbol_class(name)().sides)
