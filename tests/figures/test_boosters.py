"""The boosters by hand: the shed's (ratio 12, 60 mL, 20 a minute, drive 6 bar(g)) and the farm's second (ratio 36)."""

import shutil

import pytest

from macros.description.fields import Points
from macros.figures import boosters
from macros.figures.graph import FigureError, read_paths, title_of
from macros.figures.plant import Plant
from macros.figures.supplies import stages_into
from macros.quantities import Faults
from tests.figures.storing import DESIGNS, FARM, SHED, described, farm, graph_of, shed


@pytest.mark.parametrize(("name", "graph"), [("shed", shed), ("farm", farm)])
def test_each_figure_has_a_value_a_title_and_reads_what_it_declares(name, graph):
    for each in boosters.figures(described(name)):
        value = graph()[each.name]
        assert value.is_number
        assert title_of(each.name)
        assert read_paths(value) == set(value.inputs), each.name


def test_where_the_shed_booster_stalls():
    # 12 × 6 = 72 bar(g); 12 × 7.5 = 90 bar(g) where the air regulator has failed; the supply does not help
    assert shed()["boosters.1.stall_pressure"].show() == "72.0\u00a0bar(g)"
    assert shed()["boosters.1.stall_pressure_highest"].show() == "90.0\u00a0bar(g)"
    # a supply that pushes along on as much area: lowest 15 and highest credible 33.9 bar(g) more
    helped = shed().with_inputs({"boosters.1.assist_ratio": "1"})
    assert helped["boosters.1.stall_pressure"].show() == "87.0\u00a0bar(g)"
    assert helped["boosters.1.stall_pressure_highest"].si == pytest.approx(90e5 + 33.9e5 + 101325, abs=1)


def test_how_near_to_its_stall_and_at_which_ratio_it_works():
    # 50 / 72 = 69.4 %, shown rounded up; 51.01325 / 16.01325 = 3.1857
    assert shed()["boosters.1.stall_share"].show() == "70\u00a0%"
    assert shed()["boosters.1.stall_share"].si == pytest.approx(0.69444, abs=1e-5)
    assert shed()["boosters.1.pressure_ratio"].si == pytest.approx(3.1857, abs=1e-4)
    # at 38 °C the full bank reads 54.12 bar(g): 75.2 %, (54.12 + 1.013) / 16.013 = 3.443
    assert shed()["boosters.1.stall_share_hot"].si == pytest.approx(0.752, abs=5e-4)
    assert shed()["boosters.1.pressure_ratio_hot"].si == pytest.approx(3.443, abs=1e-3)
    # 8 % of clearance: nothing flows where the gas is 1 + 1/0.08 = 13.5 times as dense: 18.017 kg/m³, a little
    # above 246 bar: 246 / 16.0 = 15.4
    assert shed()["boosters.1.ratio_limit"].si == pytest.approx(15.4, abs=0.1)


def test_what_it_moves():
    # against 50 bar(g): 20 × (1 − 50/72) = 6.111 a minute; mean back pressure (24.8 + 50) / 2 = 37.4 bar(g): 9.611
    assert shed()["boosters.1.free_flow_pressure"].show() == "24.8\u00a0bar(g)"
    assert shed()["boosters.1.back_pressure_mean"].show() == "37.4\u00a0bar(g)"
    assert shed()["boosters.1.working_rate"].si * 60 == pytest.approx(6.1111, abs=1e-3)
    assert shed()["boosters.1.working_rate_mean"].si * 60 == pytest.approx(9.6111, abs=1e-3)
    # 4.1636 and 1.3346 kg/m³: 1 − 0.08 × (3.1198 − 1) = 0.8304
    assert shed()["boosters.1.volumetric_efficiency"].si == pytest.approx(0.8304, abs=3e-4)
    # 60e-6 × 6.111/60 × 0.8304 × 1.3346 = 6.773 mg/s = 24.38 g/h; / 2.01588 × 22.414 / 60 = 4.518 NL/min
    assert shed()["boosters.1.flow"].si * 3.6e6 == pytest.approx(24.38, abs=0.03)
    assert shed()["boosters.1.normal_flow"].show() == "4.5\u00a0NL/min"
    # at cut-out 2.1551 kg/m³: 1 − 0.08 × (1.9320 − 1) = 0.9254; 60e-6 × 6.111/60 × 0.9254 × 2.1551 = 43.87 g/h
    assert shed()["boosters.1.flow_cut_out"].si * 3.6e6 == pytest.approx(43.87, abs=0.05)


