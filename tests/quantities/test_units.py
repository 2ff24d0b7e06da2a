"""The table of units: factors against outside authorities, and the promises that its rows make to each other."""

import fluids.control_valve
import psychrolib
import pytest
import scipy.constants as scipy_constants
from fluids import constants as fluids_constants

from macros.quantities import KINDS, UNITS, QuantityError, kinds_named, unit
from macros.quantities.spellings import WORDS, folded, nearest

VOLUME_PER_MOL, *_ = scipy_constants.physical_constants["molar volume of ideal gas (273.15 K, 101.325 kPa)"]


def factor(text, kind=None):
    return unit(text, kind).factor


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("psi", scipy_constants.psi),
        ("bar", scipy_constants.bar),
        ("atm(a)", scipy_constants.atm),
        ("in", scipy_constants.inch),
        ("ft", scipy_constants.foot),
        ("um", scipy_constants.micron),
        ("ft3", scipy_constants.foot**3),
        ("in2", scipy_constants.inch**2),
        ("gal", scipy_constants.gallon),
        ("L", scipy_constants.liter),
        ("lb", scipy_constants.pound),
        ("oz", scipy_constants.oz),
        ("min", scipy_constants.minute),
        ("h", scipy_constants.hour),
        ("d", scipy_constants.day),
        ("week", scipy_constants.week),
        ("a", scipy_constants.year),
        ("BTU", scipy_constants.Btu_IT),
        ("Δ°F", scipy_constants.degree_Fahrenheit),
        ("lb/h", scipy_constants.pound / scipy_constants.hour),
        ("BTU/h", scipy_constants.Btu_IT / scipy_constants.hour),
        ("kWh", scipy_constants.kilo * scipy_constants.hour),
        ("ft3/min", scipy_constants.foot**3 / scipy_constants.minute),
        ("Nm3", 1 / VOLUME_PER_MOL),
        ("NL", 1e-3 / VOLUME_PER_MOL),
        ("NmL/min", 1e-6 / VOLUME_PER_MOL / 60),
    ],
)
def test_factors_agree_with_scipy(text, expected):
    assert factor(text) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("psi(g)", fluids_constants.psi),
        ("ft3", fluids_constants.foot_cubed),
        ("BTU", fluids_constants.Btu_IT),
        ("lb", fluids_constants.lb),
        ("gal", fluids_constants.gallon_US),
        ("Cv", fluids.control_valve.Cv_to_Kv(1.0)),
    ],
)
def test_factors_agree_with_fluids(text, expected):
    assert factor(text) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("celsius", [-273.15, -40.0, 0.0, 15.0, 100.0])
def test_temperatures_agree_with_scipy(celsius):
    kelvin = unit("°C").to_si(celsius)
    assert kelvin == pytest.approx(scipy_constants.convert_temperature(celsius, "Celsius", "Kelvin"), abs=1e-9)
    fahrenheit = scipy_constants.convert_temperature(celsius, "Celsius", "Fahrenheit")
    assert unit("°F").from_si(kelvin) == pytest.approx(fahrenheit, abs=1e-9)


def test_zero_fahrenheit_agrees_with_psychrolib():
    assert unit("°F").to_si(0.0) * 1.8 == pytest.approx(psychrolib.GetTRankineFromTFahrenheit(0.0), abs=1e-9)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Printed in Smithells Metals Reference Book, 8th edition, introduction to chapter 2: 1 BTU/lb is 2.326 J/g
        # exactly, by the definition of 1956. A degree Fahrenheit is 1/1.8 K, so 2.326 * 1.8 = 4.1868.
        ("BTU/lb", 2326.0),
        ("BTU/(lb °F)", 4186.8),
        # The same page takes 9.80665 m/s2; 0.45359237 * 9.80665 / 0.0254**2 = 6894.757293.
        ("psi/min", 6894.757293 / 60),
        # A pound by 2326 J/kg is 1055.05585 J; * 1.8 / 3600 = 0.527528; / 0.3048 = 1.730735; / 0.3048 again = 5.678263.
        ("BTU/(h °F)", 0.527528),
        ("BTU/(h ft °F)", 1.730735),
        ("BTU/(h ft2 °F)", 5.678263),
        ("BTU/°F", 1899.1005),
        # By hand: one mol/(cm s bar) is 100 mol/(m s bar), and a bar is 1e5 Pa.
        ("mol/(cm s bar)", 1e-3),
        ("uS/cm", 1e-4),
        ("mS/m", 1e-3),
        ("A/cm2", 1e4),
        ("eq/L", 1000.0),
        ("bar L", 100.0),
        ("g/Nm3", 1e-3 * VOLUME_PER_MOL),
        ("ohm mm2/m", 1e-6),
        ("kWh/Nm3", 3.6e6 * VOLUME_PER_MOL),
    ],
)
def test_factors_worked_by_hand(text, expected):
    assert factor(text) == pytest.approx(expected, rel=1e-6)


