"""A build goes aside: a second plant appears by itself, a fault costs nothing but its message."""

import hashlib
import math
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from macros.calculations.formula import Call, Operation
from macros.figures.plant import Plant
from macros.quantities import Faults, store
from macros.site.build import build_site

ROOT = Path(__file__).parents[2]


def _bytes_of(folder):
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def _edit(path, before, after):
    text = path.read_text(encoding="utf-8")
    assert before in text, before
    path.write_text(text.replace(before, after, 1), encoding="utf-8")


@pytest.mark.usefixtures("with_kept")
def test_a_copied_plant_appears_and_only_descendants_of_what_differs_change(handbook):
    designs = handbook / "docs/designs"
    shutil.copytree(designs / "shed", designs / "annex")
    _edit(designs / "annex/plant.yml", "cells: 16", "cells: 14")
    _edit(designs / "annex/plant.yml", "  volume: 10 L", "  volume: 12 L")
    _edit(designs / "annex/plant.yml", "title: Marram Lane shed", "title: Marram Lane annex")

    site = build_site(handbook)
    assert {"index.html", "stack.html", "drawing.html", "workings.html", "figures.json"} <= {
        path.name for path in (site / "annex").iterdir()
    }
    assert "annex/index.html" in (site / "plants.html").read_text(encoding="utf-8")

    shed, annex = Plant.load(designs / "shed").graph, Plant.load(designs / "annex").graph
    changed = {name for name in shed.figures if not _same(shed[name].si, annex[name].si)}
    descendants = shed.descendants({"stack.cells", "buffer.volume"})
    assert changed <= descendants
    moved = changed | {"stack.cells", "buffer.volume"}
    stuck = {name for name in descendants - changed if set(shed.inputs_of(name)) & moved and not _may_rest(shed[name])}
    assert not stuck, "these read what changed, choose nothing, and did not change"


def _may_rest(value):
    """What chooses (the larger of two, a standard size, a category) may stay at its choice, and nothing at nothing."""
    return value.node is None or value.si == 0 or _chooses(value.node)


def _chooses(node):
    if isinstance(node, Call) or (isinstance(node, Operation) and node.name in ("max", "min")):
        return True
    return isinstance(node, Operation) and any(_chooses(argument) for argument in node.arguments)


def _same(old, new):
    return math.isclose(old, new, rel_tol=1e-12) if isinstance(old, float) else old == new


FAULTS = {
    "a removed unit": ("plant.yml", "current: 60 A", "current: 60", "stack.current"),
    "a bare bar": ("plant.yml", "cut_in: 15 bar(g)", "cut_in: 15 bar", "buffer.cut_in"),
    "a misspelt key": ("plant.yml", "  membrane_thickness:", "  membrane_thikness:", "stack.membrane_thikness"),
    "an unknown tag": ("plant.yml", "  tag: BV1", "  tag: BV9", "buffer.tag"),
    "an impossible value": ("plant.yml", "active_area: 50 cm2", "active_area: -50 cm2", "stack.active_area"),
}


@pytest.fixture(scope="module")
def standing(tmp_path_factory, pages_kept):
    """A handbook with a site built from it and from what is kept, for tests that must not change that site."""
    from tests.site.conftest import FEW, copy_handbook

    handbook = copy_handbook(tmp_path_factory.mktemp("standing") / "handbook", ("shed",), FEW)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("GASWRIGHT_CACHE", str(pages_kept))
        build_site(handbook)
    return handbook


