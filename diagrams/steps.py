"""
Drawings of the steps of a procedure: the same plan each time, with valves as they stand after the step, the live path
heavy, a flag on every section, and a frame round what the step moves.

What no step changes is the *ground* of a drawing. On a page it is written once, in the first drawing, and used by the
others; a drawing that stands alone brings its own.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from diagrams.closer import closer
from diagrams.cuts import Beyond, Cut, slashes
from diagrams.errors import DrawingError
from diagrams.flags import FLAGS, flag_group, ring, wanted_flag
from diagrams.ink import TEXT_GROUP, attributes, number, text_element
from diagrams.items import Item, Line, Text
from diagrams.layout import Plan, plan
from diagrams.lettering import Row
from diagrams.metrics import ASCENT
from diagrams.part import part_of
from diagrams.pipes import arrow_path, dot_path, medium_class, path_of, stroke_of
from diagrams.places import Box, Placed, symbol_group
from diagrams.proportions import LABEL, MEDIUM
from diagrams.schematic import frame, texts_of

__all__ = ["Flagged", "Ground", "Link", "Sheet", "Stand", "common"]


@dataclass(frozen=True)
class Flagged:
    """A section that bears a flag: the items beside which it may stand, the best first, and all it may come to say."""

    name: str
    beside: tuple[str, ...]
    contents: tuple[tuple[Row, ...], ...]


@dataclass(frozen=True)
class Link:
    """Where an item leads, and how that is said."""

    href: str
    says: str


@dataclass(frozen=True)
class Stand:
    """
    How the plant stands after a step.

    Attributes
    ----------
    states : mapping
        State of each symbol that can show one, by tag.
    live : frozenset
        The legs of the live path: name of the line and number of the leg.
    picked : frozenset of str
        Tags of what the step moved, opened or closed.
    flags : mapping
        What each section's flag says, by name of the section.
    flag_classes : mapping
        Classes of each flag, for what a page may add to it.
    links : mapping
        Where items lead, by tag.
    """

    states: Mapping[str, str]
    live: frozenset[tuple[str, int]] = frozenset()
    picked: frozenset[str] = frozenset()
    flags: Mapping[str, Sequence[Row]] = field(default_factory=dict)
    flag_classes: Mapping[str, str] = field(default_factory=dict)
    links: Mapping[str, Link] = field(default_factory=dict)


def common(stands: Sequence[Stand]) -> Stand:
    """What is the same in all of several stands."""
    first = stands[0]
    return Stand(
        {tag: state for tag, state in first.states.items() if all(one.states.get(tag) == state for one in stands)},
        frozenset.intersection(*(one.live for one in stands)),
        flags={name: rows for name, rows in first.flags.items() if all(one.flags.get(name) == rows for one in stands)},
        flag_classes=first.flag_classes,
    )


NOTHING = Stand({})


@dataclass(frozen=True)
class Ground:
    """
    What drawings of several stands share.

    Attributes
    ----------
    how : {"own", "first", "used"}
        Whether a drawing brings the ground for itself, or brings it for others as well, or uses that of another.
    identity : str
        The id under which others find it.
    still : Stand
        What is the same in all stands, and so is part of the ground; see `common`.
    """

    how: Literal["own", "first", "used"] = "own"
    identity: str = ""
    still: Stand = NOTHING


@dataclass(frozen=True)
class Sheet:
    """The plan of a plant, or of a part of it, on which any stand is drawn."""

    plan: Plan
    moving: frozenset[str]
    """Tags of the items whose state a step may change: those that were laid out with one."""
    cuts: tuple[Cut, ...] = ()

    @classmethod
    def of(cls, items: Sequence[Item], lines: Sequence[Line], flagged: Sequence[Flagged]) -> Sheet:
        """
        Lay a plant out, with room for every flag at its largest.

        Raises
        ------
        DrawingError
            If it cannot be drawn.
        """
        bare = [replace(item, state=None, marks=frozenset()) for item in items]
        wanted = [wanted_flag(one.name, one.beside, one.contents) for one in flagged]
        moving = frozenset(item.tag for item in items if item.state is not None)
        return cls(plan(bare, lines, {}, wanted), moving)

    def part(self, tags: Iterable[str], flags: Iterable[str], beyond: Beyond | None = None) -> Sheet:
        """Some of the items and flags, each where it stands on this sheet; `beyond` says where cut lines go on."""
        made, cuts = part_of(self.plan, tags, flags, beyond)
        return Sheet(made, self.moving, cuts)

    def closer(self) -> Sheet:
        """The same drawn closer together: empty strips shrink, and nothing changes its size or its order."""
        made, cuts = closer(self.plan, self.cuts)
        return Sheet(made, self.moving, cuts)

    def draw(
        self, stand: Stand, *, title: str, description: str | Text, identity: str, ground: Ground | None = None
    ) -> str:
        """
        The drawing of a stand as one `<svg>`; `identity` begins every id in it, so it is unique on a page.

        Raises
        ------
        DrawingError
            If a state is none of its symbol, or a flag says more than there is room for.
        """
        ground = ground or Ground()
        self._check(stand)
        box = self.plan.box
        below = f"<use{attributes(href=f'#{ground.identity}')}/>"
        if ground.how != "used":
            named = attributes(id=ground.identity) if ground.identity else ""
            below = f"<g{named}>{self._ground(ground.still)}</g>"
        still = ground.still
        moving = self._live(stand.live - still.live) + self._items(stand, still) + self._flags(stand, still)
        return frame(
            below + moving, box.left, box.top, box.right, box.bottom, title=title, description=description,
            identity=identity, class_="gw-schematic gw-step-drawing", linked=bool(stand.links),
        )  # fmt: skip

    def _check(self, stand: Stand) -> None:
        for tag, placed in self.plan.placed.items():
            state = stand.states.get(tag)
            if tag in self.moving and state not in placed.kind.states:
                wanted = ", ".join(placed.kind.states)
                raise DrawingError(f"{tag} is said to be {state!r}; a {placed.kind.says} is {wanted}")
        for flag in self.plan.flags:
            if flag.name not in stand.flags:
                raise DrawingError(f"the flag of {flag.name} says nothing")
            least = wanted_flag(flag.name, (), [stand.flags[flag.name]])
            if (
                least.height > flag.box.bottom - flag.box.top + 0.01
                or least.width > flag.box.right - flag.box.left + 0.01
            ):
                raise DrawingError(f"the flag of {flag.name} says more than there is room for")

    # --- what no step changes

    def _ground(self, still: Stand) -> str:
        made = self.plan
        arrows = {id(arrow.run.leg): arrow for arrow in made.arrows}
        letters = {one.line: one for one in made.letters}
        groups: dict[str, list[str]] = {}
        media: dict[str, str] = {}
        for leg, runs in zip(made.legs, made.runs, strict=True):
            media[leg.line.id] = leg.line.medium
            parts = groups.setdefault(leg.line.id, [])
            if path := path_of(runs):
                parts.append(f'<path d="{path}"{stroke_of(leg.line.medium, tap=leg.to_instrument)}/>')
            if id(leg) in arrows:
                parts.append(arrow_path(arrows[id(leg)]))
        for cut in self.cuts:
            media[cut.leg.line.id] = cut.leg.line.medium
            groups.setdefault(cut.leg.line.id, []).append(_stub(cut) + slashes(cut.start, cut.end) + _beyond(cut))
        for point, leg in made.dots:
            groups[leg.line.id].append(dot_path(point))
        drawn = []
        for name, parts in groups.items():
            if name in letters:
                box = letters[name].box
                x, y = (box.left + box.right) / 2, (box.top + box.bottom) / 2 + MEDIUM * 0.36
                written = text_element(x, y, letters[name].text, MEDIUM, class_="gw-letters")
                parts.append(f"<g{TEXT_GROUP}>{written}</g>")
            about = attributes(class_=f"gw-line {medium_class(media[name])}", data_line=name)
            drawn.append(f"<g{about}>{''.join(parts)}</g>")
        symbols = [
            f"<g{attributes(class_=f'gw-item gw-item-{placed.item.symbol}')}>{self._symbol(placed, None)}</g>"
            for placed in made.placed.values()
            if placed.item.tag not in self.moving and placed.kind.tag_shown
        ]
        texts = [
            f"<g{attributes(class_='gw-item-texts', data_tag=placed.item.tag)}>{texts_of(block)}</g>"
            for placed, block in made.blocks
        ]
        items = f'<g class="gw-items">{"".join(symbols)}{"".join(texts)}</g>'
        held = self._items(still, NOTHING) + self._flags(still, NOTHING)
        return _lines(drawn) + self._live(still.live) + items + held

    def _symbol(self, placed: Placed, state: str | None) -> str:
        setting = replace(placed.setting, state=state)
        return symbol_group(placed.item.symbol, placed.item.facing, setting, placed.x, placed.y)

    # --- what a step changes

    def _live(self, live: frozenset[tuple[str, int]]) -> str:
        """The live path, drawn heavy over the thin lines."""
        groups: dict[str, list[str]] = {}
        media: dict[str, str] = {}

        def put(line: Line, parts: str) -> None:
            media[line.id] = line.medium
            groups.setdefault(line.id, []).append(parts)

        for leg, runs in zip(self.plan.legs, self.plan.runs, strict=True):
            if (leg.line.id, leg.number) in live and not leg.to_instrument and (path := path_of(runs)):
                put(leg.line, f'<path d="{path}"{stroke_of(leg.line.medium, live=True)}/>')
        for cut in self.cuts:
            if (cut.leg.line.id, cut.leg.number) in live:
                put(cut.leg.line, _stub(cut, live=True))
        drawn = [
            f"<g{attributes(class_=f'gw-line gw-live {medium_class(media[name])}', data_line=name)}>{''.join(parts)}</g>"
            for name, parts in groups.items()
        ]
        return _lines(drawn) if drawn else ""

    def _items(self, stand: Stand, still: Stand) -> str:
        """Whatever shows a state, and what the step moves or leads elsewhere."""
        blocks: dict[str, list[Box]] = {}
        for placed, block in self.plan.blocks:
            blocks.setdefault(placed.item.tag, []).append(block.box)
        drawn = []
        for tag, placed in self.plan.placed.items():
            state = stand.states.get(tag) if tag in self.moving and tag not in still.states else None
            link = stand.links.get(tag)
            if state is None and tag not in stand.picked and link is None:
                continue
            parts = [ring(placed.box)] if tag in stand.picked else []
            if state is not None:
                parts.append(self._symbol(placed, state))
            if link is not None:
                parts += [_touch(box) for box in (placed.box, *blocks.get(tag, ()))]
            classes = f"gw-item gw-item-{placed.item.symbol}{' gw-picked' if tag in stand.picked else ''}"
            group = f"<g{attributes(class_=classes, data_tag=tag, data_state=state)}>{''.join(parts)}</g>"
            if link is not None:
                group = f"<a{attributes(class_='gw-link', href=link.href, aria_label=link.says)}>{group}</a>"
            drawn.append(group)
        return f'<g class="gw-items">{"".join(drawn)}</g>' if drawn else ""

    def _flags(self, stand: Stand, still: Stand) -> str:
        flags = [
            flag_group(flag, stand.flags[flag.name], stand.flag_classes.get(flag.name, ""))
            for flag in self.plan.flags
            if flag.name in stand.flags and flag.name not in still.flags
        ]
        return f'<g class="gw-flags"{FLAGS}>{"".join(flags)}</g>' if flags else ""


def _lines(drawn: Sequence[str]) -> str:
    stroke = attributes(
        class_="gw-lines", fill="none", stroke="currentColor", stroke_linecap="butt", stroke_linejoin="round"
    )
    return f"<g{stroke}>{''.join(drawn)}</g>"


def _stub(cut: Cut, live: bool = False) -> str:
    (ax, ay), (bx, by) = cut.start, cut.end
    d = f"M{number(ax)} {number(ay)}L{number(bx)} {number(by)}"
    return f'<path d="{d}"{stroke_of("", live=live)}/>'


def _beyond(cut: Cut) -> str:
    """The tags at which a cut line goes on."""
    if cut.box is None or cut.text is None:
        return ""
    text, box = cut.text, cut.box
    written = text_element(
        (box.left + box.right) / 2, box.top + LABEL * ASCENT, text.workshop, LABEL, class_="gw-label gw-beyond",
        si=text.si, us=text.us,
    )  # fmt: skip
    return f"<g{TEXT_GROUP}>{written}</g>"


def _touch(box: Box) -> str:
    """What takes a tap on a symbol or its tag, and shows nothing."""
    about = attributes(
        class_="gw-touch", x=box.left, y=box.top, width=box.right - box.left, height=box.bottom - box.top,
        fill="none", stroke="none", pointer_events="all",
    )  # fmt: skip
    return f"<rect{about}/>"
