"""A procedure as HTML: hazards and needs first, then its steps, then where every valve stands after each."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator
from html import escape
from weakref import WeakKeyDictionary

from macros.description.procedures_file import Procedure, Reading, Step
from macros.figures.plant import Plant
from macros.network.lineups import Proved
from macros.pages.context import PageContext
from macros.pages.drawing import framed, legend_html
from macros.pages.fragments import resolve_references
from macros.pages.stands import lineups, steps_of
from macros.pages.step_drawing import explained, ground_of, step_drawing
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling
from macros.quantities import say

__all__ = ["procedure_fragment", "valves_fragment"]

DRIVES = ("current", "holding_current", "pump", "heater", "compressor", "booster_air", "fan", "detectors")
"""What may run, in the order in which it is told."""


def procedure_fragment(plant: Plant, name: str, page: PageContext) -> Fragment:
    """
    A procedure with what it brings about, step by step.

    Raises
    ------
    KeyError
        If the plant has no procedure of the name.
    """
    # A procedure looks the same on every page of its plant, and is shown by a guide and on a page of its own.
    folder = posixpath.dirname(page.address)
    identity = page.identity(f"lineup-{name}")
    known = _KNOWN.setdefault(plant, {})
    if (name, folder, identity) not in known:
        known[name, folder, identity] = _Procedure(plant, name, page).fragment(identity)
    return known[name, folder, identity]


_KNOWN: WeakKeyDictionary[Plant, dict[tuple[str, str, str], Fragment]] = WeakKeyDictionary()


def valves_fragment(plant: Plant, name: str, page: PageContext) -> Fragment:
    """Only the table of a procedure's valves."""
    written = _Procedure(plant, name, page)
    return Fragment(written.procedure.title, written.valves(), block=True, workings=written.workings)


