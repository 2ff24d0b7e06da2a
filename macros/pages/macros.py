"""
The macros of a page: functions that a guide may call with constants, each named after what it gives.

Those with inputs on the page convert them, call one calculation (or two in turn), and return a number with its working
like any figure. They are plain functions: `page` is handed in by whoever writes the page, and may be left away.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import Any

from macros.calculations.booster import pressure_ratio as ratio_of_pressures
from macros.calculations.booster import stall_pressure as stall
from macros.calculations.conductor import conductor_resistance, hot_resistance, voltage_drop
from macros.calculations.desiccant import residual_loading, working_capacity
from macros.calculations.facts import facts
from macros.calculations.faraday import hydrogen_produced
from macros.calculations.humidity import frost_point as frost_point_of
from macros.calculations.humidity import water_fraction_saturated
from macros.calculations.leak import hole_area
from macros.calculations.leak import leak_flow as flow_through_hole
from macros.calculations.purge import pressure_swings_exact, whole_swings
from macros.calculations.storage import mass_stored, pressure_when
from macros.figures.graph import FigureError, Graph
from macros.pages.citations import citation
from macros.pages.context import PageContext, anchor
from macros.pages.forms import commissioning_form, device_form, form, log_form, section_form, trip_form
from macros.pages.fragments import FragmentError, call_key, figure_fragment, worked_fragment
from macros.pages.given import Given
from macros.pages.numbers import typed_digits
from macros.pages.parts_html import parts
from macros.pages.plant_macros import item, lineup, plot, schematic, trips, valve_table
from macros.pages.registry import MACROS, NO_PAGE, macro
from macros.pages.tokens import Fragment
from macros.pages.value_tables import tables_of
from macros.pages.working import scrolling, table_html
from macros.quantities import QuantityError, Shown, read, say, shown
from macros.quantities.languages import with_mark

__all__ = [
    "MACROS",
    "call",
    "cell_fragment",
    "commissioning_form",
    "device_form",
    "fact_texts",
    "form",
    "item",
    "lineup",
    "log_form",
    "parts",
    "plot",
    "schematic",
    "section_form",
    "tables_of",
    "trip_form",
    "trips",
    "valve_table",
]

LONGEST_TYPED = 40

MOST_SIDE_BY_SIDE = 4
"""Members of a table that still fit beside each other on a page."""


@macro
def gas_yield(
    cells: float,
    current: str,
    faraday_efficiency: str | None = None,
    *,
    unit: str = "NL/min",
    digits: int = 3,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """Hydrogen that cells in series make: `gas_yield(cells=20, current="40 A")`."""
    given = Given("gas_yield", page)
    inputs = {
        "cells": given.entry("cells", cells, "count", say("pages.given.cells"), "N"),
        "current_a": given.entry("current", current, "current", say("pages.given.current"), "I"),
    }
    if faraday_efficiency is not None:
        title = say("pages.given.faraday_efficiency")
        inputs["faraday_efficiency"] = given.entry("faraday_efficiency", faraday_efficiency, "fraction", title, "η_F")
    result = given.figure("gas_yield", hydrogen_produced, unit="NL/min", kind="normal_flow", symbol="n_H2", **inputs)
    return given.fragment(result, unit, digits)


@macro
def pressure_ratio(
    outlet: str, inlet: str, atmosphere: str | None = None, *, digits: int = 3, page: PageContext = NO_PAGE
) -> Fragment:
    """Ratio of absolute pressures: `pressure_ratio(outlet="50 bar(g)", inlet="15 bar(g)")`."""
    given = Given("pressure_ratio", page)
    given.atmosphere(atmosphere)
    result = given.figure(
        "pressure_ratio",
        ratio_of_pressures,
        kind="ratio",
        symbol="π",
        discharge_pressure_pa=given.entry("outlet", outlet, "pressure", say("pages.given.outlet"), "p_2"),
        inlet_pressure_pa=given.entry("inlet", inlet, "pressure", say("pages.given.inlet"), "p_1"),
    )
    return given.fragment(result, None, digits)


@macro
def stall_pressure(
    ratio: float,
    drive: str,
    supply: str = "0 bar(g)",
    assist_ratio: float = 0,
    atmosphere: str | None = None,
    *,
    unit: str = "bar(g)",
    digits: int = 3,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """Pressure at which a booster stalls: `stall_pressure(ratio=12, drive="6 bar(g)")`. Rounded up."""
    given = Given("stall_pressure", page)
    result = given.figure(
        "stall_pressure",
        stall,
        unit="bar(g)",
        symbol="p_stall",
        rounding="up",
        area_ratio=given.entry("ratio", ratio, "ratio", say("pages.given.area_ratio"), "r_a"),
        drive_pressure_pa=given.entry("drive", drive, "pressure", say("pages.given.drive"), "p_d"),
        supply_pressure_pa=given.entry("supply", supply, "pressure", say("pages.given.supply"), "p_s"),
        assisting_area_ratio=given.entry("assist_ratio", assist_ratio, "ratio", say("pages.given.assist_ratio"), "r_s"),
        atmosphere_pa=given.atmosphere(atmosphere),
    )
    return given.fragment(result, unit, digits)


@macro
def stored_mass(
    volume: str,
    pressure: str,
    temperature: str = "15 °C",
    atmosphere: str | None = None,
    *,
    unit: str = "kg",
    digits: int = 3,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """Hydrogen in a vessel: `stored_mass(volume="50 L", pressure="200 bar(g)")`."""
    given = Given("stored_mass", page)
    given.atmosphere(atmosphere)
    result = given.figure(
        "stored_mass",
        mass_stored,
        unit="kg",
        symbol="m",
        volume_m3=given.entry("volume", volume, "volume", say("pages.given.volume"), "V"),
        pressure_pa=given.entry("pressure", pressure, "pressure", say("pages.given.pressure"), "p"),
        temperature_k=given.entry("temperature", temperature, "temperature", say("pages.given.temperature"), "T"),
    )
    return given.fragment(result, unit, digits)


@macro
def gauge_reading(
    filled: str,
    now: str,
    at: str = "15 °C",
    atmosphere: str | None = None,
    *,
    unit: str = "bar(g)",
    digits: int = 3,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """The gauge of a shut vessel on a day of another temperature: `gauge_reading(filled="50 bar(g)", now="-8 °C")`."""
    given = Given("gauge_reading", page)
    given.atmosphere(atmosphere)
    result = given.figure(
        "gauge_reading",
        pressure_when,
        unit="bar(g)",
        symbol="p_now",
        pressure_pa=given.entry("filled", filled, "pressure", say("pages.given.filled"), "p"),
        temperature_k=given.entry("at", at, "temperature", say("pages.given.temperature"), "T"),
        later_temperature_k=given.entry("now", now, "temperature", say("pages.given.later_temperature"), "T_now"),
    )
    return given.fragment(result, unit, digits)


@macro
def drying_capacity(
    bed: str,
    humidity: str,
    temperature: str,
    regeneration: str,
    purge_dew_point: str,
    transfer_zone: str = "0 %",
    *,
    unit: str = "g",
    digits: int = 2,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """
    Water that a bed of silica gel takes up between two regenerations.

    `drying_capacity(bed="2 kg", humidity="80 %", temperature="25 °C", regeneration="140 °C", purge_dew_point="10 °C")`.
    Rounded down, since the gel is changed by it.
    """
    given = Given("drying_capacity", page)
    residual = given.figure(
        "residual_loading",
        residual_loading,
        unit="g/kg",
        symbol="q_0",
        regeneration_temperature_k=given.entry(
            "regeneration", regeneration, "temperature", say("pages.given.regeneration"), "T_reg"
        ),
        purge_dew_point_k=given.entry(
            "purge_dew_point", purge_dew_point, "temperature", say("pages.given.purge_dew_point"), "T_dp"
        ),
    )
    result = given.figure(
        "drying_capacity",
        working_capacity,
        unit="g",
        symbol="m_w",
        rounding="down",
        bed_mass_kg=given.entry("bed", bed, "mass", say("pages.given.bed"), "m_d"),
        inlet_humidity=given.entry("humidity", humidity, "fraction", say("pages.given.humidity"), "φ"),
        temperature_k=given.entry("temperature", temperature, "temperature", say("pages.given.bed_temperature"), "T"),
        residual_loading=residual,
        transfer_zone=given.entry("transfer_zone", transfer_zone, "fraction", say("pages.given.transfer_zone"), "z"),
    )
    return given.fragment(result, unit, digits)


@macro
def frost_point(
    dew_point: str, pressure: str, atmosphere: str | None = None, *, page: PageContext = NO_PAGE
) -> Fragment:
    """
    Frost point at one atmosphere of gas with a dew point at a pressure.

    `frost_point(dew_point="4 °C", pressure="15 bar(g)")`.
    """
    given = Given("frost_point", page)
    given.atmosphere(atmosphere)
    water = given.figure(
        "water_fraction",
        water_fraction_saturated,
        unit="ppm",
        symbol="x_w",
        pressure_pa=given.entry("pressure", pressure, "pressure", say("pages.given.pressure"), "p"),
        temperature_k=given.entry("dew_point", dew_point, "temperature", say("pages.given.dew_point"), "T_dp"),
    )
    result = given.figure("frost_point", frost_point_of, unit="°C", decimals=0, symbol="T_f", water_fraction=water)
    return given.fragment(result, None, None)


@macro
def purge_swings(
    start: str,
    end: str,
    high: str,
    low: str = "0 bar(g)",
    atmosphere: str | None = None,
    *,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """Pressure swings that thin a gas out: `purge_swings(start="100 %", end="1 %", high="4 bar(g)")`."""
    given = Given("purge_swings", page)
    given.atmosphere(atmosphere)
    exact = given.figure(
        "purge_swings_exact",
        pressure_swings_exact,
        kind="ratio",
        symbol="n_x",
        rounding="up",
        start_fraction=given.entry("start", start, "fraction", say("pages.given.start"), "x_0"),
        end_fraction=given.entry("end", end, "fraction", say("pages.given.end"), "x_1"),
        high_pressure_pa=given.entry("high", high, "pressure", say("pages.given.high"), "p_h"),
        low_pressure_pa=given.entry("low", low, "pressure", say("pages.given.low"), "p_l"),
    )
    result = given.figure("purge_swings", whole_swings, kind="count", symbol="n", rounding="up", exact=exact)
    return given.fragment(result, None, None)


@macro
def leak_flow(
    hole: str,
    pressure: str,
    temperature: str = "15 °C",
    discharge_coefficient: float = 0.8,
    atmosphere: str | None = None,
    *,
    unit: str = "g/s",
    digits: int = 2,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """Hydrogen through a hole into the open: `leak_flow(hole="1 mm", pressure="50 bar(g)")`. Rounded up."""
    given = Given("leak_flow", page)
    into = given.atmosphere(atmosphere)
    diameter = given.entry("hole", hole, "length", say("pages.given.hole"), "d")
    area = given.figure("hole_area", hole_area, unit="mm2", symbol="A", diameter_m=diameter)
    result = given.figure(
        "leak_flow",
        flow_through_hole,
        unit="g/s",
        symbol="ṁ",
        rounding="up",
        hole_area_m2=area,
        discharge_coefficient=given.entry(
            "discharge_coefficient", discharge_coefficient, "ratio", say("pages.given.discharge_coefficient"), "C_d"
        ),
        upstream_pressure_pa=given.entry("pressure", pressure, "pressure", say("pages.given.pressure"), "p"),
        upstream_temperature_k=given.entry(
            "temperature", temperature, "temperature", say("pages.given.temperature"), "T"
        ),
        back_pressure_pa=into,
    )
    return given.fragment(result, unit, digits)


@macro
def cable_drop(
    length: str,
    area: str,
    current: str,
    conductor_temperature: str = "70 °C",
    *,
    unit: str = "V",
    digits: int = 2,
    page: PageContext = NO_PAGE,
) -> Fragment:
    """Voltage lost over both copper conductors: `cable_drop(length="4 m", area="25 mm2", current="60 A")`."""
    given = Given("cable_drop", page)
    title = say("pages.given.conductor_temperature")
    result = given.figure(
        "cable_drop",
        drop_of_copper,
        unit="V",
        symbol="ΔU",
        rounding="up",
        area_m2=given.entry("area", area, "area", say("pages.given.conductor_area"), "A_w"),
        temperature_k=given.entry("conductor_temperature", conductor_temperature, "temperature", title, "T_w"),
        length_m=given.entry("length", length, "length", say("pages.given.cable_length"), "l"),
        current_a=given.entry("current", current, "current", say("pages.given.current"), "I"),
    )
    return given.fragment(result, unit, digits)


def drop_of_copper(area_m2: float, temperature_k: float, length_m: float, current_a: float) -> float:
    """
    Voltage lost over both conductors of a copper cable.

    Notes
    -----
    Table of conductors [iec-60228, table of class 5 conductors], carried to the conductor's temperature
    [iec-60028, temperature coefficient at 20 °C].
    """
    return voltage_drop(hot_resistance(conductor_resistance(area_m2), temperature_k), length_m, current_a)


@macro
def fact(name: str, *, page: PageContext = NO_PAGE) -> Fragment:
    """A constant or limit from the table of facts, with its source: `fact("lower_flammable_limit")`."""
    if name not in facts():
        raise FragmentError(say("pages.unknown_fact", found=name, known=", ".join(sorted(facts()))))
    one = facts()[name]
    texts = fact_texts(name)
    source = citation(one.source, one.locator, page)
    return worked_fragment(
        title=one.title[:1].upper() + one.title[1:],
        texts=texts,
        body=f'<p class="gw-source">{escape(say("pages.source"))} {source}.</p>',
        key=f"fact-{name}",
        data=f'data-fact="{escape(name)}"',
        link=page.url("facts.md", anchor("f", name)),
    )


def fact_texts(name: str) -> Shown:
    """A fact in all three systems of units, in the digits of its source."""
    quantity = facts()[name].quantity
    return shown(quantity.si, quantity.unit, typed_digits(quantity.text))


@macro
def typed(value: str, reason: str, difference: bool = False, *, page: PageContext = NO_PAGE) -> Fragment:
    """
    A number of the author's own, with the reason why no figure can give it: `typed("17 mm", "spanner size")`.

    It is shown as typed in every system of units. A pressure without (g) or (a) needs `difference=True`.
    """
    del page
    text, why = " ".join(str(value).split()), " ".join(str(reason).split())
    if not 0 < len(text) <= LONGEST_TYPED:
        raise FragmentError(say("pages.typed_length", found=text, most=LONGEST_TYPED))
    if len(why) < 3:
        raise FragmentError(say("pages.typed_reason"))
    try:
        kind = read(text).kind
    except QuantityError:
        # A thread or a fraction of an inch is no quantity of the table, and need not be.
        kind = ""
    if kind == "pressure_difference" and not difference:
        raise FragmentError(say("pages.typed_pressure", found=text))
    shown_so = with_mark(text)
    return worked_fragment(
        title=say("pages.typed_title"),
        texts=Shown(shown_so, shown_so, shown_so),
        body=f'<p class="gw-reason">{escape(say("pages.typed_why", reason=why))}</p>',
        key=call_key("typed", text, why),
        data='data-typed=""',
    )


@macro
def figure_table(group: str, *, page: PageContext) -> Fragment:
    """All figures of a part of the plant with their workings: `figure_table("stack")`."""
    graph = _graph(page)
    names = [name for name in graph.figures if name.startswith(f"{group}.")]
    if not names:
        raise FragmentError(say("pages.no_group", found=group, plant=page.name, known=_groups(graph.figures)))
    return _table(page, names, ("what", "value"), say("pages.figures_of", group=group))


@macro
def inputs_table(group: str, *, page: PageContext) -> Fragment:
    """All entries of a part of the plant as the description gives them: `inputs_table("stack")`."""
    graph = _graph(page)
    names = [name for name in graph.entries if name.startswith(f"{group}.")]
    if not names:
        raise FragmentError(say("pages.no_group", found=group, plant=page.name, known=_groups(graph.entries)))
    return _table(page, names, ("what", "value", "place"), say("pages.inputs_of", group=group))


@macro
def each_table(part: str, names: str, kind: str = "", *, page: PageContext) -> Fragment:
    """
    The same figures or entries of each bank, booster, use …: `each_table("banks", "mass, hot_pressure")`.

    With a kind, only of those members that are of it: `each_table("uses", "hours", kind="burner")`. A few members stand
    side by side, many one below the other.
    """
    graph = _graph(page)
    above = f"{part}."
    wanted = [name.strip() for name in names.split(",")]
    members = list(dict.fromkeys(path.removeprefix(above).split(".")[0] for path in graph if path.startswith(above)))
    members = [member for member in members if any(f"{above}{member}.{name}" in graph for name in wanted)]
    if kind:
        members = [member for member in members if _kind_of(graph, above, member) == kind]
    if not members:
        raise FragmentError(say("pages.none_has", part=part, found=names))
    titles: list[str] = []
    columns: list[list[str]] = []
    workings: dict[str, str] = {}
    for name in wanted:
        held = [f"{above}{member}.{name}" for member in members]
        present = [path for path in held if path in graph]
        if not present:
            raise FragmentError(say("pages.none_has", part=part, found=name))
        cells = [cell_fragment(page, path) if path in graph else Fragment(say("pages.absent")) for path in held]
        for cell in cells:
            workings.update(cell.workings)
        columns.append([cell.rich or escape(cell.plain) for cell in cells])
        titles.append(graph[present[0]].title)
    called = [_called(page, graph, above, member) for member in members]
    if len(members) > MOST_SIDE_BY_SIDE:
        rows, heads, sides = [list(row) for row in zip(*columns, strict=True)], titles, called
    else:
        rows, heads, sides = columns, called, titles
    label = say("pages.figures_of", group=part)
    table = scrolling(_table_of(heads, sides, rows), label)
    return Fragment(plain=label, rich=table, block=True, workings=workings)


def _table_of(heads: list[str], sides: list[str], rows: list[list[str]]) -> str:
    """A table as HTML: texts above and beside, cells that are HTML already."""
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in (say("pages.column.what"), *heads))
    body = "".join(
        f'<tr><th scope="row">{escape(side)}</th>{"".join(f"<td>{cell}</td>" for cell in row)}</tr>'
        for side, row in zip(sides, rows, strict=True)
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _kind_of(graph: Graph, above: str, member: str) -> object:
    path = f"{above}{member}.kind"
    return graph[path].si if path in graph else None


def _called(page: PageContext, graph: Graph, above: str, member: str) -> str:
    """How a bank, booster, section, room or item is called in a table: by its title or name, and its tag."""
    mark = member.upper()
    if mark in page.tags:
        return f"{mark} {page.tags[mark]}"
    if page.plant is not None and mark in page.plant.network.lines:
        return f"{mark} {page.plant.network.lines[mark].title or ''}".strip()
    if page.plant is not None and above == "safety." and member in page.plant.network.sections:
        return page.plant.network.sections[member].title
    tag = f"{above}{member}.tag"
    titles = (f"{above}{member}.title", f"{above.removeprefix('safety.')}{member}.title")
    named = next((str(graph[title].si) for title in titles if title in graph), member.replace("_", " "))
    return f"{named} ({graph[tag].si})" if tag in graph else named


def _graph(page: PageContext) -> Graph:
    if page.graph is None:
        raise FragmentError(say("pages.no_plant"))
    return page.graph


def _groups(names: Iterable[str]) -> str:
    return ", ".join(sorted({name.split(".")[0] for name in names}))


def _table(page: PageContext, names: Iterable[str], columns: tuple[str, ...], label: str) -> Fragment:
    graph = _graph(page)
    rows: list[str] = []
    workings: dict[str, str] = {}
    plain: list[str] = []
    for name in names:
        value = graph[name]
        title = value.title or name
        cell = cell_fragment(page, name)
        workings.update(cell.workings)
        plain.append(f"{title}: {cell.plain}")
        place = f"<td>{escape(value.place or say('pages.default'))}</td>" if "place" in columns else ""
        rows.append(f'<tr><th scope="row">{escape(title)}</th><td>{cell.rich or escape(cell.plain)}</td>{place}</tr>')
    return Fragment(
        plain="; ".join(plain),
        rich=scrolling(table_html(columns, rows), label),
        block=True,
        workings=workings,
    )


def cell_fragment(page: PageContext, name: str) -> Fragment:
    """An entry or figure of any kind for a table: what is no single value is a link to where it is told."""
    value = _graph(page)[name]
    if value.kind in ("table", "run", "curve"):
        what = say(f"pages.kind.{value.kind}")
        link = f'<a href="{page.working_url(name)}">{escape(what)}</a>'
        return Fragment(plain=what, rich=link, marked=link)
    return figure_fragment(page, name)


def call(name: str, positional: tuple[Any, ...], named: dict[str, Any], page: PageContext) -> Fragment:
    """
    Call a macro for a page.

    Raises
    ------
    FragmentError
        If it cannot say what it was asked for; the message is ready for the author.
    """
    try:
        return MACROS[name](*positional, **named, page=page)
    except QuantityError as error:
        raise FragmentError(error.message) from error
    except FigureError as error:
        raise FragmentError(str(error)) from error
