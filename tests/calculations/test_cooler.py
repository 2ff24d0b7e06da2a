"""The cooler: no more heat than could pass, more surface never harms, crossflow never beats counterflow."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.cooler import (
    air_capacity_rate,
    capacity_ratio,
    cooling_capacity,
    cooling_margin,
    effectiveness_counterflow,
    effectiveness_crossflow,
    temperature_rise,
    transfer_units,
    water_capacity_rate,
)

units = st.floats(0.0, 10.0)
ratios = st.floats(0.0, 1.0)
rates = st.floats(1.0, 1e4)


@settings(max_examples=300)
@given(units, units, ratios)
def test_more_surface_never_harms(one, other, ratio):
    few, many = sorted((one, other))
    for effectiveness in (effectiveness_counterflow, effectiveness_crossflow):
        # The usual approximation for crossflow dips by up to a thousandth before it has levelled off.
        assert -1e-12 <= effectiveness(few, ratio) <= effectiveness(many, ratio) + 2e-3 <= 1 + 2e-3


@settings(max_examples=300)
@given(units, ratios)
def test_crossflow_lies_between_a_still_stream_and_counterflow(transfer, ratio):
    assert effectiveness_crossflow(transfer, ratio) <= effectiveness_counterflow(transfer, ratio) + 2e-3
    assert effectiveness_crossflow(transfer, ratio) <= effectiveness_crossflow(transfer, 0.0) + 2e-3


@settings(max_examples=300)
@given(st.floats(0.01, 10.0))
def test_the_limits_of_the_formulas_make_no_jump(transfer):
    assert effectiveness_counterflow(transfer, 1.0) == pytest.approx(
        effectiveness_counterflow(transfer, 1 - 1e-7), rel=1e-5
    )
    assert effectiveness_crossflow(transfer, 0.0) == pytest.approx(effectiveness_crossflow(transfer, 1e-5), rel=1e-4)
    assert effectiveness_crossflow(0.0, 0.5) == 0.0


@settings(max_examples=300)
@given(st.floats(1.0, 1e4), rates, rates, st.floats(280.0, 310.0), st.floats(0.0, 60.0))
def test_energy_is_kept_and_no_stream_passes_the_other(conductance, water, air, ambient, above):
    share = effectiveness_crossflow(transfer_units(conductance, water, air), capacity_ratio(water, air))
    heat = cooling_capacity(min(share, 1.0), water, air, ambient + above, ambient)
    assert heat <= min(water, air) * above * (1 + 1e-9) + 1e-6
    assert temperature_rise(heat, air) <= above + 1e-6
    assert temperature_rise(heat, water) * water == pytest.approx(heat, rel=1e-9, abs=1e-9)


def test_air_warmer_than_the_water_does_not_cool():
    with pytest.raises(OutOfRange, match="the water's") as refusal:
        cooling_capacity(0.3, 274.0, 127.0, 310.0, 311.0)
    assert refusal.value.argument == "cold_temperature_k"


@settings(max_examples=300)
@given(st.floats(1.0, 1e5), st.floats(-1e4, 1e5))
def test_the_margin_is_what_is_left(capacity, heat):
    margin = cooling_margin(capacity, heat)
    assert (1 - margin) * capacity == pytest.approx(heat, rel=1e-9, abs=1e-6)
    assert (margin < 0) == (heat > capacity)


@settings(max_examples=300)
@given(st.floats(1e-4, 1.0), st.floats(6e4, 1.1e5), st.floats(240.0, 330.0))
def test_thin_or_hot_air_takes_up_less(flow, pressure, temperature):
    rate = air_capacity_rate(flow, pressure, temperature)
    assert rate == pytest.approx(2 * air_capacity_rate(flow / 2, pressure, temperature), rel=1e-12)
    assert air_capacity_rate(flow, pressure / 2 + 2e4, temperature) < air_capacity_rate(
        flow, pressure + 2e3, temperature
    )
    assert air_capacity_rate(flow, pressure, temperature + 10) < rate
    assert water_capacity_rate(2 * flow) == pytest.approx(2 * water_capacity_rate(flow), rel=1e-12)