def test_the_four_cases_stand_in_their_order():
    for name in ("flow", "volumetric_efficiency"):
        worst, mean, high, best = (
            shed()[f"boosters.1.{name}{case}"].si for case in ("", "_mean", "_cut_out", "_cut_out_mean")
        )
        assert worst < mean < best
        assert worst < high < best


def test_how_warm_the_gas_comes_out():
    # hottest day, 38 °C = 311.15 K, ratio 3.443: × 3.443^(0.2/1.2) = 1.2288: 382.4 K = 109.2 °C, shown rounded up
    assert shed()["boosters.1.discharge_temperature"].si - 273.15 == pytest.approx(109.2, abs=0.1)
    assert shed()["boosters.1.discharge_temperature"].show() == "110\u00a0°C"
    # without cooling, ideal with κ 1.405: × 3.443^0.2883 = 1.4282: 444 K = 171 °C; the real gas a little less
    assert shed()["boosters.1.discharge_temperature_isentropic"].si - 273.15 == pytest.approx(170, abs=1.5)


def test_what_it_spends():
    # a stroke: 12 × 60 mL × 2 = 1.44 L at 7.01325 bar: × 6.9215 = 9.967 L of free air
    assert shed()["boosters.1.stroke_air"].show() == "9.97\u00a0L"
    # from 20 (1.7457 kg/m³) against 37.4 bar(g) (3.158 kg/m³): 1 − 0.08 × 0.8090 = 0.9353;
    # 1 / (60e-6 × 0.9353 × 1.7457) = 10 208 strokes, × 9.967 L = 101.7 m³
    assert shed()["boosters.1.drive_air"].si == pytest.approx(101.7, abs=0.2)
    # 220 NL/min at 15 °C: 232.1 L/min; 1.5 kW / 232.1 L/min = 0.1077 kWh/m³; × 101.7 = 10.96 kWh/kg
    assert shed()["compressor.free_flow"].si * 6e4 == pytest.approx(232.08, abs=0.05)
    assert shed()["boosters.1.specific_energy"].si / 3.6e6 == pytest.approx(10.96, abs=0.03)
    # RT/M·ln(38.41 / 21.01) = 1188.5 × 0.6033 = 717 kJ/kg, 1.8 % more for the real gas: 0.203 kWh/kg; / 10.96 = 1.85 %
    assert shed()["boosters.1.ideal_work"].si / 3.6e6 == pytest.approx(0.203, abs=1e-3)
    assert shed()["boosters.1.efficiency"].si == pytest.approx(0.0185, abs=1e-4)


def test_what_a_year_asks_of_its_seals():
    # 36 g/h × 1600 h = 57.6 kg, × 10 208 = 588 000 strokes; 2 000 000 of them last 3.40 years
    assert shed()["boosters.1.strokes_per_year"].si == pytest.approx(588e3, rel=2e-3)
    assert shed()["boosters.1.seal_life_time"].show() == "3.4\u00a0a"


def test_how_much_the_compressor_runs():
    # 36 g/h × 101.7 m³/kg = 3.661 m³/h of 13.925 m³/h: 26.3 %; while it strokes 9.611 × 9.967 = 95.8 of 232.1 L/min
    assert shed()["compressor.duty"].si == pytest.approx(0.2629, abs=1e-3)
    assert shed()["compressor.duty_boosting"].si == pytest.approx(0.4128, abs=1e-3)
    # 101.325 kPa × ln(7.51325 / 1.01325) = 203.0 kJ/m³ of 387.8 kJ/m³
    assert shed()["compressor.efficiency"].si == pytest.approx(0.5235, abs=1e-3)


def test_a_double_acting_booster_moves_twice_as_much_for_the_same_strokes():
    double = shed().with_inputs({"boosters.1.faces": "2"})
    assert double["boosters.1.flow"].si == pytest.approx(2 * shed()["boosters.1.flow"].si)
    assert double["boosters.1.drive_air"].si == pytest.approx(shed()["boosters.1.drive_air"].si / 2)


def test_a_spring_return_takes_half_the_air():
    spring = shed().with_inputs({"boosters.1.return_share": "0 %"})
    assert spring["boosters.1.specific_energy"].si == pytest.approx(shed()["boosters.1.specific_energy"].si / 2)


