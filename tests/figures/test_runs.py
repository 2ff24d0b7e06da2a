"""The run that fills the shed's bank, by hand where a hand can follow it."""

import pytest

from macros.figures import runs
from macros.figures.graph import FigureError, read_paths, title_of
from tests.figures.storing import SHED, described, farm, graph_of, shed


@pytest.mark.parametrize(("name", "graph"), [("shed", shed), ("farm", farm)])
def test_each_figure_has_a_value_a_title_and_reads_what_it_declares(name, graph):
    for each in runs.figures(described(name)):
        value = graph()[each.name]
        assert title_of(each.name)
        if value.is_number:
            assert read_paths(value) == set(value.inputs), each.name


def test_how_long_the_shed_takes():
    # the bank takes 0.8157 kg at 36 g/h: 22.66 h; the buffer ends at most one swing of 10.3 g, 17 min, off its start
    assert shed()["banks.store.fill_time"].si / 3600 == pytest.approx(22.66, abs=0.3)
    assert shed()["banks.store.fill_outcome"].si == "full"
    assert shed()["banks.store.boosted_mass"].si == pytest.approx(0.8157 - 0.4107, abs=5e-4)


def test_the_run_keeps_mass_and_agrees_with_its_figures():
    run = shed()["banks.store.run"].si
    assert abs(run.mass_residual) <= 1e-9
    assert run.free_mass_kg == pytest.approx(shed()["banks.store.free_flow_mass"].si, rel=1e-6)
    assert run.bank_mass_gained_kg == pytest.approx(shed()["banks.store.mass_to_fill"].si, rel=1e-6)
    assert shed()["banks.store.buffer_cycles"].si == run.starts
    assert shed()["banks.store.fill_strokes"].si == run.strokes


def test_what_the_fill_costs():
    # the stack 2.1 kW × 22.7 h = 47.7 kWh; 0.405 kg by strokes at about 10.96 kWh/kg, dearer towards cut-in: 4.4 to 5.6
    boosting = shed()["banks.store.fill_energy_boosting"].si / 3.6e6
    assert 4.4 < boosting < 5.6
    assert shed()["banks.store.fill_energy"].si / 3.6e6 == pytest.approx(47.6 + boosting, abs=0.6)
    # the strokes of the run, 9.967 L each, at 0.1077 kWh/m³
    strokes = shed()["banks.store.fill_strokes"].si
    assert boosting == pytest.approx(strokes * 9.967e-3 * 0.10772, rel=1e-3)


def test_a_warm_yard_fills_to_the_same_mass():
    warm = shed().with_inputs({"buffer.temperature": "35 °C"})
    assert (
        warm["banks.store.run"].si.points[-1].bank_pressure_pa
        > shed()["banks.store.run"].si.points[-1].bank_pressure_pa
    )
    assert warm["banks.store.fill_time"].si == pytest.approx(shed()["banks.store.fill_time"].si, rel=0.02)


@pytest.mark.parametrize(
    ("changes", "outcome", "words"),
    [
        # a stack three times as strong as the booster: the buffer climbs to its trip
        ({"stack.hydrogen_flow": "200 g/h"}, "overrun", "the buffer meets its trip"),
        # drive 4 bar(g) stalls at 48 bar(g), and the stack brings on: the trip again, long before 48
        ({"boosters.1.drive_pressure": "4 bar(g)"}, "overrun", "bank at 39"),
        # half the stroke is clearance: little is left against three times its inlet, less than the stack makes
        ({"boosters.1.clearance": "50 %", "buffer.cut_out": "15.5 bar(g)"}, "overrun", "the buffer meets its trip"),
        # stalled from the first stroke: drive 1 bar(g), 12 bar(g) is below the buffer
        ({"boosters.1.drive_pressure": "1 bar(g)"}, "stalled", "stands still at 2"),
    ],
)
def test_a_bank_that_is_not_filled_says_why(changes, outcome, words):
    weak = shed().with_inputs(changes)
    assert weak["banks.store.fill_outcome"].si == outcome
    for name in ("fill_time", "fill_energy", "buffer_cycles"):
        with pytest.raises(FigureError, match=words) as refusal:
            weak[f"banks.store.{name}"]
        assert refusal.value.name == f"banks.store.{name}"
    # what does not hang on the run is as it was
    assert weak["banks.store.mass"].si == shed()["banks.store.mass"].si


def test_without_a_compressor_strokes_cost_no_electricity():
    graph = graph_of(described("shed", compressor=None), SHED)
    assert graph["banks.store.fill_energy_boosting"].si == 0
    assert graph["banks.store.fill_time"].si == shed()["banks.store.fill_time"].si


def test_a_plant_without_buffer_or_booster_has_no_run():
    assert not list(runs.figures(described("shed", buffer=None)))
    assert not list(runs.figures(described("shed", boosters=[])))
