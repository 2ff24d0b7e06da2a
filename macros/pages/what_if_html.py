"""
What if: inputs of a plant that a reader moves on its overview, and the figures that move with them.

The page carries the grid of `macros.figures.what_if` and how each number is shown; the script `what_if.js` does the
rest. Without a script the figures stand as described.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from html import escape
from math import floor, log10
from typing import Any

from macros.figures.axes import Axis
from macros.figures.graph import Value
from macros.figures.plant import Plant
from macros.figures.what_if import BOUND, BOUND_K, Grid
from macros.pages.context import PageContext
from macros.pages.tokens import Fragment
from macros.pages.working import scrolling, systems, value_span
from macros.quantities import Shown, System, Unit, say, show, shown, unit
from macros.quantities.languages import decimal_mark

__all__ = ["what_if"]

SYSTEMS: tuple[System, ...] = ("workshop", "si", "us")


def what_if(plant: Plant, page: PageContext, grid: Grid) -> Fragment:
    """The inputs that move and the figures that follow, as a section of the overview."""
    title = say("pages.what_if.title")
    numbers = page.numbers
    assert numbers is not None
    graph = plant.graph
    held = {
        "axes": [_axis_data(graph[axis.path], axis) for axis in grid.axes],
        "figures": [
            {"by": grid.moved_by[name], "values": values} | _form(graph[name], numbers.uncertainty(name)[0])
            for name, values in grid.values.items()
        ],
    }
    data = escape(json.dumps(held, separators=(",", ":"), ensure_ascii=False))
    inputs = "".join(_input(graph[axis.path], axis, number) for number, axis in enumerate(grid.axes))
    rows = "".join(_row(graph[name], numbers.shown(name), page) for name in grid.values)
    heads = "".join(
        f'<th scope="col">{escape(say(f"pages.what_if.{one}"))}</th>' for one in ("what", "described", "here")
    )
    table = f"<table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
    bound = say("pages.what_if.bound", share=show(BOUND, "%", 1), kelvin=show(BOUND_K, "K", 1))
    html = (
        f'<section class="gw-what-if" data-search-exclude data-what-if="{data}" '
        f'data-none="{escape(say("pages.absent"))}" data-mark="{decimal_mark()}">'
        f'<p class="gw-what-if-caution"><strong>{escape(say("pages.what_if.caution_title"))}</strong> '
        f"{escape(say('pages.what_if.caution'))}</p>"
        f'<p class="gw-what-if-off">{escape(say("pages.what_if.without_script"))}</p>'
        f'<div class="gw-what-if-inputs">{inputs}'
        f'<button type="button" class="gw-what-if-back">{escape(say("pages.what_if.back"))}</button></div>'
        f'{scrolling(table, title)}<p class="gw-what-if-bound" data-typed="">{escape(bound)}</p></section>'
    )
    return Fragment(title, html, block=True)


def _input(value: Value, axis: Axis, number: int) -> str:
    identity = f"gw-what-if-{number + 1}"
    texts = _step_texts(value, axis)[axis.own]
    return (
        f'<div class="gw-what-if-input"><label for="{identity}">{escape(value.title)}</label>'
        f'<input type="range" id="{identity}" min="0" max="{len(axis.steps) - 1}" step="1" value="{axis.own}" '
        f'autocomplete="off" aria-valuetext="{escape(texts.workshop)}">'
        f'<output for="{identity}" aria-live="off"{systems(texts)}>{escape(texts.workshop)}</output></div>'
    )


def _row(value: Value, texts: Shown, page: PageContext) -> str:
    link = f'<a href="{page.working_url(value.name)}">{escape(value.title)}</a>'
    return (
        f'<tr><th scope="row">{link}</th><td>{value_span(texts, value.name)}</td>'
        f'<td><span class="gw-what-if-here"{systems(texts)}>{escape(texts.workshop)}</span></td></tr>'
    )


def _axis_data(value: Value, axis: Axis) -> dict[str, Any]:
    texts = _step_texts(value, axis)
    said = {system: [getattr(one, system) for one in texts] for system in SYSTEMS}
    return {"points": axis.points, "steps": axis.steps, "own": axis.own, "said": said}


def _step_texts(value: Value, axis: Axis) -> list[Shown]:
    """What each step is called: to the decimals that tell it from the next."""
    own = unit(value.unit, value.kind)
    apart = min(abs(after - before) for before, after in zip(axis.steps, axis.steps[1:], strict=False)) / own.factor
    decimals = max(0, -floor(log10(apart) + 1e-9)) + (1 if _needs_one_more(apart) else 0)
    texts = [shown(step, own, atmosphere_pa=value.atmosphere_pa, decimals=decimals) for step in axis.steps]
    texts[axis.own] = replace(value, si=axis.steps[axis.own]).shown()
    return texts


def _needs_one_more(apart: float) -> bool:
    """Whether a step has a second digit, as that of 2.5 has."""
    first = apart / 10 ** floor(log10(apart) + 1e-9)
    return apart < 10 and abs(first - round(first)) > 1e-6


def _form(value: Value, spread: float) -> dict[str, Any]:
    """How a figure is written: what `show` and `shown` do, for a script."""
    own = unit(value.unit, value.kind)
    base = value.atmosphere_pa if value.atmosphere_pa is not None and own.kind == "gauge_pressure" else 0.0
    return {
        "digits": value.digits, "decimals": value.decimals, "rounding": value.rounding, "base": base, "spread": spread,
        "own": _unit(own), "units": {system: [_unit(one) for one in _units(own, system)] for system in SYSTEMS},
    }  # fmt: skip


def _unit(one: Unit) -> list[Any]:
    return [one.symbol, one.factor, one.offset]


def _units(own: Unit, system: System) -> Iterator[Unit]:
    typed = getattr(own, system)
    yield from (unit(one, own.kind) for one in typed) if typed else (own,)
