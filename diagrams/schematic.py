"""The schematic: a plan, drawn."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from xml.sax.saxutils import escape

from diagrams.errors import DrawingError
from diagrams.ink import TEXT_GROUP, attributes, number, text_element
from diagrams.items import Item, Line, Text
from diagrams.layout import Plan, plan
from diagrams.lettering import Block
from diagrams.metrics import ASCENT
from diagrams.pipes import arrow_path, dot_path, medium_class, path_of, stroke_of
from diagrams.places import Placed, symbol_group
from diagrams.proportions import LABEL, MEDIUM, OUTLINE, OUTLINE_LIVE
from diagrams.signs import SIGNS, sign_path
from diagrams.words import WORDS, word

IDENTITY = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


def schematic(
    items: Sequence[Item],
    lines: Sequence[Line],
    *,
    title: str,
    description: str,
    identity: str,
    words: Mapping[str, str] = WORDS,
) -> str:
    """
    A piping schematic as one inline `<svg>`.

    `identity` begins every id in the drawing, so it is unique on a page; `words` replaces the few words that a
    drawing brings itself. What cannot be drawn raises a `DrawingError`.
    """
    for item in items:
        unknown = item.marks - {"live", *SIGNS}
        if unknown:
            raise DrawingError(f"{item.tag} is marked {', '.join(sorted(unknown))}; a mark is live, {', '.join(SIGNS)}")
    made = plan_of(items, lines, words)
    linked = any(item.href for item in items)
    return frame(
        _lines(made) + _items(made), made.box.left, made.box.top, made.box.right, made.box.bottom,
        title=title, description=description, identity=identity, class_="gw-schematic", linked=linked,
    )  # fmt: skip


def plan_of(items: Sequence[Item], lines: Sequence[Line], words: Mapping[str, str] = WORDS) -> Plan:
    """The plan of a schematic, made once for all that draw it: finding its lines takes a second."""
    return _planned(tuple(items), tuple(lines), tuple((mark, Text(word(mark, words))) for mark in SIGNS))


@lru_cache(maxsize=16)
def _planned(items: tuple[Item, ...], lines: tuple[Line, ...], signs: tuple[tuple[str, Text], ...]) -> Plan:
    return plan(items, lines, dict(signs))


def frame(
    content: str, left: float, top: float, right: float, bottom: float,
    *, title: str, description: str | Text, identity: str, class_: str, linked: bool = False,
) -> str:  # fmt: skip
    """The `<svg>` round a drawing, with its title and description, which tells numbers in every system of units."""
    if not IDENTITY.fullmatch(identity):
        raise DrawingError(f"identity {identity!r} must begin with a letter and hold letters, digits, - and _ only")
    if not title.strip():
        raise DrawingError(f"drawing {identity} needs a title")
    width, height = right - left, bottom - top
    view = f"{number(left)} {number(top)} {number(width)} {number(height)}"
    # An image has no parts for a screen reader; a drawing with links is a group, so that they can be reached.
    about = attributes(
        class_=class_, xmlns="http://www.w3.org/2000/svg", role="group" if linked else "img",
        aria_labelledby=f"{identity}-title {identity}-description", width=width, height=height, viewBox=view,
    )  # fmt: skip
    said = description if isinstance(description, Text) else Text(description)
    told = attributes(id=f"{identity}-description", data_si=said.si or None, data_us=said.us or None)
    return (
        f'<svg{about}><title id="{identity}-title">{escape(title)}</title>'
        f"<desc{told}>{escape(said.workshop)}</desc>{content}</svg>"
    )


def _lines(made: Plan) -> str:
    arrows = {id(arrow.run.leg): arrow for arrow in made.arrows}
    texts = {letters.line: letters for letters in made.letters}
    labels = {label.line: label for label in made.line_labels}
    groups: dict[str, list[str]] = {}
    heads: dict[str, Line] = {}
    for leg, runs in zip(made.legs, made.runs, strict=True):
        heads[leg.line.id] = leg.line
        parts = groups.setdefault(leg.line.id, [])
        path = path_of(runs)
        if path:
            parts.append(f'<path d="{path}"{stroke_of(leg.line.medium, live=leg.line.live, tap=leg.to_instrument)}/>')
        if id(leg) in arrows:
            parts.append(arrow_path(arrows[id(leg)]))
    for point, leg in made.dots:
        groups[leg.line.id].append(dot_path(point))
    drawn = []
    for name, line in heads.items():
        parts = groups[name]
        if name in texts:
            box = texts[name].box
            baseline = (box.top + box.bottom) / 2 + MEDIUM * 0.36
            written = text_element((box.left + box.right) / 2, baseline, texts[name].text, MEDIUM, class_="gw-letters")
            parts.append(f"<g{TEXT_GROUP}>{written}</g>")
        if name in labels:
            label = labels[name]
            written = text_element(
                (label.box.left + label.box.right) / 2, label.box.top + LABEL * ASCENT, label.text.workshop, LABEL,
                class_="gw-label gw-line-label", si=label.text.si, us=label.text.us,
            )  # fmt: skip
            parts.append(f"<g{TEXT_GROUP}>{written}</g>")
        classes = f"gw-line {medium_class(line.medium)}{' gw-live' if line.live else ''}"
        drawn.append(f"<g{attributes(class_=classes, data_line=name)}>{''.join(parts)}</g>")
    return (
        '<g class="gw-lines" fill="none" stroke="currentColor" stroke-linecap="butt" stroke-linejoin="round">'
        f"{''.join(drawn)}</g>"
    )


def _items(made: Plan) -> str:
    texts: dict[str, list[str]] = {}
    for placed, block in made.blocks:
        texts.setdefault(placed.item.tag, []).append(texts_of(block))
    drawn = []
    for tag, placed in made.placed.items():
        item = placed.item
        weight = OUTLINE_LIVE if "live" in item.marks else OUTLINE
        # The dot of a tee is drawn with its pipe, where the branch leaves it.
        tee = not placed.kind.tag_shown and made.legs_at(tag) > 1
        symbol = "" if tee else symbol_group(item.symbol, item.facing, placed.setting, placed.x, placed.y, weight)
        drawn.append(_item(placed, symbol + "".join(texts.get(tag, ()))))
    return f'<g class="gw-items">{"".join(drawn)}</g>'


def _item(placed: Placed, content: str) -> str:
    item = placed.item
    classes = ["gw-item", f"gw-item-{item.symbol}", *(f"gw-{mark}" for mark in sorted(item.marks))]
    group = f"<g{attributes(class_=' '.join(classes), data_tag=item.tag, data_state=item.state)}>{content}</g>"
    if not item.href:
        return group
    state = (item.state or "").replace("_", " ")
    said = ", ".join(part for part in (item.tag, item.title or placed.kind.says, state) if part)
    return f"<a{attributes(class_='gw-link', href=item.href, aria_label=said)}>{group}</a>"


def texts_of(block: Block) -> str:
    """The rows of a block."""
    parts = []
    for row, x, y in block.baselines():
        if row.sign:
            size = row.size * 0.8
            left = x if block.anchor == "start" else x - row.width if block.anchor == "end" else x - row.width / 2
            parts.append(sign_path(row.sign, left + size / 2, y - row.size * 0.36, size))
            at, anchor = left + row.size + 3, "start"
        else:
            at, anchor = x, block.anchor
        parts.append(
            text_element(at, y, row.text.workshop, row.size, class_=row.class_, anchor=anchor,
                         weight="bold" if row.bold else None, si=row.text.si, us=row.text.us)
        )  # fmt: skip
    return f'<g class="gw-texts"{TEXT_GROUP}>{"".join(parts)}</g>'
