"""The buffer of the shed, by hand: 10 L and 2.5 L of train between 15 and 25 bar(g) at 15 °C."""

import pytest

from macros.figures import buffer
from macros.figures.graph import read_paths, title_of
from tests.figures.storing import described, shed


def test_each_figure_has_a_value_a_title_and_reads_what_it_declares():
    for each in buffer.figures(described("shed")):
        value = shed()[each.name]
        assert title_of(each.name)
        if value.is_number:
            assert read_paths(value) == set(value.inputs), each.name


def test_a_swing_of_the_switch():
    # M/(RT) = 2.01588e-3 / (8.314463 × 288.15) = 8.4142e-7 kg/(m³ Pa), real gas Z = 1.0156 at 26.01 and 1.0096 at
    # 16.01 bar: 2.1551 and 1.3346 kg/m³; 12.5 L × 0.8205 = 10.26 g
    assert shed()["buffer.cycle_mass"].si == pytest.approx(10.256e-3, rel=1e-3)
    assert shed()["buffer.cycle_mass"].show() == "10.3\u00a0g"
    # 10.256 / 2.01588 × 22.414 = 114.0 NL
    assert shed()["buffer.cycle_normal_volume"].show() == "114\u00a0NL"
    # at 36 g/h: 10.256 / 36 × 60 = 17.09 min
    assert shed()["buffer.fill_time"].show() == "17.1\u00a0min"


def test_the_cycles_of_a_year():
    # 1600 h × 60 / 17.093 min = 5616 swings; 200 000 of them are 35.6 years, shown rounded down
    assert shed()["buffer.cycles_per_year"].si == pytest.approx(5616, rel=1e-3)
    assert shed()["buffer.cycle_life_time"].si / (365 * 86400) == pytest.approx(35.6, abs=0.05)
    assert shed()["buffer.cycle_life_time"].show() == "35\u00a0a"


def test_a_smaller_swing_comes_more_often():
    narrow = shed().with_inputs({"buffer.cut_in": "20 bar(g)"})
    assert narrow["buffer.cycles_per_year"].si == pytest.approx(2 * shed()["buffer.cycles_per_year"].si, rel=0.02)


def test_the_category_of_a_fixed_buffer():
    # PS·V = 50 bar × 10 L = 500 bar L, above 200 and not above 1000: III
    assert shed()["buffer.category"].si == "III"
    assert shed().with_inputs({"buffer.allowable_pressure": "20 bar(g)"})["buffer.category"].si == "II"


def test_the_same_swing_typed_in_other_units():
    other = shed().with_inputs({"buffer.volume": "0.01 m3", "buffer.cut_in": "16.01325 bar(a)"})
    assert other["buffer.cycle_mass"].si == pytest.approx(shed()["buffer.cycle_mass"].si, rel=1e-9)


def test_the_swing_holds_less_where_the_air_is_thin():
    # at 2000 m the atmosphere is 0.795 bar: each gauge pressure is 0.218 bar less, the difference all but the same
    high = shed().with_inputs({"site.altitude": "2000 m"})
    assert high["buffer.cycle_mass"].si == pytest.approx(shed()["buffer.cycle_mass"].si, rel=2e-3)
    assert high["buffer.cycle_mass"].si > shed()["buffer.cycle_mass"].si


def test_a_plant_without_a_buffer_has_none_of_it():
    assert not list(buffer.figures(described("shed", buffer=None)))


def test_a_vessel_without_a_cycle_life_has_no_end_of_it():
    without = described("shed").plant.buffer.model_copy(update={"cycle_life": None})
    names = {each.name for each in buffer.figures(described("shed", buffer=without))}
    assert "buffer.cycle_life_time" not in names
    assert "buffer.cycles_per_year" in names
