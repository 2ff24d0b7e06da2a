"""A booster between two vessels: what it moves, how long it takes, and where it stands still."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from macros.calculations import transfer
from macros.calculations.booster import assumed_stroke_rate, stall_pressure, volumetric_efficiency
from macros.calculations.contract import OutOfRange
from macros.calculations.equalise import pressure_after
from macros.calculations.transfer import transfer_run
from tests.calculations import other_hydrogen

ATMOSPHERE = 101325.0


def gauge(bar):
    return bar * 1e5 + ATMOSPHERE


FARM = {
    "source_volume_m3": 0.6,
    "source_pressure_pa": gauge(33),
    "target_volume_m3": 0.3,
    "target_pressure_pa": gauge(33),
    "mass_kg": 0.9,
    "temperature_k": 288.15,
    "swept_volume_m3": 60e-6,
    "faces": 1.0,
    "clearance": 0.05,
    "free_stroke_rate_per_s": 0.5,
    "area_ratio": 36.0,
    "assisting_area_ratio": 0.0,
    "drive_pressure_pa": gauge(5.5),
    "atmosphere_pa": ATMOSPHERE,
    "free_air_of_stroke_m3": 28e-3,
}

farms = st.fixed_dictionaries(
    {
        "source_volume_m3": st.floats(0.1, 3.0),
        "source_pressure_pa": st.floats(2e6, 2e7),
        "target_volume_m3": st.floats(0.05, 1.0),
        "temperature_k": st.floats(260.0, 320.0),
        "faces": st.sampled_from((1.0, 2.0)),
        "clearance": st.floats(0.0, 0.1),
        "free_stroke_rate_per_s": st.floats(0.1, 3.0),
        "area_ratio": st.floats(60.0, 200.0),
        "assisting_area_ratio": st.floats(0.0, 1.0),
    }
)


@settings(max_examples=300, deadline=None)
@given(farms, st.floats(0.05, 0.4))
def test_time_strokes_and_pressures_agree(change, share):
    farm = FARM | change
    held = farm["source_volume_m3"] * other_hydrogen.density(farm["source_pressure_pa"], farm["temperature_k"])
    room = farm["target_volume_m3"] * other_hydrogen.density(3e7, farm["temperature_k"])
    farm["mass_kg"] = min(share * held, share * room)
    moved = transfer_run(**farm)
    assert moved.source_pressure_pa == pytest.approx(
        pressure_after(farm["source_volume_m3"], farm["source_pressure_pa"], -farm["mass_kg"], farm["temperature_k"]),
        rel=1e-8,
    )
    assert moved.target_pressure_pa == pytest.approx(
        pressure_after(farm["target_volume_m3"], farm["target_pressure_pa"], farm["mass_kg"], farm["temperature_k"]),
        rel=1e-8,
    )
    assert moved.drive_air_m3 == pytest.approx(moved.strokes * 28e-3)
    assert moved.strokes <= moved.time_s * farm["free_stroke_rate_per_s"]
    flows = [point.flow_kg_per_s for point in moved.points]
    assert farm["mass_kg"] / max(flows) <= moved.time_s * (1 + 1e-9)
    assert farm["mass_kg"] / min(flows) >= moved.time_s * (1 - 1e-9)
    assert moved.points[0].time_s == 0
    assert moved.points[-1].moved_kg == pytest.approx(farm["mass_kg"])
    assert moved.points[-1].time_s == pytest.approx(moved.time_s)
    twice = transfer_run(**farm | {"free_stroke_rate_per_s": 2 * farm["free_stroke_rate_per_s"]})
    assert twice.time_s == pytest.approx(moved.time_s / 2)
    assert twice.strokes == pytest.approx(moved.strokes)


def test_the_time_is_the_integral_of_the_public_laws():
    """By the library's quadrature over the calculations that the figures show, pressure by pressure."""

    def slowness(moved):
        source = pressure_after(0.6, gauge(33), -moved, 288.15)
        target = pressure_after(0.3, gauge(33), moved, 288.15)
        rate = assumed_stroke_rate(0.5, target, stall_pressure(36.0, gauge(5.5), source, 0.0, ATMOSPHERE), ATMOSPHERE)
        drawn = 60e-6 * volumetric_efficiency(0.05, source, target, 288.15) * other_hydrogen.density(source, 288.15)
        return 1 / (rate * drawn)

    assert transfer_run(**FARM).time_s == pytest.approx(quad(slowness, 0, 0.9, epsrel=1e-9)[0], rel=1e-3)


def test_two_legs_take_as_long_as_the_whole_way():
    first = transfer_run(**FARM | {"mass_kg": 0.4})
    rest = FARM | {
        "mass_kg": 0.5, "source_pressure_pa": first.source_pressure_pa, "target_pressure_pa": first.target_pressure_pa
    }  # fmt: skip
    second = transfer_run(**rest)
    assert first.time_s + second.time_s == pytest.approx(transfer_run(**FARM).time_s, rel=1e-6)
    assert str(second) == f"{second.time_s / 3600:.4g} h"


def test_nothing_to_move_takes_no_time():
    assert transfer_run(**FARM | {"mass_kg": 0.0}).time_s == 0


def test_a_booster_that_stalls_on_the_way_is_refused():
    """Ratio 12 at 5.5 bar(g) stalls at 66 bar(g); 300 L hold 1.6 kg there."""
    with pytest.raises(OutOfRange) as refusal:
        transfer_run(**FARM | {"area_ratio": 12.0, "mass_kg": 1.2})
    assert refusal.value.argument == "mass_kg"
    assert "stands still" in refusal.value.wanted
    assert transfer_run(**FARM | {"area_ratio": 12.0, "mass_kg": 0.6}).target_pressure_pa < gauge(66)


def test_a_clearance_that_takes_the_whole_stroke_is_refused():
    with pytest.raises(OutOfRange) as refusal:
        transfer_run(**FARM | {"clearance": 0.5})
    assert "stands still" in refusal.value.wanted


@pytest.mark.parametrize(
    ("change", "argument", "words"),
    [
        ({"mass_kg": 2.0}, "mass_kg", "less than the source holds, 1.68"),
        ({"source_volume_m3": 900.0, "mass_kg": 30.0}, "mass_kg", "no more than the target can hold"),
        ({"drive_pressure_pa": ATMOSPHERE}, "drive_pressure_pa", "above 101325"),
    ],
)
def test_the_impossible_is_refused(change, argument, words):
    with pytest.raises(OutOfRange) as refusal:
        transfer_run(**FARM | change)
    assert refusal.value.argument == argument
    assert refusal.value.wanted.startswith(words)


def test_a_measured_table_replaces_the_line():
    line = transfer_run(**FARM, rate_curve=((0.0, 1.0), (1.0, 0.0)))
    assert line.time_s == pytest.approx(transfer_run(**FARM).time_s)
    assert transfer_run(**FARM, rate_curve=((0.0, 1.0), (1.0, 1.0))).time_s < line.time_s
    with pytest.raises(OutOfRange):
        transfer_run(**FARM, rate_curve=((0.0, 1.0), (0.2, 0.9)))


def test_the_nodes_and_weights_are_those_of_gauss_and_legendre():
    """As numpy gives them."""
    nodes, weights = np.polynomial.legendre.leggauss(4)
    assert [node for node, _ in transfer._GAUSS] == pytest.approx(nodes, abs=1e-15)
    assert [weight for _, weight in transfer._GAUSS] == pytest.approx(weights, abs=1e-15)
