"""What joins, opens, protects and ends a line: tees, hoses, couplings, drains, vents, arrestors, inlets."""

from __future__ import annotations

from diagrams.proportions import DOT
from diagrams.symbols.symbol import Symbol, symbol

PIPING = "after ISO 10628-2 and ISO 14617, from memory"
OWN = "our own, since no general form is remembered"


@symbol
class Junction(Symbol):
    """A dot where lines join; it bears no tag."""

    name, says, form, tag_shown = "junction", "junction", PIPING, False

    def draw_strokes(self) -> None:
        self.ring(0, 0, DOT - 0.5, filled=True, weight=1)
        for name, first in (("in", "left"), ("out", "right"), ("branch", "down")):
            sides = (first, *(side for side in ("left", "right", "down", "up") if side != first))
            self.port(name, *((0, 0, side) for side in sides))


@symbol
class Drain(Symbol):
    """A float trap with the orifice after it; filled while it is shut."""

    name, says, form = "drain", "drain with orifice", OWN
    states = ("open", "closed")

    def draw_strokes(self) -> None:
        self.ring(-6, 0, 9, filled=self.setting.state == "closed")
        if self.setting.state != "closed":
            # The float alone: the symbol turns with the flow, and a water level must not.
            self.ring(-6, 0, 3, weight=1)
        self.stroke((3, 0), (15, 0))
        for sign in (1, -1):
            self.stroke((9, sign * 9), (9, sign * 2.5), weight=2)
        self.through(15)


@symbol
class Hose(Symbol):
    """A line that gives."""

    name, says, form = "hose", "hose", PIPING

    def draw_strokes(self) -> None:
        self.curve((-20, 0), (-14, 11), (-6, 11), (0, 0))
        self.curve((0, 0), (6, -11), (14, -11), (20, 0))
        self.through(20)


@symbol
class QuickCoupling(Symbol):
    """A socket and the plug in it; apart, and both ends shut, while it is closed."""

    name, says, form = "quick_coupling", "quick coupling", OWN
    states = ("open", "closed")

    def draw_strokes(self) -> None:
        apart = self.setting.state == "closed"
        plug = 9 if apart else 1
        self.stroke((4, 9), (-8, 9), (-8, -9), (4, -9))
        self.stroke((-15, 0), (-8, 0))
        self.box(plug - 4, -4.5, plug + 4, 4.5, filled=apart)
        self.stroke((plug + 4, 0), (15, 0))
        if apart:
            self.stroke((-4.5, -5), (-4.5, 5), weight=2.4)
        else:
            self.stroke((-8, 0), (plug - 4, 0))
        self.through(15)


@symbol
class Breakaway(Symbol):
    """Two halves, each with its own stop, that part along the slanted break."""

    name, says, form = "breakaway", "breakaway coupling", OWN

    def draw_strokes(self) -> None:
        self.area((-15, 8), (-15, -8), (-5, -8), (1, 8))
        self.area((15, 8), (15, -8), (-1, -8), (5, 8))
        self.through(15)


@symbol
class Vent(Symbol):
    """A riser to the open, under a cowl."""

    name, says, form, turns, tag_side = "vent", "vent to the open", PIPING, "over", "right"

    def draw_strokes(self) -> None:
        self.stroke((0, -15), (0, 4))
        self.tip(0, 11, "up", 9, 8)
        self.stroke((-11, 9), (0, 17), (11, 9))
        self.port("in", (0, -15, "down"))


@symbol
class FlameArrestor(Symbol):
    """Narrow passages between two plates."""

    name, says, form = "flame_arrestor", "flame arrestor", PIPING

    def draw_strokes(self) -> None:
        self.box(-15, -10, 15, 10)
        for x in (-9, -3, 3, 9):
            self.detail((x, -10), (x, 10))
        self.through(15)


@symbol
class PurgeInlet(Symbol):
    """A capped connection through which inert gas is let in."""

    name, says, form = "purge_inlet", "purge inlet", OWN

    def draw_strokes(self) -> None:
        self.stroke((-13, -9), (-13, 9), weight=2.2)
        self.area((-9, 9), (-9, -9), (9, 0))
        self.stroke((-13, 6), (-9, 6))
        self.stroke((-13, -6), (-9, -6))
        self.stroke((9, 0), (15, 0))
        self.port("out", (15, 0, "right"))


@symbol
class Receptacle(Symbol):
    """The mouth of what is filled: a socket that takes the nozzle."""

    name, says, form = "receptacle", "filling receptacle", OWN

    def draw_strokes(self) -> None:
        self.stroke((-15, 0), (-2, 0))
        self.tip(4, 0, "right", 8, 7)
        self.arc(-4, 0, 22, 22, 270, 450)
        self.stroke((-4, 11), (-8, 11))
        self.stroke((-4, -11), (-8, -11))
        self.stroke((7, 0), (15, 0))
        self.through(15)


@symbol
class Burner(Symbol):
    """A nozzle with its flame."""

    name, says, form, turns = "burner", "burner", OWN, "aside"

    def draw_strokes(self) -> None:
        self.stroke((-15, 0), (0, 0), (0, 5))
        self.stroke((-7, 5), (7, 5))
        self.curve((0, 28), (-9, 18), (-10, 9), (0, 8))
        self.curve((0, 28), (9, 18), (10, 9), (0, 8))
        self.port("in", (-15, 0, "left"))
