"""The grammar of a quantity, and what it says when a text does not follow it."""

import math
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from macros.quantities import UNITS, Quantity, QuantityError, parse_shown, read
from macros.quantities.kinds import KINDS


@pytest.mark.parametrize(
    ("text", "kind", "found"),
    [
        ("26 bar(g)", "pressure", ("gauge_pressure", 26e5)),
        ("26 bar(a)", "pressure", ("absolute_pressure", 26e5)),
        ("26bar(g)", "gauge_pressure", ("gauge_pressure", 26e5)),
        ("0.2 bar", "pressure_difference", ("pressure_difference", 2e4)),
        ("-8 °C", "temperature", ("temperature", 265.15)),
        ("+60 °C", None, ("temperature", 333.15)),
        ("300 K", "temperature", ("temperature", 300.0)),
        ("10 K", "temperature_difference", ("temperature_difference", 10.0)),
        ("10 K", None, ("temperature_difference", 10.0)),
        ("18 Δ°F", "temperature_difference", ("temperature_difference", 10.0)),
        ("1.5e-14 mol/(m s Pa)", "permeability", ("permeability", 1.5e-14)),
        ("1.5 uS/cm", "conductivity", ("conductivity", 1.5e-4)),
        ("50 cm2", "area", ("area", 50e-4)),
        ("50 cm²", "area", ("area", 50e-4)),
        ("98%", "fraction", ("fraction", 0.98)),
        ("28 kWh(lower)", "energy_lower", ("energy_lower", 28 * 3.6e6)),
        ("16", "count", ("count", 16.0)),
        ("1.25", "ratio", ("ratio", 1.25)),
        ("5 1/h", "frequency", ("frequency", 5 / 3600)),
        (" 26\n bar(g) ", None, ("gauge_pressure", 26e5)),
        ("5 mmol/s", "normal_flow", ("normal_flow", 5e-3)),
        ("0.5 Kv", "flow_coefficient", ("flow_coefficient", 0.5)),
        ("200 L/min(free)", "free_flow", ("free_flow", 0.2 / 60)),
    ],
)
def test_reads(text, kind, found):
    quantity = read(text, kind)
    assert (quantity.kind, quantity.si) == (found[0], pytest.approx(found[1], rel=1e-12))
    assert quantity.text == text.strip()
    assert quantity.uncertainty is None


def test_keeps_the_uncertainty_without_the_zero_of_the_scale():
    assert read("1.95 ± 0.03 V") == Quantity("voltage", 1.95, "V", "1.95 ± 0.03 V", 0.03)
    assert read("60 +/- 2 °C").uncertainty == 2.0
    assert read("140 ± 9 °F").uncertainty == pytest.approx(5.0)


def test_a_zero_has_no_sign():
    assert math.copysign(1.0, read("-0 V").si) == 1.0