def test_the_farm_booster_between_the_banks():
    # ratio 36 × 5.5 = 198 bar(g); it draws from 33 bar(g), where both banks met, down to 30 bar(g)
    assert farm()["boosters.2.stall_pressure"].show() == "198\u00a0bar(g)"
    assert farm()["boosters.2.supply_highest"].show() == "33.0\u00a0bar(g)"
    assert farm()["boosters.2.supply_lowest"].show() == "30.0\u00a0bar(g)"
    # highest asked: 141.013 / 31.013 = 4.547; 140 / 198 = 70.7 %
    assert farm()["boosters.2.pressure_ratio"].si == pytest.approx(4.547, abs=1e-3)
    assert farm()["boosters.2.stall_share"].si == pytest.approx(0.7071, abs=1e-4)
    # proof: the low bank on the hottest day, 54.2 bar(g), helps nothing here: 36 × 7 = 252 bar(g)
    assert farm()["boosters.2.supply_proof"].si == pytest.approx(farm()["banks.low.hot_pressure"].si)
    assert farm()["boosters.2.stall_pressure_highest"].show() == "252\u00a0bar(g)"


def test_the_farm_with_its_drive_air_cut():
    # 3 bar(g) are left: 36 × 3 = 108 bar(g) is the stall, the high bank of 140 bar(g) is out of reach: 129.6 %
    cut = farm().with_inputs({"boosters.2.drive_pressure": "3 bar(g)"})
    assert cut["boosters.2.stall_pressure"].show() == "108\u00a0bar(g)"
    assert cut["boosters.2.stall_share"].si == pytest.approx(140 / 108)
    assert cut["boosters.2.working_rate"].si == 0
    assert cut["boosters.2.flow"].si == 0
    # what a failed regulator lets through is as before
    assert cut["boosters.2.stall_pressure_highest"].si == farm()["boosters.2.stall_pressure_highest"].si


def test_the_farm_with_the_drive_air_of_its_first_booster_cut():
    """
    3 bar(g) are left: 12 × 3 = 36 bar(g) is the stall, the low bank of 50 bar(g) is out of reach: 50/36 = 138.9 %.
    Followed through time, the bank comes near the stall: the booster slows down until the stack makes more than it moves,
    and the buffer meets its trip. At 36.5 bar(a) = 35.49 bar(g) it strokes at 1 − 35.49/36 = 1.4 % of its free rate.
    """
    cut = farm().with_inputs({"boosters.1.drive_pressure": "3 bar(g)"})
    assert cut["boosters.1.stall_pressure"].show() == "36.0\u00a0bar(g)"
    assert cut["boosters.1.stall_share"].si == pytest.approx(50 / 36, rel=1e-4)
    assert cut["boosters.1.flow"].si == 0
    assert cut["banks.low.fill_outcome"].si == "overrun"
    end = cut["banks.low.run"].si.points[-1]
    assert end.buffer_pressure_pa == pytest.approx(cut["buffer.high_trip"].si)
    assert 0.95 * 36e5 < end.bank_pressure_pa - 101325 < 36e5
    with pytest.raises(FigureError, match="the stack makes more than the booster moves"):
        cut["banks.low.fill_time"]


def test_the_compressor_takes_what_the_stack_makes_once():
    """Bank to bank is no steady duty: only the booster behind the buffer counts there."""
    air = farm()["boosters.1.drive_air"].si
    delivery = farm()["compressor.free_flow"].si
    assert farm()["compressor.duty"].si == pytest.approx(36e-3 / 3600 * air / delivery)
    greed = max(farm()[f"boosters.{n}.stroke_air"].si * farm()[f"boosters.{n}.working_rate_mean"].si for n in (1, 2))
    assert farm()["compressor.duty_boosting"].si == pytest.approx(greed / delivery)


def test_a_measured_table_replaces_the_line():
    one = described("shed").plant.boosters[0]
    half = Points(("fraction", "fraction"), ("%", "%"), ((0.0, 1.0), (0.9, 0.1)))
    plant = described("shed", boosters=[one.model_copy(update={"rate_curve": half})])
    graph = graph_of(plant, SHED)
    # 69.44 % of the stall: 1 − 0.69444 × 0.9 / 0.9 = 0.3056 of 20 a minute, as the line says between these points
    assert graph["boosters.1.working_rate"].si * 60 == pytest.approx(6.1111, abs=1e-3)
    assert "boosters.1.rate_curve" in graph["boosters.1.working_rate"].inputs
    assert graph["banks.store.fill_time"].si == pytest.approx(shed()["banks.store.fill_time"].si, rel=1e-6)
    # at 95 % of the stall nobody has measured
    weak = graph.with_inputs({"boosters.1.drive_pressure": "4.39 bar(g)"})
    with pytest.raises(FigureError, match="within the table"):
        weak["boosters.1.working_rate"]


