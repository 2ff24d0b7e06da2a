"""The schematic of a sheet, measured in the raster as a printer makes it: every symbol and every line has ink."""

import itertools
import re

import numpy as np
import pytest

from macros.sheets.wall import setting
from macros.sheets.wall.setting import PICTURE_SHARE

DPI = 300
KEYS = [("bench", "a4", "workshop"), ("farm", "a4", "workshop"), ("shed", "a4", "workshop")]
NUMBER = r"(-?[\d.]+)"


class Picture:
    """The drawing of a sheet on its raster."""

    def __init__(self, plant, sheet):
        wall = plant.description.wall
        width = setting.LEAF_MM * PICTURE_SHARE / 25.4 * 72
        self.drawn = setting._drawn(plant, width, float(wall.drawing.height.si) / setting.POINT_M)
        self.ink = sheet.ink(1, DPI)
        view = re.search(rf'viewBox="{NUMBER} {NUMBER} {NUMBER} {NUMBER}"', self.drawn.svg).groups()
        self.left, self.top, *_ = map(float, view)
        # Where the drawing lies on the page is told by its tags, each of which stands on the sheet once more than once.
        words = {(word.text, round(word.left - x, 1), round(word.top - y, 1)) for word in sheet.words(1)
                 for tag, x, y in self.drawn.tags if word.text == tag}  # fmt: skip
        places = [place[1:] for place in words]
        self.at = max(set(places), key=places.count)
        self.found = {word for word, *place in words if np.hypot(place[0] - self.at[0], place[1] - self.at[1]) < 0.3}

    def pixel(self, x, y):
        """The place of a point of the SVG."""
        across = self.at[0] + (x - self.left) * self.drawn.scale
        upright = self.at[1] + (y - self.top) * self.drawn.scale
        return round(upright / 72 * DPI), round(across / 72 * DPI)

    def darkest(self, x, y, reach=1):
        row, column = self.pixel(x, y)
        return self.ink[row - reach : row + reach + 1, column - reach : column + reach + 1].min()

    def stretches(self, *, dashed):
        """The straight stretches of the lines, start and end."""
        for path, rest in re.findall(r'<path d="(M[^"]*)"([^>]*)/>', self.drawn.svg.split('class="gw-symbol"')[0]):
            if ("dasharray" in rest) == dashed:
                for piece in path.split("M")[1:]:  # up to the first bridge
                    points = [tuple(map(float, pair.split())) for pair in piece.split("A")[0].split("L")]
                    yield from itertools.pairwise(points)

    def symbols(self):
        for x, y, strokes in re.findall(rf'transform="translate\({NUMBER} {NUMBER}\)"[^>]*>(.*?)</g>', self.drawn.svg):
            yield float(x), float(y), strokes


@pytest.fixture(scope="module", params=KEYS, ids="-".join)
def picture(request, plants, sheets):
    return Picture(plants[request.param[0]], sheets[request.param])


def test_every_tag_of_the_plan_stands_on_the_sheet(picture):
    tags = [tag for tag, *_ in picture.drawn.tags]
    assert len(tags) == len(set(tags)) > 40
    assert picture.found == set(tags)


def test_solid_lines_are_black_from_end_to_end(picture):
    checked = 0
    for (ax, ay), (bx, by) in picture.stretches(dashed=False):
        if abs(ax - bx) + abs(ay - by) > 8:
            for share in (0.1, 0.35, 0.5, 0.65, 0.9):
                assert picture.darkest(ax + (bx - ax) * share, ay + (by - ay) * share) < 110
            checked += 1
    assert checked > 15


def test_dashed_lines_show_strokes_and_gaps(picture):
    shares = []
    for (ax, ay), (bx, by) in picture.stretches(dashed=True):
        length = abs(ax - bx) + abs(ay - by)
        if length > 40:
            steps = np.linspace(0.05, 0.95, 2 * int(length))
            dark = [picture.darkest(ax + (bx - ax) * at, ay + (by - ay) * at) < 150 for at in steps]
            shares.append(float(np.mean(dark)))
    assert len(shares) > 10
    assert min(shares) > 0.25
    assert np.median(shares) < 0.98


def test_every_symbol_has_ink(picture):
    symbols = list(picture.symbols())
    assert len(symbols) > 40
    for x, y, strokes in symbols:
        assert "<text" not in strokes
        on_x, on_y = stroke_of(strokes)
        assert picture.darkest(x + on_x, y + on_y) < 140, strokes


def stroke_of(strokes):
    """A point on the first stroke of a symbol."""
    if found := re.match(rf'<path d="M{NUMBER} {NUMBER} L{NUMBER} {NUMBER}', strokes):
        ax, ay, bx, by = map(float, found.groups())
        return (ax + bx) / 2, (ay + by) / 2
    if found := re.match(rf'<polygon points="{NUMBER},{NUMBER} {NUMBER},{NUMBER}', strokes):
        ax, ay, bx, by = map(float, found.groups())
        return (ax + bx) / 2, (ay + by) / 2
    if found := re.match(
        rf'<path d="M{NUMBER} {NUMBER} C{NUMBER} {NUMBER}, {NUMBER} {NUMBER}, {NUMBER} {NUMBER}"', strokes
    ):
        return tuple(map(float, found.groups()[-2:]))
    cx, cy, radius = map(float, re.match(rf'<circle cx="{NUMBER}" cy="{NUMBER}" r="{NUMBER}"', strokes).groups())
    return cx + radius, cy


def test_strokes_are_wide_enough_for_a_printer(picture):
    """A quarter of a point is the hairline that printers hold: common practice, no source."""
    weights = [float(weight) for weight in re.findall(r'stroke-width="([\d.]+)"', picture.drawn.svg)]
    assert min(weights) * picture.drawn.scale >= 0.25
    assert max(weights) * picture.drawn.scale <= 1


def test_nothing_depends_on_a_page_around_it(picture):
    assert "currentColor" not in picture.drawn.svg
    assert "var(" not in picture.drawn.svg
    assert "style=" not in picture.drawn.svg


def test_closed_and_open_valves_differ_in_the_raster(plants, sheets):
    """A closed valve is filled: of the shed, V3 is closed and V1 open in the stopped plant."""
    picture = Picture(plants["shed"], sheets["shed", "a4", "workshop"])
    plan = setting.plan_of(
        [setting.drawn_item(plants["shed"], item) for item in plants["shed"].network.items.values()],
        setting.drawn_lines(plants["shed"].network),
    )
    order = [tag for tag, placed in plan.placed.items() if placed.kind.tag_shown or plan.legs_at(tag) <= 1]
    at = dict(zip(order, picture.symbols(), strict=True))
    filled = {tag: picture.ink[picture.pixel(at[tag][0] - 0, at[tag][1] - 8)] for tag in ("V3", "V7")}
    hollow = {tag: picture.ink[picture.pixel(at[tag][0] - 9, at[tag][1])] for tag in ("V1", "V2", "V4")}
    assert max(filled.values()) < 128 < min(hollow.values())
