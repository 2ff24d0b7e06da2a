"""Plots: even ticks, a dash and a name for each curve, limits and marks, and words for who cannot see it."""

from __future__ import annotations

import math
from xml.etree import ElementTree

import pytest

from diagrams import DrawingError, Text
from diagrams.panels import Panel
from diagrams.places import Box
from diagrams.plots import Axis, Limit, Mark, Series, plot, plot_panels, ticks_of
from tests.diagrams.plot_labels import boxes_of, meeting, outside

SVG = "{http://www.w3.org/2000/svg}"
COLD = Series(Text("20 °C", "293 K", "68 °F"), tuple((x, 1.5 + 0.01 * x) for x in range(0, 61, 5)))
HOT = Series(Text("60 °C", "333 K", "140 °F"), tuple((x, 1.45 + 0.01 * x) for x in range(0, 61, 5)))
X, Y = Axis(Text("current, A")), Axis(Text("cell voltage, V"))


def drawn(*series: Series, **more: object) -> ElementTree.Element:
    about = {"title": "Polarisation", "description": "It rises.", "identity": "curve"} | more
    return ElementTree.fromstring(plot(series, X, Y, **about))


@pytest.mark.parametrize(
    ("low", "high", "texts"),
    [
        (0, 60, ["0", "10", "20", "30", "40", "50", "60"]),
        (1.45, 2.1, ["1.4", "1.6", "1.8", "2.0", "2.2"]),
        (-8, 3, ["−8", "−6", "−4", "−2", "0", "2", "4"]),
        (0.0012, 0.0047, ["0.001", "0.002", "0.003", "0.004", "0.005"]),
    ],
)
def test_ticks_are_even_and_enclose_the_values(low: float, high: float, texts: list[str]) -> None:
    ticks = ticks_of(Axis(Text("x")), [low, high])
    assert [said.workshop for _, said in ticks] == texts
    assert ticks[0][0] <= low + 1e-9
    assert ticks[-1][0] >= high - 1e-9


@pytest.mark.parametrize("value", [0.0, 5.0, -3.0, 1e6])
def test_a_flat_curve_still_has_an_axis(value: float) -> None:
    ticks = ticks_of(Axis(Text("x")), [value, value])
    assert ticks[0][0] < value < ticks[-1][0]


def test_each_curve_has_its_own_dash_and_its_name_at_its_end() -> None:
    svg = drawn(COLD, HOT)
    curves = [path for path in svg.iter(f"{SVG}path") if "gw-series" in path.get("class")]
    assert len({curve.get("stroke-dasharray") for curve in curves}) == 2
    names = [text for text in svg.iter(f"{SVG}text") if "gw-series-name" in text.get("class")]
    assert {(name.text, name.get("data-si"), name.get("data-us")) for name in names} == {
        ("20 °C", "293 K", "68 °F"), ("60 °C", "333 K", "140 °F"),
    }  # fmt: skip
    assert abs(float(names[0].get("y")) - float(names[1].get("y"))) >= 11


def test_a_curve_stands_where_its_values_say() -> None:
    """Between the first and the last tick the paper is 460 wide and 260 high; 1.5 V lies half way from 1 to 2."""
    half = Series(Text("half"), ((0, 1), (30, 1.5), (60, 2)))
    svg = drawn(half)
    curve = next(path for path in svg.iter(f"{SVG}path") if "gw-series" in path.get("class"))
    assert curve.get("d") == "M0 260L230 130L460 0"


def test_limits_and_marks_are_drawn_and_their_labels_keep_clear_of_the_curves() -> None:
    svg = drawn(COLD, limits=[Limit(2.0, Text("trip"))], marks=[Mark(30, 1.8, Text("measured"))])
    texts = {text.text: text for text in svg.iter(f"{SVG}text")}
    assert {"trip", "measured"} <= set(texts)
    measured = texts["measured"]
    x, y = float(measured.get("x")), float(measured.get("y"))
    box = Box(x, y - 8, x + 30, y)
    curve = next(path for path in svg.iter(f"{SVG}path") if "gw-series" in path.get("class"))
    for point in curve.get("d")[1:].split("L"):
        px, py = map(float, point.split())
        assert not box.meets(Box(px - 1, py - 1, px + 1, py + 1))


