"""What a wall guide says, as plain data for the typesetter: every text ready-made, every number as the handbook shows it."""

from __future__ import annotations

import datetime
import importlib.metadata
from collections.abc import Iterator
from math import ceil, inf
from typing import Any

from macros.calculations.storage import SETTLED_TEMPERATURE
from macros.description.plant import Trip
from macros.description.procedures_file import Procedure, Step
from macros.description.wall_file import WallFile
from macros.figures.plant import Plant
from macros.quantities import System, say, shown
from macros.quantities.showing import NO_BREAK_SPACE
from macros.sheets.wall.fonts import text_width
from macros.sheets.wall.wording import Runs, Wording

__all__ = ["content_of"]

COLUMNS = 3
"""Columns in which trips stand."""
COLUMN_EM, EFFECT_ROW, BELOW = 21.0, 1.15, 0.5
"""Room for the text of a column of trips, in font sizes; a line of what trips do, and the white below it, in rows."""
MOST_SHARED = 10
"""Groups of trips that are shared out in the best of all ways; more are shared out in turn."""


def content_of(plant: Plant, paper: str, system: System, day: datetime.date, newer_at: str) -> dict[str, Any]:
    """
    What the wall guide of a plant says on a paper.

    Parameters
    ----------
    plant : Plant
        Its names in `wall.yml` were checked before.
    paper : {"a3", "a4"}
    system : {"workshop", "si", "us"}
    day : date
        Printed as the day of the sheet.
    newer_at : str
        Where a newer sheet is looked for; empty if it is not known.
    """
    assert plant.description.wall is not None
    return _Content(plant, plant.description.wall, paper, Wording(plant, system), day, newer_at).all()


