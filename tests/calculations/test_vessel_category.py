"""Categories: more pressure or volume never lowers one, a line belongs below, gauge and not absolute counts."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from macros.calculations.contract import OutOfRange
from macros.calculations.vessel_category import pipe_category, vessel_category

ORDER = ["outside", "article 4(3)", "I", "II", "III", "IV"]


def place(bar, litres, atmosphere_pa=101325.0):
    return ORDER.index(vessel_category(bar * 1e5 + atmosphere_pa, atmosphere_pa, litres / 1e3, "fixed"))


@settings(max_examples=300)
@given(st.floats(0.1, 1500.0), st.floats(0.05, 5000.0), st.floats(1.0, 3.0))
@example(200.0, 1.0, 1.0001)
@example(1000.0, 0.5, 1.0001)
@example(25.0, 1.0, 1.0001)
def test_more_pressure_or_volume_never_lowers_it(bar, litres, more):
    assert place(bar * more, litres) >= place(bar, litres)
    assert place(bar, litres * more) >= place(bar, litres) or not litres <= 1.0 < litres * more
    if litres > 1.0:
        assert place(bar, litres * more) >= place(bar, litres)


@settings(max_examples=300)
@given(st.sampled_from([25.0, 50.0, 200.0, 1000.0]), st.floats(1.001, 100.0), st.floats(60e3, 110e3))
def test_a_line_belongs_to_the_lower_class_at_any_altitude(product, litres, atmosphere_pa):
    bar = product / litres
    if bar <= 0.51 or bar > 999:
        return
    assert place(bar, litres, atmosphere_pa) == [25.0, 50.0, 200.0, 1000.0].index(product) + 1
    assert place(bar * 1.001, litres, atmosphere_pa) == [25.0, 50.0, 200.0, 1000.0].index(product) + 2


@settings(max_examples=300)
@given(st.floats(0.1, 1500.0), st.floats(1.0, 600.0), st.floats(1.0, 3.0))
def test_a_larger_pipe_is_never_in_a_lower_category(bar, size, more):
    def of(bar, size):
        return ORDER.index(pipe_category(bar * 1e5 + 101325.0, 101325.0, size))

    assert of(bar * more, size) >= of(bar, size)
    assert of(bar, size * more) >= of(bar, size)


@pytest.mark.parametrize(
    ("regime", "category"), [("transportable", "outside"), ("undecided", "undecided"), ("fixed", "IV")]
)
def test_the_regime_comes_first(regime, category):
    """A 50 L cylinder for 200 bar(g): 10 000 bar L."""
    assert vessel_category(201.01325e5, 101325.0, 0.05, regime) == category


@pytest.mark.parametrize(
    "call",
    [
        lambda: vessel_category(2e5, 101325.0, 0.05, "mobile"),
        lambda: vessel_category(2e5, 101325.0, 0.0, "fixed"),
        lambda: vessel_category(math.nan, 101325.0, 0.05, "fixed"),
        lambda: pipe_category(2e5, 101325.0, 0.0),
    ],
)
def test_what_is_refused(call):
    with pytest.raises(OutOfRange):
        call()


@pytest.mark.parametrize(
    ("bar", "size", "category"),
    [
        (0.5, 600.0, "outside"),
        (0.51, 600.0, "III"),
        (400.0, 25.0, "article 4(3)"),
        (0.6, 26.0, "I"),
        (10.0, 100.0, "I"),
        (10.1, 100.0, "II"),
        (1.0, 101.0, "II"),
        (10.0, 350.0, "II"),
        (10.1, 350.0, "III"),
        (1.0, 351.0, "III"),
    ],
)
def test_the_lines_of_the_table_of_pipes(bar, size, category):
    """Directive 2014/68/EU, Annex II table 6: 0.5 bar; DN 25, 100, 350; PS DN 1000 and 3500 bar; a line is the lower's."""
    assert pipe_category(bar * 1e5 + 101325.0, 101325.0, size) == category


@pytest.mark.parametrize(
    ("bar", "litres", "category"),
    [
        (0.5, 100.0, "outside"),
        (0.51, 100.0, "II"),
        (200.0, 1.0, "article 4(3)"),
        (201.0, 1.0, "III"),
        (1000.0, 1.0, "III"),
        (1001.0, 1.0, "IV"),
        (24.0, 1.02, "article 4(3)"),
        (30.0, 1.02, "I"),
    ],
)
def test_the_lines_of_the_table_of_vessels(bar, litres, category):
    """Directive 2014/68/EU, Annex II table 2: 0.5 bar, 1 L, 200 and 1000 bar; above 1 L by PS V."""
    assert vessel_category(bar * 1e5 + 101325.0, 101325.0, litres * 1e-3, "fixed") == category