def test_a_standard_cubic_foot_holds_what_the_american_gas_constant_says():
    """From memory: R is 10.7316 psi ft3/(lbmol °R), and a pound-mole fills 379.5 scf."""
    pound_moles = 14.696 * 1.0 / (10.7316 * (60 + 459.67))
    assert factor("scf") == pytest.approx(pound_moles * 453.59237, rel=1e-5)
    assert 453.59237 / factor("scf") == pytest.approx(379.5, abs=0.05)
    assert factor("lb/MMscf") == pytest.approx(0.45359237 / (1e6 * pound_moles * 453.59237), rel=1e-5)


def test_the_year_is_that_of_a_season():
    assert factor("a") == 8760 * factor("h")


def test_same_size_whatever_the_mark():
    for mark in ("(g)", "(a)"):
        for text in ("bar", "mbar", "Pa", "kPa", "MPa", "psi"):
            assert factor(text + mark) == factor(text)
    for mark in ("(lower)", "(higher)"):
        for text in ("kWh", "Wh", "J", "kJ", "MJ", "BTU"):
            assert factor(text + mark) == factor(text)


def test_every_kind_has_units():
    assert {each.kind for each in UNITS} == set(KINDS)


def test_every_kind_but_a_share_can_be_shown_as_it_is_kept():
    plain = {each.kind for each in UNITS if each.factor == 1.0 and each.offset == 0.0}
    assert set(KINDS) - plain == {"fraction"}


def test_partners_exist_in_the_same_kind_and_rise():
    for each in UNITS:
        for system in ("workshop", "si", "us"):
            partners = [unit(text, each.kind) for text in getattr(each, system)]
            assert all(partner.kind == each.kind for partner in partners)
            assert [partner.factor for partner in partners] == sorted(partner.factor for partner in partners)


def test_a_partner_belongs_to_its_system():
    """What a system shows, it keeps: the partner of a partner is the partner itself or one of its ladder."""
    for each in UNITS:
        for system in ("workshop", "si", "us"):
            for text in getattr(each, system):
                onward = getattr(unit(text, each.kind), system)
                assert not onward or set(onward) & {*getattr(each, system)}, f"{each.typed} in {system}: {text}"


AMERICAN = ("psi", "°F", "ft", "in", "lb", "oz", "gal", "BTU", "scf", "Cv")


def test_american_units_show_only_to_americans():
    def is_american(text):
        return any(part in text.replace("min", "") for part in AMERICAN)

    for each in UNITS:
        for system in ("workshop", "si"):
            seen = getattr(each, system) or (each.typed,)
            assert not any(map(is_american, seen)), f"{each.typed} in {system}: {seen}"


def test_each_spelling_means_one_unit_of_a_kind():
    meant = {}
    for each in UNITS:
        for spelling in (each.typed, *each.also):
            assert meant.setdefault((each.kind, folded(spelling)), each) is each


def test_what_is_shown_can_be_typed():
    for each in UNITS:
        assert unit(each.symbol, each.kind) == each
        assert unit(each.typed, each.kind) == each


@pytest.mark.parametrize(
    ("text", "symbol"),
    [
        ("uS/cm", "µS/cm"),
        ("μS/cm", "µS/cm"),
        ("Nm³/h", "Nm³/h"),
        ("Nm3/h", "Nm³/h"),
        ("cm²", "cm²"),
        ("mm2", "mm²"),
        ("Ah", "A·h"),
        ("degC", "°C"),
        ("mol/(m·s·Pa)", "mol/(m·s·Pa)"),
        ("mΩ", "mΩ"),
        ("mohm", "mΩ"),
        ("W/(m2 K)", "W/(m²·K)"),
    ],
)
def test_spellings(text, symbol):
    assert unit(text).symbol == symbol


def test_kinds_that_share_a_text():
    assert unit("K").kind == "temperature_difference"
    assert unit("K", "temperature").kind == "temperature"
    assert unit("mol/s").kind == "amount_flow"
    assert unit("mol/s", "normal_flow").kind == "normal_flow"
    assert unit("").kind == "ratio"
    assert unit("", "count").kind == "count"


def test_a_unit_of_another_kind_is_refused():
    with pytest.raises(QuantityError, match='"kg/h" is that of a mass flow; wanted is a normal flow'):
        unit("kg/h", "normal_flow")


def test_an_unknown_unit_names_the_nearest():
    with pytest.raises(QuantityError, match="nearest known is NL/min"):
        unit("Nl/mn")
    with pytest.raises(QuantityError, match="wanted is a voltage"):
        unit("furlong", "voltage")


def test_an_unknown_kind_is_a_slip_in_code():
    with pytest.raises(KeyError):
        kinds_named("presure")


def test_words_lead_to_units():
    for word, typed in WORDS.items():
        assert unit(typed).typed == typed
        assert nearest(word) == typed
