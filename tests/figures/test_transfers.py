"""The farm's transfer by hand: 600 L at 50 bar(g) into 300 L, empty, then by the booster of ratio 36."""

import pytest

from macros.figures import transfers
from macros.figures.graph import FigureError, read_paths, title_of
from tests.figures.storing import FARM, described, farm, graph_of


def test_each_figure_has_a_value_a_title_and_reads_what_it_declares():
    for each in transfers.figures(described("farm")):
        value = farm()[each.name]
        assert title_of(each.name)
        if value.is_number:
            assert read_paths(value) == set(value.inputs), each.name


def test_where_both_banks_meet():
    # (600 × 4.1636 + 300 × 0.0852) / 900 = 2.8041 kg/m³: 34.01 bar, 33.0 bar(g); 0.3 × (2.8041 − 0.0852) = 0.8157 kg
    assert farm()["transfers.1.equal_pressure"].show() == "33.0\u00a0bar(g)"
    assert farm()["transfers.1.free_mass"].si == pytest.approx(0.8157, abs=5e-4)


def test_what_strokes_add():
    # down to 30 bar(g), 2.5617 kg/m³: 0.6 × (2.8041 − 2.5617) = 0.1454 kg
    assert farm()["transfers.1.boosted_mass"].si == pytest.approx(0.1454, abs=5e-4)
    assert farm()["transfers.1.final_source_pressure"].show() == "30.0\u00a0bar(g)"
    # 0.0852 + (0.8157 + 0.1454) / 0.3 = 3.2889 kg/m³: 40.03 bar, 39.0 bar(g)
    assert farm()["transfers.1.final_target_pressure"].si == pytest.approx(40.03e5, abs=0.03e5)


def test_how_long_it_takes():
    # 60 mL of 34.0 to 31.0 bar, on average 2.683 kg/m³, nearly no clearance loss (ratio 1 to 1.3: 0.99):
    # 0.1594 g a stroke, 912 strokes; at 30 × (1 − 36/198) = 24.5 a minute 37.2 min
    assert farm()["transfers.1.strokes"].si == pytest.approx(912, rel=5e-3)
    assert farm()["transfers.1.time"].si / 60 == pytest.approx(37.2, rel=5e-3)
    # a stroke takes 36 × 60 mL × 2 × 6.51325 / 1.01325 = 27.77 L
    air = farm()["transfers.1.strokes"].si * 27.77e-3
    power = farm()["compressor.power"].si / farm()["compressor.free_flow"].si
    assert farm()["transfers.1.energy"].si == pytest.approx(air * power, rel=1e-3)


def test_mass_is_kept():
    gained = farm()["transfers.1.free_mass"].si + farm()["transfers.1.boosted_mass"].si
    lower = farm().with_inputs({"transfers.1.source_lowest": "20 bar(g)"})
    assert lower["transfers.1.free_mass"].si == farm()["transfers.1.free_mass"].si
    assert lower["transfers.1.free_mass"].si + lower["transfers.1.boosted_mass"].si > gained


def test_a_full_target_ends_the_transfer():
    # a small target fills before the source is at its lowest
    small = farm().with_inputs({"banks.high.cylinders": "1"})
    assert small["transfers.1.final_target_pressure"].show() == "140\u00a0bar(g)"
    assert small["transfers.1.final_source_pressure"].si > 31.1e5


def test_drive_air_too_weak_for_the_target_is_said_so():
    # ratio 36 at 1 bar(g) stalls at 36 bar(g), before the source is at its lowest
    cut = farm().with_inputs({"boosters.2.drive_pressure": "1 bar(g)"})
    assert cut["boosters.2.stall_pressure"].show() == "36.0\u00a0bar(g)"
    with pytest.raises(FigureError, match="stands still"):
        cut["transfers.1.time"]
    assert cut["transfers.1.free_mass"].si == farm()["transfers.1.free_mass"].si


def test_without_a_booster_gas_only_flows():
    one = described("farm").plant.transfers[0].model_copy(update={"booster": None, "source_lowest": None})
    names = {each.name for each in transfers.figures(described("farm", transfers=[one]))}
    assert "transfers.1.free_mass" in names
    assert not names & {"transfers.1.boosted_mass", "transfers.1.time", "transfers.1.run"}
    graph = graph_of(described("farm", transfers=[one], boosters=described("farm").plant.boosters[:1]), FARM)
    assert graph["transfers.1.final_source_pressure"].show() == "33.0\u00a0bar(g)"
    assert graph["transfers.1.final_target_pressure"].si == pytest.approx(
        graph["transfers.1.equal_pressure"].si, rel=1e-6
    )


def test_without_a_lowest_source_the_ratio_of_the_booster_sets_it():
    one = described("farm").plant.transfers[0].model_copy(update={"source_lowest": None})
    graph = graph_of(described("farm", transfers=[one]), FARM | {"boosters.2.ratio_allowed": "6"})
    # 141.013 / 6 = 23.50 bar(a)
    assert graph["transfers.1.lowest_source_pressure"].si == pytest.approx(23.502e5, rel=1e-4)
    easy = graph.with_inputs({"boosters.2.ratio_allowed": "200"})
    assert easy["transfers.1.lowest_source_pressure"].si == pytest.approx(101325)


def test_without_a_compressor_nobody_knows_the_energy():
    names = {each.name for each in transfers.figures(described("farm", compressor=None))}
    assert "transfers.1.strokes" in names
    assert "transfers.1.energy" not in names
