"""`gaswright compare` over a plant in a repository of its own."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from macros.command import main

DOCS = Path(__file__).parents[2] / "docs"
GUIDE = """---
title: Yield
purpose: What it makes.
group: build
order: 1
---

# Yield

It makes {{ plant.stack.hydrogen_normal_flow }}.
"""
NOTHING_ELSE = "# Nothing\n\nNo number.\n"


@pytest.fixture(scope="module")
def handbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A handbook in a repository: one plant, committed, then changed in one input."""
    root = tmp_path_factory.mktemp("handbook")
    plant = root / "docs" / "designs" / "bench"
    shutil.copytree(DOCS / "designs" / "bench", plant)
    guides = root / "docs" / "guides"
    guides.mkdir()
    (guides / "yield.md").write_text(GUIDE, "utf-8")
    (guides / "nothing.md").write_text(GUIDE.replace("Yield", "Nothing").split("# Nothing")[0] + NOTHING_ELSE, "utf-8")
    git = ["git", "-C", str(root), "-c", "user.name=Somebody", "-c", "user.email=somebody@example.org"]
    for words in (["init", "-q"], ["add", "."], ["commit", "-q", "-m", "The bench as it was"]):
        subprocess.run([*git, *words], check=True)
    file = plant / "plant.yml"
    old = file.read_text("utf-8")
    assert "  current: 25 A\n" in old
    file.write_text(old.replace("  current: 25 A\n", "  current: 24 A\n"), "utf-8")
    return root


def test_a_revision_is_compared_with_what_stands_now(handbook: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "bench@HEAD", "bench", "--handbook", str(handbook), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert [(each["name"], each["old"], each["new"]) for each in found["inputs"]] == [
        ("stack.current", "25\u00a0A", "24\u00a0A")
    ]
    figures = {each["name"]: each for each in found["figures"]}
    # Faraday's law: the gas made follows the current, what crosses back does not.
    assert figures["stack.hydrogen_gross_flow"]["share"] == pytest.approx(-1 / 25)
    assert figures["stack.hydrogen_normal_flow"]["share"] < -1 / 25
    assert "stack.crossover_at_rest" not in figures
    assert all(each["causes"] == ["stack.current"] for each in found["figures"])
    assert list(found["guides"]) == ["yield"]
    assert any("today" in note for note in found["notes"])
    assert found["procedures"] == {}
    assert found["drawing"] == []


def test_the_text_for_a_change_request_holds_no_markdown_of_strangers(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    other = tmp_path / "bench"
    shutil.copytree(handbook / "docs" / "designs" / "bench", other)
    file = other / "plant.yml"
    title = next(line for line in file.read_text("utf-8").splitlines() if line.startswith("title:"))
    file.write_text(
        file.read_text("utf-8").replace(title, 'title: "A [link](https://example.org) *and* more"'), "utf-8"
    )
    assert main(["compare", "bench", str(other), "--handbook", str(handbook), "--markdown"]) == 0
    text = capsys.readouterr().out
    assert text.startswith("# From bench (")
    assert r"A \[link\](https://example.org) \*and\* more" in text


def test_it_fails_where_a_rule_holds_less_if_asked_to(
    handbook: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    other = tmp_path / "bench"
    shutil.copytree(handbook / "docs" / "designs" / "bench", other)
    file = other / "plant.yml"
    assert "  fuse: " in file.read_text("utf-8")
    lines = ["  fuse: 200 A" if line.startswith("  fuse: ") else line for line in file.read_text("utf-8").splitlines()]
    file.write_text("\n".join(lines) + "\n", "utf-8")
    words = ["compare", "bench", str(other), "--handbook", str(handbook)]
    assert main(words) == 0
    assert main([*words, "--fail-if-worse"]) == 1
    assert "passed > failed" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("side", "wanted"),
    [
        ("bench@no-such-revision", "cannot be had from that revision"),
        ("nowhere@HEAD", "cannot be had from that revision"),
        ("nowhere", "there is no plant at nowhere"),
        ("figures.json", "these are no published figures"),
    ],
)
def test_a_side_that_is_not_there_is_named(
    handbook: Path, capsys: pytest.CaptureFixture[str], side: str, wanted: str
) -> None:
    assert main(["compare", side, "bench", "--handbook", str(handbook)]) == 2
    assert wanted in capsys.readouterr().err
