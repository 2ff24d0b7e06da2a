"""Vessels: upright bodies with dished ends, told apart by what stands inside."""

from __future__ import annotations

from diagrams.proportions import DISH, VESSEL
from diagrams.symbols.symbol import Symbol, symbol

WIDE, TALL = VESSEL
PIPING = "after ISO 10628-2, from memory"


class Vessel(Symbol):
    """An upright vessel; gas may enter and leave at the sides, the top and the bottom."""

    form = PIPING
    turns = "aside"

    def shell(self, wide: float = WIDE, tall: float = TALL) -> None:
        """The wall, the dished ends and the four ports."""
        straight = tall - DISH
        self.stroke((-wide, -straight), (-wide, straight))
        self.stroke((wide, -straight), (wide, straight))
        self.arc(0, straight, 2 * wide, 2 * DISH, 0, 180)
        self.arc(0, -straight, 2 * wide, 2 * DISH, 180, 360)
        self.through(wide)
        self.port("top", (0, tall, "up"))
        self.port("bottom", (0, -tall, "down"))

    def level(self, y: float, wide: float = WIDE) -> None:
        """The surface of a liquid, with two shorter strokes below it."""
        self.detail((-wide, y), (wide, y))
        self.detail((-wide * 0.5, y - 4), (wide * 0.5, y - 4))
        self.detail((-wide * 0.25, y - 8), (wide * 0.25, y - 8))


@symbol
class Separator(Vessel):
    """Gas and liquid part against a plate before the inlet; the liquid gathers below."""

    name, says = "separator", "gas-liquid separator"

    def draw_strokes(self) -> None:
        self.shell()
        self.detail((-8, 14), (-8, -6))
        self.level(-12)


@symbol
class Coalescer(Vessel):
    """Droplets grow in a cartridge and fall."""

    name, says = "coalescer", "coalescer"

    def draw_strokes(self) -> None:
        self.shell()
        for x in (-7, 7):
            self.detail((x, 18), (x, -8), dash="mesh")
        self.detail((-7, 18), (7, 18))
        self.detail((-7, -8), (7, -8))
        self.level(-16)


@symbol
class DegassingPot(Vessel):
    """Drained water rests and lets its gas rise."""

    name, says = "degassing_pot", "degassing pot"

    def draw_strokes(self) -> None:
        self.shell()
        self.level(2)
        for x, y, radius in ((-11, -6, 2.0), (10, -9, 2.4), (-7, -15, 1.5), (5, -18, 1.5)):
            self.ring(x, y, radius, weight=1)
        for x, y in ((-8, 9), (8, 12)):
            self.ring(x, y, 1.5, weight=1)


@symbol
class DesiccantColumn(Vessel):
    """A bed of beads between two screens."""

    name, says = "desiccant_column", "desiccant column"

    def draw_strokes(self) -> None:
        self.shell()
        for y in (-17.0, 17.0):
            self.detail((-WIDE, y), (WIDE, y), dash="mesh")
        for row, y in enumerate((-11.5, -4.0, 3.5, 11.0)):
            for x in (-13.0, -4.5, 4.0, 12.5) if row % 2 else (-9.0, -0.5, 8.0):
                self.ring(x, y, 1.6, weight=1)


@symbol
class Deioniser(Vessel):
    """A mixed bed of two resins, one for each sign of charge."""

    name, says = "deioniser", "mixed-bed deioniser"

    def draw_strokes(self) -> None:
        self.shell()
        for y in (-17.0, 17.0):
            self.detail((-WIDE, y), (WIDE, y), dash="mesh")
        for number, (x, y) in enumerate(((-9, 9), (9, 9), (-9, -9), (9, -9), (0, 0))):
            self.detail((x - 3.5, y), (x + 3.5, y))
            if number in (0, 3):
                self.detail((x, y - 3.5), (x, y + 3.5))


@symbol
class Buffer(Vessel):
    """A plain pressure vessel."""

    name, says = "buffer", "buffer vessel"

    def draw_strokes(self) -> None:
        self.shell(WIDE, TALL + 10)


@symbol
class Reservoir(Vessel):
    """A water tank under a loose lid."""

    name, says = "reservoir", "water reservoir"

    def draw_strokes(self) -> None:
        self.stroke((-30, 24), (-30, -30), (30, -30), (30, 24))
        self.stroke((-34, 24), (-30, 30), (30, 30), (34, 24), (-34, 24))
        self.detail((-30, 10), (30, 10))
        self.detail((-10, 5), (10, 5))
        self.detail((-5, 0), (5, 0))
        self.area((-4, 17), (4, 17), (0, 10), weight=1)
        self.through(30)
        self.port("top", (0, 30, "up"))
        self.port("bottom", (0, -30, "down"))
        self.port("fill", (-20, 30, "up"))
        self.port("return", (20, 30, "up"))


@symbol
class Bank(Symbol):
    """Cylinders under one header."""

    name, says, form, turns = "bank", "bank of cylinders", PIPING, "aside"

    def draw_strokes(self) -> None:
        self.stroke((-30, 0), (30, 0))
        for x in (-20, 0, 20):
            self.stroke((x, 0), (x, -10))
            self.stroke((x - 3, -10), (x + 3, -10))
            self.stroke((x - 7, -52), (x - 7, -20))
            self.stroke((x + 7, -52), (x + 7, -20))
            self.stroke((x - 7, -52), (x + 7, -52))
            self.curve((x - 7, -20), (x - 7, -13), (x - 3, -15), (x - 3, -10))
            self.curve((x + 7, -20), (x + 7, -13), (x + 3, -15), (x + 3, -10))
        self.through(30)
        self.port("top", (0, 0, "up"))


@symbol
class VehicleTank(Symbol):
    """A lying vessel on wheels."""

    name, says, form, turns = "vehicle_tank", "vehicle tank", PIPING, "aside"

    def draw_strokes(self) -> None:
        self.stroke((-20, 13), (20, 13))
        self.stroke((-20, -13), (20, -13))
        self.arc(-20, 0, 20, 26, 90, 270)
        self.arc(20, 0, 20, 26, 270, 450)
        for x in (-15, 15):
            self.ring(x, -18.5, 5)
        self.through(30)
