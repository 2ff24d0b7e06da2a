"""What single computations cost: properties, runs, line-ups, sheets."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from unittest import mock

from macros.calculations import hydrogen
from macros.figures.graph import _argument
from macros.figures.lineups import lineups_of
from macros.figures.plant import Plant
from macros.network.audit import places, single_failures
from macros.sheets.wall import wall_guide
from tests.benchmarks.timing import Row, median_s, processor_s

ROOT = Path(__file__).parents[2]
CALLS = 20_000
STEPS = 40


def _plant(name: str) -> Plant:
    return Plant.load(ROOT / "docs/designs" / name, ROOT)


def properties() -> Iterator[Row]:
    """(d) A density by ours and by a bare state of the library that is used again and again."""
    from CoolProp import CoolProp

    state = CoolProp.AbstractState("HEOS", "Hydrogen")
    state.specify_phase(CoolProp.iphase_supercritical_gas)
    pairs = [(1e5 + 1e3 * number, 280.0 + number % 40) for number in range(CALLS)]

    def bare() -> None:
        for pressure_pa, temperature_k in pairs:
            state.update(CoolProp.PT_INPUTS, pressure_pa, temperature_k)
            state.rhomass()

    def ours() -> None:
        for pressure_pa, temperature_k in pairs:
            hydrogen.state_density(pressure_pa, temperature_k)

    ours()
    yield Row("density of hydrogen", median_s(ours) / CALLS, median_s(bare) / CALLS, 1.3)


def runs() -> Iterator[Row]:
    """(e) A filling run, and a year by the hour."""
    for name, ending, limit, what in (
        ("shed", ".run", 0.050, "filling run"),
        ("farm", "season.run", 0.100, "year of 8,760 h"),
    ):
        graph = _plant(name).graph
        kind = next(one for one in graph.figures if one.endswith(ending) and one.startswith(("banks", "season")))
        figure = graph.figures[kind]
        arguments = {argument: _argument(graph[read]) for argument, read in figure.inputs.items()}
        figure.compute(**arguments)
        yield Row(f"{what}, {name}", median_s(lambda: figure.compute(**arguments)), None, limit, kind)  # noqa: B023


def line_ups() -> Iterator[Row]:
    """(f) Forty steps of the farm with every single failure in each."""
    lineups = lineups_of(_plant("farm"))
    items = len(lineups.piping.network.items)
    start = time.process_time()
    stood = [(place, lineup) for place, lineup, _ in islice(places(lineups), STEPS)]
    failures = sum(1 for _ in single_failures(stood))
    spent = time.process_time() - start
    yield Row(f"{STEPS} line-ups of {items} items", spent, None, 2.0, f"{failures} single failures")


def sheets() -> Iterator[Row]:
    """(g) The wall guides of each plant, A3 and A4."""
    for name in ("bench", "shed", "farm"):
        plant = _plant(name)
        wall_guide(plant, "a3", "si")
        spent = processor_s(lambda: [wall_guide(plant, paper) for paper in ("a3", "a4")])  # noqa: B023
        yield Row(f"wall guides of {name}", spent / 2, None, 1.0, "a sheet")


def start() -> Iterator[Row]:
    """Importing the property library, which nothing does before a property is asked."""
    with mock.patch.dict(os.environ, {"GASWRIGHT_CACHE": ""}):
        yield Row("start without properties", _started("import macros.command"), None, None)
        yield Row("start with properties", _started("import macros.command, CoolProp.CoolProp"), None, None)


def _started(code: str) -> float:
    import resource
    import subprocess
    import sys

    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
