"""The pressures that line-ups are proved under: worked by hand from what the shed's files say."""

from __future__ import annotations

from dataclasses import replace
from math import inf, isclose

import pytest

from macros.figures.lineups import pressures_of
from macros.figures.plant import Plant
from macros.network.pressures import Pressures
from tests.description.plants import ROOT, SHED


@pytest.fixture(scope="module")
def plant() -> Plant:
    return Plant.load(SHED, ROOT)


@pytest.fixture(scope="module")
def pressures(plant: Plant) -> Pressures:
    return pressures_of(plant)


def bar(pressures: Pressures, pressure_pa: float) -> float:
    return (pressure_pa - pressures.atmosphere_pa) / 1e5


def test_a_relief_lets_through_its_set_pressure_tolerance_and_accumulation(pressures: Pressures) -> None:
    """30 × 1.13 = 33.9, 65 × 1.13 = 73.45, 1.0 × 1.15 = 1.15, 7.0 × 1.07 = 7.49 bar(g)."""
    for tag, source, answer in (("RV1", "ST1", 33.9), ("RV4", "BO1", 73.45), ("RV5", "PR1:fails_open", 1.15),
                                ("RV3", "CP1", 7.49)):  # fmt: skip
        assert isclose(bar(pressures, pressures.caps[tag][source]), answer, rel_tol=1e-9)


def test_a_relief_caps_no_source_whose_flow_is_unknown_or_above_its_capacity(
    plant: Plant, pressures: Pressures
) -> None:
    """A bank through an open valve is no source that any relief of the shed is sized for."""
    assert all("BK1" not in cap and "*" not in cap for cap in pressures.caps.values())
    for tag in ("RV1", "RV2", "RV4", "RV5"):
        capacity = float(plant.graph[f"safety.relief.{tag.lower()}.capacity"].si)
        for source, path in (("BO1", "safety.relief.rv4.from_bo1"), ("PR1:fails_open", "safety.relief.rv5.from_pr1")):
            assert (source in pressures.caps[tag]) == (float(plant.graph[path].si) <= capacity)


def test_the_stack_is_unlimited_and_runs_by_its_current(pressures: Pressures) -> None:
    stack = next(source for source in pressures.sources if source.name == "ST1")
    assert stack.pressure_pa == inf
    assert stack.is_live(frozenset(("current",)))
    assert stack.is_live(frozenset(("holding_current",)))
    assert not stack.is_live(frozenset(("pump", "fan")))


def test_stores_stand_at_their_hottest_or_at_their_relief(plant: Plant, pressures: Pressures) -> None:
    assert pressures.stores["BK1"] == plant.graph["banks.store.hot_pressure"].si
    assert isclose(bar(pressures, pressures.stores["BV1"]), 33.9, rel_tol=1e-9)


def test_a_booster_stalls_at_its_ratio_on_the_highest_drive(plant: Plant, pressures: Pressures) -> None:
    """12 × 7.5 = 90 bar(g); the shed's booster is not helped by its supply."""
    assert isclose(bar(pressures, pressures.raised["BO1"].pressure_pa), 90.0, rel_tol=1e-9)
    figure = plant.graph["boosters.1.stall_pressure_highest"].si
    assert isclose(pressures.raised["BO1"].pressure_pa, figure, rel_tol=1e-9)


def test_regulators_hold_at_set_pressure_and_lock_up(pressures: Pressures) -> None:
    """0.5 + 0.15 = 0.65, 0.03 + 0.01 = 0.04, 6.0 + 0.2 = 6.2 bar(g)."""
    for tag, answer in (("PR1", 0.65), ("PR2", 0.04), ("AR1", 6.2)):
        assert isclose(bar(pressures, pressures.held_to[tag]), answer, rel_tol=1e-9)


def test_an_open_vent_leaves_what_its_lines_lose(pressures: Pressures) -> None:
    """
    The oxygen of the shed leaves almost without loss, a ruptured membrane by a few tenths of a bar.

    By hand, incompressible at the mean density: 0.79 mol/s of hydrogen are 1.6 g/s; through 12 mm at 1.1 bar(a) and
    333 K (0.080 kg/m3) that is 176 m/s; with friction 0.022 over 5.5 m (10) and 6 for fittings, ½ρv²·16 = 20 kPa.
    """
    oxygen = pressures.caps["VT3"]
    assert 0.0 <= bar(pressures, oxygen["ST1.o2"]) < 0.001
    assert 0.15 < bar(pressures, oxygen["ST1:ruptured"]) < 0.35


def test_the_oxygen_side_must_be_swept_since_the_let_down_takes_longer_than_the_oxygen_space_bears(
    plant: Plant, pressures: Pressures
) -> None:
    slow = plant.graph["stack.let_down_time_relief"].si > plant.graph["stack.oxygen_space_time_to_limit_relief"].si
    assert pressures.swept is slow is True
    assert pressures.isolation_pa == plant.graph["safety.isolation_pressure"].si


def test_a_vent_is_no_wider_than_its_mouth(plant: Plant, pressures: Pressures) -> None:
    """A mouth of the bore of the line changes nothing; a narrow one lets a ruptured membrane press the oxygen side up."""
    before = pressures.caps["VT3"]["ST1:ruptured"]
    wide, narrow = (
        replace(plant, graph=plant.graph.with_inputs({"items.vt3.bore": bore})) for bore in ("12 mm", "2 mm")
    )
    assert pressures_of(wide).caps["VT3"]["ST1:ruptured"] == before
    assert pressures_of(narrow).caps["VT3"]["ST1:ruptured"] > 5 * before


def test_nothing_that_leaves_the_stack_is_vented_through_a_water_seal(pressures: Pressures) -> None:
    """The degassing pot is joined to the reservoir by water alone; what a drain blows by meets no water before its vent."""
    assert pressures.caps["VT5"]["ST1:ruptured"] == pressures.caps["VT5"]["ST1.o2"] == inf
    assert bar(pressures, pressures.caps["VT5"]["DR1:passes"]) < 0.5
