"""What the flag of a section says in a drawing: its name, the pressure that it reaches, how it is shut off, what it holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import isfinite

from diagrams import Text
from diagrams.lettering import Row
from diagrams.proportions import LABEL
from macros.network.told import SectionStand
from macros.quantities import say, shown
from macros.quantities.languages import cached_as_spoken

__all__ = ["flag_rows", "marks_of"]

SMALL_PA = 1e4
"""Below this a gauge pressure is told in the unit of low pressures."""


def flag_rows(stand: SectionStand, atmosphere_pa: float, opened: Iterable[str]) -> Iterator[Row]:
    """
    The rows of a section's flag.

    Parameters
    ----------
    stand : SectionStand
    atmosphere_pa : float
    opened : iterable of str
        Tags of its items that stand open to the air.
    """
    yield Row(Text(stand.name.replace("_", " ")), LABEL, "gw-flag-name", bold=True)
    # What nothing feeds and no vent empties is not brought to a pressure; it may still stand under one.
    key = "drawing.may_hold" if stand.isolated and not stand.vented else "drawing.up_to"
    yield Row(_pressure(key, stand.pressure_pa, atmosphere_pa), LABEL, "gw-label gw-reached")
    if stand.rests_pa < stand.pressure_pa:
        yield Row(_pressure("drawing.falls_to", stand.rests_pa, atmosphere_pa), LABEL, "gw-label gw-reached")
    for mark in marks_of(stand):
        yield Row(Text(say(f"drawing.mark.{mark}")), LABEL, f"gw-mark gw-mark-{mark}", sign=mark)
    if not stand.inert and stand.holds:
        gases = say("drawing.and").join(say(f"drawing.gas.{gas}") for gas in stand.holds)
        yield Row(Text(say("drawing.holds", gases=gases)), LABEL, "gw-label gw-holds")
    for tag in opened:
        yield Row(Text(say("drawing.opened", tag=tag)), LABEL, "gw-label gw-opened", bold=True)


def marks_of(stand: SectionStand) -> Iterator[str]:
    """The marks that a section bears."""
    yield "isolated" if stand.isolated else "live"
    if stand.vented:
        yield "vented"
    if stand.inert:
        yield "inert"


@cached_as_spoken(maxsize=1024)
def _pressure(key: str, pressure_pa: float, atmosphere_pa: float) -> Text:
    """A pressure in a sentence, in every system of units, rounded up: it is the most that is reached."""
    if not isfinite(pressure_pa):
        return Text(say("drawing.without_limit"))
    if pressure_pa <= atmosphere_pa and key in ("drawing.up_to", "drawing.may_hold"):
        key = "drawing.stands_at"
    small = 0 < pressure_pa - atmosphere_pa < SMALL_PA
    unit, digits = ("mbar(g)", 2) if small else ("bar(g)", 3)
    texts = shown(pressure_pa, unit, digits, rounding="up", atmosphere_pa=atmosphere_pa)
    return Text(*(say(key, pressure=text) for text in (texts.workshop, texts.si, texts.us)))