class _Content:
    def __init__(
        self, plant: Plant, wall: WallFile, paper: str, words: Wording, day: datetime.date, newer_at: str
    ) -> None:
        self.plant, self.wall, self.paper, self.words = plant, wall, paper, words
        self.day, self.newer_at = day, newer_at
        self.lowest = getattr(wall.papers, paper)

    def carries(self, block: Any) -> bool:
        """Whether the paper carries a block."""
        return block is not None and block.priority <= self.lowest

    def all(self) -> dict[str, Any]:
        positions = {way: say(f"wall.position.{way}") for way in ("open", "closed")}
        return {
            "paper": self.paper,
            "positions": positions,
            "head": self.head(),
            "blocks": [each for each in self.blocks() if each is not None],
        }

    def head(self) -> dict[str, Any]:
        """What stands over and under everything."""
        version = importlib.metadata.version("gaswright")
        return {
            "title": self.plant.title,
            "place": self.plant.description.plant.site.place,
            "status": say(f"wall.status.{self.plant.status}"),
            "facts": [
                [say("wall.digest"), self.plant.digest],
                [say("wall.version"), version],
                [say("wall.date"), self.day.isoformat()],
                [say("wall.units"), say(f"wall.system.{self.words.system}")],
            ],
            "cautions": [say("wall.caution"), say("wall.defer")],
            "newer": say("wall.newer_at", version=version, address=self.newer_at)
            if self.newer_at
            else say("wall.newer_unknown", version=version),
            "assumed": say("wall.assumed"),
            "document": say("wall.document", plant=self.plant.title, units=say(f"wall.system.{self.words.system}")),
            "over": say("wall.over"),
            "scan": say("wall.scan"),
        }

    def blocks(self) -> Iterator[dict[str, Any] | None]:
        """The blocks that the paper carries, in the order in which they look for room."""
        wall = self.wall
        if self.carries(wall.emergency):
            yield self.block("emergency", wall.emergency, ("emergency",), **self.emergency(wall.emergency.procedure))
        if self.carries(wall.limits):
            yield self.block(
                "limits",
                wall.limits,
                ("limits",),
                rows=list(self.limits()),
                **_words("limits", "what", "value", "at", "beyond"),
            )
        trips = self.plant.description.plant.trips
        if self.carries(wall.trips) and trips:
            yield self.block("trips", wall.trips, ("trips",), columns=_shared_out(list(self.trips())), after=say("wall.trips.after"),
                             **_words("trips", "cause", "alarm", "trip"))  # fmt: skip
        for number, each in enumerate(wall.procedures, 1):
            if self.carries(each):
                yield self.block("procedure", each, ("procedures", number), **self.procedure(each.name))
        banks = self.plant.description.plant.banks
        if self.carries(wall.gauges) and banks:
            yield self.block("gauges", wall.gauges, ("gauges",), **self.gauges())
        if self.carries(wall.service):
            assert wall.service is not None
            rows = [[self.words.runs(row.what), self.words.runs(row.every)] for row in wall.service.rows]
            yield self.block("service", wall.service, ("service",), rows=rows)
        if self.carries(wall.lines):
            assert wall.lines is not None
            yield self.block(
                "lines", wall.lines, ("lines",), least=int(wall.lines.least.si), columns=wall.lines.columns
            )

    def block(self, kind: str, block: Any, path: tuple[str | int, ...], **more: Any) -> dict[str, Any]:
        """A block with its title, and the key under which its author finds it."""
        key = ".".join(map(str, path))
        return {"kind": kind, "key": key, "priority": block.priority, "title": say(f"wall.{kind}.title"), **more}

    # --- emergency

    def emergency(self, name: str) -> dict[str, Any]:
        procedure = self.plant.description.procedures.procedures[name]
        return {
            "when": self.words.runs(procedure.when),
            "steps": [self.words.runs(step.do) for step in procedure.steps],
            "hazards": [self.words.runs(text) for text in procedure.hazards],
        }

    # --- limits and trips

    def limits(self) -> Iterator[dict[str, Any]]:
        for row in self.wall.limits.rows:
            title = row.what if row.what is not None else self.plant.graph[row.figure].title
            yield {
                "what": self.words.runs(title),
                "value": [self.words.value(row.figure)],
                "at": row.at or "",
                "beyond": self.words.runs(row.beyond),
            }

    def trips(self) -> Iterator[dict[str, Any]]:
        """Trips that do the same stand together under what they do."""
        groups: dict[tuple[frozenset[str], ...], list[Trip]] = {}
        for trip in self.plant.description.plant.trips:
            groups.setdefault((frozenset(trip.stops), frozenset(trip.shuts), frozenset(trip.opens)), []).append(trip)
        for trips in groups.values():
            stops, shuts, opens = trips[0].stops, trips[0].shuts, trips[0].opens
            yield {
                "stops": say("wall.trips.stops", drives=_listed(say(f"wall.drive.{drive}") for drive in stops))
                if stops
                else "",
                "shuts": list(shuts),
                "opens": list(opens),
                "shut": say("wall.trips.shut"),
                "open": say("wall.trips.open"),
                "rows": [
                    {
                        "cause": say(f"wall.cause.{trip.cause}"),
                        "sensor": trip.sensor or "",
                        "alarm": self.words.limit(trip.alarm),
                        "trip": self.words.limit(trip.trip),
                    }
                    for trip in trips
                ],
            }

    # --- procedures

    def procedure(self, name: str) -> dict[str, Any]:
        file = self.plant.description.procedures
        procedure = file.procedures[name]
        valves = [tag for tag in self.plant.network.items if any(tag in step.sets for step in procedure.steps)]
        before = {**self.plant.network.positions(), **file.states[procedure.start].positions}
        return {
            "title": procedure.title,
            "when": self.words.runs(procedure.when),
            "hazards": [self.words.runs(text) for text in procedure.hazards],
            "needs": [self.words.runs(text) for text in procedure.needs],
            "valves": valves,
            "states": self.states(procedure),
            "steps": list(self.steps(procedure, valves, before)),
            **_words("procedure", "do", "reads"),
        }

    def states(self, procedure: Procedure) -> str:
        """Where a procedure begins and ends, in one where it is the same."""
        states = self.plant.description.procedures.states
        start, end = states[procedure.start].title, states[procedure.end].title
        key = "wall.procedure.returns" if procedure.start == procedure.end else "wall.procedure.leads"
        return say(key, start=start, **({} if procedure.start == procedure.end else {"end": end}))

    def steps(self, procedure: Procedure, valves: list[str], before: dict[str, str]) -> Iterator[dict[str, Any]]:
        stands = dict(before)
        for step in procedure.steps:
            moved = {tag for tag, position in step.sets.items() if stands[tag] != position}
            stands |= step.sets
            yield {
                "do": self.words.runs(step.do),
                "stands": [self.stand(tag, stands[tag], moved=tag in moved) for tag in valves],
                "reads": list(self.reads(step)),
            }

    def stand(self, tag: str, position: str, *, moved: bool = False) -> dict[str, Any]:
        """How an item stands: black where it lets nothing through. A closed isolator carries current, and says on."""
        isolator = self.plant.network.items[tag].kind.name == "isolator"
        says = say(f"wall.position.isolator_{position}" if isolator else f"wall.position.{position}")
        return {"says": says, "blocks": position == ("open" if isolator else "closed"), "moved": moved}

    def reads(self, step: Step) -> Iterator[Runs]:
        for reading in step.reads:
            at: Runs = [{"kind": "tag", "text": reading.at}, {"kind": "text", "text": " "}] if reading.at else []
            yield [*at, *self.words.runs(reading.wanted)]

    # --- gauges

    def gauges(self) -> dict[str, Any]:
        """For each bank the readings, under the temperatures of the day."""
        banks = self.plant.description.plant.banks
        tables = {name: self.words.table(f"banks.{name}.gauge_table") for name in banks}
        days = [day for day, _ in next(iter(tables.values()))]
        rows = []
        for name, bank in banks.items():
            readings = [reading.rsplit(NO_BREAK_SPACE, 1) for _, reading in tables[name]]
            rows.append(
                {
                    "title": self.plant.network.items[bank.tag].title,
                    "tag": bank.tag,
                    "full": self.words.value(f"banks.{name}.fill_pressure"),
                    "unit": readings[0][1],
                    "readings": [number for number, _ in readings],
                }
            )
        settled = self.words.of_system(shown(SETTLED_TEMPERATURE, "°C", decimals=0))
        says = {"says_note": say("wall.gauges.note", settled=settled), **_words("gauges", "day", "full")}
        return {"days": days, "banks": rows, **says}


