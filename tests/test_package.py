"""What is installed as a package holds everything that a handbook is made with."""

import fnmatch
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_each_file_of_the_packages_is_installed_with_them():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    patterns = settings["tool"]["setuptools"]["package-data"]["macros"]
    left_out = [
        path.relative_to(ROOT).as_posix()
        for package in ("macros", "diagrams")
        for path in sorted((ROOT / package).rglob("*"))
        if path.is_file() and path.suffix not in (".py", ".pyc") and not _is_data(path, package, patterns)
    ]
    assert left_out == []


def _is_data(path, package, patterns):
    return package == "macros" and any(fnmatch.fnmatch(path.name, pattern.rpartition("/")[2]) for pattern in patterns)