class _Procedure:
    def __init__(self, plant: Plant, name: str, page: PageContext) -> None:
        self.plant = plant
        self.name = name
        self.page = page
        self.procedure: Procedure = lineups(plant).file.procedures[name]
        self.proved = steps_of(plant, name)
        self.workings: dict[str, str] = {}
        self.identity = ""

    def fragment(self, identity: str) -> Fragment:
        self.identity = identity
        failed = [found for proved in self.proved for found in proved.failed]
        parts = [
            self.refusal() if failed else "",
            f'<p class="gw-when">{self.text(self.procedure.when)}</p>',
            self.states(),
            self.listed("hazards", self.procedure.hazards, "admonition danger"),
            self.listed("needs", self.procedure.needs, "admonition note"),
            self.drawing(self.proved[0], Step(do="")),
            legend_html(explained(self.plant, self.name)),
            f'<ol class="gw-steps">{"".join(self.steps())}</ol>',
            self.valves(),
        ]
        html = f'<div class="gw-lineup" data-procedure="{escape(self.name)}">{"".join(parts)}</div>'
        return Fragment(self.procedure.title, html, block=True, workings=self.workings)

    def text(self, text: str) -> str:
        """A text of the description as HTML, with what it refers to."""
        resolved = resolve_references(text, self.page)
        self.workings.update(resolved.workings)
        return resolved.rich

    def refusal(self) -> str:
        """What is wrong, before anything else: an unsafe procedure must never look fine."""
        lines = [
            f"<li>{escape(say('pages.lineup.failed_at', step=proved.step, message=found.message))}</li>"
            for proved in self.proved
            for found in proved.failed
        ]
        heading = escape(say("pages.lineup.refused"))
        return (
            f'<div class="gw-banner gw-refused" role="alert"><strong>{heading}</strong><ul>{"".join(lines)}</ul></div>'
        )

    def states(self) -> str:
        states = lineups(self.plant).file.states
        start, end = (escape(states[name].title) for name in (self.procedure.start, self.procedure.end))
        return (
            f'<dl class="gw-states"><dt>{escape(say("pages.lineup.begins"))}</dt><dd>{start}</dd>'
            f"<dt>{escape(say('pages.lineup.ends'))}</dt><dd>{end}</dd></dl>"
        )

    def listed(self, key: str, texts: Iterable[str], classes: str) -> str:
        items = "".join(f"<li>{self.text(text)}</li>" for text in texts)
        if not items:
            return ""
        heading = escape(say(f"pages.lineup.{key}"))
        return f'<div class="{classes}"><p class="admonition-title">{heading}</p><ul>{items}</ul></div>'

    def steps(self) -> Iterator[str]:
        for proved, step in zip(self.proved[1:], self.procedure.steps, strict=True):
            why = f'<p class="gw-why">{self.text(step.why)}</p>' if step.why else ""
            yield (
                f'<li class="gw-step" id="{self.identity}-{proved.step}" data-step="{proved.step}">'
                f'<p class="gw-do">{self.text(step.do)}</p>{why}{self.changes(proved, step)}'
                f"{self.readings(step.reads)}{self.drawing(proved, step)}</li>"
            )

    def drawing(self, proved: Proved, step: Step) -> str:
        """The line-up after a step; the first drawing of a procedure holds what all of them share."""
        ground = ground_of(self.plant, self.name, f"{self.identity}-ground", first=proved.step == 0)
        read = (reading.at for reading in step.reads if reading.at)
        tags = (*proved.changed, *step.opens, *step.closes, *step.admits, *read)
        links = {tag: url for tag in tags if (url := self.page.item_url(tag))}
        svg = step_drawing(self.plant, self.name, proved.step, f"{self.identity}-drawn-{proved.step}", ground, links)
        key = "pages.lineup.drawing" if proved.step else "pages.lineup.drawing_of_start"
        caption = say(key, step=proved.step) if proved.step else say(key)
        runs = ", ".join(drive_of(drive) for drive in DRIVES if drive in proved.lineup.runs) or say("pages.none_runs")
        return framed(svg, caption, f"{escape(caption)} {escape(say('pages.lineup.runs', drives=runs))}")

    def changes(self, proved: Proved, step: Step) -> str:
        """What the step sets, starts and stops, as a list beside the words of the author."""
        parts = [
            f"<li>{self.tag(tag)}: {escape(position(before))} → <strong>{escape(position(after))}</strong></li>"
            for tag, (before, after) in proved.changed.items()
        ]
        for key, drives in (("starts", step.starts), ("stops", step.stops)):
            parts += [f"<li>{escape(say(f'pages.lineup.{key}', drive=drive_of(drive)))}</li>" for drive in drives]
        for key, tags in (("opens", step.opens), ("closes", step.closes), ("admits", step.admits)):
            parts += [f"<li>{self.tag(tag)}: {escape(say(f'pages.lineup.{key}'))}</li>" for tag in tags]
        return f'<ul class="gw-changes">{"".join(parts)}</ul>' if parts else ""

    def tag(self, tag: str) -> str:
        return self.text(f"{{{tag}}}")

    def readings(self, reads: Iterable[Reading]) -> str:
        rows = [
            f"<li>{f'{self.tag(reading.at)}: ' if reading.at else ''}{self.text(reading.wanted)}</li>"
            for reading in reads
        ]
        if not rows:
            return ""
        return f'<div class="gw-reads"><p>{escape(say("pages.lineup.reads"))}</p><ul>{"".join(rows)}</ul></div>'

    def valves(self) -> str:
        """Where each valve that the procedure moves stands at the start and after every step."""
        moved = dict.fromkeys(tag for proved in self.proved for tag in proved.changed)
        order = [tag for tag in self.plant.network.items if tag in moved]
        if not order:
            return f'<p class="gw-valves-title">{escape(say("pages.no_valve_moves"))}</p>'
        heads = [say("pages.lineup.start"), *(str(proved.step) for proved in self.proved[1:])]
        head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
        rows = [
            f'<tr><th scope="row">{self.tag(tag)}</th>{"".join(_cell(proved, tag) for proved in self.proved)}</tr>'
            for tag in order
        ]
        label = say("pages.lineup.valves")
        head = f'<thead><tr><th scope="col">{escape(say("pages.column.tag"))}</th>{head}</tr></thead>'
        table = scrolling(f"<table>{head}<tbody>{''.join(rows)}</tbody></table>", label, "gw-valves")
        return f'<p class="gw-valves-title">{escape(label)}</p>{table}'


def _cell(proved: Proved, tag: str) -> str:
    said = escape(position(proved.lineup.reached.stand.positions[tag]))
    return f'<td class="gw-changed"><strong>{said}</strong></td>' if tag in proved.changed else f"<td>{said}</td>"


def position(name: str) -> str:
    """How a position is said."""
    return say(f"pages.position.{name}")


def drive_of(name: str) -> str:
    """How what may run is called."""
    return say(f"pages.drive.{name}")