GAUGE_OR_ABSOLUTE = (
    "wanted is a gauge pressure or an absolute pressure (bar(g), mbar(g), Pa(g), kPa(g), MPa(g), psi(g), …)."
)
ANY = "wanted is a number with its unit."
COMMA = "has a comma, which is a decimal point to some and divides thousands to others"
NORMAL = "wanted is a normal flow (NL/min, NL/h, NmL/min, Nm3/h, scf/h, scf/min, …)."
ACTUAL = "wanted is an actual volume flow (L/min, L/h, mL/min, m3/h, m3/s, cm3/s, …)."
ABSOLUTE = "wanted is an absolute pressure (bar(a), mbar(a), Pa(a), kPa(a), MPa(a), psi(a), …)."


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("26 bar", "pressure", '"26 bar" does not say gauge or absolute; write 26 bar(g) or 26 bar(a).'),
        ("26 bar", "gauge_pressure", '"26 bar" does not say gauge or absolute; write 26 bar(g).'),
        ("5 kg/h", "normal_flow", f'"5 kg/h" is a mass flow; {NORMAL}'),
        ("5 L/min", "normal_flow", '"5 L/min" does not say at which state the gas is counted; write 5 NL/min.'),
        ("5 NL/min", "volume_flow", f'"5 NL/min" is a normal flow; {ACTUAL}'),
        ("28 kWh", "energy_lower", '"28 kWh" does not say by which heating value; write 28 kWh(lower).'),
        ("26 bar(g)", "absolute_pressure", f'"26 bar(g)" is a gauge pressure; {ABSOLUTE}'),
        ("10 °C", "temperature_difference", '"10 °C" is a point on a scale; write the difference as 10 K.'),
        ("18 °F", "temperature_difference", '"18 °F" is a point on a scale; write the difference as 18 Δ°F.'),
        ("26", "pressure", f'"26" has no unit; {GAUGE_OR_ABSOLUTE}'),
        ("1.95 ± 0.03", "voltage", '"1.95 ± 0.03" has no unit; wanted is a voltage (V, mV).'),
        ("12", None, f'"12" has no unit; {ANY}'),
        ("0.7", "fraction", '"0.7" has no unit; write 70 % or 0.7 %.'),
        ("0.07", "fraction", '"0.07" has no unit; write 7 % or 0.07 %.'),
        ("16 V", "count", '"16 V" has a unit; wanted is a count, a plain number.'),
        ("16.5", "count", '"16.5" is not whole; wanted is a count, a plain number.'),
        ("5 Bar(g)", "pressure", '"5 Bar(g)" has the unknown unit "Bar(g)"; with the nearest known it reads 5 bar(g).'),
        ("5 barg", "pressure", '"5 barg" has the unknown unit "barg"; with the nearest known it reads 5 bar(g).'),
        ("5 psig", None, '"5 psig" has the unknown unit "psig"; with the nearest known it reads 5 psi(g).'),
        ("2 hours", "time", '"2 hours" has the unknown unit "hours"; with the nearest known it reads 2 h.'),
        ("2 parsec", "voltage", '"2 parsec" has the unknown unit "parsec"; wanted is a voltage (V, mV).'),
        ("NaN bar(g)", "pressure", f'"NaN bar(g)" is no finite number; {GAUGE_OR_ABSOLUTE}'),
        ("-inf V", None, f'"-inf V" is no finite number; {ANY}'),
        ("1e999 V", None, f'"1e999 V" is no finite number; {ANY}'),
        ("1 ± 1e999 V", None, f'"1 ± 1e999 V" is no finite number; {ANY}'),
        ("1e308 MPa(g)", None, f'"1e308 MPa(g)" is no finite number; {ANY}'),
        ("1,5 V", None, f'"1,5 V" {COMMA}; write 1.5 V.'),
        ("1,500 V", None, f'"1,500 V" {COMMA}; write 1.500 V or 1500 V.'),
        ("1.234,5 V", None, f'"1.234,5 V" {COMMA}; write 1234.5 V.'),
        ("1,234,567 V", None, f'"1,234,567 V" {COMMA}; write 1234567 V.'),
        ("1,95 ± 0,03 V", None, f'"1,95 ± 0,03 V" {COMMA}; write 1.95 ± 0.03 V.'),
        ("1 000 V", None, '"1 000 V" has marks between its digits; write 1000 V.'),
        ("1'000 V", None, '"1\'000 V" has marks between its digits; write 1000 V.'),
        ("1_000 V", None, '"1_000 V" has marks between its digits; write 1000 V.'),
        ("٣ V", None, '"٣ V" has digits other than 0 to 9; type it with those.'),
        ("５ V", None, '"５ V" has digits other than 0 to 9; type it with those.'),
        ("", "voltage", '"" does not begin with a number; wanted is a voltage (V, mV).'),
        ("V", "voltage", '"V" does not begin with a number; wanted is a voltage (V, mV).'),
        (".5 V", None, f'".5 V" has no number of the form 12, 1.95, 1.5e-14 or 1.95 ± 0.03; {ANY}'),
        ("- 8 °C", None, f'"- 8 °C" has no number of the form 12, 1.95, 1.5e-14 or 1.95 ± 0.03; {ANY}'),
        ("1 ± -2 V", None, f'"1 ± -2 V" has no number of the form 12, 1.95, 1.5e-14 or 1.95 ± 0.03; {ANY}'),
        ("26 30 bar(g)", None, f'"26 30 bar(g)" has no number of the form 12, 1.95, 1.5e-14 or 1.95 ± 0.03; {ANY}'),
        ("-273.16 °C", None, '"-273.16 °C" cannot be: a temperature is never below -273.15 °C.'),
        ("-460 °F", None, '"-460 °F" cannot be: a temperature is never below -459.67 °F.'),
        ("-0.1 bar(a)", "pressure", '"-0.1 bar(a)" cannot be: an absolute pressure is never below 0 bar(a).'),
        ("-2 bar(g)", "pressure", '"-2 bar(g)" cannot be: a gauge pressure is never below -1.1 bar(g).'),
        ("-1", "count", '"-1" cannot be: a count is never below 0.'),
    ],
)  # fmt: skip
def test_refuses(text, kind, message):
    with pytest.raises(QuantityError) as refused:
        read(text, kind)
    assert str(refused.value) == refused.value.message == message
    assert refused.value.found == text
    assert refused.value.wanted


def test_a_long_text_is_repeated_in_part():
    with pytest.raises(QuantityError) as refused:
        read("x" * 5000)
    assert len(refused.value.message) < 150
    assert refused.value.found == "x" * 5000


@pytest.mark.parametrize(
    ("text", "si"),
    [
        ("26.4\u00a0bar(g)", 26.4e5),
        ("−8\u00a0°C", 265.15),
        ("123\u202f000\u00a0Pa(a)", 123e3),
        ("1.5\u00a0×\u00a010⁻¹⁴\u00a0mol/(m·s·Pa)", 1.5e-14),
        ("1.2\u00a0×\u00a010¹²\u00a0J", 1.2e12),
    ],
)
def test_reads_back_what_is_shown(text, si):
    assert read(text).si == pytest.approx(si, rel=1e-12)
    assert parse_shown(text).si == pytest.approx(si, rel=1e-12)
    # A browser's or parser's text has plain spaces.
    assert parse_shown(" ".join(text.split())).si == pytest.approx(si, rel=1e-12)


def test_a_shown_number_without_a_unit_is_a_ratio():
    assert (parse_shown("12\u202f345").kind, parse_shown("12\u202f345").si) == ("ratio", 12345.0)
    assert parse_shown("16", "count").kind == "count"


def test_groups_of_other_than_three_digits_are_refused():
    with pytest.raises(QuantityError):
        read("12\u202f34\u00a0V")


numbers = st.floats(-1e15, 1e15, allow_nan=False)
units = st.sampled_from(UNITS)


@given(numbers, units)
def test_reading_is_converting(number, unit):
    """Whatever number is typed before whatever unit is that number in that unit, or impossible."""
    lowest = KINDS[unit.kind].lowest
    if unit.kind == "count" or (lowest is not None and unit.to_si(number) < lowest):
        number = abs(round(number))
    assert read(f"{number!r} {unit.typed}", unit.kind).si == unit.to_si(number)


@given(st.text(st.sampled_from(string.digits + "+-.,eE ±×⁻¹ NbarL/min(g)°C%\u00a0\u202f−'_"), max_size=24))
def test_any_text_is_read_or_refused(text):
    """Nothing but a finite quantity or an error for the author ever comes out."""
    try:
        assert math.isfinite(read(text).si)
    except QuantityError as error:
        assert error.message.endswith(".")
