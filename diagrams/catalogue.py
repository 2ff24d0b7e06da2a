"""The legend and the catalogue of symbols, drawn from the same classes as every schematic."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from diagrams.cuts import slashes
from diagrams.flags import ring
from diagrams.ink import TEXT_GROUP, attributes, number, text_element
from diagrams.items import Item
from diagrams.lettering import letters_size
from diagrams.metrics import text_width
from diagrams.pipes import dot_path, medium_class, stroke_of
from diagrams.places import Box, check, outline, symbol_group
from diagrams.proportions import ARROW, HOP, LABEL, MARGIN, MEDIUM
from diagrams.schematic import frame
from diagrams.signs import SIGNS, sign_path
from diagrams.symbols import Setting, Symbol, symbol_class, symbols
from diagrams.words import WORDS, letters_of, word

SAMPLE_TAGS = {"pressure_switch": "PS1", "transmitter": "PT1", "gas_detector": "GD1"}
"""Tags that stand inside the instruments of the catalogue."""


@dataclass(frozen=True)
class Entry:
    """One symbol of the catalogue: its name, how it is said, what it means, its ports, states and origin."""

    name: str
    says: str
    means: str
    form: str
    ports: tuple[str, ...]
    states: tuple[str, ...]


def entries() -> Iterator[Entry]:
    """Every symbol, for a table beside the drawings."""
    for kind in symbols():
        yield Entry(kind.name, kind.says, (kind.__doc__ or "").strip(), kind.form, tuple(kind().sides), kind.states)


def _sample(kind: type[Symbol], state: str | None = None) -> tuple[Setting, Box]:
    """What a symbol of the catalogue is told, and the box of its ink round (0, 0)."""
    setting = Setting(tag=SAMPLE_TAGS.get(kind.name, ""), state=state)
    return setting, outline(kind.name, "right", replace(setting, state=None)).box


def symbol_drawing(name: str, *, identity: str, state: str | None = None, title: str = "") -> str:
    """One symbol alone, as a small `<svg>`."""
    kind = symbol_class(name)
    check(Item(name, name, (0, 0), state=state))
    setting, box = _sample(kind, state)
    said = title or ", ".join(part for part in (kind.says, (state or "").replace("_", " ")) if part)
    return frame(
        symbol_group(name, "right", setting, 0, 0), box.left - 3, box.top - 3, box.right + 3, box.bottom + 3,
        title=said, description=(kind.__doc__ or "").strip(), identity=identity, class_="gw-drawing gw-symbol-alone",
    )  # fmt: skip


def catalogue(*, identity: str, title: str, description: str = "", names: Mapping[str, str] | None = None,
              columns: int = 6) -> str:  # fmt: skip
    """Every symbol with its name below it, as one `<svg>`; `names` replaces how symbols are called."""
    called = names or {}
    wide, tall, top = 132.0, 150.0, 82.0
    parts = []
    kinds = list(symbols())
    for number_, kind in enumerate(kinds):
        x = (number_ % columns + 0.5) * wide
        y = number_ // columns * tall
        setting, box = _sample(kind)
        at = (x - (box.left + box.right) / 2, y + top - 18 - (box.top + box.bottom) / 2)
        parts.append(f'<g class="gw-item-{kind.name}">{symbol_group(kind.name, "right", setting, *at)}</g>')
        for row, line in enumerate(_folded(called.get(kind.name, kind.says), wide - 8)):
            written = text_element(x, y + top + 50 + row * LABEL * 1.2, line, LABEL, class_="gw-label")
            parts.append(f"<g{TEXT_GROUP}>{written}</g>")
    rows = -(-len(kinds) // columns)
    return frame(
        "".join(parts), 0, 0, wide * columns, tall * rows + 16,
        title=title, description=description, identity=identity, class_="gw-drawing gw-catalogue",
    )  # fmt: skip


def _folded(text: str, width: float) -> list[str]:
    """A name in as many rows as its column asks."""
    rows: list[str] = []
    for part in text.split():
        if rows and text_width(f"{rows[-1]} {part}", LABEL) <= width:
            rows[-1] += f" {part}"
        else:
            rows.append(part)
    return rows


@dataclass(frozen=True)
class Explained:
    """
    What a drawing shows, and so what its legend explains.

    Attributes
    ----------
    media : tuple of str
        Media of its lines.
    states : bool
        Whether valves stand open or closed.
    live : bool
        Whether a live path is drawn heavy.
    marks : tuple of str
        Marks that it bears.
    moved : bool
        Whether what a step moves stands in a frame.
    cut : bool
        Whether lines go on beyond it.
    letters : mapping
        Letters at items, and what they mean.
    """

    media: tuple[str, ...]
    states: bool = True
    live: bool = False
    marks: tuple[str, ...] = ()
    moved: bool = False
    cut: bool = False
    letters: Mapping[str, str] = field(default_factory=dict)


def legend(explained: Explained, *, identity: str, title: str, description: str = "", words: Mapping[str, str] = WORDS,
           columns: int = 4) -> str:  # fmt: skip
    """All that a drawing shows, each sample with its meaning, as one `<svg>`."""
    long, samples = _samples(explained, words)
    wide, tall = long + 8 + max(text_width(said, LABEL) for _, said in samples) + 26, 34.0
    parts = []
    for index, (sample, said) in enumerate(samples):
        x, y = index % columns * wide, index // columns * tall
        written = text_element(long + 8, 4, said, LABEL, class_="gw-label", anchor="start")
        parts.append(
            f'<g transform="translate({number(x)} {number(y)})" fill="none" stroke="currentColor">{sample}'
            f"<g{TEXT_GROUP}>{written}</g></g>"
        )
    across = min(columns, len(samples))
    return frame(
        "".join(parts), -MARGIN / 2, -24, across * wide, (-(-len(samples) // columns) - 1) * tall + 22,
        title=title, description=description, identity=identity, class_="gw-drawing gw-legend",
    )  # fmt: skip


def legend_entries(explained: Explained, words: Mapping[str, str] = WORDS) -> list[tuple[str, str]]:
    """The same for a page that lays out text itself: each sample as a small `<svg>` without words, and its meaning."""
    long, samples = _samples(explained, words)
    top, bottom = -20.0, 18.0
    about = attributes(
        class_="gw-sample", xmlns="http://www.w3.org/2000/svg", aria_hidden="true", width=long + 4, height=bottom - top,
        viewBox=f"-2 {number(top)} {number(long + 4)} {number(bottom - top)}", fill="none", stroke="currentColor",
    )  # fmt: skip
    return [(f"<svg{about}>{sample}</svg>", said) for sample, said in samples]


def _samples(explained: Explained, words: Mapping[str, str]) -> tuple[float, list[tuple[str, str]]]:
    """How long a sample is, and the samples with their meanings."""
    media = list(dict.fromkeys(explained.media))
    long = max([SAMPLE, *(_gap(medium) + 46 for medium in media)])
    middle = long / 2
    plain = stroke_of("")
    samples = [(_line_sample(medium, long), word(f"medium.{medium}", words)) for medium in media]
    if explained.live:
        samples.append((f'<path d="M0 0H{number(long)}"{stroke_of("", live=True)}/>', word("live", words)))
    hop = f"H{number(middle - HOP)}A{number(HOP)} {number(HOP)} 0 0 1 {number(middle + HOP)} 0H{number(long)}"
    samples.append((f'<path d="M0 0{hop}M{number(middle)} -10V10"{plain}/>', word("crossing", words)))
    tee = f'<path d="M0 0H{number(long)}M{number(middle)} 0V10"{plain}/>{dot_path((middle, 0))}'
    samples.append((tee, word("joining", words)))
    if explained.cut:
        stub = f'<path d="M0 0H{number(middle)}"{plain}/>{slashes((0, 0), (middle, 0))}'
        samples.append((stub, word("cut", words)))
    for state in ("open", "closed") if explained.states else ():
        samples.append((_valve_sample(state, long), word(state, words)))
    if explained.moved:
        _, box = _sample(symbol_class("hand_valve"), "open")
        samples.append((ring(box.moved(middle, 3)) + _valve_sample("open", long), word("moved", words)))
    samples += [(sign_path(mark, middle, 0, 10), word(mark, words)) for mark in SIGNS if mark in explained.marks]
    for letters, meaning in explained.letters.items():
        written = text_element(middle, LABEL * 0.36, letters, LABEL, class_="gw-label")
        samples.append((f"<g{TEXT_GROUP}>{written}</g>", meaning))
    return long, samples


def _valve_sample(state: str, long: float) -> str:
    middle = long / 2
    setting, box = _sample(symbol_class("hand_valve"), state)
    ways = f'<path d="M0 3H{number(middle + box.left)}M{number(middle + box.right)} 3H{number(long)}"{stroke_of("")}/>'
    return ways + symbol_group("hand_valve", "right", setting, middle, 3)


SAMPLE = 72.0
"""Length of a line in the legend, longer where the letters of a medium need it."""


def _gap(medium: str) -> float:
    return letters_size(letters_of(medium))[0]


def _line_sample(medium: str, long: float) -> str:
    """A piece of line with its dash, its letters and an arrow."""
    gap = _gap(medium)
    middle = long * 0.42
    parts = [
        f'<path d="M0 0H{number(middle - gap / 2)}M{number(middle + gap / 2)} 0H{number(long)}"{stroke_of(medium)}/>'
    ]
    if medium != "electric":
        length, half = ARROW[0], ARROW[1] / 2
        tip, back = number(long), number(long - length)
        points = f"{tip},0 {back},{number(-half)} {back},{number(half)}"
        parts.append(f'<polygon points="{points}" fill="currentColor" stroke="none"/>')
    written = text_element(middle, MEDIUM * 0.36, letters_of(medium), MEDIUM, class_="gw-letters")
    parts.append(f"<g{TEXT_GROUP}>{written}</g>")
    return f"<g{attributes(class_=f'gw-line {medium_class(medium)}')}>{''.join(parts)}</g>"
