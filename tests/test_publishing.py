"""What a forge runs for us: a request has no rights, and editions stand side by side."""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parents[1]
WORKFLOW = ROOT / ".github/workflows/handbook.yml"
BASH = shutil.which("bash")
"""Wherever git is there is one: on Windows it comes with it."""


@pytest.fixture(scope="module")
def jobs():
    return yaml.safe_load(WORKFLOW.read_text("utf-8"))["jobs"]


def test_only_the_job_that_publishes_main_may_write(jobs):
    assert yaml.safe_load(WORKFLOW.read_text("utf-8"))["permissions"] == {}
    writing = [name for name, job in jobs.items() if "write" in str(job["permissions"])]
    assert writing == ["publish"]
    assert jobs["publish"]["if"] == "github.event_name == 'push' && github.ref == 'refs/heads/main'"


def test_no_job_hands_a_secret_to_a_request_or_pastes_its_words_into_a_command(jobs):
    text = WORKFLOW.read_text("utf-8")
    assert "pull_request_target" not in text and "secrets." not in text and "workflow_run" not in text
    for name, job in jobs.items():
        for step in job["steps"]:
            assert "${{" not in step.get("run", ""), name
            if str(step.get("uses", "")).startswith("actions/checkout") and name != "publish":
                assert step["with"]["persist-credentials"] is False, name


def test_each_job_ends(jobs):
    assert all(job["timeout-minutes"] <= 40 for job in jobs.values())


def git(folder, *words):
    return subprocess.run(["git", *words], cwd=folder, check=True, capture_output=True, text=True).stdout


@pytest.fixture
def repository(tmp_path):
    folder = tmp_path / "repository"
    (folder / "docs/designs").mkdir(parents=True)
    (folder / "docs/index.md").write_text("# Home\n", encoding="utf-8")
    shutil.copytree(ROOT / ".ci", folder / ".ci")
    git(folder, "init", "--quiet", "--initial-branch=main")
    git(folder, "config", "user.name", "somebody")
    git(folder, "config", "user.email", "somebody@localhost")
    git(folder, "add", "-A")
    git(folder, "commit", "--quiet", "-m", "begin")
    return folder


def run(folder, script, *words):
    environment = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull}
    return subprocess.run(
        [BASH, str(folder / ".ci" / script), *words],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )


def test_editions_stand_side_by_side_and_the_newest_comes_first(repository, tmp_path):
    for edition in ("2026.9", "2026.11"):
        site = tmp_path / edition
        site.mkdir()
        (site / "index.html").write_text(f"edition {edition}", encoding="utf-8")
        done = run(repository, "publish", str(site), edition)
        assert done.returncode == 0, done.stderr
    assert git(repository, "show", "published:2026.9/index.html") == "edition 2026.9"
    assert git(repository, "show", "published:2026.11/index.html") == "edition 2026.11"
    listed = git(repository, "show", "published:index.html")
    assert re.findall(r'href="([^"]+)"', listed) == ["2026.11/index.html", "2026.9/index.html"]
    assert "docs/index.md" not in git(repository, "ls-tree", "-r", "--name-only", "published")
    assert git(repository, "status", "--porcelain") == "" and git(repository, "branch", "--show-current") == "main\n"


@pytest.mark.parametrize("edition", ["../x", "-f", "1; rm -rf .", "", "v1"])
def test_an_edition_is_numbers_with_dots(repository, tmp_path, edition):
    (tmp_path / "site").mkdir()
    (tmp_path / "site/index.html").write_text("x", encoding="utf-8")
    assert run(repository, "publish", str(tmp_path / "site"), edition).returncode != 0
    assert "published" not in git(repository, "branch", "--list")


def test_what_a_request_changes_is_shown_as_text(repository):
    base = git(repository, "rev-parse", "HEAD").strip()
    (repository / "main.py").write_text("import os\n", encoding="utf-8")
    (repository / "docs" / "a`$(id)`.md").write_text("x\n", encoding="utf-8")
    git(repository, "add", "-A")
    git(repository, "commit", "--quiet", "-m", "a request")
    shown = run(repository, "show", base)
    assert shown.returncode == 0, shown.stderr
    lines = shown.stdout.split("\n")
    assert "    A\tmain.py" in lines
    assert all(line.startswith("    ") for line in lines if "`" in line)
    assert "uid=" not in shown.stdout
    assert run(repository, "show", "--output=x").returncode == 2
