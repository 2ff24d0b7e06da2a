"""The wall guides of the handbook's plants, each set once."""

from pathlib import Path

import pytest

from macros.figures.plant import plants_in
from macros.sheets.wall import PAPERS, wall_guide
from tests.sheets.paper import Sheet

ROOT = Path(__file__).parents[2]
ADDRESS = "https://handbook.example/shed/index.html"


@pytest.fixture(scope="session")
def plants():
    return {plant.name: plant for plant in plants_in(ROOT / "docs/designs", ROOT)}


@pytest.fixture(scope="session")
def sheets(plants, tmp_path_factory):
    """Every plant on both papers in workshop units, and the shed in the two other systems."""
    folder = tmp_path_factory.mktemp("sheets")
    wanted = [(name, paper, "workshop") for name in plants for paper in PAPERS]
    wanted += [("shed", "a4", "us"), ("shed", "a4", "si")]
    made = {}
    for name, paper, system in wanted:
        file = folder / f"{name}-{paper}-{system}.pdf"
        file.write_bytes(wall_guide(plants[name], paper, system, ADDRESS))
        made[name, paper, system] = Sheet(file)
    return made
