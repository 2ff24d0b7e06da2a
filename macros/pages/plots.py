"""Plots of a plant on a page: which there are, drawn with their numbers in a folded table."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fnmatch import fnmatchcase
from html import escape
from weakref import WeakKeyDictionary

from macros.figures.graph import FigureError, Graph
from macros.figures.plant import Plant
from macros.pages.context import PageContext
from macros.pages.drawing import framed
from macros.pages.fragments import FragmentError
from macros.pages.plot_gas import filling, gauge, mass, stroke_rate, train
from macros.pages.plot_picture import Picture
from macros.pages.plot_season import season
from macros.pages.plot_stack import crossing, polarisation
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling, systems
from macros.quantities import say

__all__ = ["PLOTS", "pictures", "plot_fragment", "plots_of"]

PLOTS: dict[str, tuple[str, Callable[[Plant], Iterator[Picture]]]] = {
    "polarisation": ("stack.cell_voltage", polarisation),
    "crossing": ("stack.hydrogen_in_oxygen", crossing),
    "train": ("drying.pressure_mean", train),
    "filling": ("banks.*.run", filling),
    "stroke_rate": ("boosters.*.working_rate", stroke_rate),
    "mass": ("banks.*.mass", mass),
    "gauge": ("banks.*.gauge_table", gauge),
    "season": ("season.run", season),
}
"""Each plot, with the figure that a plant must have for it."""

_PICTURES: WeakKeyDictionary[Plant, dict[str, list[Picture]]] = WeakKeyDictionary()
"""A plant does not change while it lives, and some of its plots evaluate it many times."""


_NAMES: WeakKeyDictionary[Graph, frozenset[str]] = WeakKeyDictionary()


def plots_of(graph: Graph) -> frozenset[str]:
    """The names of the plots that a plant has; every page asks."""
    if graph not in _NAMES:
        _NAMES[graph] = frozenset(
            name for name, (wanted, _) in PLOTS.items() if any(fnmatchcase(path, wanted) for path in graph.figures)
        )
    return _NAMES[graph]


def pictures(plant: Plant, name: str) -> list[Picture]:
    """
    The pictures of a plot: one, or one for each bank or booster.

    Raises
    ------
    KeyError
        If there is no plot of this name.
    FigureError
        If the plant cannot be evaluated for it.
    """
    held = _PICTURES.setdefault(plant, {})
    if name not in held:
        held[name] = list(PLOTS[name][1](plant))
    return held[name]


def plot_fragment(plant: Plant, name: str, page: PageContext) -> Fragment:
    """The pictures of a plot as figures, each with its numbers."""
    if name not in PLOTS:
        raise FragmentError(say("pages.no_plot", found=name, known=", ".join(PLOTS)))
    if name not in plots_of(plant.graph):
        raise FragmentError(say("pages.no_part_of_plot", plant=plant.name, found=name))
    try:
        drawn = pictures(plant, name)
    except FigureError as error:
        raise FragmentError(str(error)) from error
    html = "".join(_figure(picture, page) for picture in drawn)
    return Fragment(". ".join(picture.title for picture in drawn), html, block=True)


def _figure(picture: Picture, page: PageContext) -> str:
    svg = picture.svg(page.identity(f"plot-{picture.name.replace('_', '-')}"))
    caption = f"{escape(picture.title)}. <span{systems(picture.told)}>{escape(picture.told.workshop)}</span>"
    return f'<div data-plot="{escape(picture.name)}">{framed(svg, picture.title, caption)}{_numbers(picture)}</div>'


def _numbers(picture: Picture) -> str:
    """The points as a table that is folded; a curve that has none at a place leaves its cell empty."""
    tracks = [(one.measure, dict(curve.points)) for one in picture.fields for curve in one.curves]
    heads = [picture.x.title, *(one.called(curve) for one in picture.fields for curve in one.curves)]
    rows = []
    for x in picture.told_at():
        cells = []
        for measure, points in tracks:
            if x in points:
                texts = measure.shown(points[x])
                cells.append(f"<td><span{systems(texts)}>{escape(texts.workshop)}</span></td>")
            else:
                cells.append(f"<td>{escape(say('pages.plot.none'))}</td>")
        at = picture.x.shown(x)
        rows.append(f'<tr><th scope="row"><span{systems(at)}>{escape(at.workshop)}</span></th>{"".join(cells)}</tr>')
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    table = f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(rows)}</tbody></table>"
    summary = escape(say("pages.plot.table"))
    return f'<details class="gw-folded gw-plot-numbers"><summary>{summary}</summary>{scrolling(table, picture.title)}</details>'
