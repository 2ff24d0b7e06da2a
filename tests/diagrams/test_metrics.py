"""Texts are measured with a font wider than the usual ones."""

from __future__ import annotations

import string

import pytest
from schemdraw.backends.svgtext import text_approx_size

from diagrams.metrics import UNKNOWN, text_width, widest


@pytest.mark.parametrize("character", string.ascii_letters + string.digits)
def test_no_letter_is_measured_much_narrower_than_in_a_common_font(character: str) -> None:
    """The drawing library carries a table of its own, in coarse steps, made from another sans-serif font."""
    theirs, _, _ = text_approx_size(character * 20, font="Arial", size=10)
    assert text_width(character * 20, 10) >= 0.9 * theirs


@pytest.mark.parametrize("text", ["25 bar(g)", "363 psi(g)", "hydrogen vent", "4 × 50 L", "RV12"])
def test_no_label_is_measured_narrower_than_in_a_common_font(text: str) -> None:
    theirs, _, _ = text_approx_size(text, font="Arial", size=10)
    assert text_width(text, 10) >= theirs
    assert text_width(text, 10, bold=True) > text_width(text, 10)


def test_width_grows_with_size_and_an_unknown_character_counts_as_a_full_em() -> None:
    assert text_width("bar", 22) == pytest.approx(2 * text_width("bar", 11))
    assert text_width("漢", 10) == UNKNOWN / 100


def test_the_widest_of_several_counts() -> None:
    assert widest(["1 L", "0.0353 ft³"], 10) == text_width("0.0353 ft³", 10)
    assert widest([], 10) == 0
