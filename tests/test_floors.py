"""The floors of the house: each imports only what lies below, and computing needs no site generator."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.once import GENERATOR, WITHOUT_GENERATOR

ROOT = Path(__file__).parents[1]
FLOORS = (
    "quantities", "calculations", "description", "network", "figures", "review", "pages", "sheets", "site", "command",
)  # fmt: skip
DRAWING = {"pages", "sheets"}
"""The floors that may import `diagrams` as well."""

MARKDOWN = ("markdown", "pymdownx")
"""What pages are written in; nothing below or beside them needs it."""


def _imports(path: Path) -> list[tuple[int, str]]:
    found = []
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} imports relatively"
            found += [(node.lineno, node.module or "")]
            found += [(node.lineno, f"{node.module}.{alias.name}") for alias in node.names]
    return found


@pytest.mark.parametrize("floor", FLOORS)
def test_each_floor_imports_only_floors_below(floor):
    allowed = set(FLOORS[: FLOORS.index(floor) + 1])
    offenders = []
    for path in sorted((ROOT / "macros" / floor).rglob("*.py")):
        for line, name in _imports(path):
            parts = name.split(".")
            if parts[0] == "macros" and len(parts) > 1 and parts[1] in FLOORS and parts[1] not in allowed:
                offenders.append(f"{path.relative_to(ROOT)}:{line} imports {name}")
            if parts[0] == "diagrams" and floor not in DRAWING:
                offenders.append(f"{path.relative_to(ROOT)}:{line} imports {name}")
            if (parts[0] in GENERATOR and floor != "site") or (parts[0] in MARKDOWN and floor != "pages"):
                offenders.append(f"{path.relative_to(ROOT)}:{line} imports {name}")
    assert not offenders


def test_each_module_lies_on_a_floor():
    strangers = {path.name for path in (ROOT / "macros").iterdir() if path.is_dir()} - set(FLOORS) - {"__pycache__"}
    assert not strangers


def test_drawings_know_nothing_of_plants():
    offenders = [
        f"{path.relative_to(ROOT)}:{line} imports {name}"
        for path in sorted((ROOT / "diagrams").rglob("*.py"))
        for line, name in _imports(path)
        if name.split(".")[0] in ("macros", *GENERATOR, *MARKDOWN)
    ]
    assert not offenders


def test_all_pages_are_finished_without_the_site_generator(pages_kept):
    """The handbook must outlive its site generator: every page of every plant, down to its HTML, needs none of it."""
    assert sum(1 for _ in pages_kept.glob("??/*.json")) > 300


def test_all_computing_works_without_the_site_generator():
    """Nor do figures, explanations and checks."""
    code = (
        WITHOUT_GENERATOR.partition("from pathlib")[0].format(blocked=GENERATOR)
        + """
from macros.command import main

status = main(["check", "docs/designs/shed"])
status = status or main(["figures", "docs/designs/shed", "--json"])
status = status or main(["explain", "docs/designs/shed", "stack.hydrogen_normal_flow"])
sys.exit(status)
"""
    )
    command = [sys.executable, "-c", code]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, env=_environment())
    assert run.returncode == 0, run.stderr
    assert "stack.hydrogen_normal_flow" in run.stdout


def _environment() -> dict[str, str]:
    import os

    return {**os.environ, "PYTHONPATH": str(ROOT)}
