"""Whatever a description lets through, the calculations of stack, power and water answer or refuse; never NaN."""

import importlib

import pytest

from macros.calculations.contract import CALCULATIONS, OutOfRange
from tests.calculations.drawn import drawn_for, edges_of, is_finite_or_refused, outside

SUBJECTS = (
    "faraday", "cell_voltage", "crossover", "catalyst", "standstill", "stack_heat", "conductor", "fuse", "cooler",
    "dissolved", "water_quality", "water_balance", "oxygen_vent",
)  # fmt: skip
for subject in SUBJECTS:
    importlib.import_module(f"macros.calculations.{subject}")
ENTRIES = [
    pytest.param(entry, id=key) for key, entry in CALCULATIONS.items() if key.split(".", maxsplit=1)[0] in SUBJECTS
]


@pytest.mark.parametrize("entry", ENTRIES)
def test_an_answer_is_finite_or_refused(entry):
    for arguments in drawn_for(entry.function, 400):
        assert is_finite_or_refused(entry.function, arguments), arguments


@pytest.mark.parametrize("entry", ENTRIES)
def test_each_argument_outside_its_range_is_refused(entry):
    middle = {
        name: ((1000.0, 1.5), (9000.0, 1.9)) if bound.curve else sum(edges_of(bound)) / 2
        for name, bound in entry.bounds.items()
    }
    for name, bound in entry.bounds.items():
        wrong = (
            [((1.0, 1.5),), ((2.0, 1.5), (1.0, 1.6)), ((1.0, float("nan")), (2.0, 1.0))]
            if bound.curve
            else outside(bound)
        )
        for value in wrong:
            with pytest.raises(OutOfRange) as refusal:
                entry.function(**(middle | {name: value}))
            assert refusal.value.argument == name
