"""The current's way: supply, rectifier, fuse, isolator."""

from __future__ import annotations

from diagrams.proportions import ROUND
from diagrams.symbols.symbol import Symbol, symbol

WIRING = "after IEC 60617, from memory"


@symbol
class Supply(Symbol):
    """A source of current."""

    name, says, form = "supply", "electric supply", WIRING

    def draw_strokes(self) -> None:
        self.ring(0, 0, ROUND)
        self.curve((-8, 0), (-5, 8), (-3, 8), (0, 0))
        self.curve((0, 0), (3, -8), (5, -8), (8, 0))
        self.port("out", (ROUND, 0, "right"))
        self.port("in", (-ROUND, 0, "left"))


@symbol
class Rectifier(Symbol):
    """Alternating current becomes direct current."""

    name, says, form, turns = "rectifier", "rectifier", WIRING, "aside"

    def draw_strokes(self) -> None:
        self.box(-20, -20, 20, 20)
        self.stroke((-20, -20), (20, 20))
        self.curve((-15, 10), (-12, 17), (-10, 17), (-7, 10))
        self.curve((-7, 10), (-4, 3), (-2, 3), (1, 10))
        self.stroke((3, -8), (15, -8))
        self.stroke((3, -12), (15, -12), dash="mesh")
        self.through(20)
        self.port("positive", (-10, -20, "down"))
        self.port("negative", (10, -20, "down"))


@symbol
class Fuse(Symbol):
    """A wire through a case."""

    name, says, form = "fuse", "fuse", WIRING

    def draw_strokes(self) -> None:
        self.box(-13, -5, 13, 5)
        self.stroke((-15, 0), (15, 0))
        self.through(15)


@symbol
class Isolator(Symbol):
    """A blade before a contact with a bar; the blade lies across while it is closed."""

    name, says, form = "isolator", "isolator", WIRING
    states = ("open", "closed")

    def draw_strokes(self) -> None:
        self.stroke((-15, 0), (-9, 0))
        self.stroke((9, 0), (15, 0))
        self.stroke((9, -5), (9, 5))
        if self.setting.state == "closed":
            self.stroke((-9, 0), (9, 0), weight=2.4)
        else:
            self.stroke((-9, 0), (7, 10))
        self.ring(-9, 0, 1.8, filled=True)
        self.through(15)
