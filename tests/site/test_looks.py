"""Colours of the site's own sheets: text and lines stand out on every ground that they may stand on."""

from __future__ import annotations

import re
from importlib import resources

import pytest

from diagrams.stylesheet import DARK, LIGHT
from tests.diagrams.test_stylesheet import contrast

SHEET = (resources.files("macros.site") / "assets/frame.css").read_text(encoding="utf-8")


def colours(selector):
    """The colours that a rule of the sheet names."""
    rule = SHEET[SHEET.index(f"\n{selector} {{") :]
    return dict(re.findall(r"--gw-(\w+): (#[0-9a-f]{6});", rule[: rule.index("}")]))


GROUNDS = {"light": (colours(":root"), LIGHT), "dark": (colours('[data-md-color-scheme="slate"]'), DARK)}


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("ground", ["ground", "paper", "wash"])
def test_text_has_its_contrast(scheme, ground) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5 to 1."""
    named, _ = GROUNDS[scheme]
    for ink in ("ink", "quiet", "live", "caution", "danger"):
        assert contrast(named[ink], named[ground]) >= 4.5, ink


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_lines_of_drawings_have_theirs(scheme) -> None:
    """WCAG 2.2, success criterion 1.4.11: 3 to 1 for what is needed to understand a graphic; ours stand on the paper."""
    named, media = GROUNDS[scheme]
    assert contrast(named["ink"], named["paper"]) >= 3
    for medium, colour in media.items():
        assert contrast(colour, named["paper"]) >= 3, medium
