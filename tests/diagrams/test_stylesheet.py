"""The colours that a page may add stand out, and each is beside a dash that says the same."""

from __future__ import annotations

import pytest

from diagrams import stylesheet
from diagrams.proportions import DASHES
from diagrams.stylesheet import DARK, LIGHT


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it, formula from memory."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it, formula from memory."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("medium", sorted(DASHES))
def test_every_medium_stands_out_on_light_and_dark(medium: str) -> None:
    """WCAG 2.2, success criterion 1.4.3, asks 4.5 to 1 of small text, such as the letters in a line."""
    assert contrast(LIGHT[medium], "#ffffff") >= 4.5
    assert contrast(DARK[medium], "#1e2129") >= 4.5


def test_the_selector_of_a_dark_page_is_taken() -> None:
    assert f'[data-md-color-scheme="slate"] {{ --gw-medium-hydrogen: {DARK["hydrogen"]};' in stylesheet(
        '[data-md-color-scheme="slate"]'
    )
    assert "prefers-color-scheme: dark" in stylesheet()


def test_no_rule_of_a_medium_begins_outside_the_drawing() -> None:
    """A drawing that uses the ground of another is reached by plain classes and by what it inherits alone."""
    for line in stylesheet('[data-md-color-scheme="slate"]').splitlines():
        if ".gw-medium-" in line:
            assert line.startswith(".gw-medium-") and "var(--gw-medium-" in line
