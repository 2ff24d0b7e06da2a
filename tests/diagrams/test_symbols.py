"""Each symbol offers ports that lie on its ink, shows its states in distinct forms, and turns as it is asked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations, pairwise

import pytest
from schemdraw.segments import Segment, SegmentArc, SegmentBezier, SegmentCircle, SegmentPoly

from diagrams import Item, catalogue, entries, symbol_drawing, symbol_ports
from diagrams.places import Grid, strokes, turned
from diagrams.proportions import OUTLINE, STEP
from diagrams.symbols import SIDES, Setting, Symbol, symbols

KINDS = {kind.name: kind for kind in symbols()}
ASKED = (
    "hand_valve needle_valve three_way_valve actuated_valve non_return_valve excess_flow_valve relief_valve burst_disc "
    "pressure_regulator back_pressure_regulator pressure_switch pressure_gauge transmitter gas_detector booster "
    "compressor air_regulator buffer bank quick_coupling breakaway hose vent flame_arrestor purge_inlet burner "
    "fuel_cell receptacle vehicle_tank stack separator coalescer drain degassing_pot desiccant_column cold_coil "
    "reservoir deioniser pump cooler filter rectifier supply fuse isolator junction"
)
WITHOUT_RUN = [
    "pressure_switch",
    "pressure_gauge",
    "transmitter",
    "gas_detector",
    "vent",
    "purge_inlet",
    "burner",
    "stack",
    "supply",
    "fuel_cell",
]
"""What no line passes through: ends, instruments, and what has a port of its own for each stream."""


def drawn(kind: type[Symbol], *, facing: str = "right", state: str | None = None) -> Symbol:
    return turned(kind.name, facing, Setting("AB12", state))


def bezier(handles: Sequence[tuple[float, float]], share: float) -> tuple[float, float]:
    """A point of a curve with four handles, by de Casteljau's halving of the straight lines between them."""
    points = list(handles)
    while len(points) > 1:
        points = [(ax + (bx - ax) * share, ay + (by - ay) * share) for (ax, ay), (bx, by) in pairwise(points)]
    return points[0]


def ink(symbol: Symbol) -> list[tuple[float, float]]:
    """Points close together along every stroke, in the drawing's coordinates."""
    points: list[tuple[float, float]] = []

    def run(path: list[tuple[float, float]]) -> None:
        for (ax, ay), (bx, by) in pairwise(path):
            pieces = max(1, math.ceil(math.hypot(bx - ax, by - ay) / 0.2))
            points.extend((ax + (bx - ax) * n / pieces, ay + (by - ay) * n / pieces) for n in range(pieces + 1))

    for segment in symbol.segments:
        if isinstance(segment, Segment):
            run([tuple(p) for p in segment.path])
        elif isinstance(segment, SegmentPoly):
            run([tuple(p) for p in [*segment.verts, segment.verts[0]]])
        elif isinstance(segment, SegmentCircle):
            (x, y), r = segment.center, segment.radius
            run([(x + r * math.cos(a / 60 * math.tau), y + r * math.sin(a / 60 * math.tau)) for a in range(61)])
            if segment.fill:
                run([(x - r, y), (x + r, y)])
        elif isinstance(segment, SegmentArc):
            (x, y), (w, h) = segment.center, (segment.width / 2, segment.height / 2)
            angles = [math.radians(segment.theta1 + (segment.theta2 - segment.theta1) * n / 60) for n in range(61)]
            run([(x + w * math.cos(a), y + h * math.sin(a)) for a in angles])
        elif isinstance(segment, SegmentBezier):
            run([bezier(segment.p, n / 40) for n in range(41)])
    return [tuple(symbol.transform.transform(point)) for point in points]


def written(kind: type[Symbol], state: str | None) -> str:
    return strokes(kind.name, "right", Setting("AB12", state), OUTLINE)


def test_every_symbol_that_a_plant_needs_is_there() -> None:
    assert sorted(KINDS) == sorted(ASKED.split())


@pytest.mark.parametrize("name", sorted(set(KINDS) - set(WITHOUT_RUN)))
def test_what_stands_in_a_line_has_an_in_and_an_out(name: str) -> None:
    assert {"in", "out"} <= set(symbol_ports(name))


