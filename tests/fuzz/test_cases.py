"""Inputs that once broke a reader, or that reach far into one, are taken or refused by an error of ours."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.targets import TARGETS, one_input

CASES = sorted((Path(__file__).parent / "cases").glob("*/*"))


@pytest.mark.parametrize("case", CASES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_case_breaks_nothing(case):
    one_input(case.parent.name, case.read_bytes())


def test_each_reader_has_cases():
    assert {path.parent.name for path in CASES} == set(TARGETS)


@settings(max_examples=12)
@given(st.binary(min_size=6, max_size=18))
def test_a_plant_with_words_put_for_others_is_worked_out_or_refused(content):
    one_input("network", content)


@settings(max_examples=300)
@given(st.sampled_from(["quantities", "yaml", "page"]), st.binary(max_size=200))
def test_any_bytes_are_taken_or_refused(target, content):
    one_input(target, content)
