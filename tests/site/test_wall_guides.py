"""The wall guides of a built handbook: there for every plant that gets one, and for no other."""

import pypdf
import pytest

from macros.sheets.wall import gets_wall_guide
from macros.site.wall_guides import links_to_wall_guides, wall_guides

NAMES = ("wall-guide-a3.pdf", "wall-guide-a4.pdf")
NEWER_AT = "https://marram-lane.example/handbook/"
"""As the handbook's settings say it."""


def _text(file):
    return " ".join(" ".join(page.extract_text() for page in pypdf.PdfReader(file).pages).split())


@pytest.mark.usefixtures("with_kept")
@pytest.mark.parametrize("name", ["bench", "farm", "shed"])
def test_a_plant_has_its_sheets_beside_its_overview_or_none(site, plants, name):
    page = (site / name / "index.html").read_text("utf-8")
    gets = gets_wall_guide(plants[name], as_read=True)
    for sheet in NAMES:
        file = site / name / sheet
        assert file.is_file() == gets
        assert (f'href="{sheet}"' in page) == gets
        if gets:
            assert file.read_bytes().startswith(b"%PDF-1.7")
            assert f"Look for a newer sheet at {NEWER_AT} before" in _text(file)
            assert f"Look for a newer edition at {NEWER_AT} before" in page


def test_a_plant_that_is_refused_is_led_to_no_sheet(plants, monkeypatch):
    monkeypatch.setattr("macros.site.wall_guides.gets_wall_guide", lambda _, **__: False)
    assert wall_guides(plants.values(), "https://handbook.example/") == {}
    assert links_to_wall_guides(plants["shed"], {}) == ""


def test_the_overview_leads_only_to_sheets_that_were_made(plants):
    links = links_to_wall_guides(plants["shed"], ["shed/wall-guide-a4.pdf", "farm/wall-guide-a3.pdf"])
    assert 'href="wall-guide-a4.pdf"' in links
    assert "wall-guide-a3.pdf" not in links