@pytest.mark.parametrize("name", ["pressure_gauge", "pressure_switch", "transmitter", "gas_detector"])
def test_an_instrument_has_one_tap(name: str) -> None:
    assert symbol_ports(name) == ("tap",)


TURNED = [
    (name, facing)
    for name, kind in sorted(KINDS.items())
    for facing in ("right", "left", "up", "down")
    if kind.turns != "aside" or facing in ("right", "left")
]
"""Every symbol in every way that it may face."""


@pytest.mark.parametrize(("name", "facing"), TURNED)
def test_every_port_lies_on_the_ink(name: str, facing: str) -> None:
    kind = KINDS[name]
    symbol = drawn(kind, facing=facing)
    points = ink(symbol)
    for port, spots in symbol.sides.items():
        for anchor, _ in spots:
            x, y = symbol.absanchors[anchor]
            away = min(math.hypot(px - x, py - y) for px, py in points)
            assert away <= 0.5, f"{name}.{port} lies {away:.1f} off the ink"


@pytest.mark.parametrize("name", sorted(KINDS))
def test_every_port_leaves_outward_and_on_the_lattice(name: str) -> None:
    """A line leaves toward the outside of the ink, and across its way the port stands on a lattice line."""
    placed = Grid([Item("AB1", name, (0, 0))]).place(Item("AB1", name, (0, 0)))
    box = placed.box
    for port, spots in placed.ports.items():
        for spot in spots:
            across = spot.y if spot.side in ("left", "right") else spot.x
            assert across % STEP == 0, f"{name}.{port} at {across}"
            way = SIDES[spot.side]
            middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
            outward = (spot.x - middle[0]) * way[0] - (spot.y - middle[1]) * way[1]
            assert outward >= 0 or name == "bank", f"{name}.{port} leaves {spot.side} through its own symbol"


@pytest.mark.parametrize("name", sorted(name for name, kind in KINDS.items() if kind.states))
def test_every_state_has_its_own_form(name: str) -> None:
    kind = KINDS[name]
    forms = {state: written(kind, state) for state in kind.states}
    for one, other in combinations(forms, 2):
        assert forms[one] != forms[other], f"{name} looks the same {one} and {other}"


@pytest.mark.parametrize("name", ["hand_valve", "needle_valve", "actuated_valve", "three_way_valve", "drain"])
def test_a_closed_valve_is_filled_and_an_open_one_hollow(name: str) -> None:
    closed, opened = written(KINDS[name], "closed"), written(KINDS[name], "open")
    assert closed.count('fill="currentColor"') > opened.count('fill="currentColor"')
    assert opened == written(KINDS[name], None)


@pytest.mark.parametrize(
    ("state", "filled"), [("open", 0), ("in_out", 1), ("in_branch", 1), ("branch_out", 1), ("closed", 3)]
)
def test_a_three_way_valve_fills_the_legs_that_are_shut(state: str, filled: int) -> None:
    assert written(KINDS["three_way_valve"], state).count('fill="currentColor"') == filled


@pytest.mark.parametrize("name", sorted(KINDS))
def test_every_symbol_says_what_it_is_and_where_its_form_comes_from(name: str) -> None:
    kind = KINDS[name]
    assert kind.__doc__
    assert kind.says
    assert "from memory" in kind.form or kind.form.startswith("our own")


def test_no_two_symbols_look_alike() -> None:
    forms: dict[str, str] = {}
    for name, kind in KINDS.items():
        form = written(kind, None)
        assert form not in forms, f"{name} looks like {forms[form]}"
        forms[form] = name


def test_the_catalogue_shows_every_symbol_once() -> None:
    text = catalogue(identity="all", title="Symbols")
    for name in KINDS:
        assert text.count(f'class="gw-item-{name}"') == 1
    assert [entry.name for entry in entries()] == list(KINDS)


def test_one_symbol_alone_is_a_titled_image() -> None:
    text = symbol_drawing("relief_valve", identity="one")
    assert '<title id="one-title">relief valve</title>' in text
    assert 'role="img"' in text
