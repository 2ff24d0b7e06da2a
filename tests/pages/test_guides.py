"""The guides fit any plant: what a plant lacks drops out, and no guide leads to one that is not there."""

import posixpath
import re
import shutil
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


def test_a_plant_without_a_buffer_is_told_what_to_describe_instead_of_the_faults_of_every_guide(tmp_path):
    """The starter with a bank where its buffer was: it loads, and a handbook says the one thing that is missing."""
    folder = tmp_path / "docs/designs/direct"
    shutil.copytree(ROOT / "macros/command/starter_plant", folder)
    plant = (folder / "plant.yml").read_text(encoding="utf-8")
    begin, end = plant.index("# Without a regulator behind it"), plant.index("uses:\n")
    bank = (
        "banks:\n  store: {tag: BK1, room: outside, cylinders: 1, water_volume: 2 L, fill_pressure: 4 bar(g), "
        "working_pressure: 10 bar(g), test_pressure: 15 bar(g), regime: transportable, approved_gas: hydrogen, "
        "cylinder_mass: 4 kg, material: steel, inspection_due: 2031-05}\n\n"
    )
    plant = plant[:begin] + bank + plant[end:]
    for old, new in (
        ("supply: [buffer]", "supply: [store]"),
        ("{buffer.high_trip}", "5 bar(g)"),
        ("{buffer.cut_out}", "4"),
    ):
        plant = plant.replace(old, new)
    (folder / "plant.yml").write_text(plant, encoding="utf-8")
    network = (folder / "network.yml").read_text(encoding="utf-8")
    for old, new in (
        ("BV1: {kind: buffer,", "BK1: {kind: bank,"), ("BV1.bottom > J6", "BK1.out > J6"), ("{chain: BV1 >", "{chain: J8.branch >"),
        ("J5 > BV1,", "J5 > J8 > BK1.in,"), ("BV1", "BK1"), ("    rides_with_buffer: true\n", ""),
        ("  # --- burner\n", "  J8: {kind: junction, title: Tee, room: workshop, at: [14.2, 6], rating: 100 bar(g)}\n"),
    ):  # fmt: skip
        assert old in network
        network = network.replace(old, new)
    (folder / "network.yml").write_text(network, encoding="utf-8")
    for file in ("procedures.yml", "parts.yml"):
        text = (folder / file).read_text(encoding="utf-8")
        for old, new in (("{buffer.cut_out}", "4"), ("{buffer.cut_in}", "1"), ("BV1", "BK1")):
            text = text.replace(old, new)
        (folder / file).write_text(text, encoding="utf-8")
    direct = Plant.load(folder, tmp_path)
    assert "stack.hydrogen_in_oxygen" not in direct.graph
    handbook = Handbook.of(ROOT / "docs", [direct])
    assert [(fault.file, fault.key) for fault in handbook.faults] == [("docs/designs/direct/plant.yml", "buffer")]
    assert "as the buffer" in handbook.faults[0].message
    assert not [page for page in handbook.pages() if page.plant is not None]
