"""What makes, moves, cleans and cools: stack, fuel cell, pump, compressor, booster, filter, exchangers."""

from __future__ import annotations

from diagrams.proportions import ROUND
from diagrams.symbols.symbol import Symbol, symbol

PIPING = "after ISO 10628-2, from memory"
OWN = "our own: rectangle of a unit after ISO 10628-2, from memory, with what it does inside"


@symbol
class Stack(Symbol):
    """An electrolyser: oxygen side left, hydrogen side right of the membrane, direct current from above."""

    name, says, form, turns = "stack", "electrolyser stack", OWN, "aside"

    def draw_strokes(self) -> None:
        top, bottom = self.setting.above, -self.setting.below
        self.box(-30, bottom - 12, 30, top + 12)
        self.stroke((0, bottom - 6), (0, top + 6), weight=1, dash="mesh")
        for x in (-5, 5):
            self.stroke((x, bottom - 6), (x, top + 6))
        self.letters(-18, top, "O₂")
        self.letters(18, top, "H₂")
        self.letters(-18, (top + bottom) / 2, "+", 14)
        self.letters(18, (top + bottom) / 2, "−", 14)
        self.letters(-17, bottom, "H₂O", 9)
        self.port("water_in", (-30, bottom, "left"))
        self.port("o2", (-30, top, "left"))
        self.port("h2", (30, top, "right"))
        self.port("h2_water", (30, bottom, "right"))
        self.port("positive", (-10, top + 12, "up"))
        self.port("negative", (10, top + 12, "up"))


@symbol
class FuelCell(Symbol):
    """The reverse of a stack: hydrogen left, air right, current above."""

    name, says, form, turns = "fuel_cell", "fuel cell", OWN, "aside"

    def draw_strokes(self) -> None:
        self.box(-30, -25, 30, 25)
        self.stroke((0, -20), (0, 20), weight=1, dash="mesh")
        for x in (-5, 5):
            self.stroke((x, -20), (x, 20))
        self.letters(-18, 0, "H₂")
        self.letters(18, 0, "air", 10)
        self.port("in", (-30, 0, "left"))
        self.port("out", (-20, -25, "down"))
        self.port("air", (30, 0, "right"))
        self.port("exhaust", (20, -25, "down"))
        self.port("positive", (20, 25, "up"))
        self.port("negative", (-20, 25, "up"))


@symbol
class Pump(Symbol):
    """A circle with a triangle that points to the outlet."""

    name, says, form = "pump", "pump", PIPING

    def draw_strokes(self) -> None:
        self.ring(0, 0, ROUND)
        self.area((ROUND, 0), (-ROUND * 0.5, ROUND * 0.866), (-ROUND * 0.5, -ROUND * 0.866))
        self.through(ROUND)


@symbol
class Compressor(Symbol):
    """A circle with two strokes that close in toward the outlet."""

    name, says, form = "compressor", "compressor", PIPING

    def draw_strokes(self) -> None:
        self.ring(0, 0, ROUND)
        for sign in (1, -1):
            self.stroke((-9, sign * 12), (14, sign * 5.5))
        self.through(ROUND)


@symbol
class Booster(Symbol):
    """A large air piston drives a small gas piston through one rod."""

    name, says, form, turns = "booster", "air-driven piston booster", OWN, "aside"

    def draw_strokes(self) -> None:
        self.box(-16, -11, 16, 11)
        self.box(-26, 17, 26, 43)
        self.stroke((-16, 3), (16, 3))
        self.stroke((-26, 27), (26, 27))
        self.stroke((0, 3), (0, 27), weight=2.4)
        self.through(16)
        self.port("drive_air", (-26, 40, "left"))
        self.port("exhaust", (26, 40, "right"))


@symbol
class Cooler(Symbol):
    """A heat exchanger: the stream zigzags through a circle."""

    name, says, form = "cooler", "cooler", PIPING

    def draw_strokes(self) -> None:
        self.ring(0, 0, ROUND)
        self.stroke((-ROUND, 0), (-8, 0), (-4, 9), (4, -9), (8, 0), (ROUND, 0))
        self.through(ROUND)


@symbol
class ColdCoil(Symbol):
    """A coil in a cold box."""

    name, says, form = "cold_coil", "cold coil", OWN

    def draw_strokes(self) -> None:
        self.box(-20, -16, 20, 16)
        self.stroke((-20, 0), (-15, 0))
        heights = (10, -10)
        for number, x in enumerate((-12, -4, 4, 12)):
            self.stroke((x, -10), (x, 10), weight=1.2)
            if number < 3:
                y = heights[number % 2]
                self.arc(x + 4, y, 8, 6, 0, 180) if y > 0 else self.arc(x + 4, y, 8, 6, 180, 360)
        self.stroke((-15, 0), (-15, -10), (-12, -10), weight=1.2)
        self.stroke((12, -10), (15, -10), (15, 0), (20, 0), weight=1.2)
        self.through(20)


@symbol
class Filter(Symbol):
    """A mesh across the stream."""

    name, says, form = "filter", "filter", PIPING

    def draw_strokes(self) -> None:
        self.box(-15, -11, 15, 11)
        self.stroke((0, -11), (0, 11), dash="mesh")
        self.through(15)