@pytest.mark.parametrize(
    "names", [[name] for name in FAULTS] + [list(FAULTS)], ids=lambda names: " and ".join(names)[:40]
)
def test_a_fault_in_a_description_is_told_and_costs_nothing_else(standing, names):
    before = _bytes_of(standing / "site")
    folder = standing / "docs/designs/shed"
    texts = {path: path.read_text(encoding="utf-8") for path in folder.iterdir()}
    try:
        for name in names:
            file, old, new, _ = FAULTS[name]
            _edit(folder / file, old, new)
        with pytest.raises(Faults) as raised:
            build_site(standing)
    finally:
        for path, text in texts.items():
            path.write_text(text, encoding="utf-8")
    assert sorted(fault.key for fault in raised.value) == sorted(FAULTS[name][3] for name in names)
    assert all(fault.file.endswith("docs/designs/shed/plant.yml") and fault.line for fault in raised.value)
    assert _bytes_of(standing / "site") == before
    assert sorted(path.name for path in standing.iterdir()) == ["docs", "mkdocs.yml", "site"]


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("{{ plant.stack.power }}", "{{ plant.stack.powr }}", "plant.stack.powr"),
        ("{{ plant.stack.power }}", "1.9 kW", "1.9 kW"),
        ("{{ plant.stack.power }}", "{{ plant.stack.power", "{{"),
    ],
)
def test_a_fault_in_a_guide_is_told_with_its_line(standing, before, after, said):
    guide = standing / "docs/guides/stack.md"
    text = guide.read_text(encoding="utf-8")
    line = text[: text.index(before)].count("\n") + 1
    site = _bytes_of(standing / "site")
    try:
        guide.write_text(text.replace(before, after, 1), encoding="utf-8")
        with pytest.raises(Faults) as raised:
            build_site(standing)
    finally:
        guide.write_text(text, encoding="utf-8")
    assert any(
        fault.file.endswith("docs/guides/stack.md") and fault.line == line and said in fault.message
        for fault in raised.value
    )
    assert _bytes_of(standing / "site") == site


def test_broken_links_and_anchors_stop_the_build(standing):
    page = standing / "docs/index.md"
    text = page.read_text(encoding="utf-8")
    try:
        page.write_text(text + "\n[gone](nowhere.md) [anchor](index.md#nowhere)\n", encoding="utf-8")
        with pytest.raises(Faults) as raised:
            build_site(standing)
    finally:
        page.write_text(text, encoding="utf-8")
    assert "nowhere" in str(raised.value)
    assert (standing / "site/index.html").exists()


def test_a_page_at_a_generated_address_is_refused(standing):
    page = standing / "docs/shed/stack.md"
    page.parent.mkdir()
    try:
        page.write_text("# Mine\n", encoding="utf-8")
        with pytest.raises(Faults, match=re.escape("docs/shed/stack.md")):
            build_site(standing)
    finally:
        shutil.rmtree(page.parent)


def _moved(handbook, target):
    """The same handbook somewhere else: files made in the other order, at another time."""
    files = sorted((path for path in handbook.rglob("*") if path.is_file()), reverse=True)
    for path in files:
        name = path.relative_to(handbook)
        if name.parts[0] in ("docs", "mkdocs.yml"):
            (target / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, target / name)
            os.utime(target / name, (1_000_000_000, 1_000_000_000))
    return target


def _damaged(target):
    """What was kept of earlier work, each entry torn or with something else in it."""
    held = store.place()
    target.mkdir()
    entries = sorted(path for path in held.rglob("*") if path.is_file()) if held is not None and held.is_dir() else []
    for number, path in enumerate(entries[-400:]):
        torn = target / path.relative_to(held)
        torn.parent.mkdir(parents=True, exist_ok=True)
        content = path.read_bytes()
        torn.write_bytes((content[: len(content) // 2], b"", b'{"value": 1}', b"\x00\xff")[number % 4])
    return target


def test_two_builds_of_the_same_handbook_are_the_same(standing, tmp_path):
    """
    Another path, order and time of files, another time zone, locale, order of hashes and home, what was kept damaged:
    the same bytes, with `SOURCE_DATE_EPOCH` as the one thing that both agree upon (reproducible-builds.org).
    """
    elsewhere = _moved(standing, tmp_path / "a place with blanks")
    other = {
        "TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "LANG": "C", "PYTHONHASHSEED": "271828", "HOME": str(tmp_path),
        "GASWRIGHT_CACHE": str(_damaged(tmp_path / "kept")), "PYTHONPATH": str(ROOT), "COLUMNS": "40",
    }  # fmt: skip
    command = [sys.executable, "-m", "macros.command", "build", "--handbook", str(elsewhere)]
    run = subprocess.run(
        command, cwd=tmp_path, env={**os.environ, **other}, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    first, second = _bytes_of(standing / "site"), _bytes_of(elsewhere / "site")
    assert len(first) > 40 and any(name.endswith(".pdf") for name in first)
    assert [name for name in sorted(first.keys() | second.keys()) if first.get(name) != second.get(name)] == []