def test_a_booster_from_a_bank_without_a_transfer_is_judged_by_its_ratio():
    plant = described("farm", transfers=[])
    graph = graph_of(plant, FARM | {"boosters.2.ratio_allowed": "6"})
    # 141.013 / 6 = 23.50 bar(a)
    assert graph["boosters.2.supply_lowest"].si == pytest.approx(23.502e5, rel=1e-4)
    assert graph["boosters.2.supply_highest"].show() == "50.0\u00a0bar(g)"


def test_what_a_plant_lacks_has_no_figures():
    assert not list(boosters.figures(described("shed", buffer=None)))
    names = {each.name for each in boosters.figures(described("shed", compressor=None))}
    assert "boosters.1.drive_air" in names
    assert not names & {"boosters.1.specific_energy", "boosters.1.efficiency", "compressor.duty"}
    assert not list(boosters.figures(described("shed", boosters=[])))


def test_the_defaults_that_reach_a_figure_are_named():
    assert "boosters.1.polytropic_index" in graph_of(described("shed"), {})["boosters.1.discharge_temperature"].assumed


# Boosters that could never draw.


def test_a_source_that_is_kept_above_where_both_banks_meet_is_a_fault():
    """The farm's banks meet at 33 bar(g): 600 L at 50 bar(g) into 300 L that are empty."""
    graph = farm().with_inputs({"transfers.1.source_lowest": "33.5 bar(g)"})
    ((path, message),) = boosters.faults(described("farm"), graph)
    assert path == "transfers.1.source_lowest"
    assert "33.5" in message and "33.0" in message and "would never draw; write less." in message


def test_a_source_that_may_be_drawn_just_below_it_is_none():
    assert not list(
        boosters.faults(described("farm"), farm().with_inputs({"transfers.1.source_lowest": "32.9 bar(g)"}))
    )
    assert not list(boosters.faults(described("shed"), shed()))


def test_a_ratio_that_leaves_no_supply_is_a_fault():
    """Without a lowest source the ratio sets it: 141 bar(a) in the full target over 3 are 47 bar(a), 46 bar(g)."""
    one = described("farm").plant.transfers[0].model_copy(update={"source_lowest": None})
    description = described("farm", transfers=[one])
    graph = graph_of(description, {**FARM, "boosters.2.ratio_allowed": "3"})
    ((path, message),) = boosters.faults(description, graph)
    assert path == "boosters.2.ratio_allowed"
    assert "46.0" in message and "33.0" in message and "a ratio of 3" in message


def test_an_author_reads_the_line_of_the_one_mistake(tmp_path):
    """Every figure of the booster hangs on it, and none of them is told beside."""
    folder = tmp_path / "farm"
    shutil.copytree(DESIGNS / "farm", folder)
    text = (folder / "plant.yml").read_text("utf-8")
    assert text.count("source_lowest: 28 bar(g)") == 1
    (folder / "plant.yml").write_text(text.replace("source_lowest: 28", "source_lowest: 45"), "utf-8")
    line = text[: text.index("source_lowest")].count("\n") + 1
    with pytest.raises(Faults) as told:
        Plant.load(folder, tmp_path)
    (fault,) = told.value
    assert str(fault).startswith(
        f"farm/plant.yml:{line}: transfers.1.source_lowest: 45.0\u00a0bar(g) is no lower than 33.0\u00a0bar(g)"
    )


# The way into a bank.


def test_the_stages_on_the_way_into_each_bank():
    assert stages_into(described("shed"), "store") == [1]
    assert stages_into(described("farm"), "low") == [1]
    assert stages_into(described("farm"), "high") == [2, 1]


def test_a_bank_that_no_booster_fills_has_no_stages():
    assert stages_into(described("farm", boosters=[]), "high") == []
    alone = described("farm").plant.boosters[1:]
    assert stages_into(described("farm", boosters=alone), "high") == [1]


def test_boosters_that_fill_each_other_are_not_followed_for_ever():
    round_about = described("farm").plant.boosters[1].model_copy(update={"supply": "high", "target": "low"})
    both = [round_about, described("farm").plant.boosters[1]]
    assert stages_into(described("farm", boosters=both), "high") == [2, 1]
