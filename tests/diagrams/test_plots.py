"""Plots: even ticks, a dash and a name for each curve, limits and marks, and words for who cannot see it."""

from __future__ import annotations

import math
from xml.etree import ElementTree

import pytest

from diagrams import DrawingError, Text
from diagrams.places import Box
from diagrams.plots import Axis, Limit, Mark, Series, plot, ticks_of

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
