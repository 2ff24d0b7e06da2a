"""What readers see: digits, roundings, systems of units, and the way back."""

import math
import re
from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from macros.quantities import UNITS, QuantityError, Shown, parse_shown, show, shown, unit

BAR = 1e5
ATMOSPHERE_PA = 101325.0


def plain(text):
    """Shown text with an ordinary space, for tests to be read by eye."""
    return text.replace("\u00a0", " ")


@pytest.mark.parametrize(
    ("value", "text", "digits", "expected"),
    [
        (6.6, "V", 3, "6.60 V"),
        (6.634, "V", 3, "6.63 V"),
        (9.996, "V", 3, "10.0 V"),
        (0.99996, "V", 4, "1.000 V"),
        (60.0, "A", 2, "60 A"),
        (60.0, "A", 1, "60 A"),
        (0.0123, "A", 2, "0.012 A"),
        (1234.0, "W", 4, "1234 W"),
        (1234.0, "W", 2, "1200 W"),
        (12345.0, "W", 5, "12\u202f345 W"),
        (12345.0, "W", 3, "12\u202f300 W"),
        (1234567.0, "W", 7, "1\u202f234\u202f567 W"),
        (0.0, "W", 3, "0 W"),
        (-0.0, "W", 3, "0 W"),
        (-8.25, "W", 3, "−8.25 W"),
        (0.00012345, "m", 3, "0.000123 m"),
        (1.5e-14, "mol/(m s Pa)", 2, "1.5 × 10⁻¹⁴ mol/(m·s·Pa)"),
        (2.5e12, "J", 2, "2.5 × 10¹² J"),
        (-2.5e12, "J", 1, "−2 × 10¹² J"),
        (12.5, "", 3, "12.5"),
    ],
)
def test_significant_digits(value, text, digits, expected):
    assert plain(show(value, text, digits)) == expected


@pytest.mark.parametrize(
    ("value", "decimals", "expected"),
    [
        (333.15, 0, "60 °C"),
        (333.15, 1, "60.0 °C"),
        (265.15, 0, "−8 °C"),
        (273.149, 2, "0.00 °C"),
        (273.15, 0, "0 °C"),
        (273.15, 1, "0.0 °C"),
        (397.25, -1, "120 °C"),
    ],
)
def test_decimals(value, decimals, expected):
    assert plain(show(value, "°C", decimals=decimals)) == expected


def test_a_count_is_whole():
    assert show(16.0, unit("", "count")) == "16"
    assert show(12345.0, unit("", "count")) == "12\u202f345"


@pytest.mark.parametrize(
    ("value", "rounding", "expected"),
    [
        (26.04e5, "down", "26.0 bar"),
        (26.04e5, "up", "26.1 bar"),
        (26.09e5, "down", "26.0 bar"),
        (26.01e5, "nearest", "26.0 bar"),
        (-26.04e5, "down", "−26.1 bar"),
        (-26.04e5, "up", "−26.0 bar"),
        (99.96e5, "up", "100 bar"),
        (99.96e5, "down", "99.9 bar"),
        (-0.0004e5, "up", "−0.000400 bar"),
    ],
)
def test_limits_round_to_their_side(value, rounding, expected):
    assert plain(show(value, "bar", rounding=rounding)) == expected


def test_a_small_negative_rounds_up_to_an_unsigned_zero():
    assert plain(show(-0.0004e5, "bar", decimals=1, rounding="up")) == "0.0 bar"
    assert plain(show(-0.0004e5, "bar", decimals=1, rounding="down")) == "−0.1 bar"


@pytest.mark.parametrize("rounding", ["nearest", "up", "down"])
@pytest.mark.parametrize("tenths", range(0, 400, 7))
def test_noise_of_floats_moves_no_limit(tenths, rounding):
    """A value that is exact in its unit is shown as it is, however many conversions it went through."""
    bar = tenths / 10
    absolute_pa = bar * BAR + ATMOSPHERE_PA
    noisy_pa = (absolute_pa * 3.7 / 1.1 - 0.1 + 0.1) / 3.7 * 1.1
    text = show(noisy_pa, "bar(g)", decimals=1, rounding=rounding, atmosphere_pa=ATMOSPHERE_PA)
    assert plain(text) == f"{bar:.1f} bar(g)"


