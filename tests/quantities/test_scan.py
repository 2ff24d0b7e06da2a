"""Numbers with a unit in free text: those typed by hand are found, plain English is left alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from macros.quantities import UNITS, numbers_with_units, show


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Set it to 26 bar(g), not 26 bar.", ["26 bar(g)", "26 bar"]),
        ("drain it in 2 h", ["2 h"]),
        ("at 60°C, 60 °C, −8 °C and -8 °C", ["60°C", "60 °C", "−8 °C", "-8 °C"]),
        ("50 % or 50% of it", ["50 %", "50%"]),
        ("1,000 m, 1 000 Pa(a), 1.5 × 10⁻³ m, 1e-14 mol/(m s Pa)",
         ["1,000 m", "1 000 Pa(a)", "1.5 × 10⁻³ m", "1e-14 mol/(m s Pa)"]),
        ("a 12-V supply, a 50-litre bottle", ["12-V", "50-litre"]),
        ("1/4 in tube, ½ in. fitting, 3 in (7 cm)", ["1/4 in", "½ in", "3 in", "7 cm"]),
        ("wait 5 minutes, or 2 Hours", ["5 minutes", "2 Hours"]),
        ("give it **5** A", ["5** A"]),
        ("2.5 mm² cable", ["2.5 mm²"]),
        ("up to 5\nbar(g)", ["5\nbar(g)"]),
        ("15–25 bar or 15-25 bar", ["25 bar", "25 bar"]),
        ("(5 V) _5 V_ [5 V]", ["5 V", "5 V", "5 V"]),
        ("5 µS/cm, 1.5 uS/cm, 4 A h, 100 W/K, 20 NL/min, 2 Nm³",
         ["5 µS/cm", "1.5 uS/cm", "4 A h", "100 W/K", "20 NL/min", "2 Nm³"]),
        ("1.95 ± 0.03 V", ["1.95 ± 0.03 V"]),
        ("5&nbsp;bar and 5\u00a0bar", ["5&nbsp;bar", "5\u00a0bar"]),
        ("change it every 5 a.", ["5 a"]),
        ("26 barg, 300 psig, 5 l", ["26 barg", "300 psig", "5 l"]),
        ("M10 x 5 mm", ["5 mm"]),
        ("Stage 2.5 V", ["2.5 V"]),
    ],
)  # fmt: skip
def test_finds(text, found):
    matches = numbers_with_units(text)
    assert [match.text for match in matches] == found
    assert [text[match.start : match.end] for match in matches] == found


@pytest.mark.parametrize(
    "text",
    [
        "3 steps, 2 valves, 1 gas, 3 dampers, 2 minor faults, 3 inputs",
        "see Figure 2 A valve, step 3 A, Table 3 V, page 3 m",
        "16 in series, 2 in the box, a 2-in-1 valve",
        "in 2 a builder needs",
        "V1 A, H2 m, DN25 A, 4 A1, T1 K",
        "a 90 degree elbow",
        "ISO 10628-2 and ISO 14617",
        "at 10:30 h",
        "version 1.2.3 A",
        "In 2026 a plan",
        "",
    ],
)
def test_leaves_alone(text):
    assert numbers_with_units(text) == []


@given(st.sampled_from([each for each in UNITS if each.typed]), st.floats(-1e9, 1e9), st.integers(1, 6))
def test_finds_whatever_is_shown(each, si, digits):
    """Else a number pasted from a page would pass the check."""
    shown = show(si, each, digits)
    assert [match.text for match in numbers_with_units(f"It is {shown}.")] == [shown]


@given(st.text(st.sampled_from("0123456789 .,-/×±abhinmsAVWKL°%²&;(\n"), max_size=60))
def test_every_match_lies_where_it_says(text):
    for match in numbers_with_units(text):
        assert text[match.start : match.end] == match.text
