"""Instruments: a circle that a thin line ties to what it feels; the tag stands inside or beside it."""

from __future__ import annotations

from diagrams.metrics import text_width
from diagrams.proportions import BUBBLE, DIAL
from diagrams.symbols.symbol import Symbol, symbol

SIGNS = "circle of an instrument after ISO 10628-2 and IEC 62424, from memory; the sign inside is our own"


class Instrument(Symbol):
    """A circle, drawn out where the tag needs it; the line may reach it from any side."""

    form = SIGNS
    turns = "aside"
    tag_inside = True

    def bubble(self) -> float:
        """The outline with the tag inside and a port on each side; half the straight part is returned."""
        straight = max(0.0, text_width(self.setting.tag, BUBBLE, bold=True) - 1.45 * DIAL) / 2
        if straight:
            self.stroke((-straight, DIAL), (straight, DIAL))
            self.stroke((-straight, -DIAL), (straight, -DIAL))
            self.arc(-straight, 0, 2 * DIAL, 2 * DIAL, 90, 270)
            self.arc(straight, 0, 2 * DIAL, 2 * DIAL, 270, 450)
        else:
            self.ring(0, 0, DIAL)
        self.letters(0, 2.5, self.setting.tag, BUBBLE, "gw-tag")
        self.tap(DIAL + straight, DIAL)
        return straight

    def tap(self, wide: float, tall: float) -> None:
        """The one port, at any side."""
        self.port("tap", (0, -tall, "down"), (0, tall, "up"), (-wide, 0, "left"), (wide, 0, "right"))


@symbol
class PressureGauge(Instrument):
    """A dial with its pointer."""

    name, says, tag_inside = "pressure_gauge", "pressure gauge", False

    def draw_strokes(self) -> None:
        self.ring(0, 0, DIAL)
        self.stroke((-4.5, -4.5), (3.5, 3.5))
        self.area((8, 8), (1.2, 5), (5, 1.2), filled=True, weight=0.5)
        self.tap(DIAL, DIAL)


@symbol
class PressureSwitch(Instrument):
    """Under the tag, a contact that opens."""

    name, says = "pressure_switch", "pressure switch"

    def draw_strokes(self) -> None:
        self.bubble()
        self.detail((-7, -8.5), (-3, -8.5), (3, -5.5))
        self.detail((3, -8.5), (7, -8.5))


@symbol
class Transmitter(Instrument):
    """Under the tag, a signal that leaves."""

    name, says = "transmitter", "transmitter"

    def draw_strokes(self) -> None:
        self.bubble()
        self.detail((-6, -7.5), (3, -7.5))
        self.tip(7, -7.5, "right", 5, 4.5)


@symbol
class GasDetector(Instrument):
    """Under the tag, gas that drifts."""

    name, says = "gas_detector", "gas detector"

    def draw_strokes(self) -> None:
        self.bubble()
        for x, y in ((-4, -7), (0, -9.5), (4, -7)):
            self.ring(x, y, 1.1, filled=True, weight=0.5)