def test_a_gauge_pressure_from_an_absolute_one():
    assert plain(show(26 * BAR + 95000.0, "bar(g)", atmosphere_pa=95000.0)) == "26.0 bar(g)"
    assert plain(show(26 * BAR, "bar(g)")) == "26.0 bar(g)"
    # An absolute unit and a difference are not shifted.
    assert plain(show(26 * BAR, "bar(a)", atmosphere_pa=95000.0)) == "26.0 bar(a)"
    assert plain(show(26 * BAR, "bar", atmosphere_pa=95000.0)) == "26.0 bar"
    assert plain(show(95000.0, "bar(g)", atmosphere_pa=95000.0)) == "0 bar(g)"


@pytest.mark.parametrize(
    ("value", "uncertainty", "digits", "expected"),
    [
        (1.9534, 0.03, 5, "1.95 V"),
        (1.9534, 0.3, 5, "2.0 V"),
        (1.9534, 0.001, 2, "2.0 V"),
        (1.9534, 0.001, 4, "1.953 V"),
        (123.4, 20.0, 4, "120 V"),
        (1.9534, 50.0, 3, "2 V"),
        (1.9534, 0.0, 3, "1.95 V"),
        (9.996, 0.01, 5, "10.00 V"),
    ],
)
def test_an_uncertainty_only_lowers_the_digits(value, uncertainty, digits, expected):
    assert plain(show(value, "V", digits, uncertainty=uncertainty)) == expected


def test_an_uncertainty_is_converted_with_its_value():
    assert plain(show(333.15, "°F", 5, uncertainty=5.0)) == "140 °F"
    assert plain(show(26.37e5, "bar", 4, uncertainty=0.2e5)) == "26.4 bar"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_refused(value):
    for write in (show, shown):
        with pytest.raises(QuantityError, match="no finite number"):
            write(value, "bar(g)")
    with pytest.raises(QuantityError, match="no finite number"):
        show(1e5, "bar(g)", atmosphere_pa=value)
    with pytest.raises(QuantityError, match="no finite number"):
        show(1e5, "bar", uncertainty=value)


@pytest.mark.parametrize("digits", [0, -1, 13])
def test_digits_beyond_sense_are_refused(digits):
    with pytest.raises(QuantityError, match="significant digits"):
        show(1.0, "V", digits)


def test_an_unknown_unit_is_refused():
    with pytest.raises(QuantityError, match="nearest known"):
        show(1.0, "Volt")


def test_three_systems():
    normal = unit("NL/min").factor
    assert shown(6.63 * normal, "NL/min") == Shown("6.63\u00a0NL/min", "4.93\u00a0mmol/s", "14.8\u00a0scf/h")
    assert shown(26 * BAR, "bar(g)") == Shown("26.0\u00a0bar(g)", "2.60\u00a0MPa(g)", "377\u00a0psi(g)")
    assert shown(4 * BAR, "bar(g)") == Shown("4.00\u00a0bar(g)", "400\u00a0kPa(g)", "58.0\u00a0psi(g)")
    heat = shown(28 * 3.6e6, "kWh(lower)")
    assert heat == Shown("28.0\u00a0kWh(lower)", "101\u00a0MJ(lower)", "95\u202f500\u00a0BTU(lower)")
    assert shown(0.05, "L") == Shown("50.0\u00a0L", "0.0500\u00a0m³", "1.77\u00a0ft³")
    assert shown(0.83, "kg", 2) == Shown("0.83\u00a0kg", "0.83\u00a0kg", "1.8\u00a0lb")
    assert shown(1.8, "V") == Shown("1.80\u00a0V", "1.80\u00a0V", "1.80\u00a0V")


def test_an_american_unit_is_translated_too():
    psi = unit("psi(g)").factor
    assert shown(100 * psi, "psi(g)") == Shown("6.89\u00a0bar(g)", "689\u00a0kPa(g)", "100\u00a0psi(g)")
    assert shown(unit("°F").to_si(140), "°F", 3).workshop == "60\u00a0°C"