def test_it_is_titled_and_brings_no_style() -> None:
    svg = drawn(COLD)
    assert svg.get("role") == "img"
    assert [svg.find(f"{SVG}title").text, svg.find(f"{SVG}desc").text] == ["Polarisation", "It rises."]
    for element in svg.iter():
        assert element.get("style") is None
        assert element.get("stroke") in (None, "none", "currentColor")


@pytest.mark.parametrize(
    ("series", "more", "message"),
    [
        ((), {}, "at least one series"),
        ((Series(Text("one"), ((0, 0),)),), {}, "at least two points"),
        ((Series(Text("bad"), ((0, 0), (1, math.nan))),), {}, "which is no point"),
        ((COLD,), {"description": " "}, "needs a description"),
        ((COLD,), {"limits": [Limit(math.inf, Text("no"))]}, "no place for a limit"),
        ((COLD,) * 7, {}, "at most 6 series"),
    ],
)
def test_what_cannot_be_drawn_is_refused(series: tuple[Series, ...], more: dict[str, object], message: str) -> None:
    with pytest.raises(DrawingError, match=message):
        drawn(*series, **more)


def test_an_axis_too_short_is_refused() -> None:
    with pytest.raises(DrawingError, match="its values go beyond"):
        ticks_of(Axis(Text("x"), low=0, high=1), [0, 2])
    with pytest.raises(DrawingError, match="must enclose"):
        ticks_of(Axis(Text("x"), ticks=((0, Text("0")), (1, Text("1")))), [0, 2])


def test_an_axis_by_powers_of_ten_has_one_at_each_tick() -> None:
    """1, 10 and 100 stand evenly, since their logarithms are 0, 1 and 2."""
    axis = Axis(Text("load"), logarithmic=True)
    assert [place for place, _ in ticks_of(axis, [0.02, 40])] == pytest.approx([0.01, 0.1, 1, 10, 100])
    svg = ElementTree.fromstring(
        plot([Series(Text("one"), ((0, 1), (1, 10), (2, 100)))], X, axis, title="t", description="d", identity="i")
    )
    curve = next(path for path in svg.iter(f"{SVG}path") if "gw-series" in path.get("class"))
    assert curve.get("d") == "M0 260L230 130L460 0"
    with pytest.raises(DrawingError, match="no place for 0"):
        ticks_of(axis, [0, 40])


def test_panels_share_one_level_axis_and_keep_their_labels_apart() -> None:
    panels = [
        Panel(Y, (COLD, HOT), (Limit(2.0, Text("trip 2 V")), Limit(30, Text("alarm at 30 A"), upright_axis=False)),
              (Mark(30, 1.8, Text("30 A: 1.8 V")),), 120),
        Panel(Y, (Series(Text("falls to nothing"), ((0, 2), (60, 0))),), height=120),
    ]  # fmt: skip
    svg = ElementTree.fromstring(plot_panels(panels, X, title="t", description="d", identity="i"))
    for system in ("workshop", "data-si", "data-us"):
        boxes = boxes_of(svg, system)
        assert not meeting(boxes)
        assert not outside(svg, boxes)
    assert [text.text for text in svg.iter(f"{SVG}text")].count("current, A") == 1
    curves = [path.get("d") for path in svg.iter(f"{SVG}path") if "gw-series" in path.get("class")]
    assert {d.split("L")[0].split()[0] for d in curves} == {"M0"}


def test_labels_that_meet_are_found() -> None:
    svg = ElementTree.fromstring(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20"><text x="0" y="10" font-size="10" '
        'text-anchor="start">one</text><text x="5" y="12" font-size="10" text-anchor="start">two</text></svg>'
    )
    assert meeting(boxes_of(svg)) == [("one", "two")]
    assert outside(svg, boxes_of(svg)) == ["two"]


def test_points_that_alone_mean_something_are_dotted() -> None:
    stages = Series(Text("stages"), ((0, 1), (1, 2), (2, 3)), dotted=True)
    dots = [each for each in drawn(stages).iter(f"{SVG}circle") if each.get("class") == "gw-dot"]
    assert len(dots) == 3