def _words(block: str, *names: str) -> dict[str, str]:
    return {f"says_{name}": say(f"wall.{block}.{name}") for name in names}


def _listed(words: Iterator[str]) -> str:
    return ", ".join(words)


def _shared_out(groups: list[dict[str, Any]]) -> list[list[dict[str, Any]]]:
    """Groups of trips shared out between columns, their order kept in each, so that the longest is as short as can be."""
    if len(groups) <= MOST_SHARED:
        best = _shortest([_height(group) for group in groups])
    else:
        best = tuple(number * COLUMNS // len(groups) for number in range(len(groups)))
    return [[group for group, at in zip(groups, best, strict=True) if at == column] for column in range(COLUMNS)]


def _shortest(heights: list[float]) -> tuple[int, ...]:
    """The column of each height, so that the highest column is as low as can be; of ways as good the first."""
    lowest = inf
    best: tuple[int, ...] = ()

    def place(way: tuple[int, ...], filled: tuple[float, ...]) -> None:
        nonlocal lowest, best
        if max(filled) >= lowest:
            return  # what is placed only gets higher
        if len(way) == len(heights):
            lowest, best = max(filled), way
            return
        for column in range(COLUMNS):
            more = (high + heights[len(way)] * (at == column) for at, high in enumerate(filled))
            place((*way, column), tuple(more))

    place((), (0.0,) * COLUMNS)
    return best


def _height(group: dict[str, Any]) -> float:
    """About how high a group of trips stands, in rows: its causes, and what it does over so many lines."""
    limited = sum(bool(row["trip"]) for row in group["rows"])
    causes = " ".join(f"{row['cause']} {row['sensor']}" for row in group["rows"] if not row["trip"])
    does = " ".join((group["stops"], group["shut"], *group["shuts"], group["open"], *group["opens"]))
    return limited + ceil(text_width(causes) / COLUMN_EM) + EFFECT_ROW * ceil(text_width(does) / COLUMN_EM) + BELOW