def test_a_temperature_keeps_the_worth_of_its_last_place():
    assert shown(333.15, "°C", 2) == Shown("60\u00a0°C", "333\u00a0K", "140\u00a0°F")
    assert shown(265.15, "°C", decimals=0) == Shown("−8\u00a0°C", "265\u00a0K", "18\u00a0°F")
    assert shown(265.15, "°C", decimals=1) == Shown("−8.0\u00a0°C", "265.2\u00a0K", "17.6\u00a0°F")
    assert shown(10.0, "K", 2) == Shown("10\u00a0K", "10\u00a0K", "18\u00a0Δ°F")
    assert shown(300.0, unit("K", "temperature"), 3) == Shown("27\u00a0°C", "300\u00a0K", "80\u00a0°F")


def test_decimals_are_worth_as_much_in_each_system():
    assert shown(26.4 * BAR, "bar(g)", decimals=1) == Shown("26.4\u00a0bar(g)", "2.64\u00a0MPa(g)", "383\u00a0psi(g)")


def test_a_gauge_limit_rounds_to_its_side_in_each_system():
    high = shown(26.05 * BAR + ATMOSPHERE_PA, "bar(g)", rounding="down", atmosphere_pa=ATMOSPHERE_PA)
    assert high == Shown("26.0\u00a0bar(g)", "2.60\u00a0MPa(g)", "377\u00a0psi(g)")
    low = shown(26.05 * BAR + ATMOSPHERE_PA, "bar(g)", rounding="up", atmosphere_pa=ATMOSPHERE_PA)
    assert low == Shown("26.1\u00a0bar(g)", "2.61\u00a0MPa(g)", "378\u00a0psi(g)")


def last_place(text):
    """What one step of the last digit shown is worth, in the unit shown."""
    number = re.match(r"[−0-9.\u202f]+", text)[0]
    _, _, decimals = number.partition(".")
    power = re.search(r"×\u00a010([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)", text)
    exponent = int(power[1].translate(str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789"))) if power else 0
    return float(Decimal(1).scaleb(exponent - len(decimals)))


values = st.floats(-1e12, 1e12, allow_nan=False).filter(lambda value: value == 0 or abs(value) > 1e-30)
every_unit = st.sampled_from([each for each in UNITS if each.kind != "count"])


COLD_K = 200.0  # nearer to absolute zero one digit may be shown beyond it


def possible(value, each):
    """The value made one that the kind allows."""
    if each.kind == "temperature":
        return COLD_K + abs(value)
    return abs(value) if each.kind in ("absolute_pressure", "gauge_pressure") else value


@given(values, every_unit, st.integers(1, 9))
@example(73.15, unit("°C"), 3)
@example(9.9999999, unit("V"), 3)
def test_shown_in_every_unit_it_reads_back_within_half_a_digit(value, each, digits):
    si = possible(value, each)
    text = show(si, each, digits)
    back = parse_shown(text, each.kind)
    assert back.unit == each.typed
    exact = each.from_si(si)
    # Zeros left of the point may stand for digits rounded away: the text does not say, the digits asked for do.
    place = max(last_place(text), 10.0 ** (math.floor(math.log10(abs(exact))) - digits + 1)) if exact else 0.0
    noise = 1e-11 * max(abs(si) / each.factor, abs(exact), abs(each.offset))
    assert abs(each.from_si(back.si) - exact) <= place / 2 + noise


@given(values, every_unit, st.integers(1, 9), st.sampled_from(["up", "down"]))
def test_a_limit_is_never_shown_beyond_its_side(value, each, digits, rounding):
    si = possible(value, each)
    texts = shown(si, each, digits, rounding=rounding)
    for text in (texts.workshop, texts.si, texts.us):
        back = parse_shown(text, each.kind)
        seen = unit(back.unit, each.kind)
        noise = 1e-11 * max(abs(si), abs(seen.offset * seen.factor))
        if rounding == "up":
            assert back.si >= si - noise
        else:
            assert back.si <= si + noise


@given(values, every_unit, st.integers(1, 9))
def test_no_text_carries_a_signed_zero_or_letters_of_a_float(value, each, digits):
    text = show(possible(value, each), each, digits)
    number = text.removesuffix(each.symbol)
    assert not re.search(r"[a-zA-Z]|−0(\.0*)?\u00a0?$", number)
    assert not re.search(r"[0-9]{5}", number.split(".")[0])


@given(st.floats(1e-6, 1e6), st.floats(1e-9, 1e6), st.integers(1, 9))
def test_an_uncertainty_never_adds_digits(value, uncertainty, digits):
    assert last_place(show(value, "V", digits, uncertainty=uncertainty)) >= last_place(show(value, "V", digits)) / 10
