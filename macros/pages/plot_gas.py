"""Plots of the gas: its water along the train, the filling of a bank, the booster, what a bank holds and reads."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from macros.calculations.hydrogen import compressibility
from macros.calculations.run import FillRun, RunPoint
from macros.calculations.storage import SETTLED_TEMPERATURE
from macros.figures.graph import ATMOSPHERE, FigureError, Graph
from macros.figures.plant import Plant
from macros.figures.tables import Table
from macros.pages.plot_picture import Field, Limit, Mark, Measure, Picture, curve, named, telling, text_of
from macros.quantities import Shown, say

__all__ = ["filling", "gauge", "mass", "stroke_rate", "train"]

STEPS = 12
"""Steps along a swept axis, and of a table that tells a long run."""

ENDINGS = {"": "at_cut_in", "_mean": "at_mean", "_cut_out": "at_cut_out"}


def train(plant: Plant) -> Iterator[Picture]:
    """Water for each cubic metre of hydrogen, and the dew point, from stage to stage."""
    graph, stages = plant.graph, plant.description.plant.drying
    count = len(stages)
    places = {0.0: say("pages.plot.stack_outlet")}
    places |= {float(number): stage.tag for number, stage in enumerate(stages, start=1)}
    told = {
        float(number): say("pages.plot.staged", tag=stage.tag, kind=say(f"stage_kind.{stage.kind}"))
        for number, stage in enumerate(stages, start=1)
    }
    loads, dews = [], []
    for ending, name in ENDINGS.items():
        held = [(0.0, graph[f"drying.1.inlet_load{ending}"].si)]
        held += [(float(n), graph[f"drying.{n}.outlet_load{ending}"].si) for n in range(1, count + 1)]
        loads.append(curve(say(f"pages.plot.{name}"), tuple(point for point in held if point[1] > 0), True))
        dew = tuple((float(n), graph[f"drying.{n}.outlet_dew_point{ending}"].si) for n in range(1, count + 1))
        dews.append(curve(say(f"pages.plot.{name}"), dew, True))
    fields = [Field(Measure(say("pages.plot.water"), "g/Nm3", rounding="up"), tuple(loads), logarithmic=True)]
    if count > 1:
        measure = Measure(say("pages.plot.dew_point"), "°C", rounding="up")
        fields.append(Field(measure, tuple(dews)))
    yield Picture(
        "train",
        say("pages.plot.train.title"),
        telling("train.told", dew_point=graph["drying.dew_point"].shown(), stages=str(count)),
        Measure(say("pages.plot.stage"), named=places, told=told),
        tuple(fields),
    )


def filling(plant: Plant) -> Iterator[Picture]:
    """Bank and buffer while a bank is filled from empty."""
    graph = plant.graph
    for name in plant.description.plant.banks:
        if f"banks.{name}.run" in graph:
            run: FillRun = graph[f"banks.{name}.run"].si
            yield _filling(graph, name, run, _tag(plant, name))


def _filling(graph: Graph, name: str, run: FillRun, tag: str) -> Picture:
    air = float(graph[ATMOSPHERE].si)
    time = Measure(say("pages.plot.time"), "h")
    bank = Measure(say("pages.plot.bank_pressure"), "bar(g)", air)
    buffer = Measure(say("pages.plot.buffer_pressure"), "bar(g)", air)
    last = run.points[-1]
    end = _joined(time.shown(last.time_s), bank.shown(last.bank_pressure_pa))
    return Picture(
        f"filling-{name}",
        say("pages.plot.filling.title", bank=tag),
        telling(f"filling.{run.outcome}", time=time.shown(last.time_s),
            pressure=bank.shown(last.bank_pressure_pa), starts=f"{run.starts:.0f}"),
        time,
        (
            Field(bank, (curve(say("pages.plot.bank"), tuple((one.time_s, one.bank_pressure_pa) for one in run.points)),),
                  marks=(Mark(last.time_s, last.bank_pressure_pa, text_of(end)),), from_zero=True),
            Field(buffer, (curve(say("pages.plot.buffer"), tuple((one.time_s, one.buffer_pressure_pa) for one in run.points)),),
                  tuple(Limit(graph[f"buffer.{limit}"].si, named(limit, graph[f"buffer.{limit}"].shown()))
                        for limit in ("cut_in", "cut_out")), from_zero=True),
        ),
        tuple(_moments(run.points)),
    )  # fmt: skip


def _moments(points: Sequence[RunPoint]) -> Iterator[float]:
    """Moments of a run, as even as its events lie."""
    whole = points[-1].time_s
    for step in range(STEPS + 1):
        yield next(one.time_s for one in reversed(points) if one.time_s <= whole * step / STEPS + 1e-6)


def stroke_rate(plant: Plant) -> Iterator[Picture]:
    """How fast a booster strokes, and what it moves, against its back pressure, up to where it stalls."""
    for number, booster in enumerate(plant.description.plant.boosters, start=1):
        yield _stroking(plant.graph, f"boosters.{number}", booster.tag, _tag(plant, booster.target), booster.target)


def _stroking(graph: Graph, at: str, tag: str, bank: str, target: str) -> Picture:
    stall, supply = graph[f"{at}.stall_pressure"], graph[f"{at}.supply_lowest"]
    full = graph[f"banks.{target}.fill_pressure"]
    backs = sorted({supply.si + (stall.si - supply.si) * step / STEPS for step in range(STEPS + 1)} | {full.si})
    rates, flows = [], []
    for back in backs:
        try:
            rate = graph.computed(f"{at}.working_rate", back=back)
            rates.append((back, rate))
            held = graph.computed(f"{at}.volumetric_efficiency", discharge_pressure_pa=back)
            flow = graph.computed(f"{at}.flow", stroke_rate_per_s=rate, volumetric_efficiency=held)
            flows.append((back, flow))
        except FigureError:
            continue
    share = graph[f"{at}.stall_share"].shown()
    reached = Limit(full.si, named("bank_full", share, bank=bank), False)
    drawn = (("working_rate", "strokes", rates), ("flow", "moved", flows))
    return Picture(
        f"stroke_rate-{at.rpartition('.')[2]}",
        say("pages.plot.stroke_rate.title", booster=tag),
        telling("stroke_rate.told", stall=stall.shown(), full=full.shown(), share=share,
            rate=graph[f"{at}.working_rate"].shown()),
        Measure(say("pages.plot.back_pressure"), "bar(g)", graph[ATMOSPHERE].si),
        tuple(
            Field(Measure.of(graph[f"{at}.{path}"], say(f"pages.plot.{name}_axis")), (curve(say(f"pages.plot.{name}"), tuple(points)),),
                  (reached,), (Mark(full.si, graph[f"{at}.{path}"].si, text_of(graph[f"{at}.{path}"].shown())),), from_zero=True)
            for path, name, points in drawn if len(points) > 1
        ),
    )  # fmt: skip


def mass(plant: Plant) -> Iterator[Picture]:
    """What a bank holds by the reading of its gauge, and what an ideal gas would."""
    graph = plant.graph
    air = float(graph[ATMOSPHERE].si)
    for name in plant.description.plant.banks:
        held, full = graph[f"banks.{name}.mass"], graph[f"banks.{name}.fill_pressure"]
        top = max(full.si, graph[f"banks.{name}.working_pressure"].si)
        steps = sorted({air + (top - air) * step / STEPS for step in range(STEPS + 1)} | {full.si})
        real = [(each, graph.computed(held.name, pressure=each)) for each in steps]
        # The compressibility is what an ideal gas at this pressure weighs, over what the real one does.
        ideal = [(each, of_it * float(compressibility(each, SETTLED_TEMPERATURE))) for each, of_it in real]
        tag = _tag(plant, name)
        more = dict(ideal)[full.si] / held.si - 1
        yield Picture(
            f"mass-{name}",
            say("pages.plot.mass.title", bank=tag),
            telling("mass.told", pressure=full.shown(), mass=held.shown(), more=Measure("", "%").shown(more)),
            Measure(say("pages.plot.settled"), "bar(g)", air),
            (
                Field(Measure(say("pages.plot.hydrogen"), "kg", rounding="down"),
                      (curve(say("pages.plot.real"), tuple(real)), curve(say("pages.plot.ideal"), tuple(ideal))),
                      marks=(Mark(full.si, held.si, named("full", _joined(full.shown(), held.shown()))),), from_zero=True),
            ),
        )  # fmt: skip


def gauge(plant: Plant) -> Iterator[Picture]:
    """What the gauge of a full bank reads by the temperature of the day."""
    graph = plant.graph
    for name in plant.description.plant.banks:
        at = f"banks.{name}"
        table: Table = graph[f"{at}.gauge_table"].si
        full, tag = graph[f"{at}.fill_pressure"], _tag(plant, name)
        days = {day: graph[f"site.{day}"] for day in ("coldest", "hottest")}
        yield Picture(
            f"gauge-{name}",
            say("pages.plot.gauge.title", bank=tag),
            telling("gauge.told", pressure=full.shown(), cold=graph[f"{at}.cold_pressure"].shown(),
                hot=graph[f"{at}.hot_pressure"].shown()),
            Measure(say("pages.plot.day"), "°C"),
            (
                Field(Measure(say("pages.plot.reading"), "bar(g)", graph[ATMOSPHERE].si),
                      (curve(say("pages.plot.bank_is_full"), tuple((day, reading) for day, reading in table.rows)),),
                      tuple(Limit(day.si, named(key, day.shown()), False) for key, day in days.items()),
                      (Mark(float(SETTLED_TEMPERATURE), full.si, text_of(full.shown())),)),
            ),
        )  # fmt: skip


def _tag(plant: Plant, bank: str) -> str:
    return f"{bank.replace('_', ' ')} ({plant.description.plant.banks[bank].tag})"


def _joined(x: Shown, y: Shown) -> Shown:
    return Shown(f"{x.workshop}: {y.workshop}", f"{x.si}: {y.si}", f"{x.us}: {y.us}")
