"""Valves: two triangles that meet, hollow when open and filled when closed, with the sign of what moves them."""

from __future__ import annotations

from typing import ClassVar

from diagrams.proportions import BOW, DOME, HANDLE, STEM
from diagrams.symbols.symbol import Symbol, symbol

LENGTH, HEIGHT = BOW
PIPING = "after ISO 10628-2, from memory"


class Valve(Symbol):
    """A valve body in the run of a line."""

    form = PIPING
    states: ClassVar[tuple[str, ...]] = ("open", "closed")

    @property
    def closed(self) -> bool:
        """Whether the body is drawn filled."""
        return self.setting.state == "closed"

    def body(self) -> None:
        """The two triangles and the ports at their bases."""
        self.area((-LENGTH, HEIGHT), (0, 0), (-LENGTH, -HEIGHT), filled=self.closed)
        self.area((LENGTH, HEIGHT), (0, 0), (LENGTH, -HEIGHT), filled=self.closed)
        self.through(LENGTH)

    def hand(self, foot: float = 0) -> None:
        """A spindle with the cross-bar of a hand operator."""
        self.stroke((0, foot), (0, STEM))
        self.stroke((-HANDLE, STEM), (HANDLE, STEM))

    def dome(self) -> None:
        """A spindle with a diaphragm."""
        self.stroke((0, 0), (0, STEM - 4))
        self.stroke((-DOME, STEM - 4), (DOME, STEM - 4))
        self.arc(0, STEM - 4, 2 * DOME, 2 * DOME, 0, 180)


@symbol
class HandValve(Valve):
    """A stop valve moved by hand."""

    name, says = "hand_valve", "hand valve"

    def draw_strokes(self) -> None:
        self.body()
        self.hand()


@symbol
class NeedleValve(Valve):
    """A hand valve with a needle that points into the seat."""

    name, says = "needle_valve", "needle valve"

    def draw_strokes(self) -> None:
        self.body()
        self.area((-3.5, STEM - 3), (3.5, STEM - 3), (0, 0.5), filled=True)
        self.hand(foot=STEM - 3)


@symbol
class ThreeWayValve(Valve):
    """A valve with three legs; its position names the legs that are open, the others are filled."""

    name, says = "three_way_valve", "three-way valve"
    states = ("open", "closed", "in_out", "in_branch", "branch_out")

    def draw_strokes(self) -> None:
        state = self.setting.state
        shut = {"in_out": ("branch",), "in_branch": ("out",), "branch_out": ("in",), "closed": ("in", "out", "branch")}
        filled = shut.get(state or "open", ())
        self.area((-LENGTH, HEIGHT), (0, 0), (-LENGTH, -HEIGHT), filled="in" in filled)
        self.area((LENGTH, HEIGHT), (0, 0), (LENGTH, -HEIGHT), filled="out" in filled)
        self.area((-HEIGHT, -LENGTH), (0, 0), (HEIGHT, -LENGTH), filled="branch" in filled)
        self.through(LENGTH)
        self.port("branch", (0, -LENGTH, "down"))
        self.hand()


@symbol
class ActuatedValve(Valve):
    """A valve moved by a diaphragm."""

    name, says = "actuated_valve", "actuated valve"

    def draw_strokes(self) -> None:
        self.body()
        self.dome()


@symbol
class NonReturnValve(Symbol):
    """Two seats and the flap between them, hinged at the dot; the arrow shows the way that is free."""

    name, says, form = "non_return_valve", "non-return valve", PIPING

    def draw_strokes(self) -> None:
        x, y = 10, HEIGHT
        self.stroke((-x, -y), (-x, y))
        self.stroke((x, -y), (x, y))
        self.stroke((-x, y), (x - 3, -y + 2.7))
        self.area((x, -y), (x - 7.4, -y + 2.9), (x - 3.6, -y + 7.2), filled=True, weight=0.5)
        self.ring(-x, y, 2.4, filled=True)
        self.through(x)


@symbol
class ExcessFlowValve(Valve):
    """A valve that too strong a flow shuts: above the body an arrow that runs against a stop."""

    name, says = "excess_flow_valve", "excess-flow valve"

    def draw_strokes(self) -> None:
        self.body()
        self.stroke((-LENGTH, STEM), (LENGTH - 6, STEM))
        self.tip(LENGTH - 2, STEM, "right", 7, 6)
        self.stroke((LENGTH - 1, STEM - 5), (LENGTH - 1, STEM + 5))


@symbol
class ReliefValve(Symbol):
    """An angle body under a spring: the gas enters below and leaves at the side."""

    name, says, form = "relief_valve", "relief valve", PIPING

    def draw_strokes(self) -> None:
        self.area((-HEIGHT, -LENGTH), (HEIGHT, -LENGTH), (0, 0))
        self.area((LENGTH, HEIGHT), (LENGTH, -HEIGHT), (0, 0))
        self.stroke((0, 0), (0, 4), (-5, 6.5), (5, 10), (-5, 13.5), (5, 17), (0, 19.5))
        self.stroke((-5, 19.5), (5, 19.5))
        self.port("in", (0, -LENGTH, "down"))
        self.port("out", (LENGTH, 0, "right"))


@symbol
class BurstDisc(Symbol):
    """A disc that bulges the way it will burst, in its holder."""

    name, says, form = "burst_disc", "burst disc", PIPING

    def draw_strokes(self) -> None:
        self.box(-8, -10, 8, 10)
        self.curve((-4, 10), (7, 5), (7, -5), (-4, -10))
        self.through(8)


class Regulator(Valve):
    """A valve under a diaphragm that feels a pressure through a thin line."""

    states = ()

    def feel(self, x: float) -> None:
        """The sensing line, from the run of the line to the diaphragm."""
        self.detail((x, 0), (x, STEM), (DOME if x > 0 else -DOME, STEM), dash="sense")


@symbol
class PressureRegulator(Regulator):
    """Lowers a pressure: its diaphragm feels the outlet."""

    name, says = "pressure_regulator", "pressure regulator"

    def draw_strokes(self) -> None:
        self.body()
        self.dome()
        self.feel(LENGTH + 4)
        self.stroke((LENGTH, 0), (LENGTH + 4, 0))
        self.port("out", (LENGTH + 4, 0, "right"))


@symbol
class BackPressureRegulator(Regulator):
    """Holds a pressure before it: its diaphragm feels the inlet."""

    name, says = "back_pressure_regulator", "back-pressure regulator"

    def draw_strokes(self) -> None:
        self.body()
        self.dome()
        self.feel(-LENGTH - 4)
        self.stroke((-LENGTH, 0), (-LENGTH - 4, 0))
        self.port("in", (-LENGTH - 4, 0, "left"))


@symbol
class AirRegulator(Regulator):
    """A pressure regulator for air that bleeds its diaphragm to the room."""

    name, says = "air_regulator", "air regulator"

    def draw_strokes(self) -> None:
        self.body()
        self.dome()
        self.feel(LENGTH + 4)
        self.stroke((LENGTH, 0), (LENGTH + 4, 0))
        self.port("out", (LENGTH + 4, 0, "right"))
        top = STEM - 4 + DOME
        self.stroke((0, top), (0, top + 3))
        self.area((-4, top + 3), (4, top + 3), (0, top + 8))
