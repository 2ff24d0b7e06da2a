"""Vessels that are joined: mass is kept, nothing flows uphill, limits hold."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.equalise import boosted_transfer_mass, equalised_pressure, free_transfer_mass, pressure_after
from macros.calculations.storage import mass_stored

volumes = st.floats(0.01, 10.0)
pressures = st.floats(1e5, 4e7)
temperatures = st.floats(250.0, 340.0)


@settings(max_examples=300, deadline=None)
@given(volumes, pressures, volumes, pressures, temperatures)
def test_mass_is_kept_and_the_pressure_lies_between(v_a, p_a, v_b, p_b, temperature):
    equal = equalised_pressure(v_a, p_a, v_b, p_b, temperature)
    before = mass_stored(v_a, p_a, temperature) + mass_stored(v_b, p_b, temperature)
    assert mass_stored(v_a, equal, temperature) + mass_stored(v_b, equal, temperature) == pytest.approx(
        before, rel=1e-9
    )
    assert min(p_a, p_b) * (1 - 1e-9) <= equal <= max(p_a, p_b) * (1 + 1e-9)
    assert equalised_pressure(v_b, p_b, v_a, p_a, temperature) == pytest.approx(equal, rel=1e-9)


def test_the_pressure_of_a_real_gas_is_not_the_mean_by_volume():
    """Two equal vessels, 350 bar and 1 bar: an ideal gas would meet at 175.5 bar, hydrogen meets a good deal lower."""
    assert equalised_pressure(1.0, 35e6, 1.0, 1e5, 288.15) == pytest.approx(157.9e5, rel=5e-3)


@settings(max_examples=300, deadline=None)
@given(volumes, pressures, pressures, volumes, pressures, pressures, temperatures)
def test_a_transfer_keeps_its_limits(v_a, p_a, lowest, v_b, p_b, full, temperature):
    free = free_transfer_mass(v_a, p_a, lowest, v_b, p_b, full, temperature)
    boosted = boosted_transfer_mass(v_a, p_a, lowest, v_b, p_b, full, free, temperature)
    assert free >= 0
    assert boosted >= 0
    if p_a <= p_b:
        assert free == 0
    source = pressure_after(v_a, p_a, -free - boosted, temperature)
    target = pressure_after(v_b, p_b, free + boosted, temperature)
    close = 1 + 1e-6
    if free + boosted > 1e-9:
        assert source * close >= lowest
        assert target <= full * close
        # One of the two limits is what ended it.
        assert source == pytest.approx(lowest, rel=1e-6) or target == pytest.approx(full, rel=1e-6)
    if free > 1e-9:
        after_free = pressure_after(v_a, p_a, -free, temperature), pressure_after(v_b, p_b, free, temperature)
        assert after_free[0] * close >= after_free[1]


@settings(max_examples=300, deadline=None)
@given(volumes, pressures, st.floats(-0.5, 2.0), temperatures)
def test_what_comes_in_goes_out_again(volume, pressure, share, temperature):
    mass = share * mass_stored(volume, min(pressure, 2e7), temperature)
    after = pressure_after(volume, min(pressure, 2e7), mass, temperature)
    if after <= 1e8:
        assert pressure_after(volume, after, -mass, temperature) == pytest.approx(min(pressure, 2e7), rel=1e-6)
    assert (after > min(pressure, 2e7)) == (mass > 0) or mass == pytest.approx(0, abs=1e-9)


def test_more_than_there_is_cannot_leave():
    with pytest.raises(OutOfRange):
        pressure_after(0.05, 1e6, -0.05, 288.15)


def test_the_farm_banks_meet_where_a_table_of_densities_says():
    """
    Low bank 600 L at 50 bar(g), 4.1636 kg/m³; high bank 300 L empty, 0.0852: (600 × 4.1636 + 300 × 0.0852) / 900
    = 2.8041 kg/m³, what hydrogen has at 34.0 bar, 33 bar(g) and 15 °C.
    """
    equal = equalised_pressure(0.6, 51.01325e5, 0.3, 1.01325e5, 288.15)
    assert equal == pytest.approx(34.01e5, abs=0.01e5)
    free = free_transfer_mass(0.6, 51.01325e5, 11e5, 0.3, 1.01325e5, 141e5, 288.15)
    assert free == pytest.approx(0.3 * (2.8041 - 0.0852), rel=1e-3)
