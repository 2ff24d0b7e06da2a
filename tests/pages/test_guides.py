"""The guides fit any plant: what a plant lacks drops out, and no guide leads to one that is not there."""

import posixpath
import re
from pathlib import Path

import pytest

from macros.figures.plant import Plant
from macros.pages.front_matter import GROUPS
from macros.pages.handbook import Handbook

ROOT = Path(__file__).parents[2]
LINK = re.compile(r"\]\(([^)#\s]+\.md)")
ASKED = re.compile(r'"procedures\.([a-z_]+)"|(?:lineup|valve_table)\("([a-z_]+)"\)')
FORMS = {"logbook.md"}
"""Guides whose checks are their forms."""


@pytest.fixture(scope="module")
def texts():
    return {path.name: path.read_text(encoding="utf-8") for path in (ROOT / "docs/guides").glob("*.md")}


@pytest.fixture(scope="module")
def small():
    """The handbook for the starter plant: it has no booster, no bank and few procedures."""
    folder = ROOT / "macros/command/starter_plant"
    return Handbook.of(ROOT / "docs", [Plant.load(folder, ROOT)])


def test_guides_are_written_for_a_small_plant_without_fault(small):
    assert not small.faults
    faults = [fault for page in small.pages() if page.kind == "guide" for fault in small.render(page).faults]
    assert not faults


def test_no_guide_of_a_small_plant_leads_to_one_that_is_not_there(small):
    addresses = {page.address for page in small.pages()}
    lost = []
    for page in small.pages():
        if page.kind == "guide":
            for link in LINK.findall(small.render(page).markdown):
                target = posixpath.normpath(posixpath.join(posixpath.dirname(page.address), link))
                if target not in addresses:
                    lost.append(f"{page.file}: {link}")
    assert not lost


def test_what_a_small_plant_lacks_drops_out(small):
    held = {page.address.split("/")[1] for page in small.pages() if page.kind == "guide"}
    assert {"normal_stop.md", "burner.md", "change_desiccant.md", "change_deioniser.md"} <= held
    assert not {"boosting.md", "banks.md", "bank_to_bank.md", "vehicle.md", "fuel_cell.md"} & held


def test_every_procedure_that_a_guide_asks_for_is_one_of_some_plant(texts):
    files = (ROOT / "docs/designs").glob("*/procedures.yml")
    names = {name for file in files for name in re.findall(r"(?m)^  ([a-z_]+):$", file.read_text(encoding="utf-8"))}
    asked = {(file, one or two) for file, text in texts.items() for one, two in ASKED.findall(text)}
    assert asked
    assert not {(file, name) for file, name in asked if name not in names}


def test_every_guide_ends_in_checks_or_forms(texts):
    without = {name for name, text in texts.items() if "\n- [ ] " not in text}
    assert without == FORMS


def test_every_group_has_guides(texts):
    groups = {re.search(r"(?m)^group: (\w+)$", text)[1] for text in texts.values()}
    assert groups == set(GROUPS)
    assert len(texts) >= 45


def test_of_a_catalyst_only_a_plant_that_has_one_is_told(small):
    pages = {page.address.split("/")[1]: page for page in small.pages() if page.kind == "guide"}
    for name in ("hazards.md", "standby.md", "running.md", "first_start.md", "stack.md"):
        assert "dead catalyst" not in small.render(pages[name]).markdown
    assert "has no catalyst" in small.render(pages["running.md"]).markdown
