"""A small plant made by hand, and the dialect of the pages: what the tests of this floor stand on."""

from __future__ import annotations

import html5lib
import markdown

from macros.calculations.booster import pressure_ratio
from macros.calculations.faraday import hydrogen_mass_flow, hydrogen_produced
from macros.calculations.formula import log, sqrt
from macros.calculations.storage import mass_stored
from macros.description.plant import PlantFile
from macros.figures.graph import Entry, Graph, figure
from macros.pages.context import PageContext
from macros.pages.dialect import EXTENSIONS
from macros.pages.fragments import resolve_references
from macros.pages.tokens import Tokens
from macros.pages.vocabulary import Vocabulary, field_names, figure_names
from macros.quantities import read

PLANT_FILE = "docs/designs/small/plant.yml"


def wavy(current_a: float, cells: float) -> float:
    """A made-up figure with a root and a logarithm."""
    return sqrt(current_a / cells) * log(current_a) - 2 * cells**2


def entry(path: str, text: str, kind: str, title: str, symbol: str, line: int, **more: str) -> Entry:
    """An entry as the description would give it."""
    return Entry(path, read(text, kind), title, symbol, place="" if more else f"{PLANT_FILE}:{line}", **more)


ENTRIES = [
    Entry("title", "Small & <b>plain</b>", "Name of the plant", place=f"{PLANT_FILE}:2"),
    Entry("summary", "It fills to {banks.low.fill_pressure} behind {V1}.", "Summary", place=f"{PLANT_FILE}:3"),
    Entry("site.atmosphere", read("1000 mbar(a)", "absolute_pressure"), "Atmosphere", "p_atm", place=f"{PLANT_FILE}:6"),
    Entry("site.place", "Marram *Lane*", "Name of the place", place=f"{PLANT_FILE}:7"),
    entry("stack.cells", "16", "count", "Cells in series", "N", 10),
    entry("stack.current", "60 A", "current", "Operating current", "I", 11),
    entry("stack.excess_factor", "1.3", "ratio", "Measured crossover over pure diffusion", "f_x", 12,
          assumed="common-practice", safe="high"),
    entry("stack.faraday_efficiency_stated", "98 %", "fraction", "Faraday efficiency, stated", "η_F", 13,
          assumed="common-practice", safe="low"),
    entry("buffer.cut_in", "15 bar(g)", "pressure", "Pressure at which the switch stops the booster", "p_in", 20),
    entry("buffer.cut_out", "25 bar(g)", "pressure", "Pressure at which the switch starts the booster", "p_out", 21),
    entry("banks.low.fill_pressure", "50 bar(g)", "pressure", "Fill pressure", "p_fill", 30),
    entry("banks.high.fill_pressure", "140 bar(g)", "pressure", "Fill pressure", "p_fill", 31),
    entry("banks.low.water_volume", "50 L", "volume", "Water volume", "V", 32),
    entry("site.usual", "15 °C", "temperature", "Usual ambient", "T_amb", 8),
]  # fmt: skip

FIGURES = [
    figure("stack.hydrogen_normal_flow", hydrogen_produced, unit="NL/min", kind="normal_flow", symbol="n_H2",
           cells="stack.cells", current_a="stack.current", faraday_efficiency="stack.faraday_efficiency_stated"),
    figure("stack.hydrogen_flow", hydrogen_mass_flow, unit="g/h", symbol="m_H2",
           hydrogen_mol_per_s="stack.hydrogen_normal_flow"),
    figure("boosters.1.pressure_ratio", pressure_ratio, kind="ratio", symbol="π", rounding="up", safety=True,
           discharge_pressure_pa="banks.high.fill_pressure", inlet_pressure_pa="banks.low.fill_pressure"),
    figure("banks.low.mass", mass_stored, unit="kg", symbol="m", volume_m3="banks.low.water_volume",
           pressure_pa="banks.low.fill_pressure", temperature_k="site.usual"),
    figure("stack.power", wavy, kind="ratio", current_a="stack.current", cells="stack.cells"),
]  # fmt: skip


def graph(*further: Entry) -> Graph:
    """A fresh graph of the small plant."""
    replaced = {one.path for one in further}
    return Graph([*(one for one in ENTRIES if one.path not in replaced), *further], FIGURES)


def page(address: str = "small/stack.md", own: Graph | None = None) -> PageContext:
    """A page of the small plant."""
    own = own or graph()
    vocabulary = Vocabulary([*field_names(PlantFile), *figure_names(), *own])
    known = PageContext(
        address, "small", own, tags={"V1": "Valve <one>"}, vocabulary=vocabulary,
        drawing=lambda identity: f'<svg xmlns="http://www.w3.org/2000/svg"><title id="{identity}-t">x</title></svg>',
    )  # fmt: skip
    words = {"name": resolve_references("small", known), "summary": resolve_references(own["summary"].si, known)}
    return PageContext(
        address, known.name, own, words=words, tags=known.tags, vocabulary=vocabulary, drawing=known.drawing
    )


def converter() -> markdown.Markdown:
    """Markdown as the site converts it."""
    return markdown.Markdown(extensions=list(EXTENSIONS), extension_configs=EXTENSIONS)


def converted(text: str, tokens: Tokens) -> str:
    """A page as the site will show it."""
    return tokens.replace(converter().convert(text))


def parsed(html: str) -> object:
    """
    The HTML as a tree.

    Raises
    ------
    html5lib.html5parser.ParseError
        If it is not well-formed, by the parser of the open standard.
    """
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parseFragment(html)
