"""Facts: each reads, says honestly where it comes from, and agrees with what the code computes."""

import math

import pytest
from chemicals.safety import LFL, UFL, T_autoignition

from macros.calculations.facts import facts
from macros.calculations.sources import sources

HYDROGEN = "1333-74-0"


def si(name):
    return facts()[name].quantity.si


def test_every_fact_has_a_title_a_source_and_a_locator_or_is_common_practice():
    faults = [
        one.name
        for one in facts().values()
        if not one.title
        or not (one.locator or sources()[one.source].how == "practice" or one.source == "hydrogen-safety-texts")
    ]
    assert not faults


def test_facts_from_memory_say_so():
    """A source that was not read may carry a fact only where the fact says that it is from memory."""
    faults = [
        one.name for one in facts().values() if sources()[one.source].how == "memory" and "memory" not in one.locator
    ]
    assert not faults


@pytest.mark.parametrize(
    ("name", "method", "function"),
    [
        ("lower_flammable_limit", "IEC 60079-20-1 (2010)", LFL),
        ("upper_flammable_limit", "IEC 60079-20-1 (2010)", UFL),
        ("autoignition_temperature", "IEC 60079-20-1 (2010)", T_autoignition),
        ("upper_flammable_limit_nfpa", "NFPA 497 (2008)", UFL),
        ("autoignition_temperature_nfpa", "NFPA 497 (2008)", T_autoignition),
    ],
)
def test_limits_are_those_of_the_standard_named(name, method, function):
    assert si(name) == pytest.approx(function(CASRN=HYDROGEN, method=method))


def test_facts_that_follow_from_others_do():
    """0.5 mol of oxygen a mole: 1/(1 + 0.5/0.20946) = 0.2952; quarter and tenth of the limit; one kelvin over 288 K."""
    assert si("stoichiometric_fraction") == pytest.approx(1 / (1 + 0.5 / 0.20946), abs=5e-4)
    assert si("quarter_of_limit") == pytest.approx(si("lower_flammable_limit") / 4)
    assert si("tenth_of_limit") == pytest.approx(si("lower_flammable_limit") / 10)
    assert si("isothermal_reading") == pytest.approx(1 / 288.15, rel=0.01)


def test_the_order_of_limits():
    order = ["lower_flammable_limit", "downward_limit", "lower_detonation_limit", "stoichiometric_fraction"]
    order += ["upper_detonation_limit", "upper_flammable_limit", "upper_limit_in_oxygen"]
    values = [si(name) for name in order]
    assert values == sorted(values) and all(math.isfinite(value) for value in values)
    waters = ["pure_water", "water_type_1", "water_grade_1", "water_type_3", "water_type_2", "water_grade_3"]
    values = [si(name) for name in waters]
    assert values == sorted(values)


def test_threads_and_tube_are_what_their_inches_say():
    """An inch is 25.4 mm by definition: 19 and 18 threads to it, a quarter of it; one in sixteen."""
    assert si("thread_pitch_g") == pytest.approx(0.0254 / 19, abs=5e-7)
    assert si("thread_pitch_npt") == pytest.approx(0.0254 / 18, abs=5e-7)
    assert si("quarter_inch_tube") == pytest.approx(0.0254 / 4)
    assert si("thread_taper") == pytest.approx(1 / 16)


def test_every_subject_of_facts_has_a_heading():
    from macros.quantities import say

    assert all(say(f"pages.facts.of.{one.subject}") for one in facts().values())
